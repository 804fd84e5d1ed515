"""A pattern with every value resolved for one size: frozen records, millimetres and grams, each knowing its place.

`path` on a record is where it stands in the file, so that ``pattern.place(record.path + ("rounds",))`` finds the line
of one key. Optional values are None when the designer left them out; nothing here has been computed yet.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Literal

from msgspec import Struct, field

from slath.language.handle_kinds import HANDLE_KINDS, Family, HandleName
from slath.language.offering import Money, PatternPhotograph
from slath.language.places import Path, Places
from slath.language.variants import Variant
from slath.notes import Note, Place
from slath.trade.stock import Pack, Stock
from slath.units import Amount
from slath.units.printing import First

Marks = Literal["none", "rings", "centre line", "dots"]
MeasuredAt = Literal["at the stakes", "outside", "inside"]
Direction = Literal["left to right", "right to left"]
OutlineShape = Literal["circle", "ellipse", "stadium", "rectangle", "rounded rectangle", "half round"]


# ------------------------------------------------------------------------------------------------------- materials
class Material(Struct, frozen=True):
    """One material of the pattern: a stock, perhaps dyed, with the letter and marks that tell it in the drawings."""

    key: str
    path: Path
    stock: Stock
    title: str
    dye: str | None = None
    letter: str = ""
    colour: str = "#efe4c8"
    marks: Marks = "none"
    soak: str = ""
    have_mm: float | None = None  # what the maker has of it
    bought_natural: bool = False  # dyed at home, so that it is bought with the undyed

    @property
    def width_mm(self) -> float:
        """Width along the face; the diameter of round material."""
        return self.stock.width_mm

    @property
    def thickness_mm(self) -> float:
        """Thickness off the face; the diameter of round material."""
        return self.stock.thickness_mm


# --------------------------------------------------------------------------------------------------------- outlines
class Outline(Struct, frozen=True):
    """A plan shape: length ≥ width, where the stakes stand (a board: its edge); `corner_mm` is the corner radius of a rounded rectangle."""

    shape: OutlineShape
    length_mm: float
    width_mm: float
    corner_mm: float = 0.0


# ----------------------------------------------------------------------------------------------------------- weaving
WeaveKind = Literal["rand", "slew", "chase", "pair", "wale", "french rand", "packing", "fitch", "open", "figure"]


class Stroke(Struct, frozen=True):
    """Pass before `before` stakes, then behind `behind`."""

    before: int
    behind: int

    @property
    def reach(self) -> int:
        """Stakes travelled by one stroke."""
        return self.before + self.behind


class WeaveSpec(Struct, frozen=True):
    """A weave as the designer named it.

    `strokes` is the cycle each strand works (one stroke for most weaves). `rods` strands (or bundles of `as_one`) work
    in turn, each starting one space right of the one before. `twined`: the rods cross in every space (pair, wale);
    a chase has two rods that follow each other on opposite faces. `label` is the trade name as printed. `one_by_one`: each
    rod is woven out before the next is begun, as in English randing.
    """

    kind: WeaveKind
    strokes: tuple[Stroke, ...]
    rods: int
    as_one: int
    twined: bool
    label: str
    one_by_one: bool = False

    @property
    def cycle(self) -> int:
        """Stakes travelled by one whole cycle of strokes."""
        return sum(stroke.reach for stroke in self.strokes)


class Extent(Struct, frozen=True):
    """How far a band goes: exactly one of the fields is set.

    rounds: whole rounds; height_mm: along the side (or outwards, on a base); to: "top" or "edge"; size: on a base,
    the diameter (width of an oval) reached; used: whole rounds until so many working lengths of strand are used up. With
    `leaves_mm` a band that goes to the top stops where so much of the stakes is left, cut to a length the designer fixes.
    """

    rounds: int | None = None
    height_mm: float | None = None
    to: Literal["top", "edge"] | None = None
    size_mm: float | None = None
    used: int | None = None
    leaves_mm: float | None = None


Laid = Literal["flat", "folded", "twisted"]


class Cell(Struct, frozen=True):
    """One row of a figured band: for stakes first..last (1-based, inclusive) the strand goes before or behind them."""

    rows: tuple[int, int]
    stakes: tuple[int, int]
    strokes: tuple[Stroke, ...]


class ShortRows(Struct, frozen=True):
    """Rows that turn back, over one stretch of stakes or several: the first runs from the first to the last stake of its
    stretch, and each turn falls `shorter` stakes short of the turn before it on the same side. With `leaves_open` the other stakes stay bare at that height, for a door or a
    hand; else what is woven next lies down beside the rows.
    """

    path: Path
    over: tuple[tuple[int, int], ...]
    shorter: int
    leaves_open: bool = False

    def row(self, number: int, stretch: int = 0) -> tuple[int, int]:
        """The stakes from which to which row `number` (1-based) of a stretch runs, whichever way it is worked."""
        first, last = self.over[stretch]
        return first + self.shorter * (number // 2), last - self.shorter * ((number - 1) // 2)


class Band(Struct, frozen=True):
    """Weaving of one kind: on the base (`part` "base"), the side or a lid.

    `strands` are material keys from the leftmost strand to the rightmost, one for each rod (and for each strand of a
    bundle, `as_one` at a time). `groups` is how the uprights are worked: 1 singly, 2 in twos...; on a base it may be
    "grouped", the sizes taken from the cross-stick groups. `ends_at` is the outline reached at the band's upper end.
    """

    name: str
    path: Path
    weave: WeaveSpec
    strands: tuple[str, ...]
    extent: Extent
    part: str = "side"  # base, side, lid, foot, or the name of a part made by itself
    groups: int | Literal["grouped"] = 1
    shift: int = 0
    keep: Literal["rounds", "height"] = "rounds"
    step_up: bool = False
    reversed: bool = False
    looks: str | None = None
    ends_at: Outline | None = None
    working_length_mm: float | None = None
    take_up: Amount | None = None
    pitch: Amount | None = None
    cells: tuple[Cell, ...] = ()
    short_rows: ShortRows | None = None
    note: str = ""
    turn_of: str = ""  # the arrow or chain it is a part of, by the designer's name for the whole
    goes_on: bool | None = (
        None  # worked on with the strands of the band before it; None: where nothing changes but shape
    )
    laid: Laid | None = None  # how wide flat strands lie; None: as their stock is usually laid

    @property
    def written_as(self) -> str:
        """The name the designer wrote for it, or for the arrow or chain it is a part of."""
        return self.turn_of or self.name

    def runs_on_from(self, before: Band | None) -> bool:
        """Whether it is worked on with the strands of the band `before` it, without an end or a join between them."""
        if before is None:
            return False
        same_turns = bool(self.turn_of) and (self.turn_of, self.path) == (before.turn_of, before.path)
        return same_turns or bool(self.goes_on)


class StakeChange(Struct, frozen=True):
    """Stakes added beside others, cut away, parted, crossed, or taken together anew from stake `first` on, before the band
    that follows it in the side.
    """

    path: Path
    action: Literal["add", "drop", "part", "cross", "regroup"]
    count: int
    beside: Literal["every", "every other", "listed"] = "every"
    stakes: tuple[int, ...] = ()
    material: str = ""
    length_mm: float | None = None
    first: int = 1


# -------------------------------------------------------------------------------------------------------------- base
class ExtraEnds(Struct, frozen=True):
    """Ends that are no stick's: ends of weavers left long from the middle to the edge and worked as sticks."""

    path: Path
    count: int
    material: str


