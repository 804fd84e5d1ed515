"""Figures as they are printed: full-size sheets measured on the rendered page, and SVG and PDF with the same geometry."""

from __future__ import annotations

import dataclasses
import re
from functools import cache
from io import BytesIO
from pathlib import Path as FilePath
from typing import Any
from xml.etree import ElementTree as ET

import numpy as np
import pypdf
import pypdfium2
import pytest
from msgspec.structs import replace
from numpy.typing import NDArray
from tests.basket.written import constructed

from slath.basket.model import Basket
from slath.booklet import papers
from slath.booklet.blocks import Document, Figure
from slath.booklet.styles import Style, shipped
from slath.drawing.figures import draw, draw_sheets
from slath.drawing.options import Options
from slath.drawing.scene import Scene
from slath.output.pdf import set_document
from slath.output.svg import scene_svg
from slath.pipeline import compile_pattern

PATTERNS = FilePath(__file__).resolve().parents[2] / "patterns"
NAMES = tuple(path.stem for path in sorted(PATTERNS.glob("*.yaml")) if "." not in path.stem)
MARGIN, FINE = 20, 8  # mm round a sheet on its poster, and pixels to one of them
TRUE = 0.15  # mm by which a measure on the rendered page may be off: a little more than a pixel


@cache
def baskets(name: str) -> tuple[Basket, ...]:
    """Every size of a shipped pattern."""
    return tuple(size.basket for size in compile_pattern(PATTERNS / f"{name}.yaml").sizes)


def poster_style() -> Style:
    """A bare style on paper that holds any sheet whole."""
    home = shipped("home")
    edges = replace(home.margins, inner=MARGIN, outer=MARGIN, top=MARGIN, bottom=MARGIN)
    return replace(home, paper=("poster",), margins=edges, indent=0.0, two_sided=False, grid=1, text_width=0)


@pytest.fixture
def poster(monkeypatch: pytest.MonkeyPatch) -> Style:
    """The style, with its paper known."""
    monkeypatch.setitem(papers.PAPERS, "poster", papers.Paper("poster", 700.0, 700.0))
    return poster_style()


def printed(scene: Scene, style: Style) -> bytes:
    """A PDF with the scene at its true size in the upper left corner of the page."""
    return set_document(Document("t", (Figure(dataclasses.replace(scene, full_size=True)),)), style, "poster")


def ink(scene: Scene, style: Style) -> NDArray[np.bool_]:
    """The scene as rendered from the PDF: rows and columns of whether there is ink."""
    page = pypdfium2.PdfDocument(printed(scene, style))[0].render(scale=FINE * 25.4 / 72, grayscale=True).to_numpy()
    page = page.reshape(page.shape[0], page.shape[1])
    across, down = int(scene.width * FINE), int(scene.height * FINE)
    return np.asarray(page[MARGIN * FINE : MARGIN * FINE + down, MARGIN * FINE : MARGIN * FINE + across] < 150)


def runs(line: NDArray[np.bool_]) -> list[float]:
    """Middles of the stretches of ink along a row or a column, mm."""
    edges = np.diff(np.concatenate([[0], line.astype(int), [0]]))
    return [
        (begin + end) / 2 / FINE
        for begin, end in zip(np.nonzero(edges == 1)[0], np.nonzero(edges == -1)[0], strict=True)
    ]


def inked(page: NDArray[np.bool_], x: float, y: float) -> bool:
    """Whether there is ink within the tolerance of a place."""
    reach = int(TRUE * FINE) + 1
    row, column = round(y * FINE), round(x * FINE)
    return bool(page[max(row - reach, 0) : row + reach + 1, max(column - reach, 0) : column + reach + 1].any())


def square(scene: Scene, key: str) -> tuple[float, float, float]:
    """Left, top and side of a test square as the sheet gives them."""
    place = scene.data[key]
    assert isinstance(place, tuple)
    return float(place[0]), float(place[1]), float(place[2])


@pytest.mark.parametrize("name", NAMES)
def test_sheets_measure_true_on_the_page(name: str, poster: Style) -> None:
    """Both squares, the base edge with the middles of its holes, and the ticks of the strip, in every size."""
    for basket in baskets(name):
        for sheet, scene in draw_sheets(basket).items():
            page = ink(scene, poster)
            for key, side in (("square_50_mm", 50.0), ("square_2_in", 50.8)):
                left, top, _ = square(scene, key)
                for line, begin in ((page[int((top + 5) * FINE)], left), (page[:, int((left + 5) * FINE)], top)):
                    marks = [at for at in runs(line) if begin - 1 < at < begin + side + 1]
                    assert marks[-1] - marks[0] == pytest.approx(side, abs=TRUE), (sheet, key)
            if "ring" in sheet:
                ring_is_true(basket, scene, page)
            if sheet == "sheet-spacing":
                strip_is_true(basket, scene, page)


