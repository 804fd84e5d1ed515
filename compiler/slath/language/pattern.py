"""A pattern with every value resolved for one size: frozen records, millimetres and grams, each knowing its place.

Its parts are in `records/`, and named here for the rooms that read them. `path` on a record is where it stands in the file,
so that ``pattern.place(record.path + ("rounds",))`` finds the line of one key. Optional values are None when the designer left them out; nothing here has been computed yet.
"""

from collections.abc import Mapping
from datetime import date
from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.keys import Annotated, declare, declared, refer
from slath.language.places import Path, Places
from slath.language.records.bases import (
    Base,
    Board,
    CornerPosts,
    CrossSticks,
    ExtraEnds,
    Frame,
    FrameSticks,
    Holes,
    LongSticks,
    OvalSlath,
    ReadyMade,
    RoundSlath,
    Tie,
)
from slath.language.records.borders import Border, BorderOf, BorderPass, FootStakes, LaidIn, Move, MoveWay, Plait
from slath.language.records.handles import Binding, Ears, Handle, HandleTime, Liner, Wrap
from slath.language.records.lids import Fastening, Fitting, Hinge, Knob, Lid
from slath.language.records.materials import Marks, Material
from slath.language.records.measured import Gauge, WovenSize
from slath.language.records.offering import Fee, Money, PatternPhotograph, PhotographPlace
from slath.language.records.outlines import Outline, OutlineShape
from slath.language.records.parts import Edge, Join, JoinWay, MadePart
from slath.language.records.sides import Gathered, ProfilePoint, Side, StakeAction, StakeChange
from slath.language.records.uprights import ByeStakes, Stakes
from slath.language.records.weaving import Band, Cell, Extent, Laid, ShortRows, Stroke, WeaveKind, WeaveSpec
from slath.language.records.words import Acceptance, StageWords
from slath.language.variants import Variant
from slath.notes import Note, Place
from slath.trade.stock import Pack
from slath.units import Amount
from slath.units.printing import First

__all__ = [
    "Acceptance",
    "Band",
    "Base",
    "Binding",
    "Board",
    "Border",
    "BorderOf",
    "BorderPass",
    "ByeStakes",
    "Cell",
    "CornerPosts",
    "CrossSticks",
    "Direction",
    "Ears",
    "Edge",
    "Extent",
    "ExtraEnds",
    "Fastening",
    "Fee",
    "Fitting",
    "FootStakes",
    "Frame",
    "FrameSticks",
    "Gathered",
    "Gauge",
    "Handle",
    "HandleTime",
    "Hinge",
    "Holes",
    "Join",
    "JoinWay",
    "Knob",
    "Laid",
    "LaidIn",
    "Lid",
    "Liner",
    "LongSticks",
    "MadePart",
    "Marks",
    "Material",
    "MeasuredAt",
    "Money",
    "Move",
    "MoveWay",
    "Outline",
    "OutlineShape",
    "OvalSlath",
    "Pattern",
    "PatternPhotograph",
    "PhotographPlace",
    "Plait",
    "ProfilePoint",
    "ReadyMade",
    "RoundSlath",
    "Settings",
    "ShortRows",
    "Side",
    "SizedPattern",
    "StageWords",
    "StakeAction",
    "StakeChange",
    "Stakes",
    "Stroke",
    "Tie",
    "WeaveKind",
    "WeaveSpec",
    "WovenSize",
    "Wrap",
]
MeasuredAt = Literal["at the stakes", "outside", "inside"]
Direction = Literal["left to right", "right to left"]


class Settings(Struct, frozen=True):
    """The maker's habits, each an amount with its basis: from the pattern, the workshop file or the trade defaults."""

    values: Mapping[str, Amount]

    def __getitem__(self, name: str) -> Amount:
        return self.values[name]

    def mm(self, name: str) -> float:
        """The bare value of a length setting."""
        return self.values[name].value


