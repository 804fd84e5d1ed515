"""Test weaves: what a woven size teaches itself and the others, and by how much it was predicted wrongly.

The arithmetic is common practice, no source: rounds over the height they came to, and strand begun with less what was
left over. Each figure here is worked out by hand from what the tester wrote.
"""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from msgspec.structs import replace

from slath.language.pattern import WovenSize
from slath.messages import Voice
from slath.output.listing import list_data, list_schema
from slath.output.proof_text import proof_text
from slath.pipeline import CompiledSize, compile_pattern
from slath.quantities.prediction import misses
from slath.quantities.results import BandRow, TestRow
from slath.units import Basis

BASKET = """\
slath: 1
title: Tester's basket
dated: 2026-04-01
sizes: [small, medium, large]
{woven}
materials:
  sticks: {{stock: us round reed 8}}
  stakes: {{stock: us round reed 5}}
  plain: {{stock: us round reed 4}}
  rust: {{stock: us round reed 4, dye: rust, colour: "#cf8a62", marks: rings}}
  fine: {{stock: us round reed 2}}
base:
  kind: round slath
  diameter: {{small: 7 in, medium: 8 in, large: 9 in}}
  pierced: 5
  threaded: 5
  material: sticks
  weaving:
    - {{name: binding, weave: pairing, strands: fine, rounds: 3, worked: grouped}}
    - {{name: base, weave: pairing, strands: fine, to: edge}}
stakes: {{material: stakes, per_end: 2, depth: 2 in}}
side:
  height: {{small: 4 in, medium: 5 in, large: 6 in}}
  rim: {{diameter: {{small: 8 in, medium: 9 in, large: 10 in}}}}
  bands:
    - {{name: upsett, weave: three-rod wale, strands: plain, rounds: 3}}
    - {{name: wall, weave: pairing, strands: [rust, rust], to: top}}
border:
  passes:
    - [behind 2, out]
    - [before 3, in]
{more}
"""


def compiled(folder: Path, found: str = "", more: str = "", size: str = "medium") -> dict[str, CompiledSize]:
    """Every size of the basket, one of them woven with what was `found`."""
    woven = f"woven:\n  {size}: {{on: 2026-03-01, by: Marsh, {found}}}" if found else ""
    file = folder / "basket.yaml"
    file.write_text(BASKET.format(woven=woven, more=more), encoding="utf-8")
    return {item.name: item for item in compile_pattern(file).sizes}


def band(size: CompiledSize, name: str) -> BandRow:
    """The band called `name`."""
    return next(row for row in size.quantities.bands if row.name == name)


def row(size: CompiledSize, *key: str) -> TestRow:
    """The row of the form under `key`."""
    return next(item for item in size.quantities.test if item.key == key)


# -------------------------------------------------------------------------------------------------- height of a round
def test_rounds_over_the_height_they_came_to_are_the_pitch(tmp_path: Path) -> None:
    """Twenty rounds up 105 mm are 5.25 mm a round, measured by the tester on the day, and serve every size alike."""
    sizes = compiled(tmp_path, "rounds: {wall: 20}, band_heights: {wall: 105 mm}")
    for size in sizes.values():
        pitch = band(size, "wall").pitch
        assert pitch.value == pytest.approx(105 / 20)
        assert pitch.basis is Basis.MEASURED
        assert pitch.source == "measured on the medium size by Marsh on 2026-03-01"
        assert band(size, "upsett").pitch.basis is Basis.ESTIMATED


def test_another_stock_learns_nothing(tmp_path: Path) -> None:
    """Pairing in No. 4 up the side says nothing of pairing in No. 2 on the base."""
    size = compiled(tmp_path, "rounds: {wall: 20}, band_heights: {wall: 105 mm}")["medium"]
    assert band(size, "base").pitch.basis is Basis.ESTIMATED


def test_whole_height_teaches_the_one_band_that_is_left(tmp_path: Path) -> None:
    """Of 130 mm up the side 21 mm are the upsett's, measured; the rest is the wall's 18 rounds, straight up."""
    straight = "rounds: {upsett: 3, wall: 18}, band_heights: {upsett: 21 mm}, height: 130 mm, rim_diameter: 8 in"
    size = compiled(tmp_path, straight)["medium"]
    assert band(size, "upsett").pitch.value == pytest.approx(7.0)
    assert band(size, "wall").pitch.value == pytest.approx((130 - 21) / 18)
    assert band(size, "wall").pitch.basis is Basis.MEASURED


