"""The commands that print what they work out: list, counts, proof, schema, completion, help."""

from __future__ import annotations

import csv
import io
import json
import subprocess
from pathlib import Path

import pytest
from jsonschema.validators import Draft202012Validator
from tests.cli.running import COMMAND, PATTERNS, environment, faulty, slath, start

from slath import __version__
from slath.cli import commands
from slath.cli.asking import OCCASIONS

COMMANDS = tuple(commands.slath.commands)


def test_list_as_a_table(tmp_path: Path) -> None:
    """The table has every size with its cut list and what to buy, on the output; warnings go to the error stream."""
    done = slath("list", start(tmp_path, sizes=("small", "large")).name, cwd=tmp_path)
    assert done.returncode == 0
    assert "small" in done.stdout
    assert done.stdout.count("\nCut\n") == done.stdout.count("\nBuy\n") == 2
    assert "Warning" not in done.stdout
    assert "Warning size-not-woven" in done.stderr


def test_units_come_first_as_asked(tmp_path: Path) -> None:
    """`--units mm` prints millimetres before inches, and inches stand first otherwise."""
    file = start(tmp_path)
    inches, millimetres = (
        slath("list", file, cwd=tmp_path).stdout,
        slath("list", file, "--units", "mm", cwd=tmp_path).stdout,
    )
    assert "8 1/2 in (216 mm)" in inches
    assert "216 mm (8 1/2 in)" in millimetres


def test_list_as_json_keeps_to_its_schema(tmp_path: Path) -> None:
    """The JSON of every shipped pattern is valid against the schema that `slath schema list` prints."""
    validator = Draft202012Validator(json.loads(slath("schema", "list", cwd=tmp_path).stdout))
    done = slath("list", PATTERNS / "wren-pot.yaml", "--format", "json", cwd=tmp_path)
    assert done.returncode == 0
    listed = json.loads(done.stdout)
    validator.validate(listed)
    assert [size["size"] for size in listed["sizes"]] == ["wren", "robin", "blackbird"]


def test_list_as_csv(tmp_path: Path) -> None:
    """The CSV has one header and as many fields in every row."""
    done = slath("list", PATTERNS / "wren-pot.yaml", "--format", "csv", cwd=tmp_path)
    rows = list(csv.reader(io.StringIO(done.stdout)))
    assert len(rows) > 20
    assert {len(row) for row in rows} == {len(rows[0])}


@pytest.mark.parametrize("command", ["list", "proof", "draw", "build"])
def test_a_fault_stops_what_needs_numbers(command: str, tmp_path: Path) -> None:
    """With a fault in the file there is nothing on the output, the fault on the error stream, and exit code 1."""
    done = slath(command, faulty(tmp_path).name, cwd=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert "Error unknown-name" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["faulty.yaml"]


def test_counts_can_be_asked_of_a_faulty_count(tmp_path: Path) -> None:
    """Where a band does not hold on the pattern's count, counts still tells which would do: randing wants an odd one."""
    file = start(tmp_path)
    file.write_text(
        file.read_text("utf-8").replace(
            "weave: chasing, strands: weaver, to: top", "weave: randing, strands: weaver, to: top"
        )
    )
    assert slath("check", file.name, cwd=tmp_path).returncode == 1
    done = slath("counts", file.name, "--from", "37", "--to", "41", cwd=tmp_path)
    assert done.returncode == 0
    assert "39" in done.stdout
    backwards = slath("counts", file.name, "--from", "41", "--to", "37", cwd=tmp_path)
    assert backwards.returncode == 2
    assert "from 41 down to 37" in backwards.stderr


def test_proof_tells_formula_and_basis(tmp_path: Path) -> None:
    """The proof names the formula of a cut length, its inputs, and what they rest on."""
    done = slath("proof", start(tmp_path).name, cwd=tmp_path)
    assert done.returncode == 0
    for word in ("stakes", "border", "estimated", "common practice"):
        assert word in done.stdout


@pytest.mark.parametrize("name", ["pattern", "workshop", "list", "style"])
def test_schemas_are_schemas(name: str, tmp_path: Path) -> None:
    """Every schema printed is a valid JSON Schema 2020-12."""
    schema = json.loads(slath("schema", name, cwd=tmp_path).stdout)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)


