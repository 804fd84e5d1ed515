"""How a booklet speaks: its language, its vocabulary, its units, its hand, and what it keeps to itself.

The only place where messages become words that can be set.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from msgspec import Struct

from slath.booklet.pieces import Chip, Emphasis, Link, Measure, Piece, Strong, Term, Words, pieces_of
from slath.messages import numbers, templates
from slath.messages.language import ENGLISH, IN_ENGLISH, Language, languages
from slath.messages.templates import Choice, Field, LetterMark, Part, parsed
from slath.messages.values import (
    BySize,
    Decimals,
    Length,
    Letter,
    Listed,
    Mass,
    Message,
    Minutes,
    Numbers,
    OfSizes,
    Own,
    Secrecy,
    Value,
    secret,
)  # fmt: skip
from slath.trade.words import UK, Vocabulary, concepts
from slath.units import printing
from slath.units.printing import First

# Private characters that stand for marks in words that are not ours, while a sentence is read for marks.
_HIDDEN = str.maketrans("[]<>{}", "\ue000\ue001\ue002\ue003\ue004\ue005")
_SHOWN = str.maketrans("\ue000\ue001\ue002\ue003\ue004\ue005", "[]<>{}")
_JOINTS = {"and", "or", "then", "then-each"}  # how listed things are joined, by the words for numbers
_APART = {"run": "", "comma": ", ", "semicolon": "; ", "sentences": " ", "plus": " + "}

Said = str | Message | OfSizes  # a str is a sentence that has no key yet: marked English


class Woven(Protocol):
    """What a voice must know of a material: the colour and the letter it is told by."""

    @property
    def colour(self) -> str:
        """Colour on the page, ``#rrggbb``."""

    @property
    def letter(self) -> str:
        """The letter, empty if it has none."""


class Voice(Struct, frozen=True, dict=True):
    """How one booklet speaks. `mirrored`: the work runs right to left, seen from outside; `withheld`: what it keeps."""

    materials: Mapping[str, Woven]
    vocabulary: Vocabulary = UK
    first: First = "inches"
    mirrored: bool = False
    language: Language = IN_ENGLISH
    withheld: frozenset[Secrecy] = frozenset()

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
        return numbers.lengths(self.language, [mm], (), self.first)

    def by(self, long_mm: float, wide_mm: float) -> str:
        """Length by width in both units, for tables: ``9 × 6 in (229 × 152 mm)``."""
        return numbers.written(self.language, printing.both_by(long_mm, wide_mm, self.first))

    def bit(self, mm: float) -> str:
        """A drill bit for a hole of at least this width."""
        return numbers.lengths(self.language, [mm], ("bit",), self.first)

    def long(self, mm: float, *, up: bool = False) -> str:
        """A length of material in feet and metres."""
        return numbers.lengths(self.language, [mm], ("up" if up else "long",), self.first)

    def mass(self, g: float) -> str:
        """A mass in both units."""
        return numbers.masses(self.language, [g], self.first)

    def say(self, said: Said) -> Words:
        """A message as words to set: in this language, with concepts in this vocabulary, letters of strands, this
        country's spelling. Empty where it says nothing, or nothing that may be told.
        """
        telling = _Telling(self)
        if isinstance(said, OfSizes):
            sizes = Listed(tuple(Own(size) for size in said.sizes))
            name = plain(self.say(Message("voice.of-sizes", (("sizes", sizes),))))
            words = self.say(said.said)
            return (Strong(name), *pieces_of(words)) if words else ""
        if isinstance(said, Message):
            telling.message(said)
        else:
            telling.parts(parsed(said), {}, IN_ENGLISH)
        return telling.words()

    def text(self, said: Said) -> str:
        """The same without marks, for titles and labels."""
        return plain(self.say(said))

    def glossary_entry(self, key: str) -> tuple[str, Words, tuple[str, ...]]:
        """The word for a concept, what it means, and the concepts its meaning speaks of."""
        language = self.language
        if language.code == ENGLISH or not language.knows(key):
            language, name, meaning = IN_ENGLISH, self.vocabulary.term(key), parsed(concepts()[key].means)
            spoken_of = tuple(self.vocabulary.use(form).key for form in templates.terms_of(meaning))
        else:
            name, meaning = language.term(key), language.means(key)
            spoken_of = tuple(language.concept(form) for form in templates.terms_of(meaning))
        telling = _Telling(self)
        telling.parts(meaning, {}, language)
        return name, telling.words(), spoken_of

    def terms(self) -> dict[str, str]:
        """Every UK form and what this booklet prints for it, for labels of figures."""
        found: dict[str, str] = {}
        for key, concept in concepts().items():
            if key.startswith("to "):
                continue
            english = self.language.code == ENGLISH or not self.language.knows(key)
            own = concept.forms[self.vocabulary.name] if english else self.language.forms(key)
            for form, printed in zip(concept.forms["UK"], own, strict=False):
                found.setdefault(form, printed)
        return found


