"""What to buy of each material and colour: length → mass → packs, rounded up; rods by length class where rods are sold."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from slath.basket.rods import butt_mm
from slath.quantities.packs import Choice, Filled, choose_packs, lengths_to_buy, one_currency
from slath.quantities.results import PackCount, Purchase
from slath.units import Amount, Basis, worked

if TYPE_CHECKING:
    from collections.abc import Sequence

    from slath.language.pattern import Material, SizedPattern
    from slath.quantities.results import Piece, StrandRun
    from slath.trade.stock import Pack


_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class _Uses:
    """Everything one material is used for."""

    material: Material
    pieces: tuple[Piece, ...]
    runs: tuple[StrandRun, ...]
    butt_mm: float  # of a tapering rod, how much of it serves for short sticks

    @property
    def cut_mm(self) -> list[float]:
        """Every piece to cut, spare ones included."""
        return _each(self.pieces)


def _each(pieces: Sequence[Piece]) -> list[float]:
    return [piece.cut_mm.value for piece in pieces for _ in range(round(piece.count.value) + piece.spare)]


def purchases(pieces: Sequence[Piece], runs: Sequence[StrandRun], pattern: SizedPattern) -> tuple[Purchase, ...]:
    """One row for each material and colour that is used, in the pattern's order."""
    rows: list[Purchase] = []
    for key, material in pattern.materials.items():
        uses = _Uses(
            material,
            tuple(piece for piece in pieces if piece.material == key),
            tuple(run for run in runs if run.material == key),
            butt_mm(material, pattern),
        )
        if uses.pieces or uses.runs:
            rows.append(_purchase(uses))
    return tuple(rows)


def _purchase(uses: _Uses) -> Purchase:
    material, stock = uses.material, uses.material.stock
    length = _length(uses)
    rods = _rods(uses)
    mass = _board_mass(uses) if stock.kind == "wood" else _mass(material, length, rods)
    choice = _choice(uses, length, rods)
    return Purchase(
        material=material.key,
        stock=stock.name,
        title=material.title,
        length_mm=length,
        mass_g=mass,
        rods=rods,
        packs=tuple(_pack_count(kind, count) for kind, count in choice),
        surplus_mm=_surplus(material, choice, length, rods),
        cost=_cost(material, choice),
        butt_mm=stock.butt_mm,
        tip_mm=stock.tip_mm,
    )


def _length(uses: _Uses) -> Amount:
    """All pieces with their spares, and all strands with theirs."""
    cut = [
        worked(
            f"{piece.part} to cut",
            (piece.count.value + piece.spare) * piece.cut_mm.value,
            "mm",
            "(count + spare) × cut length",
            piece.count,
            Amount("spare", piece.spare, "count", Basis.GIVEN),
            piece.cut_mm,
        )
        for piece in uses.pieces
    ]
    strands = [amount for run in uses.runs for amount in (run.length_mm, run.spare_mm) if amount.value > 0]
    total = sum(amount.value for amount in (*cut, *strands))
    name = f"{uses.material.title} to buy"
    return worked(name, total, "mm", "pieces + strands, with spare", *cut, *strands, path=uses.material.path)


def _mass(material: Material, length: Amount, rods: Amount | None) -> Amount | None:
    """Length × mass of a metre. Rods that taper are weighed whole, if the maker says what a metre of them weighs."""
    stock = material.stock
    if stock.grams_per_metre is None:
        return None
    each = Amount("mass of one metre", stock.grams_per_metre, "g", stock.mass_basis, stock.mass_source)
    name, path = f"mass, {material.title}", material.path
    if rods is not None and stock.length_class_mm is not None:
        grams = rods.value * stock.length_class_mm / 1000 * stock.grams_per_metre
        return worked(name, grams, "g", "rods × length in metres × mass of one metre", rods, each, path=path)
    grams = length.value / 1000 * stock.grams_per_metre
    return worked(name, grams, "g", "length in metres × mass of one metre", length, each, path=path)


def _board_mass(uses: _Uses) -> Amount | None:
    """Boards by their own mass; None where one of them has none."""
    masses = [piece.mass_g for piece in uses.pieces if piece.mass_g is not None]
    if not masses or len(masses) < len(uses.pieces):
        return None
    total = sum(mass.value for mass in masses)
    return worked(f"mass, {uses.material.title}", total, "g", "sum of the boards", *masses, path=uses.material.path)


def _rods(uses: _Uses) -> Amount | None:
    """Rods counted: willow by the piece and the length of weaving; dowels give as many pieces as they hold."""
    material, stock = uses.material, uses.material.stock
    name = f"rods, {material.title}"
    if stock.length_class_mm is not None:
        return _counted_rods(uses, stock.length_class_mm, name)
    rod = _rod_mm(material)
    if rod is None or uses.runs:
        return None
    length = Amount("length of one rod", rod, "mm", stock.pack_basis, stock.pack_source)
    formula = "pieces laid into rods, longest first"
    inputs = (length, *(piece.cut_mm for piece in uses.pieces))
    return worked(name, lengths_to_buy(uses.cut_mm, rod), "count", formula, *inputs, path=material.path)


