"""What a note says: English beside the rule that says it, which knows its values, so that it can be said again otherwise.

The English is the sentence's own key; a language has what it says for it in its ``notes.yaml``, where English has no need
of one. A template is written as those of `messages.templates`, but that square and angle brackets are plain, and that a
bare ``{count}`` is in figures and ``{count:words}`` in words. This module and what it is made of are plain records: every
room may say something.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import TYPE_CHECKING

from slath.messages.templates import Choice, Field, Part, parsed
from slath.messages.values import Length, Message

if TYPE_CHECKING:
    from slath.messages.language import Language

_PLAIN = str.maketrans(
    "[]<>", "\ue000\ue001\ue002\ue003"
)  # brackets that are no marks, while a sentence is read for marks
_JOINTS = {"and", "or"}
NOTES = "notes"  # the area of sentences whose English stands beside the rule
_SHOWN = str.maketrans("\ue000\ue001\ue002\ue003", "[]<>")


class Spoken(str):
    """Words in English that can be said in another language. Cut or joined they are a plain `str`, which cannot."""

    __slots__ = ()

    def within(self, language: Language) -> str:
        """The same in a language; in English where it has nothing for it."""
        raise NotImplementedError


class Told(Spoken):
    """A sentence or words of ours, with the values that stand in them; `key` is where a language has its own."""

    key: tuple[str, str]  # area and name
    template: str
    values: Mapping[str, object]
    begins: bool  # with a capital, wherever it is said

    def within(self, language: Language) -> str:
        """The language's own sentence with the same values, each as the language writes it."""
        template = language.written(*self.key)
        return _begun(_said(self.template if template is None else template, self.values, language), self.begins)

    def begun(self) -> Told:
        """The same as a sentence that begins with a capital."""
        return _told(self.key, self.template, self.values, begins=True)

    def measured(self, measure: Callable[[float], Spoken]) -> Told:
        """The same with every `Length` as `measure` prints it."""
        lengths = {name: measure(value.mm) for name, value in self.values.items() if isinstance(value, Length)}
        return self.telling(**lengths)

    def telling(self, **values: object) -> Told:
        """The same with some values in place of its own."""
        return _told(self.key, self.template, {**self.values, **values}, begins=self.begins)


class Saying(Spoken):
    """What a booklet says too, in its own words."""

    message: Message
    until: str  # the mark before its last part, which is left out; empty where all is said

    def within(self, language: Language) -> str:
        """As a booklet in the language says it."""
        from slath.messages.voice import Voice  # noqa: PLC0415 - for this alone

        return _until(Voice({}, language=language).text(self.message), self.until)


class Figure(Spoken):
    """A number or a measure as it is printed: a language has its own decimal sign and its own units."""

    __slots__ = ()

    def within(self, language: Language) -> str:
        """With the decimal sign and the units of the language."""
        from slath.messages.numbers import written  # noqa: PLC0415 - English needs none of it

        return written(language, str(self))


class Several(Spoken):
    """Things one after another: “a, b and c”, or with a mark between them."""

    items: tuple[str, ...]
    joint: str

    def within(self, language: Language) -> str:
        """Each in the language, and joined as it joins."""
        items = [said(item, language) for item in self.items]
        if self.joint not in _JOINTS:
            return said(self.joint, language).join(items)
        from slath.messages.numbers import joined, word  # noqa: PLC0415 - English needs none of it

        return joined(items, word(language, self.joint))


def told(template: str, /, **values: object) -> Told:
    """A sentence from its English and its values by name."""
    return _told((NOTES, template), template, values)


def kept(key: str, /, **values: object) -> Told:
    """A sentence whose English is kept with the languages too, by its key, ``area.name``: for rooms that are no rules."""
    from slath.messages.language import IN_ENGLISH  # noqa: PLC0415 - most baskets call for none

    area, _, name = key.partition(".")
    template = IN_ENGLISH.written(area, name)
    if template is None:
        raise KeyError(key)
    return _told((area, name), template, values)


def word(text: str) -> Told:
    """A word of ours that comes from elsewhere, as it is."""
    return told(text.replace("{", "{{").replace("}", "}}"))


def saying(message: Message, until: str = "") -> Saying:
    """What a booklet says too; with `until`, up to the last such mark and without the full stop."""
    from slath.messages.voice import Voice  # noqa: PLC0415 - for this alone

    made = Saying(_until(Voice({}).text(message), until))
    made.message, made.until = message, until
    return made


def _until(text: str, mark: str) -> str:
    whole = text.rstrip(".") if mark else text
    return (whole.rpartition(mark)[0] or whole) if mark else whole


def several(items: Iterable[str], joint: str = "and") -> Several:
    """Things one after another, joined by `joint`: and, or, or a mark such as ``; ``."""
    listed = tuple(items)
    between = f" {joint} " if joint in _JOINTS else joint
    *first, last = listed or ("",)
    english = f"{', '.join(first)}{between}{last}" if first and joint in _JOINTS else between.join(listed)
    made = Several(english)
    made.items, made.joint = listed, joint
    return made


def said(text: str, language: Language) -> str:
    """What is printed of a text in a language: its own words for ours, and everybody else's as they are."""
    return text.within(language) if isinstance(text, Spoken) else text


def _told(key: tuple[str, str], template: str, values: Mapping[str, object], *, begins: bool = False) -> Told:
    made = Told(_begun(_said(template, values, None), begins))
    made.key, made.template, made.values, made.begins = key, template, values, begins
    return made


def _begun(text: str, begins: bool) -> str:
    return f"{text[:1].upper()}{text[1:]}" if begins else text


@cache
def _parts(template: str) -> tuple[Part, ...]:
    return parsed(template.translate(_PLAIN))


def _said(template: str, values: Mapping[str, object], language: Language | None) -> str:
    """The sentence in a language, English where there is none."""
    return _joined(_parts(template), values, language).translate(_SHOWN)


def _joined(parts: tuple[Part, ...], values: Mapping[str, object], language: Language | None) -> str:
    found: list[str] = []
    for part in parts:
        match part:
            case str():
                found.append(part)
            case Field(name, variants):
                found.append(_value(values[name], variants, language))
            case Choice(name, kind, branches):
                first = bool(values[name]) if kind == "?" else _is_one(values[name], language)
                found.append(_joined(branches[0 if first else 1], values, language))
            case _:
                raise TypeError(part)
    return "".join(found)


def _is_one(number: object, language: Language | None) -> bool:
    if not isinstance(number, int):
        raise TypeError(f"{number!r} has no number")
    return abs(number) == 1 if language is None else language.plural(number) == 0


def _value(value: object, variants: tuple[str, ...], language: Language | None) -> str:
    if isinstance(value, Length):
        from slath.units.printing import both  # noqa: PLC0415 - told of by its unit only where nobody measured it

        value = Figure(both(value.mm))
    if isinstance(value, int) and "words" in variants:
        if language is not None:
            from slath.messages.numbers import in_words  # noqa: PLC0415 - English needs none of it

            return in_words(language, value)
        from slath.units.counting import in_words as in_english  # noqa: PLC0415 - units say something too

        return in_english(value)
    text = str(value) if language is None or not isinstance(value, str) else said(value, language)
    return _begun(text, "capital" in variants)