def ring_is_true(basket: Basket, scene: Scene, page: NDArray[np.bool_]) -> None:
    """The edge of the base at 24 places and as long and wide as the pattern says; a cross in the middle of every hole."""
    centre = scene.data["centre"]
    assert isinstance(centre, tuple)
    (x, y), outline = centre, basket.base.spec.outline
    below = -1.0 if scene.seen_from == "above" else 1.0
    for step in range(24):
        px, py = basket.base.edge.point((step + 0.37) / 24)
        assert inked(page, x + px, y + below * py), (scene.name, step)
    row, column = page[round((y + 1.5) * FINE)], page[:, round((x + 1.5) * FINE)]
    for line, middle, size in ((row, x, outline.length_mm), (column, y, outline.width_mm)):
        marks = [at for at in runs(line) if abs(abs(at - middle) - size / 2) < 1.2]
        assert marks, scene.name
        assert max(marks) - min(marks) == pytest.approx(size, abs=0.5), scene.name
    if basket.base.hole_line is not None:
        for u in basket.base.holes:
            px, py = basket.base.hole_line.point(u)
            assert inked(page, x + px, y + below * py), (scene.name, u)


def strip_is_true(basket: Basket, scene: Scene, page: NDArray[np.bool_]) -> None:
    """The first strip is ticked as far apart as stakes stand at the base: the edge once round, shared out."""
    line = basket.base.hole_line or basket.base.edge
    spacing = line.perimeter / basket.working
    rows = (runs(page[row]) for row in range(0, int((scene.height - 56) * FINE), 3))
    ticked = next(marks for marks in rows if len(marks) > 3 and np.ptp(np.diff(marks)) < 2 * TRUE)
    assert np.diff(ticked).mean() == pytest.approx(spacing, abs=TRUE / 4), scene.name


def test_a_sheet_scaled_by_a_hundredth_is_found(poster: Style) -> None:
    """The check can fail: 50 mm at 99 % are half a millimetre short."""
    scene = draw_sheets(baskets("wren-pot")[0])["sheet-spacing"]
    page = ink(scene, poster)
    left, top, side = square(scene, "square_50_mm")
    marks = [at * 0.99 for at in runs(page[int((top + 5) * FINE)]) if left - 1 < at < left + side + 1]
    assert abs(marks[-1] - marks[0] - side) > TRUE


HANDLED = """
base: {kind: round slath, diameter: 8 in, pierced: 4, threaded: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 4 in, bands: [{weave: pairing, strands: plain, to: top}]}
handle: {kind: two-piece, material: sticks, rise: 6 in, lap: 4 in}
"""


def test_the_scarf_gauge_measures_true_on_the_page(tmp_path: FilePath, poster: Style) -> None:
    """A piece 5.6 mm thick (No. 8) shaved to 0.8 mm over 4 in: its full thickness past the lap, half way at half the lap."""
    scene = draw_sheets(constructed(tmp_path, HANDLED))["sheet-scarf-gauge"]
    page = ink(scene, poster)
    bottom = min(square(scene, key)[1] for key in ("square_50_mm", "square_2_in"))
    left = min(square(scene, key)[0] for key in ("square_50_mm", "square_2_in"))
    lap, thick, thin = 101.6, 5.6, 0.8

    def lines(x: float) -> list[float]:
        """Page y of the ink above the squares at so many mm along the gauge."""
        return [at for at in runs(page[:, round((left + x) * FINE)]) if at < bottom]

    def apart(x: float) -> list[float]:
        found = lines(x)
        return [other - one for place, one in enumerate(found) for other in found[place + 1 :]]

    assert any(each == pytest.approx(thick, abs=TRUE) for each in apart(lap + 5.0))
    assert any(each == pytest.approx((thick + thin) / 2, abs=TRUE) for each in apart(lap / 2))
    foot = max(lines(lap + 5.0))
    row = runs(page[round((foot - thin / 2) * FINE)])
    assert row[-1] - row[0] == pytest.approx(lap + 10.0, abs=TRUE)