class Tie(Struct, frozen=True):
    """A binding laid crosswise over the crossing of the sticks: over the middle cross sticks, the end ones, or all."""

    path: Path
    material: str
    at: Literal["middle", "ends", "every"] = "middle"
    turns: int | None = None


class RoundSlath(Struct, frozen=True):
    """Crossed sticks. `threaded` sticks go through `pierced` ones (or lie over them where not pierced).

    `half_stick` adds one stick with a single end. `laid` sticks lie together in the slath (1, or 2 for paired sticks,
    4 for a centre of fours). With `become_stakes` each end of each stick turns up and is a stake, `worked_as` of them woven
    and bent down as one. Each end of `as_one` is worked as one with the next, all the way. `half_apart`: the half stick is
    a group of its own while sticks are worked in groups.
    """

    path: Path
    outline: Outline
    pierced: int
    threaded: int
    half_stick: bool
    material: str
    centre: Literal["pierced", "crossed"] = "pierced"
    laid: int = 1
    become_stakes: bool = False
    stick_length_mm: float | None = None
    stick_trim_mm: float | None = None
    half_stick_length_mm: float | None = None
    weaving: tuple[Band, ...] = ()
    crown_mm: float = 0.0
    extra_ends: ExtraEnds | None = None
    tied: Tie | None = None
    worked_as: int = 1
    half_apart: bool = False
    as_one: tuple[int, ...] = ()
    by_bands: bool = False  # no size is given: it is as wide as its bands make it


