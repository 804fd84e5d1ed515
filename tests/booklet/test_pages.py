"""Pages: breaks of least cost, nothing parted that belongs together, headers repeated."""

from __future__ import annotations

import dataclasses
import itertools

import pytest
from tests.booklet.sample import INK, booklet, cross, gauge

from slath.booklet.blocks import (
    Block,
    Caution,
    Column,
    ContentError,
    CountBox,
    Cover,
    Definition,
    Definitions,
    Document,
    Figure,
    Heading,
    NotesLines,
    PageBreak,
    Paragraph,
    Row,
    Section,
    Step,
    Table,
)
from slath.booklet.desk import Desk
from slath.booklet.flow import lay_out
from slath.booklet.laid import Drawing, Glyphs, Laid, Node
from slath.booklet.pages import COLUMN_PRICE, LONELY, LONELY_PRICE, WHITE, columns
from slath.booklet.steps import step
from slath.booklet.strips import NEVER, WIDOW, Strip
from slath.booklet.styles import StyleError, names, shipped
from slath.booklet.words import heading
from slath.drawing.scene import Path, Scene, Subpath

SETTINGS = [(name, paper) for name in names() for paper in shipped(name).paper]


def role_pages(laid: Laid, role: str) -> dict[Node, set[int]]:
    """On which pages each element of a role has content of its own or of its parts."""
    found: dict[Node, set[int]] = {}
    for page in laid.pages:
        for mark in page.marks:
            node = mark.node
            while node is not None:
                if node.role == role:
                    found.setdefault(node, set()).add(page.number)
                node = node.parent
    return found


def words_on(laid: Laid, number: int) -> str:
    """All words of a page."""
    page = laid.pages[number - 1]
    return "".join(item.text for mark in page.marks for item in mark.items if isinstance(item, Glyphs)).replace(
        "\u00a0", " "
    )


def test_breaks_are_the_cheapest_of_all() -> None:
    """No other set of page breaks costs less: compared with every possible set."""
    strips = [
        Strip(height, cost=cost)
        for height, cost in [(30, 0), (20, 400), (45, 0), (25, 60), (25, 0), (40, 6000), (15, 0)]
    ]

    def price(ends: tuple[int, ...]) -> float:
        total, start = 0.0, 0
        for end in ends:
            used = sum(strip.height for strip in strips[start:end])
            if used > 100:
                return float("inf")
            total += COLUMN_PRICE
            if end == len(strips):
                total += LONELY_PRICE if used < LONELY * 100 and start else 0.0
            else:
                total += strips[end].cost + WHITE * (1 - used / 100) ** 2
            start = end
        return total

    every = [
        (*inner, len(strips))
        for size in range(len(strips))
        for inner in itertools.combinations(range(1, len(strips)), size)
    ]
    best = min(every, key=price)
    found = list(itertools.accumulate(len(column.placed) for column in columns(strips, 100)))
    assert price(tuple(found)) == price(best) < NEVER


def test_a_strip_higher_than_the_column_is_refused() -> None:
    """What cannot stand on any page is an error, not something cut off."""
    with pytest.raises(ContentError, match="does not fit"):
        columns([Strip(120)], 100)


def test_space_between_blocks_is_dropped_at_the_head_of_a_column() -> None:
    """The first strip of a column stands at its top, whatever space it wants above."""
    filled = columns([Strip(90, above=30), Strip(90, above=30)], 100)
    assert [column.placed[0].top for column in filled] == [0.0, 0.0]


