"""One pattern at the bench: worked out again when it is saved, and shown from what is known of it.

Everything shown belongs to a version, which counts the looks at the files. Figures, pages and counts are worked out when
the page asks for them, each once a version, and only so many are kept.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from io import BytesIO
from pathlib import Path
from threading import RLock
from typing import Any, TypeVar

import pypdfium2 as pdfium
from msgspec import Struct, field
from msgspec.structs import replace

from slath.booklet.content import booklet_document
from slath.drawing.kept import KeptFigures
from slath.editions import EDITIONS, figure_names
from slath.language.source import read_source
from slath.notes import Note, PatternFaultError, Place, Severity
from slath.notes.records import note_record
from slath.output.facts import Fact, facts_of
from slath.output.svg import scene_svg
from slath.pipeline import Compilation, CompiledSize, compile_pattern
from slath.work import BuildOptions, Work

MOST_KEPT = 120  # pictures and pages together: some 30 MB
RESOLUTION = 1.6  # pixels a point: sharp on an ordinary screen
BOOKLET = "booklet"
Made = TypeVar("Made")


class GoneError(LookupError):
    """Something was asked for that the pattern, as it is now, does not have."""


class PastError(LookupError):
    """What was asked for before the last save is not made any more: nobody would see it."""


class Looked(Struct, frozen=True):
    """What a look at the files found. `good` is the last compilation that could be made, which is an older one if `wrong`."""

    version: int
    text: str
    notes: tuple[Note, ...]
    good: Compilation | None
    wrong: bool


class Followed(Struct, dict=True):
    """The pattern and what is known of it. Methods may be called from any thread."""

    file: Path
    workshop: Path | None = None
    looked: Looked = field(default_factory=lambda: Looked(0, "", (), None, wrong=True))
    _works: dict[BuildOptions, Work] = field(default_factory=dict)
    _made: OrderedDict[Hashable, Any] = field(default_factory=OrderedDict)
    _kept: KeptFigures = field(default_factory=KeptFigures)
    _one: RLock = field(default_factory=RLock)  # drawing and rendering are not made for two threads at once

    def look(self) -> Looked:
        """Read the files again and work them out. A file that is wrong leaves what was good."""
        before = self.looked
        text, notes, good = before.text, before.notes, None
        try:
            text = read_source(self.file).text
            compilation = compile_pattern(self.file, self.workshop)
            notes = compilation.notes
            good = compilation if compilation.sizes and not compilation.at_fault else None
        except PatternFaultError as fault:
            notes = fault.notes
        except OSError as problem:
            notes = (_unreadable(self.file, problem),)
        with self._one:
            if good is not None:
                self._kept.begin()
                self._works.clear()
                self._made.clear()
            self.looked = Looked(before.version + 1, text, notes, good or before.good, wrong=good is None)
        return self.looked

    def state(self, options: BuildOptions) -> dict[str, Any]:
        """Everything the page shows but pictures: notes, the file's lines, numbers size by size, names of figures."""
        looked = self.looked
        told: dict[str, Any] = {
            "version": looked.version,
            "file": self.file.name,
            "wrong": looked.wrong,
            "notes": [note_record(note) for note in looked.notes if not note.accepted],
            "text": looked.text,
            "title": self.file.stem,
            "sizes": [],
            "numbers": [],
            "figures": [],
        }
        good = looked.good
        if good is not None:
            first = options.units or good.pattern.units
            told |= {
                "title": good.pattern.title,
                "sizes": [size.name for size in good.sizes],
                "numbers": _side_by_side([facts_of(size.quantities, first) for size in good.sizes]),
                "figures": list(figure_names(good)),
            }
        return told

    def figure(self, size: str, name: str, options: BuildOptions, version: int | None = None) -> bytes:
        """One figure of a size as SVG. GoneError if it has none of that name, PastError if the `version` wanted is an older one."""
        with self._one:
            self._still(version)
            work = self._work(options)
            return self._once(("figure", options, size, name), lambda: _drawn(work, size, name))

    def pages(self, options: BuildOptions) -> int:
        """How many pages the booklet has."""
        with self._one:
            return len(self._booklet(options))

    def page(self, number: int, options: BuildOptions, version: int | None = None) -> bytes:
        """One page of the booklet as PNG, counted from 1. GoneError past its end, PastError for an older `version`."""
        with self._one:
            self._still(version)
            booklet = self._booklet(options)
            if not 1 <= number <= len(booklet):
                raise GoneError(f"the booklet has {len(booklet)} pages")
            return self._once(("page", options, number), lambda: _as_png(booklet[number - 1]))

    def compiled(self, size: str) -> CompiledSize:
        """A size as it was last good. GoneError if there is none."""
        good = self.looked.good
        for each in good.sizes if good else ():
            if each.name == size:
                return each
        raise GoneError(f"there is no size {size}")

    def once(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """Something made of this version, once."""
        with self._one:
            return self._once(key, make)

    def _still(self, version: int | None) -> None:
        if version is not None and version != self.looked.version:
            raise PastError

    def _work(self, options: BuildOptions) -> Work:
        if self.looked.good is None:
            raise GoneError("nothing could be worked out yet")
        if options not in self._works:
            self._works[options] = Work(self.looked.good, options, kept=self._kept)
        return self._works[options]

    def _booklet(self, options: BuildOptions) -> pdfium.PdfDocument:
        work = self._work(replace(options, editions=(BOOKLET,)))
        return self._once(("booklet", options), lambda: pdfium.PdfDocument(_set(work)))

    def _once(self, key: Hashable, make: Callable[[], Made]) -> Made:
        if key in self._made:
            self._made.move_to_end(key)
        else:
            self._made[key] = make()
            while len(self._made) > MOST_KEPT:
                self._made.popitem(last=False)
        made: Made = self._made[key]
        return made


def _set(work: Work) -> bytes:
    edition = EDITIONS[BOOKLET]
    return work.set(booklet_document(work.content_for(edition)), edition)


def _as_png(page: pdfium.PdfPage) -> bytes:
    out = BytesIO()
    page.render(scale=RESOLUTION).to_pil().save(out, "PNG", compress_level=1)
    return out.getvalue()


def _drawn(work: Work, size: str, name: str) -> bytes:
    for content in work.content.sizes:
        if content.name == size:
            for shelf in (content.figures, content.sheets):
                if name in shelf:
                    return scene_svg(shelf[name]).encode()
    raise GoneError(f"{size} has no figure {name}")


def _side_by_side(sizes: list[tuple[Fact, ...]]) -> list[dict[str, Any]]:
    """One row a number, with what every size has of it; sizes that lack it have an empty cell."""
    by_key: dict[tuple[str, ...], list[Fact | None]] = {}
    for place, facts in enumerate(sizes):
        for fact in facts:
            by_key.setdefault(fact.key, [None] * len(sizes))[place] = fact
    rows = []
    for key, found in by_key.items():
        one = next(fact for fact in found if fact is not None)
        values = [fact.printed if fact else "" for fact in found]
        rows.append({"group": key[0], "part": one.part, "what": one.what, "values": values})
    return rows


def _unreadable(file: Path, problem: OSError) -> Note:
    sentence = f"The pattern cannot be read: {problem.strerror}."
    remedies = ("put it back where it was, or save it again",)
    return Note("file-not-read", Severity.ERROR, Place(str(file)), sentence, remedies=remedies)
