"""No label covers another or leaves its figure, in any published basket: shapes nobody thought of when figures were laid out."""

from __future__ import annotations

import pytest
from tests.drawing.test_labels import faults, layouts
from tests.handbook.books import HERE, only

from slath.drawing.figures import draw, figure_names_of

NAMES = sorted(path.stem for path in (HERE / "baskets").glob("*.yaml"))
# Those whose lettering depends most on the basket's own shape are looked at on small paper as well.
SHAPED = ("handle", "profile", "lid-profile", "staking")


@pytest.mark.parametrize("name", NAMES)
def test_labels_stand_clear(name: str) -> None:
    """In large print, and on half-size paper."""
    size, options = only(name), dict(layouts())
    wrong, drawn = [], 0
    for layout, kinds in (("large-print on letter", ("",)), ("booklet on half-letter", SHAPED)):
        for figure in figure_names_of(size.basket, size.quantities, options[layout]):
            if figure != "view" and figure.startswith(kinds):
                scene = draw(figure, size.basket, size.quantities, options[layout])
                wrong += [f"{layout}, {figure}: {fault}" for fault in faults(scene)]
                drawn += 1
    assert drawn >= 2
    assert not wrong, "\n".join(wrong)
