"""Ways of building that makers use, each written as a small pattern: it is read, worked out, told and drawn as meant."""

from __future__ import annotations

import math
import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from scipy import special

from slath.drawing.base.board_holes import board_hole
from slath.drawing.base.plan import slit_mm
from slath.drawing.figures import draw_figures
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.wall.profile_ends import LEGS, base_mm, border_part, foot_parts, lid_part
from slath.drawing.wall.strands import sunk
from slath.editions import EDITIONS, editions_of
from slath.pipeline import Compilation, CompiledSize, compile_pattern
from slath.quantities.results import Piece
from slath.work import BuildOptions, Work

FOLDER = Path(__file__).resolve().parents[1] / "corpus" / "good" / "constructions"
NAMES = [file.stem for file in sorted(FOLDER.glob("*.yaml"))]
# Nobody has woven these, and nothing has been measured for them.
UNWOVEN = {"size-not-woven", "pitch-estimated"}
INCH = 25.4


@cache
def compiled(name: str) -> Compilation:
    """One of the patterns, compiled once."""
    return compile_pattern(FOLDER / f"{name}.yaml")


def only(name: str) -> CompiledSize:
    """The one size of a pattern."""
    (size,) = compiled(name).sizes
    return size


def pieces(name: str, part: str) -> list[Piece]:
    """The pieces listed under the name of a part."""
    return [piece for piece in only(name).quantities.pieces if piece.part == part]


@cache
def work(name: str) -> Work:
    """The pattern, ready for its editions."""
    return Work(compiled(name), BuildOptions())


@cache
def text(name: str) -> str:
    """The booklet as text, each paragraph on one line."""
    ((_, set_text),) = EDITIONS["text"].make(work(name), EDITIONS["text"])
    return " ".join(set_text.decode().split())


@pytest.mark.parametrize("name", NAMES)
def test_pattern_calls_for_no_note(name: str) -> None:
    """Each is a pattern that could be woven as it is written."""
    assert {note.code for note in compiled(name).notes} <= UNWOVEN


@pytest.mark.parametrize("name", NAMES)
def test_booklet_and_figures_are_made(name: str) -> None:
    """Each is told in words without a mark of the template left standing, and every figure of it is drawn with strokes."""
    assert "{" not in text(name)
    (size,) = work(name).content_off_paper.sizes
    scenes = size.figures
    assert len(scenes) > 2
    assert all(scene.items for scene in scenes.values())


# ---------------------------------------------------------------------------------------------------------- boards
def test_slots_take_flat_stakes() -> None:
    """A slot is as long as the stake is wide and as wide as it is thick, each with the clearance of a thirty-second of an
    inch; it lies along the line, is told with its saw, and marks its own ring.
    """
    stock, basket = only("slotted-board").basket.pattern.materials["stakes"].stock, only("slotted-board").basket
    hole = board_hole(basket)
    assert hole.is_slot
    assert hole.along_mm == pytest.approx(stock.width_mm + INCH / 32)
    assert hole.across_mm == pytest.approx(stock.thickness_mm + INCH / 32)
    said = text("slotted-board")
    assert "45 slots, one stake each: 45 stakes." in said
    assert "Draw a slot at every mark, along the line" in said
    assert re.search(r"Have by you [^.]*\bfretsaw\b[^.]*\.", said)
    assert re.findall(r"\bholes?\b", said) == ["holes"]  # two drilled inside every slot


def test_stakes_through_two_holes() -> None:
    """36 holes take 18 stakes down one and up the next: told so, counted so, and pushed with no bodkin."""
    (stakes,) = pieces("two-holes-each", "stakes")
    assert stakes.count.value == 18
    said = text("two-holes-each")
    assert "36 holes, each stake down one and up the next: 36 stakes to weave round." in said
    assert "Push one end down through a hole, and up again through the next." in said
    assert "one in every hole; each counts as a stake from here on" in said
    assert "one stake each" not in said
    assert "Push one stake up" not in said
    step = said.partition("Set the stakes in the holes")[2].partition("stand up")[0]
    assert step
    assert "odkin" not in step


