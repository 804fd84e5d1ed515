"""A third language is a folder of files: English with an accent on every vowel is one, and a whole text edition is told in it."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from slath.booklet.content import booklet_document
from slath.messages import language
from slath.output.text import document_text
from slath.pipeline import compile_pattern
from slath.trade.words import concepts
from slath.work import BuildOptions, Work

ROOT = Path(__file__).parent.parent.parent
CODE = "zz"
_ACCENTS = str.maketrans("aeiouAEIOU", "áéíóúÁÉÍÓÚ")
_MARKED = re.compile(r"\{[^{}|#?]*(?:[#?]|\})|<[^>]*>")  # a field, the beginning of a choice, a letter
_WORD = re.compile(r"[^\W\d_]{3,}")
# Words of the booklet that are neither the designer's nor in the language data yet: it may only grow shorter.
STILL_ENGLISH = frozenset({"common", "practice"})
SOURCES = frozenset({"gill", "white"})  # names of authors


def accented(text: str) -> str:
    """A sentence with an accent on every vowel that is printed."""
    end, found = 0, []
    for mark in _MARKED.finditer(text):
        found += [text[end : mark.start()].translate(_ACCENTS), mark.group()]
        end = mark.end()
    return "".join((*found, text[end:].translate(_ACCENTS)))


@pytest.fixture
def third(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The languages there are, and one more."""
    data = tmp_path / "data"
    shutil.copytree(language.DATA, data)
    shutil.copytree(data / "en", data / CODE)
    for file in (data / CODE).glob("*.yaml"):
        if file.stem != "about":
            said = yaml.safe_load(file.read_text("utf-8"))
            file.write_text(
                yaml.safe_dump({key: accented(text) for key, text in said.items()}, allow_unicode=True), "utf-8"
            )
    words = {
        key: {
            "forms": [form.translate(_ACCENTS) for form in concept.forms["UK"]],
            "also": [form.translate(_ACCENTS) for forms in concept.forms.values() for form in forms],
            "means": accented(concept.means),
        }
        for key, concept in concepts().items()
    }
    (data / CODE / "words.yaml").write_text(yaml.safe_dump(words, allow_unicode=True), "utf-8")
    about = (data / "en" / "about.yaml").read_text("utf-8").replace("tag: en", f"tag: {CODE}")
    (data / CODE / "about.yaml").write_text(about, "utf-8")
    caches = (language.languages, language._table, language._templates, language._forms)
    monkeypatch.setattr(language, "DATA", data)
    for cache in caches:
        cache.cache_clear()
    yield
    monkeypatch.undo()
    for cache in caches:
        cache.cache_clear()


@pytest.mark.usefixtures("third")
def test_a_third_language_is_read_from_its_files() -> None:
    """Nothing but its folder makes it a language."""
    assert CODE in language.languages()


@pytest.mark.usefixtures("third")
def test_a_text_edition_is_told_in_it() -> None:
    """Every word of it is of the language, of the designer's file, or declared to be English still."""
    file = ROOT / "patterns" / "weir-field.yaml"
    work = Work(compile_pattern(file, language=CODE), BuildOptions(("text",), language=CODE))
    text = document_text(work.named(booklet_document(work.content_off_paper)))
    files = (file, file.with_name("otter-weir.workshop.yaml"))
    own = {word.casefold() for each in files for word in _WORD.findall(each.read_text("utf-8"))}
    plain = {word.casefold() for word in _WORD.findall(text) if not re.search("[áéíóú]", word.casefold())}
    english = {word for word in plain - own if re.search("[aeiou]", word)}
    assert english - SOURCES == STILL_ENGLISH, sorted(english)
