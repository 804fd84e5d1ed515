"""A scene as PDF operators: one string a figure, written with no decision left to take.

Coordinates stay the scene's millimetres; one matrix places and turns them over. Areas are filled by the nonzero rule.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from slath.booklet.faces import face, face_name
from slath.booklet.laid import MM
from slath.drawing.scene import Ellipse, Group, Path, Scene, Subpath, Text
from slath.output.glyph_outlines import outline
from slath.output.pdf_text import rgb

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from slath.drawing.scene import Item
    from slath.output.pdf_text import Typist

KAPPA = 4 / 3 * (math.sqrt(2) - 1)  # control points of a quarter circle
HALO = 0.34  # width of a halo, in ems of the text it surrounds, both sides together
CAPS = {"butt": 0, "round": 1, "square": 2}
JOINS = {"miter": 0, "round": 1}
MITER_LIMIT = 4  # as in SVG, so that both back ends draw the same corners
FAMILY = "sans"


@dataclass(frozen=True, slots=True)
class _State:
    """What the graphics state holds; nothing is said twice."""

    fill: str = ""
    stroke: str = ""
    width: float = -1.0
    cap: str = ""
    join: str = ""
    dash: tuple[float, ...] | None = None


def scene_operators(scene: Scene, typist: Typist, x: float, y: float, scale: float = 1.0) -> str:
    """Operators that paint ``scene`` with its top left corner at (x, y) points, y up; ``scale`` 1 is true size."""
    size = MM * scale
    writer = _Writer(typist)
    writer.out.append(f"q {size:.6f} 0 0 {-size:.6f} {x:.3f} {y:.3f} cm {MITER_LIMIT} M")
    writer.items(scene.items)
    writer.out.append("Q")
    return "\n".join(writer.out)


class _Writer:
    def __init__(self, typist: Typist) -> None:
        self.typist = typist
        self.out: list[str] = []
        self.state = _State()

    def items(self, items: Sequence[Item]) -> None:
        for item in items:
            match item:
                case Path():
                    self.path(item)
                case Ellipse():
                    self.path(Path((_outline(item),), fill=item.fill, stroke=item.stroke, width=item.width))
                case Text():
                    self.text(item)
                case Group():
                    self.group(item)

    def group(self, group: Group) -> None:
        if group.clip is None:
            self.items(group.items)
            return
        held = self.state
        left, top, width, height = group.clip
        self.out.append(f"q {left:.3f} {top:.3f} {width:.3f} {height:.3f} re W n")
        self.items(group.items)
        self.out.append("Q")
        self.state = held

    def path(self, path: Path) -> None:
        if not path.fill and not path.stroke:
            return
        state = self.state
        changed = state
        say = self.out.append
        if path.fill and path.fill != state.fill:
            say(f"{rgb(path.fill)} rg")
            changed = replace(changed, fill=path.fill)
        if path.stroke:
            changed = self._pen(path, changed)
        self.state = changed
        for subpath in path.subpaths:
            _trace(subpath, say)
        say("B" if path.fill and path.stroke else "f" if path.fill else "S")

    def _pen(self, path: Path, state: _State) -> _State:
        say = self.out.append
        if path.stroke != state.stroke:
            say(f"{rgb(path.stroke or '')} RG")
        if path.width != state.width:
            say(f"{path.width:.3f} w")
        if path.cap != state.cap:
            say(f"{CAPS[path.cap]} J")
        if path.join != state.join:
            say(f"{JOINS[path.join]} j")
        if path.dash != (state.dash or ()) or state.dash is None:
            say(f"[{' '.join(f'{length:.3f}' for length in path.dash)}] 0 d")
        return replace(state, stroke=path.stroke or "", width=path.width, cap=path.cap, join=path.join, dash=path.dash)

    def text(self, text: Text) -> None:
        """Words in millimetres of the scene: their type size stays in points only at true size."""
        if not text.words:
            return
        name = face_name(FAMILY, strong=text.bold, emphasis=text.italic)
        size = text.size_pt / MM
        width = face(name).width(text.words) * size
        shift = {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
        cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
        x, y = text.x - shift * cosine, text.y - shift * sine
        matrix = f"{cosine:.5f} {sine:.5f} {sine:.5f} {-cosine:.5f} {x:.3f} {y:.3f} Tm"
        shown = self.typist.shown(name, text.words)
        if text.halo:
            self.halo(text, name, size, f"{cosine:.5f} {sine:.5f} {sine:.5f} {-cosine:.5f} {x:.3f} {y:.3f}")
        self.out.append(f"BT {rgb(text.colour)} rg {matrix}")
        self.out.extend(f"{resource} {size:.4f} Tf {operand} TJ" for resource, operand in shown)
        self.out.append("ET")
        self.state = replace(self.state, fill=text.colour)

    def halo(self, text: Text, name: str, size: float, matrix: str) -> None:
        """Stroke the outlines of the words in the colour of the halo, as paths, so that words are read once."""
        own = face(name)
        unit = size / 1000
        out = [
            f"q {matrix} cm {unit:.6f} 0 0 {unit:.6f} 0 0 cm {rgb(text.halo or '')} RG {HALO * 1000:.0f} w 1 j [] 0 d"
        ]
        at = 0.0
        for index, character in enumerate(text.words):
            path = outline(name, character)
            if path:
                out.append(f"q 1 0 0 1 {at * 1000:.0f} 0 cm {path} S Q")
            at += own.advances[ord(character)] + own.kerns.get(text.words[index : index + 2], 0.0)
        self.out.append("\n".join([*out, "Q"]))


def _trace(subpath: Subpath, say: Callable[[str], None]) -> None:
    points = subpath.points
    parts = [f"{points[0][0]:.3f} {points[0][1]:.3f} m"]
    if subpath.curve:
        for at in range(1, len(points) - 2, 3):
            (a, b), (c, d), (e, f) = points[at], points[at + 1], points[at + 2]
            parts.append(f"{a:.3f} {b:.3f} {c:.3f} {d:.3f} {e:.3f} {f:.3f} c")
    else:
        parts.extend([f"{x:.3f} {y:.3f} l" for x, y in points[1:]])
    if subpath.closed:
        parts.append("h")
    say(" ".join(parts))


def _outline(ellipse: Ellipse) -> Subpath:
    """An ellipse as four cubic curves."""
    cosine, sine = math.cos(math.radians(ellipse.turn)), math.sin(math.radians(ellipse.turn))

    def at(u: float, v: float) -> tuple[float, float]:
        x, y = u * ellipse.rx, v * ellipse.ry
        return ellipse.x + x * cosine - y * sine, ellipse.y + x * sine + y * cosine

    k = KAPPA
    corners = (
        (1, 0),
        (1, k),
        (k, 1),
        (0, 1),
        (-k, 1),
        (-1, k),
        (-1, 0),
        (-1, -k),
        (-k, -1),
        (0, -1),
        (k, -1),
        (1, -k),
        (1, 0),
    )
    return Subpath(tuple(at(u, v) for u, v in corners), closed=True, curve=True)
