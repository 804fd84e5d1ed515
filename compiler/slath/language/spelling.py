"""Near spellings offered in notes, and small lists in words."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from functools import lru_cache

from slath.messages.told import Several, Spoken, several, told

LONGEST_WORD = 60  # letters: longer words are no slips of names
MOST_NAMES = 400  # a comparison takes some three microseconds, and a file may hold thousands of slips


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name whose spelling comes nearest to `word`, or None if none is near, or there are too many to look at."""
    names = tuple(known)
    return _nearest(word, names) if len(word) <= LONGEST_WORD and len(names) <= MOST_NAMES else None


@lru_cache(maxsize=1024)  # the same slip is met again in every size
def _nearest(word: str, names: tuple[str, ...]) -> str | None:
    plain = {name.casefold().replace("_", " "): name for name in reversed(names)}
    close = get_close_matches(word.casefold().replace("_", " "), plain, 1, 0.6)
    return plain[close[0]] if close else None


def shortened(text: str, most: int = 40) -> str:
    """The text, cut short where it is longer than anybody reads in a sentence."""
    return text if len(text) <= most else f"{text[: most - 3]}..."


def or_list(names: Iterable[str]) -> Several:
    """“a, b or c”."""
    return several(names, "or")


def letters_lacking(missing: Iterable[str]) -> tuple[Spoken, Spoken]:
    """What a note says of letters that no booklet can show, and the remedy."""
    named = or_list(f"“{letter}” (U+{ord(letter):04X})" for letter in missing)
    return (
        told("Booklets cannot show {named}: their fonts have the letters of western and central Europe.", named=named),
        told("write it with those letters"),
    )
