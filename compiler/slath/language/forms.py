"""Forms of single values: what the schemas say of a length, a count, a name, wherever one stands."""

from __future__ import annotations

from typing import Any

from slath.language.keys import FORMS, Schema, refer

TEXT: list[str] = ["string", "number"]


def _value(kinds: str | list[str], wants: str, words: str = "", **more: Any) -> Schema:
    return {"x-wants": wants} | ({"description": words} if words else {}) | {"type": kinds} | more


def _count(words: str, least: int = 0) -> Schema:
    return _value(["integer", "string"], "a whole number", words, minimum=least, maximum=2000, minLength=1)


def _written(wants: str, words: str = "") -> Schema:
    return _value(TEXT, wants, words, minLength=1)


def _listed(wants: str, kinds: str | list[str], of: str, **more: Any) -> Schema:
    return {"x-wants": wants, "type": kinds, "items": refer(of), **more}


_SIZE_LETTERS = r"""[^\s\u0000-\u001f\u007f/\\:;*?"<>|(){}\[\]#&%$@!~^=`]+"""
_TOGETHER = ["singly", "in twos", "in threes", "in fours", "in fives", "in sixes", 1, 2, 3, 4, 5, 6]
_PAIRED = dict.fromkeys(("in pairs", "pairs", "paired", "double", "doubled"), "write in twos") | {
    "single": "write singly"
}
_A_COUNT = "A whole number, the name of a measure, or a formula such as pairs * 2."
SHAPES = {
    "write half round": "d, d shape, d-shape, d shaped, d-shaped, half oval, half ellipse, flat back",
    "write half round, its width half its length": "half circle, semicircle",
    "write circle": "round",
    "write ellipse": "oval",
    "write rectangle, with length and width alike": "square",
    "write rectangle": "oblong",
}
WEAVE: Schema = {**refer("text"), "x-examples": "weaves"}
LISTED_COUNTS: Schema = {"type": "array", "minItems": 1, "items": refer("count")}

FORMS |= {
    "text": _written("text"),
    "name": _written("a name", "A name given elsewhere in the file."),
    "size_name": _value(
        TEXT, "a name of letters, digits, single blanks and hyphens, up to 40 of them",
        "A size's name: letters, digits, single blanks and hyphens, up to 40.",
        pattern=f"^(?=.{{1,40}}$(?!\\n))(?!['’.,+_-]){_SIZE_LETTERS}( {_SIZE_LETTERS})*$",
    ),
    "length": _written(
        "a length such as 3 3/4 in or 9.5 cm, or a measure's name",
        "A length such as 3 3/4 in or 9.5 cm, the name of a measure, or a formula such as base_length + 2 in.",
    ),
    "measure": _written(
        "a length, a mass, a number or a formula", "A length, a mass, a number, or a formula over other measures."
    ),
    "mass": _written("a mass such as 1 lb or 250 g", "A mass such as 1 lb or 250 g, the name of a measure, or a formula."),
    "count": _count(_A_COUNT),
    "count_added": {"x-hint": "write leave_out for stakes fewer", **_count(_A_COUNT)},
    "whole_rounds": _count("Whole rounds, the name of a measure, or a formula.", 1),
    "ratio": _value(
        ["number", "string"], "a number such as 1.12", "A number such as 1.12, the name of a measure, or a formula.",
        exclusiveMinimum=0, minLength=1,
    ),
    "money": _value("number", "a price in plain digits", "A price in plain digits.", minimum=0),
    "yes_or_no": {"x-wants": "yes or no", "description": "yes or no.", "enum": ["yes", "no", True, False]},
    "date": _value(
        "string", "a day such as 2026-03-01", "A day as year-month-day: 2026-03-01.", pattern="^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
    ),
    "colour": _value(
        "string", 'a colour such as "#cf8a62"', 'A screen colour as # and six hexadecimal digits, in quotes: "#cf8a62".',
        pattern="^#[0-9a-fA-F]{6}$", **{"x-hint": "put a colour's name after dye: and its screen colour here"},
    ),
    "texts": _listed("words, or a list of them", [*TEXT, "array"], "text"),
    "range": _value(["string", "integer"], "a range such as 1 to 5", minimum=1, maximum=2000, pattern="^[0-9]+( to [0-9]+)?$"),
    "stretches": _listed(
        "a range such as 1 to 16, or a list of ranges", ["string", "array"], "range", pattern="^[0-9]+ to [0-9]+$", minItems=1,
        maxItems=12,
    ),
    "worked": {
        "description": "How many uprights are woven as one: singly, in twos, in threes, in fours, or the number.",
        "type": ["string", "integer"], "enum": _TOGETHER, "x-say": _PAIRED,
    },
    "worked_on_base": {
        "description": "How sticks are woven: singly, in twos... or grouped (as the slath has them).",
        "enum": ["grouped", *_TOGETHER], "x-say": _PAIRED | dict.fromkeys(("in groups", "as laid"), "write grouped"),
    },
    "moves": _listed(
        "moves such as [behind 2, out]", ["string", "array"], "text", minItems=1, maxItems=24, minLength=2
    ),
    "strands": _listed("a list of materials, or one material", [*TEXT, "array"], "name", minItems=1, maxItems=40),
    "in_turn": _listed("a list of materials", "array", "name", minItems=2, maxItems=40),
    "count_or_list": {
        **_listed("a number, or a list of them", ["integer", "string", "array"], "count", minItems=1),
        "if": {"type": "array"}, "else": refer("count"),
    },
}  # fmt: skip
