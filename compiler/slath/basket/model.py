"""The constructed basket: what follows from a sized pattern by counting and geometry alone, before any material.

Plan coordinates are millimetres, x along the length, y across it, seen from above (from inside), y away from the
maker. Positions round the edge are fractions `u` of the perimeter from 0 to 1, starting at the +x end and running
anticlockwise seen from above, which is left to right seen from outside: the way stakes are numbered and work runs.
Numbers people see (sticks, ends, stakes, rounds) start at 1; indices of strands (rods) start at 0, leftmost first.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, Protocol

from msgspec import Struct

from slath.language.pattern import (
    Band,
    Base,
    Border,
    BorderPass,
    Handle,
    Lid,
    MadePart,
    Outline,
    SizedPattern,
    StakeChange,
    Wrap,
)
from slath.language.places import Path
from slath.messages.told import Spoken, Told
from slath.units import Amount

Point = tuple[float, float]


class Curve(Protocol):
    """A closed plan outline by arc length; see `slath.basket.outline.curve_of`."""

    @property
    def outline(self) -> Outline:
        """The shape and its size over all."""

    @property
    def perimeter(self) -> float:
        """Length once round, mm."""

    def point(self, u: float) -> Point:
        """The point a fraction `u` of the perimeter round from the +x end, anticlockwise seen from above."""

    def normal(self, u: float) -> Point:
        """The outward unit normal at `u`."""


# -------------------------------------------------------------------------------------------------------------- base
EndKind = Literal["pierced", "threaded", "half stick", "lengthwise", "crosswise single", "crosswise group", "extra end"]


class Stick(Struct, frozen=True):
    """One base stick as it lies: centre line from `start` to `finish` at the base edge (before trim), in the plan.

    `group` counts the sticks that lie together in the slath as one (0-based); `over` says it lies on top of (or is
    threaded through) the others at the centre, as seen from above.
    """

    number: int
    kind: EndKind
    material: str
    start: Point
    finish: Point
    group: int
    over: bool
    pierced: bool
    length_mm: float  # from edge to edge of the base, without trim


class StickEnd(Struct, frozen=True):
    """One stick end that reaches the base edge, in working order round it. `group`: ends opened together (0-based)."""

    number: int
    stick: int
    kind: EndKind
    group: int
    u: float
    stakes: int


class Slath(Struct, frozen=True):
    """The crossing at the centre: over all along x and y, before any weaving, and the ends in groups round it."""

    length_mm: float
    width_mm: float
    group_sizes: tuple[int, ...]


class ConstructedBase(Struct, frozen=True):
    """Base sticks, ends, edge and woven bands. Boards and ready-made bases have no sticks."""

    spec: Base
    edge: Curve
    sticks: tuple[Stick, ...]
    ends: tuple[StickEnd, ...]
    slath: Slath | None
    bands: tuple[WovenBand, ...]
    holes: tuple[float, ...]  # u of each hole on `hole_line`
    hole_line: Curve | None
    hole_spacing_mm: float | None
    reached_mm: float | None  # width the weaving truly reaches by whole rounds

    @property
    def cut_sticks(self) -> tuple[Stick, ...]:
        """The sticks that are cut: all but ends of weavers that are worked as sticks."""
        return tuple(stick for stick in self.sticks if stick.kind != "extra end")


# ------------------------------------------------------------------------------------------------------------ stakes
class Stake(Struct, frozen=True):
    """One upright, numbered left to right from outside; a bye-stake has the number of the stake it stands beside. `end`
    is its stick end (None on boards).
    """

    number: int
    u: float
    end: int | None
    kind: Literal["stake", "through", "bye-stake", "added", "post"]
    material: str
    working: int  # the working upright (1-based) it belongs to when worked in groups


# ----------------------------------------------------------------------------------------------------------- weaving
class Round(Struct, frozen=True):
    """One whole round of a band, measured at its middle.

    Side: `height_mm` stands above the base, `along_mm` is the way up the side. Base: `height_mm` is 0 and `along_mm`
    the way out from the slath. `perimeter_mm` is the outline there, `spacing_mm` between working uprights.
    """

    number: int
    height_mm: float
    along_mm: float
    perimeter_mm: float
    spacing_mm: float


class WovenBand(Struct, frozen=True):
    """A band as worked on this basket.

    `uprights` working uprights, `group_sizes` how many stick ends or stakes each one is. `materials[rod][strand]`:
    the material key of each strand of each rod, rod 0 leftmost. `pitch` is the height of one round after packing,
    `asked_mm` the height wanted (None when given by rounds) and `reached_mm` the height of the whole rounds.
    `steps` is how many uprights the colours move in each round: positive on, the way the work runs, negative back, None
    if colours do not shift regularly (`slath.basket.weave.seen_step`: what that looks like from outside); `interlocks` is the count rule of the weave at this count. `start` is the upright (1-based)
    in front of which rod 0 first passes.
    """

    spec: Band
    index: int
    uprights: int
    group_sizes: tuple[int, ...]
    materials: tuple[tuple[str, ...], ...]
    rounds: tuple[Round, ...]
    pitch: Amount
    asked_mm: float | None
    reached_mm: float
    interlocks: bool
    steps: int | None
    start: int
    from_mm: float  # way up the side (or out from the slath) at its lower edge
    lead: int = 0  # stakes by which its first group begins after stake 1
    tapers: bool = False  # woven of rods with a butt and a tip

    @property
    def begins_folded(self) -> bool:
        """Whether two strands of one material are begun from one length, folded round the upright between their spaces.

        Folding is the habit of cane; of willow two rods are laid in by their tips.
        """
        one = len({key for rod in self.materials for key in rod}) == 1
        return (
            self.spec.weave.twined
            and len(self.materials) == 2
            and self.spec.weave.as_one == 1
            and one
            and not self.tapers
        )

    @property
    def name(self) -> str:
        """The designer's name for the band."""
        return self.spec.name

    @property
    def part(self) -> str:
        """base, side, lid, foot, or the name of a part made by itself."""
        return self.spec.part

    @property
    def on_sticks(self) -> bool:
        """Whether it is woven flat over stick ends: in the base, or in that of a lid or a part, whose side has heights."""
        own = self.part not in {"base", "side", "foot"}
        return self.part == "base" or (own and all(row.height_mm == 0.0 for row in self.rounds))

    @property
    def to_mm(self) -> float:
        """Way up the side (or out from the slath) at its upper edge."""
        return self.from_mm + self.reached_mm


