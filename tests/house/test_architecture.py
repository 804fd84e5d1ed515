"""The rooms of the house: imports run downwards only, and the top level holds nothing but what it must."""

from __future__ import annotations

import ast
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "compiler" / "slath"

# A room may import from the rooms before it. Two modules are plain records that later rooms share.
ROOMS = (
    "notes", "units", "trade", "messages", "language", "basket", "quantities", "plan", "rules", "wording", "drawing",
    "booklet", "output", "pipeline", "work", "editions", "hands", "classes", "selling", "bench", "cli",
)  # fmt: skip
RECORDS = {"drawing.scene", "booklet.blocks", "booklet.pieces"}
# Kept away from everything that `slath check` runs, so that it starts at once.
HEAVY = {"reportlab", "numpy", "svgwrite", "pypdf", "PIL", "rich", "pyphen"}
LIGHT_ROOMS = ("notes", "units", "trade", "messages", "language", "basket", "quantities", "plan", "rules")


def modules() -> list[Path]:
    """Every module of the package."""
    return sorted(PACKAGE.rglob("*.py"))


def imports_of(path: Path) -> list[tuple[str, int]]:
    """Names of the modules a module imports, with the line."""
    found: list[tuple[str, int]] = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(alias.name, node.lineno) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno}: imports are written out in full"
            found += [(f"{node.module}.{alias.name}", node.lineno) for alias in node.names]
    return found


def room_of(name: str) -> str | None:
    """The room of a dotted name inside the package."""
    parts = name.split(".")
    return parts[1] if parts[0] == "slath" and len(parts) > 1 and parts[1] in ROOMS else None


def test_imports_run_downwards_only() -> None:
    """No room imports from a room that comes after it in the pipeline."""
    wrong, seen = [], 0
    for path in modules():
        inside = path.relative_to(PACKAGE).with_suffix("").as_posix().replace("/", ".")
        own = room_of(f"slath.{inside}")
        if own is None:
            continue
        for name, line in imports_of(path):
            other = room_of(name)
            if other is None:
                continue
            seen += 1
            shared = any(name.startswith(f"slath.{record}") for record in RECORDS)
            if ROOMS.index(other) > ROOMS.index(own) and not shared:
                wrong.append(f"{path.relative_to(ROOT)}:{line}: {own} imports {name}")
    assert seen > 100
    assert not wrong, "\n".join(wrong)


def test_light_rooms_import_nothing_heavy_at_the_top() -> None:
    """Libraries for pages and pictures are not loaded by the rooms that a check needs."""
    wrong, seen = [], 0
    for room in LIGHT_ROOMS:
        for path in sorted((PACKAGE / room).rglob("*.py")):
            for node in ast.parse(path.read_text(encoding="utf-8")).body:
                if isinstance(node, ast.Import | ast.ImportFrom):
                    seen += 1
                    names = (
                        [alias.name for alias in node.names] if isinstance(node, ast.Import) else [node.module or ""]
                    )
                    wrong += [f"{path.relative_to(ROOT)}:{node.lineno}: {n}" for n in names if n.split(".")[0] in HEAVY]
    assert seen > 100
    assert not wrong, "\n".join(wrong)


def test_only_the_command_line_prints() -> None:
    """Every other room returns what it has to say."""
    wrong, seen = [], 0
    for path in modules():
        if path.parent.name == "cli" or path.name == "derive.py":
            continue
        seen += 1
        wrong += [
            f"{path.relative_to(ROOT)}:{node.lineno}"
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "print"
        ]
    assert seen > 40
    assert not wrong, wrong


def test_nothing_is_called_utils() -> None:
    """A room is named for what is in it."""
    names = [path.stem for path in modules()] + [path.name for path in PACKAGE.rglob("*") if path.is_dir()]
    assert len(names) > 40
    assert not {"utils", "util", "helpers", "helper", "misc", "common", "build"} & set(names)


def test_top_level_holds_only_what_it_must() -> None:
    """README.md, DEVELOPERS.md, pyproject.toml, compiler, patterns, styles, tests, build, and hidden files."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    if listed.returncode:
        pytest.skip("not a git checkout, so what is tracked cannot be told")
    top = {line.split("/")[0] for line in listed.stdout.splitlines() if not line.startswith(".")}
    assert top == {
        "README.md", "DEVELOPERS.md", "pyproject.toml", "compiler", "patterns", "styles", "tests", "build",
    }  # fmt: skip