def test_completion_completes(tmp_path: Path) -> None:
    """The bash script it prints is valid bash, and the words it asks for are the commands, editions and styles."""
    script = slath("completion", "bash", cwd=tmp_path)
    assert script.returncode == 0
    subprocess.run(["bash", "-n"], input=script.stdout, text=True, check=True)
    for line, wanted in (
        ("slath chec", ["check"]),
        ("slath build --edition la", ["large-print"]),
        ("slath build --style wa", ["wall-card"]),
    ):
        asked = {"_SLATH_COMPLETE": "bash_complete", "COMP_WORDS": line, "COMP_CWORD": str(len(line.split()) - 1)}
        done = slath(cwd=tmp_path, **asked)
        assert [entry.partition(",")[2] for entry in done.stdout.splitlines()] == wanted


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_completion_of_other_shells(shell: str, tmp_path: Path) -> None:
    """The other shells' scripts name the command and the variable that asks for completion."""
    done = slath("completion", shell, cwd=tmp_path)
    assert done.returncode == 0
    assert "_SLATH_COMPLETE" in done.stdout


def test_help_teaches(tmp_path: Path) -> None:
    """Help names every command with a line that is not cut off, the first steps and the exit codes."""
    done = slath("--help", cwd=tmp_path)
    assert done.returncode == 0
    assert "First steps" in done.stdout
    assert "Exit codes" in done.stdout
    assert "..." not in done.stdout.split("Writing a pattern:")[1]
    lines = done.stdout.split("Writing a pattern:")[1].split("\n")
    assert [line.split()[0] for line in lines if line.startswith("  ")] == [n for of in OCCASIONS.values() for n in of]


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help(command: str, tmp_path: Path) -> None:
    """Every option of every command says what it does."""
    done = slath(command, "-h", cwd=tmp_path)
    assert done.returncode == 0
    options = done.stdout.split("Options:\n")[1].splitlines()
    assert sum(line.startswith("  -") for line in options) >= 1
    for place, line in enumerate(options):
        following = options[place + 1] if place + 1 < len(options) else ""
        assert not line.startswith("  -") or "  " in line.strip() or following.startswith(" " * 10), line


def test_version(tmp_path: Path) -> None:
    """The version is that of the package."""
    assert slath("--version", cwd=tmp_path).stdout == f"slath, version {__version__}\n"


def test_output_in_a_pipe_is_utf8(tmp_path: Path) -> None:
    """Even where the locale knows only ASCII, what goes into a pipe is UTF-8."""
    done = slath("check", faulty(tmp_path).name, cwd=tmp_path, LC_ALL="C", PYTHONUTF8="0", PYTHONIOENCODING="ascii")
    assert done.returncode == 1
    assert "│" in done.stdout


def test_a_reader_that_leaves_is_no_fault(tmp_path: Path) -> None:
    """`slath list … | head` ends without complaint."""
    file = start(tmp_path, sizes=tuple("abcdefgh"))
    line = f'set -o pipefail; "{COMMAND}" list {file.name} 2> errors.txt | head -1'
    subprocess.run(["bash", "-c", line], cwd=tmp_path, env=environment(), check=False, stdout=subprocess.DEVNULL)
    errors = (tmp_path / "errors.txt").read_text("utf-8")
    assert "Traceback" not in errors
    assert "BrokenPipe" not in errors


def test_every_command_has_its_occasion() -> None:
    """Help tells each command once, under what a designer is doing; none is left out."""
    told = [name for names in OCCASIONS.values() for name in names]
    assert sorted(told) == sorted(commands.slath.commands)