class OvalSlath(Struct, frozen=True):
    """`lengthwise` long sticks through (or under) cross sticks in `groups`; the field is spread over `field_mm`."""

    path: Path
    outline: Outline
    lengthwise: int
    groups: tuple[int, ...]
    lengthwise_material: str
    crosswise_material: str
    pierced: Literal["crosswise", "lengthwise", "none"] = "crosswise"
    lengthwise_groups: tuple[int, ...] = ()
    half_stick: bool = False
    field_mm: float | None = None
    become_stakes: bool = False
    lengthwise_length_mm: float | None = None
    crosswise_length_mm: float | None = None
    stick_trim_mm: float | None = None
    half_stick_length_mm: float | None = None
    weaving: tuple[Band, ...] = ()
    crown_mm: float = 0.0
    extra_ends: ExtraEnds | None = None
    tied: Tie | None = None
    worked_as: int = 1
    half_apart: bool = False
    as_one: tuple[int, ...] = ()
    by_bands: bool = False  # no size is given: it is as wide as its bands make it


class Board(Struct, frozen=True):
    """A drilled board. Give the number of holes, or the spacing to come near; holes stand `inset_mm` from the edge."""

    path: Path
    outline: Outline
    material: str
    thickness_mm: float
    holes: int | None
    hole_spacing_mm: float | None
    inset_mm: float
    hole_diameter_mm: float | None = None
    slots: bool = False  # slots along the line for flat stakes, in place of round holes


class CornerPosts(Struct, frozen=True):
    """Four stiff uprights at the corners of a frame: woven round like stakes, and cut off level with the border."""

    path: Path
    material: str
    length_mm: float | None = None


class Frame(Struct, frozen=True):
    """A rectangular base woven across lengthwise sticks; the outer ones may be doubled, corners may carry posts."""

    path: Path
    outline: Outline
    lengthwise: int
    crosswise: int
    material: str
    doubled_ends: bool
    corner_posts: CornerPosts | None
    become_stakes: bool = False
    lengthwise_length_mm: float | None = None
    crosswise_length_mm: float | None = None
    stick_trim_mm: float | None = None
    weaving: tuple[Band, ...] = ()
    worked_as: int = 1


class ReadyMade(Struct, frozen=True):
    """A base made otherwise: only its outline and, if it has them, its number of stick ends are known."""

    path: Path
    outline: Outline
    ends: int | None
    words: str = ""


Base = RoundSlath | OvalSlath | Board | Frame | ReadyMade


# ------------------------------------------------------------------------------------------------------------ stakes
class Stakes(Struct, frozen=True):
    """How stakes come to the ends. `exceptions` maps named ends to stakes per end.

    Names of ends: "lengthwise", "crosswise", "crosswise singles", "crosswise pairs", "half stick", or an end's number.
    `count` fixes the total where ends do not (boards, ready-made bases). `worked_as` uprights are woven as one.
    `length_mm` is a cut length the designer fixes; it must cover what is needed. `in_turn` are materials taken one after
    another from stake 1 on; `material` is then the first of them.
    """

    path: Path
    material: str
    per_end: int = 1
    exceptions: Mapping[str, int] = field(default_factory=dict)
    add: int = 0
    leave_out: int = 0
    add_at: tuple[int, ...] = ()  # numbers of the ends with one more each; `add` is how many
    leave_out_at: tuple[int, ...] = ()
    count: int | None = None
    depth_mm: float | None = None
    worked_as: int = 1
    length_mm: float | None = None
    below_mm: float = 0.0  # left standing below a board for its foot border
    holes_each: int = 1  # 2 where a stake goes down one hole of a board and up the next
    in_turn: tuple[str, ...] = ()

    @property
    def materials(self) -> tuple[str, ...]:
        """The materials the stakes are of, each once, in the order they are taken."""
        return tuple(dict.fromkeys(self.in_turn)) or (self.material,)

    def material_of(self, index: int) -> str:
        """The material of the stake set in as number `index`, counted from 0."""
        return self.in_turn[index % len(self.in_turn)] if self.in_turn else self.material


