"""Laws of the pages of every shipped pattern: the list in its tables, nothing over anything else, nothing alone, pages
filled, read in the order of the work, each caution before its act.
"""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import pypdfium2
import pytest
from tests.booklet.shipped_patterns import NAMES, PAPERS, work

from slath.booklet.blocks import Caution, Document, Figure, Shows, Step, Table, every, pieces_of
from slath.booklet.content import booklet_document, handout_document
from slath.booklet.content_forms import bench_cards_document
from slath.booklet.content_record import BookletContent
from slath.booklet.faces import face
from slath.booklet.flow import lay_out
from slath.booklet.laid import MM, Area, Drawing, Glyphs, Laid, Mark, Node, Page
from slath.booklet.reading import plain
from slath.drawing.scene import Scene, Text, every_item
from slath.editions import EDITIONS
from slath.output.pdf import set_document
from slath.trade.cautions import cautions

PAGED = tuple((name, edition, paper) for name in NAMES for edition, paper in PAPERS.items())
ALWAYS = {"cut", "pierce", "singe", "dye", "drill", "bend bow", "trim", "point", "stake", "open weave"}


@cache
def content_of(name: str, edition: str = "booklet", paper: str = "letter") -> BookletContent:
    """What one edition of one pattern says and shows."""
    return work(name, paper).content_for(EDITIONS[edition])


@cache
def document(name: str, edition: str, paper: str) -> Document:
    """One edition of one pattern as blocks."""
    content = content_of(name, edition, paper)
    makers = {"handout": handout_document, "bench cards": bench_cards_document}
    return makers[edition](content) if edition in makers else booklet_document(content)


@cache
def laid_out(name: str, edition: str, paper: str) -> Laid:
    """The same as pages."""
    return lay_out(document(name, edition, paper), work(name, paper).style(EDITIONS[edition]), paper)


def tables(name: str) -> dict[str, Table]:
    """The tables of a booklet by their titles."""
    return {
        plain(block.caption): block
        for block in every(document(name, "booklet", "letter").blocks)
        if isinstance(block, Table)
    }


def words(cell: object) -> str:
    """A cell or a heading as plain words, fractions and spaces made plain."""
    return plain(cell).replace("\u00a0", " ").replace("\u2044", "/").strip()  # type: ignore[arg-type]


def bare(printed: str) -> str:
    """A measure as it stands in a cell under a heading that names its units: ``9 1/2 241``."""
    first, _, second = printed.rstrip(")").partition(" (")
    return f"{first.rpartition(' ')[0]} {second.rpartition(' ')[0]}"


# ------------------------------------------------------------------------------------------------------------- numbers
@pytest.mark.parametrize("name", NAMES)
def test_every_piece_of_the_list_stands_in_its_cell(name: str) -> None:
    """Count and length of every piece of every size, in the row of the piece and the column of the size."""
    table, voice, seen = tables(name)["To cut"], work(name, "letter").told[0].voice, 0
    heads = [words(column.header) for column in table.columns]
    for size in work(name, "letter").compilation.sizes:
        column = next(
            place for place, head in enumerate(heads) if re.split(" (?:in|mm),", head)[0].casefold() == size.name
        )
        for piece in size.quantities.pieces:
            cells = [words(row.cells[column]) for row in table.rows]
            counts = " ".join(words(row.cells[2]) for row in table.rows)
            assert f"{piece.count.value:.0f}" in counts, piece.part
            if not piece.part.endswith("board"):
                length = voice.length(piece.cut_mm.value)
                ways = {bare(length), length.replace(" (", " ").rstrip(")")}
                told = {cell.rpartition(", ")[2].removeprefix("at least ") for cell in cells}  # after how it is come by
                assert ways & (told if piece.whole or piece.offcut else set(cells)), (size.name, piece.part)
                seen += 1
    assert seen >= 3


@pytest.mark.parametrize("name", NAMES)
def test_every_band_and_purchase_stands_in_its_cell(name: str) -> None:
    """Rounds, how far they reach and what their strands take; what is bought of each material."""
    bands, buying = tables(name).get("What each band takes"), tables(name)["To buy, for one basket"]
    voice = work(name, "letter").told[0].voice
    bought = {words(cell) for row in buying.rows for cell in row.cells}
    for place, size in enumerate(work(name, "letter").compilation.sizes):
        for item in size.quantities.purchase:
            told = f"{item.rods.value:.0f} rods" if item.rods else voice.long(item.buy_mm.value, up=True)
            ways = {told, bare(told), told.replace(" (", " ").rstrip(")")}
            assert item.material == "board" or any(way in cell for way in ways for cell in bought), item.material
        for band in size.quantities.bands:
            assert bands is not None
            told_of = [words(row.cells[2 + place]) for row in bands.rows if row.kind == "body"]
            rounds = f"{band.rounds.value:.0f} round"
            along = voice.length(band.along.value).replace(" (", " ").rstrip(")")
            assert any(cell.startswith(rounds) and along in cell for cell in told_of), (size.name, band.name)


