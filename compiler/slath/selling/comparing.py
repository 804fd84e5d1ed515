"""Two editions of one pattern held against each other: which numbers, sentences and figures differ, in which sizes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from difflib import SequenceMatcher

from msgspec import Struct

from slath.output.facts import Fact, Key
from slath.output.kept import KeptEdition, KeptSize, ToldStepText
from slath.selling.causes import Cause


class NumberChange(Struct, frozen=True):
    """One number of one size that is not what it was; `before` or `after` is None where it came new or went."""

    size: str
    before: Fact | None
    after: Fact | None
    causes: tuple[Cause, ...] = ()

    @property
    def fact(self) -> Fact:
        """The number as it is, or as it was if it is gone."""
        fact = self.after or self.before
        assert fact is not None  # noqa: S101 - a change has two sides, and one of them is there
        return fact


class WordsChange(Struct, frozen=True):
    """Sentences of one step that read otherwise in the sizes named; a step that came or went has one empty side."""

    sizes: tuple[str, ...]
    stage: str
    title: str
    struck: tuple[str, ...]
    written: tuple[str, ...]


class FigureChange(Struct, frozen=True):
    """A figure that shows something else in the sizes named."""

    name: str
    sizes: tuple[str, ...]
    how: str  # "changed", "new" or "gone"


class Comparison(Struct, frozen=True):
    """What differs between two editions. Sizes in which nothing differs are in none of the changes."""

    old: KeptEdition
    new: KeptEdition
    numbers: tuple[NumberChange, ...]
    words: tuple[WordsChange, ...]
    figures: tuple[FigureChange, ...]
    sizes_new: tuple[str, ...]
    sizes_gone: tuple[str, ...]

    @property
    def same(self) -> bool:
        """Whether a buyer could not tell one from the other."""
        return not (self.numbers or self.words or self.figures or self.sizes_new or self.sizes_gone)

    @property
    def sizes_concerned(self) -> tuple[str, ...]:
        """Sizes of both editions in which something differs, in the order of the pattern."""
        found = {change.size for change in self.numbers}
        found |= {size for words in self.words for size in words.sizes}
        found |= {size for figure in self.figures for size in figure.sizes}
        return tuple(size.name for size in self.new.sizes if size.name in found)


def compared(
    old: KeptEdition, new: KeptEdition, causes: Mapping[tuple[str, Key], tuple[Cause, ...]] | None = None
) -> Comparison:
    """What differs from `old` to `new`; `causes` says for a size's number which changes of the file moved it."""
    before = {size.name: size for size in old.sizes}
    after = {size.name: size for size in new.sizes}
    both = [(before[name], after[name]) for name in after if name in before]
    numbers = [change for pair in both for change in _numbers(*pair, causes or {})]
    return Comparison(
        old=old,
        new=new,
        numbers=tuple(numbers),
        words=_words(both),
        figures=_figures(both),
        sizes_new=tuple(name for name in after if name not in before),
        sizes_gone=tuple(name for name in before if name not in after),
    )


def _numbers(
    old: KeptSize, new: KeptSize, causes: Mapping[tuple[str, Key], tuple[Cause, ...]]
) -> Iterable[NumberChange]:
    was, now = ({fact.key: fact for fact in size.facts} for size in (old, new))
    for key in _in_order(list(was), list(now)):
        before, after = was.get(key), now.get(key)
        if before and after and before.agrees(after):
            continue
        yield NumberChange(new.name, before, after, causes.get((new.name, key), ()))


def _in_order(before: Sequence[Key], after: Sequence[Key]) -> list[Key]:
    """The keys that are there now in their order, each that is gone after what it followed."""
    order = list(after)
    for place, key in enumerate(before):
        if key not in order:
            order.insert(order.index(before[place - 1]) + 1 if place else 0, key)
    return order


def _words(both: Sequence[tuple[KeptSize, KeptSize]]) -> tuple[WordsChange, ...]:
    """Steps in the order of the work; a change that is the same in several sizes is told once."""
    found: dict[tuple[Key, str, tuple[str, ...], tuple[str, ...]], list[str]] = {}
    for old, new in both:
        was, now = (_steps_by_key(size) for size in (old, new))
        for key in _in_order(list(was), list(now)):
            struck, written = _sentences(was.get(key), now.get(key))
            if struck or written:
                title = (now.get(key) or was[key]).title
                found.setdefault((key, title, struck, written), []).append(new.name)
    return tuple(
        WordsChange(tuple(sizes), key[0], title, struck, written)
        for (key, title, struck, written), sizes in found.items()
    )


def _steps_by_key(size: KeptSize) -> dict[Key, ToldStepText]:
    return {(step.stage, step.step): step for step in size.steps}


def _sentences(before: ToldStepText | None, after: ToldStepText | None) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Sentences to strike out of a step, and those to write in."""
    was, now = (step.says if step else () for step in (before, after))
    struck: list[str] = []
    written: list[str] = []
    for kind, first, last, start, stop in SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
        if kind != "equal":
            struck += was[first:last]
            written += now[start:stop]
    return tuple(struck), tuple(written)


def _figures(both: Sequence[tuple[KeptSize, KeptSize]]) -> tuple[FigureChange, ...]:
    found: dict[tuple[str, str], list[str]] = {}
    for old, new in both:
        for name in dict.fromkeys([*new.figures, *old.figures]):
            was, now = old.figures.get(name), new.figures.get(name)
            if was != now:
                how = "changed" if was is not None and now is not None else "new" if was is None else "gone"
                found.setdefault((name, how), []).append(new.name)
    return tuple(FigureChange(name, tuple(sizes), how) for (name, how), sizes in found.items())
