"""The shape of a side in words: which way the stakes lean at first, where it turns, and how wide it is at a height."""

from __future__ import annotations

from slath.basket.model import Profile
from slath.language.pattern import Outline
from slath.messages import Length, Listed, Message, message
from slath.wording.told import Clause
from slath.wording.work import Work

_NOTICED_MM = 3.0  # widths that differ by less look alike to the hand
_SAMPLES = 64
_SQUARE = {"rectangle", "rounded rectangle"}


def lean(work: Work) -> Clause:
    """How the stakes are to lean: from the base, by way of the widest and the narrowest places, to the rim."""
    profile = work.basket.profile
    if profile is None:
        return None
    places = turning_places(profile)
    widths = [width for _, width in places]
    told = [
        message("shape.at-a-height-of-it", height=Length(height), width=Length(width)) for height, width in places[1:-1]
    ]
    oval = _oval_rim(work, profile)
    if oval:
        return oval
    base, rim = Length(widths[0]), Length(widths[-1])
    if max(widths) - min(widths) < _NOTICED_MM:
        return message("shape.let-the-stakes-stand-straight")
    way = "outwards" if widths[1] > widths[0] else "inwards"
    by_way = Listed(tuple(told)) if told else None
    return message(f"shape.let-the-stakes-lean-{way}", base=base, by_way=by_way, rim=rim)


def _oval_rim(work: Work, profile: Profile) -> Clause:
    """A rim longer than wide: both its measures against those of the base, and which stakes stand at its two ends."""
    base, rim = profile.curve_at(0.0).outline, profile.curve_at(profile.height_mm).outline
    if rim.shape in _SQUARE or rim.length_mm - rim.width_mm < _NOTICED_MM:
        return None
    if max(abs(rim.length_mm - base.length_mm), abs(rim.width_mm - base.width_mm)) < _NOTICED_MM:
        return message("shape.let-the-stakes-stand-straight-2")
    told = message(
        "shape.let-the-stakes-lean-as",
        size_at=size_at(profile, 0.0),
        length=Length(rim.length_mm),
        width=Length(rim.width_mm),
    )
    if base.length_mm - base.width_mm >= _NOTICED_MM:
        return told
    first, count = _nearest(work, 0.0), len(work.basket.standing)
    other = (first - 1 + count // 2) % count + 1
    return message("shape.stakes-and-stand-at-the", told=told, first=first, other=other)


def _nearest(work: Work, place: float) -> int:
    """The number of the stake that stands nearest to a place round the edge."""
    return min(work.basket.standing, key=lambda stake: abs((stake.u - place + 0.5) % 1.0 - 0.5)).number


def corners(work: Work) -> Clause:
    """How the weaving is brought round the corners of a square basket; empty where it has none. Common practice, no source."""
    profile = work.basket.profile
    shape = profile.curve_at(profile.height_mm / 2).outline.shape if profile is not None else ""
    if shape == "half round":
        first, last = _along_the_back(work)
        return message("shape.at-both-ends-of-the-back", first=first, last=last)
    return message("shape.at-every-corner-bend-the") if shape in _SQUARE else None


def _along_the_back(work: Work) -> tuple[int, int]:
    """The numbers of the first and the last stake that stand along the straight back: the same at the rim as at the base."""
    profile = work.basket.profile
    curve = profile.curve_at(profile.height_mm) if profile is not None else work.basket.base.edge
    level = curve.outline.width_mm / 2
    along = [stake.number for stake in work.basket.standing if level - curve.point(stake.u)[1] < _NOTICED_MM]
    return min(along, default=1), max(along, default=1)


def leans(profile: Profile) -> bool:
    """Whether the side stands anything but straight up, so that its height is less than the way up it."""
    widths = [width for _, width in turning_places(profile)]
    base, rim = (profile.curve_at(height).outline.length_mm for height in (0.0, profile.height_mm))
    return max(widths) - min(widths) >= _NOTICED_MM or abs(rim - base) >= _NOTICED_MM


def bends(profile: Profile) -> bool:
    """Whether the side is anything but straight from base to rim."""
    base, rim = (_across(profile, height) for height in (0.0, profile.height_mm))
    middle = _across(profile, profile.height_mm / 2)
    return abs(middle - (base + rim) / 2) > _NOTICED_MM / 2 or len(turning_places(profile)) > 2


def way_of(profile: Profile, from_mm: float, to_mm: float) -> str:
    """Which way the side goes between two places measured along it: "outwards", "inwards", or nothing if it stands."""
    below, above = (_across(profile, profile.height_of(along)) for along in (from_mm, to_mm))
    if abs(above - below) < _NOTICED_MM:
        return ""
    return "outwards" if above > below else "inwards"


def size_at(profile: Profile, height_mm: float) -> Message:
    """How large the side is at a standing height: ``5 in across``, ``9 in by 6 in``."""
    outline: Outline = profile.curve_at(height_mm).outline
    if abs(outline.length_mm - outline.width_mm) < 0.5:
        return message("shape.across", width=Length(outline.width_mm))
    return message("shape.by", length=Length(outline.length_mm), width=Length(outline.width_mm))


def turning_places(profile: Profile) -> list[tuple[float, float]]:
    """(standing height, width) at the base, wherever the side turns from wider to narrower or back, and at the rim."""
    sampled = [profile.height_mm * index / _SAMPLES for index in range(_SAMPLES + 1)]
    ladder = [(height, _across(profile, height)) for height in sampled]
    places = [ladder[0]]
    for before, here, after in zip(ladder, ladder[1:], ladder[2:], strict=False):
        if (here[1] - before[1]) * (after[1] - here[1]) < 0 and abs(here[1] - places[-1][1]) >= _NOTICED_MM:
            places.append(here)
    return [*places, ladder[-1]]


def _across(profile: Profile, height_mm: float) -> float:
    return profile.curve_at(height_mm).outline.width_mm
