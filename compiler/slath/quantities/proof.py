"""The proof as plain rows: every number with its formula, its inputs, its place in the file and what it rests on."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from slath.language.places import Path
from slath.quantities.results import Quantities
from slath.units import Amount, Basis, Unit


class ProofInput(Struct, frozen=True):
    """One number that went into another."""

    name: str
    value: float
    unit: Unit
    basis: Basis
    source: str
    path: Path


class ProofRow(Struct, frozen=True):
    """One number of the list. `path` leads to its line in the pattern file."""

    size: str
    section: str
    name: str
    value: float
    unit: Unit
    formula: str
    inputs: tuple[ProofInput, ...]
    basis: Basis
    source: str
    path: Path


def proof_rows(quantities: Quantities) -> tuple[ProofRow, ...]:
    """Every number of one size, each once, in printed order, under the section of the list it belongs to."""
    seen: dict[tuple[str, str, float], ProofRow] = {}
    for section, amounts in _sections(quantities):
        for amount in amounts:
            seen.setdefault((section, amount.name, amount.value), _row(quantities.size, section, amount))
    return tuple(seen.values())


def _sections(found: Quantities) -> Iterable[tuple[str, tuple[Amount, ...]]]:
    yield "counts", (*(row.amount for row in found.counts), found.stakes, found.working)
    yield "spacing", (found.base_spacing, found.rim_spacing)
    for band in found.bands:
        yield f"band: {band.name}", (band.rounds, band.pitch, band.along, band.height, band.take_up)
    for title, row in (("border", found.border), ("foot border", found.foot)):
        if row is not None:
            yield title, (*row.parts, row.needed_mm, row.thickness_mm)
    for piece in found.pieces:
        yield f"pieces: {piece.part}", (piece.count, *piece.parts, piece.needed_mm, piece.cut_mm)
    for run in found.strands:
        strand = (run.woven_mm, run.ends_mm, run.pieces, run.joins, run.laps_mm, run.length_mm, run.spare_mm)
        yield f"strands: {run.band}", (*strand, run.piece_mm)
    for bought in found.purchase:
        yield f"purchase: {bought.title}", bought.amounts()
    done = found.finished
    measures = (done.height, done.along, done.base_length, done.base_width, done.rim_length, done.rim_width)
    more = tuple(
        amount for amount in (done.mass_g, done.height_with_handle, done.height_with_parts) if amount is not None
    )
    yield "finished basket", (*measures, *more)


def _row(size: str, section: str, amount: Amount) -> ProofRow:
    inputs = tuple(
        ProofInput(item.name, item.value, item.unit, item.basis, item.source, item.path) for item in amount.inputs
    )
    return ProofRow(
        size=size,
        section=section,
        name=amount.name,
        value=amount.value,
        unit=amount.unit,
        formula=amount.formula,
        inputs=inputs,
        basis=amount.basis,
        source=amount.source,
        path=amount.path,
    )
