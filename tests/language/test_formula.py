"""Formulas: their arithmetic, their dimensions, and what is said of one that cannot be worked out."""

from __future__ import annotations

import ast

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from slath.language.formula import evaluate, names_in, parse_formula
from slath.messages.told import told
from slath.units.names import Dimension
from slath.units.reading import MeasureFaultError, Quantity

MEASURES = {
    "base": Quantity(228.6, Dimension(1, 0)),
    "height": Quantity(100.0, Dimension(1, 0)),
    "pairs": Quantity(16.0, Dimension(0, 0)),
    "bundle": Quantity(500.0, Dimension(0, 1)),
}


def lookup(name: str, offset: int) -> Quantity:
    """The measures of these tests."""
    if name not in MEASURES:
        raise MeasureFaultError("unknown-name", told("{name}", name=name), (), offset)
    return MEASURES[name]


@pytest.mark.parametrize(
    ("text", "value", "dimension"),
    [
        ("base + 2 in", 279.4, (1, 0)),
        ("base - 2 1/2 in", 165.1, (1, 0)),
        ("pairs * 2", 32.0, (0, 0)),
        ("2 * (height + 1 cm)", 220.0, (1, 0)),
        ("base / height", 2.286, (0, 0)),
        ("height × 2 ÷ 4", 50.0, (1, 0)),
        ("-height + base", 128.6, (1, 0)),
        ("min(height, 11 cm, base)", 100.0, (1, 0)),
        ("max(height, 11 cm)", 110.0, (1, 0)),
        ("round_up(base / 4, 1/4 in)", 57.15, (1, 0)),
        ("round_down(base / 4, 1/4 in)", 57.15, (1, 0)),
        ("round_up(height, 1/4 in)", 101.6, (1, 0)),
        ("round(height, 1 in)", 101.6, (1, 0)),
        ("round_up(pairs / 3, 1)", 6.0, (0, 0)),
        ("3.2 g per m", 0.0032, (-1, 1)),
        ("500 ft per lb", 335.984487569754, (1, -1)),
        ("bundle / 2 m", 0.25, (-1, 1)),
        ("1 ft 6 in + 6 in", 609.6, (1, 0)),
        ("height - height", 0.0, (1, 0)),
        ("8 / 4 / 2", 1.0, (0, 0)),
        ("10 - 4 - 3", 3.0, (0, 0)),
    ],
)
def test_a_formula_works_out(text: str, value: float, dimension: tuple[int, int]) -> None:
    """A formula has the value and the dimension that arithmetic gives it."""
    found = evaluate(parse_formula(text), lookup)
    assert found.value == pytest.approx(value, abs=1e-9)
    assert found.dimension == dimension


@pytest.mark.parametrize(
    ("text", "code", "offset"),
    [
        ("height + 3", "wrong-dimension", 7),
        ("3-3/4 in", "wrong-dimension", 1),
        ("max(height, 3)", "wrong-dimension", 0),
        ("height / (pairs - 16)", "division-by-zero", 7),
        ("round_up(height, 0 in)", "division-by-zero", 0),
        ("heigth + 1 in", "unknown-name", 0),
        ("height + widht", "unknown-name", 9),
        ("sqrt(height)", "unknown-name", 0),
        ("(height + 1 in", "formula-broken", 0),
        ("height +", "formula-broken", 8),
        ("height 3", "formula-broken", 7),
        ("2 in height", "formula-broken", 5),
        ("round(height)", "formula-broken", 0),
        ("", "formula-broken", 0),
        ("__import__('os')", "unknown-name", 0),
        ("height ** 2", "formula-broken", 8),
        ("height if 1 else 2", "formula-broken", 7),
        ("(" * 40 + "1" + ")" * 40, "formula-broken", 30),
        ("3 inchs", "unknown-unit", 2),
        ("999999999 m * 999999999", "number-out-of-reach", 12),
    ],
)
def test_a_fault_is_told_at_its_place(text: str, code: str, offset: int) -> None:
    """What is wrong with a formula is told by its code, and by how far into the formula it stands."""
    with pytest.raises(MeasureFaultError) as caught:
        evaluate(parse_formula(text), lookup)
    assert (caught.value.code, caught.value.offset) == (code, offset)


def test_names_are_found_once_and_in_order() -> None:
    """The proof lists what a formula was worked out from: each measure once, in the order written."""
    assert names_in(parse_formula("max(height, base) + height * pairs - 2 in")) == ("height", "base", "pairs")


_SUMS = st.recursive(
    st.integers(1, 99).map(str),
    lambda inner: st.tuples(inner, st.sampled_from("+-*"), inner).map(
        lambda parts: f"({parts[0]} {parts[1]} {parts[2]})"
    ),
    max_leaves=12,
)


@given(_SUMS)
def test_plain_sums_agree_with_python(text: str) -> None:
    """On whole numbers the grammar gives what Python's own parser gives for the same text."""
    expected = eval(compile(ast.parse(text, mode="eval"), "sum", "eval"))  # noqa: S307 - the text is ours
    assume(abs(expected) < 1e9)
    assert evaluate(parse_formula(text), lookup).value == expected
