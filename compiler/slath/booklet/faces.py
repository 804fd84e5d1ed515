"""The bundled faces as metrics: how wide words are, kerning included. All measures are in ems unless said otherwise."""

from __future__ import annotations

import math
import struct
from functools import lru_cache
from importlib import resources
from typing import NamedTuple

from msgspec import Struct, field
from reportlab.pdfbase.ttfonts import TTFont

from slath.booklet.blocks import ContentError

FAMILIES = ("serif", "sans")
# The bodies of fraction digits: how far numerators stand above denominators, as measured by .ci/derive_fonts.py.
NUMERATOR_RISE = {"serif": 0.252, "sans": 0.266}
EM = 1000.0


class Look(NamedTuple):
    """How a run is painted: face, size in points, colour, height above the baseline."""

    face: str
    size: float
    colour: str
    rise: float = 0.0


class Face(Struct, frozen=True, eq=False):
    """One face: the font to embed, and the widths to set lines by."""

    name: str
    font: TTFont
    advances: dict[int, float]
    kerns: dict[str, float]
    ascent: float
    descent: float
    cap_height: float
    _measured: dict[str, float] = field(default_factory=dict)

    def width(self, text: str) -> float:
        """The advance of ``text`` in ems."""
        known = self._measured.get(text)
        if known is None:
            advances, kerns = self.advances, self.kerns
            try:
                known = math.fsum(advances[ord(character)] for character in text)
            except KeyError:
                raise MissingGlyphError(self.name, text, advances) from None
            if kerns:
                known += math.fsum(kerns.get(text[i : i + 2], 0.0) for i in range(len(text) - 1))
            self._measured[text] = known
        return known

    def space(self) -> float:
        """The width of a word space."""
        return self.advances[32]


class MissingGlyphError(ContentError):
    """Words hold a character the bundled faces cannot show."""

    def __init__(self, face: str, text: str, advances: dict[int, float]) -> None:
        missing = sorted({character for character in text if ord(character) not in advances})
        codes = ", ".join(f"{character!r} (U+{ord(character):04X})" for character in missing)
        super().__init__(f"the face {face} has no letter for {codes}, which stands in {text!r}; write it otherwise")


def face_name(family: str, *, strong: bool = False, emphasis: bool = False) -> str:
    """The face of a family for running words."""
    return family + ("-bold" if strong else "") + ("-italic" if emphasis else "")


def has_fractions(name: str) -> bool:
    """Whether a face of fraction digits stands beside the face."""
    return name != "serif-caps"


@lru_cache
def face(name: str) -> Face:
    """Load one bundled face. Unknown names raise `FileNotFoundError`."""
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415  (0.1 s that reading and checking need not pay)

    path = resources.files("slath.fonts") / f"{name}.ttf"
    font = TTFont(f"slath-{name}", str(path), asciiReadable=0)
    raw = font.face
    advances = {code: width / EM for code, width in raw.charWidths.items()}
    advances[0xA0] = advances[32]  # the embedded font shows a no-break space as a space
    if 0x2009 in advances:
        advances.setdefault(0x202F, advances[0x2009])
    return Face(name, font, advances, _kerning(font), raw.ascent / EM, -raw.descent / EM, raw.capHeight / EM)


def _kerning(font: TTFont) -> dict[str, float]:
    """Read the font's ``kern`` table, version 0 format 0 (OpenType 1.9, "kern — Kerning")."""
    if "kern" not in font.face.table:
        return {}
    table = bytes(font.face.get_table("kern"))  # type: ignore[no-untyped-call]
    (count,) = struct.unpack_from(">H", table, 10)
    characters: dict[int, list[str]] = {}
    for code, glyph in font.face.charToGlyph.items():
        characters.setdefault(glyph, []).append(chr(code))
    kerns: dict[str, float] = {}
    for left, right, value in struct.iter_unpack(">HHh", table[18 : 18 + 6 * count]):
        for first in characters.get(left, ()):
            for second in characters.get(right, ()):
                kerns[first + second] = value / EM
    return kerns
