"""A realistic booklet to set: an invented basket of the invented workshop Otter Weir. No number here is computed."""

from __future__ import annotations

import datetime as dt
import math

from slath.booklet.blocks import (
    Blank,
    Block,
    Caution,
    Chip,
    Column,
    Contents,
    CountBox,
    Cover,
    Definition,
    Definitions,
    Document,
    Emphasis,
    Figure,
    Form,
    FormBox,
    Heading,
    KeepTogether,
    Link,
    Listing,
    Measure,
    NotesLines,
    Notice,
    Paragraph,
    Row,
    Section,
    Step,
    Strong,
    Table,
    Term,
    TickRow,
)
from slath.drawing.scene import Ellipse, Group, Item, Path, Scene, Subpath, Text

INK, WILLOW, SHADE = "#231f1a", "#b98d5a", "#7d5a33"


def cross(sticks: int, size: float) -> Scene:
    """A base plan: ``sticks`` through ``sticks``, ``size`` mm across."""
    items: list[Item] = []
    width, middle = size / 22, size / 2
    for number in range(sticks):
        at = middle + (number - (sticks - 1) / 2) * width * 1.3
        for corner in (
            ((3, at - width / 2), (size - 3, at + width / 2)),
            ((at - width / 2, 3), (at + width / 2, size - 3)),
        ):
            (x0, y0), (x1, y1) = corner
            outline = Subpath(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True)
            items.append(Path((outline,), fill=WILLOW, stroke=INK, width=0.3))
    for ring in range(3):
        radius = size * (0.17 + 0.03 * ring)
        items.append(Ellipse(middle, middle, radius, radius, stroke=SHADE, width=0.8))
    items.append(Text(middle, size - 0.3, f"{sticks} through {sticks}", 8, halo="#ffffff"))
    words = f"{sticks} sticks lie side by side and pass through slits in {sticks} more, which lie across them."
    return Scene("base", "The cross", words, size, size, tuple(items))


def side(width: float, height: float) -> Scene:
    """Rows of weaving over stakes."""
    items: list[Item] = []
    for stake in range(12):
        x = (stake + 0.5) * width / 12
        items.append(Path((Subpath(((x, 2), (x, height - 2))),), stroke=INK, width=1.1, cap="round"))
    for row in range(int(height / 3)):
        points: list[tuple[float, float]] = [(1, 3 * row + 2)]
        for stake in range(12):
            x0, x1 = 1 + stake * (width - 2) / 12, 1 + (stake + 1) * (width - 2) / 12
            y = 3 * row + 2
            lift = 1.3 if (stake + row) % 2 else -1.3
            points += [(x0 + (x1 - x0) / 3, y + lift), (x0 + 2 * (x1 - x0) / 3, y + lift), (x1, y)]
        colour = (WILLOW, SHADE, "#5b6f57")[row % 3]
        items.append(Path((Subpath(tuple(points), curve=True),), stroke=colour, width=1.5, cap="round"))
    items.append(Text(width / 2, height - 0.5, "A, B and C in turn", 8, halo="#ffffff", bold=True))
    words = "Three strands, lettered A, B and C, each pass before two stakes and behind one, in turn to the right."
    return Scene("side", "Three-rod wale", words, width, height, (Group(tuple(items), clip=(0, 0, width, height)),))


def basket(width: float) -> Scene:
    """A round basket seen from the side and a little above."""
    items: list[Item] = []
    rows = 26
    for row in range(rows):
        share = row / (rows - 1)
        half = width * (0.33 + 0.13 * share + 0.03 * math.sin(math.pi * share))
        y = width * (0.78 - 0.55 * share)
        for stake in range(18):
            a0, a1 = math.pi * stake / 18, math.pi * (stake + 1) / 18
            points = [
                (
                    width / 2 - half * math.cos(a0 + (a1 - a0) * t / 3),
                    y
                    + half * 0.22 * math.sin(a0 + (a1 - a0) * t / 3)
                    + (0.8 if (stake + row) % 2 else -0.8) * (t in {1, 2}),
                )
                for t in range(4)
            ]
            colour = WILLOW if (stake + row) % 2 else SHADE
            items.append(Path((Subpath(tuple(points), curve=True),), stroke=colour, width=width / 52, cap="round"))
    top = width * 0.23
    items.append(Ellipse(width / 2, top, width * 0.46, width * 0.102, stroke=SHADE, width=width / 40))
    return Scene(
        "view",
        "The finished basket",
        "A round basket, a little wider at the rim than at the base.",
        width,
        width * 0.92,
        tuple(items),
    )


