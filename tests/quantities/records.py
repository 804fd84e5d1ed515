"""Small patterns built from records, so that a test says only what it is about."""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.model import Round, WovenBand
from slath.language.pattern import (
    Band,
    Board,
    Border,
    BorderPass,
    Extent,
    Material,
    Move,
    Outline,
    OvalSlath,
    RoundSlath,
    Settings,
    Side,
    SizedPattern,
    Stakes,
    Stroke,
    WeaveSpec,
)
from slath.trade.settings import default_settings
from slath.trade.stock import Pack, Stock
from slath.units import Amount, Basis

RAND = WeaveSpec("rand", (Stroke(1, 1),), 1, 1, False, "randing")
CHASE = WeaveSpec("chase", (Stroke(1, 1),), 2, 1, False, "chasing")
PAIR = WeaveSpec("pair", (Stroke(1, 1),), 2, 1, True, "pairing")
SLEW = WeaveSpec("slew", (Stroke(1, 1),), 1, 3, False, "three-rod slewing")
WALE = WeaveSpec("wale", (Stroke(2, 1),), 3, 1, True, "three-rod wale")
FOUR_WALE = WeaveSpec("wale", (Stroke(3, 1),), 4, 1, True, "four-rod wale")
FRENCH = WeaveSpec("french rand", (Stroke(1, 1),), 1, 1, False, "French rand")
PACKING = WeaveSpec("packing", (Stroke(1, 1),), 1, 1, False, "packing")

COIL = Pack("1 lb coil", mass_g=453.59237)


def reed(number: str, diameter: float, grams_per_metre: float | None = None) -> Stock:
    """Build a round reed."""
    return Stock(
        name=f"us round reed {number}",
        kind="round reed",
        width_mm=diameter,
        thickness_mm=diameter,
        scale="US",
        number=number,
        grams_per_metre=grams_per_metre,
        usual_length_mm=4876.8,
        packs=(COIL,),
        basis=Basis.MEMORY,
        mass_basis=Basis.MEMORY,
    )


def material(key: str, stock: Stock, dye: str | None = None) -> Material:
    """Build a material titled by its key."""
    return Material(key, ("materials", key), stock, key, dye)


def settings(**changed: float) -> Settings:
    """The trade's defaults with some values set by the designer."""
    values = default_settings()
    for name, value in changed.items():
        values[name] = replace(values[name], value=value, basis=Basis.GIVEN)
    return Settings(values)


MATERIALS = {
    "sticks": material("sticks", reed("8", 5.6, 12.8)),
    "stakes": material("stakes", reed("5", 3.25, 4.25)),
    "plain": material("plain", reed("4", 2.75, 2.976)),
    "rust": material("rust", reed("4", 2.75, 2.976), "rust"),
    "slate": material("slate", reed("4", 2.75, 2.976), "slate"),
    "fine": material("fine", reed("2", 1.75, 1.353)),
}


def sized(**changed: object) -> SizedPattern:
    """A bare size: an 8 in round base, the usual materials and settings, nothing else."""
    plain = SizedPattern(
        size="medium",
        woven_on=None,
        measures={},
        materials=MATERIALS,
        base=RoundSlath(("base",), Outline("circle", 203.2, 203.2), 4, 4, half_stick=False, material="sticks"),
        stakes=None,
        bye_stakes=(),
        side=None,
        border=None,
        foot=None,
        handles=(),
        lid=None,
        gauge=(),
        settings=settings(),
    )
    return replace(plain, **changed)


def band(weave: WeaveSpec, strands: tuple[str, ...], rounds: int = 5, **changed: object) -> Band:
    """A band of the side by rounds."""
    plain = Band("test band", ("side", "bands", 0), weave, strands, Extent(rounds=rounds))
    return replace(plain, **changed)


def woven(spec: Band, uprights: int, perimeters: list[float], pitch_mm: float = 6.0) -> WovenBand:
    """A band woven on rounds of the given perimeters, one material listed for each strand of each rod."""
    pitch = Amount("height of one round", pitch_mm, "mm", Basis.ESTIMATED)
    rods = uprights if spec.weave.kind == "french rand" else spec.weave.rods
    each = spec.weave.as_one
    strands = spec.strands * (rods * each) if len(spec.strands) == 1 else spec.strands
    rounds = tuple(
        Round(index + 1, (index + 0.5) * pitch_mm, (index + 0.5) * pitch_mm, perimeter, perimeter / uprights)
        for index, perimeter in enumerate(perimeters)
    )
    return WovenBand(
        spec=spec,
        index=0,
        uprights=uprights,
        group_sizes=(1,) * uprights,
        materials=tuple(strands[rod * each : (rod + 1) * each] for rod in range(rods)),
        rounds=rounds,
        pitch=pitch,
        asked_mm=None,
        reached_mm=pitch_mm * len(perimeters),
        interlocks=True,
        steps=None,
        start=1,
        from_mm=0.0,
    )


