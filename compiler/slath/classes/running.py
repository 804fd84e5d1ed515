"""The running of the class by the clock: which stage begins when at which table, laid into the hours of its days."""

from __future__ import annotations

import datetime as dt
import math
from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate

from msgspec import Struct

from slath.classes.record import Hours, Person
from slath.classes.roster import Roster
from slath.language.pattern import Pattern
from slath.messages import Message, Own, message
from slath.pipeline import CompiledSize
from slath.trade.spans import span_in
from slath.trade.teaching import slowest, stage_times
from slath.trade.words import UK, Vocabulary
from slath.units import Amount, Basis
from slath.wording.telling import Told, tell

BEGINNER = "beginner"
BEGINNERS_TAKE = 2.0  # times an improver's time, as the table of stages has it; from memory
_UNKNOWN_MINUTES = 30.0  # of a stage nobody has put a time to; estimated


class Slot(Struct, frozen=True):
    """A time on one day."""

    begins: dt.datetime
    ends: dt.datetime


class Sitting(Struct, frozen=True):
    """One stage at one table: when it is shown, how long it may take, and the times of day it lies in.

    `slots` is empty where the class is over before it begins; `cut_short` where it is over before it ends.
    """

    stage: str
    minutes: float
    show: float
    slots: tuple[Slot, ...]
    cut_short: bool

    @property
    def begins(self) -> dt.datetime | None:
        """When it is shown."""
        return self.slots[0].begins if self.slots else None


class TableRun(Struct, frozen=True):
    """The day of everyone who makes one pattern, told of the largest size they make. `rests_on` says what its times are
    taken from, whose strength is `basis`. `sizes` are the baskets made there, in every size and colourway.
    """

    makes: str
    people: tuple[Person, ...]
    size: CompiledSize
    sizes: tuple[CompiledSize, ...]
    told: Told
    basis: Basis
    rests_on: Message
    sittings: tuple[Sitting, ...]

    @property
    def over_minutes(self) -> float:
        """By how much the work is longer than the class."""
        told = math.fsum((slot.ends - slot.begins).total_seconds() / 60 for s in self.sittings for slot in s.slots)
        return max(0.0, math.fsum(sitting.minutes for sitting in self.sittings) - told)

    @property
    def left_for_home(self) -> tuple[str, ...]:
        """Stages that the class has no time for, wholly or in part."""
        return tuple(sitting.stage for sitting in self.sittings if sitting.cut_short or not sitting.slots)


class DayEnd(Struct, frozen=True):
    """The stage the slowest may stop in when a day (or the class) ends; `rest`: it may be left half done."""

    ends: dt.datetime
    stage: str
    rest: bool


def run_of(roster: Roster, vocabulary: Vocabulary = UK, language: str = "en") -> tuple[TableRun, ...]:
    """The class laid into its hours, a table for each pattern. Stages begin one after another where the teacher must show
    them: who is first done is shown first, and the others wait until she is free.
    """
    record = roster.record
    windows = _windows(record.days, record.hours)
    tables = [
        _table(roster, makes, vocabulary, language) for makes in dict.fromkeys(person.makes for person in record.people)
    ]
    stages = [stage_minutes(roster, table) for table in tables]
    waiting = [list(minutes.items()) for _, _, minutes in stages]
    ready = [0.0] * len(tables)
    placed: list[list[Sitting]] = [[] for _ in tables]
    free = 0.0
    while any(waiting):
        index = min((i for i in range(len(tables)) if waiting[i]), key=lambda i: (ready[i], i))
        stage, minutes = waiting[index].pop(0)
        show = min(_show(stage), minutes)
        begins = max(ready[index], free)
        free, ready[index] = begins + show, begins + minutes
        slots, short = _slots(windows, begins, minutes)
        placed[index].append(Sitting(stage, minutes, show, slots, short))
    return tuple(
        TableRun(table.makes, table.people, table.size, table.sizes, table.told, basis, rests_on, tuple(sittings))
        for table, (basis, rests_on, _), sittings in zip(tables, stages, placed, strict=True)
    )


class Table(Struct, frozen=True):
    """Everyone who makes one pattern, and its largest size told."""

    makes: str
    pattern: Pattern
    people: tuple[Person, ...]
    size: CompiledSize
    sizes: tuple[CompiledSize, ...]
    told: Told


