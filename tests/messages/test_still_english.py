"""What a booklet says that is not in the language data yet, module by module: it prints in English in every language.

The list may only grow shorter: a module that is converted is taken off it, and no other may begin to speak for itself.
"""

from __future__ import annotations

import ast
from pathlib import Path

import slath

PACKAGE = Path(slath.__file__).parent
ROOMS = ("wording", "booklet", "drawing", "output")  # what reaches a reader; notes, commands and the proof are English
WORDS = 4  # from which on a string is taken for prose

STILL_ENGLISH = {
    "booklet/blocks", "booklet/faces", "booklet/figures", "booklet/flow", "booklet/forms",
    "booklet/insets", "booklet/pages", "booklet/reading", "booklet/scene_words",
    "booklet/size_table", "booklet/style_faults", "booklet/styles", "booklet/tiling", "booklet/words",
    "drawing/figures", "drawing/view/floor", "drawing/view/wall", "drawing/wall/side",
    "output/counts_text", "output/explained", "output/glyph_outlines", "output/html", "output/html_words",
    "output/html_script", "output/html_style", "output/imposition", "output/kept", "output/kept_notes",
    "output/pdf", "output/pdf_about", "output/pdf_scene", "output/pdf_tree",
    "output/svg", "output/writing", "wording/base_stage", "wording/designer",
    "wording/handle_ears", "wording/handle_stage", "wording/typed_numbers",
}  # fmt: skip


def prose_in(path: Path) -> int:
    """How many strings of four words or more a module holds, its documentation aside."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    aside = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    inside = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values}
    found = 0
    for node in ast.walk(tree):
        if id(node) in aside | inside:
            continue
        text = ""
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            text = node.value
        elif isinstance(node, ast.JoinedStr):
            text = "".join(str(part.value) if isinstance(part, ast.Constant) else "x" for part in node.values)
        found += sum(any(letter.isalpha() for letter in word) for word in text.split()) >= WORDS
    return found


def test_no_other_module_speaks_for_itself() -> None:
    """A new sentence goes into the language data (DEVELOPERS.md, "A sentence"); a converted module leaves the list."""
    speaking = {
        path.relative_to(PACKAGE).with_suffix("").as_posix()
        for room in ROOMS
        for path in (PACKAGE / room).rglob("*.py")
        if prose_in(path)
    }
    assert sorted(speaking - STILL_ENGLISH) == []
    assert sorted(STILL_ENGLISH - speaking) == []
