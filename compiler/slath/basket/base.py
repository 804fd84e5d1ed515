"""The base constructed: sticks as they lie, their ends round the edge, holes of a board, and the woven bands."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.bands import Ring, weave_bands
from slath.basket.ends import Arm, groups_round, half_apart, parted, stakes_at
from slath.basket.model import (
    CannotConstruct,
    ConstructedBase,
    Curve,
    EndKind,
    Slath,
    Stick,
    StickEnd,
    WovenBand,
)
from slath.basket.outline import between, curve_of, grown, same_family
from slath.basket.rods import stick_of
from slath.basket.weave import follows, holds
from slath.language.pattern import (
    Band,
    Base,
    Board,
    ExtraEnds,
    Frame,
    Outline,
    OvalSlath,
    ReadyMade,
    RoundSlath,
    Side,
    SizedPattern,
    Stakes,
)
from slath.messages.told import kept, several
from slath.messages.values import Length


def construct_base(spec: Base, pattern: SizedPattern, stakes: Stakes | None, side: Side | None) -> ConstructedBase:
    """The base `spec` of one size. Raises CannotConstruct when its counts or sizes allow none."""
    if isinstance(spec, RoundSlath):
        return _round_slath(spec, pattern, stakes)
    if isinstance(spec, OvalSlath):
        return _oval_slath(spec, pattern, stakes)
    if isinstance(spec, Frame):
        return _frame(spec, pattern, stakes)
    if isinstance(spec, Board):
        return _board(spec, side, stakes)
    return _ready_made(spec, stakes)


# ----------------------------------------------------------------------------------------------------- round slath
def _round_slath(spec: RoundSlath, pattern: SizedPattern, stakes: Stakes | None) -> ConstructedBase:
    size = spec.outline.length_mm
    stick = stick_of(spec.material, pattern).width_mm
    sticks: list[Stick] = []
    arms: list[list[tuple[int, EndKind, int]]] = [[], [], [], []]
    pierced_groups = _laid_groups(spec.pierced, spec.laid)
    threaded_groups = _laid_groups(spec.threaded, spec.laid)
    rows = _offsets(spec.pierced + (1 if spec.half_stick else 0), stick)
    for index in range(spec.pierced):
        number = len(sticks) + 1
        y = rows[index]
        group = pierced_groups[index]
        is_pierced = spec.centre == "pierced"
        sticks.append(
            Stick(number, "pierced", spec.material, (-size / 2, y), (size / 2, y), group, is_pierced, is_pierced, size)
        )
        arms[0].append((number, "pierced", group))
        arms[2].insert(0, (number, "pierced", group))
    if spec.half_stick:
        number = len(sticks) + 1
        group = pierced_groups[-1] if pierced_groups and not spec.half_apart else len(set(pierced_groups))
        y = rows[-1]
        sticks.append(Stick(number, "half stick", spec.material, (0.0, y), (size / 2, y), group, True, False, size / 2))
        arms[0].append((number, "half stick", group))
    columns = _offsets(spec.threaded, stick)
    first = max((item.group for item in sticks), default=-1) + 1
    for index in range(spec.threaded):
        number = len(sticks) + 1
        x = columns[index]
        group = first + threaded_groups[index]
        sticks.append(
            Stick(number, "threaded", spec.material, (x, -size / 2), (x, size / 2), group, False, False, size)
        )
        arms[1].insert(0, (number, "threaded", group))
        arms[3].append((number, "threaded", group))
    _add_extra_ends(spec.extra_ends, sticks, arms, (0, 2, 1, 3), spec.outline, stick)
    built = half_apart([Arm(tuple(arm)) for arm in arms], apart=spec.half_apart)
    sizes = tuple(len(arm.ends) for arm in built if arm.ends)
    slath = Slath(max(spec.threaded, 1) * stick, max(len(rows), 1) * stick, sizes)
    ends = _ends(built, stakes, None, spec)
    bands = _base_bands(spec, built, pattern, slath)
    return _assembled(spec, sticks, ends, slath, bands)


def _add_extra_ends(
    extra: ExtraEnds | None,
    sticks: list[Stick],
    arms: list[list[tuple[int, EndKind, int]]],
    order: tuple[int, ...],
    outline: Outline,
    apart: float,
) -> None:
    """Ends of weavers that run from the middle to the edge, shared out among the arms in `order`, last in each."""
    for index in range(extra.count if extra else 0):
        side = order[index % len(order)]
        place = (index // len(order) + 0.5 + len(arms[side]) / 2) * apart
        along = outline.length_mm if side in (0, 2) else outline.width_mm
        out = along / 2 if side in (0, 1) else -along / 2
        start, finish = ((0.0, place), (out, place)) if side in (0, 2) else ((place, 0.0), (place, out))
        number, group = len(sticks) + 1, max((stick.group for stick in sticks), default=-1) + 1
        material = extra.material if extra else ""
        sticks.append(Stick(number, "extra end", material, start, finish, group, False, False, along / 2))
        arms[side].append((number, "extra end", group))


def _laid_groups(count: int, laid: int) -> list[int]:
    """The group each of `count` sticks lies in: all in one arm, unless they are laid together in twos or fours."""
    return [index // laid if laid > 1 else 0 for index in range(count)]


def _offsets(count: int, apart: float) -> list[float]:
    return [(index - (count - 1) / 2) * apart for index in range(count)]


# ------------------------------------------------------------------------------------------------------ oval slath
def _oval_slath(spec: OvalSlath, pattern: SizedPattern, stakes: Stakes | None) -> ConstructedBase:
    if spec.outline.length_mm <= spec.outline.width_mm:
        raise CannotConstruct(
            "oval-not-longer",
            (*spec.path, "length"),
            "base",
            kept(
                "refusals.an-oval-base-must-be",
                length=Length(spec.outline.length_mm),
                width=Length(spec.outline.width_mm),
            ),
            (kept("refusals.make-it-a-round-slath"), kept("refusals.swap-length-and-width")),
        )
    long_stick = stick_of(spec.lengthwise_material, pattern).width_mm
    lengthwise = spec.lengthwise_groups or parted(spec.lengthwise, 2)
    if sum(lengthwise) != spec.lengthwise:
        raise CannotConstruct(
            "groups-do-not-sum",
            (*spec.path, "lengthwise", "groups"),
            "base",
            kept(
                "refusals.the-lengthwise-groups-make-sticks",
                size=several([str(size) for size in lengthwise]),
                sum=sum(lengthwise),
                lengthwise=spec.lengthwise,
            ),
            (
                kept("refusals.give-lengthwise-sticks", sum=sum(lengthwise)),
                kept("refusals.make-the-groups-sum-to", lengthwise=spec.lengthwise),
            ),
        )
    edge = curve_of(spec.outline)
    total_ends = 2 * (spec.lengthwise + sum(spec.groups)) + (1 if spec.half_stick else 0)
    total_ends += spec.extra_ends.count if spec.extra_ends else 0
    field = spec.field_mm or _natural_field(edge, spec, total_ends)
    xs = _group_places(spec.groups, field)
    sticks, arms = _oval_sticks(spec, pattern, lengthwise, xs)
    _add_extra_ends(spec.extra_ends, sticks, arms, (1, 3), spec.outline, long_stick)
    built = tuple(Arm(tuple(arm)) for arm in arms)
    places = _end_places(built, edge, xs if spec.field_mm else {})
    built = half_apart(built, apart=spec.half_apart)
    slath = Slath(
        field + spec.groups[-1] * stick_of(spec.crosswise_material, pattern).width_mm,
        spec.lengthwise * long_stick,
        groups_round(built, "grouped"),
    )
    ends = _ends(built, stakes, places, spec)
    bands = _base_bands(spec, built, pattern, slath)
    return _assembled(spec, sticks, ends, slath, bands)


def _natural_field(edge: Curve, spec: OvalSlath, total_ends: int) -> float:
    """The field over which cross sticks stand so that the ends come out evenly round the edge: one end spacing
    between neighbouring groups, kept inside the straight run between the two round ends of the base.
    """
    spacing = edge.perimeter / total_ends
    longest = spec.outline.length_mm - spec.outline.width_mm
    return min(spacing * (len(spec.groups) - 1), max(longest, spacing))


def _group_places(groups: tuple[int, ...], field: float) -> dict[int, float]:
    """Where the middle of each cross-stick group (0-based) stands along the base, x in mm."""
    if len(groups) == 1:
        return {0: 0.0}
    return {index: -field / 2 + index * field / (len(groups) - 1) for index in range(len(groups))}


def _oval_sticks(
    spec: OvalSlath, pattern: SizedPattern, lengthwise: tuple[int, ...], xs: dict[int, float]
) -> tuple[list[Stick], list[list[tuple[int, EndKind, int]]]]:
    long_stick = stick_of(spec.lengthwise_material, pattern).width_mm
    cross_stick = stick_of(spec.crosswise_material, pattern).width_mm
    length, width = spec.outline.length_mm, spec.outline.width_mm
    sticks: list[Stick] = []
    arms: list[list[tuple[int, EndKind, int]]] = [[], [], [], []]
    rows = _offsets(spec.lengthwise, long_stick)
    group_of = [group for group, size in enumerate(lengthwise) for _ in range(size)]
    for index, y in enumerate(rows):
        number = len(sticks) + 1
        over, pierced = spec.pierced == "lengthwise", spec.pierced == "lengthwise"
        ends = (-length / 2, y), (length / 2, y)
        sticks.append(
            Stick(number, "lengthwise", spec.lengthwise_material, *ends, group_of[index], over, pierced, length)
        )
        arms[0].append((number, "lengthwise", group_of[index]))
        arms[2].insert(0, (number, "lengthwise", group_of[index]))
    first = len(lengthwise)
    for group, size in enumerate(spec.groups):
        kind: EndKind = "crosswise single" if size == 1 else "crosswise group"
        for offset in _offsets(size, cross_stick):
            number = len(sticks) + 1
            x = xs[group] + offset
            over, pierced = spec.pierced != "lengthwise", spec.pierced == "crosswise"
            ends = (x, -width / 2), (x, width / 2)
            sticks.append(Stick(number, kind, spec.crosswise_material, *ends, first + group, over, pierced, width))
            arms[1].insert(0, (number, kind, first + group))
            arms[3].append((number, kind, first + group))
    if spec.half_stick:
        number = len(sticks) + 1
        last = first + len(spec.groups) if spec.half_apart else group_of[-1]
        y = (rows[-1] if rows else 0.0) + long_stick
        sticks.append(
            Stick(
                number,
                "half stick",
                spec.lengthwise_material,
                (0.0, y),
                (length / 2, y),
                last,
                False,
                False,
                length / 2,
            )
        )
        arms[0].append((number, "half stick", last))
    return sticks, arms


def _end_places(arms: tuple[Arm, ...], edge: Curve, xs: dict[int, float]) -> list[float] | None:
    """Where ends reach the edge when the field is given: inner cross sticks run straight out, the rest share evenly."""
    if not xs:
        return None
    groups = [group for arm in arms for _, _, group in arm.ends]
    first = min(group for _, _, group in arms[3].ends)
    inner = {first + index: x for index, x in xs.items() if 0 < index < len(xs) - 1}
    fixed: dict[int, float] = {}
    for position, group in enumerate(groups):
        if group in inner:
            upper = position < len(arms[0].ends) + len(arms[1].ends)
            fixed[position] = _u_at_x(edge, inner[group], upper=upper)
    if not fixed:
        return None
    return _shared(len(groups), fixed)


def _u_at_x(edge: Curve, x: float, *, upper: bool) -> float:
    """The u in (0, ½) for the upper (far) side or (½, 1) for the lower at which the edge has this x."""
    low, high = (0.0, 0.5) if upper else (1.0, 0.5)
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if edge.point(middle)[0] > x else (low, middle)
    return (low + high) / 2


def _shared(count: int, fixed: dict[int, float]) -> list[float]:
    """Every end's u: the fixed ones where they are, those between two fixed ones at even distances, turning round."""
    known = sorted(fixed)
    places = [0.0] * count
    for here, there in zip(known, [*known[1:], known[0] + count], strict=True):
        start, finish = fixed[here], fixed[there % count] + (1.0 if there >= count else 0.0)
        for position in range(here, there):
            u = start + (finish - start) * (position - here) / (there - here)
            places[position % count] = u - 1.0 if position >= count else u
    return places


