"""Handles: bent, pointed, pushed down beside their stakes, fastened, and wrapped."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.counting import counted, in_words, listed
from slath.wording.figure_names import handle_names, wrap_name
from slath.wording.speech import figures, many, verbatim
from slath.wording.stuff import colour_words, strand_words

if TYPE_CHECKING:
    from slath.basket.model import WorkedHandle, WorkedWrap
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work

BENT = frozenset(
    {"bow", "roped", "two-piece", "side"}
)  # handles whose pieces dry in their shape before they are set in


def handle_stage(work: Work) -> ToldStage | None:
    """Every handle of the basket; None where it has none."""
    handles = work.basket.handles
    if not handles:
        return None
    steps: list[ToldStep] = []
    for number, handle in enumerate(handles, start=1):
        steps += _handle(work, handle, number)
    several = len(handles) > 1 or handles[0].spec.count > 1
    return work.stage("handle", "The handles" if several else "The handle", verbatim(handles[0].spec.note), steps)


def _handle(work: Work, handle: WorkedHandle, number: int) -> list[ToldStep]:
    spec = handle.spec
    steps = []
    if spec.kind in BENT:
        steps.append(_bend(work, handle, number))
    if spec.kind == "ears":
        steps.append(_ears(work, handle, number))
    steps.append(_fix(work, handle, number))
    steps += [
        _wrap(work, wrap, f"handle {number} wrap {place}", wrap_name(number, place))
        for place, wrap in enumerate(handle.wraps, start=1)
    ]
    steps.append(_prove(work, handle, number))
    return steps


def _bend(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    spec, voice = handle.spec, work.voice
    pieces = spec.pieces if spec.kind != "two-piece" else max(spec.pieces, 2)
    each = "the piece" if pieces * spec.count == 1 else "each piece"
    bow = f"{voice.length(handle.span_mm)} apart and {voice.length(handle.rise_mm)} high"
    actions = [
        f"Soak {each} until it bends over your knee without a creak.",
        f"Bend it slowly, a little at a time, until its legs are {bow}.",
        "Tie the legs together with string and let it dry in that shape.",
    ]
    if spec.kind == "two-piece":
        lap = voice.length(spec.lap_mm) if spec.lap_mm is not None else work.setting("handle_lap")
        actions += [
            f"Shave one end of each piece to a long [scarf], {lap} long, so that the two lie together no thicker than one.",
            "Lay the two slopes together and bind them tight.",
        ]
    actions.append("Cut the ends of the legs to a long [slype], on the side that will lie against the [stake].")
    return work.step(
        f"handle {number} bend",
        "Bend the handle",
        actions,
        notes=["A piece that begins to splinter at the bend goes back into the water; do not force it."],
        figures=handle_names(number),
        does=("shave", "point", "soak", "measure"),
        materials=(spec.material,),
    )


def _ears(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    """The lugs that hold the ends of a handle."""
    below = f", {work.voice.length(handle.rise_mm)} below the top of its head" if handle.rise_mm else ""
    actions = [
        "Shave the lower end of each [ear] to a long flat point.",
        f"Cut a notch across its face{below}: the [border] will lie in it.",
        "Bore a hole through the middle of its head, with waste wood behind it: the handle hangs in it.",
        "Smooth the hole and all that stands above the [border].",
    ]
    return work.step(
        f"handle {number} ears",
        "Make the [ears]",
        actions,
        notes=["Leave the wood behind the notch as thick as the notch is deep, or the [ear] breaks there."],
        figures=handle_names(number),
        does=("shave", "drill", "measure"),
        materials=(handle.spec.material,),
    )


def _fix(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    spec, voice = handle.spec, work.voice
    foot = voice.length(handle.foot_mm.value)
    piece, it = ("the piece", "it") if spec.count == 1 else ("each piece", "each")
    tellers = {
        "twisted": [
            f"Push the butt of a rod down beside {_stake(handle, 0)}, {foot} deep.",
            "Twist the rod from its tip, like a rope, until the fibres open and it bends without kinking.",
            f"Carry it over, {voice.length(handle.rise_mm)} above the [border], and thread it through under the [border] at {_stake(handle, 1)}.",
            "Bring it back round the bow, following the twist, and tuck the end in beside the weaving.",
        ],
        "braided": [
            f"Plait the [strands] to {voice.length(handle.bow_mm.value)}, and bind both ends.",
            f"Push the ends down {_beside(handle)}, {foot} deep, and lash them to the [stakes].",
        ],
        "drop": [
            f"Bend {piece} round until it is {voice.length(handle.span_mm)} wide, with an eye at either end.",
            f"Wind its ends back round it from the eyes, {foot} of them.",
            f"Hang {it} by {_loop(work, handle)} through each eye and under the [border] {_beside(handle)}, so that it swings freely.",
        ],
        "ring": [
            f"Bend {piece} to a ring {voice.length(handle.span_mm)} across, lap its ends and bind them.",
            f"Fasten {it} with {_loop(work, handle)} under the [border] {_beside(handle)}.",
        ],
        "ears": [
            f"Count round from the mark and find {_the_stakes(handle)}.",
            f"Open a way down beside each of them, on its {voice.on}, with the [bodkin].",
            f"Push an [ear] down into each, {foot} deep, until the [border] lies in its notch.",
            *_fastened(work, handle),
        ],
    }
    usual = [
        f"Count round from the mark and find {_the_stakes(handle)}.",
        *_opposite(work, handle),
        f"Mark each leg {foot} from its end.",
        *_legs(work, handle),
        *_rise(work, handle),
        *_fastened(work, handle),
    ]
    under = [
        f"Count round from the mark and find {_the_stakes(handle)}.",
        *_opposite(work, handle),
        f"Lay each piece under the base from {_stake(handle, 0)} to {_stake(handle, 1)}, and bend it up the outside of the side.",
        f"Lead its ends up close along these [stakes] and over, {voice.length(handle.rise_mm)} above the [border].",
        "Lap the two ends and bind them, and lay the laps of the pieces at different places.",
        *_fastened(work, handle),
    ]
    return work.step(
        f"handle {number}",
        "Set the handle in",
        under if spec.through_base else tellers.get(spec.kind, usual),
        notes=["If the bow leans, draw up the leg on the high side; do not push the other deeper."]
        if spec.kind in BENT
        else [],
        figures=handle_names(number),
        does=("handle", "open weave", "measure"),
        materials=(spec.material,),
    )


def _legs(work: Work, handle: WorkedHandle) -> list[str]:
    """Each leg to its stake; where there are several handles, each handle to its own."""
    count = handle.spec.count
    each = len(handle.feet_at) // count
    if count > 1 and each > 1:
        stakes = [handle.feet_at[place * each : (place + 1) * each] for place in range(count)]
        places = [f"one at [stakes] {listed([str(number) for number in pair])}" for pair in stakes]
        return [
            f"Open a way down beside each of them, on its {work.voice.on}, with the [bodkin].",
            f"Push the legs of each handle down to their marks: {listed(places)}.",
        ]
    return [
        f"Open a way down beside {_stake(handle, 0)}, on its {work.voice.on}, with the [bodkin].",
        "Push the leg down to its mark.",
        f"Do the same with the other leg at {_stake(handle, 1)}." if len(handle.feet_at) > 1 else "",
    ]


def _stake(handle: WorkedHandle, place: int) -> str:
    if len(handle.feet_at) <= place:
        return "its [stake]"
    return f"[stake] {handle.feet_at[place]}"


def _the_stakes(handle: WorkedHandle) -> str:
    numbers = [str(number) for number in handle.feet_at]
    return f"[stakes] {listed(numbers)}" if len(numbers) > 1 else f"[stake] {''.join(numbers)}"


def _beside(handle: WorkedHandle) -> str:
    return f"beside {_the_stakes(handle)}" if handle.feet_at else "at its place"


def _opposite(work: Work, handle: WorkedHandle) -> list[str]:
    """Whether the two feet stand opposite, told so that the hand can check it by counting."""
    if len(handle.feet_at) != 2:
        return []
    first, second = handle.feet_at
    total = sum(stake.kind != "bye-stake" for stake in work.basket.stakes)
    one_way, other_way = abs(second - first) - 1, total - abs(second - first) - 1
    if one_way == other_way:
        return [f"There are {many(one_way, 'stake')} between them on either side: they face each other."]
    return [f"Between them stand {in_words(one_way)} on one side and {in_words(other_way)} on the other."]


def _rise(work: Work, handle: WorkedHandle) -> list[str]:
    if not handle.rise_mm:
        return []
    return [
        f"Measure from the [border] up to the under side of the bow: {work.voice.length(handle.rise_mm)}, and the same from both sides."
    ]


def _loop(work: Work, handle: WorkedHandle) -> str:
    """What a swinging handle hangs by."""
    lash = handle.spec.lash
    return f"a loop of {strand_words(work.basket.pattern.materials[lash])}" if lash else "a loop of [strand]"


def _fastened(work: Work, handle: WorkedHandle) -> list[str]:
    lash = handle.spec.lash
    binder = f"a lashing of {strand_words(work.basket.pattern.materials[lash])}" if lash else "a [strand]"
    held = "[ear]" if handle.spec.kind == "ears" else "leg"
    return [
        f"Fasten each {held}: pass {binder} round it and under the [border].",
        f"Draw it tight, cross it over the {held}, and tuck its ends away into the weaving.",
    ]


def _wrap(work: Work, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    voice, spec = work.voice, wrap.spec
    length = voice.length(_cut_mm(work, wrap))
    count = round(wrap.strands.value)
    colours = _colours(work, wrap)
    if spec.over_mm is not None:
        return _bound(work, wrap, key, figure)
    if spec.kind == "lapping":
        turns = round(wrap.turns)
        actions = [
            f"Take {many(count, 'strand')}{colours}, {length} long.",
            "Lay the first end along the bow and wind over it, so that it is held.",
            f"Wind on, each turn close against the last: about {turns} turns.",
            "Tuck the last end back under the last turns and pull it tight.",
        ]
        return work.step(
            key, "Cover the handle: [lapping]", actions, figures=(figure,), does=("wrap",), materials=spec.strands
        )
    lay = f", one whole turn in every {voice.length(spec.lay_mm)}" if spec.lay_mm else ""
    actions = [
        f"Take {many(count, 'strand')}{colours}, {'each ' if count > 1 else ''}{length} long.",
        *_wound(work, wrap, count),
        f"Keep the slant even{lay}.",
        "Wind the second group back in the grooves beside the first." if count > 3 and spec.cover == "full" else "",
        "Thread all ends in under the [border] and tuck them away.",
    ]
    return work.step(
        key,
        "Wrap the handle",
        actions,
        notes=["If the bow shows between the [strands], wind a little flatter; if they pile up, a little steeper."],
        stops=[
            f"{figures(count, 'strand')}{', one after another over the handle' if count > 1 else ' for the handle'}."
        ],
        figures=(figure,),
        does=("wrap", "open weave"),
        materials=spec.strands,
    )


def _bound(work: Work, wrap: WorkedWrap, key: str, figure: str) -> ToldStep:
    """A binding over a part of the handle, such as over a scarf."""
    voice, spec = work.voice, wrap.spec
    over = voice.length(spec.over_mm or 0.0)
    where = "one place" if spec.places == 1 else f"{in_words(spec.places)} places"
    each = "" if spec.places == 1 else ", for each place"
    actions = [
        f"Take {many(round(wrap.strands.value), 'strand')}{_colours(work, wrap)}, {voice.length(_cut_mm(work, wrap))} long{each}.",
        f"The handle is bound at {where}, over {over}{' each' if spec.places > 1 else ''}.",
        "Lay the first end along the handle and wind over it, so that it is held.",
        f"Wind {counted(round(wrap.turns), 'turn', 'turns')}, each close against the last.",
        "Tuck the last end back under the last turns and pull it tight.",
    ]
    return work.step(key, "Bind the handle", actions, figures=(figure,), does=("wrap",), materials=spec.strands)


def _wound(work: Work, wrap: WorkedWrap, count: int) -> list[str]:
    """How the strands of a rope wrap are put in and carried over: covering the bow, or apart with the bow between."""
    several = count > 1
    if wrap.spec.cover == "spaced":
        gap = wrap.spec.gap_mm if wrap.spec.gap_mm is not None else work.basket.pattern.settings.mm("wrap_gap")
        return [
            f"Push {'their ends' if several else 'its end'} into the weaving beside one leg.",
            f"Wind {'them, side by side,' if several else 'it'} over the bow to the far leg.",
            f"Leave {work.voice.length(gap)} of the bow bare between one {'strand' if several else 'turn'} and the next.",
        ]
    if count > 3:
        return [
            "Push half of them into the weaving beside one leg, and the rest beside the other.",
            "Lay the first group side by side and wind it over the bow to the far leg, without a gap or a crossing.",
        ]
    return [
        f"Push {'their ends' if several else 'its end'} into the weaving beside one leg.",
        f"{'Lay them side by side and wind them' if several else 'Wind it'} over the bow to the far leg, without a gap or a crossing.",
    ]


_STRANDS = {"rope": "rope strands", "lapping": "lapping strands", "twist": "twisting strands"}


def _cut_mm(work: Work, wrap: WorkedWrap) -> float:
    """The length a wrapping strand was cut to, as the cut list has it."""
    cut = [piece.cut_mm.value for piece in work.pieces(_STRANDS[wrap.spec.kind]) if piece.material in wrap.spec.strands]
    return max(cut, default=wrap.strand_mm.value)


def _colours(work: Work, wrap: WorkedWrap) -> str:
    keys = dict.fromkeys(wrap.spec.strands)
    if len(keys) < 2:
        return ""
    return f", {listed([colour_words(key, work.basket.pattern.materials, keys) for key in keys])}"


def _prove(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    feet, foot = ("[ears]", "An [ear]") if handle.spec.kind == "ears" else ("feet", "A foot")
    return work.step(
        f"handle {number} proved",
        "Prove it",
        [
            "Leave the basket until it is dry.",
            f"Lift it by the handle, empty, and look at both {feet}: neither may move.",
            "Load it and let it hang, and look again.",
        ],
        notes=[f"{foot} that creeps is fastened again, through another row of the weaving."],
        does=("handle load",),
    )
