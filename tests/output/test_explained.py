"""Every word of slath can be explained, and every example given with it is tried."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from jsonschema.validators import Draft202012Validator

from slath.cli.commands import slath
from slath.language.document import read_document
from slath.language.schemas import schema
from slath.language.source import Source
from slath.language.weaves import find_weave
from slath.notes.catalogue import CATALOGUE
from slath.output.explained import UnknownWordError, examples_of_notes, explain, explained_text
from slath.trade.words import concepts

CORPUS = Path(__file__).parents[1] / "corpus" / "bad"
WEAVES = ("randing", "chasing", "pairing", "three-rod wale", "four-rod wale", "slewing", "French rand")


@cache
def _bad_lines() -> dict[str, set[str]]:
    """The lines of the bad files for which each note is expected: the tests of the rules hold that it is given there."""
    found: dict[str, set[str]] = {}
    for path in CORPUS.rglob("*.yaml"):
        for line in path.read_bytes().decode("utf-8", "replace").splitlines():
            marked = re.fullmatch(r"(.*?)\s*# expect: ([a-z-]+)", line)
            if marked:
                found.setdefault(marked[2], set()).add(marked[1].strip().removeprefix("- "))
    return found


@pytest.mark.parametrize("code", sorted(CATALOGUE))
def test_every_note_is_explained(code: str) -> None:
    """By its title and why it is given."""
    said = explained_text(explain(code))
    assert CATALOGUE[code].explanation.split()[0] in said


def test_every_example_of_a_note_gives_that_note() -> None:
    """The example stands in a bad file at a line where the note is expected."""
    examples = examples_of_notes()
    assert len(examples) > 150
    assert {code: line for code, line in examples.items() if line not in _bad_lines().get(code, set())} == {}


def test_every_key_is_explained_and_its_example_is_good() -> None:
    """With the part it belongs to; what is shown for it is what its part takes."""
    whole = schema("pattern")
    tried = 0
    for name, part in whole["$defs"].items():
        for key in part.get("properties", {}):
            assert explain(key)
        if "x-example" in part:
            data = read_document(Source("example", f"shown: {part['x-example']}")).data["shown"]
            validator = Draft202012Validator({"$ref": f"#/$defs/{name}", "$defs": whole["$defs"]})
            assert list(validator.iter_errors(data)) == [], name
            tried += 1
    assert tried > 10
    assert any("curved" in says or "height" in says for each in explain("profile") for says in each.says)


@pytest.mark.parametrize("name", WEAVES)
def test_weaves_are_explained_with_a_band_to_copy(name: str) -> None:
    """The example names the very weave; the counts that suit are those of the trade."""
    (found,) = [each for each in explain(name) if each.kind == "a weave"]
    band = yaml.safe_load(found.example)
    assert find_weave(band["weave"]) == find_weave(name)


def test_counts_that_suit_a_weave() -> None:
    """Randing needs an odd number and chasing an even one (common practice, no source)."""
    (rand,) = [each for each in explain("randing") if each.kind == "a weave"]
    (chase,) = [each for each in explain("chasing") if each.kind == "a weave"]
    assert "21, 23, 25, 27, 29, 31" in rand.says[-1]
    assert "20, 22, 24, 26, 28, 30, 32" in chase.says[-1]


def test_every_word_of_the_trade_is_explained() -> None:
    """In the glossary's words, with the American one where it differs."""
    for key in concepts():
        assert explain(key)
    assert "set-up" in explained_text(explain("upsett"))
    assert explain("Set-up") == explain("upsett")


def test_a_word_that_is_nothing_here_is_told_with_the_nearest() -> None:
    """And the command's exit code says that it was asked wrongly."""
    with pytest.raises(UnknownWordError, match="upsett"):
        explain("upsettt")
    done = CliRunner().invoke(slath, ["explain", "three rod", "plaid"])
    assert done.exit_code == 2
    assert CliRunner().invoke(slath, ["explain", "three-rod", "wale"]).exit_code == 0