# ---------------------------------------------------------------------------------------------------------- stakes
def test_stakes_of_two_colours_in_turn() -> None:
    """32 stakes in two colours are 16 of each, cut alike; odd numbers are of the first colour, and so in the drawing."""
    assert [(piece.material, piece.count.value) for piece in pieces("stakes-in-turn", "stakes")] == [
        ("stakes", 16),
        ("rust", 16),
    ]
    assert len({piece.cut_mm.value for piece in pieces("stakes-in-turn", "stakes")}) == 1
    assert [(piece.material, piece.count.value) for piece in pieces("stakes-in-turn", "bye-stakes")] == [
        ("rust", 16),
        ("stakes", 16),
    ]
    stakes = only("stakes-in-turn").basket.stakes
    assert all(stake.material == ("stakes" if stake.number % 2 else "rust") for stake in stakes)
    assert "Take them in turn, all the way round: one natural T, then one rust" in text("stakes-in-turn")
    clothes = wardrobe(only("stakes-in-turn").basket)
    assert [clothes.upright(index).letter for index in range(3)] == ["T", "R", "T"]
    assert clothes.upright(1).tones.body == only("stakes-in-turn").sized.materials["rust"].colour


def test_bye_stakes_do_not_count_as_places() -> None:
    """32 stakes with a bye-stake each are numbered 1 to 32 in the plan, and a bow stands on two that face each other."""
    size = only("byes-at-the-base")
    basket, plan = size.basket, draw_figures(size.basket, size.quantities)["staking-plan"]
    assert [stake.number for stake in basket.stakes] == [number for number in range(1, 33) for _ in range(2)]
    assert len(basket.standing) == 32
    (handle,) = basket.handles
    first, second = handle.feet_at
    assert abs(second - first) == 16
    assert "from 1 to 32" in plan.words
    said = text("byes-at-the-base")
    assert "32 stakes stand up, and 32 bye-stakes beside them." in said
    assert "Where each of the 32 stakes goes" in said


def test_fine_stakes_go_as_deep_as_there_is_room() -> None:
    """No depth is written: the stakes of a doll's basket go from its edge to its slath, well under the usual 2 in."""
    (piece,) = pieces("dolls-basket", "stakes")
    into = next(part for part in piece.parts if part.name == "into the base")
    basket = only("dolls-basket").basket
    assert basket.base.slath is not None
    across = max(basket.base.slath.length_mm, basket.base.slath.width_mm)
    assert into.value == pytest.approx((1.5 * INCH - across) / 2)


# ---------------------------------------------------------------------------------------------------------- the foot
def parts(name: str, part: str) -> list[str]:
    """The parts a piece is made up of, by name."""
    (piece,) = pieces(name, part)
    return [item.name for item in piece.parts]


def test_foot_of_ends_from_the_rim() -> None:
    """Of 31 pairs one stake each makes the border and one the foot; all are cut as long as the foot needs, which is
    twice the side.
    """
    size = only("foot-from-the-rim")
    border, foot = size.basket.border, size.basket.foot
    assert border is not None
    assert foot is not None
    assert (border.count, foot.count, len(size.basket.stakes)) == (31, 31, 62)
    assert set(border.stakes) | set(foot.stakes) == set(range(1, 63))
    assert not set(border.stakes) & set(foot.stakes)
    assert parts("foot-from-the-rim", "stakes")[1:5] == ["up the side", "over the rim", "down outside", "foot border"]
    (stakes,) = pieces("foot-from-the-rim", "stakes")
    assert stakes.parts[1].value == stakes.parts[3].value
    told = text("foot-from-the-rim")
    assert told.index("Take the left stake of each pair") < told.index("Work with the right stake of each pair")
    assert "the others have gone down to the foot" in told