# ------------------------------------------------------------------------------------------- whole patterns to construct
def round_pattern(**changed: object) -> SizedPattern:
    """Five through five, two stakes an end, an 8 in base flaring to 10 in, 4 in high: pairing, randing, a wale."""
    base = RoundSlath(
        ("base",),
        Outline("circle", 203.2, 203.2),
        pierced=5,
        threaded=5,
        half_stick=False,
        material="sticks",
        weaving=(
            Band("tying in", ("base", "weaving", 0), PAIR, ("fine", "fine"), Extent(rounds=2), "base", "grouped"),
            Band("base", ("base", "weaving", 1), PAIR, ("fine", "fine"), Extent(to="edge"), "base"),
        ),
    )
    side = Side(
        ("side",),
        101.6,
        Outline("circle", 254.0, 254.0),
        "straight",
        0.0,
        (),
        (
            band(WALE, ("plain",), name="upsett", rounds=2),
            band(CHASE, ("plain", "rust"), name="field", extent=Extent(to="top"), path=("side", "bands", 1)),
        ),
    )
    plain = sized(base=base, stakes=Stakes(("stakes",), "stakes", per_end=2), side=side, border=trac_border())
    return replace(plain, **changed)


def oval_pattern(**changed: object) -> SizedPattern:
    """An oval base 9 1/2 × 5 in, three lengthwise and seven crosswise sticks, waled 6 in high in three colours."""
    base = OvalSlath(
        ("base",),
        Outline("ellipse", 241.3, 127.0),
        lengthwise=3,
        groups=(2, 1, 1, 1, 2),
        lengthwise_material="sticks",
        crosswise_material="sticks",
        weaving=(Band("base", ("base", "weaving", 0), PAIR, ("fine", "fine"), Extent(to="edge"), "base"),),
    )
    spiral = band(WALE, ("plain", "rust", "slate"), name="spiral", extent=Extent(to="top"))
    side = Side(("side",), 152.4, Outline("ellipse", 266.7, 152.4), "straight", 0.0, (), (spiral,))
    stakes = Stakes(("stakes",), "stakes", per_end=2, exceptions={"crosswise singles": 1})
    return replace(sized(base=base, stakes=stakes, side=side, border=trac_border()), **changed)


def through_pattern(**changed: object) -> SizedPattern:
    """Four through four and a half stick, every end a stake: 17 stakes, a 3 in base, randed 2 in high."""
    base = RoundSlath(
        ("base",),
        Outline("circle", 76.2, 76.2),
        pierced=4,
        threaded=4,
        half_stick=True,
        material="plain",
        become_stakes=True,
        weaving=(Band("base", ("base", "weaving", 0), RAND, ("fine",), Extent(to="edge"), "base"),),
    )
    side = Side(
        ("side",), 50.8, Outline("circle", 101.6, 101.6), "straight", 0.0, (), (band(RAND, ("fine",), rounds=24),)
    )
    return replace(sized(base=base, side=side, border=trac_border()), **changed)


def tray_pattern(**changed: object) -> SizedPattern:
    """A drilled oval board 12 × 8 in with 38 holes, waled 2 in high, with a foot border."""
    board = Board(("base",), Outline("ellipse", 304.8, 203.2), "board", 6.0, 38, None, 9.5)
    side = Side(("side",), 50.8, None, "straight", 0.0, (), (band(WALE, ("plain",), extent=Extent(to="top")),))
    foot = replace(trac_border(), path=("foot",), foot=True)
    wood = Stock("plywood 6 mm", "wood", 6.0, 6.0, scale="mm")
    stocked = {**MATERIALS, "board": material("board", wood)}
    stakes = Stakes(("stakes",), "stakes")
    plain = sized(materials=stocked, base=board, stakes=stakes, side=side, border=trac_border(), foot=foot)
    return replace(plain, **changed)


def trac_border() -> Border:
    """Behind one and out, then before two and in."""
    return Border(
        ("border",),
        (
            BorderPass(("border", "passes", 0), (Move("behind", 1), Move("out"))),
            BorderPass(("border", "passes", 1), (Move("before", 2), Move("in"))),
        ),
    )