# ----------------------------------------------------------------------------------------------------------- frame
def _frame(spec: Frame, pattern: SizedPattern, stakes: Stakes | None) -> ConstructedBase:
    length, width = spec.outline.length_mm, spec.outline.width_mm
    stick = stick_of(spec.material, pattern).width_mm
    edge = curve_of(spec.outline)
    sticks: list[Stick] = []
    arms: list[list[tuple[int, EndKind, int]]] = [[], [], [], []]
    for index, y in enumerate(_spread(spec.lengthwise, width - stick)):
        number = len(sticks) + 1
        sticks.append(
            Stick(number, "lengthwise", spec.material, (-length / 2, y), (length / 2, y), index, False, False, length)
        )
        arms[0].append((number, "lengthwise", index))
        arms[2].insert(0, (number, "lengthwise", index))
    columns, groups = _frame_columns(spec, length, stick)
    for x, group in zip(columns, groups, strict=True):
        number = len(sticks) + 1
        kind: EndKind = "crosswise group" if groups.count(group) > 1 else "crosswise single"
        lies = spec.lengthwise + group
        sticks.append(Stick(number, kind, spec.material, (x, -width / 2), (x, width / 2), lies, True, False, width))
        arms[1].insert(0, (number, kind, lies))
        arms[3].append((number, kind, lies))
    built = tuple(Arm(tuple(arm)) for arm in arms)
    places = _frame_places(sticks, built, edge)
    ends = _ends(built, stakes, places, spec)
    bands = _frame_bands(spec, pattern)
    return ConstructedBase(spec, edge, tuple(sticks), ends, None, bands, (), None, None, None)


