"""Laws that hold of every class: sums, kits, cuts, packs, and the order of the timetable."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace
from tests.classes.made import MAKES, PATTERNS, classes, of

from slath.classes.kits import Kit, summed
from slath.classes.prepared import Prepared
from slath.classes.roster import without_spares
from slath.classes.timetable import Wanted, placed
from slath.language import read_pattern
from slath.messages import message
from slath.pipeline import compile_pattern, work_out
from slath.quantities.pooling import bought_as
from slath.quantities.results import PackCount, Quantities

Counted = Counter[tuple[str, str, str, float]]
FEW = settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def pieces_in(kits: Iterable[Kit]) -> Counted:
    """Every piece of these kits, counted one by one from the pieces themselves."""
    found: Counted = Counter()
    for kit in kits:
        materials = kit.size.basket.pattern.materials
        for piece in kit.pieces:
            material = materials[piece.material]
            number = round(piece.count.value) + piece.spare
            found[material.stock.name, material.dye or "", piece.part, round(piece.cut_mm.value, 6)] += number
    return +found


@FEW
@given(classes())
def test_kits_and_spares_add_up_to_the_class_list(made: Prepared) -> None:
    """Piece by piece, by whole numbers; lengths of weaving material to a thousandth of a millimetre."""
    listed: Counted = Counter()
    for line in made.sums:
        if line.line.whole:
            listed[line.line.stock.name, line.line.dye, line.line.part, round(line.line.length_mm, 6)] += line.count
    assert listed == pieces_in(made.kits.all)
    woven = sum(line.total_mm for line in made.sums if not line.line.whole)
    held = sum(run.length_mm.value + run.spare_mm.value for kit in made.kits.all for run in kit.runs)
    assert woven == pytest.approx(held, abs=1e-3)


@FEW
@given(classes())
def test_a_kit_is_what_the_booklet_lists(made: Prepared) -> None:
    """The pattern worked out by itself, with its spares or, where the class keeps them, with none, lists the same pieces
    and strands as the kit holds; and the papers of that person are made of the same list.
    """
    for kit in made.kits.people:
        person = kit.person
        assert person is not None
        pattern = read_pattern(PATTERNS / MAKES[person.makes][0])
        if made.roster.record.spares.given:
            pattern = without_spares(pattern)
        (alone,) = work_out(pattern, (person.size,)).sizes
        assert listed(alone.quantities) == [
            (piece.part, round(piece.count.value), piece.spare, piece.cut_mm.value) for piece in kit.pieces
        ]
        assert [run.length_mm.value for run in alone.quantities.strands] == [run.length_mm.value for run in kit.runs]
        assert made.roster.size(person).quantities.pieces == kit.pieces


def listed(found: Quantities) -> list[tuple[str, int, int, float]]:
    """The cut list of a size."""
    return [(piece.part, round(piece.count.value), piece.spare, piece.cut_mm.value) for piece in found.pieces]


@FEW
@given(classes())
def test_the_cutting_plan_cuts_every_piece_once(made: Prepared) -> None:
    """Replayed length by length: nothing missing, nothing twice, for whom it is, and no length cut longer than it is."""
    cut: Counter[tuple[str, str, str, float, str]] = Counter()
    for plan in made.plans:
        numbers = [length.number for length in plan.lengths]
        assert numbers == list(range(1, len(numbers) + 1))
        for length in plan.lengths:
            left = length.length_mm
            for piece in length.pieces:
                left -= piece.length_mm
                cut[plan.stock.name, plan.dye, piece.part, round(piece.length_mm, 6), piece.kit] += 1
            assert left >= -1e-6
            assert length.left_mm == pytest.approx(max(left, 0.0), abs=1e-6)
            assert [p.length_mm for p in length.pieces] == sorted((p.length_mm for p in length.pieces), reverse=True)
        for piece in plan.too_long:
            assert piece.length_mm > plan.sold_mm
            cut[plan.stock.name, plan.dye, piece.part, round(piece.length_mm, 6), piece.kit] += 1
    wanted: Counter[tuple[str, str, str, float, str]] = Counter()
    for kit in made.kits.all:
        for line in kit.lines:
            if line.whole and line.stock.kind != "wood" and not line.stock.tapered:
                wanted[line.stock.name, line.dye, line.part, round(line.length_mm, 6), kit.name] += line.count
    assert cut == +wanted


@pytest.mark.parametrize("makes", MAKES)
def test_one_person_buys_what_the_booklet_says(makes: str) -> None:
    """A class of one, nothing spare besides and dyed material bought dyed, is the booklet's own purchase."""
    file, sizes, _ = MAKES[makes]
    for size in sizes:
        made = of([{"name": "Ada", "makes": makes, "size": size}], dyed="bought")
        (alone,) = compile_pattern(PATTERNS / file, None, (size,)).sizes
        everything = sorted(
            (row.stock, row.length_mm.value, row.buy_mm.value, packs(row.packs)) for row in alone.quantities.purchase
        )
        mine = sorted(
            (row.stock.name, row.purchase.length_mm.value, row.purchase.buy_mm.value, packs(row.purchase.packs))
            for row in made.shopping.rows
        )
        assert mine == everything


