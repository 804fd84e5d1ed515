"""No label covers another or leaves its figure, in any published basket: shapes nobody thought of when figures were laid out."""

from __future__ import annotations

import pytest
from tests.drawing.test_labels import faults, layouts
from tests.handbook.books import HERE, only

from slath.booklet.styles import names
from slath.drawing.figures import draw, figure_names_of

NAMES = sorted(path.stem for path in (HERE / "baskets").glob("*.yaml"))
LARGEST = "large-print"  # letters so large that every figure has the fewest of them across
# Those whose lettering depends most on the basket's own shape are looked at in every other style as well.
SHAPED = ("handle", "profile", "lid-profile", "staking")


@pytest.mark.parametrize("name", NAMES)
def test_labels_stand_clear(name: str) -> None:
    """In large print, and in every other style, on the papers that leave figures least room."""
    size = only(name)
    shaped = any(figure.startswith(SHAPED) for figure in figure_names_of(size.basket, size.quantities))
    wrong, drawn = [], dict.fromkeys(names(), 0)
    for layout, options in layouts().items():
        style = layout.partition(" on ")[0]
        for figure in figure_names_of(size.basket, size.quantities, options):
            if figure != "view" and (style == LARGEST or figure.startswith(SHAPED)):
                scene = draw(figure, size.basket, size.quantities, options)
                wrong += [f"{layout}, {figure}: {fault}" for fault in faults(scene)]
                drawn[style] += 1
    assert drawn[LARGEST] >= 2
    assert all(bool(count) == shaped for style, count in drawn.items() if style != LARGEST), drawn
    assert not wrong, "\n".join(wrong)