@pytest.mark.parametrize(("name", "paper"), SETTINGS)
def test_a_caution_never_parts_from_its_step(name: str, paper: str) -> None:
    """Wherever a long step falls, its caution is on the page of its first action, its count on that of its last."""
    actions = ("Bend the stake down behind one.", *("Go on in the same way round." for _ in range(30)), "Stop here.")
    for filler in range(0, 40, 3):
        step = Step("1", actions, cautions=(Caution("safety", "Mind your eyes."),), counts=(CountBox("40."),))
        blocks: tuple[Block, ...] = (*(Paragraph(f"Line {n}.") for n in range(filler)), step)
        laid = lay_out(Document("t", blocks), shipped(name), paper)
        numbers = range(1, len(laid.pages) + 1)
        (caution,) = (number for number in numbers if "Mind your eyes" in words_on(laid, number))
        (count,) = (number for number in numbers if "Stop and count" in words_on(laid, number))
        assert "Bend the stake" in words_on(laid, caution)
        assert "Stop here" in words_on(laid, count)


@pytest.mark.parametrize(("name", "paper"), SETTINGS)
def test_table_rows_never_split_and_headers_repeat(name: str, paper: str) -> None:
    """Each row lies on one page; every page of a long table shows the header, tagged once and an artifact after."""
    columns_ = (Column("Part", row_header=True), Column("Number", align="right"))
    rows = tuple(
        Row((f"Stake of the {n}th kind with a rather long name that turns to a second line", str(n))) for n in range(90)
    )
    laid = lay_out(Document("t", (Heading(1, "List"), Table("Cut list", columns_, rows))), shipped(name), paper)
    rows_found = role_pages(laid, "TR")
    assert len(rows_found) == 91
    assert all(len(pages) == 1 for pages in rows_found.values())
    assert len(laid.pages) > 1
    assert all(
        "NumberPart" in words_on(laid, n) or "PartNumber" in words_on(laid, n) for n in range(1, len(laid.pages) + 1)
    )


@pytest.mark.parametrize(("name", "paper"), SETTINGS)
def test_no_heading_stands_alone_at_the_foot(name: str, paper: str) -> None:
    """After every heading some of its text follows on the same page."""
    for filler in range(0, 60, 4):
        blocks: tuple[Block, ...] = (
            *(Paragraph(f"Line {n}.") for n in range(filler)),
            Heading(1, "Part"),
            Heading(2, "The border"),
            Paragraph("Turn down. " * 12),
        )
        laid = lay_out(Document("t", blocks), shipped(name), paper)
        page = next(n for n in range(1, len(laid.pages) + 1) if "The border" in words_on(laid, n))
        assert "Turn down" in words_on(laid, page)


def test_what_stops_the_hand_is_never_parted_from_the_first_sentence() -> None:
    """The breaks between title, cautions, counts and the first sentences are forbidden; a check stays with the last if it
    can.
    """
    desk = Desk(shipped("booklet"), 300.0, 500.0, "en-GB")
    stops = (CountBox("40 stakes."),)
    block = Step(
        "1", ("Go on.",) * 40, cautions=(Caution("care", "Mind."),), counts=(CountBox("40.", "Check"),), stops=stops
    )
    strips = step(desk, block, Node("L", Node("Document")))
    assert [strip.cost >= NEVER for strip in strips[:4]] == [False, True, True, True]
    assert strips[-1].cost >= WIDOW


@pytest.mark.parametrize("name", ["booklet", "large-print"])
def test_a_title_does_not_stay_alone_while_its_figures_go_on(name: str) -> None:
    """A step of two figures near the foot of a page: with its title stands a figure or its first action."""
    style = shipped(name)
    tall = 0.32 * style.column_height()
    scene = Scene("s", "s", "A line.", 60, tall, (Path((Subpath(((0, 0), (60, tall))),), stroke=INK),))
    block = Step(
        "1",
        ("Cut it.", *("Go on." for _ in range(20))),
        title="Cut the rods",
        figures=(Figure(scene, "One"), Figure(scene, "Two")),
    )
    beside = []
    for filler in range(0, 40, 2):
        stage = Heading(2, "The side"), Paragraph("It is to stand so high. " * 6), CountBox("40 stakes.")
        laid = lay_out(
            Document("t", (Heading(1, "Making"), *(Paragraph(f"Line {n}.") for n in range(filler)), *stage, block)),
            style,
        )
        page = next(n for n in range(1, len(laid.pages) + 1) if "Cut the rods" in words_on(laid, n))
        drawn = any(isinstance(item, Drawing) for mark in laid.pages[page - 1].marks for item in mark.items)
        beside.append(drawn or "Cut it" in words_on(laid, page))
    assert all(beside), beside


