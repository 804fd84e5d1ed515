"""Classes for the tests: the shipped one, random ones, and class files written for a folder of shipped patterns."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import yaml
from hypothesis import strategies as st

from slath.classes.prepared import Prepared, prepare

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"
SHIPPED = PATTERNS / "otter-weir.class.yaml"
# What is made of each pattern in random classes: sizes, and a colourway that keeps what the pattern promises.
MAKES: dict[str, tuple[str, tuple[str, ...], dict[str, str]]] = {
    "weir": ("weir-field.yaml", ("small", "medium", "large"), {"rust": "moss", "slate": "none"}),
    "withy": ("withy-bed.yaml", ("small", "medium", "large"), {}),
    "wren": ("wren-pot.yaml", ("wren", "robin", "blackbird"), {}),
    "tray": ("mill-tray.yaml", ("two cups", "four cups"), {}),
    "toll": ("toll-house.yaml", ("small", "large"), {}),
}
IN_HAND: tuple[dict[str, object], ...] = (
    {},
    {"us round reed 4": "400 ft"},
    {"us round reed 5": ["130 in", "80 in", "22 in"], "us round reed 8": "9 ft"},
)
SPARES: tuple[dict[str, object] | None, ...] = (
    None,
    {},
    {"kits": 1, "stakes": "2 each", "sticks": "10 %", "strands": "15 %"},
    {"kits": 2, "other": "1 each", "strands": "5 %", "dyed": "20 %"},
)


def prepared(data: dict[str, object]) -> Prepared:
    """A class from its data, beside the shipped patterns."""
    with tempfile.TemporaryDirectory() as folder:
        for path in PATTERNS.glob("*.yaml"):
            shutil.copy(path, folder)
        file = Path(folder) / "class.yaml"
        file.write_text(
            yaml.safe_dump({"slath": 1, "class": "A class", "on": "2027-05-15", **data}, sort_keys=False), "utf-8"
        )
        made = prepare(file)
    assert isinstance(made, Prepared)
    return made


def of(people: Sequence[dict[str, object]], **more: object) -> Prepared:
    """A class of these people, who make the shipped patterns."""
    made = dict.fromkeys(str(person["makes"]) for person in people)
    colourways = {name: {"other": MAKES[name][2]} for name in made if MAKES[name][2]}
    data = {"patterns": {name: MAKES[name][0] for name in made}, "people": list(people), **more}
    return prepared(data | ({"colourways": colourways} if colourways else {}))


@cache
def shipped() -> Prepared:
    """The shipped class, prepared once."""
    made = prepare(SHIPPED)
    assert isinstance(made, Prepared)
    return made


@st.composite
def people(draw: st.DrawFn, most: int = 12) -> list[dict[str, object]]:
    """Who makes what, in up to three patterns."""
    names = draw(st.lists(st.sampled_from(sorted(MAKES)), min_size=1, max_size=3, unique=True))
    found: list[dict[str, object]] = []
    for number in range(draw(st.integers(1, most))):
        makes = draw(st.sampled_from(names))
        person: dict[str, object] = {
            "name": f"Person {number}",
            "makes": makes,
            "size": draw(st.sampled_from(MAKES[makes][1])),
        }
        otherwise: bool = draw(st.booleans())
        if MAKES[makes][2] and otherwise:
            person["colourway"] = "other"
        if draw(st.booleans()):
            person["left_handed"] = True
        found.append(person)
    return found


@st.composite
def classes(draw: st.DrawFn) -> Prepared:
    """A random class, with or without spares of its own and something in hand."""
    more: dict[str, object] = {"on": draw(st.sampled_from(["2027-05-15", ["2027-05-15", "2027-05-16", "2027-05-22"]]))}
    spares: dict[str, object] | None = draw(st.sampled_from(SPARES))
    hand: dict[str, object] = draw(st.sampled_from(IN_HAND))
    if spares is not None:
        more["spares"] = spares
    if hand:
        more["in_hand"] = hand
    bought: bool = draw(st.booleans())
    if bought:
        more["dyed"] = "bought"
    found = draw(people())
    used = {str(person["makes"]) for person in found}
    if hand and not used & {"weir", "toll", "tray"}:
        more.pop("in_hand")
    return of(found, **more)