def voice_of(tag: str) -> Voice:
    """A voice for words beside a document in a language, by its BCP 47 tag; English where there is none of it."""
    code = tag.partition("-")[0]
    return Voice({}, language=Language(code) if code in languages() else IN_ENGLISH)


class _Telling:
    """One message on its way into words."""

    def __init__(self, voice: Voice) -> None:
        self.voice = voice
        self.pieces: list[Piece] = []

    def words(self) -> Words:
        shown = [piece.translate(_SHOWN) if isinstance(piece, str) else piece for piece in self.pieces]
        kept = [piece for piece in shown if piece != ""]
        return kept[0] if len(kept) == 1 else tuple(kept) if kept else ""

    def add(self, piece: Piece) -> None:
        """One more piece; words next to words are joined."""
        if isinstance(piece, str) and self.pieces and isinstance(self.pieces[-1], str):
            self.pieces[-1] += piece
        else:
            self.pieces.append(piece)

    # ----------------------------------------------------------------------------------------------------- sentences
    def message(self, said: Message, variants: Sequence[str] = ()) -> None:
        """A sentence with a secret in it has a wording of its own, ``key.withheld``, or a gap where the value stood."""
        values = dict(said.values)
        wanted = list(variants)
        if any(secret(value, self.voice.withheld) for value in values.values()):
            wanted.insert(0, "withheld")
        for language in (self.voice.language, IN_ENGLISH):
            for variant in (*wanted, ""):
                parts = language.template(f"{said.key}.{variant}" if variant else said.key)
                if parts is not None:
                    self.parts(parts, values, language)
                    return
        raise KeyError(said.key)

    def parts(self, parts: Sequence[Part], values: Mapping[str, Value], language: Language) -> None:
        """The parts of a template of one language, with the values of its message."""
        for part in parts:
            match part:
                case str():
                    own = language.code == ENGLISH
                    self.add(self.voice.vocabulary.spelled(part) if own else part)
                case templates.Term(form):
                    self.term(form, language)
                case LetterMark(material):
                    self.letter(material)
                case Field(name, variants):
                    self.field(name, variants, values, language)
                case Choice(name, kind, branches):
                    chosen = 0 if _there(values[name]) else 1
                    if kind == "#":
                        chosen = language.plural(_number(values[name]))
                    self.parts(branches[chosen], values, language)

    def field(self, name: str, variants: Sequence[str], values: Mapping[str, Value], language: Language) -> None:
        capital = "capital" in variants
        start = len(self.pieces)
        if capital:
            self.pieces.append("")  # where the capital is to stand
        if name in {"@on", "@back", "@round"}:
            sides = {"@on": self.voice.on, "@back": self.voice.back, "@round": self.voice.way_round}
            self.message(Message(f"voice.{sides[name]}"), variants)
        else:
            self.value(values[name], [one for one in variants if one != "capital"], language)
        if capital:
            _capital(self.pieces, start)

    def term(self, form: str, language: Language) -> None:
        if language.code == ENGLISH:
            use = self.voice.vocabulary.use(form)
            key, printed = use.key, use.printed
            self._article(printed)
        else:
            key, printed = language.concept(form), form
        self.pieces.append(Term(printed, anchor=anchor_of(concepts()[key].explained_by)))

    def _article(self, following: str) -> None:
        """An English article before a word that another vocabulary may begin with another letter."""
        before = self.pieces[-1] if self.pieces else ""
        if not isinstance(before, str):
            return
        head, _, article = before[:-1].rpartition(" ") if before.endswith(" ") else ("", "", "")
        if article in {"a", "an", "A", "An"}:
            wanted = article[0] + ("n" if following[0].lower() in "aeiou" else "")
            space = " " if before[: -len(article) - 1] else ""
            self.pieces[-1] = f"{head}{space}{wanted} "

    def letter(self, material: str) -> None:
        """The letter of a material on its colour; nothing, nor the space before it, where it bears none."""
        woven = self.voice.materials[material]
        if woven.letter:
            self.pieces.append(Chip(woven.colour, woven.letter))
        elif self.pieces and isinstance(self.pieces[-1], str):
            self.pieces[-1] = self.pieces[-1].removesuffix(" ")

    # -------------------------------------------------------------------------------------------------------- values
    def value(self, value: Value, variants: Sequence[str], language: Language) -> None:
        """One value in the form asked for."""
        match value:
            case Message():
                self.message(value, variants)
            case Letter(material):
                self.add(" ")
                self.letter(material)
            case str():
                self.parts(parsed(value), {}, IN_ENGLISH)
            case Own() if value.marked and self.voice.language.code == ENGLISH:
                self.parts(parsed(value.marked), {}, IN_ENGLISH)
            case Own():
                self.add(value.within(self.voice.language.code).translate(_HIDDEN))
            case Listed(items):
                self.listed(items, variants, language)
            case BySize(values):
                self.add(self.by_size(values, variants, language))
            case None:
                pass
            case _:
                self.add(self.by_size((value,), variants, language))

    def listed(self, items: Sequence[Value], variants: Sequence[str], language: Language) -> None:
        """Things one after another, joined as the template says."""
        apart = next((_APART[one] for one in variants if one in _APART), None)
        joint = next((one for one in variants if one in _JOINTS), "and")
        last = numbers.word(language, joint) if apart is None else apart
        between = last if joint == "then-each" or apart is not None else ", "
        others = [one for one in variants if one not in _JOINTS and one not in _APART]
        for place, item in enumerate(items):
            if place:
                self.add(last if place == len(items) - 1 else between)
            self.value(item, others, language)

    def by_size(self, values: Sequence[Value], variants: Sequence[str], language: Language) -> str:
        """One value of each size, as text."""
        if any(secret(value, self.voice.withheld) for value in values):
            return self.voice.text(Message("voice.withheld"))
        own, first = self.voice.language, self.voice.first  # measures are the booklet's, also in a sentence in English
        told: str
        match values[0]:
            case bool():
                told = ""
            case int():
                told = numbers.counts(language, [one for one in values if isinstance(one, int)], variants)
            case Length():
                told = numbers.lengths(own, [one.mm for one in values if isinstance(one, Length)], variants, first)
            case Mass():
                told = numbers.masses(own, [one.g for one in values if isinstance(one, Mass)], first)
            case Minutes():
                times = [one.minutes for one in values if isinstance(one, Minutes)]
                told = numbers.row(language, [numbers.duration(language, time) for time in times])
            case Decimals():
                exact = [(one.value, one.places) for one in values if isinstance(one, Decimals)]
                told = numbers.row(language, [numbers.decimals(own, *one) for one in exact])
            case Numbers():
                runs = [one.numbers for one in values if isinstance(one, Numbers)]
                told = numbers.places(language, runs, one_by_one="each" in variants)
            case _:
                told = numbers.row(language, [self._apart(value, variants, language) for value in values])
        return told

    def _apart(self, value: Value, variants: Sequence[str], language: Language) -> str:
        """One value as text of its own."""
        telling = _Telling(self.voice)
        telling.value(value, variants, language)
        return plain(telling.words())


