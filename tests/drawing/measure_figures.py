"""Time and size of every figure of the shipped patterns, and of a very large basket; prints, and judges nothing.

Run it by hand: ``python tests/drawing/measure_figures.py [pattern.yaml ...]``.
"""

from __future__ import annotations

import gzip
import resource
import sys
import time
from collections import deque
from pathlib import Path

from msgspec.structs import replace

from slath.basket.construct import construct
from slath.basket.model import Basket
from slath.drawing.figures import draw_figures
from slath.drawing.scene import every_item
from slath.language.pattern import Band, Extent
from slath.output.svg import scene_svg
from slath.pipeline import compile_pattern

SHIPPED = Path(__file__).parents[2] / "patterns"


def measure(title: str, basket: Basket) -> None:
    """Draw every figure of one basket; print what each took and how large it is."""
    figures = draw_figures(basket)
    spent = 0.0
    print(f"{title}: {len(basket.stakes)} stakes, {sum(len(band.rounds) for band in basket.bands)} rounds")  # noqa: T201
    for name in figures:
        start = time.process_time()
        scene = figures[name]
        deque(every_item(scene.items), maxlen=0)  # strands are painted when they are looked at
        took = time.process_time() - start
        spent += took
        svg = scene_svg(scene).encode()
        elements = svg.count(b"<path") + svg.count(b"<ellipse")
        print(f"  {name:32} {took:6.3f} s {elements:6} elements {len(gzip.compress(svg)) // 1000:5} kB compressed")  # noqa: T201
    print(f"  {'together':32} {spent:6.3f} s")  # noqa: T201


def main(files: list[str]) -> None:
    """Measure the patterns named, or all that are shipped and one of them with a hundred stakes and eighty rounds."""
    paths = [Path(file) for file in files] or sorted(SHIPPED.glob("*.yaml"))
    for path in paths:
        if "." in path.stem:
            continue
        for size in compile_pattern(path).sizes[-1:]:
            measure(f"{path.stem} {size.name}", size.basket)
    if not files:
        sized = compile_pattern(SHIPPED / "weir-field.yaml").sizes[-1].sized
        if sized.side and sized.stakes:
            bands = tuple(
                replace(band, extent=Extent(rounds=40)) for band in sized.side.bands if isinstance(band, Band)
            )
            stakes = replace(sized.stakes, count=100)
            side = replace(sized.side, height_mm=None, bands=bands)
            measure("a hundred stakes", construct(replace(sized, stakes=stakes, side=side, handles=())))
    print(f"most memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB")  # noqa: T201


if __name__ == "__main__":
    main(sys.argv[1:])
