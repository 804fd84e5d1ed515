"""Every file of a class, by name: the teacher's lists and plans, and everybody's own papers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet.blocks import Document
from slath.classes.calendar import calendar_of
from slath.classes.day_papers import attendance_document, script_document, timetable_document, tools_document
from slath.classes.kit_papers import packing_document
from slath.classes.list_papers import cutting_document, dyeing_document, shopping_document
from slath.classes.listing import class_csv, class_json
from slath.classes.prepared import Prepared, language_of
from slath.classes.record import Person
from slath.classes.sharing import Shared
from slath.classes.students import STUDENT_EDITIONS, Basket, basket_of, went_wrong_document, work_for
from slath.classes.telling import Teller
from slath.drawing.kept import KeptFigures
from slath.messages import Language, Voice
from slath.output.naming import file_names
from slath.pipeline import CommandFaultError, instead
from slath.trade.words import UK, US
from slath.work import BuildOptions, Edition, Tell, style_for

LISTS, PAPERS = "lists", "papers"
PARTS = (LISTS, PAPERS)
_STYLE = Edition("a paper of the class", lambda _work, _edition: iter(()), "class")


class ClassOptions(Struct, frozen=True):
    """How a class is wanted: which parts (all, if none is named), in which words, measures and on what paper."""

    parts: tuple[str, ...] = ()
    paper: str = ""
    vocabulary: str = "uk"
    language: str = ""  # by its code; empty: as the first pattern asks


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
    style_for(_STYLE, BuildOptions(paper=options.paper))


def begin_papers(prepared: Prepared, options: ClassOptions) -> Shared:
    """Everything a class needs, begun: a task for each of the teacher's papers, and one for all who make the same basket.

    Raises CommandFaultError as `refuse_unknown`.
    """
    refuse_unknown(options)
    wanted = options.parts or PARTS
    teller = _teller(prepared, options)
    makers: dict[str, Callable[[], list[tuple[str, bytes]]]] = {}
    if PAPERS in wanted:  # first, for they take longest
        groups: dict[Basket, list[Person]] = {}
        for person in prepared.roster.record.people:
            groups.setdefault(basket_of(person), []).append(person)
        for basket, people in groups.items():
            makers[_names(people)] = partial(_papers, teller, options, basket, people)
    if LISTS in wanted:
        makers |= {name: partial(_paper, teller, options, name) for name in _DOCUMENTS}
        makers["labels"] = partial(_labels, teller, options)
        makers["lists"] = partial(_lists, teller)
    return Shared(tuple(makers), lambda task: makers[task]())


def papers_of(prepared: Prepared, options: ClassOptions, tell: Tell) -> Iterator[tuple[str, bytes]]:
    """File names and contents of everything a class needs. Raises CommandFaultError as `refuse_unknown`."""
    yield from begin_papers(prepared, options).all(tell)


def _names(people: Sequence[Person]) -> str:
    others = len(people) - 1
    return people[0].name + (f" and {others} more" if others else "")


def _build(options: ClassOptions, prepared: Prepared) -> BuildOptions:
    return BuildOptions(
        paper=options.paper, vocabulary=options.vocabulary, language=language_of(options.language, prepared.roster)
    )


def _teller(prepared: Prepared, options: ClassOptions) -> Teller:
    language = Language(language_of(options.language, prepared.roster))
    vocabulary = US if options.vocabulary == "us" else UK
    return Teller(prepared, Voice({}, vocabulary, language.first or prepared.first, language=language))


def _sheet(options: ClassOptions) -> str:
    """The paper asked for; else the one American readers have for American words, and that of all others."""
    return options.paper or ("letter" if options.vocabulary == "us" else "a4")


# -------------------------------------------------------------------------------------------------- the teacher's own
def _paper(teller: Teller, options: ClassOptions, name: str) -> list[tuple[str, bytes]]:
    from slath.output.pdf import set_document  # noqa: PLC0415 - reading a list needs no pages

    document = _DOCUMENTS[name](teller)
    if document is None:
        return []
    style = style_for(_STYLE, _build(options, teller.prepared))
    return [(f"{name}.pdf", set_document(document, style, _sheet(options)))]


def _labels(teller: Teller, options: ClassOptions) -> list[tuple[str, bytes]]:
    from slath.classes.label_sheet import label_sheets  # noqa: PLC0415 - as above

    return [("labels.pdf", label_sheets(teller, style_for(_STYLE, _build(options, teller.prepared))))]


def _lists(teller: Teller) -> list[tuple[str, bytes]]:
    prepared = teller.prepared
    return [
        ("class-list.csv", class_csv(prepared).encode()),
        ("class-list.json", class_json(prepared).encode()),
        ("timetable.ics", calendar_of(prepared.roster.record, prepared.tasks, teller.voice)),
    ]


# ------------------------------------------------------------------------------------------------------ the students'
def _papers(teller: Teller, options: ClassOptions, basket: Basket, people: Sequence[Person]) -> list[tuple[str, bytes]]:
    """The papers of all who make one basket: they share its words and drawings, and nothing else."""
    from slath.output.pdf import set_document  # noqa: PLC0415 - as above

    everyone = teller.prepared.roster.record.people
    names = file_names([person.name for person in everyone])
    build = _build(options, teller.prepared)
    work = work_for(teller, basket, build, lambda _: None, KeptFigures())
    style = style_for(_STYLE, build)
    told: dict[str, Document] = {}
    papers: list[tuple[str, bytes]] = []
    for person in people:
        made = STUDENT_EDITIONS[person.prints]
        if person.prints not in told:
            told[person.prints] = made.tell(work, made.edition)
        own = replace(told[person.prints], copy_for=person.name)
        wrong = went_wrong_document(teller, work, person)
        papers.append((f"people/{names[person.name]}-{made.ending}", made.set(work, made.edition, own)))
        papers.append((f"people/{names[person.name]}-what-went-wrong.pdf", set_document(wrong, style, _sheet(options))))
    return papers
