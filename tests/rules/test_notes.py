"""What the notes say: their words, their remedies, acceptances and several sizes in one note."""

from __future__ import annotations

import re
from itertools import product
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms
from tests.rules.written import PLAIN, changed, compiled, notes_of

from slath.basket.count_search import promised
from slath.basket.weave import holds, rod_on_face
from slath.language.pattern import Stroke, WeaveSpec
from slath.notes import Severity
from slath.rules.counts import needs
from slath.units.colour import lightness

WALL = "{name: wall, weave: chasing, strands: weaver, to: top, pitch: 5 mm}"
RANDED = (WALL, WALL.replace("chasing", "randing"))
THREE_COLOURS = """weaver: {stock: us round reed 3}
  rust: {stock: us round reed 3, dye: rust, colour: "#cf8a62", marks: rings}
  slate: {stock: us round reed 3, dye: slate, colour: "#2c4452", marks: centre line}"""
FLARED = ("rim: {diameter: 9 in}", "rim: {diameter: {small: 9 in, medium: 12 1/2 in, large: 9 in}}")


def test_randing_on_forty_says_why_and_what_to_do(tmp_path: Path) -> None:
    """5 through 5 make 20 ends and 40 stakes (Turner, The Basket Maker, 1909); randing needs an odd count (White, 1901)."""
    (note,) = notes_of(tmp_path, changed(RANDED), "weave-does-not-hold")
    assert note.size == "small, medium and large"
    assert note.part == "side band 2, wall"
    assert note.sentence == (
        "Randing with one strand needs an odd number of stakes; "
        "you have 40 (5 through 5 is 10 sticks, 20 ends, two stakes each)."
    )
    assert note.remedies == ("chase with two strands", "leave one out (39)", "pair", "set in one more (41)")
    line = changed(RANDED).splitlines()[note.place.line - 1]
    assert line[note.place.column - 1 :].startswith("weave: randing")


WEAVES = (
    "randing", "chasing", "before 2 behind 1", "before 2 behind 2", "before 3 behind 2", "slewing with 2", "before 1 behind 3",
)  # fmt: skip


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(12, 46), st.sampled_from(WEAVES))
def test_every_count_offered_holds(tmp_path_factory: pytest.TempPathFactory, stakes: int, weave: str) -> None:
    """Whatever count a remedy names, on that count the weave is no longer complained of."""
    folder = tmp_path_factory.mktemp("count")
    wall = (WALL, WALL.replace("chasing", weave))

    def told(count: int) -> tuple[str, ...]:
        text = changed(wall, ("per_end: 2", f"count: {count}"))
        found = compiled(folder, text, ("medium",)).notes
        return tuple(
            remedy for note in found if note.code in {"weave-does-not-hold", "rows-pair-up"} for remedy in note.remedies
        )

    for remedy in told(stakes):
        offered = re.fullmatch(r"set (\d+) stakes(?: \(\d+\))?", remedy)
        if offered:
            assert told(int(offered[1])) == ()


@pytest.mark.parametrize(("before", "behind", "rods"), [(*both, 1) for both in product(range(1, 5), range(1, 5))])
def test_need_in_words_is_the_need_of_the_weave(before: int, behind: int, rods: int) -> None:
    """What a weave is said to need is so for every count to 120: odd, no multiple of 3, or the remainders named."""
    weave = WeaveSpec("rand", (Stroke(before, behind),), rods, 1, twined=False, label="")
    said = needs(weave, "stakes")
    cycle = before + behind
    for count in range(2 * cycle, 121):
        if said == "needs an odd number of stakes":
            kept = count % 2 == 1
        elif "multiple" in said:
            kept = count % cycle != 0
        else:
            over = re.search(r"leaves ([\d, or]+) over", said)
            assert over
            kept = count % cycle in {int(number) for number in re.findall(r"\d+", over[1])}
        assert kept is holds(weave, count), (said, count)


def test_published_needs() -> None:
    """Plain randing needs an odd count; over 2 under 1 no multiple of 3 (Gill, Practical Basketry, 1916, on 16, 20, 26)."""
    assert (
        needs(WeaveSpec("rand", (Stroke(1, 1),), 1, 1, twined=False, label=""), "stakes")
        == "needs an odd number of stakes"
    )
    two_one = needs(WeaveSpec("rand", (Stroke(2, 1),), 1, 1, twined=False, label=""), "stakes")
    assert two_one == "needs a number of stakes that is not a multiple of 3"


# ------------------------------------------------------------------------------------------------------- acceptance
def accept(code: str, **limits: str) -> str:
    """An acceptance as it is written at the end of a file."""
    where = "".join(f", {key}: '{value}'" for key, value in limits.items())
    return f"accept:\n  - {{code: {code}, reason: it has hung in the hall for years{where}}}\n"


