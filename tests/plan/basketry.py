"""What a student has made: strokes on uprights, borders as stacks in every space, the feet of handles."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

from slath.plan.places import Side, Upright

Made = tuple[int, int, int]  # what one unit of a border laid: its number, the row, the turn
Cell = tuple[int, Side]  # the space after a unit of a border, and a side


@dataclass(slots=True)
class Basketry:
    """What lies where when all is done; the oracle works out the same from the model."""

    woven: dict[Upright, list[tuple[str, str]]] = field(default_factory=lambda: defaultdict(list))
    borders: list[Rim] = field(default_factory=list)
    by_step: dict[str, dict[Upright, list[tuple[str, str]]]] = field(default_factory=dict)
    feet: dict[int, list[Upright]] = field(default_factory=lambda: defaultdict(list))


@dataclass(slots=True)
class Rim:
    """A border: what lies in every space on either side, lowest first, and where each end came to lie."""

    count: int
    cells: dict[Cell, list[Made]] = field(default_factory=lambda: defaultdict(list))
    ends: dict[int, tuple[int, Side, str]] = field(default_factory=dict)

    def crossings(self) -> dict[Made, tuple[tuple[Cell, tuple[Made, ...], tuple[Made, ...]], ...]]:
        """For every turn of every end, cell by cell: what of the others lies beneath it and what over it."""
        found: dict[Made, list[tuple[Cell, tuple[Made, ...], tuple[Made, ...]]]] = defaultdict(list)
        for where, stack in self.cells.items():
            for place, made in enumerate(stack):
                under, over = (
                    tuple(sorted(one for one in part if one[0] != made[0]))
                    for part in (stack[:place], stack[place + 1 :])
                )
                found[made].append((where, under, over))
        return {made: tuple(sorted(cells)) for made, cells in found.items()}
