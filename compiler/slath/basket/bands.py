"""Bands fitted in whole rounds, one above another, on a side or out from the slath."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.courses import in_step
from slath.basket.model import CannotConstruct, Round, WovenBand
from slath.basket.pitch import pitch_of
from slath.basket.used_up import Around, rounds_used
from slath.basket.weave import colour_step, holds
from slath.language.pattern import Band, Extent, SizedPattern
from slath.messages.told import kept
from slath.units import Amount, worked

MOST_ROUNDS = 5000  # a guard against absurd pitches, far above any basket


class Ring(Struct, frozen=True):
    """Where a round lies: its standing height and the perimeter there, mm."""

    height_mm: float
    perimeter_mm: float


class Fitted(Struct, frozen=True):
    """A band with its rounds counted, before it is laid on the shape: uprights, pitch and height reached."""

    band: Band
    uprights: int
    group_sizes: tuple[int, ...]
    rounds: int
    pitch: Amount
    asked_mm: float | None
    reached_mm: float
    tapers: bool = False


def weave_bands(
    bands: Sequence[Band],
    pattern: SizedPattern,
    groups: Callable[[int | str], tuple[int, ...]],
    ring: Callable[[float], Ring],
    room_mm: float | None,
    part: str,
    first_index: int = 0,
    core_mm: float = 0.0,
) -> tuple[WovenBand, ...]:
    """Fit `bands` into `room_mm` and lay their rounds: `groups` gives the working uprights when opened as asked,
    `ring` the height and perimeter at a way along, `core_mm` is half the width of a slath they go out from.
    """
    listed = [(band, groups(band.groups)) for band in bands]
    fitted = fit_bands(listed, pattern, room_mm, part, core_mm, around=lambda along: ring(along).perimeter_mm)
    return lay_bands(fitted, ring, first_index)


def fit_bands(
    bands: Sequence[tuple[Band, tuple[int, ...]]],
    pattern: SizedPattern,
    room_mm: float | None,
    part: str,
    core_mm: float = 0.0,
    *,
    around: Around = lambda _: 0.0,
) -> tuple[Fitted, ...]:
    """Whole rounds for every band. One band may go `to` the top or edge: it takes what the others leave of the room.

    `around` is the perimeter a way along, for bands that stop when their strands are used up. `room_mm` None: there is no height to reach (every band says how far it goes itself).
    """
    fixed: dict[int, Fitted] = {}
    used = 0.0
    for index, (band, group_sizes) in enumerate(bands):
        pitch = pitch_of(band, pattern, len(group_sizes))
        if pitch.value <= 0:
            raise CannotConstruct("no-height", band.path, part, kept("refusals.a-round-of-no-height", band=band.name))
        if band.extent.used is not None:
            rounds = rounds_used(band, pattern, group_sizes, pitch.value, used, around)
            fixed[index] = _fit(
                replace(band, extent=Extent(rounds=rounds, used=band.extent.used)), group_sizes, pitch, None, part
            )
            used += fixed[index].reached_mm
        elif band.extent.to is None:
            fixed[index] = _fit(band, group_sizes, pitch, _asked(band, core_mm + used), part)
            used += fixed[index].reached_mm
    filled: list[Fitted] = []
    for index, (band, group_sizes) in enumerate(bands):
        if index in fixed:
            filled.append(fixed[index])
            continue
        if room_mm is None:
            raise CannotConstruct(
                "height-not-given", (*band.path, "to"), part, kept("refusals.goes-to-the-top-but", band=band.name),
                (kept("refusals.give-the-side-a-height"), kept("refusals.give-the-band-its-rounds")),
            )  # fmt: skip
        pitch = pitch_of(band, pattern, len(group_sizes))
        fitted = _fit(band, group_sizes, pitch, max(room_mm - used, 0.0), part)
        used += fitted.reached_mm
        filled.append(fitted)
    return tuple(replace(item, tapers=_tapers(item.band, pattern)) for item in filled)


def _tapers(band: Band, pattern: SizedPattern) -> bool:
    """Whether any strand of a band is a rod that tapers."""
    return any(pattern.materials[key].stock.tapered for key in band.strands if key in pattern.materials)


def _asked(band: Band, begun_mm: float) -> float | None:
    """The height (or way out) the designer asks of a band in millimetres; None when it is given by rounds.

    `begun_mm` is how far from the middle of the base the band begins.
    """
    if band.extent.height_mm is not None:
        return band.extent.height_mm
    if band.extent.size_mm is not None:
        return max(band.extent.size_mm / 2 - begun_mm, 0.0)
    return None


def _fit(band: Band, group_sizes: tuple[int, ...], pitch: Amount, asked_mm: float | None, part: str) -> Fitted:
    if band.weave.kind == "open":
        height = asked_mm or 0.0
        return Fitted(band, len(group_sizes), group_sizes, 0, pitch, asked_mm, height)
    rounds = band.extent.rounds
    if rounds is None:
        rounds = max(1, round((asked_mm or 0.0) / pitch.value))
    if rounds > MOST_ROUNDS:
        raise CannotConstruct(
            "too-many-rounds", band.path, part, kept("refusals.would-take-rounds-more-than", band=band.name, rounds=rounds),
            (kept("refusals.check-the-height-and-the"),),
        )  # fmt: skip
    if band.keep == "height" and asked_mm:
        stretched = worked(
            f"height of one round, {band.name}",
            asked_mm / rounds,
            "mm",
            "height asked for ÷ whole rounds",
            pitch,
            path=(*band.path, "keep"),
        )
        pitch = stretched
    return Fitted(band, len(group_sizes), group_sizes, rounds, pitch, asked_mm, rounds * pitch.value)


def lay_bands(fitted: Sequence[Fitted], ring: Callable[[float], Ring], first_index: int = 0) -> tuple[WovenBand, ...]:
    """Lay fitted bands one beyond another, each round measured at its middle."""
    woven: list[WovenBand] = []
    along = 0.0
    for offset, item in enumerate(fitted):
        rounds = []
        for number in range(1, item.rounds + 1):
            middle = along + (number - 0.5) * item.pitch.value
            place = ring(middle)
            spacing = place.perimeter_mm / item.uprights if item.uprights else 0.0
            rounds.append(Round(number, place.height_mm, middle, place.perimeter_mm, spacing))
        woven.append(_woven(item, first_index + offset, tuple(rounds), along))
        along += item.reached_mm
    return in_step(woven)


def _woven(item: Fitted, index: int, rounds: tuple[Round, ...], from_mm: float) -> WovenBand:
    band = item.band
    materials = materials_of(band, item.uprights)
    return WovenBand(
        spec=band,
        index=index,
        uprights=item.uprights,
        group_sizes=item.group_sizes,
        materials=materials,
        rounds=rounds,
        pitch=item.pitch,
        asked_mm=item.asked_mm,
        reached_mm=item.reached_mm,
        interlocks=holds(band.weave, item.uprights, band.shift),
        steps=colour_step(band.weave, materials, item.uprights),
        start=1,
        from_mm=from_mm,
        tapers=item.tapers,
    )


def materials_of(band: Band, uprights: int) -> tuple[tuple[str, ...], ...]:
    """The material of each strand of each rod, leftmost rod first.

    The designer lists one material for all, one for each rod, or one for each strand of each rod. A French rand has a
    rod for every upright; its colours repeat round the basket.
    """
    weave = band.weave
    if weave.kind == "open":
        return ()
    strands = band.strands
    if weave.kind == "french rand":
        return tuple((strands[index % len(strands)],) for index in range(uprights))
    needed = weave.rods * weave.as_one
    if len(strands) == 1:
        return tuple((strands[0],) * weave.as_one for _ in range(weave.rods))
    if len(strands) == weave.rods:
        return tuple((key,) * weave.as_one for key in strands)
    if len(strands) == needed:
        return tuple(tuple(strands[rod * weave.as_one : (rod + 1) * weave.as_one]) for rod in range(weave.rods))
    raise CannotConstruct(
        "colours-not-strands",
        (*band.path, "strands"),
        band.name,
        kept("refusals.works-strands-are-listed", weave=weave.label, needed=needed, strands=len(strands)),
        (kept("refusals.list-strands", needed=needed), kept("refusals.list-one-material-for-all")),
    )