class ByeStakes(Struct, frozen=True):
    """Second uprights beside stakes, not set into the base."""

    path: Path
    material: str
    count: int | None = None
    every: int = 1
    depth_mm: float | None = None
    length_mm: float | None = None
    after_band: str = ""
    beside: tuple[int, ...] = ()  # numbers of the stakes they stand beside
    in_turn: tuple[str, ...] = ()  # materials taken one after another; `material` is then the first

    def material_of(self, index: int) -> str:
        """The material of the bye-stake set as number `index`, counted from 0."""
        return self.in_turn[index % len(self.in_turn)] if self.in_turn else self.material


# -------------------------------------------------------------------------------------------------------------- side
class ProfilePoint(Struct, frozen=True):
    """The outline at a standing height."""

    height_mm: float
    outline: Outline


class Gathered(Struct, frozen=True):
    """Stakes that close a basket to nothing: drawn together `above_mm` along them over the weaving, bound with `turns` of a
    material, `stands_mm` left over the binding, and hung up by a loop of `loop_mm` of the same material.
    """

    path: Path
    tied: str
    above_mm: float
    stands_mm: float
    turns: int = 6
    loop_mm: float | None = None


class Side(Struct, frozen=True):
    """`height_mm` stands up from the base to the top of the weaving. `belly_mm` is the swell each side half-way up
    (negative: a waist). `points` overrule rim and belly. A mat has no side.
    """

    path: Path
    height_mm: float | None
    rim: Outline | None
    profile: Literal["straight", "belly", "waist", "bowl", "points"]
    belly_mm: float
    points: tuple[ProfilePoint, ...]
    bands: tuple[Band | StakeChange, ...]
    at_stakes: bool = False  # its outlines are those of the line on which the stakes stand
    gathered: Gathered | None = None


# ------------------------------------------------------------------------------------------------------------ border
MoveWay = Literal["behind", "before", "out", "in", "down", "over", "under"]


class Move(Struct, frozen=True):
    """One move of a border path: past `count` stakes, or an ending (out, in, down) with count 0."""

    way: MoveWay
    count: int = 0


class BorderPass(Struct, frozen=True):
    """What every stake does in turn. `laid_first` stakes are laid down before the first moves (plain borders);
    `under` names the earlier pass (1-based) the end goes under; `depth_mm` how far a "down" end goes in; `comes_out`:
    it comes out through the side at that depth.
    """

    path: Path
    moves: tuple[Move, ...]
    laid_first: int = 0
    under: int | None = None
    depth_mm: float | None = None
    comes_out: bool = False
    through: tuple[str, ...] = ()  # names of the bands its ends go down through; `depth_mm` follows from them
    legs_mm: float | None = None  # what its ends stand out below the base, having gone down through the whole side


class Plait(Struct, frozen=True):
    """A plaited border: sets of groups, the hindmost passing over `over` sets; `added` pieces for each of these begin it."""

    path: Path
    group: int
    added: int
    over: int
    allowance_mm: float | None = None


BorderOf = Literal[
    "all", "left half of each group", "right half of each group", "stakes", "bye-stakes", "through sticks"
]


class FootStakes(Struct, frozen=True):
    """Short stakes pushed up beside the uprights of a woven base, one to each, to make its foot. `material` may be empty:
    that of the stakes.
    """

    path: Path
    material: str = ""
    depth_mm: float | None = None
    length_mm: float | None = None


class LaidIn(Struct, frozen=True):
    """Short stakes laid into a roll, one beside every end (or every second, third ...), and carried over with it."""

    path: Path
    material: str
    every: int = 1
    length_mm: float | None = None


