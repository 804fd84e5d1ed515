"""Copies that say whose they are: on every page, in every style, and never as part of what is told."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.booklet.sample import booklet

from slath.booklet.flow import lay_out
from slath.booklet.laid import MM, Glyphs, Laid
from slath.booklet.styles import names, shipped
from slath.cli.making import Making
from slath.output.html import document_html
from slath.output.pdf import write_pdf
from slath.output.text import document_text
from slath.pipeline import CommandFaultError
from slath.work import LONGEST_NAME

LONGEST = ("Wilhelmina Wetherby-Marchbanks, " * 3)[:LONGEST_NAME]


def lines(laid: Laid) -> list[list[Glyphs]]:
    """The running words at the foot of each page."""
    return [
        [
            item
            for mark in page.marks
            if mark.pagination
            for item in mark.items
            if isinstance(item, Glyphs) and item.y > laid.height / 2
        ]
        for page in laid.pages
    ]


@pytest.mark.parametrize("name", names())
def test_every_page_says_whose_copy_it_is(name: str) -> None:
    """Even the longest name stands once on each page with anything on it, in the type area, clear of the foot below it."""
    style = shipped(name)
    laid = lay_out(replace(booklet(), copy_for=LONGEST), style)
    left = min(style.margins.inner, style.margins.outer) * MM
    for page, foot in zip(laid.pages, lines(laid), strict=True):
        said = [run for run in foot if run.text == f"Copy for {LONGEST}"]
        assert len(said) == (1 if page.marks else 0)
        for run in said:
            assert left - 0.1 <= run.x
            assert run.x + run.width <= laid.width - left + 0.1
            assert run.y < laid.height - 3 * MM
            assert all(abs(other.y - run.y) >= 0.8 * other.size for other in foot if other is not run)
            assert laid.height - run.y + 0.7 * run.size <= style.margins.bottom * MM, "below the column"


def test_a_name_is_no_part_of_what_is_told() -> None:
    """It is an artifact, so the structure of two copies is the same; the same name gives the same file."""
    mine, yours = (lay_out(replace(booklet(), copy_for=who), shipped("home")) for who in ("Ada", "Bea"))
    for page, other in zip(mine.pages, yours.pages, strict=True):
        assert [mark.items for mark in page.marks if mark.node] == [mark.items for mark in other.marks if mark.node]
    assert write_pdf(mine) == write_pdf(lay_out(replace(booklet(), copy_for="Ada"), shipped("home")))
    assert write_pdf(mine) != write_pdf(yours)


def test_text_and_web_page_say_it_once() -> None:
    """The name stands at their end, told as words and not as markup."""
    document = replace(booklet(), copy_for="Ada & <Bea>")
    assert document_text(document).endswith("\n\nCopy for Ada & <Bea>\n")
    assert document_html(document).count("Copy for Ada &amp; &lt;Bea&gt;") == 1
    assert "Copy for" not in document_text(booklet()) + document_html(booklet())


@pytest.mark.parametrize(("name", "said"), [("Ωmega", "U\\+03A9"), ("x" * (LONGEST_NAME + 1), "81")])
def test_a_name_no_page_can_show_is_refused(name: str, said: str) -> None:
    """Letters the fonts lack and names too long for a foot are the command's fault."""
    making = Making(
        editions=(), sections=(), sizes=(), style=None, paper=None, units=None, vocabulary="uk", language=None, left_handed=False,
        copy_for=name, workshop=None, out=None, overwrite=False, form="text",
    )  # fmt: skip
    with pytest.raises(CommandFaultError, match=said):
        making.options()
    assert replace(making, copy_for=" Ada\n Marsh ").options().copy_for == "Ada Marsh"
