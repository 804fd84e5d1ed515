"""What is said, as keys with typed values, and the languages it is said in. See DEVELOPERS.md, "A sentence"."""

from slath.messages.language import Language, languages
from slath.messages.merging import merged_messages
from slath.messages.values import (
    BySize,
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
from slath.messages.voice import Said, Voice, anchor_of, plain, sentence_case, verbatim

__all__ = [
    "BySize",
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
