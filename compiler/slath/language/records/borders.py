"""Borders: passes of moves, plaits, and what a foot has besides."""

from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.border_kinds import BORDER_KINDS, BorderName
from slath.language.keys import Annotated, Schema, declared, refer
from slath.language.places import Path
from slath.language.records.weaving import Band

PASSES: Schema = {
    "x-wants": "passes such as [[behind 1, out], [before 2, in]]", "type": ["array", "string"], "minItems": 1, "minLength": 2,
    "maxItems": 12, "items": refer("border_pass"),
}  # fmt: skip
MoveWay = Literal["behind", "before", "out", "in", "down", "over", "under"]


class Move(Struct, frozen=True):
    """One move of a border path: past `count` stakes, or an ending (out, in, down) with count 0."""

    way: MoveWay
    count: int = 0


@declared(
    "border_pass",
    otherwise={"type": ["string", "array"], "items": refer("text"), "minItems": 1},
    also={"repeat": key.count("How often the pass is worked, one after another.", most=12)},
)
class BorderPass(Struct, frozen=True):
    """What every stake does in turn. `laid_first` stakes are laid down before the first moves (plain borders);
    `under` names the earlier pass (1-based) the end goes under; `depth_mm` how far a "down" end goes in; `comes_out`:
    it comes out through the side at that depth.
    """

    path: Path
    moves: Annotated[
        tuple[Move, ...], key.by_hand("moves", "behind 2, before 1, over 2, under 1; an end: out, in, down.")
    ]
    laid_first: Annotated[int, key.count("Stakes laid down before the first one moves.", least=0, most=60)] = 0
    under: Annotated[int | None, key.count("The pass, counted from 1, under which the ends go.", most=12)] = None
    depth_mm: Annotated[float | None, key.length("How far an end goes down.")] = None
    comes_out: bool = False
    through: Annotated[
        tuple[str, ...], key.texts("Names of the bands its ends go down through.")
    ] = ()  # names of the bands its ends go down through; `depth_mm` follows from them
    legs_mm: Annotated[
        float | None,
        key.length("Its ends go down through the whole side and stand out so far below the base, as legs."),
    ] = None  # what its ends stand out below the base, having gone down through the whole side


@declared("plait", hidden=True)
class Plait(Struct, frozen=True):
    """A plaited border: sets of groups, the hindmost passing over `over` sets; `added` pieces for each of these begin it."""

    path: Path
    group: Annotated[int, key.count("Stakes in each group of a plait; 1 unless you say.", most=12)] = 1
    added: Annotated[
        int,
        key.count(
            "Pieces added to begin a plait: so many for each set the first one passes over.",
            least=0,
            most=60,
        ),
    ] = 0
    over: Annotated[
        int,
        key.count(
            "Groups each plaited group passes over before it goes in; 1 unless you say, a plait of three.", most=12
        ),
    ] = 1
    allowance_mm: Annotated[float | None, key.length("Stake kept above the weaving, where you fix it.")] = None


BorderOf = Literal[
    "all", "left half of each group", "right half of each group", "stakes", "bye-stakes", "through sticks"
]


@declared(
    "foot_stakes",
    "Short stakes pushed up beside the uprights, to make a foot.",
    more={"minProperties": 1},
    example="{material: stakes}",
)
class FootStakes(Struct, frozen=True):
    """Short stakes pushed up beside the uprights of a woven base, one to each, to make its foot. `material` may be empty:
    that of the stakes.
    """

    path: Path
    material: Annotated[str, key.material("What they are made of; left out: as the stakes.")] = ""
    depth_mm: Annotated[float | None, key.length("How far they go up beside the uprights.")] = None
    length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None


@declared(
    "laid_in", "Short stakes laid beside the ends of a roll and carried over with them.", example="{material: stakes}"
)
class LaidIn(Struct, frozen=True):
    """Short stakes laid into a roll, one beside every end (or every second, third ...), and carried over with it."""

    path: Path
    material: Annotated[str, key.material("What they are made of: one of your materials.")]
    every: Annotated[int, key.count("2: beside every second end; 1 unless you say.", most=12)] = 1
    length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None


