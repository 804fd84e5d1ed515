"""What differs between two builds is in the names of their files, and plain builds have plain names."""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace
from tests.cli.running import PATTERNS, slath, start

from slath.editions import drawings, editions_of
from slath.pipeline import Compilation, compile_pattern
from slath.work import BuildOptions

README = Path(__file__).parents[2] / "compiler" / "README.md"

# For every option of a build, ways to ask for something else than a plain build, and what the files are called then.
ASKED: dict[str, dict[Any, str]] = {
    "editions": {("handout", "list", "text"): ""},
    "style": {"large-print": "-large-print", "handout": ""},
    "paper": {"a4": "", "letter": "-letter"},
    "units": {"inches": "", "mm": "-mm"},
    "vocabulary": {"us": "-us"},
    "language": {"en": "", "de": "-de"},
    "left_handed": {True: "-left-handed"},
    "sections": {("tools", "glance"): "-glance+tools", ("cut list",): "-cut-list"},
    "copy_for": {"Jo Marsh": "-for-Jo-Marsh", "jo/marsh": "-for-jo-marsh-7f2znyhg"},
}


@pytest.fixture(scope="module")
def tray(tmp_path_factory: pytest.TempPathFactory) -> Compilation:
    """A small pattern in three sizes, one of them called as a careless rule would call another."""
    folder = tmp_path_factory.mktemp("named")
    return compile_pattern(start(folder, kind="board", sizes=("small", "Small", "small-deep")))


def built(compilation: Compilation, options: BuildOptions) -> dict[str, bytes]:
    """Names and bytes of what a build with these options makes."""
    return dict(editions_of(compilation, options, lambda _text: None))


@pytest.mark.parametrize("field", BuildOptions.__struct_fields__)
def test_what_is_asked_for_is_in_the_names(field: str, tray: Compilation) -> None:
    """Files that two builds call the same are the same, byte for byte; a new option is to be thought of here."""
    paged = field in {"editions", "style", "paper", "sections"}
    plain = BuildOptions(editions=("handout", "list") if paged else ("text", "list"))
    builds = [(built(tray, plain), "")]
    for value, mark in ASKED[field].items():
        other: Any = {field: value}
        builds.append((built(tray, replace(plain, **other)), mark))
    for made, mark in builds:
        assert (f"basket-handout{mark}.pdf" if paged else f"basket-booklet{mark}.txt") in made
        headings = mark if field == "language" else ""
        assert {f"basket-list{headings}.csv", "basket-list.json"} <= made.keys()  # the same for any hand
    for (one, _), (other, _) in itertools.combinations(builds, 2):
        assert [name for name in one.keys() & other.keys() if one[name] != other[name]] == []


def test_sizes_built_alone_have_files_of_their_own(tmp_path: Path) -> None:
    """One size or a few are never written over the booklet of all, nor one size over another, whatever it is called."""
    names = ("small", "Small", "small-deep", "small deep")
    file = start(tmp_path, kind="board", sizes=names)
    compiled = [compile_pattern(file), *(compile_pattern(file, sizes=(name,)) for name in names)]
    lists = {
        name for each in compiled for name in built(each, BuildOptions(editions=("list",))) if name.endswith("csv")
    }
    assert len(lists) == len(names) + 1
    assert "basket-list.csv" in lists
    whole, *alone = (set(drawings(each, ["view"], BuildOptions())) for each in compiled)
    assert len(whole) == len(names)
    assert sorted(name for each in alone for name in each) == sorted(whole)


def test_all_is_in_one_folder_and_nothing_is_replaced(tmp_path: Path) -> None:
    """As the page on the commands says: the booklet for a left hand stands beside the plain one, as do drawings."""
    start(tmp_path, "tray", "board", ("small", "large"))
    asked: tuple[list[str], ...] = (["--size", "small", "--vocabulary", "us"], ["--left-handed"], [])
    for options in asked:
        copy = ["--for", "Jo Marsh"] if "--left-handed" in options else []
        assert slath("build", "tray.yaml", "--edition", "text", *options, *copy, cwd=tmp_path).returncode == 0
        assert slath("draw", "tray.yaml", "view", *options, cwd=tmp_path).returncode == 0
    there = {str(path.relative_to(tmp_path / "build")) for path in (tmp_path / "build").rglob("*.*")}
    assert there == {
        "tray/.written-by-slath", "tray/tray-booklet.txt", "tray/tray-booklet-small-us.txt",
        "tray/tray-booklet-left-handed-for-Jo-Marsh.txt", "tray/figures/small-view.svg", "tray/figures/large-view.svg",
        "tray/figures/small-view-us.svg", "tray/figures/small-view-left-handed.svg", "tray/figures/large-view-left-handed.svg",
    }  # fmt: skip
    text = README.read_text("utf-8")
    assert "`tray-booklet-small-us.pdf`" in text
    assert "`tray-booklet-left-handed-for-Jo-Marsh.pdf`" in text


@pytest.mark.parametrize(
    "name", ["../../../evil", "/evil/x", "a\0b", "nul/../x", "x" * 41, ".hidden", "a\n", " a", "a  b", ""]
)
def test_a_size_cannot_be_called_anything(name: str, tmp_path: Path) -> None:
    """A size's name is words of letters and digits; what else it holds is a note at its place, and nothing is written."""
    escaped = name.replace("\0", "\\0").replace("\n", "\\n")
    text = (PATTERNS / "eel-mat.yaml").read_text("utf-8").replace("[cup, plate, dish]", f'["{escaped}"]')
    (tmp_path / "mat.yaml").write_text(text, "utf-8")
    done = slath("build", "mat.yaml", cwd=tmp_path)
    assert done.returncode == 1
    assert "mat.yaml:19:9: Error wrong-form" in done.stderr or "mat.yaml:19:9: Error too-few-given" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["mat.yaml"]
