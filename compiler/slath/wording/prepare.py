"""Preparing: sort, cut and count the pieces; keep colours apart; soak, with the sources and where they differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.quantities.purchase import from_butts
from slath.trade.soaking import advice_for
from slath.units import Basis, counting
from slath.wording.speech import bracketed, sentence_case
from slath.wording.stuff import colour_words, material_words, strand_words

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
        steps += [_dyeing(work), _colours(work)]
    steps.append(_soaking(work))
    return work.stage(
        "prepare",
        "Before you begin",
        "Have everything cut and counted, and what you begin with soaked, before the first stroke.",
        steps,
    )


def _cutting(work: Work) -> ToldStep:
    pieces = work.quantities.pieces
    actions = [
        *_sorting(work),
        *(_cut(work, piece) for piece in pieces),
        _strands(work),
        "Tie each kind in a bundle, and label it with what it is for.",
    ]
    notes = [*(_where_it_goes(work, piece) for piece in pieces if len(piece.parts) > 2), _estimated(pieces)]
    counts = [_tally(pieces)] if pieces else []
    keys = tuple(piece.material for piece in pieces)
    return work.step(
        "cut", "Sort and cut", actions, notes=notes, counts=counts, does=("cut", "measure", "bundle"), materials=keys
    )


def _sorting(work: Work) -> list[str]:
    if not _tapered(work):
        return ["Uncoil the material and lay it out by thickness."]
    return ["Sort the rods by thickness.", "Keep those of one thickness together, with all the [butts] one way."]


def _cut(work: Work, piece: Piece) -> str:
    """Say what to cut: so many of a part, from what, how long, and how many more to have in hand."""
    count = round(piece.count.value)
    material = material_words(work.basket.pattern.materials[piece.material])
    if piece.part.endswith("board"):
        return f"Cut {count} {piece.part} from {material}, {_board_size(work)}."
    each = "each " if count > 1 else ""
    spare = f", and {counting.in_words(piece.spare)} more to have in hand" if piece.spare else ""
    part = bracketed(_named(piece.part, count))
    if from_butts(piece, work.basket.pattern.materials[piece.material]):
        material = f"the [butts] of {material}"
    return f"Cut {count} {part} from {material}, {each}{_cut_length(work, piece)} long{spare}."


def _strands(work: Work) -> str:
    """What is woven with is cut as it is needed, in lengths that can be handled; rods are not cut at all."""
    runs = work.quantities.strands
    materials = work.basket.pattern.materials
    cut = [run for run in runs if not materials[run.material].stock.tapered]
    if not cut:
        return "Leave the rods for weaving whole." if runs else ""
    longest = work.voice.long(max(run.piece_mm.value for run in cut))
    return f"Leave the rest uncut: cut [strands] for weaving from it as you come to them, up to {longest} long."


def _board_size(work: Work) -> str:
    outline, voice = work.basket.pattern.base.outline, work.voice
    if outline.shape == "circle":
        return f"round, {voice.length(outline.length_mm)} across"
    shapes = {"ellipse": "oval", "stadium": "with round ends", "rectangle": "square at the corners"}
    shape = shapes.get(outline.shape, f"with corners rounded to {voice.length(outline.corner_mm)}")
    return f"{voice.length(outline.length_mm)} by {voice.length(outline.width_mm)}, {shape}"


def _cut_length(work: Work, piece: Piece) -> str:
    return work.voice.length(piece.cut_mm.value)


def _named(part: str, count: int) -> str:
    """A part of the list for one or for several, a designer's own fitting among them: ``hinge``, ``hinges``."""
    return part.removesuffix("s") if count == 1 else f"{part.removesuffix('s')}s"


def _where_it_goes(work: Work, piece: Piece) -> str:
    """Of each stake so much goes here and so much there."""
    parts = [
        f"{work.voice.length(item.value)} {bracketed(_as_place(item.name))}" for item in piece.parts if item.value > 0
    ]
    count = round(piece.count.value)
    name = bracketed(_named(piece.part, count))
    whose = f"each of the {name}" if count > 1 else f"the {name}"
    return f"The length of {whose} is made up of {counting.listed(parts)}, rounded up."


_BOTH_ENDS = " (both ends)"
_READY = {"above", "down", "to", "into", "up", "through", "below", "from", "over", "round"}
_NAMED = {"half", "the"}  # names that need no article before them
_PLACES = {
    "trim": "to be trimmed away",
    "hand hold": "to hold and pull",
    "hand hold at the foot": "to hold and pull below",
    "extra": "to spare",
    "plaited along the bow": "for the plait along the bow",
    "twisted along the bow": "for the twist along the bow",
}


def _as_place(name: str) -> str:
    both_ends = name.endswith(_BOTH_ENDS)
    bare = name.removesuffix(_BOTH_ENDS)
    place = _PLACES.get(bare)
    if place is None:
        first = bare.split(" ", maxsplit=1)[0]
        place = bare if first in _READY else f"for {bare}" if first in _NAMED else f"for the {bare}"
    return f"{place} at both ends" if both_ends else place


