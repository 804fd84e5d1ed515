"""The two vocabularies, cautions, tools and soaking: every word resolves, every value has a source."""

from __future__ import annotations

import pytest

from slath.messages.language import sentences
from slath.messages.templates import parsed, terms_of
from slath.trade.cautions import cautions
from slath.trade.soaking import advice_for, soaking_advice
from slath.trade.stocks import find_stock
from slath.trade.tools import tools, tools_for
from slath.trade.words import UK, US, concepts
from slath.units import Basis


def test_one_term_for_one_concept() -> None:
    """In each vocabulary no two concepts share a form, unless one explains the other (verbs and second nouns)."""
    for vocabulary in ("UK", "US"):
        owners: dict[str, set[str]] = {}
        for concept in concepts().values():
            for form in concept.forms[vocabulary]:
                owners.setdefault(form, set()).add(concept.explained_by)
        assert {form: keys for form, keys in owners.items() if len(keys) > 1} == {}


@pytest.mark.parametrize(
    ("uk", "us"),
    [
        ("stake", "spoke"),
        ("Stakes", "Spokes"),
        ("bye-stake", "extra spoke"),
        ("wale", "coil"),
        ("slewing", "double weave"),
        ("upsett", "set-up"),
        ("plain border", "rolled border"),
        ("foot border", "base stand"),
        ("rapping iron", "packing tool"),
        ("to pair", "twine"),
    ],
)
def test_terms_of_both_trades(uk: str, us: str) -> None:
    """UK words as in Okey, 'Basket', Encyclopaedia Britannica (1911); US words as in handbooks of 1901 to 1916."""
    assert US.use(uk).printed == us
    assert UK.use(uk).printed == uk.removeprefix("to ")


def test_every_bracket_names_a_concept() -> None:
    """A sentence that names a word we do not know could not be printed."""
    texts = [concept.means for concept in concepts().values()]
    for area in ("cautions", "tools", "skills"):
        texts += sentences("en", area).values()
    found = [written for text in texts for written in terms_of(parsed(text))]
    assert len(found) > 50
    for written in found:
        UK.use(written)


def test_every_concept_is_explained() -> None:
    """A verb names the row that explains it; every other row explains itself in a whole sentence."""
    for key, concept in concepts().items():
        explained = concepts()[concept.explained_by]
        assert explained.means.endswith("."), key
        assert explained.explained_by == explained.key


def test_spelling_of_two_countries() -> None:
    """Oxford and Webster: colour and color, plaited and braided; capitals are kept, parts of words are not touched."""
    assert US.spelled("Colours towards the grey neighbour") == "Colors toward the gray neighbor"
    assert UK.spelled("Colours") == "Colours"
    assert US.spelled("discoloured") == "discoloured"


def test_a_form_nobody_knows_is_an_error() -> None:
    """A slip in our own sentences is found by the tests and never printed."""
    with pytest.raises(KeyError):
        UK.use("stakke")


def test_cautions_are_of_two_kinds_and_tied() -> None:
    """Safety for people, care for the work; each is tied to what hands do."""
    assert {caution.kind for caution in cautions()} == {"safety", "care"}
    kinds = [caution.kind for caution in cautions()]
    assert kinds == sorted(kinds, key=["safety", "care"].index)
    for caution in cautions():
        assert caution.operations
    bodkin = next(caution for caution in cautions() if caution.key == "bodkin")
    assert bodkin.applies(frozenset({"stake"}), frozenset())
    assert not bodkin.applies(frozenset({"weave"}), frozenset())
    wire = next(caution for caution in cautions() if caution.key == "wire")
    assert wire.applies(frozenset({"cut"}), frozenset({"wire"}))
    assert not wire.applies(frozenset({"cut"}), frozenset({"willow"}))


def test_tools_follow_from_operations() -> None:
    """Who pierces needs a bodkin and a board to lie under it; who only checks needs a rule."""
    assert {tool.key for tool in tools_for(frozenset({"pierce"}))} == {"bodkin", "cutting board"}
    assert {tool.key for tool in tools_for(frozenset({"check"}))} == {"tape"}


def test_tools_named_by_cautions_exist() -> None:
    """A caution about a tool nobody lists would be tied to nothing."""
    assert {tool for caution in cautions() for tool in caution.tools} <= {tool.key for tool in tools()}


def test_soaking_says_where_it_is_read_and_that_sources_differ() -> None:
    """Gill (1916): No. 1 and 2 ten minutes, No. 4 and 5 fifteen to twenty; White (1901): 15 hot or 60 cold."""
    four = find_stock("us round reed 4")
    assert four is not None
    said = {(advice.source.key, advice.minutes, advice.water) for advice in advice_for(four)}
    assert said == {("gill", (15, 20), "warm"), ("white", (15, 15), "hot"), ("white", (60, 60), "cold")}
    one = find_stock("us round reed 1")
    assert one is not None
    assert ("gill", (10, 10), "warm") in {(a.source.key, a.minutes, a.water) for a in advice_for(one)}
    assert all(advice.source.basis in {Basis.PUBLISHED, Basis.COMMON} for advice in soaking_advice())
