"""What a border takes of every upright, and how high and thick it lies."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.border_length import border_need
from slath.basket.model import Basket, WorkedBorder
from slath.basket.rods import part_of
from slath.language.pattern import Material, SizedPattern
from slath.quantities.results import BorderRow
from slath.units import Amount, Basis, worked


def border_row(
    border: WorkedBorder | None, stake: Amount, pattern: SizedPattern, measured: Amount | None = None
) -> BorderRow | None:
    """A border's need in its parts; None where there is no border or it cannot be worked.

    What a test weave `measured` the border to take stands in place of what is worked out; what is held stays.
    """
    if border is None or not (border.passes or border.spec.plait):
        return None
    path = border.spec.path
    spacing = Amount("spacing at the border", border.spacing_mm, "mm", Basis.COUNTED, path=path)
    need = border_need(border, stake, spacing, pattern.settings)
    parts, needed = need.parts, need.needed
    if measured is not None:
        parts = (measured, *(part for part in need.parts if part.name == "hand hold"))
        formula = " + ".join(part.name for part in parts)
        needed = worked(needed.name, math.fsum(part.value for part in parts), "mm", formula, *parts, path=path)
    lying = Amount("stakes lying at one place", border.thickness, "count", Basis.COUNTED, path=path)
    formula = "stakes lying at one place × stake thickness"
    name = "foot border" if border.spec.foot else "border"
    return BorderRow(
        foot=border.spec.foot,
        reach=border.reach,
        needed_mm=needed,
        parts=parts,
        loose_loops=tuple(sorted({number for worked_pass in border.passes for number in worked_pass.loose})),
        thickness_mm=worked(f"thickness of the {name}", border.thickness * stake.value, "mm", formula, lying, stake),
        given_mm=None if need.given is None else need.given.value,
    )


def taken_by(row: BorderRow | None) -> tuple[Amount, ...]:
    """What a border takes of a stake, as it stands in the cut list: the border, and what is held while working it.

    The designer's own allowance stands for both.
    """
    if row is None:
        return ()
    name, hold = ("foot border", "hand hold at the foot") if row.foot else ("border", "hand hold")
    path = row.needed_mm.path
    if row.given_mm is not None:
        return (Amount(name, row.given_mm, "mm", Basis.GIVEN, path=path),)
    kept = tuple(part for part in row.parts if part.name != "hand hold")
    held = tuple(replace(part, name=hold) for part in row.parts if part.name == "hand hold" and part.value > 0)
    formula = " + ".join(part.name for part in kept)
    return (worked(name, math.fsum(part.value for part in kept), "mm", formula, *kept, path=path), *held)


def border_height(border: WorkedBorder, stake: Amount, name: str) -> Amount:
    """How far a border stands above (or below) the weaving: the stakes that lie over one another on its busier face."""
    if border.spec.loop_height_mm is not None:
        path = (*border.spec.path, "height")
        return Amount(f"height of the {name}", border.spec.loop_height_mm, "mm", Basis.GIVEN, path=path)
    visits = [visit.face for worked_pass in border.passes for visit in worked_pass.visits]
    high = max(1, visits.count("behind"), visits.count("before"))
    lying = Amount("stakes over one another", high, "count", Basis.ESTIMATED, path=border.spec.path)
    formula = "stakes over one another on the busier face × stake thickness"
    return worked(f"height of the {name}", high * stake.value, "mm", formula, lying, stake, path=border.spec.path)


def stake_mm(basket: Basket) -> Amount:
    """The thickness of the stakes in the border, the thickest where they differ: rods have thinned on the way up."""
    way = basket.profile.along_mm if basket.profile is not None else 0.0
    over = basket.border.reach * basket.border.spacing_mm if basket.border is not None else 0.0
    materials = basket.pattern.materials
    stakes = [
        materials[stake.material] if stake.kind == "through" else part_of(materials[stake.material], way, way + over)
        for stake in basket.stakes
        if stake.kind != "post"
    ]
    return thickest("stake thickness", stakes)


def thickest(name: str, materials: Sequence[Material]) -> Amount:
    """The greatest thickness among materials; nought where there are none."""
    if not materials:
        return Amount(name, 0.0, "mm", Basis.COUNTED)
    most = max(materials, key=lambda material: material.thickness_mm)
    return Amount(name, most.thickness_mm, "mm", most.stock.basis, most.stock.source, path=most.path)
