"""The trade's data files are read once for each installation, and again when they change."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.util import cache_from_source
from pathlib import Path

import pytest
import yaml

from slath.trade import tables
from slath.trade.tables import read_yaml

PACKAGE = Path(tables.__file__).parents[1]
SHIPPED = sorted([*(PACKAGE / "trade" / "data").glob("*.yaml"), *(PACKAGE / "messages" / "data").rglob("*.yaml")])


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_a_file_says_what_its_yaml_says(path: Path) -> None:
    """Compiled or not, as PyYAML's own reader in Python has it."""
    assert read_yaml(path) == read_yaml(path) == yaml.safe_load(path.read_text("utf-8"))


def test_a_changed_file_is_read_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What Python kept of it is used for as long as it stays the same, and a spoilt copy is not."""
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    path = tmp_path / "weavers.yaml"
    path.write_text("round: {weight: 1.5}\nnames: [reed, cane]\n", "utf-8")
    os.utime(path, (1_000_000_000, 1_000_000_000))
    assert read_yaml(path) == {"round": {"weight": 1.5}, "names": ["reed", "cane"]}
    kept = Path(cache_from_source(str(path)))
    assert kept.is_file()
    monkeypatch.setattr("yaml.load", None)
    assert read_yaml(path) == {"round": {"weight": 1.5}, "names": ["reed", "cane"]}
    monkeypatch.undo()
    path.write_text("round: {weight: 2}\n", "utf-8")
    assert read_yaml(path) == {"round": {"weight": 2}}
    kept.write_bytes(b"spoilt")
    assert read_yaml(path) == {"round": {"weight": 2}}


def test_what_is_no_plain_data_is_refused(tmp_path: Path) -> None:
    """A date has no way back from its spelling, so it would be a fault at some later start."""
    path = tmp_path / "dates.yaml"
    path.write_text("cut: 2026-03-01\n", "utf-8")
    with pytest.raises(ValueError, match="malformed"):
        read_yaml(path)


def test_a_second_start_reads_no_yaml_of_the_trade(tmp_path: Path) -> None:
    """The settings come from what the first start kept."""
    program = (
        "import sys\nfrom slath.trade.settings import default_settings\n"
        "assert default_settings()\nprint('yaml' in sys.modules)"
    )
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(tmp_path)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    said = [
        subprocess.run([sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True)
        for _ in range(2)
    ]
    assert [each.stdout.strip() for each in said] == ["True", "False"]
