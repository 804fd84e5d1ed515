"""Set everything up on a machine that has only Python 3.11+, then build a booklet or pass the tests.

python3 .ci/setup.py booklet [PATTERN]     install into .venv and build a booklet (patterns/weir-field.yaml)
python3 .ci/setup.py test [PYTEST ARGS]    install into .venv with everything the tests need, and pass them
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
import venv
from pathlib import Path

HERE = Path(__file__).resolve().parent.parent
ENVIRONMENT = HERE / ".venv"
SCRIPTS = ENVIRONMENT / ("Scripts" if os.name == "nt" else "bin")


def run(*command: str | Path) -> None:
    """Run one command in the project folder; stop with its exit code if it fails."""
    print("→", " ".join(str(part) for part in command), flush=True)
    done = subprocess.run([str(part) for part in command], cwd=HERE, check=False)
    if done.returncode:
        sys.exit(done.returncode)


def install(extra: str) -> None:
    """Create .venv if need be and install the project into it, unless it already holds what pyproject.toml asks for."""
    wanted = hashlib.sha256((HERE / "pyproject.toml").read_bytes() + extra.encode()).hexdigest()
    stamp = ENVIRONMENT / f"installed{extra}"
    if stamp.exists() and stamp.read_text(encoding="utf-8") == wanted:
        return
    if not (SCRIPTS / ("python.exe" if os.name == "nt" else "python")).exists():
        print(f"→ making {ENVIRONMENT.name}", flush=True)
        venv.create(ENVIRONMENT, with_pip=True)
    run(SCRIPTS / "python", "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--editable", f".{extra}")
    stamp.write_text(wanted, encoding="utf-8")


def booklet(pattern: str = "patterns/weir-field.yaml") -> None:
    """Build every edition of a pattern under build/."""
    install("")
    run(SCRIPTS / "slath", "build", pattern)


def test(*arguments: str) -> None:
    """Lint, types and tests, in that order; each must be clean."""
    install("[test]")
    if not arguments:
        run(SCRIPTS / "ruff", "check", ".")
        run(SCRIPTS / "mypy")
    run(SCRIPTS / "python", "-m", "pytest", "-n", "auto", "--durations", "20", *arguments)


def main() -> None:
    """Choose between the two jobs."""
    if sys.version_info < (3, 11):  # noqa: UP036 - run by whatever Python a newcomer has
        sys.exit("slath needs Python 3.11 or later; this is " + sys.version.split(maxsplit=1)[0])
    match sys.argv[1:]:
        case ["booklet", *pattern]:
            booklet(*pattern)
        case ["test", *arguments]:
            test(*arguments)
        case _:
            sys.exit(__doc__)


if __name__ == "__main__":
    main()
