"""Printed measures against exact arithmetic and the conversion factors of NIST SP 811 (2008), appendix B.8."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from slath.units import FinishedSize, LengthToCut, counting, printing

# NIST SP 811 (2008), B.8: inch 2.54 E-02 m exactly, foot 3.048 E-01 m exactly, pound (avoirdupois) 4.535 923 7 E-01 kg.
NIST_INCH_MM = Fraction(254, 10)
NIST_FOOT_MM = Fraction(3048, 10)
NIST_POUND_G = Fraction(45359237, 100000)

lengths = st.floats(min_value=0.0, max_value=20_000.0, allow_nan=False)
masses = st.floats(min_value=0.0, max_value=50_000.0, allow_nan=False)
denominators = st.sampled_from([1, 2, 4, 8, 16, 32])


def read_inches(text: str) -> Fraction:
    """Read what was printed with an independent reader."""
    found = re.fullmatch(r"(?:(\d+) )?(?:(\d+)/(\d+) )?in", text)
    assert found, text
    whole, top, bottom = found.groups()
    return Fraction(int(whole or 0)) + (Fraction(int(top), int(bottom)) if top else 0)


@given(lengths, denominators)
def test_inches_are_never_more_than_half_a_step_out(mm: float, denominator: int) -> None:
    """A measure rounded to the nearest nth of an inch is at most half an nth from the truth; 16ths under a quarter of an
    inch are 32nds, and what would round to nothing 64ths.
    """
    text = printing.inches(mm, denominator)
    if text.startswith("under"):
        assert Fraction(mm) / NIST_INCH_MM < Fraction(1, 64)
        return
    true = Fraction(mm) / NIST_INCH_MM
    parts = (
        64
        if true < Fraction(1, 2 * denominator)
        else 32
        if denominator == 16 and true < Fraction(1, 4)
        else denominator
    )
    step = Fraction(1, parts)
    assert abs(read_inches(text) - true) <= step / 2 + Fraction(1, 10**9)


@given(lengths, denominators)
def test_fractions_are_proper_and_in_lowest_terms(mm: float, denominator: int) -> None:
    """A rule is never read as 4/4, 2/8 or 16/16."""
    parts = printing.inch_parts(mm, denominator)
    assert 0 <= parts.numerator < parts.denominator or (parts.numerator, parts.denominator) == (0, 1)
    assert Fraction(parts.numerator, parts.denominator).denominator == parts.denominator


@given(lengths, lengths, denominators)
def test_longer_is_never_printed_shorter(first: float, second: float, denominator: int) -> None:
    """Rounding keeps the order of two lengths."""
    low, high = sorted((first, second))
    small, large = printing.inch_parts(low, denominator), printing.inch_parts(high, denominator)
    as_fraction = [Fraction(p.whole) + Fraction(p.numerator, p.denominator) for p in (small, large)]
    assert as_fraction[0] <= as_fraction[1]


@given(lengths)
def test_rounding_up_is_never_short_and_never_a_step_long(mm: float) -> None:
    """What is rounded up covers what is needed, with less than one step over, in both units."""
    need = Fraction(mm)
    inch_cut = read_inches(printing.inches_up(mm, 25.4 / 4)) * NIST_INCH_MM
    metric_cut = Fraction(printing.millimetres_up(mm, 5.0).removesuffix(" mm"))
    slack = Fraction(1, 10**6)
    assert need - slack <= inch_cut < need + NIST_INCH_MM / 4 + slack
    assert need - slack <= metric_cut < need + 5 + slack


@pytest.mark.parametrize(
    ("mm", "printed"),
    [
        (134.4, "5 1/4 in (135 mm)"),  # worked out: quarters, and steps of 5 mm
        (130.175, "5 1/8 in (130 mm)"),  # 5 1/8 in was given
        (134.0, "5 1/4 in (134 mm)"),  # 134 mm was given
        (46.1, "1 13/16 in (46 mm)"),  # small: holes and spacings as they are
        (FinishedSize(46.1), "1 7/8 in (46 mm)"),  # a finished size under two inches: eighths
        (FinishedSize(4.0), "5/32 in (4 mm)"),
        (LengthToCut(393.7), "15 1/2 in (394 mm)"),
        (LengthToCut(380.0), "15 in (380 mm)"),  # 14.96 in
        (LengthToCut(381.1), "15 1/4 in (382 mm)"),  # 15.004 in
        (LengthToCut(40.0), "1 5/8 in (40 mm)"),  # 1.575 in
    ],
)
def test_as_rules_are_read_at_the_bench(mm: float, printed: str) -> None:
    """Gill 1916 and White 1901 print finished sizes in quarters and eighths; what is cut is rounded up in both units."""
    assert printing.both(mm) == printed


@given(st.floats(min_value=1.0, max_value=20_000.0, allow_nan=False))
def test_a_length_to_cut_is_never_printed_short(mm: float) -> None:
    """In no unit, nor as material by the foot and the metre, and never by more than a step."""
    for inch, metric in (printing.in_both(LengthToCut(mm)), printing.long_in_both(LengthToCut(mm))):
        unit, size = (NIST_FOOT_MM, 12) if inch.endswith("ft") else (NIST_INCH_MM, 1)
        shown = read_inches(inch.removesuffix("ft").removesuffix("in") + "in") * unit
        true, slack = Fraction(mm), Fraction(1, 10**6)
        assert true - slack <= shown < true + NIST_INCH_MM * size
        by_metre = metric.endswith(" m")
        told = Fraction(metric.removesuffix(" m" if by_metre else " mm")) * (1000 if by_metre else 1)
        assert true - slack <= told < true + (100 if by_metre else 1)


@given(masses)
def test_pounds_and_ounces_keep_within_an_eighth_of_an_ounce(g: float) -> None:
    """Masses in pounds and quarter ounces against the exact pound."""
    text = printing.ounces(g)
    if text.startswith("under"):
        assert Fraction(g) < NIST_POUND_G / 128
        return
    found = re.fullmatch(r"(?:(\d+) lb)?(?: ?(?:(\d+) )?(?:(\d+)/(\d+) )?oz)?", text)
    assert found
    pounds, whole, top, bottom = found.groups()
    ounces = Fraction(int(whole or 0)) + (Fraction(int(top), int(bottom)) if top else 0)
    assert ounces < 16
    assert abs((int(pounds or 0) + ounces / 16) * NIST_POUND_G - Fraction(g)) <= NIST_POUND_G / 128 + Fraction(1, 10**6)


@given(st.floats(min_value=0.0, max_value=9_999.0, allow_nan=False), st.integers(min_value=0, max_value=3))
def test_millimetres_round_from_the_value_itself(mm: float, places: int) -> None:
    """Decimals are at most half a last place out and carry no idle noughts."""
    text = printing.millimetres(mm, places).removesuffix(" mm")
    assert abs(Fraction(text) - Fraction(mm)) <= Fraction(1, 2 * 10**places) + Fraction(1, 10**9)
    assert "." not in text or not text.endswith(("0", "."))


@pytest.mark.parametrize(
    ("mm", "printed"),
    [
        (25.4, "1 in (25 mm)"),
        (95.25, "3 3/4 in (95 mm)"),
        (228.6, "9 in (229 mm)"),
        (25.39, "1 in (25 mm)"),
        (6.35, "1/4 in (6.4 mm)"),
        (0.0, "0 in (0 mm)"),
        (2.3, "3/32 in (2.3 mm)"),
        (4.0, "5/32 in (4 mm)"),
        (0.5, "1/64 in (0.5 mm)"),
        (0.1, "under 1/64 in (0.1 mm)"),
    ],
)
def test_both_units_as_printed(mm: float, printed: str) -> None:
    """Worked by hand from 25.4 mm to the inch (NIST SP 811)."""
    assert printing.both(mm) == printed
    inch, metric = printed.removesuffix(")").split(" (")
    assert printing.both(mm, "mm") == f"{metric} ({inch})"


def test_each_unit_is_rounded_from_the_same_unrounded_value() -> None:
    """46.9 mm is 1 7/8 in (1.846 in; 1.85 is the middle of 1 13/16 and 1 7/8), not the 47 mm that is 1.850; a bit of
    3.01 mm is 1/8 in (3.175) and 3.1 mm.
    """
    assert printing.both(46.83) == "1 13/16 in (47 mm)"
    assert printing.both_bit(3.01) == "1/8 in (3.1 mm)"
    assert printing.both_bit(3.175, "mm") == "3.2 mm (1/8 in)"


def test_a_whole_step_is_not_pushed_up_by_binary_arithmetic() -> None:
    """Three tenths of a metre in three parts is 300 mm, not 305 mm."""
    assert printing.millimetres_up(100.1 + 99.9 + 100.00000000001, 5.0) == "300 mm"
    assert printing.inches_up(3 * 25.4 + 1e-12, 25.4 / 4) == "3 in"


def test_material_lengths_round_up_for_buying() -> None:
    """61.02 ft must be bought as 62 ft; as a statement it is 61 ft."""
    mm = 61.02 * 304.8
    assert printing.both_long(mm, up=True) == "62 ft (18.6 m)"
    assert printing.both_long(mm) == "61 ft (18.6 m)"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -1.0])
def test_what_is_no_length_is_refused(value: float) -> None:
    """Nothing that is not a length is ever printed as one."""
    with pytest.raises(ValueError, match="cannot be printed"):
        printing.both(value)


def test_counts_are_written_as_a_teacher_says_them() -> None:
    """Words to twelve, then figures; ordinals 11th to 13th are the exception; English grammar."""
    assert counting.counted(1, "stake", "stakes") == "one stake"
    assert counting.counted(40, "stake", "stakes") == "40 stakes"
    assert [counting.ordinal(n) for n in (1, 12, 13, 21, 22, 23, 111, 112)] == [
        "first", "twelfth", "13th", "21st", "22nd", "23rd", "111th", "112th",
    ]  # fmt: skip
    assert counting.listed(["a", "b", "c"]) == "a, b and c"
    assert [counting.duration(n) for n in (15, 30, 60, 90, 120, 150, 210)] == [
        "15 minutes", "half an hour", "an hour", "an hour and a half", "two hours", "two and a half hours",
        "three and a half hours",
    ]  # fmt: skip