class Profile(Protocol):
    """The shape of the side between base edge and rim; see `slath.basket.profile`."""

    @property
    def height_mm(self) -> float:
        """Standing height from the base to the top of the weaving."""

    @property
    def along_mm(self) -> float:
        """Mean way up the side from base to top."""

    def outline_at(self, height_mm: float) -> Outline:
        """The outline at a standing height."""

    def curve_at(self, height_mm: float) -> Curve:
        """The same by arc length."""

    def height_of(self, along_mm: float) -> float:
        """The standing height reached a mean way `along_mm` up the side."""

    def slope_mm(self, u: float, height_mm: float) -> float:
        """The length of a stake at `u` from the base edge up to a standing height."""


# ------------------------------------------------------------------------------------------------------------ border
class Visit(Struct, frozen=True):
    """A stake's own path, counted from itself: at the stake `offset` further on it passes `face`.

    `face` "behind" is inside, "before" is outside.
    """

    offset: int
    face: Literal["behind", "before"]


class Finish(Struct, frozen=True):
    """How one of the last stakes of a pass is finished: under (through) the loops of these stakes, in order."""

    stake: int
    under: tuple[int, ...]


class WorkedPass(Struct, frozen=True):
    """One pass of a border on `count` uprights, as simulated.

    `begins` is where a stake's own end stands when the pass starts, in stakes from its place (0 for the first pass,
    the end of the pass before for later ones); `visits` are the stakes it passes, `ends_at` where its end comes to
    lie (in stakes from its place, halves are spaces), `ending` how. `loose` are the stakes (numbers) whose loops must
    be left loose at the start; `finish` tells the last stakes in working order. `thickness` is how many stakes lie
    over one another at one place.
    """

    spec: BorderPass
    number: int
    begins: float
    visits: tuple[Visit, ...]
    ends_at: float
    ending: Literal["out", "in", "down", "lies", "rolled"]
    reach: int
    loose: tuple[int, ...]
    finish: tuple[Finish, ...]
    thickness: int