def _frame_bands(spec: Frame, pattern: SizedPattern) -> tuple[WovenBand, ...]:
    """Rows woven across the lengthwise sticks, turning back at the edge, from one end of the frame to the other. A
    row stands for a round: its `perimeter_mm` is the width it crosses.
    """
    bands = weave_bands(
        spec.weaving,
        pattern,
        lambda _: (1,) * spec.lengthwise,
        lambda _: Ring(0.0, spec.outline.width_mm),
        spec.outline.length_mm,
        "base",
    )
    # Rows that turn back alternate whatever the count of sticks.
    return tuple(replace(band, interlocks=True) for band in bands)


def _spread(count: int, over: float) -> list[float]:
    return [0.0] if count == 1 else [-over / 2 + index * over / (count - 1) for index in range(count)]


def _frame_columns(spec: Frame, length: float, stick: float) -> tuple[list[float], list[int]]:
    if not spec.doubled_ends or spec.crosswise < 4:
        return _spread(spec.crosswise, length - stick), list(range(spec.crosswise))
    middles = _spread(spec.crosswise - 2, length - 2 * stick)
    columns: list[float] = []
    groups: list[int] = []
    for group, x in enumerate(middles):
        outer = group in (0, len(middles) - 1)
        for offset in _offsets(2, stick) if outer else [0.0]:
            columns.append(x + offset)
            groups.append(group)
    return columns, groups


