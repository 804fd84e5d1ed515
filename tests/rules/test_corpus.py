"""The corpus of rules: for every code a bad file that carries it on its line, and a good one that comes close without it."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from slath.notes.catalogue import CATALOGUE
from slath.pipeline import compile_pattern
from slath.rules import ALL_RULES
from slath.rules.acceptance import NOT_NEEDED, OF_AN_ERROR

ROOT = Path(__file__).resolve().parents[2]
BAD = sorted((ROOT / "tests" / "corpus" / "bad" / "rules").glob("*.yaml"))
GOOD = sorted((ROOT / "tests" / "corpus" / "good" / "rules").glob("*.yaml"))
EXPECT = re.compile(r"# expect: (?P<codes>[a-z, -]+)$")
# Faults of construction that the reader already refuses, so that no file can bring them.
GUARDS = {"no-height", "no-side-bands", "holes-not-counted", "groups-do-not-sum"}


def expected(file: Path) -> set[tuple[int, str]]:
    """Line and code of every note a file says it carries."""
    found = set()
    for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), start=1):
        remark = EXPECT.search(line)
        if remark:
            found |= {(number, code.strip()) for code in remark["codes"].split(",")}
    return found


def told(file: Path) -> set[tuple[int, str]]:
    """Line and code of every note the tool gives, accepted ones left out."""
    return {(note.place.line, note.code) for note in compile_pattern(file).notes if not note.accepted}


def construction_codes() -> set[str]:
    """Every code a basket can be refused with, read off the source."""
    codes = set()
    for file in sorted((ROOT / "compiler" / "slath" / "basket").glob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "CannotConstruct":
                first = node.args[0]
                assert isinstance(first, ast.Constant)
                codes.add(str(first.value))
    return codes


@pytest.mark.parametrize("file", BAD, ids=[file.stem for file in BAD])
def test_bad_file_carries_its_notes_and_no_other(file: Path) -> None:
    """Every note stands on the line the file says, among them the one the file is named for."""
    wanted = expected(file)
    assert file.stem in {code for _, code in wanted}
    assert told(file) == wanted


@pytest.mark.parametrize("file", GOOD, ids=[file.stem for file in GOOD])
def test_good_file_comes_close_and_carries_none(file: Path) -> None:
    """A near miss calls for no note at all."""
    assert told(file) == set()


def test_every_rule_has_a_bad_and_a_good_file() -> None:
    """No rule stands in the list without a file that brings it and one that comes close; nor any refusal to construct."""
    codes = {rule.code for rule in ALL_RULES} | (construction_codes() - GUARDS) | {NOT_NEEDED, OF_AN_ERROR}
    assert len(codes) > 60
    assert {file.stem for file in BAD} == codes
    assert {file.stem for file in GOOD} == codes


def test_every_code_is_explained() -> None:
    """The catalogue says what every rule and every refusal to construct is about."""
    codes = {rule.code for rule in ALL_RULES} | construction_codes() | {NOT_NEEDED, OF_AN_ERROR}
    assert codes <= set(CATALOGUE)


def test_one_rule_one_function_one_code() -> None:
    """No code and no function stands twice in the list, and every function says in a sentence what it holds to."""
    assert len({rule.code for rule in ALL_RULES}) == len(ALL_RULES)
    assert len({rule.check for rule in ALL_RULES}) == len(ALL_RULES)
    assert all((rule.check.__doc__ or "").strip().endswith(".") for rule in ALL_RULES)


@pytest.mark.parametrize("file", BAD, ids=[file.stem for file in BAD])
def test_every_note_says_what_to_do(file: Path) -> None:
    """A note is a sentence in the trade's words with at least one remedy, and speaks of nothing inside the tool."""
    for note in compile_pattern(file).notes:
        assert re.fullmatch(r"[A-Z0-9“].*[.]", note.sentence, re.DOTALL), note.sentence
        assert note.remedies
        assert 1 <= len(note.remedies) <= 4
        text = " ".join((note.sentence, *note.remedies))
        assert not re.search(r"None|nan|_mm|\bTrue\b|\bFalse\b|\d\.\d{3}|\(\)|  ", text), text
