"""The house stays small enough to be known: modules, functions, and how many ways lead through them."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2] / "compiler" / "slath"
MOST_LINES_A_MODULE = 400
MOST_LINES_A_FUNCTION = 60
MOST_WAYS = 3.2  # through a function, on the average: McCabe, "A Complexity Measure", IEEE Trans. Softw. Eng. 2, 1976
# Longer than a module should be, each with what it has: the list and its numbers may only shrink.
STILL_LONG = {
    "basket/base.py": 513,
    "basket/model.py": 475,
    "classes/file.py": 412,
    "language/faults.py": 454,
    "language/view.py": 431,
    "wording/border_stage.py": 418,
    "work.py": 412,
}
STILL_LONG_FUNCTIONS = {"bow_in_ear": 70, "ear_in_side": 70, "ear_to_scale": 63}


def modules() -> dict[str, str]:
    """Every module of the package by its path inside, with its text."""
    return {path.relative_to(PACKAGE).as_posix(): path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.py")}


def functions() -> Iterator[tuple[str, ast.FunctionDef | ast.AsyncFunctionDef]]:
    """Every function of the package, with its module."""
    for name, text in modules().items():
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield name, node


def test_no_module_is_too_long() -> None:
    """A module can be read in one go; those that were longer already grow no further."""
    lines = {name: len(text.splitlines()) for name, text in modules().items()}
    assert len(lines) > 400
    assert {name: count for name, count in lines.items() if count > STILL_LONG.get(name, MOST_LINES_A_MODULE)} == {}
    assert {name: lines[name] for name in STILL_LONG if lines[name] != STILL_LONG[name]} == {}  # what shrank is held there


def test_no_function_is_too_long() -> None:
    """A function fits on a page."""
    long = {node.name: (node.end_lineno or 0) - node.lineno + 1 for _, node in functions()}
    assert len(long) > 2500
    over = {f"{name}:{node.name}" for name, node in functions()
            if (node.end_lineno or 0) - node.lineno + 1 > STILL_LONG_FUNCTIONS.get(node.name, MOST_LINES_A_FUNCTION)}  # fmt: skip
    assert over == set()


def test_functions_are_simple() -> None:
    """Few ways lead through a function, on the average over all."""
    ways = [_ways(node) for _, node in functions()]
    assert sum(ways) / len(ways) <= MOST_WAYS


def _ways(function: ast.AST) -> int:
    """The ways through a function: one, and one more for each place where it may turn off."""
    turns = (ast.If, ast.For, ast.AsyncFor, ast.While, ast.ExceptHandler, ast.comprehension, ast.match_case)
    return 1 + sum(isinstance(node, turns) for node in ast.walk(function))