def _frame_places(sticks: Sequence[Stick], arms: tuple[Arm, ...], edge: Curve) -> list[float]:
    by_number = {stick.number: stick for stick in sticks}
    places: list[float] = []
    for side, arm in enumerate(arms):
        for number, _, _ in arm.ends:
            stick = by_number[number]
            x, y = stick.finish if side in (0, 1) else stick.start
            u = _u_nearest(edge, x, y)
            places.append(u - 1.0 if side == 0 and u > 0.5 else u)
    return places


def _u_nearest(edge: Curve, x: float, y: float) -> float:
    steps = 720
    best = min(range(steps), key=lambda index: math.dist(edge.point(index / steps), (x, y)))
    return best / steps


# ----------------------------------------------------------------------------------------------- boards, ready-made
def _board(spec: Board, side: Side | None, stakes: Stakes | None) -> ConstructedBase:
    line = curve_of(grown(spec.outline, -spec.inset_mm))
    if spec.outline.width_mm <= 2 * spec.inset_mm:
        raise CannotConstruct(
            "holes-off-board",
            (*spec.path, "holes", "inset"),
            "base",
            kept("refusals.holes-in-from-the-edge", inset=Length(spec.inset_mm), width=Length(spec.outline.width_mm)),
            (kept("refusals.set-the-holes-in-from", width2=Length(spec.outline.width_mm / 12)),),
        )
    count = spec.holes or (stakes.count * stakes.holes_each if stakes and stakes.count else None)
    if count is None:
        spacing = spec.hole_spacing_mm or 0.0
        if spacing <= 0:
            raise CannotConstruct(
                "holes-not-counted", (*spec.path, "holes"), "base", kept("refusals.neither-the-number-of-holes"),
                (kept("refusals.give-holes-or-holes"),),
            )  # fmt: skip
        count = _suiting(line.perimeter / spacing, side, stakes)
    holes = tuple(index / count for index in range(count))
    return ConstructedBase(spec, curve_of(spec.outline), (), (), None, (), holes, line, line.perimeter / count, None)