def test_acceptance_keeps_the_note_and_its_reason(tmp_path: Path) -> None:
    """An accepted warning stays to be printed, with the designer's reason."""
    notes = notes_of(tmp_path, changed(FLARED, more=accept("flare-too-strong")), "flare-too-strong")
    assert [note.accepted for note in notes] == ["it has hung in the hall for years"]


def test_acceptance_for_one_size_and_part(tmp_path: Path) -> None:
    """An acceptance that names a size or a part overrules only there."""
    for limits, overruled in (
        ({"size": "medium"}, True), ({"size": "large"}, False), ({"part": "side"}, True), ({"part": "base"}, False),
    ):  # fmt: skip
        notes = compiled(tmp_path, changed(FLARED, more=accept("flare-too-strong", **limits))).notes
        assert [bool(note.accepted) for note in notes if note.code == "flare-too-strong"] == [overruled]
        assert ("acceptance-not-needed" in {note.code for note in notes}) is not overruled


def test_acceptance_by_the_name_of_a_band(tmp_path: Path) -> None:
    """A band is named as the designer named it."""
    thick = ("weaver: {stock: us round reed 3}", "weaver: {stock: us round reed 3}\n  rod: {stock: us round reed 6}")
    upsett = ("weave: three-rod wale, strands: weaver", "weave: three-rod wale, strands: rod")
    text = changed(thick, upsett, more=accept("weaver-thicker-than-stake", part="upsett"))
    assert [bool(note.accepted) for note in notes_of(tmp_path, text, "weaver-thicker-than-stake")] == [True]


def test_errors_cannot_be_accepted(tmp_path: Path) -> None:
    """What cannot be woven stays an error, and the entry that would accept it is told of."""
    notes = compiled(tmp_path, changed(RANDED, more=accept("weave-does-not-hold"))).notes
    assert [note.accepted for note in notes if note.stops] == [""]
    assert "acceptance-of-error" in {note.code for note in notes}


def test_acceptance_is_not_judged_on_some_sizes_alone(tmp_path: Path) -> None:
    """With one size checked, an acceptance that another size needs is left alone."""
    text = changed(FLARED, more=accept("flare-too-strong"))
    assert notes_of(tmp_path, text, "acceptance-not-needed", sizes=("small",)) == []


def test_acceptance_is_not_judged_when_a_size_cannot_be_constructed(tmp_path: Path) -> None:
    """A size that could not be constructed may be the one that needs the acceptance."""
    high = ("height: 5 in", "height: {small: 5 in, medium: 1/2 in, large: 5 in}")
    text = changed(high, ("rim: {diameter: 9 in}", "rim: {diameter: 12 in}"), more=accept("price-old"))
    codes = {note.code for note in compiled(tmp_path, text).notes}
    assert "rim-out-of-reach" in codes
    assert "acceptance-not-needed" not in codes


# ------------------------------------------------------------------------------------------------------ sizes in one
def test_same_note_in_several_sizes_is_told_once(tmp_path: Path) -> None:
    """Sizes that say the same are named together; where their numbers differ each remedy has those of every size."""
    two = changed(("woven: {small: 2026-03-01, medium: 2026-03-01, large: 2026-03-01}", "woven: {medium: 2026-03-01}"))
    assert [note.size for note in notes_of(tmp_path, two, "size-not-woven")] == ["small and large"]
    wide = changed(("rim: {diameter: 9 in}", "rim: {diameter: 13 in}"))
    (flare,) = notes_of(tmp_path, wide, "flare-too-strong")
    assert flare.size == "small, medium and large"
    assert all(f"{size}: bring the rim in to" in flare.remedies[0] for size in ("small", "medium", "large"))
    assert all(flare.speaks_of(size) for size in ("small", "medium", "large"))
    assert not flare.speaks_of("larger")


def test_one_cause_is_told_once(tmp_path: Path) -> None:
    """Three sizes and three bands on a count that does not serve them are one note, not nine."""
    three = WALL.replace("chasing", "randing").replace("to: top", "rounds: 5")
    bands = "".join(f"{three.replace('name: wall', f'name: rand {n}')}\n    - " for n in "ab")
    text = changed((WALL, bands.removeprefix("- ") + three))
    (note,) = notes_of(tmp_path, text, "weave-does-not-hold")
    assert note.size == "small, medium and large"
    assert [words for _, words in note.related] == ["so does side band 3, rand b", "so does side band 4, wall"]


def test_what_holds_for_the_whole_pattern_names_no_size(tmp_path: Path) -> None:
    """Colours are the same in every size, so their note is of none."""
    colours = (
        "weaver: {stock: us round reed 3}",
        'weaver: {stock: us round reed 3}\n  rust: {stock: us round reed 3, dye: rust, colour: "#e9d9b0", marks: rings}',
    )
    text = changed(colours, (WALL, WALL.replace("strands: weaver", "strands: [weaver, rust]")))
    assert [note.size for note in notes_of(tmp_path, text, "colours-too-alike")] == [""]


