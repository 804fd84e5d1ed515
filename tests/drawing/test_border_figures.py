"""Over and under in borders: read off the painted layers and compared with the order of work."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import LineString, Point
from tests.basket.border_words import lying_over

from slath.drawing.border.course import border_course, on_page
from slath.drawing.paint.dress import dress
from slath.drawing.paint.painter import Painting, paint
from slath.drawing.paint.rods import Brush, Rod
from slath.language.pattern import Border, BorderPass, Move

LOOK = dress("#d9cdb4")
SPACING, STAKE = 10.6, 3.3


def border(*passes: str, laid: int = 0) -> Border:
    """A border from lines such as "behind 2, out"."""
    made = []
    for line in passes:
        moves = []
        for move in line.split(", "):
            way, *count = move.split(" ")
            moves.append(Move(way, int(count[0]) if count else 0))  # type: ignore[arg-type]
        made.append(BorderPass(("test",), tuple(moves), laid_first=laid))
    return Border(("test",), tuple(made))


BORDERS = {
    "open": border("behind 1, out"),
    "two passes": border("behind 2, out", "before 3, in"),
    "light": border("behind 1, out", "before 1, in"),
    "wide": border("behind 3, out", "before 2, in"),
    "trac": border("before 1, behind 1, before 1, in"),
    "trac of two": border("behind 2, before 2, in"),
}


def finished(spec: Border) -> Painting:
    """Sixteen stakes of an endless rim with every leg done, painted."""
    course = border_course(spec)
    rods = []
    for stake in range(16):
        line = course.line(len(course.legs)) + np.array([float(stake), 0.0, 0.0])
        rods.append(Rod(on_page(line, SPACING, STAKE, inside=False), STAKE * 0.96, LOOK, name=str(stake)))
    return paint(rods, Brush(gap=0.28, depth=0.05))


def meetings(painting: Painting, one: int, other: int, space: int) -> list[Point]:
    """Where the centre lines of two stakes cross on the page within one space of the rim, clear of its two uprights."""
    lines = [LineString(painting.rods[number].points[:, :2]) for number in (one, other)]
    found = lines[0].intersection(lines[1])
    spots = [found] if found.geom_type == "Point" else list(getattr(found, "geoms", []))
    low, high = (space + 0.03) * SPACING, (space + 0.97) * SPACING
    return [spot for spot in spots if spot.geom_type == "Point" and low <= spot.x <= high]


def checked(spec: Border) -> tuple[int, int]:
    """(meetings found on the page, those painted otherwise than the order of work says)."""
    course = border_course(spec)
    painting = finished(spec)
    over = lying_over(course.legs)
    seen = wrong = 0
    for stake in range(5, 9):
        for leg, overs in enumerate(over):
            for item in overs:
                other, space = stake + item.ahead, stake + item.space
                if other not in range(16) or course.legs[item.leg].pass_number != course.legs[leg].pass_number:
                    continue
                for spot in meetings(painting, stake, other, space):
                    seen += 1
                    wrong += painting.layer_at(other, spot.x, spot.y) <= painting.layer_at(stake, spot.x, spot.y)
    return seen, wrong


@pytest.mark.parametrize("name", BORDERS)
def test_border_lies_as_it_is_worked(name: str) -> None:
    """Wherever two stakes of one pass cross on the page, the one the order of work lays over is painted over."""
    seen, wrong = checked(BORDERS[name])
    assert seen >= 4
    assert wrong == 0


def test_plain_border_lies_as_it_is_worked() -> None:
    """A three-rod plain border, its stakes laid down first, is painted as it is worked too."""
    seen, wrong = checked(border("behind 1, before 2, behind 1, out", laid=3))
    assert seen >= 12
    assert wrong == 0


def test_the_check_can_fail() -> None:
    """Seen from the other side of the paper every meeting is wrong."""
    spec = BORDERS["two passes"]
    painting = finished(spec)
    turned = Painting(painting.items, painting.cloud, painting.layer.max() - painting.layer, painting.rods)
    spot = next(spot for space in (7, 8) for spot in meetings(turned, 6, 7, space))
    assert turned.layer_at(7, spot.x, spot.y) < turned.layer_at(6, spot.x, spot.y)


@pytest.mark.parametrize("name", BORDERS)
def test_stakes_pass_on_the_faces_they_should(name: str) -> None:
    """Behind is inside (q > 0) and before is outside (q < 0) of the row, at every stake passed."""
    course = border_course(BORDERS[name])
    line = course.line(len(course.legs))
    for leg in course.legs:
        for visit in leg.visits:
            near = line[np.abs(line[:, 0] - visit.offset) < 0.12]
            assert len(near)
            inward = near[:, 1].mean()
            assert inward > 0.5 if visit.face == "behind" else inward < -0.5


def test_a_loop_left_loose_stands_higher() -> None:
    """Lifting a loop raises that leg alone."""
    course = border_course(BORDERS["two passes"])
    usual, lifted = course.line(2), course.line(2, lift=0.75, lifted=1)
    first = usual[:, 0] < 2.2
    assert np.allclose(usual[first], lifted[first])
    assert (lifted[:, 2] - usual[:, 2]).max() > 0.4