# ------------------------------------------------------------------------------------------------------ SVG and PDF
KINDS = {
    "weir-field": ("base-plan", "base-opening-1", "staking-plan", "colour-plan", "profile", "handle-1", "handle-1-parts",
                   "handle-1-wrap-1", "border-1-running", "sheet-marking-ring"),
    "mill-tray": ("base-plan", "stroke-pairing", "sheet-hole-ring", "sheet-spacing"),
    "wren-pot": ("side", "view"),
}  # fmt: skip
SAME = 0.02  # mm: the PDF writes hundredths


def traced(data: str) -> NDArray[np.float64]:
    """Points and control points of a path of M, l, c and z: l and c count from where the pen stood (SVG 2, 9.3)."""
    pen, points = np.zeros(2), []
    for letter, rest in re.findall(r"([Mlcz])([^Mlcz]*)", data):
        given = np.array([float(value) for value in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", rest)]).reshape(-1, 2)
        each = {"c": 3, "l": 1, "M": max(len(given), 1), "z": 1}[letter]
        for at in range(0, len(given), each):
            placed = given[at : at + each] + (0.0 if letter == "M" else pen)
            points.append(placed)
            pen = placed[-1]
    return np.vstack(points)


def in_svg(scene: Scene) -> tuple[NDArray[np.float64], list[str]]:
    """Points of all lines and ends of the axes of all ellipses in an SVG, and the colours of its shapes in order."""
    points, colours = [np.zeros((0, 2))], []
    for shape in ET.fromstring(scene_svg(scene)).iter():  # noqa: S314 - our own file
        kind = shape.tag.rpartition("}")[2]
        if kind == "path":
            points.append(traced(shape.attrib["d"]))
        elif kind == "ellipse":
            cx, cy, rx, ry = (float(shape.attrib[key]) for key in ("cx", "cy", "rx", "ry"))
            turn = np.radians(float(re.findall(r"rotate\((-?[\d.]+)", shape.attrib.get("transform", "rotate(0"))[0]))
            axes = np.array([[rx, 0], [0, ry], [-rx, 0], [0, -ry]])
            turned = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
            points.append(axes @ turned + [cx, cy])
        if kind in {"path", "ellipse"}:
            colours += [shape.attrib[key] for key in ("fill", "stroke") if shape.attrib.get(key, "none") != "none"]
    return np.vstack(points), colours


def in_pdf(scene: Scene, style: Style) -> tuple[NDArray[np.float64], int]:
    """Points of all lines in the PDF in mm from the scene's corner, and how often something is painted."""
    page = pypdf.PdfReader(BytesIO(printed(scene, style))).pages[0]
    content: Any = page.get_contents()
    matrix, paints = np.eye(3), 0
    kept: list[NDArray[np.float64]] = []
    points: list[NDArray[np.float64]] = []
    for operands, operator in content.operations:
        if operator == b"q":
            kept.append(matrix)
        elif operator == b"Q":
            matrix = kept.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = (float(value) for value in operands)
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif operator in {b"m", b"l", b"c"}:
            given = np.array([float(value) for value in operands]).reshape(-1, 2)
            points.append((np.column_stack([given, np.ones(len(given))]) @ matrix)[:, :2])
        elif operator in {b"S", b"f", b"B"}:
            paints += 1
    on_page = np.vstack(points) * 25.4 / 72
    return np.column_stack([on_page[:, 0] - MARGIN, 700.0 - MARGIN - on_page[:, 1]]), paints


@pytest.mark.parametrize(
    ("pattern", "figure"), [(pattern, figure) for pattern, figures in KINDS.items() for figure in figures]
)
def test_svg_and_pdf_have_the_same_geometry(pattern: str, figure: str, poster: Style) -> None:
    """Every point of every line and ellipse in the SVG is in the PDF, to two hundredths of a millimetre."""
    sizes = baskets(pattern)
    scene = draw(figure, sizes[len(sizes) // 2], None, Options(width_mm=120.0))
    drawn, colours = in_svg(scene)
    written, paints = in_pdf(scene, poster)
    cells = {tuple(cell) for cell in np.floor(written / SAME).astype(int).tolist()}
    near = [(dx, dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)]
    missing = [
        (x, y)
        for (x, y), (cx, cy) in zip(drawn.tolist(), np.floor(drawn / SAME).astype(int).tolist(), strict=True)
        if not any((cx + dx, cy + dy) in cells for dx, dy in near)
    ]
    assert len(drawn) > 40
    assert not missing[:5], f"{len(missing)} of {len(drawn)} points"
    assert paints >= len(colours) / 2  # a shape filled and stroked is painted once
