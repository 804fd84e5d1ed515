"""Nothing given is ever ignored: every key of the language, changed in a file where it applies, changes what comes out.

Each key is found in an example of the reference, at the place the schema gives it. Its value is changed (or, where no other
value may stand there, taken out), and the change must be seen in a note, in the list, in the text of the booklet, or in a
figure.
"""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema.validators import Draft202012Validator, extend
from PIL import Image
from tests.language.fragments import whole
from tests.language.test_reference import _patterns, _with_properties

from slath.drawing.figures import draw_figures
from slath.editions import editions_of
from slath.language.document import read_document
from slath.language.schemas import schema
from slath.language.source import Source
from slath.notes import PatternFaultError
from slath.output.listing import list_json
from slath.pipeline import Compilation, compile_pattern
from slath.work import BuildOptions

Key = tuple[str, str]
Spot = tuple[int, tuple[str | int, ...]]  # an example, and the way to the mapping that holds the key

# A basket in which the keys apply whose examples stand by themselves, and what is changed in it for each of them.
RICH = """\
slath: 1
title: Trial piece
sizes: [one]
materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: us round reed 5}
  plain:
    stock: {kind: round reed, diameter: 2.75 mm, mass_per_length: 3 g per m, usual_length: 4 m, scale: US, number: "4", soak: ten minutes, source: measured, packs: [{title: coil, mass: 500 g, price: 9, currency: GBP, supplier: Weir End, priced_on: 2026-03-01}, {title: hank, length: 30 m, price: 2, currency: GBP}]}
    title: natural
    letter: N
    marks: none
    soak: in warm water
  rust: {stock: us round reed 4, dye: rust, bought: dyed, have: 10 ft, marks: rings}
  bow: {stock: us round reed 12}
  cord: {stock: waxed linen thread}
base:
  kind: round slath
  diameter: 8 in
  pierced: 5
  threaded: 5
  material: sticks
  weaving:
    - {name: tying, weave: pairing, strands: plain, rounds: 2, worked: grouped}
    - {name: base, weave: pairing, strands: plain, to: edge}
stakes: {material: stakes, per_end: 2, add: 1}
bye_stakes: {material: stakes, every: 2, depth: 1 in}
side:
  height: 5 in
  rim: {diameter: 9 in}
  bands:
    - {name: upsett, weave: three-rod wale, strands: plain, rounds: 2}
    - {name: wall, weave: three-rod wale, strands: [plain, rust, rust], rounds: 12}
    - {open: 1 in, name: lattice, note: Keep the stakes upright.}
    - {name: top, weave: pairing, strands: plain, rounds: 4}
border:
  passes:
    - [behind 1, out]
    - {moves: [before 2, in]}
  tail: 1/2 in
  hand_hold: 3 in
gauge: [{weave: three-rod wale, strand: plain, rounds: 10, over: 2 in, by: M., on: 2026-01-01}]
"""
# Parts put in the place of the basket's own, or beside them.
_BASE = RICH[RICH.index("base:\n") : RICH.index("stakes: {material")]
_FRAME = """base: {kind: frame, shape: rectangle, length: 10 in, width: 7 in, material: sticks, become_stakes: no, lengthwise: {sticks: 7}, crosswise: {sticks: 9}, weaving: [{weave: randing, strands: plain, to: edge}]}
"""
_OVAL = """base:
  kind: oval slath
  length: 11 in
  width: 7 in
  shape: ellipse
  lengthwise: {sticks: 4, groups: [1, 1, 1, 1], pierced: no, material: sticks}
  crosswise: {groups: [2, 1, 1, 1, 2], pierced: yes, field: 6 in, material: sticks}
  crown: 0 in
  weaving:
    - {name: tying, weave: pairing, strands: plain, rounds: 2, worked: grouped}
    - {name: base, weave: pairing, strands: plain, to: edge}
"""
_RIM = "  rim: {diameter: 9 in}"
_OVAL_RIM = "  rim: {shape: ellipse, length: 12 in, width: 8 in}"
_READY_MADE = "base: {kind: ready made, shape: ellipse, length: 9 in, width: 6 in, ends: 16, made_of: a turned elm bottom with saw cuts}\n"
_TOP = "    - {name: top, weave: pairing, strands: plain, rounds: 4}"
_SWINGING = """handle:
  kind: swinging
  material: bow
  length: 34 in
  scarf: 7 in
  at: [1, 21]
  set: before the border
  ears: {material: sticks, length: 3 1/2 in, width: 1 1/2 in, rise: 1 3/4 in, notch: 1/2 in, holes: 1, hole: 5/8 in}
  wraps: [{kind: rope, strands: plain, group: 3}]
gauge:"""
_LID = """lid:
  base: {kind: round slath, diameter: 9 in, sticks: 8, material: sticks, become_stakes: yes, weaving: [{weave: pairing, strands: plain, to: edge}]}
  border: {passes: [[behind 1, before 1, in]]}
  fit: resting
gauge:"""
_ASH = (
    "  cord:",
    "  ash: {stock: {kind: wood, width: 1 1/2 in, thickness: 3/8 in, usual_length: 3 ft, mass_per_length: 250 g per m}}\n  cord:",
)
_WILLOW = (
    "  rust: {stock: us round reed 4,",
    "  rods: {stock: {kind: willow, butt: 5 mm, tip: 2 mm, length_class: 4 ft}}\n  rust: {stock: us round reed 4,",
)
_WILLOW_TOP = (
    "{name: top, weave: pairing, strands: plain, rounds: 4}",
    "{name: top, weave: pairing, strands: rods, rounds: 4}",
)