def _estimated(pieces: tuple[Piece, ...]) -> str:
    """Which allowances are estimates, so that nobody takes them for measured."""
    guessed = dict.fromkeys(
        _as_place(part.name.removesuffix(_BOTH_ENDS))
        for piece in pieces
        for part in piece.parts
        if part.basis is Basis.ESTIMATED and part.value > 0
    )
    if not guessed:
        return ""
    return f"Estimated, until you have measured your own: what is allowed {bracketed(counting.listed(list(guessed)))}."


def _tally(pieces: tuple[Piece, ...]) -> str:
    counts = [round(piece.count.value) + piece.spare for piece in pieces]
    listed = [f"{count} {bracketed(_named(piece.part, count))}" for piece, count in zip(pieces, counts, strict=True)]
    spare = ", the spare ones among them" if any(piece.spare for piece in pieces) else ""
    return f"You have {counting.listed(listed)}{spare}."


def _dyed(work: Work) -> list[Material]:
    """Materials that are told apart by their letters, in the order of the pattern, if there is more than one colour."""
    used = {run.material for run in work.quantities.strands}
    weavers = [material for key, material in work.basket.pattern.materials.items() if key in used]
    return weavers if any(material.dye for material in weavers) else []


def _colours(work: Work) -> ToldStep:
    weavers = _dyed(work)
    materials = work.basket.pattern.materials
    keys = tuple(material.key for material in weavers)
    named = [colour_words(key, materials, keys) for key in keys]
    actions = [
        f"Put the weaving material in separate bundles: {counting.listed(named)}.",
        "Tie a label with its letter to each bundle.",
    ]
    notes = ["The same letters stand on the [strands] in every drawing."]
    return work.step("colours", "Keep the colours apart", actions, notes=notes, does=("colours",), materials=keys)


def _dyeing(work: Work) -> ToldStep:
    """Dyeing, for those who do not buy their colours ready dyed."""
    dyed = [material for material in _dyed(work) if material.dye]
    lengths = work.quantities.taken_mm()
    amounts = [
        f"{work.voice.long(lengths[material.key], up=True)} {material.dye} <{material.key}>"
        for material in dyed
        if material.key in lengths
    ]
    actions = [
        "Dye natural material before the day."
        if all(material.bought_natural for material in dyed)
        else "Buy these ready dyed, or dye natural material yourself before the day.",
        f"You need {counting.listed(amounts)}." if amounts else "",
        "Dye all of one colour in one bath, by the dye maker's own sheet.",
        "Rinse it until the water runs clear, and let it dry.",
    ]
    notes = ["Dye a little more than you need: a second bath never comes out quite the same."]
    return work.step(
        "dye", "Dye", actions, notes=notes, does=("dye",), materials=tuple(material.key for material in dyed)
    )


def _soaking(work: Work) -> ToldStep:
    wet = _soaked(work)
    keys = tuple(material.key for material in wet)
    if not wet:
        return work.step("soak", "Soak", ["Nothing here needs soaking."])
    alike: dict[str, list[Material]] = {}
    for material in wet:
        alike.setdefault(_soak_words(material), []).append(material)
    actions = [
        "Soak each kind so that it is ready when its turn comes, and begin with the one that takes longest.",
        _bent_first(work),
        *(
            f"{sentence_case(words)}: {counting.listed([strand_words(one) for one in ones])}."
            for words, ones in alike.items()
        ),
        "Lift it out and wrap it in a damp towel, so that it stays damp while you work.",
    ]
    trial = "Try a piece: bend it round two fingers. If it creaks or shows a white crease, soak it longer."
    words = " ".join(alike)
    does = {
        "soak": True,
        "soak dyed": any(material.dye for material in wet),
        "soak hot": "hot" in words,
        "store damp": "mellow" in words,
    }
    return work.step(
        "soak",
        "Soak",
        actions,
        notes=[trial, *_disagreements(wet)],
        does=tuple(key for key, due in does.items() if due),
        materials=keys,
    )


def _bent_first(work: Work) -> str:
    """A handle must dry in its shape, so that it is bent before the weaving is begun."""
    if not any(handle.spec.bent_first for handle in work.basket.handles):
        return ""
    return (
        "Soak and bend the handle a day before you need it, as told under “Bend the handle”: it must dry in its shape."
    )


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
    by_source: dict[str, dict[str, None]] = {}
    for advice in dict.fromkeys(advice for material in wet for advice in advice_for(material.stock)):
        said = f"{_minutes(advice)} in {advice.water} water for {advice.of}"
        by_source.setdefault(advice.source.short, {})[said] = None
    if len(by_source) < 2:
        return []
    told = [f"{short}: {counting.listed(list(said))}" for short, said in by_source.items()]
    return [f"Sources differ on soaking, and so does material; your trial bend decides. {'; '.join(told)}."]


def _minutes(advice: SoakingAdvice) -> str:
    least, most = advice.minutes
    if least == most:
        return counting.duration(least)
    if most < 60:
        return f"{least} to {most} minutes"
    return f"{counting.duration(least)} to {counting.duration(most)}"


def _tapered(work: Work) -> bool:
    return any(material.stock.tapered for material in work.basket.pattern.materials.values())
