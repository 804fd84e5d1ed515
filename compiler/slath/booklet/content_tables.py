"""The tables of a booklet: sizes, what to buy, what to cut, what each band takes. Printed straight from the list."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from slath.basket.model import Basket
from slath.booklet.blocks import Chip, Column, Row, Table, Words
from slath.booklet.reading import NO_BREAK
from slath.language.pattern import Board, Outline
from slath.quantities.results import BandRow, Piece, Purchase, Quantities, StrandRun
from slath.units import Amount, Basis
from slath.wording.speech import Voice, bracketed, sentence_case, verbatim
from slath.wording.stuff import lettered


@dataclass(frozen=True)
class Measured:
    """One size with its list."""

    basket: Basket
    quantities: Quantities

    @property
    def name(self) -> str:
        """The size's name."""
        return self.basket.size

    @cached_property
    def lettered(self) -> frozenset[str]:
        """Materials told apart by their letters."""
        return lettered(self.basket)

    def title(self, key: str) -> Words:
        """A material as it stands in a table: its letter on its colour if it is woven, then its title."""
        material = self.basket.pattern.materials[key]
        named = material.title or material.key
        return (Chip(material.colour, material.letter), f"{NO_BREAK}{named}") if key in self.lettered else named

    def board(self, part: str) -> Outline | None:
        """The outline of a board, if that is what `part` is."""
        lid = self.basket.lid
        spec = lid.basket.base.spec if lid and part.startswith("lid") else self.basket.base.spec
        return spec.outline if part.endswith("board") and isinstance(spec, Board) else None


def sizes_table(sizes: Sequence[Measured], voice: Voice) -> Table:
    """One column for each size: base, rim, heights, stakes, mass; whether it was woven where that differs."""
    rows: list[Row] = []

    def add(name: str, value: Callable[[Quantities], str]) -> None:
        cells = [value(size.quantities) for size in sizes]
        if any(cells):
            rows.append(Row((voice.say(name), *cells)))

    flat = all(size.basket.profile is None for size in sizes)
    add("Base", lambda q: over_all(q.finished.base_length, q.finished.base_width, voice))
    add("Over the [border]" if flat else "Rim", lambda q: over_all(q.finished.rim_length, q.finished.rim_width, voice))
    add("Weaving, up the side", lambda q: voice.length(q.finished.along.value) if q.finished.along.value else "")
    add(
        "Thick at the edge" if flat else "Standing height, [border] and all",
        lambda q: voice.length(q.finished.height.value) if q.finished.height.value else "",
    )
    add("Height with handle", lambda q: _optional(q.finished.height_with_handle, voice.length))
    add(
        "[Stakes] at the base" if any(size.basket.changes for size in sizes) else "[Stakes]",
        lambda q: f"{q.stakes.value:.0f}" if q.stakes.value else "",
    )
    if any(size.basket.changes for size in sizes):
        rows.append(Row((voice.say("Uprights at the top"), *(f"{size.basket.rim_uprights}" for size in sizes))))
    add("[Stake] spacing at the base", lambda q: voice.length(q.base_spacing.value) if q.base_spacing.value else "")
    add("Finished weight, about", lambda q: _optional(q.finished.mass_g, voice.mass))
    if len({size.quantities.tested for size in sizes}) > 1:
        add("Woven?", lambda q: q.tested)
    columns = (Column("Measure", row_header=True, weight=1.2), *(Column(sentence_case(size.name)) for size in sizes))
    return Table("Sizes", columns, tuple(rows))


def over_all(length: Amount, width: Amount, voice: Voice) -> str:
    """Length by width, or how far across where they are the same; nothing where there is no length."""
    if not length.value:
        return ""
    if abs(length.value - width.value) < 0.5:
        return f"{voice.length(length.value)} across"
    return voice.by(length.value, width.value)


def _optional(amount: Amount | None, printed: Callable[[float], str]) -> str:
    return printed(amount.value) if amount else ""


def buying_table(sizes: Sequence[Measured], voice: Voice) -> Table:
    """What to buy of each material and colour: how much, what it weighs, in how many packs."""
    counted = any(item.rods is not None for size in sizes for item in size.quantities.purchase)
    weighed = any(item.mass_g is not None for size in sizes for item in size.quantities.purchase)
    columns = (
        Column("Material", row_header=True, weight=2.2),
        Column("Length or rods" if counted else "Length"),
        Column("Weight"),
        Column("Packs", weight=1.4),
    )
    rows: list[Row] = []
    for size in sizes:
        rows += _headed(size, sizes)
        rows += [
            Row(
                (
                    item.title if len(item.shares) > 1 else size.title(item.material),
                    _how_much(item, size, voice),
                    _weight(item, voice) if weighed else "",
                    _packs(item),
                )
            )
            for item in size.quantities.purchase
        ]
    told = [index for index in range(len(columns)) if any(len(row.cells) > index and row.cells[index] for row in rows)]
    return Table(
        "To buy for one basket",
        tuple(columns[index] for index in told),
        tuple(row if row.kind == "group" else Row(tuple(row.cells[index] for index in told)) for row in rows),
        footnotes=_resting(sizes),
    )