def _table(roster: Roster, makes: str, vocabulary: Vocabulary, language: str) -> Table:
    people = tuple(person for person in roster.record.people if person.makes == makes)
    pattern = roster.pattern(people[0])
    order = [sized.size for sized in pattern.sizes]
    largest = roster.size(max(people, key=lambda person: order.index(person.size)))
    told = tell(
        pattern, largest.basket, largest.quantities, vocabulary=vocabulary, first=pattern.units, language=language
    )
    sizes = tuple(size for (name, _), made in roster.made.items() if name == makes for size in made.sizes)
    return Table(makes, pattern, people, largest, sizes, told)


def stage_minutes(roster: Roster, table: Table) -> tuple[Basis, Message, dict[str, float]]:
    """What the times of the stages rest on, in what words, and each stage with its minutes."""
    pattern, size = table.pattern, table.size
    beginner = pattern.skill.casefold() in {"", BEGINNER}
    times: dict[str, float] = {}
    for stage in table.told.stages:
        times[stage.key] = times.get(stage.key, 0.0) + _usual(stage.key, beginner=beginner)
    guessed = math.fsum(times.values())
    a_day = float(sum(hours.end - hours.start for hours in roster.record.hours))
    woven = size.sized.woven
    found = span_in(woven.time, minutes_a_day=a_day) if woven is not None and woven.time else None
    if woven is not None and found is not None:
        share = (BEGINNERS_TAKE if beginner else 1.0) * found.most / guessed
        said = message("class.rests-woven", size=Own(size.name), time=Own(woven.time), twice=beginner)
        return Basis.MEASURED, said, {key: minutes * share for key, minutes in times.items()}
    told = span_in(pattern.time, minutes_a_day=a_day)
    if told is not None:
        said = message("class.rests-told", time=Own(pattern.time))
        return Basis.ESTIMATED, said, {key: minutes * told.most / guessed for key, minutes in times.items()}
    return Basis.ESTIMATED, message("class.rests-guess", beginner=beginner), times


def _usual(key: str, *, beginner: bool) -> float:
    times = stage_times().get(key)
    if times is None:
        return _UNKNOWN_MINUTES
    amount: Amount = times.beginner if beginner else times.improver
    return amount.value


def _show(key: str) -> float:
    times = stage_times().get(key)
    return times.show if times is not None else 10.0


def _windows(days: Sequence[dt.date], hours: Sequence[Hours]) -> list[Slot]:
    return [Slot(_at(day, sitting.start), _at(day, sitting.end)) for day in days for sitting in hours]


def _at(day: dt.date, minutes: int) -> dt.datetime:
    return dt.datetime.combine(day, dt.time()) + dt.timedelta(minutes=minutes)


def _slots(windows: Sequence[Slot], begins: float, minutes: float) -> tuple[tuple[Slot, ...], bool]:
    """The times of day of a stage that begins after so many minutes of the class; it goes on after a break.

    The second is True where the class ends before it does.
    """
    slots: list[Slot] = []
    passed = 0.0
    for window in windows:
        length = (window.ends - window.begins).total_seconds() / 60
        start, end = max(begins, passed), min(begins + minutes, passed + length)
        if end - start > 0.5:
            slots.append(Slot(_to_minute(window.begins, start - passed), _to_minute(window.begins, end - passed)))
        passed += length
    return tuple(slots), begins + minutes > passed + 0.5


def _to_minute(start: dt.datetime, minutes: float) -> dt.datetime:
    return start + dt.timedelta(minutes=round(minutes))


def where_the_slowest_stop(roster: Roster, run: TableRun) -> tuple[DayEnd, ...]:
    """For the end of each day, the stage in which the slowest stand then and how it may be left; the one before it where
    that may not be left half done.
    """
    record = roster.record
    a_day = float(sum(hours.end - hours.start for hours in record.hours))
    ends: list[DayEnd] = []
    reached = list(accumulate(sitting.minutes * slowest() for sitting in run.sittings))
    for number, day in enumerate(record.days, start=1):
        place = min(bisect_left(reached, number * a_day), len(reached) - 1)
        while place and not _rest(run.sittings[place].stage):
            place -= 1
        stage = run.sittings[place].stage
        ends.append(DayEnd(_at(day, record.hours[-1].end), stage, _rest(stage)))
    return tuple(ends)


def _rest(key: str) -> bool:
    times = stage_times().get(key)
    return times is not None and times.rest
