"""The base of a basket or a lid: slaths, boards, frames, and what is made otherwise."""

from typing import Literal, get_args

from msgspec import Struct

from slath.language import keys as key
from slath.language.forms import LISTED_COUNTS
from slath.language.keys import DECLARED, FORMS, Annotated, declared, refer
from slath.language.places import Path
from slath.language.records.outlines import Outline
from slath.language.records.weaving import Band

GREATEST_STICKS = 200


@declared("extra_ends", example="{count: 2, material: plain}")
class ExtraEnds(Struct, frozen=True):
    """Ends that are no stick's: ends of weavers left long from the middle to the edge and worked as sticks."""

    path: Path
    count: Annotated[int, key.count("How many.", most=GREATEST_STICKS)]
    material: Annotated[str, key.material("The weaver they are ends of.")]


@declared("tie", example="{material: plain, at: middle}")
class Tie(Struct, frozen=True):
    """A binding laid crosswise over the crossing of the sticks: over the middle cross sticks, the end ones, or all."""

    path: Path
    material: Annotated[str, key.material("What it is tied with.")]
    at: Annotated[
        Literal["middle", "ends", "every"],
        key.choice("Over which cross sticks of an oval: the middle ones, those at the ends, or every one."),
    ] = "middle"
    turns: Annotated[
        int | None, key.count("Times each slant of the cross is gone over; 2 unless you say.", most=60)
    ] = None


# Keys that a round slath and an oval one have alike.
_BecomeStakes = Annotated[bool, key.yes("The sticks turn up and are the stakes.")]
_StickTrim = Annotated[
    float | None, key.length("What a stick is cut longer than the base, to be trimmed.", nought=True)
]
_HalfStickLength = Annotated[float | None, key.length("Cut length of the half stick.")]
_Weaving = Annotated[
    tuple[Band, ...], key.by_hand("base_band_or_list", "Bands of the base, from the slath outwards.")
]
_Crown = Annotated[float, key.length("How far the middle is raised.", nought=True)]
_ExtraEnds = Annotated[
    ExtraEnds | None, key.one(ExtraEnds, "extra_ends", "Ends of weavers left long and worked as sticks.")
]
_Tied = Annotated[Tie | None, key.one(Tie, "tie", "A binding laid crosswise over the crossing.")]
_WorkedAs = Annotated[int, key.worked(name="worked")]
_AsOne = Annotated[
    tuple[int, ...], key.counts("Numbers of ends each worked as one with the next, all the way: for an odd count.")
]

@declared(
    "round_slath",
    "Crossed sticks woven round: 5 through 5, a centre of fours, or a half stick to make the count odd.",
    kind="round slath",
    one_of=("sticks", "pierced"),
    needs={"threaded": ("pierced",)},
    also={
        "diameter": key.length(
            "Finished diameter of the base; left out where every band gives its rounds: as its bands make it."
        ),
        "sticks": key.count("Sticks in all, half of them (the larger half) pierced.", least=2, most=GREATEST_STICKS),
    },
)
class RoundSlath(Struct, frozen=True):
    """Crossed sticks. `threaded` sticks go through `pierced` ones (or lie over them where not pierced).

    `half_stick` adds one stick with a single end. `laid` sticks lie together in the slath (1, or 2 for paired sticks,
    4 for a centre of fours). With `become_stakes` each end of each stick turns up and is a stake, `worked_as` of them woven
    and bent down as one. Each end of `as_one` is worked as one with the next, all the way. `half_apart`: the half stick is
    a group of its own while sticks are worked in groups.
    """

    path: Path
    outline: Outline
    pierced: Annotated[int, key.count("Sticks that are split or pierced.", most=GREATEST_STICKS, needed=False)]
    threaded: Annotated[
        int,
        key.count(
            "Sticks pushed through the pierced ones; left out: as many.", least=0, most=GREATEST_STICKS, needed=False
        ),
    ]
    half_stick: Annotated[bool, key.yes("One stick with a single end, to make the count odd.", needed=False)]
    material: Annotated[str, key.material("What the sticks are: one of your materials.")]
    centre: Annotated[
        Literal["pierced", "crossed"],
        key.choice("pierced: one set goes through the other; crossed: it lies over the other."),
    ] = "pierced"
    laid: Annotated[
        int,
        key.count(
            "Sticks that lie together in the slath: 2 for paired sticks, 4 for a centre of fours.",
            most=12,
            name="laid_together",
        ),
    ] = 1
    become_stakes: _BecomeStakes = False
    stick_length_mm: Annotated[float | None, key.length("Cut length of a stick, where you fix it.")] = None
    stick_trim_mm: _StickTrim = None
    half_stick_length_mm: _HalfStickLength = None
    weaving: _Weaving = ()
    crown_mm: _Crown = 0.0
    extra_ends: _ExtraEnds = None
    tied: _Tied = None
    worked_as: _WorkedAs = 1
    half_apart: Annotated[
        bool,
        key.yes("The half stick is a group of its own while the sticks are worked in groups.", name="half_stick_apart"),
    ] = False
    as_one: _AsOne = ()
    by_bands: bool = False  # no size is given: it is as wide as its bands make it


