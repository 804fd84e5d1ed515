"""Each person's own papers: the handout, or the edition they need, with only their size, their colours and their hand.

Nothing is set here that the licence withholds: every edition for a student is made of the handout's sections.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet.blocks import (
    Blank,
    Block,
    Column,
    Document,
    Heading,
    NotesLines,
    Paragraph,
    Row,
    Section,
    Table,
    TickBox,
)  # fmt: skip
from slath.booklet.content import HANDOUT, document_of, handout_document
from slath.booklet.content_forms import bench_cards_document
from slath.classes.record import Person
from slath.classes.telling import Teller
from slath.drawing.kept import KeptFigures
from slath.messages import message, plain
from slath.pipeline import Compilation
from slath.work import BuildOptions, Edition, Tell, Work


class Basket(Struct, frozen=True):
    """A basket somebody makes, as their papers tell it: all who make the same read the same pages."""

    makes: str
    size: str
    colourway: str
    left_handed: bool


def basket_of(person: Person) -> Basket:
    """What tells a person's pages from another's."""
    return Basket(person.makes, person.size, person.colourway, person.left_handed)


def work_for(teller: Teller, basket: Basket, options: BuildOptions, tell: Tell, kept: KeptFigures) -> Work:
    """The pattern in one size, colourway and hand, ready to be set."""
    compilation = teller.prepared.roster.made[basket.makes, basket.colourway]
    sizes = tuple(size for size in compilation.sizes if size.name == basket.size)
    own = Compilation(compilation.pattern, sizes, compilation.notes)
    return Work(own, replace(options, left_handed=basket.left_handed), tell, kept)


# --------------------------------------------------------------------------------------------------------- editions
class StudentEdition(Struct, frozen=True):
    """One way a student's paper is set: how its file's name ends, what it says, and how that becomes bytes."""

    ending: str
    edition: Edition
    tell: Callable[[Work, Edition], Document]
    set: Callable[[Work, Edition, Document], bytes]


def _handout(work: Work, edition: Edition) -> Document:
    return handout_document(work.content_for(edition), HANDOUT)


def _off_paper(work: Work, _: Edition) -> Document:
    return handout_document(work.content_off_paper, HANDOUT)


def _cards(work: Work, edition: Edition) -> Document:
    return bench_cards_document(work.content_for(edition))


def _pages(work: Work, edition: Edition, document: Document) -> bytes:
    from slath.output.pdf import set_document  # noqa: PLC0415 - reading a list needs no pages

    return set_document(document, work.style(edition), work.paper(edition))


def _as_text(_work: Work, _edition: Edition, document: Document) -> bytes:
    from slath.output.text import document_text  # noqa: PLC0415 - few ask for it

    return document_text(document).encode()


def _as_web_page(_work: Work, _edition: Edition, document: Document) -> bytes:
    from slath.output.html import document_html  # noqa: PLC0415 - as above

    return document_html(document).encode()


def _unmade(_work: Work, _edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield from ()  # a student's paper is told once for all who make the same, and set for each


STUDENT_EDITIONS: Mapping[str, StudentEdition] = {
    "handout": StudentEdition("handout.pdf", Edition("the handout in grey", _unmade, "handout"), _handout, _pages),
    "large print": StudentEdition(
        "handout-large-print.pdf", Edition("the handout in large type", _unmade, "large-print"), _handout, _pages
    ),
    "bench cards": StudentEdition("bench-cards.pdf", Edition("a card a stage", _unmade, "wall-card"), _cards, _pages),
    "text": StudentEdition("handout.txt", Edition("the handout as text", _unmade, paged=False), _off_paper, _as_text),
    "web page": StudentEdition(
        "handout.html", Edition("the handout as a web page", _unmade, paged=False), _off_paper, _as_web_page
    ),
}


# ------------------------------------------------------------------------------------------------- what went wrong
def went_wrong_document(teller: Teller, work: Work, person: Person) -> Document:
    """A page to show what went wrong, stage by stage, and to write down what a test weave measures. What was predicted is
    not on it: the teacher has it, and a student's paper may not tell every measure.
    """
    voice = teller.voice
    name = voice.text(message("class.what-went-wrong"))
    told = work.told[0]
    columns = (
        Column(voice.text(message("class.stage")), row_header=True, weight=1.0),
        Column(voice.text(message("class.well")), weight=0.5),
        Column(voice.text(message("class.what-happened")), weight=2.4),
    )
    stages = tuple(
        Row((plain(stage.title), TickBox(), Blank(f"{plain(stage.title)}, {name}", 84.0))) for stage in told.stages
    )
    measures = tuple(
        Row((voice.text(row.what), Blank(voice.text(row.what), 60.0)))
        for row in work.compilation.sizes[0].quantities.test
        if row.judged
    )
    blocks: list[Block] = [
        Heading(1, name),
        Paragraph(voice.say(message("class.went-wrong-lead")), role="lead"),
        Table(voice.text(message("class.stage-by-stage")), columns, stages),
    ]
    if measures:
        blocks.append(
            Table(
                voice.text(message("class.measured")),
                (
                    Column(voice.text(message("class.what")), row_header=True, weight=1.6),
                    Column(voice.text(message("class.written-down")), weight=1.4),
                ),
                measures,
            )
        )
    blocks.append(NotesLines(voice.text(message("class.for-the-teacher")), 5))
    document = document_of(work.content, [Section("went wrong", tuple(blocks))], name)
    return replace(document, title=f"{work.compilation.pattern.title}: {name}", copy_for=person.name)
