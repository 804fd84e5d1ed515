"""The commands: what each is asked, and what it hands to the rooms that do the work."""

from __future__ import annotations

import gc
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from slath import __version__
from slath.cli.asking import (
    FILE,
    Group,
    copy_option,
    edition_option,
    file_argument,
    files_argument,
    form_option,
    language_option,
    out_option,
    overwrite_option,
    paper_option,
    section_option,
    size_option,
    speech_options,
    style_option,
    variant_option,
    variants_option,
    workshop_option,
)
from slath.cli.bench import bench
from slath.cli.compiling import compiled, compiled_good
from slath.cli.explaining import explain
from slath.cli.leaving import Exit, leave
from slath.cli.printing import completion, counts, list_, proof, schema
from slath.cli.selling import compare, copies, cost, keep, offer, shop
from slath.cli.telling import say, show_notes, tongue_of
from slath.messages.told import several, told

if TYPE_CHECKING:
    from slath.notes import Note


@click.group(cls=Group, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, "--version", prog_name="slath")
def slath() -> None:  # \b is click's mark for lines to be left as they are
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
    """  # noqa: D301


@slath.command(short_help="Write a first pattern to change; it builds as it stands.")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@click.option(
    "--kind",
    type=click.Choice(["round", "oval", "board", "class"]),
    help="round slath, oval slath with a bow handle, a tray on a drilled board; or a class that makes a --pattern.",
)
@click.option("--pattern", type=FILE, metavar="FILE", help="For a class: the pattern it makes, in the same folder.")
@click.option("--title", help="The basket's name.")
@click.option("--designer", help="Your name, or your workshop's.")
@click.option("--sizes", help="Names of the sizes, smallest first: small,medium,large.")
@click.option("--units", type=click.Choice(["inches", "mm"]), help="Measures in inches, or in centimetres.")
def new(
    file: Path,
    kind: str | None,
    pattern: Path | None,
    title: str | None,
    designer: str | None,
    sizes: str | None,
    units: str | None,
) -> None:
    """Write a first pattern, or a first class file: commented, and it builds as it stands.

    Asks what is not given by a flag; in a pipe it takes the usual answer. Never writes over a file.
    """
    import datetime as dt  # noqa: PLC0415

    from slath.language.starting import START_KINDS, Start, starting_pattern  # noqa: PLC0415
    from slath.output.writing import write_new  # noqa: PLC0415

    file = file if file.suffix else file.with_suffix(".yaml")
    if file.exists():
        leave(Exit.SURROUNDINGS_AT_FAULT, f"{file} is already there; give another name.")
    named = file.stem.replace("-", " ").replace("_", " ").capitalize()
    if kind == "class":
        from slath.cli.teaching import new_class  # noqa: PLC0415 - classes are begun more rarely

        new_class(file, pattern, _answer(title, "Its name", named), _answer(designer, "Taught by", "me"))
        return
    if pattern is not None:
        leave(Exit.COMMAND_AT_FAULT, "Error: --pattern goes with --kind class.")
    kind = _answer(kind, "Which base", "round", START_KINDS)
    title = _answer(title, "Its name", named)
    designer = _answer(designer, "Designed by", "me")
    listed = _answer(sizes, "Sizes, smallest first", "small,medium,large")
    units = _answer(units, "Measures in", "inches", ("inches", "mm"))
    names = tuple(part.strip() for part in listed.split(",") if part.strip())
    start = Start(kind, title, designer, names, units, dt.date.today().isoformat())  # type: ignore[arg-type]  # noqa: DTZ011 - the maker's own day
    try:
        text = starting_pattern(start, file.name)
    except ValueError as problem:
        leave(Exit.COMMAND_AT_FAULT, f"Error: {problem}.")
    if wrong := _wrong_in(text):
        leave(Exit.COMMAND_AT_FAULT, f"Error: {wrong}")
    write_new(file, text.encode())
    say(f"Wrote {file}. Next: slath check {file}")


def _wrong_in(text: str) -> str:
    """The first thing wrong with a pattern that is still to be written, with what would help; empty if it will build."""
    from tempfile import TemporaryDirectory  # noqa: PLC0415

    from slath.notes import PatternFaultError  # noqa: PLC0415

    with TemporaryDirectory() as folder:
        tried = Path(folder) / "new.yaml"
        tried.write_text(text, "utf-8")
        try:
            notes = compiled(tried, None, ()).notes
        except PatternFaultError as fault:
            notes = fault.notes
    found = next((note for note in notes if note.stops), None)
    return " ".join((found.sentence, *(f"→ {remedy}" for remedy in found.remedies))) if found else ""


def _answer(given: str | None, question: str, usual: str, choices: tuple[str, ...] = ()) -> str:
    """What was given, else what is asked on a terminal, else the usual answer."""
    if given is not None or not sys.stdin.isatty():
        return given if given is not None else usual
    kind = click.Choice(choices) if choices else None
    return str(click.prompt(question, default=usual, type=kind, show_choices=bool(choices), err=True))


@slath.command(short_help="See whether counts and lengths work, in every size.")
@files_argument
@form_option("text", "json")
@size_option
@variants_option
@workshop_option
@language_option
def check(
    files: tuple[Path, ...],
    form: str,
    sizes: tuple[str, ...],
    variants: tuple[str, ...],
    workshop: Path | None,
    language: str | None,
) -> None:
    """See whether a pattern's counts and lengths work, in every size and variant.

    Every note names the size, the part and the line, and says what would help, with the numbers that result.
    """
    from slath.notes import PatternFaultError  # noqa: PLC0415

    notes: list[Note] = []
    verdicts: list[str] = []
    for file in files:
        about = ""
        try:
            found, about = looked_over(file, workshop, sizes, variants)
        except PatternFaultError as fault:
            found = fault.notes
        notes += found
        verdicts.append(_verdict(file, found, about, language or ""))
    if form == "json":
        show_notes(notes, form, language=language or "")
    else:
        shown = [note for note in notes if not note.accepted]
        show_notes(shown, error=False, language=language or "")
        say("\n" * bool(shown) + "\n".join(verdicts))
    if any(note.stops for note in notes):
        raise SystemExit(Exit.FILE_AT_FAULT)


def looked_over(
    file: Path, workshop: Path | None, sizes: tuple[str, ...], variants: tuple[str, ...]
) -> tuple[tuple[Note, ...], str]:
    """The notes on one file, and its stakes in every size; a workshop file is held to what a workshop file may say."""
    from slath.language import check_workshop  # noqa: PLC0415

    shared = check_workshop(file)
    if shared is not None:
        return shared, told("a workshop file")
    from slath.classes.recognising import is_class_file  # noqa: PLC0415 - as above

    if is_class_file(file):
        from slath.classes.prepared import prepare  # noqa: PLC0415 - classes are checked more rarely
        from slath.classes.roster import Roster, who_makes_what  # noqa: PLC0415

        found = prepare(file, workshop=workshop)
        return found.notes, who_makes_what(found if isinstance(found, Roster) else found.roster)
    from slath.cli.compiling import compiled_variants  # noqa: PLC0415 - as above
    from slath.pipeline import notes_of_all  # noqa: PLC0415

    made = compiled_variants(file, workshop, sizes, variants or ("all",))
    counts: list[str] = [
        several(
            (told("{size} {stakes} stakes", size=size.name, stakes=len(size.basket.stakes)) for size in one.sizes), ", "
        )
        for one in made
    ]
    if len(made) > 1 and len(set(counts)) > 1:
        counts = [
            told("{variant}: {counts}", variant=one.pattern.variant, counts=count)
            for one, count in zip(made, counts, strict=True)
        ]
    return notes_of_all(made), several(dict.fromkeys(counts), "; ")


def _verdict(file: Path, notes: tuple[Note, ...], about: str, language: str) -> str:
    """One line on one file: good or not, how many notes, how many stakes."""
    from slath.notes.text import counted  # noqa: PLC0415

    spoken = tongue_of(str(file), language)
    parts: list[str] = [told("good")] if not any(note.stops for note in notes) else []
    parts += counted(notes)
    return f"{file}: {', '.join(map(spoken, parts))}" + (f" ({spoken(about)})" if about else "")


@slath.command(short_help="Make the booklet, handouts, drawings and lists.")
@files_argument
@out_option("build/ here, a folder for each pattern")
@size_option
@variants_option
@edition_option
@section_option
@click.option(
    "--editions",
    "tell_editions",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=lambda context, _parameter, wanted: _tell_editions(context, wanted=wanted),
    help="List the editions and leave.",
)
@style_option
@paper_option
@speech_options
@copy_option
@workshop_option
@overwrite_option
@click.option("--watch", is_flag=True, help="Stay, and build again whenever the pattern changes.")
@form_option("text", "json")
def build(files: tuple[Path, ...], *, watch: bool, **options: Any) -> None:  # fmt: skip
    """Make the booklet, the handout, the drawings and the lists of a pattern.

    Everything is made before anything is written; files that slath did not write are never replaced unasked.
    """
    _clear_the_bench()
    from slath.cli.making import Making, build_all, keep_building  # noqa: PLC0415

    making = Making(**options)
    if watch:
        keep_building(files, making)
    else:
        build_all(files, making)


def _clear_the_bench() -> None:
    """Keep numpy from starting threads that no drawing uses, and Python from searching for cycles among records that
    have none: a third of the time numpy takes to load, and a tenth of that of a booklet.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.disable()


