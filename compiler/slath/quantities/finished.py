"""The finished basket over all: heights, base, rim and mass."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.gathering import gathered_of, rise_mm
from slath.basket.made_parts import base_thickness_mm
from slath.basket.model import Basket
from slath.basket.wall import as_measured
from slath.language.pattern import Board
from slath.language.places import Path
from slath.quantities.borders import border_height, stake_mm, thickest
from slath.quantities.results import Finished, Lesson, Piece, StrandRun
from slath.units import Amount, Basis, FinishedSize, weakest, worked

_SAME = 1e-3  # the basket as listed is the one that was weighed, as near as scales can tell
_TRIMMED = ("trim", "extra", "hand hold")  # parts of a piece that are cut off in the end
_DRAWN_OUT = frozenset({"liner", "liners"})  # pieces that only kept a place open


def finished_of(
    basket: Basket, pieces: Sequence[Piece], runs: Sequence[StrandRun], lesson: Lesson | None = None
) -> Finished:
    """Measures of the basket as it stands, borders included; its mass from the scales where it was weighed."""
    pattern = basket.pattern
    path = pattern.side.path if pattern.side else pattern.base.path
    edge = basket.base.edge.outline
    height = _height(basket, path)
    along = basket.profile.along_mm if basket.profile else 0.0
    packed = weakest(tuple(band.pitch for band in basket.bands))
    length, width = _rim(basket, (*path, "rim"))
    with_handle = _with_handle(basket, height)
    with_parts = _with_parts(basket)
    return Finished(
        height=_size(height),
        along=_size(Amount("height along the side", along, "mm", packed, formula="sum of the bands", path=path)),
        base_length=_size(_over_all("base length", edge.length_mm, pattern.base.path)),
        base_width=_size(_over_all("base width", edge.width_mm, pattern.base.path)),
        rim_length=_size(length),
        rim_width=_size(width),
        mass_g=_weighed(_mass(basket, pieces, runs), lesson),
        height_with_handle=None if with_handle is None else _size(with_handle),
        height_with_parts=None if with_parts is None else _size(with_parts),
        rim_measured=pattern.measured if basket.profile is not None else "over all",
    )


def _size(amount: Amount) -> Amount:
    return replace(amount, value=FinishedSize(amount.value))


def _over_all(name: str, value: float, at: Path) -> Amount:
    return Amount(name, value, "mm", Basis.GIVEN, formula="outline as given or reached", path=at)


def _height(basket: Basket, path: Path) -> Amount:
    """Weaving and borders one on another; a mat is as high as a stick with weaving over and under it."""
    if basket.profile is None:
        return _mat_height(basket)
    packed = weakest(tuple(band.pitch for band in basket.bands))
    weaving = Amount("weaving, standing", basket.profile.height_mm, "mm", packed, path=path)
    border = [border_height(basket.border, stake_mm(basket), "border")] if basket.border is not None else []
    parts = (weaving, *border, *_drawn_together(basket), *_below(basket))
    formula = " + ".join(part.name for part in parts)
    return worked("height", math.fsum(part.value for part in parts), "mm", formula, *parts, path=path)


def _with_parts(basket: Basket) -> Amount | None:
    """How high the highest part stands that is carried by stems: what is below the basket's weaving, every clear height and
    base on the way up, and the part's own weaving and border.
    """
    below = tuple(_below(basket))
    ways: dict[str, tuple[Amount, ...]] = {"": below}
    tops: list[Amount] = []
    for part in basket.parts:
        join, own = part.spec.join, part.basket
        if join.way != "on a stem" or join.to not in ways:
            continue
        path = join.path
        rise = Amount(f"clear below the {part.spec.name}", join.rise_mm or 0.0, "mm", Basis.GIVEN, path=(*path, "rise"))
        base = Amount(f"base of the {part.spec.name}", base_thickness_mm(own), "mm", Basis.COUNTED, path=path)
        ways[part.spec.name] = (*ways[join.to], rise, base)
        height, under = _height(own, part.spec.path), math.fsum(one.value for one in _below(own))
        over = worked(f"{part.spec.name} above its base", height.value - under, "mm", "height − what is below", height)
        parts = (*ways[part.spec.name], over)
        formula = " + ".join(one.name for one in parts)
        total = math.fsum(one.value for one in parts)
        tops.append(worked("height with its parts", total, "mm", formula, *parts, path=path))
    return max(tops, key=lambda top: top.value, default=None)


def _drawn_together(basket: Basket) -> list[Amount]:
    """What stakes that are bound over the weaving rise above it."""
    gathered = gathered_of(basket)
    if gathered is None:
        return []
    above = Amount("to the binding", gathered.above_mm, "mm", Basis.GIVEN, path=(*gathered.path, "above"))
    rise = rise_mm(basket, gathered) or 0.0
    up = worked("rise to the binding", rise, "mm", "slant of the stakes, stood up", above)
    return [up, Amount("over the binding", gathered.stands_mm, "mm", Basis.GIVEN, path=(*gathered.path, "stands"))]


def _below(basket: Basket) -> list[Amount]:
    """What lies between the weaving of the side and the table: a board, weaving below it, the foot border."""
    base = basket.pattern.base
    board = [Amount("board", base.thickness_mm, "mm", Basis.GIVEN, path=base.path)] if isinstance(base, Board) else []
    woven = [
        worked(f"height of {band.name}", band.reached_mm, "mm", "rounds × height of one round", band.pitch)
        for band in basket.foot_bands
    ]
    legs = basket.border.spec.passes[-1].legs_mm if basket.border is not None and basket.border.spec.passes else None
    if legs is not None and basket.border is not None:
        woven.append(Amount("legs", legs, "mm", Basis.GIVEN, path=basket.border.spec.passes[-1].path))
    foot = [border_height(basket.foot, stake_mm(basket), "foot border")] if basket.foot is not None else []
    return [*board, *woven, *foot]


def _mat_height(basket: Basket) -> Amount:
    materials, path = basket.pattern.materials, basket.pattern.base.path
    sticks = thickest("stick thickness", [materials[stick.material] for stick in basket.base.sticks])
    weavers = thickest(
        "weaver thickness", [materials[key] for band in basket.base.bands for rod in band.materials for key in rod]
    )
    total = sticks.value + 2 * weavers.value
    formula = "stick + weaver above it and below it"
    return worked("height", total, "mm", formula, sticks, weavers, basis=Basis.ESTIMATED, path=path)


def _rim(basket: Basket, path: Path) -> tuple[Amount, Amount]:
    """The outline at the top of the weaving as the designer measures it; of a mat the whole, with the border that lies round its edge."""
    rim = basket.rim.outline if basket.profile is None else as_measured(basket.rim.outline, basket.pattern)
    length, width = (_over_all(*size, path) for size in (("rim length", rim.length_mm), ("rim width", rim.width_mm)))
    if basket.profile is not None or basket.border is None:
        return length, width
    beyond = border_height(basket.border, stake_mm(basket), "border")
    formula = "outline + border beyond the edge at both ends"
    grown = [worked(item.name, item.value + 2 * beyond.value, "mm", formula, item, beyond) for item in (length, width)]
    return grown[0], grown[1]


def _with_handle(basket: Basket, height: Amount) -> Amount | None:
    risen = [handle for handle in basket.handles if handle.rise_mm > 0 and handle.spec.family not in ("drop", "ring")]
    if not risen or basket.profile is None:
        return None
    tallest = max(risen, key=lambda handle: handle.rise_mm)
    material = basket.pattern.materials[tallest.spec.material]
    path = tallest.spec.path
    weaving = Amount("weaving, standing", basket.profile.height_mm, "mm", height.basis)
    rise = Amount("rise of the handle above the weaving", tallest.rise_mm, "mm", Basis.GIVEN, path=(*path, "rise"))
    thick = Amount("handle thickness", material.thickness_mm, "mm", material.stock.basis, material.stock.source)
    parts = (weaving, rise, thick, *_below(basket))
    formula = " + ".join(part.name for part in parts)
    return worked("height with handle", math.fsum(part.value for part in parts), "mm", formula, *parts, path=path)


def _mass(basket: Basket, pieces: Sequence[Piece], runs: Sequence[StrandRun]) -> Amount | None:
    """What stays in the basket × mass of its stocks; None where the mass of any stock is not known."""
    materials = basket.pattern.materials
    if isinstance(basket.pattern.base, Board) and not basket.pattern.base.material:
        return None  # a board of no material that is listed
    pieces = [piece for piece in pieces if piece.part not in _DRAWN_OUT]
    used = list(dict.fromkeys([*(piece.material for piece in pieces), *(run.material for run in runs)]))
    parts: list[Amount] = []
    for key in used:
        stock = materials[key].stock
        if stock.grams_per_metre is None:
            return None
        boards = [piece.mass_g for piece in pieces if piece.material == key and piece.mass_g is not None]
        if boards:
            parts += boards
            continue
        kept = math.fsum(piece.count.value * _kept_mm(piece) for piece in pieces if piece.material == key)
        kept += math.fsum(run.length_mm.value for run in runs if run.material == key)
        name = f"mass of {materials[key].title} in the basket"
        parts.append(Amount(name, kept / 1000 * stock.grams_per_metre, "g", stock.mass_basis, stock.mass_source))
    if not parts:
        return None
    estimate = weakest(tuple(run.woven_mm for run in runs))
    total = math.fsum(part.value for part in parts)
    return worked("mass", total, "g", "sum over the materials, trimmed ends left out", *parts, basis=estimate)


def _weighed(modelled: Amount | None, lesson: Lesson | None) -> Amount | None:
    """The mass as weighed, in proportion to what the list now has more or less in it than the basket that was weighed."""
    if modelled is None or lesson is None or lesson.mass is None or lesson.mass_as_woven is None:
        return modelled
    share = modelled.value / lesson.mass_as_woven.value
    same = abs(share - 1.0) < _SAME
    ratio = Amount("list as it is now ÷ list as woven", share, "ratio", Basis.COUNTED if same else modelled.basis)
    formula = "mass as weighed × list as it is now ÷ list as woven"
    return worked("mass", lesson.mass.value * share, "g", formula, lesson.mass, ratio, source=lesson.mass.source)


def _kept_mm(piece: Piece) -> float:
    """What stays of a piece: its parts less those that are cut off."""
    return math.fsum(part.value for part in piece.parts if not part.name.startswith(_TRIMMED))
