"""The maker's default settings against the handbooks they were taken from."""

from __future__ import annotations

import pytest

from slath.trade import default_settings, setting_reason
from slath.trade.sources import sources
from slath.units import Basis

INCH = 25.4  # exact: NIST SP 811 (2008), B.8


@pytest.mark.parametrize(
    ("name", "mm", "basis"),
    [
        ("stick_trim", 0.5 * INCH, Basis.PUBLISHED),  # Gill, Practical Basketry (1916): usually 1/2 in
        ("half_stick_extra", 1 * INCH, Basis.PUBLISHED),  # White, How to Make Baskets (1901): 9 of 9
        ("spacing_low", 0.51 * INCH, Basis.PUBLISHED),  # 64 published round baskets, tenth percentile
        ("spacing_high", 0.86 * INCH, Basis.PUBLISHED),  # the same, ninetieth percentile
        ("plait_allowance", 13 * INCH, Basis.PUBLISHED),  # handbooks: 13 in at 3/4 in spacing
        ("join_lap", 3 * INCH, Basis.ESTIMATED),
        ("working_length", 96 * INCH, Basis.COMMON),
        ("cut_step", 10.0, Basis.COMMON),
        ("cut_step_inches", 0.5 * INCH, Basis.COMMON),
        ("stake_depth", 2 * INCH, Basis.ESTIMATED),
    ],
)
def test_lengths_and_what_they_rest_on(name: str, mm: float, basis: Basis) -> None:
    """Each default is the published or estimated length named beside it, and says which."""
    amount = default_settings()[name]
    assert amount.value == pytest.approx(mm)
    assert amount.unit == "mm"
    assert amount.basis is basis


def test_a_metric_pattern_has_round_defaults_of_its_own() -> None:
    """Lengths a maker lays off are whole or half centimetres (common practice, no source), near those in inches."""
    inches, metric = default_settings("inches"), default_settings("mm")
    changed = [name for name, amount in metric.items() if amount != inches[name]]
    assert {"join_lap", "stake_depth", "handle_foot", "lashing_tail", "border_tail"} <= set(changed)
    for name in changed:
        assert metric[name].value % 5 == 0, name
        assert abs(metric[name].value - inches[name].value) <= max(2.4, 0.02 * inches[name].value), name
        assert (metric[name].basis, metric[name].source) == (inches[name].basis, inches[name].source)


def test_every_setting_is_explained_and_cited() -> None:
    """A maker asked to measure something must be told what it is for."""
    for name, amount in default_settings().items():
        assert setting_reason(name)
        assert amount.source in {row.cite for row in sources().values()}
        assert amount.basis is not Basis.COUNTED


def test_callers_cannot_change_each_others_defaults() -> None:
    """Each call gives its own mapping."""
    changed = default_settings()
    changed.clear()
    assert default_settings()


def test_unpublished_settings_never_call_themselves_published() -> None:
    """Join lap, pitch, tails and depths are estimates until a maker measures them."""
    settings = default_settings()
    for name in ("join_lap", "pitch_factor", "border_tail", "border_hand_hold", "bend_allowance", "hole_clearance"):
        assert settings[name].basis is Basis.ESTIMATED
        assert "estimated" in settings[name].source
