"""The command line: arguments, progress and exit codes. The only module that prints.

Exit codes: 0 good; 1 the file is at fault; 2 the command is; 3 the surroundings are (disk, permission, a file in the
way); 4 our own bug.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from slath import __version__

if TYPE_CHECKING:
    from slath.notes import Note
    from slath.pipeline import Compilation
    from slath.units.printing import First

GOOD, FILE_AT_FAULT, COMMAND_AT_FAULT, SURROUNDINGS_AT_FAULT, OUR_BUG = range(5)

PATTERN = click.Path(dir_okay=False, path_type=Path)


class Group(click.Group):
    """Commands in the order a designer meets them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names in the order they were written."""
        return list(self.commands)


@click.group(cls=Group, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, "--version", prog_name="slath")
def slath() -> None:
    """Compile basket patterns into checked quantities, drawings and printable booklets.

    You write one YAML file for a basket. slath works out every size from its construction: counts, cut lengths,
    rounds, material to buy. Then it sets the booklet.

    \b
    First steps:
      slath new weir-basket.yaml           write a first pattern to change
      slath check weir-basket.yaml         see whether its counts and lengths work
      slath list weir-basket.yaml          read the cut list and what to buy
      slath build weir-basket.yaml         make the booklet, handout and drawings under build/

    \b
    Exit codes: 0 good, 1 the file is at fault, 2 the command is, 3 the disk or a permission is, 4 our own bug.
    """


# ------------------------------------------------------------------------------------------------------ shared parts
def _say(text: str = "", *, error: bool = False, end: str = "\n") -> None:
    click.echo(text, err=error, nl=end == "\n")


def _colour(stream: Any) -> bool:
    """Whether to colour what is printed: on a terminal, unless NO_COLOR asks not to (no-color.org)."""
    return bool(stream.isatty()) and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _show_notes(notes: tuple[Note, ...], form: str = "text", *, error: bool = True) -> None:
    from slath.notes.text import notes_as_text  # noqa: PLC0415 - only when there is something to say

    if form == "json":
        from slath.notes.records import notes_as_json  # noqa: PLC0415

        _say(notes_as_json(notes), end="")
        return
    stream = sys.stderr if error else sys.stdout
    text = notes_as_text(notes, colour=_colour(stream))
    if text:
        _say(text, error=error, end="")


def _compiled(file: Path, workshop: Path | None, sizes: tuple[str, ...] = ()) -> Compilation:
    from slath.pipeline import compile_pattern  # noqa: PLC0415 - `--help` needs none of it

    return compile_pattern(file, workshop, sizes)


def _good(file: Path, workshop: Path | None, sizes: tuple[str, ...] = ()) -> Compilation:
    """The pattern compiled, its warnings told; leaves with exit code 1 if something stops it."""
    compilation = _compiled(file, workshop, sizes)
    _show_notes(tuple(note for note in compilation.notes if not note.accepted))
    if compilation.at_fault:
        raise SystemExit(FILE_AT_FAULT)
    return compilation


def _size_option(command: Callable[..., Any]) -> Callable[..., Any]:
    return click.option("--size", "sizes", multiple=True, metavar="NAME", help="Only this size; may be repeated.")(command)


def _workshop_option(command: Callable[..., Any]) -> Callable[..., Any]:
    return click.option(
        "--workshop", type=PATTERN, metavar="FILE", help="A workshop file in place of the one the pattern names."
    )(command)


def _out_option(default: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    return click.option(
        "--out", type=click.Path(file_okay=False, path_type=Path), metavar="FOLDER", help=f"Where to write; {default}."
    )


def _speech_options(command: Callable[..., Any]) -> Callable[..., Any]:
    options = (
        click.option("--units", type=click.Choice(["inches", "mm"]), default="inches", show_default=True,
                     help="Which measure stands first."),
        click.option("--vocabulary", type=click.Choice(["uk", "us"]), default="uk", show_default=True,
                     help="Whose words of the trade."),
        click.option("--left-handed", is_flag=True, help="Words and drawings for work running the other way."),
    )  # fmt: skip
    for option in reversed(options):
        command = option(command)
    return command


# ---------------------------------------------------------------------------------------------------------- commands
@slath.command()
@click.argument("file", type=PATTERN)
@click.option("--kind", type=click.Choice(["round", "oval", "board"]), help="round slath, oval slath with a bow handle, or a tray on a drilled board.")
@click.option("--title", help="The basket's name.")
@click.option("--designer", help="Your name, or your workshop's.")
@click.option("--sizes", help="Names of the sizes, smallest first: small,medium,large.")
@click.option("--units", type=click.Choice(["inches", "mm"]), help="Measures in inches, or in centimetres.")
def new(file: Path, kind: str | None, title: str | None, designer: str | None, sizes: str | None, units: str | None) -> None:
    """Write a first pattern: commented, and it builds as it stands.

    Asks what is not given by a flag; in a pipe it takes the usual answer. Never writes over a file.
    """
    import datetime  # noqa: PLC0415

    from slath.language.starting import Start, starting_pattern  # noqa: PLC0415
    from slath.output.writing import write_whole  # noqa: PLC0415

    if file.exists():
        _leave(SURROUNDINGS_AT_FAULT, f"{file} is already there; give another name.")
    asks = sys.stdin.isatty()

    def answer(given: str | None, question: str, usual: str, choices: tuple[str, ...] = ()) -> str:
        if given is not None or not asks:
            return given if given is not None else usual
        kind_of = click.Choice(choices) if choices else None
        return str(click.prompt(question, default=usual, type=kind_of, show_choices=bool(choices)))

    named = file.stem.replace("-", " ").replace("_", " ").capitalize()
    kind = answer(kind, "Which base", "round", ("round", "oval", "board"))
    title = answer(title, "Its name", named)
    designer = answer(designer, "Designed by", "me")
    names = tuple(part.strip() for part in answer(sizes, "Sizes, smallest first", "small,medium,large").split(",") if part.strip())
    units = answer(units, "Measures in", "inches", ("inches", "mm"))
    if not names or len(set(names)) != len(names):
        _leave(COMMAND_AT_FAULT, "Give at least one size, and each name once: --sizes small,medium,large")
    start = Start(kind, title, designer, names, units, datetime.date.today().isoformat())  # type: ignore[arg-type]  # noqa: DTZ011 - the maker's own day
    try:
        text = starting_pattern(start, file.name)
    except ValueError as problem:
        _leave(COMMAND_AT_FAULT, str(problem))
    write_whole(file, text.encode())
    _say(f"Wrote {file}. Next: slath check {file}")


@slath.command()
@click.argument("files", nargs=-1, required=True, type=PATTERN)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@_size_option
@_workshop_option
def check(files: tuple[Path, ...], form: str, sizes: tuple[str, ...], workshop: Path | None) -> None:
    """See whether a pattern's counts and lengths work, in every size.

    Every note names the size, the part and the line, and says what would help, with the numbers that result.
    """
    from slath.notes import PatternFaultError  # noqa: PLC0415

    notes: list[Note] = []
    told: list[str] = []
    for file in files:
        try:
            compilation = _compiled(file, workshop, sizes)
        except PatternFaultError as fault:
            notes += fault.notes
            continue
        notes += compilation.notes
        if not compilation.at_fault:
            counts = ", ".join(f"{size.name} {len(size.basket.stakes)} stakes" for size in compilation.sizes)
            told.append(f"{file}: good ({counts})" if counts else f"{file}: good")
    if form == "json":
        _show_notes(tuple(notes), form)
    else:
        open_notes = tuple(note for note in notes if not note.accepted)
        _show_notes(open_notes, error=False)
        accepted = len(notes) - len(open_notes)
        if open_notes and told:
            _say()
        if accepted:
            told.append(f"Accepted with a reason: {accepted} {'note' if accepted == 1 else 'notes'}; slath proof prints them.")
        for line in told:
            _say(line)
    if any(note.stops for note in notes):
        raise SystemExit(FILE_AT_FAULT)


@slath.command()
@click.argument("files", nargs=-1, required=True, type=PATTERN)
@_out_option("build/ here, a folder for each pattern")
@_size_option
@click.option("--edition", "editions", multiple=True, metavar="NAME", help="Only this edition; may be repeated. See --editions.")
@click.option("--editions", "tell_editions", is_flag=True, is_eager=True, expose_value=False, callback=lambda c, _p, v: _tell_editions(c, v), help="List the editions and leave.")
@click.option("--style", metavar="NAME", help="A style from styles/, or the path of your own style file.")
@click.option("--paper", type=click.Choice(["letter", "a4", "half-letter", "a5"]), help="Paper; left out, the style's own.")
@_speech_options
@_workshop_option
@click.option("--overwrite", is_flag=True, help="Replace files in the way even if slath did not write them.")
@click.option("--watch", is_flag=True, help="Stay, and build again whenever the pattern changes.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def build(files: tuple[Path, ...], watch: bool, **options: Any) -> None:
    """Make the booklet, the handout, the drawings and the lists of a pattern.

    Everything is made before anything is written; files that slath did not write are never replaced unasked.
    """
    _build_all(files, options)
    if watch:
        _watch(files, lambda changed: _build_all(changed, options))


@slath.command(name="list")
@click.argument("file", type=PATTERN)
@click.option("--format", "form", type=click.Choice(["table", "csv", "json"]), default="table", show_default=True)
@click.option("--units", type=click.Choice(["inches", "mm"]), default="inches", show_default=True, help="Which measure stands first in the table.")
@_size_option
@_workshop_option
def list_(file: Path, form: str, units: First, sizes: tuple[str, ...], workshop: Path | None) -> None:
    """Print the cut list and what to buy, for every size: as a table, CSV or JSON."""
    from slath.pipeline import listing_text  # noqa: PLC0415

    _say(listing_text(_good(file, workshop, sizes), form, units), end="")


@slath.command()
@click.argument("file", type=PATTERN)
@click.argument("figures", nargs=-1)
@_out_option("build/<pattern>/drawings here")
@_size_option
@click.option("--names", is_flag=True, help="Print the figures' names and leave.")
@click.option("--contact-sheet", is_flag=True, help="All figures small on sheets, to look them over.")
@_speech_options
@_workshop_option
@click.option("--overwrite", is_flag=True, help="Replace files in the way even if slath did not write them.")
def draw(file: Path, figures: tuple[str, ...], **options: Any) -> None:
    """Write the figures of a pattern, or those named, each as a file of its own."""
    _draw(file, figures, options)


@slath.command()
@click.argument("file", type=PATTERN)
@click.option("--from", "lowest", type=click.IntRange(3, 500), metavar="N", help="Fewest stakes to look at.")
@click.option("--to", "highest", type=click.IntRange(3, 500), metavar="N", help="Most stakes to look at.")
@click.option("--units", type=click.Choice(["inches", "mm"]), default="inches", show_default=True, help="Which measure stands first.")
@_size_option
@_workshop_option
def counts(
    file: Path, lowest: int | None, highest: int | None, units: First, sizes: tuple[str, ...], workshop: Path | None
) -> None:
    """List the stake counts that suit every band, border and handle, and what each does to the colours."""
    from slath.pipeline import counts_of  # noqa: PLC0415

    compilation = _compiled(file, workshop, sizes)
    if not compilation.sizes:
        _show_notes(compilation.notes)
        raise SystemExit(FILE_AT_FAULT)
    _say(counts_of(compilation, lowest, highest, units), end="")


@slath.command()
@click.argument("file", type=PATTERN)
@_size_option
@_workshop_option
def proof(file: Path, sizes: tuple[str, ...], workshop: Path | None) -> None:
    """Print every number with its formula, its inputs, its place in the file and what it rests on."""
    from slath.pipeline import proof_of  # noqa: PLC0415

    _say(proof_of(_good(file, workshop, sizes)), end="")


@slath.command()
@click.argument("name", type=click.Choice(["pattern", "workshop", "list", "style"]), default="pattern")
def schema(name: str) -> None:
    """Print a JSON Schema (2020-12): of a pattern, a workshop file, a style, or what `slath list` writes.

    Save it beside your patterns and name it on a file's first line, and an editor completes and checks as you write.
    """
    from slath.pipeline import schema_text  # noqa: PLC0415

    _say(schema_text(name), end="")


@slath.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print what makes a shell complete slath's commands and options.

    \b
      bash:  slath completion bash > ~/.local/share/bash-completion/completions/slath
      zsh:   slath completion zsh > ~/.zfunc/_slath
      fish:  slath completion fish > ~/.config/fish/completions/slath.fish
    """
    from click.shell_completion import get_completion_class  # noqa: PLC0415

    maker = get_completion_class(shell)
    if maker is None:  # click knows all three
        _leave(OUR_BUG, f"no completion is known for {shell}")
    _say(maker(slath, {}, "slath", "_SLATH_COMPLETE").source())


