"""Labels laid on a sheet whose grid is given in millimetres, printed at their true measure."""

from __future__ import annotations

from collections.abc import Sequence

from slath.booklet.blocks import ContentError, Words
from slath.booklet.desk import Desk
from slath.booklet.laid import MM, Laid, Mark, Node, Page
from slath.booklet.papers import PAPERS
from slath.booklet.strips import stacked
from slath.booklet.styles import Style
from slath.classes.kit_papers import label_lines
from slath.classes.record import LabelGrid
from slath.classes.telling import Teller
from slath.messages import message
from slath.output.pdf import write_pdf

PAD = 3.0  # mm from the edge of a label that a printer may miss; estimated
NAME_PT, LINE_PT, LEAST_PT = 14.0, 9.5, 5.5  # type sizes in points: as wished, and the least that can be read
SHRUNK = 0.92  # from one trial to the next where the words of a label do not fit


def label_sheets(teller: Teller, style: Style) -> bytes:
    """A label for every kit and every set of spares, as a PDF that is never scaled.

    Raises ContentError for a label too small for what it must say.
    """
    record = teller.prepared.roster.record
    grid, paper = record.labels, PAPERS[record.labels.sheet]
    language = teller.voice.language.about("tag")
    desk = Desk(style, (grid.width - 2 * PAD) * MM, (grid.height - 2 * PAD) * MM, language)
    root = Node("Document")
    pages: list[Page] = []
    labels = [(kit.name, label_lines(teller, kit)) for kit in teller.prepared.kits.all]
    for start in range(0, len(labels), grid.on_a_sheet):
        marks: list[Mark] = []
        for place, (name, lines) in enumerate(labels[start : start + grid.on_a_sheet]):
            marks += _label(desk, grid, place, name, lines, root)
        pages.append(Page(len(pages) + 1, tuple(marks)))
    width, height = paper.points
    named = teller.voice.text(message("class.labels"))
    laid = Laid(
        width=width,
        height=height,
        pages=tuple(pages),
        root=root,
        title=f"{record.title}: {named}",
        author=record.teacher,
        subject=teller.voice.text(message("class.subject")),
        keywords=("basketry", "class"),
        language=language,
        date=record.days[0],
        full_size=True,
    )
    return write_pdf(laid)


def _label(desk: Desk, grid: LabelGrid, place: int, name: str, lines: Sequence[Words], root: Node) -> list[Mark]:
    """One label at its place, its words as large as they fit."""
    share = 1.0
    while True:
        node = Node("Div", root)
        strong = desk.style.look(NAME_PT * share, strong=True, family="sans")
        plain = desk.style.look(LINE_PT * share, family="sans")
        strips = desk.text(name, Node("P", node), strong, ragged=True)
        for line in lines:
            strips += desk.text(line, Node("P", node), plain, ragged=True)
        block = stacked(strips)
        if block.height <= desk.height:
            left, top = grid.corner(place)
            return [mark.moved((left + PAD) * MM, (top + PAD) * MM) for mark in block.marks]
        share *= SHRUNK
        if LINE_PT * share < LEAST_PT:
            raise ContentError(f"a label of {grid.width:g} × {grid.height:g} mm cannot hold the words for {name}")
