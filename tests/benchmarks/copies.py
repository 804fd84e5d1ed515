"""How long a thousand copies of a booklet take, stamped and written: python tests/benchmarks/copies.py [PATTERN] [COUNT]."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]


def main() -> None:
    """Print the seconds by the clock for the whole command, and the copies' count and size."""
    pattern = sys.argv[1] if len(sys.argv) > 1 else str(ROOT / "patterns" / "weir-field.yaml")
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        buyers = folder / "buyers.csv"
        buyers.write_text("name\n" + "".join(f"Buyer {number}\n" for number in range(count)), "utf-8")
        started = time.perf_counter()
        subprocess.run([sys.executable, "-m", "slath", "copies", pattern, str(buyers), "--out", name], check=True)
        took = time.perf_counter() - started
        made = list(folder.rglob("copies/*.pdf"))
        print(f"{len(made)} copies, {sum(path.stat().st_size for path in made) / 1e6:.0f} MB: {took:.1f} s")  # noqa: T201


if __name__ == "__main__":
    main()
