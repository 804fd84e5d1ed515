"""A plate: the sheet one figure is drawn on, with the pieces every figure shares.

Drawing co-ordinates are mm from the lower left corner, y upwards, for work that runs left to right. The plate turns
them into page co-ordinates and, where the work runs right to left, mirrors them; words are never mirrored.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Literal

import numpy as np
from msgspec.structs import replace
from numpy.typing import ArrayLike

from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers, left_normals, thinned
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.painter import paint
from slath.drawing.paint.rods import CLOSE, Brush, Rod
from slath.drawing.plate.lettering import CAP_HEIGHT, POINT_MM, in_lines, word_width
from slath.drawing.scene import (
    CUT_LABELS,
    Ellipse,
    Group,
    Item,
    LetteredMeasure,
    Path,
    Point,
    Scene,
    Subpath,
    Text,
    Unpainted,
)
from slath.messages import Message, message

Anchor = Literal["start", "middle", "end"]
_SWAPPED: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}

_FIRST_LETTER = 0xE000  # of private use: what stands for a letter in a square until it is drawn
LETTER_INK = "#96401f"  # of a letter that stands for a measure
FINE, LINE, FIRM = 0.25, 0.30, 0.45  # mm: extension lines, ordinary lines, arrows and outlines


class Plate:
    """One figure in the making."""

    def __init__(self, width: float, height: float, options: Options) -> None:
        self.width, self.height, self.options = width, height, options
        self.items: list[Item] = []
        self.measures: list[LetteredMeasure] = []
        self.ink, self.quiet, self.paper = options.ink, options.quiet, options.paper

    @property
    def em(self) -> float:
        """The label size in mm."""
        return self.options.text_pt * POINT_MM

    def for_reading(self) -> Plate:
        """The same sheet for what is read from left to right whichever way the work runs: keys, titles, order of panels."""
        sheet = Plate(self.width, self.height, replace(self.options, mirrored=False))
        sheet.items = self.items
        sheet.measures = self.measures
        return sheet

    # ------------------------------------------------------------------------------------------------ co-ordinates
    def _page(self, points: ArrayLike) -> Numbers:
        at = np.array(points, float)
        at[..., 1] = self.height - at[..., 1]
        if self.options.mirrored:
            at[..., 0] = self.width - at[..., 0]
        return at

    def _points(self, points: ArrayLike) -> tuple[Point, ...]:
        at = np.round(self._page(np.asarray(points, float)[:, :2]), 3)
        return tuple(zip(at[:, 0].tolist(), at[:, 1].tolist(), strict=True))

    # ------------------------------------------------------------------------------------------------------- lines
    def line(
        self,
        points: ArrayLike,
        width: float = LINE,
        colour: str = "",
        dash: tuple[float, ...] = (),
        *,
        rounded: bool = False,
    ) -> None:
        """A line through points (n, 2)."""
        cap: Literal["butt", "round"] = "round" if rounded else "butt"
        self.items.append(
            Path((Subpath(self._points(points)),), stroke=colour or self.ink, width=width, dash=dash, cap=cap)
        )

    def lines(
        self, many: Iterable[ArrayLike], width: float = LINE, colour: str = "", dash: tuple[float, ...] = ()
    ) -> None:
        """Many lines of one paint as one path."""
        subpaths = tuple(Subpath(self._points(points)) for points in many)
        if subpaths:
            self.items.append(Path(subpaths, stroke=colour or self.ink, width=width, dash=dash))

    def area(
        self,
        points: ArrayLike,
        fill: str | None,
        stroke: str | None = None,
        width: float = LINE,
        dash: tuple[float, ...] = (),
    ) -> None:
        """A closed shape."""
        self.areas([points], fill, stroke, width, dash)

    def areas(
        self, many: Iterable[ArrayLike], fill: str | None, stroke: str | None = None, width: float = LINE,
        dash: tuple[float, ...] = (),
    ) -> None:  # fmt: skip
        """Many closed shapes of one paint as one path."""
        subpaths = tuple(Subpath(self._points(points), closed=True) for points in many)
        if subpaths:
            self.items.append(Path(subpaths, fill=fill, stroke=stroke, width=width, dash=dash, join="miter"))

    def circle(
        self, x: float, y: float, r: float, fill: str | None = None, stroke: str | None = "", width: float = LINE
    ) -> None:
        """A circle; `stroke` None for no outline, empty for ink."""
        px, py = self._page([x, y]).tolist()
        line = self.ink if stroke == "" else stroke
        self.items.append(Ellipse(round(px, 3), round(py, 3), r, r, fill=fill, stroke=line, width=width))

    # ------------------------------------------------------------------------------------------------------- words
    def text(
        self, x: float, y: float, words: str, anchor: Anchor = "middle", *, size_pt: float = 0.0, bold: bool = False,
        italic: bool = False, colour: str = "", turn: float = 0.0, halo: bool = True,
    ) -> None:  # fmt: skip
        """Words centred in height on y. `turn` is anticlockwise in drawing co-ordinates; never upside down."""
        if len(words) == 1 and _FIRST_LETTER <= ord(words) < _FIRST_LETTER + 26:
            self._letter(x, y, chr(ord(words) - _FIRST_LETTER + ord("A")), anchor)
            return
        size = max(size_pt, self.options.text_pt)
        px, py = self._page([x, y]).tolist()
        angle = turn if self.options.mirrored else -turn
        drop = CAP_HEIGHT / 2 * size * POINT_MM
        a = math.radians(angle)
        self.items.append(
            Text(
                round(px - drop * math.sin(a), 3), round(py + drop * math.cos(a), 3), words, size_pt=size,
                anchor=_SWAPPED[anchor] if self.options.mirrored else anchor, bold=bold, italic=italic,
                colour=colour or self.ink, turn=round(angle, 2), halo=self.paper if halo else None,
            )
        )  # fmt: skip

    def measured(self, name: Message, mm: float, said: Message) -> str:
        """A measure as it is said; where figures are lettered, a letter for `text`, and what it stands for is noted."""
        if not self.options.lettered:
            return self.say(said)
        letter = chr(ord("A") + len(self.measures))
        self.measures.append(LetteredMeasure(letter, self.say(name), self.options.measure(mm)))
        return chr(_FIRST_LETTER + len(self.measures) - 1)

    def _letter(self, x: float, y: float, letter: str, anchor: Anchor) -> None:
        """A letter in a square, upright whatever it measures."""
        half = 0.72 * self.em
        x += {"start": half, "middle": 0.0, "end": -half}[anchor] * (-1 if self.options.mirrored else 1)
        square = [(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)]
        self.area(square, self.paper, LETTER_INK, 0.3)
        self.text(x, y, letter, bold=True, colour=LETTER_INK, halo=False)

    def paragraph(
        self, x: float, y: float, words: str, width: float, anchor: Anchor = "start", *, bold: bool = False, italic: bool = False,
        colour: str = "",
    ) -> float:  # fmt: skip
        """Words broken to `width`, the first line centred on y; returns the height taken."""
        lines = in_lines(words, width, self.options.text_pt, bold=bold)
        step = 1.2 * self.em
        for number, line in enumerate(lines):
            self.text(x, y - number * step, line, anchor, bold=bold, italic=italic, colour=colour)
        return len(lines) * step

    def say(self, said: Message) -> str:
        """A message in the words of the booklet."""
        return self.options.say(said)

    def wide(self, words: str, *, bold: bool = False) -> float:
        """Width of a label in mm."""
        return word_width(words, self.options.text_pt, bold=bold)

    def disc(self, x: float, y: float, letter: str, *, moved: bool = False) -> None:
        """A letter or number on a disc; `moved` reverses it: the strand just moved, the first of a row."""
        radius = disc_radius(letter, self.options.text_pt)
        fill, ink = (self.ink, self.paper) if moved else (self.paper, self.ink)
        self.circle(x, y, radius, fill=fill, width=0.3)
        self.text(x, y, letter, bold=True, colour=ink, halo=False)

    def label(self, x: float, y: float, words: str, *, moved: bool = False) -> None:
        """A few words on a pill, for what no disc can hold."""
        half, high = self.wide(words, bold=True) / 2, 0.62 * self.em
        turns = np.linspace(-np.pi / 2, np.pi / 2, 9)
        right = np.column_stack([x + half + high * np.cos(turns), y + high * np.sin(turns)])
        left = np.column_stack([x - half - high * np.cos(turns), y - high * np.sin(turns)])
        fill, ink = (self.ink, self.paper) if moved else (self.paper, self.ink)
        self.area(np.vstack([right, left]), fill, self.ink, 0.3)
        self.text(x, y, words, bold=True, colour=ink, halo=False)

    # ----------------------------------------------------------------------------------------- arrows and measures
    def arrow(self, points: ArrayLike, width: float = FIRM, colour: str = "", head: float = 2.2) -> None:
        """A line with a solid head at its last point."""
        at = np.asarray(points, float)[:, :2]
        back = at[max(len(at) - 4, 0)]
        course = (at[-1] - back) / math.hypot(*(at[-1] - back))
        side = np.array([-course[1], course[0]])
        neck = at[-1] - course * head
        kept = at[:-1][np.hypot(*(at[:-1] - at[-1]).T) > head * 0.9]
        self.line(np.vstack([kept, neck + course * 0.2]) if len(kept) else np.vstack([at[0], neck]), width, colour)
        self.area([at[-1], neck + side * head * 0.36, neck - side * head * 0.36], fill=colour or self.ink)

    def dimension(
        self,
        a: Sequence[float],
        b: Sequence[float],
        words: str,
        offset: float = 0.0,
        *,
        above: bool = True,
        level: bool = False,
    ) -> None:
        """A measure between two points, its line `offset` to the left of a → b; `level` keeps the words upright.

        `words` may be empty where they find no room at the line and are set apart.
        """
        start, end = np.asarray(a, float), np.asarray(b, float)
        along = (end - start) / math.hypot(*(end - start))
        side = np.array([-along[1], along[0]])
        p, q = start + side * offset, end + side * offset
        if abs(offset) > 1.2:
            reach = side * math.copysign(1.0, offset)
            self.lines([[start + reach * 0.8, p + reach], [end + reach * 0.8, q + reach]], FINE, self.quiet)
        tick = (along + side) * 0.7
        self.line([p, q], FINE)
        self.lines([[p - tick, p + tick], [q - tick, q + tick]], 0.4)
        turn = 0.0 if level else (math.degrees(math.atan2(along[1], along[0])) + 89.99) % 180 - 89.99
        up = np.array([-math.sin(math.radians(turn)), math.cos(math.radians(turn))])
        x, y = (p + q) / 2 + up * (0.72 * self.em) * (1 if above else -1)
        half = word_width(words, self.options.text_pt) / 2
        if abs(turn) < 1 and 2 * half < self.width:  # words longer than their line stay inside the figure
            x = min(max(x, half), self.width - half)
        if words:
            self.text(x, y, words, turn=turn)

    @contextmanager
    def telling_cut_lengths(self) -> Iterator[None]:
        """What is drawn meanwhile tells lengths of the cut list, and goes where those are withheld."""
        first = len(self.items)
        yield
        self.items[first:] = [Group(tuple(self.items[first:]), name=CUT_LABELS)]

    def pointer(self, x: float, y: float, tx: float, ty: float, words: str, anchor: Anchor = "middle") -> None:
        """A note at (tx, ty) with a line to the spot (x, y) it is about."""
        self.pointers([(x, y, tx, ty, words)], anchor)

    def pointers(self, notes: Sequence[tuple[float, float, float, float, str]], anchor: Anchor = "middle") -> None:
        """Notes, each (spot x, spot y, words x, words y, words); all lines lie under all words."""
        gap = 0.62 * self.em
        reach = {"start": 0.3 * self.em, "middle": 0.0, "end": -0.3 * self.em}[anchor]
        for x, y, tx, ty, _ in notes:
            foot = (tx, ty - math.copysign(gap, ty - y)) if anchor == "middle" else (tx, ty)
            self.line([(x, y), foot], LINE)
            self.circle(x, y, 0.55, fill=self.ink, stroke=self.paper, width=0.25)
        for _, _, tx, ty, words in notes:
            self.text(tx + reach, ty, words, anchor)

    def work_arrow(self, x: float, y: float, length: float = 9.0) -> float:
        """The direction of work, from (x, y) on, with its name after it; returns the width both take."""
        words = self.say(message("figure.work"))
        self.arrow([(x, y), (x + length, y)], 0.5)
        self.text(x + length + 0.5 * self.em, y, words, "start")
        return length + 0.5 * self.em + self.wide(words)

    # -------------------------------------------------------------------------------------------------------- rods
    def rods(
        self,
        rods: Sequence[Rod],
        brush: Brush = CLOSE,
        clip: tuple[float, float, float, float] | None = None,
        name: str = "",
    ) -> None:
        """Rods to be painted, given in drawing co-ordinates; `clip` is (x, y, width, height) from its lower left corner."""
        turn = np.array([-1.0 if self.options.mirrored else 1.0, -1.0])
        placed = [
            replace(rod, points=self._page(rod.points), across=None if rod.across is None else rod.across * turn)
            for rod in rods
        ]
        own = replace(brush, paper=self.paper)
        painted = Unpainted(lambda: paint(placed, own).items)
        self.items.append(Group(painted, name=name, clip=self._box(clip) if clip else None))

    def _box(self, clip: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
        x, y, width, height = clip
        left = self.width - x - width if self.options.mirrored else x
        return round(left, 3), round(self.height - y - height, 3), round(width, 3), round(height, 3)

    def sample(self, x: float, y: float, long: float, diameter: float, dress: Dress) -> None:
        """A short straight piece of a material, for a key."""
        points = np.array([[x, y, 0.0], [x + long, y, 0.0]])
        self.rods([Rod(points, diameter, dress, (True, True))], Brush(gap=0.0, edge=0.25, rings=2.2))

    def outline(self, points: Numbers, stroke: str = "", width: float = LINE, fill: str | None = None,
                dash: tuple[float, ...] = ()) -> None:  # fmt: skip
        """A closed curve of many points, thinned."""
        self.area(thinned(points), fill, stroke or self.ink, width, dash)

    def scene(
        self, name: str, title: Message, words: Message, *, seen_from: Message, caption: Message, full_size: bool = False,
        data: dict[str, object] | None = None, cut_words: Sequence[Message] = (),
    ) -> Scene:  # fmt: skip
        """The finished figure."""
        cut = "".join(self.say(one) for one in cut_words)
        return Scene(
            name, self.say(title), f"{self.say(words)}{cut}", round(self.width, 2), round(self.height, 2), tuple(self.items),
            self.say(seen_from), full_size, self.say(caption), data or {}, tuple(self.measures), cut,
        )  # fmt: skip


def disc_radius(letter: str, size_pt: float) -> float:
    """Radius in mm of the disc round a letter or a number: it clears the corners of what stands in it."""
    em = size_pt * POINT_MM
    corner = math.hypot(word_width(letter, size_pt, bold=True) / 2, CAP_HEIGHT / 2 * em)
    return max(0.66 * em, corner + 0.14 * em)


def along_curve(points: Numbers, offset: float | Numbers) -> Numbers:
    """A line beside a curve, to its left where `offset` (one value, or (n, 1)) is positive."""
    return np.asarray(points[:, :2] + left_normals(points) * offset)