@pytest.mark.parametrize(("count", "parted"), [(8, False), (26, True)])
def test_long_lists_of_facts_fill_the_page_they_begin_on(count: int, parted: bool) -> None:
    """Facts that take more than half a page go on over the next one, two rows at least on either side; fewer stay whole."""
    facts = Definitions(tuple(Definition(f"Tool {n}.", "for the work") for n in range(count)), "facts")
    split = []
    for filler in range(0, 24, 2):
        blocks: tuple[Block, ...] = (
            Heading(1, "Before"),
            *(Paragraph(f"Line {n}.") for n in range(filler)),
            facts,
            *(Paragraph("After.") for _ in range(30)),
        )
        laid = lay_out(Document("t", blocks), shipped("booklet"))
        rows = [words_on(laid, n).count("for the work") for n in range(1, len(laid.pages) + 1)]
        shown = [number for number in rows if number]
        split.append(len(shown) > 1)
        assert min(shown) >= 2
    assert any(split) == parted


@pytest.mark.parametrize("name", ["booklet", "home", "large-print"])
def test_no_page_is_turned_within_a_sentence(name: str) -> None:
    """Sentences of four lines and more are parted from one another, never in themselves, whatever white it costs."""
    long = "Carry the strand over one group of sticks and under the next, and bring it up again where it began. " * 3
    laid = lay_out(Document("t", (Heading(1, "Making"), Step("1", (long,) * 30, title="Weave"))), shipped(name))
    told = role_pages(laid, "LBody")
    assert len(told) > 30
    assert len(laid.pages) > 1
    assert all(
        len(pages) == 1
        for node, pages in told.items()
        if node.parent
        and node.parent.parent
        and node.parent.parent.parent
        and node.parent.parent.parent.role == "LBody"
    )


def test_lines_of_a_heading_and_its_rule_never_part() -> None:
    """A heading of two lines and the rule under it may only be broken before."""
    desk = Desk(shipped("booklet"), 120.0, 500.0, "en-GB")
    strips = heading(desk, Heading(1, "The making of the whole basket from base to border"), Node("Document"))
    assert len(strips) > 3
    assert strips[0].cost == 0
    assert all(strip.cost >= NEVER for strip in strips[1:])


def test_no_widows_and_orphans() -> None:
    """Of a paragraph that runs over a page at least two lines stand on either side."""
    for filler in range(20, 44):
        blocks: tuple[Block, ...] = (
            *(Paragraph(f"Line {n}.") for n in range(filler)),
            Paragraph("Soak the reed once more before you go on. " * 14),
            Paragraph("End."),
        )
        laid = lay_out(Document("t", blocks), shipped("home"), "a4")
        paragraph = next(node for node, _ in role_pages(laid, "P").items() if "Soak" in node_words(laid, node))
        lines: dict[int, set[float]] = {}
        for page in laid.pages:
            for mark in page.marks:
                if mark.node is paragraph:
                    lines.setdefault(page.number, set()).update(
                        mark.y + item.y for item in mark.items if isinstance(item, Glyphs)
                    )
        assert all(len(found) >= 2 for found in lines.values())


def node_words(laid: Laid, node: Node) -> str:
    """The words of one element."""
    return "".join(
        item.text
        for page in laid.pages
        for mark in page.marks
        if mark.node is node
        for item in mark.items
        if isinstance(item, Glyphs)
    )


