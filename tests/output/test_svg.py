"""SVG figures: named and described, whole in themselves, the same picture as in the PDF."""

from __future__ import annotations

import dataclasses
import math
import re
import xml.etree.ElementTree as ET
from typing import Any

import pypdfium2
import pytest
from msgspec.structs import replace
from PIL import ImageChops
from svgwrite.validator2 import get_validator
from tests.booklet.sample import basket, cross, gauge, side

from slath.booklet.blocks import Document, Figure
from slath.booklet.faces import face
from slath.booklet.laid import MM
from slath.booklet.styles import shipped
from slath.drawing.scene import Ellipse, Group, Path, Scene, Subpath, Text
from slath.output.pdf import set_document
from slath.output.svg import scene_svg, svg_element

SVG = "{http://www.w3.org/2000/svg}"
SCENES = [cross(5, 60), side(100, 40), basket(80), gauge()]


def scene_of_areas() -> Scene:
    """Areas that tell fill rules, order of painting, curves, turned ellipses and clips apart."""
    inner = Subpath(((20, 20), (30, 20), (30, 30), (20, 30)), closed=True)
    outer = Subpath(((10, 10), (40, 10), (40, 40), (10, 40)), closed=True)
    round_ = Subpath(((60, 25), (60, 5), (90, 5), (90, 25), (90, 45), (60, 45), (60, 25)), closed=True, curve=True)
    items = (
        Path((outer, inner), fill="#000000"),
        Path((round_,), fill="#808080"),
        Ellipse(25, 65, 15, 5, turn=30, fill="#404040"),
        Group(
            (Path((Subpath(((50, 50), (95, 50), (95, 95), (50, 95)), closed=True),), fill="#202020"),),
            clip=(60, 60, 10, 10),
        ),
    )
    return Scene("areas", "Areas", "Areas.", 100, 100, items)


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.name)
def test_a_figure_names_and_describes_itself(scene: Scene) -> None:
    """Well-formed, in millimetres, with ``title`` and ``desc`` first (W3C SVG-AAM 1.0)."""
    root = ET.fromstring(scene_svg(scene))  # noqa: S314  (our own output)
    assert root.get("width") == f"{scene.width:g}mm"
    assert root.get("role") == "img"
    assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]
    assert (root[0].text, root[1].text) == (scene.title, scene.words)


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.name)
def test_a_figure_fetches_nothing(scene: Scene) -> None:
    """No reference leads out of the file, and identifiers are unique in it."""
    root = ET.fromstring(scene_svg(scene))  # noqa: S314  (our own output)
    identities = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(set(identities)) == len(identities)
    for element in root.iter():
        for name, value in element.attrib.items():
            assert "href" not in name
            assert "://" not in value
            if value.startswith("url("):
                assert value[5:-1] in identities


@pytest.mark.parametrize("scene", [*SCENES, scene_of_areas()], ids=lambda scene: scene.name)
def test_every_element_and_attribute_is_svg(scene: Scene) -> None:
    """Names and values are those of SVG 1.1, by svgwrite's tables; ``role`` came with SVG 2, and ``style`` is tested below."""
    tables = get_validator("full", debug=True)
    for element in ET.fromstring(scene_svg(scene)).iter():  # noqa: S314  (our own output)
        name = element.tag.removeprefix(SVG)
        for attribute, value in element.attrib.items():
            if attribute not in {"role", "style"}:
                tables.check_svg_attribute_value(name, attribute, value)
        for child in element:
            tables.check_valid_children(name, child.tag.removeprefix(SVG))


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.name)
def test_numbers_are_no_longer_than_a_hundredth(scene: Scene) -> None:
    """Hundredths of a millimetre are enough for any printer; noughts that say nothing are left out."""
    numbers = re.findall(r"-?\d*\.\d+", re.sub(r"<(title|desc)>.*?</\1>", "", scene_svg(scene)[60:]))
    assert len(numbers) >= 5
    assert all(re.fullmatch(r"-?[1-9]?\d*\.\d?[1-9]", number) for number in numbers)


