"""Handles, and what belongs to them: what is wound round, ears, bindings, liners."""

from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.handle_kinds import HANDLE_KINDS, Family, HandleName
from slath.language.keys import Annotated, declared
from slath.language.places import Path

MOST_BOWS = 2  # hang in one pair of ears


@declared("wrap", listed="a wrap", example="{kind: rope, strands: plain, lay: 4 in}")
class Wrap(Struct, frozen=True):
    """Material round a handle: "rope" strands at a lay, or "lapping" wound flat edge to edge.

    `listed`: the designer listed the strands one by one, and so many are wound; else one material is named, of which a
    rope takes as many strands as cover the handle.
    """

    path: Path
    kind: Annotated[
        Literal["rope", "lapping", "twist"],
        key.choice(
            "rope: strands at a lay; lapping: flat, edge to edge; twist: the piece with itself.",
            say={"write lapping": "wrapping, wrapped, wrap, binding", "write rope": "roped", "write twist": "twisted"},
        ),
    ]
    strands: Annotated[tuple[str, ...], key.materials("Its materials.")]
    lay_mm: Annotated[float | None, key.length("Length of bow for one turn.")] = None
    turns: Annotated[int | None, key.count("Turns in all.")] = None
    cover: Annotated[Literal["full", "spaced"], key.choice("full, or spaced with a gap.")] = "full"
    gap_mm: Annotated[float | None, key.length("Bow left bare between strands.", nought=True)] = None
    listed: bool = False
    over_mm: Annotated[
        float | None, key.length("Length of the handle that is bound at each place; left out: the whole handle.")
    ] = None  # of each place that is bound; None: the whole handle
    places: Annotated[int, key.count("Places that are bound; 1 unless you say.", most=60)] = 1
    from_mm: Annotated[
        float | None, key.length("How far along the handle, from either foot, it begins.", nought=True)
    ] = None  # where it begins, along the handle from either foot
    group: Annotated[
        int,
        key.count(
            "Of a rope: strands laid side by side and wound as one; as many whole groups as cover the handle.", most=24
        ),
    ] = 1  # strands of a rope that are wound as one
    count: Annotated[int | None, key.count("Of a rope: strands in all, where you fix it.", most=200)] = (
        None  # strands of a rope in all, where the designer fixes it
    )
    offcuts: Annotated[
        bool, key.yes("yes: of the tops that are cut off when the border is done; nothing is bought for it.")
    ] = False  # the tops of whole rods, cut off when the border was done


@declared(
    "ears",
    "Notched lugs beside two stakes that face each other.",
    example="{material: ash, width: 1 1/2 in, length: 3 1/2 in}",
)
class Ears(Struct, frozen=True):
    """The two lugs a swinging handle hangs in, flat pieces of wood: the notch that holds the border (or the rows under
    it), and one hole for every bow or two side by side. `rise_mm` is what stands above the rim.
    """

    path: Path
    material: Annotated[str, key.material("What they are sawn of: one of your materials.")]
    holes: Annotated[
        int, key.count("1 for every bow, or 2 side by side; left out: one for each bow.", most=MOST_BOWS, needed=False)
    ]
    length_mm: Annotated[float | None, key.length("From top to point.")] = None
    width_mm: Annotated[float | None, key.length("Across the face; left out: as wide as its wood is sold.")] = None
    notch_mm: Annotated[float | None, key.length("Height of the notch.")] = None
    rise_mm: Annotated[float | None, key.length("How far each stands above the rim.")] = None
    holds: Annotated[Literal["border", "top rows"], key.choice("What lies in the notch.")] = "border"
    hole_mm: Annotated[float | None, key.length("Across each hole; left out: as its bows need.")] = None


@declared("binding", "What ends turned back are bound with.", example="{material: wire}")
class Binding(Struct, frozen=True):
    """What the turned back ends of a swinging handle are bound with, at `places` of each end."""

    path: Path
    material: Annotated[str, key.material("Wire or waxed thread: one of your materials.")]
    places: Annotated[int, key.count("Places on each end that are bound; 2 unless you say.", most=12)] = 2
    turns: Annotated[int | None, key.count("Turns at each place.", most=60)] = None
    length_mm: Annotated[float | None, key.length("Cut length of each, where you fix it.")] = None


