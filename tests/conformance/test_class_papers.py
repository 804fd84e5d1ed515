"""The papers of a class keep to PDF/UA-1 (ISO 14289-1:2014) and PDF/A-2a (ISO 19005-2:2011) by the veraPDF rule sets."""

from __future__ import annotations

from functools import cache

import pytest
from tests.classes.made import shipped
from tests.conformance.engine import missing, required, validate

from slath.booklet.styles import shipped as style
from slath.classes.papers import ClassOptions, papers_of
from slath.classes.students import basket_of, went_wrong_document, work_for
from slath.classes.telling import Teller
from slath.drawing.kept import KeptFigures
from slath.messages import Voice
from slath.output.pdf import set_document
from slath.work import BuildOptions

PAPERS = (
    "shopping-list.pdf", "cutting-plan.pdf", "packing-lists.pdf", "dye-sheets.pdf", "timetable.pdf", "running-script.pdf",
    "attendance.pdf", "tools.pdf", "labels.pdf",
)  # fmt: skip


@pytest.fixture(autouse=True)
def _engine() -> None:
    """Skip, or fail where the check is required, if the engine is not installed."""
    absent = missing()
    if absent and required():
        pytest.fail(f"the PDF rule sets cannot be checked: {absent}")
    if absent:
        pytest.skip(f"the PDF rule sets are not checked: {absent}")


@cache
def lists() -> dict[str, bytes]:
    """The lists and plans of the shipped class."""
    return dict(papers_of(shipped(), ClassOptions(("lists",)), lambda _: None))


@pytest.mark.parametrize("name", PAPERS)
def test_every_paper_conforms(name: str) -> None:
    """No rule is broken, and the engine really looked."""
    for verdict in validate(lists()[name], "ua1", "2a"):
        assert verdict.failures == ()
        assert verdict.checks > 300


def test_no_other_paper_is_left_out() -> None:
    """Every PDF among the lists is looked at."""
    assert {name for name in lists() if name.endswith(".pdf")} == set(PAPERS)


def test_the_page_on_what_went_wrong_conforms() -> None:
    """A form to fill in by hand, with a student's name on it."""
    made = shipped()
    teller, person = Teller(made, Voice({})), made.roster.record.people[0]
    work = work_for(teller, basket_of(person), BuildOptions(), lambda _: None, KeptFigures())
    for verdict in validate(set_document(went_wrong_document(teller, work, person), style("class"), "a4"), "ua1", "2a"):
        assert verdict.failures == ()
