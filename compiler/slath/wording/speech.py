"""The designer's own words: their words of the trade found, linked and printed in the booklet's vocabulary."""

from __future__ import annotations

import re
from functools import cache

from slath.messages import Own
from slath.messages.voice import Voice, anchor_of, plain, sentence_case, verbatim
from slath.trade.words import concepts

__all__ = ["Voice", "anchor_of", "bracketed", "own_words", "plain", "sentence_case", "verbatim"]


def bracketed(text: str) -> str:
    """Plain UK text, such as the names of parts in the list, with every concept it names put in brackets.

    Words that everyday speech uses otherwise (``tip``, ``space``) are left alone.
    """
    return _nouns().sub(lambda found: f"[{_as_listed(found[0])}]", text)


def own_words(text: str) -> Own:
    """Words of the designer's own: in English their words of the trade are linked, and printed in the booklet's vocabulary."""
    return Own(text, marked=bracketed(verbatim(text)))


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
