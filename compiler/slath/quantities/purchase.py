"""What to buy of each stock and colour: pieces laid into lengths as sold → mass → packs, rounded up; rods where rods are sold."""

from __future__ import annotations

import math
from collections.abc import Sequence

from slath.language.pattern import Material, SizedPattern
from slath.quantities.cutting import each_cut
from slath.quantities.nesting import nest
from slath.quantities.packs import Choice, Filled, one_currency
from slath.quantities.pooling import Pool, pools
from slath.quantities.results import PackCount, Piece, Purchase, Share, StrandRun
from slath.quantities.selling import Sold, packs_for, sold_by_the_rod
from slath.units import Amount, Basis, worked

_HAIR = 1e-9
_MOST_TAKEN = 1.75  # of what is listed; estimated


def purchases(
    pieces: Sequence[Piece], runs: Sequence[StrandRun], pattern: SizedPattern, *, apart: bool = False
) -> tuple[Purchase, ...]:
    """One row for everything that is bought as one, in the pattern's order; `apart`: one for each material used."""
    bought = [piece for piece in pieces if not piece.offcut]
    return tuple(purchase_of(pool) for pool in pools(bought, runs, pattern, apart=apart))


def purchase_of(pool: Pool) -> Purchase:
    """What to buy of one pool, of one basket or of many."""
    stock = pool.stock
    shares = tuple(_share(pool, material) for material in pool.materials)
    length = _length(pool, shares)
    rods = _rods(pool)
    sold = _bought(pool, length, rods)
    return Purchase(
        material=pool.first.key,
        shares=shares,
        stock=stock.name,
        title=pool.title,
        length_mm=length,
        have_mm=_have(pool),
        lengths=sold.lengths,
        buy_mm=sold.buy,
        mass_g=_board_mass(pool) if stock.kind == "wood" else _mass(pool, sold.buy),
        rods=rods,
        packs=tuple(_pack_count(kind, count) for kind, count in sold.choice),
        surplus_mm=_surplus(pool, sold),
        cost=_cost(pool, sold.choice),
        butt_mm=stock.butt_mm,
        tip_mm=stock.tip_mm,
    )


def _share(pool: Pool, material: Material) -> Share:
    """All pieces of one material with their spares, and all its strands with theirs."""
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
        for piece in pool.pieces
        if piece.material == material.key
    ]
    runs = [run for run in pool.runs if run.material == material.key]
    strands = [amount for run in runs for amount in (run.length_mm, run.spare_mm) if amount.value > 0]
    total = math.fsum(amount.value for amount in (*cut, *strands))
    more = _as_woven(pool, material, total)
    parts = (*cut, *strands, *more)
    formula = "pieces + strands, with spare" + (" + what the woven basket took besides" if more else "")
    value = total + math.fsum(amount.value for amount in more)
    return Share(material.key, worked(f"{material.title} taken", value, "mm", formula, *parts, path=material.path))


def _as_woven(pool: Pool, material: Material, listed_mm: float) -> tuple[Amount, ...]:
    """What a woven basket of this size took beyond what is listed, so that the list is never below what was used.

    A figure far above what is listed is a slip of the pen.
    """
    taken = pool.taken.get(material.key, 0.0)
    if material.stock.length_class_mm is not None or not listed_mm < taken <= _MOST_TAKEN * listed_mm:
        return ()
    path = ("woven", "used", material.key)
    return (Amount("taken besides by the woven basket", taken - listed_mm, "mm", Basis.MEASURED, path=path),)


def _length(pool: Pool, shares: Sequence[Share]) -> Amount:
    if len(shares) == 1:
        return shares[0].length_mm
    each = [share.length_mm for share in shares]
    total = math.fsum(amount.value for amount in each)
    return worked(f"{pool.title} taken", total, "mm", "sum of what is bought as one", *each, path=pool.first.path)


def _have(pool: Pool) -> Amount | None:
    have = pool.have_mm
    if have is None:
        return None
    return Amount(f"{pool.title} in hand", have, "mm", Basis.GIVEN, path=(*pool.first.path, "have"))


def _mass(pool: Pool, buy: Amount) -> Amount | None:
    """What is bought × mass of a metre. Rods that taper are weighed whole, if the maker says what a metre of them weighs."""
    stock = pool.stock
    if stock.grams_per_metre is None:
        return None
    each = Amount("mass of one metre", stock.grams_per_metre, "g", stock.mass_basis, stock.mass_source)
    name, path = f"mass, {pool.title}", pool.first.path
    grams = buy.value / 1000 * stock.grams_per_metre
    return worked(name, grams, "g", "length in metres × mass of one metre", buy, each, path=path)


def _board_mass(pool: Pool) -> Amount | None:
    """Boards by their own mass; None where one of them has none."""
    masses = [piece.mass_g for piece in pool.pieces if piece.mass_g is not None]
    if not masses or len(masses) < len(pool.pieces):
        return None
    total = math.fsum(mass.value for mass in masses)
    return worked(f"mass, {pool.title}", total, "g", "sum of the boards", *masses, path=pool.first.path)


