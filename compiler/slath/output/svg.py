"""A scene as SVG: the same records as in the PDF, with a title and a description, and nothing fetched from outside."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from slath.booklet.laid import MM
from slath.booklet.reading import bound
from slath.drawing.lettering import word_width
from slath.drawing.scene import Ellipse, Group, Path, Scene, Subpath, Text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from svgwrite import Drawing

    from slath.drawing.scene import Item

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
            left, top, width, height = (_number(value) for value in group.clip)
            clip = self.drawing.clipPath(id=identity)
            clip.add(self.drawing.rect((left, top), (width, height)))
            self.drawing.defs.add(clip)
            extra["clip_path"] = f"url(#{identity})"
        if group.name:
            extra["class_"] = _NOT_IN_NAMES.sub("-", group.name)
        holder = parent.add(self.drawing.g(**extra)) if extra else parent
        self.items(holder, group.items)

    def path(self, path: Path) -> Any:
        data = "".join(_data(subpath) for subpath in path.subpaths)
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
        center, radius = (_number(ellipse.x), _number(ellipse.y)), (_number(ellipse.rx), _number(ellipse.ry))
        return self.drawing.ellipse(center, radius, **look)

    def text(self, text: Text) -> Any:
        size = text.size_pt / MM
        look: dict[str, Any] = {"fill": text.colour, "font_size": _number(size)}
        if text.anchor != "start":
            look["text_anchor"] = text.anchor
        if text.bold:
            look["font_weight"] = "bold"
        if text.italic:
            look["font_style"] = "italic"
        elif len(text.words) > SHORT:  # a reader's own wider fonts must not run labels into one another
            look["textLength"] = _number(word_width(text.words, text.size_pt, bold=text.bold))
            look["lengthAdjust"] = "spacingAndGlyphs"
        if text.turn:
            look["transform"] = _turned(text.turn, text.x, text.y)
        element = self.drawing.text(bound(text.words), insert=(_number(text.x), _number(text.y)), **look)
        if text.halo:
            element.attribs |= {
                "stroke": text.halo, "stroke-width": _number(HALO * size), "paint-order": "stroke",
            }  # fmt: skip
        return element


def _pen(colour: str, width: float) -> dict[str, Any]:
    return {"stroke": colour, "stroke_width": _number(width)}


def _turned(degrees: float, x: float, y: float) -> str:
    return f"rotate({degrees:g} {_number(x)} {_number(y)})"


def _hundredths(value: float) -> int:
    """Hundredths of a millimetre, finer than any screen or printer shows, as in the PDF."""
    return round(value * 100)


def _number(value: float) -> str:
    return _written(_hundredths(value))


@lru_cache(maxsize=65536)
def _written(hundredths: int) -> str:
    """A number as short as SVG lets it be: ``.5`` for 0.50."""
    text = f"{abs(hundredths) / 100:.2f}".rstrip("0").rstrip(".")
    return ("-" if hundredths < 0 else "") + (text.removeprefix("0") or "0")


def _data(subpath: Subpath) -> str:
    """A subpath: where it begins, then every point from the one before (SVG 2, 9.3), which takes half the letters."""
    points = [(_hundredths(x), _hundredths(y)) for x, y in subpath.points]
    out = [f"M{_written(points[0][0])} {_written(points[0][1])}"]
    each = 3 if subpath.curve else 1  # points that are told from where the same pen stood
    for at in range(1, len(points), each):
        x, y = points[at - 1]
        steps = " ".join(f"{_written(u - x)} {_written(v - y)}" for u, v in points[at : at + each])
        out.append(("c" if subpath.curve else "l") + steps)
    return "".join(out) + ("z" if subpath.closed else "")
