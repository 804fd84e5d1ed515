"""Counts in words: seven, the seventh, twice; and a count with its noun."""

from __future__ import annotations

from collections.abc import Sequence

_ONES = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
# Every number up to ninety-nine by its word.
NUMBERS = {word: number for number, word in enumerate(_ONES, 1)} | {
    f"{tens}-{_ONES[one - 1]}" if one else tens: 10 * place + one
    for place, tens in enumerate(_TENS, 2)
    for one in range(10)
}
MOST_IN_WORDS = 12  # what is more is written in figures
_WORDS = ("no", *_ONES[:MOST_IN_WORDS])
_ORDINALS = (
    "", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth",
)  # fmt: skip
_TIMES = ("never", "once", "twice", "three times")


def numbers_to(most: int) -> dict[str, int]:
    """The numbers from one to `most` by their words."""
    return {word: number for word, number in NUMBERS.items() if number <= most}


def in_words(count: int) -> str:
    """``seven``; above twelve in figures. Nought reads ``no``, as in ``no stakes``."""
    return _WORDS[count] if 0 <= count < len(_WORDS) else str(count)


def counted(count: int, one: str, many: str, *, figures: bool = False) -> str:
    """Give a count with its noun: ``one stake``, ``seven stakes``, ``40 stakes``."""
    return f"{count if figures else in_words(count)} {one if count == 1 else many}"


def ordinal(count: int) -> str:
    """``seventh``; above twelve ``13th``, ``21st``, ``112th``."""
    if 0 < count < len(_ORDINALS):
        return _ORDINALS[count]
    ending = "th" if count % 100 in {11, 12, 13} else {1: "st", 2: "nd", 3: "rd"}.get(count % 10, "th")
    return f"{count}{ending}"


def times(count: int) -> str:
    """``once``, ``twice``, ``three times``, ``seven times``."""
    return _TIMES[count] if count < len(_TIMES) else f"{in_words(count)} times"


def duration(minutes: float) -> str:
    """``fifteen`` minutes and hours as a teacher says them: ``15 minutes``, ``half an hour``, ``an hour and a half``."""
    whole = round(minutes)
    named = {30: "half an hour", 45: "three quarters of an hour", 60: "an hour", 90: "an hour and a half"}
    if whole in named:
        return named[whole]
    if whole < 60:
        return counted(whole, "minute", "minutes", figures=True)
    hours, rest = divmod(whole, 60)
    if not rest:
        return counted(hours, "hour", "hours")
    if rest == 30:
        return f"{in_words(hours)} and a half hours"
    return f"{counted(hours, 'hour', 'hours')} {rest} minutes"


def listed(items: tuple[str, ...] | list[str], word: str = "and") -> str:
    """Join items as ``a``, ``a and b``, ``a, b and c``."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {word} {items[-1]}"


def in_spans(numbers: Sequence[int]) -> str:
    """Numbers as they are read: ``1``, ``1 and 2``, ``1, 2 and 3``; four or more that follow one another ``1 to 4``."""
    spans: list[list[int]] = []
    for number in numbers:
        if spans and number == spans[-1][-1] + 1:
            spans[-1].append(number)
        else:
            spans.append([number])
    words: list[str] = []
    for span in spans:
        words += [f"{span[0]} to {span[-1]}"] if len(span) > 3 else [str(number) for number in span]
    return listed(words)
