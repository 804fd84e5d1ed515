"""Parts made by themselves and joined: a tier on a stem, a foot, a partition, the halves of a lid."""

from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.keys import Annotated, declared
from slath.language.places import Path
from slath.language.records.bases import Base
from slath.language.records.borders import Border
from slath.language.records.handles import Handle
from slath.language.records.sides import Side
from slath.language.records.uprights import ByeStakes, Stakes

JoinWay = Literal["tied", "laced", "hinged", "pushed in", "on a stem", "hung", "resting"]
Edge = Literal["rim", "base"]


@declared(
    "join",
    "How a part is joined: the way, and where.",
    example="{way: tied, on: base, by: rim, material: plain, places: 4}",
)
class Join(Struct, frozen=True):
    """How a part made by itself is joined: which edge of it (`by`) to which edge (`on`) of the basket, or of the earlier
    part it goes `to`. `rise_mm` is the clear height of a stem or of a cord, `depth_mm` how far ends are pushed in.
    """

    path: Path
    way: Annotated[
        JoinWay,
        key.choice(
            "tied (bound at places), laced (all round), hinged (bound loosely), pushed in (its own ends), on a stem, hung (by cords), resting (set on or in, not fastened).",
            say={
                "write tied": "lashed, bound",
                "write laced": "sewn, stitched",
                "write on a stem": "stem",
                "write hinged": "hinge",
                "write pushed in": "inserted",
                "write hung": "hanging",
                "write resting": "loose",
                "write pushed in, or resting where it is not fastened": "set in",
            },
            stand_in="resting",
        ),
    ]
    to: Annotated[
        str,
        key.text("The name of an earlier part it is joined to; left out: the basket.", once=True, needed=False),
    ]
    by: Annotated[
        Edge,
        key.choice(
            "Which edge of the part is joined: its rim (the default), or its base.", needed=False, stand_in="rim"
        ),
    ]
    on: Annotated[
        Edge,
        key.choice("Which edge it is joined to: the rim (the default), or the base.", needed=False, stand_in="rim"),
    ]
    material: Annotated[
        str, key.material("What it is tied, laced, hinged or hung with, or what the stem is.", needed=False)
    ]
    places: Annotated[
        int,
        key.count(
            "How many bindings (4; hinges 2), cords (3) or stems (1), or one for each place named.",
            most=60,
            needed=False,
        ),
    ]
    at: Annotated[tuple[int, ...], key.counts("Stakes beside which they go, counted from the first.")] = ()
    turns: Annotated[int | None, key.count("Turns of each binding round both edges.", most=60)] = None
    length_mm: Annotated[float | None, key.length("Cut length of each piece, where you fix it.")] = None
    depth_mm: Annotated[float | None, key.length("Of ends pushed in: how deep.")] = None
    rise_mm: Annotated[float | None, key.length("Of a stem or cords: the clear height between the two.")] = None
    note: Annotated[str, key.text("A remark printed where it is joined.")] = ""


@declared(
    "part",
    "A part made by itself like a basket, and joined.",
    example="{name: upper tier, base: {kind: board, diameter: 7 in, holes: {count: 31}}, stakes: {material: stakes}, join: {way: on a stem, material: stem, rise: 8 in}}",
    listed="a part",
    also={"handle": key.by_hand("handle", "Its handle.")},
)
class MadePart(Struct, frozen=True):
    """A part made by itself, `count` of them alike, as a basket of its own, and how it is joined."""

    path: Path
    name: Annotated[str, key.text("What it is called: upper tier, foot, partition.", once=True)]
    count: Annotated[int, key.count("How many alike; 1 unless you say.", most=24, needed=False)]
    base: Annotated[Base, key.by_hand("base", "How it is begun.")]
    stakes: Annotated[Stakes | None, key.by_hand("stakes", "Stakes put into it.", needed=False)]
    bye_stakes: Annotated[
        tuple[ByeStakes, ...],
        key.by_hand("bye_stakes_or_list", "Second uprights beside its stakes.", needed=False),
    ]
    side: Annotated[Side | None, key.by_hand("side", "Its own side, if it has one.", needed=False)]
    border: Annotated[Border | None, key.by_hand("border", "Its border.", needed=False)]
    foot: Annotated[Border | None, key.by_hand("border", "A border below its base.", needed=False)]
    handles: Annotated[tuple[Handle, ...], key.by_hand("handle_or_list", "Its handles, as a list.", needed=False)]
    join: Annotated[Join, key.by_hand("join", "How it is joined.")]
    note: Annotated[str, key.text("A remark, printed where it is joined.")] = ""
