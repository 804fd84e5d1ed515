"""How a class is told: its voice, its days and hours in words, and the frame every one of its papers has."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from msgspec import Struct

from slath.booklet.blocks import Blank, Block, Chip, Column, Document, Piece, Row, Section, Table, Words, pieces_of
from slath.booklet.reading import NO_BREAK
from slath.classes.kits import Line
from slath.classes.prepared import Prepared
from slath.language.pattern import Material
from slath.messages import Own, Voice, message
from slath.trade.stock import Stock
from slath.wording.stuff import dye_said, material_said, part_said


class Teller(Struct, frozen=True, dict=True):
    """A prepared class and the voice it is told in."""

    prepared: Prepared
    voice: Voice

    @property
    def title(self) -> str:
        """What the class is called."""
        return self.prepared.roster.record.title

    def day(self, day: dt.date) -> str:
        """A day with its weekday: ``Saturday 2027-05-15``."""
        weekday = self.voice.text(message(f"class.weekday-{day.weekday() + 1}"))
        return f"{weekday} {day.isoformat()}"

    def days(self) -> str:
        """The days of the class, as its papers name them."""
        return ", ".join(self.day(day) for day in self.prepared.roster.record.days)

    def document(self, name: str, blocks: Sequence[Block], *, section: str = "class") -> Document:
        """A paper of this class called `name`."""
        record = self.prepared.roster.record
        return Document(
            title=f"{record.title}: {name}",
            blocks=(Section(section, tuple(blocks)),),
            subtitle=name,
            author=record.teacher,
            language=self.voice.language.about("tag"),
            subject=self.voice.text(message("class.subject")),
            keywords=("basketry", "class"),
            date=record.days[0],
            foot=f"{record.title} · {record.days[0].isoformat()}",
        )

    def part(self, part: str, count: int) -> Words:
        """A part as it stands in a table, in the words of the trade."""
        return self.voice.say(message("class.only", what=part_said(part, count)))

    def part_text(self, part: str, count: int) -> str:
        """The same inside a line."""
        return self.voice.text(message("class.within", what=part_said(part, count)))

    def stock(self, stock: Stock, dye: str = "") -> str:
        """A stock with its number and measure, and the dye before it if it has one."""
        material = Material("", (), stock, "", dye=dye or None)
        return self.voice.text(message("class.only", what=material_said(material)))

    def dye(self, dye: str) -> str:
        """A colour by its name."""
        return self.voice.text(message("class.within", what=dye_said(dye or "natural")))

    def stuff(self, line: Line) -> Words:
        """The material of a line: its letter on its colour if it is woven, then the stock."""
        title = self.stock(line.stock, line.dye)
        return (Chip(line.material.colour, line.material.letter), f"{NO_BREAK}{title}") if not line.whole else title


def clock(moment: dt.datetime) -> str:
    """``09:30``."""
    return f"{moment:%H:%M}"


def money(amount: float, currency: str) -> str:
    """``22.40 GBP``."""
    return f"{amount:.2f} {currency}"


def table(
    caption: str, columns: Sequence[Column], rows: Iterable[Row], footnotes: Sequence[Words] = ()
) -> Table | None:
    """A table, or nothing where it would have no rows. Columns in which nothing stands are left out."""
    told = tuple(rows)
    body = [row for row in told if row.kind != "group"]
    if not body:
        return None
    kept = [index for index in range(len(columns)) if any(pieces_of(row.cells[index]) != ("",) for row in body)]
    cut = tuple(row if row.kind == "group" else Row(tuple(row.cells[i] for i in kept), row.kind) for row in told)
    return Table(caption, tuple(columns[index] for index in kept), cut, tuple(footnotes))


def to_fill_in(teller: Teller, caption: str, names: Sequence[str], width: float = 90.0) -> Table:
    """What is to be written down, each with an empty box."""
    columns = (
        Column(teller.voice.text(message("class.what")), row_header=True, weight=1.4),
        Column(teller.voice.text(message("class.written-down")), weight=2.0),
    )
    return Table(caption, columns, tuple(Row((name, Blank(name, width))) for name in names))


def blocks_of(*blocks: Block | None) -> list[Block]:
    """Blocks one after another, those that are not there left out."""
    return [block for block in blocks if block is not None]


def own(text: object) -> Own:
    """A value in a sentence whose words are not ours."""
    return Own(str(text))


def joined(words: Iterable[Words], between: str = ", ") -> Words:
    """Words one after another."""
    pieces: list[Piece] = []
    for number, one in enumerate(words):
        if number:
            pieces.append(between)
        pieces += pieces_of(one)
    return tuple(pieces)