def test_foot_of_stakes_of_its_own() -> None:
    """A foot on a woven base takes one short stake beside every upright: up into the side, through its own weaving,
    and its border. The basket stands higher by that.
    """
    assert [piece.count.value for piece in pieces("foot-of-its-own", "foot stakes")] == [31]
    assert parts("foot-of-its-own", "foot stakes") == [
        "up beside the stakes",
        "through the weaving of the foot",
        "foot border",
        "hand hold at the foot",
    ]
    size = only("foot-of-its-own")
    (foot_wale,) = size.basket.foot_bands
    assert (foot_wale.uprights, len(foot_wale.rounds)) == (31, 2)
    row = next(row for row in size.quantities.bands if row.part == "foot")
    assert row.height.value == foot_wale.reached_mm
    assert any(run.part == "foot" and run.material == "short" for run in size.quantities.strands)
    assert any(item.name == "height of foot wale" for item in size.quantities.finished.height.inputs)
    told = text("foot-of-its-own")
    assert told.index("Set the foot stakes") < told.index(
        "Foot wale: three-rod wale", told.index("Set the foot stakes")
    )


def test_weaving_below_a_board() -> None:
    """Rows below a board lengthen the stakes by their height, and are woven before the foot border is worked."""
    assert parts("weaving-below-a-board", "stakes")[:3] == [
        "through the weaving of the foot",
        "foot border",
        "hand hold at the foot",
    ]
    (stakes,) = pieces("weaving-below-a-board", "stakes")
    (rows,) = only("weaving-below-a-board").basket.foot_bands
    assert stakes.parts[0].value == rows.reached_mm == 3 * rows.pitch.value
    told = text("weaving-below-a-board")
    foot = told.index("The foot border")
    assert told.index("Foot rows: pairing", foot) < told.index("Take stake 1 and bend it down", foot)


# ------------------------------------------------------------------------------------------------------------- lids
def test_lid_on_hinges() -> None:
    """A hinge goes three times round rim and lid together: a belt round two bundles, half of either girth and twice the
    way between their middles. A ball of reed is as long as its volume over the reed's section, less the air in it.
    """
    (hinge,) = pieces("hinged-lid", "hinge lashings")
    belt, tails = hinge.parts
    rim, edge = (item.value for item in belt.inputs[1:])
    assert hinge.count.value == 2
    assert belt.value == pytest.approx(3 * ((rim + edge) / 2 + 2 * (rim + edge) / (2 * math.pi)))
    assert tails.value == 2 * 3 * INCH
    (knob,) = pieces("hinged-lid", "lid knob")
    across, reed = 0.75 * INCH, 1.75
    assert knob.parts[0].value == pytest.approx(0.6 * (math.pi / 6 * across**3) / (math.pi / 4 * reed**2))
    (loop,) = pieces("hinged-lid", "hanging loop")
    assert loop.parts[0].value == pytest.approx(math.pi * INCH)
    told = text("hinged-lid")
    assert (
        told.index("Fit the lid")
        < told.index("Hang the lid")
        < told.index("Fasten the lid")
        < told.index("Make the knob")
    )
    assert "find stakes 1 and 4" in told


# ------------------------------------------------------------------------------------------------- bases and handles
def test_end_of_a_weaver_worked_as_a_stick() -> None:
    """Eight sticks make 16 ends; a weaver's own end makes 17, an odd count, and it is not cut as a stick."""
    size = only("extra-end")
    assert (len(size.basket.base.cut_sticks), len(size.basket.base.ends), len(size.basket.stakes)) == (8, 17, 17)
    assert [piece.count.value for piece in pieces("extra-end", "through sticks")] == [8]
    (end,) = pieces("extra-end", "extra ends")
    assert (end.material, end.count.value, end.parts[0].value) == ("weaver", 1, 2 * INCH)
    assert "8 sticks and one extra end, 17 ends" in text("extra-end")


def test_crossing_tied_crosswise() -> None:
    """Twice over each slant of the crossing, over and back below: 2 × 2 × (2 × the diagonal + through and through)."""
    (tie,) = pieces("extra-end", "tie of the slath")
    slath = only("extra-end").basket.base.slath
    assert slath is not None
    thick = 2 * 3.25  # mm, two No. 5
    diagonal = math.hypot(slath.length_mm, slath.width_mm)
    assert tie.parts[0].value == pytest.approx(2 * 2 * (2 * diagonal + 2 * thick))
    assert [piece.count.value for piece in pieces("handle-in-one", "ties of the slath")] == [2]
    told = text("extra-end")
    assert told.index("Tie the crossing") < told.index("rounds", told.index("Tie the crossing"))


