"""Every sign the tool writes itself can be set in its own faces."""

from __future__ import annotations

import ast
import unicodedata
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

PACKAGE = Path(__file__).resolve().parents[2] / "compiler" / "slath"
FACES = sorted(
    file for file in (PACKAGE / "fonts").glob("*.ttf") if not file.stem.endswith(("fractions", "caps", "display"))
)
ROOMS = ("basket", "quantities", "wording", "trade")


def strings_of(file: Path) -> set[str]:
    """String constants of a module, without docstrings."""
    tree = ast.parse(file.read_text("utf-8"))
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)
    }
    return {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings
    }


@pytest.mark.parametrize("face", FACES, ids=[face.stem for face in FACES])
def test_signs_of_sentences_and_formulas_are_in_every_face(face: Path) -> None:
    """Letters, marks and signs of arithmetic in words and formulas have a glyph, or a proof cannot be set.

    Private characters stand for brackets only while a sentence is read; fraction signs are read and never written.
    """
    known = set(TTFont(face).getBestCmap())
    missing = {
        (sign, file.name)
        for room in ROOMS
        for file in sorted((PACKAGE / room).rglob("*.py"))
        for text in strings_of(file)
        for sign in text
        if sign.isprintable()
        and unicodedata.category(sign) != "No"
        and not "\ue000" <= sign <= "\uf8ff"
        and ord(sign) not in known
    }
    assert not missing
