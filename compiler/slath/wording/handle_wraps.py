"""What is wound round a handle: ropes, laid on together or group by group, lappings and bindings."""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.model import WorkedHandle, WorkedWrap
from slath.messages import Length, Listed, Message, message
from slath.messages.values import CUT
from slath.quantities.handle_pieces import wrap_part
from slath.wording.stuff import colour_said, next_length, strand_said
from slath.wording.told import Clause, ToldStep
from slath.wording.work import Work

_CLOSE = 0.15  # share of a strand's width below which turns lie close
_BARE = frozenset({"wire", "cord"})  # ends of these are not laid under the turns
_FLATTER = message("handle.wind-flatter-or-steeper")


def wrap_step(work: Work, handle: WorkedHandle, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    """One wrap, as it is worked over the whole handle or at places of it."""
    spec = wrap.spec
    if spec.over_mm is not None:
        return _bound(work, handle, wrap, key, figure)
    return _of_tops(wrap, _whole_way(work, handle, wrap, key, figure))


def _of_tops(wrap: WorkedWrap, step: ToldStep) -> ToldStep:
    """The step with what its strands are, where they are tops of rods that were cut off."""
    return replace(step, actions=(message("willow.from-the-tops"), *step.actions)) if wrap.spec.offcuts else step


def _whole_way(work: Work, handle: WorkedHandle, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    spec = wrap.spec
    if spec.kind == "lapping":
        return _lapped(work, wrap, key, figure)
    if spec.group > 1:
        return _in_groups(work, handle, wrap, key, figure)
    return _roped(work, wrap, key, figure)


def _lapped(work: Work, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    close = _bare_mm(work, wrap) is None
    return work.step(
        key,
        message("handle.cover-it") if close else message("handle.wind-it"),
        [
            _taken(work, wrap),
            _begins(wrap) or message("handle.begin-at-one-foot"),
            _laid_under(work, wrap),
            *_turned(work, wrap),
        ],
        figures=(figure,),
        does=("wrap",),
        materials=wrap.spec.strands,
    )


def _taken(work: Work, wrap: WorkedWrap, *, places: int = 1) -> Message:
    """The strands taken up, or a length of wire or thread, so long."""
    count, cut = round(wrap.strands.value), Length(_cut_mm(work, wrap), CUT)
    first = wrap.spec.strands[0]
    if work.stock_kind(first) in _BARE:
        strand = strand_said(work.basket.pattern.materials[first])
        return message("handle.take-a-length", strand=strand, cut=cut, places=places, several=places > 1)
    return message("handle.take", count=count, colours=_colours(work, wrap), cut=cut, several=places > 1)


def _next_length(work: Work, wrap: WorkedWrap) -> Clause:
    """How a winding goes on that is longer than its material comes."""
    parts = {wrap_part(wrap, key, work.basket.pattern) for key in wrap.spec.strands}
    return next_length(
        [piece for piece in work.quantities.pieces if piece.part in parts and piece.path == wrap.spec.path]
    )


def _laid_under(work: Work, wrap: WorkedWrap) -> Message:
    if work.stock_kind(wrap.spec.strands[0]) in _BARE:
        return message("handle.leave-an-end")
    return message("handle.lay-the-first-end")


def _turned(work: Work, wrap: WorkedWrap) -> list[Clause]:
    """The turns as they come, close or with what is left bare, and how the last end is held."""
    turns, bare = max(round(wrap.turns), 1), _bare_mm(work, wrap)
    if bare is not None and turns > 1:
        wound = message("handle.turns-apart", turns=turns, bare=Length(bare))
    else:
        wound = message("handle.turns-close", turns=turns)
    kind = work.stock_kind(wrap.spec.strands[0])
    if kind == "wire":
        return [wound, message("handle.twist-both")]
    if kind == "cord":
        return [wound, _next_length(work, wrap), message("handle.knot-both")]
    return [wound, _next_length(work, wrap), message("handle.tuck-the-last")]


def _bare_mm(work: Work, wrap: WorkedWrap) -> float | None:
    """What shows between the turns; None where they lie close."""
    width = max(work.basket.pattern.materials[strand].width_mm for strand in wrap.spec.strands)
    return wrap.gap_mm if wrap.gap_mm > _CLOSE * width else None


def _begins(wrap: WorkedWrap) -> Clause:
    return message("handle.mark-where-it-begins", begins=Length(wrap.spec.from_mm)) if wrap.spec.from_mm else None


def _bound(work: Work, handle: WorkedHandle, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    """A binding over a part of the handle, such as over a scarf."""
    spec, swings = wrap.spec, handle.spec.family == "swinging"
    return work.step(
        key,
        message("handle.lap-the-ends") if swings else message("handle.bind-it"),
        [
            _taken(work, wrap, places=spec.places),
            _where(handle, wrap),
            _laid_under(work, wrap),
            *_turned(work, wrap),
        ],
        notes=[message("handle.it-hides-the-ends")] if swings else [],
        figures=(figure,),
        does=("wrap", "bind ends"),
        materials=spec.strands,
    )


def _where(handle: WorkedHandle, wrap: WorkedWrap) -> Message:
    spec, swings = wrap.spec, handle.spec.family == "swinging"
    over = Length(spec.over_mm or 0.0)
    if swings and spec.from_mm is None:
        return message("handle.bound-at-its-ears", count=handle.spec.count, places=spec.places, over=over)
    if spec.from_mm is None:
        return message("handle.bound-at", places=spec.places, over=over)
    begins = Length(spec.from_mm)
    return message("handle.bound-from", places=spec.places, over=over, begins=begins, swings=swings)


def _in_groups(work: Work, handle: WorkedHandle, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    """Strands laid side by side group after group until the bow is covered from end to end."""
    spec, swings = wrap.spec, handle.spec.family == "swinging"
    count, group = round(wrap.strands.value), spec.group
    groups, rest = divmod(count, group)
    sharing = message("handle.groups", groups=groups, group=group, rest=rest or None)
    actions: list[Clause] = [
        message(
            "handle.take-in-groups",
            count=count,
            colours=_colours(work, wrap),
            cut=Length(_cut_mm(work, wrap), CUT),
            sharing=sharing,
        ),
        message("handle.lay-the-first-group", group=group, swings=swings, tail=work.length_setting("rope_tail")),
        message("handle.wind-the-group", group=group, lay=Length(wrap.lay_mm)),
        message("handle.lay-the-next-group"),
        message("handle.thicker-at-its-ends") if swings else None,
        message("handle.leave-the-ties") if swings else message("handle.take-off-the-ties"),
        None if swings else message("handle.thread-all-ends"),
    ]
    return work.step(
        key,
        message("handle.wrap-by-groups"),
        actions,
        mends=[_FLATTER],
        stops=[message("handle.count-the-groups", count=count, several=handle.spec.count > 1, sharing=sharing)],
        figures=(figure,),
        does=("wrap", "tie") if swings else ("wrap", "tie", "open weave"),
        materials=spec.strands,
    )


def _roped(work: Work, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    spec = wrap.spec
    count, turns = round(wrap.strands.value), round(wrap.turns)
    full = spec.cover == "full"
    slant = message(
        "handle.keep-the-slant",
        lay=Length(spec.lay_mm) if spec.lay_mm else None,
        turns=message("handle.in-all", turns=turns) if turns > 1 else None,
    )
    actions: list[Clause] = [
        _taken(work, wrap),
        _begins(wrap),
        *_wound(work, wrap, count),
        slant,
        message("handle.second-group-back") if count > 3 and full else None,
        message("handle.thread-all-ends"),
    ]
    return work.step(
        key,
        message("handle.wrap-it"),
        actions,
        mends=[_FLATTER] if full else [],
        stops=[message("handle.count-the-strands", count=count)],
        figures=(figure,),
        does=("wrap", "open weave"),
        materials=spec.strands,
    )


def _wound(work: Work, wrap: WorkedWrap, count: int) -> list[Clause]:
    """How the strands of a rope wrap are put in and carried over: covering the bow, or apart with the bow between."""
    ends = message("handle.push-the-ends-in", count=count)
    if wrap.spec.cover == "spaced":
        gap = wrap.spec.gap_mm if wrap.spec.gap_mm is not None else work.basket.pattern.settings.mm("wrap_gap")
        return [
            ends,
            message("handle.wind-over-apart", count=count),
            message("handle.leave-bare", gap=Length(gap), count=count),
        ]
    close = _bare_mm(work, wrap) is None
    if count > 3:
        halves = message("handle.half-beside-each-leg", first=count - count // 2, rest=count // 2)
        return [halves, message("handle.first-group-over", close=close)]
    return [ends, message("handle.wind-over", count=count, close=close)]


def _cut_mm(work: Work, wrap: WorkedWrap) -> float:
    """The length a wrapping strand was cut to, as the cut list has it."""
    cut = [
        piece.cut_mm.value
        for piece in work.quantities.pieces
        if piece.part == wrap_part(wrap, piece.material, work.basket.pattern) and piece.path == wrap.spec.path
    ]
    return max(cut, default=wrap.strand_mm.value)


def _colours(work: Work, wrap: WorkedWrap) -> Listed | None:
    """The colours of strands of more than one."""
    keys = dict.fromkeys(wrap.spec.strands)
    if len(keys) < 2:
        return None
    return Listed(tuple(colour_said(key, work.basket.pattern.materials, keys) for key in keys))
