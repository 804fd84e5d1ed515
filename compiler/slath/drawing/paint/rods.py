"""Rods: what every woven figure is made of, and the brush they are painted with. Page mm; x right, y down, z to the eye."""

from __future__ import annotations

from msgspec import Struct

from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress


class Rod(Struct, frozen=True):
    """One rod: centre line (n, 3) in page mm, diameter, dress, which ends show their cut face.

    `brightness` (n,) from -1 (no light) to 1 lights each point; None paints the dress as it is. `name` says what the
    rod is (a strand's letter and round, a stake's number), for tests and for nothing else. A flat strand has `across`
    (n, 2), half of which times its `diameter` leads from its centre line to either edge.
    """

    points: Numbers
    diameter: float
    dress: Dress
    ends: tuple[bool, bool] = (False, False)
    brightness: Numbers | None = None
    name: str = ""
    across: Numbers | None = None


class Brush(Struct, frozen=True):
    """How rods are painted; all widths in mm.

    gap: paper left beside a rod where it passes over another (0: dark edges of neighbours meet and part the rods);
    edge: dark line each side; highlight, shade: whether painted; rings: distance between marks (None: by diameter);
    near: share of the summed radii within which two rods are in order, below 1 or rods lying side by side are too;
    depth: share of the radii by which depths must differ to be an order; pixel: cell of the depth map by which hidden
    points are dropped, 0 to keep all; touching: put rods that merely touch in order too (cleaner joints close up, many
    more layers); step: distance of points in diameters; tolerance: straying of chords.
    """

    gap: float = 0.30
    edge: float = 0.30
    highlight: bool = True
    shade: bool = True
    rings: float | None = None
    near: float = 0.85
    depth: float = 0.10
    pixel: float = 0.0
    touching: bool = True
    step: float = 0.36
    tolerance: float = 0.012
    light: tuple[float, float] = (-0.45, -0.89)
    paper: str = "#ffffff"

    def edge_of(self, diameter: float) -> float:
        """Width of the dark line on each side, leaving a body that is itself no thinner than a printable stroke."""
        return max(0.10, min(self.edge, 0.3 * diameter, (diameter - 0.25) / 2))


CLOSE = Brush()
SMALL = Brush(gap=0.0, edge=0.20, highlight=False, shade=False, near=0.80, step=0.5, tolerance=0.02)
