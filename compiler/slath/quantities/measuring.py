"""The whole list of one size: every piece, strand, pack and measure, each worked out once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.quantities.borders import border_row, stake_mm, taken_by, thickest
from slath.quantities.counts import count_rows, stakes_amount
from slath.quantities.finished import finished_of
from slath.quantities.handle_pieces import handle_pieces
from slath.quantities.purchase import purchases
from slath.quantities.results import Quantities
from slath.quantities.stake_pieces import stake_pieces, up_the_side
from slath.quantities.stick_pieces import base_pieces
from slath.quantities.uprights import upright_of
from slath.quantities.weaving import band_row, band_strands
from slath.units import Amount, Basis, worked

if TYPE_CHECKING:
    from slath.basket.model import Basket, ConstructedLid, Profile, WovenBand
    from slath.language.pattern import SizedPattern
    from slath.quantities.results import BandRow, BorderRow, Piece, StrandRun


def quantities_of(basket: Basket) -> Quantities:
    """Everything one constructed basket takes and measures."""
    pattern = basket.pattern
    stakes = stakes_amount(basket)
    stake = stake_mm(basket)
    border, foot = border_row(basket.border, stake, pattern), border_row(basket.foot, stake, pattern)
    rows, runs = _weaving(basket)
    pieces = _pieces(basket, stakes, border, foot)
    return Quantities(
        size=pattern.size,
        stakes=stakes,
        working=_working(basket, stakes),
        base_spacing=_spacing("spacing at the base", basket.base_spacing_mm, basket.working, stakes),
        rim_spacing=_spacing("spacing at the rim", basket.rim_spacing_mm, basket.rim_uprights, stakes),
        counts=count_rows(basket),
        pieces=pieces,
        strands=runs,
        bands=rows,
        purchase=purchases(pieces, runs, pattern),
        border=border,
        foot=foot,
        finished=finished_of(basket, pieces, runs),
        tested=f"woven {pattern.woven_on.isoformat()}" if pattern.woven_on else "calculated, not yet woven",
    )


def _weaving(basket: Basket) -> tuple[tuple[BandRow, ...], tuple[StrandRun, ...]]:
    """Bands and their strands from the base upwards, the lid's last."""
    lid = basket.lid
    lid_bands = (*lid.base.bands, *lid.bands) if lid is not None else ()
    rows: list[BandRow] = []
    runs: list[StrandRun] = []
    for band in (*basket.base.bands, *basket.bands, *lid_bands):
        strands = band_strands(band, upright_of(band, basket), basket.pattern)
        rows.append(band_row(band, strands, _profile(band, basket)))
        runs += strands
    return tuple(rows), tuple(runs)


def _profile(band: WovenBand, basket: Basket) -> Profile | None:
    return basket.profile if band.part == "side" else None


def _pieces(basket: Basket, stakes: Amount, border: BorderRow | None, foot: BorderRow | None) -> tuple[Piece, ...]:
    """Base, stakes, border pieces, handles, lid: in the order they are needed."""
    pattern = basket.pattern
    above = taken_by(border)
    rising = (up_the_side(basket), *above) if basket.profile else above
    pieces = [
        *base_pieces(basket.base, pattern, rising),
        *stake_pieces(basket, above, taken_by(foot), stakes),
        *handle_pieces(basket.handles, pattern),
    ]
    if basket.lid is not None:
        pieces += _lid_pieces(basket.lid, pattern)
    return tuple(pieces)


def _lid_pieces(lid: ConstructedLid, pattern: SizedPattern) -> tuple[Piece, ...]:
    """A lid's sticks; where they turn down in a border of their own, what that takes at both ends."""
    sticks = [pattern.materials[stick.material] for stick in lid.base.sticks]
    turned = border_row(lid.border, thickest("stick thickness", sticks), pattern)
    return base_pieces(lid.base, pattern, taken_by(turned), "lid ")


def _working(basket: Basket, stakes: Amount) -> Amount:
    formula = "uprights worked together count as one"
    return worked("working uprights", basket.working, "count", formula, stakes, path=stakes.path)


def _spacing(name: str, spacing_mm: float, uprights: int, stakes: Amount) -> Amount:
    around = Amount("outline", spacing_mm * uprights, "mm", Basis.COUNTED)
    return worked(name, spacing_mm, "mm", "outline ÷ working uprights", around, stakes, path=stakes.path)
