"""What notes say, in every language: each sentence beside a rule has its translation, and no note keeps a word of English."""

from __future__ import annotations

import ast
import json
import re
from functools import cache
from pathlib import Path

import pytest

import slath
from slath.language.schemas import schema
from slath.messages.language import ENGLISH, Language, languages, sentences
from slath.messages.templates import fields_of, parsed
from slath.messages.told import NOTES, Spoken, said, told
from slath.notes import Note, PatternFaultError
from slath.pipeline import compile_pattern

PACKAGE = Path(slath.__file__).parent
CORPUS = Path(__file__).parent.parent / "corpus" / "bad"
OTHERS = tuple(code for code in languages() if code != ENGLISH)
HIDDEN = str.maketrans("[]<>", "\ue000\ue001\ue002\ue003")


@cache
def english_sentences() -> frozenset[str]:
    """Every sentence that stands beside a rule: what `told` and `word` are called with."""
    return frozenset(
        node.args[0].value
        for path in PACKAGE.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in {"told", "word"}
        and node.args
        and isinstance(node.args[0], ast.Constant)
        and isinstance(node.args[0].value, str)
    )


@pytest.mark.parametrize("code", OTHERS)
def test_every_sentence_of_a_note_has_its_translation(code: str) -> None:
    """What stands beside a rule and not among the languages would be told in English."""
    assert len(english_sentences()) > 300
    assert sorted(english_sentences() - set(sentences(code, NOTES))) == []


@pytest.mark.parametrize("code", OTHERS)
def test_no_translation_is_idle(code: str) -> None:
    """A sentence that no rule says any more is not kept; words that come from elsewhere have no values in them."""
    wanted = json.dumps(schema("pattern"), ensure_ascii=False).replace('\\"', '"')
    idle = [key for key in sentences(code, NOTES) if key not in english_sentences() and key not in wanted]
    assert [key for key in idle if len(key.split()) > 4 or "{" in key] == []


@pytest.mark.parametrize("code", OTHERS)
def test_no_translation_speaks_of_a_value_there_is_not(code: str) -> None:
    """A value that the rule does not give would stop the note; one that is left out would keep a number back."""
    for english, own in sentences(code, NOTES).items():
        have, wanted = (fields_of(parsed(text.translate(HIDDEN))) for text in (english, own))
        assert wanted == have, english


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("file", sorted(CORPUS.glob("*/*.yaml")), ids=lambda file: f"{file.parent.name}-{file.stem}")
def test_no_note_keeps_a_word_of_english(file: Path, code: str) -> None:
    """Every planted fault, told in the language: no English word of any note but what stands in the file itself."""
    own = set(_words(file.read_text("utf-8"))) | _KEPT
    for note in notes_of(file):
        for text in _told(note):
            printed = said(text, Language(code))
            if not _FROM_THE_SCHEMA.search(printed):
                assert [word for word in _words(printed) if word in english_words(code) - own] == [], printed


def test_words_of_english_are_found() -> None:
    """The guard itself: a sentence without its translation is seen."""
    printed = said(told("The stakes are nowhere"), Language("de"))
    assert set(_words(printed)) & english_words("de")


def notes_of(file: Path) -> tuple[Note, ...]:
    """The notes on a file, whatever they stop."""
    try:
        return compile_pattern(file).notes
    except PatternFaultError as fault:
        return fault.notes


def _told(note: Note) -> list[str]:
    """All that a note says, none of it bare English."""
    told_parts = [note.sentence, *note.remedies, *(words for _, words in note.related)]
    assert all(isinstance(text, Spoken) for text in told_parts), note
    return [*told_parts, note.part]


@cache
def english_words(code: str) -> frozenset[str]:
    """Words of the English sentences that no sentence of the language has."""
    english = [*english_sentences(), *sentences(ENGLISH, "refusals").values()]
    own = [*sentences(code, NOTES).values(), *sentences(code, "refusals").values()]
    return frozenset(word for text in english for word in _words(text)) - {
        word for text in own for word in _words(text)
    }


# What a key of the schema is for, in the schema's own English, stands after its name: not translated yet.
_FROM_THE_SCHEMA = re.compile(r" ergänzen: |No such file|^put a colour's name|^write tied")
# Keys of the language and values a remedy offers to be typed, names of stocks, and words both languages have.
_KEPT = frozenset({"round", "reed", "scale", "us", "uk", "upset", "upsett", "willow", "brown", "kubu", "cane", "coil"}) | {
    "none", "centre", "line", "twos", "until", "used", "note", "pairing", "randing", "chasing", "wale", "rod",
}  # fmt: skip


def _words(text: str) -> list[str]:
    """The words of a text, without values, small letters."""
    return re.findall(r"[^\W\d_]{3,}", re.sub(r"\{[^{}]*?[#?|:]?", " ", text).casefold())
