"""How the numbers of several sizes stand in a sentence, told to the reader before the first of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.booklet.merging import merged_words
from slath.units.counting import listed
from slath.wording.speech import plain

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from slath.booklet.content_steps import SizeContent
    from slath.wording.speech import Voice


def order(sizes: Sequence[SizeContent]) -> str:
    """The names of the sizes as their numbers stand: ``small [medium, large]``."""
    first, *others = (size.name for size in sizes)
    return f"{first} [{', '.join(others)}]" if others else first


def how_told(sizes: Sequence[SizeContent], voice: Voice) -> str:
    """What a reader of several sizes must know, with a measure of these very sizes as an example. Empty for one size."""
    if len(sizes) < 2:
        return ""
    others = listed([size.name for size in sizes[1:]])
    example = next(_examples(sizes, voice), "")
    return (
        f"Where sizes differ, their numbers always stand in one order: {order(sizes)}. "
        f"The number for {sizes[0].name} comes first; in square brackets after it {_follow(len(sizes) - 1)} for {others}. "
        f"{example}"
        "A number that stands alone is for every size. A sentence that opens with the name of a size is for that size "
        "alone. Before you begin, mark the numbers of your own size all the way through."
    )


def _follow(others: int) -> str:
    return "follows that" if others == 1 else "follow those"


def _examples(sizes: Sequence[SizeContent], voice: Voice) -> Iterator[str]:
    """A measure that is another in every size, read out."""
    names = [size.name for size in sizes]
    for measure in ("rim_length", "base_length", "height"):
        lengths = [voice.length(getattr(size.quantities.finished, measure).value) for size in sizes]
        if len(set(lengths)) == len(lengths):
            (told,) = merged_words(list(zip(names, lengths, strict=True)), names)
            read_out = listed([f"{length} for {name}" for name, length in zip(names, lengths, strict=True)])
            yield f"So {plain(told)} means {read_out}. "
