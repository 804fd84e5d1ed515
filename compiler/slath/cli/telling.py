"""What is said on the terminal: notes, progress, and what was written."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from slath.language.tongue import asked_of
from slath.messages.told import said

if TYPE_CHECKING:
    from slath.notes import Note


class ReaderLeftError(Exception):
    """Nobody reads any more what is printed. Not the broken pipe itself, which click would answer with exit code 1."""


def say(text: str = "", *, error: bool = False, end: str = "\n") -> None:
    """Print `text` on the output, or on the error stream. ReaderLeftError if its reader went away."""
    try:
        click.echo(text, err=error, nl=end == "\n")
    except BrokenPipeError as problem:
        raise ReaderLeftError from problem


def coloured(stream: Any) -> bool:
    """Whether to colour what is printed: on a terminal, unless NO_COLOR asks not to (no-color.org)."""
    return bool(stream.isatty()) and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def show_notes(notes: Sequence[Note], form: str = "text", *, error: bool = True, language: str = "") -> None:
    """Notes as text, or as JSON, which always goes to the output; in the language asked for, else in that of their file."""
    spoken = tongue(notes, language)
    if form == "json":
        from slath.notes.records import notes_as_json  # noqa: PLC0415 - only where asked for

        say(notes_as_json(notes, spoken), end="")
    elif notes:
        from slath.notes.text import notes_as_text  # noqa: PLC0415 - only when there is something to say

        say(notes_as_text(notes, colour=coloured(sys.stderr if error else sys.stdout), tongue=spoken), error=error)


def show_open_notes(notes: Sequence[Note], language: str = "") -> None:
    """Notes on the error stream, less those the designer has accepted."""
    show_notes([note for note in notes if not note.accepted], language=language)


def tongue(notes: Sequence[Note], language: str = "") -> Callable[[str], str]:
    """What is printed of words that can be told in several languages: in that asked for, else that of the notes' file."""
    return tongue_of(notes[0].place.file if notes else "", language)


def tongue_of(file: str, language: str = "") -> Callable[[str], str]:
    """The same for what is said of a file."""
    code = language or (asked_of(file) if file else "")
    if code in {"", "en"}:
        return str
    from slath.messages.language import Language, languages  # noqa: PLC0415 - English needs none of it

    spoken = Language(code)
    return (lambda text: said(text, spoken)) if code in languages() else str


def show_written(folder: Path, made: Mapping[str, bytes], older: Sequence[str]) -> None:
    """What was written: single files by name, those of a folder together; and what lies there from earlier builds."""
    say(f"{folder}/")
    rows = {name: _size(len(data)) for name, data in made.items() if "/" not in name}
    inner: dict[str, list[int]] = {}
    for name, data in made.items():
        if "/" in name:
            inner.setdefault(name.rsplit("/", 1)[0], []).append(len(data))
    rows |= {f"{name}/": f"{_size(sum(lengths))}, {_files(len(lengths))}" for name, lengths in inner.items()}
    width = max(map(len, rows), default=0)
    for name, size in rows.items():
        say(f"  {name:<{width}}  {size}")
    if older:
        shown = ", ".join(older[:3]) + (f" and {len(older) - 3} more" if len(older) > 3 else "")
        say(f"  Not renewed, from an earlier build: {shown}")


@contextmanager
def progress(title: str, steps: Sequence[str]) -> Iterator[Callable[[str], None]]:
    """A line that says what is being made and how far it is, on a terminal only. It is told of every step as it begins,
    and may be told of parts of one.
    """
    if not sys.stderr.isatty():
        yield lambda _text: None
        return
    from rich.console import Console  # noqa: PLC0415 - only on a terminal
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn  # noqa: PLC0415

    console = Console(stderr=True, no_color=not coloured(sys.stderr))
    columns = (
        TextColumn("{task.fields[title]}"),
        BarColumn(24),
        MofNCompleteColumn(),
        TextColumn("{task.description}"),
    )
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task("", total=len(steps), title=title)
        yield lambda text: bar.update(task, completed=steps.index(text) if text in steps else None, description=text)


def _size(count: int) -> str:
    return f"{count / 1e6:.1f} MB" if count >= 1e6 else f"{max(count // 1000, 1)} kB"


def _files(count: int) -> str:
    return f"{count} files" if count != 1 else "1 file"
