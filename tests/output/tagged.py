"""What a tagged PDF says of its own structure, as pypdf reads it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pypdf.generic import ArrayObject, DictionaryObject


def elements(root: Any, role: str) -> Iterator[Any]:
    """All structure elements of a role, in reading order."""
    found = root.get_object()
    if isinstance(found, ArrayObject):
        for kid in found:
            yield from elements(kid, role)
    elif isinstance(found, DictionaryObject):
        if found.get("/S") == role:
            yield found
        if "/K" in found:
            yield from elements(found["/K"], role)