def test_bands_whose_round_is_known_keep_it(tmp_path: Path) -> None:
    """A wale measured on a test piece as 8 mm a round takes 24 mm of 130; what is left is the wall's, 18 rounds."""
    gauge = "gauge: [{weave: three-rod wale, strand: plain, rounds: 10, over: 80 mm}]"
    size = compiled(tmp_path, "rounds: {upsett: 3, wall: 18}, height: 130 mm, rim_diameter: 8 in", gauge)["medium"]
    assert band(size, "wall").pitch.value == pytest.approx((130 - 24) / 18)
    assert band(size, "wall").pitch.basis is Basis.MEASURED
    assert band(size, "upsett").pitch.value == pytest.approx(8.0)


def test_height_stands_on_a_slope(tmp_path: Path) -> None:
    """On a flare the rounds go up the side: a height of 120 mm with the rim 25 mm further out is 122.6 mm of weaving."""
    found = "rounds: {upsett: 3, wall: 18}, band_heights: {upsett: 21 mm}, height: 120 mm, rim_diameter: 253.2 mm"
    size = compiled(tmp_path, found)["medium"]
    assert band(size, "wall").pitch.value == pytest.approx(((120**2 + 25**2) ** 0.5 - 21) / 18, rel=1e-4)


def test_height_that_two_weaves_share_stays_an_estimate(tmp_path: Path) -> None:
    """With nothing but the whole height, wale and pairing are packed alike; the total is right, the shares estimated."""
    plain = compiled(tmp_path)["medium"]
    size = compiled(tmp_path, "rounds: {upsett: 3, wall: 17}, height: 130 mm, rim_diameter: 8 in")["medium"]
    upsett, wall = band(size, "upsett").pitch, band(size, "wall").pitch
    assert 3 * upsett.value + 17 * wall.value == pytest.approx(130)
    before = [band(plain, name).pitch.value for name in ("upsett", "wall")]
    assert upsett.value / wall.value == pytest.approx(before[0] / before[1])
    assert (upsett.basis, wall.basis) == (Basis.ESTIMATED, Basis.ESTIMATED)
    assert "measured on the medium size" in wall.source


def test_height_without_counted_rounds_teaches_nothing(tmp_path: Path) -> None:
    """Nobody knows how many rounds a wall has that goes to the top; its height alone is no measure of a round."""
    size = compiled(tmp_path, "band_heights: {wall: 105 mm}, height: 130 mm")["medium"]
    assert band(size, "wall").pitch.basis is Basis.ESTIMATED


def test_base_teaches_its_own_rounds(tmp_path: Path) -> None:
    """A base 8 mm wider than its rounds were reckoned to reach puts 4 mm more into the way out from the slath."""
    plain = compiled(tmp_path)["medium"]
    reached = row(plain, "base_diameter").predicted.value
    rounds = sum(int(band(plain, name).rounds.value) for name in ("binding", "base"))
    way = sum(band(plain, name).along.value for name in ("binding", "base"))
    found = f"rounds: {{binding: 3, base: {rounds - 3}}}, base_diameter: {reached + 8} mm"
    pitch = band(compiled(tmp_path, found)["medium"], "base").pitch
    assert pitch.value == pytest.approx((way + 4) / rounds)
    assert pitch.basis is Basis.MEASURED


def test_own_test_weave_holds_over_a_test_piece(tmp_path: Path) -> None:
    """A gauge of the pattern holds for sizes nobody wove; the woven size goes by what it found itself."""
    gauge = "gauge: [{weave: pairing, strand: rust, rounds: 10, over: 60 mm}]"
    sizes = compiled(tmp_path, "rounds: {wall: 20}, band_heights: {wall: 105 mm}", gauge)
    assert band(sizes["medium"], "wall").pitch.value == pytest.approx(5.25)
    assert band(sizes["large"], "wall").pitch.value == pytest.approx(6.0)