def test_handle_and_base_in_one() -> None:
    """Each piece goes over as a bow, down both sides, and from foot to foot under the base, with its ends lapped."""
    (rods,) = pieces("handle-in-one", "bow handle pieces")
    size = only("handle-in-one")
    assert [part.name for part in rods.parts] == ["bow", "down both sides", "under the base", "lap", "trim"]
    assert size.basket.profile is not None
    sides, under, lap = (part.value for part in rods.parts[1:4])
    assert sides >= 2 * size.basket.profile.height_mm
    assert under == pytest.approx(6 * INCH, rel=0.05)  # across the base, between the two stakes nearest its middle
    assert lap == 5 * INCH
    assert "Lay each piece under the base from stake" in text("handle-in-one")


def test_centre_of_fours() -> None:
    """Eight over eight laid in fours open from eight groups to sixteen pairs to 32 ends, which turn up as stakes."""
    bands = only("centre-of-fours").basket.base.bands
    assert [(band.uprights, set(band.group_sizes)) for band in bands] == [(8, {4}), (16, {2}), (32, {1})]
    assert {stake.kind for stake in only("centre-of-fours").basket.stakes} == {"through"}


def test_sticks_that_stay_in_pairs() -> None:
    """Paired sticks may be woven in pairs from the centre to the rim: 32 ends and two stakes are 17 pairs."""
    size = only("sticks-in-pairs")
    assert {band.uprights for band in size.basket.base.bands} == {16}
    assert (size.basket.working, [band.uprights for band in size.basket.bands]) == (17, [17])


# --------------------------------------------------------------------------------------------------------- weaving
def test_rods_of_a_french_rand_are_graded() -> None:
    """A French rand has a rod for every stake, and rods are graded before they are laid in, or the side comes up uneven."""
    size = only("graded-french-rand")
    run = next(run for run in size.quantities.strands if run.band == "siding")
    assert run.rods == len(size.basket.stakes) == 32
    assert "Grade them: lay them out by length and thickness" in text("graded-french-rand")


def test_open_work_held_by_a_fitch() -> None:
    """A height left open takes no strand, and the side is higher by it; what is woven over it begins there."""
    size = only("open-and-fitched")
    wall, lattice, fitch = size.basket.bands[1:4]
    assert lattice.rounds == ()
    assert lattice.reached_mm == pytest.approx(1.5 * INCH)
    assert fitch.from_mm == pytest.approx(wall.to_mm + 1.5 * INCH)
    assert "lattice" not in {run.band for run in size.quantities.strands}


def test_short_rows_turn_back() -> None:
    """Eight rows over 16 stakes, each turn one short of the one before: 16, 15, 14... stakes, 100 in all; the strand is as
    long as that share of full rounds.
    """
    size = only("short-rows")
    (back,) = [band for band in size.basket.bands if band.name == "back"]
    widths = [cell.stakes[1] - cell.stakes[0] + 1 for cell in back.spec.cells]
    assert widths == [16, 15, 14, 13, 12, 11, 10, 9]
    run = next(run for run in size.quantities.strands if run.band == "back")
    row = next(row for row in size.quantities.bands if row.name == "back")
    full = sum(found.perimeter_mm for found in back.rounds) / 8
    assert run.woven_mm.value == pytest.approx(full * sum(widths) / 32 * row.take_up.value, rel=0.01)
    told = text("short-rows")
    assert "Turn round it, and weave back to the left as far as stake 2." in told
    assert "The last row lies from stake 5 to stake 13." in told


def test_hand_holds_are_left_open() -> None:
    """Rows that turn back at the same two stakes leave the others bare, twice five of 40, and what is woven over
    them does not sink.
    """
    (rows,) = [band for band in only("hand-holds").basket.bands if band.spec.short_rows]
    assert {cell.stakes for cell in rows.spec.cells} == {(4, 18), (24, 38)}
    assert len(rows.spec.cells) == 2 * len(rows.rounds)
    assert sunk([rows], [2.0], np.array([20.5])).tolist() == [0.0]
    told = text("hand-holds")
    assert "Leave the stakes between bare: stakes 19 to 23 and stakes 39 to 3." in told


