"""What a class makes: lists that follow their schema, a calendar others can read, labels where the grid has them, papers
that tell nobody more than is theirs.
"""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import re
import shutil
from functools import cache
from pathlib import Path

import pypdf
import pytest
import vobject
from hypothesis import HealthCheck, given, settings
from jsonschema.validators import Draft202012Validator
from msgspec.structs import replace
from tests.classes.made import PATTERNS, SHIPPED, classes, of, shipped

from slath.classes.calendar import calendar_of
from slath.classes.listing import class_csv, class_data, class_json, class_list_schema
from slath.classes.papers import ClassOptions, begin_papers, papers_of
from slath.classes.prepared import Prepared, prepare
from slath.classes.record import LabelGrid
from slath.classes.running import where_the_slowest_stop
from slath.classes.timetable import mellow_minutes, soak_minutes, soaked_for
from slath.messages import Voice
from slath.pipeline import CommandFaultError
from slath.trade.stocks import find_stock

FEW = settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
POINTS = 72 / 25.4  # in a millimetre (ISO 32000-1, 8.3.2.3)


@cache
def lists() -> dict[str, bytes]:
    """The lists and plans of the shipped class."""
    return dict(papers_of(shipped(), ClassOptions(("lists",)), lambda _: None))


@cache
def words_of(name: str) -> str:
    """The words of one of its PDFs, on one line."""
    pages = pypdf.PdfReader(io.BytesIO(lists()[name])).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


# --------------------------------------------------------------------------------------------------------------- data
@FEW
@given(classes())
def test_the_json_follows_its_schema(made: Prepared) -> None:
    """The schema holds by its own meta-schema, and every class by the schema, with nothing unnamed."""
    schema = class_list_schema()
    Draft202012Validator.check_schema(schema)
    Draft202012Validator(schema).validate(json.loads(class_json(made)))


def test_the_csv_holds_what_the_json_does() -> None:
    """One row for every line of every kit, every sum and everything to buy; sums over the kits' rows are the class rows."""
    data, rows = class_data(shipped()), list(csv.DictReader(io.StringIO(class_csv(shipped()))))
    assert len(rows) == sum(len(kit["lines"]) for kit in data["kits"]) + len(data["sums"]) + len(data["to_buy"])
    stakes = [int(row["count"]) for row in rows if row["list"] == "kit" and row["part"] == "stakes"]
    assert sum(stakes) == sum(int(row["count"]) for row in rows if row["list"] == "class" and row["part"] == "stakes")
    assert sum(stakes) == 12 * 38 + 38 + 12 * 2  # twelve kits, one spare kit, two spare stakes each


def test_the_same_class_gives_the_same_bytes() -> None:
    """Nothing depends on the day or the run."""
    again = dict(papers_of(shipped(), ClassOptions(("lists",)), lambda _: None))
    assert again == lists()


# ----------------------------------------------------------------------------------------------------------- calendar
def test_another_reader_reads_the_calendar() -> None:
    """Every task and sitting is an event with a name of its own and the times of the timetable (RFC 5545, read by vobject)."""
    made = shipped()
    calendar = vobject.readOne(calendar_of(made.roster.record, made.tasks, Voice({})).decode())
    events = calendar.vevent_list
    assert len(events) == len(made.tasks) + 4  # two days of two sittings
    assert len({event.uid.value for event in events}) == len(events)
    read = {(event.summary.value, event.dtstart.value) for event in events}
    assert read >= {(Voice({}).text(task.what), task.begins) for task in made.tasks}
    assert all(event.dtstart.value < event.dtend.value for event in events)
    sittings = sorted(event.dtstart.value for event in events if event.summary.value == "A spiral at the weir")
    assert sittings[0] == dt.datetime(2027, 5, 15, 9, 30)  # noqa: DTZ001 - clock time of wherever the class is
    folded = calendar_of(made.roster.record, made.tasks, Voice({})).split(b"\r\n")
    assert all(len(line) <= 75 for line in folded)  # octets a line (RFC 5545, 3.1)


