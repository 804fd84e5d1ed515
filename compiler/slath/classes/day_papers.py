"""The timetable, the running script, the attendance sheet and the list of tools as papers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from itertools import groupby

from slath.booklet.blocks import (
    Blank,
    Block,
    Caution,
    Column,
    Definition,
    Definitions,
    Document,
    Heading,
    KeepTogether,
    Listing,
    Paragraph,
    Row,
    Strong,
    TickBox,
    Words,
    pieces_of,
)  # fmt: skip
from slath.classes.running import Sitting, TableRun, where_the_slowest_stop
from slath.classes.telling import Teller, blocks_of, clock, joined, own, table
from slath.classes.timetable import Task, soak_minutes, soaked_for
from slath.messages import Minutes, Voice, message, plain, sentence_case
from slath.messages.language import slug
from slath.trade.cautions import cautions
from slath.trade.teaching import mistakes_of
from slath.trade.tools import Tool, tools_for
from slath.wording.cautioning import said_as
from slath.wording.told import SpokenStage


# ---------------------------------------------------------------------------------------------------------- timetable
def timetable_document(teller: Teller) -> Document:
    """Everything that is done before the class, day by day, each with a box to tick and why it is done then."""
    voice = teller.voice
    name = voice.text(message("class.timetable"))
    columns = (
        Column(voice.text(message("class.when")), row_header=True, weight=0.7),
        Column(voice.text(message("class.until")), weight=1.1),
        Column(voice.text(message("class.what-and-why")), weight=4.0),
    )
    rows: list[Row] = []
    for day, tasks in groupby(teller.prepared.tasks, key=lambda task: task.begins.date()):
        rows.append(Row((teller.day(day),), kind="group"))
        rows += [
            Row(
                (
                    (TickBox(), f" {clock(task.begins)}"),
                    _until(teller, task, day),
                    (Strong(voice.text(task.what)), f". {sentence_case(voice.text(task.why))}."),
                )
            )
            for task in tasks
        ]
    blocks = blocks_of(
        Heading(1, name),
        Paragraph(voice.say(message("class.timetable-lead", days=own(teller.days()))), role="lead"),
        table(voice.text(message("class.before-the-class")), columns, rows),
    )
    return teller.document(name, blocks)


def _until(teller: Teller, task: Task, day: dt.date) -> str:
    until = task.ends
    return clock(until) if until.date() == day else f"{teller.day(until.date())} {clock(until)}"


# ------------------------------------------------------------------------------------------------------------- script
def script_document(teller: Teller) -> Document:
    """The class by the clock: what to show at which table, what everyone must have, mistakes and their mending, what is
    put to soak, and where the slowest may stop.
    """
    voice, prepared = teller.voice, teller.prepared
    name = voice.text(message("class.running-script"))
    blocks: list[Block] = [Heading(1, name), Paragraph(voice.say(message("class.script-lead")), role="lead")]
    blocks += [_rests_on(teller, run) for run in prepared.runs]
    for day in prepared.roster.record.days:
        blocks += [Heading(2, teller.day(day)), *_day(teller, day)]
    blocks += _not_reached(teller)
    return teller.document(name, blocks)


def _rests_on(teller: Teller, run: TableRun) -> Block:
    names = ", ".join(person.name for person in run.people)
    table_of = message("class.table-of", basket=own(_title(teller, run)), people=own(names))
    times = message("class.times-are", source=run.rests_on)
    return Paragraph((*pieces_of(teller.voice.say(table_of)), " ", *pieces_of(teller.voice.say(times))))


def _title(teller: Teller, run: TableRun) -> str:
    return teller.prepared.roster.pattern(run.people[0]).title


def _day(teller: Teller, day: dt.date) -> Iterator[Block]:
    """The stages that are begun, and those gone on with, on one day, by the clock; then how it ends."""
    told: list[tuple[dt.datetime, int, TableRun, Sitting, bool]] = []
    for number, run in enumerate(teller.prepared.runs):
        for sitting in run.sittings:
            slots = [slot for slot in sitting.slots if slot.begins.date() == day]
            if slots:
                told.append((slots[0].begins, number, run, sitting, slots[0].begins == sitting.begins))
    for begins, _, run, sitting, first in sorted(told, key=lambda each: each[:2]):
        yield from _stage(teller, run, sitting, begins, first=first)
    yield KeepTogether(
        (Heading(3, teller.voice.say(message("class.day-ends"))), Listing(tuple(_day_ends(teller, day))))
    )


def _stage(teller: Teller, run: TableRun, sitting: Sitting, begins: dt.datetime, *, first: bool) -> Iterator[Block]:
    stage = next(told for told in run.told.stages if told.key == sitting.stage)
    title = (f"{clock(begins)} ", *pieces_of(stage.title))
    several = len(teller.prepared.runs) > 1
    where = f", {_title(teller, run)}" if several else ""
    until = sitting.slots[-1].ends
    if not first:
        going_on = teller.voice.text(message("class.going-on"))
        yield KeepTogether((
            Heading(3, (*title, f"{where} ({going_on})")),
            Paragraph(teller.voice.say(message("class.until-about", clock=own(f"{teller.day(until.date())} {clock(until)}")))),
        ))  # fmt: skip
        return
    yield Heading(3, (*title, where))
    facts = [
        Definition(teller.voice.text(message("class.show")), _shown(teller, stage, sitting)),
        Definition(teller.voice.text(message("class.until-word")),
                   teller.voice.text(message("class.about-from", clock=own(_clock_on(teller, until, begins)),
                                             minutes=Minutes(5 * round(sitting.minutes / 5))))),
    ]  # fmt: skip
    checks = tuple(count.words for step in stage.steps for count in (*step.stops, *step.counts))
    if checks:
        facts.append(Definition(teller.voice.text(message("class.before-going-on")), joined(checks, " ")))
    facts += [
        Definition(teller.voice.text(message("class.if-it-goes-wrong")), _mistake(teller.voice, mistake.key))
        for mistake in mistakes_of(sitting.stage)
    ]
    soak = _soak_now(teller, run, sitting)
    if soak:
        facts.append(Definition(teller.voice.text(message("class.soak-now")), soak))
    yield Definitions(tuple(facts), kind="facts")


def _clock_on(teller: Teller, moment: dt.datetime, since: dt.datetime) -> str:
    return clock(moment) if moment.date() == since.date() else f"{teller.day(moment.date())} {clock(moment)}"


def _shown(teller: Teller, stage: SpokenStage, sitting: Sitting) -> Words:
    steps = joined([plain(step.title) for step in stage.steps if plain(step.title)], "; ")
    minutes = teller.voice.text(message("class.show-for", minutes=Minutes(sitting.show)))
    return (f"{minutes}: ", *pieces_of(steps))


def _mistake(voice: Voice, key: str) -> Words:
    """The usual mistake, how it is seen, kept away and mended."""
    return voice.say(
        message(
            "class.mistake",
            mistake=message(f"teaching.{key}"),
            seen=message(f"teaching.{key}-seen"),
            keep=message(f"teaching.{key}-keep"),
            mend=message(f"teaching.{key}-mend"),
        )
    )


def _soak_now(teller: Teller, run: TableRun, sitting: Sitting) -> str:
    """What is put to soak while this stage is worked, to be ready for a later one, with the time by the clock."""
    if not sitting.slots:
        return ""
    told = []
    for stage, materials in soaked_for(run).items():
        begins = next((each.begins for each in run.sittings if each.stage == stage), None)
        if begins is None or stage == sitting.stage:
            continue
        for material in materials:
            put = begins - dt.timedelta(minutes=soak_minutes(material))
            if any(slot.begins <= put < slot.ends for slot in sitting.slots):
                told.append(f"{clock(put)} {teller.stock(material.stock, material.dye or '')}")
    return "; ".join(told)


def _day_ends(teller: Teller, day: dt.date) -> Iterator[Words]:
    voice = teller.voice
    last = day == teller.prepared.roster.record.days[-1]
    for run in teller.prepared.runs:
        titles = {stage.key: plain(stage.title) for stage in run.told.stages}
        for end in where_the_slowest_stop(teller.prepared.roster, run):
            if end.ends.date() == day:
                rest = message(f"teaching.rest-{slug(end.stage)}") if end.rest else None
                yield voice.say(
                    message(
                        "class.slowest-stop", basket=own(_title(teller, run)), stage=own(titles[end.stage]), rest=rest
                    )
                )
    yield voice.say(message("class.goes-home") if last else message("class.stays-damp"))


def _not_reached(teller: Teller) -> Iterator[Block]:
    for run in teller.prepared.runs:
        if run.left_for_home:
            titles = {stage.key: plain(stage.title) for stage in run.told.stages}
            stages = ", ".join(titles[key] for key in run.left_for_home)
            yield Paragraph(
                teller.voice.say(message("class.left-for-home", basket=own(_title(teller, run)), stages=own(stages)))
            )


# --------------------------------------------------------------------------------------------------------- attendance
def attendance_document(teller: Teller) -> Document:
    """Who is there, on which day, and their word that they have heard the cautions; nothing of anybody's needs."""
    voice, record = teller.voice, teller.prepared.roster.record
    name = voice.text(message("class.attendance"))
    columns = (
        Column(voice.text(message("class.name")), row_header=True, weight=1.2),
        *(Column(day.isoformat(), weight=0.7) for day in record.days),
        Column(voice.text(message("class.heard")), weight=1.4),
        Column(voice.text(message("class.picture")), weight=0.8),
    )
    rows = [
        Row((
            person.name,
            *(TickBox() for _ in record.days),
            Blank(voice.text(message("class.signed-by", name=own(person.name))), 44.0),
            (TickBox(), f" {voice.text(message('class.yes-word'))}  ", TickBox(), f" {voice.text(message('class.no-word'))}"),
        ))
        for person in record.people
    ]  # fmt: skip
    blocks = blocks_of(
        Heading(1, name),
        Paragraph(voice.say(message("class.attendance-lead", days=own(teller.days()), place=own(record.place) if record.place else None)), role="lead"),
        table(voice.text(message("class.who-is-here")), columns, rows),
        Paragraph(voice.say(message("class.consent"))),
        Heading(2, voice.say(message("class.cautions-heard"))),
    )  # fmt: skip
    return teller.document(name, [*blocks, *_cautions(teller)])