@declared(
    "border",
    includes=("plait",),
    example="{passes: [[behind 2, out], [before 3, in]]}",
    also={
        "rods": key.count("Stakes laid down first in a plain border.", least=2, most=12),
        "behind": key.count("Stakes each goes behind as it is laid down; 1 unless you say.", most=12),
        "past": key.count(
            "Stakes an open border's loop passes before it goes down (1 unless you say), or the second row of a closed one before it goes in (2).",
            most=12,
        ),
        "moves": key.by_hand("moves", "The whole path of a trac border, or of the loops of an open or scalloped one."),
        "seen_from": key.choice(
            "inside: worked from the inside, its moves as seen there; outside unless you say.",
            among=("outside", "inside"),
        ),
    },
)
class Border(Struct, frozen=True):
    """Passes worked one after another on uprights taken `groups` at a time, or a plait. `foot`: below the base.

    `of` says whose ends make it. `kind` is the name of the trade it was asked for by, or empty. `from_inside`: the maker
    looks at the inside and works to the right there; its moves, its numbers and every face are told as seen so, and "out"
    is towards the maker. A foot may have weaving of its own (`bands`, from the base downwards), and is made of
    ends that come down from the rim by the moves `turned_down`, or of short `stakes` of its own.
    """

    path: Path
    passes: Annotated[
        tuple[BorderPass, ...],
        key.by_hand(
            PASSES,
            "One pass after another, each a list of moves: [behind 2, out]; or as they are read out: behind 1 and out, over 2 and in.",
            needed=False,
        ),
    ]
    plait: Plait | None = None
    groups: Annotated[int, key.worked(name="worked")] = 1
    tail_mm: Annotated[float | None, key.length("What an end must lie past the stake it rests on.", nought=True)] = None
    hand_hold_mm: Annotated[float | None, key.length("Extra length to hold while working.", nought=True)] = None
    allowance_mm: Annotated[float | None, key.length("Stake kept above the weaving, where you fix it.")] = None
    name: Annotated[str, key.text("What it is called in print.")] = ""
    foot: bool = False
    cut_to_one: Annotated[bool, key.yes("One of each group is cut off before the border.")] = (
        False  # one of each group is cut off before the border
    )
    of: Annotated[BorderOf, key.choice("Whose ends make it; all unless you say.")] = "all"
    turned_down: Annotated[
        tuple[Move, ...],
        key.by_hand(
            "moves",
            "Of a foot: the moves over the rim by which its ends come down outside to the base: [behind 2, down].",
        ),
    ] = ()
    bands: Annotated[
        tuple[Band, ...],
        key.by_hand(
            {"type": "array", "minItems": 1, "items": refer("woven_band")},
            "Of a foot: weaving from the base downwards, before its border.",
        ),
    ] = ()
    stakes: Annotated[
        FootStakes | None,
        key.one(
            FootStakes,
            "foot_stakes",
            "Of a foot on a woven base: short stakes of its own, pushed up beside the uprights.",
        ),
    ] = None
    kind: Annotated[
        BorderName | Literal[""],
        key.choice(
            "plain or rolled (rods, behind), open and closed (past), scalloped (past or moves, height), trac (moves), rope, plait; left out where passes are written.",
            say={
                "write kind: plain and rods: 4": "heavy, four-rod, four-rod plain",
                "write kind: plain and rods: 3": "rod, three-rod, three-rod plain",
                "write kind: plain and rods: 5": "five-rod",
                "write kind: closed, or its rows under passes, such as [[behind 1, out], [before 2, in]]": "simple",
                "write kind: scalloped": "scallop",
                "write kind: scalloped, and height: how high each loop stands": "looped, loops",
                "write kind: plait": "braid, braided, plaited",
                "write kind: trac": "track",
            },
            among=BORDER_KINDS,
        ),
    ] = ""
    from_inside: bool = False
    laid_in: Annotated[
        LaidIn | None,
        key.one(LaidIn, "laid_in", "Short stakes laid into the roll of its last pass, to make it thicker."),
    ] = None
    loop_height_mm: Annotated[
        float | None,
        key.length("How high the loops of an open or scalloped border stand over the weaving.", name="height"),
    ] = None  # of loops that stand up over the rim
    ring: Annotated[
        str, key.material("What a ring is made of that is laid on the last round, and over which the ends are bent.")
    ] = ""
