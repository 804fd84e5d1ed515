"""The strokes of a weave in words, with the numbers of the uprights they pass."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from slath.basket.model import WovenBand
from slath.drawing.options import Options
from slath.drawing.wall.strands import climbs
from slath.language.pattern import Stroke, WeaveSpec
from slath.units.counting import in_spans


def strokes_of(weave: WeaveSpec, number: int) -> tuple[Stroke, ...]:
    """The first `number` strokes of a rod."""
    return tuple(weave.strokes[step % len(weave.strokes)] for step in range(number))


def passed_by(weave: WeaveSpec, number: int) -> int:
    """Uprights passed in the first `number` strokes of a rod."""
    return sum(stroke.reach for stroke in strokes_of(weave, number))


def start_words(band: WovenBand) -> str:
    """Where the strands of a weave start: "three neighbouring spaces"."""
    weave = band.spec.weave
    if band.begins_folded:
        around = f"{_together(band)} {(band.start - 1) % band.uprights + 1}"
        return f"one strand folded round {around.strip()}"
    if len(band.materials) == 1:
        return "one space" if weave.as_one == 1 else f"{weave.as_one} as one, one space"
    if weave.kind == "french rand":
        return f"a rod in every space, {len(band.materials)} in all"
    number = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}.get(weave.rods, str(weave.rods))
    between = f" between {_together(band)}s" if _together(band) else ""
    return f"{number} neighbouring spaces{between}"


def stroke_words(band: WovenBand, rod: int, done: int) -> str:
    """One stroke in words with its uprights: "before 1 and 2, behind 3"."""
    weave, count = band.spec.weave, band.uprights
    stroke = weave.strokes[done % len(weave.strokes)]
    first = rod + passed_by(weave, done)
    named = [(first + step + band.start - 1) % count + 1 for step in range(stroke.reach)]
    before, behind = _faces(band)
    return f"{before} {in_spans(named[: stroke.before])}, {behind} {in_spans(named[stroke.before :])}"


def _faces(band: WovenBand) -> tuple[str, str]:
    """What a strand does with an upright: on flat work it goes over and under."""
    return ("over", "under") if band.on_sticks else ("before", "behind")


def _together(band: WovenBand) -> str:
    """What the numbers are of where uprights are worked in groups: nothing where each is worked by itself."""
    sizes = set(band.group_sizes)
    return "" if sizes <= {1} else "pair" if sizes == {2} else "group"


def figure_words(
    band: WovenBand, letters: list[str], moves: Sequence[tuple[int, ...]], options: Options, *, renewed: bool = False
) -> str:
    """The whole of the figure in words: the start, every stroke shown, how it goes on, and how rods are `renewed`."""
    stake = _together(band) or ("stick end" if band.on_sticks else options.term("stake"))
    seen = "Seen from the side you work on" if band.on_sticks else "Seen from outside"
    said = [f"{seen}. {_begun(band, letters, stake, options)}"]
    shown = moves[:-1] if len(letters) == 1 else moves
    for before, after in pairwise(shown):
        rod = next(index for index in range(len(after)) if after[index] != before[index])
        said.append(
            f"Stroke {sum(after)}: {letters[rod]} goes {stroke_words(band, rod, before[rod])}, and comes {'up again' if band.on_sticks else 'out to the front'}."
        )
    said.append(order_words(band, stake, options))
    if renewed:
        said.append(
            f"When they are used up, each is left inside, behind a {stake}, and a new set begins on top of them as the first "
            "did, one in every space."
        )
    return " ".join(said)


def _begun(band: WovenBand, letters: list[str], stake: str, options: Options) -> str:
    """Where the strands start, in a sentence."""
    strand, strands = options.term("strand"), options.term("strands")
    if band.begins_folded:
        around = (band.start - 1) % band.uprights + 1
        return (
            f"One {strand} is folded round {stake} {around}: its half {letters[0]} comes out to the {options.left} of it, "
            f"{letters[1]} to the {options.right}."
        )
    spaces = "; ".join(
        f"{letter} to the {options.right} of {stake} {(rod + band.start - 2) % band.uprights + 1}"
        for rod, letter in enumerate(letters)
    )
    if len(letters) == 1:
        return f"The {strand} starts with its tail {_faces(band)[1]} the {stake} on its {options.left}: {spaces}."
    under = "underneath" if band.on_sticks else "behind"
    return f"{strands.capitalize()} start {under}, each with its tail {_faces(band)[1]} the {stake} on its {options.left}: {spaces}."


def order_words(band: WovenBand, stake: str, options: Options) -> str:
    """How the strokes go on."""
    strand = options.term("strand")
    if band.spec.weave.kind == "french rand":
        return f"Take the next {strand} to the {options.left} each time, until every one has made its stroke; so each round."
    if band.spec.weave.kind == "packing" and band.spec.cells:
        return (
            f"Go on to the {options.right} to the end of the row, turn round its last {stake}, and weave back to the "
            f"{options.left} on top, meeting each {stake} on the other face."
        )
    if len(band.materials) == 1:
        return (
            f"Go on round to the {options.right}; in the next round the {strand} meets each {stake} on the other face, "
            "and lies on the first."
        )
    taken = f"Always take the {strand} that hangs furthest to the {options.left}."
    if band.spec.weave.kind == "chase":
        taken = f"One {strand} goes ahead and the other follows; neither overtakes."
    return f"{taken} Rounds follow one another, {climbs(band)}."