# ---------------------------------------------------------------------------------------------------------- building
def _tell_editions(context: click.Context, wanted: bool) -> None:
    if not wanted:
        return
    from slath.editions import EDITIONS  # noqa: PLC0415

    width = max(len(name) for name in EDITIONS)
    for name, edition in EDITIONS.items():
        _say(f"{name:<{width}}  {edition.about}")
    context.exit(GOOD)


def _build_all(files: tuple[Path, ...], options: dict[str, Any]) -> None:
    import json  # noqa: PLC0415

    from slath.notes import PatternFaultError  # noqa: PLC0415

    written: dict[str, list[str]] = {}
    faults = False
    for file in files:
        try:
            written[str(file)] = [str(path) for path in _build_one(file, options)]
        except PatternFaultError as fault:
            _show_notes(fault.notes)
            faults = True
    if options["form"] == "json":
        _say(json.dumps({"written": written}, indent=2))
    if faults:
        raise SystemExit(FILE_AT_FAULT)


def _build_one(file: Path, options: dict[str, Any]) -> tuple[Path, ...]:
    from slath.notes import PatternFaultError  # noqa: PLC0415
    from slath.output.writing import write_set  # noqa: PLC0415
    from slath.editions import BuildOptions, editions_of  # noqa: PLC0415

    compilation = _compiled(file, options["workshop"], options["sizes"])
    if compilation.at_fault:
        raise PatternFaultError(compilation.notes)
    _show_notes(tuple(note for note in compilation.notes if not note.accepted))
    wanted = BuildOptions(
        options["editions"], options["style"] or "", options["paper"] or "", options["units"], options["vocabulary"],
        options["left_handed"],
    )
    made: dict[str, bytes] = {}
    with _progress(file.stem) as tell:
        for name, data in editions_of(compilation, wanted, tell):
            made[name] = data
    folder = (options["out"] or Path("build")) / file.stem
    paths = write_set(folder, made, replace=options["overwrite"])
    if options["form"] == "text":
        _summary(folder, made)
    return paths