@declared("liner", "Short pieces in the place of a handle's feet.", example="{material: stakes}")
class Liner(Struct, frozen=True):
    """Short pieces that keep the places of a handle's feet open from the band `after` on (empty: from the first)."""

    path: Path
    material: Annotated[str, key.material("What they are: as thick as the handle, or a little thinner.")]
    after: Annotated[str, key.text("Name of the band after which they are pushed in; left out: the first.")] = ""
    length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None


HandleTime = Literal["at the upsett", "before the border", "after the border"]


@declared("handle", listed="a handle", example="{kind: bow, material: bow, rise: 7 in}")
class Handle(Struct, frozen=True):
    """A handle or a set of like handles.

    `rise_mm` stands from the rim to the under side of the top. `span_mm` is between the feet; left out, it is taken
    from the rim. `at` are the stakes beside which the feet go down. `feet_mm` is how deep each foot goes.
    """

    path: Path
    kind: Annotated[
        HandleName,
        key.choice(
            "Kind of handle.",
            say={
                "write kind: swinging": "swing, swivel, hinged",
                "write kind: bow": "hoop, arch, basket, overhead, single",
                "write kind: bow, and what is wound round it under wraps": "wrapped, lapped, bound",
                "write kind: roped": "rope",
                "write kind: braided": "plait, plaited, braid",
                "write kind: side for a loop at the rim, or kind: drop for one that hangs": "loop",
                "write kind: ring": "knob",
                "write kind: ears": "lug, lugs",
                "write kind: side and direction: along": "end, ends",
            },
        ),
    ]
    material: Annotated[str, key.material("What it is made of: one of your materials.")]
    count: Annotated[int, key.count("How many like it; 1 unless you say.", most=24)] = 1
    pieces: Annotated[int, key.count("Pieces side by side, or end to end in a two-piece handle.", most=60)] = 1
    rise_mm: Annotated[
        float | None,
        key.length("From the rim to the under side of its top; of ears: how far they stand above the rim."),
    ] = None
    span_mm: Annotated[float | None, key.length("Between its feet; left out: across the rim.")] = None
    shape: Annotated[Literal["half ellipse", "half circle", "square shoulders"], key.choice("Its curve.")] = (
        "half ellipse"
    )
    direction: Annotated[Literal["across", "along"], key.choice("across the basket, or along it.")] = "across"
    at: Annotated[tuple[int, ...], key.counts("Stakes beside which its feet go down, counted from the first.")] = ()
    feet_mm: Annotated[float | None, key.length("How deep each foot goes down.", nought=True)] = None
    lap_mm: Annotated[float | None, key.length("Length over which two pieces are scarfed together.", nought=True)] = (
        None
    )
    diameter_mm: Annotated[float | None, key.length("Across a ring handle.")] = None
    length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None
    wraps: Annotated[tuple[Wrap, ...], key.many(Wrap, "wrap", "What is wound round it, in order.")] = ()
    lash: Annotated[str, key.material("Material it is lashed on with.")] = ""
    note: Annotated[str, key.text("A remark printed with it.")] = ""
    through_base: Annotated[
        bool, key.yes("yes: base and handle in one, each piece going on down the side and under the base.")
    ] = False  # goes on down the side and under the base, in one round
    scarf_mm: Annotated[
        float | None, key.length("Of a swinging handle: how much of each end is thinned and turned back from its hole.")
    ] = None  # of a swinging handle: thinned and turned back at each end
    ears: Annotated[Ears | None, key.one(Ears, "ears", "Of a swinging handle: the two lugs its bows hang in.")] = None
    bind: Annotated[
        Binding | None,
        key.one(
            Binding,
            "binding",
            "Of a swinging handle: what its turned back ends are bound with, under whatever is wound over them.",
        ),
    ] = None
    rounds: Annotated[int | None, key.count("Of a ring: wound of one strand, so often round.", most=24)] = (
        None  # of a ring wound of one strand
    )
    set_in: Annotated[
        HandleTime,
        key.choice(
            "When its feet go down beside their stakes; left out: after the border, ears before it.",
            say={
                "write at the upsett": "upsett, after the upsett",
                "write before the border": "before border",
                "write after the border": "after border",
            },
            name="set",
        ),
    ] = "after the border"
    liner: Annotated[
        Liner | None,
        key.one(Liner, "liner", "Short pieces that keep the places of its feet open, drawn out when it is set in."),
    ] = None

    @property
    def family(self) -> Family:
        """What it is built like."""
        return HANDLE_KINDS[self.kind].family

    @property
    def bent_first(self) -> bool:
        """Whether it must dry in its shape before it is set in."""
        return HANDLE_KINDS[self.kind].dries and not self.through_base