def _counted_rods(uses: _Uses, class_mm: float, name: str) -> Amount:
    """One rod for each stake or other long piece and each length of weaving; short sticks several from one butt."""
    short = [piece for piece in uses.pieces if from_butts(piece, uses.material)]
    cut = _each(short)
    in_butts = [length for length in cut if length <= uses.butt_mm]
    long = [length for length in cut if length > uses.butt_mm]
    long += _each([piece for piece in uses.pieces if piece not in short])
    whole = sum(max(1, math.ceil(length / class_mm - _HAIR)) for length in long)
    strands = sum(run.pieces.value for run in uses.runs)
    spare = sum(run.pieces.value * run.spare_mm.value / run.length_mm.value for run in uses.runs if run.length_mm.value)
    counts = [*(piece.count for piece in uses.pieces), *(run.pieces for run in uses.runs)]
    formula = "one rod for each piece and each length of weaving, spare included"
    if in_butts:
        counts.append(Amount("butt of a rod", uses.butt_mm, "mm", Basis.ESTIMATED))
        formula = f"{len(in_butts)} short sticks cut from the butts of rods + {formula}"
    number = lengths_to_buy(in_butts, uses.butt_mm) + whole + strands + math.ceil(spare - _HAIR)
    return worked(name, number, "count", formula, *counts, path=uses.material.path)


def from_butts(piece: Piece, material: Material) -> bool:
    """Whether a piece is a base stick (or a lid's) of tapering rods, whose thick ends serve for it; not one that turns up."""
    return material.stock.tapered and piece.part.endswith(("stick", "sticks")) and "through" not in piece.part


def _rod_mm(material: Material) -> float | None:
    """The length of one rod where the stock is sold rod by rod: a pack no longer than one length of the stock."""
    usual = material.stock.usual_length_mm
    lengths = [pack.length_mm for pack in material.stock.packs if pack.length_mm]
    if usual is None or not lengths or max(lengths) > usual * 1.01:
        return None
    return max(lengths)


def _choice(uses: _Uses, length: Amount, rods: Amount | None) -> Choice:
    stock = uses.material.stock
    if rods is not None:
        by_rods = [Filled(pack, pack.pieces or (1 if pack.length_mm else 0)) for pack in stock.packs]
        return choose_packs(rods.value, by_rods)
    if stock.kind == "wood":
        boards = sum(round(piece.count.value) + piece.spare for piece in uses.pieces)
        return choose_packs(boards, [Filled(pack, pack.pieces or 0) for pack in stock.packs])
    return choose_packs(length.value, [Filled(pack, _held_mm(uses.material, pack)) for pack in stock.packs])


def _held_mm(material: Material, pack: Pack) -> float:
    """Length in one pack, mm; 0 where it cannot be known."""
    if pack.length_mm:
        return pack.length_mm * (pack.pieces or 1)
    if pack.mass_g and material.stock.grams_per_metre:
        return pack.mass_g / material.stock.grams_per_metre * 1000
    if pack.pieces and material.stock.usual_length_mm:
        return pack.pieces * material.stock.usual_length_mm
    return 0.0


def _pack_count(kind: Filled, count: int) -> PackCount:
    pack = kind.pack
    return PackCount(pack.title, count, pack.length_mm, pack.mass_g, pack.price, pack.currency)


def _surplus(material: Material, choice: Choice, length: Amount, rods: Amount | None) -> Amount | None:
    """What is left of the packs bought, mm; None where no pack is known."""
    stock = material.stock
    if not choice or stock.kind == "wood":
        return None
    held = sum(kind.holds * count for kind, count in choice)
    bought = Amount("in the packs", held, "count" if rods else "mm", stock.pack_basis, stock.pack_source)
    name = f"left over, {material.title}"
    if rods is None:
        return worked(name, held - length.value, "mm", "in the packs - to buy", bought, length, path=material.path)
    each = stock.length_class_mm or _rod_mm(material) or 0.0
    formula = "(rods in the packs - rods needed) × length of a rod"
    return worked(name, (held - rods.value) * each, "mm", formula, bought, rods, path=material.path)


def _cost(material: Material, choice: Choice) -> Amount | None:
    if not choice or not one_currency([kind.pack for kind, _ in choice]):
        return None
    cost = sum((kind.pack.price or 0.0) * count for kind, count in choice)
    currency = choice[0][0].pack.currency
    stock = material.stock
    return Amount(
        f"cost, {material.title}", cost, "money", stock.pack_basis, stock.pack_source,
        f"packs × price, in {currency}" if currency else "packs × price", path=material.path,
    )  # fmt: skip
