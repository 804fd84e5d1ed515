"""A plan proved: the student does it, and the basket made is the model's, with every piece used as it is listed."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from tests.plan.basketry import Basketry, Rim
from tests.plan.oracle import changed_between, further_of, passes_of_band, rim_of, rows_cover
from tests.plan.student import Stuck, Student

from slath.basket.courses import runs_on
from slath.basket.model import Basket, WovenBand
from slath.plan.acts import Act, Plan, Weave, WeaveBack, WeaveRow
from slath.plan.places import Upright
from slath.plan.planner import plan_of
from slath.quantities.results import Quantities


def verdict(plan: Plan, basket: Basket, quantities: Quantities | None = None) -> str:
    """Empty when the student makes the basket the model says; else what is wrong."""
    student = Student()
    try:
        made = student.make(plan)
    except Stuck as stuck:
        return f"stuck: {stuck}"
    for problem in (_weaving(plan, basket, made), _borders(plan, made, basket), _feet(made.feet, basket)):
        if problem:
            return problem
    used = student.used
    for one in basket.apart:
        apart, own = plan_of(one.basket), Student()
        problem = verdict(apart, one.basket)
        if problem:
            return f"{one.name}: {problem}"
        own.make(apart)
        for _ in range(one.count):
            used = used + own.used
    return _pieces(used, quantities) if quantities is not None else ""


def _weaving(plan: Plan, basket: Basket, made: Basketry) -> str:
    """Every band by itself: what passed each upright, on which side, in which order."""
    bands = [band for band in basket.woven if band.materials and band.rounds]
    worked = [step for stage in plan.stages for step in stage.steps if any(isinstance(act, _WORK) for act in step.acts)]
    order = {f"base band {place + 1}": band for place, band in enumerate(basket.base.bands)}
    order |= {f"band {band.index + 1}": band for band in basket.bands}
    order |= {f"foot band {place + 1}": band for place, band in enumerate(basket.foot_bands)}
    if Counter(step.key for step in worked) != Counter(key for key, band in order.items() if band in bands):
        return f"bands worked: {[step.key for step in worked]}"
    beyond = dict(zip(order, [*list(order.values())[1:], None], strict=True))
    for step in worked:
        band, following = order[step.key], beyond[step.key]
        if following is not None and (following.part != band.part or changed_between(basket, following)):
            following = None
        beyond_it = beyond[step.key]
        held = beyond_it is not None and runs_on(basket, beyond_it)
        problem = _band(step.acts, made.by_step[step.key], band, following, held=held)
        if problem:
            return f"{step.key}: {problem}"
    return ""


_WORK = (Weave, WeaveBack, WeaveRow)


def _band(
    acts: tuple[Act, ...],
    woven: dict[Upright, list[tuple[str, str]]],
    band: WovenBand,
    following: WovenBand | None,
    *,
    held: bool,
) -> str:
    """What one step wove, against the band."""
    numbering = next(
        act.first.numbering if isinstance(act, WeaveRow) else act.on for act in acts if isinstance(act, _WORK)
    )
    if numbering.count != band.uprights:
        return f"{numbering.count} uprights, not {band.uprights}"
    if any(isinstance(act, WeaveRow) for act in acts):
        cover = [len(woven.get(unit[0], [])) for unit in numbering.units]
        turned = all(_alternate(woven.get(unit[0], [])) for unit in numbering.units)
        return "" if cover == rows_cover(band) and turned else f"rows cover {cover}"
    expected = passes_of_band(band, further_of(band, following), held=held)
    for number, (unit, meant) in enumerate(zip(numbering.units, expected, strict=True), start=1):
        for upright in unit:
            if woven.get(upright, []) != meant:
                return f"at {number}: {woven.get(upright, [])[:8]}, not {meant[:8]}"
    return ""


def _alternate(met: list[tuple[str, str]]) -> bool:
    return all(one[1] != other[1] for one, other in pairwise(met))


def _borders(plan: Plan, made: Basketry, basket: Basket) -> str:
    """Every border against one on a rim without an end: each end where it should lie, over and under what it should."""
    spec = {"border": basket.border, "foot": basket.foot}
    kinds = [stage.key for stage in plan.stages if any(step.key == f"{stage.key} 1" for step in stage.steps)]
    expected = [spec[key] for key in kinds if key in spec]
    if len(made.borders) != len(expected):
        return f"{len(made.borders)} borders, not {len(expected)}"
    for rim, border in zip(made.borders, expected, strict=True):
        assert border is not None
        if border.spec.plait is not None:
            ends = {number: gap for number, (gap, _, _) in rim.ends.items()}
            far = int(border.passes[-1].ends_at)
            if ends != {number: (number + far - 1) % border.count + 1 for number in range(1, border.count + 1)}:
                return "ends of the plait"
            continue
        meant = rim_of(border)
        if rim.ends != meant.ends:
            return f"ends: {rim.ends} not {meant.ends}"
        if rim.crossings() != meant.crossings():
            return _differ(rim, meant)
    return ""


def _differ(rim: Rim, meant: Rim) -> str:
    one, other = rim.crossings(), meant.crossings()
    for made in sorted(other):
        if one.get(made) != other[made]:
            return f"crossings of {made}: {one.get(made)}, not {other[made]}"
    return "crossings"


def _feet(feet: dict[int, list[Upright]], basket: Basket) -> str:
    """Every foot beside the stake the pattern names by its number at the base."""
    numbered = {
        stake.number: Upright("post" if stake.kind == "post" else "stake", index)
        for index, stake in enumerate(basket.stakes)
        if stake.kind != "bye-stake"
    }
    meant = {
        place: [numbered[number] for number in handle.feet_at] for place, handle in enumerate(basket.handles, start=1)
    }
    return (
        "" if {key: value for key, value in meant.items() if value} == dict(feet) else f"feet {dict(feet)}, not {meant}"
    )


def _pieces(used: Counter[tuple[str, str]], quantities: Quantities) -> str:
    """Everything listed is used, as often as listed, and nothing else is."""
    listed: Counter[tuple[str, str]] = Counter()
    for piece in quantities.pieces:
        listed[piece.part, piece.material] += round(piece.count.value)
    for run in quantities.strands:
        listed["strand", run.material] += run.rods
    return "" if listed == used else f"used {dict(used - listed)} more, {dict(listed - used)} less than listed"
