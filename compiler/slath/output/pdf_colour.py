"""Colours as PDF operators: red, green and blue for screens, cyan, magenta, yellow and black for a press."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

import numpy as np
from msgspec import Struct
from PIL import Image

NEUTRAL = 20 / 255  # dark colours whose channels are no further apart are for words: black ink prints them alone
DARK, BLACK = 0.5, 0.8  # from how much grey they are so, and from how much in solid black: screened type is ragged


def red_green_blue(colour: str) -> tuple[float, ...]:
    """``#rrggbb`` as shares from 0 to 1."""
    return tuple(int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))


def cyan_magenta_yellow_black(colour: str) -> tuple[float, ...]:
    """``#rrggbb`` as shares of the four inks.

    All the grey of a colour is black: K = 1 - max(R, G, B), C = (1 - R - K) / (1 - K), and so on; so that no more than
    two inks and black lie on one another. What is dark and nearly grey is black alone, and what is nearly black is black
    in full, since type and fine lines are best printed by one plate.
    """
    cyan, magenta, yellow = (1 - share for share in red_green_blue(colour))
    black = min(cyan, magenta, yellow)
    if black > DARK and max(cyan, magenta, yellow) - black <= NEUTRAL:
        return 0.0, 0.0, 0.0, 1.0 if black > BLACK else (cyan + magenta + yellow) / 3
    return (cyan - black) / (1 - black), (magenta - black) / (1 - black), (yellow - black) / (1 - black), black


def in_inks(picture: Image.Image) -> Image.Image:
    """A picture in red, green and blue as one in inks, by the formula of `cyan_magenta_yellow_black` for colours."""
    shares = np.asarray(picture.convert("RGB"), dtype=np.float32) / 255
    lightest = shares.max(axis=2, keepdims=True)
    coloured = (lightest - shares) / np.where(lightest > 0, lightest, 1)
    inks = np.concatenate([coloured, 1 - lightest], axis=2)
    return Image.frombytes("CMYK", picture.size, np.rint(inks * 255).astype(np.uint8).tobytes())


class Colours(Struct, frozen=True, dict=True):
    """How a file writes colours: the operators that fill and stroke, and the numbers before them."""

    fill_operator: str
    stroke_operator: str
    numbers: Callable[[str], tuple[float, ...]]

    def fill(self, colour: str) -> str:
        """Operators that fill with ``#rrggbb`` from here on."""
        return f"{_written(self.numbers, colour)} {self.fill_operator}"

    def stroke(self, colour: str) -> str:
        """Operators that stroke with ``#rrggbb`` from here on."""
        return f"{_written(self.numbers, colour)} {self.stroke_operator}"


@lru_cache(maxsize=1024)
def _written(numbers: Callable[[str], tuple[float, ...]], colour: str) -> str:
    return " ".join(f"{share:.4g}" for share in numbers(colour))


def grey(colour: str) -> tuple[float, ...]:
    """``#rrggbb`` as the grey it is seen as: its luma (ITU-R BT.709-6, 3.2), in red, green and blue alike."""
    red, green, blue = red_green_blue(colour)
    luma = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return luma, luma, luma


SCREEN = Colours("rg", "RG", red_green_blue)
GREY = Colours("rg", "RG", grey)
PRESS = Colours("k", "K", cyan_magenta_yellow_black)