IN_RICH: dict[Key, tuple[tuple[str, str], ...]] = {
    ("acceptance", "code"): (("title: Trial piece", "title: Trial piece\naccept: [{code: size-not-woven, reason: as it is}]"),),
    ("base_band", "to"): (("plain, to: edge", "plain, size: 6 in"),),
    ("round_slath", "worked"): (("rounds: 2, worked: grouped", "rounds: 2, worked: in twos"),),
    ("border", "tail"): (("hand_hold: 3 in", "hand_hold: 0.1 in"), ("tail: 1/2 in", "tail: 1 in")),
    ("border", "hand_hold"): (("hand_hold: 3 in", "hand_hold: 4 in"),),
    ("border", "worked"): (("  tail: 1/2 in", "  worked: in threes\n  tail: 1/2 in"),),
    ("border_pass", "depth"): (("moves: [before 2, in]", "moves: [before 2, down], depth: 2 in"),),
    ("bye_stakes", "every"): (("every: 2", "every: 3"),),
    ("stakes", "add"): (("add: 1", "add: 4"),),
    ("open_band", "note"): (("note: Keep the stakes upright", "note: Tie the stakes"),),
    ("material", "bought"): (("bought: dyed", "bought: natural"),),
    ("material", "have"): (("have: 10 ft", "have: 20 ft"),),
    ("material", "letter"): (("letter: N", "letter: Q"),),
    ("material", "marks"): (("marks: rings", "marks: dots"),),
    ("material", "soak"): (("soak: in warm water", "soak: overnight"),),
    ("material", "title"): (("title: natural", "title: undyed"),),
    ("stock", "mass_per_length"): (("mass_per_length: 3 g per m", "mass_per_length: 4 g per m"),),
    ("stock", "number"): (("    title: natural\n", ""), ('number: "4"', 'number: "5"')),
    ("stock", "scale"): (("    title: natural\n", ""), ("scale: US", "scale: UK")),
    ("stock", "soak"): (("    soak: in warm water\n", ""), ("soak: ten minutes", "soak: an hour")),
    ("stock", "source"): (("source: measured", "source: a book"),),
    ("stock", "packs"): ((", packs: [{title: coil, mass: 500 g, price: 9, currency: GBP, supplier: Weir End, priced_on: 2026-03-01}, {title: hank, length: 30 m, price: 2, currency: GBP}]", ""),),
    ("pack", "title"): (("title: hank", "title: bundle"),),
    ("pack", "mass"): (("mass: 500 g, price: 9", "mass: 500 g, price: 0.1"), ("mass: 500 g", "mass: 50 g")),
    ("pack", "length"): (("length: 30 m", "length: 12 m"),),
    ("pack", "pieces"): (("length: 30 m", "length: 4 m, pieces: 3"),),
    ("pack", "price"): (("price: 2,", "price: 3,"),),
    ("pack", "currency"): (("price: 2, currency: GBP", "price: 2, currency: EUR"),),
    ("pack", "priced_on"): (("title: Trial piece", "title: Trial piece\ndated: 2026-03-02"), ("priced_on: 2026-03-01", "priced_on: 2020-03-01")),
    ("gauge", "rounds"): (("rounds: 10, over", "rounds: 12, over"),),
    ("gauge", "over"): (("over: 2 in", "over: 3 in"),),
    ("gauge", "take_up"): (("rounds: 10, over: 2 in", "take_up: 1.2, spacing: 3/4 in"),),
    ("gauge", "spacing"): (("rounds: 10, over: 2 in", "take_up: 1.2, spacing: 1/2 in"), ("spacing: 1/2 in", "spacing: 1 in")),
    ("gauge", "by"): (("by: M.", "by: Bryony Marsh"),),
    ("gauge", "on"): (("on: 2026-01-01", "on: 2026-02-02"),),
    ("pattern", "measured"): (("title: Trial piece", "title: Trial piece\nmeasured: outside"),),
    ("lid", "clearance"): (("gauge:", "lid: {base: {kind: round slath, diameter: 8 in, sticks: 8, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}, fit: inside, clearance: 2 in}\ngauge:"),),
    ("handle", "direction"): (("gauge:", "handle: {kind: bow, material: bow, rise: 6 in, direction: along}\ngauge:"),),
    ("woven_band", "note"): (("{name: top, weave: pairing, strands: plain, rounds: 4}", "{name: top, weave: pairing, strands: plain, rounds: 4, note: Pull it tight}"),),
    ("woven_band", "reversed"): (("{name: top, weave: pairing, strands: plain, rounds: 4}", "{name: top, weave: pairing, strands: plain, rounds: 4, reversed: yes}"),),
    ("woven_band", "step_up"): (("{name: top, weave: pairing, strands: plain, rounds: 4}", "{name: top, weave: pairing, strands: plain, rounds: 4, step_up: yes}"),),
    ("woven_band", "worked"): (("{name: top, weave: pairing, strands: plain, rounds: 4}", "{name: top, weave: pairing, strands: plain, rounds: 4, worked: in twos}"),),
    ("woven_band", "to"): (("{name: top, weave: pairing, strands: plain, rounds: 4}", "{name: top, weave: pairing, strands: plain, to: top}"),),
    ("woven_band", "figure"): (("{name: top, weave: pairing, strands: plain, rounds: 4}", "{name: top, weave: pairing, strands: plain, rounds: 4, figure: [{rows: 1 to 2, stakes: 3 to 5, weave: before 2 behind 1}]}"),),
    ("side", "profile"): (("  rim: {diameter: 9 in}", "  rim: {diameter: 9 in}\n  profile: belly\n  swell: 1/2 in"),),
    ("border", "cut_to_one"): ((", add: 1", ""), ("  tail: 1/2 in", "  worked: in twos\n  tail: 1/2 in"), ("  tail: 1/2 in", "  cut_to_one: yes\n  tail: 1/2 in")),
    ("cell", "stakes"): ((_TOP, _TOP[:-1] + ", figure: [{rows: 1 to 2, stakes: 3 to 5, weave: before 2 behind 1}]}"), ("stakes: 3 to 5", "stakes: 3 to 8")),
    ("cell", "weave"): ((_TOP, _TOP[:-1] + ", figure: [{rows: 1 to 2, stakes: 3 to 5, weave: before 2 behind 1}]}"), ("weave: before 2 behind 1}]", "weave: before 3 behind 1}]")),
    ("change_details", "first"): ((", add: 1", ""), (_TOP, "    - regroup_stakes: {count: 2, first: 2}\n" + _TOP), ("first: 2", "first: 3")),
    ("stake_change", "cross_stakes"): ((_TOP, "    - cross_stakes: {count: 1}\n" + _TOP), ("    - cross_stakes: {count: 1}\n", "")),
    ("stake_change", "part_stakes"): (
        (", add: 1", ""),
        ("{name: upsett, weave: three-rod wale, strands: plain, rounds: 2}", "{name: upsett, weave: three-rod wale, strands: plain, rounds: 2, worked: in twos}"),
        ("rounds: 12}", "rounds: 12, worked: in twos}"),
        (_TOP, "    - part_stakes: {count: 1}\n" + _TOP),
        ("    - part_stakes: {count: 1}\n", ""),
    ),
    ("ears", "holds"): (_ASH, ("gauge:", _SWINGING.replace("ears: {material: sticks", "ears: {material: ash")), ("notch: 1/2 in, holes", "notch: 1/2 in, holds: top rows, holes")),
    ("wrap", "group"): (_ASH, ("gauge:", _SWINGING.replace("ears: {material: sticks", "ears: {material: ash")), ("group: 3", "group: 2")),
    ("hinge", "in_one"): (("gauge:", _LID), ("  fit: resting", "  fit: resting\n  hinge: {in_one: yes}")),
    ("frame", "become_stakes"): ((_BASE, _FRAME), (_RIM, "  rim: {shape: rectangle, length: 11 in, width: 8 in}"), (", per_end: 2, add: 1", ", per_end: 1"), ("become_stakes: no", "become_stakes: yes")),
    ("frame", "shape"): ((_BASE, _FRAME), (_RIM, "  rim: {shape: rectangle, length: 11 in, width: 8 in}"), (", per_end: 2, add: 1", ", per_end: 1"), ("frame, shape: rectangle", "frame, shape: rounded rectangle, corner: 1 in")),
    ("frame", "worked"): ((_BASE, _FRAME), (_RIM, "  rim: {shape: rectangle, length: 11 in, width: 8 in}"), ("stakes: {material: stakes, per_end: 2, add: 1}\n", ""), ("become_stakes: no", "become_stakes: yes"), ("become_stakes: yes", "become_stakes: yes, worked: in twos")),
    ("outline", "shape"): ((_BASE, _OVAL), (_RIM, _OVAL_RIM), ("shape: ellipse, length: 12", "shape: stadium, length: 12")),
    ("profile_point", "shape"): ((_BASE, _OVAL), (_RIM, "  profile: [{height: 3 in, shape: ellipse, length: 12 in, width: 8 in}, {height: 5 in, shape: ellipse, length: 12 in, width: 8 in}]"), ("height: 3 in, shape: ellipse", "height: 3 in, shape: stadium")),
    ("oval_slath", "half_stick_apart"): ((_BASE, _OVAL), (_RIM, _OVAL_RIM), ("  crown: 0", "  half_stick: yes\n  crown: 0"), ("  crown: 0", "  half_stick_apart: no\n  crown: 0")),
    ("oval_slath", "crown"): ((_BASE, _OVAL), (_RIM, _OVAL_RIM), ("crown: 0 in", "crown: 1/2 in")),
    ("oval_slath", "worked"): ((_BASE, _OVAL), (_RIM, _OVAL_RIM), ("  crown: 0", "  become_stakes: yes\n  crown: 0"), ("stakes: {material: stakes, per_end: 2, add: 1}\n", ""), ("  crown: 0", "  worked: in twos\n  crown: 0")),
    ("long_sticks", "groups"): ((_BASE, _OVAL), (_RIM, _OVAL_RIM), ("groups: [1, 1, 1, 1]", "groups: [2, 2]")),
    ("long_sticks", "pierced"): ((_BASE, _OVAL), (_RIM, _OVAL_RIM), ("pierced: no, material: sticks}\n  crosswise: {groups: [2, 1, 1, 1, 2], pierced: yes", "pierced: yes, material: sticks}\n  crosswise: {groups: [2, 1, 1, 1, 2], pierced: no")),
    ("pattern", "language"): (("title: Trial piece", "title: Trial piece\nlanguage: de"),),
    ("pattern", "packs"): (("gauge:", "packs: {us round reed 5: [{title: 1 lb coil, mass: 1 lb}]}\ngauge:"),),
    ("picture", "file"): (("gauge:", "steps: [{stage: side, pictures: [{file: upsett.png, shows: The upsett.}]}]\ngauge:"), ("file: upsett.png", "file: other.png")),
    ("ready_made", "shape"): ((_BASE, _READY_MADE), (_RIM, _OVAL_RIM), ("ready made, shape: ellipse", "ready made, shape: stadium")),
    ("stock", "butt"): (_WILLOW, _WILLOW_TOP, ("butt: 5 mm", "butt: 4 mm")),
    ("stock", "tip"): (_WILLOW, _WILLOW_TOP, ("tip: 2 mm", "tip: 3 mm")),
    ("stock", "length_class"): (_WILLOW, _WILLOW_TOP, ("length_class: 4 ft", "length_class: 6 ft")),
    ("stock", "kind"): (("kind: round reed", "kind: centre cane"),),
    ("stock", "usual_length"): (("usual_length: 4 m", "usual_length: 2 m"),),
}  # fmt: skip

