"""Things the other rooms and the data name in English, as messages: parts of the list, kinds of stock, dyes."""

from __future__ import annotations

from slath.messages.language import IN_ENGLISH, key_of
from slath.messages.values import Message, Own, Value, message


def named(area: str, english: str, **values: Value) -> Message | Own:
    """A name as a message of an area of names; as it stands where it is the designer's own."""
    key = key_of(area, english)
    return message(key, **values) if IN_ENGLISH.template(key) is not None else Own(english)
