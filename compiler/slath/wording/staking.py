"""Stakes set into the base or the board, counted, and bent upright."""

from __future__ import annotations

from collections import Counter
from itertools import groupby
from typing import TYPE_CHECKING

from slath.language.pattern import Board, Frame, OvalSlath, RoundSlath
from slath.units.counting import in_words, listed
from slath.wording.base_stage import counting_sentence
from slath.wording.figure_names import PROFILE, STAKING_PLAN
from slath.wording.speech import figures, many
from slath.wording.stuff import colour_words

if TYPE_CHECKING:
    from slath.language.pattern import Stakes
    from slath.quantities.results import Piece
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work


def stakes_stage(work: Work) -> ToldStage | None:
    """Setting in the stakes; None where the sticks themselves turn up and nothing is set in."""
    if not any(stake.kind == "stake" for stake in work.basket.stakes):
        return None
    steps = [_in_holes(work) if work.basket.base.holes else _beside_ends(work)]
    if any(stake.kind == "bye-stake" for stake in work.basket.stakes):
        steps.append(bye_stakes_step(work))
    return work.stage("stakes", "The [stakes]", counting_sentence(work, "stakes"), steps)


def _beside_ends(work: Work) -> ToldStep:
    voice, stakes = work.voice, work.basket.pattern.stakes
    assert stakes is not None  # noqa: S101 - some stakes are set in
    (piece, *_) = work.pieces("stakes")
    depth = voice.length(_depth_mm(piece))
    actions = [
        "Cut one end of each [stake] to a [slype].",
        f"Push the [bodkin] into the weaving beside a [stick end], close along the [stick], {depth} deep.",
        "Draw it out and slide the [stake] into the way it has opened, pointed end first, its cut face against the [stick].",
        f"Push it in until {depth} of it is in the base.",
        *_each_end(work),
        _in_turn(work, stakes),
        f"Begin at the marked [stick end], and go round {voice.way_round} as you look at the underside.",
        f"Move the thread to the first one you set, on the {voice.back} of its [stick]: it is [stake] 1.",
    ]
    notes = [
        f"Set at less than {depth}, a [stake] works loose when the side is woven.",
        "If a [stake] buckles, draw it out, open the way again and wet its point.",
        _extras(work),
    ]
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


def _depth_mm(piece: Piece) -> float:
    """How deep the stakes go, as the list has it: the first part of their length."""
    return piece.parts[0].value


def _byes(work: Work) -> int:
    return sum(stake.kind == "bye-stake" for stake in work.basket.stakes)


def _each_end(work: Work) -> list[str]:
    """How many stakes at which ends, told by what the ends are."""
    ends = work.basket.base.ends
    shares = Counter(end.stakes for end in ends)
    if len(shares) == 1:
        return [_at_end(next(iter(shares)), "each [stick end]")]
    kinds: dict[tuple[str, int], list[int]] = {}
    for end in ends:
        kinds.setdefault((end.kind, end.stakes), []).append(end.number)
    told = []
    for (kind, stakes), numbers in kinds.items():
        whole_kind = all(end.stakes == stakes for end in ends if end.kind == kind)
        where = f"each of the {len(numbers)} ends of {_kind_words(kind)}" if whole_kind else _numbered(numbers)
        told.append(_at_end(stakes, where))
    return told


def _at_end(stakes: int, where: str) -> str:
    if stakes == 0:
        return f"Set none at {where}."
    if stakes == 1:
        return f"Set one at {where}, on the same side every time."
    if stakes == 2:
        return f"Set two at {where}, one on each side."
    return f"Set {in_words(stakes)} at {where}."


def _kind_words(kind: str) -> str:
    names = {
        "lengthwise": "the lengthwise [sticks]",
        "crosswise single": "the single crosswise [sticks]",
        "crosswise group": "the grouped crosswise [sticks]",
        "pierced": "the slit [sticks]",
        "threaded": "the threaded [sticks]",
        "half stick": "the [half stick]",
    }
    return names[kind]


def _numbered(numbers: list[int]) -> str:
    words = listed([str(number) for number in numbers])
    return f"[stick ends] {words}" if len(numbers) > 1 else f"[stick end] {words}"


def _extras(work: Work) -> str:
    """Where stakes are added or left out, as the construction places them: at the last ends."""
    stakes = work.basket.pattern.stakes
    if stakes is None or stakes.count is not None:
        return ""
    if stakes.leave_out:
        return f"Leave out {many(stakes.leave_out, 'stake')} at the last [stick ends], where the count comes round to the mark."
    if stakes.add:
        return f"Set {in_words(stakes.add)} more at the last [stick end], where the count comes round to the mark."
    return ""


