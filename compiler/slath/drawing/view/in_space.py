"""Rods in space before they are seen: the eye that sees them, the light on them, and how a part is turned and set down.

Space is mm, x along the base, y across it, z up.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.layers import Flags
from slath.drawing.paint.rods import Rod


class SpaceRod(Struct, frozen=True):
    """A rod in space: centre line (n, 3), diameter (of a flat one: width), dress, shown ends.

    `normals` (n, 3) out of the surface it lies on decide its light; a rod without takes `brightness` all along. Points
    flagged `rim` are lit more evenly. `across` (n, 3) is the unit way across the face of a flat strand.
    """

    points: Numbers
    diameter: float
    look: Dress
    normals: Numbers | None = None
    brightness: float = 0.0
    rim: Flags | None = None
    ends: tuple[bool, bool] = (False, False)
    name: str = ""
    across: Numbers | None = None


class Placement(Struct, frozen=True):
    """A turn (3, 3) about the origin, and then a shift (3,)."""

    turn: Numbers
    shift: Numbers

    def points(self, given: Numbers) -> Numbers:
        """Points (n, 3) turned and shifted."""
        return np.asarray(given @ self.turn.T + self.shift)

    def rods(self, rods: Iterable[SpaceRod]) -> Iterator[SpaceRod]:
        """Rods turned and shifted, with what they face."""
        for rod in rods:
            normals = None if rod.normals is None else rod.normals @ self.turn.T
            across = None if rod.across is None else rod.across @ self.turn.T
            yield replace(rod, points=self.points(rod.points), normals=normals, across=across)


# Turned over about the x axis, as work is when it is stood on its rim.
OVER = Placement(np.diag([1.0, -1.0, -1.0]), np.zeros(3))


class Eye(Struct, frozen=True):
    """An orthographic eye: turned `azimuth` round the basket and `elevation` above the table, degrees; page scale."""

    azimuth: float
    elevation: float
    scale: float = 1.0
    x: float = 0.0
    y: float = 0.0

    @property
    def right(self) -> Numbers:
        """The level unit way to the right of the page."""
        a = math.radians(self.azimuth)
        return np.array([math.cos(a), -math.sin(a), 0.0])

    @property
    def away(self) -> Numbers:
        """The level unit way from the eye."""
        a = math.radians(self.azimuth)
        return np.array([math.sin(a), math.cos(a), 0.0])

    def page(self, points: Numbers) -> Numbers:
        """Space points (n, 3) as page x, y (up) and depth to the eye."""
        e = math.radians(self.elevation)
        across, away, up = points @ self.right, points @ self.away, points[:, 2]
        return np.column_stack([
            self.x + across * self.scale,
            self.y + (up * math.cos(e) + away * math.sin(e)) * self.scale,
            (up * math.sin(e) - away * math.cos(e)) * self.scale,
        ])  # fmt: skip

    def sees(self, rod: SpaceRod) -> Rod:
        """The rod as it is painted."""
        across = None
        if rod.across is not None:
            e = math.radians(self.elevation)
            level = rod.across @ self.away
            across = np.column_stack([rod.across @ self.right, rod.across[:, 2] * math.cos(e) + level * math.sin(e)])
        return Rod(
            self.page(rod.points), rod.diameter * self.scale, rod.look, rod.ends, self._light(rod), rod.name, across
        )

    def _light(self, rod: SpaceRod) -> Numbers:
        if rod.normals is None:
            return np.full(len(rod.points), rod.brightness)
        light = self._wall_light(rod.normals)
        if rod.rim is not None:
            light = np.where(rod.rim, self._rim_light(rod.normals), light)
        return light

    def _wall_light(self, normals: Numbers) -> Numbers:
        """Brightness of a wall by its outward normal: light from the upper left front; the inside lies in shade."""
        right, away, up = normals @ self.right, normals @ self.away, normals[:, 2]
        outside = np.clip(0.5 - 0.30 * right - 0.24 * away + 0.25 * np.maximum(up, 0.0), 0.12, 1.0)
        inside = 0.24 + 0.18 * right
        e = math.radians(self.elevation)
        turned_from = away * math.cos(e) - up * math.sin(e) > 0.05
        return np.asarray(-0.44 + 0.54 * np.where(turned_from, inside, outside))

    def _rim_light(self, normals: Numbers) -> Numbers:
        """Brightness of a rim: more even, since its rods turn to the light in every direction."""
        right, away = normals @ self.right, normals @ self.away
        return np.asarray(-0.44 + 0.54 * np.clip(0.68 - 0.2 * right - 0.14 * away, 0.2, 1.0))