def gauge() -> Scene:
    """A template that must never be scaled: 50 mm between its marks."""
    items: list[Item] = [Path((Subpath(((5, 5), (55, 5))),), stroke=INK, width=0.4)]
    items += [Path((Subpath(((x, 2), (x, 8))),), stroke=INK, width=0.4) for x in (5, 55)]
    items.append(Text(30, 14, "50 mm", 9))
    return Scene(
        "gauge", "Check of scale", "Two marks 50 mm apart. Lay a ruler on them.", 60, 18, tuple(items), full_size=True
    )


def materials() -> Table:
    """What to buy."""
    return Table(
        "To buy for one medium basket",
        (
            Column("Material", row_header=True, weight=1.6),
            Column("Used for"),
            Column("Length", align="right"),
            Column("Coils", align="right"),
            Column("Left over", align="right"),
        ),
        (
            Row(("Reed",), kind="group"),
            Row(
                (
                    ("No. 6 round reed ", Chip("#b98d5a", "A")),
                    "base sticks and stakes",
                    Measure("66 ft 2 in"),
                    "1",
                    Measure("3 ft"),
                )
            ),
            Row(
                (
                    ("No. 4 round reed ", Chip("#7d5a33", "B")),
                    "randing and wale",
                    Measure("212 ft 9 in"),
                    "2",
                    Measure("27 ft"),
                )
            ),
            Row(
                (
                    ("No. 4 round reed, dyed moss ", Chip("#5b6f57", "C")),
                    "one strand of the wale",
                    Measure("71 ft"),
                    "1",
                    Measure("89 ft"),
                )
            ),
            Row(("Other",), kind="group"),
            Row(("Waxed thread", "securing the cross", Measure("6 ft"), "—", "—")),
            Row(("Together", "", Measure("355 ft 11 in"), "4", ""), kind="total"),
        ),
        footnotes=("Lengths hold 8% for joins and take-up: common practice, not measured for this reed.",),
        anchor="table-materials",
    )


def cut_list() -> Table:
    """What to cut, long enough to break over pages of a half-size booklet."""
    parts = [
        ("Base sticks, lengthwise", "5", "9 1/2 in", "241 mm", "No. 10"),
        ("Base sticks, across", "5", "9 1/2 in", "241 mm", "No. 10"),
        ("Stakes", "40", "19 7/8 in", "505 mm", "No. 6"),
        ("Bye-stakes", "40", "8 3/16 in", "208 mm", "No. 6"),
        ("Weavers for pairing the base", "2", "10 ft 4 in", "3150 mm", "No. 3"),
        ("Weavers for the first wale, A", "3", "7 ft 1/2 in", "2146 mm", "No. 4"),
        ("Weavers for the first wale, B", "3", "7 ft 1/2 in", "2146 mm", "No. 4"),
        ("Weavers for the first wale, C", "3", "7 ft 1/2 in", "2146 mm", "No. 4"),
        ("Weavers for the randing", "14", "8 ft", "2438 mm", "No. 4"),
        ("Weavers for the second wale", "3", "7 ft 5/8 in", "2150 mm", "No. 4"),
        ("Rods for the border, spare", "4", "19 7/8 in", "505 mm", "No. 6"),
    ]
    return Table(
        "Cut list, medium",
        (
            Column("Part", row_header=True, weight=2.2),
            Column("Number", align="right"),
            Column("Cut length", align="right"),
            Column("Millimetres", align="right"),
            Column("Reed"),
        ),
        tuple(
            Row((name, count, Measure(inches), Measure(metric), reed)) for name, count, inches, metric, reed in parts
        ),
        footnotes=("Two spare pieces for every twenty are in the numbers.",),
        anchor="table-cut",
    )


