"""Styles: data that keep to their schema, papers of the standard sizes, contrast a reader with low vision can use."""

from __future__ import annotations

import pathlib
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from slath.booklet.blocks import Document, Figure
from slath.booklet.content import SECTIONS
from slath.booklet.flow import lay_out
from slath.booklet.laid import Drawing
from slath.booklet.papers import PAPERS, SHEET_OF
from slath.booklet.styles import Style, StyleError, folder, from_data, names, read, schema, shipped
from slath.drawing.scene import Path, Scene, Subpath, Text

LARGE_TEXT = 18.0  # points; WCAG 2.2, "large scale (text)"


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(first: str, second: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it."""
    lighter, darker = sorted((luminance(first), luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_agrees_with_the_published_extremes() -> None:
    """Black on white is 21:1 and a colour on itself 1:1 (WCAG 2.2, "contrast ratio")."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)  # the lightest AA grey, from memory


def test_the_schema_keeps_to_the_meta_schema() -> None:
    """The schema of styles is itself valid under JSON Schema 2020-12."""
    Draft202012Validator.check_schema(schema())
    assert schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_the_five_ways_to_print_are_shipped() -> None:
    """Home printer, saddle-stitched booklet, large print, greyscale handout, wall card."""
    assert set(names()) >= {"home", "booklet", "large-print", "handout", "wall-card"}


@pytest.mark.parametrize("name", names())
def test_text_keeps_the_contrast_of_level_aa(name: str) -> None:
    """All words have at least 4.5:1 on paper and on the tint, rules at least 1.5:1 so that they show in print."""
    colours = shipped(name).colours
    for colour in (colours.ink, colours.accent, colours.quiet):
        for ground in ("#ffffff", colours.tint):
            assert contrast(colour, ground) >= 4.5, (name, colour, ground)
    assert contrast(colours.rule, "#ffffff") >= 1.5


def test_large_print_is_eighteen_points_sans_left_aligned() -> None:
    """Large print: nothing below 18 points, sans serif throughout, one column, ragged, no hyphens."""
    style = shipped("large-print")
    type_ = style.type
    sizes = (type_.body, type_.small, type_.caption, type_.table, type_.lead, type_.heading_3)
    assert min(sizes) >= LARGE_TEXT
    assert {type_.text, type_.headings, type_.tables} == {"sans"}
    assert style.columns == 1
    assert not style.lines.justified
    assert not style.lines.hyphens


def test_the_greyscale_handout_has_no_colour() -> None:
    """Every colour of the handout is a grey."""
    colours = shipped("handout").colours
    for colour in (colours.ink, colours.accent, colours.quiet, colours.rule, colours.tint):
        assert len({colour[1:3], colour[3:5], colour[5:7]}) == 1


def test_papers_are_those_of_the_standards() -> None:
    """ISO 216:2007: A4 is 210 × 297 mm, A5 148 × 210 mm. Letter is 8½ × 11 in; half-letter is half of it."""
    a4, a5, letter, half = (PAPERS[name] for name in ("a4", "a5", "letter", "half-letter"))
    assert (a4.width, a4.height) == (210, 297)
    assert (a5.width, a5.height) == (148, 210)
    # ISO 216 builds the series by halving an area of 1 m² in the ratio 1:√2, rounding down to whole millimetres
    long, short = 1000 * 2**0.25, 1000 / 2**0.25
    for _ in range(4):
        long, short = short, long / 2
    assert (int(long + 0.5), int(short + 0.5)) == (int(a4.height), int(a4.width))
    assert (letter.width, letter.height) == pytest.approx((215.9, 279.4))
    assert (half.width, half.height) == pytest.approx((letter.height / 2, letter.width))
    for page, sheet in SHEET_OF.items():
        assert 2 * PAPERS[page].width <= PAPERS[sheet].height + 0.01
        assert PAPERS[page].height <= PAPERS[sheet].width + 0.01


@pytest.mark.parametrize("name", names())
def test_lines_of_running_text_can_be_read(name: str) -> None:
    """A line holds 30 to 115 characters of half an em, a sentence in a column of the grid 18 (common practice)."""
    style = shipped(name)
    for paper in style.paper:
        across = style.line_width(paper) * 72 / 25.4
        least = 18 if style.grid > 1 else 30  # a column of the grid holds single sentences, not running text
        assert least <= across / (0.47 * style.type.body) <= 115, (name, paper)


def data(name: str = "home") -> dict[str, Any]:
    """The mapping of a shipped style file."""
    loaded: dict[str, Any] = yaml.safe_load((folder() / f"{name}.yaml").read_text(encoding="utf-8"))
    return loaded


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"paper": ["foolscap"]}, "foolscap"),
        ({"colours": {**data()["colours"], "ink": "black"}}, "colours.ink"),
        ({"colour": {}}, "colour"),
        ({"columns": 9}, "columns"),
        ({"margins": {"inner": 1}}, "margins"),
        ({"text_width": 30}, "lessen margins"),
        ({"margins": {"inner": 9, "outer": 9, "top": 140, "bottom": 120}}, "lessen margins.top"),
        ({"sections": ["step"]}, "sections 1 must be cover"),
    ],
)
def test_a_faulty_style_is_refused_with_its_key(change: dict[str, Any], said: str) -> None:
    """What the schema refuses, and what leaves no room for text, is told with the name of the style and the key."""
    with pytest.raises(StyleError, match=said):
        from_data("mine", {**data(), **change})


