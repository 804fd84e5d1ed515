"""A sized pattern constructed into a basket: base, stakes, side, border, handle, lid, in the order they are worked."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from msgspec.structs import replace

from slath.basket.bands import Fitted, Ring, fit_bands, lay_bands, weave_bands
from slath.basket.base import construct_base
from slath.basket.base_size import sized_by_bands, stake_left
from slath.basket.border import work_border
from slath.basket.border_ends import ends_for, foot_ends
from slath.basket.handle import work_handle
from slath.basket.lid import fit_lid, lid_alone
from slath.basket.made_parts import meeting, part_alone
from slath.basket.model import (
    Basket,
    CannotConstruct,
    ConstructedLid,
    ConstructedPart,
    Curve,
    Stake,
    WorkedBorder,
    WovenBand,
)
from slath.basket.outline import curve_of
from slath.basket.phase import in_phase
from slath.basket.profile import LadderProfile, profile_by_bands, profile_by_way, profile_of
from slath.basket.stakes import regrouped, set_stakes, working_groups
from slath.basket.wall import at_the_stakes
from slath.language.pattern import Band, Border, Lid, Outline, Side, SizedPattern, StakeChange
from slath.messages.told import kept
from slath.messages.values import Length


def construct(pattern: SizedPattern) -> Basket:
    """One size of a pattern as a basket. Raises CannotConstruct when counts or sizes allow none."""
    pattern = at_the_stakes(sized_by_bands(pattern))
    base = construct_base(pattern.base, pattern, pattern.stakes, pattern.side)
    stakes = set_stakes(base, pattern)
    groups = working_groups(stakes)
    foot_line = base.hole_line or base.edge
    profile, bands, changes = _side(pattern.side, pattern, groups, foot_line.outline)
    top = changes[-1][2] if changes else len(groups)
    rim = profile.curve_at(profile.height_mm) if profile else base.edge
    border = _border(_down_through(pattern.border, bands), stakes, top, rim.perimeter)
    foot = _border(pattern.foot, stakes, len(groups), foot_line.perimeter)
    height = profile.height_mm if profile else 0.0
    around = (base.edge, profile)
    handles = tuple(work_handle(handle, rim, height, stakes, pattern, around) for handle in pattern.handles)
    lid = construct_lid(pattern.lid, rim, pattern) if pattern.lid else None
    basket = Basket(pattern, base, stakes, len(groups), profile, bands, changes, border, foot, handles, lid)
    basket = replace(basket, foot_bands=_foot_bands(basket, groups, foot_line))
    return replace(basket, parts=construct_parts(basket)) if pattern.parts else basket


def construct_lid(spec: Lid, rim: Curve, pattern: SizedPattern) -> ConstructedLid:
    """The lid of a basket whose weaving ends in `rim`."""
    return fit_lid(spec, construct(lid_alone(spec, pattern)), rim, pattern)


def construct_parts(basket: Basket) -> tuple[ConstructedPart, ...]:
    """Every part of a basket in the order it is made; what cannot be constructed is told of the part by its name."""
    made: dict[str, Basket] = {"": basket}
    for spec in basket.pattern.parts:
        try:
            made[spec.name] = construct(part_alone(spec, basket.pattern))
        except CannotConstruct as fault:
            fault.part = f"{spec.name}, {fault.part}"
            raise
    return tuple(meeting(spec, made) for spec in basket.pattern.parts)


def _side(
    side: Side | None, pattern: SizedPattern, groups: tuple[int, ...], outline: Outline
) -> tuple[LadderProfile | None, tuple[WovenBand, ...], tuple[tuple[int, StakeChange, int], ...]]:
    """The side from `outline` up, where its stakes stand: the edge of a base, the line of holes of a board."""
    if side is None:
        return None, (), ()
    if not groups:
        raise CannotConstruct(
            "no-stakes", side.path, "side", kept("refusals.a-side-is-asked-for"),
            (kept("refusals.give-stakes-or-let-the"),),
        )  # fmt: skip
    listed, changes = _band_groups(side, groups)
    room = profile_of(side, outline, side.height_mm).along_mm if side.height_mm else None
    leaving = next((band for band, _ in listed if band.extent.leaves_mm is not None), None)
    room = room if leaving is None else stake_left(leaving, pattern)
    fitted = fit_bands(listed, pattern, room, "side", around=_around(side, outline, room))
    profile = _shape(side, outline, fitted)

    def ring(along_mm: float) -> Ring:
        height = profile.height_of(along_mm)
        return Ring(height, profile.curve_at(height).perimeter)

    laid = in_phase(lay_bands(fitted, ring), [index for index, _, _ in changes])
    return profile, _leading(laid, changes), changes


def _around(side: Side, base: Outline, room_mm: float | None) -> Callable[[float], float]:
    """The perimeter a way up the side while its rounds are still to be counted: as its height has it, or half-way between
    base and rim where no height is given.
    """
    if room_mm:
        guess = profile_by_way(side, base, room_mm)
        if guess is not None:
            return lambda along: guess.curve_at(guess.height_of(min(along, guess.along_mm))).perimeter
    mean = (curve_of(base).perimeter + curve_of(side.rim or base).perimeter) / 2
    return lambda _: mean


def _down_through(border: Border | None, bands: Sequence[WovenBand]) -> Border | None:
    """The border with the depth of the ends that go down through named bands, to the lower edge of the lowest, or through
    the whole side to stand as legs.
    """
    if border is None or not any(one.through or one.legs_mm for one in border.passes):
        return border
    top = bands[-1].to_mm if bands else 0.0
    passes = []
    for one in border.passes:
        lower = [band.from_mm for band in bands if band.spec.written_as in one.through]
        missing = [name for name in one.through if name not in {band.spec.written_as for band in bands}]
        if missing:
            raise CannotConstruct(
                "border-through-no-band", (*one.path, "through"), "border", kept("refusals.no-band-of-the-side", missing=missing[0]),
                (kept("refusals.write-one-of", listed_names=listed_names(bands)), kept("refusals.name-the-band-name-upsett")),
            )  # fmt: skip
        depth = top - min(lower) if lower else top + one.legs_mm if one.legs_mm else one.depth_mm
        passes.append(replace(one, depth_mm=depth))
    return replace(border, passes=tuple(passes))


def listed_names(bands: Sequence[WovenBand]) -> str:
    """The names of the bands, as they may be written."""
    return ", ".join(dict.fromkeys(band.spec.written_as for band in bands)) or "the bands of the side"


def _leading(bands: tuple[WovenBand, ...], changes: tuple[tuple[int, StakeChange, int], ...]) -> tuple[WovenBand, ...]:
    """Bands over a regrouping, each with the stakes by which its first group begins further on."""
    led: list[WovenBand] = []
    for band in bands:
        before = [change for index, change, _ in changes if index <= band.index and change.action == "regroup"]
        led.append(replace(band, lead=before[-1].first - 1) if before else band)
    return tuple(led)


def _band_groups(
    side: Side, groups: tuple[int, ...]
) -> tuple[list[tuple[Band, tuple[int, ...]]], tuple[tuple[int, StakeChange, int], ...]]:
    listed: list[tuple[Band, tuple[int, ...]]] = []
    changes: list[tuple[int, StakeChange, int]] = []
    for item in _crossed_in_the_open(side.bands):
        if isinstance(item, Band):
            listed.append((item, regrouped(groups, item.groups)))
        else:
            groups = changed(groups, item)
            changes.append((len(listed), item, len(groups)))
    return listed, tuple(changes)


def _crossed_in_the_open(entries: Sequence[Band | StakeChange]) -> list[Band | StakeChange]:
    """The entries, with stakes that are said to cross before a height left open crossing over that height: they are held
    by the first round above it.
    """
    found = list(entries)
    for place in range(1, len(found) - 1):
        change, band, below = found[place], found[place + 1], found[place - 1]
        crosses = isinstance(change, StakeChange) and change.action == "cross"
        opened = isinstance(band, Band) and band.weave.kind == "open"
        if crosses and opened and not (isinstance(below, Band) and below.weave.kind == "open"):
            found[place : place + 2] = [band, change]
    return found


def changed(groups: tuple[int, ...], change: StakeChange) -> tuple[int, ...]:
    """Working uprights after a change: added stakes become uprights of their own, parted groups come apart.

    Stakes that cross change places, not their number.
    """
    if change.action == "part":
        size = max(change.count, 1)
        return tuple(part for group in groups for part in _portions(group, size))
    if change.action == "cross":
        return groups
    if change.action == "regroup":
        return tuple(_portions(sum(groups), max(change.count, 1)))
    taken = changed_at(groups, change)
    if change.action == "add":
        return tuple(size for group, added in zip(groups, taken, strict=True) for size in (group, *[1] * added))
    left = sum(1 for dropped in taken if not dropped)
    if left < 3:
        raise CannotConstruct(
            "too-few-stakes", change.path, "side",
            kept("refusals.dropping-of-uprights-leaves", groups=len(groups) - left, groups2=len(groups), left=left),
            (kept("refusals.drop-at-most", groups=len(groups) - 3),),
        )  # fmt: skip
    return tuple(group for group, dropped in zip(groups, taken, strict=True) if not dropped)


def changed_at(groups: tuple[int, ...], change: StakeChange) -> list[int]:
    """How many stakes are added at each working upright (or whether it is dropped): at those listed, or evenly spread."""
    uprights = len(groups)
    if change.beside == "listed":
        return [change.stakes.count(number) for number in range(1, uprights + 1)]
    count = change.count or (uprights // 2 if change.beside == "every other" else uprights)
    return [(index + 1) * count // uprights - index * count // uprights for index in range(uprights)]


def _portions(group: int, size: int) -> list[int]:
    whole, rest = divmod(group, size)
    return [size] * whole + ([rest] if rest else [])


def _shape(side: Side, base: Outline, fitted: Sequence[Fitted]) -> LadderProfile:
    """The side as the whole rounds truly make it: as high as they reach, its rim where the designer wants it."""
    along = math.fsum(item.reached_mm for item in fitted)
    if along <= 0:
        raise CannotConstruct(
            "no-side-bands", (*side.path, "bands"), "side", kept("refusals.the-side-has-no-weaving"),
            (kept("refusals.give-at-least-one-band"), kept("refusals.leave-out-the-side-for")),
        )  # fmt: skip
    if any(item.band.ends_at for item in fitted):
        profile = profile_by_bands(base, [(item.reached_mm, item.band.ends_at) for item in fitted])
        if profile is None:
            raise _out_of_reach(base, fitted)
    else:
        profile = profile_by_way(side, base, along)
    if profile is None:
        rim = side.rim or base
        raise CannotConstruct(
            "rim-out-of-reach", (*side.path, "rim"), "side",
            kept("refusals.the-weaving-is-from-base", along=Length(along), length=Length(rim.length_mm), width=Length(rim.width_mm), length2=Length(base.length_mm), width2=Length(base.width_mm)),
            (kept("refusals.make-the-side-higher"), kept("refusals.bring-the-rim-nearer-to")),
        )  # fmt: skip
    return profile


def _out_of_reach(base: Outline, fitted: Sequence[Fitted]) -> CannotConstruct:
    """The first band that is too low for the change of size asked of it, by its name."""
    ends = [(item.reached_mm, item.band.ends_at) for item in fitted]
    place = next(place for place in range(len(ends)) if profile_by_bands(base, ends[: place + 1]) is None)
    item = fitted[place]
    below = next((end for _, end in reversed(ends[:place]) if end is not None), base)
    wanted = item.band.ends_at or below
    return CannotConstruct(
        "rim-out-of-reach", (*item.band.path, "ends_at"), item.band.name,
        kept("refusals.of-weaving-is-too-low", reached=Length(item.reached_mm), length=Length(below.length_mm), width=Length(below.width_mm), length2=Length(wanted.length_mm), width2=Length(wanted.width_mm)),
        (kept("refusals.give-the-band-more-rounds"), kept("refusals.let-it-end-nearer-to")),
    )  # fmt: skip


def _border(spec: Border | None, stakes: Sequence[Stake], uprights: int, perimeter_mm: float) -> WorkedBorder | None:
    if spec is None or not stakes:
        return None
    together = spec.plait.group if spec.plait else spec.groups
    chosen = ends_for(spec, stakes)
    posts = sum(stake.kind == "post" for stake in stakes)
    if spec.of != "all":
        uprights = len({stake.working for stake in chosen})
    elif posts:
        uprights -= posts
    count = max(uprights // max(together, 1), 1)
    worked = work_border(spec, count, perimeter_mm / count)
    all_of_them = spec.of == "all" and not posts
    return replace(worked, stakes=() if all_of_them else tuple(stake.number for stake in chosen))


def _foot_bands(basket: Basket, groups: tuple[int, ...], line: Curve) -> tuple[WovenBand, ...]:
    """The bands woven below the base, on the ends the foot border is made of: foot stakes of its own stand singly."""
    pattern, foot = basket.pattern, basket.foot
    if pattern.foot is None or foot is None or not pattern.foot.bands:
        return ()
    singly = pattern.foot.of != "all" or foot_ends(basket) == "of its own"
    ends = (1,) * foot.count if singly else groups
    return weave_bands(
        pattern.foot.bands,
        pattern,
        lambda size: regrouped(ends, size),
        lambda _: Ring(0.0, line.perimeter),
        None,
        "foot",
    )