def _summary(folder: Path, made: dict[str, bytes]) -> None:
    """What was written: single files by name, many of a folder together."""
    single = {name: data for name, data in made.items() if "/" not in name}
    _say(f"{folder}/")
    width = max((len(name) for name in single), default=0)
    for name, data in single.items():
        _say(f"  {name:<{width}}  {_size_of(len(data))}")
    folders: dict[str, list[bytes]] = {}
    for name, data in made.items():
        if "/" in name:
            folders.setdefault(name.rsplit("/", 1)[0], []).append(data)
    for name, all_data in folders.items():
        _say(f"  {name}/  {len(all_data)} files, {_size_of(sum(map(len, all_data)))}")


def _size_of(count: int) -> str:
    return f"{count / 1e6:.1f} MB" if count >= 1e6 else f"{max(count // 1000, 1)} kB"


@contextmanager
def _progress(title: str) -> Iterator[Callable[[str], None]]:
    """A line that says what is being made, on a terminal only."""
    if not sys.stderr.isatty():
        yield lambda _text: None
        return
    from rich.console import Console  # noqa: PLC0415

    console = Console(stderr=True, no_color=not _colour(sys.stderr))
    with console.status(f"{title}: working out") as status:
        yield lambda text: status.update(f"{title}: {text}")


