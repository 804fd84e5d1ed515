"""The rooms of the house: imports run downwards only, and the top level holds nothing but what it must."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Callable, Mapping
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "compiler" / "slath"

# A room may import from the rooms before it. Two modules are plain records that later rooms share.
ROOMS = (
    "fonts", "notes", "units", "trade", "messages", "language", "basket", "quantities", "plan", "rules", "wording", "drawing",
    "booklet", "output", "pipeline", "work", "editions", "hands", "classes", "selling", "bench", "cli",
)  # fmt: skip
RECORDS = {
    "drawing.scene",
    "booklet.blocks",
    "booklet.pieces",
    "messages.values",
    "messages.templates",
    "messages.told",
}
# The folders of the figures, each of which may import from those before it.
FIGURE_FOLDERS = ("paint", "plate", "wall", "strokes", "base", "border", "handle", "view")
FIGURE_RECORDS = {"scene", "options"}  # what the folders may take from the room itself
MODULES_A_FOLDER = 15
# Kept away from everything that `slath check` runs, so that it starts at once.
HEAVY = {"reportlab", "numpy", "svgwrite", "pypdf", "PIL", "rich", "pyphen"}
LIGHT_ROOMS = ("fonts", "notes", "units", "trade", "messages", "language", "basket", "quantities", "plan", "rules")

# What these rooms load only when it is needed, they may name in types without loading it: nothing else stands in such a block.
LOADED_LATER = {
    "cli": {"click.shell_completion", "slath.notes", "slath.pipeline", "slath.selling.buyers", "slath.units.printing"},
    "language": {"jsonschema.exceptions", "typing"},
    "messages": {"slath.messages.language", "slath.messages.voice"},
}


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


def test_folders_of_figures_import_downwards_only() -> None:
    """What paints knows no figure, a figure of the base no border, and none of them the list of all figures."""
    wrong, seen, folders = [], 0, set()
    for path in sorted((PACKAGE / "drawing").glob("*/*.py")):
        own = path.parent.name
        folders.add(own)
        for name, line in imports_of(path):
            other = name.removeprefix("slath.drawing.").split(".")[0]
            if not name.startswith("slath.drawing.") or other in FIGURE_RECORDS:
                continue
            seen += 1
            if other not in FIGURE_FOLDERS or FIGURE_FOLDERS.index(other) > FIGURE_FOLDERS.index(own):
                wrong.append(f"{path.relative_to(ROOT)}:{line}: {own} imports {name}")
    assert folders == set(FIGURE_FOLDERS)
    assert seen > 100
    assert not wrong, "\n".join(wrong)


def test_no_folder_of_figures_holds_too_many_modules() -> None:
    """A folder can be looked through at a glance."""
    drawing = PACKAGE / "drawing"
    held = {folder: len(list(folder.glob("*.py"))) for folder in (drawing, *drawing.iterdir()) if folder.is_dir()}
    assert {folder.name: count for folder, count in held.items() if count > MODULES_A_FOLDER} == {}


def test_no_module_imports_itself_through_others() -> None:
    """Imports make no circle, those inside functions and of types alone included."""
    names = {dotted(path): path for path in modules()}
    graph = {name: {other for other in map(module_of(names), imports_of(path)) if other and other != name}
             for name, path in names.items()}  # fmt: skip
    assert sum(map(len, graph.values())) > 500
    try:
        tuple(TopologicalSorter(graph).static_order())
    except CycleError as circle:
        pytest.fail(" → ".join(circle.args[1]))


def dotted(path: Path) -> str:
    """A module's own name; a package is named for its folder."""
    return ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts).removesuffix(".__init__")


def module_of(names: Mapping[str, Path]) -> Callable[[tuple[str, int]], str | None]:
    """The module of the package that an imported name is, or comes from."""

    def found(imported: tuple[str, int]) -> str | None:
        name = imported[0]
        return name if name in names else name.rpartition(".")[0] if name.rpartition(".")[0] in names else None

    return found


def test_types_are_imported_like_everything_else() -> None:
    """A block for the type checker alone holds only what a room loads later on purpose."""
    wrong, seen = [], 0
    for path in [*modules(), *(ROOT / "tests").rglob("*.py")]:
        seen += 1
        allowed = LOADED_LATER.get(path.parent.name, set()) if path.is_relative_to(PACKAGE) else set()
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
                loaded = {part.module for part in node.body if isinstance(part, ast.ImportFrom)}
                wrong += [f"{path.relative_to(ROOT)}:{node.lineno}"] if not loaded or loaded - allowed else []
    assert seen > 400
    assert not wrong, "\n".join(wrong)


def test_setting_up_needs_python_alone() -> None:
    """What stands in `.ci` and is run on a bare machine imports the standard library only."""
    imported = {name.split(".")[0] for name, _ in imports_of(ROOT / ".ci" / "setup.py")}
    assert len(imported) > 4
    assert imported <= sys.stdlib_module_names | {"__future__"}


# What the words still ask of the basket beside its records: where things lie, never how strands or ends run. It may only
# grow shorter; what is done, with what, how often and in which order is read from the acts of the plan.
ASKED_BY_WORDS = {
    "basket.model", "basket.board_holes", "basket.border_ends", "basket.border_path", "basket.border_stakes",
    "basket.gathering", "basket.handle_ears", "basket.made_parts", "basket.stake_places", "basket.stakes",
    "basket.strand_lies", "plan.acts", "plan.border_rows", "plan.places", "plan.planner",
}  # fmt: skip


def test_words_work_nothing_out() -> None:
    """A teller chooses words for acts; it asks no simulation of weaving or borders."""
    asked = {
        ".".join(name.removeprefix("slath.").split(".")[:2])
        for path in sorted((PACKAGE / "wording").glob("*.py"))
        for name, _ in imports_of(path)
        if name.startswith(("slath.basket.", "slath.plan."))
    }
    assert asked == ASKED_BY_WORDS


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


def test_records_are_cheap_to_make() -> None:
    """A record is a msgspec `Struct`: a dataclass is compiled at each start, 0.6 ms apiece, and takes six times as long to
    fill. A dataclass stays where a field counts for nothing in comparison or is not filled by the caller, and in errors.
    """
    wrong, seen = [], 0
    for path in modules():
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.ClassDef):
                continue
            seen += any(ast.unparse(base) == "Struct" for base in node.bases)
            if any(ast.unparse(way).startswith("dataclass") for way in node.decorator_list):
                body = ast.unparse(node)
                if not ("compare=False" in body or "init=False" in body or "(Exception)" in body):
                    wrong.append(f"{path}:{node.lineno}: {node.name}")
    assert seen > 300
    assert not wrong, f"write class Name(Struct, frozen=True), and replace from msgspec.structs: {wrong}"


def test_only_the_command_line_prints() -> None:
    """Every other room returns what it has to say."""
    wrong, seen = [], 0
    for path in modules():
        if path.parent.name == "cli":
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