def test_pitch_in_the_pattern_is_left_alone(tmp_path: Path) -> None:
    """A pitch the designer gave for the band is no estimate, and nothing takes its place."""
    file = tmp_path / "basket.yaml"
    woven = "woven: {medium: {on: 2026-03-01, rounds: {wall: 20}, band_heights: {wall: 105 mm}}}"
    text = BASKET.format(woven=woven, more="").replace("to: top}", "to: top, pitch: 6 mm}")
    file.write_text(text, encoding="utf-8")
    assert all(band(size, "wall").pitch.value == 6.0 for size in compile_pattern(file).sizes)


def test_nearest_woven_size_teaches(tmp_path: Path) -> None:
    """Of two woven sizes the nearer one speaks for a third."""
    file = tmp_path / "basket.yaml"
    small, medium = (
        {"on": "2026-03-01", "rounds": {"wall": 20}, "band_heights": {"wall": f"{mm} mm"}} for mm in (100, 110)
    )
    woven = f"woven: {json.dumps({'small': small, 'medium': medium})}"
    file.write_text(BASKET.format(woven=woven, more=""), encoding="utf-8")
    found = [band(size, "wall").pitch.value for size in compile_pattern(file).sizes]
    assert found == pytest.approx([5.0, 5.5, 5.5])


# ------------------------------------------------------------------------------------------------------------ strand
def test_strand_taken_is_what_was_begun_with_less_what_is_left(tmp_path: Path) -> None:
    """A wall that took a tenth more strand than reckoned has a tenth more take-up, and the list says so for all sizes."""
    plain = compiled(tmp_path)["medium"]
    (run,) = [item for item in plain.quantities.strands if item.material == "rust"]
    rounds = int(band(plain, "wall").rounds.value)
    taken = run.ends_mm.value + 1.1 * (run.woven_mm.value + run.laps_mm.value)
    found = f"rounds: {{wall: {rounds}}}, used: {{rust: {taken + 3000} mm}}, left_over: {{rust: 3 m}}"
    sizes = compiled(tmp_path, found)
    for name, before in compiled(tmp_path).items():
        assert band(sizes[name], "wall").take_up.value == pytest.approx(1.1 * band(before, "wall").take_up.value)
    (learned,) = [item for item in sizes["medium"].quantities.strands if item.material == "rust"]
    assert learned.length_mm.value == pytest.approx(taken, rel=0.02)


def test_more_rounds_than_predicted_take_more_strand(tmp_path: Path) -> None:
    """Strand for two rounds more than predicted is no waste: the take-up stays what the geometry says."""
    plain = compiled(tmp_path)["medium"]
    (run,) = [item for item in plain.quantities.strands if item.material == "rust"]
    rounds = int(band(plain, "wall").rounds.value)
    taken = run.length_mm.value * (rounds + 2) / rounds
    size = compiled(tmp_path, f"rounds: {{wall: {rounds + 2}}}, used: {{rust: {taken} mm}}")["medium"]
    assert band(size, "wall").take_up.value == pytest.approx(band(plain, "wall").take_up.value, rel=0.02)


def test_material_of_two_weaves_is_settled_by_elimination(tmp_path: Path) -> None:
    """Rust goes into pairing alone; what it tells of pairing is taken off the plain, and the wale is what remains."""
    more = "handle: {kind: bow, material: sticks, rise: 6 in, lash: plain}"
    wall = "{name: wall, weave: pairing, strands: [rust, rust], to: top}"
    three = """{name: wall, weave: pairing, strands: [rust, rust], rounds: 10}
    - {name: top, weave: three-rod wale, strands: plain, rounds: 9}
    - {name: line, weave: pairing, strands: plain, rounds: 2}"""

    def build(found: str) -> CompiledSize:
        woven = f"woven: {{medium: {{on: 2026-03-01, {found}}}}}" if found else ""
        file = tmp_path / "basket.yaml"
        file.write_text(BASKET.format(woven=woven, more=more).replace(wall, three), encoding="utf-8")
        return next(item for item in compile_pattern(file).sizes if item.name == "medium")

    first = build("")
    runs = {item.band: item for item in first.quantities.strands if item.material in ("rust", "plain")}
    lashing = sum(item.count.value * item.cut_mm.value for item in first.quantities.pieces if item.material == "plain")
    going = {name: run.woven_mm.value + run.laps_mm.value for name, run in runs.items()}
    ends = {name: run.ends_mm.value for name, run in runs.items()}
    rust = ends["wall"] + 1.2 * going["wall"]
    wales = ends["upsett"] + ends["top"] + 1.05 * (going["upsett"] + going["top"])
    plain = lashing + wales + ends["line"] + 1.2 * going["line"]
    size = build(f"used: {{rust: {rust} mm, plain: {plain} mm}}")
    for name, factor in (("wall", 1.2), ("line", 1.2), ("upsett", 1.05), ("top", 1.05)):
        assert band(size, name).take_up.value == pytest.approx(factor * band(first, name).take_up.value, rel=1e-6), name


