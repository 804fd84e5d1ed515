"""The catalogue of codes: complete, well-formed, and without a code that nothing gives."""

from __future__ import annotations

import ast
import re
from pathlib import Path

from slath.notes.catalogue import CATALOGUE

PACKAGE = Path(__file__).parents[2] / "compiler" / "slath"
# Calls that take a note's code, and which argument it is.
CALLS = {
    "Note": 0, "Rule": 0, "CannotConstruct": 0, "MeasureFaultError": 0, "Finding": 0, "refuse": 0, "_refused": 0, "_fault": 0,
    "_error": 0, "note": 0, "_note": 2,
}  # fmt: skip
CODE = re.compile(r"[a-z]+(-[a-z]+)+")


def _codes() -> dict[str, set[str]]:
    """Every code written in the package, with the files that write it."""
    found: dict[str, set[str]] = {}
    for file in sorted(PACKAGE.rglob("*.py")):
        if file.name == "catalogue.py":
            continue
        for call in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(call, ast.Call) and _called(call) in CALLS:
                place = CALLS[_called(call)]
                named = [word.value for word in call.keywords if word.arg == "code"]
                for argument in (*call.args[place : place + 1], *named):
                    value = argument.value if isinstance(argument, ast.Constant) else None
                    if isinstance(value, str) and CODE.fullmatch(value):
                        found.setdefault(value, set()).add(file.name)
    return found


def _called(call: ast.Call) -> str:
    return (
        call.func.id
        if isinstance(call.func, ast.Name)
        else call.func.attr
        if isinstance(call.func, ast.Attribute)
        else ""
    )


def test_every_code_given_is_listed() -> None:
    """A note's code written anywhere in the package stands in the catalogue."""
    codes = _codes()
    assert len(codes) > 80
    assert {code: files for code, files in codes.items() if code not in CATALOGUE} == {}


def test_every_code_listed_is_given() -> None:
    """Every code of the catalogue is written somewhere in the package: none outlives its note."""
    sources = "\n".join(
        file.read_text("utf-8") for file in sorted(PACKAGE.rglob("*.py")) if file.name != "catalogue.py"
    )
    assert [code for code in CATALOGUE if f'"{code}"' not in sources] == []


def test_entries_are_well_formed() -> None:
    """A code is lower-case words joined by dashes; a title is short; an explanation is a sentence."""
    for code, entry in CATALOGUE.items():
        assert CODE.fullmatch(code)
        assert 0 < len(entry.title) <= 60
        assert entry.explanation.endswith(".")
