"""Counts near the basket's own: what each does to the colours, drawn small, and the whole basket on one of them."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from slath.basket.construct import construct
from slath.basket.count_search import try_counts
from slath.basket.model import Basket, CannotConstruct
from slath.bench.followed import Followed, GoneError
from slath.drawing.figures import draw
from slath.drawing.options import Options
from slath.output.counts_text import colours_text
from slath.output.svg import scene_svg
from slath.pipeline import CompiledSize
from slath.quantities import quantities_of

REACH = 4  # counts shown on either side of the basket's own
FEWEST, MOST = 3, 500
SHOWN = ("side", "view")


def counts_near(size: CompiledSize) -> list[dict[str, Any]]:
    """The counts near a size's own: whether each can be woven, its colours, what speaks against it, what one would change."""
    own = len(size.basket.stakes)
    if not own:
        return []
    return [
        {
            "stakes": tried.stakes,
            "own": tried.stakes == own,
            "suits": tried.suits,
            "drawn": tried.suits and (tried.stakes == own or size.sized.stakes is not None),
            "colours": colours_text(tried.colours),
            "against": [f"{found.part}: {found.reason}" for found in tried.objections],
            "changes": list(tried.changes),
        }
        for tried in try_counts(size.basket, max(FEWEST, own - REACH), min(MOST, own + REACH))
    ]


def figure_on(followed: Followed, size: str, stakes: int, name: str, options: Options) -> bytes:
    """The side or the whole basket of a size as it would be on another count. GoneError where it cannot be woven so."""
    if name not in SHOWN or not FEWEST <= stakes <= MOST:
        raise GoneError("only the side and the view are drawn on another count")
    compiled = followed.compiled(size)

    def made() -> bytes:
        basket = on_count(compiled, stakes)
        try:
            scene = draw(name, basket, quantities_of(basket), options)
        except KeyError as problem:
            raise GoneError(str(problem)) from problem
        return scene_svg(scene).encode()

    return followed.once(("what-if", size, stakes, name, options.mirrored), made)


def on_count(size: CompiledSize, stakes: int) -> Basket:
    """The basket of a size with so many stakes, evenly set. GoneError where it cannot be constructed."""
    if stakes == len(size.basket.stakes):
        return size.basket
    spec = size.sized.stakes
    if spec is None:
        raise GoneError("its sticks turn up, so that their number is that of the stakes")
    even = replace(spec, count=stakes, exceptions={}, add=0, add_at=(), leave_out=0, leave_out_at=())
    try:
        return construct(replace(size.sized, stakes=even))
    except CannotConstruct as problem:
        raise GoneError(f"{problem.part}: {problem.reason}") from problem
