"""Whatever a document holds: it is set, nothing is lost, nothing leaves the page."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.booklet.sample import cross

from slath.booklet.blocks import (
    Block,
    Caution,
    Column,
    CountBox,
    Definition,
    Definitions,
    Document,
    Figure,
    Form,
    FormBox,
    Heading,
    KeepTogether,
    Listing,
    Measure,
    NotesLines,
    Notice,
    PageBreak,
    Paragraph,
    Row,
    Section,
    Step,
    Strong,
    Table,
    TickRow,
    Words,
)
from slath.booklet.flow import lay_out
from slath.booklet.laid import Drawing, Glyphs, Laid
from slath.booklet.styles import names, shipped

plain_words = st.lists(
    st.sampled_from(["stake", "wale", "behind", "a", "bye-stakes", "5", "interlacement", "turn,", "End."]),
    min_size=1,
    max_size=60,
).map(" ".join)
words: st.SearchStrategy[Words] = st.one_of(
    plain_words,
    st.tuples(
        plain_words.map(lambda text: text + " "), st.sampled_from(["16 3/8 in", "415 mm", "9 1/2 × 5 in"]).map(Measure)
    ),
    plain_words.map(Strong),
)
short = st.sampled_from(["stake", "16", "of the wale", "three-rod wale, wound"])
cautions = st.builds(Caution, st.sampled_from(["safety", "care"]), words)
figures = st.builds(
    lambda sticks, size, width: Figure(cross(sticks, float(size)), "A caption.", width=width),
    st.integers(2, 6),
    st.integers(20, 260),
    st.sampled_from(["column", "page"]),
)
steps = st.builds(
    lambda actions, title, warned, drawn, notes, counts: Step(
        "7", tuple(actions), title, tuple(warned), tuple(drawn), tuple(notes), tuple(counts)
    ),
    st.lists(words, min_size=1, max_size=6),
    st.one_of(st.just(""), short),
    st.lists(cautions, max_size=2),
    st.lists(figures, max_size=2),
    st.lists(words, max_size=2),
    st.lists(st.builds(CountBox, short), max_size=2),
)
tables = st.integers(1, 5).flatmap(
    lambda count: st.builds(
        lambda rows, title: Table(
            title,
            tuple(Column(f"Head {n}", row_header=n == 0) for n in range(count)),
            tuple(Row(tuple(row)) for row in rows),
        ),
        st.lists(st.lists(short, min_size=count, max_size=count), min_size=1, max_size=30),
        short,
    )
)
blocks: st.SearchStrategy[Block] = st.one_of(
    st.builds(Paragraph, words, st.sampled_from(["body", "lead", "small"])),
    st.builds(Notice, short),
    cautions,
    steps,
    tables,
    figures,
    st.builds(CountBox, short),
    st.builds(
        lambda items, kind: Listing(tuple(items), kind),
        st.lists(words, min_size=1, max_size=5),
        st.sampled_from(["bullet", "number", "tick"]),
    ),
    st.builds(
        lambda said, kind: Definitions(tuple(Definition("stake", each) for each in said), kind),
        st.lists(words, min_size=1, max_size=4),
        st.sampled_from(["facts", "glossary"]),
    ),
    st.builds(NotesLines, st.just("Notes"), st.integers(0, 6)),
    st.builds(TickRow, short, st.integers(1, 90), st.integers(1, 12)),
    st.builds(lambda found: Form((FormBox("Base", "9", "in"), FormBox(found))), short),
    st.builds(PageBreak, st.booleans()),
    st.builds(lambda each: KeepTogether((each,)), steps),
    st.builds(lambda each: Section("part", (Heading(1, "Part"), each)), steps),
)
settings_of_styles = st.sampled_from([(name, paper) for name in names() for paper in shipped(name).paper])


def letters(text: str) -> str:
    """Letters and digits only, fractions apart: what must not get lost, whatever its spacing."""
    return "".join(character for character in text if character.isalnum())


def said(laid: Laid) -> str:
    """All words in reading order, running head and foot apart."""
    return "".join(
        item.text
        for page in laid.pages
        for mark in page.marks
        if not mark.pagination
        for item in mark.items
        if isinstance(item, Glyphs)
    )


@given(st.lists(blocks, min_size=1, max_size=14), settings_of_styles)
@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_any_document_is_set_whole(content: list[Block], setting: tuple[str, str]) -> None:
    """Every word is set as often as it was said, and no word or drawing reaches over the edge of the paper."""
    name, paper = setting
    marked = tuple(
        each for number, block in enumerate(content) for each in (Paragraph(f"mark{number:02d}begin"), block)
    )
    style = shipped(name)
    shown = style.sections is None
    laid = lay_out(Document("t", marked, foot="foot"), style, paper)
    text = letters(said(laid))
    assert [text.count(f"mark{number:02d}begin") for number in range(len(content))] == [1] * len(content)
    if shown:
        for block in content:
            if isinstance(block, Paragraph) and isinstance(block.words, str):
                assert letters(block.words) in text
            if isinstance(block, Step):
                assert all(letters(action) in text for action in block.actions if isinstance(action, str))
    for page in laid.pages:
        for mark in page.marks:
            for item in mark.items:
                if isinstance(item, Glyphs):
                    assert -0.5 <= mark.x + item.x <= mark.x + item.x + item.width <= laid.width + 0.5
                    assert 0 <= mark.y + item.y <= laid.height
                if isinstance(item, Drawing):
                    assert mark.x + item.x + item.size[0] <= laid.width + 0.5
                    assert mark.y + item.y + item.size[1] <= laid.height + 0.5