def test_plain_basket_calls_for_nothing(tmp_path: Path) -> None:
    """The basket the other tests change is itself without a note, so what they find is theirs."""
    assert compiled(tmp_path, PLAIN).notes == ()


def test_what_stops_the_work_comes_first_and_reminders_last(tmp_path: Path) -> None:
    """Errors, then warnings, then advice, each from the top of the file down; what is said of every new pattern last."""
    unwoven = ("woven: {small: 2026-03-01, medium: 2026-03-01, large: 2026-03-01}\n", "")
    text = changed(RANDED, FLARED, unwoven, ("per_end: 2", "per_end: 2, length: 10 in"))
    notes = compiled(tmp_path, text).notes
    ranks = [0 if note.stops else 2 if note.standing else 1 for note in notes]
    assert ranks == sorted(ranks)
    assert {0, 1, 2} == set(ranks)
    for rank in set(ranks):
        lines = [note.place.line for note, own in zip(notes, ranks, strict=True) if own == rank]
        assert lines == sorted(lines)


def test_same_file_same_notes(tmp_path: Path) -> None:
    """Working a file out twice gives the same notes in the same order."""
    text = changed(RANDED, FLARED)
    assert compiled(tmp_path, text).notes == compiled(tmp_path, text).notes


# ----------------------------------------------------------------------------------------------------------- promises
@pytest.mark.parametrize(
    ("stakes", "kept", "broken"),
    [(37, "steps left", "steps right"), (38, "steps right", "steps left"), (39, "upright stripes", "steps left")],
)
def test_promise_of_three_colours_as_published(tmp_path: Path, stakes: int, kept: str, broken: str) -> None:
    """Three rods in three colours lean left on 37 stakes, right on 38, stand upright on 39 (Choate, on spirals)."""
    colours = ("weaver: {stock: us round reed 3}", THREE_COLOURS)
    for looks, wrong in ((kept, False), (broken, True)):
        spiral = WALL.replace("chasing", "three-rod wale").replace("strands: weaver", "strands: [weaver, rust, slate]")
        text = changed(colours, (WALL, spiral.replace("}", f", looks: {looks}}}")), ("per_end: 2", f"count: {stakes}"))
        assert bool(notes_of(tmp_path, text, "looks-not-kept")) is wrong


def test_working_the_other_way_keeps_the_promise(tmp_path: Path) -> None:
    """A spiral worked right to left leans the other way, as a mirror shows it."""
    spiral = WALL.replace("chasing", "three-rod wale").replace("strands: weaver", "strands: [weaver, rust, slate]")
    right = spiral.replace("}", ", looks: steps right}")
    colours = ("weaver: {stock: us round reed 3}", THREE_COLOURS)
    (note,) = notes_of(tmp_path, changed(colours, (WALL, right)), "looks-not-kept")
    assert "work the other way round, right to left (working_direction)" in note.remedies
    under = right.replace("}", ", reversed: yes}")
    assert len(notes_of(tmp_path, changed(colours, (WALL, under)), "looks-not-kept")) == 1, (
        "a stroke's twist moves no colour"
    )
    other_way = changed(colours, (WALL, right), more="working_direction: right to left\n")
    assert notes_of(tmp_path, other_way, "looks-not-kept") == []


def test_promises_in_other_words() -> None:
    """A promise is read by what it says, however it is put."""
    assert promised("Spirals up to the LEFT") == frozenset({"steps left"})
    assert promised("straight up") == frozenset({"upright stripes"})
    assert promised("a spiral") == frozenset({"steps left", "steps right"})
    assert promised("chequered") == frozenset({"alternating"})
    assert promised("pretty") is None


# ----------------------------------------------------------------------------------------------------------- lightness
def test_lightness_of_black_and_white() -> None:
    """CIE 15: L* runs from 0 for black to 100 for white."""
    assert lightness("#000000") == pytest.approx(0.0)
    assert lightness("#ffffff") == pytest.approx(100.0, abs=1e-3)


def test_lightness_against_a_colour_management_library() -> None:
    """L* of greys and colours agrees with LittleCMS (in Pillow), which adapts to D50 and gives whole steps of 0.4."""
    to_lab = ImageCms.buildTransform(ImageCms.createProfile("sRGB"), ImageCms.createProfile("LAB"), "RGB", "LAB")
    for colour in ("#777777", "#202020", "#d0d0d0", "#efe4c8", "#cf8a62", "#2c4452", "#5b6b3a", "#a4512e"):
        pixel = Image.new("RGB", (1, 1), colour)
        lab = ImageCms.applyTransform(pixel, to_lab)
        assert lab is not None
        found = lab.getpixel((0, 0))
        assert isinstance(found, tuple)
        assert lightness(colour) == pytest.approx(found[0] / 255 * 100, abs=1.2), colour


