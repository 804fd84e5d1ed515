"""Measures as people write them, against exact published conversions and against pint."""

from __future__ import annotations

import unicodedata

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from slath.units.names import EVERYDAY_UNITS, Dimension
from slath.units.reading import MeasureFaultError, find_unit, scan_quantity

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()
LENGTH, MASS, NUMBER = Dimension(1, 0), Dimension(0, 1), Dimension(0, 0)


@pytest.mark.parametrize(
    ("text", "value", "dimension"),
    [
        # NIST Special Publication 811 (2008), appendix B.8: the inch, foot, yard, pound and ounce are exact.
        ("1 in", 25.4, LENGTH),
        ("1 ft", 304.8, LENGTH),
        ("1 yd", 914.4, LENGTH),
        ("1 lb", 453.59237, MASS),
        ("1 oz", 28.349523125, MASS),
        # The rest follows from these and from the metre.
        ("3 3/4 in", 95.25, LENGTH),
        ("18in", 457.2, LENGTH),
        ("11.5 cm", 115.0, LENGTH),
        ("40 ft", 12192.0, LENGTH),
        ("½ in", 12.7, LENGTH),
        ("3½ in", 88.9, LENGTH),
        ("3 ½ in", 88.9, LENGTH),
        ('2 1/2"', 63.5, LENGTH),
        ("6″", 152.4, LENGTH),
        ("5' 6\"", 1676.4, LENGTH),
        ("1 ft 6 in", 457.2, LENGTH),
        ("12 in.", 304.8, LENGTH),
        ("3⁄8 in", 9.525, LENGTH),
        (".5 m", 500.0, LENGTH),
        ("7 MM", 7.0, LENGTH),
        ("2 inches", 50.8, LENGTH),
        ("1.5 kg", 1500.0, MASS),
        ("3", 3.0, NUMBER),
        ("¾", 0.75, NUMBER),
    ],
)
def test_a_measure_reads(text: str, value: float, dimension: Dimension) -> None:
    """A measure is read whole, to the last decimal of its exact conversion."""
    scan = scan_quantity(text, 0)
    assert scan is not None
    assert scan.end == len(text)
    assert scan.quantity.value == value
    assert scan.quantity.dimension == dimension


@pytest.mark.parametrize("name", EVERYDAY_UNITS)
def test_everyday_unit_agrees_with_pint(name: str) -> None:
    """Every factor of the table is the factor pint has."""
    factor, dimension = EVERYDAY_UNITS[name]
    spelling = {
        "ins": "inch",
        "yds": "yard",
        "lbs": "lb",
        "gramme": "gram",
        "grammes": "gram",
        "kilo": "kg",
        "kilos": "kg",
    }.get(name, name)
    inside = "mm" if dimension == LENGTH else "g"
    assert REGISTRY.Quantity(1, spelling).to(inside).magnitude == pytest.approx(factor, rel=1e-12)


def test_other_units_are_asked_of_pint() -> None:
    """A unit outside the table is read through pint: a hand is four inches, a decimetre a hundred millimetres."""
    for word, factor, dimension in (("hand", 101.6, LENGTH), ("dm", 100.0, LENGTH), ("stone", 14 * 453.59237, MASS)):
        found = find_unit(word)
        assert found is not None
        assert found[0] == pytest.approx(factor)
        assert found[1] == dimension


@pytest.mark.parametrize("word", ["rod", "rods", "rounds", "stakes", "pin", "inchs", "cubic", "second", "x"])
def test_a_word_of_the_trade_is_no_unit(word: str) -> None:
    """Words that some trade measures by, prefixed oddities and near misses are no units here."""
    assert find_unit(word) is None


@pytest.mark.parametrize(
    ("text", "code", "remedy"),
    [
        ("11,5 cm", "decimal-comma", "write 11.5"),
        ("1,000 mm", "decimal-comma", "write 1000, or 1.000 if a decimal is meant"),
        ("1e300 in", "number-form", "write the number out in plain digits, such as 1000 or 3.5"),
        ("1_000 mm", "number-form", "write the number out in plain digits, such as 1000 or 3.5"),
        ("99999999999 in", "number-too-large", ""),
        ("3/0 in", "division-by-zero", ""),
    ],
)
def test_a_doubtful_number_is_refused(text: str, code: str, remedy: str) -> None:
    """A number that could be read in two ways is refused, and the remedy is the number as it should stand."""
    with pytest.raises(MeasureFaultError) as caught:
        scan_quantity(text, 0)
    assert caught.value.code == code
    assert "".join(caught.value.remedies) == remedy


@given(whole=st.integers(0, 400), sixteenths=st.integers(1, 15))
def test_mixed_numbers_add_up(whole: int, sixteenths: int) -> None:
    """A mixed number is its whole inches and its sixteenths, each 25.4 mm / 16."""
    scan = scan_quantity(f"{whole} {sixteenths}/16 in", 0)
    assert scan is not None
    assert scan.quantity.value == pytest.approx((whole * 16 + sixteenths) * 25.4 / 16, abs=1e-9)


def test_every_unicode_fraction_reads() -> None:
    """Each character that Unicode calls a vulgar fraction is read as its numeric value."""
    names = {chr(point): unicodedata.name(chr(point), "") for point in range(0x2189)}  # U+2189 is nought thirds
    fractions = [char for char, name in names.items() if name.startswith("VULGAR FRACTION")]
    assert len(fractions) == 18
    for char in fractions:
        scan = scan_quantity(f"2 {char} in", 0)
        assert (scan.quantity.value if scan else 0) == pytest.approx((2 + unicodedata.numeric(char)) * 25.4)


def test_no_number_is_no_quantity() -> None:
    """Where no number begins, nothing is read: a formula goes on to look for a name."""
    assert scan_quantity("height + 2 in", 0) is None
