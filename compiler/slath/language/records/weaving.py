"""Weaving: strokes, weaves, and bands of them."""

from typing import Literal, Self

from msgspec import Struct

from slath.language import keys as key
from slath.language.forms import WEAVE
from slath.language.keys import Annotated, declare, declared
from slath.language.places import Path
from slath.language.records.outlines import Outline
from slath.language.view import GREATEST_STRAND_MM
from slath.units import Amount

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


@declared("extent", hidden=True)
class Extent(Struct, frozen=True):
    """How far a band goes: exactly one of the fields is set.

    rounds: whole rounds; height_mm: along the side (or outwards, on a base); to: "top" or "edge"; size: on a base,
    the diameter (width of an oval) reached; used: whole rounds until so many working lengths of strand are used up. With
    `leaves_mm` a band that goes to the top stops where so much of the stakes is left, cut to a length the designer fixes.
    """

    rounds: Annotated[int | None, key.count("Whole rounds.", part="whole_rounds")] = None
    height_mm: Annotated[float | None, key.length("Height of the band along the side.")] = None
    to: Annotated[Literal["top", "edge"] | None, key.choice("top: up to the height of the side.", among=("top",))] = (
        None
    )
    size_mm: float | None = None
    used: Annotated[
        int | None,
        key.count(
            "Working lengths of strand in all after which it stops: what is in hand decides the rounds.",
            most=400,
            name="until_used",
        ),
    ] = None
    leaves_mm: Annotated[
        float | None,
        key.length("Stake left standing above it: the cut length of the stakes decides the height.", nought=True),
    ] = None


declare(
    "extent_on_base",
    record=Extent,
    hidden=True,
    fields={
        "height_mm": key.length("How far outwards the band goes."),
        "to": key.choice("edge: out to the size of the base.", among=("edge",)),
        "size_mm": key.length("Diameter reached (width of an oval)."),
        "leaves_mm": None,
    },
)


Laid = Literal["flat", "folded", "twisted"]


@declared(
    "cell",
    "In these rows, over these stakes, the strand goes otherwise.",
    example="{rows: 1 to 4, stakes: 5 to 9, weave: before 3 behind 1}",
    listed="a cell",
)
class Cell(Struct, frozen=True):
    """One row of a figured band: for stakes first..last (1-based, inclusive) the strand goes before or behind them."""

    rows: Annotated[tuple[int, int], key.span("First and last row: 1 to 5.")]
    stakes: Annotated[tuple[int, int], key.span("First and last stake: 11 to 17.")]
    strokes: Annotated[
        tuple[Stroke, ...],
        key.by_hand("text", "Strokes: before 2 behind 1; rows of packing need none.", name="weave", needed=False),
    ]


