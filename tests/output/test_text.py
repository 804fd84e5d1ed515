"""The text edition: complete, wrapped, numbers whole."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.booklet.sample import booklet, cross

from slath.booklet.blocks import (
    Block,
    Column,
    Cover,
    Document,
    Figure,
    KeepTogether,
    Measure,
    Paragraph,
    Row,
    Section,
    Step,
    Table,
)
from slath.booklet.reading import plain
from slath.output.text import WIDTH, document_text


def flat(blocks: tuple[Block, ...]) -> Iterator[Block]:
    """All blocks, sections opened."""
    for block in blocks:
        if isinstance(block, Section | KeepTogether):
            yield from flat(block.blocks)
        else:
            yield block


def one_line(text: str) -> str:
    """Words on one line, fractions as the text writes them."""
    return re.sub(r"[\s\u00a0]+", " ", text.replace("⁄", "/"))


def test_everything_the_steps_say_is_there() -> None:
    """Every action, note, caution and count of every step, and what each figure shows, is in the text."""
    text = one_line(document_text(booklet()))
    steps = [block for block in flat(booklet().blocks) if isinstance(block, Step)]
    assert len(steps) == 7
    for step in steps:
        for words in (*step.actions, *step.notes):
            assert one_line(plain(words)) in text
        for caution in step.cautions:
            assert one_line(plain(caution.words)) in text.replace("! ", "")
        for count in step.counts:
            assert one_line(plain(count.words)) in text
        for figure in step.figures:
            assert one_line(figure.spoken) in text


def test_every_cell_of_every_table_is_read_out_with_its_header() -> None:
    """A row reads as its name and then each value after the header of its column."""
    text = one_line(document_text(booklet()))
    assert "Stakes. Number: 40; Cut length: 19 7/8 in; Millimetres: 505 mm; Reed: No. 6" in text
    tables = [block for block in flat(booklet().blocks) if isinstance(block, Table)]
    for table in tables:
        for row in table.rows:
            assert all(one_line(plain(cell)).strip("— ") in text for cell in row.cells)


def test_lines_are_short_and_measures_whole() -> None:
    """No line is longer than 72 characters, and no measure is broken over two."""
    lines = document_text(booklet()).splitlines()
    assert max(map(len, lines)) <= WIDTH
    for line in lines:
        assert not re.search(r"\d+ \d+/\d+$", line), f"the unit is lost from {line!r}"


def test_a_long_measure_moves_to_the_next_line_whole() -> None:
    """At a line's end a measure goes over whole."""
    for filler in range(50, 72):
        text = document_text(Document("t", (Paragraph(("x" * filler, " ", Measure("16 3/8 in"), " long")),)))
        assert "16 3/8 in" in text


def test_compound_words_are_not_taken_apart() -> None:
    """A line never ends inside "three-rod": joined lines would read "three- rod"."""
    for filler in range(50, 72):
        assert "three-rod" in document_text(Document("t", (Paragraph("x" * filler + " three-rod wale"),)))


def test_a_text_is_pleasant_to_hear() -> None:
    """The title is said once at its head, no two lines are blank on end, and a caption ends before what its figure shows."""
    cover = Cover("Weir basket", "For eggs", Figure(cross(5, 60), "Medium"), designer="B. Marsh", edition="Edition 1")
    groups = Table(
        "Pieces",
        (Column("Part", row_header=True), Column("Cut to")),
        (Row(("Small",), "group"), Row(("Stakes", "13 in"))),
    )
    text = document_text(
        Document("Weir basket", (Section("cover", (cover,)), groups), subtitle="For eggs", foot="Weir basket · 1")
    )
    assert text.startswith("Weir basket\n===========\n\nFor eggs\n\nB. Marsh\n\nEdition 1\n")
    assert text.count("Weir basket") == 1
    assert "\n\n\n" not in text
    assert "Medium. What it shows: " in text
    assert "Small\n- Stakes. Cut to: 13 in\n" in text
    assert document_text(Document("Notes", (Paragraph("Cut."),))).startswith("Notes\n=====\n\nCut.")
