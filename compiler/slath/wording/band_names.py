"""Bands by name: the designer's own words, but for names that are words of the trade or mere numbers."""

from __future__ import annotations

from slath.messages import Message, Value, message
from slath.messages.names import named
from slath.wording.speech import own_words

_OF_LID = "lid "  # what the language puts before the names of a lid's bands


def band_said(name: str) -> Value:
    """A band's name: ``band 2`` and usual names such as ``upsett`` in the language of the booklet, others as they are written."""
    plain = name.strip()
    if plain.casefold().startswith(_OF_LID):
        return message("band-names.of-the-lid", name=band_said(plain[len(_OF_LID) :]))
    word, _, number = plain.casefold().rpartition(" ")
    if word == "band" and number.isdigit():
        return message("band-names.numbered", number=int(number))
    usual = named("band-names", plain)
    return usual if isinstance(usual, Message) else own_words(plain)