class WorkedBorder(Struct, frozen=True):
    """A border on this basket. `closes` is False when it meets itself or cannot be finished; `why_not` says why."""

    spec: Border
    count: int
    spacing_mm: float
    passes: tuple[WorkedPass, ...]
    reach: int
    thickness: int
    closes: bool
    why_not: Told | None
    smallest_count: int  # fewest uprights on which it can be worked
    stakes: tuple[int, ...] = ()  # numbers of the stakes whose ends make it; empty where all do


# ------------------------------------------------------------------------------------------------------------ handle
class WorkedWrap(Struct, frozen=True):
    """A wrap by geometry: `strands` needed or given, each `strand_mm` long, at `angle_degrees` from the handle's run."""

    spec: Wrap
    strands: Amount
    strand_mm: Amount
    turns: float
    angle_degrees: float
    girth_mm: float
    lay_mm: float = 0.0  # along the handle for one turn
    gap_mm: float = 0.0  # of the handle bare between one strand and the next, along it


class WorkedEar(Struct, frozen=True):
    """The lugs of a swinging handle, heights from the rim up. `notch_mm` is (from, to); `hole_up_mm` the middle of its
    holes, which stand `hole_apart_mm` from one to the next; `wood_mm` the least wood beside a hole.
    """

    length: Amount
    width: Amount
    thick_mm: float
    rise: Amount
    notch_mm: tuple[float, float]
    notch_deep_mm: float
    hole: Amount
    hole_up_mm: float
    hole_apart_mm: float
    wood_mm: float

    @property
    def foot_mm(self) -> float:
        """What goes down beside its stake."""
        return self.length.value - self.rise.value


class HandlePiece(Struct, frozen=True):
    """Pieces that belong to a handle besides its own: ears, bindings, liners. `part` is the name of one, and of many."""

    part: tuple[str, str]
    material: str
    count: Amount
    length: Amount
    path: Path
    given_mm: float | None = None


class WorkedHandle(Struct, frozen=True):
    """A handle by geometry: the bow's own curve from foot to foot, its feet, and where they go down.

    `curve` are (x, z) points of the bow's centre line above the rim, x from -span/2 to +span/2. `lash_mm` is what binds
    one foot, where the handle is lashed on. `before` are pieces that are set before it, `after` what binds it.
    """

    spec: Handle
    span_mm: float
    rise_mm: float
    bow_mm: Amount
    foot_mm: Amount
    piece_mm: Amount
    feet_at: tuple[int, ...]  # stake numbers
    curve: tuple[Point, ...]
    wraps: tuple[WorkedWrap, ...]
    lash_mm: Amount | None = None
    ear: WorkedEar | None = None
    scarf: Amount | None = None
    laid_degrees: float = 0.0  # from upright, of a swinging bow laid down: 90 rests on the border, more hangs outside
    before: tuple[HandlePiece, ...] = ()
    after: tuple[HandlePiece, ...] = ()


class ConstructedLid(Struct, frozen=True):
    """A lid: a `basket` of its own (whose base, bands and border these are), and how it fits the rim."""

    spec: Lid
    base: ConstructedBase
    bands: tuple[WovenBand, ...]
    border: WorkedBorder | None
    rim_mm: float
    gap_mm: float
    basket: Basket
    ring: WorkedHandle | None = None


