"""Notes and words of border figures: nothing runs into anything else, and every number is where hands would find it."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations

import pytest
from msgspec.structs import replace
from tests.basket.border_words import border
from tests.drawing import specs
from tests.drawing.test_figures import leaves

from slath.basket.construct import construct
from slath.basket.model import Basket
from slath.drawing.border.figure import border_names, draw_border
from slath.drawing.options import Options
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.plate.lettering import POINT_MM, word_width
from slath.drawing.scene import Ellipse, Path, Scene, Text, every_item
from slath.language.pattern import Border, Plait, Stakes

BOOKLET = Options(width_mm=104.0, text_pt=8.2)
LARGE = Options(width_mm=166.0, text_pt=18.0)
BORDERS: dict[str, Border] = {
    "closed": border("behind 2, out", "before 3, in"),
    "wide": border("behind 4, out", "before 6, in"),
    "trac": border("behind 1, before 1, behind 1, before 1, in"),
    "four rods": border("behind 1, before 3, behind 1, out", laid_first=4),
    "three passes": border("behind 1, out", "before 2, in", "over 2, down"),
    "long trac": border("before 2, behind 2, before 2, behind 2, before 2, behind 2, down"),
    "plait": Border(("border",), (), Plait(("border",), 1, 4, 1)),
}


@cache
def basket_with(name: str, left_out: int = 0) -> Basket:
    """A round basket of 40 stakes less those left out with one of the borders."""
    pattern = specs.round_basket()
    stakes = Stakes(specs.AT, "stakes", 2, leave_out=left_out, depth_mm=50.0)
    return construct(replace(pattern, stakes=stakes, border=BORDERS[name]))


@cache
def figure(name: str, which: str, options: str = "booklet", left_out: int = 0) -> Scene:
    """One border figure."""
    basket = basket_with(name, left_out)
    wanted = {"booklet": BOOKLET, "large": LARGE, "left": replace(BOOKLET, mirrored=True)}[options]
    return draw_border(basket, which, wardrobe(basket), wanted)


def boxes(scene: Scene) -> list[tuple[str, float, float, float, float]]:
    """Every piece of lettering with the box its letters fill: left, top, right, bottom in mm."""
    found = []
    for item, _ in leaves(scene.items):
        if isinstance(item, Text):
            wide = word_width(item.words, item.size_pt, bold=item.bold)
            left = item.x - {"start": 0.0, "middle": wide / 2, "end": wide}[item.anchor]
            high = 0.7 * item.size_pt * POINT_MM
            found.append((item.words, left, item.y - high, left + wide, item.y))
    return found


@pytest.mark.parametrize(
    ("name", "options"), [*((name, "large") for name in BORDERS), ("closed", "booklet"), ("four rods", "booklet")]
)
def test_no_words_of_a_border_figure_run_into_others(name: str, options: str) -> None:
    """In the booklet and in large print all lettering lies inside the plate, and no two pieces of it touch."""
    for which in border_names(basket_with(name)):
        scene = figure(name, which, options)
        lettering = boxes(scene)
        assert len(lettering) > 10
        for words, left, top, right, bottom in lettering:
            assert left > -0.3, (which, words)
            assert right < scene.width + 0.3, (which, words)
            assert top > 0, (which, words)
            assert bottom < scene.height, (which, words)
        for one, other in combinations(lettering, 2):
            apart = one[3] <= other[1] or other[3] <= one[1] or one[4] <= other[2] or other[4] <= one[2]
            assert apart, (which, one[0], other[0])


@pytest.mark.parametrize("left_out", [0, 1, 3])
@pytest.mark.parametrize("name", ["closed", "trac", "wide"])
def test_the_last_stakes_are_told_by_their_own_numbers(name: str, left_out: int) -> None:
    """Whatever the count, the words of the finish pass each last stake by the numbers that follow its own round the ring."""
    basket = basket_with(name, left_out)
    made, count = basket.border, 40 - left_out
    assert made is not None
    assert made.count == count
    passed = 0
    for worked in made.passes:
        words = figure(name, f"border-{worked.number}-finish", left_out=left_out).words
        told = re.findall(r"[Ss]take (\d+) goes ((?:(?:behind|before) [\d, andto]+, )+)", words)
        assert [int(stake) for stake, _ in told] == [finish.stake for finish in worked.finish]
        for stake, way in told:
            numbers = [(int(stake) + passed + step) % count + 1 for step in range(worked.reach)]
            assert _spelled(way) == numbers, (stake, way)
        passed += worked.reach


def _spelled(way: str) -> list[int]:
    """The numbers of "behind 2 to 5, before 6 and 7, "."""
    found: list[int] = []
    for first, last in re.findall(r"(\d+)(?: to (\d+))?", way):
        found += range(int(first), int(last or first) + 1)
    return found


@pytest.mark.parametrize("name", ["closed", "four rods", "wide"])
def test_what_is_left_loose_is_told_and_pointed_at(name: str) -> None:
    """The start names all the loops the last stakes go under, no more; each of the last ones is told with those it goes under."""
    made = basket_with(name).border
    assert made is not None
    for worked in made.passes:
        start = figure(name, f"border-{worked.number}-start").words
        under = sorted({stake for finish in worked.finish for stake in finish.under})
        assert list(worked.loose) == under
        if under:
            (named,) = re.findall(r"Leave the (.+) loose", start)
            assert sorted(set(_spelled(named))) == under
        finish = figure(name, f"border-{worked.number}-finish").words
        assert finish.count("on its way it passes under") >= len(worked.finish)


def test_a_left_hand_sees_the_mirror_image_and_is_told_so() -> None:
    """The picture is mirrored, and the words send the work the other way."""
    right, left = figure("closed", "border-1-running"), figure("closed", "border-1-running", "left")
    assert "work runs to the right" in right.words
    assert right.words.replace("to the right", "to the left") == left.words
    spots = sorted(round(item.x, 1) for item, _ in leaves(right.items) if isinstance(item, Ellipse))
    mirrored = sorted(round(left.width - item.x, 1) for item, _ in leaves(left.items) if isinstance(item, Ellipse))
    assert spots == mirrored


def test_a_later_row_tells_where_it_begins() -> None:
    """The finish of one row and the start of the next both say where the end of stake 1 is found: past what it has passed."""
    for which in ("border-1-finish", "border-2-start"):
        assert "row 2 begins with the end of stake 1, between 3 and 4" in figure("closed", which).words


def test_seen_from_inside_the_work_runs_the_other_way() -> None:
    """Ends worked on inside are shown from there: right to left, and behind is the side one looks at."""
    words = figure("three passes", "border-3-running").words
    assert words.startswith(
        "Seen from inside and above; the work runs to the left, and behind is the side towards you."
    )


@pytest.mark.parametrize("name", list(BORDERS))
def test_notes_side_by_side_stand_clear_in_a_wider_face_too(name: str) -> None:
    """Between two notes on one line stands more than a wide letter: a reader's own face may be a tenth wider than ours."""
    for which in border_names(basket_with(name)):
        notes = [box for box in boxes(figure(name, which)) if len(box[0]) > 6]
        for one, other in combinations(notes, 2):
            if abs(one[4] - other[4]) < 0.1:
                apart = max(one[1], other[1]) - min(one[3], other[3])
                assert apart > 1.2 * BOOKLET.text_pt * POINT_MM, (which, one[0], other[0])


