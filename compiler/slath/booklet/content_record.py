"""Everything the documents of one compilation are made from: the pattern and its sizes, told and drawn."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from msgspec import Struct

from slath.booklet.blocks import Definitions, Words
from slath.booklet.content_steps import Course, SizeContent, course_of
from slath.booklet.size_table import Measured
from slath.booklet.withholding import spared, speaking
from slath.language.pattern import Pattern
from slath.messages import Own, message
from slath.wording.speech import Voice


class BookletContent(Struct, frozen=True):
    """A pattern in the sizes to be printed, with what is the same for all of them."""

    pattern: Pattern
    sizes: tuple[SizeContent, ...]
    voice: Voice
    skill: Words
    tools: tuple[tuple[Words, Words], ...]
    glossary: Definitions
    pictures: Mapping[str, bytes]

    @property
    def measured(self) -> list[Measured]:
        """The sizes with their lists."""
        return [Measured(size.basket, size.quantities, len(self.pattern.sizes), self.voice) for size in self.sizes]

    def course(self, withheld: Collection[str] = ()) -> Course:
        """The work of all sizes told as one, silent on what is `withheld`."""
        voice = speaking(self.voice, withheld)
        return spared(course_of(self.sizes, voice, len(self.pattern.sizes)), withheld)

    @property
    def edition_line(self) -> str:
        """What stands at the foot of every page: title, size if there is only one, edition and day."""
        parts = [self.pattern.title]
        if len(self.sizes) == 1 and len(self.pattern.sizes) > 1:
            parts.append(self.sizes[0].name)
        parts += (
            [self.voice.text(message("booklet.edition-line", edition=Own(self.pattern.edition)))]
            if self.pattern.edition
            else []
        )
        if self.pattern.dated:
            parts.append(self.pattern.dated.isoformat())
        return " · ".join(parts)
