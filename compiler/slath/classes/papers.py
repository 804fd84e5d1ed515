"""Every file of a class, by name: the teacher's lists and plans, and everybody's own papers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from slath.booklet.blocks import Document
from slath.classes.calendar import calendar_of
from slath.classes.day_papers import attendance_document, script_document, timetable_document, tools_document
from slath.classes.kit_papers import packing_document
from slath.classes.list_papers import cutting_document, dyeing_document, shopping_document
from slath.classes.listing import class_csv, class_json
from slath.classes.prepared import Prepared
from slath.classes.record import Person
from slath.classes.students import STUDENT_EDITIONS, Basket, basket_of, went_wrong_document, work_for
from slath.classes.telling import Teller
from slath.drawing.kept import KeptFigures
from slath.messages import Voice
from slath.output.naming import file_names
from slath.pipeline import CommandFaultError, instead
from slath.trade.words import UK, US
from slath.work import BuildOptions, Edition, Tell, Work, style_for

LISTS, PAPERS = "lists", "papers"
PARTS = (LISTS, PAPERS)
_STYLE = Edition("a paper of the class", lambda _work, _edition: iter(()), "handout")
Made = Iterator[tuple[str, bytes]]


@dataclass(frozen=True, slots=True)
class ClassOptions:
    """How a class is wanted: which parts (all, if none is named), in which words, measures and on what paper."""

    parts: tuple[str, ...] = ()
    paper: str = ""
    vocabulary: str = "uk"


_DOCUMENTS: Mapping[str, Callable[[Teller], Document | None]] = {
    "shopping-list": shopping_document,
    "cutting-plan": cutting_document,
    "packing-lists": packing_document,
    "dye-sheets": dyeing_document,
    "timetable": timetable_document,
    "running-script": script_document,
    "attendance": attendance_document,
    "tools": tools_document,
}


def refuse_unknown(options: ClassOptions) -> None:
    """Raise CommandFaultError for a part of a class's papers that there is not, or a paper its style is not made for."""
    for part in options.parts:
        if part not in PARTS:
            raise CommandFaultError(f"there is no part {part}{instead(part, PARTS)}")
    style_for(_STYLE, _build(options))


def steps_of(prepared: Prepared, options: ClassOptions) -> tuple[str, ...]:
    """What is made, step by step, as it is told while it is made."""
    wanted = options.parts or PARTS
    people = [person.name for person in prepared.roster.record.people]
    return (*([*_DOCUMENTS, "labels", "lists"] if LISTS in wanted else []), *(people if PAPERS in wanted else []))


def papers_of(prepared: Prepared, options: ClassOptions, tell: Tell) -> Made:
    """File names and contents of everything a class needs. Raises CommandFaultError as `refuse_unknown`."""
    refuse_unknown(options)
    wanted = options.parts or PARTS
    teller = _teller(prepared, options)
    if LISTS in wanted:
        yield from _lists(teller, options, tell)
    if PAPERS in wanted:
        yield from _papers(teller, options, tell)


def _build(options: ClassOptions) -> BuildOptions:
    return BuildOptions(paper=options.paper, vocabulary=options.vocabulary)


def _teller(prepared: Prepared, options: ClassOptions) -> Teller:
    vocabulary = US if options.vocabulary == "us" else UK
    return Teller(prepared, Voice({}, vocabulary, prepared.first))


# -------------------------------------------------------------------------------------------------- the teacher's own
def _lists(teller: Teller, options: ClassOptions, tell: Tell) -> Made:
    from slath.classes.label_sheet import label_sheets  # noqa: PLC0415 - reading a list needs no pages
    from slath.output.pdf import set_document  # noqa: PLC0415

    style = style_for(_STYLE, _build(options))
    paper = _paper(options)
    for name, make in _DOCUMENTS.items():
        tell(name)
        document = make(teller)
        if document is not None:
            yield f"{name}.pdf", set_document(document, style, paper)
    tell("labels")
    yield "labels.pdf", label_sheets(teller, style)
    tell("lists")
    yield "class-list.csv", class_csv(teller.prepared).encode()
    yield "class-list.json", class_json(teller.prepared).encode()
    yield "timetable.ics", calendar_of(teller.prepared.roster.record, teller.prepared.tasks)


# ------------------------------------------------------------------------------------------------------ the students'
def _papers(teller: Teller, options: ClassOptions, tell: Tell) -> Made:
    """Everybody's papers. Those who make the same basket share its words and drawings, and nothing else."""
    people = teller.prepared.roster.record.people
    names = file_names([person.name for person in people])
    kept = KeptFigures()
    told: dict[tuple[Basket, str], Document] = {}
    for basket in dict.fromkeys(basket_of(person) for person in people):
        work = work_for(teller, basket, _build(options), tell, kept)
        for person in people:
            if basket_of(person) != basket:
                continue
            tell(person.name)
            made = STUDENT_EDITIONS[person.prints]
            if (basket, person.prints) not in told:
                told[basket, person.prints] = made.tell(work, made.edition)
            own = replace(told[basket, person.prints], copy_for=person.name)
            yield f"people/{names[person.name]}-{made.ending}", made.set(work, made.edition, own)
            yield f"people/{names[person.name]}-what-went-wrong.pdf", _went_wrong(teller, work, person, options)


def _went_wrong(teller: Teller, work: Work, person: Person, options: ClassOptions) -> bytes:
    from slath.output.pdf import set_document  # noqa: PLC0415 - as above

    document = went_wrong_document(teller, work, person)
    return set_document(document, style_for(_STYLE, _build(options)), _paper(options))


def _paper(options: ClassOptions) -> str:
    """The paper asked for; else the one American readers have for American words, and that of all others."""
    return options.paper or ("letter" if options.vocabulary == "us" else "a4")
