"""One cause told once: notes of several sizes and of several bands gathered, what stops the work first, reminders last."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from slath.language.pattern import Pattern
from slath.messages.told import several, told
from slath.notes import Note, Severity

_MOST_SIZES_NAMED = 4  # more sizes than this are called "every size" where all of them are meant
# What the count of stakes or the room between them causes in every band alike.
_OF_EVERY_BAND = frozenset({"weave-does-not-hold", "rows-pair-up", "stakes-too-close", "too-few-for-rods"})


def gathered(pattern: Pattern, notes: Iterable[Note]) -> tuple[Note, ...]:
    """The notes as they are told: each cause once, errors first, then warnings and advice, standing reminders last."""
    found = _of_bands(_of_sizes(pattern, _alike(pattern, notes)))
    return tuple(sorted(found, key=in_order))


def in_order(note: Note) -> tuple[int, str, int, int, str]:
    """What stops the work, then what to weigh, then advice, then what is always said; each in the order of the file."""
    rank = 0 if note.stops else 3 if note.standing else 1 if note.severity is Severity.WARNING else 2
    place = note.place
    return rank, place.file, place.line, place.column, note.code


def _alike(pattern: Pattern, notes: Iterable[Note]) -> list[Note]:
    """Notes that say the same of several sizes made one, naming them: ``small, medium and large``."""
    together: dict[Note, list[str]] = {}
    for note in notes:
        together.setdefault(replace(note, size=""), []).append(note.size)
    return [replace(note, size=_named(pattern, sizes)) for note, sizes in together.items()]


def _named(pattern: Pattern, sizes: Sequence[str]) -> str:
    named = [sized.size for sized in pattern.sizes if sized.size in sizes]
    if len(named) == len(pattern.sizes) > _MOST_SIZES_NAMED:
        return told("every size")
    return several(named)


def _of_sizes(pattern: Pattern, notes: Sequence[Note]) -> list[Note]:
    """One note where the sizes say the same with numbers of their own; each remedy with the numbers of every size."""
    together: dict[tuple[object, ...], list[Note]] = {}
    for index, note in enumerate(notes):
        cause: tuple[object, ...] = (note.code, note.severity, note.place, note.part, note.accepted, len(note.remedies))
        together.setdefault(cause if note.size else (index,), []).append(note)
    return [found[0] if len(found) == 1 else _in_all(pattern, found) for found in together.values()]


def _in_all(pattern: Pattern, found: Sequence[Note]) -> Note:
    first, *others = found
    rest = several(note.size for note in others)
    sentence = told("{sentence} In {rest} it is the same with other numbers.", sentence=first.sentence, rest=rest)
    remedies = tuple(_for_each(found, place) for place in range(len(first.remedies)))
    every = [sized.size for sized in pattern.sizes if any(note.speaks_of(sized.size) for note in found)]
    return replace(first, size=_named(pattern, every), sentence=sentence, remedies=remedies)


def _for_each(found: Sequence[Note], place: int) -> str:
    ways = [note.remedies[place] for note in found]
    if len(set(ways)) == 1:
        return ways[0]
    return several(
        (told("{size}: {remedy}", size=note.size, remedy=remedy) for note, remedy in zip(found, ways, strict=True)),
        "; ",
    )


def _of_bands(notes: Sequence[Note]) -> list[Note]:
    """One note for the bands that one count or one spacing spoils alike; the others' places stand beside it."""
    found: list[Note] = []
    for note in notes:
        index = next((at for at, other in enumerate(found) if _same_cause(other, note)), None)
        if index is None:
            found.append(note)
        else:
            first = found[index]
            found[index] = replace(
                first, related=(*first.related, (note.place, told("so does {part}", part=note.part)))
            )
    return found


def _same_cause(first: Note, other: Note) -> bool:
    alike = (first.code, first.size, first.severity, first.accepted) == (
        other.code,
        other.size,
        other.severity,
        other.accepted,
    )
    return alike and first.code in _OF_EVERY_BAND and bool(set(first.remedies) & set(other.remedies))