@pytest.mark.parametrize("name", ["weir-field", "mill-tray"])
def test_the_pdf_says_what_the_tables_say(name: str) -> None:
    """Every cell of the lists is read from the PDF by another reader, number for number."""
    style = work(name, "letter").style(EDITIONS["booklet"])
    data = set_document(document(name, "booklet", "letter"), style, "letter")
    text = " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data))
    text = re.sub(r"\s+", " ", text.replace("\u00a0", " ").replace("\u2044", "/").replace("\u00ad", ""))
    cells = [
        words(cell)
        for title in ("To cut", "To buy, for one basket")
        for row in tables(name)[title].rows
        for cell in row.cells
    ]
    numbers = [cell for cell in cells if re.fullmatch(r"[\d /.]+(?:\b(?:in|ft|mm|m)\b[\d /.]*)*", cell)]
    assert len(numbers) > 8
    assert all(cell in text for cell in numbers)


@pytest.mark.parametrize("name", NAMES)
def test_a_letter_in_a_drawing_has_its_row_beside_it(name: str) -> None:
    """The letters drawn in a figure of several sizes are those of its table, each with a value for every size."""
    seen = 0
    for block in every(document(name, "booklet", "letter").blocks):
        for figure in block.figures if isinstance(block, Step) else ():
            if figure.measures is None or not isinstance(figure.picture, Scene):
                continue
            scene = figure.at(118.0, 140.0) if figure.at else figure.picture
            drawn = {item.words for item in every_item((scene or figure.picture).items) if isinstance(item, Text)}
            letters = [words(row.cells[0])[0] for row in figure.measures.rows]
            assert letters == [chr(ord("A") + place) for place in range(len(letters))]
            assert set(letters) <= drawn, figure.picture.name
            assert all(words(cell) for row in figure.measures.rows for cell in row.cells)
            seen += 1
    assert seen > 0 or len(work(name, "letter").compilation.sizes) == 1


@pytest.mark.parametrize("name", NAMES)
def test_sentences_of_a_phase_name_a_figure_of_their_step(name: str) -> None:
    """Where a figure shows what is told from a sentence on, the step has that figure, on the basket and on its lid."""
    named = 0
    for block in every(document(name, "booklet", "letter").blocks):
        for action in block.actions if isinstance(block, Step) else ():
            for piece in pieces_of(action):
                if isinstance(piece, Shows) and isinstance(block, Step):
                    named += 1
                    assert piece.figure in {figure.picture_name for figure in block.figures}, block.number
    assert named or not any(
        size.basket.border and size.basket.border.passes for size in work(name, "letter").compilation.sizes
    )


# ---------------------------------------------------------------------------------------------------------------- pages
Box = tuple[float, float, float, float]


def _glyph_box(mark: Mark, item: Glyphs) -> Box:
    high = face(item.face).cap_height * item.size
    x, y = mark.x + item.x, mark.y + item.y
    return x, y - high, x + item.width, y


def _over(one: Box, other: Box, room: float) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    return across > room and min(one[3], other[3]) - max(one[1], other[1]) > room


def boxes(page: Page) -> tuple[list[tuple[Box, str]], list[tuple[Box, str]]]:
    """Runs of words and drawings of a page with what they are; marks that words stand in are left out."""
    runs: list[tuple[Box, str]] = []
    drawn: list[tuple[Box, str]] = []
    for mark in page.marks:
        inside = mark.node is not None and mark.node.role == "Figure"
        for item in mark.items:
            if isinstance(item, Glyphs) and item.text.strip() and not inside:
                runs.append((_glyph_box(mark, item), item.text))
            elif isinstance(item, Drawing) and item.scene.width > 12:
                wide, high = item.size
                x, y = mark.x + item.x, mark.y + item.y
                drawn.append(((x, y, x + wide, y + high), item.scene.name))
    return runs, drawn


@pytest.mark.parametrize(("name", "edition", "paper"), PAGED)
def test_nothing_stands_over_anything_else(name: str, edition: str, paper: str) -> None:
    """No words over other words, none over a drawing, no drawing over another."""
    for page in laid_out(name, edition, paper).pages:
        runs, drawn = boxes(page)
        runs.sort(key=lambda run: run[0][1])
        for number, (box, said) in enumerate(runs):
            for other, also in runs[number + 1 : number + 60]:
                assert not _over(box, other, 1.2), (page.number, said, also)
            for area, scene in drawn:
                assert not _over(box, area, 2.0), (page.number, said, scene)
        for (one, first), (other, second) in ((a, b) for place, a in enumerate(drawn) for b in drawn[place + 1 :]):
            assert not _over(one, other, 1.0), (page.number, first, second)