def test_weaves_that_share_a_material_share_what_it_tells(tmp_path: Path) -> None:
    """Plain goes into a wale and a pairing, and neither stands alone: both take a tenth more, as an estimate, and the list
    of the woven size is not below what was used, by a foot or by a tenth.
    """
    wall = "{name: wall, weave: pairing, strands: [rust, rust], to: top}"
    two = """{name: wall, weave: pairing, strands: [plain, plain], rounds: 10}
    - {name: top, weave: three-rod wale, strands: plain, rounds: 9}"""

    def build(found: str) -> CompiledSize:
        woven = f"woven: {{medium: {{on: 2026-03-01, {found}}}}}" if found else ""
        file = tmp_path / "basket.yaml"
        file.write_text(BASKET.format(woven=woven, more="").replace(wall, two), encoding="utf-8")
        return next(item for item in compile_pattern(file).sizes if item.name == "medium")

    first = build("")
    runs = [item for item in first.quantities.strands if item.material == "plain"]
    assert len({item.band for item in runs}) >= 3
    ends, going = sum(r.ends_mm.value for r in runs), sum(r.woven_mm.value + r.laps_mm.value for r in runs)
    size = build(f"used: {{plain: {ends + 1.1 * going} mm}}")
    for name in ("wall", "top", "upsett"):
        assert band(size, name).take_up.value == pytest.approx(1.1 * band(first, name).take_up.value, rel=1e-6), name
        assert band(size, name).take_up.basis is Basis.ESTIMATED, "no weave of the two was measured by itself"
    for share in (1.005, 1.1, 1.3, 1.6):
        used = ends + share * going
        assert build(f"used: {{plain: {used} mm}}").quantities.taken_mm()["plain"] >= used - 0.1


def test_absurd_figures_teach_nothing_and_are_told(tmp_path: Path) -> None:
    """Feet written for yards, grams for pounds: each is named with what was worked out, and the list stays as it was."""
    plain = compiled(tmp_path)["medium"]
    rounds = int(band(plain, "wall").rounds.value)
    found = f"rounds: {{wall: {rounds}}}, used: {{rust: 2 m}}, band_heights: {{wall: 5 mm}}, mass: 9 g, stake_cut: 20 in, stake_left: 19 in"
    size = compiled(tmp_path, found)["medium"]
    assert [Voice({}).text(doubt.what) for doubt in size.quantities.doubts] == [
        f"height that {rounds} rounds came to", "strand that pairing took", "stake that the border took",
        "weight of the basket",
    ]  # fmt: skip
    assert band(size, "wall").pitch == band(plain, "wall").pitch
    assert band(size, "wall").take_up.value == band(plain, "wall").take_up.value
    assert size.quantities.finished.mass_g == plain.quantities.finished.mass_g


# --------------------------------------------------------------------------------------------------- border and mass
def test_border_is_the_stake_less_its_parts_and_what_was_cut_off(tmp_path: Path) -> None:
    """Stakes cut to 16 in with 1 1/2 in cut off: the border took the rest, in this size alone."""
    sizes = compiled(tmp_path, "stake_cut: 16 in, stake_left: 1 1/2 in")
    stakes = next(piece for piece in sizes["medium"].quantities.pieces if piece.part == "stakes")
    parts = {part.name: part for part in stakes.parts}
    others = sum(parts[name].value for name in ("into the base", "up the side", "trim"))
    assert parts["border"].value == pytest.approx(16 * 25.4 - 1.5 * 25.4 - others)
    assert parts["border"].basis is Basis.MEASURED
    assert parts["hand hold"].value > 0
    other = compiled(tmp_path)
    for name in ("small", "large"):
        before, after = (item[name].quantities.border for item in (other, sizes))
        assert before is not None
        assert after is not None
        assert after.needed_mm == before.needed_mm


