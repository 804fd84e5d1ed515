"""The pages for people are true: every command in them is run, every answer they show is given, every example and link holds."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from threading import Timer
from typing import NamedTuple

import click
import pytest
import yaml

from slath.booklet.styles import from_data
from slath.booklet.styles import names as style_names
from slath.cli.commands import slath
from slath.editions import EDITIONS

ROOT = Path(__file__).resolve().parents[2]
# In a newcomer's order, in which the commands of all of them are typed.
PAGES = ("README.md", "compiler/README.md", "styles/README.md", "patterns/README.md")
TEXTS = {page: (ROOT / page).read_text("utf-8") for page in PAGES}
TOLD = "\n".join(TEXTS.values())
SETUP = "python3 .ci/setup.py "


class Block(NamedTuple):
    """A fenced block: its language, its text, the page and the line it begins on."""

    language: str
    text: str
    page: str
    line: int


def blocks() -> Iterator[Block]:
    """Every fenced block of the pages, in order."""
    for page, text in TEXTS.items():
        for found in re.finditer(r"^```(\w*)\n(.*?)^```$", text, re.MULTILINE | re.DOTALL):
            yield Block(found.group(1), found.group(2), page, text.count("\n", 0, found.start()) + 1)


def commands() -> list[str]:
    """Every command line of the pages."""
    return [line for block in blocks() if block.language == "sh" for line in block.text.splitlines()]


def run(line: str, folder: Path) -> str:
    """What a command line prints; one that watches is stopped as its user would, with Ctrl-C, once it has built."""
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    command, environment, said = ["bash", "-c", line], os.environ | {"PATH": path}, ""
    with subprocess.Popen(
        command, cwd=folder, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8",
        start_new_session=True,
    ) as process:  # fmt: skip
        limit = Timer(300, process.kill)  # against hanging alone; a busy machine may be slow
        limit.start()
        for told in process.stdout or ():
            said += told
            if "--watch" in line and "files: renewed in" in told:
                os.killpg(process.pid, signal.SIGINT)
        limit.cancel()
    assert process.returncode == 0, f"{line}\n{said}"
    return said


def write(block: Block, folder: Path) -> None:
    """Do what the first line of an example says: save it, add it to a file, or change a line there."""
    first, _, text = block.text.partition("\n")
    if changed := re.fullmatch(r"# in (\S+\.yaml)", first):
        file = folder / changed.group(1)
        before = file.read_text("utf-8")
        after = re.sub(rf"^{text.split(':')[0]}: .*\n", text, before, flags=re.MULTILINE)
        assert after != before, f"{block.page}:{block.line}: nothing to change in {file.name}"
        file.write_text(after, "utf-8")
    elif added := re.fullmatch(r"# add to (\S+\.yaml)", first):
        with (folder / added.group(1)).open("a", encoding="utf-8") as longer:
            longer.write("\n" + text)
    elif saved := re.fullmatch(r"# (\S+\.yaml)", first):
        (folder / saved.group(1)).write_text(text, "utf-8")


def test_every_command_does_what_it_is_said_to(tmp_path: Path) -> None:
    """All commands run one after another as a reader would type them, and every answer shown is given, line for line."""
    for name in ("patterns", "styles"):
        shutil.copytree(ROOT / name, tmp_path / name)
    said, count = "", 0
    for block in blocks():
        if block.language == "yaml":
            write(block, tmp_path)
        elif block.language == "text":
            for line in block.text.splitlines():
                assert line in said.splitlines(), f"{block.page}:{block.line}: {line!r} is not in\n{said}"
        elif block.language == "sh" and SETUP not in block.text:
            said = ""
            for line in block.text.splitlines():
                said += run(line, tmp_path)
                count += 1
    assert count > 20
    warnings = run("slath check heron-basket.yaml", tmp_path)
    assert "pitch-estimated" not in warnings  # the gauge that the README adds covers every weave
    assert "rows-pair-up" not in warnings


def test_the_first_command_sets_up_and_builds(tmp_path: Path) -> None:
    """`setup.py booklet` leaves the booklet where the README says, once what it installs is there."""
    assert [line for line in commands() if line.startswith(SETUP)] == [f"{SETUP}booklet", f"{SETUP}test"]
    for name in (".ci", "patterns", "styles"):
        shutil.copytree(ROOT / name, tmp_path / name)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    # A pattern that is sooner built stands in for the one named: what is built is the next test's business.
    shutil.copy(tmp_path / "patterns/eel-mat.yaml", tmp_path / "patterns/weir-field.yaml")
    environment = tmp_path / ".venv"  # as an earlier run leaves it, so that nothing is fetched
    environment.mkdir()
    (environment / "bin").symlink_to(Path(sys.executable).parent)
    stamp = hashlib.sha256((tmp_path / "pyproject.toml").read_bytes()).hexdigest()
    (environment / "installed").write_text(stamp, "utf-8")
    done = subprocess.run(
        [sys.executable, ".ci/setup.py", "booklet"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "build/weir-field/weir-field-booklet.pdf").read_bytes().startswith(b"%PDF-")


def test_continuous_integration_types_the_second_command() -> None:
    """What CI runs is what the README tells a newcomer to type, and no more."""
    lines = (ROOT / ".ci/run").read_text("utf-8").splitlines()
    typed = [line for line in lines if line and not line.startswith(("#", "set ", "cd "))]
    assert [line.split("=1 ")[-1] for line in typed] == [f"{SETUP}test"]


def test_setup_tells_what_it_can_do() -> None:
    """Asked for anything else, setup.py names its two jobs and fails."""
    done = subprocess.run(
        [sys.executable, ".ci/setup.py", "weave"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert "setup.py booklet" in done.stderr
    assert "setup.py test" in done.stderr


def test_every_option_is_told() -> None:
    """Every command and every option of the command line is told."""
    missing = []
    for name, command in slath.commands.items():
        assert f"slath {name}" in TOLD
        options = [parameter.opts[-1] for parameter in command.params if isinstance(parameter, click.Option)]
        assert options or name in {"schema", "completion", "proof", "explain"}
        missing += [f"{name} {option}" for option in options if f"`{option}" not in TOLD and f" {option}" not in TOLD]
    assert missing == []


def test_every_edition_and_style_is_told() -> None:
    """Every edition, and every shipped style, is named as it is typed."""
    assert [name for name in EDITIONS if f"`{name.replace(' ', '-')}`" not in TOLD] == []
    assert [name for name in style_names() if f"`{name}`" not in TOLD] == []


def test_the_example_of_a_style_uses_every_key() -> None:
    """The style that is shown is a good one and shows every key there is."""
    (example,) = [block.text for block in blocks() if block.language == "yaml" and "\npaper: [" in block.text]
    data = yaml.safe_load(example)
    from_data("example", data)
    schema = yaml.safe_load((ROOT / "compiler/slath/booklet/style.schema.json").read_text("utf-8"))
    assert set(data) == set(schema["properties"])
    for key, inner in schema["properties"].items():
        if "properties" in inner:
            assert set(data[key]) == set(inner["properties"])


@pytest.mark.parametrize("page", [*PAGES, "DEVELOPERS.md"])
def test_links_and_paths_lead_somewhere(page: str) -> None:
    """Every link to a heading or a file, and every path named in code marks, is there."""
    text = (ROOT / page).read_text("utf-8")
    headings = _headings(ROOT / page)
    links = re.findall(r"\]\(([^)\s]+)\)", text)
    assert [link for link in links if link.startswith("#") and link[1:] not in headings] == []
    beside = (ROOT / page).parent
    elsewhere = [link.partition("#") for link in links if not link.startswith(("#", "http"))]
    assert [file for file, _, _ in elsewhere if not (beside / file).exists()] == []
    assert [(file, part) for file, _, part in elsewhere if part and part not in _headings(beside / file)] == []
    named = re.findall(r"`((?:compiler|patterns|styles|tests|\.ci)/[\w./-]*)`", text)
    assert [path for path in named if not (ROOT / path).exists()] == []


def test_the_first_page_is_short() -> None:
    """A newcomer reads the first page to its end; references have pages of their own."""
    assert len(TEXTS["README.md"].splitlines()) < 250


def test_what_is_wanted_names_commands_there_are() -> None:
    """Every command in the table of wishes is one that can be typed, with options it has."""
    rows = re.findall(r"^\| [^|]+ \| `slath ([^`]+)` \|", TEXTS["README.md"], re.MULTILINE)
    assert len(rows) > 5
    for row in rows:
        name, *rest = row.split()
        known = {option for parameter in slath.commands[name].params for option in parameter.opts}
        assert [part for part in rest if part.startswith("--") and part not in known] == []


def _headings(page: Path) -> set[str]:
    return {_anchor(found) for found in re.findall(r"^#+ (.*)$", page.read_text("utf-8"), re.MULTILINE)}


def _anchor(heading: str) -> str:
    return re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-")
