"""Stakes set into the base or the board, counted, and bent upright."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from slath.basket.stake_places import changed_ends, stakes_at_ends
from slath.language.pattern import Board, Frame, OvalSlath, RoundSlath
from slath.units.counting import in_spans, in_words, ordinal
from slath.wording.base_stage import counting_sentence
from slath.wording.board import in_holes
from slath.wording.figure_names import PROFILE, STAKING_PLAN
from slath.wording.shape import lean, leans
from slath.wording.speech import figures, many
from slath.wording.stuff import colour_words

if TYPE_CHECKING:
    from slath.language.pattern import ByeStakes, Stakes
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work


def stakes_stage(work: Work) -> ToldStage | None:
    """Setting in the stakes; None where the sticks themselves turn up and nothing is set in."""
    if not any(stake.kind == "stake" for stake in work.basket.stakes):
        return None
    spec, stakes = work.basket.pattern.base, work.basket.pattern.stakes
    if isinstance(spec, Board) and stakes is not None:
        steps = [in_holes(work, spec, stakes, _in_turn(work, stakes))]
    elif _stand_at_ends(work):
        steps = [_beside_ends(work)]
    else:
        steps = [_spread_evenly(work)]
    byes = [bye for bye in work.basket.pattern.bye_stakes if not bye.after_band]
    steps += [bye_stakes_step(work, bye) for bye in byes]
    return work.stage("stakes", "The [stakes]", counting_sentence(work, "stakes"), steps)


def _stand_at_ends(work: Work) -> bool:
    """Whether the stakes go beside stick ends, and not round a mould, or by their count round the whole edge."""
    return bool(work.basket.base.sticks) and all(stake.end is not None for stake in work.basket.stakes)


def _beside_ends(work: Work) -> ToldStep:
    voice, stakes = work.voice, work.basket.pattern.stakes
    assert stakes is not None  # noqa: S101 - some stakes are set in
    depth = voice.length(_depth_mm(work))
    turned_up = _turned_up(work)
    first = f"the first one you set, on the {voice.back} of its [stick]"
    actions = [
        "Cut one end of each [stake] to a [slype].",
        f"Begin at the marked [stick end], and go round {voice.way_round} as you look at the underside.",
        f"Push the [bodkin] into the weaving beside the [stick end], close along the [stick], {depth} deep.",
        "Draw it out and slide the [stake] into the way it has opened, pointed end first, its cut face against the [stick].",
        f"Push it in until {depth} of it is in the base.",
        *_each_end(work),
        _extras(work),
        _in_turn(work, stakes),
        "" if turned_up else f"Move the thread to {first}: it is [stake] 1.",
    ]
    notes = [
        f"Set at less than {depth}, a [stake] works loose when the side is woven.",
        "If a [stake] buckles, draw it out, open the way again and wet its point.",
    ]
    return _set_in(work, stakes, actions, notes)


def _spread_evenly(work: Work) -> ToldStep:
    """Stakes given by their count alone, set in all round the edge of a base, or stood round a mould."""
    voice, stakes, basket = work.voice, work.basket.pattern.stakes, work.basket
    assert stakes is not None  # noqa: S101 - some stakes are set in
    set_in = sum(stake.kind == "stake" for stake in basket.stakes)
    apart = voice.length(work.quantities.base_spacing.value * basket.working / set_in)
    deep_mm = _depth_mm(work)
    depth = voice.length(deep_mm)
    alike = bool(basket.base.ends) and set_in == len(basket.base.ends) * basket.base.ends[0].stakes
    if basket.base.sticks:
        way = [
            "Cut one end of each [stake] to a [slype].",
            f"Push the [bodkin] into the weaving at a mark, {depth} deep, and draw it out.",
            f"Slide a [stake] into the way it has opened, pointed end first, until {depth} of it is in the base.",
        ]
    elif deep_mm > 0:
        way = [f"Set one in at each mark, {depth} deep."]
    else:
        way = ["Stand one at each mark and tie them with string, until the first rounds hold them."]
    actions = [
        f"Mark the edge of the base for {figures(set_in, 'stake')}, evenly all the way round: {apart} from one to the next.",
        f"That is {in_words(basket.base.ends[0].stakes)} to each of its {len(basket.base.ends)} ends." if alike else "",
        *way,
        _in_turn(work, stakes),
        f"Tie a thread to one of them: it is [stake] 1, and you count from it to the {voice.on} as you look at the outside.",
    ]
    notes = ["Mark a strip of paper as long as the edge first, and carry the marks over."]
    return _set_in(work, stakes, actions, notes)


def _set_in(work: Work, stakes: Stakes, actions: list[str], notes: list[str]) -> ToldStep:
    return work.step(
        "stakes",
        "Set the [stakes] in",
        actions,
        notes=notes,
        counts=[f"{figures(len(work.basket.stakes) - _byes(work), 'stake')} are set in."],
        figures=(STAKING_PLAN,),
        does=("point", "stake", "measure"),
        materials=stakes.materials,
    )


def _in_turn(work: Work, stakes: Stakes) -> str:
    """Which material comes after which, from the first stake on."""
    if not stakes.in_turn:
        return ""
    return f"Take them in turn, all the way round: {_turn_words(work, stakes.in_turn)}, and so on from the first again."


def _turn_words(work: Work, in_turn: tuple[str, ...]) -> str:
    """``one natural <plain>, then two rust <rust>``."""
    materials = work.basket.pattern.materials
    runs = [(key, len(list(run))) for key, run in groupby(in_turn)]
    return ", then ".join(f"{in_words(many)} {colour_words(key, materials, in_turn)}" for key, many in runs)


def _depth_mm(work: Work) -> float:
    """How deep the stakes go, as the list has it: the first part of their length."""
    return work.pieces("stakes")[0].parts[0].value


def _byes(work: Work) -> int:
    """Uprights that are not set in as stakes are: bye-stakes, and posts at the corners."""
    return sum(stake.kind in {"bye-stake", "post"} for stake in work.basket.stakes)


def _turned_up(work: Work) -> bool:
    """Whether the sticks of the base turn up themselves, and stakes are only set in beside them."""
    return any(stake.kind == "through" for stake in work.basket.stakes)


def _each_end(work: Work) -> list[str]:
    """How many stakes at which ends, told by what the ends are."""
    ends, stakes = work.basket.base.ends, work.basket.pattern.stakes
    if stakes is not None and (_turned_up(work) or stakes.add_at or stakes.leave_out_at):
        counts = stakes_at_ends(work.basket.base, work.basket.pattern)
        at_ends = dict(zip((end.number for end in ends), counts, strict=True))
    else:
        at_ends = {end.number: end.stakes for end in ends}
    shares = set(at_ends.values())
    if len(shares) == 1:
        return [_at_end(shares.pop(), "each [stick end]")]
    kinds: dict[tuple[str, int], list[int]] = {}
    for end in ends:
        kinds.setdefault((end.kind, at_ends[end.number]), []).append(end.number)
    told = []
    for (kind, share), numbers in kinds.items():
        whole_kind = all(at_ends[end.number] == share for end in ends if end.kind == kind)
        told.append(_at_end(share, _kind_words(kind, len(numbers)) if whole_kind else _numbered(numbers)))
    return told


def _at_end(stakes: int, where: str) -> str:
    if stakes == 0:
        return f"Set none at {where}."
    if stakes == 1:
        return f"Set one at {where}, on the same side every time."
    if stakes == 2:
        return f"Set two at {where}, one on each side."
    return f"Set {in_words(stakes)} at {where}."


def _kind_words(kind: str, ends: int) -> str:
    """All ends of one kind: ``each of the 8 ends of the lengthwise [sticks]``."""
    names = {
        "lengthwise": "the lengthwise [sticks]",
        "crosswise single": "the single crosswise [sticks]",
        "crosswise group": "the grouped crosswise [sticks]",
        "pierced": "the slit [sticks]",
        "threaded": "the threaded [sticks]",
        "half stick": "the [half stick]",
        "extra end": "the weavers' own ends",
    }
    return f"each of the {ends} ends of {names[kind]}" if ends > 1 else f"the one end of {names[kind]}"


def _numbered(numbers: list[int]) -> str:
    words = in_spans(numbers)
    return f"[stick ends] {words}" if len(numbers) > 1 else f"[stick end] {words}"


def _extras(work: Work) -> str:
    """Where stakes are added or left out, as the construction places them: at the last ends."""
    stakes = work.basket.pattern.stakes
    if stakes is None or stakes.count is not None or _turned_up(work):
        return ""
    taken = changed_ends(work.basket.base, work.basket.pattern)
    if not taken or stakes.add_at or stakes.leave_out_at:
        return ""
    last = taken == [len(work.basket.base.ends) - 1]
    where = (
        "the last [stick end], where the count comes round to the mark"
        if last
        else f"{_numbered(sorted({index + 1 for index in taken}))}, counted from the marked one, so that the gaps are spread"
    )
    if stakes.leave_out:
        each = " each" if len(taken) > 1 else ""
        return f"Leave out {many(1, 'stake') if len(taken) > 1 else many(stakes.leave_out, 'stake')}{each} at {where}."
    return f"Set {'one more each' if len(taken) > 1 else f'{in_words(stakes.add)} more'} at {where}."


def bye_stakes_step(work: Work, bye: ByeStakes) -> ToldStep:
    """One set of second uprights, pushed down beside the stakes."""
    pieces = [piece for piece in work.pieces("bye-stakes") if piece.path[: len(bye.path)] == bye.path]
    count = round(sum(piece.count.value for piece in pieces))
    deep_mm = pieces[0].parts[0].value
    depth = work.voice.length(deep_mm)
    actions = [
        "Cut one end of each [bye-stake] to a [slype].",
        "Open a way for each with the [bodkin], where the weaving is close." if deep_mm > 0 else "",
        f"Take them in turn: {_turn_words(work, bye.in_turn)}, and so on." if bye.in_turn else "",
        f"Push one down into the weaving beside {_hosts(bye)}, on its {work.voice.on}, {depth} deep.",
        f"Stop when all {in_words(count)} are in." if bye.count is not None and not bye.beside else "",
        "From here on the two are woven as one.",
    ]
    return work.step(
        "bye-stakes",
        "Set the [bye-stakes]",
        actions,
        counts=[f"{figures(count, 'bye-stake')} are set in."],
        does=("point", "stake", "measure"),
        materials=tuple(dict.fromkeys(piece.material for piece in pieces)),
    )


def _hosts(bye: ByeStakes) -> str:
    """The stakes that have bye-stakes beside them."""
    if bye.beside:
        each = "each of [stakes]" if len(bye.beside) > 1 else "[stake]"
        return f"{each} {in_spans(sorted(bye.beside))}"
    if bye.every == 1:
        return "each [stake]"
    return f"every {ordinal(bye.every)} [stake], beginning with the first"


# -------------------------------------------------------------------------------------------------- bending upright
def bent_up(work: Work) -> bool:
    """Whether stakes are bent upright at the edge and tied: not on a board, a mat, or where there is nothing to bend."""
    basket = work.basket
    return not isinstance(basket.pattern.base, Board) and basket.profile is not None and bool(basket.stakes)


def _stand_up(work: Work) -> str:
    """What is counted when all are bent up; bye-stakes set at the start stand up with their stakes."""
    byes = len(work.basket.stakes) - len(work.basket.standing)
    more = f", and {figures(byes, 'bye-stake')} beside them" if byes else ""
    return f"{figures(len(work.basket.standing), 'stake')} stand up{more}."


def pricking_up_stage(work: Work) -> ToldStage | None:
    """Bending the stakes upright at the edge; None where none are."""
    base, basket = work.basket.pattern.base, work.basket
    if not bent_up(work):
        return None
    through = isinstance(base, RoundSlath | OvalSlath | Frame) and base.become_stakes
    willow = work.stock_kind(basket.stakes[0].material) == "willow"
    squeeze = (
        "Prick the [stake] with the point of a knife, close to the edge of the base, turn the blade half round in it, and bend the [stake] up over it."
        if willow
        else "Squeeze a [stake] flat with round-nosed pliers, close to the edge of the base, and bend it up."
    )
    stand = "lean as the side will lean" if basket.profile and leans(basket.profile) else "stand straight up"
    actions = [
        f"Wet the [stakes] where they leave the base, for as long as {'they soaked before' if not willow else 'it takes them to bend freely'}.",
        "Lay the base down with its underside on the table.",
        squeeze,
        "Do the same with each, all the way round.",
        f"Gather the {'ends' if through else 'tops'} and tie them together with string, loosely, so that they {stand}.",
    ]
    notes = [
        "A [stake] that cracks is drawn out and a spare one set in its place."
        if not through
        else "A [stake] that cracks at the bend is bound at once with a [strand] of the first round.",
        lean(work),
    ]
    step = work.step(
        "pricking up",
        "Bend the [stakes] upright",
        actions,
        notes=notes,
        counts=[_stand_up(work)],
        figures=(PROFILE,) if not through else (STAKING_PLAN, PROFILE),
        does=("prick up", "damp", "prick" if willow else "squeeze"),
        materials=(basket.stakes[0].material,),
    )
    lead = (
        f"Each end of a [stick] turns up now and is a [stake]. {counting_sentence(work, 'stakes')}"
        if through
        else "The flat base becomes a basket here: the [stakes] are bent upright at its edge."
    )
    return work.stage("pricking up", "[Pricking up]", lead, [step])
