"""The tones a round rod is painted in."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from slath.units.colour import from_lab, lab, lightness, with_lightness


@cache
def lit(colour: str, brightness: float) -> str:
    """`colour` under more (up to +1, white) or less (down to -1, black) light."""
    if brightness == 0:
        return colour
    level, a, b = lab(colour)
    if brightness < 0:
        return from_lab((level * (1 + brightness), a * (1 + 0.7 * brightness), b * (1 + 0.7 * brightness)))
    return from_lab((level + (100 - level) * brightness, a * (1 - brightness), b * (1 - brightness)))


class Tones(Struct, frozen=True):
    """The colours one rod is painted in: body, dark edge, lit and shaded side, and the marks along it."""

    body: str
    edge: str
    highlight: str
    shade: str
    mark: str


@cache
def tones(body: str) -> Tones:
    """Tones of a material from its own colour.

    Edge dark enough to part two rods of that colour, highlight and shade a clear step up and down, marks at least
    35 L* from the body, dark on light bodies and light on dark ones.
    """
    level = lightness(body)
    edge = with_lightness(body, 5 + 0.23 * level, 0.75)
    mark = edge if level - lightness(edge) >= 35 else "#f4efe4"
    return Tones(
        body=body,
        edge=edge,
        highlight=with_lightness(body, level + 0.46 * (100 - level), 0.72),
        shade=with_lightness(body, level * (0.62 + 0.26 * level / 100)),
        mark=mark,
    )
