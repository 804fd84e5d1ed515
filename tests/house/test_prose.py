"""How much the rooms still say for themselves: strings of four words or more, documentation aside. The number only falls."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import slath

PACKAGE = Path(slath.__file__).parent
# Notes keep their English beside the rule (tests/messages/test_notes.py), and help is the command line's own.
ASIDE = {"notes", "rules", "language", "cli"}
CEILING = 456
_WORD = re.compile(r"[A-Za-z’']{2,}")


def prose_in(tree: ast.Module) -> list[str]:
    """Strings of four words or more of a module, an f-string as one."""
    aside = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    inside = {
        id(part)
        for node in ast.walk(tree)
        if isinstance(node, ast.JoinedStr)
        for part in ast.walk(node)
        if part is not node
    }
    found = []
    for node in ast.walk(tree):
        if id(node) in aside or id(node) in inside:
            continue
        if isinstance(node, ast.JoinedStr):
            parts = [part.value if isinstance(part, ast.Constant) else " " for part in node.values]
            found.append("".join(str(part) for part in parts))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            found.append(node.value)
    return [text for text in found if len(_WORD.findall(text)) >= 4 and " " in text.strip()]


def test_prose_outside_the_languages_grows_less() -> None:
    """A new sentence goes into the language data; who converts some lowers the ceiling."""
    found = [
        text
        for path in PACKAGE.rglob("*.py")
        if path.relative_to(PACKAGE).parts[0] not in ASIDE
        for text in prose_in(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert CEILING - 40 <= len(found) <= CEILING, len(found)


def test_prose_is_seen() -> None:
    """The count itself: a sentence is counted, documentation and a name are not."""
    assert prose_in(ast.parse('"""All of this is documentation."""\nx = "a sentence of four words"\ny = "a name"')) == [
        "a sentence of four words"
    ]
