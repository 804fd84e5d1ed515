"""A class made: everything of it worked out and set, then written whole."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

from slath.classes.papers import ClassOptions, begin_papers, refuse_unknown
from slath.classes.prepared import prepare
from slath.classes.recognising import is_class_file
from slath.classes.roster import Roster
from slath.classes.starting import starting_class
from slath.cli.leaving import Exit, leave
from slath.cli.making import BUILD
from slath.cli.telling import progress, say, show_open_notes, show_written
from slath.language import read_pattern
from slath.notes.records import note_record
from slath.output.writing import older_files, write_new, write_set
from slath.trade.words import UK, US


def make_class(
    file: Path,
    *,
    out: Path | None,
    parts: tuple[str, ...],
    paper: str | None,
    vocabulary: str,
    language: str | None,
    workshop: Path | None,
    overwrite: bool,
    form: str,
) -> None:
    """Everything the class in `file` needs, in a folder of its own; leaves with exit code 1 if the file is at fault."""
    options = ClassOptions(parts, paper or "", vocabulary, language or "")
    refuse_unknown(options)
    today = dt.date.today()  # noqa: DTZ011 - the teacher's own day, said on the terminal and in no file
    words = US if vocabulary == "us" else UK
    prepared = prepare(file, workshop=workshop, today=today, vocabulary=words, language=language or "")
    if form == "text":
        show_open_notes(prepared.notes)
    made: dict[str, bytes] = {}
    written: list[str] = []
    if not isinstance(prepared, Roster):
        begun = begin_papers(prepared, options)  # before the line of progress, which is a thread
        with progress(file.stem, begun.tasks) as tell:
            made = dict(begun.all(tell))
        folder = (out or BUILD) / file.stem
        written = [str(path) for path in write_set(folder, made, replace=overwrite)]
        if form == "text":
            show_written(folder, made, older_files(folder, made))
    if form == "json":
        records = [note_record(note) for note in prepared.notes]
        say(json.dumps({"written": written, "notes": records}, ensure_ascii=False, indent=2))
    if prepared.at_fault:
        raise SystemExit(Exit.FILE_AT_FAULT)


def new_class(file: Path, pattern: Path | None, title: str, teacher: str) -> None:
    """Write a first class file for a pattern; leaves with exit code 2 if none is named or it lies elsewhere."""
    chosen = pattern or _only_pattern(file.parent)
    if chosen is None:
        leave(Exit.COMMAND_AT_FAULT, "Error: name the pattern the class makes: --pattern FILE")
    if chosen.resolve().parent != file.resolve().parent:
        leave(Exit.COMMAND_AT_FAULT, f"Error: {chosen} is in another folder; write the class file beside its pattern.")
    today = dt.date.today()  # noqa: DTZ011 - the teacher's own day
    text = starting_class(read_pattern(chosen), chosen.name, title, teacher, file.name, today)
    write_new(file, text.encode())
    say(f"Wrote {file}. Next: slath check {file}")


def _only_pattern(folder: Path) -> Path | None:
    """The pattern of a folder that has only one."""
    found = [path for path in sorted(folder.glob("*.yaml")) if "." not in path.stem and not is_class_file(path)]
    return found[0] if len(found) == 1 else None