@FEW
@given(classes())
def test_soaking_keeps_to_the_table(made: Prepared) -> None:
    """What goes into water lies there as long as its booklet says, and is ready when its stage begins; brown willow has
    mellowed by then.
    """
    tasks = {task.key: task for task in made.tasks}
    seen = 0
    for run in made.runs:
        begins = {sitting.stage: sitting.begins for sitting in run.sittings}
        for stage, materials in soaked_for(run).items():
            for material in materials:
                found = [
                    task
                    for key, task in tasks.items()
                    if key.startswith("soak ") and key.endswith(f", {run.makes}, {stage}")
                ]
                start = begins[stage]
                if start is None:
                    continue
                seen += 1
                minutes = soak_minutes(material) + mellow_minutes(material)
                ends = start - dt.timedelta(minutes=mellow_minutes(material))
                assert any(task.begins <= start - dt.timedelta(minutes=minutes) and task.ends <= ends for task in found)
    assert seen


def test_brown_willow_soaks_for_days_and_mellows() -> None:
    """A grower's table: 3 ft brown lies three days, 9 ft nine, then a day wrapped; buff half an hour to three and a half."""
    made = of([{"name": "Ada", "makes": "withy", "size": "small"}])
    (run,) = made.runs
    soaked = {material.stock.name: material for materials in soaked_for(run).values() for material in materials}
    brown = soaked["brown willow 90 cm"]
    assert soak_minutes(brown) == pytest.approx(3 * 24 * 60, rel=0.02)
    assert mellow_minutes(brown) == 24 * 60
    assert find_stock("brown willow 90 cm") is not None
    begins = min(task.begins for task in made.tasks if "brown" in task.key and task.key.startswith("soak"))
    assert (made.roster.record.days[0] - begins.date()).days >= 4


def test_dyed_reed_is_dry_before_it_is_measured_off() -> None:
    """Dye, then two days to dry, then the bundles; three days in all before the class (from memory: trade practice)."""
    tasks = {task.key: task for task in shipped().tasks}
    for dye in ("moss", "rust", "slate", "wine"):
        dyed, dried = tasks[f"dye {dye}"], tasks[f"dry {dye}"]
        assert dyed.ends <= dried.begins
        assert dried.ends - dried.begins >= dt.timedelta(days=2)
        assert dried.ends <= tasks["measure"].begins
        assert shipped().roster.record.days[0] - dyed.begins.date() >= dt.timedelta(days=3)


def test_the_slowest_never_stop_in_a_border() -> None:
    """A border left half done dries so; everywhere the script lets somebody stop it says how the work is left."""
    for run in shipped().runs:
        for end in where_the_slowest_stop(shipped().roster, run):
            assert end.stage not in {"border", "pricking up"}
            assert end.rest