def steps() -> tuple[Block, ...]:
    """The making, in order."""
    return (
        Heading(1, "Making the basket", "making"),
        Paragraph(
            "Read each step to its end before you begin it. Counts stand in boxes: stop there, count, and only then go on.",
            role="lead",
        ),
        Notice("The medium size is calculated, not yet woven."),
        Heading(2, "The base"),
        Step(
            "1",
            (
                ("Mark the middle of five sticks and slit each for ", Measure("7/8 in"), "."),
                "Slide the other five through the slits until they stand out equally on both sides.",
                ("Press the cross flat and check that every arm measures ", Measure("4 3/4 in"), " from the middle."),
            ),
            title="Thread the cross",
            cautions=(
                Caution(
                    "safety",
                    "Lay the stick on a board and push the blade away from the holding hand; never slit towards a finger.",
                ),
            ),
            figures=(Figure(cross(5, 48), "Five through five, seen from above.", "Figure 1.", anchor="fig-1"),),
            counts=(CountBox("5 sticks through 5 sticks are 10 sticks with 20 ends."),),
            anchor="step-1",
        ),
        Step(
            "2",
            (
                (
                    "Fold a weaver of No. 3 reed ",
                    Measure("1/3"),
                    " from its end and lay the loop behind the arm at the top, left of the middle.",
                ),
                "Work two rounds of pairing over each group of five, turning the base against the clock as you go.",
                "Draw every stroke down to the middle before you make the next.",
            ),
            title="Tie the cross",
            notes=(
                "Two rounds hold the cross square; a third would push the sticks apart unevenly.",
                "If the cross has twisted, undo the second round, square it, and work it again with the base held flat under the palm.",
            ),
            anchor="step-2",
        ),
        Step(
            "3",
            (
                "Open the sticks into pairs and work two rounds.",
                "Open the pairs into single ends and go on pairing until the base measures 9 1/2 in (241 mm) across.",
                (
                    "Keep the spaces even; the distance between two ends at the rim is ",
                    Measure("1 1/2 in"),
                    " in the end. Words of the trade such as ",
                    Term("pairing", "pairing"),
                    " and ",
                    Term("wale", "wale"),
                    " stand in the ",
                    Link("glossary", "#glossary"),
                    ".",
                ),
            ),
            title="Open the base",
            cautions=(Caution("care", "Dampen the sticks again if they creak; dry sticks split at the bend."),),
            figures=(
                Figure(
                    cross(5, 78),
                    (
                        "The base with its sticks opened into single ends: 20 spaces, none wider than ",
                        Measure("1 1/2 in"),
                        ".",
                    ),
                    "Figure 2.",
                ),
            ),
            counts=(CountBox(("20 ends, all single, and ", Measure("9 1/2 in"), " across in four directions.")),),
        ),
        Heading(2, "The side"),
        Step(
            "4",
            (
                "Point the butts of the forty stakes with a slanting cut.",
                "Push two stakes in beside each end of a stick, one on either side, as far as the tying.",
                "Prick each stake with the tip of the bodkin where it leaves the weaving, and turn it up.",
            ),
            title="Stake up",
            cautions=(
                Caution(
                    "safety",
                    "Turned-up stakes stand at the height of the eyes. Tie them together in a hoop before you bend over the work.",
                ),
            ),
            counts=(CountBox("20 ends, two stakes each: 40 stakes."),),
        ),
        Step(
            "5",
            (
                "Lay in the three weavers A, B and C behind three stakes that follow one another.",
                "Take the left-hand weaver before two stakes and behind one, out to the front.",
                "Go on in turn, always with the weaver that is furthest to the left, for four whole rounds.",
            ),
            title="Wale",
            figures=(
                Figure(
                    side(104, 40),
                    "Four rounds of three-rod wale, seen from outside: on forty stakes the colours lean to the right.",
                    "Figure 3.",
                ),
            ),
            notes=(
                (
                    "The number of stakes leaves one over when it is parted by three: ",
                    Emphasis("40 = 3 × 13 + 1"),
                    ". The colours therefore move one stake to the right in every round.",
                ),
            ),
        ),
        Step(
            "6",
            (
                "Cut off two weavers and rand with two in turn, chasing, until the side stands 6 1/2 in (165 mm) high, or 6 5/8 in (168 mm) along the slope.",
            ),
            title="Rand",
        ),
        TickRow("Rounds of randing, 31:", 31),
        Heading(2, "The border"),
        Step(
            "7",
            (
                "Soak the stakes again for ten minutes, the rim downwards.",
                "Prick each stake a finger’s width above the weaving.",
                "Bring each stake down behind one, before two, behind one, and to the inside.",
                "Leave the first three loops slack enough for the last three stakes.",
            ),
            title="Turn down the border",
            figures=(
                Figure(
                    side(44, 44),
                    "The last three stakes go under the loops of the first three.",
                    "Figure 4.",
                ),
            ),
        ),
    )


