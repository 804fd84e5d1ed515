"""Measures as they are printed: inch fractions, feet, millimetres and masses, each rounded once from the inside value.

Every string uses plain characters (``3 3/4 in``); whoever sets type may take `inch_parts` for a real fraction.
Rounding is to the nearest, halves up; what is bought, the bit for a hole and a length to cut are rounded up.

A measure that is whole 16ths of an inch, or whole millimetres, was given or chosen so, and is printed as it is. One that
was worked out is printed as a rule is read at the bench: from two inches on in quarters, and in steps of 5 mm (Gill 1916
and White 1901 print finished sizes in quarters and eighths).
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from slath.units.amount import FinishedSize, LengthToCut
from slath.units.names import FOOT_MM, INCH_MM, OUNCE_G

First = Literal["inches", "mm"]

SMALL_MM = INCH_MM / 4
_COARSE_INCH = 2 * INCH_MM  # from here on worked-out inches go by quarters
_COARSE_MM, _COARSE_STEP_MM = 50.0, 5.0
_EXACT = 1e-5  # of a step: a measure this near to whole steps is whole steps
_SAME = 1e-9  # of one step: what binary arithmetic may leave over a whole step, so that 3 in stays 3 in


class InchParts(Struct, frozen=True):
    """Inches as a whole number and a fraction in lowest terms; ``numerator`` 0 means there is no fraction."""

    whole: int
    numerator: int
    denominator: int

    def __str__(self) -> str:
        if not self.numerator:
            return str(self.whole)
        fraction = f"{self.numerator}/{self.denominator}"
        return f"{self.whole} {fraction}" if self.whole else fraction


def steps_nearest(value: float, step: float) -> int:
    """How many whole steps are nearest to `value` ≥ 0, halves going up. ValueError if it is no length or mass."""
    return math.floor(_steps(value, step) + 0.5 + _SAME)


def steps_up(value: float, step: float) -> int:
    """How many whole steps reach at least `value` ≥ 0. ValueError if it is no length or mass."""
    return math.ceil(_steps(value, step) - _SAME)


def _steps(value: float, step: float) -> float:
    if not (math.isfinite(value) and value >= 0 and step > 0):
        raise ValueError(f"{value} cannot be printed in steps of {step}")
    return value / step


def inch_parts(mm: float, denominator: int = 16) -> InchParts:
    """`mm` in inches to the nearest 1/`denominator`."""
    return _parts(Fraction(steps_nearest(mm, INCH_MM / denominator), denominator))


def _parts(inches_exact: Fraction) -> InchParts:
    whole, rest = divmod(inches_exact, 1)
    return InchParts(whole, rest.numerator, rest.denominator)


def inches(mm: float, denominator: int = 16) -> str:
    """``3 3/4 in``. Under a quarter of an inch a 16th is much, so that 32nds are given; what would round to nothing is
    given to the 64th, or as ``under 1/64 in``.
    """
    parts = inch_parts(mm, denominator)
    if mm > 0 and not (parts.whole or parts.numerator):
        parts = inch_parts(mm, 64)
        if not parts.numerator:
            return "under 1/64 in"
    elif mm < SMALL_MM and denominator == 16:
        parts = inch_parts(mm, 32)
    return f"{parts} in"


def inches_up(mm: float, step_mm: float) -> str:
    """Inches rounded up to a step; one that is no neat part of an inch goes by 16ths."""
    step = Fraction(step_mm / INCH_MM).limit_denominator(64)
    if abs(float(step) * INCH_MM - step_mm) > 1e-6 or not step:
        step = Fraction(1, 16)
    return f"{_parts(steps_up(mm, float(step) * INCH_MM) * step)} in"


def feet(mm: float, *, up: bool = False) -> str:
    """Whole feet, rounded up for buying; below ten feet, where a whole foot is much, half feet."""
    step = Fraction(1, 2) if mm < 10 * FOOT_MM else Fraction(1)
    return f"{_parts((steps_up if up else steps_nearest)(mm, float(step) * FOOT_MM) * step)} ft"


def millimetres(mm: float, places: int = 0) -> str:
    """``229 mm``; with `places`, up to that many decimals and no idle noughts (``2.75 mm``)."""
    return f"{decimal(mm, places)} mm"


def millimetres_up(mm: float, step_mm: float) -> str:
    """Millimetres rounded up to a step."""
    return f"{steps_up(mm, step_mm) * step_mm:.10g} mm"


def metres(mm: float, *, up: bool = False) -> str:
    """Metres to one decimal, rounded up for buying."""
    tenths = (steps_up if up else steps_nearest)(mm, 100.0)
    return f"{tenths / 10:g} m" if tenths < 10_000_000 else f"{tenths // 10} m"


def grams(g: float) -> str:
    """``340 g``; from one kilogram on, ``1.25 kg``."""
    if steps_nearest(g, 1.0) >= 1000:
        return f"{decimal(g / 1000, 2)} kg"
    return f"{steps_nearest(g, 1.0)} g" if g >= 10 or g == 0 else f"{decimal(g, 1)} g"


def ounces(g: float) -> str:
    """Ounces to the quarter, as ``1 lb 4 1/2 oz`` from one pound on; a trace is ``under 1/4 oz``."""
    quarters = steps_nearest(g, OUNCE_G / 4)
    if not quarters and g > 0:
        return "under 1/4 oz"
    pounds, left = divmod(Fraction(quarters, 4), 16)
    if pounds and not left:
        return f"{pounds} lb"
    return f"{pounds} lb {_parts(left)} oz" if pounds else f"{_parts(left)} oz"


def in_both(mm: float, denominator: int = 16) -> tuple[str, str]:
    """``9 in`` and ``229 mm``: each rounded from `mm` itself. Small measures keep a decimal of a mm.

    Coarser where the measure was worked out (see above); a finished size under two inches in eighths; a length to cut is
    rounded up.
    """
    if isinstance(mm, LengthToCut):
        return _cut_inches(mm), millimetres_up(mm, 1.0)
    in_sixteenths, in_millimetres = _whole(mm, INCH_MM / 16), _whole(mm, 1.0)
    if denominator == 16 and not in_sixteenths and mm >= SMALL_MM:
        denominator = 4 if mm >= _COARSE_INCH else 8 if isinstance(mm, FinishedSize) else 16
    imperial = inches(mm, denominator)
    if mm < _COARSE_MM or in_sixteenths or in_millimetres:
        return imperial, millimetres(mm, 0 if mm >= 10 else 1)
    return imperial, f"{steps_nearest(mm, _COARSE_STEP_MM) * _COARSE_STEP_MM:g} mm"


def _whole(mm: float, step: float) -> bool:
    steps = _steps(mm, step)
    return abs(steps - round(steps)) < _EXACT


def _cut_inches(mm: float) -> str:
    """Inches that are never less than the length to cut: as they are in whole 16ths, else up to the quarter or eighth."""
    if _whole(mm, INCH_MM / 16):
        return f"{inch_parts(mm)} in"
    return inches_up(mm, INCH_MM / (4 if mm >= _COARSE_INCH else 16))


def bit_in_both(mm: float) -> tuple[str, str]:
    """The bit for a hole at least `mm` wide: up to the next 64th of an inch, and the next tenth of a mm."""
    return inches_up(mm, INCH_MM / 64), millimetres_up(mm, 0.1)


def long_in_both(mm: float, *, up: bool = False) -> tuple[str, str]:
    """A length of material: ``62 ft`` and ``18.9 m``; short ones in half inches and centimetres. `up` for buying."""
    up = up or isinstance(mm, LengthToCut)
    if mm >= 2 * FOOT_MM:
        return feet(mm, up=up), metres(mm, up=up)
    if not up:
        return inches(mm, 2), millimetres(mm, 0 if mm >= 10 else 1)
    return inches_up(mm, INCH_MM / 2), millimetres_up(mm, 1.0)


def both(mm: float, first: First = "inches", denominator: int = 16) -> str:
    """``9 in (229 mm)``, or ``229 mm (9 in)`` (see `in_both`)."""
    return ordered(*in_both(mm, denominator), first)


def both_by(long_mm: float, wide_mm: float, first: First = "inches") -> str:
    """``9 × 6 in (229 × 152 mm)``: length by width, each rounded from its own value."""
    (long_inches, long_metric), (wide_inches, wide_metric) = in_both(long_mm), in_both(wide_mm)
    imperial = f"{long_inches.removesuffix(' in')} × {wide_inches}"
    return ordered(imperial, f"{long_metric.removesuffix(' mm')} × {wide_metric}", first)


def both_bit(mm: float, first: First = "inches") -> str:
    """Print the bit for a hole (see `bit_in_both`)."""
    return ordered(*bit_in_both(mm), first)


def both_long(mm: float, first: First = "inches", *, up: bool = False) -> str:
    """Print a length of material: ``62 ft (18.9 m)`` (see `long_in_both`)."""
    return ordered(*long_in_both(mm, up=up), first)


def both_mass(g: float, first: First = "inches") -> str:
    """``12 oz (340 g)``, or grams first where millimetres come first."""
    return ordered(ounces(g), grams(g), first)


def ordered(imperial: str, metric: str, first: First) -> str:
    """A measure in both units, the reader's own first."""
    return f"{imperial} ({metric})" if first == "inches" else f"{metric} ({imperial})"


def decimal(value: float, places: int) -> str:
    """Round to `places` decimals, halves up, without idle noughts."""
    steps = steps_nearest(value, 10.0**-places)
    whole, rest = divmod(steps, 10**places)
    decimals = f"{rest:0{places}d}".rstrip("0") if places else ""
    return f"{whole}.{decimals}" if decimals else str(whole)