@declared("long_sticks", "The long sticks.", example="{sticks: 4}")
class LongSticks(Struct, frozen=True):
    """The long sticks of an oval as they are written. `material` may be empty: that of the whole base."""

    path: Path
    sticks: Annotated[int, key.count("How many.", most=GREATEST_STICKS)]
    material: Annotated[str, key.material("What they are made of: one of your materials.")] = ""
    groups: Annotated[
        tuple[int, ...],
        key.counts("How they lie together, from one side: [2, 2, 2].", most=GREATEST_STICKS, part=LISTED_COUNTS),
    ] = ()
    pierced: Annotated[bool, key.yes("The long sticks are pierced and the cross sticks go through them.")] = False
    stick_length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None


@declared("cross_sticks", "The cross sticks.", example="{groups: [2, 1, 1, 2]}", one_of=("groups", "sticks"))
class CrossSticks(Struct, frozen=True):
    """The cross sticks of an oval as they are written."""

    path: Path
    sticks: Annotated[int, key.count("How many, where each stands by itself.", most=GREATEST_STICKS)] = 1
    groups: Annotated[
        tuple[int, ...],
        key.counts("How they lie together along the base: [2, 1, 1, 1, 2].", most=GREATEST_STICKS, part=LISTED_COUNTS),
    ] = ()
    material: Annotated[str, key.material("What they are made of: one of your materials.")] = ""
    pierced: Annotated[
        bool, key.yes("The cross sticks are pierced and the long sticks go through them; yes unless you say no.")
    ] = True
    field_mm: Annotated[float | None, key.length("Length over which they are spread, first to last.", name="field")] = (
        None
    )
    stick_length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None


@declared(
    "oval_slath",
    "Long sticks with groups of cross sticks.",
    kind="oval slath",
    also={
        "shape": key.choice(
            "ellipse unless you say stadium.", say={"write ellipse": "oval"}, among=("ellipse", "stadium")
        ),
        "length": key.length("Finished length of the base."),
        "width": key.length("Finished width of the base."),
        "material": key.by_hand("name", "Material of all sticks, where both ways are alike."),
        "crosswise": key.by_hand("cross_sticks", "The cross sticks.", needed=True),
    },
)
class OvalSlath(Struct, frozen=True):
    """`lengthwise` long sticks through (or under) cross sticks in `groups`; the field is spread over `field_mm`."""

    path: Path
    outline: Outline
    lengthwise: Annotated[int, key.by_hand("long_sticks", "The long sticks.")]
    groups: tuple[int, ...]
    lengthwise_material: str
    crosswise_material: str
    pierced: Literal["crosswise", "lengthwise", "none"] = "crosswise"
    lengthwise_groups: tuple[int, ...] = ()
    half_stick: Annotated[bool, key.yes("One long stick with a single end, to make the count odd.")] = False
    field_mm: float | None = None
    become_stakes: _BecomeStakes = False
    lengthwise_length_mm: float | None = None
    crosswise_length_mm: float | None = None
    stick_trim_mm: _StickTrim = None
    half_stick_length_mm: _HalfStickLength = None
    weaving: _Weaving = ()
    crown_mm: _Crown = 0.0
    extra_ends: _ExtraEnds = None
    tied: _Tied = None
    worked_as: _WorkedAs = 1
    half_apart: Annotated[
        bool,
        key.yes(
            "The half stick is a group of its own while the sticks are worked in groups: yes, unless you say no.",
            name="half_stick_apart",
        ),
    ] = False
    as_one: _AsOne = ()
    by_bands: bool = False  # no size is given: it is as wide as its bands make it


@declared("holes", "The line of holes.", example="{count: 45, inset: 3/8 in}", some_of=(("count",), ("spacing",)))
class Holes(Struct, frozen=True):
    """The line of holes of a board as it is written."""

    path: Path
    count: Annotated[int | None, key.count("How many holes.", least=3)] = None
    spacing_mm: Annotated[float | None, key.length("Spacing to come near; beside a count, checked against it.")] = None
    inset_mm: Annotated[
        float | None, key.length("From the edge to the middle of a hole; 3/8 in unless you say.", nought=True)
    ] = None
    diameter_mm: Annotated[float | None, key.length("Width of a round hole.")] = None
    slots: Annotated[bool, key.yes("Slots along the line in place of holes, for flat stakes.")] = False


