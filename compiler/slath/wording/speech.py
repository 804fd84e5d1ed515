"""How a booklet speaks: its vocabulary, its units, its hand; and sentences turned into words that can be set.

A sentence is written once, in UK words. ``[stakes]`` names a concept of the trade, printed in the booklet's vocabulary
and linked to its glossary; ``<rust>`` names a material of the pattern, printed as its letter on its colour.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from slath.booklet.blocks import Chip, Emphasis, Link, Measure, Strong, Term
from slath.trade.words import UK, Vocabulary, concepts
from slath.units import counting, printing

if TYPE_CHECKING:
    from collections.abc import Mapping

    from slath.booklet.blocks import Piece, Words
    from slath.language.pattern import Material
    from slath.units.printing import First

_MARKED = re.compile(r"\[([^\]]+)\]|<([^>]+)>")
# Private characters that stand for brackets in words that are not ours, while a sentence is read for marks.
_HIDDEN = str.maketrans("[]<>", "\ue000\ue001\ue002\ue003")
_SHOWN = str.maketrans("\ue000\ue001\ue002\ue003", "[]<>")
_LETTER = re.compile(r" ?<([^<>]+)>")
_ARTICLE = re.compile(r"\b([Aa])n? $")


@dataclass(frozen=True)
class Voice:
    """How one booklet speaks. `mirrored`: the work runs right to left, seen from outside."""

    materials: Mapping[str, Material]
    vocabulary: Vocabulary = UK
    first: First = "inches"
    mirrored: bool = False

    @property
    def on(self) -> str:
        """The side towards which the work runs, seen from outside."""
        return "left" if self.mirrored else "right"

    @property
    def back(self) -> str:
        """The side from which the work comes."""
        return "right" if self.mirrored else "left"

    @property
    def way_round(self) -> str:
        """The way the work runs round the face of a base that is turned to the maker."""
        return "anticlockwise" if self.mirrored else "clockwise"

    def length(self, mm: float) -> str:
        """A length in both units, the booklet's own first."""
        return printing.both(mm, self.first)

    def by(self, long_mm: float, wide_mm: float) -> str:
        """Length by width in both units, for tables: ``9 × 6 in (229 × 152 mm)``."""
        return printing.both_by(long_mm, wide_mm, self.first)

    def bit(self, mm: float) -> str:
        """A drill bit for a hole of at least this width."""
        return printing.both_bit(mm, self.first)

    def long(self, mm: float, *, up: bool = False) -> str:
        """A length of material in feet and metres."""
        return printing.both_long(mm, self.first, up=up)

    def mass(self, g: float) -> str:
        """A mass in both units."""
        return printing.both_mass(g, self.first)

    def say(self, sentence: str) -> Words:
        """A sentence as words to set: concepts in this vocabulary, letters of strands, this country's spelling."""
        sentence = _LETTER.sub(self._letter, sentence)
        pieces: list[Piece] = []
        end = 0
        for found in _MARKED.finditer(sentence):
            plain = sentence[end : found.start()]
            end = found.end()
            piece: Piece
            if found[1]:
                use = self.vocabulary.use(found[1])
                piece = Term(use.printed, anchor=anchor_of(concepts()[use.key].explained_by))
                plain = _ARTICLE.sub(lambda article, after=use.printed: _article(article[1], after), plain)  # type: ignore[misc]
            else:
                material = self.materials[found[2]]
                piece = Chip(material.colour, material.letter)
            if plain:
                pieces.append(self._own(plain))
            pieces.append(piece)
        if end < len(sentence) or not pieces:
            pieces.append(self._own(sentence[end:]))
        return pieces[0] if len(pieces) == 1 else tuple(pieces)

    def _letter(self, found: re.Match[str]) -> str:
        """The mark of a material; nothing where it bears no letter, because it is not woven."""
        return found[0] if self.materials[found[1]].letter else ""

    def _own(self, text: str) -> str:
        return self.vocabulary.spelled(text).translate(_SHOWN)

    def text(self, sentence: str) -> str:
        """The same without marks, for titles and labels."""
        return plain(self.say(sentence))

    def terms(self) -> dict[str, str]:
        """Every UK form and what this vocabulary prints for it, for labels of figures."""
        return {form: self.vocabulary.use(form).printed for form in _noun_forms()}


def anchor_of(key: str) -> str:
    """The place of a concept in the glossary."""
    return f"word-{key.lower().replace(' ', '-')}"


def plain(words: Words) -> str:
    """Words without their marks, as they are read aloud; a patch of colour reads as its letter in brackets."""
    if isinstance(words, str):
        return words
    if isinstance(words, tuple):
        return "".join(plain(piece) for piece in words)
    if isinstance(words, Chip):
        return f"({words.letter})"
    if isinstance(words, Strong | Emphasis | Term | Link):
        return plain(words.words)
    return words.text if isinstance(words, Measure) else ""


def verbatim(text: str) -> str:
    """Words of the designer's own, whose brackets mean nothing to us, ready to stand in a sentence."""
    return text.translate(_HIDDEN)


def bracketed(text: str) -> str:
    """Plain UK text, such as the names of parts in the list, with every concept it names put in brackets.

    Words that everyday speech uses otherwise (``tip``, ``space``) are left alone.
    """
    return _nouns().sub(lambda found: f"[{_as_listed(found[0])}]", text)


def many(count: int, concept: str) -> str:
    """A count in words with its concept, ready to be said: ``two [stakes]``, ``40 [stakes]``."""
    return f"{counting.in_words(count)} [{UK.counted_term(concept, count)}]"


def figures(count: int, concept: str) -> str:
    """The same in figures, for counts that are checked: ``40 [stakes]``."""
    return f"{count} [{UK.counted_term(concept, count)}]"


def sentence_case(text: str) -> str:
    """`text` with its first letter a capital, past any opening bracket."""
    for place, letter in enumerate(text):
        if letter.isalpha():
            return text[:place] + letter.upper() + text[place + 1 :]
        if letter.isdigit():
            return text
    return text


def _as_listed(form: str) -> str:
    """A form as the word list writes it, keeping a capital."""
    listed = next(known for known in _noun_forms() if known.casefold() == form.casefold())
    return listed[0].upper() + listed[1:] if form[0].isupper() else listed


@cache
def _noun_forms() -> tuple[str, ...]:
    nouns = [form for key, concept in concepts().items() if not key.startswith("to ") for form in concept.forms["UK"]]
    return tuple(sorted(dict.fromkeys(nouns), key=len, reverse=True))


_EVERYDAY = {"space", "tip", "butt", "crown", "arch", "ear", "packing", "chasing", "wrapping", "open work", "scarf"}


@cache
def _nouns() -> re.Pattern[str]:
    forms = [
        form
        for form in _noun_forms()
        if form.removesuffix("es") not in _EVERYDAY and form.removesuffix("s") not in _EVERYDAY
    ]
    return re.compile(rf"(?<![\w\[-])(?:{'|'.join(re.escape(form) for form in forms)})(?![\w\]-])", re.IGNORECASE)


def _article(article: str, after: str) -> str:
    return f"{article}n " if after[0].lower() in "aeiou" else f"{article} "