def test_weight_is_what_the_scales_say(tmp_path: Path) -> None:
    """A basket woven as listed weighs what it was found to weigh; with rounds added since, in proportion more."""
    plain = compiled(tmp_path)["medium"]
    rounds = int(band(plain, "wall").rounds.value)
    mass = compiled(tmp_path, f"rounds: {{wall: {rounds}}}, mass: 300 g")["medium"].quantities.finished.mass_g
    assert mass is not None
    assert mass.value == pytest.approx(300.0)
    assert mass.basis is Basis.MEASURED
    fewer = compiled(tmp_path, f"rounds: {{wall: {rounds - 3}}}, mass: 300 g")["medium"].quantities.finished.mass_g
    assert fewer is not None
    assert fewer.value > 300.0
    assert fewer.basis is Basis.ESTIMATED


# --------------------------------------------------------------------------------------------------------- prediction
def test_prediction_is_what_the_file_said_before(tmp_path: Path) -> None:
    """The miss is found less predicted, and predicted is what the file alone led to, though the list has learned since."""
    plain = compiled(tmp_path)["medium"]
    size = compiled(tmp_path, "rounds: {wall: 20}, band_heights: {wall: 105 mm}")["medium"]
    height = row(size, "band_heights", "wall")
    assert height.predicted.value == pytest.approx(band(plain, "wall").along.value)
    assert height.difference == pytest.approx(105 - band(plain, "wall").along.value)
    assert height.miss == pytest.approx(105 / band(plain, "wall").along.value - 1)
    assert row(size, "rounds", "wall").found == 20
    assert row(size, "mass").miss is None, "not measured"
    assert row(size, "rounds", "upsett").judged is False, "worked as told, so no prediction"


def test_summary_is_the_mean_and_the_greatest_miss(tmp_path: Path) -> None:
    """Three numbers missed by 0, 10 and 20 percent are missed by 10 on average, and most by the last."""
    plain = compiled(tmp_path)["medium"]
    rim, height, mass = (row(plain, key) for key in ("rim_diameter", "height", "mass"))
    rows = [
        replace(item, found=item.predicted.value * share) for item, share in ((rim, 1.0), (height, 1.1), (mass, 0.8))
    ]
    summary = misses([*rows, row(plain, "stake_left")])
    assert summary is not None
    assert (summary.compared, summary.worst.key) == (3, ("mass",))
    assert summary.mean == pytest.approx(0.1)
    assert misses([row(plain, "mass")]) is None


def test_form_asks_for_what_is_read(tmp_path: Path) -> None:
    """Every key of the form is one the reader knows, so that an entry with every box filled in is read without a note."""
    size = compiled(tmp_path)["medium"]
    found: dict[str, dict[str, str] | str] = {}
    for item in size.quantities.test:
        unit = {"mm": " mm", "g": " g"}.get(item.predicted.unit, "")
        value = f"{item.predicted.value:.6f}{unit}" if unit else f"{item.predicted.value:.0f}"
        if len(item.key) == 1:
            found[item.key[0]] = value
        else:
            table = found.setdefault(item.key[0], {})
            assert isinstance(table, dict)
            table[item.key[1]] = value
    entry = ", ".join(
        f"{key}: {{{', '.join(f'{name}: {told}' for name, told in value.items())}}}"
        if isinstance(value, dict)
        else f"{key}: {value}"
        for key, value in found.items()
    )
    filled = compiled(tmp_path, entry)["medium"]
    assert all(item.found is not None for item in filled.quantities.test)
    assert {item.key[0] for item in filled.quantities.test} >= {
        "rounds",
        "band_heights",
        "height",
        "mass",
        "used",
        "stake_left",
    }
    assert max(abs(item.miss) for item in filled.quantities.test if item.miss is not None) < 1e-6
    assert not filled.quantities.doubts