@declared("short_rows", "Rows of packing that turn back, each turn short of the one before.", example="{over: 1 to 16}")
class ShortRows(Struct, frozen=True):
    """Rows that turn back, over one stretch of stakes or several: the first runs from the first to the last stake of its
    stretch, and each turn falls `shorter` stakes short of the turn before it on the same side. With `leaves_open` the other stakes
    stay bare at that height, for a door or a hand; else what is woven next lies down beside the rows.
    """

    path: Path
    over: Annotated[
        tuple[tuple[int, int], ...], key.spans("Stakes the first row covers: 1 to 16; or a list of stretches.")
    ]
    shorter: Annotated[
        int,
        key.count(
            "Stakes by which each turn falls short of the one before on its side; 1 unless you say, 0 beside an opening.",
            least=0,
            most=100,
            needed=False,
        ),
    ]
    leaves_open: Annotated[
        bool, key.yes("yes: the other stakes stay bare at this height, for a door or a hand hold.")
    ] = False

    def row(self, number: int, stretch: int = 0) -> tuple[int, int]:
        """The stakes from which to which row `number` (1-based) of a stretch runs, whichever way it is worked."""
        first, last = self.over[stretch]
        return first + self.shorter * (number // 2), last - self.shorter * ((number - 1) // 2)


@declared(
    "woven_band",
    "A band of one weave.",
    one_of=("rounds", "height", "to", "until_used", "leaves"),
    includes=("extent",),
)
class Band(Struct, frozen=True):
    """Weaving of one kind: on the base (`part` "base"), the side or a lid.

    `strands` are material keys from the leftmost strand to the rightmost, one for each rod (and for each strand of a
    bundle, `as_one` at a time). `groups` is how the uprights are worked: 1 singly, 2 in twos...; on a base it may be
    "grouped", the sizes taken from the cross-stick groups. `ends_at` is the outline reached at the band's upper end.
    """

    name: Annotated[str, key.text("What you call it: upsett, spiral.", needed=False)]
    path: Path
    weave: Annotated[
        WeaveSpec,
        key.by_hand(
            WEAVE, "The weave in words: randing, slewing with 3, chasing, pairing, three-rod wale, before 2 behind 1."
        ),
    ]
    strands: Annotated[
        tuple[str, ...],
        key.materials("Materials from the leftmost strand to the rightmost; one name where all are alike."),
    ]
    extent: Extent
    part: str = "side"  # base, side, lid, foot, or the name of a part made by itself
    groups: Annotated[int | Literal["grouped"], key.worked(name="worked")] = 1
    shift: Annotated[
        int,
        key.count(
            "Stakes by which the course is shifted once a round (a weaver over two to change course: 1).",
            least=0,
            most=100,
        ),
    ] = 0
    keep: Annotated[
        Literal["rounds", "height"], key.choice("Which to keep when a height does not come out in whole rounds.")
    ] = "rounds"
    step_up: Annotated[bool, key.yes("The strands step up at the end of each round, so that every round closes.")] = (
        False
    )
    reversed: Annotated[
        bool, key.yes("Each stroke is carried under the other strands instead of over them: twined the other way.")
    ] = False
    looks: Annotated[
        str | None,
        key.text(
            "What the colours should look like; checked against the count: upright stripes, steps left, steps right."
        ),
    ] = None
    ends_at: Annotated[Outline | None, key.by_hand("outline", "Outline reached at the band's upper end.")] = None
    working_length_mm: Annotated[
        float | None, key.length("Length of one strand as worked.", most=GREATEST_STRAND_MM)
    ] = None
    take_up: Annotated[
        Amount | None, key.by_hand("ratio", "Length of strand for a length of weaving, measured: 1.12.")
    ] = None
    pitch: Annotated[Amount | None, key.by_hand("length", "Height of one round, measured.")] = None
    cells: Annotated[
        tuple[Cell, ...],
        key.by_hand("cell_or_list", "Cells worked otherwise over a range of stakes: a stepped figure.", name="figure"),
    ] = ()
    short_rows: Annotated[
        ShortRows | None,
        key.by_hand("short_rows", "Rows of packing that turn back, each turn short of the one before."),
    ] = None
    note: Annotated[str, key.text("A remark printed with the band.")] = ""
    turn_of: str = ""  # the arrow or chain it is a part of, by the designer's name for the whole
    goes_on: Annotated[bool | None, key.yes("yes: worked on with the strands of the band before.")] = None
    laid: Annotated[
        Laid | None,
        key.choice(
            "How wide flat strands lie: flat, folded lengthwise or twisted; raffia is twisted unless you say.",
            say={"write folded": "doubled"},
        ),
    ] = None  # how wide flat strands lie; None: as their stock is usually laid

    @property
    def written_as(self) -> str:
        """The name the designer wrote for it, or for the arrow or chain it is a part of."""
        return self.turn_of or self.name

    def runs_on_from(self, before: Self | None) -> bool:
        """Whether it is worked on with the strands of the band `before` it, without an end or a join between them."""
        if before is None:
            return False
        same_turns = bool(self.turn_of) and (self.turn_of, self.path) == (before.turn_of, before.path)
        return same_turns or bool(self.goes_on)


declare(
    "base_band",
    "A band of the base, from the slath outwards.",
    Band,
    example="{weave: pairing, strands: plain, rounds: 3}",
    listed="a band",
    one_of=("rounds", "height", "to", "size", "until_used"),
    includes=("extent_on_base",),
    fields={
        "name": key.text("What you call it.", needed=False),
        "weave": key.by_hand(WEAVE, "The weave in words."),
        "groups": key.worked(part="worked_on_base", name="worked"),
        "shift": key.count("Sticks by which the course is shifted once a round.", least=0, most=100),
        "keep": key.choice("Which to keep when a size does not come out in whole rounds."),
        "step_up": key.yes("The strands step up at the end of each round."),
        "looks": key.text("What the colours should look like; checked against the count."),
        "take_up": key.by_hand("ratio", "Length of strand for a length of weaving, measured."),
        "pitch": key.by_hand("length", "Width of one round, measured."),
        "ends_at": None,
        "cells": None,
        "short_rows": None,
    },
)
declare(
    "open_band",
    "A height left open, the stakes bare.",
    also={
        "open": key.length("Height left open.", needed=True),
        "name": key.text("What you call it."),
        "ends_at": key.by_hand("outline", "Outline reached at its upper end."),
        "note": key.text("A remark printed with it."),
    },
)