def _suiting(wanted: float, side: Side | None, stakes: Stakes | None) -> int:
    """The number of holes nearest to `wanted` on which every band of the side holds; the nearest whole number if
    no count near it does, and the rules then say why.
    """
    bands = [item for item in side.bands if isinstance(item, Band)] if side else []
    together = stakes.worked_as if stakes else 1
    nearest = max(round(wanted), 3)
    near = sorted(range(max(3, nearest - 6), nearest + 7), key=lambda count: abs(count - wanted))
    for count in near:
        uprights = count // together
        if count % together == 0 and all(
            holds(band.weave, uprights) and follows(band.weave, uprights) for band in bands
        ):
            return count
    return nearest


def _ready_made(spec: ReadyMade, stakes: Stakes | None) -> ConstructedBase:
    ends: tuple[StickEnd, ...] = ()
    if spec.ends:
        arm = Arm(tuple((number, "pierced", number - 1) for number in range(1, spec.ends + 1)))
        ends = _ends((arm,), stakes, None, spec)
    return ConstructedBase(spec, curve_of(spec.outline), (), ends, None, (), (), None, None, None)


# ---------------------------------------------------------------------------------------------------------- shared
def _ends(arms: tuple[Arm, ...], stakes: Stakes | None, places: list[float] | None, spec: Base) -> tuple[StickEnd, ...]:
    listed = [end for arm in arms for end in arm.ends]
    _ends_are_there(spec, stakes, len(listed))
    if isinstance(spec, RoundSlath | OvalSlath | Frame) and spec.become_stakes:
        counts = [1] * len(listed)
    elif stakes is None or stakes.count is not None:
        counts = [0] * len(listed)
    else:
        counts = stakes_at(arms, stakes.per_end, dict(stakes.exceptions))
        for number in spec.as_one if isinstance(spec, RoundSlath | OvalSlath) else ():
            counts[number] = 0  # the next end, which is worked as one with this
    centre = (len(arms[0].ends) - 1) / 2
    return tuple(
        StickEnd(
            position + 1,
            stick,
            kind,
            group,
            places[position] if places else (position - centre) / len(listed),
            counts[position],
        )
        for position, (stick, kind, group) in enumerate(listed)
    )


