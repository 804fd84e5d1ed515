"""The list as a table to read and as CSV (RFC 4180) for spreadsheets."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from slath.language.pattern import Material, Pattern, SizedPattern
from slath.messages import Length, Listed, Own, Value, Voice, message
from slath.messages.language import IN_ENGLISH
from slath.messages.names import named
from slath.output.listing import basis_word, rounded
from slath.quantities.results import Piece, Purchase, Quantities, StrandRun
from slath.units import Amount, Basis
from slath.units.names import INCH_MM
from slath.wording.stuff import part_said, title_said

CSV_COLUMNS = (
    "size", "list", "part", "material", "letter", "stock", "count", "spare", "length_mm", "pieces", "piece_mm", "joins",
    "have_mm", "buy_mm", "mass_g", "packs", "surplus_mm", "cost", "currency", "rests_on",
)  # fmt: skip
_FORMULA_STARTS = ("=", "+", "-", "@")  # a spreadsheet would take such text for a formula


# --------------------------------------------------------------------------------------------------------------- CSV
def list_csv(pattern: Pattern, quantities: Sequence[Quantities], voice: Voice) -> str:
    """One row for each piece, strand and purchase of every size; the column `list` says which it is. Headings and words are
    the voice's: programs read the JSON.
    """
    text = io.StringIO()
    writer = csv.DictWriter(text, CSV_COLUMNS, restval="", lineterminator="\r\n")
    writer.writerow({key: voice.text(message(f"listing.column-{key.replace('_', '-')}")) for key in CSV_COLUMNS})
    for found in quantities:
        sized = pattern.size(found.size)
        for row in _csv_rows(found, sized, voice):
            writer.writerow({key: safe_cell(value) for key, value in {"size": found.size, **row}.items()})
    return text.getvalue()


def _csv_rows(found: Quantities, sized: SizedPattern, voice: Voice) -> Iterable[dict[str, object]]:
    for piece in found.pieces:
        yield _csv_piece(piece, sized, voice)
    for run in found.strands:
        yield _csv_strand(run, sized, voice)
    for bought in found.purchase:
        yield _csv_purchase(bought, sized, voice)


def _csv_piece(piece: Piece, sized: SizedPattern, voice: Voice) -> dict[str, object]:
    material = sized.materials[piece.material]
    return {
        "list": voice.text(message("listing.kind-cut")),
        "part": _part(piece, voice),
        "material": _titled(material, voice),
        "letter": material.letter,
        "stock": material.stock.name,
        "count": rounded(piece.count),
        "spare": piece.spare,
        "length_mm": rounded(piece.cut_mm),
        "rests_on": _basis(piece.cut_mm.basis, voice),
    }


def _csv_strand(run: StrandRun, sized: SizedPattern, voice: Voice) -> dict[str, object]:
    material = sized.materials[run.material]
    return {
        "list": voice.text(message("listing.kind-weave")),
        "part": _band(run),
        "material": _titled(material, voice),
        "letter": material.letter,
        "stock": material.stock.name,
        "count": run.rods,
        "length_mm": rounded(run.length_mm),
        "pieces": rounded(run.pieces),
        "piece_mm": rounded(run.piece_mm),
        "joins": rounded(run.joins),
        "rests_on": _basis(run.length_mm.basis, voice),
    }


def _csv_purchase(row: Purchase, sized: SizedPattern, voice: Voice) -> dict[str, object]:
    return {
        "list": voice.text(message("listing.kind-buy")),
        "material": _bought(row, sized, voice),
        "letter": " ".join(letter for share in row.shares if (letter := sized.materials[share.material].letter)),
        "stock": row.stock,
        "count": "" if row.rods is None else rounded(row.rods),
        "length_mm": rounded(row.length_mm),
        "have_mm": "" if row.have_mm is None else rounded(row.have_mm),
        "buy_mm": rounded(row.buy_mm),
        "mass_g": "" if row.mass_g is None else rounded(row.mass_g),
        "packs": _packs(row, voice),
        "surplus_mm": "" if row.surplus_mm is None else rounded(row.surplus_mm),
        "cost": "" if row.cost is None else rounded(row.cost),
        "currency": row.packs[0].currency if row.cost is not None else "",
        "rests_on": _basis(row.length_mm.basis, voice),
    }


def safe_cell(value: object) -> object:
    """Text that a spreadsheet would take for a formula, be it behind blanks, is marked as text."""
    if not isinstance(value, str):
        return value
    return f"'{value}" if value.lstrip().startswith(_FORMULA_STARTS) or value.startswith(("\t", "\r")) else value


def _packs(row: Purchase, voice: Voice) -> str:
    return " + ".join(f"{pack.count} × {_said(named('packs', pack.title), voice)}" for pack in row.packs)


def _basis(basis: Basis, voice: Voice) -> str:
    return voice.text(message(f"listing.basis-{basis_word(basis)}"))


def _said(value: Value, voice: Voice) -> str:
    return voice.text(message("listing.own", name=value))


def _part(piece: Piece, voice: Voice) -> str:
    """A part of the list; in English by the name it has everywhere."""
    return piece.part if voice.language == IN_ENGLISH else _said(part_said(piece.part, round(piece.count.value)), voice)


def _titled(material: Material, voice: Voice) -> str:
    return material.title if voice.language == IN_ENGLISH else _said(title_said(material), voice)


def _bought(row: Purchase, sized: SizedPattern, voice: Voice) -> str:
    return row.title if voice.language == IN_ENGLISH else _titled(sized.materials[row.shares[0].material], voice)


# ------------------------------------------------------------------------------------------------------------- table
def list_table(pattern: Pattern, quantities: Sequence[Quantities], voice: Voice) -> str:
    """The list of every size to read in a terminal: counts, pieces to cut, strands, what to buy, the finished basket."""
    heading = message(
        "listing.heading",
        title=Own(pattern.title),
        edition=Own(pattern.edition) if pattern.edition else None,
        variant=Own(pattern.variant) if len(pattern.variants) > 1 else None,
    )
    sizes = (_Listed(found, pattern.size(found.size), voice).text() for found in quantities)
    return "\n\n".join([voice.text(heading), *sizes]) + "\n"


class _Listed:
    """The list of one size in the words of a voice."""

    def __init__(self, found: Quantities, sized: SizedPattern, voice: Voice) -> None:
        self.found = found
        self.sized = sized
        self.voice = voice

    def text(self) -> str:
        found = self.found
        sections = [
            f"{found.size}: {_said(named('status', found.tested), self.voice)}",
            *([self.voice.text(row.said) for row in found.counts[-1:]]),
            self.section("cut", [self.cut_line(piece) for piece in found.pieces]),
            self.section("weave", [self.weave_line(run) for run in found.strands]),
            self.section("buy", [self.buy_line(row) for row in found.purchase]),
            self.section("finished", self.finished_lines()),
        ]
        return "\n".join(section for section in sections if section)

    def section(self, title: str, lines: list[list[str]]) -> str:
        if not lines:
            return ""
        return "\n".join(["", self.say(title), *(f"  {line}" for line in _aligned(lines))])

    def say(self, key: str, **values: Value) -> str:
        return self.voice.text(message(f"listing.{key}", **values))

    def cut_line(self, piece: Piece) -> list[str]:
        length: Value = Length(piece.cut_mm.value)
        if piece.whole or piece.offcut:
            length = message("listing.whole" if piece.whole else "listing.of-tops", length=length)
        parts = [
            f"{_said(named('shares', part.name), self.voice)} {self.voice.length(part.value)}"
            for part in piece.parts
            if part.value >= 0
        ]
        return [
            self.say("spare", count=round(piece.count.value), spare=piece.spare),
            _part(piece, self.voice),
            _titled(self.sized.materials[piece.material], self.voice),
            _said(length, self.voice),
            " + ".join(parts) + self.over(piece),
        ]

    def over(self, piece: Piece) -> str:
        """What a length that was given has over its parts, or lacks of them; nothing within the last sixteenth."""
        over = 0.0 if piece.given_mm is None else piece.given_mm - piece.needed_mm.value
        if abs(over) < INCH_MM / 16:
            return ""
        return self.say("over" if over > 0 else "short", length=Length(abs(over)))

    def weave_line(self, run: StrandRun) -> list[str]:
        material = self.sized.materials[run.material]
        title = _titled(material, self.voice)
        return [
            _band(run),
            f"{material.letter} {title}" if material.letter else title,
            self.say("rounds", rounds=run.rounds),
            self.voice.long(run.length_mm.value, up=True),
            f"{rounded(run.pieces)} × {self.voice.long(run.piece_mm.value)}",
        ]

    def buy_line(self, row: Purchase) -> list[str]:
        voice = self.voice
        return [
            _bought(row, self.sized, voice),
            row.stock,
            self.rods(row, row.rods) if row.rods is not None else voice.long(row.buy_mm.value, up=True),
            self.say("in-hand", length=Own(voice.long(row.have_mm.value))) if row.have_mm is not None else "",
            voice.mass(row.mass_g.value) if row.mass_g is not None else self.say("weight-not-known"),
            _packs(row, voice),
            self.say("left-over", length=Own(voice.long(row.surplus_mm.value))) if row.surplus_mm is not None else "",
            f"{row.cost.value:.2f} {row.packs[0].currency}".rstrip() if row.cost is not None else "",
        ]

    def rods(self, row: Purchase, rods: Amount) -> str:
        """So many rods; those that taper with their grade at the butt."""
        return self.say("rods", rods=round(rods.value), butt=None if row.butt_mm is None else Length(row.butt_mm))

    def finished_lines(self) -> list[list[str]]:
        done = self.found.finished
        where = named("measured", done.rim_measured)
        lines = [
            [self.say("base"), self.across(done.base_length, done.base_width)],
            [self.say("rim", where=where), self.across(done.rim_length, done.rim_width)],
            [self.say("height"), self.voice.length(done.height.value)],
        ]
        if done.height_with_handle is not None:
            lines.append([self.say("height-with-handle"), self.voice.length(done.height_with_handle.value)])
        if done.height_with_parts is not None:
            lines.append([self.say("height-with-parts"), self.voice.length(done.height_with_parts.value)])
        lines.append([self.say("mass"), self.whole_mass()])
        return lines

    def whole_mass(self) -> str:
        if self.found.finished.mass_g is not None:
            return self.voice.mass(self.found.finished.mass_g.value)
        missing = [_bought(row, self.sized, self.voice) for row in self.found.purchase if row.mass_g is None]
        return self.say("not-known", missing=Listed(tuple(Own(name) for name in missing)))

    def across(self, length: Amount, width: Amount) -> str:
        if length.value == width.value:
            return self.say("across", length=Length(length.value))
        return self.say("by", length=Length(length.value), width=Length(width.value))


def _aligned(lines: list[list[str]]) -> list[str]:
    """Columns as wide as their widest cell; no spaces at line ends."""
    widths = [max(len(line[column]) for line in lines) for column in range(len(lines[0]))]
    return ["  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip() for line in lines]


def _band(run: StrandRun) -> str:
    """A band by its name; one of the lid, or of a part made by itself, with that before it."""
    return run.band if run.part in {"base", "side", "foot"} else f"{run.part}: {run.band}"
