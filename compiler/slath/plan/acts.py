"""What hands do, one record an act: no words, and no lengths on paper. Every act names things and places."""

from __future__ import annotations

from itertools import groupby, pairwise
from typing import Literal

from msgspec import Struct

from slath.basket.border_path import Ending, EndWay
from slath.language.pattern import Stroke
from slath.plan.places import Gap, Loop, Numbering, Place, Side, Strand, Upright

Tied = Literal["stakes", "legs of the handle"]
Damped = Literal["sticks", "stakes", "handle", "foot ends"]


# ------------------------------------------------------------------------------------------------ setting and counting
class Take(Struct, frozen=True):
    """Pieces of the cut list are taken up: `part` as the list names them."""

    part: str
    material: str
    count: int


class SetIn(Struct, frozen=True):
    """Uprights are set, and counted so from now on."""

    numbering: Numbering


class Recount(Struct, frozen=True):
    """The same uprights, or others, are counted otherwise from now on.

    `added` stand to the right of the places in `beside`, one for one; `gone` were cut away or are finished.
    """

    to: Numbering
    why: Literal["group", "part", "add", "drop", "cross", "regroup", "beside", "finished", "turned over"]
    beside: tuple[Place, ...] = ()
    added: tuple[Upright, ...] = ()
    gone: tuple[Place, ...] = ()


class Count(Struct, frozen=True):
    """So many are counted."""

    numbering: Numbering
    number: int


class Damp(Struct, frozen=True):
    """Wetted until it bends."""

    what: Damped


class Dry(Struct, frozen=True):
    """Left until it is dry."""

    what: Damped


class BendUp(Struct, frozen=True):
    """Stakes bent upright at the edge of the base."""

    numbering: Numbering


class Tie(Struct, frozen=True):
    """Tied with string."""

    what: Tied


class Untie(Struct, frozen=True):
    """The string taken off again."""

    what: Tied


class Mark(Struct, frozen=True):
    """A thread is tied at a place, from which all is counted; it was tied elsewhere before, if it was."""

    at: Place


# ------------------------------------------------------------------------------------------------------------- weaving
class LayIn(Struct, frozen=True):
    """A strand begun: its end lies on `side` in a space. `follows` is the one it goes on for, where that one ended.

    `begun`: by an end of its own; as one half of a strand folded round the upright between the two; or by its tip in the
    split of the slath.
    """

    strand: Strand
    at: Gap
    side: Side
    follows: Strand | None = None
    begun: Literal["by an end", "folded", "in the split"] = "by an end"


class Bring(Struct, frozen=True):
    """A strand at work carried on, on its side, to the space where it is due: where uprights are opened or others begin."""

    strand: Strand
    at: Gap
    side: Side


class Weave(Struct, frozen=True):
    """Rods of strands, each over and over the `strokes`, each as far as `travels` says, in uprights.

    `in turn`: always the one furthest back, one stroke at a time. `following`: the first goes ahead, the next follows it.
    `sides`: where before and behind are. `phases`: how many uprights of its strokes each rod has passed already. `extra`: after every whole round so many more
    are passed on the face the rod is on. `under`: each stroke is laid under the others, not over them.
    `till`: the space in which the one furthest back hangs then.
    """

    rods: tuple[tuple[Strand, ...], ...]
    strokes: tuple[Stroke, ...]
    travels: tuple[int, ...]
    phases: tuple[int, ...]
    order: Literal["in turn", "following"]
    on: Numbering
    till: Gap
    extra: int = 0
    under: bool = False
    sides: tuple[Side, Side] = ("outside", "inside")
    instead: tuple[Instead, ...] = ()


class Instead(Struct, frozen=True):
    """In these rounds, from one place to another, a stroke of its own."""

    rounds: tuple[int, int]
    first: Place
    last: Place
    strokes: tuple[Stroke, ...]