def _watch(files: tuple[Path, ...], again: Callable[[tuple[Path, ...]], None]) -> None:
    """Build again whenever a pattern or its workshop file changes, until interrupted."""
    from slath.notes import PatternFaultError  # noqa: PLC0415
    from slath.output.watching import changed_files  # noqa: PLC0415

    _say("Watching; stop with Ctrl-C.", error=True)
    for changed in changed_files(files):
        try:
            again(changed)
        except PatternFaultError as fault:
            _show_notes(fault.notes)
        except SystemExit as leaving:
            if leaving.code != FILE_AT_FAULT:
                raise


def _draw(file: Path, figures: tuple[str, ...], options: dict[str, Any]) -> None:
    from slath.editions import BuildOptions, drawings, figure_names  # noqa: PLC0415
    from slath.output.writing import write_set  # noqa: PLC0415

    compilation = _good(file, options["workshop"], options["sizes"])
    if options["names"]:
        for name in figure_names(compilation):
            _say(name)
        return
    wanted = BuildOptions((), "", "", options["units"], options["vocabulary"], options["left_handed"])
    made = drawings(compilation, figures, wanted, contact_sheet=options["contact_sheet"])
    folder = options["out"] or Path("build") / file.stem / "drawings"
    for path in write_set(folder, made, replace=options["overwrite"]):
        _say(str(path))


