"""Which stakes of a border lie over which, on a rim without beginning or end: one rule for every kind of border.

Every stake there takes the same path, so all is asked of stake 0 and of others so many stakes `ahead`. What lies on one face
of a space is a stack, and it grows by the order of work:

* What is laid later lies over what is there already.
* But what comes on to a face through a space whose next upright is down already has to be threaded at the bottom. It comes
  out beneath all that lies there, and stays beneath them while they run on together, and so beneath all that lies over them.
* An end that sets out again comes from beneath what its row has laid over it where it lay, and lies beneath that as long as the two run
  on together. Further on, where the other goes in at the bottom of a closed space or ends, it lies over it; and it lies over, and
  holds, what was carried over it to go down just beyond it.

The published finishes of borders in one row agree with it (Gill 1916, White 1901), and so does the geometry of second rows and
rolls. How the last ends of second rows and rolls lie is estimated: nobody has tried it at the bench for us.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from slath.basket.border_path import Face, Leg, is_closed, parts_of

Cell = tuple[int, Face]  # a space, counted from stake 0, and a face of it


class Over(Struct, frozen=True, order=True):
    """In `space` (from stake 0), on `face`, leg `leg` of the stake `ahead` further on lies over the leg asked about.

    `later`: on the endless rim it is laid later; what is laid earlier lies over only what is threaded beneath it.
    """

    space: int
    ahead: int
    leg: int
    face: Face
    later: bool


class Lie(Struct, frozen=True):
    """The cells a leg of stake 0 lies in, in order, and the indices of those it enters through a closed space."""

    cells: tuple[Cell, ...]
    closed: frozenset[int]

    def entry(self, index: int) -> int:
        """Where the stretch on one face that holds cell `index` begins."""
        while index and self.cells[index - 1][1] == self.cells[index][1]:
            index -= 1
        return index


def lie_of(leg: Leg) -> Lie:
    """The cells of a leg: in every space that of the face it comes on, and of the other where it changes face there."""
    cells: list[Cell] = []
    closed: set[int] = set()
    for place, part in enumerate(parts_of(leg)):
        came = leg.came if part.arrives is not None else part.left
        for face in (came, part.right):
            if face is None or (cells and cells[-1] == (part.space, face)):
                continue
            changes = bool(cells) and cells[-1][0] == part.space
            if changes and place and is_closed(leg, part.space):
                closed.add(len(cells))  # where it sets out it goes over the top, not through
            cells.append((part.space, face))
    return Lie(tuple(cells), frozenset(closed))


class EndlessRim:
    """The legs of a border as they lie on a rim without end; answers are kept, since every stake is like every other."""

    def __init__(self, legs: Sequence[Leg]) -> None:
        self.legs = tuple(legs)
        self.lies = tuple(lie_of(leg) for leg in legs)
        self.reach = max((lie.cells[-1][0] for lie in self.lies if lie.cells), default=0)
        self._drawn_under = {number for number, leg in enumerate(legs) if set(leg.past_ends) == {"under"}}
        self._known: dict[tuple[int, int, int, Cell], bool] = {}

    def lies_over(self, below: int, above: int, ahead: int, cell: Cell) -> bool:
        """Whether leg `above` of the stake `ahead` lies over leg `below` of stake 0, in a cell both lie in."""
        key = (below, above, ahead, cell)
        if key not in self._known:
            if self._is_later(below, above, ahead):
                self._known[key] = not self._is_beneath((above, ahead), (below, 0), cell)
            else:
                self._known[key] = self._is_beneath((below, 0), (above, ahead), cell)
        return self._known[key]

    def over(self, leg: int) -> tuple[tuple[Over, ...], ...]:
        """For each cell of a leg of stake 0, all that lies over it there."""
        found = []
        for cell in self.lies[leg].cells:
            here = []
            for other, lie in enumerate(self.lies):
                for space, face in lie.cells:
                    ahead = cell[0] - space
                    if face == cell[1] and ahead and self.lies_over(leg, other, ahead, cell):
                        here.append(Over(cell[0], ahead, other, cell[1], self._is_later(leg, other, ahead)))
            found.append(tuple(sorted(here)))
        return tuple(found)

    def _is_later(self, one: int, other: int, ahead: int) -> bool:
        first, second = self.legs[one], self.legs[other]
        return (second.pass_number, second.lag + ahead) > (first.pass_number, first.lag)

    def _is_beneath(self, later: tuple[int, int], earlier: tuple[int, int], cell: Cell) -> bool:
        """Whether what is laid later came on to this face beneath what is laid earlier, or beneath what lies under that."""
        leg, stake = later
        lie = self.lies[leg]
        entry = lie.entry(lie.cells.index((cell[0] - stake, cell[1])))
        came = (lie.cells[entry][0] + stake, cell[1])
        if entry == 0 and self.legs[leg].came == cell[1]:
            return self._sets_out_beneath(later, earlier, came, cell)
        if entry not in lie.closed:
            return False
        if self._runs(earlier, came, cell):
            return True
        held = [
            (other, near)
            for other in range(len(self.legs))
            for near in range(came[0] - self.reach, came[0] + 1)
            if near != stake and (other, near) != earlier and self._lies_in((other, near), came)
        ]
        return any(
            self._lies_in((other, near), cell)
            and self._is_later(other, leg, stake - near)
            and self.lies_over(other, earlier[0], earlier[1] - near, (cell[0] - near, cell[1]))
            for other, near in held
        )

    def _sets_out_beneath(self, later: tuple[int, int], earlier: tuple[int, int], came: Cell, cell: Cell) -> bool:
        """Whether an end sets out beneath what was laid over it where it lay, and the two still run on together."""
        leg, stake = later
        root = (came[0] - stake, came[1])
        ahead = earlier[1] - stake
        same_row = self.legs[leg].pass_number == self.legs[earlier[0]].pass_number
        since = same_row and self._lies_in(earlier, came) and self._is_later(leg - 1, earlier[0], ahead)
        laid_on_it = since and self.lies_over(leg - 1, earlier[0], ahead, root)
        if leg in self._drawn_under and cell != came:
            return True
        if not laid_on_it or not self._runs(earlier, came, cell):
            return False
        lie = self.lies[earlier[0]]
        here = lie.cells.index((cell[0] - earlier[1], cell[1]))
        if lie.entry(here) in lie.closed:
            return False  # that one lies at the bottom itself
        goes_on = here + 1 < len(lie.cells) and here + 1 not in lie.closed
        if cell == came:  # what is carried over an end and goes down or through beyond it is held
            return goes_on or not any(self.legs[earlier[0]].past_ends)
        return goes_on

    def _runs(self, laid: tuple[int, int], first: Cell, last: Cell) -> bool:
        """Whether a piece lies in both cells without leaving the face between them."""
        lie, stake = self.lies[laid[0]], laid[1]
        ends = [(cell[0] - stake, cell[1]) for cell in (first, last)]
        if any(end not in lie.cells for end in ends):
            return False
        one, other = (lie.entry(lie.cells.index(end)) for end in ends)
        return one == other

    def _lies_in(self, laid: tuple[int, int], cell: Cell) -> bool:
        return (cell[0] - laid[1], cell[1]) in self.lies[laid[0]].cells


@lru_cache(maxsize=64)
def endless(legs: tuple[Leg, ...]) -> EndlessRim:
    """The endless rim of these legs."""
    return EndlessRim(legs)
