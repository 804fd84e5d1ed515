"""Over and under wherever two stakes of a border cross on the page, against stakes laid by hand in plain stacks."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString
from tests.basket.border_words import border, lying_over
from tests.drawing.border_by_hand import legs_from_words, worked_by_hand

from slath.basket.border import laid_turns
from slath.basket.border_path import legs_of
from slath.drawing.border.course import BorderCourse, border_course, on_page
from slath.drawing.border.plait_course import course_of
from slath.drawing.paint.dress import dress
from slath.drawing.paint.painter import Painting, paint
from slath.drawing.paint.rods import Brush, Rod
from slath.language.pattern import Border, Plait

LOOK = dress("#d9cdb4")
SPACING, STAKE, PLAITED = 10.6, 3.3, 1.8  # mm on the page
STAKES, MIDDLE = 26, range(9, 17)
STEPS = 10  # points from knot to knot


def painted(course: BorderCourse, thick: float = STAKE) -> Painting:
    """A long piece of rim, all worked, seen from outside."""
    line = course.line(len(course.legs))
    rods = [
        Rod(
            on_page(line + np.array([float(stake), 0.0, 0.0]), SPACING, thick, inside=False),
            thick * 0.96,
            LOOK,
            name=str(stake),
        )
        for stake in range(STAKES)
    ]
    return paint(rods, Brush(gap=0.28, depth=0.05))


def crossings(
    course: BorderCourse, painting: Painting
) -> Iterator[tuple[int, tuple[int, int, str], tuple[int, int, str], bool]]:
    """Where two stakes cross on the page between two posts: the space, (stake, leg, face) of each, which is painted over."""
    line = course.line(len(course.legs))
    starts = np.array([course.starts(leg) for leg in range(len(course.legs))])
    pages = [np.asarray(rod.points)[:, :2] for rod in painting.rods]
    reach = course.legs[-1].ends + 2
    for one in MIDDLE:
        for other in range(one + 1, min(one + reach, STAKES)):
            found = LineString(pages[one]).intersection(LineString(pages[other]))
            for spot in getattr(found, "geoms", [found]):
                if spot.geom_type != "Point":
                    continue
                space, within = divmod(spot.x / SPACING, 1.0)
                if not 0.06 < within < 0.94:
                    continue
                ends = []
                for stake in (one, other):
                    nearest = int(np.hypot(pages[stake][:, 0] - spot.x, pages[stake][:, 1] - spot.y).argmin())
                    inwards = line[nearest, 1]
                    leg = int(np.searchsorted(starts, nearest // STEPS, side="right")) - 1
                    face = "behind" if inwards > 0.3 else "before" if inwards < -0.3 else ""
                    ends.append((stake, max(leg, 0), face))
                over = painting.layer_at(one, spot.x, spot.y) > painting.layer_at(other, spot.x, spot.y)
                yield int(space), ends[0], ends[1], over


def compared(passes: tuple[str, ...], laid: int = 0) -> tuple[int, list[object]]:
    """(crossings of which the hands can tell the order, those painted otherwise)."""
    course = border_course(border(*passes, laid_first=laid))
    by_hand = worked_by_hand(legs_from_words(passes, laid), STAKES)
    told = 0
    wrong: list[object] = []
    for space, (one, leg, face), (other, other_leg, other_face), over in crossings(course, painted(course)):
        if not face or not other_face:
            continue
        if face != other_face:  # outside is nearer the eye
            expected: bool | None = face == "before"
        else:
            expected = by_hand.order((space, face), (one, leg), (other, other_leg))
        if expected is not None:
            told += 1
            if expected != over:
                wrong.append((space, (one, leg, face), (other, other_leg, other_face), over))
    return told, wrong


KINDS: dict[str, tuple[tuple[str, ...], int]] = {
    "open of one": (("behind 1, down",), 0),
    "open of three": (("behind 3, down",), 0),
    "open scallop of McGaw 1909": (("before 2, down",), 0),
    "closed": (("behind 2, out", "before 3, in"), 0),
    "closed, light": (("behind 1, out", "before 1, in"), 0),
    "closed, heavy": (("behind 3, out", "before 5, in"), 0),
    "rope": (("before 1, in", "before 1, in"), 0),
    "reversed rope": (("behind 1, out", "behind 1, out"), 0),
    "trac": (("behind 1, before 1, behind 1, before 1, in",), 0),
    "trac of twos": (("before 2, behind 2, before 2, in",), 0),
    "three rods": (("behind 1, before 2, behind 1, out",), 3),
    "four rods": (("behind 1, before 3, behind 1, out",), 4),
    "five rods": (("behind 1, before 4, behind 1, out",), 5),
    "six rods": (("behind 1, before 5, behind 1, out",), 6),
    "four rods behind two": (("behind 2, before 2, behind 2, out",), 4),
    "four laid before two": (("behind 1, before 2, behind 1",), 4),
}


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_of_border_lies_as_hands_lay_it(name: str) -> None:
    """At every crossing between two posts the stake that hands would lay over is painted over."""
    passes, laid = KINDS[name]
    told, wrong = compared(passes, laid)
    assert not wrong
    assert told >= 8 or name == "open scallop of McGaw 1909"  # its stakes go down before they cross


@st.composite
def borders(draw: st.DrawFn) -> tuple[tuple[str, ...], int]:
    """A border of any reach: plain, in one or two passes, or in one movement."""
    kind = draw(st.sampled_from(("plain", "passes", "trac")))
    if kind == "plain":
        rods = draw(st.integers(3, 6))
        behind = draw(st.integers(1, 2))
        return (f"behind {behind}, before {rods - behind}, behind {behind}, out",), rods
    if kind == "trac":
        runs = draw(st.lists(st.integers(1, 3), min_size=1, max_size=4))
        faces = ["behind", "before"] if draw(st.booleans()) else ["before", "behind"]
        moves = [f"{faces[place % 2]} {run}" for place, run in enumerate(runs)]
        ends = {"behind": "out", "before": "in"}[faces[(len(runs) - 1) % 2]]
        return (", ".join([*moves, draw(st.sampled_from((ends, "down")))]),), 0
    return (f"behind {draw(st.integers(1, 4))}, out", f"before {draw(st.integers(1, 6))}, in"), 0


@settings(max_examples=12, deadline=None)
@given(borders())
def test_any_border_lies_as_hands_lay_it(made: tuple[tuple[str, ...], int]) -> None:
    """The same for borders drawn at random."""
    _, wrong = compared(*made)
    assert not wrong


Told = dict[tuple[int, int], set[tuple[int, tuple[int, int]]]]


def told_on_a_ring(passes: tuple[str, ...], laid: int, count: int) -> Told:
    """For each turn that is threaded: in which space, from the stake's own, it goes under which piece. Stakes from 0."""
    legs = legs_of(border(*passes, laid_first=laid))
    over = lying_over(legs)
    found: Told = {}
    for made in laid_turns(legs, count):
        if not made.under:
            continue
        stake, leg = made.turn.stake - 1, made.turn.leg
        under = {(turn.stake - 1, turn.leg) for turn in made.under}
        met = {(item.space, ((stake + item.ahead) % count, item.leg)) for item in over[leg]}
        found[stake, leg] = {(space, piece) for space, piece in met if piece in under}
    return found


