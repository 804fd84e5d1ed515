"""What each key becomes: the records a pattern is resolved into, for every size, with their places."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from tests.language.fragments import codes_of, notes_of, read, read_one

from slath.language.pattern import (
    Band,
    Board,
    Extent,
    Frame,
    Move,
    Outline,
    OvalSlath,
    ReadyMade,
    RoundSlath,
    StakeChange,
    Stroke,
)
from slath.units import Basis

# Lengths below are exact conversions: 1 in = 25.4 mm (NIST SP 811, 2008, B.8).


def _bands(fragment: str, folder: Path) -> list[Band]:
    side = read_one(fragment, folder).side
    assert side is not None
    return [band for band in side.bands if isinstance(band, Band)]


# --------------------------------------------------------------------------------------------------------------- base
@pytest.mark.parametrize(
    ("said", "pierced", "threaded"),
    [
        ("pierced: 5, threaded: 5", 5, 5),
        ("pierced: 5", 5, 5),
        ("pierced: 4, threaded: 3", 4, 3),
        ("sticks: 8", 4, 4),
        ("sticks: 9", 5, 4),
    ],
)
def test_round_slath_counts(said: str, pierced: int, threaded: int, tmp_path: Path) -> None:
    """5 through 5 may be said by both counts, by one, or by the sticks in all, the larger half pierced."""
    base = read_one(f"base: {{kind: round slath, diameter: 6 in, material: sticks, {said}}}", tmp_path).base
    assert isinstance(base, RoundSlath)
    assert (base.pierced, base.threaded, base.outline) == (pierced, threaded, Outline("circle", 152.4, 152.4))


def test_round_slath_details(tmp_path: Path) -> None:
    """Half stick, centre, sticks laid together, lengths and crown of a round slath come through as said."""
    base = read_one(
        "base: {kind: round slath, diameter: 5 in, sticks: 16, material: sticks, half_stick: yes, centre: crossed, laid_together: 4,"
        " become_stakes: true, stick_length: 20 in, half_stick_length: 11 in, stick_trim: 0, crown: 1/4 in}",
        tmp_path,
    ).base
    assert isinstance(base, RoundSlath)
    assert (base.half_stick, base.centre, base.laid, base.become_stakes) == (True, "crossed", 4, True)
    assert (base.stick_length_mm, base.half_stick_length_mm, base.stick_trim_mm) == (508.0, 279.4, 0.0)
    assert base.crown_mm == 6.35


def test_oval_slath(tmp_path: Path) -> None:
    """Lengthwise and crosswise sticks keep their groups and materials; the cross sticks are pierced unless said."""
    said = "base: {kind: oval slath, length: 11 in, width: 7 in, material: sticks, lengthwise: {sticks: 4, material: stakes%s}, crosswise: {%s}}"
    base = read_one(said % (", groups: [2, 2]", "groups: [2, 1, 2], field: 5 in"), tmp_path).base
    assert isinstance(base, OvalSlath)
    assert (base.lengthwise, base.groups, base.lengthwise_groups) == (4, (2, 1, 2), (2, 2))
    assert (base.lengthwise_material, base.crosswise_material, base.pierced) == ("stakes", "sticks", "crosswise")
    assert (base.outline.shape, base.outline.length_mm, base.outline.width_mm, base.field_mm) == (
        "ellipse",
        279.4,
        177.8,
        127.0,
    )
    plain = read_one(said % ("", "sticks: 5, pierced: no"), tmp_path).base
    assert isinstance(plain, OvalSlath)
    assert (plain.groups, plain.pierced) == ((1, 1, 1, 1, 1), "none")
    turned = read_one(said % (", pierced: yes", "sticks: 5"), tmp_path).base
    assert isinstance(turned, OvalSlath)
    assert turned.pierced == "lengthwise"


def test_board_with_its_defaults(tmp_path: Path) -> None:
    """A board without more said is a quarter inch thick, its holes 3/8 in from the edge (Gill 1916, model 50)."""
    base = read_one("base: {kind: board, length: 12 in, width: 10 in, holes: {count: 45}}", tmp_path).base
    assert isinstance(base, Board)
    assert (base.outline.shape, base.thickness_mm, base.holes) == ("rectangle", 6.35, 45)
    assert base.inset_mm == pytest.approx(9.525)
    round_board = read_one("base: {kind: board, diameter: 10 in, holes: {spacing: 3/4 in, inset: 0}}", tmp_path).base
    assert isinstance(round_board, Board)
    assert (round_board.hole_spacing_mm, round_board.inset_mm, round_board.outline.shape) == (19.05, 0.0, "circle")


def test_frame_and_ready_made(tmp_path: Path) -> None:
    """A frame keeps its sticks both ways; of a ready-made base only outline and ends are known."""
    frame = read_one(
        "base: {kind: frame, length: 9 in, width: 6 in, material: sticks, lengthwise: {sticks: 9}, crosswise: {sticks: 13}, doubled_ends: yes}",
        tmp_path,
    ).base
    assert isinstance(frame, Frame)
    assert (frame.lengthwise, frame.crosswise, frame.doubled_ends, frame.corner_posts) == (9, 13, True, None)
    ready = read_one("base: {kind: ready made, diameter: 6 in, ends: 24, made_of: elm}", tmp_path).base
    assert isinstance(ready, ReadyMade)
    assert (ready.ends, ready.words) == (24, "elm")


# --------------------------------------------------------------------------------------------------------------- side
def test_rim_takes_its_shape_from_the_base(tmp_path: Path) -> None:
    """A rim given by length and width is shaped as the base where that is no circle, an ellipse where it is."""
    board = "base: {kind: board, length: 12 in, width: 10 in, holes: {count: 45}}\n"
    side = "side: {rim: {length: 13 in, width: 11 in}, bands: [{weave: pairing, strands: plain, rounds: 2}]}"
    over_board, over_round = read_one(board + side, tmp_path).side, read_one(side, tmp_path).side
    assert over_board is not None
    assert over_board.rim is not None
    assert over_round is not None
    assert over_round.rim is not None
    assert (over_board.rim.shape, over_round.rim.shape) == ("rectangle", "ellipse")


def test_waist_draws_in_and_belly_swells(tmp_path: Path) -> None:
    """A swell is outwards for a belly and inwards for a waist; a list of outlines makes a profile of points."""
    text = "side: {height: 4 in, profile: %s, bands: [{weave: pairing, strands: plain, to: top}]}"
    for profile, swell in (("belly, swell: 1 in", 25.4), ("waist, swell: 1 in", -25.4), ("bowl", 0.0)):
        side = read_one(text % profile, tmp_path).side
        assert side is not None
        assert side.belly_mm == swell
    pointed = read_one(text % "[{height: 0, diameter: 6 in}, {height: 4 in, diameter: 8 in}]", tmp_path).side
    assert pointed is not None
    assert pointed.profile == "points"
    assert [(point.height_mm, point.outline.width_mm) for point in pointed.points] == [(0.0, 152.4), (101.6, 203.2)]


@pytest.mark.parametrize(
    ("said", "extent"),
    [
        ("rounds: 3", Extent(rounds=3)),
        ("height: 2 in", Extent(height_mm=50.8)),
        ("to: top", Extent(to="top")),
    ],
)
def test_band_extent(said: str, extent: Extent, tmp_path: Path) -> None:
    """A band goes a number of rounds, a height, or to the top."""
    (band,) = _bands(f"side: {{height: 4 in, bands: [{{weave: pairing, strands: plain, {said}}}]}}", tmp_path)
    assert band.extent == extent
    assert (band.name, band.part, band.groups, band.shift, band.keep) == ("band 1", "side", 1, 0, "rounds")


def test_band_details(tmp_path: Path) -> None:
    """Strands stay in order; measured pitch and take-up are marked measured; a figure keeps rows, stakes and strokes."""
    (band,) = _bands(
        "side:\n  bands:\n    - {name: leaves, weave: randing, strands: [plain], rounds: 10, worked: in twos, shift: 1, step_up: yes,"
        " reversed: yes, keep: height, pitch: 2.2 mm, take_up: 1.08, working_length: 10 ft, looks: steps left, note: Slowly.,"
        " figure: [{rows: 1 to 4, stakes: 5, weave: over 3 under 1}]}",
        tmp_path,
    )
    assert (band.groups, band.shift, band.step_up, band.reversed, band.keep, band.looks) == (
        2,
        1,
        True,
        True,
        "height",
        "steps left",
    )
    assert band.pitch is not None
    assert band.take_up is not None
    assert (band.pitch.value, band.pitch.basis, band.take_up.value, band.working_length_mm) == (
        2.2,
        Basis.MEASURED,
        1.08,
        3048.0,
    )
    assert (band.cells[0].rows, band.cells[0].stakes, band.cells[0].strokes) == ((1, 4), (5, 5), (Stroke(3, 1),))


def test_arrow_and_chain_are_bands_of_their_own(tmp_path: Path) -> None:
    """An arrow is half its rounds straight and half reversed; a chain turns at every round."""
    text = "side: {bands: [{name: fish, weave: %s, strands: [plain, rust, slate], rounds: 4}]}"
    arrow = _bands(text % "three-rod arrow", tmp_path)
    assert [(band.name, band.extent.rounds, band.reversed) for band in arrow] == [
        ("fish, straight", 2, False),
        ("fish, turned", 2, True),
    ]
    chain = _bands(text % "three-rod chain", tmp_path)
    assert [(band.extent.rounds, band.reversed) for band in chain] == [(1, False), (1, True), (1, False), (1, True)]


def test_open_bands_and_changes(tmp_path: Path) -> None:
    """A height left open is a band without strands; changes of stakes stand between the bands in their order."""
    side = read_one(
        "side:\n  bands:\n    - {weave: pairing, strands: plain, rounds: 2}\n    - {open: 1 in}\n"
        "    - add_stakes: {count: 9, beside: every other, material: stakes, length: 9 in}\n    - drop_stakes: {stakes: [3, 5]}\n"
        "    - part_stakes: {count: 2}\n    - cross_stakes: {}\n",
        tmp_path,
    ).side
    assert side is not None
    opened = side.bands[1]
    assert isinstance(opened, Band)
    assert (opened.weave.kind, opened.strands, opened.extent) == ("open", (), Extent(height_mm=25.4))
    changes = [change for change in side.bands if isinstance(change, StakeChange)]
    assert [(change.action, change.count, change.beside, change.stakes) for change in changes] == [
        ("add", 9, "every other", ()),
        ("drop", 2, "listed", (3, 5)),
        ("part", 2, "every", ()),
        ("cross", 1, "every", ()),
    ]


# ------------------------------------------------------------------------------------------------------------- border
@pytest.mark.parametrize(("rods", "behind"), [(3, 1), (4, 1), (5, 1), (4, 2), (6, 2)])
def test_plain_border_travels_rods_and_behind(rods: int, behind: int, tmp_path: Path) -> None:
    """A k-rod plain border laid behind b travels k + b spaces: it comes out beside the stake brought down next to it.

    Derived: rod 1 comes out after stake 1 + b; the next upright brought down is stake k + 1, which comes out after
    stake k + 1 + b, and the two lie together, so rod 1 has gone past k + b stakes in all.
    """
    border = read_one(f"border: {{kind: plain, rods: {rods}, behind: {behind}}}", tmp_path).border
    assert border is not None
    (only,) = border.passes
    assert only.laid_first == rods
    assert sum(move.count for move in only.moves) == rods + behind
    assert only.moves[0] == Move("behind", behind)
    assert only.moves[-1] == Move("out")


@pytest.mark.parametrize(
    ("said", "moves"),
    [
        ("[behind 2, out]", [Move("behind", 2), Move("out")]),
        ("behind 2 and out", [Move("behind", 2), Move("out")]),
        ('"behind 1, before two, then down"', [Move("behind", 1), Move("before", 2), Move("down")]),
        ("[in front of 1, across 2, to the inside]", [Move("before", 1), Move("over", 2), Move("in")]),
        ("{moves: [over 1, under 2, in]}", [Move("over", 1), Move("under", 2), Move("in")]),
    ],
)
def test_moves_in_words(said: str, moves: list[Move], tmp_path: Path) -> None:
    """A pass may be written as a list, in one breath, or with its details."""
    border = read_one(f"border: {{passes: [{said}]}}", tmp_path).border
    assert border is not None
    assert list(border.passes[0].moves) == moves


def test_named_borders(tmp_path: Path) -> None:
    """Open, trac, rope and plait are the passes, or the plait, that their names stand for."""
    opened = read_one("border: {kind: open, past: 2}", tmp_path).border
    trac = read_one("border: {kind: trac, moves: [behind 1, before 1, in]}", tmp_path).border
    rope = read_one("border: {kind: rope, worked: in twos, cut_to_one: yes, tail: 1 in}", tmp_path).border
    plait = read_one("border: {kind: plait, group: 2, added: 4, over: 1, allowance: 13 in}", tmp_path).border
    assert opened is not None
    assert trac is not None
    assert rope is not None
    assert plait is not None
    assert opened.passes[0].moves == (Move("behind", 2), Move("down"))
    assert trac.passes[0].moves == (Move("behind", 1), Move("before", 1), Move("in"))
    assert [border_pass.moves for border_pass in rope.passes] == [(Move("before", 1), Move("in"))] * 2
    assert (rope.groups, rope.cut_to_one, rope.tail_mm) == (2, True, 25.4)
    assert plait.plait is not None
    assert (plait.passes, plait.plait.group, plait.plait.added, plait.plait.over) == ((), 2, 4, 1)


# ---------------------------------------------------------------------------------------------------- everything else
def test_handles_and_lid(tmp_path: Path) -> None:
    """One handle or a list, wraps in order; a lid has its own base, stakes, side and border."""
    sized = read_one(
        "handles:\n  - {kind: bow, material: bow, rise: 7 in, at: [5, 21], lash: plain, wraps: [{kind: rope, strands: [plain, rust], lay: 4 in}]}\n"
        "  - {kind: ring, material: stakes, count: 2, diameter: 1 1/2 in}\n"
        "lid:\n  base: {kind: round slath, diameter: 7 in, sticks: 8, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}\n"
        "  stakes: {material: stakes}\n  side: {bands: [{weave: pairing, strands: plain, rounds: 2}]}\n  border: {kind: open, past: 1}\n  fit: over\n",
        tmp_path,
    )
    assert [(handle.kind, handle.count, handle.at) for handle in sized.handles] == [
        ("bow", 1, (5, 21)),
        ("ring", 2, ()),
    ]
    assert sized.handles[0].wraps[0].strands == ("plain", "rust")
    assert sized.lid is not None
    assert isinstance(sized.lid.base, RoundSlath)
    assert [band.part for band in sized.lid.base.weaving] == ["lid"]
    assert sized.lid.stakes is not None
    assert (sized.lid.fit, sized.lid.clearance_mm) == ("over", 3.175)


def test_fittings(tmp_path: Path) -> None:
    """Pieces beside the construction keep their part, material, count (1 unless said) and length."""
    sized = read_one(
        "fittings: [{part: hinge, material: plain, count: 2, length: 9 in}, {part: loop, material: rust, length: 6 in}]",
        tmp_path,
    )
    found = [(fitting.part, fitting.material, fitting.count, fitting.length_mm) for fitting in sized.fittings]
    assert found == [("hinge", "plain", 2, 228.6), ("loop", "rust", 1, 152.4)]


def test_letters_are_given_and_kept(tmp_path: Path) -> None:
    """A letter given is kept; others come from the material's own name, or are the next that is free.

    A to D are left for the strands of one material in the drawings.
    """
    sized = read_one(
        "materials:\n  sticks: {stock: us round reed 8}\n  stakes: {stock: us round reed 5, letter: S}\n  so: {stock: us round reed 4}\n"
        "  os: {stock: us round reed 4}\n",
        tmp_path,
    )
    assert {key: material.letter for key, material in sized.materials.items()} == {
        "sticks": "T",
        "stakes": "S",
        "so": "O",
        "os": "E",
    }


def test_own_stock(tmp_path: Path) -> None:
    """A stock described in the file has its section, mass and packs; mass may be given either way round."""
    text = "materials:\n  sticks: {stock: {kind: %s}}\n  stakes: {stock: us round reed 5}\n"
    flat = (
        read_one(text % "flat reed, width: 12 mm, thickness: 1 mm, mass_per_length: 8 g per m", tmp_path)
        .materials["sticks"]
        .stock
    )
    assert (flat.width_mm, flat.thickness_mm, flat.grams_per_metre, flat.basis) == (12.0, 1.0, 8.0, Basis.GIVEN)
    spun = (
        read_one(text % "round reed, diameter: 3 mm, mass_per_length: 500 ft per lb", tmp_path)
        .materials["sticks"]
        .stock
    )
    assert spun.grams_per_metre == pytest.approx(453.59237 / (500 * 0.3048))
    rod = read_one(text % "willow, butt: 8 mm, tip: 4 mm, length_class: 5 ft", tmp_path).materials["sticks"].stock
    assert rod.tapered
    assert (rod.width_mm, rod.length_class_mm) == (6.0, 1524.0)


def test_settings_gauge_and_test_weave(tmp_path: Path) -> None:
    """Settings overrule their defaults and say they were given; a gauge keeps the weave's one name; results are kept by size."""
    pattern = read(
        "sizes: [a1, b2]\nsettings: {join_lap: 4 in, spare_stakes: 3}\ngauge: [{weave: 3-rod wale, strand: plain, rounds: 13, over: 3 in}]\n"
        "woven: {b2: {on: 2026-03-08, by: M., height: 5 in, mass: 300 g, rounds: {upsett: 2}, used: {plain: 40 ft}, left_over: {plain: 6 ft}}}\n",
        tmp_path,
    )
    first, second = pattern.sizes
    assert first.settings["join_lap"].value == 101.6
    assert first.settings["join_lap"].basis is Basis.GIVEN
    assert first.settings["spare_stakes"].value == 3
    assert first.gauge[0].weave == "three-rod wale"
    assert (first.woven_on, second.woven_on) == (None, date(2026, 3, 8))
    assert second.woven is not None
    assert (second.woven.height_mm, second.woven.mass_g, second.woven.rounds) == (127.0, 300.0, {"upsett": 2})
    assert second.woven.left_over == {"plain": 1828.8}


