"""No action without its caution: what a step's sentences tell hands to do is warned of at that step.

The sentences are read as a stranger reads them; what a step says of itself (its operations) is not asked. Which verbs mean which
danger is our own reading of the words; common practice, no source.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from slath.basket.construct import construct
from slath.language import read_pattern
from slath.quantities.measuring import quantities_of
from slath.trade.words import UK
from slath.wording.speech import plain
from slath.wording.telling import tell
from slath.wording.told import in_words

ROOT = Path(__file__).resolve().parents[2]
BASKETS = sorted(
    path
    for folder in ("patterns", "tests/handbook/baskets")
    for path in (ROOT / folder).glob("*.yaml")
    if not path.name.endswith((".workshop.yaml", ".class.yaml"))
)
# What the words say is done, and the marks of cautions of which one must stand at the step.
DANGERS: dict[str, tuple[str, set[str]]] = {
    "cutting": (
        r"(?<!were )\b(?:cut|shave|trim)\b(?! (?:list|face|it where))",
        {"ends fly", "knife", "prick", "pierce", "wire", "dust"},
    ),
    "a bodkin": (r"\bbodkin\b", {"pierce", "bodkin"}),
    "drilling and sawing": (r"\b(?:drill|bore|saw|sand) (?:a|two|one|from|or|the|every)\b", {"dust"}),
    "dyeing": (r"\bdye all\b", {"dye"}),
    "singeing": (r"\bflame quickly\b", {"flame"}),
    "bending a bow": (r"\bbend it slowly\b", {"bow springs"}),
    "letting a bow go": (r"\bstring off the legs\b", {"bow springs"}),
    "letting long tops go": (r"\buntie the tops\b", {"rods spring"}),
    "a knife": (r"\bknife\b", {"knife", "prick"}),
    "soaking": (r"^soak each kind\b", {"wet floor"}),
}


@cache
def steps_of(path: Path) -> tuple[tuple[str, tuple[str, ...], frozenset[str]], ...]:
    """Every step of the first size of a pattern: its key, its actions in words, and the marks of its cautions."""
    pattern = read_pattern(path)
    basket = construct(pattern.sizes[0])
    told = tell(pattern, basket, quantities_of(basket), vocabulary=UK)
    return tuple(
        (
            step.key,
            tuple(plain(words) for words in (in_words(action, told.voice) for action in step.actions) if words != ""),
            frozenset(caution.mark for caution in step.cautions),
        )
        for stage in told.told
        for step in stage.steps
    )


@pytest.mark.parametrize("danger", DANGERS)
def test_what_is_told_is_warned_of(danger: str) -> None:
    """Every sentence that tells hands to do a dangerous thing stands in a step with a caution against it."""
    said, marks = DANGERS[danger]
    done, unwarned = 0, set()
    for path in BASKETS:
        for key, actions, warned in steps_of(path):
            telling = [action for action in actions if re.search(said, action, re.IGNORECASE)]
            done += len(telling)
            if telling and not marks & warned:
                unwarned.add((path.stem, key, telling[0]))
    assert done
    assert sorted(unwarned) == []
