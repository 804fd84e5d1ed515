"""The bench as it stands between two acts: how uprights are counted, where every strand is, what is tied."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from msgspec import Struct, field

from slath.basket.construct import changed_at
from slath.basket.ends import parted
from slath.basket.model import Stake, WovenBand
from slath.language.pattern import StakeChange
from slath.plan.acts import Act, Recount, Tie, Tied, Untie
from slath.plan.places import Counted, Numbering, Place, Strand, Upright, UprightKind

Units = tuple[tuple[Upright, ...], ...]
_KINDS: dict[str, UprightKind] = {"bye-stake": "bye-stake", "post": "post"}


class Course(Struct):
    """A rod at work: its strands, the upright it comes to next, and how far it is in its strokes."""

    strands: tuple[Strand, ...]
    right: Upright
    phase: int = 0


class Bench(Struct):
    """What runs through from one act to the next. `units` are the uprights as they are worked between changes; a band may
    take several of them together. `rods` are the strands of `band`, which hang where it stopped.
    """

    key: str
    numbering: Numbering
    units: Units = ()
    rods: list[Course] = field(default_factory=list)
    band: WovenBand | None = None
    tied: list[Tied] = field(default_factory=list)
    used: int = 0
    numberings: int = 0
    added: int = 0

    def strand(self, material: str) -> Strand:
        """A new strand."""
        self.used += 1
        return Strand(self.used, material)

    def tie(self, what: Tied) -> Tie:
        """Tie; it is to be untied."""
        self.tied.append(what)
        return Tie(what)

    def untied(self, what: Tied) -> list[Act]:
        """The act that takes a string off, if it is there still."""
        if what not in self.tied:
            return []
        self.tied.remove(what)
        return [Untie(what)]

    def counted_as(self, units: Units) -> Numbering:
        """A new numbering of these units."""
        self.numberings += 1
        return Numbering(f"{self.key} {self.numberings}", units, counted(units))


def counted(units: Units) -> Counted:
    """What is counted where uprights are worked so."""
    sizes = {len([one for one in unit if one.kind != "bye-stake"]) for unit in units}
    if sizes <= {1}:
        return "stick end" if units and units[0][0].kind == "stick end" else "stake"
    return "pair" if sizes == {2} else "group"


def standing(stakes: Sequence[Stake]) -> tuple[Upright, ...]:
    """The uprights round the base, each with its own identity, as they are listed."""
    return tuple(Upright(_KINDS.get(stake.kind, "stake"), index) for index, stake in enumerate(stakes))


def working_units(stakes: Sequence[Stake]) -> Units:
    """The uprights as they are worked together from the base up."""
    units: dict[int, list[Upright]] = {}
    for upright, stake in zip(standing(stakes), stakes, strict=True):
        units.setdefault(stake.working, []).append(upright)
    return tuple(tuple(units[number]) for number in sorted(units))


def singly(units: Iterable[Sequence[Upright]]) -> Units:
    """Every stake for itself, each with the bye-stakes that stand beside it."""
    found: list[list[Upright]] = []
    for upright in (one for unit in units for one in unit):
        if upright.kind == "bye-stake" and found:
            found[-1].append(upright)
        else:
            found.append([upright])
    return tuple(tuple(unit) for unit in found)


def taken(units: Units, sizes: Sequence[int], lead: int = 0) -> Units:
    """Uprights in units of these sizes, the first of which begins `lead` uprights further on."""
    flat = [one for unit in units for one in unit]
    flat = flat[lead:] + flat[:lead]
    places = [0]
    for size in sizes:
        places.append(places[-1] + size)
    return tuple(tuple(flat[first:last]) for first, last in pairwise(places))


def together(units: Units, by: int) -> Units:
    """Units taken `by` at a time, as bands worked in twos and borders worked in groups take them."""
    if by <= 1:
        return units
    merged: list[tuple[Upright, ...]] = []
    place = 0
    for size in parted(len(units), by):
        merged.append(tuple(one for unit in units[place : place + size] for one in unit))
        place += size
    return tuple(merged)


def changed_units(bench: Bench, change: StakeChange, now: Numbering) -> tuple[Units, Recount]:
    """The units after a change part-way up, and the act; `now` is how they are counted before it."""
    units = bench.units
    if change.action in {"add", "drop"}:
        return _added_or_dropped(bench, change, now)
    size = max(change.count, 1)
    if change.action == "part":
        after = tuple(part for unit in units for part in _by_so_many(singly([unit]), size))
    elif change.action == "regroup":
        each = singly(units)
        lead = change.first - 1
        after = _by_so_many(each[lead:] + each[:lead], size)
    else:
        after = units
    why = {"part": "part", "regroup": "regroup"}.get(change.action, "cross")
    return after, Recount(bench.counted_as(after), why)  # type: ignore[arg-type]


def _by_so_many(stakes: Units, size: int) -> Units:
    """Stakes, each with what stands beside it, taken `size` at a time."""
    return tuple(
        tuple(one for stake in stakes[first : first + size] for one in stake) for first in range(0, len(stakes), size)
    )


def _added_or_dropped(bench: Bench, change: StakeChange, now: Numbering) -> tuple[Units, Recount]:
    units = bench.units
    at = changed_at(tuple(len(unit) for unit in units), change)
    after: list[tuple[Upright, ...]] = []
    beside: list[Place] = []
    added: list[Upright] = []
    gone: list[Place] = []
    for number, (unit, many) in enumerate(zip(units, at, strict=True), start=1):
        if change.action == "drop" and many:
            gone.append(Place(now, number))
            continue
        after.append(unit)
        for _ in range(many if change.action == "add" else 0):
            new = Upright("added", bench.added)
            bench.added += 1
            after.append((new,))
            beside.append(Place(now, number))
            added.append(new)
    return tuple(after), Recount(
        bench.counted_as(tuple(after)), "add" if added else "drop", tuple(beside), tuple(added), tuple(gone)
    )
