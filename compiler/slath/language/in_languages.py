"""Words the designer gives in several languages, ``{en: …, de: …}``: one of them is chosen before the file is read.

Nothing later knows of the others: as with a variant, the words of one language are laid over the data of the file.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from msgspec.structs import replace

from slath.language.document import Document
from slath.language.places import Path
from slath.language.sizes import size_names
from slath.messages.told import several, told
from slath.notes import Note, Severity

_CODE_LETTERS = 2


def words_in(document: Document, language: str = "") -> Document:
    """The document with the words of one language: of `language` by its code, or of the one the file asks for. Where words
    have none of it, the first they have. Words that lack a language others of the file have are noted.
    """
    found = dict(_several(document.data, ()))
    if not found or set(size_names(document)) & {code for words in found.values() for code in words}:
        return document  # a size called like a language: then these are values by size
    wanted = language or str(document.data.get("language") or "en")
    made = replace(
        document, data=document.data, places=dict(document.places), raw=dict(document.raw), inside=dict(document.inside),
        notes=list(document.notes), faulty=set(document.faulty),
    )  # fmt: skip
    spoken = list(dict.fromkeys(code for words in found.values() for code in words))
    for path, words in found.items():
        chosen = wanted if wanted in words else next(iter(words))
        made.data = _with(made.data, path, words[chosen])
        for table in (made.places, made.raw, made.inside):
            for known in [known for known in table if known[: len(path) + 1] == (*path, chosen)]:
                table[(*path, *known[len(path) + 1 :])] = table[known]  # type: ignore[assignment]
        if lacking := [code for code in spoken if code not in words]:
            made.notes.append(_note_lacking(document, path, lacking))
    return made


def _several(value: Any, path: Path) -> Iterator[tuple[Path, dict[str, Any]]]:
    """Every set of words by language, by where it stands."""
    if isinstance(value, dict):
        if _by_language(value):
            yield path, value
            return
        for key, inner in value.items():
            yield from _several(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _several(inner, (*path, index))


def _by_language(value: dict[Any, Any]) -> bool:
    if not value or not all(isinstance(key, str) and len(key) == _CODE_LETTERS for key in value):
        return False
    from slath.messages.language import languages  # noqa: PLC0415 - few files have a set of such short keys

    return set(value) <= set(languages()) and all(isinstance(inner, str | list) for inner in value.values())


def _with(data: Any, path: Path, value: Any) -> Any:
    """The data with one value in the place of what stands at `path`; what is not changed is shared."""
    if not path:
        return value
    key, *rest = path
    made: Any = list(data) if isinstance(data, list) else dict(data)
    made[key] = _with(data[key], tuple(rest), value)
    return made


def _note_lacking(document: Document, path: Path, lacking: list[str]) -> Note:
    place = document.places[path][0] if path in document.places else document.places[path[:1]][0]
    sentence = told("These words have no {languages}, and other words of the file do.", languages=several(lacking))
    remedy = told("add {languages}: and the words", languages=several(lacking, ": and "))
    return Note("language-lacking", Severity.WARNING, place, sentence, remedies=(remedy,))
