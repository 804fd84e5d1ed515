"""Lids: how they hang, shut and are lifted; and the fittings of a basket."""

from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.forms import LISTED_COUNTS
from slath.language.keys import Annotated, declared
from slath.language.places import Path
from slath.language.records.bases import Base
from slath.language.records.borders import Border
from slath.language.records.handles import Handle
from slath.language.records.sides import Side
from slath.language.records.uprights import Stakes
from slath.language.view import GREATEST_STRAND_MM


@declared(
    "hinge",
    "Lashings round the rim and the lid's edge, or ends of the lid's own stakes.",
    example="{material: plain, at: [1, 5]}",
)
class Hinge(Struct, frozen=True):
    """Lashings round the rim and the lid's edge, `at` stakes of the rim; `in_one`: ends of the lid's own stakes in their
    place, and `material` is empty.
    """

    path: Path
    material: Annotated[str, key.material("What the lashings are.", needed=False)]
    count: Annotated[int, key.count("How many; 2 unless you say, or one for each place.", most=24, needed=False)]
    at: Annotated[
        tuple[int, ...],
        key.counts("Stakes of the rim beside which they go, counted from the first.", part=LISTED_COUNTS),
    ] = ()
    turns: Annotated[int | None, key.count("Turns round both rims.", most=60)] = None
    length_mm: Annotated[float | None, key.length("Cut length of each lashing, where you fix it.")] = None
    in_one: Annotated[bool, key.yes("yes: ends of the lid's own stakes are worked round the rim.")] = False


@declared(
    "fastening",
    "A loop from the lid's edge, and what it goes over.",
    example="{kind: loop and knob, material: plain, at: [21]}",
)
class Fastening(Struct, frozen=True):
    """A loop from the lid's edge that goes over a knob on the basket, or through which a peg is pushed."""

    path: Path
    kind: Annotated[Literal["loop and knob", "loop and peg"], key.choice("loop and knob, or loop and peg.")]
    material: Annotated[str, key.material("What loop and knob are made of.")]
    count: Annotated[int, key.count("How many; 1 unless you say, or one for each place.", most=24)] = 1
    at: Annotated[
        tuple[int, ...],
        key.counts("Stakes of the rim beside which they go, counted from the first.", part=LISTED_COUNTS),
    ] = ()
    across_mm: Annotated[float | None, key.length("Across the knob or the peg's loop.")] = None
    peg: Annotated[str, key.material("What the peg is made of; left out: as the loop.")] = ""


@declared("knob", "A ball wound of one strand.", example="{material: plain, across: 3/4 in}")
class Knob(Struct, frozen=True):
    """A ball wound of one strand, to lift a lid by."""

    path: Path
    material: Annotated[str, key.material("What it is wound of.")]
    across_mm: Annotated[float | None, key.length("How wide it is.")] = None


@declared(
    "lid",
    example="{base: {kind: round slath, diameter: 8 in, sticks: 8, material: sticks}, border: {passes: [[behind 1, out]]}}",
    also={"handle": key.by_hand("handle", "The lid's handle, such as a ring of a given size.")},
)
class Lid(Struct, frozen=True):
    """A lid is a base with its own weaving and border, and a fit to the rim."""

    path: Path
    base: Annotated[Base, key.by_hand("base", "How the lid is built.")]
    side: Annotated[Side | None, key.by_hand("side", "The lid's own side, if it has one.", needed=False)]
    border: Annotated[Border | None, key.by_hand("border", "The lid's border.", needed=False)]
    fit: Annotated[
        Literal["over", "inside", "resting"],
        key.choice(
            "over the rim, inside it, or resting on it.",
            say={
                "write resting": "on, on top, flat",
                "write inside": "flush, inset, drop in",
                "write over": "overlapping, cap",
            },
            needed=False,
            stand_in="resting",
        ),
    ]
    clearance_mm: Annotated[float, key.length("Room between lid and rim, all round.", nought=True, needed=False)]
    ring: Annotated[str, key.material("Material of a ring to lift it by.")] = ""
    stakes: Annotated[Stakes | None, key.by_hand("stakes", "Stakes put into the lid.")] = None
    handles: Annotated[tuple[Handle, ...], key.by_hand("handle_or_list", "The lid's handles, as a list.")] = ()
    hinge: Annotated[Hinge | None, key.one(Hinge, "hinge", "How it hangs on the rim.")] = None
    fastening: Annotated[Fastening | None, key.one(Fastening, "fastening", "How it is kept shut.")] = None
    knob: Annotated[Knob | None, key.one(Knob, "knob", "A knob to lift it by, wound of one strand.")] = None


@declared(
    "fitting",
    "Pieces of one kind that the construction does not call for.",
    example="{part: loop, material: plain, count: 2, length: 9 in}",
    one_of=("length", "across", "ball"),
    listed="a fitting",
)
class Fitting(Struct, frozen=True):
    """Pieces the construction does not call for: a loop, a peg, binding wire. One of the three measures is given: the cut
    length, or how wide a loop is, or a ball that is wound. A chain has so many `links`, each a ring so wide across. `note`
    says what is done with it.
    """

    path: Path
    part: Annotated[str, key.text("What it is: hinge, loop, peg.")]
    material: Annotated[str, key.material("What it is made of: one of your materials.")]
    count: Annotated[int, key.count("How many; 1 unless you say.", most=1000)] = 1
    length_mm: Annotated[float | None, key.length("Cut length of each.", most=GREATEST_STRAND_MM)] = None
    across_mm: Annotated[float | None, key.length("Of a loop: how wide it is; its length is worked out.")] = None
    ball_mm: Annotated[
        float | None, key.length("Of a knob wound of one strand: how wide it is; the strand is worked out.")
    ] = None
    links: Annotated[
        int,
        key.count("Of a chain: how many rings, each so wide across, hang in one another; 1 unless you say.", most=200),
    ] = 1
    note: Annotated[str, key.text("What is done with it, printed in its step.")] = ""
    plaited: Annotated[
        int, key.count("Of a cord or a strap: of how many lengths each is plaited; 1 unless you say.", most=12)
    ] = 1
    at: Annotated[
        tuple[int, ...], key.counts("Stakes at which it is fastened, by number as they stand at the rim.", most=1000)
    ] = ()
