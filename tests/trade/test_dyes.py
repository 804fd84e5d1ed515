"""Colours of dyes by name, against reportlab's own list of the names of CSS."""

from __future__ import annotations

import pytest
from reportlab.lib import colors

from slath.trade.dyes import drawn_colour
from slath.trade.tables import read_table

DYES: dict[str, str] = read_table("dyes")
OF_CSS = sorted(name for name in DYES if name.replace(" ", "") in colors.getAllNamedColors())


def test_names_of_css_are_drawn_as_css_has_them() -> None:
    """Every name that CSS Color Module Level 4 has stands with its own value, by an independent list of them."""
    assert len(OF_CSS) > 30
    for name in OF_CSS:
        assert DYES[name] == f"#{colors.getAllNamedColors()[name.replace(' ', '')].hexval()[2:]}", name


@pytest.mark.parametrize(
    ("dye", "colour"),
    [("navy", "#000080"), ("Dark-Blue", "#00008b"), ("pale green", "#008000"), ("home-dyed walnut", DYES["walnut"]), ("onion skin", None), ("", None)],
)  # fmt: skip
def test_a_dye_is_known_by_its_last_word(dye: str, colour: str | None) -> None:
    """The whole name comes first, then its last word; a dye named for anything but a colour is not guessed at."""
    assert drawn_colour(dye) == colour