def _there(value: Value) -> bool:
    """Whether there is a value to speak of."""
    match value:
        case BySize(values):
            return any(_there(one) for one in values)
        case Listed(items):
            return bool(items)
        case Numbers(found):
            return bool(found)
        case _:
            return bool(value)


def _number(value: Value) -> int:
    """The number that words agree with."""
    match value:
        case BySize(values):
            return _number(values[0])
        case Listed(items):
            return len(items)
        case Numbers(found):
            return len(found)
        case int():
            return int(value)
        case _:
            raise TypeError(f"{value!r} has no number")


def _capital(pieces: list[Piece], start: int) -> None:
    """A capital on the first letter of what was said from `start` on."""
    for place in range(start, len(pieces)):
        piece = pieces[place]
        if isinstance(piece, str) and piece:
            pieces[place] = sentence_case(piece)
            return
        if isinstance(piece, Term) and isinstance(piece.words, str):
            pieces[place] = Term(sentence_case(piece.words), piece.anchor)
            return


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
    """Words of the designer's own, whose marks mean nothing to us, ready to stand in a sentence."""
    return text.translate(_HIDDEN)


def sentence_case(text: str) -> str:
    """`text` with its first letter a capital, past any opening bracket."""
    for place, letter in enumerate(text):
        if letter.isalpha():
            return text[:place] + letter.upper() + text[place + 1 :]
        if letter.isdigit():
            return text
    return text
