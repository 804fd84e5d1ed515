"""A file on disk turned into text: its size, its encoding and its characters checked before anything reads it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

from slath.language.files import read_bytes
from slath.messages.told import told
from slath.notes import Note, PatternFaultError, Place, Severity

GREATEST_BYTES = 1_000_000  # a thousand times a long pattern; keeps reading under a second and small in memory
# YAML 1.2, section 5.1: the characters a file may hold; everything else is refused before the parser sees it, and so are
# the three that end a line to YAML and to no editor.
# One class for each run of them: a class of many runs, or of all the others, takes a twentieth of a check to compile.
_STRANGE = re.compile(
    "[\x00-\x08]|[\x0b-\x0c]|[\x0e-\x1f]|[\x7f-\x9f]|[\u2028-\u2029]|[\ud800-\udfff]|[\ufdd0-\ufdef]|[\ufffe-\uffff]|[\U0010fffe-\U0010ffff]"
)


class Source(NamedTuple):
    """A file's name as the user gave it, and its text."""

    file: str
    text: str

    def line(self, number: int) -> str:
        """One line of the text, counted from 1, without its end."""
        lines = self.text.split("\n", number)
        return lines[number - 1] if len(lines) >= number else ""


def read_source(path: Path) -> Source:
    """The text of the file at `path`; PatternFaultError where it cannot be a pattern, OSError where it cannot be read."""
    file = str(path)
    raw = read_bytes(path, GREATEST_BYTES)
    if len(raw) > GREATEST_BYTES:
        line = raw.count(b"\n") + 1
        raise _fault(
            "file-too-large",
            Place(file, line, 1),
            told("The file is larger than a megabyte; a pattern is a few pages of text."),
            told("leave pictures and tables in files of their own"),
        )
    # An editor counts a line for each of these, and no others: so does every note.
    text = _decoded(file, raw).replace("\r\n", "\n").replace("\r", "\n")
    strange = _STRANGE.search(text)
    if strange is not None:
        code = f"U+{ord(strange.group()):04X}"
        raise _fault(
            "strange-character",
            place_at(file, text, strange.start()),
            told("A character that cannot be printed ({code}) stands here.", code=code),
            told("delete it and type the word again"),
        )
    if not text.strip():
        raise _fault(
            "empty-file", Place(file, 1, 1), told("The file is empty."), told("start from a written pattern: slath new")
        )
    return Source(file, text)


def place_at(file: str, text: str, offset: int) -> Place:
    """The line and column of the character at `offset`."""
    before = text[:offset]
    line = before.count("\n") + 1
    return Place(file, line, offset - (before.rfind("\n") + 1) + 1)


def _decoded(file: str, raw: bytes) -> str:
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        known = raw[: error.start].decode("utf-8", errors="replace")
        place = place_at(file, known, len(known))
    raise _fault(
        "wrong-encoding",
        place,
        told("The file is not UTF-8 text from here on."),
        told("save it as UTF-8 in your editor (“Save as…”, encoding UTF-8)"),
    )


def _fault(code: str, place: Place, sentence: str, remedy: str) -> PatternFaultError:
    return PatternFaultError((Note(code, Severity.ERROR, place, sentence, remedies=(remedy,)),))
