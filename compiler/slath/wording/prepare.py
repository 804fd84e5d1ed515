"""Preparing: sort, cut and count the pieces; keep colours apart; soak, with the sources and where they differ."""

from __future__ import annotations

import math

from slath.language.pattern import Material
from slath.messages import Length, Letter, Listed, Message, Minutes, Own, Value, message
from slath.messages.names import named
from slath.messages.values import BOUGHT, CUT
from slath.quantities.results import Piece
from slath.trade.soaking import SoakingAdvice, advice_for, rod_soak
from slath.units import Basis
from slath.wording.stuff import colour_said, dye_said, listed_said, material_said, part_said
from slath.wording.told import ToldStage, ToldStep
from slath.wording.willow import chosen, sorting
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
        message("prepare.before-you-begin"),
        message("prepare.have-everything-cut-and-counted"),
        steps,
    )


def _cutting(work: Work) -> ToldStep:
    pieces = tuple(piece for piece in work.quantities.pieces if not piece.offcut)
    actions = [
        *_sorting(work),
        message("prepare.ready-cut", length=_any_cut(pieces)),
        *(_chosen(work, piece) for piece in pieces if piece.whole),
        message("prepare.cut-each-piece", length=_any_cut(pieces))
        if any(not piece.whole for piece in pieces)
        else None,
        _strands(work),
        message("prepare.tie-each-kind-in-a"),
    ]
    counts = [_tally(pieces)] if pieces else []
    keys = tuple(piece.material for piece in pieces)
    return work.step(
        "cut",
        message("prepare.sort-and-cut"),
        actions,
        sources=[_estimated(pieces)],
        counts=counts,
        does=("cut", "measure", "bundle"),
        materials=keys,
    )


def _sorting(work: Work) -> list[Message]:
    if not _tapered(work):
        return [message("prepare.uncoil-the-material-and-lay")]
    return sorting()


def _chosen(work: Work, piece: Piece) -> Message:
    """What is taken whole, as it grew; what is cut is told by the cut list."""
    count, stock = round(piece.count.value), work.basket.pattern.materials[piece.material]
    return chosen(piece, part_said(piece.part, count), material_said(stock))


def _strands(work: Work) -> Message | None:
    """What is woven with is cut as it is needed, in lengths that can be handled; rods are not cut at all."""
    runs = work.quantities.strands
    materials = work.basket.pattern.materials
    cut = [run for run in runs if not materials[run.material].stock.tapered]
    if not cut:
        return message("prepare.leave-the-rods-for-weaving") if runs else None
    longest = Length(max(run.piece_mm.value for run in cut))
    return message("prepare.leave-the-rest-uncut-cut", longest=longest)


_BOTH_ENDS = " (both ends)"


def _place(name: str) -> Message:
    """Where a share of a length goes, by the name the list has for it."""
    place = named("places", name.removesuffix(_BOTH_ENDS))
    return message("prepare.place", place=place, both=name.endswith(_BOTH_ENDS))


def _estimated(pieces: tuple[Piece, ...]) -> Message | None:
    """Which allowances are estimates, so that nobody takes them for measured."""
    guessed = dict.fromkeys(
        _place(part.name.removesuffix(_BOTH_ENDS))
        for piece in pieces
        for part in piece.parts
        if part.basis is Basis.ESTIMATED and part.value > 0
    )
    if not guessed:
        return None
    return message("prepare.estimated-until-you-have-measured", places=Listed(tuple(guessed)), length=_any_cut(pieces))


def _any_cut(pieces: tuple[Piece, ...]) -> Length:
    """What makes a sentence one about the cut list, though it names no length of it."""
    return Length(math.fsum(piece.cut_mm.value for piece in pieces), CUT)


def _tally(pieces: tuple[Piece, ...]) -> Message:
    counted = [(piece, round(piece.count.value) + piece.spare) for piece in pieces]
    listed = [message("prepare.so-many", count=count, part=part_said(piece.part, count)) for piece, count in counted]
    return message("prepare.you-have", pieces=Listed(tuple(listed)), spare=any(piece.spare for piece in pieces))


def _dyed(work: Work) -> list[Material]:
    """Materials that are told apart by their letters, in the order of the pattern, if there is more than one colour."""
    used = {run.material for run in work.quantities.strands}
    weavers = [material for key, material in work.basket.pattern.materials.items() if key in used]
    return weavers if any(material.dye for material in weavers) else []


def _colours(work: Work) -> ToldStep:
    weavers = _dyed(work)
    materials = work.basket.pattern.materials
    keys = tuple(material.key for material in weavers)
    colours = [colour_said(key, materials, keys) for key in keys]
    actions = [
        message("prepare.put-the-weaving-material-in", colours=Listed(tuple(colours))),
        message("prepare.tie-a-label-with-its"),
    ]
    notes = [message("prepare.the-same-letters-stand-on")]
    return work.step(
        "colours", message("prepare.keep-the-colours-apart"), actions, notes=notes, does=("colours",), materials=keys
    )


