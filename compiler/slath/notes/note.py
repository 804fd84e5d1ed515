"""A note: one thing the tool has to say about one place, as plain data; renderers live beside it."""

from __future__ import annotations

import re
from enum import StrEnum
from pathlib import PurePath

from msgspec import Struct
from msgspec.structs import force_setattr

_LONGEST_SENTENCE = 1000  # letters
_STANDING = frozenset({"size-not-woven", "pitch-estimated"})


class Severity(StrEnum):
    """How much a note stops: an error stops the build, a warning can be accepted in writing, advice is only told."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


class Place(Struct, frozen=True, order=True):
    """Where in a source: file name as the user gave it, line and column counted from 1 (0: the whole file)."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file

    @property
    def in_print(self) -> str:
        """The place as files that are made tell it: however the path was typed, and of no folder of this machine."""
        name = PurePath(self.file).name.encode("utf-8", "replace").decode()
        return f"{name}:{self.line}" if self.line else name


class Note(Struct, frozen=True):
    """One note. ``sentence`` stands alone, in trade words; ``remedies`` are actions with their resulting numbers.

    ``size`` and ``part`` are empty where the note concerns the whole pattern. ``accepted`` holds the designer's
    written reason when a warning has been overruled. ``related`` points at a second place ("first given here").
    """

    code: str
    severity: Severity
    place: Place
    sentence: str
    size: str = ""
    part: str = ""
    remedies: tuple[str, ...] = ()
    accepted: str = ""
    related: tuple[tuple[Place, str], ...] = ()

    def __post_init__(self) -> None:
        if len(self.sentence) > _LONGEST_SENTENCE:  # a name as long as a book, taken into the sentence
            half = _LONGEST_SENTENCE // 2
            force_setattr(self, "sentence", f"{self.sentence[:half]} … {self.sentence[-half:]}")

    @property
    def stops(self) -> bool:
        """Whether this note keeps a booklet from being made."""
        return self.severity is Severity.ERROR

    @property
    def standing(self) -> bool:
        """Whether it reminds of what is so of every new pattern until it is woven: said last, and shortly."""
        return self.code in _STANDING

    def speaks_of(self, size: str) -> bool:
        """Whether it concerns this size: it names it, or names none, or every one."""
        return self.size in {"", size, "every size"} or size in re.split(r", | and ", self.size)


class PatternFaultError(ValueError):
    """The file is at fault and nothing further can be worked out; carries every note found so far."""

    def __init__(self, notes: tuple[Note, ...]) -> None:
        super().__init__("; ".join(note.sentence for note in notes))
        self.notes = notes