@pytest.mark.parametrize(("name", "edition", "paper"), PAGED)
def test_everything_stands_on_the_page(name: str, edition: str, paper: str) -> None:
    """Words and drawings lie inside the margins of their paper."""
    laid = laid_out(name, edition, paper)
    style = work(name, paper).style(EDITIONS[edition])
    margins = style.margins_on(paper)
    for index, page in enumerate(laid.pages):
        recto = not style.two_sided or index % 2 == 0
        left = (margins.inner if recto else margins.outer) * MM
        right = laid.width - (margins.outer if recto else margins.inner) * MM
        body = Page(page.number, tuple(mark for mark in page.marks if not mark.pagination))
        for box, what in (each for found in boxes(body) for each in found):
            assert box[0] >= left - 1.0, (page.number, what)
            assert box[2] <= right + 1.5, (page.number, what)
            assert box[3] <= laid.height - style.margins.bottom * MM + 1.0, (page.number, what)


def _roles(node: Node | None) -> list[str]:
    return [node.role, *_roles(node.parent)] if node else []


@pytest.mark.parametrize(("name", "edition", "paper"), PAGED)
def test_nothing_that_opens_something_ends_a_page(name: str, edition: str, paper: str) -> None:
    """The lowest words of a page are no heading, no caution and no count to be made."""
    for page in laid_out(name, edition, paper).pages[1:-1]:
        lines = [
            (mark.y + item.y, mark, item)
            for mark in page.marks
            for item in mark.items
            if isinstance(item, Glyphs) and item.text.strip() and not mark.pagination
        ]
        drawn = [
            mark.y + item.y + item.size[1] for mark in page.marks for item in mark.items if isinstance(item, Drawing)
        ]
        foot, last, item = max(lines, key=lambda line: line[0])
        if drawn and max(drawn) > foot + 20:
            continue
        assert not any(re.fullmatch(r"H\d?", role) for role in _roles(last.node)), (page.number, item.text)
        if edition != "large print":  # where a drawing with what stands before it may be higher than a page
            assert not item.text.startswith(("Take care", "Stop and count")), page.number


@pytest.mark.parametrize("name", NAMES)
def test_a_card_has_its_steps_under_its_heading(name: str) -> None:
    """No card says the name of its stage and its cautions alone: a box to tick stands below them."""
    laid = laid_out(name, "bench cards", PAPERS["bench cards"])
    opened = {mark.place.page for mark in laid.bookmarks if mark.level == 1}
    assert len(opened) > 3
    for page in opened:
        said = [item.text for mark in laid.pages[page].marks for item in mark.items if isinstance(item, Glyphs)]
        assert any(words.startswith("☐") for words in said), page + 1


@pytest.mark.parametrize("name", NAMES)
def test_pages_are_filled(name: str) -> None:
    """Pages inside the booklet reach within a quarter of the foot on the whole, and those after which a stage goes on reach
    nearer. What is read before the first stage is whole lists, the words used among them, which are not parted.
    """
    style, laid = work(name, "letter").style(EDITIONS["booklet"]), laid_out(name, "booklet", "letter")
    top, height = style.margins.top * MM, style.column_height("letter") * MM
    opened = {mark.place.page for mark in laid.bookmarks if mark.level == 1 and mark.place.top < top + 40}
    stages = [mark.place.page for mark in laid.bookmarks if re.match(r"\d+ ", mark.title)]
    shares: dict[bool, list[float]] = {True: [], False: []}
    for index, page in enumerate(laid.pages[1:-1], 1):
        shown = [(mark.y, item) for mark in page.marks if not mark.pagination for item in mark.items]
        feet = [y + item.y for y, item in shown if isinstance(item, Glyphs)]
        feet += [y + item.y + item.size[1] for y, item in shown if isinstance(item, Drawing)]
        shares[index + 1 in opened or index < min(stages)].append((max(feet) - top) / height)
    everywhere = [*shares[True], *shares[False]]
    assert sum(everywhere) / len(everywhere) > 0.75
    if shares[False]:  # two large figures that follow one another leave an eighth of a page each
        assert sum(shares[False]) / len(shares[False]) > 0.85


@pytest.mark.parametrize(("name", "edition", "paper"), PAGED)
def test_every_figure_is_read_before_its_table_and_its_step_before_the_next(
    name: str, edition: str, paper: str
) -> None:
    """Steps are read in the order of their numbers, and sentences of a step in theirs, wherever they stand on the page."""
    order: list[str] = []
    for page in laid_out(name, edition, paper).pages:
        for mark in page.marks:
            tree = mark.node.parent.parent if mark.node and mark.node.parent else None
            if mark.node and mark.node.role == "Lbl" and tree and ("ListNumbering", "Decimal") in tree.attributes:
                order += [item.text.strip() for item in mark.items if isinstance(item, Glyphs)]
    steps = [tuple(map(int, label.split("."))) for label in order if re.fullmatch(r"\d+\.\d+", label)]
    assert steps == sorted(steps)
    sentences = [label for label in order if re.fullmatch(r"\d+(\.\d+)?", label)]
    for before, after in pairwise(sentences):
        if "." not in before and "." not in after:
            assert int(after) == int(before) + 1 or after == "1", (before, after)