def test_weaving_sinks_where_short_rows_end() -> None:
    """Over stakes no short row covers, what is woven above lies as much lower as all the rows are high."""
    (back,) = [band for band in only("short-rows").basket.bands if band.name == "back"]
    low = sunk([back], [2.0], np.array([9.5, 0.5, 24.5]))
    assert low.tolist() == [0.0, 7 * 2.0, 8 * 2.0]


def test_arrows_and_chains_go_on_with_their_strands() -> None:
    """An arrow is worked straight and then turned with the same three strands: begun once, ended once, listed once."""
    size = only("arrows-and-chains")
    assert [run.rods for run in size.quantities.strands if run.band == "arrows"] == [1, 1, 1]
    turned = [band for band in size.basket.bands if band.spec.reversed]
    assert [band.name for band in turned] == ["arrows, turned", "chain, turned"]
    assert {band.steps for band in size.basket.bands if band.spec.turn_of} == {0}  # 33 is a multiple of three
    told = text("arrows-and-chains")
    assert told.count("Do not end the strands here: stop where the one furthest to the left hangs between") == 2
    assert told.count("Go on with the same strands, in the order they lie.") == 2
    assert "Now work the step-up" in told


def test_stepped_figure_is_told_row_by_row() -> None:
    """In the rows and over the stakes of a figure the strand goes otherwise; elsewhere it rands on."""
    told = text("stepped-figure")
    assert "In rounds 4 to 6, at stakes 14 to 18, go in front of three stakes and behind one instead." in told


def test_flat_oval_and_plaited_weavers() -> None:
    """A round is as high as the weaver is wide, and bends round the stakes by its thickness: a flat one takes up least."""
    rows = {row.name: row for row in only("flat-and-braided").quantities.bands if row.part == "side"}
    widths = {"flat rows": 6.35, "oval rows": 6.35, "braid rows": 10.0}
    for name, width in widths.items():
        assert rows[name].pitch.value == pytest.approx(1.08 * width, rel=0.01)
    assert 1 < rows["flat rows"].take_up.value < rows["oval rows"].take_up.value < rows["braid rows"].take_up.value


# --------------------------------------------------------------------------------------------------------- borders
def test_rolled_border_is_the_plain_one() -> None:
    """A rolled border of four rods travels as a four-rod plain border: behind one, before three, behind one, out."""
    border = only("border-rolled").sized.border
    assert border is not None
    assert [(move.way, move.count) for move in border.passes[0].moves] == [
        ("behind", 1),
        ("before", 3),
        ("behind", 1),
        ("out", 0),
    ]
    assert border.passes[0].laid_first == 4


def test_scalloped_border_stands_in_half_ellipses() -> None:
    """A loop over three spaces and 1 1/2 in high is half an ellipse: its length by the complete elliptic integral."""
    size = only("border-scalloped")
    row = size.quantities.border
    assert row is not None
    span, high = 3 * size.quantities.rim_spacing.value, 1.5 * INCH
    major, minor = max(span / 2, high), min(span / 2, high)
    half = 2 * major * special.ellipe(1 - (minor / major) ** 2)
    assert row.parts[0].value == pytest.approx(half, rel=1e-6)
    assert size.quantities.finished.height.value == pytest.approx(size.basket.profile.height_mm + high)  # type: ignore[union-attr]
    assert "let it stand up in an even curve, 1 1/2 in (38 mm) over the weaving" in text("border-scalloped")


def test_plaited_border_begins_with_added_pieces() -> None:
    """A plait begun with three pieces added to the first group takes three more lengths, as long as its stakes' ends."""
    (added,) = pieces("border-plaited", "added border pieces")
    assert added.count.value == 3
    assert [part.name for part in added.parts] == parts("border-plaited", "stakes")[2:4]