# ----------------------------------------------------------------------------------------------------------- leaving
def _leave(code: int, text: str) -> NoReturn:
    _say(text, error=True)
    raise SystemExit(code)


def main() -> None:
    """Run the command line and leave with its exit code; a traceback is shown to nobody unless SLATH_DEBUG is set."""
    try:
        slath.main(standalone_mode=False)
    except click.exceptions.Abort:
        _leave(COMMAND_AT_FAULT, "Stopped; nothing was left half-written.")
    except KeyboardInterrupt:
        _leave(COMMAND_AT_FAULT, "Stopped; nothing was left half-written.")
    except click.ClickException as problem:
        problem.show()
        raise SystemExit(COMMAND_AT_FAULT) from None
    except BrokenPipeError:
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115 - the reader left; leave quietly
        raise SystemExit(GOOD) from None
    except Exception as problem:  # noqa: BLE001 - the last place that can still speak to a person
        if os.environ.get("SLATH_DEBUG"):
            raise
        _explain(problem)


def _explain(problem: Exception) -> NoReturn:
    """Say in plain words what went wrong, and leave with the code that tells whose fault it was."""
    from slath.notes import PatternFaultError  # noqa: PLC0415

    if isinstance(problem, PatternFaultError):
        _show_notes(problem.notes)
        raise SystemExit(FILE_AT_FAULT)
    from slath.output.writing import InTheWayError  # noqa: PLC0415
    from slath.pipeline import CommandFaultError  # noqa: PLC0415

    if isinstance(problem, CommandFaultError):
        _leave(COMMAND_AT_FAULT, str(problem))
    if isinstance(problem, InTheWayError):
        files = "\n".join(f"  {path}" for path in problem.files)
        _leave(
            SURROUNDINGS_AT_FAULT,
            f"These files are not as an earlier build left them, so they were not replaced:\n{files}\n"
            "Move them, choose another --out folder, or replace them with --overwrite.",
        )
    if isinstance(problem, OSError):
        what = problem.strerror or str(problem)
        where = f" ({problem.filename})" if problem.filename else ""
        _leave(SURROUNDINGS_AT_FAULT, f"Could not read or write{where}: {what}. Nothing was left half-written.")
    _leave(
        OUR_BUG,
        f"slath has gone wrong by itself: {type(problem).__name__}: {problem}\n"
        "Your file is untouched. Please report it with the pattern; SLATH_DEBUG=1 shows where.",
    )


if __name__ == "__main__":
    main()