class ConstructedPart(Struct, frozen=True):
    """A part made by itself: a `basket` of its own, and the curves of the two edges that are joined."""

    spec: MadePart
    basket: Basket
    edge: Curve  # of the part
    meets: Curve  # of what it is joined to


class MadeApart(Struct, frozen=True):
    """What is made apart from the basket as a small basket of its own: its lid (`name` "lid"), or so many of a part."""

    name: str
    basket: Basket
    count: int

    @property
    def woven(self) -> tuple[WovenBand, ...]:
        """Its bands, base first."""
        return self.basket.woven


# ------------------------------------------------------------------------------------------------------------ basket
class Basket(Struct, frozen=True):
    """One size, constructed. `working` uprights are woven on the side (groups count as one).

    `items` of the side keeps bands and stake changes in order. A mat has no profile and no side bands.
    """

    pattern: SizedPattern
    base: ConstructedBase
    stakes: tuple[Stake, ...]
    working: int
    profile: Profile | None
    bands: tuple[WovenBand, ...]
    changes: tuple[tuple[int, StakeChange, int], ...]  # (before band index, change, working uprights after it)
    border: WorkedBorder | None
    foot: WorkedBorder | None
    handles: tuple[WorkedHandle, ...]
    lid: ConstructedLid | None
    foot_bands: tuple[WovenBand, ...] = ()  # woven below the base, downwards
    parts: tuple[ConstructedPart, ...] = ()

    @property
    def apart(self) -> tuple[MadeApart, ...]:
        """What is made apart from it: the lid first, then its parts as they are listed."""
        lid = (MadeApart("lid", self.lid.basket, 1),) if self.lid is not None else ()
        return (*lid, *(MadeApart(part.spec.name, part.basket, part.spec.count) for part in self.parts))

    @property
    def all_woven(self) -> tuple[WovenBand, ...]:
        """Every band of the basket and of what is made apart from it."""
        return (*self.woven, *(band for one in self.apart for band in one.woven))

    @property
    def woven(self) -> tuple[WovenBand, ...]:
        """Every band of the basket itself: of its base, its side and its foot."""
        return (*self.base.bands, *self.bands, *self.foot_bands)

    @property
    def size(self) -> str:
        """The size's name."""
        return self.pattern.size

    @property
    def standing(self) -> tuple[Stake, ...]:
        """The stakes round the base, bye-stakes not counted."""
        return tuple(stake for stake in self.stakes if stake.kind != "bye-stake")

    @property
    def base_spacing_mm(self) -> float:
        """Between working uprights at the base edge (or hole line)."""
        curve = self.base.hole_line or self.base.edge
        return curve.perimeter / self.working if self.working else 0.0

    @property
    def rim(self) -> Curve:
        """The outline at the top of the weaving; a mat's is its base edge."""
        return self.profile.curve_at(self.profile.height_mm) if self.profile else self.base.edge

    @property
    def rim_uprights(self) -> int:
        """Working uprights at the rim, after any change part-way up."""
        return self.changes[-1][2] if self.changes else self.working

    @property
    def rim_spacing_mm(self) -> float:
        """Between working uprights at the rim."""
        return self.rim.perimeter / self.rim_uprights if self.rim_uprights else 0.0


@dataclass(eq=False)  # an exception must stay open to the traceback that is set on it
class CannotConstruct(Exception):  # noqa: N818 - says what happened, in trade words
    """The counts or sizes allow no construction; carries the place, part and reason for a note, and what would help."""

    code: str
    path: Path
    part: str
    reason: Told
    remedies: tuple[Told, ...] = ()

    def told(self, measure: Callable[[float], Spoken]) -> tuple[Told, tuple[Told, ...]]:
        """The reason and the remedies with every length as `measure` prints it."""
        return self.reason.measured(measure), tuple(remedy.measured(measure) for remedy in self.remedies)
