"""What a band is woven round: sticks or stakes, singly, in groups, or whole arms of a slath."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from slath.basket.model import Basket, WovenBand
from slath.language.pattern import Stroke
from slath.messages import Listed, Message, Numbers, message
from slath.plan.places import Gap


class Uprights(Struct, frozen=True):
    """The uprights of a band by the name the language data have for them.

    `flat`: on a base that lies on the table, whose strands go over and under, and whose ends are found from the thread on
    the first of them; on a side they go in front and behind, and bear numbers.
    """

    noun: str
    flat: bool
    around: int  # how many there are

    @property
    def one(self) -> Message:
        """One of them."""
        return message(f"uprights.{self.noun}")

    @property
    def many(self) -> Message:
        """Several of them."""
        return message(f"uprights.{self.noun}-many")

    @property
    def many_counted(self) -> Message:
        """What is counted of them: a stick has two ends, so that the counts differ."""
        return message(f"uprights.{self.noun}-counted")

    def count(self, number: int) -> Message:
        """So many of them: two stakes."""
        return message(f"uprights.{self.noun}-count", count=number)

    def stroke(self, before: int, behind: int) -> Message:
        """In front of so many and behind so many."""
        if not before:
            return message("uprights.stroke-behind", flat=self.flat, behind=self.count(behind))
        if not behind:
            return message("uprights.stroke-before", flat=self.flat, before=self.count(before))
        return message(
            "uprights.stroke-both",
            flat=self.flat,
            before=self.count(before),
            next=behind == 1 == before,
            one=self.one,
            behind=self.count(behind),
        )

    def path(self, strokes: Sequence[Stroke]) -> Listed:
        """The way of one strand, stroke after stroke."""
        return Listed(tuple(self.stroke(stroke.before, stroke.behind) for stroke in strokes))

    def at(self, number: int) -> Message:
        """One of them: a stake by its number, a stick by the thread."""
        if not self.flat:
            return message(f"uprights.{self.noun}-at", number=number)
        if number == 1:
            return message("uprights.marked", one=self.one)
        if number == self.around:
            return message("uprights.before-the-mark", one=self.one)
        return message("uprights.past-the-mark", one=self.one, count=number - 1)

    def space(self, gap: Gap) -> Message:
        """A space by what stands on either side of it."""
        left, right = gap.between
        if not self.flat and right == 1:
            return message("uprights.space-last", one=self.one, first=self.at(1))
        if not self.flat and right == self.around:
            return message("uprights.space-last-two", many=self.many)
        if not self.flat:
            return message(
                "uprights.space", places=message(f"uprights.{self.noun}-places", numbers=Numbers((left, right)))
            )
        if right == 1:
            return message("uprights.space-before-the-mark")
        return message("uprights.space-flat", left=self.at(left), right=self.at(right))

    def between(self, first: int, last: int) -> Message:
        """From one to another; of any that bear no numbers, as many as that."""
        if self.flat:
            return self.count((last - first) + 1)
        return message(f"uprights.{self.noun}-between", first=first, last=last)

    def places(self, numbers: list[int]) -> Message:
        """Where several begin, side by side: by their numbers, or so many from the thread on."""
        if self.flat:
            return message("uprights.neighbouring", count=len(numbers), many=self.many, first=self.at(numbers[0]))
        last, *rest = numbers
        if last == self.around and rest:
            return message("uprights.from-the-last", one=self.one, rest=self._these(rest))
        return self._these(numbers)

    def _these(self, numbers: Sequence[int]) -> Message:
        if len(numbers) == 1:
            return self.at(numbers[0])
        return message(f"uprights.{self.noun}-places", numbers=Numbers(tuple(numbers)))


def uprights_of(band: WovenBand, basket: Basket) -> Uprights:
    """What `band` of `basket` goes round: sticks on its base, stakes on its side."""
    on_base = any(found is band for found in basket.base.bands)
    noun = "stick" if on_base else "stake"
    sizes = set(band.group_sizes)
    if sizes <= {1}:
        return Uprights(noun, on_base, band.uprights)
    together = "pair" if sizes <= {1, 2} else "group"
    # Where some stand alone, these are no pairs and no groups.
    return Uprights(f"{noun}-or-{together}" if 1 in sizes else f"{together}-of-{noun}s", on_base, band.uprights)