# Keys whose change cannot be seen in what one file makes, and why.
EXCEPTIONS: dict[Key, str] = {
    ("pattern", "slath"): "the version of the language; there is one",
    ("pattern", "workshop_file"): "another file; what it brings is tested with the workshop files",
    ("pattern", "withheld"): "kept out of handouts alone, which this test does not set",
    **{
        (title, "kind"): "another kind is another part of the language, with keys of its own"
        for title in ("board", "frame", "oval_slath", "ready_made", "round_slath")
    },
    **dict.fromkeys((("pattern", "money"), ("cost", "currency"), ("cost", "fees"), ("cost", "hours"), ("cost", "mark_up"), ("cost", "rate"), ("fee", "amount"), ("fee", "what"), ("pack", "supplier")), "money is told by its own commands and papers, and tested with them"),
    **dict.fromkeys((("pattern", "contact"), ("pattern", "errata"), ("pattern", "photographs"), ("photograph", "caption"), ("photograph", "file"), ("photograph", "shows")), "printed in the shop's and the press's papers, and tested with them"),
    **{
        ("test_weave", key): "what a woven size found is walked with what it teaches, and its form"
        for key in (
            "base_diameter", "base_length", "base_width", "by", "height", "left_over", "note", "rim_diameter", "rim_length",
            "rim_width", "time", "used",
        )
    },
    **{
        ("variant", key): "a variant is one basket by its name; its keys are walked by themselves, below"
        for key in (
            "about", "accept", "border", "fittings", "foot", "handles", "lid", "parts", "settings", "side", "skill",
            "steps", "subtitle", "time", "woven",
        )
    },
}  # fmt: skip
_MEASURE = re.compile(r"^\s*(?P<whole>\d+(?:\.\d+)?)?\s*(?P<part>\d+/\d+)?\s*(?P<unit>in|ft|yd|mm|cm|m|g|kg|lb|oz)\s*$")
_MOST_SPOTS, _MOST_VALUES = 2, 8  # places of one key, and other values there, that are tried


