"""Every sentence of every shipped pattern: whole, in one vocabulary, with the numbers of the list, in either hand."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from tests.wording.told_patterns import SIZED, made, sentences, told, whole_text, words_in

import slath
from slath.basket.board_holes import hole_of
from slath.basket.model import Basket
from slath.language.pattern import Board
from slath.quantities.measuring import quantities_of
from slath.quantities.results import Quantities
from slath.trade.words import concepts
from slath.units import printing
from slath.wording.shape import turning_places

# A length as it is printed inches first: ``9 1/2 in (241 mm)``.
LENGTH = re.compile(r"((?:\d+ )?(?:\d+/\d+|\d+) in) \((\d+(?:\.\d+)?) mm\)")


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_sentences_are_whole(name: str, size: int) -> None:
    """No mark, gap or doubled stop is left over, and every sentence has a beginning and an end."""
    for sentence in sentences(told(name, size)):
        assert not re.search(r"[\[\]<>{}]|  |\.\.|\s[.,;:]|\bNone\b(?! of)", sentence), sentence
    for stage in told(name, size).stages:
        for step in stage.steps:
            assert step.actions
    steps = [
        words
        for stage in told(name, size, "US").stages
        for step in stage.steps
        for words in (*step.actions, *step.notes)
    ]
    assert all(text.endswith(".") for text in map(_plain, steps)), [
        t for t in map(_plain, steps) if not t.endswith(".")
    ]
    assert all(text[0].isupper() or text[0].isdigit() for text in map(_plain, steps))


def _plain(words: object) -> str:
    from slath.wording.speech import plain  # noqa: PLC0415

    return plain(words)  # type: ignore[arg-type]


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_one_vocabulary_in_one_booklet(name: str, size: int) -> None:
    """Two words for one thing in one booklet is the reader's commonest trouble: UK terms never stand in a US booklet,
    nor US terms in a UK one.
    """
    forms: dict[str, set[str]] = {"UK": set(), "US": set()}
    for concept in concepts().values():
        for vocabulary in forms:
            forms[vocabulary] |= {form.lower() for form in concept.forms[vocabulary]}
    shared = forms["UK"] & forms["US"]
    everyday = {"pair"}  # a pair of sticks
    for vocabulary, other in (("UK", "US"), ("US", "UK")):
        text = f" {' '.join(re.findall(r'[a-z-]+', whole_text(told(name, size, vocabulary)).lower()))} "
        own = forms[vocabulary]
        strangers = {
            form
            for form in forms[other] - shared - everyday
            if f" {form} " in text and not any(form in mine.split() for mine in own)
        }
        assert not strangers


# Words that are of the trade in one vocabulary, and of every day where they stand here.
EVERYDAY = {"pair": "two of anything", "coil": "a coil of reed as it is sold", "packing": "packing lists, of a class"}


def test_words_that_differ_between_vocabularies_are_never_written_out() -> None:
    """A trade word that UK and US say otherwise stands in brackets in every English sentence, whether or not some shipped
    pattern says that sentence.
    """
    uk, us = (
        {form.lower() for concept in concepts().values() for form in concept.forms[vocabulary]}
        for vocabulary in ("UK", "US")
    )
    folder = Path(slath.__file__).parent / "messages" / "data" / "en"
    templates = {
        f"{file.stem}.{key}": text
        for file in sorted(folder.glob("*.yaml"))
        if file.stem != "refusals"  # notes to a designer, in the words of the keys of the file
        for key, text in yaml.safe_load(file.read_text(encoding="utf-8")).items()
        if isinstance(text, str)
    }
    assert len(templates) > 1000
    bare = {key: f" {' '.join(_bare_words(text))} " for key, text in templates.items()}
    differing = (uk ^ us) - set(EVERYDAY)
    assert {"stake", "spoke", "strands"} <= differing
    assert not {key: word for key, text in bare.items() for word in differing if f" {word} " in text}


def _bare_words(template: str) -> list[str]:
    """The words of a template that are said as they stand: not in brackets, nor names of values, for which a dash stands."""
    said = re.sub(r"\[[^\]]*\]|\{@?\w+(?::\w+)?\}", " - ", template.lower())
    said = re.sub(r"\{\w+(?::\w+)?[?#]", " ", said)  # a choice itself prints nothing
    return re.findall(r"[a-z-]+", said)


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_spelling_follows_the_vocabulary(name: str, size: int) -> None:
    """British spelling with UK words, American with US words, never mixed."""
    british, american = words_in(whole_text(told(name, size))), words_in(whole_text(told(name, size, "US")))
    assert not british & {"color", "colors", "gray", "neighbor", "neighbors", "toward", "outward", "center", "braided"}
    assert not american & {"colour", "colours", "grey", "neighbour", "neighbours", "towards", "outwards", "centre"}


def lengths_of(basket: Basket, quantities: Quantities) -> list[float]:
    """Every length a step may tell, mm: the list's, the settings', the measures of the construction, and the lid's."""
    sized = basket.pattern
    known = [amount.value for amount in quantities.amounts() if amount.unit == "mm"]
    known += [amount.value for amount in sized.settings.values.values() if amount.unit == "mm"]
    for band in (*basket.base.bands, *basket.bands):
        known += [band.to_mm, 3 * band.pitch.value, 5 * band.pitch.value]  # a few rounds, to try how the hand packs
        if basket.profile is not None:
            height = basket.profile.height_of(band.to_mm)
            outline = basket.profile.curve_at(height).outline
            known += [height, outline.length_mm, outline.width_mm]
    if basket.profile is not None:
        known += [basket.profile.height_mm, basket.profile.along_mm]
        known += [mm for place in turning_places(basket.profile) for mm in place]
    for handle in basket.handles:
        known += [handle.span_mm, handle.rise_mm]
        known += [wrap.spec.lay_mm for wrap in handle.wraps if wrap.spec.lay_mm]
        if (ear := handle.ear) is not None:
            known += [ear.rise.value, ear.foot_mm, ear.notch_deep_mm, ear.notch_mm[1] - ear.notch_mm[0]]
            known += [ear.hole_up_mm, ear.hole_apart_mm]
    outline = sized.base.outline
    known += [outline.length_mm, outline.width_mm, outline.corner_mm, basket.base.hole_spacing_mm or 0.0]
    known.append(getattr(sized.base, "inset_mm", 0.0))
    if basket.base.slath is not None:
        known.append(basket.base.slath.length_mm)
    known += [
        border.depth_mm for spec in (sized.border, sized.foot) if spec for border in spec.passes if border.depth_mm
    ]
    if basket.lid is not None:
        known.append(max(basket.lid.gap_mm, 0.0))
        known += lengths_of(basket.lid.basket, quantities_of(basket.lid.basket))
    for piece in quantities.pieces:  # what stands below a board is told as one
        known.append(sum(part.value for part in piece.parts if "foot" in part.name or part.name == "below the board"))
    return known


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_every_length_told_is_one_of_the_list(name: str, size: int) -> None:
    """A length in a step is the list's, a setting's, or a measure of the constructed basket, and nothing else."""
    _, basket, quantities = made(name, size)
    known = lengths_of(basket, quantities)
    printed = {printing.both(mm) for mm in known} | bits_of(basket)
    if any(material.stock.tapered for material in basket.pattern.materials.values()):
        printed.add("12 in (305 mm)")  # so far above the butt rods are felt (source in wording/willow.py)
    said = [found[0] for sentence in sentences(told(name, size)) for found in LENGTH.finditer(sentence)]
    assert len(said) > 10
    assert not [found for found in said if found not in printed]


