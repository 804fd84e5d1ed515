"""The class worked out: every basket somebody makes, in its size and colourway, and what is wrong with any of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path as FilePath

from msgspec import Struct
from msgspec.structs import replace

from slath.classes.file import read_class
from slath.classes.record import AS_WRITTEN, ClassFile, InHand, Person
from slath.language.colourways import recoloured
from slath.language.pattern import Pattern, Settings, SizedPattern
from slath.notes import Note
from slath.pipeline import Compilation, CompiledSize, work_out
from slath.units import Basis
from slath.units.counting import listed

Way = tuple[str, str]  # a pattern's name in the class, and a colourway's
# What a colourway may spoil: told of it, where it stands, and not of the pattern, which may be sound.
SPARES = ("spare_stakes", "spare_sticks", "spare_strands")  # the settings that say what is spare of one basket
OF_COLOURS = frozenset({"looks-not-kept", "colours-too-alike", "marks-alike"})


class Roster(Struct, frozen=True, dict=True):
    """A class with every basket in it worked out. `made` holds the sizes that are made of each pattern and colourway."""

    record: ClassFile
    made: Mapping[Way, Compilation]
    in_hand: tuple[InHand, ...]
    lengths_sold: Mapping[str, float]
    notes: tuple[Note, ...]

    @property
    def at_fault(self) -> bool:
        """Whether a note keeps the class from being made."""
        return any(note.stops for note in self.notes)

    def pattern(self, person: Person) -> Pattern:
        """The pattern a person makes, in their colours."""
        return self.made[person.makes, person.colourway].pattern

    def size(self, person: Person) -> CompiledSize:
        """The basket a person makes."""
        compilation = self.made[person.makes, person.colourway]
        return next(size for size in compilation.sizes if size.name == person.size)

    @property
    def ways(self) -> tuple[Way, ...]:
        """Patterns and colourways in the order the class file first makes them."""
        return tuple(self.made)


def call_roll(path: FilePath, *, workshop: FilePath | None = None) -> Roster:
    """The class in the file at `path`, worked out. Raises what `read_class` raises."""
    read = read_class(path, workshop=workshop)
    people = read.record.people
    wanted: dict[Way, dict[str, None]] = {}
    for person in people:
        wanted.setdefault((person.makes, person.colourway), {})[person.size] = None
    made: dict[Way, Compilation] = {}
    notes = list(read.notes)
    for (name, title), sizes in wanted.items():
        colourway = read.record.colourways[name, title]
        pattern = without_spares(read.patterns[name]) if read.record.spares.given else read.patterns[name]
        in_order = [sized.size for sized in pattern.sizes if sized.size in sizes]
        made[name, title] = work_out(recoloured(pattern, colourway), in_order)
        notes += _spoken(read.record, (name, title), made[name, title])
    return Roster(read.record, made, read.in_hand, read.lengths_sold, tuple(dict.fromkeys(notes)))


def without_spares(pattern: Pattern) -> Pattern:
    """The pattern with nothing spare in any size: its booklet then lists, and tells, exactly what a basket takes."""
    return replace(pattern, sizes=tuple(_without_spares(sized) for sized in pattern.sizes))


def _without_spares(sized: SizedPattern) -> SizedPattern:
    settings = dict(sized.settings.values)
    for name in SPARES:
        settings[name] = replace(settings[name], value=0.0, basis=Basis.GIVEN, source="")
    return replace(sized, settings=Settings(settings))


def _spoken(record: ClassFile, way: Way, compilation: Compilation) -> Sequence[Note]:
    """What the class must hear of one pattern in one colourway: what stops it, and what the new colours spoil."""
    notes: list[Note] = [note for note in compilation.notes if note.stops]
    name, title = way
    if title == AS_WRITTEN:
        return notes
    place = record.place_of(("colourways", name, title), at_key=True)
    for note in compilation.notes:
        if note.code in OF_COLOURS and not note.accepted:
            sentence = f"In “{title}”: {note.sentence[:1].lower()}{note.sentence[1:]}"
            notes.append(replace(note, place=place, sentence=sentence, related=(), size=note.size))
    return notes


def who_makes_what(roster: Roster) -> str:
    """The class in one line: ``a class of 12: Weir Field basket 7 small and 5 large``."""
    told = []
    for makes in dict.fromkeys(person.makes for person in roster.record.people):
        people = [person for person in roster.record.people if person.makes == makes]
        sizes = Counter(person.size for person in people)
        title = roster.pattern(people[0]).title
        told.append(f"{title} {listed([f'{count} {size}' for size, count in sizes.items()])}")
    return f"a class of {len(roster.record.people)}: {'; '.join(told)}"
