"""Names that become names of files: safe, short, one name one file, and the same on every system.

Most names are made of plain words and stay as they are, blanks becoming hyphens: “extra large” is ``extra-large``. Any
other keeps its letters as far as a file can and gets a mark that only this name gets. What no file may be called is taken
from the Windows naming rules (Microsoft, "Naming Files, Paths, and Namespaces"), the strictest in use.
"""

from __future__ import annotations

import re
import unicodedata
from base64 import b32encode
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

LONGEST = (
    40  # bytes: four names, an edition and an ending stay under 255, the most a file system takes (POSIX NAME_MAX)
)
KEPT = "editions"  # the folder beside a pattern
_MARK = 8  # signs of 32 kinds, of which the first is a digit so that no word looks like one
_LETTERS = "0-9A-Za-zÀ-ÖØ-öø-ſ"  # no others, nor marks that stand apart from their letter, look alike everywhere
_PLAIN = re.compile(rf"[{_LETTERS}](?:[{_LETTERS}_]|[ .-](?=[{_LETTERS}]))*")
_MARKED = re.compile(rf".*-[2-7][a-z2-7]{{{_MARK - 1}}}")
_RESERVED = re.compile(r"(?:con|prn|aux|nul|conin|conout|clock|(?:com|lpt)[0-9¹²³])(?![^.])", re.IGNORECASE)


def file_name(name: str, *, blanks: str = "-") -> str:
    """The part of a file's name that stands for `name`; no other name gives the same, save by its capitals alone.

    `blanks` is what stands for a blank: a hyphen, or a blank for what was a file's name before.
    """
    made = name.replace(" ", blanks)
    if _is_plain(name) and (blanks != "-" or "-" not in name) and not _MARKED.fullmatch(made):
        return made
    return _marked(name)


def kept_beside(pattern: Path, edition: str) -> Path:
    """Where an edition of a pattern is kept: in a folder beside it, under the pattern's name and its own."""
    return pattern.parent / KEPT / f"{file_name(pattern.stem, blanks=' ')}-{file_name(edition)}.json"


def file_names(names: Iterable[str]) -> dict[str, str]:
    """The same for names that stand beside one another, so that hyphens may stay where no two then meet. None of them is
    another's, in capitals or not, nor another's with a hyphen and a word behind it.
    """
    listed = list(dict.fromkeys(names))
    made = {name: _hyphened(name) for name in listed}
    times = Counter(each.casefold() for each in made.values())
    folded = list(times)

    def clear(text: str) -> bool:
        own = text.casefold()
        return times[own] == 1 and not any(own.startswith(f"{other}-") for other in folded)

    return {name: text if clear(text) else _marked(name) for name, text in made.items()}


def _hyphened(name: str) -> str:
    made = name.replace(" ", "-")
    return made if _is_plain(name) and not _MARKED.fullmatch(made) else _marked(name)


def _is_plain(name: str) -> bool:
    return (
        len(name.encode("utf-8", "surrogatepass")) <= LONGEST
        and bool(_PLAIN.fullmatch(name))
        and not _RESERVED.match(name)
    )


def _marked(name: str) -> str:
    import hashlib  # noqa: PLC0415 - few names need a mark, and OpenSSL takes longer to load than a pattern to read

    digest = hashlib.sha256(name.encode("utf-8", "surrogatepass")).digest()
    mark = "234567"[digest[0] % 6] + b32encode(digest[1:]).decode().lower()[: _MARK - 1]
    apart = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    words = re.sub(r"[^0-9A-Za-z]+", "-", apart)[: LONGEST - _MARK - 1].strip("-")
    return f"{words}-{mark}" if words else f"name-{mark}"
