"""The names of everyday units, and what each is in millimetres or grams."""

from __future__ import annotations

from typing import NamedTuple


class Dimension(NamedTuple):
    """Powers of length and of mass: (1, 0) a length, (0, 1) a mass, (0, 0) a plain number, (-1, 1) mass per length."""

    length: int
    mass: int

    @property
    def words(self) -> str:
        """What it is called in a note."""
        return _WORDS.get(self, "neither a length, a mass nor a number")


_WORDS = {
    Dimension(0, 0): "a plain number",
    Dimension(1, 0): "a length",
    Dimension(0, 1): "a mass",
    Dimension(2, 0): "an area",
    Dimension(-1, 1): "a mass for a length",
    Dimension(1, -1): "a length for a mass",
}

# NIST Special Publication 811 (2008), appendix B.8: the inch, foot, yard, pound and ounce (avoirdupois) are exact.
INCH_MM, FOOT_MM, YARD_MM = 25.4, 304.8, 914.4
POUND_G, OUNCE_G = 453.59237, 28.349523125
_FACTORS: tuple[tuple[float, Dimension, tuple[str, ...]], ...] = (
    (1.0, Dimension(1, 0), ("mm", "millimetre", "millimetres", "millimeter", "millimeters")),
    (10.0, Dimension(1, 0), ("cm", "centimetre", "centimetres", "centimeter", "centimeters")),
    (1000.0, Dimension(1, 0), ("m", "metre", "metres", "meter", "meters")),
    (INCH_MM, Dimension(1, 0), ("in", "inch", "inches", "ins")),
    (FOOT_MM, Dimension(1, 0), ("ft", "foot", "feet")),
    (YARD_MM, Dimension(1, 0), ("yd", "yds", "yard", "yards")),
    (1.0, Dimension(0, 1), ("g", "gram", "grams", "gramme", "grammes")),
    (1000.0, Dimension(0, 1), ("kg", "kilo", "kilos", "kilogram", "kilograms")),
    (POUND_G, Dimension(0, 1), ("lb", "lbs", "pound", "pounds")),
    (OUNCE_G, Dimension(0, 1), ("oz", "ounce", "ounces")),
)
EVERYDAY_UNITS = {name: (factor, dimension) for factor, dimension, names in _FACTORS for name in names}

# Units of some trade that are words of ours: "3 rods" is never 49 feet here.
TRADE_WORDS = frozenset(
    {"rod", "rods", "pole", "poles", "perch", "chain", "chains", "link", "links", "point", "points", "round", "rounds"}
)


def unit_names() -> tuple[str, ...]:
    """Every everyday name, in table order."""
    return tuple(EVERYDAY_UNITS)
