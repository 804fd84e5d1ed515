"""A scene as SVG: the same records as in the PDF, with a title and a description, and nothing fetched from outside."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import chain
from typing import TYPE_CHECKING, Any

from slath.booklet.laid import MM
from slath.booklet.reading import bound
from slath.drawing.scene import Ellipse, Group, Path, Scene, Subpath, Text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from svgwrite import Drawing

    from slath.drawing.scene import Item

FONTS = "'Withy Sans', 'Source Sans 3', 'Source Sans Pro', Arial, Helvetica, sans-serif"
HALO = 0.34  # width of a halo in ems of its text, as in the PDF
MITER_LIMIT = 4
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
    drawing.set_desc(scene.title, words or scene.words)
    _Artist(drawing, name).items(drawing, scene.items)
    text: str = drawing.tostring()
    return text


class _Artist:
    """Adds items to a drawing, numbering its clips."""

    def __init__(self, drawing: Drawing, name: str) -> None:
        self.drawing, self.name, self.clips = drawing, name, 0

    def items(self, parent: Any, items: Sequence[Item]) -> None:
        for item in items:
            match item:
                case Path():
                    if item.fill or item.stroke:
                        parent.add(self.path(item))
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
            left, top, width, height = (round(value, 3) for value in group.clip)
            clip = self.drawing.clipPath(id=identity)
            clip.add(self.drawing.rect((left, top), (width, height)))
            self.drawing.defs.add(clip)
            extra["clip_path"] = f"url(#{identity})"
        if group.name:
            extra["class_"] = _NOT_IN_NAMES.sub("-", group.name)
        holder = parent.add(self.drawing.g(**extra)) if extra else parent
        self.items(holder, group.items)

    def path(self, path: Path) -> Any:
        data = " ".join(_data(subpath) for subpath in path.subpaths)
        look: dict[str, Any] = {"fill": path.fill or "none"}
        if path.stroke:
            look |= _pen(path.stroke, path.width)
            look |= {"stroke_linejoin": path.join} | ({"stroke_linecap": path.cap} if path.cap != "butt" else {})
            if path.dash:
                look["stroke_dasharray"] = " ".join(f"{length:g}" for length in path.dash)
            if path.join == "miter":
                look["stroke_miterlimit"] = MITER_LIMIT
        return self.drawing.path(data, **look)

    def ellipse(self, ellipse: Ellipse) -> Any:
        look: dict[str, Any] = {"fill": ellipse.fill or "none"}
        if ellipse.stroke:
            look |= _pen(ellipse.stroke, ellipse.width)
        if ellipse.turn:
            look["transform"] = f"rotate({ellipse.turn:g} {ellipse.x:.3f} {ellipse.y:.3f})"
        center, radius = (round(ellipse.x, 3), round(ellipse.y, 3)), (round(ellipse.rx, 3), round(ellipse.ry, 3))
        return self.drawing.ellipse(center, radius, **look)

    def text(self, text: Text) -> Any:
        size = text.size_pt / MM
        look: dict[str, Any] = {"fill": text.colour, "font_size": f"{size:.3f}", "font_family": FONTS}
        if text.anchor != "start":
            look["text_anchor"] = text.anchor
        if text.bold:
            look["font_weight"] = "bold"
        if text.italic:
            look["font_style"] = "italic"
        if text.turn:
            look["transform"] = f"rotate({text.turn:g} {text.x:.3f} {text.y:.3f})"
        element = self.drawing.text(bound(text.words), insert=(round(text.x, 3), round(text.y, 3)), **look)
        if text.halo:
            element.attribs |= {
                "stroke": text.halo, "stroke-width": f"{HALO * size:.3f}", "stroke-linejoin": "round",
                "paint-order": "stroke",
            }  # fmt: skip
        return element


def _pen(colour: str, width: float) -> dict[str, Any]:
    return {"stroke": colour, "stroke_width": f"{width:.3f}"}


def _data(subpath: Subpath) -> str:
    return _traced(len(subpath.points), subpath.curve, subpath.closed) % tuple(chain.from_iterable(subpath.points))


@lru_cache(maxsize=4096)
def _traced(count: int, curve: bool, closed: bool) -> str:
    """The data of a line of `count` points, to be filled with x and y of each."""
    rest = " ".join(["%.3f %.3f"] * (count - 1))
    return f"M%.3f %.3f {'C' if curve else 'L'}{rest}" + (" Z" if closed else "") if rest else "M%.3f %.3f"
