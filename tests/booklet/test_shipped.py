"""The booklets of the shipped patterns as a reader meets them: numbers, figures, page breaks, and what a handout keeps back."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from functools import cache

import pypdfium2
import pytest
from msgspec.structs import replace
from tests.booklet.accounted import accounted_mm
from tests.booklet.by_size import spelled_out
from tests.booklet.shipped_patterns import NAMES, PAPERS, work

from slath.booklet.blocks import Block, Chip, CountBox, Document, Section, Step, Table, Words, every
from slath.booklet.content import SECTIONS, booklet_document, handout_document
from slath.booklet.content_forms import bench_cards_document
from slath.booklet.content_record import BookletContent
from slath.booklet.content_steps import steps_of
from slath.booklet.flow import lay_out
from slath.booklet.laid import Drawing, Glyphs, Laid, Mark, Node
from slath.booklet.places import figures_of
from slath.drawing.scene import Item, Scene, Text, every_item
from slath.editions import EDITIONS
from slath.output.html import document_html
from slath.output.pdf import set_document
from slath.output.text import document_text
from slath.units.names import INCH_MM

PAGED = tuple((name, edition, paper) for name in NAMES for edition, paper in PAPERS.items())
_FIGURE = r"\d+(?: \d+/\d+|/\d+)?(?:\.\d+)?"
BOTH = re.compile(rf"({_FIGURE}) in \(({_FIGURE}) mm\)")
METRIC_FIRST = re.compile(rf"({_FIGURE}) mm \(({_FIGURE}) in\)")
IN_BOTH = re.compile(rf"{_FIGURE} (?:in|ft) \({_FIGURE} (?:mm|m)\)|{_FIGURE} (?:mm|m) \({_FIGURE} (?:in|ft)\)")


@cache
def content_of(name: str, vocabulary: str = "uk") -> BookletContent:
    """What the booklet of one pattern on letter paper says and shows."""
    return work(name, "letter", vocabulary).content_for(EDITIONS["booklet"])


@cache
def document(name: str, edition: str, paper: str) -> Document:
    """One edition of one pattern as blocks, its figures drawn for its paper."""
    content = content_of(name) if edition == "booklet" else work(name, paper).content_for(EDITIONS[edition])
    return handout_document(content) if edition == "handout" else booklet_document(content)


@cache
def laid_out(name: str, edition: str, paper: str) -> Laid:
    """The same as pages."""
    return lay_out(document(name, edition, paper), work(name, paper).style(EDITIONS[edition]), paper)


@cache
def pdf_text(name: str) -> str:
    """The words of the booklet on letter paper as PDFium reads them, spaces and fractions made plain."""
    data = set_document(document(name, "booklet", "letter"), work(name, "letter").style(EDITIONS["booklet"]), "letter")
    text = " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data))
    return re.sub(r"\s+", " ", text.replace("\u00a0", " ").replace("\u2044", "/").replace("\u00ad", ""))


@cache
def booklet_text(name: str) -> str:
    """The booklet as text, with every measure that is told for several sizes written out."""
    return spelled_out(" ".join(document_text(document(name, "booklet", "letter")).replace("\u00a0", " ").split()))


def labels(items: tuple[Item, ...]) -> list[Text]:
    """All lettering of a scene."""
    return [item for item in every_item(items) if isinstance(item, Text)]


def roles(node: Node | None) -> list[str]:
    """The role of a node and of all it stands in."""
    return [node.role, *roles(node.parent)] if node else []


@pytest.mark.parametrize("name", NAMES)
def test_every_measure_of_the_booklet_is_accounted_for(name: str) -> None:
    """Each is printed from an amount of the list, or from a length of the construction that `accounted` names.

    Tables and steps tell more than four to each piece and band of each size (four and a half of the toll house, which has
    the fewest); without the tables there would be fewer.
    """
    voice = work(name, "letter").told[0].voice
    accounted = [mm for size in work(name, "letter").compilation.sizes for mm in accounted_mm(size) if mm >= 0]
    known = {printed(mm) for mm in accounted for printed in (voice.length, voice.bit, voice.long)}
    known |= {voice.long(mm, up=True) for mm in accounted}
    said = [found[0] for found in IN_BOTH.finditer(booklet_text(name))]
    rows = [(*size.quantities.pieces, *size.quantities.bands) for size in work(name, "letter").compilation.sizes]
    assert len(said) > 4 * sum(map(len, rows))
    assert set(said) <= known, set(said) - known


@pytest.mark.parametrize("name", NAMES)
def test_inches_and_millimetres_are_of_one_length(name: str) -> None:
    """Each is rounded from the same value, so that they differ by no more than half a step of each.

    A length to cut goes up in each by itself (see `test_a_length_to_cut_is_never_rounded_down`).
    """
    content = content_of(name)
    cut = {content.voice.length(piece.cut_mm.value) for size in content.sizes for piece in size.quantities.pieces}
    found = [told for told in _in_both_units(booklet_text(name)) if told[2] not in cut]
    assert len(found) > 30
    for inches, mm, said in found:
        assert abs(inches * INCH_MM - mm) <= _half_steps_mm(inches, mm), said


def _half_steps_mm(inches: float, mm: float) -> float:
    """Half of the steps both are rounded to: quarters and 5 mm from two inches and 50 mm on, else eighths and sixteenths,
    and millimetres.
    """
    quarters, eighths = not inches * 4 % 1, not inches * 8 % 1
    step = 1 / 4 if quarters and inches >= 2 else 1 / 8 if eighths else 1 / 16
    return (step * INCH_MM + (5 if mm >= 50 and not mm % 5 else 1)) / 2 + 1e-6


def _in_both_units(text: str) -> list[tuple[float, float, str]]:
    """Inches and millimetres of each measure told in both, and how it was told."""
    told = [(found[1], found[2], found[0]) for found in BOTH.finditer(text)]
    told += [(found[2], found[1], found[0]) for found in METRIC_FIRST.finditer(text)]
    return [(float(sum(map(Fraction, inches.split()))), float(mm), said) for inches, mm, said in told]


@pytest.mark.parametrize("name", NAMES)
def test_a_length_to_cut_is_never_rounded_down(name: str) -> None:
    """In neither unit it is told shorter than what is needed, nor longer by more than its step and a quarter inch."""
    content = content_of(name)
    for size in content.sizes:
        for piece in size.quantities.pieces:
            told = _in_both_units(content.voice.length(piece.cut_mm.value))
            assert len(told) == 1
            inches, mm, _ = told[0]
            assert piece.given_mm is not None or piece.cut_mm.value >= piece.needed_mm.value - 1e-6
            assert piece.cut_mm.value - 1e-6 <= inches * INCH_MM < piece.cut_mm.value + INCH_MM / 4
            assert piece.cut_mm.value - 1e-6 <= mm < piece.cut_mm.value + 1


@pytest.mark.parametrize("name", NAMES)
def test_a_small_measure_is_told_one_way(name: str) -> None:
    """A hole and its bit, told in tenths of a millimetre, are not an eighth of an inch here and 9/64 there."""
    text = booklet_text(name)
    small: dict[str, set[str]] = {}
    for found in BOTH.finditer(text):
        if "." in found[2]:
            small.setdefault(found[2], set()).add(found[1])
    assert all(len(ways) == 1 for ways in small.values()), small


@pytest.mark.parametrize("name", NAMES)
def test_a_length_that_is_cut_is_told_as_it_is_cut(name: str) -> None:
    """No step or figure tells the length of a piece before it was rounded up beside the cut list, which has it after."""
    voice = work(name, "letter").told[0].voice
    text = booklet_text(name)
    sizes = work(name, "letter").compilation.sizes
    before = {
        sum(part.value for part in piece.parts): voice.length(piece.cut_mm.value)
        for size in sizes
        for piece in size.quantities.pieces
        if piece.parts
    }
    others = [mm for size in sizes for mm in accounted_mm(size) if mm >= 0]
    others = [mm for mm in others if not any(abs(mm - one) < 1e-6 for one in before)]
    meant = {printed(mm) for mm in others for printed in (voice.length, voice.long, voice.bit)}
    meant |= {voice.length(mm) for mm in before if _is_another(voice.length(mm), name)}
    looked_for = {voice.length(mm) for mm, cut in before.items() if voice.length(mm) != cut} - meant
    assert looked_for or all(voice.length(mm) in {cut, *meant} for mm, cut in before.items())
    assert not {told for told in looked_for if re.search(rf"(?<![\d/.] )(?<![\d/.]){re.escape(told)}", text)}


@pytest.mark.parametrize("name", NAMES)
def test_a_figure_is_shown_once_and_those_of_one_size_bear_its_name(name: str) -> None:
    """No drawing is printed twice; where every size has its own, each caption opens with the name of its size."""
    content = content_of(name)
    steps = [block for block in steps_of(content.course(), {}, content.voice) if isinstance(block, Step)]
    figures = [figure for step in steps for figure in step.figures]
    assert len({id(figure.picture) for figure in figures}) == len(figures)
    by_name: dict[str, list[str]] = {}
    for figure in figures:
        assert isinstance(figure.picture, Scene)
        by_name.setdefault(figure.picture.name, []).append(str(figure.caption))
    sizes = [size.name[:1].upper() + size.name[1:] for size in content.sizes]
    for captions in by_name.values():
        if len(captions) > 1:
            assert [re.split(r"\. |, scale|, full size", caption)[0] for caption in captions] == sizes


def _words(marks: tuple[Mark, ...], last: Mark) -> str:
    """All words of the node a mark belongs to, and of its neighbours in the same box."""
    box = last.node.parent if last.node else None
    same = [mark for mark in marks if mark.node is last.node or (mark.node and box and mark.node.parent is box)]
    return " ".join(item.text for mark in same for item in mark.items if isinstance(item, Glyphs)).strip()


# ----------------------------------------------------------------------------------------------------------- the words
@pytest.mark.parametrize("vocabulary", ["uk", "us"])
@pytest.mark.parametrize("name", NAMES)
def test_sentences_read_as_a_person_would_write_them(name: str, vocabulary: str) -> None:
    """No "a oval" and no "1 rounds"."""
    text = " ".join(document_text(booklet_document(content_of(name, vocabulary))).split())
    assert not re.findall(r"\b[Aa] (?!and\b|in\b|or\b)(?:[aio]\w+|e(?!u)\w+)", text)
    assert not re.findall(r"(?<![\d/.])1 (?:rounds|strands|weavers|stakes|spokes|sticks)\b", text)


@pytest.mark.parametrize("name", NAMES)
def test_figures_speak_the_words_of_their_booklet(name: str) -> None:
    """In a US booklet captions, labels and words for figures say spoke, weaver, coil and color as the steps do."""
    content = content_of(name, "us")
    scenes = [scene for size in content.sizes for scene in size.figures.values()]
    said = " ".join(
        f"{scene.title} {scene.caption} {scene.words} " + " ".join(label.words for label in labels(scene.items))
        for scene in scenes
    )
    assert re.search(r"\bspokes?\b", said)
    assert not re.findall(
        r"\b(?:[Ss]takes?|[Ss]trands?|[Uu]psett|[Ww]ale|[Cc]olours?|neighbouring|anticlockwise)\b", said
    )


@pytest.mark.parametrize("name", NAMES)
def test_letters_are_given_to_strands_alone(name: str) -> None:
    """A letter tells strands apart in the drawings, woven or wound; sticks, stakes and bows are never drawn with one.

    Where the handles are wound with one material alone, there is nothing to tell apart.
    """
    content = content_of(name)
    woven = {run.material for size in content.sizes for run in size.quantities.strands}
    handles = [handle for size in content.sizes for handle in size.basket.handles]
    wound = {key for handle in handles for wrap in handle.wraps for key in wrap.spec.strands}
    told_apart = woven | (wound if len(wound) > 1 else set())
    letters = {content.sizes[0].basket.pattern.materials[key].letter for key in told_apart}
    chips = {chip.letter for block in every(booklet_document(content).blocks) for chip in _chips(block)}
    assert chips == letters


@pytest.mark.parametrize("name", ["weir-field"])
def test_a_scale_is_told_on_paper_alone(name: str) -> None:
    """A page on a screen has no scale: neither captions nor labels nor words of figures name one there."""
    page = document_html(booklet_document(work(name).content_off_paper))
    printed = document_html(booklet_document(work(name).content))
    assert "scale 1 :" not in page.replace("\u00a0", " ")
    assert printed.replace("\u00a0", " ").count("scale 1 :") > 6


def _chips(block: Block) -> list[Chip]:
    said: list[Words] = []
    if isinstance(block, Table):
        said = [cell for row in block.rows for cell in row.cells]
    elif isinstance(block, Step):
        said = [*block.actions, *block.notes, *(count.words for count in block.counts)]
    elif isinstance(block, CountBox):
        said = [block.words]
    return [piece for words in said if isinstance(words, tuple) for piece in words if isinstance(piece, Chip)]


# ------------------------------------------------------------------------------------------------------------ handouts
def handout_text(
    name: str, withheld: tuple[str, ...], document_of: Callable[[BookletContent], Document] = handout_document
) -> str:
    """Everything a handout or another paper says, words for figures and labels in figures as well."""
    content = content_of(name)
    told = document_of(replace(content, pattern=replace(content.pattern, withheld=withheld)))
    figures = [figure for block in every(told.blocks) for figure in figures_of(block)]
    scenes = [one.picture for figure in figures for one in (figure, *figure.instead)]
    drawn = " ".join(label.words for scene in scenes if isinstance(scene, Scene) for label in labels(scene.items))
    return spelled_out(" ".join(f"{document_text(told)} {drawn}".replace("\u00a0", " ").split()))


@pytest.mark.parametrize("name", NAMES)
def test_a_handout_keeps_the_cut_list_back(name: str) -> None:
    """Withheld, no cut length is left in tables, steps, figures or the words for figures, nor on bench cards; else all of
    them are there.
    """
    content = content_of(name)
    cut = {
        piece.cut_mm.value for size in content.sizes for piece in size.quantities.pieces if "board" not in piece.part
    }
    listed = {_bare(content.voice.length(mm)) for mm in cut if not _is_another(content.voice.length(mm), name)}
    told = _bare(handout_text(name, ()))
    spared = _bare(handout_text(name, ("cut list",)))
    assert not {length for length in map(_bare, map(content.voice.length, cut)) if length not in told}
    cards = _bare(handout_text(name, ("cut list",), bench_cards_document))
    for paper in (spared, cards):
        assert not {length for length in listed if re.search(rf"(?<![\d/.]){length}(?![\d/.])", paper)}
    assert len(listed) >= len(cut) / 2
    assert "To cut" in handout_text(name, ())
    assert "To cut" not in handout_text(name, ("cut list",))


def _bare(told: str) -> str:
    """Measures without their units, as tables have them whose headings name those: ``9 1/2 241``."""
    return re.sub(r"(?<=\d) (?:in|mm)\b|[()]", "", told)


def _is_another(length: str, name: str) -> bool:
    """Whether a cut length happens to be the print of some other measure as well, such as the width of a rim."""
    voice = content_of(name).voice
    finished = [size.quantities.finished for size in content_of(name).sizes]
    others = [
        amount.value
        for one in finished
        for amount in (one.base_length, one.base_width, one.rim_length, one.rim_width, one.height, one.along)
    ]
    others += [
        mm
        for size in content_of(name).sizes
        for handle in size.basket.handles
        for mm in (handle.rise_mm, handle.span_mm)
    ]
    rows = [size.quantities.border for size in content_of(name).sizes]
    others += [row.needed_mm.value for row in rows if row]
    return length in {voice.length(mm) for mm in others}


SIGNS = {
    "glance": "Read this first",
    "materials": "To buy, for one basket",
    "cut list": "To cut",
    "bands": "What each band takes",
    "tools": "Tools. ",
    "steps": "Make the slath",
    "mends": "If it goes wrong",
    "figures": "The base sticks before weaving",
}


@pytest.mark.parametrize("section", list(SIGNS))
@pytest.mark.parametrize("name", ["weir-field"])
def test_a_handout_keeps_back_what_is_withheld(name: str, section: str) -> None:
    """Each section that can be withheld is told where it is not, and is gone where it is."""
    assert SIGNS[section] in handout_text(name, ())
    assert SIGNS[section] not in handout_text(name, (section,))


@pytest.mark.parametrize("name", NAMES)
def test_a_handout_has_no_page_that_says_its_title_alone(name: str) -> None:
    """Under the title stands the finished basket."""
    first = laid_out(name, "handout", PAPERS["handout"]).pages[0]
    assert any(isinstance(item, Drawing) and item.scene.name == "view" for mark in first.marks for item in mark.items)


@pytest.mark.parametrize("name", ["weir-field"])
def test_sections_are_told_in_reading_order(name: str) -> None:
    """The booklet has every section there is, each once."""
    told = [block for block in booklet_document(content_of(name), SECTIONS).blocks if isinstance(block, Section)]
    within = [block.name for section in told for block in section.blocks if isinstance(block, Section)]
    others = {"safety", "imprint"}  # which stand in others
    assert within == ["materials", "cut list", "bands"]  # where the first step buys and cuts by them
    assert [section.name for section in told] == [name for name in SECTIONS if name not in {*others, *within}]
