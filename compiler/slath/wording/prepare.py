"""Preparing: sort, cut and count the pieces; keep colours apart; soak, with the sources and where they differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.trade.soaking import advice_for
from slath.units import counting
from slath.wording.speech import bracketed, sentence_case
from slath.wording.stuff import colour_words, material_words

if TYPE_CHECKING:
    from slath.language.pattern import Material
    from slath.quantities.results import Piece
    from slath.trade.soaking import SoakingAdvice
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work

_WOOD = {"wood", "dowel"}


def prepare_stage(work: Work) -> ToldStage:
    """Cutting, sorting colours and soaking."""
    steps = [_cutting(work)]
    if _dyed(work):
        steps.append(_colours(work))
    steps.append(_soaking(work))
    return work.stage(
        "prepare", "Before you begin", "Have everything cut, counted and soaked before the first stroke.", steps
    )


def _cutting(work: Work) -> ToldStep:
    pieces = work.quantities.pieces
    actions = [
        "Lay out the material and sort it by thickness."
        if _tapered(work)
        else "Uncoil the material and lay it out by thickness."
    ]
    if _tapered(work):
        actions.append("Keep the rods of one thickness together, with all the [butts] one way.")
    actions += [_cut(work, piece) for piece in pieces]
    actions.append("Tie each kind in a bundle and label it with what it is for.")
    notes = [_where_it_goes(work, piece) for piece in pieces if len(piece.parts) > 2]
    counts = [_tally(pieces)] if pieces else []
    keys = tuple(piece.material for piece in pieces)
    does = ("cut", "measure", "bundle")
    return work.step("cut", "Sort and cut", actions, notes=notes, counts=counts, does=does, materials=keys)


def _cut(work: Work, piece: Piece) -> str:
    """Say what to cut: so many of a part, from what, how long, and how many more to have in hand."""
    count = round(piece.count.value)
    each = f"each {_cut_length(work, piece)} long" if count > 1 else f"{_cut_length(work, piece)} long"
    spare = f", and {counting.in_words(piece.spare)} more to have in hand" if piece.spare else ""
    part = bracketed(_singular(piece.part) if count == 1 else piece.part)
    material = material_words(work.basket.pattern.materials[piece.material])
    return f"Cut {count} {part} from {material}, {each}{spare}."


def _cut_length(work: Work, piece: Piece) -> str:
    return work.voice.length(piece.cut_mm.value)


def _singular(part: str) -> str:
    return part.removesuffix("s")


def _where_it_goes(work: Work, piece: Piece) -> str:
    """Of each stake so much goes here and so much there."""
    parts = [
        f"{work.voice.length(item.value)} {bracketed(_as_place(item.name))}" for item in piece.parts if item.value > 0
    ]
    return f"Where the length of {'each of ' if piece.count.value > 1 else ''}the {bracketed(piece.part)} goes: {counting.listed(parts)}."


def _as_place(name: str) -> str:
    return name if name.split(" ", maxsplit=1)[0] in {"into", "up", "through", "below", "from"} else f"for {name}"


def _tally(pieces: tuple[Piece, ...]) -> str:
    listed = [f"{round(piece.count.value) + piece.spare} {bracketed(piece.part)}" for piece in pieces]
    spare = ", the spare ones among them" if any(piece.spare for piece in pieces) else ""
    return f"You have {counting.listed(listed)}{spare}."


def _dyed(work: Work) -> list[Material]:
    """Materials that are told apart by their letters, in the order of the pattern, if there is more than one colour."""
    used = {run.material for run in work.quantities.strands}
    weavers = [material for key, material in work.basket.pattern.materials.items() if key in used]
    return weavers if any(material.dye for material in weavers) else []


def _colours(work: Work) -> ToldStep:
    weavers = _dyed(work)
    named = [colour_words(material.key, work.basket.pattern.materials) for material in weavers]
    actions = [
        f"Put the weaving material in separate bundles: {counting.listed(named)}.",
        "Tie a label with its letter to each bundle.",
    ]
    notes = ["The same letters stand on the [strands] in every drawing."]
    keys = tuple(material.key for material in weavers)
    return work.step("colours", "Keep the colours apart", actions, notes=notes, does=("colours",), materials=keys)


def _soaking(work: Work) -> ToldStep:
    wet = _soaked(work)
    actions = [f"{sentence_case(material_words(material))}: {_soak_words(material)}." for material in wet]
    if not wet:
        actions = ["Nothing here needs soaking."]
    else:
        actions += [
            "Soak each kind only when its turn comes.",
            "Lift it out and wrap it in a damp towel, so that it stays damp while you work.",
        ]
    test = (
        "Try a piece: bend it round two fingers. If it creaks or shows a white crease, soak it longer." if wet else ""
    )
    notes = [test, *_disagreements(wet)]
    does = ["soak"] + (["soak dyed"] if any(material.dye for material in wet) else [])
    keys = tuple(material.key for material in wet)
    return work.step("soak", "Soak", actions, notes=notes, does=tuple(does), materials=keys)


def _soaked(work: Work) -> list[Material]:
    used = {piece.material for piece in work.quantities.pieces} | {run.material for run in work.quantities.strands}
    materials = work.basket.pattern.materials.items()
    return [material for key, material in materials if key in used and _soak_words(material)]


def _soak_words(material: Material) -> str:
    if material.stock.kind in _WOOD:
        return ""
    return material.soak or material.stock.soak


def _disagreements(wet: list[Material]) -> list[str]:
    """What each source says, where more than one speaks of a material that is used."""
    found = dict.fromkeys(advice for material in wet for advice in advice_for(material.stock))
    if len({advice.source.key for advice in found}) < 2:
        return []
    said = [f"{advice.source.cite}: {advice.of}, {_minutes(advice)} in {advice.water} water" for advice in found]
    return [f"Sources differ on soaking, and so does material; the trial bend decides. {'; '.join(said)}."]


def _minutes(advice: SoakingAdvice) -> str:
    least, most = advice.minutes
    if least == most:
        return counting.duration(least)
    if most < 60:
        return f"{least} to {most} minutes"
    return f"{counting.duration(least)} to {counting.duration(most)}"


def _tapered(work: Work) -> bool:
    return any(material.stock.tapered for material in work.basket.pattern.materials.values())
