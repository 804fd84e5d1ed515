"""The timetable back from the day: order, dye, dry, cut, pack, soak and bend, each early enough for what needs it."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.classes.cutting import StockPlan
from slath.classes.dyeing import Dyeing
from slath.classes.file import OTHER
from slath.classes.kits import Kit
from slath.classes.roster import Roster
from slath.classes.running import TableRun
from slath.classes.shopping import Shopping, ToBuy
from slath.language.pattern import Material
from slath.messages import Listed, Message, Minutes, Own, message, plain
from slath.pipeline import CompiledSize
from slath.trade.soaking import rod_soak
from slath.trade.spans import span_in
from slath.trade.stock import Stock
from slath.trade.teaching import getting_ready
from slath.units import Amount
from slath.wording.prepare import soak_said
from slath.wording.stuff import dye_said, material_said

EARLIEST, OPENS, LATEST = 7, 8, 19  # hours: when somebody is up, when work begins, when it ends; estimated
ORDER = "order"
HALF_A_MINUTE = 0.5  # is not said in whole minutes
AT_THE_SHOP = 9  # the hour an order is given; estimated
_EVE = dt.timedelta(hours=15)  # before the class opens, everything is ready that takes hands; estimated
_UNKNOWN_SOAK = 60.0  # minutes of a stock nobody has put a time to; estimated
_DAY = 24 * 60.0


class Task(Struct, frozen=True):
    """One thing to do before it is needed. `needs` are the keys of what must be done first; `why` says how long and from
    what. `hands` are the minutes of it that somebody works; the rest of the time it lies.
    """

    key: str
    what: Message
    begins: dt.datetime
    ends: dt.datetime
    needs: tuple[str, ...]
    why: Message
    hands: float = 0.0

    @property
    def kept_until(self) -> dt.datetime:
        """Until when a calendar shows it: an order is given in a moment, and its delivery waited for elsewhere."""
        return self.begins + dt.timedelta(minutes=self.hands) if self.key.startswith(ORDER) else self.ends


class Wanted(Struct, frozen=True):
    """A task before it has its time: how long it takes, what it needs, the latest it may end by itself, and the hour of
    the day it is begun at, where that does not follow. A task that takes hands all the time is done by day.
    """

    key: str
    what: Message
    minutes: float
    needs: tuple[str, ...]
    why: Message
    by: dt.datetime | None = None
    hands: float = 0.0
    at_hour: int | None = None
    at_once: bool = False  # begun when what it needs is done, however early


def timetable_of(
    roster: Roster,
    kits: Sequence[Kit],
    shopping: Shopping,
    plans: Sequence[StockPlan],
    dyeing: Sequence[Dyeing],
    runs: Sequence[TableRun],
) -> tuple[Task, ...]:
    """Every task in the order of its beginning, the class itself last."""
    record = roster.record
    opens = dt.datetime.combine(record.days[0], dt.time()) + dt.timedelta(minutes=record.hours[0].start)
    orders = tuple(_orders(shopping, record.lead))
    ordered = tuple(order.key for order in orders)
    dyes = tuple(_dyes(dyeing, ordered))
    cuts = sum(len(length.pieces) for plan in plans for length in plan.lengths)
    cut = getting_ready("cut one")
    bundles = sum(not line.whole for kit in kits for line in kit.lines)
    measure, pack, set_up = getting_ready("measure one"), getting_ready("pack one"), getting_ready("set up")
    bows = tuple(_bows(roster, runs, opens - _EVE))
    dry = tuple(task.key for task in dyes if task.key.startswith("dry"))
    bent = tuple(task.key for task in bows if task.key.startswith("bend"))
    wanted = [
        *orders,
        *dyes,
        Wanted("cut", message("class.task-cut", count=cuts), cut.value * cuts, ordered, _took(cut, "each"), hands=cut.value * cuts),
        Wanted("measure", message("class.task-measure", count=bundles), measure.value * bundles, ("cut", *bent, *dry),
               _took(measure, "each"), hands=measure.value * bundles),
        Wanted("pack", message("class.task-pack", count=len(kits)), pack.value * len(kits), ("measure",),
               _took(pack, "each"), hands=pack.value * len(kits), by=opens - _EVE),
        *bows,
        *_soaks(runs),
        Wanted("set up", message("class.task-set-up"), set_up.value, ("pack",), _took(set_up), by=opens, hands=set_up.value),
    ]  # fmt: skip
    return placed(wanted)


def _took(time: Amount, each: str = "") -> Message:
    """How long it takes, and what that rests on."""
    basis = message(f"class.basis-{time.basis.name.lower()}")
    if time.value == HALF_A_MINUTE:
        return message("class.why-half-a-minute", basis=basis)
    return message("class.why-takes", minutes=Minutes(time.value), each=bool(each), basis=basis)


def placed(wanted: Sequence[Wanted]) -> tuple[Task, ...]:
    """Each task as late as it can be: before everything that needs it, by its own latest end, and begun by day.

    ValueError if a task has neither a latest end nor anything that needs it, or if two need each other.
    """
    by_key = {task.key: task for task in wanted}
    needed_by: dict[str, list[str]] = {key: [] for key in by_key}
    for task in wanted:
        for key in task.needs:
            needed_by[key].append(task.key)
    done: dict[str, Task] = {}
    while len(done) < len(by_key):
        free = [key for key in by_key if key not in done and all(later in done for later in needed_by[key])]
        if not free:
            raise ValueError("tasks that need one another have no time")
        for key in free:
            done[key] = _placed(by_key[key], [done[later].begins for later in needed_by[key]])
    for task in wanted:
        if task.at_once:
            begins = max(done[key].ends for key in task.needs)
            done[task.key] = replace(done[task.key], begins=begins)
    order = list(by_key)
    return tuple(sorted(done.values(), key=lambda task: (task.begins, order.index(task.key))))


def _placed(task: Wanted, before: Sequence[dt.datetime]) -> Task:
    limits = [*before, *([task.by] if task.by is not None else [])]
    if not limits:
        raise ValueError(f"nothing says by when {task.key} must be done")
    if task.hands >= task.minutes:
        begins, ends = _at_work(min(limits), task.minutes)
        return Task(task.key, task.what, begins, ends, task.needs, task.why, task.hands)
    length = dt.timedelta(minutes=math.ceil(task.minutes))
    begins = _by_day(min(limits) - length)
    if task.at_hour is not None:
        begins -= dt.timedelta(days=1 if begins.hour < task.at_hour else 0)
        begins = begins.replace(hour=task.at_hour, minute=0)
    return Task(task.key, task.what, begins, begins + length, task.needs, task.why, task.hands)


def _by_day(moment: dt.datetime) -> dt.datetime:
    """The latest moment, no later than this one, at which somebody is up; at full quarters of an hour."""
    moment -= dt.timedelta(minutes=moment.minute % 15, seconds=moment.second)
    if moment.hour < EARLIEST:
        return (moment - dt.timedelta(days=1)).replace(hour=LATEST, minute=0)
    return moment.replace(hour=LATEST, minute=0) if moment.hour >= LATEST else moment


def _at_work(by: dt.datetime, minutes: float) -> tuple[dt.datetime, dt.datetime]:
    """The latest time for work of so many minutes: by day, over as many days as it takes; from when and until when."""
    left = dt.timedelta(minutes=5 * math.ceil(minutes / 5))
    day = by.date()
    ends = min(by, _at(day, LATEST))
    if ends - _at(day, OPENS) < min(left, dt.timedelta(hours=LATEST - OPENS)):  # not begun for a part of it
        day -= dt.timedelta(days=1)
        ends = _at(day, LATEST)
    now = ends
    while now - left < _at(day, OPENS):
        left -= now - _at(day, OPENS)
        day -= dt.timedelta(days=1)
        now = _at(day, LATEST)
    return now - left, ends


def _at(day: dt.date, hour: int) -> dt.datetime:
    return dt.datetime.combine(day, dt.time(hour))


# ---------------------------------------------------------------------------------------------------------- the tasks
def _orders(shopping: Shopping, lead: Mapping[str, int]) -> Iterator[Wanted]:
    by_supplier: dict[str, list[ToBuy]] = {}
    for row in shopping.rows:
        if row.purchase.packs or row.purchase.buy_mm.value > 0:
            by_supplier.setdefault(row.suppliers[0] if row.suppliers else "", []).append(row)
    for supplier, rows in by_supplier.items():
        days = lead.get(supplier, lead[OTHER])
        yield Wanted(
            f"{ORDER} {supplier}".strip(),
            message(
                "class.task-order",
                supplier=Own(supplier) if supplier else None,
                items=Listed(tuple(stuff_said(row.stock, row.dye) for row in rows)),
            ),
            days * _DAY,
            (),
            message("class.why-order", days=days),
            hands=15,
            at_hour=AT_THE_SHOP,
        )


def order_by(tasks: Iterable[Task]) -> dict[str, dt.date]:
    """The last day to order, by supplier; that of no named supplier under an empty name."""
    return {task.key.removeprefix(ORDER).strip(): task.begins.date() for task in tasks if task.key.startswith(ORDER)}


def _dyes(dyeing: Sequence[Dyeing], ordered: tuple[str, ...]) -> Iterator[Wanted]:
    presoak, bath, dry = (getting_ready(key) for key in ("presoak", "dye", "dry"))
    for one in dyeing:
        baths = one.baths or 1
        minutes = presoak.value + bath.value * baths
        yield Wanted(
            f"dye {one.dye}", message("class.task-dye", dye=dye_said(one.dye), baths=baths, several=baths > 1), minutes, ordered,
            message("class.why-dye", basis=message(f"class.basis-{bath.basis.name.lower()}")), hands=60.0 * baths,
        )  # fmt: skip
        yield Wanted(
            f"dry {one.dye}", message("class.task-dry", dye=dye_said(one.dye)), dry.value, (f"dye {one.dye}",),
            message("class.why-dry", basis=message(f"class.basis-{dry.basis.name.lower()}")), hands=20,
        )  # fmt: skip


def _bows(roster: Roster, runs: Sequence[TableRun], eve: dt.datetime) -> Iterator[Wanted]:
    """Bows are soaked and bent before the class, so early that they have dried in their shape when the handle is begun."""
    bend, dry = getting_ready("bend one"), getting_ready("bow dry")
    for run in runs:
        basket = run.size.basket
        keys = {handle.spec.material for handle in basket.handles if handle.spec.bent_first}
        begins = stage_begins(run, "handle")
        if not keys or begins is None:
            continue
        soak = max(soak_minutes(basket.pattern.materials[key]) for key in keys)
        title = Own(roster.pattern(run.people[0]).title)
        count = len(run.people) * sum(handle.spec.bent_first for handle in basket.handles)
        yield Wanted(
            f"soak bows {run.makes}",
            message("class.task-soak-bows", basket=title),
            soak,
            ("cut",),
            _soak_words(keys, run),
        )
        yield Wanted(
            f"bend bows {run.makes}", message("class.task-bend", count=count, basket=title), bend.value * count,
            (f"soak bows {run.makes}",), _took(bend, "each"), hands=bend.value * count, by=eve,
        )  # fmt: skip
        yield Wanted(
            f"dry bows {run.makes}", message("class.task-bows-dry", basket=title), dry.value, (f"bend bows {run.makes}",),
            message("class.why-bows-dry", basis=message(f"class.basis-{dry.basis.name.lower()}")), by=begins, at_once=True,
        )  # fmt: skip


def _soak_words(keys: Iterable[str], run: TableRun) -> Message:
    materials = run.size.basket.pattern.materials
    told = {materials[key].soak or materials[key].stock.soak: materials[key] for key in keys}
    return message(
        "class.why-soak", how=Listed(tuple(soak_said(one) for words, one in told.items() if words)), stage=None
    )


def _soaks(runs: Sequence[TableRun]) -> Iterator[Wanted]:
    """Every stock that goes into water, ready when the first stage that needs it begins; brown willow mellows between."""
    for run in runs:
        for stage, materials in soaked_for(run).items():
            begins = stage_begins(run, stage)
            if begins is None:
                continue
            for material in materials:
                yield from _soak(run, stage, material, begins)


def _soak(run: TableRun, stage: str, material: Material, begins: dt.datetime) -> Iterator[Wanted]:
    minutes, mellow = soak_minutes(material), mellow_minutes(material)
    dye = material.dye or ""
    named, what = f"{material.stock.name}, {dye}", stuff_said(material.stock, dye)
    key = f"soak {named}, {run.makes}, {stage}"
    title = next(told.title for told in run.told.stages if told.key == stage)
    why = message("class.why-soak", how=Listed((soak_said(material),)), stage=Own(plain(title)))
    if not mellow:
        yield Wanted(key, message("class.task-soak", what=what), minutes, ("pack",), why, by=begins, hands=5)
        return
    yield Wanted(key, message("class.task-soak", what=what), minutes, ("pack",), why, hands=5)
    yield Wanted(f"mellow {named}, {run.makes}, {stage}", message("class.task-mellow", what=what), mellow, (key,),
                 message("class.why-mellow"), by=begins, hands=10)  # fmt: skip


def stuff_said(stock: Stock, dye: str) -> Message:
    """A stock by its number and measure, with its dye."""
    return material_said(Material("", (), stock, "", dye=dye or None))


# ------------------------------------------------------------------------------------------------- what is soaked when
def stage_begins(run: TableRun, stage: str) -> dt.datetime | None:
    """When a stage is begun at a table; None if the class has no such stage, or is over before it."""
    return next((sitting.begins for sitting in run.sittings if sitting.stage == stage and sitting.begins), None)


def soaked_for(run: TableRun) -> dict[str, list[Material]]:
    """The materials that go into water, of every colour at the table, under the first stage that needs them."""
    order = [sitting.stage for sitting in run.sittings]
    first: dict[tuple[str, str], str] = {}
    known: dict[tuple[str, str], Material] = {}
    for size in run.sizes:
        for key, stage in _uses(size, order):
            material = size.basket.pattern.materials[key]
            named = (material.stock.name, material.dye or "")
            known.setdefault(named, material)
            if named not in first or order.index(stage) < order.index(first[named]):
                first[named] = stage
    found: dict[str, list[Material]] = {}
    for named, stage in sorted(first.items(), key=lambda item: order.index(item[1])):  # a stable sort
        material = known[named]
        if material.stock.kind not in _DRY and (material.soak or material.stock.soak):
            found.setdefault(stage, []).append(material)
    return found


def _uses(size: CompiledSize, stages: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Each use of a material, with the stage it is used in; bows bent before the day are not among them."""
    bent = {handle.spec.material for handle in size.basket.handles if handle.spec.bent_first}
    for piece in size.quantities.pieces:
        stage = piece.of.casefold() or _stage_of_piece(piece.part)
        if stage in stages and piece.material not in bent:
            yield piece.material, stage
    for run in size.quantities.strands:
        stage = _stage_of_band(run.part, run.index, stages)
        if stage in stages:
            yield run.material, stage


_DRY = frozenset({"wood", "dowel", "wire", "cord"})
_PART_STAGES = (("stick", "base"), ("board", "base"), ("stake", "stakes"), ("foot", "foot"))


def _stage_of_piece(part: str) -> str:
    return next((stage for word, stage in _PART_STAGES if word in part), "handle")


def _stage_of_band(part: str, index: int, stages: Iterable[str]) -> str:
    if part == "side":
        return "upsett" if index == 0 and "upsett" in stages else "side"
    return part.casefold()  # a part made by itself is a stage of its own name


def soak_minutes(material: Material) -> float:
    """How long a material soaks at the most, as its booklet says."""
    stock = material.stock
    if stock.length_class_mm is not None and not material.soak:
        return rod_soak(stock.name, stock.length_class_mm).minutes
    span = span_in((material.soak or stock.soak).partition(" or ")[0])
    return span.most if span is not None else _UNKNOWN_SOAK


def mellow_minutes(material: Material) -> float:
    """How long it then lies wrapped; none for most."""
    stock = material.stock
    if stock.length_class_mm is None or material.soak:
        return 0.0
    return rod_soak(stock.name, stock.length_class_mm).mellow_minutes