class StepUp(Struct, frozen=True):
    """One whole stroke with each rod, the one furthest ahead first, which hangs `at` a space, and the one furthest back last."""

    rods: tuple[tuple[Strand, ...], ...]  # in the order in which they are moved
    at: Gap
    strokes: tuple[Stroke, ...]
    on: Numbering
    under: bool = False
    sides: tuple[Side, Side] = ("outside", "inside")


class WeaveBack(Struct, frozen=True):
    """One stroke with each rod of a set, each beginning in the space to the left of the one before, `rounds` times.

    `one_by_one`: each is woven out its whole way before the next, one space to its right, is begun.
    """

    rods: tuple[Strand, ...]
    strokes: tuple[Stroke, ...]
    rounds: int
    on: Numbering
    sides: tuple[Side, Side] = ("outside", "inside")
    one_by_one: bool = False


class WeaveRow(Struct, frozen=True):
    """A row that turns: past every upright from `first` to `last`, by turns on one face and the other.

    It begins beyond `first` on the face `begins`, and is turned round the last one where another row comes after it.
    """

    strand: Strand
    first: Place
    last: Place
    begins: Side
    to_left: bool


class EndStrand(Struct, frozen=True):
    """A strand ended, its end on `side` in the space it stands in."""

    strand: Strand
    at: Gap
    side: Side


# -------------------------------------------------------------------------------------------------------------- border
class Step(Struct, frozen=True):
    """One face of one space on the way of an end, over all that lies there but what it goes under.

    `beneath` is what every one goes under there; `threaded` what lies there only because work has come round the ring.
    `across`: those of `beneath` that run on past the space.
    """

    gap: Gap
    side: Side
    beneath: tuple[Loop, ...] = ()
    threaded: tuple[Loop, ...] = ()
    across: tuple[Loop, ...] = ()


class Pass(Struct, frozen=True):
    """What an end goes past: an upright on a side, or another end over or under which it is carried inside."""

    of: Place
    side: Side
    end: EndWay | None = None


class Bend(Struct, frozen=True):
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


class KeepSlack(Struct, frozen=True):
    """These are left slack as they are made: the last ones go under them."""

    loops: tuple[Loop, ...]


class InTurn(Struct, frozen=True):
    """Bends one after another, `each` at a time, every turn like the one before and one place further on."""

    bends: tuple[Bend, ...]
    each: int = 1


class DrawTight(Struct, frozen=True):
    """What was kept slack is drawn tight, in the order it was made."""

    loops: tuple[Loop, ...]


class LaySpares(Struct, frozen=True):
    """Spare lengths that begin a plait: beside which unit (or inside, behind the one after the sets), how many."""

    beside: tuple[tuple[Place, int], ...]


class DrawOut(Struct, frozen=True):
    """The spare lengths are drawn out again, and the last ends take their places."""


# -------------------------------------------------------------------------------------------------- what is set on top
class TurnOver(Struct, frozen=True):
    """The work is turned over."""

    foot_up: bool


class SetFoot(Struct, frozen=True):
    """A foot of a handle, a lug or a loop of one goes down (or is fastened) beside this place."""

    handle: int
    at: Place


Act = (
    Take | SetIn | Recount | Count | Mark | Damp | Dry | BendUp | Tie | Untie | LayIn | Bring | Weave | StepUp | WeaveBack
    | WeaveRow | EndStrand
    | KeepSlack | Bend | InTurn | DrawTight | LaySpares | DrawOut | TurnOver | SetFoot
)  # fmt: skip


class PlannedStep(Struct, frozen=True):
    """The acts of one step, by the key its words have."""

    key: str
    acts: tuple[Act, ...]


class PlannedStage(Struct, frozen=True):
    """One stage of the work; `key` as the words have it."""

    key: str
    steps: tuple[PlannedStep, ...]


class Plan(Struct, frozen=True):
    """All that is done to one basket, in order."""

    stages: tuple[PlannedStage, ...]

    @property
    def acts(self) -> tuple[Act, ...]:
        """Every act in order."""
        return tuple(act for stage in self.stages for step in stage.steps for act in step.acts)
