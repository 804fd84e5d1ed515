"""Reading the trade's own data files, which are shipped inside the package and may be trusted."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

try:
    from yaml import CSafeLoader as _Loader
except ImportError:  # PyYAML built without libyaml: slower, otherwise the same
    from yaml import SafeLoader as _Loader  # type: ignore[assignment]

_DATA = Path(__file__).parent / "data"


def read_table(name: str) -> Any:
    """Return the content of ``trade/data/<name>.yaml``."""
    return read_yaml(_DATA / f"{name}.yaml")


def read_yaml(path: Path) -> Any:
    """Return the content of a shipped YAML file."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=_Loader)