@pytest.mark.parametrize(
    ("right", "wrong", "said"),
    [
        ("  body: 9.8", "  body: big", "type.body must be a number, not 'big'"),
        ("grid: 3", "gird: 3", "there is no key 'gird' here; did you mean grid?"),
        ('ink: "#231f1a"', 'ink: "dark"', "colours.ink must be a colour"),
        ("grid: 3", "grid: 0", "grid must be no less than 1, not 0"),
        ("two_sided: true", "two_sided: maybe", "two_sided must be yes or no, not 'maybe'"),
        ("tables: fit", "tables: boxed", "tables must be grid, list or fit, not 'boxed'"),
        ("tables: fit", "tables: fit\nsections: [[", "this is no readable YAML"),
    ],
)
def test_a_fault_is_told_with_its_line(tmp_path: pathlib.Path, right: str, wrong: str, said: str) -> None:
    """A style of one's own with one slip: the message opens with the file and the line of the slip, and says what is right."""
    text = (folder() / "home.yaml").read_text(encoding="utf-8")
    assert right in text
    mine = tmp_path / "mine.yaml"
    mine.write_text(text.replace(right, wrong), encoding="utf-8")
    line = next(number for number, words in enumerate(text.splitlines(), 1) if right in words)
    with pytest.raises(StyleError) as told:
        read(mine)
    file, where, words = str(told.value).split(":", 2)
    assert file == "mine.yaml"
    assert said in words
    assert line <= int(where) <= line + 2  # YAML notices an open bracket where the file ends


def test_the_sections_a_style_may_name_are_those_there_are() -> None:
    """The schema lists the sections of booklets and those of other editions; a section never made could not be missed."""
    assert set(schema()["properties"]["sections"]["items"]["enum"]) == {*SECTIONS, "title", "notes", "proof"}


def test_a_style_is_a_file(tmp_path: pathlib.Path) -> None:
    """A file of one's own is read like a shipped one; broken YAML is named."""
    mine = tmp_path / "mine.yaml"
    mine.write_text(
        (folder() / "home.yaml").read_text(encoding="utf-8").replace("Home printer", "Mine"), encoding="utf-8"
    )
    style = read(mine)
    assert isinstance(style, Style)
    assert (style.name, style.title) == ("mine", "Mine")
    mine.write_text("a: [", encoding="utf-8")
    with pytest.raises(StyleError, match=r"mine\.yaml"):
        read(mine)


def test_an_unknown_style_names_the_known_ones() -> None:
    """The error for a style that is not there lists those that are."""
    with pytest.raises(StyleError, match="large-print"):
        shipped("fancy")


@pytest.mark.parametrize("name", names())
def test_a_figure_drawn_for_the_room_is_printed_as_it_is(name: str) -> None:
    """A figure as wide and tall as the style says is not scaled down, nor its labels with it."""
    for paper in shipped(name).paper:
        width, height, label = shipped(name).figure_room(paper)
        line = Path((Subpath(((0, 0), (width, height))),), stroke="#000000")
        scene = Scene("s", "s", "s", width, height, (line, Text(9, 9, "1", label)))
        laid = lay_out(Document("t", (Figure(scene, "A caption."),)), shipped(name), paper)
        (drawing,) = (
            item for page in laid.pages for mark in page.marks for item in mark.items if isinstance(item, Drawing)
        )
        assert drawing.scale >= 0.999999
