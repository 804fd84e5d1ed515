"""Variants of one file, against the same basket written out as a file of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from slath.language.document import read_document
from slath.language.source import Source
from slath.language.variants import as_variant, overlaid
from slath.output.listing import list_json
from slath.pipeline import CommandFaultError, compile_pattern, compile_variants, notes_of_all

HEAD = """slath: 1
title: Ferry trial
sizes: [small, large]
measures: {wide: {small: 7 in, large: 9 in}}
"""
MATERIALS = """materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: us round reed 5}
  plain: {stock: us round reed 4, letter: P}
  other: {stock: us round reed 4, dye: DYE, letter: S, colour: "#2c4452"}
  bow: {stock: us round reed 12}
"""
REST = """base: {kind: round slath, diameter: wide, pierced: 4, threaded: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 5 in, bands: [{name: wall, weave: three-rod wale, strands: [plain, plain, other], to: top, looks: steps right}]}
"""
BORDER = "border: {passes: [[behind 2, out], [before 3, in]]}\n"
HANDLE = "handle: {kind: bow, material: bow, rise: 6 in}\n"
VARIANTS = """variants:
  with a handle: {}
  without:
    leave_out: [handle]
  rolled:
    border: {kind: plain, rods: 3}
  in rust:
    materials: {other: {dye: rust}}
  all one colour:
    materials: {other: {stock: us round reed 4, dye: , letter: P}}
"""


def written(folder: Path, text: str, name: str = "trial") -> Path:
    """A file of this text."""
    file = folder / f"{name}.yaml"
    file.write_text(text, "utf-8")
    return file


def listed(file: Path, variant: str = "") -> str:
    """The list of a file as JSON, without what names the file, the variant and its lines."""
    compilation = compile_pattern(file, variant=variant)
    text = list_json(compilation.pattern, [size.quantities for size in compilation.sizes], ())
    return "\n".join(line for line in text.splitlines() if '"line"' not in line and '"column"' not in line)


@pytest.mark.parametrize(
    ("variant", "alone"),
    [
        ("with a handle", HEAD + MATERIALS.replace("DYE", "slate") + REST + BORDER + HANDLE),
        ("without", HEAD + MATERIALS.replace("DYE", "slate") + REST + BORDER),
        ("rolled", HEAD + MATERIALS.replace("DYE", "slate") + REST + "border: {kind: plain, rods: 3}\n" + HANDLE),
        ("in rust", HEAD + MATERIALS.replace("DYE", "rust") + REST + BORDER + HANDLE),
    ],
)
def test_a_variant_is_the_basket_written_out(variant: str, alone: str, tmp_path: Path) -> None:
    """Whatever is listed of a variant is listed of a file that says the same without variants."""
    shared = HEAD + MATERIALS.replace("DYE", "slate") + REST + BORDER + HANDLE + VARIANTS.rsplit("  all one", 1)[0]
    assert listed(written(tmp_path, shared), variant) == listed(written(tmp_path, alone))


def test_the_first_variant_is_meant_where_none_is_named(tmp_path: Path) -> None:
    """No name is the first; another than those listed is refused with the nearest."""
    file = written(
        tmp_path, HEAD + MATERIALS.replace("DYE", "slate") + REST + BORDER + HANDLE + VARIANTS.rsplit("  all one", 1)[0]
    )
    assert listed(file) == listed(file, "with a handle")
    with pytest.raises(CommandFaultError, match="no variant witout; did you mean without"):
        compile_pattern(file, variant="witout")


def test_a_fault_in_a_variant_has_its_place_and_its_name(tmp_path: Path) -> None:
    """A colourway that loses what a band promises to look like is told of at the band, and of that variant alone."""
    variants = "variants:\n  two colours: {}\n  one colour:\n    side: {height: 5 in, bands: [{name: wall, weave: three-rod wale, strands: plain, to: top, looks: steps right}]}\n"
    text = HEAD + MATERIALS.replace("DYE", "slate") + REST + BORDER + variants
    notes = [note for note in notes_of_all(compile_variants(written(tmp_path, text))) if note.code == "looks-not-kept"]
    assert notes
    line = next(number for number, each in enumerate(text.splitlines(), start=1) if "one colour" in each) + 1
    assert {note.place.line for note in notes} == {line}
    assert all("one colour" in note.size for note in notes)


def test_a_colourway_is_laid_over_from_another_file(tmp_path: Path) -> None:
    """`overlaid` takes values at their places in another document: what a class file does with a colourway."""
    source = Source(str(tmp_path / "a.yaml"), "materials: {other: {dye: slate, colour: '#111111'}}\ntitle: A\n")
    other = Source(str(tmp_path / "b.yaml"), "# a remark\ncolourway: {materials: {other: {dye: rust}}}\n")
    pattern, given = read_document(source), read_document(other)
    laid = overlaid(pattern, given.data["colourway"], ("colourway",), given)
    assert laid.data["materials"]["other"] == {"dye": "rust", "colour": "#111111"}
    assert pattern.data["materials"]["other"]["dye"] == "slate"
    assert laid.places["materials", "other", "dye"][1].file == other.file
    assert laid.places["materials", "other", "dye"][1].line == 2
    assert laid.places["materials", "other", "colour"][1].line == 1


def test_leaving_out_what_is_not_there_is_told(tmp_path: Path) -> None:
    """A variant that leaves out a part the pattern has not got changes nothing, and says so."""
    document = read_document(Source(str(tmp_path / "a.yaml"), "border: {}\nvariants:\n  one: {leave_out: [bordr]}\n"))
    (note,) = as_variant(document, "one").notes
    assert note.code == "variant-changes-nothing"
    assert note.remedies == ("write border",)
    assert note.place.line == 3


def test_a_variant_is_woven_by_itself(tmp_path: Path) -> None:
    """A size of one variant that somebody has woven is no longer called unwoven there, and still is in the other."""
    text = HEAD + MATERIALS.replace("DYE", "slate") + REST + BORDER
    text += "variants:\n  plain: {}\n  proved: {subtitle: proved, woven: {large: 2026-03-01}}\n"
    file = written(tmp_path, text)
    unwoven = {
        name: [note.size for note in compile_pattern(file, variant=name).notes if note.code == "size-not-woven"]
        for name in ("plain", "proved")
    }
    assert unwoven["proved"] == ["small"]
    assert "large" in " ".join(unwoven["plain"])
    assert not [note for note in compile_pattern(file, variant="proved").notes if note.stops]
