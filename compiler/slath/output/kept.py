"""An edition kept: what a sold booklet said, as one small file that a later edition is compared with.

It holds the numbers of every size, the sentences of the steps, the words of the figures, and the text of the pattern
and its workshop file. A checksum tells whether somebody has changed it since.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

from msgspec import Struct, field

from slath.output.facts import Fact

VERSION = 1
LARGEST = 8_000_000  # bytes; the largest shipped pattern keeps under a tenth of it


class KeptEditionError(ValueError):
    """A file that is no kept edition, or is one no longer."""


class ToldStepText(Struct, frozen=True):
    """One step as a buyer reads it: the keys of its stage and of itself, its title, and its sentences in order."""

    stage: str
    step: str
    title: str
    says: tuple[str, ...]


class KeptSize(Struct, frozen=True):
    """One size of a kept edition: its numbers, its steps, and what its figures say in words by their names."""

    name: str
    facts: tuple[Fact, ...]
    steps: tuple[ToldStepText, ...]
    figures: dict[str, str] = field(default_factory=dict)


class KeptEdition(Struct, frozen=True):
    """One edition of a pattern. `pattern_text` and `workshop_text` are the files it was worked out from."""

    file: str
    title: str
    edition: str
    dated: str
    designer: str
    sizes: tuple[KeptSize, ...]
    pattern_text: str
    workshop_file: str = ""
    workshop_text: str = ""

    @property
    def named(self) -> str:
        """What it is called: ``edition 1.0``, or the day where it has no name."""
        return f"edition {self.edition}" if self.edition else f"the edition of {self.dated or 'no day'}"


def kept_text(edition: KeptEdition) -> str:
    """The edition as JSON text with its checksum, the same for the same edition."""
    data = _data(edition)
    return json.dumps(data | {"checksum": _checksum(data)}, ensure_ascii=False, indent=1) + "\n"


def read_kept(path: Path) -> KeptEdition:
    """The edition kept in a file. KeptEditionError says what is wrong with it; OSError where it cannot be opened."""
    if path.stat().st_size > LARGEST:
        raise KeptEditionError(f"{path} is too large for a kept edition")
    try:
        data = json.loads(path.read_text("utf-8"))
    except (ValueError, RecursionError) as problem:
        raise KeptEditionError(f"{path} is no kept edition: it cannot be read as JSON") from problem
    if not isinstance(data, dict) or data.get("kept_edition") != VERSION:
        raise KeptEditionError(f"{path} is no kept edition; slath keep writes one")
    checksum = data.pop("checksum", "")
    if checksum != _checksum(data):
        raise KeptEditionError(f"{path} has been changed since it was kept: its checksum does not fit")
    try:
        return _edition(data)
    except (KeyError, TypeError, ValueError) as problem:
        raise KeptEditionError(f"{path} is no whole kept edition") from problem


def _data(edition: KeptEdition) -> dict[str, Any]:
    return {
        "kept_edition": VERSION,
        "file": edition.file,
        "title": edition.title,
        "edition": edition.edition,
        "dated": edition.dated,
        "designer": edition.designer,
        "sizes": [
            {
                "size": size.name,
                "numbers": [[list(fact.key), fact.part, fact.what, fact.value, fact.printed] for fact in size.facts],
                "steps": [[step.stage, step.step, step.title, list(step.says)] for step in size.steps],
                "figures": size.figures,
            }
            for size in edition.sizes
        ],
        "pattern": edition.pattern_text,
        "workshop_file": edition.workshop_file,
        "workshop": edition.workshop_text,
    }


def _edition(data: dict[str, Any]) -> KeptEdition:
    return KeptEdition(
        file=str(data["file"]),
        title=str(data["title"]),
        edition=str(data["edition"]),
        dated=str(data["dated"]),
        designer=str(data["designer"]),
        sizes=tuple(
            KeptSize(
                name=str(size["size"]),
                facts=tuple(
                    Fact(tuple(key), str(part), str(what), float(value), str(printed))
                    for key, part, what, value, printed in size["numbers"]
                ),
                steps=tuple(
                    ToldStepText(stage, step, title, tuple(says)) for stage, step, title, says in size["steps"]
                ),
                figures=dict(size["figures"]),
            )
            for size in data["sizes"]
        ),
        pattern_text=str(data["pattern"]),
        workshop_file=str(data["workshop_file"]),
        workshop_text=str(data["workshop"]),
    )


def _checksum(data: dict[str, Any]) -> str:
    plain = json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(plain.encode()).hexdigest()