def bits_of(basket: Basket) -> set[str]:
    """The bits for the holes of boards and ears, as printed: rounded up and not to the nearest."""
    holes = [handle.ear.hole.value for handle in basket.handles if handle.ear is not None]
    parts = (basket, *([basket.lid.basket] if basket.lid is not None else []))
    boards = [(part.pattern.base, part.pattern) for part in parts]
    drilled = [hole_of(base, pattern) for base, pattern in boards if isinstance(base, Board)]
    holes += [hole.across_mm for hole in drilled if hole is not None]
    return {"{} ({})".format(*printing.bit_in_both(mm)) for mm in holes}


def test_a_length_that_is_not_in_the_list_would_be_seen() -> None:
    """The check above can fail: a length of no part of the basket is not among the printed ones."""
    _, _, quantities = made("weir-field", 1)
    printed = {printing.both(amount.value) for amount in quantities.amounts() if amount.unit == "mm"}
    assert "17 7/16 in (443 mm)" not in printed


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_counts_told_are_the_counts_of_the_basket(name: str, size: int) -> None:
    """Stakes, ends, rounds and strands in the boxes are those of the construction."""
    _, basket, quantities = made(name, size)
    telling = told(name, size)
    boxes = [
        _plain(box.words) for stage in telling.stages for step in stage.steps for box in (*step.stops, *step.counts)
    ]
    if basket.stakes and any(stake.kind == "stake" for stake in basket.stakes):
        assert any(re.search(rf"\b{round(quantities.stakes.value)}\b", box) for box in boxes)
    bands = {step.key: step for stage in telling.stages for step in stage.steps if step.key.startswith("band ")}
    for band in basket.bands:
        step = bands[f"band {band.index + 1}"]
        assert step.rounds == (0 if band.spec.weave.one_by_one else len(band.rounds))  # sets of rods are not rounds
        assert f"{band.uprights} " in _plain(step.stops[0].words)
        row = next(row for row in quantities.bands if (row.part, row.index) == ("side", band.index))
        assert round(row.rounds.value) == len(band.rounds)


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_a_left_handed_booklet_is_the_mirror_of_the_other(name: str, size: int) -> None:
    """Left and right, clockwise and anticlockwise change places, and nothing else changes."""
    swapped = {"left": "right", "right": "left", "clockwise": "anticlockwise", "anticlockwise": "clockwise"}
    other = "\n".join(sentences(told(name, size, left_handed=True)))
    mirrored = re.sub(r"\b(left|right|clockwise|anticlockwise)\b", lambda found: swapped[found[0]], other)
    own = "\n".join(sentences(told(name, size)))
    assert mirrored == own
    assert "right" in own


def test_millimetres_first_is_the_same_booklet_in_another_order() -> None:
    """Both orders print the same two roundings of each length."""
    inches = "\n".join(sentences(told("weir-field", 1)))
    metric = "\n".join(sentences(told("weir-field", 1, "UK", "mm")))
    turned = re.sub(r"(\d+(?:\.\d+)? mm) \(((?:\d+ )?(?:\d+/\d+|\d+) in)\)", r"\2 (\1)", metric)
    turned = re.sub(r"(\d+(?:\.\d+)? m) \((\d+ ft)\)", r"\2 (\1)", turned)
    assert turned == inches


def test_the_same_pattern_is_told_the_same_way_twice() -> None:
    """Same in, same out: nothing depends on the order of a set."""
    pattern, basket, quantities = made("lock-keeper", 0)
    from slath.trade.words import UK  # noqa: PLC0415
    from slath.wording.telling import tell  # noqa: PLC0415

    assert tell(pattern, basket, quantities, vocabulary=UK) == tell(pattern, basket, quantities, vocabulary=UK)
