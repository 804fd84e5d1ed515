"""Near spellings offered in notes, and small lists in words."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name whose spelling comes nearest to `word`, or None if none is near."""
    names = list(known)
    plain = {name.casefold().replace("_", " "): name for name in reversed(names)}
    close = get_close_matches(word.casefold().replace("_", " "), plain, 1, 0.6)
    return plain[close[0]] if close else None


def or_list(names: Iterable[str]) -> str:
    """“a, b or c”."""
    *most, last = list(names)
    return f"{', '.join(most)} or {last}" if most else last


def letters_lacking(missing: Iterable[str]) -> tuple[str, str]:
    """What a note says of letters that no booklet can show, and the remedy."""
    named = or_list(f"“{letter}” (U+{ord(letter):04X})" for letter in missing)
    return (
        f"Booklets cannot show {named}: their fonts have the letters of western and central Europe.",
        "write it with those letters",
    )
