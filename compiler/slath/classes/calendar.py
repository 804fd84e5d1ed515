"""The timetable as an iCalendar file (RFC 5545): a calendar keeps the days, in the clock time of wherever it is read."""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Sequence

from icalendar import Event

from slath.classes.record import ClassFile
from slath.classes.timetable import Task
from slath.messages import Voice

PRODUCT = "-//slath//class timetable//EN"


def calendar_of(record: ClassFile, tasks: Sequence[Task], voice: Voice) -> bytes:
    """Every task and every sitting of the class as an event. The same class gives the same bytes: the stamp is its day."""
    from icalendar import Calendar  # noqa: PLC0415 - only where a calendar is made

    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    for task in tasks:
        calendar.add_component(
            _event(record, task.key, voice.text(task.what), task.begins, task.kept_until, voice.text(task.why), "")
        )
    for number, day in enumerate(record.days, start=1):
        for place, sitting in enumerate(record.hours, start=1):
            begins, ends = (
                dt.datetime.combine(day, dt.time()) + dt.timedelta(minutes=minutes)
                for minutes in (sitting.start, sitting.end)
            )
            calendar.add_component(
                _event(record, f"sitting {number} {place}", record.title, begins, ends, record.about, record.place)
            )
    made: bytes = calendar.to_ical()
    return made


def _event(
    record: ClassFile, key: str, what: str, begins: dt.datetime, ends: dt.datetime, why: str, where: str
) -> Event:
    from icalendar import Event  # noqa: PLC0415 - as above

    event = Event()
    named = hashlib.sha256(f"{record.title}\n{record.days[0]}\n{key}".encode()).hexdigest()[:32]
    event.add("uid", f"{named}@slath")
    event.add("dtstamp", dt.datetime.combine(record.days[0], dt.time(), dt.UTC))
    event.add("summary", what)
    event.add("dtstart", begins)
    event.add("dtend", max(ends, begins + dt.timedelta(minutes=15)))
    if why:
        event.add("description", why)
    if where:
        event.add("location", where)
    return event
