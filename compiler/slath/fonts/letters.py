"""Which letters the bundled faces have, known without opening a font: reading a pattern must not wait for that.

`tests/booklet/test_faces.py` holds the table against the faces.
"""

from __future__ import annotations

# From first to last; what `.ci/derive_fonts.py` keeps, less what one of the two families lacks.
_RANGES = (
    (0x20, 0x7E), (0xA0, 0x12B), (0x12E, 0x131), (0x134, 0x165), (0x168, 0x17F), (0x2009, 0x200A), (0x2013, 0x2014),
    (0x2018, 0x201A), (0x201C, 0x201E), (0x2020, 0x2022), (0x2026, 0x2026), (0x202F, 0x2030), (0x2032, 0x2033),
    (0x2039, 0x203A), (0x2044, 0x2044), (0x20AC, 0x20AC), (0x2116, 0x2116), (0x2122, 0x2122), (0x2153, 0x2154),
    (0x215B, 0x215E), (0x2190, 0x2193), (0x2212, 0x2212), (0x2248, 0x2248), (0x2264, 0x2265), (0x2610, 0x2611),
    (0x2713, 0x2713),
)  # fmt: skip
LETTERS = frozenset(chr(code) for first, last in _RANGES for code in range(first, last + 1))
_SET_OTHERWISE = frozenset("\t\r\n⅕⅖⅗⅘⅙⅚")  # as spaces, and as fractions of digits


def printable(text: str) -> str:
    """The text with a question mark for every character that no booklet can show."""
    return "".join(letter if letter in LETTERS else "?" for letter in text)


def lacking(text: str) -> tuple[str, ...]:
    """The characters of `text` that no booklet can show, each once, in the order they stand."""
    return tuple(dict.fromkeys(letter for letter in text if letter not in LETTERS and letter not in _SET_OTHERWISE))