def _tell_editions(context: click.Context, *, wanted: bool) -> None:
    if not wanted:
        return
    from slath.editions import EDITIONS  # noqa: PLC0415

    width = max(len(name) for name in EDITIONS)
    for name, edition in EDITIONS.items():
        say(f"{name.replace(' ', '-'):<{width}}  {edition.about}")
    context.exit(Exit.GOOD)


@slath.command(name="class", short_help="Make the lists, plans and papers of a class.")
@click.argument("file", type=FILE)
@out_option("build/ here, a folder for the class")
@click.option(
    "--only",
    "parts",
    type=click.Choice(["lists", "papers"]),
    multiple=True,
    help="Only the teacher's lists and plans, or only everybody's papers.",
)
@paper_option
@click.option(
    "--vocabulary", type=click.Choice(["uk", "us"]), default="uk", show_default=True, help="Whose words of the trade."
)
@language_option
@workshop_option
@overwrite_option
@form_option("text", "json")
def class_(file: Path, **options: Any) -> None:
    """Make everything a class needs from one file: who makes what, in which size and colourway, and when.

    Shopping list, cutting plan, labels and packing lists, dye sheets, timetable (also as a calendar file), running
    script, attendance and tool lists, and each person's own papers. `slath new saturday.yaml --kind class` writes a
    first class file.
    """
    _clear_the_bench()
    from slath.cli.teaching import make_class  # noqa: PLC0415

    make_class(file, **options)


@slath.command(short_help="Write the figures as SVG files.")
@file_argument
@click.argument("figures", nargs=-1)
@out_option("build/<pattern>/figures here")
@size_option
@variant_option
@click.option("--names", is_flag=True, help="Print the figures' names and leave.")
@click.option("--contact-sheet", is_flag=True, help="All figures small on sheets, to look them over.")
@speech_options
@workshop_option
@overwrite_option
def draw(
    file: Path, figures: tuple[str, ...], sizes: tuple[str, ...], variant: str, workshop: Path | None, *, names: bool,
    **options: Any,
) -> None:  # fmt: skip
    """Write the figures of a pattern, or those named, each as an SVG file of its own."""
    _clear_the_bench()
    from slath.cli.making import draw_all  # noqa: PLC0415
    from slath.editions import figure_names  # noqa: PLC0415

    compilation = compiled_good(file, workshop, sizes, variant)
    if names:
        say("\n".join(figure_names(compilation)))
        return
    draw_all(compilation, figures, **options)


for _command in (list_, counts, proof, schema, completion, explain, bench, keep, compare, copies, cost, offer, shop):
    slath.add_command(_command)