class Border(Struct, frozen=True):
    """Passes worked one after another on uprights taken `groups` at a time, or a plait. `foot`: below the base.

    `of` says whose ends make it. `kind` is the name of the trade it was asked for by, or empty. `from_inside`: the maker
    looks at the inside and works to the right there; its moves, its numbers and every face are told as seen so, and "out"
    is towards the maker. A foot may have weaving of its own (`bands`, from the base downwards), and is made of
    ends that come down from the rim by the moves `turned_down`, or of short `stakes` of its own.
    """

    path: Path
    passes: tuple[BorderPass, ...]
    plait: Plait | None = None
    groups: int = 1
    tail_mm: float | None = None
    hand_hold_mm: float | None = None
    allowance_mm: float | None = None
    name: str = ""
    foot: bool = False
    cut_to_one: bool = False  # one of each group is cut off before the border
    of: BorderOf = "all"
    turned_down: tuple[Move, ...] = ()
    bands: tuple[Band, ...] = ()
    stakes: FootStakes | None = None
    kind: str = ""
    from_inside: bool = False
    laid_in: LaidIn | None = None
    loop_height_mm: float | None = None  # of loops that stand up over the rim


# ------------------------------------------------------------------------------------------------------------ handle
class Wrap(Struct, frozen=True):
    """Material round a handle: "rope" strands at a lay, or "lapping" wound flat edge to edge.

    `listed`: the designer listed the strands one by one, and so many are wound; else one material is named, of which a
    rope takes as many strands as cover the handle.
    """

    path: Path
    kind: Literal["rope", "lapping", "twist"]
    strands: tuple[str, ...]
    lay_mm: float | None = None
    turns: int | None = None
    cover: Literal["full", "spaced"] = "full"
    gap_mm: float | None = None
    listed: bool = False
    over_mm: float | None = None  # of each place that is bound; None: the whole handle
    places: int = 1
    from_mm: float | None = None  # where it begins, along the handle from either foot
    group: int = 1  # strands of a rope that are wound as one
    count: int | None = None  # strands of a rope in all, where the designer fixes it
    offcuts: bool = False  # the tops of whole rods, cut off when the border was done


class Ears(Struct, frozen=True):
    """The two lugs a swinging handle hangs in, flat pieces of wood: the notch that holds the border (or the rows under
    it), and one hole for every bow or two side by side. `rise_mm` is what stands above the rim.
    """

    path: Path
    material: str
    holes: int
    length_mm: float | None = None
    width_mm: float | None = None
    notch_mm: float | None = None
    rise_mm: float | None = None
    holds: Literal["border", "top rows"] = "border"
    hole_mm: float | None = None


class Binding(Struct, frozen=True):
    """What the turned back ends of a swinging handle are bound with, at `places` of each end."""

    path: Path
    material: str
    places: int
    turns: int | None = None
    length_mm: float | None = None


class Liner(Struct, frozen=True):
    """Short pieces that keep the places of a handle's feet open from the band `after` on (empty: from the first)."""

    path: Path
    material: str
    after: str = ""
    length_mm: float | None = None


HandleTime = Literal["at the upsett", "before the border", "after the border"]


class Handle(Struct, frozen=True):
    """A handle or a set of like handles.

    `rise_mm` stands from the rim to the under side of the top. `span_mm` is between the feet; left out, it is taken
    from the rim. `at` are the stakes beside which the feet go down. `feet_mm` is how deep each foot goes.
    """

    path: Path
    kind: HandleName
    material: str
    count: int = 1
    pieces: int = 1
    rise_mm: float | None = None
    span_mm: float | None = None
    shape: Literal["half ellipse", "half circle", "square shoulders"] = "half ellipse"
    direction: Literal["across", "along"] = "across"
    at: tuple[int, ...] = ()
    feet_mm: float | None = None
    lap_mm: float | None = None
    diameter_mm: float | None = None
    length_mm: float | None = None
    wraps: tuple[Wrap, ...] = ()
    lash: str = ""
    note: str = ""
    through_base: bool = False  # goes on down the side and under the base, in one round
    scarf_mm: float | None = None  # of a swinging handle: thinned and turned back at each end
    ears: Ears | None = None
    bind: Binding | None = None
    rounds: int | None = None  # of a ring wound of one strand
    set_in: HandleTime = "after the border"
    liner: Liner | None = None

    @property
    def family(self) -> Family:
        """What it is built like."""
        return HANDLE_KINDS[self.kind].family

    @property
    def bent_first(self) -> bool:
        """Whether it must dry in its shape before it is set in."""
        return HANDLE_KINDS[self.kind].dries and not self.through_base