def _operations(teller: Teller) -> frozenset[str]:
    """Everything hands do in any basket of the class."""
    runs = teller.prepared.runs
    return frozenset(
        done for run in runs for stage in run.told.stages for step in stage.steps for done in step.operations
    )


def _cautions(teller: Teller) -> Iterator[Block]:
    """Cautions about people that the work of the day calls for."""
    done = _operations(teller)
    stocks = frozenset(
        kind
        for run in teller.prepared.runs
        for stage in run.told.stages
        for step in stage.steps
        for kind in step.stocks
    )
    for caution in cautions():
        if caution.kind == "safety" and caution.key != "dye" and caution.applies(done, stocks):
            yield Caution(caution.kind, teller.voice.say(said_as(caution)))


# -------------------------------------------------------------------------------------------------------------- tools
def tools_document(teller: Teller) -> Document:
    """Tools for the class; those that cut and pierce are counted out and counted back."""
    voice = teller.voice
    name = voice.text(message("class.tools"))
    people = len(teller.prepared.roster.record.people)
    needed = tools_for(_operations(teller))
    columns = (
        Column(voice.text(message("class.tool")), row_header=True, weight=1.6),
        Column(voice.text(message("class.wanted")), align="right", weight=0.6),
        *(
            Column(voice.text(said), weight=0.8)
            for _ in teller.prepared.roster.record.days[:1]
            for said in (message("class.counted-out"), message("class.counted-back"))
        ),
        Column(voice.text(message("class.by-whom")), weight=1.0),
    )
    rows = [
        Row((
            voice.say(message("class.only", what=message(f"tools.{slug(tool.key)}"))),
            f"{people}",
            Blank(voice.text(message("class.counted-out")), 16.0),
            Blank(voice.text(message("class.counted-back")), 16.0),
            Blank(voice.text(message("class.by-whom")), 26.0),
        ))
        for tool in needed
        if tool.sharp
    ]  # fmt: skip
    blocks = blocks_of(
        Heading(1, name),
        Heading(2, voice.say(message("class.sharp-tools"))),
        Paragraph(voice.say(message("class.sharp-lead"))),
        table(voice.text(message("class.sharp-tools")), columns, rows),
        Heading(2, voice.say(message("class.other-tools"))),
        Listing(tuple(_tool(teller, tool) for tool in needed if not tool.sharp), kind="tick"),
        Heading(2, voice.say(message("class.room"))),
        Listing(tuple(voice.say(said) for said in _ROOM), kind="tick"),
    )
    return teller.document(name, blocks)


# Common practice of teachers, no source.
_ROOM = (
    message("class.room-tub"), message("class.room-refill"), message("class.room-aisle"), message("class.room-floor"),
    message("class.room-bucket"), message("class.room-first-aid"),
)  # fmt: skip


def _tool(teller: Teller, tool: Tool) -> Words:
    name = teller.voice.say(message("class.only", what=message(f"tools.{slug(tool.key)}")))
    use = teller.voice.say(message(f"tools.{slug(tool.key)}-use"))
    return (Strong(name), " ", *pieces_of(use))
