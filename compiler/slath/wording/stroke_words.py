"""What the telling of every weave is made of: strands as they are picked up, places, the path of a strand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from slath.units.counting import in_words, ordinal
from slath.wording.speech import many
from slath.wording.stuff import colour_words, strand_words

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.wording.told import Clause
    from slath.wording.uprights import Uprights
    from slath.wording.work import Work


@dataclass(frozen=True, slots=True)
class Strokes:
    """A weave told: sentences to begin it, to work it, remarks, and to end it."""

    begin: tuple[Clause, ...]
    go_on: tuple[Clause, ...]
    remarks: tuple[Clause, ...]
    end: tuple[Clause, ...]


def first_place(band: WovenBand, rod: int) -> int:
    """The upright behind which the tail of a rod lies: the one before its first, as the weave model sets it out."""
    return (band.start + rod - 2) % band.uprights + 1


def whole_path(band: WovenBand, words: Uprights) -> str:
    """The whole path of one strand, stroke after stroke."""
    return ", then ".join(words.stroke(stroke.before, stroke.behind) for stroke in band.spec.weave.strokes)


def all_one(work: Work, band: WovenBand) -> str:
    """The material of a band of one colour, where the pattern has others to take by mistake: `` of natural No. 3``."""
    keys = {key for rod in band.materials for key in rod}
    others = {run.material for run in work.quantities.strands} - keys
    if len(keys) != 1 or not others:
        return ""
    return f" of {strand_words(work.basket.pattern.materials[keys.pop()])}"


def rod_name(work: Work, band: WovenBand, rod: int) -> str:
    """A strand of a chase or a pair by its colour if the two differ, else by its turn."""
    if len(set(band.materials)) > 1:
        keys = [rod[0] for rod in band.materials]
        return f"the {colour_words(keys[rod], work.basket.pattern.materials, keys)} {one_of(band)}"
    return f"the {ordinal(rod + 1)} {one_of(band)}"


def bundled(band: WovenBand) -> bool:
    """Whether several strands lie together and move as one."""
    return band.spec.weave.as_one > 1


def one_of(band: WovenBand) -> str:
    """What moves: a strand, or several as one."""
    return {1: "[strand]", 2: "pair of [strands]"}.get(band.spec.weave.as_one, "bundle of [strands]")


def in_bundles(work: Work, band: WovenBand) -> str:
    """Strands taken together: ``four [strands] of No. 4 round reed, and lay them two together, to work as one``."""
    total, as_one = sum(len(rod) for rod in band.materials), band.spec.weave.as_one
    return f"{many(total, 'strand')}{all_one(work, band)}, and lay them {in_words(as_one)} together, to work as one"


def in_rows(rows: tuple[int, int]) -> str:
    """Rows counted from 1 as they are named: ``3``, or ``3 to 7``."""
    return str(rows[0]) if rows[0] == rows[1] else f"{rows[0]} to {rows[1]}"
