"""A border laid stake by stake in plain stacks, read straight off its moves: who lies over whom, in every space.

Written without the package's own path of a border: it knows words, spaces between posts, and hands that lay a stake on top
of what is there, unless it must be threaded at the bottom of a space that is closed already.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from itertools import pairwise

Piece = tuple[int, int]  # stake, leg of its path
Item = tuple[int, int, int]  # stake, leg, run: what lies on one face without leaving it
Cell = tuple[int, str]  # space, face


@dataclass(frozen=True)
class WordLeg:
    """One movement of stake 0: its turn in the order of work, the space it sets out from, faces at posts, where it ends."""

    order: tuple[int, float]
    begins: int
    came: str | None
    faces: tuple[str, ...]
    end: str | None  # the face its end lies on; None if it goes down


def legs_from_words(passes: tuple[str, ...], laid: int = 0) -> list[WordLeg]:
    """``("behind 2, out", "before 3, in")`` as movements; of a plain border the first run is laid, the rest moves on."""
    legs: list[WordLeg] = []
    space, came = 0, None
    for number, words in enumerate(passes):
        faces: list[str] = []
        end: str | None = ""
        for move in words.split(", "):
            way, _, count = move.partition(" ")
            if count:
                faces += [way] * int(count)
            else:
                end = {"out": "before", "in": "behind", "down": None}[way]
        last = faces[-1] if end == "" else end
        if laid and not number:
            run = next(place for place, face in enumerate(faces) if face != faces[0])
            legs.append(WordLeg((0, 0.0), 0, None, tuple(faces[:run]), faces[run]))
            legs.append(WordLeg((0, laid - 0.5), run, faces[run], tuple(faces[run:]), last))
        else:
            legs.append(WordLeg((number, 0.0), space, came, tuple(faces), last))
        space += len(faces)
        came = last
    return legs


@dataclass
class Rim:
    """A long rim worked from end to end, or a ring of `count`. `stacks` hold what lies in each cell, lowest first; `unsure`
    what dives there.
    """

    count: int = 0
    stacks: dict[Cell, list[Item]] = field(default_factory=lambda: defaultdict(list))
    unsure: set[tuple[Cell, Item]] = field(default_factory=set)

    def cell(self, space: int, face: str) -> Cell:
        """The cell of a space counted on past the last stake."""
        return (space % self.count if self.count else space), face

    def order(self, cell: Cell, one: Piece, other: Piece) -> bool | None:
        """Whether the first lies over the second in a cell; None if the hands cannot tell."""
        stack = self.stacks[cell]
        places = [[at for at, item in enumerate(stack) if item[:2] == piece] for piece in (one, other)]
        if any(len(found) != 1 for found in places):
            return None
        (first,), (second,) = places
        if {(cell, stack[first]), (cell, stack[second])} & self.unsure:
            return None
        return first > second

    def alike(self) -> list[tuple[str, tuple[tuple[int, int, int], ...]]]:
        """The different stacks of a ring, each stake told by how far its own place is from the space; `unsure` left out."""
        found = {
            (
                face,
                tuple(
                    ((space - item[0]) % self.count, *item[1:])
                    for item in stack
                    if ((space, face), item) not in self.unsure
                ),
            )
            for (space, face), stack in self.stacks.items()
        }
        return sorted(found)


def worked_by_hand(
    legs: list[WordLeg], stakes: int, *, ring: bool = False, told: dict[Piece, set[tuple[int, Piece]]] | None = None
) -> Rim:
    """Work so many stakes in the order of work, all of a pass before the next.

    `told` says what a leg must go under: the space, counted from the stake's own, and the piece that lies over it there.
    """
    rim = Rim(stakes if ring else 0)
    turns = sorted(
        ((leg.order[0], stake + leg.order[1]), stake, number)
        for stake in range(stakes)
        for number, leg in enumerate(legs)
    )
    for _, stake, number in turns:
        _lay(rim, legs[number], (stake, number), (told or {}).get((stake, number), set()))
    return rim


def _lay(rim: Rim, leg: WordLeg, piece: Piece, told: set[tuple[int, Piece]]) -> None:
    stake, number = piece
    faces: list[str | None] = [leg.came, *leg.faces, leg.end]
    above: set[Item] = set()
    run = 0
    for place, (left, right) in enumerate(pairwise(faces)):
        space = stake + leg.begins + place
        over = {other for at, other in told if at == leg.begins + place}
        closed = leg.order[0] > 0 or leg.begins + place + 1 < leg.order[1]
        if place == 0:
            if left is not None and left == right:  # goes on from where its end lies, beneath what came to lie on that
                stack = rim.stacks[rim.cell(space, left)]
                root = next(at for at, item in enumerate(stack) if item[:2] == (stake, number - 1))
                above = set(stack[root + 1 :])
            elif right is not None:
                above = _put(rim, rim.cell(space, right), (*piece, run), set(), over)
            continue
        if left is not None:
            above = _put(rim, rim.cell(space, left), (*piece, run), above, over)
        if left == right:
            continue
        if left is not None and closed:  # dives to the bottom: how it meets others there is a matter of heights
            rim.unsure.add((rim.cell(space, left), (*piece, run)))
        run += 1
        if right is not None:
            arrived = set(rim.stacks[rim.cell(space, right)])
            above = _put(rim, rim.cell(space, right), (*piece, run), arrived if closed else set(), over)
        elif left is not None:
            other = rim.cell(space, "before" if left == "behind" else "behind")
            _put(rim, other, (*piece, run), set(), over)
            rim.unsure.add((other, (*piece, run)))


def _put(rim: Rim, cell: Cell, item: Item, beneath: set[Item], over: set[Piece]) -> set[Item]:
    """Lay on top, or just beneath the lowest of those it goes under that lie here; returns all that is above it now.

    What dives here is no hindrance: it goes down beneath whatever runs on.
    """
    stack = rim.stacks[cell]
    running = {other for other in beneath if (cell, other) not in rim.unsure}
    places = [at for at, other in enumerate(stack) if other in running or other[:2] in over]
    at = min(places, default=len(stack))
    stack.insert(at, item)
    return set(stack[at + 1 :])
