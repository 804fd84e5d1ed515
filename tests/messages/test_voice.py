"""Messages said: values, numbers, cases, secrets, sizes."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from slath.booklet.blocks import Chip, Term
from slath.messages import (
    BySize,
    Language,
    Length,
    Letter,
    Listed,
    Message,
    Numbers,
    OfSizes,
    Own,
    Voice,
    merged_messages,
    message,
    plain,
)  # fmt: skip
from slath.messages.templates import Part, TemplateError, parsed
from slath.messages.values import CUT
from slath.trade.words import US

SENTENCES = {
    "cut": "Cut {count:figures} {count#[stake]|[stakes]}, {each?each |}{length} long.",
    "cut.withheld": "Take {count:figures} {count#[stake]|[stakes]}.",
    "worn": "an [ear] and a [stake] of {colour}{letter}",
    "list": "{items}; {items:or}; {items:then}; {items:comma}",
    "turn": "the {place:ordinal} time, {place:times}, to the {@on}",
    "at": "[stakes] {places}; {places:each}",
    "own": "{words:capital}",
    "leak": "It is {length} long.",
}


@pytest.fixture(autouse=True)
def _sentences(monkeypatch: pytest.MonkeyPatch) -> None:
    """Sentences of the tests' own, in an area that no language has."""
    real = Language.template

    def template(self: Language, key: str) -> tuple[Part, ...] | None:
        area, _, name = key.partition(".")
        if area == "test":
            return parsed(SENTENCES[name]) if self.code == "en" and name in SENTENCES else None
        return real(self, key)

    monkeypatch.setattr(Language, "template", template)


class Red:
    """A material that bears a letter."""

    colour = "#aa0000"
    letter = "R"


VOICE = Voice({"rust": Red()})


def test_numbers_lengths_and_choices() -> None:
    """One and several, figures, both units each rounded from the same millimetres."""
    one = message("test.cut", count=1, each=False, length=Length(25.4))
    assert VOICE.text(one) == "Cut 1 stake, 1 in (25 mm) long."
    several = message("test.cut", count=12, each=True, length=Length(254.0))
    assert VOICE.text(several) == "Cut 12 stakes, each 10 in (254 mm) long."
    assert replace(VOICE, vocabulary=US, first="mm").text(several) == "Cut 12 spokes, each 254 mm (10 in) long."


def test_words_of_the_trade_are_linked_and_letters_coloured() -> None:
    """A term keeps its place in the glossary; an article follows the word that is printed after it."""
    words = VOICE.say(message("test.worn", colour=Own("rust"), letter=Letter("rust")))
    assert isinstance(words, tuple)
    assert [piece.anchor for piece in words if isinstance(piece, Term)] == ["word-ear", "word-stake"]
    assert [piece for piece in words if isinstance(piece, Chip)] == [Chip("#aa0000", "R")]
    assert plain(words) == "an ear and a stake of rust (R)"


def test_lists_and_places() -> None:
    """Joined as the template asks; four numbers in a row are a span."""
    items = Listed((Own("a"), Own("b"), Own("c")))
    assert VOICE.text(message("test.list", items=items)) == "a, b and c; a, b or c; a, b then c; a, b, c"
    assert VOICE.text(message("test.at", places=Numbers((3, 4, 5, 6)))) == "stakes 3 to 6; 3, 4, 5 and 6"
    assert VOICE.text(message("test.turn", place=3)) == "the third time, three times, to the right"
    assert replace(VOICE, mirrored=True).text(message("test.turn", place=21)) == "the 21st time, 21 times, to the left"


def test_a_withheld_length_has_a_wording_of_its_own_or_leaves_a_gap() -> None:
    """What is reckoned from a secret is secret; no digit of it is printed, by value and not by pattern."""
    secret = Length(254.0, CUT)
    keeping = replace(VOICE, withheld=frozenset({"cut list"}))
    assert keeping.text(message("test.cut", count=2, each=True, length=secret)) == "Take 2 stakes."
    for length in (secret + Length(1.0), Length(1.0) - secret * -1, secret / 2):
        assert keeping.text(message("test.leak", length=length)) == "It is (as your pieces are cut) long."
    assert keeping.text(message("test.leak", length=Length(254.0))) == "It is 10 in (254 mm) long."


def test_sizes_are_merged_before_there_are_words() -> None:
    """Values that differ become a row with its unit once; what differs in more is said under the names of its sizes."""

    def cut(count: int, mm: float) -> Message:
        return message("test.cut", count=count, each=count > 1, length=Length(mm))

    (both,) = merged_messages([("small", cut(2, 254.0)), ("large", cut(4, 279.4))], ("small", "large"))
    assert VOICE.text(both) == "Cut 2 or 4 stakes, each 10 or 11 in (254 or 279 mm) long."
    apart = merged_messages([("small", cut(1, 254.0)), ("large", cut(4, 254.0))], ("small", "large"))
    assert apart == (OfSizes(("small",), cut(1, 254.0)), OfSizes(("large",), cut(4, 254.0)))
    assert VOICE.text(apart[0]) == "Small: Cut 1 stake, 10 in (254 mm) long."
    assert (
        VOICE.text(message("test.turn", place=BySize((2, 3))))
        == "the second or third time, twice or three times, to the right"
    )


@pytest.mark.parametrize(
    ("small", "large", "told"),
    [
        (Length(228.6), Length(292.1), "It is 9 or 11 1/2 in (229 or 292 mm) long."),
        (Length(12.0), Length(13.0), "It is 1/2 in (12 or 13 mm) long."),
        (Length(25.4), Length(25.4), "It is 1 in (25 mm) long."),
        (Length(0.1), Length(25.4), "It is under 1/64 in or 1 in (0.1 or 25 mm) long."),
    ],
)
def test_every_unit_stands_once_where_it_is_the_same(small: Length, large: Length, told: str) -> None:
    """The numbers stand in the order of the sizes, and a measure without a number keeps its own unit."""
    said = [("small", message("test.leak", length=small)), ("large", message("test.leak", length=large))]
    (one,) = merged_messages(said, ("small", "large"))
    assert VOICE.text(one) == told


def test_every_size_keeps_its_place_among_the_numbers() -> None:
    """Two sizes alike are told twice, so that the second number is always that of the second size."""
    said = [(name, message("test.turn", place=place)) for name, place in (("a", 9), ("b", 9), ("c", 13))]
    (one,) = merged_messages(said, ("a", "b", "c"))
    assert VOICE.text(one).startswith("the ninth, ninth or 13th time")


def test_the_designers_words_are_printed_as_they_stand() -> None:
    """Their brackets and braces mean nothing to us, and they may be given in several languages."""
    own = Own("[mine] {and} <yours>", (("de", "[meins]"),))
    assert VOICE.text(message("test.own", words=own)) == "[Mine] {and} <yours>"
    assert replace(VOICE, language=Language("de")).text(message("test.own", words=own)) == "[Meins]"


@pytest.mark.parametrize("text", ["{", "{a#b", "[stake", "{}", "{a#b|c|d}"])
def test_a_faulty_sentence_is_refused(text: str) -> None:
    """Language data are read strictly."""
    with pytest.raises(TemplateError):
        parsed(text)


def test_german_writes_its_own_decimals_units_and_ordinals() -> None:
    """Decimal comma, Zoll for inches (DIN 1333 and common practice), ordinals with a point."""
    german = replace(VOICE, language=Language("de"), first="mm")
    assert german.length(2.75) == "2,8 mm (3/32 Zoll)"
    assert german.long(18900.0) == "18,9 m (62 Fuß)"
