"""The border: each row from its first stake to its last, what is left slack and what goes under it, and the trimming."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from slath.basket.border_ends import foot_ends
from slath.basket.stakes import working_groups
from slath.messages import message
from slath.plan.acts import Untie
from slath.plan.border_rows import border_rows
from slath.units.counting import counted, in_words, ordinal
from slath.wording.border_path import (
    counted_rim,
    general_way,
    numbered_way,
    past_uprights,
    rim_of,
    those,
    threaded_way,
    where_it_stands,
    whose,
)
from slath.wording.figure_names import STAKING_PLAN, border_pass_names
from slath.wording.plait_step import plait_step
from slath.wording.speech import bracketed, sentence_case, verbatim
from slath.wording.willow import of_willow

if TYPE_CHECKING:
    from slath.basket.model import WorkedBorder
    from slath.plan.border_rows import BorderRow
    from slath.wording.border_path import Rim
    from slath.wording.told import Clause, ToldStage, ToldStep
    from slath.wording.work import Work


def border_stage(work: Work, border: WorkedBorder) -> ToldStage:
    """The stage of a border or a foot border that closes."""
    foot = border.spec.foot
    steps = [_ready(work, border)]
    if border.spec.plait is not None:
        steps.append(plait_step(work, border, border.spec.plait))
    else:
        steps += [_row(work, border, row) for row in border_rows(border)]
    steps.append(_trim(work, border))
    title = "The [foot border]" if foot else "The [border]"
    return work.stage("foot" if foot else "border", title, _lead(work, border), steps)


def border_name(border: WorkedBorder) -> str:
    """The kind of border in trade words, with its counts told by the steps and not by the name."""
    if border.spec.name or border.spec.kind in {"closed", "open"}:
        return bracketed(verbatim(border.spec.name)) or f"{border.spec.kind} [border]"
    if border.spec.plait is not None:
        return "[plaited border]"
    laid = border.spec.passes[0].laid_first
    if laid:
        return f"{in_words(laid)}-rod [plain border]"
    if border.spec.loop_height_mm is not None:
        return "scalloped [border]"
    if len(border.passes) == 1 and len({visit.face for visit in border.passes[0].visits}) > 1:
        return "[trac border]"
    return f"[border] of {counted(len(border.passes), 'row', 'rows')}"


def _lead(work: Work, border: WorkedBorder) -> str:
    mat = "Each [stick end] is a [stake] now. " if work.basket.profile is None and not border.spec.foot else ""
    rim, name = rim_of(work, border), border_name(border)
    article = "an" if name[0].casefold() in "aeiou" else "a"
    inside = " It is worked from the inside, and every move is told as you see it there." if rim.from_inside else ""
    told = f"{mat}This is {article} {name}, worked with {counted_rim(rim)}.{inside}"
    if border.spec.kind in {"closed", "open"}:
        told += (
            f" Its moves: {'; '.join(general_way(row.bends[len(row.bends) // 2], rim) for row in border_rows(border))}."
        )
    if len(border.passes) > 1:
        return f"{told} Each row goes all the way round before the next is begun."
    return told


def _ready(work: Work, border: WorkedBorder) -> ToldStep:
    """Damping, and the count before the first stake is bent; numbers are given afresh where the basket is turned over."""
    voice, spec = work.voice, border.spec
    flat = work.basket.profile is None and not spec.foot
    actions: list[Clause] = []
    if spec.foot:
        over = work.basket.foot_bands or foot_ends(work.basket) == "of its own"  # for the steps before
        actions.append("" if over else "Turn the work over, so that the ends underneath point upwards.")
    elif flat:
        actions.append("Check that the last round lies close all the way round, and press it home where it does not.")
    else:
        actions.append("Check that the last round lies level all the way round, and knock it down where it does not.")
    if spec.cut_to_one:
        actions.append("Cut off all but one of each group, close above the weaving.")
    if border.stakes and not spec.foot:
        others = (
            "the others have gone down to the foot"
            if foot_ends(work.basket) == "from the rim"
            else "leave the corner posts standing, to be cut off level with the [border] when it is done"
            if any(stake.kind == "post" for stake in work.basket.stakes)
            else "cut off the others, close above the weaving"
        )
        actions.append(f"Work with {whose_ends(work, border)}; {others}.")
    if not spec.foot and any(isinstance(act, Untie) for act in work.acts("border ready")):
        actions.append(message("willow.untie-the-tops" if of_willow(work) else "side.untie-the-string"))
    seen = "face towards you" if flat else "inside" if spec.from_inside else "outside"
    actions.append("Soak the ends until they bend round a finger where they leave the work.")
    if spec.foot:
        actions.append(f"Call any one of them 1, and count to the {voice.on} as you look at the {seen}.")
    else:
        actions.append(
            f"Find the one with the thread: it is number 1. Count from it to the {voice.on}, as you look at the {seen}."
        )
    row = work.quantities.foot if spec.foot else work.quantities.border
    reach = "reach" if flat else "stand"
    below = "beyond the weaving" if work.basket.foot_bands else "below the base"
    past = below if spec.foot else "beyond the weaving" if flat else "above the weaving"
    needed = f"Each must {reach} at least {voice.length(row.needed_mm.value)} {past}." if row else ""
    return work.step(
        "foot ready" if spec.foot else "border ready",
        "Make ready",
        actions,
        mends=[_too_short(work, border) if needed else ""],
        stops=[f"{counted_rim(rim_of(work, border))}. {needed}".strip()],
        figures=(STAKING_PLAN,) if work.basket.profile is None else (),
        does=(_bending(work, border), "damp", "check"),
        materials=_materials(work),
    )


def whose_ends(work: Work, border: WorkedBorder) -> str:
    """Whose ends make a border that not all are worked into: ``the left [stake] of each pair``."""
    kinds = {"stakes": "the [stakes]", "bye-stakes": "the [bye-stakes]", "through sticks": "the ends of the [sticks]"}
    of = border.spec.of
    if not of.endswith("group"):
        return kinds.get(of, "the [stakes]")
    side = work.voice.back if of.startswith("left") else work.voice.on
    groups = working_groups(work.basket.stakes)
    half = (groups[0] + 1) // 2 if of.startswith("left") else groups[0] // 2
    if len(set(groups)) > 1 or half < 2:
        return f"the {side} [stake] of each {'pair' if set(groups) == {2} else 'group'}"
    return f"the {in_words(half)} on the {side} of each group"


def _too_short(work: Work, border: WorkedBorder) -> str:
    """What can still be done about a stake that will not reach."""
    if border.spec.foot:
        return "A [stake] that is too short below is drawn down a little now."
    if work.basket.profile is None:
        return "An end that is too short is drawn out a little now, as far as the other end of its [stick] allows."
    return "A [stake] that is too short is drawn up a little now, or a new one is pushed down beside it."


def _materials(work: Work) -> tuple[str, ...]:
    return tuple(dict.fromkeys(stake.material for stake in work.basket.stakes))


# -------------------------------------------------------------------------------------------------------------- rows
def _row(work: Work, border: WorkedBorder, row: BorderRow) -> ToldStep:
    rim = rim_of(work, border, row=border.spec.passes[row.number - 1])
    if row.laid_first:
        told = _laid_first(work, row, rim)
    elif row.begins is None:
        told = _from_upright(work, row, rim)
        if border.spec.loop_height_mm is not None:
            told = _in_loops(work, told, border.spec.loop_height_mm)
    else:
        told = _from_ends(work, row, rim)
    prefix = "foot" if border.spec.foot else "border"
    title = (
        f"{sentence_case(ordinal(row.number))} row" if len(border.passes) > 1 else sentence_case(border_name(border))
    )
    laid = _laid_in(work, border, row)
    if laid:
        told = told._replace(start=[laid, *told.start])
    finish = _last_ones(row, rim)
    onward = len(told.start), len(told.start) + len(told.onward)
    figures = border_pass_names(border, row.number)
    heads = ((0, "The start"), (onward[0], "All the way round"), (onward[1], "The finish"))
    shown = [
        (place, figure, head)
        for (place, head), figure in zip(heads, figures, strict=True)
        if place < onward[1] + len(finish)
    ]
    return work.step(
        f"{prefix} {row.number}",
        title,
        [*told.start, *told.onward, *finish, *told.after],
        notes=[*told.notes, _if_estimated(row)],
        mends=told.mends,
        counts=[_after(row, rim)],
        figures=figures,
        does=(_bending(work, border),),
        materials=_materials(work),
        shown=shown,
    )


def _laid_in(work: Work, border: WorkedBorder, row: BorderRow) -> str:
    """Short stakes carried over with the ends of a roll, in its last row."""
    spec = border.spec.laid_in
    if spec is None or row.number != len(border.passes) or row.bends[-1].ending != "rolled":
        return ""
    (piece,) = work.pieces("stakes laid in")
    each = "every end" if spec.every == 1 else f"every {ordinal(spec.every)} end, beginning with the first"
    return (
        f"Take the {round(piece.count.value)} short [stakes], {work.voice.length(piece.cut_mm.value)} long, soaked as the "
        f"others. Beside {each} slip one in under the row below, as you come to it, and carry the two over together as one."
    )


class _Told(NamedTuple):
    """A row in the three phases its figures show, but for its finish; what is looked at after it; what can be mended."""

    start: list[str]
    onward: list[str]
    notes: list[str]
    mends: list[str]
    after: list[str] = []  # noqa: RUF012 - never changed


def _bending(work: Work, border: WorkedBorder) -> str:
    """What hands do: the work can be stood on its head in water only where there is a wall below the border."""
    return "flat border" if border.spec.foot or work.basket.profile is None else "border"


def _if_estimated(row: BorderRow) -> str:
    """How the last ends of a later row lie follows from the others all round; nobody has tried every border at the bench."""
    if row.begins is None or not row.slack:
        return ""
    return (
        "What the last ends go under is worked out from the way all the others lie, and estimated: "
        "compare with the row as it lies behind you, and make the join like the rest."
    )


def _slack(row: BorderRow, rim: Rim) -> str:
    """What stays open, and why; before the hand has pulled it tight."""
    if not row.slack:
        return ""
    them = "them" if len(row.slack) > 1 else "it"
    kept = those([replace(loop, kind="end") if loop.kind == "roll" else loop for loop in row.slack], rim)
    return f"Leave {kept} slack as you make {them}, wide enough for one more {rim.one} to pass: the last ones go under {them}."


def _from_upright(work: Work, row: BorderRow, rim: Rim) -> _Told:
    voice, (first, second, *_) = work.voice, row.bends
    start = [
        _slack(row, rim),
        f"Take {rim.at(1)} and bend it down to the {voice.on}, {numbered_way(first, rim)}.",
        f"Take {rim.at(2)}: {numbered_way(second, rim)}.",
    ]
    onward = [f"Go on to the {voice.on}, one after another: each goes {general_way(first, rim)}."]
    firm = "Bend each one close down on the work, so that the edge is firm."
    missed = (
        "If one still stands between two that are down, it was missed: lift those after it and bend it in its turn."
    )
    return _Told(start, [*onward, firm], [], [missed])


def _in_loops(work: Work, told: _Told, high_mm: float) -> _Told:
    """The same way made in loops that stand up, every one as high as the first."""
    high = work.voice.length(high_mm)
    loop = f"Do not draw it down: let it stand up in an even curve, {high} over the weaving."
    start = [*told.start[:2], loop, *told.start[2:]]
    even = "Look along the loops from the side, and push down or draw up each until all are of one height."
    return _Told(start, told.onward[:-1], [], told.mends, [even])


def _from_ends(work: Work, row: BorderRow, rim: Rim) -> _Told:
    """A later row, worked with the ends that the row before has left outside or inside."""
    voice, (first, second, *_) = work.voice, row.bends
    usual = row.bends[len(row.bends) // 2]
    start = [
        _slack(row, rim),
        f"Take the end of {rim.at(1)}: it {where_it_stands(first, rim)}.",
        f"Carry it to the {voice.on}, {numbered_way(first, rim)}.",
        f"Take the end of {rim.at(2)}, the next to the {voice.on}: {numbered_way(second, rim)}.",
    ]
    onward = [
        f"Go on in the same way with every end: {general_way(usual, rim)}.",
        "Pull each end home before you take the next; the row should lie like a cord.",
    ]
    if first.passes and first.passes[0].end == "over":
        return _Told(start, onward, ["Each end is held by the next one, which is carried over it."], [])
    twice = "If two ends go in at one place, the end before was carried one too far: undo back to it and go on."
    return _Told(start, onward, [], [twice])


def _last_ones(row: BorderRow, rim: Rim) -> list[str]:
    """The last ones by number, each with what it goes under, and the tightening."""
    last = row.last_ones
    if not last:
        return []
    several = len(last) > 1
    told = [
        f"The last {in_words(len(last)) if several else 'one'} {'are' if several else 'is'} worked through what you kept slack."
    ]
    for bend in last:
        way = threaded_way(bend, rim) if bend.threaded else numbered_way(bend, rim)
        told.append(f"{sentence_case(whose(bend, rim))} goes {way}.")
    told.append("Pull tight what you kept slack, one after another in the order you made it.")
    return told


def _laid_first(work: Work, row: BorderRow, rim: Rim) -> _Told:
    """A plain border: so many laid down, then the one furthest back moves and the next upright comes down beside it."""
    voice, laid = work.voice, row.laid_first
    lies, moves = row.turns(1)
    down = general_way(lies, rim)
    start = [
        _slack(row, rim),
        f"Bend down {rim.these(range(1, laid + 1))} to the {voice.on}, one after another, each {down}.",
        f"Take the end of {rim.at(1)}, the one furthest to the {voice.back}, and carry it to the {voice.on}: {numbered_way(moves, rim)}.",
        f"Bring the next upright, {rim.at(laid + 1)}, down beside it, {down}: the two lie as a pair."
        if row.ending == "out"
        else f"Bring the next upright, {rim.at(laid + 1)}, down in its turn, {down}.",
    ]
    onward = past_uprights(moves, rim, laid)
    if row.ending == "out":
        onward_told = [
            f"Do the same with {rim.at(2)} and {rim.at(laid + 2)}, and so on, until {in_words(laid)} pairs lie {rim.near}.",
            f"From now on take the pair furthest to the {voice.back}, and move only the longer one of it: {onward}.",
            "Bring the next upright down beside it each time. The shorter one of each pair is finished, and stays where it lies.",
        ]
    else:
        onward_told = [
            f"Do the same with {rim.at(2)} and {rim.at(laid + 2)}, and so on.",
            f"Always move the one furthest to the {voice.back} of those that lie {rim.near}: {onward}. Then bring the next upright down.",
        ]
    lost = (
        f"{sentence_case(rim.near)} there are always {in_words(laid)} that will still move. If you count another number, "
        "one was moved out of turn."
    )
    return _Told(start, [*onward_told, "Go on until none stands upright."], [lost], [])


def _after(row: BorderRow, rim: Rim) -> str:
    """What can be counted when a row is done."""
    if row.ending == "rolled":
        return f"Every one of the {rim.count} ends is held by the one after it; pull at each, and none comes up."
    if row.ending not in {"out", "in"}:
        return f"None of the {rim.count} still stands."
    return f"One end lies {row.bends[-1].steps[-1].side} in every [space], {rim.count} in all, and none over."


# ---------------------------------------------------------------------------------------------------------- trimming
def _trim(work: Work, border: WorkedBorder) -> ToldStep:
    last = border_rows(border)[-1].bends[-1]
    side = last.steps[-1].side
    on = "end that lies over it" if last.ending == "rolled" else "[stake] it rests on"
    whole = of_willow(work) and not border.spec.foot
    tail = work.setting("border_tail")
    if last.ending == "down":
        if not last.comes_out:
            legs = border.passes[-1].spec.legs_mm
            even: list[Clause] = [
                "Push every end down as far as it will go, so that the edge is even.",
                "Look along the edge from the side, and draw up or push down any that is out of line.",
            ]
            if legs is not None:
                even.append(f"Stand it up, and cut the legs off level, {work.voice.length(legs)} below the base.")
            return work.step("trim", "Even the edge", even)
        side, on = ("outside" if side == "inside" else "inside"), "side it comes through"
    actions: list[Clause] = [
        "Leave the work until it is dry.",
        f"Cut each end {side} with a slanting cut, so that it lies {tail} past the {on}.",
        "Run your hand round: nothing may catch.",
        message("willow.keep-the-tops") if whole else "",
    ]
    return work.step(
        "foot trim" if border.spec.foot else "border trim",
        "Trim the ends",
        actions,
        notes=["Wet ends shrink as they dry, and an end trimmed wet may slip back past the [stake] that holds it."],
        does=("trim border", "trim"),
    )
