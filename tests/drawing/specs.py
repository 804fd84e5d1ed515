"""Sized patterns written as records, for drawing tests: small, quick, and covering every construct."""

from __future__ import annotations

from msgspec.structs import replace

from slath.language.pattern import (
    Band,
    Border,
    BorderPass,
    Extent,
    Handle,
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
    Wrap,
)
from slath.language.places import Path
from slath.trade.settings import default_settings
from slath.trade.stock import Stock
from slath.units import Basis

AT: Path = ("test",)


def material(key: str, mm: float, colour: str = "#efe4c8", marks: str = "none", letter: str = "") -> Material:
    """A round material of one width."""
    stock = Stock(f"round {mm}", "round reed", mm, mm, usual_length_mm=2400.0, basis=Basis.GIVEN)
    return Material(key, AT, stock, key, None, letter, colour, marks)  # type: ignore[arg-type]


MATERIALS = {
    "sticks": material("sticks", 5.0, letter="K"),
    "stakes": material("stakes", 3.25, letter="T"),
    "plain": material("plain", 2.75, letter="P"),
    "rust": material("rust", 2.75, "#cf8a62", "rings", "R"),
    "slate": material("slate", 2.75, "#2c4452", "centre line", "S"),
    "moss": material("moss", 2.75, "#5f7a4a", "dots", "M"),
    "handle": material("handle", 9.0, letter="H"),
}


def rand(before: int = 1, behind: int = 1) -> WeaveSpec:
    """Randing with one rod."""
    return WeaveSpec("rand", (Stroke(before, behind),), 1, 1, False, "randing")


def chase() -> WeaveSpec:
    """Chasing: two rods on opposite faces."""
    return WeaveSpec("chase", (Stroke(1, 1),), 2, 1, False, "chasing")


def slew(strands: int = 2) -> WeaveSpec:
    """Slewing: strands worked as one."""
    return WeaveSpec("slew", (Stroke(1, 1),), 1, strands, False, f"slewing, {strands} as one")


def pair() -> WeaveSpec:
    """Pairing."""
    return WeaveSpec("pair", (Stroke(1, 1),), 2, 1, True, "pairing")


def wale(rods: int = 3, before: int | None = None) -> WeaveSpec:
    """A wale of so many rods, before all but one unless said otherwise."""
    before = before or rods - 1
    number = {3: "three", 4: "four", 5: "five", 6: "six"}[rods]
    return WeaveSpec("wale", (Stroke(before, rods - before),), rods, 1, True, f"{number}-rod wale")


def french_rand() -> WeaveSpec:
    """French randing: a rod at every stake."""
    return WeaveSpec("french rand", (Stroke(1, 1),), 1, 1, False, "French rand")


def band(
    name: str, weave: WeaveSpec, strands: tuple[str, ...], rounds: int | None = None, *, to: str | None = None,
    part: str = "side", groups: int | str = 1, step_up: bool = False, reversed_: bool = False, size_mm: float | None = None,
) -> Band:  # fmt: skip
    """A band of weaving."""
    extent = Extent(rounds=rounds, to=to, size_mm=size_mm)  # type: ignore[arg-type]
    return Band(
        name,
        (*AT, name),
        weave,
        strands,
        extent,
        part,
        groups,  # type: ignore[arg-type]
        step_up=step_up,
        reversed=reversed_,
    )


def passes(*moves: tuple[tuple[str, int], ...]) -> tuple[BorderPass, ...]:
    """Passes of a border from their moves."""
    return tuple(BorderPass(AT, tuple(Move(way, count) for way, count in each)) for each in moves)  # type: ignore[arg-type]


TWO_PASS = Border(AT, passes((("behind", 2), ("out", 0)), (("before", 3), ("in", 0))))


def pattern(
    base: object, stakes: Stakes | None, side: Side | None, border: Border | None = None, **more: object
) -> SizedPattern:
    """A sized pattern with the maker's usual settings."""
    sized = SizedPattern(
        size="medium", woven_on=None, measures={}, materials=MATERIALS, base=base, stakes=stakes,  # type: ignore[arg-type]
        bye_stakes=(), side=side, border=border, foot=None, handles=(), lid=None, gauge=(),
        settings=Settings(default_settings()),
    )  # fmt: skip
    return replace(sized, **more)


def round_slath(
    size: float = 190.0, pierced: int = 5, threaded: int = 5, *, half: bool = False, become: bool = False
) -> RoundSlath:
    """A round slath woven in pairing, opened in stages."""
    weaving = (
        band("binding", pair(), ("plain", "rust"), 2, part="base", groups=8),
        band("opening", pair(), ("plain", "rust"), 3, part="base", groups=2),
        band("base", pair(), ("plain", "rust"), to="edge", part="base"),
    )
    return RoundSlath(
        AT, Outline("circle", size, size), pierced, threaded, half, "sticks", weaving=weaving, become_stakes=become
    )


def oval_slath() -> OvalSlath:
    """An oval slath of four lengthwise sticks and seven cross sticks, chased."""
    weaving = (
        band("grouped rounds", chase(), ("plain", "plain"), 2, part="base", groups="grouped"),
        band("base", chase(), ("plain", "plain"), to="edge", part="base"),
    )
    return OvalSlath(AT, Outline("ellipse", 280.0, 180.0), 4, (2, 1, 1, 1, 2), "sticks", "sticks", weaving=weaving)


def round_basket(stakes_left_out: int = 0) -> SizedPattern:
    """A round basket, five through five, 40 stakes less those left out, three colours."""
    side = Side(
        AT, 150.0, Outline("circle", 246.0, 246.0), "belly", 10.0, (),
        (
            band("upsett", wale(4), ("plain",), 2, step_up=True),
            band("spiral", wale(3), ("plain", "rust", "slate"), to="top"),
        ),
    )  # fmt: skip
    return pattern(round_slath(), Stakes(AT, "stakes", 2, leave_out=stakes_left_out, depth_mm=50.0), side, TWO_PASS)


def oval_basket() -> SizedPattern:
    """An oval basket of 44 stakes with a wrapped bow handle."""
    side = Side(
        AT, 118.0, Outline("ellipse", 330.0, 236.0), "straight", 0.0, (),
        (
            band("upsett", wale(3), ("plain",), 2, step_up=True),
            band("spiral", wale(3), ("plain", "rust", "slate"), to="top"),
        ),
    )  # fmt: skip
    bow = Handle(
        AT, "bow", "handle", rise_mm=150.0, direction="across", feet_mm=100.0, lap_mm=150.0,
        wraps=(Wrap(AT, "rope", ("plain", "plain", "rust", "plain", "plain"), lay_mm=58.0, cover="spaced"),),
    )  # fmt: skip
    return pattern(oval_slath(), Stakes(AT, "stakes", 2, depth_mm=50.0), side, TWO_PASS, handles=(bow,))


def goes_before(before: int, behind: int, rod: int, travelled: int) -> bool:
    """Whether rod `rod` of a weave passes the upright at `travelled` in front: counted out by hand, stroke by stroke."""
    position = rod
    while True:
        for face, count in ((True, before), (False, behind)):
            for _ in range(count):
                if position == travelled:
                    return face
                position += 1