class Hinge(Struct, frozen=True):
    """Lashings round the rim and the lid's edge, `at` stakes of the rim; `in_one`: ends of the lid's own stakes in their
    place, and `material` is empty.
    """

    path: Path
    material: str
    count: int
    at: tuple[int, ...] = ()
    turns: int | None = None
    length_mm: float | None = None
    in_one: bool = False


class Fastening(Struct, frozen=True):
    """A loop from the lid's edge that goes over a knob on the basket, or through which a peg is pushed."""

    path: Path
    kind: Literal["loop and knob", "loop and peg"]
    material: str
    count: int = 1
    at: tuple[int, ...] = ()
    across_mm: float | None = None
    peg: str = ""


class Knob(Struct, frozen=True):
    """A ball wound of one strand, to lift a lid by."""

    path: Path
    material: str
    across_mm: float | None = None


class Lid(Struct, frozen=True):
    """A lid is a base with its own weaving and border, and a fit to the rim."""

    path: Path
    base: Base
    side: Side | None
    border: Border | None
    fit: Literal["over", "inside", "resting"]
    clearance_mm: float
    ring: str = ""
    stakes: Stakes | None = None
    handles: tuple[Handle, ...] = ()
    hinge: Hinge | None = None
    fastening: Fastening | None = None
    knob: Knob | None = None


JoinWay = Literal["tied", "laced", "hinged", "pushed in", "on a stem", "hung", "resting"]
Edge = Literal["rim", "base"]


class Join(Struct, frozen=True):
    """How a part made by itself is joined: which edge of it (`by`) to which edge (`on`) of the basket, or of the earlier
    part it goes `to`. `rise_mm` is the clear height of a stem or of a cord, `depth_mm` how far ends are pushed in.
    """

    path: Path
    way: JoinWay
    to: str  # the name of an earlier part; empty: the basket
    by: Edge
    on: Edge
    material: str
    places: int
    at: tuple[int, ...] = ()
    turns: int | None = None
    length_mm: float | None = None
    depth_mm: float | None = None
    rise_mm: float | None = None
    note: str = ""


class MadePart(Struct, frozen=True):
    """A part made by itself, `count` of them alike, as a basket of its own, and how it is joined."""

    path: Path
    name: str
    count: int
    base: Base
    stakes: Stakes | None
    bye_stakes: tuple[ByeStakes, ...]
    side: Side | None
    border: Border | None
    foot: Border | None
    handles: tuple[Handle, ...]
    join: Join
    note: str = ""


class Fitting(Struct, frozen=True):
    """Pieces the construction does not call for: a loop, a peg, binding wire. One of the three measures is given: the cut
    length, or how wide a loop is, or a ball that is wound.
    """

    path: Path
    part: str
    material: str
    count: int
    length_mm: float | None = None
    across_mm: float | None = None
    ball_mm: float | None = None


# ---------------------------------------------------------------------------------------------------- gauge, wording
class Gauge(Struct, frozen=True):
    """What was measured on a test piece, or learned from a size that was woven: rounds over a height, and take-up.

    `length_factor` is strand taken ÷ strand worked out for a whole test weave of the size `of_size`. `shared`: several
    weaves went into one measured height, shared out among them in proportion to what was worked out.
    """

    path: Path
    weave: str
    strand: str
    rounds: int | None
    over_mm: float | None
    take_up: float | None
    spacing_mm: float | None
    by: str
    on: date | None
    length_factor: float | None = None
    of_size: str = ""
    shared: bool = False

    @property
    def source(self) -> str:
        """Where, by whom and when it was measured."""
        where = f"measured on the {self.of_size} size" if self.of_size else "test piece measured"
        who = f" by {self.by}" if self.by else ""
        when = f" on {self.on.isoformat()}" if self.on else ""
        return f"{where}{who}{when}"


class WovenSize(Struct, frozen=True):
    """The test-weave form of one size, filled in: what is None or not there was not measured.

    `rounds` and `band_heights_mm` (up the side) are by the name of the band as written. `used` is what was begun with of
    each material and `left_over` what remained of that: millimetres, or whole rods where the stock is sold by the rod.
    `stake_cut_mm` is what each stake was cut to, `stake_left_mm` what was cut off it in the end.
    """

    path: Path
    on: date | None
    by: str = ""
    time: str = ""
    note: str = ""
    height_mm: float | None = None
    base_length_mm: float | None = None
    base_width_mm: float | None = None
    rim_length_mm: float | None = None
    rim_width_mm: float | None = None
    mass_g: float | None = None
    stake_cut_mm: float | None = None
    stake_left_mm: float | None = None
    rounds: Mapping[str, int] = field(default_factory=dict)
    band_heights_mm: Mapping[str, float] = field(default_factory=dict)
    used: Mapping[str, float] = field(default_factory=dict)
    left_over: Mapping[str, float] = field(default_factory=dict)


