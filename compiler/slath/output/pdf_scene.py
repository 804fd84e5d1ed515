"""A scene as PDF operators: one string a figure, written with no decision left to take.

Coordinates stay the scene's millimetres; one matrix places and turns them over. Areas are filled by the nonzero rule.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import chain

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet.faces import Look, face, face_name
from slath.booklet.laid import MM, Window
from slath.booklet.lines import Line, Setting, break_lines
from slath.booklet.reading import runs
from slath.drawing.scene import Ellipse, Group, Item, Path, Scene, Subpath, Text, Unpainted
from slath.output.glyph_outlines import outline
from slath.output.pdf_text import Typist

KAPPA = 4 / 3 * (math.sqrt(2) - 1)  # control points of a quarter circle
HALO = 0.34  # width of a halo, in ems of the text it surrounds, both sides together
CAPS = {"butt": 0, "round": 1, "square": 2}
JOINS = {"miter": 0, "round": 1}
MITER_LIMIT = 4  # as in SVG, so that both back ends draw the same corners
FAMILY = "sans"


class _State(Struct):
    """What the graphics state holds; nothing is said twice."""

    fill: str = ""
    stroke: str = ""
    width: float = -1.0
    cap: str = ""
    join: str = ""
    dash: tuple[float, ...] | None = None


def scene_operators(
    scene: Scene, typist: Typist, x: float, y: float, scale: float = 1.0, window: Window | None = None
) -> str:
    """Operators that paint ``scene`` with its top left corner at (x, y) points, y up; ``scale`` 1 is true size.

    With a ``window`` (left, top, width, height in mm of the scene) only that part is shown, its corner at (x, y).
    """
    size = MM * scale
    writer = _Writer(typist)
    writer.out.append(f"q {size:.6f} 0 0 {-size:.6f} {x:.3f} {y:.3f} cm {MITER_LIMIT} M")
    if window:
        left, top, width, height = window
        writer.out.append(f"0 0 {width:.3f} {height:.3f} re W n 1 0 0 1 {-left:.3f} {-top:.3f} cm")
    writer.items(scene.items)
    writer.out.append("Q")
    return "\n".join(writer.out)


class _Writer:
    def __init__(self, typist: Typist) -> None:
        self.typist, self.colours = typist, typist.colours
        self.out: list[str] = []
        self.state = _State()

    def items(self, items: Sequence[Item]) -> None:
        for item, traces in items.once(_traced) if isinstance(items, Unpainted) else _traced(items):
            match item:
                case Path():
                    self.path(item, traces)
                case Text():
                    self.text(item)
                case Group():
                    self.group(item)

    def group(self, group: Group) -> None:
        if group.clip is None:
            self.items(group.items)
            return
        held = replace(self.state)
        left, top, width, height = group.clip
        self.out.append(f"q {left:.3f} {top:.3f} {width:.3f} {height:.3f} re W n")
        self.items(group.items)
        self.out.append("Q")
        self.state = held

    def path(self, path: Path, traces: list[str]) -> None:
        if not path.fill and not path.stroke:
            return
        if path.fill and path.fill != self.state.fill:
            self.out.append(self.colours.fill(path.fill))
            self.state.fill = path.fill
        if path.stroke:
            self.pen(path, path.stroke)
        self.out += traces
        self.out.append("B" if path.fill and path.stroke else "f" if path.fill else "S")

    def pen(self, path: Path, stroke: str) -> None:
        say, state = self.out.append, self.state
        if stroke != state.stroke:
            state.stroke = stroke
            say(self.colours.stroke(stroke))
        if path.width != state.width:
            state.width = path.width
            say(f"{path.width:.3f} w")
        if path.cap != state.cap:
            state.cap = path.cap
            say(f"{CAPS[path.cap]} J")
        if path.join != state.join:
            state.join = path.join
            say(f"{JOINS[path.join]} j")
        if path.dash != state.dash:
            state.dash = path.dash
            say(f"[{' '.join(f'{length:.3f}' for length in path.dash)}] 0 d")

    def text(self, text: Text) -> None:
        """Words with real fractions. Sizes are millimetres of the scene, so labels shrink with a figure scaled down."""
        if not text.words:
            return
        name = face_name(FAMILY, strong=text.bold, emphasis=text.italic)
        line = _label(text.words, name, text.size_pt / MM)
        shift = {"start": 0.0, "middle": line.width / 2, "end": line.width}[text.anchor]
        cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))

        def at(along: float, rise: float) -> str:
            """The matrix that puts what stands ``along`` and above the line in its place."""
            x = text.x + (along - shift) * cosine + rise * sine
            y = text.y + (along - shift) * sine - rise * cosine
            return f"{cosine:.5f} {sine:.5f} {sine:.5f} {-cosine:.5f} {x:.3f} {y:.3f}"

        if text.halo:
            self.halo(text.halo, line, at)
        self.out.append(f"BT {self.colours.fill(text.colour)}")
        for number, span in enumerate(line.spans, 1):
            self.out.append(f"{at(span.x, span.look.rise)} Tm")
            said = span.text + (" " if number == len(line.spans) else "")  # or labels run together when read
            for resource, operand in self.typist.shown(span.look.face, said):
                self.out.append(f"{resource} {span.look.size:.4f} Tf {operand} TJ")
        self.out.append("ET")
        self.state.fill = text.colour

    def halo(self, colour: str, line: Line, at: Callable[[float, float], str]) -> None:
        """Stroke the outlines of the words in the colour of the halo, as paths, so that words are read once."""
        self.out.append(f"q {self.colours.stroke(colour)} 1 j [] 0 d")
        for span in line.spans:
            own, unit = face(span.look.face), span.look.size / 1000
            self.out.append(f"q {at(span.x, span.look.rise)} cm {unit:.6f} 0 0 {unit:.6f} 0 0 cm {HALO * 1000:.0f} w")
            along = 0.0
            for index, character in enumerate(span.text):
                path = outline(span.look.face, character)
                if path:
                    self.out.append(f"q 1 0 0 1 {along * 1000:.0f} 0 cm {path} S Q")
                along += own.advances[ord(character)] + own.kerns.get(span.text[index : index + 2], 0.0)
            self.out.append("Q")
        self.out.append("Q")


@lru_cache(maxsize=4096)
def _label(words: str, name: str, size: float) -> Line:
    """One line of a figure's words, its fractions set."""
    (line,) = break_lines(runs(words), lambda _run: Look(name, size, ""), Setting(math.inf))
    return line


def _traced(items: Sequence[Item]) -> list[tuple[Item, list[str]]]:
    """Items, ellipses among them as paths, each with the operators that trace its lines."""
    drawn = [
        Path((_outline(item),), fill=item.fill, stroke=item.stroke, width=item.width)
        if isinstance(item, Ellipse)
        else item
        for item in items
    ]
    return [(item, [*map(_trace, item.subpaths)] if isinstance(item, Path) else []) for item in drawn]


def _trace(subpath: Subpath) -> str:
    return _operators(len(subpath.points), subpath.curve, subpath.closed) % tuple(chain.from_iterable(subpath.points))


@lru_cache(maxsize=4096)
def _operators(count: int, curve: bool, closed: bool) -> str:
    """The operators of a line of `count` points, to be filled with x and y of each. Hundredths of a millimetre are finer
    than any printer.
    """
    points = ["%.2f %.2f"] * count
    if curve:
        curves = [" ".join(points[at : at + 3]) for at in range(1, count - 2, 3)]
        line = f"{points[0]} m {' c '.join(curves)} c"
    elif count > 1:
        line = f"{points[0]} m {' l '.join(points[1:])} l"
    else:
        line = f"{points[0]} m"
    return f"{line} h" if closed else line


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
