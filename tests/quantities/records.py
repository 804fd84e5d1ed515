"""Small patterns built from records, so that a test says only what it is about."""

from __future__ import annotations

from dataclasses import replace

from slath.basket.model import Round, WovenBand
from slath.language.pattern import (
    Band,
    Extent,
    Material,
    Outline,
    RoundSlath,
    Settings,
    SizedPattern,
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


def material(key: str, stock: Stock) -> Material:
    """Build a material titled by its key."""
    return Material(key, ("materials", key), stock, key)


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
    "rust": material("rust", reed("4", 2.75, 2.976)),
    "slate": material("slate", reed("4", 2.75, 2.976)),
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
    return replace(plain, **changed)  # type: ignore[arg-type]


def band(weave: WeaveSpec, strands: tuple[str, ...], rounds: int = 5, **changed: object) -> Band:
    """A band of the side by rounds."""
    plain = Band("test band", ("side", "bands", 0), weave, strands, Extent(rounds=rounds))
    return replace(plain, **changed)  # type: ignore[arg-type]


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
