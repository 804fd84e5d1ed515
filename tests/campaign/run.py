"""A campaign for as long as one likes.

    python -m tests.campaign.run --minutes 60 [--seed N] [--builds SHARE] [--kind KIND …]

Prints the figures it reached and everything it found, each with the shortest input, and leaves those in the folder
`--keep`; copy what has been mended into tests/campaign/finds, where the ordinary tests try it for ever.
"""

from __future__ import annotations

import argparse
import hashlib
import sys
import tempfile
import time
from pathlib import Path

from tests.campaign.trying import Campaign, most_memory


def main() -> int:
    """Run, print, and leave with 1 if anything was found."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--minutes", type=float, default=1.0)
    parser.add_argument("--attempts", type=int, default=10**9)
    parser.add_argument("--seed", type=int, default=None)
    parser.add_argument("--builds", type=float, default=0.02, help="share of the attempts that are built as well")
    parser.add_argument("--kind", action="append", default=[])
    parser.add_argument("--keep", type=Path, default=Path("build/finds"))
    asked = parser.parse_args()
    seed = asked.seed if asked.seed is not None else time.time_ns() % 10**9
    until = time.monotonic() + 60 * asked.minutes
    with tempfile.TemporaryDirectory() as folder:
        campaign = Campaign(seed, Path(folder), asked.builds, tuple(asked.kind))
        try:
            tally = campaign.run(lambda number: number >= asked.attempts or time.monotonic() > until)
        except KeyboardInterrupt:
            tally = campaign.tally
    sys.stdout.write(f"seed {seed}\n{tally.told()}\nmost memory {most_memory():.0f} MB\n")
    for _, content in tally.finds.values():
        asked.keep.mkdir(parents=True, exist_ok=True)
        (asked.keep / f"{hashlib.sha256(content).hexdigest()[:12]}.txt").write_bytes(content)
    return 1 if tally.finds else 0


if __name__ == "__main__":
    sys.exit(main())