def _dyeing(work: Work) -> ToldStep:
    """Dyeing, for those who do not buy their colours ready dyed."""
    dyed = [material for material in _dyed(work) if material.dye]
    lengths = work.quantities.taken_mm()
    amounts = [
        message(
            "prepare.so-much-dyed",
            length=Length(lengths[material.key], BOUGHT),
            dye=dye_said(material.dye or ""),
            letter=Letter(material.key),
        )
        for material in dyed
        if material.key in lengths
    ]
    actions = [
        message("prepare.dye-natural-material-before-the")
        if all(material.bought_natural for material in dyed)
        else message("prepare.buy-these-ready-dyed-or"),
        message("prepare.you-need", amounts=Listed(tuple(amounts))) if amounts else None,
        message("prepare.dye-all-of-one-colour"),
        message("prepare.rinse-it-until-the-water"),
    ]
    notes = [message("prepare.dye-a-little-more-than")]
    return work.step(
        "dye",
        message("prepare.dye"),
        actions,
        notes=notes,
        does=("dye",),
        materials=tuple(material.key for material in dyed),
    )


def _soaking(work: Work) -> ToldStep:
    wet = _soaked(work)
    keys = tuple(material.key for material in wet)
    if not wet:
        return work.step("soak", message("prepare.soak"), [message("prepare.nothing-here-needs-soaking")])
    alike: dict[str, list[Material]] = {}
    for material in wet:
        alike.setdefault(_soak_words(material), []).append(material)
    actions = [
        message("prepare.soak-each-kind-so-that"),
        _bent_first(work),
        *(
            message("prepare.soak-these", how=soak_said(ones[0]), strands=Listed(tuple(map(listed_said, ones))))
            for ones in alike.values()
        ),
        message("prepare.lift-it-out-and-wrap"),
    ]
    trial = message("prepare.try-a-piece-bend-it")
    words = " ".join(alike)
    does = {
        "soak": True,
        "soak dyed": any(material.dye for material in wet),
        "soak hot": "hot" in words,
        "store damp": "mellow" in words,
    }
    return work.step(
        "soak",
        message("prepare.soak"),
        actions,
        notes=[trial],
        sources=_disagreements(wet),
        does=tuple(key for key, due in does.items() if due),
        materials=keys,
    )


def _bent_first(work: Work) -> Message | None:
    """A handle must dry in its shape, so that it is bent before the weaving is begun."""
    handles = work.basket.handles
    if not any(handle.spec.bent_first for handle in handles):
        return None
    several = len(handles) > 1 or handles[0].spec.count > 1
    dries = next(handle.spec for handle in handles if handle.spec.bent_first)
    swings = dries.family == "swinging"
    step = message("handle.thin-and-bend", count=dries.count) if swings else message("handle.bend-the-handle")
    return message("prepare.soak-and-bend-the-handle", several=several, step=step)


def _soaked(work: Work) -> list[Material]:
    used = {piece.material for piece in work.quantities.pieces} | {run.material for run in work.quantities.strands}
    materials = work.basket.pattern.materials.items()
    return [material for key, material in materials if key in used and _soak_words(material)]


def _soak_words(material: Material) -> str:
    if material.stock.kind in _WOOD:
        return ""
    return material.soak or material.stock.soak


def soak_said(material: Material) -> Value:
    """The same as it is said: a grower's table by the length of the rod, or what the stock or the designer says."""
    stock = material.stock
    if not material.soak and stock.tapered and stock.length_class_mm:
        rods = rod_soak(stock.name, stock.length_class_mm)
        if rods.words == stock.soak:
            if rods.days:
                return message("soaking.days", days=rods.days, mellow=rods.mellow_days)
            return message("soaking.time", time=Minutes(rods.quarter_hours))
    return named("soaking", _soak_words(material))


def _disagreements(wet: list[Material]) -> list[Message]:
    """What each source says, where more than one speaks of a material that is used."""
    by_source: dict[str, dict[Message, None]] = {}
    for advice in dict.fromkeys(advice for material in wet for advice in advice_for(material.stock)):
        water, what = named("soaking", advice.water), named("soaking", advice.of)
        said = message("prepare.in-water-for", minutes=_minutes(advice), water=water, of=what)
        by_source.setdefault(advice.source.short, {})[said] = None
    if len(by_source) < 2:
        return []
    told = [
        message("prepare.source-says", source=Own(short), says=Listed(tuple(said))) for short, said in by_source.items()
    ]
    return [message("prepare.sources-differ-on-soaking-and", sources=Listed(tuple(told)))]


def _minutes(advice: SoakingAdvice) -> Message:
    least, most = advice.minutes
    if least == most:
        return message("prepare.time", time=Minutes(least))
    if most < 60:
        return message("prepare.to-minutes", least=least, most=most)
    return message("prepare.times", least=Minutes(least), most=Minutes(most))


def _tapered(work: Work) -> bool:
    return any(material.stock.tapered for material in work.basket.pattern.materials.values())
