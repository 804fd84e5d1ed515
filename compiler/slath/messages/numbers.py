"""Counts and measures as a language writes them; where they differ by size, one after another with their unit once."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from slath.messages.language import Language
from slath.units import printing
from slath.units.printing import First

_MOST_IN_WORDS = 12


def in_words(language: Language, count: int) -> str:
    """``seven``; above twelve in figures. Nought reads ``no``."""
    return word(language, f"count-{count}") if 0 <= count <= _MOST_IN_WORDS else str(count)


def counts(language: Language, values: Sequence[int], variants: Sequence[str]) -> str:
    """Counts size by size in the form asked for; all in figures where one of them is too great for words."""
    if "ordinal" in variants:
        return row(language, [ordinal(language, value) for value in values])
    if "times" in variants:
        return row(language, [times(language, value) for value in values])
    if "figures" in variants or any(value > _MOST_IN_WORDS for value in values):
        return row(language, [str(value) for value in values])
    return row(language, [in_words(language, value) for value in values])


def ordinal(language: Language, count: int) -> str:
    """``seventh``; above twelve ``13th``, ``21st``, ``112th``, by the last figure but for the teens."""
    if 0 < count <= _MOST_IN_WORDS:
        return word(language, f"ordinal-{count}")
    last = "other" if count % 100 in {11, 12, 13} or not has(language, f"ordinal-after-{count % 10}") else count % 10
    return f"{count}{word(language, f'ordinal-after-{last}')}"


def times(language: Language, count: int) -> str:
    """``once``, ``twice``, ``three times``."""
    if has(language, f"times-{count}"):
        return word(language, f"times-{count}")
    return f"{in_words(language, count)}{word(language, 'times-after')}"


def duration(language: Language, minutes: float) -> str:
    """Minutes and hours as a teacher says them: ``15 minutes``, ``half an hour``, ``an hour and a half``."""
    whole = round(minutes)
    if has(language, f"minutes-{whole}"):
        return word(language, f"minutes-{whole}")
    if whole < 60:
        return f"{whole} {word(language, 'minute' if whole == 1 else 'minutes')}"
    hours, rest = divmod(whole, 60)
    full = word(language, "hours-1") if hours == 1 else f"{in_words(language, hours)} {word(language, 'hours')}"
    if rest == 30:
        return f"{in_words(language, hours)}{word(language, 'hours-and-half')}"
    return f"{full} {rest} {word(language, 'minutes')}" if rest else full


def spans(language: Language, numbers: Sequence[int]) -> str:
    """Numbers as they are read: ``1``, ``1 and 2``, ``1, 2 and 3``; four or more that follow one another ``1 to 4``."""
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    told: list[str] = []
    for span in found:
        if len(span) > 3:
            told.append(f"{span[0]}{word(language, 'to')}{span[-1]}")
        else:
            told += [str(number) for number in span]
    return joined(told, word(language, "and"))


def places(language: Language, runs: Sequence[Sequence[int]], *, one_by_one: bool) -> str:
    """The numbers of things of each size: in spans, or each by itself, ``40, 1 and 2``; as many in every size are given
    place by place, ``40 or 54 and 1``.
    """
    if not one_by_one:
        return row(language, [spans(language, run) for run in runs])
    if len({len(run) for run in runs}) > 1:
        return row(language, [joined([str(number) for number in run], word(language, "and")) for run in runs])
    by_place = zip(*runs, strict=True)
    return joined([row(language, [str(number) for number in column]) for column in by_place], word(language, "and"))


def joined(items: Sequence[str], last: str) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])}{last}{items[-1]}" if items else ""


def lengths(language: Language, mms: Sequence[float], variants: Sequence[str], first: First) -> str:
    """Lengths in both units, size by size: ``9 or 11 in (229 or 279 mm)``."""
    if "mm2" in variants or "mm1" in variants:
        places = 2 if "mm2" in variants else 1
        return _with_unit(language, [printing.millimetres(mm, places) for mm in mms])
    both: Callable[[float], tuple[str, str]] = printing.in_both
    if "bit" in variants:
        both = printing.bit_in_both
    elif "long" in variants or "up" in variants:
        up = "up" in variants

        def both(mm: float) -> tuple[str, str]:
            return printing.long_in_both(mm, up=up)

    measured = [both(mm) for mm in mms]
    imperial, metric = ([pair[side] for pair in measured] for side in (0, 1))
    return printing.ordered(_with_unit(language, imperial), _with_unit(language, metric), first)


def masses(language: Language, grams: Sequence[float], first: First) -> str:
    """Masses in both units, size by size."""
    imperial = row(language, [written(language, printing.ounces(g)) for g in grams])
    return printing.ordered(imperial, row(language, [written(language, printing.grams(g)) for g in grams]), first)


def written(language: Language, measure: str) -> str:
    """A printed measure with the decimal sign and the units of a language."""
    return " ".join(_part_written(language, part) for part in measure.split(" "))


def _part_written(language: Language, part: str) -> str:
    """A number or a unit, be it in brackets."""
    inner = part.strip("()")
    before, _, after = part.partition(inner) if inner else (part, "", "")
    own = language.units.get(inner, inner.replace(".", language.about("decimal")))
    return f"{before}{own}{after}"


def decimals(language: Language, value: float, places: int) -> str:
    """A bare number with at most so many decimals: ``2.5``, ``2,5``."""
    return written(language, printing.decimal(value, places))


def _with_unit(language: Language, measures: Sequence[str]) -> str:
    parts = [written(language, measure).rsplit(" ", 1) for measure in measures]
    plain = all(len(part) == 2 and part[0][0].isdigit() for part in parts)
    if plain and len({unit for _, unit in parts}) == 1:
        return f"{row(language, [number for number, _ in parts])} {parts[0][1]}"
    return row(language, [" ".join(part) for part in parts])


def row(language: Language, values: Sequence[str]) -> str:
    """One value of each size in their order, ``14, 18 or 20``; the bare value where all sizes have the same."""
    return values[0] if len(set(values)) == 1 else joined(values, word(language, "or"))


def has(language: Language, name: str) -> bool:
    """Whether the language has a word of its own for a number."""
    return language.template(f"numbers.{name}") is not None


def word(language: Language, name: str) -> str:
    """One word of the numbers of a language."""
    parts = language.template(f"numbers.{name}")
    return "".join(str(part) for part in parts or ())
