"""Kits on paper: packing lists to tick and weigh by, and labels on a sheet whose grid is given in millimetres."""

from __future__ import annotations

from collections.abc import Iterator

from slath.booklet.blocks import (
    Blank,
    Block,
    Chip,
    Column,
    Definition,
    Definitions,
    Document,
    Heading,
    KeepTogether,
    Paragraph,
    Row,
    TickBox,
    Words,
    pieces_of,
)  # fmt: skip
from slath.classes.kits import Kit, Line
from slath.classes.record import AS_WRITTEN
from slath.classes.telling import Teller, blocks_of, joined, own, table
from slath.messages import Mass, message, sentence_case


def packing_document(teller: Teller) -> Document:
    """A list for each kit and each set of spares, to be ticked off, and what it must weigh. The teacher's own: it tells
    the cut lengths.
    """
    voice = teller.voice
    name = voice.text(message("class.packing-lists"))
    blocks: list[Block] = [Heading(1, name), Paragraph(voice.say(message("class.packing-lead")), role="lead")]
    blocks += [KeepTogether(tuple(_list(teller, kit))) for kit in teller.prepared.kits.all]
    return teller.document(name, blocks)


def _list(teller: Teller, kit: Kit) -> Iterator[Block]:
    voice = teller.voice
    yield Heading(2, kit.name if kit.person else f"{kit.name}: {whose_kind(teller, kit)}")
    if kit.person:
        yield Paragraph(whose_kind(teller, kit))
    columns = (
        Column(voice.text(message("class.part")), row_header=True, weight=1.3),
        Column(voice.text(message("class.material")), weight=1.8),
        Column(voice.text(message("class.how-many")), align="right", weight=0.7),
        Column(voice.text(message("class.each-or-in-all")), weight=1.3),
        Column(voice.text(message("class.weight")), weight=0.8),
    )
    rows = [_row(teller, line) for line in kit.lines]
    yield from blocks_of(table(voice.text(message("class.in-the-kit", name=own(kit.name))), columns, rows))
    mass = kit.mass_g
    if mass is not None and kit.person:
        weighs = voice.say(message("class.must-weigh", mass=Mass(mass), basis=own(kit.weighed_on.words)))
        yield Definitions((Definition(voice.text(message("class.on-the-scale")),
                                      (*pieces_of(weighs), "  ", Blank(voice.text(message("class.on-the-scale")), 22.0))),), kind="facts")  # fmt: skip


def _row(teller: Teller, line: Line) -> Row:
    voice = teller.voice
    many = f"{line.count}" if line.whole else ""
    long = voice.length(line.length_mm) if line.whole else voice.long(line.total_mm, up=True)
    if line.rods:
        many, long = voice.text(message("class.rods", count=line.rods)), ""
    mass = voice.mass(line.mass_g) if line.mass_g is not None else ""
    return Row(
        (
            (TickBox(), " ", *pieces_of(teller.part(line.part, line.count if line.whole else 1))),
            teller.stuff(line),
            many,
            long,
            mass,
        )
    )


def whose_kind(teller: Teller, kit: Kit) -> str:
    """The basket, size, colourway and hand of a kit, in one line."""
    voice, person = teller.voice, kit.person
    parts = [kit.title, kit.size.name]
    if person is not None:
        if person.colourway != AS_WRITTEN:
            parts.append(person.colourway)
        if person.left_handed:
            parts.append(voice.text(message("class.left-handed")))
    else:
        colours = dict.fromkeys(line.dye for line in kit.lines if line.dye)
        parts += [", ".join(colours)] if colours else []
    return ", ".join(parts)


# -------------------------------------------------------------------------------------------------------------- labels
def label_lines(teller: Teller, kit: Kit) -> tuple[Words, ...]:
    """What a label says below the name: the basket, what is counted in the kit, its colours by letter, its weight.

    No length stands on it, and no weight where the licence withholds what the basket takes: a kit goes to its student.
    """
    voice = teller.voice
    counted = [f"{line.count} {teller.part_text(line.part, line.count)}" for line in kit.lines if line.whole]
    bundles: list[Words] = [
        (Chip(line.material.colour, line.material.letter), f"\u00a0{teller.dye(line.dye)}")
        for line in kit.lines
        if not line.whole
    ]
    lines: list[Words] = [whose_kind(teller, kit), sentence_case(", ".join(counted))]
    if bundles:
        lines.append(joined(bundles, ",  "))
    pattern = teller.prepared.roster.pattern(kit.person) if kit.person else None
    if kit.mass_g is not None and pattern is not None and "materials" not in pattern.withheld:
        lines.append(voice.say(message("class.weighs", mass=Mass(kit.mass_g))))
    return tuple(line for line in lines if line)
