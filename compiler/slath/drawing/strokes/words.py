"""The strokes of a weave in words, with the numbers of the uprights they pass."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from slath.basket.model import WovenBand
from slath.language.pattern import Stroke, WeaveSpec
from slath.messages import Listed, Message, Numbers, Own, message


def strokes_of(weave: WeaveSpec, number: int) -> tuple[Stroke, ...]:
    """The first `number` strokes of a rod."""
    return tuple(weave.strokes[step % len(weave.strokes)] for step in range(number))


def passed_by(weave: WeaveSpec, number: int) -> int:
    """Uprights passed in the first `number` strokes of a rod."""
    return sum(stroke.reach for stroke in strokes_of(weave, number))


def start_said(band: WovenBand) -> Message:
    """Where the strands of a weave start: "three neighbouring spaces"."""
    weave, together = band.spec.weave, _together(band)
    if band.begins_folded:
        return message("figure-strokes.folded", together=together, number=_counted(band, 0))
    if len(band.materials) == 1:
        return message("figure-strokes.one-space", as_one=weave.as_one if weave.as_one > 1 else None)
    if weave.kind == "french rand":
        return message("figure-strokes.every-space", count=len(band.materials))
    return message("figure-strokes.neighbouring", rods=weave.rods, together=together)


def stroke_said(band: WovenBand, rod: int, done: int) -> Message:
    """One stroke: "before 1 and 2, behind 3"; of flat work over and under."""
    weave = band.spec.weave
    stroke = weave.strokes[done % len(weave.strokes)]
    first = rod + passed_by(weave, done)
    named = tuple(_counted(band, first + step) for step in range(stroke.reach))
    return message(
        "figure-strokes.stroke",
        flat=band.on_sticks,
        before=Numbers(named[: stroke.before]),
        both=bool(stroke.before and stroke.behind),
        behind=Numbers(named[stroke.before :]),
    )


def _counted(band: WovenBand, place: int) -> int:
    """The number of the upright so many places on from where the band starts."""
    return (place + band.start - 1) % band.uprights + 1


def _together(band: WovenBand) -> Message | None:
    """What the numbers are of where uprights are worked in groups: nothing where each is worked by itself."""
    sizes = set(band.group_sizes)
    return None if sizes <= {1} else message("figure-strokes.pair" if sizes == {2} else "figure-strokes.group")


def _one(band: WovenBand) -> Message:
    """What is passed: a stake, a stick end, a pair or a group."""
    return _together(band) or message("figure-strokes.stick-end" if band.on_sticks else "figure-strokes.stake")


def figure_words(
    band: WovenBand,
    letters: list[str],
    moves: Sequence[tuple[int, ...]],
    *,
    renewed: bool = False,
    in_split: bool = False,
) -> Message:
    """The whole of the figure in words: the start, every stroke shown, how it goes on, and how rods are `renewed`."""
    said = [message("figure-strokes.seen", flat=band.on_sticks), _begun(band, letters, in_split=in_split)]
    shown = moves[:-1] if len(letters) == 1 else moves
    for before, after in pairwise(shown):
        rod = next(index for index in range(len(after)) if after[index] != before[index])
        said.append(
            message(
                "figure-strokes.made",
                number=sum(after),
                letter=Own(letters[rod]),
                stroke=stroke_said(band, rod, before[rod]),
                flat=band.on_sticks,
            )
        )
    said.append(_order(band))
    if renewed:
        said.append(message("figure-strokes.renewed", one=_one(band)))
    return message("figure.sentences", all=Listed(tuple(said)))


def _begun(band: WovenBand, letters: list[str], *, in_split: bool) -> Message:
    """Where the strands start, in a sentence."""
    one, flat = _one(band), band.on_sticks
    if band.begins_folded:
        first, second = Own(letters[0]), Own(letters[1])
        return message("figure-strokes.begins-folded", one=one, around=_counted(band, 0), first=first, second=second)
    spaces = Listed(
        tuple(
            message("figure-strokes.in-space", letter=Own(letter), one=one, number=_counted(band, rod - 1))
            for rod, letter in enumerate(letters)
        )
    )
    if in_split:
        first, second = Own(letters[0]), Own(letters[1])
        return message("figure-strokes.begins-in-split", one=one, number=_counted(band, 0), first=first, second=second)
    if len(letters) == 1:
        return message("figure-strokes.begins-one", flat=flat, one=one, spaces=spaces)
    return message("figure-strokes.begins", flat=flat, one=one, spaces=spaces)


def _order(band: WovenBand) -> Message:
    """How the strokes go on."""
    weave, one = band.spec.weave, _one(band)
    if weave.kind == "french rand":
        return message("figure-strokes.on-back")
    if weave.kind == "packing" and band.spec.cells:
        return message("figure-strokes.on-row", one=one)
    if len(band.materials) == 1:
        return message("figure-strokes.on-alone", one=one)
    if weave.kind == "chase":
        return message("figure-strokes.on-following", stepped=band.spec.step_up)
    return message("figure-strokes.on-by-turns", stepped=band.spec.step_up)