def test_values_by_size_have_places_of_their_own(tmp_path: Path) -> None:
    """A value by size resolves for each size; a place asked for finds the line of that size's own value."""
    pattern = read(
        "sizes: [a1, b2]\nmeasures:\n  across:\n    a1: 5 in\n    b2: 6 in\n  rim: across + 1 in\n"
        "base:\n  a1: {kind: round slath, diameter: across, sticks: 8, material: sticks}\n"
        "  b2: {kind: round slath, diameter: rim, sticks: 10, material: sticks}\n",
        tmp_path,
    )
    first, second = pattern.sizes
    assert (first.base.outline.width_mm, second.base.outline.width_mm) == (127.0, 177.8)
    assert (first.measures["rim"].value, second.measures["rim"].value) == (152.4, 177.8)
    assert second.measures["rim"].formula == "across + 1 in"
    assert [amount.name for amount in second.measures["rim"].inputs] == ["across"]
    assert pattern.place((*second.base.path, "diameter")).line == 9
    assert pattern.place(second.measures["across"].path).line == 5
    assert pattern.key_place(("measures", "rim")).line == 6


def test_text_keeps_its_spelling(tmp_path: Path) -> None:
    """An edition 1.10 stays 1.10, and a title No stays a word."""
    pattern = read("title: No\nedition: 1.10\n", tmp_path)
    assert (pattern.title, pattern.edition) == ("No", "1.10")


