"""No label covers another or leaves its figure, in any shipped pattern laid out for any shipped style and paper.

A label is as large as the ink of its glyphs in the bundled font, or as the disc it stands in.
"""

from __future__ import annotations

from functools import cache
from importlib import resources
from pathlib import Path as FilePath

import pytest
from fontTools.ttLib import TTFont
from shapely import STRtree, affinity
from shapely.geometry import Point, Polygon, box
from tests.basket.written import constructed

from slath.booklet.styles import Style, names, shipped
from slath.drawing.figures import draw, figure_names_of
from slath.drawing.options import LEAST_TEXT_PT, Options
from slath.drawing.plate.lettering import POINT_MM
from slath.drawing.scene import Ellipse, Item, Scene, Text, every_item
from slath.pipeline import Compilation, compile_pattern
from slath.work import in_room

PATTERNS = sorted(
    path.stem for path in (FilePath(__file__).parents[2] / "patterns").glob("*.yaml") if "." not in path.stem
)
TOUCHING = 0.05  # mm by which labels may touch


@cache
def font(name: str) -> tuple[dict[int, tuple[int, int, int]], int]:
    """(advance, lowest, highest ink) of every character of a bundled face, and its units to the em."""
    with TTFont(str(resources.files("slath.fonts") / f"{name}.ttf")) as face:
        names, metrics, glyphs = face.getBestCmap(), face["hmtx"], face["glyf"]
        boxes = {
            code: (metrics[glyph][0], getattr(glyphs[glyph], "yMin", 0), getattr(glyphs[glyph], "yMax", 0))
            for code, glyph in names.items()
        }
        return boxes, face["head"].unitsPerEm


def ink(label: Text) -> Polygon:
    """Where a label lies on the page."""
    boxes, em = font("sans" + "-bold" * label.bold + "-italic" * label.italic)
    scale = label.size_pt * POINT_MM / em
    glyphs = [boxes.get(ord(sign), boxes[ord("n")]) for sign in label.words]
    wide = sum(advance for advance, _, _ in glyphs) * scale
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[label.anchor]
    low, high = min(y for _, y, _ in glyphs) * scale, max(y for _, _, y in glyphs) * scale
    flat = box(label.x + left, label.y - high, label.x + left + wide, label.y - low)
    if not label.turn:
        return flat
    turned: Polygon = affinity.rotate(flat, label.turn, origin=(label.x, label.y))
    return turned


def labels(scene: Scene) -> list[tuple[str, Polygon]]:
    """Every label with the room it takes; one in a disc takes its disc."""
    found = []
    previous: Item | None = None
    for item in every_item(scene.items, strands=False):
        if isinstance(item, Text):
            room = ink(item)
            if isinstance(previous, Ellipse):
                disc = Point(previous.x, previous.y).buffer(previous.rx)
                room = room.union(disc) if room.centroid.distance(disc.centroid) < 0.3 * previous.rx else room
            found.append((item.words, room))
        previous = item
    return found


def faults(scene: Scene) -> list[str]:
    """Pairs of labels that cover each other, and labels that leave the figure."""
    placed = labels(scene)
    page = box(-TOUCHING, -TOUCHING, scene.width + TOUCHING, scene.height + TOUCHING)
    outside = [f"{words!r} leaves the figure" for words, room in placed if not page.contains(room)]
    tree = STRtree([room for _, room in placed])
    over = [
        f"{placed[one][0]!r} lies on {placed[other][0]!r}"
        for one, (_, here) in enumerate(placed)
        for other in sorted(tree.query(here).tolist())
        if one < other and here.buffer(-TOUCHING).intersects(placed[other][1].buffer(-TOUCHING))
    ]
    return outside + over


@cache
def compiled(pattern: str) -> Compilation:
    """A shipped pattern."""
    return compile_pattern(FilePath(__file__).parents[2] / "patterns" / f"{pattern}.yaml")


def closest_papers(style: Style) -> list[str]:
    """The papers of a style that leave figures least room: none of them is as wide and as high as another or more."""
    rooms = {style.figure_room(paper)[:2]: paper for paper in style.paper}
    return [
        paper
        for room, paper in rooms.items()
        if not any(other != room and other[0] <= room[0] and other[1] <= room[1] for other in rooms)
    ]


@cache
def layouts() -> dict[str, Options]:
    """How figures are laid out for each shipped style on the papers that leave them least room, as editions ask for them."""
    found = {}
    for name in names():
        style = shipped(name)
        for paper in closest_papers(style):
            width, height, caption = style.figure_room(paper)
            lettered = Options(text_pt=max(caption, LEAST_TEXT_PT))
            found[f"{name} on {paper}"] = in_room(lettered, width, height)
    return found


@pytest.mark.parametrize("pattern", PATTERNS)
def test_labels_stand_clear_in_every_style(pattern: str) -> None:
    """Every figure that bears labels, in every style."""
    wrong, seen = [], 0
    sizes = compiled(pattern).sizes
    basket, listed = sizes[len(sizes) // 2].basket, sizes[len(sizes) // 2].quantities
    for layout, options in layouts().items():
        for name in figure_names_of(basket, listed, options):
            if name == "view":  # it bears none
                continue
            scene = draw(name, basket, listed, options)
            seen += len(labels(scene))
            wrong += [f"{layout}, {name}: {fault}" for fault in faults(scene)]
    assert seen > 1000
    assert not wrong, "\n".join(wrong)


SHAPES = {
    "low and wide": "side: {height: 1 1/2 in, bands: [{weave: pairing, strands: plain, to: top}]}",
    "low and spreading": "side: {height: 2 in, rim: {diameter: 14 in}, bands: [{weave: pairing, strands: plain, to: top}]}",
    "tall, of many bands": "side: {height: 16 in, bands: ["
    + "".join(
        f"{{name: stripes of colour {band}, weave: three-rod wale, strands: plain, rounds: 4}}, " for band in range(7)
    )
    + "{weave: pairing, strands: plain, to: top}]}",
}


@pytest.mark.parametrize("shape", SHAPES)
def test_measures_and_names_of_any_shape_stand_clear(shape: str, tmp_path: FilePath) -> None:
    """Shapes that leave little room beside or inside them, in the largest type and in that of the booklet."""
    base = "base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}"
    basket = constructed(tmp_path, f"{base}\nstakes: {{material: stakes, per_end: 2}}\n{SHAPES[shape]}\n")
    for layout, options in layouts().items():
        assert not faults(draw("profile", basket, None, options)), layout


def test_labels_that_overlap_or_leave_are_found() -> None:
    """Two words at one spot, a word over the edge, and a word on a disc are told."""
    words = (Text(10, 10, "before"), Text(11, 10.5, "behind"), Text(0, 5, "edge"))
    assert faults(Scene("s", "s", "s", 20, 20, words)) == ["'edge' leaves the figure", "'before' lies on 'behind'"]
    disc = (Ellipse(10, 9, 3, 3), Text(10, 10, "A"), Text(13.2, 10, "stake"))
    assert faults(Scene("s", "s", "s", 20, 20, disc)) == ["'A' lies on 'stake'"]
    assert faults(Scene("s", "s", "s", 20, 20, (Text(5, 10, "one"), Text(15, 10, "two")))) == []
