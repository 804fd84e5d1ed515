"""Reading the trade's own data files, which are shipped inside the package and may be trusted."""

from __future__ import annotations

from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType
from typing import Any, cast

_DATA = Path(__file__).parent / "data"


def read_table(name: str) -> Any:
    """Return the content of ``trade/data/<name>.yaml``."""
    return read_yaml(_DATA / f"{name}.yaml")


def read_yaml(path: Path) -> Any:
    """Return the content of a shipped YAML file."""
    code = _Compiled(path.stem, str(path)).get_code(path.stem)
    return eval(cast("CodeType", code))  # noqa: S307 - a literal, compiled below


class _Compiled(SourceFileLoader):
    """Has Python keep what a file says as it keeps a compiled module: in ``__pycache__``, for as long as the file stays the
    same. Read as YAML at every start, the trade's data took a twentieth of a check and its sentences more of a booklet.
    """

    def source_to_code(self, data: Any, path: Any, **_: Any) -> CodeType:  # type: ignore[override]
        """Text as code that gives its content. ValueError for what is no text, number, list or mapping."""
        import ast  # noqa: PLC0415 - needed once for each installation

        import yaml  # noqa: PLC0415 - as above

        loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # libyaml is not everywhere: slower, otherwise the same
        literal = repr(yaml.load(data, Loader=loader))  # noqa: S506 - a safe one
        ast.literal_eval(literal)
        code: CodeType = compile(literal, path, "eval")
        return code
