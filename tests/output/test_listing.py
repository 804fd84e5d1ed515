"""The list as it leaves the tool: JSON against its shipped schema, CSV read back, the table read as text."""

from __future__ import annotations

import csv
import io
import json
from datetime import date
from typing import Any

import jsonschema
import pytest
from msgspec.structs import replace
from tests.quantities.records import MATERIALS, WALE, band, material, reed, sized, woven
from tests.quantities.test_weaving import STAKE

from slath.language.pattern import Pattern
from slath.messages import Voice, message
from slath.notes import Note, Place, Severity
from slath.output.listing import VERSION, list_data, list_json, list_schema, rounded
from slath.output.listing_text import CSV_COLUMNS, list_csv, list_table
from slath.quantities.cutting import piece_of
from slath.quantities.proof import proof_rows
from slath.quantities.purchase import purchases
from slath.quantities.results import BorderRow, CountRow, Finished, Quantities
from slath.quantities.weaving import band_row, band_strands
from slath.units import Amount, Basis, worked


def amount(name: str, value: float, unit: Any = "mm", basis: Basis = Basis.GIVEN) -> Amount:
    """Make an amount without working."""
    return Amount(name, value, unit, basis)


SIZED = sized(
    materials={
        **MATERIALS,
        "rust": replace(MATERIALS["rust"], letter="R", title="=rust"),
        "slate": replace(material("slate", reed("4", 2.75)), letter="S"),
    }
)


def quantities() -> Quantities:
    """Make the list of a size with one piece, one wale in three colours and a border."""
    wale = woven(band(WALE, ("plain", "rust", "slate"), name="spiral"), 32, [600.0] * 12)
    runs = band_strands(wale, STAKE, SIZED)
    parts = (
        amount("into the base", 50.8),
        amount("up the side", 120.123),
        amount("border", 90.0, basis=Basis.ESTIMATED),
    )
    stakes = amount("stakes", 32, "count", Basis.COUNTED)
    piece = piece_of("stakes", "stakes", stakes, parts, SIZED, path=("stakes",), spare=2)
    needed = worked("stake needed for the border", 90.0, "mm", "reach + tail", parts[2])
    border = BorderRow(
        foot=False,
        reach=3,
        needed_mm=needed,
        parts=(parts[2],),
        loose_loops=(1, 2),
        thickness_mm=amount("thickness", 9.75),
    )
    finished = Finished(
        height=amount("height", 77.04),
        along=amount("along", 71.0),
        base_length=amount("base length", 203.2),
        base_width=amount("base width", 203.2),
        rim_length=amount("rim length", 254.0),
        rim_width=amount("rim width", 203.2),
        mass_g=None,
        height_with_handle=amount("height with handle", 250.0),
    )
    return Quantities(
        size="medium",
        stakes=stakes,
        working=stakes,
        base_spacing=amount("spacing at the base", 19.95),
        rim_spacing=amount("spacing at the rim", 22.44),
        counts=(CountRow("stakes", stakes, message("counts.stakes", count=32)),),
        pieces=(piece,),
        strands=runs,
        bands=(band_row(wale, runs, None),),
        purchase=purchases([piece], runs, SIZED),
        border=border,
        foot=None,
        finished=finished,
        tested="calculated, not yet woven",
    )


def pattern() -> Pattern:
    """Make a pattern of that one size."""
    return Pattern(
        file="weir.yaml", title="Weir basket", subtitle="", edition="1.0", dated=date(2026, 3, 1), designer="", workshop="",
        licence="", withheld=(), skill="", time="", about="", working_direction="left to right", units="inches", sizes=(SIZED,), accept=(),
        stages=(), tools=(), changes=(), packs={}, places={},
    )  # fmt: skip


NOTE = Note("estimated-pitch", Severity.WARNING, Place("weir.yaml", 12, 5), "The pitch is estimated.", "medium", "side")
OTHER = replace(NOTE, size="large")


def validator() -> jsonschema.Draft202012Validator:
    """Make a validator of the shipped schema."""
    return jsonschema.Draft202012Validator(list_schema())


def test_schema_is_a_2020_12_schema() -> None:
    """The shipped schema is valid against the JSON Schema 2020-12 meta-schema."""
    assert list_schema()["$schema"] == jsonschema.Draft202012Validator.META_SCHEMA["$id"]
    jsonschema.Draft202012Validator.check_schema(list_schema())


def test_list_follows_its_schema() -> None:
    """The JSON of a full list has no fault against the schema, and names its version."""
    data = list_data(pattern(), [quantities()], [NOTE, OTHER])
    assert [error.message for error in validator().iter_errors(data)] == []
    assert data["list"] == VERSION
    assert [note["line"] for note in data["sizes"][0]["notes"]] == [12], "a note on another size is not repeated here"


