"""Stakes set into the base or the board, counted, and bent upright."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import groupby

from slath.basket.stake_places import changed_ends, stakes_at_ends
from slath.language.pattern import Board, ByeStakes, Frame, OvalSlath, RoundSlath, Stakes
from slath.messages import Length, Listed, Message, Numbers, message
from slath.plan.planner import bent_up
from slath.wording.base_stage import counting_sentence
from slath.wording.board import in_holes
from slath.wording.figure_names import PROFILE, STAKING_PLAN
from slath.wording.shape import lean, leans
from slath.wording.stuff import colour_said
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.willow import of_willow, pricked
from slath.wording.work import Work

_NOTICED_MM = 3.0  # a base longer than wide by less has no ends to begin at


def stakes_stage(work: Work) -> ToldStage | None:
    """Setting in the stakes, and the bye-stakes that go in at once; None where the sticks turn up and nothing is set in."""
    byes = [bye for bye in work.basket.pattern.bye_stakes if not bye.after_band]
    set_in = any(stake.kind == "stake" for stake in work.basket.stakes)
    if not set_in and not byes:
        return None
    spec, stakes = work.basket.pattern.base, work.basket.pattern.stakes
    if not set_in:
        steps = []
    elif isinstance(spec, Board) and stakes is not None:
        steps = [in_holes(work, spec, stakes, _in_turn(work, stakes))]
    elif _stand_at_ends(work):
        steps = [_beside_ends(work)]
    else:
        steps = [_spread_evenly(work)]
    steps += [bye_stakes_step(work, bye) for bye in byes]
    title = message("staking.the-stakes") if set_in else message("staking.the-bye-stakes")
    return work.stage("stakes", title, counting_sentence(work, "stakes"), steps)


def _stand_at_ends(work: Work) -> bool:
    """Whether the stakes go beside stick ends, and not round a mould, or by their count round the whole edge."""
    return bool(work.basket.base.sticks) and all(stake.end is not None for stake in work.basket.stakes)


def _beside_ends(work: Work) -> ToldStep:
    stakes = work.basket.pattern.stakes
    assert stakes is not None  # noqa: S101 - some stakes are set in
    depth = Length(_depth_mm(work))
    turned_up = _turned_up(work)
    actions: list[Clause] = [
        message("willow.slype-the-butts", crowned=_crowned(work))
        if of_willow(work)
        else message("staking.cut-one-end-of-each"),
        message("staking.begin-at-the-marked-stick"),
        message("staking.push-the-bodkin-into-the", depth=depth),
        message("staking.draw-it-out-and-slide", willow=of_willow(work)),
        message("staking.push-it-in-until-of", depth=depth),
        *_each_end(work),
        _extras(work),
        _in_turn(work, stakes),
        "" if turned_up else message("staking.move-the-thread-to-it"),
    ]
    mends = [message("staking.if-a-stake-buckles-draw")]
    return _set_in(work, stakes, actions, [message("staking.set-at-less-than-a", depth=depth)], mends)


def _crowned(work: Work) -> bool:
    """Whether the base is a dome, hollow on the side towards the maker."""
    spec = work.basket.pattern.base
    return isinstance(spec, RoundSlath | OvalSlath) and spec.crown_mm > 0


def _spread_evenly(work: Work) -> ToldStep:
    """Stakes given by their count alone, set in all round the edge of a base, or stood round a mould."""
    stakes, basket = work.basket.pattern.stakes, work.basket
    assert stakes is not None  # noqa: S101 - some stakes are set in
    set_in = sum(stake.kind == "stake" for stake in basket.stakes)
    apart = Length(work.quantities.base_spacing.value * basket.working / set_in)
    deep_mm = _depth_mm(work)
    depth = Length(deep_mm)
    alike = bool(basket.base.ends) and set_in == len(basket.base.ends) * basket.base.ends[0].stakes
    if basket.base.sticks:
        way = [
            message("staking.cut-one-end-of-each"),
            message("staking.push-the-bodkin-into-the-2", depth=depth),
            message("staking.slide-a-stake-into-the", depth=depth),
        ]
    elif stakes.doubled:
        way = [
            message("staking.double-over-the-ring", lengths=math.ceil(set_in / 2)),
            message("staking.two-halves-are-two-stakes"),
        ]
    elif deep_mm > 0:
        way = [message("staking.set-one-in-at-each", depth=depth)]
    else:
        way = [message("staking.stand-one-at-each-mark")]
    outline = basket.base.spec.outline
    begins = outline.length_mm - outline.width_mm > _NOTICED_MM and abs(basket.stakes[0].u % 1.0) < 1e-6
    actions: list[Clause] = [
        message("staking.mark-the-ring", lengths=set_in // 2, apart=Length(2 * apart.mm))
        if stakes.doubled
        else message("staking.mark-the-edge-of-the", set_in=set_in, apart=apart),
        message("staking.that-is-to-each-of", stakes=basket.base.ends[0].stakes, ends=len(basket.base.ends))
        if alike and not stakes.doubled
        else None,
        message("staking.begin-at-a-short-end") if begins else None,
        *way,
        _in_turn(work, stakes),
        message("staking.tie-a-thread-to-one", first=begins),
    ]
    notes: list[Clause] = [message("staking.mark-a-strip-of-paper")]
    return _set_in(work, stakes, actions, notes)


def _set_in(
    work: Work, stakes: Stakes, actions: list[Clause], notes: Sequence[Clause], mends: Sequence[Clause] = ()
) -> ToldStep:
    return work.step(
        "stakes",
        message("staking.hang-the-stakes") if stakes.doubled else message("staking.set-the-stakes-in"),
        actions,
        notes=notes,
        mends=mends,
        counts=[message("staking.are-set-in", stakes=len(work.basket.stakes) - _byes(work))],
        figures=(STAKING_PLAN,),
        does=("measure", "stake") if stakes.doubled else ("point", "stake", "measure"),
        materials=stakes.materials,
    )


def _in_turn(work: Work, stakes: Stakes) -> Clause:
    """Which material comes after which, from the first stake on."""
    if not stakes.in_turn:
        return None
    return message("staking.take-them-in-turn-all", turn_words=_turn_words(work, stakes.in_turn))


def _turn_words(work: Work, in_turn: tuple[str, ...]) -> Listed:
    """How many of each in turn: one natural, then two rust."""
    materials = work.basket.pattern.materials
    runs = [(key, len(list(run))) for key, run in groupby(in_turn)]
    return Listed(
        tuple(message("staking.so-many", many=many, colour=colour_said(key, materials, in_turn)) for key, many in runs)
    )


def _depth_mm(work: Work) -> float:
    """How deep the stakes go, as the list has it: the first part of their length."""
    return work.pieces("stakes")[0].parts[0].value


def _byes(work: Work) -> int:
    """Uprights that are not set in as stakes are: bye-stakes, and posts at the corners."""
    return sum(stake.kind in {"bye-stake", "post"} for stake in work.basket.stakes)


def _turned_up(work: Work) -> bool:
    """Whether the sticks of the base turn up themselves, and stakes are only set in beside them."""
    return any(stake.kind == "through" for stake in work.basket.stakes)


def _each_end(work: Work) -> list[Clause]:
    """How many stakes at which ends, told by what the ends are."""
    ends, stakes = work.basket.base.ends, work.basket.pattern.stakes
    if stakes is not None and (_turned_up(work) or stakes.add_at or stakes.leave_out_at):
        counts = stakes_at_ends(work.basket.base, work.basket.pattern)
        at_ends = dict(zip((end.number for end in ends), counts, strict=True))
    else:
        at_ends = {end.number: end.stakes for end in ends}
    shares = set(at_ends.values())
    if len(shares) == 1:
        return [_at_end(shares.pop(), message("staking.each-stick-end"))]
    kinds: dict[tuple[str, int], list[int]] = {}
    for end in ends:
        kinds.setdefault((end.kind, at_ends[end.number]), []).append(end.number)
    told = []
    for (kind, share), numbers in kinds.items():
        whole_kind = all(at_ends[end.number] == share for end in ends if end.kind == kind)
        told.append(_at_end(share, _kind_words(kind, len(numbers)) if whole_kind else _numbered(numbers)))
    return told


def _at_end(stakes: int, where: Message) -> Clause:
    if stakes == 0:
        return message("staking.set-none-at", where=where)
    if stakes == 1:
        return message("staking.set-one-at-on-the", where=where)
    if stakes == 2:
        return message("staking.set-two-at-one-on", where=where)
    return message("staking.set-at", stakes=stakes, where=where)


def _kind_words(kind: str, ends: int) -> Message:
    """All ends of one kind: ``each of the 8 ends of the lengthwise [sticks]``."""
    names = {
        "lengthwise": message("staking.the-lengthwise-sticks"),
        "crosswise single": message("staking.the-single-crosswise-sticks"),
        "crosswise group": message("staking.the-grouped-crosswise-sticks"),
        "pierced": message("staking.the-slit-sticks"),
        "threaded": message("staking.the-threaded-sticks"),
        "half stick": message("staking.the-half-stick"),
        "extra end": message("staking.the-weavers-own-ends"),
    }
    return (
        message("staking.each-of-the-ends-of", ends=ends, names=names[kind])
        if ends > 1
        else message("staking.the-one-end-of", names=names[kind])
    )


def _numbered(numbers: list[int]) -> Message:
    return message("staking.stick-ends", ends=Numbers(tuple(numbers)))


def _extras(work: Work) -> Clause:
    """Where stakes are added or left out, as the construction places them: at the last ends."""
    stakes = work.basket.pattern.stakes
    if stakes is None or stakes.count is not None or _turned_up(work):
        return None
    taken = changed_ends(work.basket.base, work.basket.pattern)
    if not taken or stakes.add_at or stakes.leave_out_at:
        return None
    last = taken == [len(work.basket.base.ends) - 1]
    where = (
        message("staking.the-last-stick-end-where")
        if last
        else message("staking.counted-from-the-marked-one", numbered=_numbered(sorted({index + 1 for index in taken})))
    )
    one_left = {stakes_at_ends(work.basket.base, work.basket.pattern)[index] for index in taken} == {1}
    if stakes.leave_out and one_left:
        told = message("staking.only-one-at", where=where)
    elif stakes.leave_out and len(taken) > 1:
        told = message("staking.leave-out-one-at-each", where=where)
    elif stakes.leave_out:
        told = message("staking.leave-out-at", leave_out=stakes.leave_out, where=where)
    elif len(taken) > 1:
        told = message("staking.set-one-more-at-each", where=where)
    else:
        told = message("staking.set-more-at", add=stakes.add, where=where)
    return told


def bye_stakes_step(work: Work, bye: ByeStakes) -> ToldStep:
    """One set of second uprights, pushed down beside the stakes."""
    pieces = [piece for piece in work.pieces("bye-stakes") if piece.path[: len(bye.path)] == bye.path]
    count = round(math.fsum(piece.count.value for piece in pieces))
    deep_mm = pieces[0].parts[0].value
    depth = Length(deep_mm)
    actions: list[Clause] = [
        message("staking.cut-one-end-of-each-2"),
        message("staking.open-a-way-for-each") if deep_mm > 0 else None,
        message("staking.take-them-in-turn-and", turn_words=_turn_words(work, bye.in_turn)) if bye.in_turn else None,
        message("staking.push-one-down-into-the", hosts=_hosts(bye), depth=depth),
        message("staking.stop-when-all-are-in", count=count) if bye.count is not None and not bye.beside else None,
        message("staking.from-here-on-the-two", woven=bool(work.basket.bands)),
    ]
    return work.step(
        "bye-stakes",
        message("staking.set-the-bye-stakes"),
        actions,
        counts=[message("staking.are-set-in-2", count=count)],
        does=("point", "stake", "measure"),
        materials=tuple(dict.fromkeys(piece.material for piece in pieces)),
    )


def _hosts(bye: ByeStakes) -> Clause:
    """The stakes that have bye-stakes beside them."""
    if bye.beside:
        return message("staking.each-of-stakes", beside=Numbers(tuple(sorted(bye.beside))))
    if bye.every == 1:
        return message("staking.each-stake")
    return message("staking.every-stake-beginning-with-the", every=bye.every)


# -------------------------------------------------------------------------------------------------- bending upright
def _stand_up(work: Work) -> Clause:
    """What is counted when all are bent up; bye-stakes set at the start stand up with their stakes."""
    byes = len(work.basket.stakes) - len(work.basket.standing)
    posts = sum(stake.kind == "post" for stake in work.basket.standing)
    more = message("staking.and-beside-them", byes=byes) if byes else None
    more = message("staking.and-posts", posts=posts) if posts else more
    return message("staking.stand-up", standing=len(work.basket.standing) - posts, more=more)


def pricking_up_stage(work: Work) -> ToldStage | None:
    """Bending the stakes upright at the edge; None where none are."""
    base, basket = work.basket.pattern.base, work.basket
    if not bent_up(work.basket):
        return None
    through = isinstance(base, RoundSlath | OvalSlath | Frame) and base.become_stakes
    willow = of_willow(work)
    squeeze = pricked() if willow else message("staking.squeeze-a-stake-flat-with")
    stand = (
        message("staking.lean-as-the-side-will")
        if basket.profile and leans(basket.profile)
        else message("staking.stand-straight-up")
    )
    actions: list[Clause] = [
        message("staking.wet-the-stakes-where-they", willow=bool(willow)),
        message("staking.lay-the-base-down-with"),
        squeeze,
        message("staking.do-the-same-with-each"),
        message("staking.gather-the-and-tie-them", through=bool(through), stand=stand),
        message("willow.leave-tied") if willow else "",
    ]
    mends = [message("staking.a-stake-that-cracks-is") if not through else message("staking.a-stake-that-cracks-at")]
    step = work.step(
        "pricking up",
        message("staking.bend-the-stakes-upright"),
        actions,
        notes=[lean(work)],
        mends=mends,
        counts=[_stand_up(work)],
        figures=(PROFILE,) if not through else (STAKING_PLAN, PROFILE),
        does=("prick up", "damp", "prick" if willow else "squeeze"),
        materials=(basket.stakes[0].material,),
    )
    lead = (
        message("staking.each-end-of-a-stick", counting_sentence=counting_sentence(work, "stakes"))
        if through
        else message("staking.the-flat-base-becomes-a")
    )
    return work.stage("pricking up", message("staking.pricking-up"), lead, [step])
