"""The strands of one band, summed round by round, and the band's own measures."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.model import Profile, Round, WovenBand
from slath.basket.pitch import passes_at
from slath.basket.weave import colour_period, seen_step, step_words
from slath.language.pattern import SizedPattern, WeaveSpec
from slath.quantities.joins import joined
from slath.quantities.results import BandRow, StrandRun
from slath.quantities.take_up import TakeUpRule, take_up_rule
from slath.quantities.uprights import Upright
from slath.units import Amount, Basis, worked


def band_strands(band: WovenBand, upright: Upright, pattern: SizedPattern) -> tuple[StrandRun, ...]:
    """The band's strands by material, in the order the materials first appear from the leftmost strand."""
    return course_strands([(band, upright)], pattern)


def course_strands(course: Sequence[tuple[WovenBand, Upright]], pattern: SizedPattern) -> tuple[StrandRun, ...]:
    """The strands of bands that are worked with the same strands one after another, as of one band.

    The rounds of a chain and the halves of an arrow go on with the strands they have: they start and finish once.
    """
    first, _ = course[0]
    strands = Counter(key for rod in first.materials for key in rod)
    return tuple(joined([band for band, _ in course], key, _in_all(course, key, pattern), pattern) for key in strands)


def _in_all(course: Sequence[tuple[WovenBand, Upright]], key: str, pattern: SizedPattern) -> Amount:
    parts = [_woven(band, key, upright, pattern) for band, upright in course]
    if len(parts) == 1:
        return parts[0]
    first, _ = course[0]
    name = f"woven, {pattern.materials[key].title}, {first.spec.written_as}"
    return worked(name, math.fsum(part.value for part in parts), "mm", "sum of its parts", *parts, path=first.spec.path)


def band_row(
    band: WovenBand, runs: tuple[StrandRun, ...], profile: Profile | None, *, leftwards: bool = False
) -> BandRow:
    """The band's measures; its take-up is strand woven ÷ way covered, over all its rounds and strands.

    `profile` is the shape of the side it is woven on; None for a base, which lies flat. What its colours do is told as
    seen from outside, `leftwards` where the work runs right to left.
    """
    path = band.spec.path
    steps = seen_step(band.steps, leftwards=leftwards)
    rounds = Amount(f"rounds, {band.name}", len(band.rounds), "count", _rounds_basis(band), path=(*path, "rounds"))
    formula = "rounds × height of one round"
    along = worked(f"way covered, {band.name}", band.reached_mm, "mm", formula, rounds, band.pitch, path=path)
    return BandRow(
        name=band.name,
        course=band.spec.written_as,
        part=band.part,
        index=band.index,
        weave=band.spec.weave.label,
        rounds=rounds,
        pitch=band.pitch,
        height=_standing(band, along, profile),
        along=along,
        take_up=_mean_take_up(band, runs),
        asked_mm=band.asked_mm,
        left_over_mm=None if band.asked_mm is None else band.asked_mm - band.reached_mm,
        looks=step_words(steps, colour_period(band.materials)),
        steps=steps,
    )


def _standing(band: WovenBand, along: Amount, profile: Profile | None) -> Amount:
    name, path = f"standing height, {band.name}", band.spec.path
    if band.part == "foot":
        return worked(name, along.value, "mm", "straight down from the base", along, path=path)
    if profile is None:
        return Amount(name, 0.0, "mm", Basis.COUNTED, formula="lies flat", path=path)
    height = profile.height_of(band.to_mm) - profile.height_of(band.from_mm)
    return worked(name, height, "mm", "way covered, stood up by the slope of the side there", along, path=path)


def _woven(band: WovenBand, key: str, upright: Upright, pattern: SizedPattern) -> Amount:
    """Length of all strands of one material that goes into the band, without ends and joins."""
    material = pattern.materials[key]
    rule = take_up_rule(band, material, upright, pattern)
    strands = sum(rod.count(key) for rod in band.materials)
    return worked(
        f"woven, {material.title}, {band.name}",
        strands * math.fsum(_strand_round_mm(band, found, rule) for found in band.rounds),
        "mm",
        f"strands × sum over the rounds of (outline × take-up + 2 pi × how far out it lies), from {rule.words}",
        Amount("strands", strands, "count", Basis.COUNTED),
        *_round_amounts(band),
        *rule.amounts,
        path=band.spec.path,
    )


def _strand_round_mm(band: WovenBand, found: Round, rule: TakeUpRule) -> float:
    """One strand in one round: the way it covers × take-up, over the shares of the round worked in each way.

    A strand that lies mostly before the stakes goes a longer way round than the line on which they stand, one that lies
    mostly behind them a shorter: by 2π × how far out it lies on the mean (the length of a parallel curve, after Steiner).
    """
    passes = passes_at(band.spec.weave, band.uprights) / len(band.materials)
    shares = _shares(band, found.number)
    covered = math.fsum(share * found.perimeter_mm * rule.at(weave, found.spacing_mm) for share, weave in shares)
    return passes * (
        covered + math.fsum(share * 2 * math.pi * rule.beside_mm * _outward(weave) for share, weave in shares)
    )


def _outward(weave: WeaveSpec) -> float:
    """How much more of its way a strand lies before the stakes than behind them, as a share: 1/3 of a three-rod wale."""
    return sum(stroke.before - stroke.behind for stroke in weave.strokes) / weave.cycle if weave.cycle else 0.0


def _shares(band: WovenBand, row: int) -> list[tuple[float, WeaveSpec]]:
    """How much of a row is worked with which strokes. Rows of packing turn back; other rows go on round."""
    weave, cells = band.spec.weave, band.spec.cells
    shares = [
        ((cell.stakes[1] - cell.stakes[0] + 1) / band.uprights, replace(weave, strokes=cell.strokes or weave.strokes))
        for cell in cells
        if cell.rows[0] <= row <= cell.rows[1]
    ]
    if weave.kind != "packing" or not cells:
        shares.append((1.0 - math.fsum(share for share, _ in shares), weave))
    return shares


def _round_amounts(band: WovenBand) -> tuple[Amount, ...]:
    """Where the rounds lie follows from the height of one, so the length is never surer than that."""
    rounds = Amount("rounds", len(band.rounds), "count", _rounds_basis(band))
    if not band.rounds:
        return (rounds,)
    first, last = band.rounds[0], band.rounds[-1]
    measures = (
        ("outline at the first round", first.perimeter_mm),
        ("outline at the last round", last.perimeter_mm),
        ("spacing at the first round", first.spacing_mm),
        ("spacing at the last round", last.spacing_mm),
    )
    return (rounds, band.pitch, *(Amount(name, value, "mm", Basis.COUNTED) for name, value in measures))


def _rounds_basis(band: WovenBand) -> Basis:
    """Rounds given are given; rounds fitted to a height are as sure as the height of one round."""
    return Basis.GIVEN if band.spec.extent.rounds is not None else band.pitch.basis


def _mean_take_up(band: WovenBand, runs: tuple[StrandRun, ...]) -> Amount:
    strands = passes_at(band.spec.weave, band.uprights) * band.spec.weave.as_one
    covered = strands * math.fsum(
        found.perimeter_mm * math.fsum(share for share, _ in _shares(band, found.number)) for found in band.rounds
    )
    ratio = math.fsum(run.woven_mm.value for run in runs) / covered if covered else 1.0
    formula = "strand woven ÷ (outline of every round × strands)"
    used = tuple(run.woven_mm for run in runs)
    return worked(f"take-up, {band.name}", ratio, "ratio", formula, *used, path=band.spec.path)
