"""In which language a file asks to be told, found before it is read: notes on a file that cannot be read are told so too."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

_ASKED = re.compile(rb"^language:[ \t]*[\"']?([A-Za-z]{2,3})\b", re.MULTILINE)
_FAR_ENOUGH = 100_000  # bytes: the head of any pattern


@cache
def asked_of(file: str) -> str:
    """The code of the language under the key ``language`` of a file; empty where it says none, or cannot be read."""
    try:
        with Path(file).open("rb") as stream:
            found = _ASKED.search(stream.read(_FAR_ENOUGH))
    except OSError:
        return ""
    return found[1].decode().lower() if found else ""