def test_severities_are_as_the_trade_needs() -> None:
    """What cannot be woven is an error; what a maker may choose to do is a warning or advice."""
    from slath.rules import ALL_RULES  # noqa: PLC0415 - only this test looks at the list

    severity = {rule.code: rule.severity for rule in ALL_RULES}
    for code in ("weave-does-not-hold", "piece-too-short", "border-meets-itself", "hole-too-small", "stakes-too-close"):
        assert severity[code] is Severity.ERROR
    for code in ("looks-not-kept", "base-spacing-unusual", "oval-will-twist", "size-not-woven", "pitch-estimated"):
        assert severity[code] is Severity.WARNING


# ------------------------------------------------------------------------------------------------------------- words
@pytest.mark.parametrize(
    ("key", "words", "wrong"),
    [
        ("replace", "Chase 22 rounds round all 40 stakes.", False),
        ("replace", "Chase twenty-two rounds round all forty stakes.", False),
        ("replace", "Chase thirty-nine stakes.", True),
        ("replace", "Chase 21 rounds.", True),
        ("replace", "Chase 20 rounds. Look at the shape, then chase two rounds.", False),
        ("replace", "After 10 rounds look at the shape.", False),
        ("replace", "Pass behind 2 stakes and before 3 stakes.", False),
        ("replace", "Chase {band.wall.rounds} rounds.", False),
        ("replace", "Cut 1/2 in off 11 sticks.", True),
        ("replace", "Part 20 ends, five on each side of 10 sticks.", False),
        ("notes", "Three rounds are quickly done.", False),
        ("notes", "After you have done 23 rounds, stop.", True),
    ],
)
def test_typed_counts(tmp_path: Path, key: str, words: str, wrong: bool) -> None:
    """A typed total must be the total; a part of it, a stroke or a number the tool puts in need not be."""
    text = changed(
        (WALL, WALL.replace("to: top", "rounds: 22")), more=f'steps:\n  - stage: wall\n    {key}: ["{words}"]\n'
    )
    assert bool(notes_of(tmp_path, text, "typed-count-disagrees")) is wrong


@pytest.mark.parametrize("rounds", range(1, 8))
def test_arrow_begins_with_the_colours_below(tmp_path: Path, rounds: int) -> None:
    """The order offered puts the same colour over every stake in the last round below and the first reversed one."""
    stakes, below = 40, ("weaver", "rust", "slate")
    band = "weave: three-rod wale, strands: [weaver, rust, slate]"
    two = f"{{name: rising, {band}, rounds: {rounds}}}\n    - {{name: falling, {band}, to: top, reversed: yes}}"
    text = changed(("weaver: {stock: us round reed 3}", THREE_COLOURS), (WALL, two))
    notes = notes_of(tmp_path, text, "arrow-does-not-meet")
    order = re.search(r"strands: \[(.*)\]", notes[0].remedies[0]) if notes else None
    above = tuple(order[1].split(", ")) if order else below
    weave = WeaveSpec("wale", (Stroke(2, 1),), 3, 1, twined=True, label="")
    for upright in range(stakes):
        last = below[rod_on_face(weave, stakes, upright, rounds - 1)]
        assert above[rod_on_face(weave, stakes, upright, 0)] == last


def test_refusals_speak_in_the_designers_units(tmp_path: Path) -> None:
    """What cannot be constructed is told in inches to who buys by US numbers, in both units, with no bare millimetres."""
    oval = changed(
        ("  diameter: {small: 7 1/2 in, medium: 8 in, large: 8 1/2 in}\n  pierced: 5\n  threaded: 5\n", ""),
        (
            "kind: round slath",
            "kind: oval slath\n  length: 7 in\n  width: 7 in\n  lengthwise: {sticks: 3}\n  crosswise: {sticks: 5}",
        ),
    )
    (note,) = notes_of(tmp_path, oval, "oval-not-longer")
    assert "it is 7 in (178 mm) by 7 in (178 mm)" in note.sentence


def test_shift_is_reckoned_with(tmp_path: Path) -> None:
    """A course shifted on a count that held without the shift does not hold, and leaving it out is offered."""
    rand = "{name: wall, weave: randing, strands: weaver, to: top, pitch: 5 mm, shift: 1}"
    odd = changed((WALL, rand), ("per_end: 2", "per_end: 2, leave_out: 1"))
    (note,) = notes_of(tmp_path, odd, "weave-does-not-hold")
    assert "which work as 38 with the shift of one" in note.sentence
    assert "leave out the shift" in note.remedies
    assert notes_of(tmp_path, changed((WALL, rand)), "weave-does-not-hold") == []
