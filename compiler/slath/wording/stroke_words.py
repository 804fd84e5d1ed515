"""What the telling of every weave is made of: strands as they are picked up, places, the path of a strand."""

from __future__ import annotations

from msgspec import Struct

from slath.basket.model import WovenBand
from slath.messages import Message, message
from slath.wording.stuff import colour_said, strand_said
from slath.wording.told import Clause
from slath.wording.uprights import Uprights
from slath.wording.work import Work

_TOGETHER = {1: "strand", 2: "pair"}  # how many strands move as one


class Strokes(Struct, frozen=True):
    """A weave told: sentences to begin it, to work it, remarks, and to end it."""

    begin: tuple[Clause, ...]
    go_on: tuple[Clause, ...]
    remarks: tuple[Clause, ...]
    end: tuple[Clause, ...]


def whole_path(work: Work, band: WovenBand, words: Uprights) -> Message:
    """The whole path of one strand, stroke after stroke."""
    return message("strokes.path", strokes=words.path(work.weaving(band).strokes))


def tails(work: Work, band: WovenBand) -> list[int]:
    """The uprights behind which the ends of the rods lie where they begin, each the one to the left of its space."""
    return list(dict.fromkeys(laid.at.number for laid in work.weaving(band).laid))


def all_one(work: Work, band: WovenBand) -> Message | None:
    """The material of a band of one colour, where the pattern has others to take by mistake."""
    keys = {key for rod in band.materials for key in rod}
    others = {key for key, material in work.voice.materials.items() if material.letter} - keys
    if len(keys) != 1 or not others:
        return None
    return message("strokes.of", strand=strand_said(work.basket.pattern.materials[keys.pop()]))


def rod_name(work: Work, band: WovenBand, rod: int) -> Message:
    """A strand of a chase or a pair by its colour if the two differ, else by its turn."""
    if len(set(band.materials)) > 1:
        keys = [rod[0] for rod in band.materials]
        colour = colour_said(keys[rod], work.basket.pattern.materials, keys)
        return message("strokes.the-coloured", colour=colour, one_of=one_of(band))
    return message("strokes.the-first", rod=rod + 1, one_of=one_of(band))


def bundled(band: WovenBand) -> bool:
    """Whether several strands lie together and move as one."""
    return band.spec.weave.as_one > 1


def one_of(band: WovenBand) -> Message:
    """What moves: a strand, or several as one."""
    return message(f"strokes.moves-{_TOGETHER.get(band.spec.weave.as_one, 'bundle')}")


def in_bundles(work: Work, band: WovenBand) -> Message:
    """Strands taken together: four strands, and lay them two together, to work as one."""
    total, as_one = sum(len(rod) for rod in band.materials), band.spec.weave.as_one
    return message("strokes.and-lay-them-together-to", total=total, all_one=all_one(work, band), as_one=as_one)


def in_rows(rows: tuple[int, int]) -> Message:
    """Rows counted from 1 as they are named: ``3``, or ``3 to 7``."""
    return message("strokes.rows", first=rows[0], several=rows[0] != rows[1], last=rows[1])