def _how_much(item: Purchase, size: Measured, voice: Voice) -> Words:
    """A length, a count of rods with their thick end, or the size of a board."""
    if item.rods is not None:
        grade = f", {voice.length(item.butt_mm)} at the [butt]" if item.butt_mm is not None else ""
        return voice.say(f"{item.rods.value:.0f} rods{grade}")
    pieces = [piece for piece in size.quantities.pieces if piece.material == item.material]
    boards = [outline for piece in pieces if (outline := size.board(piece.part))]
    if boards and len(boards) == len(pieces):
        return ", ".join(voice.by(outline.length_mm, outline.width_mm) for outline in boards)
    return voice.long(item.buy_mm.value, up=True)


def _weight(item: Purchase, voice: Voice) -> Words:
    return voice.mass(item.mass_g.value) if item.mass_g else "not known"


def _packs(item: Purchase) -> str:
    return ", ".join(f"{pack.count} × {pack.title}" for pack in item.packs if pack.count)


def _resting(sizes: Sequence[Measured]) -> tuple[Words, ...]:
    """A footnote that names what the weakest of these numbers rests on, if that is less than a published figure."""
    weakest = max(
        (
            amount.basis
            for size in sizes
            for item in size.quantities.purchase
            for amount in (item.length_mm, item.mass_g)
            if amount
        ),
        default=Basis.COUNTED,
    )
    if weakest <= Basis.PUBLISHED:
        return ()
    return (f"Some of the figures behind this table are {weakest.words}; a test piece makes them sure.",)


def cutting_table(sizes: Sequence[Measured], voice: Voice) -> Table:
    """Every piece to cut: part, material, how many, and how long, rounded up to the maker's step."""
    columns = (
        Column("Part", row_header=True, weight=1.5),
        Column("Material", weight=1.6),
        Column("How many", align="right", weight=0.8),
        Column("Cut to", weight=1.3),
    )
    rows: list[Row] = []
    for size in sizes:
        rows += _headed(size, sizes)
        rows += [
            Row(
                (
                    voice.say(sentence_case(bracketed(piece.part))),
                    size.title(piece.material),
                    _how_many(piece),
                    _cut_to(piece, size, voice),
                )
            )
            for piece in size.quantities.pieces
        ]
    return Table("Pieces to cut", columns, tuple(rows))


def _how_many(piece: Piece) -> str:
    return f"{piece.count.value:.0f} + {piece.spare} spare" if piece.spare else f"{piece.count.value:.0f}"


def _cut_to(piece: Piece, size: Measured, voice: Voice) -> str:
    board = size.board(piece.part)
    if piece.whole:
        return f"left whole, {voice.length(piece.needed_mm.value)} at the least"
    return voice.by(board.length_mm, board.width_mm) if board else voice.length(piece.cut_mm.value)


# What the measure of a band is called, by the part it is woven on: a base grows outwards and a side upwards.
_BANDS = {
    "base": ("Bands of the base, from its centre to its edge", "Outwards"),
    "side": ("Bands of the side, from the base to the top", "Up the side"),
    "lid": ("Bands of the lid, from its centre to its rim", "Outwards or down"),
    "foot": ("Bands of the foot, from the base down", "Down from the base"),
}


def band_tables(sizes: Sequence[Measured], voice: Voice) -> list[Table]:
    """Rounds, measure and strands of every band: of the base, of the side, of the lid."""
    parts = dict.fromkeys(band.part for size in sizes for band in size.quantities.bands)
    return [_band_table(sizes, voice, part) for part in parts]


def _band_table(sizes: Sequence[Measured], voice: Voice, part: str) -> Table:
    title, measure = _BANDS[part]
    columns = (
        Column("Band", row_header=True, weight=1.2),
        Column("Weave", weight=1.4),
        Column("Rounds", align="right", weight=0.7),
        Column(measure, weight=1.1),
        Column(voice.text("Each colour takes"), weight=1.6),
    )
    rows: list[Row] = []
    for size in sizes:
        rows += _headed(size, sizes)
        rows += [
            Row(
                (
                    voice.say(sentence_case(bracketed(verbatim(band.name)))),
                    voice.say(bracketed(band.weave)),
                    f"{band.rounds.value:.0f}",
                    voice.length(band.along.value),
                    _strands(band, size, voice),
                )
            )
            for band in size.quantities.bands
            if band.part == part
        ]
    return Table(voice.text(title), columns, tuple(rows))


def _strands(band: BandRow, size: Measured, voice: Voice) -> Words:
    """What each colour takes; rounds of a chain go on with the strands of the first, which are told there for all."""
    runs = [
        run
        for run in size.quantities.strands
        if (run.part, run.index, run.band) == (band.part, band.index, band.course)
    ]
    words: list[object] = []
    if band.course != band.name:
        words.append(f"all of {band.course}: " if runs else "the same, going on")
    for number, run in enumerate(runs):
        if number:
            words.append("; ")
        words += _strand(run, size, voice)
    return tuple(words)  # type: ignore[arg-type]


def _strand(run: StrandRun, size: Measured, voice: Voice) -> list[object]:
    material = size.basket.pattern.materials[run.material]
    length = voice.long(run.length_mm.value, up=True)
    return (
        [Chip(material.colour, material.letter), f"{NO_BREAK}{length}"] if run.material in size.lettered else [length]
    )


def _headed(size: Measured, sizes: Sequence[Measured]) -> list[Row]:
    return [Row((sentence_case(size.name),), kind="group")] if len(sizes) > 1 else []
