"""The tables of a booklet: sizes, what to buy, what to cut, what each band takes. Printed straight from the list."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from slath.basket.model import Basket
from slath.booklet.blocks import Chip, Column, Row, Table, Words
from slath.quantities.results import BandRow, Piece, Purchase, Quantities, StrandRun
from slath.units import Amount, Basis
from slath.wording.speech import Voice, bracketed


@dataclass(frozen=True, slots=True)
class Measured:
    """One size with its list."""

    basket: Basket
    quantities: Quantities

    @property
    def name(self) -> str:
        """The size's name."""
        return self.basket.size

    def title(self, key: str) -> Words:
        """A material as it stands in a table: its letter on its colour, then its title."""
        material = self.basket.pattern.materials[key]
        return (Chip(material.colour, material.letter), f" {material.title}") if material.letter else material.title


def sizes_table(sizes: Sequence[Measured], voice: Voice) -> Table:
    """One column for each size: base, rim, heights, stakes, mass."""
    rows: list[Row] = []

    def add(name: str, value: Callable[[Quantities], str]) -> None:
        cells = [value(size.quantities) for size in sizes]
        if any(cells):
            rows.append(Row((voice.say(name), *cells)))

    add("Base", lambda q: _over_all(q.finished.base_length, q.finished.base_width, voice))
    add("Rim", lambda q: _over_all(q.finished.rim_length, q.finished.rim_width, voice))
    add("Height standing", lambda q: voice.length(q.finished.height.value) if q.finished.height.value else "")
    add("Height up the side", lambda q: voice.length(q.finished.along.value) if q.finished.along.value else "")
    add("Height with handle", lambda q: _optional(q.finished.height_with_handle, voice.length))
    add("[Stakes]", lambda q: f"{q.stakes.value:.0f}" if q.stakes.value else "")
    add("[Stake] spacing at the base", lambda q: voice.length(q.base_spacing.value) if q.base_spacing.value else "")
    add("Finished weight, about", lambda q: _optional(q.finished.mass_g, voice.mass))
    add("Woven?", lambda q: q.tested)
    columns = (Column("Measure", row_header=True, weight=1.2), *(Column(size.name) for size in sizes))
    return Table("Sizes", columns, tuple(rows))


def _over_all(length: Amount, width: Amount, voice: Voice) -> str:
    if not length.value:
        return ""
    if abs(length.value - width.value) < 0.5:
        return f"{voice.length(length.value)} across"
    return f"{voice.length(length.value)} × {voice.length(width.value)}"


def _optional(amount: Amount | None, printed: Callable[[float], str]) -> str:
    return printed(amount.value) if amount else ""


def buying_table(sizes: Sequence[Measured], voice: Voice) -> Table:
    """What to buy of each material and colour: length, mass, packs and what is left over."""
    columns = (
        Column("Material", row_header=True, weight=2.2),
        Column("Length or rods"),
        Column("Weight"),
        Column("Packs", weight=1.4),
    )
    rows: list[Row] = []
    for size in sizes:
        rows += _headed(size, sizes)
        rows += [
            Row((size.title(item.material), _length_or_rods(item, voice), _optional(item.mass_g, voice.mass), _packs(item)))
            for item in size.quantities.purchase
        ]
    return Table("To buy for one basket", columns, tuple(rows), footnotes=_resting(sizes))


def _length_or_rods(item: Purchase, voice: Voice) -> Words:
    if item.rods is not None:
        grade = f", {voice.length(item.butt_mm)} at the [butt]" if item.butt_mm is not None else ""
        return voice.say(f"{item.rods.value:.0f} rods{grade}")
    return voice.long(item.length_mm.value, up=True)


def _packs(item: Purchase) -> str:
    return ", ".join(f"{pack.count} × {pack.title}" for pack in item.packs if pack.count)


def _resting(sizes: Sequence[Measured]) -> tuple[Words, ...]:
    """A footnote that names what the weakest of these numbers rests on, if that is less than a published figure."""
    weakest = max(
        (amount.basis for size in sizes for item in size.quantities.purchase for amount in (item.length_mm, item.mass_g) if amount),
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
                    voice.say(_capital(bracketed(piece.part))),
                    size.title(piece.material),
                    _how_many(piece),
                    voice.length(piece.cut_mm.value),
                )
            )
            for piece in size.quantities.pieces
        ]
    return Table("Pieces to cut", columns, tuple(rows))


def _how_many(piece: Piece) -> str:
    return f"{piece.count.value:.0f} + {piece.spare} spare" if piece.spare else f"{piece.count.value:.0f}"


def band_table(sizes: Sequence[Measured], voice: Voice) -> Table:
    """Rounds, height and strands of every band of the base and the side."""
    columns = (
        Column("Band", row_header=True, weight=1.2),
        Column("Weave", weight=1.4),
        Column("Rounds", align="right", weight=0.7),
        Column("Up the side", weight=1.1),
        Column("Each colour takes", weight=1.6),
    )
    rows: list[Row] = []
    for size in sizes:
        rows += _headed(size, sizes)
        for band in size.quantities.bands:
            rows.append(
                Row(
                    (
                        _capital(band.name),
                        voice.say(bracketed(band.weave)),
                        f"{band.rounds.value:.0f}",
                        voice.length(band.along.value),
                        _strands(band, size, voice),
                    )
                )
            )
    return Table("Bands, from the centre of the base to the top", columns, tuple(rows))


def _strands(band: BandRow, size: Measured, voice: Voice) -> Words:
    """What each colour takes; rounds of a chain go on with the strands of the first, which are told there for all."""
    runs = [run for run in size.quantities.strands if (run.part, run.index, run.band) == (band.part, band.index, band.course)]
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
    return [Chip(material.colour, material.letter), f" {length}"] if material.letter else [length]


def _headed(size: Measured, sizes: Sequence[Measured]) -> list[Row]:
    return [Row((_capital(size.name),), kind="group")] if len(sizes) > 1 else []


def _capital(text: str) -> str:
    for place, letter in enumerate(text):
        if letter.isalpha():
            return text[:place] + letter.upper() + text[place + 1 :]
    return text