def test_no_size_named_is_one_size(tmp_path: Path) -> None:
    """A pattern that names no size has one."""
    assert [sized.size for sized in read("edition: 1\n", tmp_path).sizes] == ["one size"]


def test_a_fault_in_one_size_names_it(tmp_path: Path) -> None:
    """A fault that one size alone has names the size; one that all have is told once, without a size."""
    text = "sizes: [a1, b2]\nmeasures:\n  n: {a1: 2, b2: 3}\nbase: {kind: round slath, diameter: 5 in, sticks: n, material: sticks, stick_length: %s}\n"
    alone = notes_of(text % "(n - 2) * 1 in", tmp_path)
    assert [(note.code, note.size) for note in alone] == [("length-out-of-range", "a1")]
    both = notes_of(text % "(n - 9) * 1 in", tmp_path)
    assert {(note.code, note.size) for note in both} == {("length-out-of-range", "a1"), ("length-out-of-range", "b2")}
    same = notes_of(text % "0 in * n", tmp_path)
    assert [(note.code, note.size) for note in same] == [("length-out-of-range", "")]


def test_advice_on_names_nothing_uses(tmp_path: Path) -> None:
    """A measure or a material nothing uses is told as advice: often its name is typed otherwise elsewhere."""
    pattern = read(
        "measures: {across: 6 in, idle: 3 in}\nbase: {kind: round slath, diameter: across, sticks: 8, material: sticks}\n",
        tmp_path,
    )
    told = {(note.code, note.sentence) for note in pattern.notes}
    assert ("measure-unused", "Nothing uses the measure idle.") in told
    assert ("material-unused", "Nothing uses the material plain.") in told
    assert not any("across" in sentence or "sticks" in sentence for _, sentence in told)


