"""What the acts say of one band: what is laid in and where, the strokes, and where every strand is ended."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from slath.language.pattern import Stroke
from slath.plan.acts import Act, EndStrand, LayIn, StepUp, Weave, WeaveBack, WeaveRow
from slath.plan.places import Gap, Numbering, Strand

Worked = Weave | WeaveBack | WeaveRow


class Weaving(Struct, frozen=True):
    """The acts of one band. `ended`: what ends its strands, unless they go on in another; `after`: what goes on for them."""

    laid: tuple[LayIn, ...]
    worked: tuple[Worked, ...]
    steps: tuple[StepUp, ...]
    ended: tuple[EndStrand, ...]
    after: tuple[LayIn, ...]
    course_before: tuple[Stroke, ...] = ()  # of the strands that go on here, in the band they come from

    @property
    def weave(self) -> Weave:
        """The strokes of strands that go round and round."""
        return next(act for act in self.worked if isinstance(act, Weave))

    @property
    def till(self) -> Gap:
        """The space in which the strand furthest back hangs when the last round is closed."""
        (*_, last) = (act for act in self.worked if isinstance(act, Weave))
        return self.ended[0].at if self.ended else last.till

    @property
    def back(self) -> WeaveBack:
        """The strokes of a set of rods."""
        return next(act for act in self.worked if isinstance(act, WeaveBack))

    @property
    def rows(self) -> tuple[WeaveRow, ...]:
        """Rows that turn."""
        return tuple(act for act in self.worked if isinstance(act, WeaveRow))

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """The cycle of strokes."""
        return next(act.strokes for act in self.worked if not isinstance(act, WeaveRow))

    @property
    def on(self) -> Numbering:
        """How the uprights are counted."""
        first = self.worked[0]
        return first.first.numbering if isinstance(first, WeaveRow) else first.on

    @property
    def whole(self) -> bool:
        """Whether every strand has made whole strokes when the band is done."""
        return all(far % sum(stroke.reach for stroke in self.strokes) == 0 for far in self.weave.travels)


def weaving(step: tuple[Act, ...], plan: Iterable[Act]) -> Weaving:
    """What the acts of a step say of its band; its strands may be ended in a step after it."""
    worked = tuple(act for act in step if isinstance(act, Weave | WeaveBack | WeaveRow))
    strands: set[Strand] = set()
    for act in worked:
        strands |= {act.strand} if isinstance(act, WeaveRow) else _strands(act)
    ended: list[EndStrand] = []
    after: list[LayIn] = []
    begun = False
    course_before: tuple[Stroke, ...] = ()
    for done in plan:
        own = any(done is one for one in worked)
        if isinstance(done, Weave) and not own and _strands(done) & strands:
            if begun:
                break
            course_before = done.strokes
        begun = begun or own
        if own or not begun:
            continue
        if isinstance(done, EndStrand) and done.strand in strands:
            ended.append(done)
        elif isinstance(done, LayIn) and done.follows in strands:
            after.append(done)
    return Weaving(
        tuple(act for act in step if isinstance(act, LayIn)),
        worked,
        tuple(act for act in step if isinstance(act, StepUp)),
        tuple(ended),
        tuple(after),
        course_before,
    )


def _strands(act: Weave | WeaveBack) -> set[Strand]:
    if isinstance(act, WeaveBack):
        return set(act.rods)
    return {strand for rod in act.rods for strand in rod}