# --------------------------------------------------------------------------------------------------------- handles
def test_handles_of_every_kind() -> None:
    """Drop, ring, side and braided handles are cut each by its own way; wire binds a side handle at two places, with as
    many turns as lie side by side over 3/4 in.
    """
    counts = {piece.part: piece.count.value for piece in only("handles-of-every-kind").quantities.pieces}
    assert counts["drop handles"] == counts["ring handles"] == counts["side handles"] == 2
    assert counts["braided handle pieces"] == 3
    (wire,) = pieces("handles-of-every-kind", "binding wires")
    assert (wire.material, wire.count.value) == ("wire", 4)
    side = next(handle for handle in only("handles-of-every-kind").basket.handles if handle.spec.kind == "side")
    assert side.wraps[0].turns == pytest.approx(0.75 * INCH / 1.0, rel=0.01)
    # Two for each drop, one for each ring, which name nothing to hang by: the strand woven last serves.
    assert [loop.count.value for loop in pieces("handles-of-every-kind", "loops")] == [4, 2]
    assert "The handle is bound at two places, over 3/4 in (19 mm) each." in text("handles-of-every-kind")


# --------------------------------------------------------------------------------------------------- changes part-way
def test_stakes_taken_together_anew() -> None:
    """One stake of each pair goes to its neighbour's: as many pairs, each begun a stake further on. The slant over what
    is left open is the hypotenuse of that height and the way across.
    """
    size = only("lattice")
    upper = next(band for band in size.basket.bands if band.name == "upper wale")
    assert (upper.uprights, set(upper.group_sizes), upper.lead) == (32, {2}, 1)
    (stakes,) = pieces("lattice", "stakes")
    (slants,) = (part for part in stakes.parts if part.name == "to cross over")
    anew, crossed = (slant.value for slant in slants.inputs)
    assert slants.value == pytest.approx(anew + crossed)
    profile = size.basket.profile
    assert profile is not None
    over = {band.name: profile.curve_at(profile.height_of(band.from_mm)).perimeter / 32 for band in size.basket.bands}
    assert anew == pytest.approx(math.hypot(2 * INCH, over["upper wale"] / 2) - 2 * INCH)
    assert crossed == pytest.approx(math.hypot(INCH, over["top wale"]) - INCH)
    assert "The first group begins with stake 2: take two stakes together, and so on all round." in text("lattice")


def test_corner_posts_of_a_frame() -> None:
    """Posts stand at the four corners, are woven round like stakes, and take no part in the border, which closes on the
    40 stakes; between two posts stakes stand evenly.
    """
    size = only("frame-with-posts")
    kinds = [stake.kind for stake in size.basket.stakes]
    assert (kinds.count("stake"), kinds.count("post"), size.basket.working) == (40, 4, 44)
    border = size.basket.border
    assert border is not None
    assert (border.count, len(border.stakes)) == (40, 40)
    edge = size.basket.base.edge
    corners = {tuple(round(abs(value)) for value in edge.point(s.u)) for s in size.basket.stakes if s.kind == "post"}
    assert corners == {(round(4.5 * INCH), round(3.5 * INCH))}
    gaps = [after.u - before.u for before, after in pairwise(size.basket.stakes)]
    assert min(gaps) > 0
    assert max(gaps) < 1.2 * min(gaps)
    (posts,) = pieces("frame-with-posts", "corner posts")
    assert (posts.count.value, posts.material) == (4, "posts")
    assert "40 stakes and 4 corner posts" in text("frame-with-posts")


# ------------------------------------------------------------------------------------------------------ the section
def test_the_section_shows_foot_border_and_lid() -> None:
    """The cut basket stands on its foot and has its border and lid on; each lies against the next, as high as the list
    says.
    """
    size = only("foot-of-its-own")
    basket, finished = size.basket, size.quantities.finished
    border, foot = border_part(basket), foot_parts(basket)
    assert border is not None
    assert basket.profile is not None
    assert border.low == pytest.approx(basket.profile.height_mm)
    assert foot[0].high == pytest.approx(-base_mm(basket))
    assert all(above.low == pytest.approx(below.high) for above, below in pairwise(foot))
    heights = basket.profile.height_mm + sum(part.high - part.low for part in (border, *foot))
    assert heights == pytest.approx(finished.height.value)
    assert "Below the base: " in draw_figures(basket, size.quantities)["profile"].words

    lidded = only("hinged-lid").basket
    lid, rim = lid_part(lidded), border_part(lidded)
    assert lid is not None
    assert rim is not None
    assert lid.low >= rim.high - base_mm(lidded)
    assert "lid from " in draw_figures(lidded, only("hinged-lid").quantities)["profile"].words


