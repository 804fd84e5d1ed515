"""Lines: the cheapest breaks, measures whole, edges met, words parted by real spaces."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from slath.booklet import lines as breaking
from slath.booklet.blocks import Chip, Emphasis, Measure, Strong, Words
from slath.booklet.faces import Look, face
from slath.booklet.lines import Line, Setting, break_lines, cut
from slath.booklet.reading import Run, runs

TEXT = (
    "Continue twining until the base measures the diameter given for your chosen size, then turn up the stakes and "
    "secure them temporarily with string. Interlacement requires attention: maintain consistent tension throughout, "
    "dampening frequently, and count the stakes before every border."
)


def look(run: Run) -> Look:
    """Bold for strong words."""
    return Look("serif-bold" if run.strong else "serif", 10.0, "#000000")


def said(line: Line) -> str:
    """The words of a line."""
    return "".join(span.text for span in line.spans)


def set_words(words: Words, setting: Setting) -> list[Line]:
    """Break words into lines."""
    return break_lines(runs(words), look, setting)


def cost(ends: Sequence[int], pieces: Sequence[breaking._Chunk], setting: Setting) -> float:
    """The price of one set of breaks, reckoned line by line."""
    space = face("serif").space() * 10
    total, start = 0.0, 0
    for end in ends:
        line = pieces[start:end]
        gaps = sum(piece.after == " " for piece in line[:-1])
        width = sum(piece.width for piece in line) + gaps * space
        spare = setting.width - width
        if spare + gaps * (breaking.SHRINK * space if setting.justified else 0) < -0.01:
            return float("inf")
        total += breaking._line_price(setting, line[-1].after, gaps, spare, setting.width, space, 10.0)[0]
        start = end
    return total


@pytest.mark.parametrize("justified", [True, False])
def test_breaks_are_the_cheapest_of_all(justified: bool) -> None:
    """No other set of breaks costs less: compared with every possible set for a short paragraph."""
    words = "Soak the stakes again for ten minutes, the rim downwards, then prick each stake above the weaving"
    pieces = cut(runs(words), look).pieces
    setting = Setting(150.0, justified)
    count = len(pieces)
    every = ((*inner, count) for size in range(1, 6) for inner in itertools.combinations(range(1, count), size))
    cheapest = min(cost(ends, pieces, setting) for ends in every)
    found, start = [], 0
    for line in set_words(words, setting):
        start += len(said(line).split())
        found.append(start)
    assert cost(found, pieces, setting) == pytest.approx(cheapest)


def test_justified_lines_meet_both_edges() -> None:
    """Every line but the last is exactly as wide as the column, spans ending where it ends."""
    lines = set_words(
        (TEXT, Strong(" Count again."), " And once more for good measure."), Setting(230.0, True, "en-GB")
    )
    assert len(lines) > 4
    for line in lines[:-1]:
        last = line.spans[-1]
        width = face(last.look.face).width(last.text.rstrip(" ")) * last.look.size
        inner = last.text.rstrip(" ").count(" ") + last.text.count("\u00a0")
        assert last.x + width + inner * last.space == pytest.approx(230.0, abs=0.05)


def test_word_spaces_are_never_squeezed_flat() -> None:
    """In justified lines no word space loses more than a third of its width (Knuth and Plass 1981: 6 units less 2)."""
    space = face("serif").space() * 10
    for width in (130.0, 170.0, 230.0):
        for line in set_words(TEXT, Setting(width, justified=True, hyphens="en-GB")):
            assert all(span.space >= -0.3334 * space for span in line.spans)


def test_hyphens_are_soft_and_words_can_be_joined_again() -> None:
    """A word hyphenated by the machine carries U+00AD (ISO 32000-1, 14.8.2.2.3), so that text joins up again."""
    lines = set_words(TEXT, Setting(120.0, True, "en-GB"))
    text = "".join(said(line) for line in lines)
    assert "\u00ad" in text
    assert "-" not in text
    assert text.replace("\u00ad", "").split() == TEXT.split()


@given(
    st.lists(
        st.sampled_from(["stake", "wale", "16 3/8 in", "415 mm", "9 1/2 × 5 in", "weave", "a", "to"]),
        min_size=3,
        max_size=40,
    ),
    st.integers(90, 300),
)
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_measure_never_breaks_over_a_line(pieces: list[str], width: int) -> None:
    """Whatever stands around them, every measure is whole on one line, and no word is lost."""
    words = tuple(itertools.chain.from_iterable((Measure(p) if p[0].isdigit() else p, " ") for p in pieces))[:-1]
    lines = [said(line).replace("\u00a0", " ").replace("⁄", "/") for line in set_words(words, Setting(float(width)))]
    for measure in ("16 3/8 in", "415 mm", "9 1/2 × 5 in"):
        assert sum(line.count(measure) for line in lines) == pieces.count(measure)
    assert " ".join("".join(lines).split()) == " ".join(pieces)


def test_ragged_lines_stay_inside_the_column() -> None:
    """No ragged line is wider than the column unless one unbreakable run is."""
    for width in (80.0, 130.0, 210.0):
        assert all(line.width <= width + 0.01 for line in set_words(TEXT, Setting(width)))


def test_narrowest_width_is_the_longest_run() -> None:
    """The narrowest column holds the longest unbreakable run, the natural one everything."""
    _, narrow, natural = cut(runs(("a ", Measure("16 3/8 in"), Emphasis(" end"))), look)
    lines = set_words(("a ", Measure("16 3/8 in"), Emphasis(" end")), Setting(narrow + 0.1))
    assert [len(set_words(("a ", Measure("16 3/8 in"), Emphasis(" end")), Setting(natural + 0.1))), len(lines)] == [
        1,
        3,
    ]


def test_numerators_stand_above_denominators() -> None:
    """A fraction is set from raised and lowered digits of their own face, the slash between them."""
    (line,) = set_words(Measure("16 3/8 in"), Setting(300.0))
    upper, slash, lower = (next(span for span in line.spans if span.text == text) for text in ("3", "⁄", "8"))
    assert upper.look.face == lower.look.face == "serif-fractions"
    assert upper.look.rise > lower.look.rise == 0
    assert upper.x < slash.x < lower.x


@pytest.mark.parametrize("justified", [True, False])
def test_a_colour_at_the_end_of_a_line_is_parted_from_the_next_word(justified: bool) -> None:
    """A patch of colour that ends a line is followed by a space like any word, or its letter would run into what follows."""
    ended = 0
    for before in range(1, 12):
        words = (
            "rods " * before + "and rust ",
            Chip("#c0713f", "R"),
            " and slate ",
            Chip("#2c4452", "S"),
            " and more of it",
        )
        lines = set_words(words, Setting(120, justified))
        assert all(said(line).endswith(" ") for line in lines[:-1])
        ended += sum(line.spans[-2].inset is not None for line in lines[:-1] if len(line.spans) > 1)
    assert ended > 0, "a patch ended a line at least once"