def _ends_are_there(spec: Base, stakes: Stakes | None, count: int) -> None:
    """Refuse ends named by a number that no end has."""
    as_one = spec.as_one if isinstance(spec, RoundSlath | OvalSlath) else ()
    named = [((*spec.path, "as_one"), number, count - 1) for number in as_one]
    if stakes is not None:
        named += [((*stakes.path, "add_at"), number, count) for number in stakes.add_at]
        named += [((*stakes.path, "leave_out_at"), number, count) for number in stakes.leave_out_at]
    for path, number, most in named:
        if number > most:
            raise CannotConstruct(
                "end-not-there", path, "base", kept("refusals.there-is-no-stick-end", number=number, count=count),
                (kept("refusals.name-ends-from-1-to", most=most),),
            )  # fmt: skip


def _base_bands(
    spec: RoundSlath | OvalSlath, arms: tuple[Arm, ...], pattern: SizedPattern, slath: Slath
) -> tuple[WovenBand, ...]:
    outline = spec.outline
    room = (outline.width_mm - slath.width_mm) / 2
    start = _slath_outline(slath, outline)

    def ring(along_mm: float) -> Ring:
        share = min(max(along_mm / room, 0.0), 1.0) if room > 0 else 1.0
        curve = curve_of(between(start, outline, share))
        return Ring(0.0, curve.perimeter)

    def groups(opened: int | str) -> tuple[int, ...]:
        return groups_round(arms, opened, spec.as_one)

    bands = weave_bands(spec.weaving, pattern, groups, ring, room, "base", core_mm=slath.width_mm / 2)
    return tuple(_round_the_crossing(band, slath) if band.spec.groups == "grouped" else band for band in bands)


def _round_the_crossing(band: WovenBand, slath: Slath) -> WovenBand:
    """Rounds over whole arms lie round the crossing as it is, a square or a rectangle, each at its distance from it.

    Once the sticks are opened the weaving fills the corners between the arms, and its rounds are those of the base.
    """
    crossing = 2 * (slath.length_mm + slath.width_mm)
    perimeters = [crossing + 2 * math.pi * found.along_mm for found in band.rounds]
    rounds = tuple(
        replace(found, perimeter_mm=perimeter, spacing_mm=perimeter / band.uprights)
        for found, perimeter in zip(band.rounds, perimeters, strict=True)
    )
    return replace(band, rounds=rounds)


def _slath_outline(slath: Slath, outline: Outline) -> Outline:
    """The line the first round takes: a slath is a cross whose arms it goes round, so midway between the sides of the
    crossing and its corners.
    """
    if outline.shape == "circle":
        side, corner = (slath.length_mm + slath.width_mm) / 2, math.hypot(slath.length_mm, slath.width_mm)
        size = (side + corner) / 2
        return Outline("circle", size, size)
    if not same_family(outline, Outline("ellipse", 1, 1)):
        return Outline(outline.shape, slath.length_mm, slath.width_mm, 0.0)
    return Outline("ellipse", slath.length_mm, slath.width_mm)


def _assembled(
    spec: RoundSlath | OvalSlath,
    sticks: Sequence[Stick],
    ends: tuple[StickEnd, ...],
    slath: Slath,
    bands: tuple[WovenBand, ...],
) -> ConstructedBase:
    reached = slath.width_mm + 2 * bands[-1].to_mm if bands else None
    return ConstructedBase(spec, curve_of(spec.outline), tuple(sticks), ends, slath, bands, (), None, None, reached)