@declared("sized_pattern", hidden=True)
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
    measured: Annotated[
        MeasuredAt,
        key.choice(
            "Where the outlines of the side are measured: at the stakes (in the middle of the wall), outside or inside.",
            default="at the stakes",
            once=True,
        ),
    ] = "at the stakes"


@declared(
    "pattern",
    hidden=True,
    includes=("sized_pattern",),
    also={
        "slath": key.by_hand({"const": 1}, "Version of the language; 1 for now.", once=True, needed=True),
        "workshop_file": key.by_hand(
            "text",
            "A file in this folder with the workshop's own stocks, settings, gauge, packs and wording.",
            once=True,
        ),
        "sizes": key.by_hand(
            {"type": "array", "minItems": 1, "maxItems": 12, "uniqueItems": True, "items": refer("size_name")},
            "Names of the sizes, smallest first. Left out: one size.",
            once=True,
        ),
        "woven": key.by_hand(
            {"type": "object", "additionalProperties": refer("test_weave"), "x-sizes-may-lack": True},
            "Sizes somebody has woven from these numbers: the day, or the whole test-weave form filled in.",
        ),
        "variants": key.by_hand(
            {"type": "object", "minProperties": 1, "maxProperties": 12, "additionalProperties": refer("variant")},
            "Variants of the basket, the first the usual one: each names what is other in it. Materials, measures and settings are taken key by key, every other part whole.",
            once=True,
        ),
        "measures": key.by_hand(
            {
                "type": "object",
                "propertyNames": {"pattern": "^[a-z][a-z0-9_]*$"},
                "additionalProperties": refer("measure"),
            },
            "Measures of your own: a name, and a measure, a count or a formula over other measures.",
        ),
        "materials": key.by_hand(
            {"type": "object", "minProperties": 1, "additionalProperties": refer("material")},
            "Every material used, under a name of your own.",
            needed=True,
        ),
        "base": key.by_hand("base", "How the base is built.", needed=True),
        "stakes": key.by_hand(
            "stakes", "The uprights put into the base. Left out: the base's own sticks turn up (become_stakes)."
        ),
        "bye_stakes": key.by_hand(
            "bye_stakes_or_list",
            "Second uprights beside the stakes, not set into the base: one set, or a list of sets.",
        ),
        "side": key.by_hand("side", "The side: its height, rim, profile and bands from the base up. Left out: a mat."),
        "border": key.by_hand("border", "The border at the top, or at the edge of a mat."),
        "foot": key.by_hand("border", "A border below the base."),
        "handle": key.by_hand("handle", "The handle, or the set of like handles."),
        "handles": key.by_hand("handle_or_list", "Handles of more than one kind, as a list."),
        "lid": key.by_hand("lid", "A lid: a base with its own stakes, weaving and border, and its fit to the rim."),
        "parts": key.by_hand(
            "part_or_list",
            "Parts made by themselves and joined: a tier, a foot, a hood, a partition, the halves of a lid.",
        ),
        "fittings": key.by_hand(
            "fitting_or_list", "Pieces the construction does not call for: a hinge, a loop, a peg, binding wire."
        ),
        "gauge": key.by_hand(
            "gauge_or_list", "What was measured on a test piece; until then figures are marked estimated."
        ),
        "settings": key.by_hand("settings", "Your habits in place of the defaults: laps, trims, tails, cut steps."),
        "packs": key.by_hand("packs", "How a stock is sold, under the stock's name.", once=True),
        "accept": key.by_hand(
            "acceptance_or_list", "Warnings you overrule, each with a reason that is printed in the proof.", once=True
        ),
        "steps": key.by_hand(
            "stage_or_list",
            "Your own words for stages. Left out: every stage is written from the construction.",
            once=True,
        ),
        "money": key.by_hand(
            "cost",
            "What the work costs beside material: hours, rate, fees, mark-up. Told to you alone (slath cost), never to a buyer.",
        ),
    },
)
class Pattern(Struct, frozen=True):
    """A whole pattern file: what is the same for every size, and the sizes."""

    file: str
    title: Annotated[str, key.text("The basket's name, as on the cover.", once=True)]
    subtitle: Annotated[str, key.text("One line under the title.", once=True, needed=False)]
    edition: Annotated[
        str,
        key.text('Edition as printed on every page; quote it if it ends in a nought: "1.10".', once=True, needed=False),
    ]
    dated: Annotated[date | None, key.day("Day of this edition.", once=True, needed=False)]
    designer: Annotated[str, key.text("Who designed the basket.", once=True, needed=False)]
    workshop: Annotated[str, key.text("The workshop it comes from.", once=True, needed=False)]
    licence: Annotated[str, key.text("What a buyer may do with the booklet.", once=True, needed=False)]
    withheld: Annotated[
        tuple[str, ...],
        key.texts(
            "Sections the licence keeps out of handouts, and whatever elsewhere would give them away.",
            part={
                "type": "array",
                "items": {"enum": ["glance", "materials", "cut list", "bands", "tools", "steps", "figures"]},
            },
            once=True,
            needed=False,
        ),
    ]
    skill: Annotated[str, key.text("Who can make it: beginner, improver, experienced.", once=True, needed=False)]
    time: Annotated[str, key.text("How long it takes, in words.", once=True, needed=False)]
    about: Annotated[str, key.text("A paragraph about the basket.", once=True, needed=False)]
    working_direction: Annotated[
        Direction,
        key.choice(
            "Which way the weaving runs, seen from outside.",
            default="left to right",
            once=True,
            needed=False,
            stand_in="left to right",
        ),
    ]
    units: Annotated[
        First,
        key.choice(
            "Which measure stands first in print. Left out: as most lengths of the pattern are written.",
            once=True,
            needed=False,
        ),
    ]
    sizes: tuple[SizedPattern, ...]
    accept: tuple[Acceptance, ...]
    stages: tuple[StageWords, ...]
    tools: Annotated[
        tuple[str, ...], key.texts("Tools needed beside those the construction calls for.", once=True, needed=False)
    ]
    changes: Annotated[tuple[str, ...], key.texts("What changed since the edition before.", once=True, needed=False)]
    packs: Mapping[str, tuple[Pack, ...]]
    places: Places
    notes: tuple[Note, ...] = ()
    contact: Annotated[
        str, key.text("Where buyers and students write to: an address, a mail address or a web page.", once=True)
    ] = ""
    errata: Annotated[
        str, key.text("Where mistakes are reported and corrections are found; left out: the contact.", once=True)
    ] = ""
    photographs: Annotated[
        tuple[PatternPhotograph, ...],
        key.by_hand(
            "photograph_or_list",
            "Photographs for the cover, a stage or the back, each with words for who cannot see it.",
            once=True,
        ),
    ] = ()
    language: Annotated[
        str,
        key.choice(
            "The language the booklet is told in, by its code; your own words stay as you write them.",
            among=("de", "en"),
            default="en",
            once=True,
        ),
    ] = "en"
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


declare(
    "workshop",
    hidden=True,
    also={
        "slath": key.by_hand({"const": 1}, "Version of the language; 1 for now.", needed=True),
        "name": key.text("The workshop's name, printed where a pattern names none."),
        "stocks": key.by_hand(
            {"type": "object", "additionalProperties": refer("stock")},
            "Materials you buy, under the names patterns write after stock:.",
        ),
        "settings": key.by_hand("settings", "Your habits in place of the defaults."),
        "gauge": key.by_hand("gauge_or_list", "What was measured on test pieces."),
        "packs": key.by_hand("packs", "How a stock is sold, under the stock's name."),
        "steps": key.by_hand("stage_or_list", "House wording for stages, used where a pattern gives none."),
        "tools": key.texts("Tools always at hand."),
    },
)
