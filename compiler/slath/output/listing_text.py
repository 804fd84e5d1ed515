"""The list as a table to read and as CSV (RFC 4180) for spreadsheets."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from slath.language.pattern import Pattern, SizedPattern
from slath.output.listing import basis_word, rounded
from slath.quantities.results import Piece, Purchase, Quantities, StrandRun
from slath.units import Amount
from slath.units.counting import listed
from slath.units.printing import INCH_MM, First, both, both_long, both_mass

CSV_COLUMNS = (
    "size", "list", "part", "material", "letter", "stock", "count", "spare", "length_mm", "pieces", "piece_mm", "joins",
    "have_mm", "buy_mm", "mass_g", "packs", "surplus_mm", "cost", "currency", "rests_on",
)  # fmt: skip
_FORMULA_STARTS = ("=", "+", "-", "@")  # a spreadsheet would take such text for a formula


# --------------------------------------------------------------------------------------------------------------- CSV
def list_csv(pattern: Pattern, quantities: Sequence[Quantities]) -> str:
    """One row for each piece, strand and purchase of every size; the column `list` says which it is."""
    text = io.StringIO()
    writer = csv.DictWriter(text, CSV_COLUMNS, restval="", lineterminator="\r\n")
    writer.writeheader()
    for found in quantities:
        sized = pattern.size(found.size)
        for row in _csv_rows(found, sized):
            writer.writerow({key: safe_cell(value) for key, value in {"size": found.size, **row}.items()})
    return text.getvalue()


def _csv_rows(found: Quantities, sized: SizedPattern) -> Iterable[dict[str, object]]:
    for piece in found.pieces:
        yield _csv_piece(piece, sized)
    for run in found.strands:
        yield _csv_strand(run, sized)
    for bought in found.purchase:
        yield _csv_purchase(bought, sized)


def _csv_piece(piece: Piece, sized: SizedPattern) -> dict[str, object]:
    material = sized.materials[piece.material]
    return {
        "list": "cut",
        "part": piece.part,
        "material": material.title,
        "letter": material.letter,
        "stock": material.stock.name,
        "count": rounded(piece.count),
        "spare": piece.spare,
        "length_mm": rounded(piece.cut_mm),
        "rests_on": basis_word(piece.cut_mm.basis),
    }


def _csv_strand(run: StrandRun, sized: SizedPattern) -> dict[str, object]:
    material = sized.materials[run.material]
    return {
        "list": "weave",
        "part": _band(run),
        "material": material.title,
        "letter": material.letter,
        "stock": material.stock.name,
        "count": run.rods,
        "length_mm": rounded(run.length_mm),
        "pieces": rounded(run.pieces),
        "piece_mm": rounded(run.piece_mm),
        "joins": rounded(run.joins),
        "rests_on": basis_word(run.length_mm.basis),
    }


def _csv_purchase(row: Purchase, sized: SizedPattern) -> dict[str, object]:
    return {
        "list": "buy",
        "material": row.title,
        "letter": " ".join(letter for share in row.shares if (letter := sized.materials[share.material].letter)),
        "stock": row.stock,
        "count": "" if row.rods is None else rounded(row.rods),
        "length_mm": rounded(row.length_mm),
        "have_mm": "" if row.have_mm is None else rounded(row.have_mm),
        "buy_mm": rounded(row.buy_mm),
        "mass_g": "" if row.mass_g is None else rounded(row.mass_g),
        "packs": _packs(row),
        "surplus_mm": "" if row.surplus_mm is None else rounded(row.surplus_mm),
        "cost": "" if row.cost is None else rounded(row.cost),
        "currency": row.packs[0].currency if row.cost is not None else "",
        "rests_on": basis_word(row.length_mm.basis),
    }


def safe_cell(value: object) -> object:
    """Text that a spreadsheet would take for a formula, be it behind blanks, is marked as text."""
    if not isinstance(value, str):
        return value
    return f"'{value}" if value.lstrip().startswith(_FORMULA_STARTS) or value.startswith(("\t", "\r")) else value


def _packs(row: Purchase) -> str:
    return " + ".join(f"{pack.count} × {pack.title}" for pack in row.packs)


# ------------------------------------------------------------------------------------------------------------- table
def list_table(pattern: Pattern, quantities: Sequence[Quantities], units: First = "inches") -> str:
    """The list of every size to read in a terminal: counts, pieces to cut, strands, what to buy, the finished basket."""
    heading = pattern.title + (f", edition {pattern.edition}" if pattern.edition else "")
    heading += f", {pattern.variant}" if len(pattern.variants) > 1 else ""
    return "\n\n".join([heading, *(_size_text(found, pattern.size(found.size), units) for found in quantities)]) + "\n"


def _size_text(found: Quantities, sized: SizedPattern, units: First) -> str:
    sections = [
        f"{found.size}: {found.tested}",
        *([row.sentence for row in found.counts[-1:]]),
        _section("Cut", _cut_lines(found, sized, units)),
        _section("Weave", _weave_lines(found, sized, units)),
        _section("Buy", _buy_lines(found, units)),
        _section("Finished", _finished_lines(found, units)),
    ]
    return "\n".join(section for section in sections if section)


def _section(title: str, lines: list[list[str]]) -> str:
    return "\n".join(["", title, *(f"  {line}" for line in _aligned(lines))]) if lines else ""


def _aligned(lines: list[list[str]]) -> list[str]:
    """Columns as wide as their widest cell; no spaces at line ends."""
    widths = [max(len(line[column]) for line in lines) for column in range(len(lines[0]))]
    return ["  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip() for line in lines]


def _cut_lines(found: Quantities, sized: SizedPattern, units: First) -> list[list[str]]:
    return [
        [
            f"{rounded(piece.count)}" + (f" + {piece.spare} spare" if piece.spare else ""),
            piece.part,
            sized.materials[piece.material].title,
            f"{'whole, at least ' if piece.whole else 'of the tops, ' if piece.offcut else ''}{both(piece.cut_mm.value, units)}",
            " + ".join(f"{part.name} {both(part.value, units)}" for part in piece.parts if part.value >= 0)
            + _over(piece, units),
        ]
        for piece in found.pieces
    ]


def _over(piece: Piece, units: First) -> str:
    """What a length that was given has over its parts, or lacks of them; nothing within the last sixteenth."""
    over = 0.0 if piece.given_mm is None else piece.given_mm - piece.needed_mm.value
    if abs(over) < INCH_MM / 16:
        return ""
    return f" + {both(over, units)} over" if over > 0 else f", {both(-over, units)} short of them"


def _weave_lines(found: Quantities, sized: SizedPattern, units: First) -> list[list[str]]:
    return [
        [
            _band(run),
            _lettered(sized, run.material),
            f"{run.rounds} rounds" if run.rounds != 1 else "1 round",
            both_long(run.length_mm.value, units, up=True),
            f"{rounded(run.pieces)} × {both_long(run.piece_mm.value, units)}",
        ]
        for run in found.strands
    ]


def _band(run: StrandRun) -> str:
    """A band by its name; one of the lid, or of a part made by itself, with that before it."""
    return run.band if run.part in {"base", "side", "foot"} else f"{run.part}: {run.band}"


def _lettered(sized: SizedPattern, key: str) -> str:
    material = sized.materials[key]
    return f"{material.letter} {material.title}" if material.letter else material.title


def _buy_lines(found: Quantities, units: First) -> list[list[str]]:
    return [
        [
            row.title,
            row.stock,
            _rods(row, row.rods, units) if row.rods is not None else both_long(row.buy_mm.value, units, up=True),
            f"{both_long(row.have_mm.value, units)} in hand" if row.have_mm is not None else "",
            both_mass(row.mass_g.value, units) if row.mass_g is not None else "weight not known",
            _packs(row),
            f"{both_long(row.surplus_mm.value, units)} left over" if row.surplus_mm is not None else "",
            f"{row.cost.value:.2f} {row.packs[0].currency}".rstrip() if row.cost is not None else "",
        ]
        for row in found.purchase
    ]


def _rods(row: Purchase, rods: Amount, units: First) -> str:
    """So many rods; those that taper with their grade at the butt."""
    return f"{rounded(rods)} rods" + (f", {both(row.butt_mm, units)} at the butt" if row.butt_mm is not None else "")


def _finished_lines(found: Quantities, units: First) -> list[list[str]]:
    done = found.finished
    lines = [
        _measure("base", done.base_length, done.base_width, units),
        _measure(f"rim, {done.rim_measured}", done.rim_length, done.rim_width, units),
        ["height", both(done.height.value, units)],
    ]
    if done.height_with_handle is not None:
        lines.append(["height with handle", both(done.height_with_handle.value, units)])
    lines.append(["mass", _whole_mass(found, units)])
    return lines


def _whole_mass(found: Quantities, units: First) -> str:
    if found.finished.mass_g is not None:
        return both_mass(found.finished.mass_g.value, units)
    missing = [row.title for row in found.purchase if row.mass_g is None]
    return f"not known: no weight is given for {listed(missing)}" if missing else "not known"


def _measure(name: str, length: Amount, width: Amount, units: First) -> list[str]:
    if length.value == width.value:
        return [name, f"{both(length.value, units)} across"]
    return [name, f"{both(length.value, units)} by {both(width.value, units)}"]
