"""Finished pages put on sheets for printing: folded booklets, several pages on a sheet, crop marks.

Every page becomes one Form XObject, drawn where it belongs. Imposed files are for paper only: they carry no tags, links
or bookmarks and claim no conformance; the reading file does.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import cast

from msgspec import Struct
from pypdf import PageObject, PdfReader, PdfWriter
from pypdf.generic import DictionaryObject, IndirectObject, NameObject, RectangleObject, StreamObject

from slath.booklet.laid import MM
from slath.booklet.papers import BLEED, PAPERS

CALIPER = 0.1  # mm, thickness of one leaf of ordinary 80 g/m² office paper (common practice)
TICK, TICK_LINE = 3.0, 0.25  # mm: length of fold and crop marks, and points of their line
MARK_GAP = 2.0  # mm between the edge of the bleed and a crop mark
SLUG = 10.0  # mm of sheet outside the bleed, for the marks
HALVED = 1.01  # mm that two half-size pages may lack of a whole sheet, as halves of the A series do (ISO 216)


class _Form(Struct, frozen=True):
    """One finished page as an object to draw, and its size in points once trimmed."""

    reference: IndirectObject
    width: float
    height: float


class _Put(Struct, frozen=True):
    """A page on a sheet: its lower left corner in points, and its scale. A blank page is None."""

    form: _Form | None
    x: float
    y: float
    scale: float = 1.0


def saddle_order(pages: int) -> list[tuple[int, int, int, int]]:
    """Page indices on each sheet, outermost first: front left, front right, back left, back right.

    The number of pages is filled up to a multiple of four; an index not below ``pages`` is a blank page.
    """
    full = -(-pages // 4) * 4
    return [(full - 1 - 2 * k, 2 * k, 2 * k + 1, full - 2 - 2 * k) for k in range(full // 4)]


def saddle_stitch(pages: bytes, *, caliper: float = CALIPER) -> bytes:
    """Two pages a side, for sheets printed on both sides (turned on the short edge), folded and stapled in the fold.

    The sheet is the whole paper, folded at its middle. Inner sheets stand out when a booklet is folded; their pages
    move toward the fold by ``caliper`` mm a sheet, so that outer margins stay even after trimming.
    """
    writer, forms = _opened(pages)
    width, height = max(form.width for form in forms), max(form.height for form in forms)
    fold = _whole_sheet(2 * width, height) / 2
    for depth, order in enumerate(saddle_order(len(forms))):
        creep = depth * caliper * MM
        for left, right in (order[:2], order[2:]):
            puts = [
                _Put(forms[left] if left < len(forms) else None, fold - width + creep, 0.0),
                _Put(forms[right] if right < len(forms) else None, fold - creep, 0.0),
            ]
            _sheet(writer, 2 * fold, height, puts, _fold_marks(fold, height))
    return _closed(writer, {"PrintScaling": "None", "Duplex": "DuplexFlipShortEdge"})


def several_up(pages: bytes, columns: int, rows: int, *, gap: float = 4.0) -> bytes:
    """``columns`` × ``rows`` pages on a sheet of the size of one page, turned if they fit larger; ``gap`` mm between."""
    writer, forms = _opened(pages)
    width, height = forms[0].width, forms[0].height

    def scale_on(across: float, down: float) -> float:
        free = gap * MM
        return min((across - free * (columns + 1)) / columns / width, (down - free * (rows + 1)) / rows / height)

    if scale_on(height, width) > scale_on(width, height):
        across, down = height, width
    else:
        across, down = width, height
    scale = scale_on(across, down)
    cell = (across - gap * MM) / columns, (down - gap * MM) / rows
    for start in range(0, len(forms), columns * rows):
        puts = []
        for place, form in enumerate(forms[start : start + columns * rows]):
            row, column = divmod(place, columns)
            x = gap * MM / 2 + cell[0] * column + (cell[0] - form.width * scale) / 2
            y = down - gap * MM / 2 - cell[1] * (row + 1) + (cell[1] - form.height * scale) / 2
            puts.append(_Put(form, x, y, scale))
        _sheet(writer, across, down, puts, "")
    return _closed(writer, {})


def with_crop_marks(pages: bytes, *, bleed: float = BLEED) -> bytes:
    """Every page at its true size on a larger sheet, with ``bleed`` mm of what runs off it, crop marks outside, and
    proper page boxes (ISO 32000-1, 14.11.2). Blank pages fill the number up to a multiple of four, as stitching needs.
    """
    writer, forms = _opened(pages, bleed * MM)
    edge, outer = (bleed + SLUG) * MM, SLUG * MM
    forms_and_blanks = [*forms, *([None] * (-len(forms) % 4))]
    for form in forms_and_blanks:
        of = form or forms[-1]
        width, height = of.width + 2 * edge, of.height + 2 * edge
        page = _sheet(writer, width, height, [_Put(form, edge, edge)], _crop_marks(of, edge, bleed))
        page[NameObject("/TrimBox")] = RectangleObject((edge, edge, edge + of.width, edge + of.height))
        page[NameObject("/BleedBox")] = RectangleObject((outer, outer, width - outer, height - outer))
    return _closed(writer, {"PrintScaling": "None"})


def _whole_sheet(width: float, height: float) -> float:
    """The width of the paper that pages lying side by side are halves of, or their own; points."""
    for paper in PAPERS.values():
        across, down = paper.turned().points
        if 0 <= across - width <= HALVED * MM and abs(down - height) <= HALVED * MM:
            return across
    return width


def _opened(pages: bytes, over: float = 0.0) -> tuple[PdfWriter, list[_Form]]:
    """A file to write and the pages as objects, each with ``over`` points of what runs past its edges. The file says
    what its colours mean if the pages do.
    """
    reader = PdfReader(BytesIO(pages))
    writer = PdfWriter()
    writer.pdf_header = "%PDF-1.7"
    title = reader.metadata.title if reader.metadata else None
    writer.metadata = {"/Title": title or "", "/Producer": "slath"}
    root = reader.root_object
    if "/OutputIntents" in root:
        writer.root_object[NameObject("/OutputIntents")] = root["/OutputIntents"].clone(writer)
    return writer, [_form(page, writer, over) for page in reader.pages]


def _form(page: PageObject, writer: PdfWriter, over: float) -> _Form:
    box = page.mediabox
    contents = page["/Contents"].get_object() if "/Contents" in page else None
    # A page's own stream is taken over as it was packed; only several to a page would have to be unpacked and joined.
    stream = (
        cast("StreamObject", contents.clone(writer)) if isinstance(contents, StreamObject) else _joined(page, writer)
    )
    stream.update({
        NameObject("/Type"): NameObject("/XObject"),
        NameObject("/Subtype"): NameObject("/Form"),
        NameObject("/BBox"): RectangleObject((box.left - over, box.bottom - over, box.right + over, box.top + over)),
        NameObject("/Resources"): page.raw_get("/Resources").clone(writer),
    })  # fmt: skip
    return _Form(cast("IndirectObject", stream.indirect_reference), float(box.width), float(box.height))


def _joined(page: PageObject, writer: PdfWriter) -> StreamObject:
    contents = page.get_contents()
    stream = StreamObject()
    stream.set_data(contents.get_data() if contents is not None else b"")
    reference = writer._add_object(stream.flate_encode())  # noqa: SLF001  (pypdf has no public way to add an object)
    return cast("StreamObject", reference.get_object())


def _sheet(writer: PdfWriter, width: float, height: float, puts: Sequence[_Put], marks: str) -> PageObject:
    page = writer.add_blank_page(width, height)
    names = DictionaryObject()
    lines = [marks] if marks else []
    for number, put in enumerate(puts):
        if put.form is None:
            continue
        names[NameObject(f"/P{number}")] = put.form.reference
        lines.append(f"q {put.scale:.6f} 0 0 {put.scale:.6f} {put.x:.3f} {put.y:.3f} cm /P{number} Do Q")
    stream = StreamObject()
    stream.set_data("\n".join(lines).encode("ascii"))
    page[NameObject("/Contents")] = writer._add_object(stream.flate_encode())  # noqa: SLF001  (as above)
    page[NameObject("/Resources")] = DictionaryObject({NameObject("/XObject"): names})
    return page


def _closed(writer: PdfWriter, preferences: dict[str, str]) -> bytes:
    if preferences:
        entries = {NameObject(f"/{key}"): NameObject(f"/{value}") for key, value in preferences.items()}
        writer.root_object[NameObject("/ViewerPreferences")] = DictionaryObject(entries)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def _fold_marks(x: float, height: float) -> str:
    """Short ticks at head and foot where the sheet is folded."""
    length = TICK * MM
    ticks = f"{x:.3f} 0 m {x:.3f} {length:.3f} l {x:.3f} {height:.3f} m {x:.3f} {height - length:.3f} l"
    return _artifact(f"0.6 G {TICK_LINE} w {ticks} S")


def _crop_marks(form: _Form, edge: float, bleed: float) -> str:
    near = edge - (bleed + MARK_GAP) * MM
    far = near - TICK * MM
    lines = []
    for x in (edge, edge + form.width):
        for start, end in ((near, far), (form.height + 2 * edge - near, form.height + 2 * edge - far)):
            lines.append(f"{x:.3f} {start:.3f} m {x:.3f} {end:.3f} l")
    for y in (edge, edge + form.height):
        for start, end in ((near, far), (form.width + 2 * edge - near, form.width + 2 * edge - far)):
            lines.append(f"{start:.3f} {y:.3f} m {end:.3f} {y:.3f} l")
    return _artifact(f"0 G {TICK_LINE} w {' '.join(lines)} S")


def _artifact(marks: str) -> str:
    """Marks said to be no part of what is told (ISO 32000-1, 14.8.2.2)."""
    return f"/Artifact BMC q {marks} Q EMC"
