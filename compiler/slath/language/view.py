"""One value of a pattern as one size sees it: typed getters that note what is wrong at its own place.

A fault is noted once and reading goes on with a stand-in, so that every fault of a file is told in one go; the reading
then counts as incomplete and its records are never handed out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from datetime import date
from typing import Any, Literal, TypeVar, cast

from msgspec import Struct, field

from slath.fonts.letters import lacking
from slath.language.formula import NUMBER, Written, evaluate, names_in, parse_formula
from slath.language.places import Path, Places, place_of
from slath.language.sizes import is_by_size
from slath.language.spelling import letters_lacking, nearest, or_list, shortened
from slath.messages.told import Figure, Spoken, told, word
from slath.notes import Note, Place, Severity
from slath.units.counting import MOST_IN_WORDS, numbers_to
from slath.units.names import Dimension
from slath.units.reading import MeasureFaultError, Quantity, everyday_unit

LENGTH = Dimension(1, 0)
MASS = Dimension(0, 1)
GREATEST_LENGTH_MM = 20_000.0  # twenty metres: no basket's part is longer
GREATEST_STRAND_MM = 10_000_000.0  # ten kilometres: no coil is longer
GREATEST_COUNT = 2000
_MOST_ASKED = 100
_FEW = 12  # names: more are not listed in a remedy
TOLD = ""  # code of a fault that is told elsewhere: a formula over a measure that is itself at fault
_BLANKS = re.compile(r"[ \t\n]+")
_SPAN = re.compile(r"(\d+)(?: to (\d+))?")
_COUNTED = re.compile(r"(\d+) ([a-z]+)")
_COUNT_WORDS = numbers_to(MOST_IN_WORDS)
_TOGETHER = {"singly": 1, "in twos": 2, "in threes": 3, "in fours": 4, "in fives": 5, "in sixes": 6}
Choice = TypeVar("Choice", bound=str)
Record = TypeVar("Record")


class Reading(Struct):
    """What one reading of a file for one size shares: places, measures, and the notes made on the way."""

    sizes: tuple[str, ...]
    size: str
    places: Places
    raw: Mapping[Path, str]
    inside: Mapping[Path, int]
    faulty: Collection[Path]
    file: str
    misspelt: Collection[Path] = ()  # keys that seem to be there under another spelling, which is told
    notes: list[Note] = field(default_factory=list)
    lookup: Callable[[str, int], Quantity] | None = None
    incomplete: bool = False
    used: dict[tuple[str, str], None] = field(default_factory=dict)
    asked: int = 0

    def nearest(self, word: str, known: Iterable[str]) -> str | None:
        """The known name nearest to `word`; None where too much has been asked."""
        return nearest(word, known) if self.may_ask() else None

    def may_ask(self) -> bool:
        """Whether to look for what was meant by a slip: for the first hundred, for nobody reads more and each takes time."""
        self.asked += 1
        return self.asked <= _MOST_ASKED

    def note(  # noqa: D102
        self,
        code: str,
        path: Path,
        sentence: Spoken,
        *remedies: Spoken,
        severity: Severity = Severity.ERROR,
        offset: int = 0,
        at_key: bool = False,
    ) -> None:
        if severity is Severity.ERROR:
            self.incomplete = True
        if code == "missing-key" and self._misspelt_at(path, remedies):
            return  # told as the unknown key it is
        place = self.place(path, at_key=at_key)
        if offset and not at_key and path in self.inside:
            place = Place(place.file, place.line, place.column + self.inside[path] + offset)
        self.notes.append(Note(code, severity, place, sentence, self.size, remedies=remedies))

    def _misspelt_at(self, path: Path, remedies: tuple[str, ...]) -> bool:
        """Whether a key that the remedies ask for at `path` seems to be there, misspelt."""
        return any(known[:-1] == path and f"{known[-1]}:" in " ".join(remedies) for known in self.misspelt)

    def place(self, path: Path, *, at_key: bool = False) -> Place:
        """The place of a value or key, or of the nearest thing round it that stands in the file."""
        return place_of(self.places, self.file, path, at_key=at_key)


class View(Struct, frozen=True):
    """The value at `path` for the reading's size."""

    data: Any
    path: Path
    reading: Reading

    # ------------------------------------------------------------------------------------------------- looking
    def get(self, key: str | int) -> View | None:
        """The value under `key`, or None where it is left out or already known to be faulty."""
        path = (*self.path, key)
        if path in self.reading.faulty:  # wrong, or missing though it must be there
            self.reading.incomplete = True
            return None
        if isinstance(key, str) and (not isinstance(self.data, dict) or key not in self.data):
            return None
        return self._for_size(self.data[key], path)

    def _for_size(self, data: Any, path: Path) -> View | None:
        if is_by_size(data, self.reading.sizes):
            path = (*path, self.reading.size)
            if self.reading.size not in data or path in self.reading.faulty:
                self.reading.incomplete = True
                return None
            data = data[self.reading.size]
        if data is None:
            self.reading.incomplete = True
            return None
        return View(data, path, self.reading)

    def has(self, key: str) -> bool:
        """Whether `key` is given."""
        return isinstance(self.data, dict) and key in self.data

    def items(self) -> Iterator[View]:
        """Each entry of a list, or the value itself where it is no list."""
        if not isinstance(self.data, list):
            yield self
            return
        for index in range(len(self.data)):
            item = self.get(index)
            if item is not None:
                yield item

    def entries(self) -> Iterator[tuple[str, View]]:
        """Each key of a set of keys with its value."""
        for key in self.data if isinstance(self.data, dict) else ():
            item = self.get(key)
            if item is not None:
                yield key, item

    def each(self, key: str, build: Callable[[View], Record]) -> tuple[Record, ...]:
        """What `build` makes of every entry under `key`; empty where it is left out."""
        inner = self.get(key)
        return tuple(build(item) for item in inner.items()) if inner is not None else ()

    def note(
        self,
        code: str,
        sentence: Spoken,
        *remedies: Spoken,
        severity: Severity = Severity.ERROR,
        offset: int = 0,
        at_key: bool = False,
    ) -> None:
        """A note at this value."""
        self.reading.note(code, self.path, sentence, *remedies, severity=severity, offset=offset, at_key=at_key)

    # ------------------------------------------------------------------------------------------------- words
    def own_text(self) -> str:
        """This value as text, a number in its own spelling."""
        return self.reading.raw.get(self.path, str(self.data))

    def text(self, key: str, default: str = "") -> str:
        """Text under `key`."""
        inner = self.get(key)
        return inner.printed_text() if inner is not None else default

    def printed_text(self) -> str:
        """This value as text that booklets can show, on one line; letters the fonts lack are noted."""
        text = " ".join(_BLANKS.split(self.own_text()))
        if missing := lacking(text):
            self.note("letter-not-in-fonts", *letters_lacking(missing))
        return text

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts under `key`."""
        return self.each(key, View.printed_text)

    def choice(self, key: str, default: Choice) -> Choice:
        """A word the schema has held against its choices."""
        return cast("Choice", self.text(key, default))

    def yes(self, key: str, *, default: bool = False) -> bool:
        """Yes or no under `key`."""
        inner = self.get(key)
        return default if inner is None else inner.own_yes()

    def own_yes(self) -> bool:
        """Whether this value says yes; what is neither yes nor no, and told already, says no."""
        return self.data is True or self.data == "yes"

    def day(self, key: str) -> date | None:
        """A day under `key`."""
        inner = self.get(key)
        return inner.own_day() if inner is not None else None

    def own_day(self) -> date | None:
        """This value as a day."""
        try:
            return date.fromisoformat(self.own_text())
        except ValueError:
            self.note(
                "no-such-day",
                told("There is no day {text}.", text=self.own_text()),
                told("write year-month-day, such as 2026-03-01"),
            )
            return None

    def material(self, key: str, known: Mapping[str, object]) -> str:
        """The key of a material, one of `known`."""
        inner = self.get(key)
        return inner.own_material(known) if inner is not None else ""

    def own_material(self, known: Mapping[str, object]) -> str:
        """This value as the key of a material."""
        name = self.own_text()
        self.reading.used[("materials", name)] = None
        if name not in known:
            near = self.reading.nearest(name, known)
            few = 0 < len(known) <= _FEW
            remedy = (
                told("write {near}", near=near)
                if near
                else told("choose {known}", known=or_list(known))
                if few
                else told("add it under materials:")
            )
            self.note("unknown-material", told("There is no material called “{name}”.", name=shortened(name)), remedy)
        return name

    # ------------------------------------------------------------------------------------------------- numbers
    def length(
        self, key: str, *, least: float = 0.0, nought: bool = False, most: float = GREATEST_LENGTH_MM
    ) -> float | None:
        """A length in mm under `key`, more than `least` (or `nought` allowed), at most `most`."""
        inner = self.get(key)
        return inner.own_length(least=least, nought=nought, most=most) if inner is not None else None

    def must_length(self, key: str) -> float:
        """A length that the schema requires."""
        value = self.length(key)
        return 1.0 if value is None else value

    def own_length(self, *, least: float = 0.0, nought: bool = False, most: float = GREATEST_LENGTH_MM) -> float:
        """This value as a length in mm."""
        value = self.quantity(LENGTH)
        if value is None:
            return 1.0
        if value < least or (value == 0 and not nought):
            self.note(
                "length-out-of-range",
                told(
                    "{spoken} is {shown}; it must {nought?not be less|be more} than nothing.",
                    spoken=self.spoken,
                    shown=self.shown(value),
                    nought=nought,
                ),
                told("check the sign and the formula"),
            )
        elif value > most:
            self.note(
                "length-out-of-range",
                told(
                    "{spoken} is {shown}, more than a basket can have ({most} m).",
                    spoken=self.spoken,
                    shown=self.shown(value),
                    most=Figure(f"{most / 1000:g}"),
                ),
                told("check the unit"),
            )
        return value

    def mass(self, key: str) -> float | None:
        """A mass in g under `key`."""
        inner = self.get(key)
        return inner.quantity(MASS) if inner is not None else None

    def ratio(self, key: str) -> float | None:
        """A plain number under `key`."""
        inner = self.get(key)
        return inner.quantity(NUMBER) if inner is not None else None

    def count(self, key: str, default: int, *, least: int = 1, most: int = GREATEST_COUNT) -> int:
        """A whole number under `key`."""
        value = self.maybe_count(key, least=least, most=most)
        return default if value is None else value

    def maybe_count(self, key: str, *, least: int = 1, most: int = GREATEST_COUNT) -> int | None:
        """A whole number under `key`, or None where it is left out."""
        inner = self.get(key)
        return inner.own_count(least=least, most=most) if inner is not None else None

    def own_count(self, *, least: int = 1, most: int = GREATEST_COUNT) -> int:
        """This value as a whole number; the first twelve may be written as words."""
        text = self.own_text().casefold()
        counted = _COUNTED.fullmatch(text)
        if counted is not None and everyday_unit(counted[2]) is None:
            self.note(
                "unknown-unit",
                told("{spoken} is a plain number; “{counted}” is too much.", spoken=self.spoken, counted=counted[2]),
                told("write {counted}", counted=counted[1]),
            )
            return least
        value = float(_COUNT_WORDS[text]) if text in _COUNT_WORDS else self.quantity(NUMBER)
        if value is None:
            return least
        if abs(value - round(value)) > 1e-9:
            self.note(
                "not-whole",
                told(
                    "{spoken} comes to {value}; it must be a whole number.",
                    spoken=self.spoken,
                    value=Figure(f"{value:g}"),
                ),
                told("use round_up(…, 1) or round_down(…, 1)"),
            )
        elif not least <= value <= most:
            limit = told("at least {least}", least=least) if value < least else told("at most {most}", most=most)
            self.note(
                "number-out-of-range",
                told("{spoken} is {value}; it must be {limit}.", spoken=self.spoken, value=round(value), limit=limit),
            )
        return min(max(round(value), least), most)

    def own_span(self) -> tuple[int, int]:
        """From which number to which: ``3 to 8``, or one number alone."""
        match = _SPAN.fullmatch(self.own_text())
        if match is None:
            return (1, 1)
        first, last = int(match[1]), int(match[2] or match[1])
        if not 1 <= first <= last:
            self.note(
                "number-out-of-range",
                told("{text} does not run upwards from 1.", text=self.own_text()),
                told("write {last} to {first}", last=last, first=first),
            )
        return (first, last)

    def own_together(self) -> int | Literal["grouped"]:
        """How many uprights this value takes as one: singly, in twos..., or grouped; one where it says no number."""
        word = self.own_text()
        if word == "grouped":
            return "grouped"
        return _TOGETHER.get(word) or (int(word) if word.isdecimal() else 1)

    def quantity(self, wanted: Dimension) -> float | None:
        """This value worked out in `wanted` (mm, g or plain), or None where it has no such value."""
        found = self.any_quantity()
        if found is None or (found.dimension != wanted and self._note_dimension(found, wanted)):
            return None
        return found.value

    def any_quantity(self) -> Quantity | None:
        """This value worked out, whatever it measures."""
        if isinstance(self.data, int | float) and not isinstance(self.data, bool):
            return Quantity(float(self.data), NUMBER)
        lookup = self.reading.lookup or _no_measures
        try:
            return evaluate(parse_formula(str(self.data)), lookup)
        except MeasureFaultError as fault:
            if fault.code == TOLD:
                self.reading.incomplete = True
                return None
            self.note(fault.code, fault.sentence, *fault.remedies, offset=fault.offset)
            return None

    def called_measures(self) -> tuple[str, ...]:
        """The measures this value calls by name; none where it is no formula, or none that can be read."""
        if isinstance(self.data, int | float):
            return ()
        try:
            return names_in(parse_formula(str(self.data)))
        except MeasureFaultError:
            return ()  # told where the value is worked out

    def _note_dimension(self, found: Quantity, wanted: Dimension) -> bool:
        if found.value == 0 and found.dimension == NUMBER:
            return False  # nought needs no unit
        text = self.own_text()
        if found.dimension == NUMBER and wanted in {LENGTH, MASS}:
            units = ("in", "cm") if wanted == LENGTH else ("lb", "g")
            plain = text if text.replace(".", "").isdigit() else f"({text})"
            remedies = (
                tuple(told("write {plain} {unit}", plain=plain, unit=unit) for unit in units)
                if plain == text
                else (told("give its numbers units"),)
            )
            self.note(
                "unit-missing", told("{spoken} is {text}, without a unit.", spoken=self.spoken, text=text), *remedies
            )
        else:
            self.note(
                "wrong-dimension",
                told(
                    "{spoken} must be {words}; {text} is {words2}.",
                    spoken=self.spoken,
                    words=word(wanted.words),
                    text=text,
                    words2=word(found.dimension.words),
                ),
            )
        return True

    def shown(self, mm: float) -> str:
        """This value as written, with what it comes to where a formula hides it."""
        text = shortened(self.own_text())
        plain = isinstance(self.data, int | float) or isinstance(parse_formula(str(self.data)), Written)
        return text if plain else told("{text} ({mm} mm)", text=text, mm=Figure(f"{mm:g}"))

    @property
    def spoken(self) -> str:
        """The value's own name in a sentence: “height”."""
        words = [part for part in self.path if isinstance(part, str) and part not in self.reading.sizes]
        return words[-1].replace("_", " ") if words else told("the value")


def _no_measures(name: str, offset: int) -> Quantity:
    raise MeasureFaultError(
        "unknown-name",
        told("There is no measure called {name}.", name=name),
        (told("write a measure such as 3 3/4 in"),),
        offset,
    )
