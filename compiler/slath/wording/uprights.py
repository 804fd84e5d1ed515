"""What a band is woven round, in words: sticks or stakes, singly, in groups, or whole arms of a slath."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from slath.units.counting import counted, in_words, listed

if TYPE_CHECKING:
    from slath.basket.model import Basket, WovenBand


@dataclass(frozen=True, slots=True)
class Uprights:
    """One and many of the uprights of a band, bracketed, and the words for its two faces.

    On a base that lies on the table strands go over and under; on a side in front and behind.
    """

    one: str
    many: str
    front: str
    back: str
    front_there: str
    front_place: str
    back_place: str
    numbered: bool
    label: str
    many_counted: str

    def count(self, number: int) -> str:
        """``two [stakes]``."""
        return counted(number, self.one, self.many)

    def stroke(self, before: int, behind: int) -> str:
        """``in front of two [stakes] and behind one``."""
        if not before:
            return f"{self.back} {self.count(behind)}"
        if not behind:
            return f"{self.front} {self.count(before)}"
        return f"{self.front} {self.count(before)} and {self.back} {'the next' if behind == 1 == before else in_words(behind)}"

    def at(self, number: int) -> str:
        """Where a strand begins: ``[stake] 3``, ``pair 3``; on a base, whose ends bear no numbers yet, ``one [stick]``."""
        return f"{self.label} {number}" if self.numbered else f"one {self.one}"

    def between(self, first: int, last: int) -> str:
        """From one to another: ``[stakes] 3 to 7``; of any that bear no numbers, as many as that."""
        if not self.numbered:
            return self.count((last - first) + 1)
        return f"{self.many if self.label == self.one else f'{self.label}s'} {first} to {last}"

    def places(self, numbers: list[int]) -> str:
        """Where several begin, side by side: ``[stakes] 40, 1 and 2``, or ``three neighbouring [sticks]``."""
        if self.numbered:
            many = self.many if self.label == self.one else f"{self.label}s"
            return f"{many} {listed([str(number) for number in numbers])}"
        return f"{in_words(len(numbers))} neighbouring {self.many}"


def uprights_of(band: WovenBand, basket: Basket) -> Uprights:
    """The words for what `band` of `basket` goes round: sticks on its base, stakes on its side."""
    on_base = any(found is band for found in basket.base.bands)
    noun = "stick" if on_base else "stake"
    one, plural = f"[{noun}]", f"[{noun}s]"
    faces = (
        ("over", "under", "over", "on top", "underneath")
        if on_base
        else ("in front of", "behind", "in front", "outside", "inside")
    )
    sizes = set(band.group_sizes)
    if sizes <= {1}:
        ends = "[stick ends]" if on_base else plural  # a stick has two ends, so that the counts differ
        return Uprights(one, plural, *faces, numbered=not on_base, label=one, many_counted=ends)
    together = "pair" if sizes <= {1, 2} else "group"
    if 1 in sizes:  # some stand alone: these are no pairs and no groups
        one, plural, each = f"{one} or {together}", f"{plural} or {together}s", f"{plural} and {together}s"
        return Uprights(one, plural, *faces, numbered=not on_base, label="place", many_counted=each)
    several = f"{together}s of {plural}"
    return Uprights(
        f"{together} of {plural}", several, *faces, numbered=not on_base, label=together, many_counted=several
    )