def test_a_base_too_large_for_a_printed_ring_is_marked_by_strips(tmp_path: Path) -> None:
    """40 in across takes more sheets than anybody lays together: strips and all else are made, and no ring is spoken of."""
    file = tmp_path / "large.yaml"
    written = (FOLDER / "two-holes-each.yaml").read_text("utf-8")
    file.write_text(written.replace("diameter: 8 in", "diameter: 40 in").replace("count: 36", "count: 160"), "utf-8")
    made = dict(editions_of(compile_pattern(file), BuildOptions(editions=("sheets", "text")), lambda _: None))
    assert {name.rpartition("large-")[2] for name in made} == {"full-size-sheets.pdf", "booklet.txt"}
    assert "hole ring" not in " ".join(made[next(name for name in made if name.endswith(".txt"))].decode().split())


# ------------------------------------------------------------------------------------------------ rolls and named ends
def test_rolled_ends_are_told_over_ends_and_held() -> None:
    """An end goes over the next end, not behind a stake, and down where the next is laid over it; both widths are told."""
    told = text("rolled-border")
    assert "over the end of stake 2 and down inside, where the next to be laid will hold it" in told
    assert "On its way it passes under the end of stake 1" in told
    assert "9 in (229 mm) long and 7 in (178 mm) wide" in told
    assert re.search(r"Stakes \d+ and \d+ stand at the two ends of its length", told)


def test_two_ends_as_one_are_told_once_and_counted_all_the_way() -> None:
    """The pair is told where the sticks are parted; every count after it is of fifteen; inside and outside change places."""
    told = text("ends-worked-as-one")
    assert "keep the two neighbouring sticks together" in told
    assert "15 sticks and pairs and one strand" in told
    assert "to the right, as you look at the inside" in told
    assert "One end lies outside in every space, 15 in all" in told


def test_stakes_drawn_together_close_a_basket() -> None:
    """What each stake takes, what binds them, how high it stands, and the words of the top in place of a border."""
    found = only("drawn-together").quantities
    (sticks,) = pieces("drawn-together", "through sticks")
    assert {part.name: round(part.value / INCH, 2) for part in sticks.parts}["to the binding (both ends)"] == 6.0
    (binding,) = pieces("drawn-together", "top binding")
    bundle = math.sqrt(16 * 3.25**2 / 0.75)
    assert binding.parts[0].value == pytest.approx(12 * math.pi * (bundle + 0.9))
    rise = math.sqrt((3 * INCH) ** 2 - ((3 * INCH - bundle) / 2) ** 2)
    profile = only("drawn-together").basket.profile
    assert profile is not None
    assert found.finished.height.value == pytest.approx(profile.height_mm + rise + 0.75 * INCH)
    told = text("drawn-together")
    assert "There is no border: the stakes are drawn together over the weaving" in told
    assert "Leave a loop of 4 in (102 mm) standing up to hang it by" in told


def test_slits_are_as_wide_as_the_butts_that_go_through(tmp_path: Path) -> None:
    """Three sticks of rods 12 mm at the butt go through a slit of at least three butts, not of three means."""
    file = tmp_path / "basket.yaml"
    file.write_text(
        "slath: 1\ntitle: Trial\nmaterials:\n  rods: {stock: {kind: willow, butt: 12 mm, tip: 4 mm, length_class: 6 ft}}\n"
        "  weaver: {stock: us round reed 3}\n"
        "base: {kind: round slath, diameter: 8 in, pierced: 3, material: rods, weaving: [{weave: pairing, strands: weaver, to: edge}]}\n",
        "utf-8",
    )
    (size,) = compile_pattern(file).sizes
    pierced = [stick for stick in size.basket.base.sticks if stick.pierced]
    assert slit_mm(size.basket, pierced) >= 3 * 12


