"""A class file read: held against its schema, its patterns read, every name in it found or the nearest offered."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path as FilePath
from typing import cast

from msgspec import Struct
from msgspec.structs import replace

from slath.classes.hand import lengths_sold, read_in_hand
from slath.classes.record import (
    AS_WRITTEN,
    ClassFile,
    Hours,
    InHand,
    LabelGrid,
    Money,
    Person,
    Prints,
    Share,
    Spares,
)  # fmt: skip
from slath.language import read_pattern
from slath.language.checking import check
from slath.language.colourways import Colourway, read_colourway
from slath.language.document import Document, read_document
from slath.language.files import OutsideError, file_inside
from slath.language.pattern import Material, Pattern
from slath.language.schemas import schema
from slath.language.source import read_source
from slath.language.spelling import nearest, or_list
from slath.language.view import Reading, View
from slath.messages.told import Figure, Spoken, kept, word
from slath.notes import Note, PatternFaultError

USUAL_HOURS = (Hours(600, 780), Hours(840, 1020))  # ten to one and two to five; common practice, no source
USUAL_LEAD = 14  # days from order to delivery; estimated
OTHER = "other"
_HOURS = re.compile(r"(\d{1,2}):(\d\d) ?[-–] ?(\d{1,2}):(\d\d)")
GREATEST_CLASS = 200
_ITSELF = "it"  # the name of the only pattern where the file gives none
_LONGEST_NAME = 60  # letters of a person's name: what fits a label and the foot of a page


class ReadClass(Struct, frozen=True):
    """A class file with its patterns and what is in hand, and everything there is to say of them so far."""

    record: ClassFile
    patterns: Mapping[str, Pattern]
    in_hand: tuple[InHand, ...]
    lengths_sold: Mapping[str, float]
    notes: tuple[Note, ...]


def read_class(path: FilePath, *, workshop: FilePath | None = None) -> ReadClass:
    """The class in the file at `path`, with its patterns read.

    PatternFaultError, with every note found, where the file or a pattern leaves something that cannot be worked out;
    OSError where it cannot be opened.
    """
    document = read_document(read_source(path))
    notes, faulty, _ = check(document, schema("class"), ())
    reading = Reading(
        (), "", document.places, document.raw, document.inside, faulty | document.faulty, document.source.file
    )
    top = View(document.data, (), reading)
    patterns, strange = _patterns(top, path.parent, workshop)
    record = _record(top, document, patterns)
    materials = _materials(patterns)
    hand = read_in_hand(top.get("in_hand"), materials)
    sold = lengths_sold(top.get("pieces"), materials)
    found = [*document.notes, *notes, *reading.notes, *strange]
    if reading.incomplete or faulty or any(note.stops for note in found):
        raise PatternFaultError(_in_order(found))
    return ReadClass(record, patterns, hand, sold, _in_order(found))


def _in_order(notes: list[Note]) -> tuple[Note, ...]:
    return tuple(sorted(dict.fromkeys(notes), key=lambda note: note.place))


# ---------------------------------------------------------------------------------------------------------- patterns
def _patterns(top: View, folder: FilePath, workshop: FilePath | None) -> tuple[dict[str, Pattern], list[Note]]:
    """Every pattern the class makes, read; what stops one is told as it is when the pattern is checked by itself."""
    inner = top.get("patterns")
    if inner is None:
        return {}, []
    named = list(inner.entries()) if isinstance(inner.data, dict) else [(_ITSELF, inner)]
    patterns: dict[str, Pattern] = {}
    notes: list[Note] = []
    for name, view in named:
        try:
            found = _pattern(view, folder, workshop)
        except PatternFaultError as fault:
            notes += fault.notes
            view.reading.incomplete = True
            continue
        if found is not None:
            patterns[name] = found
    return patterns, notes


def _pattern(view: View, folder: FilePath, workshop: FilePath | None) -> Pattern | None:
    name = view.own_text()
    try:
        return read_pattern(file_inside(folder, name), workshop=workshop)
    except OutsideError:
        view.note(
            "outside-folder",
            kept("class-notes.is-outside-the-folder-of", name=name),
            kept("class-notes.keep-the-class-file-beside"),
        )
        return None
    except OSError as problem:
        there = sorted(path.name for path in folder.glob("*.yaml"))
        near = nearest(name, there)
        view.note(
            "file-not-read",
            kept("class-notes.the-pattern-cannot-be-read", name=name, strerror=problem.strerror),
            kept("class-notes.write", near=near) if near else kept("class-notes.put-it-beside-the-class"),
        )
        return None


def _materials(patterns: Mapping[str, Pattern]) -> dict[str, list[Material]]:
    """Every material of every pattern by its name, one for each pattern that has it."""
    found: dict[str, list[Material]] = {}
    for pattern in patterns.values():
        for key, material in pattern.sizes[0].materials.items():
            found.setdefault(key, []).append(material)
    return found


# ------------------------------------------------------------------------------------------------------- the record
def _record(top: View, document: Document, patterns: Mapping[str, Pattern]) -> ClassFile:
    colourways = _colourways(top, patterns)
    return ClassFile(
        file=document.source.file,
        title=top.text("class"),
        teacher=top.text("teacher"),
        place=top.text("place"),
        about=top.text("about"),
        patterns={name: pattern.file for name, pattern in patterns.items()},
        days=_days(top),
        hours=_hours(top),
        spares=_spares(top.get("spares")),
        lead=_lead(top.get("lead")),
        dyed_at_home=top.text("dyed", "at home") == "at home",
        pan_g=top.mass("pan"),
        colourways=colourways,
        people=_people(top, patterns, colourways),
        fee=_fee(top.get("fee")),
        labels=_labels(top.get("labels")),
        places=document.places,
    )


def _days(top: View) -> tuple[dt.date, ...]:
    days = tuple(day for day in top.each("on", View.own_day) if day is not None)
    return tuple(sorted(days))


def _hours(top: View) -> tuple[Hours, ...]:
    sittings = top.each("hours", _sitting)
    told = tuple(sitting for sitting in sittings if sitting is not None)
    for before, after in pairwise(told):
        if after.start < before.end:
            view = top.get("hours")
            if view is not None:
                view.note(
                    "hours-overlap",
                    kept("class-notes.one-sitting-begins-before-the"),
                    kept("class-notes.put-them-in-order"),
                )
            break
    return told or USUAL_HOURS


def _sitting(view: View) -> Hours | None:
    found = _HOURS.fullmatch(view.own_text())
    if found is None:
        view.reading.incomplete = True
        return None
    start, end = int(found[1]) * 60 + int(found[2]), int(found[3]) * 60 + int(found[4])
    if end <= start:
        view.note(
            "hours-overlap",
            kept("class-notes.ends-before-it-begins", text=view.own_text()),
            kept("class-notes.write-from-to-such-as"),
        )
        return None
    return Hours(start, end)


def _spares(view: View | None) -> Spares:
    if view is None:
        return Spares()
    strands = _percent(view.text("strands"))
    return Spares(
        given=True,
        kits=view.count("kits", 0, least=0),
        sticks=_share(view.text("sticks")),
        stakes=_share(view.text("stakes")),
        other=_share(view.text("other")),
        strands=strands,
        dyed=_percent(view.text("dyed")) if view.has("dyed") else strands,
    )


def _share(text: str) -> Share:
    if text.endswith("each"):
        return Share(each=int(text.split(maxsplit=1)[0]))
    return Share(share=_percent(text))


def _percent(text: str) -> float:
    return float(text.rstrip("% ")) / 100 if text else 0.0


def _lead(view: View | None) -> dict[str, int]:
    if view is None:
        return {OTHER: USUAL_LEAD}
    if not isinstance(view.data, dict):
        return {OTHER: _days_of_lead(view)}
    return {OTHER: USUAL_LEAD} | {name: _days_of_lead(item) for name, item in view.entries()}


def _days_of_lead(view: View) -> int:
    """A number of days, ``10 days`` or 10; 10.0 is a whole number to the schema too."""
    return int(float(view.own_text().split()[0]))


def _fee(view: View | None) -> Money | None:
    if view is None:
        return None
    amount, currency = view.own_text().split()
    return Money(float(amount), currency)


def _labels(view: View | None) -> LabelGrid:
    if view is None:
        return LabelGrid()
    grid = LabelGrid(
        view.text("sheet", "a4"),
        view.count("across", 1),
        view.count("down", 1),
        view.must_length("width"),
        view.must_length("height"),
        view.length("left", nought=True) or 0.0,
        view.length("top", nought=True) or 0.0,
        view.length("gap_across", nought=True) or 0.0,
        view.length("gap_down", nought=True) or 0.0,
    )
    wide, high = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}[grid.sheet]  # ISO 216; ANSI/ASME Y14.1
    right, foot = (corner + edge for corner, edge in zip(grid.corner(grid.on_a_sheet - 1), (grid.width, grid.height), strict=True))  # fmt: skip
    if right > wide + 0.5 or foot > high + 0.5:
        view.note(
            "labels-off-sheet",
            kept(
                "class-notes.the-labels-reach-mm-the",
                right=Figure(f"{right:.0f}"),
                foot=Figure(f"{foot:.0f}"),
                wide=Figure(f"{wide:.0f}"),
                high=Figure(f"{high:.0f}"),
            ),
            kept("class-notes.measure-the-sheet-again"),
            at_key=True,
        )
    if grid.width < 40 or grid.height < 24:
        view.note(
            "labels-off-sheet", kept("class-notes.labels-under-40-24-mm"), kept("class-notes.take-a-larger-label"),
            at_key=True,
        )  # fmt: skip
    return grid


# ------------------------------------------------------------------------------------------------------- colourways
def _colourways(top: View, patterns: Mapping[str, Pattern]) -> dict[tuple[str, str], Colourway]:
    found: dict[tuple[str, str], Colourway] = {
        (name, AS_WRITTEN): Colourway("as in the pattern", ()) for name in patterns
    }
    view = top.get("colourways")
    for name, listed in view.entries() if view is not None else ():
        if name not in patterns:
            _unknown(listed, "unknown-pattern", kept("class-notes.no-such-pattern", name=name), name, patterns)
            continue
        for title, item in listed.entries():
            found[name, title] = read_colourway(item, title, patterns[name].sizes[0].materials)
    return found


def _unknown(view: View, code: str, sentence: Spoken, name: str, known: Mapping[str, object]) -> None:
    near = nearest(name, known)
    view.note(code, sentence, kept("class-notes.write", near=near) if near else kept("class-notes.choose", known=or_list(known)) if known else kept("class-notes.name-one-first"),
              at_key=True)  # fmt: skip


# ----------------------------------------------------------------------------------------------------------- people
def _people(
    top: View, patterns: Mapping[str, Pattern], colourways: Mapping[tuple[str, str], Colourway]
) -> tuple[Person, ...]:
    people: list[Person] = []
    for alike in top.each("people", lambda view: _person(view, patterns, colourways)):
        people += alike
    if len(people) > GREATEST_CLASS:
        top.reading.note(
            "too-many-given",
            ("people",),
            kept("class-notes.the-class-has-people-it", people=len(people), greatest_class=GREATEST_CLASS),
        )
        del people[GREATEST_CLASS:]
    told: set[str] = set()
    for person in people:
        if person.named and person.name.casefold() in told:
            top.reading.note(
                "name-twice",
                person.path,
                kept("class-notes.two-people-are-called-their", person=person.name),
                kept("class-notes.add-the-first-letter-of"),
            )
        told.add(person.name.casefold())
    return tuple(_numbered(people))


def _numbered(people: list[Person]) -> list[Person]:
    """Places without a name are numbered through the class."""
    number, told = 0, []
    taken = {person.name.casefold() for person in people if person.named}
    for person in people:
        if not person.named:
            number += 1
            while f"place {number}" in taken:
                number += 1
            person = replace(person, name=f"Place {number}")  # noqa: PLW2901 - the same person, now with a number
        told.append(person)
    return told


def _person(
    view: View, patterns: Mapping[str, Pattern], colourways: Mapping[tuple[str, str], Colourway]
) -> list[Person]:
    """One entry: a person, or so many alike."""
    name = " ".join(view.text("name").split())
    count = view.count("count", 1, most=200)
    if not name and not view.has("count"):
        view.note(
            "missing-key", kept("class-notes.this-person-has-no-name"), kept("class-notes.add-name-or-count-while")
        )
    if name and view.has("count"):
        view.note(
            "choose-one",
            kept("class-notes.cannot-be-people", name=name, count=count),
            kept("class-notes.keep-name-or-count"),
            at_key=True,
        )
    if len(name) > _LONGEST_NAME:
        view.note(
            "name-form",
            kept("class-notes.a-name-can-have-letters", longest_name=_LONGEST_NAME, count=len(name)),
            kept("class-notes.shorten-it"),
        )
    makes = _chosen(view, "makes", "unknown-pattern", patterns, "pattern")
    sizes = {sized.size: None for sized in patterns[makes].sizes} if makes in patterns else {}
    size = _chosen(view, "size", "unknown-size", sizes, "size") if sizes else ""
    own = {title: None for pattern, title in colourways if pattern == makes and title != AS_WRITTEN}
    colourway = view.text("colourway")
    if colourway and colourway not in own and makes in patterns:
        inner = view.get("colourway")
        if inner is not None:
            _unknown(
                inner,
                "unknown-colourway",
                kept("class-notes.no-such-colourway", makes=makes, colourway=colourway),
                colourway,
                own,
            )
    person = Person(
        name=name,
        makes=makes,
        size=size,
        colourway=colourway,
        left_handed=view.yes("left_handed"),
        prints=cast("Prints", view.text("prints", "handout")),
        path=view.path,
        named=bool(name),
    )
    return [person] * count


def _chosen(view: View, key: str, code: str, known: Mapping[str, object], what: str) -> str:
    """The name under `key`, one of `known`; the only one there is where it is left out."""
    if not view.has(key):
        if len(known) == 1:
            return next(iter(known))
        if known:
            view.note(
                "missing-key",
                kept("class-notes.it-is-not-said-which", what=word(what)),
                kept("class-notes.add", key=key, known=or_list(known)),
            )
        return ""
    name = view.text(key)
    if name not in known and known:
        inner = view.get(key)
        if inner is not None:
            _unknown(inner, code, kept("class-notes.no-such", what=word(what), name=name), name, known)
    return name
