"""The languages against each other and against the code: no key missing, none idle, no value lost, no word of the trade
unknown.
"""

from __future__ import annotations

import ast
import json
from functools import cache
from pathlib import Path

import pytest

import slath
from slath.messages.language import ENGLISH, Language, areas, languages, sentences
from slath.messages.templates import Choice, Field, Part, fields_of, parsed, terms_of
from slath.trade.words import UK, concepts

PACKAGE = Path(slath.__file__).parent
OTHERS = tuple(code for code in languages() if code != ENGLISH)
OF_EVERY_LANGUAGE = {"numbers", "voice"}  # read by the renderer itself: each language has the keys it needs


@cache
def keys_in_code() -> frozenset[str]:
    """Every key that a call of ``message`` names; one with values in it ends in ``*`` where the first begins."""
    found = set()
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
            if name in {"message", "Message", "kept"}:
                found |= _keys(node.args[0])
            if name == "named" and isinstance(node.args[0], ast.Constant):
                found.add(f"{node.args[0].value!s}.*")
    return frozenset(found)


def _keys(node: ast.expr) -> set[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return {node.value}
    if isinstance(node, ast.JoinedStr):
        first = node.values[0]
        return {f"{first.value!s}*"} if isinstance(first, ast.Constant) else set()
    if isinstance(node, ast.IfExp):
        return _keys(node.body) | _keys(node.orelse)
    return set()


def keys_of(code: str) -> dict[str, str]:
    """Every sentence of a language by its whole key."""
    return {f"{area}.{name}": text for area in areas(code) for name, text in sentences(code, area).items()}


def base_of(key: str) -> str:
    """A key without its variant: ``area.name`` of ``area.name.withheld``."""
    return ".".join(key.split(".")[:2])


def test_every_key_in_the_code_has_its_english_sentence() -> None:
    """A sentence without words would stop a build."""
    have = keys_of(ENGLISH)
    assert len(have) > 40
    exact = {key for key in keys_in_code() if not key.endswith("*")}
    assert exact - set(have) == set()
    for stem in (key[:-1] for key in keys_in_code() if key.endswith("*")):
        assert any(key.startswith(stem) for key in have), stem


def test_no_english_sentence_is_idle() -> None:
    """What nobody says is not kept, and not translated."""
    stems = tuple(key[:-1] for key in keys_in_code() if key.endswith("*"))
    idle = [
        key
        for key in keys_of(ENGLISH)
        if key.split(".", maxsplit=1)[0] not in OF_EVERY_LANGUAGE
        and base_of(key) not in keys_in_code()
        and not (stems and key.startswith(stems))
    ]
    assert idle == []


@pytest.mark.parametrize("code", OTHERS)
def test_every_sentence_has_its_translation_and_no_more(code: str) -> None:
    """Each language says what English says; variants (cases, what is said of a secret) are its own affair."""
    own, english = (
        {base_of(key) for key in keys_of(one) if key.split(".", maxsplit=1)[0] not in OF_EVERY_LANGUAGE}
        for one in (code, ENGLISH)
    )
    assert sorted(english - own) == []
    assert sorted(own - english) == []


def printed_of(parts: tuple[Part, ...]) -> frozenset[str]:
    """Names of the values a sentence prints, and not those it only chooses its words by."""
    found: set[str] = set()
    for part in parts:
        if isinstance(part, Field):
            found.add(part.name)
        if isinstance(part, Choice):
            for branch in part.branches:
                found |= printed_of(branch)
    return frozenset(found)


@cache
def values_in_code() -> dict[str, frozenset[str]]:
    """The names of the values that each key is said with."""
    found: dict[str, set[str]] = {}
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id == "message"
                and node.args
            ):
                for key in _keys(node.args[0]):
                    found.setdefault(key, set()).update(word.arg for word in node.keywords if word.arg)
    return {key: frozenset(names) for key, names in found.items()}


@pytest.mark.parametrize("code", OTHERS)
def test_a_translation_speaks_of_the_same_values(code: str) -> None:
    """A number that only one language says, or a value no message has, is a slip of the translator's."""
    english = keys_of(ENGLISH)
    wrong = []
    for key, text in keys_of(code).items():
        if key.split(".", maxsplit=1)[0] in OF_EVERY_LANGUAGE:
            continue
        source = english.get(key, english.get(base_of(key), ""))
        mine, theirs = fields_of(parsed(text)), fields_of(parsed(source))
        sides = {name for name in mine ^ theirs if name.startswith("@")}
        theirs_too = values_in_code().get(base_of(key), frozenset())
        missing = (printed_of(parsed(source)) - mine) if not key.endswith(".withheld") else frozenset()
        if (mine - theirs) - theirs_too - sides or missing - sides:
            wrong.append(f"{key}: {sorted(mine)} for {sorted(theirs)}")
    assert wrong == []


@pytest.mark.parametrize("code", languages())
def test_every_word_of_the_trade_in_a_sentence_is_known(code: str) -> None:
    """A bracketed word is one of the language's own: no English word of the trade stands in a German sentence."""
    language = Language(code)
    seen = 0
    for key, text in keys_of(code).items():
        for form in terms_of(parsed(text)):
            seen += 1
            if code == ENGLISH:
                assert UK.use(form), key
            else:
                assert language.concept(form) in concepts(), key
    assert seen > 2


@pytest.mark.parametrize("code", OTHERS)
def test_every_concept_of_the_trade_has_its_word(code: str) -> None:
    """The glossary of a booklet is in its language, and explains with its own words."""
    language = Language(code)
    for key, concept in concepts().items():
        assert language.term(key)
        if concept.explained_by == key:
            for form in terms_of(language.means(key)):
                assert language.concept(form) in concepts()
    assert set(sentences(code, "words")) == set(concepts())


def test_a_pattern_may_be_told_in_every_language_there_is() -> None:
    """The language of patterns (`slath schema`) offers the languages that have a folder."""
    top = json.loads((PACKAGE / "language" / "schema" / "pattern.json").read_text(encoding="utf-8"))
    assert top["properties"]["language"]["enum"] == list(languages())