def test_ends_stand_as_legs() -> None:
    """Each end goes down as far as the side is high and two inches more; the basket stands so much higher."""
    basket = only("legs-of-ends").basket
    assert basket.border is not None
    assert basket.profile is not None
    depth = basket.border.passes[1].spec.depth_mm
    assert depth == pytest.approx(sum(band.reached_mm for band in basket.bands) + 2 * INCH)
    (stakes,) = pieces("legs-of-ends", "stakes")
    assert stakes.needed_mm.value > 2 * basket.profile.along_mm + 2 * INCH
    assert only("legs-of-ends").quantities.finished.height.value > basket.profile.height_mm + 2 * INCH
    told = text("legs-of-ends")
    assert "out below the base, where 2 in (51 mm) of it stands as a leg" in told
    assert "cut the legs off level, 2 in (51 mm) below the base" in told


def test_short_stakes_are_laid_into_a_roll() -> None:
    """One beside every second of 32 ends, over one end and a space on either side, and told where the roll is worked."""
    (short,) = pieces("roll-laid-in", "stakes laid in")
    border = only("roll-laid-in").basket.border
    assert border is not None
    assert short.count.value == 16
    assert short.parts[0].value == pytest.approx(3 * border.spacing_mm)
    assert "Take the 16 short stakes" in text("roll-laid-in")
    assert "carry the two over together as one" in text("roll-laid-in")


def test_crown_and_legs_are_drawn(tmp_path: Path) -> None:
    """The section of a base that is domed is drawn otherwise than of a flat one; ends that stand as legs reach below it."""
    (legs,) = foot_parts(only("legs-of-ends").basket)
    assert (legs.said, round(legs.high - legs.low, 6)) == (LEGS, 2 * INCH)
    plain = (FOLDER / "legs-of-ends.yaml").read_text("utf-8")
    drawn = {}
    for crown in ("0", "1 in"):
        file = tmp_path / "basket.yaml"
        file.write_text(plain.replace("  diameter: 7 in", f"  diameter: 7 in\n  crown: {crown}"), "utf-8")
        (size,) = compile_pattern(file).sizes
        drawn[crown] = draw_figures(size.basket, size.quantities)["profile"].items
    assert drawn["0"] != drawn["1 in"]


def test_ends_come_out_to_the_side_that_is_told() -> None:
    """Whatever face they go down from, ends come out where the maker says, and are trimmed there; the name is printed."""
    told = text("ends-come-out")
    assert re.search(r"down into the weaving beside stake 4, [^.]* and there through to the outside", told)
    assert "Cut each end outside with a slanting cut" in told
    assert "This is the drawn-out border" in told


def test_border_of_a_mat_has_a_front_and_a_back(tmp_path: Path) -> None:
    """A flat mat has no inside and no outside, neither in its steps nor in its figures."""
    file = tmp_path / "mat.yaml"
    file.write_text(
        "slath: 1\ntitle: Mat\nmaterials:\n  sticks: {stock: us round reed 4}\n  weaver: {stock: us round reed 2}\n"
        "base: {kind: round slath, diameter: 6 in, pierced: 4, material: sticks, become_stakes: yes,\n"
        "  weaving: [{weave: pairing, strands: weaver, rounds: 4, worked: grouped}, {weave: pairing, strands: weaver, to: edge}]}\n"
        "border: {passes: behind 1 and out / over 2 and in / over 1 and down}\n",
        "utf-8",
    )
    ((_, told),) = EDITIONS["text"].make(Work(compile_pattern(file), BuildOptions()), EDITIONS["text"])
    words = " ".join(told.decode().split())
    stage = words[words.index("Each stick end is a stake now") : words.index("Trim the ends")]
    assert "in to the back" in stage
    assert "Seen from the front and above" in stage
    assert "inside" not in stage
    assert "outside" not in stage