@declared("board", "A drilled board.", kind="board", includes=("outline",))
class Board(Struct, frozen=True):
    """A drilled board. Give the number of holes, or the spacing to come near; holes stand `inset_mm` from the edge."""

    path: Path
    outline: Outline
    material: Annotated[str, key.material("What the board is made of.", needed=False)]
    thickness_mm: Annotated[float, key.length("Thickness of the board; 1/4 in unless you say.", needed=False)]
    holes: Annotated[int | None, key.by_hand("holes", "The line of holes.")]
    hole_spacing_mm: float | None
    inset_mm: float
    hole_diameter_mm: float | None = None
    slots: bool = False  # slots along the line for flat stakes, in place of round holes


@declared(
    "corner_posts",
    "yes, or what the four posts are made of.",
    example="{material: posts}",
    otherwise=refer("yes_or_no"),
)
class CornerPosts(Struct, frozen=True):
    """Four stiff uprights at the corners of a frame: woven round like stakes, and cut off level with the border."""

    path: Path
    material: Annotated[str, key.material("What they are made of: one of your materials.")]
    length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None


@declared("frame_sticks", example="{sticks: 9}")
class FrameSticks(Struct, frozen=True):
    """The sticks of a frame that lie one way, as they are written."""

    path: Path
    sticks: Annotated[int, key.count("How many.", most=GREATEST_STICKS)]
    stick_length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None


@declared(
    "frame",
    "A flat base woven across lengthwise sticks.",
    kind="frame",
    includes=("outline",),
    without=("diameter",),
    also={
        "shape": key.choice(
            "rectangle unless you say rounded rectangle.",
            say={
                "write rectangle, with length and width alike": "square",
                "write rectangle": "oblong",
                "write rectangle, and bring the front round in the side (rim: half round), or drill a board so": "half round, d, d-shape, d shape, d-shaped, flat back, half oval, semicircle",
            },
            among=("rectangle", "rounded rectangle"),
        ),
        "length": key.length("Finished length.", needed=True),
        "width": key.length("Finished width.", needed=True),
    },
)
class Frame(Struct, frozen=True):
    """A rectangular base woven across lengthwise sticks; the outer ones may be doubled, corners may carry posts."""

    path: Path
    outline: Outline
    lengthwise: Annotated[int, key.by_hand("frame_sticks", "The long sticks.")]
    crosswise: Annotated[
        int,
        key.by_hand(
            "frame_sticks", "The cross sticks, put in among the rows of weaving; left out: none.", needed=False
        ),
    ]
    material: Annotated[str, key.material("What the sticks are: one of your materials.")]
    doubled_ends: Annotated[bool, key.yes("The outer cross sticks are doubled.", needed=False)]
    corner_posts: Annotated[
        CornerPosts | None,
        key.by_hand("corner_posts", "A post stands at each corner: yes, or its material and length.", needed=False),
    ]
    become_stakes: _BecomeStakes = False
    lengthwise_length_mm: float | None = None
    crosswise_length_mm: float | None = None
    stick_trim_mm: _StickTrim = None
    weaving: Annotated[tuple[Band, ...], key.by_hand("base_band_or_list", "Bands of the base.")] = ()
    worked_as: _WorkedAs = 1


@declared(
    "ready_made",
    "A base made otherwise: only its outline and its stick ends are known.",
    kind="ready made",
    includes=("outline",),
)
class ReadyMade(Struct, frozen=True):
    """A base made otherwise: only its outline and, if it has them, its number of stick ends are known."""

    path: Path
    outline: Outline
    ends: Annotated[int | None, key.count("Ends to which stakes come.", needed=False)]
    words: Annotated[str, key.text("What it is and how it is made, in words.", name="made_of")] = ""
    ring: Annotated[
        str, key.material("What a ring is made of on which the work is begun; left out: there is none to make.")
    ] = ""
    ring_lap_mm: Annotated[float | None, key.length("Of a ring: how far its ends overlap.", name="lap")] = None


Base = RoundSlath | OvalSlath | Board | Frame | ReadyMade
BASES = {said.kind: part for part, said in DECLARED.items() if said.record in get_args(Base)}
_SAY = {
    "write kind: round slath": ("round", "slath"),
    "write kind: oval slath": ("oval",),
    "write kind: round slath and leave out the side": ("mat",),
    "write kind: frame": ("square", "rectangle", "rectangular", "oblong"),
    "write kind: board": ("wood", "wooden", "plywood", "drilled"),
    "write kind: ready made": ("mould", "mold", "tube"),
}
FORMS["base"] = {
    "x-example": "{kind: round slath, diameter: 6 in, pierced: 4, material: sticks}",
    "type": "object",
    "required": ["kind"],
    "properties": {
        "kind": {
            "description": "round slath, oval slath, board, frame, or ready made.",
            "enum": list(BASES),
            "x-kinds-of-work": True,
            "x-say": {word: remedy for remedy, words in _SAY.items() for word in words},
        }
    },
    "allOf": [
        {"if": {"required": ["kind"], "properties": {"kind": {"const": kind}}}, "then": refer(part)}
        for kind, part in BASES.items()
    ],
}
