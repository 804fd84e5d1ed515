"""A class with everything worked out: kits, what to buy, what is cut from what, dyeing, the run of the day, the timetable."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from pathlib import Path as FilePath

from msgspec import Struct

from slath.classes.cutting import StockPlan, cutting_plans
from slath.classes.dyeing import Dyeing, dyeing_of
from slath.classes.kits import Kits, Summed, kits_of, summed
from slath.classes.roster import Roster, call_roll
from slath.classes.running import TableRun, run_of
from slath.classes.shopping import Shopping, shopping_of
from slath.classes.timetable import Task, order_by, timetable_of
from slath.messages import Voice
from slath.notes import Note, Severity
from slath.trade.stock_words import stock_words
from slath.trade.words import UK, Vocabulary
from slath.units.counting import duration, listed
from slath.units.printing import First, both


class Prepared(Struct, frozen=True, dict=True):
    """A class ready to be told: nothing after this works anything out."""

    roster: Roster
    kits: Kits
    sums: tuple[Summed, ...]
    shopping: Shopping
    plans: tuple[StockPlan, ...]
    dyeing: tuple[Dyeing, ...]
    runs: tuple[TableRun, ...]
    tasks: tuple[Task, ...]
    notes: tuple[Note, ...]

    @property
    def first(self) -> First:
        """Which measure stands first: as in the first pattern the class makes."""
        return next(iter(self.roster.made.values())).pattern.units

    @property
    def at_fault(self) -> bool:
        """Whether a note keeps its papers from being made."""
        return any(note.stops for note in self.notes)


def prepare(
    path: FilePath,
    *,
    workshop: FilePath | None = None,
    today: dt.date | None = None,
    vocabulary: Vocabulary = UK,
    language: str = "",
) -> Prepared | Roster:
    """The class in the file at `path` with everything worked out; its roster alone where a pattern cannot be made.

    With `today` it is said what should have been begun by then. Raises what `call_roll` raises.
    """
    roster = call_roll(path, workshop=workshop)
    if roster.at_fault:
        return roster
    kits = kits_of(roster)
    shopping = shopping_of(roster, kits.all)
    plans = cutting_plans(kits.all, roster.in_hand, roster.lengths_sold)
    dyeing = dyeing_of(roster, kits.all)
    runs = run_of(roster, vocabulary, language_of(language, roster))
    tasks = timetable_of(roster, kits.all, shopping, plans, dyeing, runs)
    notes = (*roster.notes, *_hours(roster, runs), *_too_long(roster, plans), *_too_soon(roster, tasks, today))
    ordered = tuple(sorted(notes, key=lambda note: note.place))
    return Prepared(roster, kits, summed(kits.all), shopping, plans, dyeing, runs, tasks, ordered)


def language_of(asked: str, roster: Roster) -> str:
    """The language a class is told in: as asked for, or as its first pattern asks."""
    return asked or next(iter(roster.made.values())).pattern.language


def order_days(prepared: Prepared) -> dict[str, dt.date]:
    """The last day to order, by supplier."""
    return order_by(prepared.tasks)


def _hours(roster: Roster, runs: Sequence[TableRun]) -> Iterator[Note]:
    for run in runs:
        if run.over_minutes < 1:
            continue
        title = roster.pattern(run.people[0]).title
        extra = duration(15 * -(-run.over_minutes // 15))
        yield Note(
            "hours-too-short",
            Severity.WARNING,
            roster.record.place_of(("hours",)),
            f"{title} takes {extra} longer than the class sits ({Voice({}).text(run.rests_on)}).",
            part=run.makes,
            remedies=(
                f"sit {extra} longer, or on another day",
                f"send {listed(run.left_for_home)} home to be finished",
                "prepare the bases beforehand",
            ),
        )


def _too_long(roster: Roster, plans: Sequence[StockPlan]) -> Iterator[Note]:
    first = next(iter(roster.made.values())).pattern.units
    for plan in plans:
        for length in dict.fromkeys(piece.length_mm for piece in plan.too_long):
            yield Note(
                "cut-too-long",
                Severity.WARNING,
                roster.record.place_of(("pieces", plan.stock.name)),
                f"Pieces of {both(length, first)} cannot be cut from {stock_words(plan.stock)} in lengths of "
                f"{both(plan.sold_mm, first)}.",
                remedies=(
                    "choose the longest pieces of the coil for them",
                    "measure your lengths, and write them under pieces",
                ),
            )


def _too_soon(roster: Roster, tasks: Sequence[Task], today: dt.date | None) -> Iterator[Note]:
    if today is None or not tasks:
        return
    days = roster.record.days
    place = roster.record.place_of(("on",))
    if days[0] < today:
        yield Note("class-too-soon", Severity.ADVICE, place, f"The class was on {days[0].isoformat()}, which is past.")
        return
    late = [task for task in tasks if task.begins.date() < today]
    if late:
        first = late[0]
        moved = days[0] + (today - first.begins.date())
        yield Note(
            "class-too-soon", Severity.WARNING, place,
            f"“{Voice({}).text(first.what)}” should have been begun on {first.begins.date().isoformat()}.",
            remedies=(f"hold the class on {moved.isoformat()} or later", "take what is in hand, and say so under in_hand"),
        )  # fmt: skip