def test_the_added_lengths_of_a_plait_are_pointed_at_where_it_starts() -> None:
    """Gill's plaited border begins with four lengths added (Practical Basketry, 1916)."""
    assert "four spare lengths" in " ".join(words for words, *_ in boxes(figure("plait", "border-1-start")))
    assert "spare" not in " ".join(words for words, *_ in boxes(figure("plait", "border-1-running")))


@pytest.mark.parametrize(("name", "passed"), [("closed", 3), ("wide", 6)])
def test_the_way_of_a_stake_worked_in_under_others_is_dashed_to_its_end(name: str, passed: int) -> None:
    """In the second pass the stake goes before so many and in: a dashed line goes on beyond the last of them."""
    scene = figure(name, "border-2-running")
    numbers = {
        int(item.words): item.x for item in every_item(scene.items) if isinstance(item, Text) and item.words.isdigit()
    }
    (first,) = re.findall(r"before (\d+)", " ".join(words for words, *_ in boxes(scene)))
    last = numbers[int(first) + passed - 1]
    dashes = [item for item in every_item(scene.items) if isinstance(item, Path) and item.dash]
    ends = [x for item in dashes for line in item.subpaths for x, _ in line.points]
    assert max(ends) > last + 0.3 * (numbers[int(first) + 1] - numbers[int(first)])
    first_pass = figure(name, "border-1-running")
    assert not [item for item in every_item(first_pass.items) if isinstance(item, Path) and item.dash]