def test_everything_stays_inside_the_margins() -> None:
    """In every style and paper no glyph lies outside the text area, running head and foot apart."""
    for name, paper in SETTINGS:
        style = shipped(name)
        laid = lay_out(booklet(), style, paper)
        seen = 0
        for index, page in enumerate(laid.pages):
            margins = style.margins_on(paper)
            recto = not style.two_sided or index % 2 == 0
            left = (margins.inner if recto else margins.outer) * 72 / 25.4
            right = laid.width - (margins.outer if recto else margins.inner) * 72 / 25.4
            for mark in page.marks:
                for item in mark.items:
                    if isinstance(item, Glyphs) and not mark.pagination:
                        seen += 1
                        assert mark.x + item.x >= left - 0.5
                        assert mark.x + item.x + item.width <= right + 0.8, (name, paper, item.text)
                        assert mark.y + item.y <= laid.height - style.margins.bottom * 72 / 25.4 + 0.5
        assert seen > 150


def test_edition_and_page_number_stand_on_every_page_but_the_cover() -> None:
    """The foot says the edition and the number of the page; the cover says the edition itself."""
    laid = lay_out(booklet(), shipped("booklet"))
    assert "Edition 2" in words_on(laid, 1)
    for number in range(2, len(laid.pages) + 1):
        assert "edition 2" in words_on(laid, number)
        assert str(number) in words_on(laid, number)


def test_contents_give_the_page_of_each_heading() -> None:
    """The number printed beside an entry is the page the heading lies on."""
    laid = lay_out(booklet(), shipped("booklet"))
    text = words_on(laid, 2).replace(".", "")
    for title in ("Cut list", "Making the basket", "Words used"):
        page = next(n for n in range(3, len(laid.pages) + 1) if title in words_on(laid, n))
        assert f"{title} {page}" in text or f"{title}{page}" in text


def test_rows_on_a_new_page_say_which_group_they_belong_to() -> None:
    """Where a group runs over a page its heading is set again, marked as continued, and tagged only once."""
    rows = (
        Row(("Small",), "group"),
        *(Row((f"part {n}",)) for n in range(80)),
        Row(("Large",), "group"),
        Row(("end",)),
    )
    laid = lay_out(Document("t", (Table("List", (Column("Part", row_header=True),), rows),)), shipped("home"))
    assert len(laid.pages) > 1
    assert "Small (continued)" not in words_on(laid, 1)
    assert "Small (continued)" in words_on(laid, 2)
    assert len(role_pages(laid, "TR")) == 84


def test_columns_get_what_they_need_and_fill_the_page() -> None:
    """Short cells stand on one line beside a long one, which takes the rest; all columns together fill the width."""
    columns_ = (Column("Number"), Column("How"), Column("Rests on"))
    rows = (
        Row(("standing height", "way covered, stood up by the slope of the side there, " * 4, "estimated, line 46")),
    )
    laid = lay_out(Document("t", (Table("", columns_, rows),)), shipped("home"))
    number, how, rests_on = (len(lines) for lines in role_lines(laid, "TD").values())
    assert (number, rests_on) == (1, 1)
    assert 3 <= how <= 4


def role_lines(laid: Laid, role: str) -> dict[Node, set[float]]:
    """The baselines of the words of each element of a role."""
    found: dict[Node, set[float]] = {}
    for page in laid.pages:
        for mark in page.marks:
            if mark.node is not None and mark.node.role == role:
                baselines = {round(mark.y + item.y, 1) for item in mark.items if isinstance(item, Glyphs)}
                found.setdefault(mark.node, set()).update(baselines)
    return found


def test_full_size_figures_are_never_scaled() -> None:
    """A full-size scene is drawn at scale 1 in every style, and the file asks not to be scaled."""
    for name, paper in SETTINGS:
        laid = lay_out(Document("t", (Figure(gauge()),)), shipped(name), paper)
        drawings = [
            item for page in laid.pages for mark in page.marks for item in mark.items if isinstance(item, Drawing)
        ]
        assert [drawing.scale for drawing in drawings] == [1.0]
        assert laid.full_size


