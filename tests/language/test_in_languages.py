"""Words a designer gives in several languages: those of the language asked for are read, and no other."""

from __future__ import annotations

from pathlib import Path

import pytest

from slath.pipeline import compile_pattern

PATTERN = """
slath: 1
title: {{en: Trial piece, de: Probestück}}
{more}
materials:
  sticks: {{stock: us round reed 8}}
  stakes: {{stock: us round reed 5}}
  plain: {{stock: us round reed 4, title: {{en: plain reed, de: helles Peddigrohr}}}}
base:
  kind: round slath
  diameter: 6 in
  pierced: 4
  threaded: 4
  material: sticks
  weaving: [{{weave: pairing, strands: plain, to: edge}}]
steps:
  - {{stage: base, notes: {{en: [Sit down., Breathe.], de: [Setz dich hin., Atme.]}}}}
"""


def written(tmp_path: Path, more: str = "") -> Path:
    """The pattern in a file."""
    path = tmp_path / "trial.yaml"
    path.write_text(PATTERN.format(more=more), "utf-8")
    return path


@pytest.mark.parametrize(
    ("language", "title", "reed"), [("", "Trial piece", "plain reed"), ("de", "Probestück", "helles Peddigrohr")]
)
def test_words_are_those_of_the_language_asked_for(tmp_path: Path, language: str, title: str, reed: str) -> None:
    """Title, titles of materials and lists of notes, wherever words stand."""
    pattern = compile_pattern(written(tmp_path), language=language).pattern
    assert pattern.title == title
    assert pattern.sizes[0].materials["plain"].title == reed
    assert pattern.stages[0].notes[0] == ("Setz dich hin." if language else "Sit down.")


def test_the_file_says_its_own_language(tmp_path: Path) -> None:
    """Unless another is asked for, words are those of the language the file asks for."""
    path = written(tmp_path, "language: de")
    assert compile_pattern(path).pattern.title == "Probestück"
    assert compile_pattern(path, language="en").pattern.title == "Trial piece"


def test_what_lacks_a_language_is_told_and_read_in_another(tmp_path: Path) -> None:
    """A subtitle in English alone, where the title is in both."""
    compilation = compile_pattern(written(tmp_path, "subtitle: {en: For practice}"), language="de")
    assert compilation.pattern.subtitle == "For practice"
    (note,) = [note for note in compilation.notes if note.code == "language-lacking"]
    assert note.place.line == 4
    assert note.remedies == ("add de: and the words",)


def test_a_size_called_like_a_language_keeps_its_values(tmp_path: Path) -> None:
    """Sizes may be called en and de: then such sets are values by size, as before."""
    path = written(tmp_path, "sizes: [en, de]")
    text = path.read_text("utf-8").replace("title: {en: Trial piece, de: Probestück}", "title: Trial piece")
    path.write_text(text.partition("steps:")[0], "utf-8")
    assert [sized.materials["plain"].title for sized in compile_pattern(path).pattern.sizes] == [
        "plain reed",
        "helles Peddigrohr",
    ]