# ------------------------------------------------------------------------------------------------------------- labels
@pytest.mark.parametrize(
    "grid",
    [
        LabelGrid("a4", 2, 5, 99.0, 57.0, 6.0, 6.0),
        LabelGrid("a4", 3, 8, 63.5, 33.9, 7.2, 12.9, 2.5, 0.0),
        LabelGrid("letter", 2, 5, 101.6, 50.8, 4.0, 12.7, 4.8, 0.0),
    ],
)
def test_every_word_of_a_label_stands_on_its_label(grid: LabelGrid) -> None:
    """Measured in the PDF, in millimetres from the corner of the sheet: no word begins outside the label it belongs to."""
    made = shipped()
    record = replace(made.roster.record, labels=grid)
    data = dict(
        papers_of(replace(made, roster=replace(made.roster, record=record)), ClassOptions(("lists",)), lambda _: None)
    )
    reader = pypdf.PdfReader(io.BytesIO(data["labels.pdf"]))
    height = float(reader.pages[0].mediabox.height)
    names = [kit.name for kit in made.kits.all]
    assert len(reader.pages) == -(-len(names) // grid.on_a_sheet)
    corners = [grid.corner(place) for place in range(grid.on_a_sheet)]
    named: list[str] = []
    for page in reader.pages:
        found: list[tuple[str, float, float]] = []

        def note(
            text: str,
            _cm: object,
            matrix: list[float],
            _font: object,
            _size: float,
            into: list[tuple[str, float, float]] = found,
        ) -> None:
            if text.strip():
                into.append((text.strip(), matrix[4] / POINTS, (height - matrix[5]) / POINTS))

        page.extract_text(visitor_text=note)
        assert found
        for text, x, y in found:
            inside = [
                place for place, (left, top) in enumerate(corners)
                if left <= x <= left + grid.width and top <= y <= top + grid.height
            ]  # fmt: skip
            assert len(inside) == 1, (text, x, y)
            named += [text] if text in names else []
    assert sorted(set(named)) == sorted(set(names))
    preferences = reader.viewer_preferences
    assert preferences is not None
    assert str(preferences["/PrintScaling"]) == "/None"


# -------------------------------------------------------------------------------------------------------- the lists
def test_the_lists_say_what_the_class_comes_to() -> None:
    """Sums, packs and days of the data stand on the papers."""
    shopping = words_of("shopping-list.pdf")
    for row in shipped().shopping.rows:
        for pack in row.purchase.packs:
            assert f"{pack.count} × {pack.title}" in shopping
    assert "2027-05-01" in shopping
    assert "113.00 GBP" in shopping
    cutting = words_of("cutting-plan.pdf")
    assert all(kit.name in cutting for kit in shipped().kits.people)
    script = words_of("running-script.pdf")
    assert "a guess, from the time the pattern gives" in script
    assert "38 stakes stand up" in script
    attendance = words_of("attendance.pdf")
    assert all(person.name in attendance for person in shipped().roster.record.people)
    assert "large print" not in attendance.lower()  # what somebody needs is nobody else's affair
    assert "left-handed" not in attendance.lower()


def test_steps_are_those_that_are_told() -> None:
    """The bar of progress counts what is really made, in order."""
    told: list[str] = []
    begun = begin_papers(shipped(), ClassOptions(("lists",)))
    dict(begun.all(told.append))
    assert tuple(told) == begun.tasks
    assert len(told) == 10


def test_a_part_there_is_not_is_refused() -> None:
    """A name near the right one is offered."""
    with pytest.raises(CommandFaultError, match="lists"):
        dict(papers_of(shipped(), ClassOptions(("list",)), lambda _: None))


def test_numbers_on_the_labels_are_counts_alone() -> None:
    """A kit goes to its student: no length stands on its label."""
    assert not re.search(r"\d (?:in|mm|cm|ft|m)\b", words_of("labels.pdf"))


# -------------------------------------------------------------------------------------------------- times of stages
def test_times_rest_on_the_woven_notes_where_there_are_any(tmp_path: Path) -> None:
    """Nine hours noted at a test weave are nine hours of class; for beginners twice that; else the script calls it a guess."""
    for path in PATTERNS.glob("*.yaml"):
        shutil.copy(path, tmp_path)
    field = tmp_path / "weir-field.yaml"
    text = field.read_text("utf-8").replace(
        "# woven: {medium: 2026-03-01}", "woven: {large: {on: 2026-03-01, time: 9 hours}}"
    )
    field.write_text(text, "utf-8")
    for skill, hours in (("improver", 9), ("beginner", 18)):
        field.write_text(text.replace("skill: improver", f"skill: {skill}"), "utf-8")
        made = prepare(tmp_path / "otter-weir.class.yaml")
        assert isinstance(made, Prepared)
        (run,) = made.runs
        assert sum(sitting.minutes for sitting in run.sittings) == pytest.approx(hours * 60)
        assert Voice({}).text(run.rests_on).startswith("from the woven notes of large: 9 hours")
        assert bool(run.over_minutes) == (hours == 18)
        assert [note.code for note in made.notes] == (["hours-too-short"] if hours == 18 else [])
    assert "guess" in Voice({}).text(shipped().runs[0].rests_on)


def test_what_should_have_been_begun_is_told() -> None:
    """With the order due on 27 April, a teacher who asks on 1 May hears of it; one who asks in March does not."""
    for today, codes in (
        (dt.date(2027, 3, 1), []),
        (dt.date(2027, 5, 1), ["class-too-soon"]),
        (dt.date(2027, 6, 1), ["class-too-soon"]),
    ):
        made = prepare(SHIPPED, today=today)
        assert [note.code for note in made.notes] == codes
    late = prepare(SHIPPED, today=dt.date(2027, 5, 1)).notes[0]
    assert "should have been begun on 2027-04-27" in late.sentence
    assert "hold the class on 2027-05-19 or later" in late.remedies


def test_other_languages_tell_the_same_class() -> None:
    """In German the lists hold the same numbers, and no English sentence of the script is left."""
    german = dict(papers_of(shipped(), ClassOptions(("lists",), language="de"), lambda _: None))
    assert german["class-list.json"] == lists()["class-list.json"]
    pages = pypdf.PdfReader(io.BytesIO(german["shopping-list.pdf"])).pages
    told = " ".join(page.extract_text() for page in pages)
    assert "Einkaufsliste" in told
    assert "113.00 GBP" in told
