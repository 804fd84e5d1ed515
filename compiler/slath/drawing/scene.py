"""What a figure is: plain records in page millimetres, written by any back end without a decision left to take.

Origin top left, x to the right, y down. Colours are ``#rrggbb``. Items are painted in the order they stand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple, TypeVar, overload

from msgspec import Struct

Point = tuple[float, float]
Worked = TypeVar("Worked")


class Subpath(NamedTuple):
    """One unbroken line. With ``curve`` the points are cubic Béziers: start, then (control, control, end) each."""

    points: tuple[Point, ...]
    closed: bool = False
    curve: bool = False


class Path(Struct, frozen=True):
    """Lines and areas of one paint. Fill rule nonzero; joins round unless ``miter``; widths in mm."""

    subpaths: tuple[Subpath, ...]
    fill: str | None = None
    stroke: str | None = None
    width: float = 0.25
    cap: Literal["butt", "round", "square"] = "butt"
    join: Literal["round", "miter"] = "round"
    dash: tuple[float, ...] = ()


class Ellipse(Struct, frozen=True):
    """An ellipse about (x, y), turned by ``turn`` degrees clockwise as seen on the page."""

    x: float
    y: float
    rx: float
    ry: float
    turn: float = 0.0
    fill: str | None = None
    stroke: str | None = None
    width: float = 0.25


class Text(Struct, frozen=True):
    """One line of words; (x, y) is on the baseline. ``turn`` degrees clockwise; ``halo`` a colour painted around."""

    x: float
    y: float
    words: str
    size_pt: float = 7.5
    anchor: Literal["start", "middle", "end"] = "middle"
    bold: bool = False
    italic: bool = False
    colour: str = "#231f1a"
    turn: float = 0.0
    halo: str | None = None


class Unpainted(Sequence["Item"]):
    """Items without words that are worked out when they are first looked at: many figures are drawn for their words or
    their measure alone. ``paint`` gives them, always the same.
    """

    __slots__ = ("_items", "_paint", "_worked")

    def __init__(self, paint: Callable[[], tuple[Item, ...]]) -> None:
        self._paint: Callable[[], tuple[Item, ...]] | None = paint
        self._items: tuple[Item, ...] = ()
        self._worked: dict[Callable[[Sequence[Item]], Any], Any] = {}

    def once(self, work: Callable[[Sequence[Item]], Worked]) -> Worked:
        """What ``work`` makes of the items, made once: a figure kept from one build to the next is not worked out anew."""
        if work not in self._worked:
            self._worked[work] = work(self._painted())
        made: Worked = self._worked[work]
        return made

    def _painted(self) -> tuple[Item, ...]:
        if self._paint:
            self._items, self._paint = self._paint(), None
        return self._items

    @overload
    def __getitem__(self, index: int) -> Item: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[Item, ...]: ...
    def __getitem__(self, index: int | slice) -> Item | tuple[Item, ...]:
        return self._painted()[index]

    def __iter__(self) -> Iterator[Item]:
        return iter(self._painted())

    def __len__(self) -> int:
        return len(self._painted())

    def __eq__(self, other: object) -> bool:
        return self is other or (isinstance(other, Sequence) and self._painted() == tuple(other))

    def __hash__(self) -> int:
        return hash(self._painted())

    def __repr__(self) -> str:
        return repr(self._painted())

    def __reduce__(self) -> tuple[type[tuple[Item, ...]], tuple[tuple[Item, ...]]]:
        return tuple, (self._painted(),)


class Group(Struct, frozen=True):
    """Items painted together, inside ``clip`` (x, y, width, height) if one is given."""

    items: Sequence[Item]
    name: str = ""
    clip: tuple[float, float, float, float] | None = None


Item = Path | Ellipse | Text | Group

CUT_LABELS = "cut-lengths"  # the name of a group that tells them, which a class handout may have to keep


def every_item(items: Iterable[Item], *, strands: bool = True) -> Iterator[Path | Ellipse | Text]:
    """Items one by one, those inside groups as well, in the order they are painted; without ``strands`` those that are
    still unpainted are left out, which bear no lettering.
    """
    for item in items:
        if not isinstance(item, Group):
            yield item
        elif strands or not isinstance(item.items, Unpainted):
            yield from every_item(item.items, strands=strands)


class LetteredMeasure(NamedTuple):
    """A measure that stands in a figure as a letter: what it is, and as it is printed."""

    letter: str
    name: str
    printed: str


@dataclass(frozen=True, slots=True)
class Scene:
    """One figure. ``measures`` are those it shows as letters. ``words`` lets a reader do the step without seeing it; ``seen_from`` names the viewing side. ``cut_words`` are the last of its words that tell lengths of the cut list, which a class handout may have to keep."""

    name: str
    title: str
    words: str
    width: float
    height: float
    items: tuple[Item, ...]
    seen_from: str = ""
    full_size: bool = False
    caption: str = ""
    data: dict[str, object] = field(default_factory=dict, compare=False)
    measures: tuple[LetteredMeasure, ...] = ()
    cut_words: str = ""