def glossary() -> Section:
    """Words used."""
    return Section(
        "glossary",
        (
            Heading(1, "Words used", "glossary"),
            Definitions(
                (
                    Definition("bodkin", "A pointed tool of steel that opens a way between strands."),
                    Definition(
                        "bye-stake", "A short stake pushed in beside a stake once the side is begun, to stiffen it."
                    ),
                    Definition(
                        "chasing",
                        "Two weavers, one following the other round by round, so that an even number of stakes can be randed.",
                    ),
                    Definition(
                        "pairing",
                        "Two strands twisted about each other in front of and behind every stake or stick.",
                        anchor="pairing",
                    ),
                    Definition(
                        "wale",
                        "Three or more strands, each carried before a number of stakes and behind one, in turn.",
                        anchor="wale",
                    ),
                )
            ),
        ),
    )


def booklet() -> Document:
    """The whole booklet."""
    return Document(
        title="Weir Basket, medium",
        subtitle="A round basket in reed",
        author="Teasel & Reed (invented)",
        language="en-GB",
        subject="A pattern for a round basket on a five through five slath",
        keywords=("basket", "reed", "three-rod wale"),
        date=dt.date(2026, 5, 1),
        foot="Weir Basket · medium · edition 2",
        head="Teasel & Reed",
        blocks=(
            Cover(
                "Weir Basket",
                "A round basket in reed, 9½ in across, with a three-colour wale",
                Figure(basket(120)),
                "Teasel & Reed",
                "Edition 2, May 2026. Medium size. The workshop and its people are invented.",
                ("Calculated, not yet woven",),
            ),
            Contents(levels=2),
            Section(
                "glance",
                (
                    Heading(1, "At a glance"),
                    Definitions(
                        (
                            Definition(
                                "Finished size",
                                (
                                    "Base ",
                                    Measure("9 1/2 in"),
                                    " (241 mm) across, rim ",
                                    Measure("12 1/4 in"),
                                    " (311 mm), height standing ",
                                    Measure("6 1/2 in"),
                                    " (165 mm)",
                                ),
                            ),
                            Definition("Skill", "For a maker’s second or third basket"),
                            Definition("Time", "Two days of five hours, with a night to dry between"),
                            Definition("Tools", "Side cutters, bodkin, tape, awl, spray bottle, three clothes pegs"),
                            Definition(
                                "You will learn",
                                "Tying in a round slath; three-rod wale in three colours; a trac border",
                            ),
                        ),
                        kind="facts",
                    ),
                    Figure(
                        gauge(),
                        "Lay a ruler on the marks: if they are not 50 mm apart, print again without scaling.",
                        "Check.",
                    ),
                ),
            ),
            Section(
                "materials",
                (
                    Heading(1, "Materials"),
                    Paragraph(
                        (
                            "Soak No. 10 reed for thirty minutes and No. 4 for ten. Never leave dyed reed in the water: ",
                            Strong("ten minutes"),
                            " at most. Buy from any supplier of centre cane; ask for the sizes by number and check them against the gauge on the page before, as numbers differ between mills.",
                        )
                    ),
                    materials(),
                ),
            ),
            Section(
                "cut list",
                (
                    Heading(1, "Cut list"),
                    Paragraph(
                        "Cut everything before you begin. Lengths in inches and in millimetres are each rounded up from the same unrounded length."
                    ),
                    cut_list(),
                ),
            ),
            Section("steps", steps()),
            Section(
                "steps",
                (
                    Heading(1, "Finishing"),
                    Listing(
                        (
                            "Trim every end on the slant so that it rests on a stake.",
                            "Singe the hairs with a quick flame, the basket damp.",
                            ("Measure the rim: it should be within ", Measure("1/4 in"), " of 12 1/4 in."),
                        ),
                        kind="tick",
                    ),
                    Caution("safety", "Have a bucket of water beside you when you singe."),
                    Paragraph("Let the basket dry for two days, upside down, away from heat."),
                ),
            ),
            glossary(),
            Section(
                "test",
                (
                    Heading(1, "What you found"),
                    Form(
                        (
                            FormBox("Base across", Measure("9 1/2 in"), "in"),
                            FormBox("Rounds of randing", "31"),
                            FormBox("Stake left over at the border, shortest", Measure("1 3/8 in"), "in"),
                        )
                    ),
                    Paragraph(("Woven by ", Blank("your name", 45), " in ", Blank("hours", 14), " hours.")),
                ),
            ),
            Section("notes", (KeepTogether((NotesLines("Notes", 0),)),)),
            Section(
                "licence",
                (
                    Paragraph(
                        "This pattern may be used to make baskets for sale. It may not be copied or passed on. Otter Weir and Teasel & Reed are invented for demonstration.",
                        role="small",
                    ),
                ),
            ),
        ),
    )
