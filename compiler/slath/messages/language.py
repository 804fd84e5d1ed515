"""One language: its sentences by area, its words of the trade, its numbers and marks, all from its folder of data."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from slath.messages.templates import Part, parsed
from slath.trade.tables import read_yaml
from slath.trade.words import concepts
from slath.units.printing import First

DATA = Path(__file__).parent / "data"
ENGLISH = "en"  # the language every sentence has


class Language(Struct, frozen=True, dict=True):
    """A language by its code, which is the name of its folder."""

    code: str

    def template(self, key: str) -> tuple[Part, ...] | None:
        """A sentence by its key, None if this language has none."""
        area, _, name = key.partition(".")
        return _templates(self.code, area).get(name)

    def about(self, name: str) -> str:
        """What the language says of itself: ``name``, ``tag`` (BCP 47), ``hyphens``, ``decimal``."""
        return str(_table(self.code, "about")[name])

    @property
    def first(self) -> First | None:
        """Which measure its readers want first; None where they take it as the pattern is written."""
        found: First | None = _table(self.code, "about").get("first")
        return found

    @property
    def units(self) -> Mapping[str, str]:
        """What this language writes for a printed unit."""
        found: Mapping[str, str] = _table(self.code, "about")["units"]
        return found

    def written(self, area: str, name: str) -> str | None:
        """A sentence of an area as it is written, None if this language has none."""
        found: str | None = _table(self.code, area).get(name)
        return found

    def plural(self, number: int) -> int:
        """Which of the two ways of a choice goes with a number: the CLDR rule of English, German and their like."""
        return 0 if abs(number) == 1 else 1

    def concept(self, form: str) -> str:
        """The concept a written form of the trade belongs to; a capital is let pass. KeyError if there is none."""
        forms = _forms(self.code)
        return forms[form] if form in forms else forms[form[0].lower() + form[1:]]

    def knows(self, key: str) -> bool:
        """Whether the language has a word for a concept."""
        return key in _table(self.code, "words")

    def term(self, key: str) -> str:
        """The word for a concept, as its glossary lists it. KeyError if the language has none."""
        return str(_table(self.code, "words")[key]["forms"][0])

    def forms(self, key: str) -> tuple[str, ...]:
        """The forms of a concept, one and many of a thing, (do, doing, done) of a verb. KeyError if it has none."""
        return tuple(_table(self.code, "words")[key]["forms"])

    def means(self, key: str) -> tuple[Part, ...]:
        """What a concept is, in the glossary's words. KeyError if the language has none."""
        return parsed(_table(self.code, "words")[key]["means"])


IN_ENGLISH = Language(ENGLISH)


@cache
def languages() -> tuple[str, ...]:
    """Codes of the languages there are: folders of data."""
    return tuple(sorted(folder.name for folder in DATA.iterdir() if (folder / "about.yaml").is_file()))


def key_of(area: str, english: str) -> str:
    """The key under which an area holds something that the other rooms name in English."""
    return f"{area}.{slug(english)}"


def slug(english: str) -> str:
    """A name as it stands in a key: small letters and figures, a hyphen for all between."""
    return "-".join("".join(sign if sign.isalnum() else " " for sign in english.casefold()).split())


def areas(code: str) -> tuple[str, ...]:
    """Areas of sentences of a language: its files, but for what it says of itself, its words and notes."""
    return tuple(
        sorted(file.stem for file in (DATA / code).glob("*.yaml") if file.stem not in {"about", "words", "notes"})
    )


def sentences(code: str, area: str) -> Mapping[str, str]:
    """The sentences of one area as they are written."""
    return _table(code, area)


@cache
def _table(code: str, area: str) -> Mapping[str, Any]:
    path = DATA / code / f"{area}.yaml"
    return read_yaml(path) if path.is_file() else {}


@cache
def _templates(code: str, area: str) -> Mapping[str, tuple[Part, ...]]:
    return {name: parsed(text) for name, text in _table(code, area).items()}


@cache
def _forms(code: str) -> Mapping[str, str]:
    found: dict[str, str] = {}
    for key in concepts():
        row = _table(code, "words").get(key, {})
        for form in (*row.get("forms", ()), *row.get("also", ())):
            found.setdefault(form, key)
    return found
