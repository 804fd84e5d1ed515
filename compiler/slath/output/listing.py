"""The list as data: cut list, strands, purchase and measures of every size, for spreadsheets and programs.

Numbers are rounded here and nowhere before. The JSON follows `schema/list.schema.json` (JSON Schema 2020-12), which
is shipped; its version stands in the key ``list``.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any

from slath.language.pattern import Pattern, SizedPattern
from slath.messages import Voice
from slath.notes import Note, Place
from slath.quantities.results import BandRow, BorderRow, Finished, Piece, Purchase, Quantities, StrandRun, TestRow
from slath.units import Amount, Basis, LengthToCut
from slath.units.printing import steps_up

VERSION = 1
Row = dict[str, Any]
_DECIMALS = {"mm": 1, "g": 1, "count": 0, "ratio": 4, "degrees": 1, "money": 2, "minutes": 0}


@cache
def list_schema() -> Row:
    """The JSON Schema (2020-12) of `list_data`."""
    text = (resources.files("slath.output") / "schema" / "list.schema.json").read_text("utf-8")
    schema: Row = json.loads(text)
    return schema


def list_data(pattern: Pattern, quantities: Sequence[Quantities], notes: Sequence[Note] = ()) -> Row:
    """The list of the given sizes as plain data in a fixed order of keys."""
    return {
        "list": VERSION,
        "pattern": {"file": Place(pattern.file).in_print, "title": pattern.title, "edition": pattern.edition},
        "sizes": [_size(found, pattern.size(found.size), notes) for found in quantities],
    }


def list_json(pattern: Pattern, quantities: Sequence[Quantities], notes: Sequence[Note] = ()) -> str:
    """`list_data` as JSON text, two spaces a level, ending in a newline."""
    return json.dumps(list_data(pattern, quantities, notes), ensure_ascii=False, indent=2) + "\n"


def rounded(amount: Amount) -> float | int:
    """The value as it leaves the tool: mm and g to one decimal, ratios to four, counts whole; a length to cut rounded up."""
    if isinstance(amount.value, LengthToCut):
        tenths = steps_up(amount.value, 0.1)
        return tenths // 10 if tenths % 10 == 0 else tenths / 10
    return rounded_to(amount.value, _DECIMALS[amount.unit])


def rounded_to(value: float, decimals: int) -> float | int:
    """`value` to so many decimals, never a negative nought; whole numbers without a point."""
    near = round(value, decimals) + 0.0
    return int(near) if decimals == 0 or near == int(near) else near


def _size(found: Quantities, sized: SizedPattern, notes: Sequence[Note]) -> Row:
    return {
        "size": found.size,
        "tested": found.tested,
        **_numbers(stakes=found.stakes, working_uprights=found.working),
        "spacing_mm": _numbers(base=found.base_spacing, rim=found.rim_spacing),
        "counts": [{"name": row.name, **_numbers(count=row.amount), "sentence": row.sentence} for row in found.counts],
        "pieces": [_piece(piece) for piece in found.pieces],
        "strands": [_strand(run, sized) for run in found.strands],
        "purchase": [_purchase(row) for row in found.purchase],
        "bands": [_band(row) for row in found.bands],
        "border": _border(found.border),
        "foot": _border(found.foot),
        "finished": _finished(found.finished),
        "test_weave": [_tested(row) for row in found.test],
        "notes": [_note(note) for note in notes if note.speaks_of(found.size)],
    }


def _numbers(**amounts: Amount | None) -> Row:
    """Each amount's rounded value under its key, and what it rests on; None where it is not known."""
    row: Row = {key: None if amount is None else rounded(amount) for key, amount in amounts.items()}
    row["rests_on"] = {key: basis_word(amount.basis) for key, amount in amounts.items() if amount is not None}
    return row


def basis_word(basis: Basis) -> str:
    """The one-word tag of a basis: counted, given, measured, published, common, memory or estimated."""
    return basis.name.lower()