@cache
def documents() -> tuple[Any, ...]:
    """The data of every example, made whole."""
    return tuple(read_document(Source("example", whole(example))).data for example in _patterns())


@cache
def spots() -> dict[Key, list[Spot]]:
    """Where every key of the language stands in the examples."""
    parts = {id(part["properties"]): (title, part) for title, part in _with_properties(schema("pattern"))}
    found: dict[Key, list[Spot]] = {}
    for number, data in enumerate(documents()):
        ways = dict(_ways(data, ()))

        def properties(
            validator: Any, value: Any, instance: Any, inner: Any, number: int = number, ways: Any = ways
        ) -> Iterator[Any]:
            if isinstance(instance, dict) and id(value) in parts:
                for key in instance:
                    if key in value and id(instance) in ways:
                        found.setdefault((parts[id(value)][0], key), []).append((number, ways[id(instance)]))
            yield from Draft202012Validator.VALIDATORS["properties"](validator, value, instance, inner) or ()

        validator = extend(Draft202012Validator, {"properties": properties})(schema("pattern"))  # type: ignore[no-untyped-call]
        list(validator.iter_errors(data))
    return found


def _ways(data: Any, way: tuple[str | int, ...]) -> Iterator[tuple[int, tuple[str | int, ...]]]:
    if isinstance(data, dict):
        yield id(data), way
        for key, value in data.items():
            yield from _ways(value, (*way, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from _ways(value, (*way, index))


def keys() -> list[Key]:
    """Every key of the schema, by the title of its part."""
    return sorted({(title, key) for title, part in _with_properties(schema("pattern")) for key in part["properties"]})


def part_of(title: str, key: str) -> dict[str, Any]:
    """What the schema says of a key."""
    for name, part in _with_properties(schema("pattern")):
        if name == title and key in part["properties"]:
            found: dict[str, Any] = part["properties"][key]
            return found
    raise KeyError(title, key)


def other_values(value: Any, said: dict[str, Any], materials: list[str]) -> Iterator[Any]:
    """Other values that may stand in place of one."""
    yield from (choice for choice in said.get("enum", ()) if str(choice) != str(value))
    match value:
        case bool():
            yield not value
        case int() | float():
            yield from (value + 1, value + 2, max(value - 1, 0), value * 3)
        case str() if value in materials:
            yield from (key for key in materials if key != value)
        case str():
            yield from _other_text(value)
        case list():
            yield from _other_lists(value, materials)
        case dict():
            for inner, kept in value.items():
                for other in other_values(kept, {}, materials):
                    yield {**value, inner: other}


def _other_text(value: str) -> Iterator[str]:
    """Another yes or no, measure, day, colour, number or word."""
    if value in {"yes", "no"}:
        yield "no" if value == "yes" else "yes"
    elif measure := _MEASURE.match(value):
        top, _, bottom = (measure["part"] or "0/1").partition("/")
        amount = float(measure["whole"] or 0) + int(top) / int(bottom)
        yield from (f"{round(amount * share, 3):g} {measure['unit']}" for share in (1.3, 0.7, 2, 0.4, 4) if amount)
    elif re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        yield "2025-05-05"
    elif re.fullmatch(r"#[0-9a-f]{6}", value):
        yield "#305080"
    elif re.fullmatch(r"\d+", value):
        yield from (str(int(value) + 1), str(max(int(value) - 1, 1)))
    else:
        yield from _other_words(value)


def _other_words(value: str) -> Iterator[str]:
    swapped = re.sub(r"\d+", lambda found: str(int(found[0]) + 1), value)
    if swapped != value:
        yield swapped
    yield from (
        word for word in ("randing", "pairing", "chasing", "us round reed 6", "us round reed 3") if word != value
    )
    yield f"{value} otherwise"


def _other_lists(value: list[Any], materials: list[str]) -> Iterator[Any]:
    if len(value) > 1:
        yield value[:-1]
        yield value[::-1]
    yield [*value, value[-1]]
    for index, inner in enumerate(value):
        for other in other_values(inner, {}, materials):
            yield [*value[:index], other, *value[index + 1 :]]


class Seen:
    """What one file makes, looked at no further than is needed."""

    def __init__(self, folder: Path, data: Any) -> None:
        self.file = folder / "trial.yaml"
        self.text = json.dumps(data, ensure_ascii=False)
        self.made: Compilation | None = None
        self.refused: tuple[str, ...] = ()
        self.file.write_text(self.text, encoding="utf-8")
        try:
            self.made = compile_pattern(self.file)
        except PatternFaultError as fault:
            self.refused = tuple(note.code for note in fault.notes)

    def notes(self) -> object:
        """What is told, wherever it stands."""
        return [(n.code, n.sentence, n.remedies, n.size, n.part, n.accepted) for n in self._good.notes]

    def listed(self) -> object:
        """The list of every size."""
        return list_json(self._good.pattern, [size.quantities for size in self._good.sizes])

    def told(self) -> object:
        """The booklet as text, and its list and proof; with the pictures where it has any."""
        self.file.write_text(self.text, encoding="utf-8")
        seen = ("text", "proof", "web page") if "pictures" in self.text else ("text", "proof")
        return dict(editions_of(self._good, BuildOptions(editions=seen), lambda _: None))

    def drawn(self) -> object:
        """Every figure, its words and what is painted."""
        return [
            [(name, figure.words, figure.items) for name, figure in draw_figures(size.basket, size.quantities).items()]
            for size in self._good.sizes
        ]

    @property
    def _good(self) -> Compilation:
        assert self.made is not None
        return self.made


def changes(folder: Path, before: Seen, data: Any) -> bool:
    """Whether a changed file makes anything else."""
    after = Seen(folder, data)
    if after.made is None or before.made is None:
        return False  # a file that is refused shows nothing of what its values would do
    if before.notes() != after.notes() or before.listed() != after.listed():
        return True
    if any(note.stops for note in (*before.made.notes, *after.made.notes)):
        return False
    return before.told() != after.told() or before.drawn() != after.drawn()


def changed_at(data: Any, way: tuple[str | int, ...], key: str, value: Any) -> Any:
    """The data with another value at a place, or without the key (`value` is ...)."""
    made = copy.deepcopy(data)
    place = made
    for step in way:
        place = place[step]
    if value is ...:
        del place[key]
    else:
        place[key] = value
    return made


def value_at(data: Any, way: tuple[str | int, ...], key: str) -> Any:
    """The value of a key at a place."""
    for step in way:
        data = data[step]
    return data[key]


def _pictures(folder: Path) -> None:
    """The picture one example names, and another."""
    Image.new("L", (2, 2)).save(folder / "upsett.png")
    Image.new("L", (3, 3)).save(folder / "other.png")


@pytest.mark.parametrize(("title", "key"), sorted(IN_RICH), ids=[f"{title}.{key}" for title, key in sorted(IN_RICH)])
def test_a_changed_value_changes_a_whole_basket(tmp_path: Path, title: str, key: str) -> None:
    """The last of the changes is the key's own; those before it bring about the basket in which it applies."""
    _pictures(tmp_path)
    *first, (old, new) = IN_RICH[title, key]
    text = RICH
    for before, after in first:
        assert before in text
        text = text.replace(before, after)
    assert old in text
    assert key in (old + new)
    before_it, with_it = (read_document(Source("rich", one)).data for one in (text, text.replace(old, new)))
    assert changes(tmp_path, Seen(tmp_path, before_it), with_it), f"{title}.{key} is ignored"


@pytest.mark.parametrize(("title", "key"), keys(), ids=[f"{title}.{key}" for title, key in keys()])
def test_a_changed_value_changes_what_comes_out(tmp_path: Path, title: str, key: str) -> None:
    """Some other value of the key, in some example that has it, is seen."""
    if (title, key) in IN_RICH:
        return  # in a basket of its own, above
    if (title, key) in EXCEPTIONS:
        pytest.skip(EXCEPTIONS[title, key])
    _pictures(tmp_path)
    said = part_of(title, key)
    for number, way in spots().get((title, key), [])[:_MOST_SPOTS]:
        data = documents()[number]
        before = Seen(tmp_path, data)
        materials = list(data.get("materials", {}))
        value = value_at(data, way, key)
        others = [*list(other_values(value, said, materials))[:_MOST_VALUES], ...]
        if any(changes(tmp_path, before, changed_at(data, way, key, other)) for other in others):
            return
    pytest.fail(f"{title}.{key} is ignored")


# A value for each key of a variant, other than the file has it.
_OF_A_VARIANT: dict[str, Any] = {
    "called": "the tall one",
    "leave_out": ["bye_stakes"],
    "measures": {"tall": "9 in"},
    "materials": {"plain": {"title": "another name"}},
    "settings": {"spare_stakes": 7},
    "base": {"kind": "round slath", "diameter": "6 in", "sticks": 12, "material": "sticks"},
    "stakes": {"material": "stakes", "per_end": 1},
    "bye_stakes": {"material": "stakes", "every": 4},
    "side": {"height": "3 in", "bands": [{"weave": "pairing", "strands": "plain", "to": "top"}]},
    "border": {"passes": [["behind 1", "out"]]},
    "foot": {"passes": [["behind 1", "before 1", "in"]]},
    "handle": {"kind": "bow", "material": "stakes", "rise": "9 in"},
    "handles": [{"kind": "ring", "material": "stakes", "count": 2, "diameter": "2 in"}],
    "lid": {"base": {"kind": "round slath", "diameter": "7 in", "sticks": 8, "material": "sticks"}},
    "parts": [
        {
            "name": "disc",
            "base": {"kind": "round slath", "diameter": "4 in", "sticks": 8, "material": "sticks"},
            "join": {"way": "resting", "on": "base"},
        }
    ],
    "fittings": [{"part": "loop", "material": "plain", "across": "1 in"}],
    "steps": [{"stage": "border", "notes": ["Slowly."]}],
    "woven": {"one": "2026-03-01"},
    "accept": [{"code": "size-not-woven", "reason": "It was woven by another hand."}],
    "subtitle": "for the table",
    "about": "The same for the table.",
    "skill": "beginner",
    "time": "two days",
}
_IN_VARIANTS = """slath: 1
title: Trial
sizes: [one]
measures: {tall: 5 in}
materials: {sticks: {stock: us round reed 8}, stakes: {stock: us round reed 5}, plain: {stock: us round reed 3}}
base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
bye_stakes: {material: stakes, every: 2}
side: {height: tall, bands: [{weave: pairing, strands: plain, to: top}]}
border: {passes: [[behind 1, out], [before 2, in]]}
"""


def test_every_key_of_a_variant_has_a_value_here() -> None:
    """No key of a variant is left out of the walk below."""
    assert set(_OF_A_VARIANT) == set(schema("pattern")["$defs"]["variant"]["properties"])


@pytest.mark.parametrize("key", _OF_A_VARIANT)
def test_every_key_of_a_variant_counts(key: str, tmp_path: Path) -> None:
    """What a variant says otherwise is seen in its notes, its list, its text or its figures."""
    data = yaml.safe_load(_IN_VARIANTS)
    before = Seen(tmp_path, data | {"variants": {"first": {}, "other": {"subtitle": "the other"}}})
    after = data | {"variants": {"first": {key: _OF_A_VARIANT[key]}, "other": {"subtitle": "the other"}}}
    assert changes(tmp_path, before, after), f"variant.{key} is ignored"
