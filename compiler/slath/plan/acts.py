"""What hands do, one record an act: no words, and no lengths on paper. Every act names things and places."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Literal

from slath.basket.border_path import Ending, EndWay
from slath.language.pattern import Stroke
from slath.plan.places import Gap, Loop, Numbering, Place, Side, Strand, Upright

Tied = Literal["stakes", "legs of the handle"]
Damped = Literal["sticks", "stakes", "handle", "foot ends"]


# ------------------------------------------------------------------------------------------------ setting and counting
@dataclass(frozen=True, slots=True)
class Take:
    """Pieces of the cut list are taken up: `part` as the list names them."""

    part: str
    material: str
    count: int


@dataclass(frozen=True, slots=True)
class SetIn:
    """Uprights are set, and counted so from now on."""

    numbering: Numbering


@dataclass(frozen=True, slots=True)
class Recount:
    """The same uprights, or others, are counted otherwise from now on.

    `added` stand to the right of the places in `beside`, one for one; `gone` were cut away or are finished.
    """

    to: Numbering
    why: Literal["group", "part", "add", "drop", "cross", "regroup", "beside", "finished", "turned over"]
    beside: tuple[Place, ...] = ()
    added: tuple[Upright, ...] = ()
    gone: tuple[Place, ...] = ()


@dataclass(frozen=True, slots=True)
class Count:
    """So many are counted."""

    numbering: Numbering
    number: int


@dataclass(frozen=True, slots=True)
class Damp:
    """Wetted until it bends."""

    what: Damped


@dataclass(frozen=True, slots=True)
class Dry:
    """Left until it is dry."""

    what: Damped


@dataclass(frozen=True, slots=True)
class BendUp:
    """Stakes bent upright at the edge of the base."""

    numbering: Numbering


@dataclass(frozen=True, slots=True)
class Tie:
    """Tied with string."""

    what: Tied


@dataclass(frozen=True, slots=True)
class Untie:
    """The string taken off again."""

    what: Tied


# ------------------------------------------------------------------------------------------------------------- weaving
@dataclass(frozen=True, slots=True)
class LayIn:
    """A strand begun: its end lies on `side` in a space. `follows` is the one it goes on for, where that one ended."""

    strand: Strand
    at: Gap
    side: Side
    follows: Strand | None = None


@dataclass(frozen=True, slots=True)
class Bring:
    """A strand at work carried on, on its side, to the space where it is due: where uprights are opened or others begin."""

    strand: Strand
    at: Gap
    side: Side


@dataclass(frozen=True, slots=True)
class Weave:
    """Rods of strands, each over and over the `strokes`, each as far as `travels` says, in uprights.

    `in turn`: always the one furthest back, one stroke at a time. `following`: the first goes ahead, the next follows it.
    `sides`: where before and behind are. `phases`: how many uprights of its strokes each rod has passed already. `extra`: after every whole round so many more
    are passed on the face the rod is on. `under`: each stroke is laid under the others, not over them.
    """

    rods: tuple[tuple[Strand, ...], ...]
    strokes: tuple[Stroke, ...]
    travels: tuple[int, ...]
    phases: tuple[int, ...]
    order: Literal["in turn", "following"]
    on: Numbering
    extra: int = 0
    under: bool = False
    sides: tuple[Side, Side] = ("outside", "inside")
    instead: tuple[Instead, ...] = ()


@dataclass(frozen=True, slots=True)
class Instead:
    """In these rounds, from one place to another, a stroke of its own."""

    rounds: tuple[int, int]
    first: Place
    last: Place
    strokes: tuple[Stroke, ...]


@dataclass(frozen=True, slots=True)
class WeaveBack:
    """One stroke with each rod of a set, each beginning in the space to the left of the one before, `rounds` times."""

    rods: tuple[Strand, ...]
    strokes: tuple[Stroke, ...]
    rounds: int
    on: Numbering
    sides: tuple[Side, Side] = ("outside", "inside")


@dataclass(frozen=True, slots=True)
class WeaveRow:
    """A row that turns: past every upright from `first` to `last`, by turns on one face and the other.

    It begins beyond `first` on the face `begins`, and is turned round the last one where another row comes after it.
    """

    strand: Strand
    first: Place
    last: Place
    begins: Side
    to_left: bool


@dataclass(frozen=True, slots=True)
class EndStrand:
    """A strand ended, its end on `side` in the space it stands in."""

    strand: Strand
    at: Gap
    side: Side


# -------------------------------------------------------------------------------------------------------------- border
@dataclass(frozen=True, slots=True)
class Step:
    """One face of one space on the way of an end, over all that lies there but what it goes under.

    `beneath` is what every one goes under there; `threaded` what lies there only because work has come round the ring.
    `across`: those of `beneath` that run on past the space.
    """

    gap: Gap
    side: Side
    beneath: tuple[Loop, ...] = ()
    threaded: tuple[Loop, ...] = ()
    across: tuple[Loop, ...] = ()


@dataclass(frozen=True, slots=True)
class Pass:
    """What an end goes past: an upright on a side, or another end over or under which it is carried inside."""

    of: Place
    side: Side
    end: EndWay | None = None


@dataclass(frozen=True, slots=True)
class Bend:
    """One unit in one turn of a border, from where it stands to where its end comes to lie."""

    loop: Loop
    steps: tuple[Step, ...]
    passes: tuple[Pass, ...]
    ending: Ending
    over_top: bool = False  # first over the top of the border to the other side
    brings_down: Place | None = None  # the upright turned down beside it next
    comes_out: bool = False  # what goes down comes out through the side again

    @property
    def threaded(self) -> tuple[Loop, ...]:
        """What it goes under because work has come round: kept slack when it was made. In the order of the numbers."""
        found = {loop for step in self.steps for loop in step.threaded}
        return tuple(sorted(found, key=lambda loop: (loop.row, loop.turn, loop.of.number)))

    @property
    def entries(self) -> dict[int, tuple[Loop, ...]]:
        """Where it comes on to the other side, by how much of `passes` is done, and what lies across there, over it."""
        found: dict[int, tuple[Loop, ...]] = {}
        done = 0
        for before, step in pairwise(self.steps):
            if step.gap != before.gap:
                done += 1
            elif step.across:
                found[done] = tuple(sorted(step.across, key=lambda loop: (loop.row, loop.of.number)))
        return found

    @property
    def runs(self) -> tuple[tuple[int, tuple[Pass, ...]], ...]:
        """What it passes in one go on one side, each with how much was passed before."""
        found: list[tuple[int, tuple[Pass, ...]]] = []
        done = 0
        for _, run in groupby(self.passes, key=lambda passed: (passed.side, passed.end)):
            together = tuple(run)
            found.append((done, together))
            done += len(together)
        return tuple(found)


@dataclass(frozen=True, slots=True)
class KeepSlack:
    """These are left slack as they are made: the last ones go under them."""

    loops: tuple[Loop, ...]


@dataclass(frozen=True, slots=True)
class InTurn:
    """Bends one after another, `each` at a time, every turn like the one before and one place further on."""

    bends: tuple[Bend, ...]
    each: int = 1


@dataclass(frozen=True, slots=True)
class DrawTight:
    """What was kept slack is drawn tight, in the order it was made."""

    loops: tuple[Loop, ...]


@dataclass(frozen=True, slots=True)
class LaySpares:
    """Spare lengths that begin a plait: beside which unit (or inside, behind the one after the sets), how many."""

    beside: tuple[tuple[Place, int], ...]


@dataclass(frozen=True, slots=True)
class DrawOut:
    """The spare lengths are drawn out again, and the last ends take their places."""


# -------------------------------------------------------------------------------------------------- what is set on top
@dataclass(frozen=True, slots=True)
class TurnOver:
    """The work is turned over."""

    foot_up: bool


@dataclass(frozen=True, slots=True)
class SetFoot:
    """A foot of a handle, a lug or a loop of one goes down (or is fastened) beside this place."""

    handle: int
    at: Place


Act = (
    Take | SetIn | Recount | Count | Damp | Dry | BendUp | Tie | Untie | LayIn | Bring | Weave | WeaveBack | WeaveRow | EndStrand
    | KeepSlack | Bend | InTurn | DrawTight | LaySpares | DrawOut | TurnOver | SetFoot
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """The acts of one step, by the key its words have."""

    key: str
    acts: tuple[Act, ...]


@dataclass(frozen=True, slots=True)
class PlannedStage:
    """One stage of the work; `key` as the words have it."""

    key: str
    steps: tuple[PlannedStep, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """All that is done to one basket, in order."""

    stages: tuple[PlannedStage, ...]

    @property
    def acts(self) -> tuple[Act, ...]:
        """Every act in order."""
        return tuple(act for stage in self.stages for step in stage.steps for act in step.acts)
