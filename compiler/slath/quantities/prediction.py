"""What a test weave of a size measures, what is predicted of it, and by how much the prediction missed."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket, WovenBand
from slath.language.pattern import WovenSize
from slath.messages import Own, message
from slath.quantities.learned_lengths import taken_mm
from slath.quantities.purchase import purchases
from slath.quantities.results import BandRow, Piece, Quantities, TestRow
from slath.quantities.stake_pieces import upright_of
from slath.units import Amount, Basis, worked


class MissSummary(Struct, frozen=True):
    """How well one size was predicted: numbers compared, their mean miss as a share, and the row that missed most."""

    compared: int
    mean: float
    worst: TestRow


def rows_to_test(predicted: Quantities, basket: Basket) -> tuple[TestRow, ...]:
    """Every row of the test-weave form, in the order of the work; `predicted` is the list before anything was found."""
    woven = basket.pattern.woven
    rows = (
        *_sizes(predicted, basket),
        *_bands(predicted, basket),
        *_uprights(predicted, woven),
        *_materials(predicted, basket),
    )
    return rows if woven is None else tuple(_filled(row, woven, basket) for row in rows)


def misses(rows: Sequence[TestRow]) -> MissSummary | None:
    """The summary of the rows that were found and can be judged; None where there are none."""
    judged = [(abs(row.miss), row) for row in rows if row.miss is not None]
    if not judged:
        return None
    worst = max(judged, key=lambda item: item[0])[1]
    return MissSummary(len(judged), math.fsum(miss for miss, _ in judged) / len(judged), worst)


def _sizes(predicted: Quantities, basket: Basket) -> list[TestRow]:
    """The base as its rounds reach it, the height, the rim, the mass."""
    done, profile = predicted.finished, basket.profile
    rows: list[TestRow] = []
    reached = basket.base.reached_mm
    if reached is not None and basket.base.bands:
        grown = reached - done.base_width.value
        rows += _across("base", _grown(done.base_length, grown), _grown(done.base_width, grown))
    if profile is not None:
        height = Amount("height standing", profile.height_mm, "mm", done.along.basis, path=done.along.path)
        rows.append(TestRow(("height",), message("tested.height-standing"), height))
        rows += _across("rim", done.rim_length, done.rim_width)
    if done.mass_g is not None:
        rows.append(TestRow(("mass",), message("tested.weight"), done.mass_g))
    return rows


def _grown(size: Amount, by_mm: float) -> Amount:
    return worked(size.name, size.value + by_mm, "mm", "outline over all, as its whole rounds reach it", size)


def _across(where: str, length: Amount, width: Amount) -> list[TestRow]:
    if length.value == width.value:
        return [TestRow((f"{where}_diameter",), message(f"tested.{where}-across"), length)]
    return [
        TestRow((f"{where}_length",), message(f"tested.{where}-longer"), length),
        TestRow((f"{where}_width",), message(f"tested.{where}-shorter"), width),
    ]


def _bands(predicted: Quantities, basket: Basket) -> list[TestRow]:
    """Rounds of every band, and heights of those up the side; an arrow or a chain is one band."""
    rows: list[TestRow] = []
    for name, woven in _as_written(predicted, basket).items():
        rounds = _total(f"rounds of {name}", [row.rounds for _, row in woven])
        told = woven[0][0].spec.extent.rounds is not None  # worked as told, not predicted
        rows.append(TestRow(("rounds", name), message("tested.rounds-of", name=Own(name)), rounds, judged=not told))
        if woven[0][0].part == "side":
            height = _total(f"height of {name} up the side", [row.along for _, row in woven])
            rows.append(TestRow(("band_heights", name), message("tested.height-of", name=Own(name)), height))
    return rows


def _as_written(predicted: Quantities, basket: Basket) -> dict[str, list[tuple[WovenBand, BandRow]]]:
    """Woven bands with their rows under the designer's names, base first; a name that the lid or a part shares is the basket's."""
    own = basket.woven
    apart = basket.all_woven[len(own) :]
    named: dict[str, list[tuple[WovenBand, BandRow]]] = {}
    taken: set[str] = set()
    for number, (band, row) in enumerate(zip((*own, *apart), predicted.bands, strict=True)):
        name = band.spec.written_as
        if number < len(own):
            taken.add(name)
        if band.rounds and (number < len(own) or name not in taken):
            named.setdefault(name, []).append((band, row))
    return named


def _total(name: str, parts: Sequence[Amount]) -> Amount:
    if len(parts) == 1:
        return replace(parts[0], name=name)
    return worked(name, math.fsum(part.value for part in parts), parts[0].unit, "sum of its parts", *parts)


def _uprights(predicted: Quantities, woven: WovenSize | None) -> list[TestRow]:
    """What stakes are cut to, and what is cut off each end when the border is done."""
    piece = upright_of(predicted.pieces)
    if piece is None:
        return []
    cut_to = piece.cut_mm.value if woven is None or woven.stake_cut_mm is None else woven.stake_cut_mm
    return [
        TestRow(("stake_cut",), message("tested.stake-cut"), piece.cut_mm, judged=False),
        TestRow(("stake_left",), message("tested.stake-left"), _left(piece, cut_to), share_of=cut_to),
    ]


def _left(piece: Piece, cut_mm: float) -> Amount:
    """What is held while working the border, and what the stake was cut longer than needed."""
    ends = 2 if any(part.name.endswith("(both ends)") for part in piece.parts) else 1
    held = [part for part in piece.parts if part.name.startswith("hand hold")]
    value = (cut_mm - piece.needed_mm.value + math.fsum(part.value for part in held)) / ends
    formula = "hand hold + cut length - length needed" + (", at each of two ends" if ends == 2 else "")
    cut = Amount("cut length", cut_mm, "mm", Basis.GIVEN)
    return worked("cut off in the end", max(value, 0.0), "mm", formula, *held, cut, piece.needed_mm)


def _materials(predicted: Quantities, basket: Basket) -> list[TestRow]:
    """What each material takes: the list without its spares, as a length, or as whole rods of willow."""
    pieces = [replace(piece, spare=0) for piece in predicted.pieces]
    runs = [replace(run, spare_mm=replace(run.spare_mm, value=0.0)) for run in predicted.strands]
    rows = []
    for taken in purchases(pieces, runs, basket.pattern, apart=True):
        stock = basket.pattern.materials[taken.material].stock
        if stock.kind == "wood":
            continue
        amount = taken.rods if taken.rods is not None and stock.length_class_mm is not None else taken.length_mm
        name = f"{taken.title} taken"
        rows.append(
            TestRow(
                ("used", taken.material),
                message("tested.taken", title=Own(taken.title)),
                replace(amount, name=f"{name}, without spare"),
            )
        )
    return rows


def _filled(row: TestRow, woven: WovenSize, basket: Basket) -> TestRow:
    """The row with what was found under its key."""
    group, name = row.key[0], row.key[-1]
    if group == "used":
        return replace(row, found=_taken(name, woven, basket))
    if group in ("rounds", "band_heights"):
        table = woven.rounds if group == "rounds" else woven.band_heights_mm
        return replace(row, found=table.get(name))
    singles = {
        "height": woven.height_mm,
        "base_diameter": woven.base_width_mm,
        "base_length": woven.base_length_mm,
        "base_width": woven.base_width_mm,
        "rim_diameter": woven.rim_width_mm,
        "rim_length": woven.rim_length_mm,
        "rim_width": woven.rim_width_mm,
        "mass": woven.mass_g,
        "stake_cut": woven.stake_cut_mm,
        "stake_left": woven.stake_left_mm,
    }
    return replace(row, found=singles[group])


def _taken(key: str, woven: WovenSize, basket: Basket) -> float | None:
    if key in woven.used and basket.pattern.materials[key].stock.length_class_mm is not None:
        return woven.used[key] - woven.left_over.get(key, 0)
    return taken_mm(key, basket)
