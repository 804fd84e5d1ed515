"""Colour as the eye and a grey printer see it: luminance, contrast, lightness, and the colours between."""

from __future__ import annotations

import math
from functools import cache

# D65 white and sRGB primaries, IEC 61966-2-1; CIELAB from CIE 15.
_WHITE = (0.95047, 1.0, 1.08883)
_TO_XYZ = ((0.4124564, 0.3575761, 0.1804375), (0.2126729, 0.7151522, 0.0721750), (0.0193339, 0.1191920, 0.9503041))
_TO_RGB = ((3.2404542, -1.5371385, -0.4985314), (-0.9692660, 1.8760108, 0.0415560), (0.0556434, -0.2040259, 1.0572252))

Lab = tuple[float, float, float]


def _channels(colour: str) -> tuple[float, float, float]:
    return int(colour[1:3], 16) / 255, int(colour[3:5], 16) / 255, int(colour[5:7], 16) / 255


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _encoded(value: float) -> float:
    value = min(1.0, max(0.0, value))
    return value * 12.92 if value <= 0.0031308 else 1.055 * value ** (1 / 2.4) - 0.055


def luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb``, 0 black to 1 white (WCAG 2.2)."""
    return math.fsum(weight * _linear(value) for weight, value in zip(_TO_XYZ[1], _channels(colour), strict=True))


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def lightness(colour: str) -> float:
    """CIE L*, 0 black to 100 white."""
    return lab(colour)[0]


def grey(colour: str) -> str:
    """The grey of the same lightness, as a grey printer lays it down."""
    return from_lab((lightness(colour), 0.0, 0.0))


@cache
def lab(colour: str) -> Lab:
    """CIELAB (D65) of ``#rrggbb``."""
    rgb = [_linear(value) for value in _channels(colour)]
    ratios = [
        math.fsum(w * v for w, v in zip(row, rgb, strict=True)) / white
        for row, white in zip(_TO_XYZ, _WHITE, strict=True)
    ]
    x, y, z = (r ** (1 / 3) if r > 216 / 24389 else (24389 / 27 * r + 16) / 116 for r in ratios)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def from_lab(colour: Lab) -> str:
    """The nearest ``#rrggbb`` to a CIELAB colour; what sRGB cannot show is clipped channel by channel."""
    fy = (colour[0] + 16) / 116
    roots = (fy + colour[1] / 500, fy, fy - colour[2] / 200)
    xyz = [
        (f**3 if f > 6 / 29 else (116 * f - 16) * 27 / 24389) * white for f, white in zip(roots, _WHITE, strict=True)
    ]
    rgb = (math.fsum(w * v for w, v in zip(row, xyz, strict=True)) for row in _TO_RGB)
    return "#" + "".join(f"{round(255 * _encoded(value)):02x}" for value in rgb)


def with_lightness(colour: str, level: float, chroma: float = 1.0) -> str:
    """The same hue at lightness `level`, its colourfulness times `chroma`."""
    _, a, b = lab(colour)
    return from_lab((min(100.0, max(0.0, level)), a * chroma, b * chroma))
