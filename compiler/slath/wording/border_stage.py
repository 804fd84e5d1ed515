"""The border: each row from its first stake to its last, what is left slack and what goes under it, and the trimming."""

from __future__ import annotations

from itertools import groupby
from operator import attrgetter
from typing import NamedTuple

from msgspec.structs import replace

from slath.basket.border_ends import foot_ends
from slath.basket.model import WorkedBorder
from slath.basket.stakes import working_groups
from slath.messages import Length, Listed, Message, message
from slath.messages.values import CUT
from slath.plan.acts import Untie
from slath.plan.border_rows import BorderRow, border_rows
from slath.wording.border_path import Rim, general_way, numbered_way, past_uprights, rim_of, those
from slath.wording.figure_names import STAKING_PLAN, border_pass_names
from slath.wording.plait_step import plait_step
from slath.wording.speech import own_words
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.willow import of_willow
from slath.wording.work import Work

_ONE_BY_ONE = 3  # things kept slack that are each named; of more, runs of a kind


def border_stage(work: Work, border: WorkedBorder) -> ToldStage:
    """The stage of a border or a foot border that closes."""
    foot = border.spec.foot
    steps = [_ready(work, border)]
    if border.spec.plait is not None:
        steps.append(plait_step(work, border, border.spec.plait))
    else:
        steps += [_row(work, border, row) for row in border_rows(border)]
    steps.append(_trim(work, border))
    title = message("border.the-border", foot=foot)
    return work.stage("foot" if foot else "border", title, _lead(work, border), steps)


def border_name(border: WorkedBorder) -> Message:
    """The kind of border in trade words, with its counts told by the steps and not by the name."""
    spec = border.spec
    if spec.name:
        return message("border.named", name=own_words(spec.name))
    if spec.kind in {"closed", "open"}:
        return message("border.closed") if spec.kind == "closed" else message("border.open")
    return message("border.plaited") if spec.plait is not None else _by_its_passes(border)


def _by_its_passes(border: WorkedBorder) -> Message:
    spec = border.spec
    laid = spec.passes[0].laid_first
    if laid:
        return message("border.plain", laid=laid)
    if spec.loop_height_mm is not None:
        return message("border.scalloped")
    if len(border.passes) == 1 and len({visit.face for visit in border.passes[0].visits}) > 1:
        return message("border.trac")
    return message("border.of-rows", rows=len(border.passes))