@pytest.mark.parametrize("count", [24, 31, 40])
@pytest.mark.parametrize("name", KINDS)
def test_the_last_stakes_close_the_ring_without_a_seam(name: str, count: int) -> None:
    """Laid by hand round a ring, the last threaded as told, every space looks like every other; forget one and it shows."""
    passes, laid = KINDS[name]
    legs = legs_from_words(passes, laid)
    told = told_on_a_ring(passes, laid, count)
    assert len(worked_by_hand(legs, count, ring=True, told=told).alike()) <= 2  # one for each face
    last = max(told)
    forgotten = {turn: under for turn, under in told.items() if turn != last}
    if legs[last[1]].order[0] == 0:
        assert len(worked_by_hand(legs, count, ring=True, told=forgotten).alike()) > 2


@pytest.mark.parametrize(("added", "over"), [(0, 1), (2, 1), (4, 1), (3, 2)])
def test_a_plait_passes_over_and_under_by_turns(added: int, over: int) -> None:
    """What makes a plait: on its way outside each set comes out over the one that goes in, lies under the one that passes,
    and goes in under the one that comes out; over one set (a plait of three) it alternates at every crossing.
    """
    course = course_of(Border(("test",), (), plait=Plait(("test",), 1, added, over)))
    painting = painted(course, PLAITED)
    pages = [np.asarray(rod.points)[:, :2] / SPACING for rod in painting.rods]
    one = MIDDLE[len(MIDDLE) // 2]
    met = []
    for other in {*range(one - over - 1, one + over + 2)} - {one}:
        found = LineString(pages[one]).intersection(LineString(pages[other]))
        for spot in getattr(found, "geoms", [found]):
            outside = spot.x - one < over + 1.6 and spot.x - other < over + 1.6  # neither has gone in yet
            if outside and abs(spot.x - round(spot.x)) > 0.04:  # not where an upright comes up
                layers = [painting.layer_at(rod, spot.x * SPACING, spot.y * SPACING) for rod in (one, other)]
                met.append((spot.x, layers[0] > layers[1]))
    assert [over_it for _, over_it in sorted(met)] == [True, *[False] * over, *[True] * over, False]