def test_form_filled_with_the_prediction_changes_nothing(tmp_path: Path) -> None:
    """A basket that came out just as predicted leaves every number of the list where it was."""
    size = compiled(tmp_path)["medium"]
    rounds = int(band(size, "wall").rounds.value)
    heights = {name: band(size, name).along.value for name in ("upsett", "wall")}
    (run,) = [item for item in size.quantities.strands if item.material == "rust"]
    found = (
        f"rounds: {{wall: {rounds}}}, band_heights: {{upsett: {heights['upsett']} mm, wall: {heights['wall']} mm}}, "
        f"used: {{rust: {run.length_mm.value} mm}}"
    )
    filled = compiled(tmp_path, found)["medium"]
    for before, after in zip(size.quantities.amounts(), filled.quantities.amounts(), strict=True):
        assert after.value == pytest.approx(before.value), before.name


def test_day_alone_teaches_nothing() -> None:
    """A size that was woven on a day, with nothing measured, is predicted as before and has nothing to compare."""
    from slath.quantities.learning import _measured  # noqa: PLC0415 - whether an entry says more than the day

    assert not _measured(WovenSize(("woven", "medium"), date(2026, 3, 1), by="Marsh", time="5 hours"))
    assert _measured(WovenSize(("woven", "medium"), date(2026, 3, 1), rounds={"wall": 20}))


def test_list_as_data_tells_predicted_found_and_missed(tmp_path: Path) -> None:
    """A program reads each number with what was predicted of it, under the keys the pattern is written in."""
    compiled(tmp_path, "rounds: {wall: 20}, mass: 300 g")
    compilation = compile_pattern(tmp_path / "basket.yaml")
    data = list_data(compilation.pattern, [size.quantities for size in compilation.sizes], ())
    Draft202012Validator(list_schema()).validate(data)
    told = {tuple(item["under"]): item for item in data["sizes"][1]["test_weave"]}
    mass = told[("mass",)]
    assert mass["found"] == 300.0
    assert mass["missed_share"] == pytest.approx(300.0 / mass["predicted"] - 1, abs=1e-3)
    assert told[("rounds", "wall")]["found"] == 20
    assert told[("height",)]["found"] is None
    assert {item["found"] for item in data["sizes"][0]["test_weave"]} == {None}


def test_proof_tells_predicted_found_and_missed(tmp_path: Path) -> None:
    """The proof prints each number both ways, and one line for every size."""
    compiled(tmp_path, "rounds: {wall: 20}, band_heights: {wall: 105 mm}, mass: 300 g")
    compilation = compile_pattern(tmp_path / "basket.yaml")
    text = proof_text(compilation.pattern, [size.quantities for size in compilation.sizes], (), Voice({}))
    predicted = row(compilation.sizes[1], "mass").predicted.value
    assert f"weight, finished and dry: predicted {predicted:.2f} g, found 300.00 g, missed by" in text
    assert "Prediction errors by size" in text
    assert "small: calculated, not yet woven; nothing measured to compare." in text
    assert "medium: woven 2026-03-01; 3 numbers compared, missed by" in text


def test_rods_taken_are_predicted_without_the_spare_ones(tmp_path: Path) -> None:
    """Two spare stakes are bought and not taken: 24 rods make 24 stakes; found 25, one was split."""
    shipped = Path(__file__).resolve().parents[2] / "patterns" / "withy-bed.yaml"
    text = shipped.read_text(encoding="utf-8")
    used = "woven: {small: {on: 2026-03-01, used: {stakes: 30}, left_over: {stakes: 5}}}\n"
    file = tmp_path / "withy.yaml"
    file.write_text(text + used, encoding="utf-8")
    (small, *_) = compile_pattern(file).sizes
    stakes = row(small, "used", "stakes")
    (bought,) = [item for item in small.quantities.purchase if item.material == "stakes"]
    assert (stakes.predicted.value, stakes.found) == (24, 25)
    assert bought.rods is not None
    assert bought.rods.value == 26
    assert not small.quantities.doubts
