"""Handles: whether their feet have stakes to go down beside, face one another, and hold."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.handle_wrap import strands_to_cover
from slath.language.handle_kinds import SPANNING
from slath.language.pattern import Handle
from slath.messages.told import Spoken, told, word
from slath.rules.finding import Context, Finding, surely_less
from slath.rules.recount import multiple_of, ways_to
from slath.units.counting import in_spans

_SPAN_MISS = 2.0  # spacings of stakes by which a span may miss the stakes: a bow spreads or draws in the rim a little


def feet_face(context: Context) -> Iterator[Finding]:
    """A handle from side to side has a stake at each foot only on an even count; on an odd one it stands half a space off.

    Published baskets do stand bows on odd counts (Gill 1916: on 13, 17 and 21), so it is told and not refused.
    """
    stakes = len(context.basket.stakes)
    for handle in context.sized.handles:
        if handle.family not in SPANNING or stakes < 3:
            continue
        if len(handle.at) == 2:
            apart = (handle.at[1] - handle.at[0]) % stakes
            off = abs(2 * apart - stakes)
        else:
            off = stakes % 2
        if not off:
            continue
        ways = ways_to(context, multiple_of(2)) or (
            told("weave and border the side so that an even number holds: chase, pair or wale it"),
        )
        half = context.measure(off * context.basket.rim.perimeter / stakes / 2)
        yield Finding(
            (*handle.path, "at") if handle.at else (*handle.path, "kind"),
            _part(handle),
            told(
                "The feet do not face each other on {stakes} stakes: one stands {half} off the middle.",
                stakes=stakes,
                half=half,
            ),
            (
                *ways,
                *((told("set it at 1 and {stakes}", stakes=1 + stakes // 2),) if off > 1 else ()),
            ),
        )


def feet_span_rim(context: Context) -> Iterator[Finding]:
    """A handle over the top spans from one of its stakes to the other; a span far from that is another handle's."""
    place = {stake.number: stake.u for stake in context.basket.standing}
    rim = context.basket.rim
    for handle, worked in zip(context.sized.handles, context.basket.handles, strict=True):
        if handle.family not in SPANNING or handle.span_mm is None or len(worked.feet_at) < 2:
            continue
        left, right = worked.feet_at[:2]
        apart = math.dist(rim.point(place[left]), rim.point(place[right]))
        if abs(apart - handle.span_mm) <= _SPAN_MISS * context.basket.rim_spacing_mm:
            continue
        small = handle.span_mm < 0.75 * apart
        yield Finding(
            (*handle.path, "span"),
            _part(handle),
            told(
                "The handle is to span {span}, but the stakes its feet go down beside, {left} and {right}, stand {apart} apart at the rim.",
                span=context.measure(handle.span_mm),
                left=left,
                right=right,
                apart=context.measure(apart),
            ),
            (
                *((told("write kind: side for handles that stand at one place of the rim"),) if small else ()),
                told("name the stakes its feet go down beside (at)"),
                told("leave the span out: {apart}", apart=context.measure(apart)),
            ),
        )


def feet_still_stand(context: Context) -> Iterator[Finding]:
    """A foot cannot go down beside a stake that has been cut away by the time the handle is set."""
    if not any(change.action == "drop" for _, change, _ in context.basket.changes):
        return
    from slath.plan.planner import cut_away  # noqa: PLC0415 - the whole plan of the work, which few checks need

    gone = cut_away(context.basket)
    for handle, worked in zip(context.sized.handles, context.basket.handles, strict=True):
        lost = [number for number in worked.feet_at if number in gone]
        if not lost or handle.set_in == "at the upsett":
            continue
        which = (
            told("Stake {lost} is", lost=lost[0])
            if len(lost) == 1
            else told("Stakes {in_spans} are", in_spans=in_spans(lost))
        )
        yield Finding(
            (*handle.path, "at") if handle.at else (*handle.path, "kind"),
            _part(handle),
            told("{which} cut away on the way up, and a foot of the handle is to go down there.", which=which),
            (
                told("name stakes that reach the rim (at)"),
                told("leave these standing, and drop others (drop_stakes)"),
            ),
        )


def feet_inside_side(context: Context) -> Iterator[Finding]:
    """A foot can go no deeper beside its stake than the side is high."""
    profile = context.basket.profile
    for handle, worked in zip(context.sized.handles, context.basket.handles, strict=True):
        if profile is None or worked.foot_mm.value <= _at_most_along(context) + 0.5:
            continue
        yield Finding(
            (*handle.path, "feet"),
            _part(handle),
            told(
                "The feet go {foot} down; the side is only {along} from rim to base.",
                foot=context.measure(worked.foot_mm.value),
                along=context.measure(profile.along_mm),
            ),
            (told("let the feet go {along} down at most", along=context.at_most(profile.along_mm)),),
        )


def _at_most_along(context: Context) -> float:
    """How far it is from rim to base along the side, at most: rounds may come out higher than is estimated."""
    along = context.quantities.finished.along
    return along.value + surely_less(along)


def rope_covers(context: Context) -> Iterator[Finding]:
    """Rope strands listed one by one are wound as listed; where others would just cover the handle it is told."""
    for handle, worked in zip(context.sized.handles, context.basket.handles, strict=True):
        for wrap in worked.wraps:
            if wrap.spec.kind != "rope" or wrap.spec.cover != "full" or not wrap.spec.listed:
                continue
            widest = max(context.material(key).width_mm for key in wrap.spec.strands)
            listed, covering = len(wrap.spec.strands), strands_to_cover(wrap, widest)
            if listed == covering:
                continue
            lay = context.measure(wrap.girth_mm / math.tan(math.radians(wrap.angle_degrees)))
            comes = told("it shows between them") if listed < covering else told("they do not all lie flat on it")
            yield Finding(
                (*wrap.spec.path, "strands"),
                _part(handle),
                told(
                    "{listed#{listed} strand is|{listed} strands are} listed; at one turn in {lay} {covering} cover the handle, and {comes}.",
                    listed=listed,
                    lay=lay,
                    covering=covering,
                    comes=comes,
                ),
                (
                    told("list {covering} strands", covering=covering),
                    told("name one material, and they are counted"),
                    told("let it show: cover: spaced"),
                ),
            )


def _part(handle: Handle) -> Spoken:
    return word(f"{handle.kind} handle" if handle.kind not in {"ears", "ring"} else handle.kind)