class Acceptance(Struct, frozen=True):
    """A warning the designer overrules, with the reason printed in the proof. Empty `size`/`part` means any."""

    path: Path
    code: str
    reason: str
    size: str = ""
    part: str = ""


class StageWords(Struct, frozen=True):
    """The designer's own words for one stage: `replace` its steps, or add notes, cautions and pictures."""

    path: Path
    stage: str
    replace: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    safety: tuple[str, ...] = ()
    care: tuple[str, ...] = ()
    pictures: tuple[tuple[str, str], ...] = ()  # (file beside the pattern, alternative text)
    figures: tuple[str, ...] | None = None


class Settings(Struct, frozen=True):
    """The maker's habits, each an amount with its basis: from the pattern, the workshop file or the trade defaults."""

    values: Mapping[str, Amount]

    def __getitem__(self, name: str) -> Amount:
        return self.values[name]

    def mm(self, name: str) -> float:
        """The bare value of a length setting."""
        return self.values[name].value


# ------------------------------------------------------------------------------------------------------ the pattern
class SizedPattern(Struct, frozen=True):
    """One size of a pattern, every value resolved."""

    size: str
    woven_on: date | None
    measures: Mapping[str, Amount]
    materials: Mapping[str, Material]
    base: Base
    stakes: Stakes | None
    bye_stakes: tuple[ByeStakes, ...]
    side: Side | None
    border: Border | None
    foot: Border | None
    handles: tuple[Handle, ...]
    lid: Lid | None
    gauge: tuple[Gauge, ...]
    settings: Settings
    woven: WovenSize | None = None
    fittings: tuple[Fitting, ...] = ()
    parts: tuple[MadePart, ...] = ()
    leftwards: bool = False  # the work runs right to left, seen from outside
    money: Money | None = None
    units: First = "inches"  # in which its lengths are cut and its defaults are round
    measured: MeasuredAt = "at the stakes"  # what the outlines of its side were measured at


class Pattern(Struct, frozen=True):
    """A whole pattern file: what is the same for every size, and the sizes."""

    file: str
    title: str
    subtitle: str
    edition: str
    dated: date | None
    designer: str
    workshop: str
    licence: str
    withheld: tuple[str, ...]  # sections the licence keeps out of handouts
    skill: str
    time: str
    about: str
    working_direction: Direction
    units: First  # which measure stands first: the designer's choice, or as most lengths are written
    sizes: tuple[SizedPattern, ...]
    accept: tuple[Acceptance, ...]
    stages: tuple[StageWords, ...]
    tools: tuple[str, ...]
    changes: tuple[str, ...]
    packs: Mapping[str, tuple[Pack, ...]]
    places: Places
    notes: tuple[Note, ...] = ()
    contact: str = ""
    errata: str = ""  # where mistakes are reported; empty: the contact
    photographs: tuple[PatternPhotograph, ...] = ()
    language: str = "en"  # the language it is told in, by the code of its folder of data
    variant: str = ""  # the variant this is, where the file has some
    variants: tuple[Variant, ...] = ()

    @property
    def as_variant(self) -> Variant | None:
        """The variant this is; None where the file has none."""
        return next((variant for variant in self.variants if variant.name == self.variant), None)

    def place(self, path: Path) -> Place:
        """The place of the value at `path`, or of its nearest parent that stands in the file."""
        return self._nearest(path)[1]

    def key_place(self, path: Path) -> Place:
        """The place of the key at `path`, or of its nearest parent that stands in the file."""
        return self._nearest(path)[0]

    def _nearest(self, path: Path) -> tuple[Place, Place]:
        while path and path not in self.places:
            path = path[:-1]
        return self.places[path] if path else (Place(self.file),) * 2

    def size(self, name: str) -> SizedPattern:
        """The size called `name`; KeyError if there is none."""
        for sized in self.sizes:
            if sized.size == name:
                return sized
        raise KeyError(name)