# -------------------------------------------------------------------------------------------------------------- cautions
@pytest.mark.parametrize("name", NAMES)
def test_every_act_that_can_hurt_has_its_caution(name: str) -> None:
    """Whatever a step does, the cautions of the trade for it stand at the step, and whole in the panel before all steps."""
    content = content_of(name)
    panel = {block.mark for block in every(document(name, "booklet", "letter").blocks) if isinstance(block, Caution)}
    acts = 0
    for stage in content.course().stages:
        for told in stage.steps:
            due = {c.key for c in cautions() if c.kind == "safety" and c.applies(told.operations, told.stocks)}
            assert due <= {caution.mark for caution in told.cautions}, told.key
            assert due <= panel
            if told.operations & ALWAYS:
                acts += 1
                assert any(caution.short for caution in told.cautions), told.key
    assert acts > 3


@pytest.mark.parametrize(("name", "edition", "paper"), PAGED)
def test_a_caution_is_read_before_the_first_sentence_it_guards(name: str, edition: str, paper: str) -> None:
    """In every step the marks of its cautions and what is said of care come before its first sentence, and on its page."""
    blocks = {block.number: block for block in every(document(name, edition, paper).blocks) if isinstance(block, Step)}
    said = list[tuple[int, str]]()
    for page in laid_out(name, edition, paper).pages:
        for mark in page.marks:
            said += [(page.number, item.text.strip()) for item in mark.items if isinstance(item, Glyphs)]
    for number, block in blocks.items():
        start = next(place for place, (_, text) in enumerate(said) if text == number)
        opening = [piece for piece in pieces_of(block.actions[0]) if isinstance(piece, str) and piece.strip()][:1]
        first = opening[0].strip()[:12] if opening else ""
        for caution in block.cautions:
            if caution.kind == "safety" and not caution.short:
                continue
            sign = f"{caution.label}:" if caution.short else "Take care."
            place = next(at for at in range(start, len(said)) if said[at][1].startswith(sign))
            guarded = next((at for at in range(start, len(said)) if first and said[at][1].startswith(first)), None)
            assert guarded is None or place < guarded, (number, sign)
            assert guarded is None or said[place][0] <= said[guarded][0]


@pytest.mark.parametrize("name", NAMES)
def test_a_whole_caution_is_told_once(name: str) -> None:
    """Said whole in every step a caution numbs: it stands in the panel, and nowhere else word for word."""
    told = " ".join(
        item.text.strip() for page in laid_out(name, "booklet", "letter").pages for mark in page.marks for item in mark.items
        if isinstance(item, Glyphs)
    )  # fmt: skip
    assert told.count("Hold the piece that comes off") <= 1
    assert told.count("Wipe up spilt water at once") <= 1


@pytest.mark.parametrize(("name", "edition", "paper"), PAGED)
def test_lettering_in_drawings_can_be_read(name: str, edition: str, paper: str) -> None:
    """Drawings are printed as they were drawn: labels no smaller than captions, and in large print all of 18 points."""
    style = work(name, paper).style(EDITIONS[edition])
    laid = laid_out(name, edition, paper)
    drawings = [item for page in laid.pages for mark in page.marks for item in mark.items if isinstance(item, Drawing)]
    for drawing in drawings:
        for label in (item for item in every_item(drawing.scene.items) if isinstance(item, Text)):
            if drawing.scene.name != "view":
                assert label.size_pt * drawing.scale >= 0.94 * style.type.caption - 0.01, (
                    drawing.scene.name,
                    label.words,
                )
    assert drawings


def test_the_laws_find_what_breaks_them() -> None:
    """Words laid over words, and over a drawing, are found."""
    scene = Scene("plan", "plan", "A plan.", 80.0, 60.0, ())
    run = Glyphs(10.0, 50.0, "Take", "sans", 10.0, "#000000", 20.0)
    page = Page(1, (Mark(None, (run,)), Mark(None, (Drawing(0.0, 30.0, scene),)), Mark(None, (Area(0, 0, 9, 9),))))
    runs, drawn = boxes(page)
    assert _over(runs[0][0], drawn[0][0], 2.0)
    assert _over(runs[0][0], _glyph_box(Mark(None), run), 1.2)
    assert not _over(runs[0][0], (10.0, 50.0, 30.0, 60.0), 1.2)
    assert isinstance(Figure(scene).picture, Scene)
