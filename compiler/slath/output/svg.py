"""A scene as SVG: the same records as in the PDF, with a title and a description, and nothing fetched from outside."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from svgwrite import Drawing

from slath.booklet.laid import MM
from slath.booklet.reading import bound
from slath.drawing.plate.lettering import word_width
from slath.drawing.scene import Ellipse, Group, Item, Path, Scene, Text
from slath.output.svg_path import number, path_data

FONTS = "'Withy Sans', 'Source Sans 3', 'Source Sans Pro', Arial, Helvetica, sans-serif"
HALO = 0.34  # width of a halo in ems of its text, as in the PDF
SHORT = 3  # letters; words no longer than this take whatever width the reader's font gives them
MITER_LIMIT = 4
INHERITED = {"fill": "none", "stroke-linejoin": "round", "font-family": FONTS}  # said once; what differs says so
HEADER = '<?xml version="1.0" encoding="utf-8"?>\n'
_NOT_IN_NAMES = re.compile(r"[^A-Za-z0-9_-]+")


def scene_svg(scene: Scene, *, words: str = "") -> str:
    """The scene as a file of its own. ``words`` take the place of the scene's description."""
    return HEADER + svg_element(scene, words=words) + "\n"


def svg_element(scene: Scene, *, words: str = "", prefix: str = "", scale: float = 1.0) -> str:
    """The scene as an ``svg`` element to stand in a page; ``prefix`` keeps its identifiers apart from other figures'."""
    import svgwrite  # noqa: PLC0415  (0.05 s that only drawing pays)

    name = _NOT_IN_NAMES.sub("-", f"{prefix}{scene.name}") or "figure"
    drawing = svgwrite.Drawing(
        size=(f"{scene.width * scale:g}mm", f"{scene.height * scale:g}mm"),
        viewBox=f"0 0 {scene.width:g} {scene.height:g}",
        debug=False,
    )
    drawing.attribs["role"] = "img"  # named by its title, described by its desc (W3C SVG-AAM 1.0)
    drawing.attribs |= INHERITED
    drawing.set_desc(scene.title, words or scene.words)
    _Artist(drawing, name).items(drawing, scene.items)
    text: str = drawing.tostring()
    return text


class _Artist:
    """Adds items to a drawing, numbering its clips."""

    def __init__(self, drawing: Drawing, name: str) -> None:
        self.drawing, self.name, self.clips = drawing, name, 0

    def items(self, parent: Any, items: Sequence[Item]) -> None:
        data = path_data([item.subpaths for item in items if isinstance(item, Path)])
        for item in items:
            match item:
                case Path():
                    drawn = self.path(item, next(data))
                    if item.fill or item.stroke:
                        parent.add(drawn)
                case Ellipse():
                    parent.add(self.ellipse(item))
                case Text():
                    if item.words:
                        parent.add(self.text(item))
                case Group():
                    self.group(parent, item)

    def group(self, parent: Any, group: Group) -> None:
        extra: dict[str, str] = {}
        if group.clip is not None:
            self.clips += 1
            identity = f"{self.name}-clip-{self.clips}"
            left, top, width, height = (number(value) for value in group.clip)
            clip = self.drawing.clipPath(id=identity)
            clip.add(self.drawing.rect((left, top), (width, height)))
            self.drawing.defs.add(clip)
            extra["clip_path"] = f"url(#{identity})"
        if group.name:
            extra["class_"] = _NOT_IN_NAMES.sub("-", group.name)
        holder = parent.add(self.drawing.g(**extra)) if extra else parent
        self.items(holder, group.items)

    def path(self, path: Path, data: str) -> Any:
        look: dict[str, Any] = {"fill": path.fill} if path.fill else {}
        if path.stroke:
            look |= _pen(path.stroke, path.width)
            look |= {"stroke_linecap": path.cap} if path.cap != "butt" else {}
            if path.dash:
                look["stroke_dasharray"] = " ".join(f"{length:g}" for length in path.dash)
            if path.join == "miter":
                look |= {"stroke_linejoin": path.join, "stroke_miterlimit": MITER_LIMIT}
        return self.drawing.path(data, **look)

    def ellipse(self, ellipse: Ellipse) -> Any:
        look: dict[str, Any] = {"fill": ellipse.fill} if ellipse.fill else {}
        if ellipse.stroke:
            look |= _pen(ellipse.stroke, ellipse.width)
        if ellipse.turn:
            look["transform"] = _turned(ellipse.turn, ellipse.x, ellipse.y)
        center, radius = (number(ellipse.x), number(ellipse.y)), (number(ellipse.rx), number(ellipse.ry))
        return self.drawing.ellipse(center, radius, **look)

    def text(self, text: Text) -> Any:
        size = text.size_pt / MM
        look: dict[str, Any] = {"fill": text.colour, "font_size": number(size)}
        if text.anchor != "start":
            look["text_anchor"] = text.anchor
        if text.bold:
            look["font_weight"] = "bold"
        if text.italic:
            look["font_style"] = "italic"
        elif len(text.words) > SHORT:  # a reader's own wider fonts must not run labels into one another
            look["textLength"] = number(word_width(text.words, text.size_pt, bold=text.bold))
            look["lengthAdjust"] = "spacingAndGlyphs"
        if text.turn:
            look["transform"] = _turned(text.turn, text.x, text.y)
        element = self.drawing.text(bound(text.words), insert=(number(text.x), number(text.y)), **look)
        if text.halo:
            element.attribs |= {
                "stroke": text.halo, "stroke-width": number(HALO * size), "style": "paint-order:stroke",
            }  # fmt: skip
        return element


def _pen(colour: str, width: float) -> dict[str, Any]:
    return {"stroke": colour, "stroke_width": number(width)}


def _turned(degrees: float, x: float, y: float) -> str:
    return f"rotate({degrees:g} {number(x)} {number(y)})"
