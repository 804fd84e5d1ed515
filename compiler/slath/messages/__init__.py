"""What is said, as keys with typed values, and the languages it is said in. See DEVELOPERS.md, "A sentence"."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from slath.messages.merging import merged_messages
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
    message,
    secret,
)

if TYPE_CHECKING:
    from slath.messages.language import Language, languages
    from slath.messages.voice import Said, Voice, anchor_of, plain, sentence_case, verbatim

__all__ = [
    "BySize",
    "Decimals",
    "Language",
    "Length",
    "Letter",
    "Listed",
    "Mass",
    "Message",
    "Minutes",
    "Numbers",
    "OfSizes",
    "Own",
    "Said",
    "Secrecy",
    "Value",
    "Voice",
    "anchor_of",
    "languages",
    "merged_messages",
    "message",
    "plain",
    "secret",
    "sentence_case",
    "verbatim",
]

# What says a message is read when something is first said: a check, which only asks for numbers, does not wait for it.
_WHEN_SAID = {
    **dict.fromkeys(("Language", "languages"), "language"),
    **dict.fromkeys(("Said", "Voice", "anchor_of", "plain", "sentence_case", "verbatim"), "voice"),
}


def __getattr__(name: str) -> Any:
    """What of this room is not read with it (PEP 562)."""
    if name not in _WHEN_SAID:
        raise AttributeError(name)
    return getattr(import_module(f"slath.messages.{_WHEN_SAID[name]}"), name)