def test_a_list_says_nothing_of_the_machine_it_was_made_on() -> None:
    """Wherever the pattern lies and however it was named, the list is the same, and no folder is told to who gets it."""
    elsewhere = replace(pattern(), file="../orders/for Ada/weir.yaml")
    assert list_json(elsewhere, [quantities()], [NOTE]) == list_json(pattern(), [quantities()], [NOTE])


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("list",), 2),
        (("sizes", 0, "pieces", 0, "count"), 1.5),
        (("sizes", 0, "pieces", 0, "length_mm"), "20 in"),
        (("sizes", 0, "strands", 0, "rests_on", "length_mm"), "guessed"),
        (("sizes", 0, "bands", 0, "extra"), 1),
    ],
)
def test_schema_refuses_what_is_wrong(path: tuple[str | int, ...], value: object) -> None:
    """Another version, a fraction of a piece, text for a length, an unknown basis, an unknown key: each is a fault."""
    data = json.loads(list_json(pattern(), [quantities()]))
    place = data
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    assert list(validator().iter_errors(data))


def test_every_number_says_what_it_rests_on() -> None:
    """Beside every mm, g, count or ratio that was worked out stands its basis under the same key."""
    numbers = 0

    def walk(node: Any) -> None:
        nonlocal numbers
        if isinstance(node, dict):
            if isinstance(node.get("rests_on"), dict):
                for key in node["rests_on"]:
                    assert isinstance(node[key], int | float), key
                    numbers += 1
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for value in node:
                walk(value)

    walk(list_data(pattern(), [quantities()]))
    assert numbers > 50


def test_numbers_are_rounded_once_at_the_edge() -> None:
    """Millimetres leave with one decimal, counts whole, and a tiny negative is plain nought."""
    assert rounded(amount("length", 120.15)) == 120.2
    assert rounded(amount("length", 120.04)) == 120
    assert str(rounded(amount("length", -0.01))) == "0"
    assert rounded(amount("take-up", 1.04567, "ratio")) == 1.0457
    (size,) = list_data(pattern(), [quantities()])["sizes"]
    assert size["pieces"][0]["parts_mm"][1] == {"part": "up the side", "length_mm": 120.1, "rests_on": "given"}


def test_list_is_the_same_every_time() -> None:
    """The same list gives the same bytes."""
    assert list_json(pattern(), [quantities()]) == list_json(pattern(), [quantities()])


def test_csv_reads_back() -> None:
    """The CSV has its header, one row for each piece, strand and purchase, and the JSON's own numbers."""
    found = quantities()
    rows = list(csv.DictReader(io.StringIO(list_csv(pattern(), [found], Voice({})), newline="")))
    assert tuple(rows[0]) == CSV_COLUMNS
    assert [row["list"] for row in rows] == ["cut"] + ["weave"] * 3 + ["buy"] * 4
    assert rows[0]["length_mm"] == str(rounded(found.pieces[0].cut_mm))
    assert (rows[0]["count"], rows[0]["spare"]) == ("32", "2")
    bought = {row["material"]: row for row in rows if row["list"] == "buy"}
    assert bought["plain"]["packs"] == "1 × 1 lb coil"
    assert bought["slate"]["mass_g"] == "", "a stock of unknown mass has an empty cell"


def test_csv_text_is_never_a_formula() -> None:
    """A title that a spreadsheet would run as a formula is marked as text."""
    rows = list(csv.DictReader(io.StringIO(list_csv(pattern(), [quantities()], Voice({})), newline="")))
    assert {row["material"] for row in rows if row["letter"] == "R"} == {"'=rust"}


def test_table_reads_as_a_maker_would() -> None:
    """The table gives the count, the cut list with parts, strands, packs and the finished height in both units."""
    text = list_table(pattern(), [quantities()], Voice({}))
    assert text.splitlines()[3] == "32 stakes", (
        "the count as the last row of counts tells it, below how the size was tested"
    )
    assert "32 + 2 spare" in text
    assert "into the base 2 in (51 mm)" in text
    assert "1 × 1 lb coil" in text
    assert "height              3 in (75 mm)" in text
    assert all(line == line.rstrip() for line in text.splitlines())
    assert "75 mm (3 in)" in list_table(pattern(), [quantities()], Voice({}, first="mm"))


def test_proof_has_every_number_once_with_its_working() -> None:
    """Every amount of the list is in the proof, under its section, with formula and inputs."""
    found = quantities()
    rows = proof_rows(found)
    named = {(row.name, row.value) for row in rows}
    assert {(item.name, item.value) for item in found.amounts()} <= named
    keys = [(row.section, row.name, row.value) for row in rows]
    assert len(keys) == len(set(keys))
    (cut,) = [row for row in rows if row.name == "cut length, stakes"]
    assert cut.formula == "length needed, rounded up to the cut step"
    assert [item.name for item in cut.inputs] == ["length needed, stakes", "cut step inches"]
    assert cut.basis is Basis.ESTIMATED