def _rods(pool: Pool) -> Amount | None:
    """Rods counted: willow by the piece and the length of weaving; dowels give as many pieces as they hold."""
    stock, name = pool.stock, f"rods, {pool.title}"
    if stock.length_class_mm is not None:
        return _counted_rods(pool, stock.length_class_mm, name)
    rod = sold_by_the_rod(stock)
    if rod is None or pool.runs:
        return None
    length = Amount("length of one rod", rod, "mm", stock.pack_basis, stock.pack_source)
    inputs = (length, *(piece.cut_mm for piece in pool.pieces))
    plan = nest(pool.whole_mm, rod)
    number = len(plan.to_buy) + sum(math.ceil(piece / rod - _HAIR) for piece in plan.too_long_mm)
    return worked(name, number, "count", "pieces laid into rods, as few as can be", *inputs, path=pool.first.path)


def _bought(pool: Pool, length: Amount, rods: Amount | None) -> Sold:
    """What has to be bought, with what is in hand taken off, and the packs that hold it."""
    stock = pool.stock
    if stock.kind == "wood":
        boards = sum(round(piece.count.value) + piece.spare for piece in pool.pieces)
        return packs_for(pool, length, count=boards)
    if rods is not None and stock.length_class_mm is not None:
        hand = math.floor((pool.have_mm or 0.0) / stock.length_class_mm + _HAIR)
        return packs_for(pool, length, count=max(round(rods.value) - hand, 0))
    return packs_for(pool, length)


def _counted_rods(pool: Pool, class_mm: float, name: str) -> Amount:
    """One rod for each stake or other long piece and each length of weaving; short sticks several from one butt."""
    short = [piece for piece in pool.pieces if from_butts(piece, pool.first)]
    cut = each_cut(short)
    in_butts = [length for length in cut if length <= pool.butt_mm]
    long = [length for length in cut if length > pool.butt_mm]
    long += each_cut([piece for piece in pool.pieces if piece not in short])
    whole = sum(max(1, math.ceil(length / class_mm - _HAIR)) for length in long)
    strands = math.fsum(run.pieces.value for run in pool.runs)
    spare = math.fsum(
        run.pieces.value * run.spare_mm.value / run.length_mm.value for run in pool.runs if run.length_mm.value
    )
    counts = [*(piece.count for piece in pool.pieces), *(run.pieces for run in pool.runs)]
    formula = "one rod for each piece and each length of weaving, spare included"
    if in_butts:
        counts.append(Amount("butt of a rod", pool.butt_mm, "mm", Basis.ESTIMATED))
        formula = f"{len(in_butts)} short sticks cut from the butts of rods + {formula}"
    butts = len(nest(in_butts, pool.butt_mm).to_buy) if in_butts else 0
    number = butts + whole + strands + math.ceil(spare - _HAIR)
    taken = math.fsum(pool.taken.values())
    if number < taken <= _MOST_TAKEN * number:
        counts.append(Amount("rods the woven basket took", taken, "count", Basis.MEASURED))
        number = math.ceil(taken)
    return worked(name, number, "count", formula, *counts, path=pool.first.path)


def from_butts(piece: Piece, material: Material) -> bool:
    """Whether a piece is a base stick (or a lid's) of tapering rods, whose thick ends serve for it; not one that turns up."""
    return material.stock.tapered and piece.part.endswith(("stick", "sticks")) and "through" not in piece.part


def _pack_count(kind: Filled, count: int) -> PackCount:
    pack = kind.pack
    return PackCount(pack.title, count, pack.length_mm, pack.mass_g, pack.price, pack.currency)


def _surplus(pool: Pool, sold: Sold) -> Amount | None:
    """What the packs bring beyond what has to be bought, uncut, mm; None where no pack is known."""
    if not sold.choice or pool.stock.kind == "wood":
        return None
    stock = pool.stock
    bought = Amount("in the packs", sold.held_mm, "mm", stock.pack_basis, stock.pack_source)
    left = max(sold.held_mm - sold.buy.value, 0.0)
    name = f"left over, {pool.title}"
    return worked(name, left, "mm", "in the packs - to buy", bought, sold.buy, path=pool.first.path)


def _cost(pool: Pool, choice: Choice) -> Amount | None:
    if not choice or not one_currency([kind.pack for kind, _ in choice]):
        return None
    cost = math.fsum((kind.pack.price or 0.0) * count for kind, count in choice)
    currency = choice[0][0].pack.currency
    stock = pool.stock
    return Amount(
        f"cost, {pool.title}", cost, "money", stock.pack_basis, stock.pack_source,
        f"packs × price, in {currency}" if currency else "packs × price", path=pool.first.path,
    )  # fmt: skip