def _lead(work: Work, border: WorkedBorder) -> Message:
    rim, rows = rim_of(work, border), border_rows(border)
    mat = work.basket.profile is None and not border.spec.foot
    ways = [general_way(row.bends[len(row.bends) // 2], rim) for row in rows]
    told = border.spec.kind in {"closed", "open"}
    return message(
        "border.whole",
        lead=message("border.lead", mat=mat, name=border_name(border), counted=rim.counted),
        inside=message("border.lead-inside") if rim.from_inside else None,
        moves=message("border.lead-moves", ways=Listed(tuple(ways))) if told else None,
        rows=message("border.lead-rows") if len(border.passes) > 1 else None,
    )


def _ready(work: Work, border: WorkedBorder) -> ToldStep:
    """Damping, and the count before the first stake is bent; numbers are given afresh where the basket is turned over."""
    spec = border.spec
    flat = work.basket.profile is None and not spec.foot
    actions: list[Clause] = []
    if spec.foot:
        over = work.basket.foot_bands or foot_ends(work.basket) == "of its own"  # for the steps before
        actions.append(None if over else message("border.turn-over"))
    else:
        actions.append(message("border.lies-close") if flat else message("border.lies-level"))
    if spec.cut_to_one:
        actions.append(message("border.cut-to-one"))
    if border.stakes and not spec.foot:
        actions.append(message("border.work-with", ends=whose_ends(work, border), others=_others(work)))
    untied = not spec.foot and any(isinstance(act, Untie) for act in work.acts("border ready"))
    if untied:
        actions.append(message("willow.untie-the-tops") if of_willow(work) else message("side.untie-the-string"))
    actions.append(message("border.soak"))
    if spec.ring and not spec.foot:
        (ring,) = work.pieces("rim ring")
        actions.append(message("border.lay-the-ring", cut=Length(ring.cut_mm.value, CUT)))
    inside = spec.from_inside
    actions.append(
        message("border.find-thread-foot")
        if spec.foot and work.basket.foot_bands
        else message("border.call-one", inside=inside)
        if spec.foot
        else message("border.find-thread", inside=inside, flat=flat)
    )
    row = work.quantities.foot if spec.foot else work.quantities.border
    counted = rim_of(work, border).counted
    stop = message("border.count-ready", counted=counted)
    if row:
        stop = message(
            "border.count-and-length",
            counted=counted,
            stand=not flat,
            needed=Length(row.needed_mm.value),
            below=spec.foot and not work.basket.foot_bands,
            above=not spec.foot and not flat,
        )
    return work.step(
        "foot ready" if spec.foot else "border ready",
        message("border.make-ready"),
        actions,
        mends=[_too_short(work, border) if row else None],
        stops=[stop],
        figures=(STAKING_PLAN,) if work.basket.profile is None else (),
        does=(
            _bending(work, border),
            "damp",
            "check",
            *(("bundle",) if untied and of_willow(work) else ()),
            *(("trim",) if spec.cut_to_one else ()),
        ),
        materials=_materials(work),
    )


def _others(work: Work) -> Message:
    """What becomes of the stakes that make no part of the border."""
    if foot_ends(work.basket) == "from the rim":
        return message("border.others-gone")
    if any(stake.kind == "post" for stake in work.basket.stakes):
        return message("border.others-posts")
    return message("border.others-cut")


def whose_ends(work: Work, border: WorkedBorder) -> Message:
    """Whose ends make a border that not all are worked into: the left stake of each pair."""
    of = border.spec.of
    if not of.endswith("group"):
        if of == "bye-stakes":
            return message("border.ends-byes")
        return message("border.ends-sticks") if of == "through sticks" else message("border.ends-stakes")
    back = of.startswith("left")
    groups = working_groups(work.basket.stakes)
    half = (groups[0] + 1) // 2 if back else groups[0] // 2
    if len(set(groups)) > 1 or half < 2:
        return message("border.ends-one", back=back, pairs=set(groups) == {2})
    return message("border.ends-half", count=half, back=back)


def _too_short(work: Work, border: WorkedBorder) -> Message:
    """What can still be done about a stake that will not reach."""
    if border.spec.foot:
        return message("border.short-foot")
    return message("border.short-flat") if work.basket.profile is None else message("border.short-side")


def _materials(work: Work) -> tuple[str, ...]:
    return tuple(dict.fromkeys(stake.material for stake in work.basket.stakes))


# -------------------------------------------------------------------------------------------------------------- rows
def _row(work: Work, border: WorkedBorder, row: BorderRow) -> ToldStep:
    rim = rim_of(work, border, row=border.spec.passes[row.number - 1])
    if row.laid_first:
        told = _laid_first(row, rim)
    elif row.begins is None:
        told = _from_upright(row, rim)
        if border.spec.loop_height_mm is not None:
            told = _in_loops(told, border.spec.loop_height_mm)
    else:
        told = _from_ends(row, rim)
    prefix = "foot" if border.spec.foot else "border"
    several = len(border.passes) > 1
    title = message("border.row", number=row.number) if several else message("border.titled", title=border_name(border))
    laid = _laid_in(work, border, row)
    if laid:
        told = told._replace(start=[laid, *told.start])
    finish = _last_ones(row, rim)
    onward = len(told.start), len(told.start) + len(told.onward)
    figures = border_pass_names(border, row.number)
    heads = (
        (0, message("border.start")),
        (onward[0], message("border.onward")),
        (onward[1], message("border.finish")),
    )
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


def _laid_in(work: Work, border: WorkedBorder, row: BorderRow) -> Clause:
    """Short stakes carried over with the ends of a roll, in its last row."""
    spec = border.spec.laid_in
    if spec is None or row.number != len(border.passes) or row.bends[-1].ending != "rolled":
        return None
    (piece,) = work.pieces("stakes laid in")
    count, length = round(piece.count.value), Length(piece.cut_mm.value, CUT)
    if spec.every == 1:
        return message("border.laid-in-at-each", count=count, length=length)
    return message("border.laid-in", count=count, length=length, every=spec.every)


class _Told(NamedTuple):
    """A row in the three phases its figures show, but for its finish; what is looked at after it; what can be mended."""

    start: list[Clause]
    onward: list[Clause]
    notes: list[Clause]
    mends: list[Clause]
    after: list[Clause] = []  # noqa: RUF012 - never changed


def _bending(work: Work, border: WorkedBorder) -> str:
    """What hands do: the work can be stood on its head in water only where there is a wall below the border."""
    return "flat border" if border.spec.foot or work.basket.profile is None else "border"


def _if_estimated(row: BorderRow) -> Clause:
    """How the last ends of a later row lie follows from the others all round; nobody has tried every border at the bench."""
    return message("border.estimated") if row.begins is not None and row.slack else None


def _slack(row: BorderRow, rim: Rim) -> Clause:
    """What stays open, and why; before the hand has pulled it tight."""
    if not row.slack:
        return None
    kept = those([replace(loop, kind="end") if loop.kind == "roll" else loop for loop in row.slack], rim)
    return message("border.slack", loops=kept, count=len(row.slack), last=len(row.last_ones), bare=rim.bare)


def _from_upright(row: BorderRow, rim: Rim) -> _Told:
    first, second, *_ = row.bends
    start = [
        _slack(row, rim),
        message("border.take-first", one=rim.at(1), way=numbered_way(first, rim)),
        message("border.take-next", one=rim.at(2), way=numbered_way(second, rim)),
    ]
    onward: list[Clause] = [message("border.go-on", way=general_way(first, rim)), message("border.firm")]
    return _Told(start, onward, [], [message("border.missed")])


def _in_loops(told: _Told, high_mm: float) -> _Told:
    """The same way made in loops that stand up, every one as high as the first."""
    loop = message("border.loop-stands", high=Length(high_mm))
    start = [*told.start[:2], loop, *told.start[2:]]
    return _Told(start, told.onward[:-1], [], told.mends, [message("border.loops-even")])


def _from_ends(row: BorderRow, rim: Rim) -> _Told:
    """A later row, worked with the ends that the row before has left outside or inside."""
    first, second, *_ = row.bends
    usual = row.bends[len(row.bends) // 2]
    stands = first.steps[0]
    start = [
        _slack(row, rim),
        message(
            "border.take-end",
            one=rim.at(1),
            out=stands.side == rim.near,
            inside=stands.side == "inside",
            flat=rim.flat,
            between=rim.these(stands.gap.between),
        ),
        message("border.carry", way=numbered_way(first, rim)),
        message("border.take-next-end", one=rim.at(2), way=numbered_way(second, rim)),
    ]
    onward: list[Clause] = [message("border.every-end", way=general_way(usual, rim)), message("border.pull-home")]
    if first.passes and first.passes[0].end == "over":
        return _Told(start, onward, [message("border.held-by-next")], [])
    return _Told(start, onward, [], [message("border.twice")])


def _last_ones(row: BorderRow, rim: Rim) -> list[Clause]:
    """The last ones by number, each with what it goes under, and the tightening."""
    last = row.last_ones
    if not last:
        return []
    told: list[Clause] = [message("border.last-ones", count=len(last))]
    for bend in last:
        one, way, stands = rim.at(bend.loop.of.number), numbered_way(bend, rim), bend.loop.kind == "loop"
        back = _from_the_end(rim.count - bend.loop.of.number)
        if bend.threaded:
            loops = those(bend.threaded, rim)
            told.append(
                message("border.last-stands-under", one=one, back=back, way=way, loops=loops)
                if stands
                else message("border.last-end-under", one=one, back=back, way=way, loops=loops)
            )
        else:
            told.append(
                message("border.last-stands", one=one, back=back, way=way)
                if stands
                else message("border.last-end", one=one, back=back, way=way)
            )
    return [*told, _tightened(row, rim)]


def _from_the_end(back: int) -> Message:
    """Which of the last it is: what a reader of several sizes goes by, where their numbers differ."""
    if back > 1:
        return message("border.from-the-end", back=back + 1)
    return message("border.last-but-one") if back else message("border.the-last")


def _tightened(row: BorderRow, rim: Rim) -> Message:
    """What was kept slack drawn tight in the order it was made: a few one by one, more of them by runs of a kind."""
    slack = [replace(loop, kind="end") if loop.kind == "roll" else loop for loop in row.slack]
    runs = [[loop] for loop in slack]
    if len(slack) > _ONE_BY_ONE:
        runs = [list(run) for _, run in groupby(slack, key=attrgetter("kind"))]
    told = Listed(
        tuple(message("border.pull-next", first=not place, loops=those(run, rim)) for place, run in enumerate(runs))
    )
    return message("border.pull-tight", several=len(slack) > 1, loops=told)


def _laid_first(row: BorderRow, rim: Rim) -> _Told:
    """A plain border: so many laid down, then the one furthest back moves and the next upright comes down beside it."""
    laid, pairs, inside = row.laid_first, row.ending == "out", rim.near == "inside"
    lies, moves = row.turns(1)
    down, onward = general_way(lies, rim), past_uprights(moves, rim, laid)
    below = rim.at(laid + 1)
    start = [
        _slack(row, rim),
        message("border.bend-down-first", these=rim.these(range(1, laid + 1)), way=down),
        message("border.take-furthest", one=rim.at(1), way=numbered_way(moves, rim)),
        message("border.bring-down-beside", one=below, way=down)
        if pairs
        else message("border.bring-down", one=below, way=down),
    ]
    first, second = rim.at(2), rim.at(laid + 2)
    told: list[Clause] = (
        [
            message("border.same-until-pairs", first=first, second=second, count=laid, inside=inside),
            message("border.longer-of-pair", way=onward),
            message("border.next-each-time"),
        ]
        if pairs
        else [
            message("border.same", first=first, second=second),
            message("border.move-furthest", inside=inside, way=onward),
        ]
    )
    lost = message("border.still-to-move", inside=inside, count=laid)
    return _Told(start, [*told, _until_last(row, rim)], [lost], [])


def _until_last(row: BorderRow, rim: Rim) -> Clause:
    """How long all go the same way: uprights that come down among the last ones are left standing for them."""
    left = [bend.loop.of.number for bend in row.last_ones if bend.loop.kind == "loop"]
    return message("border.none-upright", left=rim.these(left) if left else None, many=len(left) > 1)


def _after(row: BorderRow, rim: Rim) -> Message:
    """What can be counted when a row is done."""
    if row.ending == "rolled":
        return message("border.all-held", count=rim.count)
    if row.ending not in {"out", "in"}:
        return message("border.none-of-counted", counted=rim.counted)
    return message(
        "border.one-in-each", inside=row.bends[-1].steps[-1].side == "inside", flat=rim.flat, count=rim.count
    )


# ---------------------------------------------------------------------------------------------------------- trimming
def _trim(work: Work, border: WorkedBorder) -> ToldStep:
    last = border_rows(border)[-1].bends[-1]
    inside = last.steps[-1].side == "inside"
    past = message("border.past-end") if last.ending == "rolled" else message("border.past-stake")
    if last.ending == "down":
        if not last.comes_out:
            legs = border.passes[-1].spec.legs_mm
            actions: list[Clause] = [
                message("border.push-down"),
                message("border.look-along"),
                message("border.legs-level", legs=Length(legs)) if legs is not None else None,
            ]
            return work.step("trim", message("border.even-edge"), actions)
        inside, past = border.spec.from_inside, message("border.past-side")
    tail = work.length_setting("border_tail")
    actions = [
        message("border.dry"),
        message("border.cut-ends", inside=inside, flat=rim_of(work, border).flat, tail=tail, past=past),
        message("border.run-hand"),
        message("willow.keep-the-tops") if of_willow(work) and not border.spec.foot else None,
    ]
    return work.step(
        "foot trim" if border.spec.foot else "border trim",
        message("border.trim"),
        actions,
        notes=[message("border.wet-ends")],
        does=("trim border", "trim"),
    )
