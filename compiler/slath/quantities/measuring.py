"""The whole list of one size: every piece, strand, pack and measure, each worked out once."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.courses import runs_on
from slath.basket.model import Basket, ConstructedLid, Profile, WovenBand
from slath.quantities.borders import border_row, stake_mm
from slath.quantities.counts import count_rows, stakes_amount
from slath.quantities.ends import crossings, ends_of, up_the_side
from slath.quantities.fastening_pieces import binding_pieces, fitting_pieces, lid_fastening_pieces, with_hinge
from slath.quantities.finished import finished_of
from slath.quantities.handle_pieces import handle_pieces
from slath.quantities.part_pieces import part_pieces, times
from slath.quantities.prediction import rows_to_test
from slath.quantities.purchase import purchases
from slath.quantities.results import BandRow, BorderRow, Lesson, Piece, Quantities, StrandRun
from slath.quantities.stake_pieces import stake_pieces
from slath.quantities.stick_pieces import base_pieces
from slath.quantities.uprights import Upright, upright_of
from slath.quantities.weaving import band_row, band_strands, course_strands
from slath.units import Amount, Basis, worked

_RING = {"ring handle": "ring", "loop": "ring loop"}  # of a lid, as they are listed


def quantities_of(basket: Basket, lesson: Lesson | None = None) -> Quantities:
    """Everything one constructed basket takes and measures, as its own test weave taught it if it was woven."""
    pattern = basket.pattern
    stakes = stakes_amount(basket)
    rows, runs = _weaving(basket)
    border = border_row(basket.border, stake_mm(basket), pattern, lesson.border if lesson else None)
    pieces = _pieces(basket, border)
    for one in basket.apart:
        own_rows, own_runs = _weaving(one.basket)
        rows, runs = (*rows, *own_rows), (*runs, *(times(run, one) for run in own_runs))
    if basket.lid is not None:
        pieces = (*pieces, *(_of_lid(piece) for piece in _lid_pieces(basket, basket.lid)))
        pieces = (*pieces, *lid_fastening_pieces(basket, basket.lid))
    for part in basket.parts:
        own = _pieces(part.basket, border_row(part.basket.border, stake_mm(part.basket), part.basket.pattern))
        pieces = (*pieces, *part_pieces(basket, part, own))
    found = Quantities(
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
        foot=border_row(basket.foot, stake_mm(basket), pattern),
        finished=finished_of(basket, pieces, runs, lesson),
        tested=f"woven {pattern.woven_on.isoformat()}" if pattern.woven_on else "calculated, not yet woven",
        doubts=lesson.doubts if lesson else (),
    )
    return replace(found, test=rows_to_test(lesson.before if lesson else found, basket))


def _weaving(basket: Basket) -> tuple[tuple[BandRow, ...], tuple[StrandRun, ...]]:
    """Bands and their strands from the base upwards."""
    pattern = basket.pattern
    shapes: list[tuple[WovenBand, Profile | None]] = [(band, None) for band in basket.base.bands]
    shapes += [(band, basket.profile) for band in basket.bands]
    shapes += [(band, None) for band in basket.foot_bands]
    worked_on = [(band, upright_of(band, basket)) for band, _ in shapes]
    rows = tuple(
        band_row(band, band_strands(band, upright, pattern), profile, leftwards=pattern.leftwards)
        for (band, profile), (_, upright) in zip(shapes, worked_on, strict=True)
    )
    runs = [run for course in _courses(basket, worked_on) for run in course_strands(course, pattern)]
    return rows, tuple(runs)


def _courses(basket: Basket, bands: Sequence[tuple[WovenBand, Upright]]) -> list[list[tuple[WovenBand, Upright]]]:
    """Bands one after another that are worked with the same strands, taken together; every other by itself."""
    courses: list[list[tuple[WovenBand, Upright]]] = []
    for band, upright in bands:
        if courses and runs_on(basket, band):
            courses[-1].append((band, upright))
        else:
            courses.append([(band, upright)])
    return courses


def _lid_pieces(basket: Basket, lid: ConstructedLid) -> tuple[Piece, ...]:
    """The pieces of the basket a lid is, and its ring."""
    own = lid.basket
    ring = handle_pieces((lid.ring,), own.pattern) if lid.ring is not None else ()
    own_ring = tuple(replace(piece, part=_RING.get(piece.part, piece.part)) for piece in ring)
    made = _pieces(own, border_row(own.border, stake_mm(own), own.pattern))
    return (*(with_hinge(piece, basket, lid) for piece in made), *own_ring)


def _pieces(basket: Basket, border: BorderRow | None) -> tuple[Piece, ...]:
    """Base, stakes, handles: in the order they are needed."""
    pattern, ends = basket.pattern, ends_of(basket, border)
    above = ends.above(stake for stake in basket.stakes if stake.kind == "through")
    rising = (up_the_side(basket), *crossings(basket), *above) if basket.profile else above
    return (
        *base_pieces(basket.base, pattern, rising),
        *stake_pieces(basket, ends),
        *binding_pieces(basket),
        *handle_pieces(basket.handles, pattern),
        *fitting_pieces(pattern),
    )


def _of_lid(piece: Piece) -> Piece:
    """A piece of the lid, told apart from the basket's by its name."""
    return replace(piece, part=f"lid {piece.part.removeprefix('base ')}", of="lid")


def _working(basket: Basket, stakes: Amount) -> Amount:
    formula = "uprights worked together count as one"
    return worked("working uprights", basket.working, "count", formula, stakes, path=stakes.path)


def _spacing(name: str, spacing_mm: float, uprights: int, stakes: Amount) -> Amount:
    around = Amount("outline", spacing_mm * uprights, "mm", Basis.COUNTED)
    return worked(name, spacing_mm, "mm", "outline ÷ working uprights", around, stakes, path=stakes.path)