def packs(found: Iterable[PackCount]) -> tuple[tuple[str, int], ...]:
    """Packs by title and count."""
    return tuple((pack.title, pack.count) for pack in found)


@pytest.mark.parametrize("makes", MAKES)
def test_two_alike_buy_no_fewer_packs_than_one_and_no_more_than_twice(makes: str) -> None:
    """Whatever is pooled, two people take at least what one does and at most twice that, of everything in the shop."""
    size = MAKES[makes][1][-1]
    one = of([{"name": "Ada", "makes": makes, "size": size}])
    two = of([{"name": name, "makes": makes, "size": size} for name in ("Ada", "Ben")])
    assert len(one.shopping.rows) == len(two.shopping.rows) > 0
    for first, second in zip(one.shopping.rows, two.shopping.rows, strict=True):
        assert first.stock == second.stock
        alone, both = (sum(pack.count for pack in row.purchase.packs) for row in (first, second))
        assert alone <= both <= 2 * alone
        assert second.purchase.buy_mm.value <= 2 * first.purchase.buy_mm.value + 1e-6


@FEW
@given(classes())
def test_natural_stock_is_bought_once(made: Prepared) -> None:
    """No two rows of the shopping list are the same thing in the shop, and dyes take exactly what the kits hold of them."""
    seen = [(row.stock.name, row.dye) for row in made.shopping.rows]
    assert len(seen) == len(set(seen))
    for row in made.shopping.rows:
        for dye, length in row.dyes:
            held = sum(
                line.total_mm
                for kit in made.kits.all
                for line in kit.lines
                if (line.stock.name, line.dye or "natural") == (row.stock.name, dye)
            )
            assert length == pytest.approx(held, rel=1e-9)
    stocks = {bought_as(replace(material, dye=None, colour="")) for kit in made.kits.all for material in
              (kit.material(line.key) for line in kit.lines)}  # fmt: skip
    if made.roster.record.dyed_at_home:
        assert len(made.shopping.rows) == len(stocks)


@FEW
@given(classes())
def test_nothing_is_begun_before_what_it_needs(made: Prepared) -> None:
    """Every task begins when all it needs has ended, by day, and ends by the time its stage begins."""
    tasks = {task.key: task for task in made.tasks}
    assert len(tasks) == len(made.tasks) > 3
    for task in made.tasks:
        assert all(tasks[key].ends <= task.begins for key in task.needs)
        assert 7 <= task.begins.hour <= 19
        if task.key in {"cut", "measure", "pack"}:
            assert (task.begins.hour, task.begins.minute) >= (8, 0)
            assert (task.ends.hour, task.ends.minute) <= (19, 0)
    day = made.roster.record.days[0]
    for run in made.runs:
        for sitting in run.sittings:
            for slot in sitting.slots:
                assert slot.begins < slot.ends
                assert slot.begins.date() in made.roster.record.days
    assert tasks["pack"].ends.date() < day
    assert tasks["set up"].ends.date() == day


def test_tasks_that_need_one_another_are_refused() -> None:
    """A ring of needs has no beginning."""
    by = dt.datetime(2027, 5, 15, 9, 30)  # noqa: DTZ001 - clock time of wherever the class is
    said = message("class.task-set-up")
    ring = [Wanted("a", said, 30, ("b",), said, by), Wanted("b", said, 30, ("a",), said, by)]
    with pytest.raises(ValueError, match="need one another"):
        placed(ring)


def test_the_teacher_is_at_one_table_at_a_time() -> None:
    """With three patterns in one room no stage is shown at one table while another is still being shown, but for minutes
    lost in rounding.
    """
    made = of(
        [{"name": f"P{number}", "makes": makes, "size": MAKES[makes][1][0]} for number, makes in enumerate(MAKES)]
    )
    shown = sorted(
        (sitting.slots[0].begins, sitting.show) for run in made.runs for sitting in run.sittings if sitting.slots
    )
    assert len(made.runs) == len(MAKES) > 2
    for (first, minutes), (second, _) in pairwise(shown):
        assert (second - first).total_seconds() / 60 >= minutes - 1.01 or second.date() > first.date()


def test_sums_of_nothing() -> None:
    """No kits come to nothing."""
    assert summed(()) == ()