def _in_holes(work: Work) -> ToldStep:
    stakes, voice, base = work.basket.pattern.stakes, work.voice, work.basket.pattern.base
    assert stakes is not None  # noqa: S101 - some stakes are set in
    assert isinstance(base, Board)  # noqa: S101 - only a board has holes
    (piece, *_) = work.pieces("stakes")
    below = sum(part.value for part in piece.parts if "foot" in part.name or part.name == "below the board")
    stand = (
        f"Let each stand {voice.length(below)} below the board."
        if below
        else "Let each stand level with the under face of the board."
    )
    actions = [
        "Push one [stake] up through each hole, from below.",
        stand,
        _in_turn(work, stakes),
        "Damp a [stake] that binds, and turn it as you push.",
        f"Tie a thread to one [stake]: it is the first, and you count from it to the {voice.on} as you look at the outside.",
    ]
    return work.step(
        "stakes",
        "Set the [stakes] in the holes",
        actions,
        notes=["The [foot border], worked first, holds the board." if work.basket.foot else ""],
        counts=[f"{figures(len(work.basket.stakes) - _byes(work), 'stake')} are set in."],
        figures=(STAKING_PLAN,),
        does=("stake", "mark", "measure"),
        materials=stakes.materials,
    )


def bye_stakes_step(work: Work) -> ToldStep:
    """Second uprights pushed down beside the stakes."""
    voice, spec = work.voice, work.basket.pattern.bye_stakes[0]
    (piece, *_) = work.pieces("bye-stakes")
    every = (
        "each [stake]" if spec.every == 1 else f"every {('second', 'third', 'fourth')[min(spec.every, 4) - 2]} [stake]"
    )
    count = round(sum(each.count.value for each in work.pieces("bye-stakes")))
    actions = [
        "Cut one end of each [bye-stake] to a [slype].",
        f"Take them in turn: {_turn_words(work, spec.in_turn)}, and so on." if spec.in_turn else "",
        f"Push one down into the weaving beside {every}, on its {voice.on}, {voice.length(_depth_mm(piece))} deep.",
        "From here on the two are woven as one.",
    ]
    return work.step(
        "bye-stakes",
        "Set the [bye-stakes]",
        actions,
        counts=[f"{figures(count, 'bye-stake')} are set in."],
        does=("point", "stake", "measure"),
        materials=tuple(dict.fromkeys(each.material for each in work.pieces("bye-stakes"))),
    )


# -------------------------------------------------------------------------------------------------- bending upright
def pricking_up_stage(work: Work) -> ToldStage | None:
    """Bending the stakes upright at the edge; None on a board, a mat, or where there is nothing to bend."""
    base, basket = work.basket.pattern.base, work.basket
    if isinstance(base, Board) or basket.profile is None or not basket.stakes:
        return None
    through = isinstance(base, RoundSlath | OvalSlath | Frame) and base.become_stakes
    willow = work.stock_kind(basket.stakes[0].material) == "willow"
    squeeze = (
        "Press the back of the knife into the [stake], close to the edge of the base, and bend it up over the blade with a half turn."
        if willow
        else "Squeeze a [stake] flat with round-nosed pliers, close to the edge of the base, and bend it up."
    )
    actions = [
        f"Wet the [stakes] where they leave the base, for as long as {'they soaked before' if not willow else 'it takes them to bend freely'}.",
        "Lay the base down with its underside on the table.",
        squeeze,
        "Do the same with each, all the way round.",
        f"Gather the {'ends' if through else 'tops'} and tie them together with string, loosely, so that they lean as the side will lean.",
    ]
    notes = [
        "A [stake] that cracks is drawn out and a spare one set in its place."
        if not through
        else "A [stake] that cracks at the bend is bound at once with a [strand] of the first round.",
        _lean(work),
    ]
    step = work.step(
        "pricking up",
        "Bend the [stakes] upright",
        actions,
        notes=notes,
        counts=[f"{figures(len(basket.stakes), 'stake')} stand up."],
        figures=(PROFILE,) if not through else (STAKING_PLAN, PROFILE),
        does=("prick up", "damp", "point" if willow else "squeeze"),
        materials=(basket.stakes[0].material,),
    )
    lead = (
        f"Each end of a [stick] turns up now and is a [stake]. {counting_sentence(work, 'stakes')}"
        if through
        else "The flat base becomes a basket here: the [stakes] are bent upright at its edge."
    )
    return work.stage("pricking up", "[Pricking up]", lead, [step])


def _lean(work: Work) -> str:
    """How the stakes are to lean: from the width at the base to the width at the rim."""
    finished, voice = work.quantities.finished, work.voice
    base, rim = finished.base_width.value, finished.rim_width.value
    if abs(rim - base) < 3.0:
        return "Let the [stakes] stand straight up: the rim is as wide as the base."
    way = "outwards" if rim > base else "inwards"
    return f"Let the [stakes] lean {way} from the first: the base is {voice.length(base)} wide and the rim is to be {voice.length(rim)}."