def _piece(piece: Piece) -> Row:
    return {
        "part": piece.part,
        "material": piece.material,
        "spare": piece.spare,
        **_numbers(count=piece.count, length_mm=piece.cut_mm, needed_mm=piece.needed_mm),
        "given_mm": None if piece.given_mm is None else rounded_to(piece.given_mm, 1),
        "parts_mm": [
            {"part": part.name, "length_mm": rounded(part), "rests_on": basis_word(part.basis)} for part in piece.parts
        ],
    }


def _strand(run: StrandRun, sized: SizedPattern) -> Row:
    return {
        "band": run.band,
        "where": run.part,
        "material": run.material,
        "letter": sized.materials[run.material].letter,
        "strands": run.rods,
        "rounds": run.rounds,
        **_numbers(
            length_mm=run.length_mm,
            woven_mm=run.woven_mm,
            ends_mm=run.ends_mm,
            laps_mm=run.laps_mm,
            spare_mm=run.spare_mm,
            pieces=run.pieces,
            piece_mm=run.piece_mm,
            joins=run.joins,
        ),
    }


def _purchase(row: Purchase) -> Row:
    return {
        "material": row.material,
        "title": row.title,
        "stock": row.stock,
        "for": [{"material": share.material, **_numbers(length_mm=share.length_mm)} for share in row.shares],
        **_numbers(
            length_mm=row.length_mm,
            have_mm=row.have_mm,
            lengths=row.lengths,
            buy_mm=row.buy_mm,
            mass_g=row.mass_g,
            rods=row.rods,
            surplus_mm=row.surplus_mm,
            cost=row.cost,
        ),
        "butt_mm": row.butt_mm,
        "tip_mm": row.tip_mm,
        "packs": [
            {"title": pack.title, "count": pack.count, "price": pack.price, "currency": pack.currency}
            for pack in row.packs
        ],
    }


def _band(row: BandRow) -> Row:
    return {
        "name": row.name,
        "where": row.part,
        "weave": row.weave,
        **_numbers(rounds=row.rounds, pitch_mm=row.pitch, height_mm=row.height, slope_mm=row.along, takeup=row.take_up),
        "asked_mm": None if row.asked_mm is None else rounded_to(row.asked_mm, 1),
        "left_over_mm": None if row.left_over_mm is None else rounded_to(row.left_over_mm, 1),
        "looks": row.looks,
        "steps": row.steps,
    }


def _border(row: BorderRow | None) -> Row | None:
    if row is None:
        return None
    return {
        "reach": row.reach,
        **_numbers(needed_mm=row.needed_mm, thickness_mm=row.thickness_mm),
        "parts_mm": [
            {"part": part.name, "length_mm": rounded(part), "rests_on": basis_word(part.basis)} for part in row.parts
        ],
        "loose_loops": list(row.loose_loops),
    }


def _finished(row: Finished) -> Row:
    numbers = _numbers(
        height_mm=row.height,
        along_mm=row.along,
        base_length_mm=row.base_length,
        base_width_mm=row.base_width,
        rim_length_mm=row.rim_length,
        rim_width_mm=row.rim_width,
        mass_g=row.mass_g,
        height_with_handle_mm=row.height_with_handle,
    )
    return {**numbers, "rim_measured": row.rim_measured}


def _tested(row: TestRow) -> Row:
    """One thing a test weave measures, found or not, under the keys the pattern reads it by."""
    decimals = _DECIMALS[row.predicted.unit]
    return {
        "under": list(row.key),
        "what": Voice({}).text(row.what),
        "unit": row.predicted.unit,
        "predicted": rounded(row.predicted),
        "found": None if row.found is None else rounded_to(row.found, decimals),
        "missed_share": None if row.miss is None else rounded_to(row.miss, 4),
        "rests_on": {"predicted": basis_word(row.predicted.basis)},
    }


def _note(note: Note) -> Row:
    return {
        "code": note.code,
        "severity": note.severity.value,
        "size": note.size,
        "part": note.part,
        "line": note.place.line,
        "column": note.place.column,
        "message": note.sentence,
        "remedies": list(note.remedies),
        "accepted": note.accepted,
    }
