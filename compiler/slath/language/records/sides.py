"""The side: its shape, its bands, and how stakes change on the way up."""

from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.keys import DECLARED, FORMS, Annotated, Schema, declare, declared, list_schema, refer
from slath.language.places import Path
from slath.language.records.outlines import Outline
from slath.language.records.weaving import Band
from slath.units.names import INCH_MM

PROFILE: Schema = {
    "type": ["string", "array"],
    "if": {"type": "string"},
    "then": {"enum": ["straight", "belly", "waist", "bowl"], "x-say": {
        **dict.fromkeys(
            ("flare", "flared", "cone", "conical", "sloping"), "write profile: straight, and give the rim its size"
        ),
        **dict.fromkeys(("round", "curved"), "write profile: bowl, or profile: belly with its swell"),
        "bulging": "write profile: belly and its swell",
        **dict.fromkeys(
            ("funnel", "vase"),
            "write a list of outlines: [{height: 5 in, diameter: 3 in}, {height: 8 in, diameter: 7 in}]",
        ),
        **dict.fromkeys(("vertical", "upright"), "write profile: straight"),
    }},
    "minItems": 1,
    "items": refer("profile_point"),
}  # fmt: skip
STANDS_MM = INCH_MM  # an inch left over a binding; common practice, no source
StakeAction = Literal["add", "drop", "part", "cross", "regroup"]


@declared("change_details", example="{count: 8}")
class StakeChange(Struct, frozen=True):
    """Stakes added beside others, cut away, parted, crossed, or taken together anew from stake `first` on, before the band
    that follows it in the side.
    """

    path: Path
    action: StakeAction
    count: Annotated[
        int, key.count("How many in all (parting: how many go together; crossing: how many are crossed).", needed=False)
    ]
    beside: Annotated[
        Literal["every", "every other", "listed"],
        key.choice("Beside which stakes.", say={"write every": "all, each", "write every other": "every second"}),
    ] = "every"
    stakes: Annotated[tuple[int, ...], key.counts("The stakes' numbers, counted from the first one.")] = ()
    material: Annotated[str, key.material("Material of added stakes.")] = ""
    length_mm: Annotated[float | None, key.length("Cut length of added stakes.")] = None
    first: Annotated[
        int,
        key.count(
            "Stake with which the first group begins when stakes are taken together anew (2 unless you say), or which is the first to cross (1 unless you say)."
        ),
    ] = 1


declare(
    "stake_change",
    also={
        "add_stakes": key.by_hand("change_details", "Stakes added beside others from here up."),
        "drop_stakes": key.by_hand("change_details", "Stakes cut away from here up."),
        "part_stakes": key.by_hand(
            "change_details", "Groups of stakes parted from here up; count: how many go together now."
        ),
        "cross_stakes": key.by_hand(
            "change_details", "Each stake crossed over its neighbours here; count: how many it crosses."
        ),
        "regroup_stakes": key.by_hand(
            "change_details",
            "Stakes taken together anew from here up, one from each of two neighbouring groups; count: how many go together.",
        ),
    },
    more={"minProperties": 1, "maxProperties": 1},
)


FORMS["band"] = {
    "x-example": "{weave: three-rod wale, strands: plain, rounds: 3}",
    "type": "object",
    "if": {"anyOf": [{"required": [change]} for change in DECLARED["stake_change"].also]},
    "then": refer("stake_change"),
    "else": {"if": {"required": ["open"]}, "then": refer("open_band"), "else": refer("woven_band")},
}
FORMS["band_or_list"] = list_schema("band", "a band")


@declared(
    "profile_point", "The outline at one height.", example="{height: 2 in, diameter: 7 in}", includes=("outline",)
)
class ProfilePoint(Struct, frozen=True):
    """The outline at a standing height."""

    height_mm: Annotated[float, key.length("Standing height of this point.", nought=True, stand_in=0.0)]
    outline: Outline


@declared(
    "gathered",
    "Stakes drawn together over the weaving and bound: the basket closes to nothing.",
    example="{tied: plain, above: 4 in}",
)
class Gathered(Struct, frozen=True):
    """Stakes that close a basket to nothing: drawn together `above_mm` along them over the weaving, bound with `turns` of a
    material, `stands_mm` left over the binding, and hung up by a loop of `loop_mm` of the same material.
    """

    path: Path
    tied: Annotated[str, key.material("What they are bound with: one of your materials.")]
    above_mm: Annotated[float, key.length("How far along the stakes, from the top of the weaving to the binding.")]
    stands_mm: Annotated[
        float,
        key.length(
            "Left standing over the binding; an inch unless you say.", nought=True, needed=False, stand_in=STANDS_MM
        ),
    ]
    turns: Annotated[int, key.count("Turns of the binding; 6 unless you say.", most=200)] = 6
    loop_mm: Annotated[float | None, key.length("A loop to hang it up by, of the same strand: how long it hangs.")] = (
        None
    )


@declared(
    "side",
    example="{height: 4 in, bands: [{weave: pairing, strands: weaver, to: top}]}",
    also={"swell": key.by_hand("length", "How far a belly swells (or a waist draws in) each side, half-way up.")},
)
class Side(Struct, frozen=True):
    """`height_mm` stands up from the base to the top of the weaving. `belly_mm` is the swell each side half-way up
    (negative: a waist). `points` overrule rim and belly. A mat has no side.
    """

    path: Path
    height_mm: Annotated[
        float | None,
        key.length(
            "Standing height from the base to the top of the weaving; left out: what the bands come to.", needed=False
        ),
    ]
    rim: Annotated[Outline | None, key.by_hand("outline", "Outline at the top; left out: as the base.", needed=False)]
    profile: Annotated[
        Literal["straight", "belly", "waist", "bowl", "points"],
        key.by_hand(PROFILE, "straight, belly, waist or bowl; or a list of outlines at heights.", needed=False),
    ]
    belly_mm: float
    points: tuple[ProfilePoint, ...]
    bands: Annotated[
        tuple[Band | StakeChange, ...],
        key.by_hand("band_or_list", "From the base up: bands of weaving, open bands, and changes of stakes."),
    ]
    at_stakes: bool = False  # its outlines are those of the line on which the stakes stand
    gathered: Annotated[
        Gathered | None,
        key.one(Gathered, "gathered", "In place of a border: the stakes drawn together over the weaving and bound."),
    ] = None
