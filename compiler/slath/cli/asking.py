"""What may be asked on the command line: arguments and options that several commands share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

PAPERS = ("letter", "a4", "half-letter", "a5")


# Commands by what a designer is doing, in the order of the work.
OCCASIONS = {
    "Writing a pattern": ("new", "check", "bench", "counts", "explain", "list", "proof"),
    "Making its booklet": ("build", "draw", "keep", "compare"),
    "Teaching it": ("class",),
    "Selling it": ("cost", "offer", "shop", "copies"),
    "For editors and programs": ("schema", "completion"),
}


class Group(click.Group):
    """Commands told by what a designer is doing."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names in the order of the work."""
        del ctx
        return [name for names in OCCASIONS.values() for name in names]

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """A list of commands for each occasion, each with a line of its own."""
        room = formatter.width - 6 - max(map(len, self.commands))
        for occasion, names in OCCASIONS.items():
            commands = ((name, self.get_command(ctx, name)) for name in names)
            with formatter.section(occasion):
                formatter.write_dl([(name, command.get_short_help_str(room)) for name, command in commands if command])


class PatternFile(click.Path):
    """A file that must be there; where it is not, the nearest name in its folder is offered."""

    def __init__(self) -> None:
        super().__init__(exists=True, dir_okay=False, readable=False, path_type=Path)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The path, or a usage error that says what is there instead."""
        path = Path(value)
        if path.is_dir():
            self.fail(f"{path} is a folder; name a pattern file in it{_such_as(path)}.", param, ctx)
        if not path.exists():
            from slath.language.spelling import nearest  # noqa: PLC0415 - only where a name is wrong

            there = [found.name for found in _patterns(path.parent)]
            near = nearest(path.name, there)
            hint = f"; did you mean {path.with_name(near)}?" if near else f"{_such_as(path.parent)}."
            self.fail(f"there is no file {path}{hint}", param, ctx)
        return super().convert(value, param, ctx)


def _patterns(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    return sorted(path for path in folder.iterdir() if path.suffix in {".yaml", ".yml"} and path.is_file())


def _such_as(folder: Path) -> str:
    found = _patterns(folder)
    return f", such as {found[0]}" if found else ""


FILE = PatternFile()
Command = Callable[..., Any]


def _edition_names(_context: click.Context, _parameter: click.Parameter, begun: str) -> list[CompletionItem]:
    from click.shell_completion import CompletionItem  # noqa: PLC0415 - only while a shell completes

    from slath.editions import EDITIONS  # noqa: PLC0415

    names = {name.replace(" ", "-"): edition.about for name, edition in EDITIONS.items()}
    return [CompletionItem(name, help=about) for name, about in names.items() if name.startswith(begun)]


def _section_names(_context: click.Context, _parameter: click.Parameter, begun: str) -> list[CompletionItem]:
    from click.shell_completion import CompletionItem  # noqa: PLC0415

    from slath.booklet.content import SECTIONS  # noqa: PLC0415

    return [CompletionItem(name.replace(" ", "-")) for name in SECTIONS if name.startswith(begun)]


def _style_names(_context: click.Context, _parameter: click.Parameter, begun: str) -> list[CompletionItem]:
    from click.shell_completion import CompletionItem  # noqa: PLC0415 - only while a shell completes

    from slath.booklet.styles import names  # noqa: PLC0415

    return [CompletionItem(name) for name in names() if name.startswith(begun)]


def files_argument(command: Command) -> Command:
    """One pattern file or several."""
    return click.argument("files", nargs=-1, required=True, type=FILE)(command)


def file_argument(command: Command) -> Command:
    """One pattern file."""
    return click.argument("file", type=FILE)(command)


def form_option(*forms: str) -> Callable[[Command], Command]:
    """In which form to print; the first is the usual one."""
    kind = click.Choice(forms)
    return click.option("--format", "form", type=kind, default=forms[0], show_default=True, help="How to print it.")


def size_option(command: Command) -> Command:
    """Which sizes."""
    return click.option("--size", "sizes", multiple=True, metavar="NAME", help="Only this size; may be repeated.")(
        command
    )


def variant_option(command: Command) -> Command:
    """Which variant."""
    text = "This variant of the pattern; left out: its first."
    return click.option("--variant", default="", metavar="NAME", help=text)(command)


def variants_option(command: Command) -> Command:
    """Which variants."""
    text = "Only this variant; may be repeated, or be all; left out: its first."
    return click.option("--variant", "variants", multiple=True, metavar="NAME", help=text)(command)


def workshop_option(command: Command) -> Command:
    """Another workshop file."""
    text = "A workshop file in place of the one the pattern names."
    return click.option("--workshop", type=FILE, metavar="FILE", help=text)(command)


def units_option(command: Command) -> Command:
    """Which measure stands first."""
    return click.option(
        "--units", type=click.Choice(["inches", "mm"]),
        help="Which measure stands first; left out: as the pattern is written.",
    )(command)  # fmt: skip


def _languages() -> list[str]:
    """Codes of the languages there are, as `messages.languages` has them, of which no `--help` waits for the rest."""
    return sorted(
        folder.parent.name for folder in (Path(__file__).parents[1] / "messages" / "data").glob("*/about.yaml")
    )


def language_option(command: Command) -> Command:
    """In which language everything is told but the designer's own words."""
    return click.option(
        "--language", type=click.Choice(_languages()),
        help="The language of the booklet; left out: as the pattern asks. Your own words stay as you wrote them.",
    )(command)  # fmt: skip


def speech_options(command: Command) -> Command:
    """Whose measures and words, and for which hand."""
    options = (
        units_option,
        click.option("--vocabulary", type=click.Choice(["uk", "us"]), default="uk", show_default=True,
                     help="Whose words of the trade."),
        language_option,
        click.option("--left-handed", is_flag=True, help="Words and drawings for work running the other way."),
    )  # fmt: skip
    for option in reversed(options):
        command = option(command)
    return command


def out_option(usual: str) -> Callable[[Command], Command]:
    """Where to write."""
    kind = click.Path(file_okay=False, path_type=Path)
    return click.option("--out", type=kind, metavar="FOLDER", help=f"Where to write; left out, {usual}.")


def overwrite_option(command: Command) -> Command:
    """Whether strange files may be replaced."""
    text = "Replace files in the way even if slath did not write them."
    return click.option("--overwrite", is_flag=True, help=text)(command)


def edition_option(command: Command) -> Command:
    """Which editions."""
    return click.option(
        "--edition", "editions", multiple=True, metavar="NAME", shell_complete=_edition_names,
        help="Only this edition; may be repeated. --editions lists them.",
    )(command)  # fmt: skip


def section_option(command: Command) -> Command:
    """Which sections of the handout."""
    return click.option(
        "--section", "sections", multiple=True, metavar="NAME", shell_complete=_section_names,
        help="Only this section in the handout; may be repeated. What the licence withholds stays out.",
    )(command)  # fmt: skip


def copy_option(command: Command) -> Command:
    """Whose copy it is."""
    return click.option(
        "--for", "copy_for", metavar="NAME", default="", help="Say on every page whose copy it is.",
    )(command)  # fmt: skip


def style_option(command: Command) -> Command:
    """Which style."""
    return click.option(
        "--style", metavar="NAME", shell_complete=_style_names,
        help="A style from styles/, or the path of your own style file.",
    )(command)  # fmt: skip


def paper_option(command: Command) -> Command:
    """Which paper."""
    return click.option("--paper", type=click.Choice(PAPERS), help="Paper; left out, the style's own.")(command)