def test_caret_points_into_a_formula(tmp_path: Path) -> None:
    """The column of a fault in a formula is that of the very word or sign, in quotes or not."""
    for text, column in (("stick_length: 2 in + n * 2", 27), ('stick_length: "2 in + n * 2"', 28)):
        (note,) = notes_of(
            f"measures: {{n: 3}}\nbase:\n  {text}\n  kind: round slath\n  diameter: 5 in\n  sticks: n + 5\n  material: sticks\n",
            tmp_path,
        )
        assert (note.code, note.place.line) == ("wrong-dimension", 3)
        assert note.place.column == column - 5


def test_key_at_fault_still_lets_the_rest_be_read(tmp_path: Path) -> None:
    """An unknown key is an error, but the pattern is still handed out so that its counts can be checked too."""
    pattern = read("subtitel: x\n", tmp_path)
    assert [note.code for note in pattern.notes if note.stops] == ["unknown-key"]
    assert codes_of("subtitel: x\n", tmp_path) == [(1, "unknown-key")]


@pytest.mark.parametrize(("source", "basis"), [
    ("", Basis.GIVEN),
    ("from memory", Basis.MEMORY),
    ("Estimated from a photograph", Basis.ESTIMATED),
    ("measured with callipers, M., 2026", Basis.MEASURED),
    ("common practice", Basis.COMMON),
    ("the seller's leaflet", Basis.PUBLISHED),
])  # fmt: skip
def test_source_says_what_a_stock_rests_on(tmp_path: Path, source: str, basis: Basis) -> None:
    """Only a source that can be looked up is published; what is remembered, guessed or measured is called so."""
    said = f', source: "{source}"' if source else ""
    stock = f"{{kind: round reed, diameter: 3 mm, mass_per_length: 3 g per m{said}}}"
    found = read_one(f"materials: {{sticks: {{stock: {stock}}}, stakes: {{stock: us round reed 5}}}}", tmp_path)
    assert (found.materials["sticks"].stock.basis, found.materials["sticks"].stock.mass_basis) == (basis, basis)


def test_day_of_a_price_exists(tmp_path: Path) -> None:
    """A price cannot be of 30 February."""
    packs = "packs: {us round reed 4: [{title: coil, mass: 1 lb, price: 9, priced_on: 2026-02-30}]}"
    assert codes_of(packs, tmp_path) == [(1, "no-such-day")]


def test_strands_listed_or_named(tmp_path: Path) -> None:
    """A wrap's strands are listed one by one, or one material is named and they are counted."""
    handles = (
        "handles: [{kind: bow, material: bow, wraps: [{kind: rope, strands: plain}, {kind: rope, strands: [plain]}]}]"
    )
    assert [wrap.listed for wrap in read_one(handles, tmp_path).handles[0].wraps] == [False, True]
