"""What is wound round a handle: ropes, laid on together or group by group, lappings and bindings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from slath.messages import message
from slath.quantities.handle_pieces import wrap_part
from slath.units.counting import counted, in_words, listed
from slath.wording.speech import figures, many
from slath.wording.stuff import colour_words, strand_words

if TYPE_CHECKING:
    from slath.basket.model import WorkedHandle, WorkedWrap
    from slath.wording.told import ToldStep
    from slath.wording.work import Work

_CLOSE = 0.15  # share of a strand's width below which turns lie close
_BARE = frozenset({"wire", "cord"})  # ends of these are not laid under the turns


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
    count = round(wrap.strands.value)
    title = "Cover the handle: [lapping]" if _bare_mm(work, wrap) is None else "Wind the handle"
    actions = [
        f"Take {many(count, 'strand')}{_colours(work, wrap)}, {work.voice.length(_cut_mm(work, wrap))} long.",
        _begins(work, wrap),
        *_laid_under(work, wrap),
        *_turned(work, wrap),
    ]
    return work.step(key, title, actions, figures=(figure,), does=("wrap",), materials=wrap.spec.strands)


def _laid_under(work: Work, wrap: WorkedWrap) -> list[str]:
    if work.stock_kind(wrap.spec.strands[0]) in _BARE:
        return ["Leave an end to fasten off with, and wind over the handle from there."]
    return ["Lay the first end along the bow and wind over it, so that it is held."]


def _turned(work: Work, wrap: WorkedWrap) -> list[str]:
    """The turns as they come, close or with what is left bare, and how the last end is held."""
    turns, bare = max(round(wrap.turns), 1), _bare_mm(work, wrap)
    number = counted(turns, "turn", "turns")
    way = (
        "each close against the last" if bare is None else f"{work.voice.length(bare)} of the handle bare between them"
    )
    kind = work.stock_kind(wrap.spec.strands[0])
    if kind == "wire":
        last = "Twist both ends together, cut them short, and press the twist down flat between two turns."
    elif kind == "cord":
        last = "Knot both ends together, and draw the knot in under the turns."
    else:
        last = "Tuck the last end back under the last turns and pull it tight."
    once = "" if turns == 1 or (bare is None and turns < 3) else f", {way}"
    return [f"Wind {number}{once}.", last]


def _bare_mm(work: Work, wrap: WorkedWrap) -> float | None:
    """What shows between the turns; None where they lie close."""
    width = max(work.basket.pattern.materials[strand].width_mm for strand in wrap.spec.strands)
    return wrap.gap_mm if wrap.gap_mm > _CLOSE * width else None


def _begins(work: Work, wrap: WorkedWrap) -> str:
    if not wrap.spec.from_mm:
        return ""
    return f"Mark the handle {work.voice.length(wrap.spec.from_mm)} along it from either foot: it is wound between the marks."


def _bound(work: Work, handle: WorkedHandle, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    """A binding over a part of the handle, such as over a scarf."""
    voice, spec = work.voice, wrap.spec
    one = many(round(wrap.strands.value), "strand") if work.stock_kind(spec.strands[0]) not in _BARE else "a length"
    if work.stock_kind(spec.strands[0]) in _BARE:
        one += f" of {strand_words(work.basket.pattern.materials[spec.strands[0]])}"
    each = "" if spec.places == 1 else ", for each place"
    actions = [
        f"Take {one}{_colours(work, wrap)}, {voice.length(_cut_mm(work, wrap))} long{each}.",
        _where(work, handle, wrap),
        *_laid_under(work, wrap),
        *_turned(work, wrap),
    ]
    over_ends = handle.spec.family == "swinging"
    return work.step(
        key,
        "Bind the handle" if not over_ends else "Lap the ends",
        actions,
        notes=["It hides the ends of the [strands] and the bindings: let it begin close to the [ear]."]
        if over_ends
        else [],
        figures=(figure,),
        does=("wrap", "bind ends"),
        materials=spec.strands,
    )


def _where(work: Work, handle: WorkedHandle, wrap: WorkedWrap) -> str:
    voice, spec = work.voice, wrap.spec
    over = voice.length(spec.over_mm or 0.0)
    where = "one place" if spec.places == 1 else f"{in_words(spec.places)} places"
    each = " each" if spec.places > 1 else ""
    if handle.spec.family == "swinging" and spec.from_mm is None:
        return f"{'Each bow' if handle.spec.count > 1 else 'The bow'} is bound at {where}, over {over}{each}, beginning at its [ears]."
    begins = ""
    if spec.from_mm is not None:
        level = "the [ear]" if handle.spec.family == "swinging" else "the [border]"
        begins = f", beginning {voice.length(spec.from_mm)} above {level}"
        begins += " on either side" if spec.places > 1 else ""
    return f"The handle is bound at {where}, over {over}{each}{begins}."


def _in_groups(work: Work, handle: WorkedHandle, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    """Strands laid side by side group after group until the bow is covered from end to end."""
    voice, spec = work.voice, wrap.spec
    count, group = round(wrap.strands.value), spec.group
    groups, rest = divmod(count, group)
    sharing = f"{in_words(groups)} groups of {in_words(group)}" + (f", and {in_words(rest)} more" if rest else "")
    lay = work.voice.length(wrap.lay_mm)
    both = handle.spec.family == "swinging"
    tail = work.setting("rope_tail")
    held = "close to one [ear]" if both else "beside one leg"
    actions = [
        f"Take {many(count, 'strand')}{_colours(work, wrap)}, each {voice.length(_cut_mm(work, wrap))} long: {sharing}.",
        f"Lay the first {in_words(group)} side by side on the bow {held}, {tail} of them below where the winding begins, and tie these ends.",
        f"Wind the {in_words(group)} on together, flat and without a crossing, one whole turn in every {lay}, and tie them at the far end.",
        "Lay the next group on close beside the first, at the same slant; then the next, until all lie side by side and the bow is covered.",
        "The bow is a little thicker where its ends are turned back: there the groups lie a hair apart."
        if both
        else "",
        "Leave the ties on until the ends are lapped."
        if both
        else "Thread all ends in under the [border] and tuck them away.",
    ]
    for_each = " for each bow" if handle.spec.count > 1 else ""
    return work.step(
        key,
        "Wrap the handle, group by group",
        actions,
        mends=["If the bow shows between the groups, wind a little flatter; if they pile up, a little steeper."],
        stops=[f"{figures(count, 'strand')}{for_each}, in {sharing}."],
        figures=(figure,),
        does=("wrap",) if both else ("wrap", "open weave"),
        materials=spec.strands,
    )


def _roped(work: Work, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    voice, spec = work.voice, wrap.spec
    count = round(wrap.strands.value)
    lay = f", one whole turn in every {voice.length(spec.lay_mm)}" if spec.lay_mm else ""
    turns = f": {counted(round(wrap.turns), 'turn', 'turns')} in all" if round(wrap.turns) > 1 else ""
    actions = [
        f"Take {many(count, 'strand')}{_colours(work, wrap)}, {'each ' if count > 1 else ''}{voice.length(_cut_mm(work, wrap))} long.",
        _begins(work, wrap),
        *_wound(work, wrap, count),
        f"Keep the slant even{lay}{turns}.",
        "Wind the second group back in the grooves beside the first." if count > 3 and spec.cover == "full" else "",
        "Thread all ends in under the [border] and tuck them away.",
    ]
    return work.step(
        key,
        "Wrap the handle",
        actions,
        mends=["If the bow shows between the [strands], wind a little flatter; if they pile up, a little steeper."]
        if spec.cover == "full"
        else [],
        stops=[
            f"{figures(count, 'strand')}{', one after another over the handle' if count > 1 else ' for the handle'}."
        ],
        figures=(figure,),
        does=("wrap", "open weave"),
        materials=spec.strands,
    )


def _wound(work: Work, wrap: WorkedWrap, count: int) -> list[str]:
    """How the strands of a rope wrap are put in and carried over: covering the bow, or apart with the bow between."""
    several = count > 1
    ends = f"Push {'their ends' if several else 'its end'} into the weaving beside one leg."
    if wrap.spec.cover == "spaced":
        gap = wrap.spec.gap_mm if wrap.spec.gap_mm is not None else work.basket.pattern.settings.mm("wrap_gap")
        return [
            ends,
            f"Wind {'them, side by side,' if several else 'it'} over the bow to the far leg.",
            f"Leave {work.voice.length(gap)} of the bow bare between one {'strand' if several else 'turn'} and the next.",
        ]
    bare = _bare_mm(work, wrap)
    way = "without a crossing" if bare is not None else "without a gap or a crossing"
    if count > 3:
        return [
            "Push half of them into the weaving beside one leg, and the rest beside the other.",
            f"Lay the first group side by side and wind it over the bow to the far leg, {way}.",
        ]
    return [
        ends,
        f"{'Lay them side by side and wind them' if several else 'Wind it'} over the bow to the far leg, {way}.",
    ]


def _cut_mm(work: Work, wrap: WorkedWrap) -> float:
    """The length a wrapping strand was cut to, as the cut list has it."""
    cut = [
        piece.cut_mm.value
        for piece in work.quantities.pieces
        if piece.part == wrap_part(wrap, piece.material, work.basket.pattern) and piece.path == wrap.spec.path
    ]
    return max(cut, default=wrap.strand_mm.value)


def _colours(work: Work, wrap: WorkedWrap) -> str:
    keys = dict.fromkeys(wrap.spec.strands)
    if len(keys) < 2:
        return ""
    return f", {listed([colour_words(key, work.basket.pattern.materials, keys) for key in keys])}"