def test_relative_points_lead_where_absolute_ones_do() -> None:
    """Told each from the one before, the points of a path do not drift: a thousand steps end at the last point."""
    points = tuple((math.sin(n) * 40 + n / 30, math.cos(n * 1.7) * 40) for n in range(1000))
    for curve in (False, True):
        scene = Scene("s", "s", "s", 100, 100, (Path((Subpath(points, curve=curve),), stroke="#000000"),))
        (data,) = re.findall(r' d="([^"]*)"', scene_svg(scene))
        start, *moves = re.split("[lc]", data.removeprefix("M"))
        x, y = map(float, re.findall(r"-?[\d.]+", start))
        for move in moves:
            dx, dy = list(map(float, re.findall(r"-?[\d.]+", move)))[-2:]
            x, y = x + dx, y + dy
        assert (x, y) == pytest.approx(points[-1], abs=0.006)


def test_two_figures_in_one_page_keep_apart() -> None:
    """With different prefixes no identifier is used twice."""
    both = svg_element(side(50, 20), prefix="a-") + svg_element(side(50, 20), prefix="b-")
    assert both.count('id="a-side-clip-1"') == both.count('id="b-side-clip-1"') == 1


def test_the_same_scene_gives_the_same_text() -> None:
    """Writing twice gives the same characters."""
    assert scene_svg(side(100, 40)) == scene_svg(side(100, 40))


def rendered(scene: Scene) -> Any:
    """The scene in the PDF at ten pixels a millimetre."""
    style = shipped("home")
    bare = replace(style, text_width=0.0, margins=replace(style.margins, inner=30, outer=30, top=20), indent=0.0)
    data = set_document(Document("t", (Figure(dataclasses.replace(scene, full_size=True)),)), bare, "a4")
    page = pypdfium2.PdfDocument(data)[0].render(scale=10 * 25.4 / 72, grayscale=True).to_pil()
    return page.crop((300, 200, 300 + int(scene.width * 10), 200 + int(scene.height * 10)))


def test_areas_are_filled_by_the_nonzero_rule_in_order() -> None:
    """Measured on the rendered page: a hole drawn the same way round is filled, ellipses turn clockwise, clips cut."""
    image = rendered(scene_of_areas())
    grey = {name: image.getpixel(at) for name, at in {
        "inner": (250, 250), "outer": (150, 150), "curve": (750, 250), "outside": (550, 250),
        "turned": (360, 714), "not turned": (360, 590), "clipped in": (650, 650), "clipped out": (800, 800),
    }.items()}  # fmt: skip
    assert grey == {
        "inner": 0, "outer": 0, "curve": 128, "outside": 255, "turned": 64, "not turned": 255, "clipped in": 32, "clipped out": 255,
    }  # fmt: skip


def test_halo_lies_under_its_label() -> None:
    """Around the letters of a label with a halo the ground shows the halo's colour, and the letters are whole."""
    ground = Path((Subpath(((0, 0), (40, 0), (40, 20), (0, 20)), closed=True),), fill="#808080")
    label = Text(20, 12, "HALO", 20, colour="#000000", halo="#ffffff")
    with_halo = rendered(Scene("h", "h", "h", 40, 20, (ground, label)))
    without = rendered(Scene("h", "h", "h", 40, 20, (ground, replace(label, halo=None))))
    dark = [sum(with_.getpixel((x, y)) < 40 for x in range(400) for y in range(200)) for with_ in (with_halo, without)]
    assert dark[0] == pytest.approx(dark[1], rel=0.1)  # edges blend with another ground
    light = sum(with_halo.getpixel((x, y)) > 240 for x in range(400) for y in range(200))
    assert light > 1000
    assert ImageChops.difference(with_halo, without).getbbox() is not None


def test_groups_named_for_their_layer_can_be_found() -> None:
    """A group's name becomes its class, so that a page can switch layers."""
    scene = Scene("s", "s", "s", 10, 10, (Group((Ellipse(5, 5, 2, 2, fill="#000000"),), name="base sticks"),))
    assert 'class="base-sticks"' in scene_svg(scene)


def test_labels_keep_their_width_in_whatever_font_the_reader_has() -> None:
    """SVG 2, 11.5: `textLength` with `spacingAndGlyphs` makes the words as wide as the figure has room for."""
    label = Text(20, 10, "leave 1 to 5 loose", 7.5)
    svg = scene_svg(Scene("labels", "Labels", "A label.", 40, 20, (label,)))
    root = ET.fromstring(svg.encode())  # noqa: S314  (our own figure)
    (element,) = root.iter(f"{SVG}text")
    own_font = face("sans").width(label.words) * label.size_pt / MM
    assert float(element.get("textLength", "0")) == pytest.approx(own_font, rel=0.01)  # kerned there
    assert element.get("lengthAdjust") == "spacingAndGlyphs"