def test_a_full_size_figure_larger_than_the_page_is_printed_on_sheets_that_overlap() -> None:
    """Laid together by their overlaps the sheets show the whole figure, none scaled; absurd ones are refused."""
    line = Path((Subpath(((0, 0), (390, 0))),), stroke=INK)
    ring = Scene("ring", "Marking ring", "A ring.", 400, 300, (line,), full_size=True)
    laid = lay_out(Document("t", (Figure(ring),)), shipped("booklet"))
    drawings = [item for page in laid.pages for mark in page.marks for item in mark.items if isinstance(item, Drawing)]
    assert len(drawings) == len(laid.pages) == 12
    windows = [drawing.window for drawing in drawings if drawing.window]
    assert {drawing.scale for drawing in drawings} == {1.0}
    for axis, whole in ((0, 400), (1, 300)):
        spans = sorted({(window[axis], window[axis] + window[axis + 2]) for window in windows})
        assert spans[0][0] == 0
        assert spans[-1][1] == pytest.approx(whole)
        assert all(before[1] - after[0] == pytest.approx(10) for before, after in itertools.pairwise(spans))
    assert "sheet 3 of 12" in words_on(laid, 3)
    with pytest.raises(ContentError, match="sheets"):
        lay_out(Document("t", (Figure(dataclasses.replace(ring, width=4000)),)), shipped("booklet"))


def test_other_figures_are_never_wider_than_the_column() -> None:
    """A scene wider than the column is scaled down to it."""
    wide = dataclasses.replace(gauge(), width=400, full_size=False)
    for name, paper in SETTINGS:
        style = shipped(name)
        laid = lay_out(Document("t", (Figure(wide),)), style, paper)
        drawing = next(
            item for page in laid.pages for mark in page.marks for item in mark.items if isinstance(item, Drawing)
        )
        assert drawing.scale * 400 <= style.column_width(paper) + 0.01


def test_a_right_hand_page_is_reached_over_a_blank_one() -> None:
    """`PageBreak(right=True)` puts what follows on an odd page."""
    laid = lay_out(Document("t", (Paragraph("One."), PageBreak(right=True), Paragraph("Three."))), shipped("booklet"))
    assert len(laid.pages) == 3
    assert not laid.pages[1].marks
    assert "Three" in words_on(laid, 3)


def test_sections_a_style_leaves_out_are_gone_with_their_links() -> None:
    """The wall card shows no glossary, and words that would lead to it lead nowhere."""
    laid = lay_out(booklet(), shipped("wall-card"))
    assert not any("Words used" in words_on(laid, n) for n in range(1, len(laid.pages) + 1))
    assert not [node for node in role_pages(laid, "Link") if node.target == "#wale"]


def test_room_for_notes_ends_above_the_foot() -> None:
    """Ruled lines that fill a page leave room for what comes after them."""
    laid = lay_out(Document("t", (NotesLines(), Paragraph("The end."))), shipped("home"))
    assert len(laid.pages) == 1
    assert "The end." in words_on(laid, 1)


def test_faulty_structure_is_refused() -> None:
    """Skipped heading levels, anchors given twice, and papers a style is not made for are errors that name themselves."""
    style = shipped("home")
    with pytest.raises(ContentError, match="level 3 follows one of level 1"):
        lay_out(Document("t", (Heading(1, "a"), Heading(3, "b"))), style)
    with pytest.raises(ContentError, match="'x'"):
        lay_out(Document("t", (Paragraph("a", anchor="x"), Paragraph("b", anchor="x"))), style)
    with pytest.raises(ContentError, match="'The cross' has no words"):
        lay_out(Document("t", (Figure(dataclasses.replace(cross(5, 40), words=" ")),)), style)
    with pytest.raises(StyleError, match="a4 or letter, not for a5"):
        lay_out(Document("t", (Section("s", (Cover("t"),)),)), style, "a5")
