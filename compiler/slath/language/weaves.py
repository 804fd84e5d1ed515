"""Weave names as makers say them, UK and US, turned into strokes, rods and strands worked as one."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from slath.language.pattern import Stroke, WeaveSpec
from slath.language.spelling import nearest
from slath.messages.told import Told, told, word
from slath.units.counting import numbers_to

_NUMBER_WORDS = numbers_to(8) | {"single": 1, "double": 2, "triple": 3}
_COUNT = r"\d+|" + "|".join(numbers_to(6))
GREATEST_RODS = 12
OPEN = WeaveSpec("open", (), 0, 1, twined=False, label="open")
_PLAIN = (Stroke(1, 1),)
_NUMBER = r"\d+|" + "|".join(_NUMBER_WORDS)
_NEXT = r"(?:,? then |, |,|$|(?= ))"
_STROKE = re.compile(rf"(?:before|over|in front of) ({_COUNT}),? (?:and )?(?:behind|under) ({_COUNT}){_NEXT}")
_UNDER_FIRST = re.compile(rf"(?:behind|under) ({_COUNT}),? (?:and )?(?:before|over|in front of) ({_COUNT}){_NEXT}")
_WITH = re.compile(rf"\bwith ({_NUMBER})(?: strands?| rods?| weavers?)?\b")


class NamedWeave(NamedTuple):
    """A weave by name. Worked as several bands: "arrow" is rounds, then reversed rounds; "chain" turns every round."""

    weave: WeaveSpec
    turns: str = ""


class UnknownWeaveError(ValueError):
    """No weave has this name; `remedy` offers the nearest."""

    def __init__(self, name: str, remedy: Told) -> None:
        self.sentence = told("“{name}” is no weave the tool knows.", name=name)
        super().__init__(self.sentence)
        self.remedy = remedy


class _Words(NamedTuple):
    """A weave's name taken apart: its base words, its strokes, and the number after “with”."""

    match: re.Match[str]
    strokes: tuple[Stroke, ...]
    said: int | None

    def number(self, group: str) -> int | None:
        """The number in one group of the base words, if it was said."""
        text = self.match.groupdict().get(group)
        return _number(text) if text else None

    @property
    def turns(self) -> str:
        """“arrow”, “chain” or nothing."""
        return self.match.groupdict().get("turns") or ""


def find_weave(name: str) -> NamedWeave:
    """The weave called `name`; UnknownWeaveError with a remedy where there is none."""
    plain = " ".join(name.casefold().replace("-", " ").replace("_", " ").split())
    plain = _UNDER_FIRST.sub(r"before \2 behind \1, ", plain).rstrip(", ") if not _STROKE.search(plain) else plain
    strokes = read_strokes(plain)
    counted = _WITH.search(plain)
    base = " ".join(_WITH.sub(" ", _STROKE.sub(" ", plain)).replace(",", " ").split())
    for form, build in _FORMS:
        match = re.fullmatch(form, base)
        if match is not None and (base or strokes):
            found = build(_Words(match, strokes, _number(counted.group(1)) if counted else None))
            _refuse_absurd(name, found.weave)
            return found
    raise UnknownWeaveError(name, _remedy(plain))


def _remedy(plain: str) -> Told:
    """What to write for a weave by another name, by what it is told apart from another with, or by a slip."""
    for words, instead in _SAID_OTHERWISE:
        if re.search(rf"\b(?:{words})\b", plain):
            return word(instead)
    near = nearest(re.sub(r"\b(?:weav(?:e|ing)|pattern)\b", "", plain).strip() or plain, WEAVE_NAMES)
    return told("write {near}", near=near) if near else told("write its strokes, such as before 2 behind 1")


def read_strokes(text: str) -> tuple[Stroke, ...]:
    """The strokes written as “before 2 behind 1, before 1 behind 1”; empty if none are."""
    return tuple(Stroke(_number(before), _number(behind)) for before, behind in _STROKE.findall(text.casefold()))


def _refuse_absurd(name: str, weave: WeaveSpec) -> None:
    if not 1 <= weave.rods <= GREATEST_RODS or not 1 <= weave.as_one <= GREATEST_RODS:
        raise UnknownWeaveError(name, told("work with 1 to {greatest_rods} rods", greatest_rods=GREATEST_RODS))
    if any(
        not 1 <= stroke.before <= GREATEST_RODS or not 1 <= stroke.behind <= GREATEST_RODS for stroke in weave.strokes
    ):
        raise UnknownWeaveError(
            name,
            told("let each stroke pass before and behind 1 to {greatest_rods} stakes", greatest_rods=GREATEST_RODS),
        )


def _number(text: str) -> int:
    return _NUMBER_WORDS[text] if text in _NUMBER_WORDS else int(text)


def _spoken(number: int) -> str:
    return next((word for word, value in _NUMBER_WORDS.items() if value == number), str(number))


def _label(name: str, strokes: tuple[Stroke, ...], usual: tuple[Stroke, ...] = _PLAIN) -> str:
    written = ", ".join(f"before {stroke.before} behind {stroke.behind}" for stroke in strokes)
    if strokes == usual:
        return name
    return f"{name}, {written}" if name else written


def _rand(words: _Words) -> NamedWeave:
    strokes, as_one = words.strokes or _PLAIN, words.said or 1
    if as_one > 1:
        return _slew(words)
    label = "randing" if strokes == _PLAIN else _label("", strokes)
    return NamedWeave(WeaveSpec("rand", strokes, 1, 1, twined=False, label=label))


def _slew(words: _Words) -> NamedWeave:
    strokes, as_one = words.strokes or _PLAIN, words.said or words.number("many") or 2
    if as_one == 1:
        return _rand(words._replace(said=None))
    return NamedWeave(
        WeaveSpec("slew", strokes, 1, as_one, twined=False, label=_label(f"slewing with {_spoken(as_one)}", strokes))
    )


def _chase(words: _Words) -> NamedWeave:
    """Two strands that follow each other; “with two weavers” says no more than that. Two slews may chase too."""
    strokes, as_one = words.strokes or _PLAIN, words.number("many") or 1
    if words.turns or (words.said is not None and words.said != 2):
        raise UnknownWeaveError(
            words.match.group(), told("write chasing; it is two strands, or two bundles: double chasing")
        )
    many = {1: "", 2: "double "}.get(as_one, f"{_spoken(as_one)}-strand ")
    return NamedWeave(WeaveSpec("chase", strokes, 2, as_one, twined=False, label=_label(f"{many}chasing", strokes)))


def _slew_of_rods(words: _Words) -> NamedWeave:
    return _slew(words._replace(said=words.number("rods")))


def _over_two(words: _Words) -> NamedWeave:
    """Rib randing, the Japanese weave of school manuals: before 2 behind 1, on a count that is not a multiple of three."""
    return _rand(words._replace(strokes=(Stroke(2, 1),)))


def _pair(words: _Words) -> NamedWeave:
    strokes, as_one = words.strokes or _PLAIN, words.number("many") or words.said or 1
    many = {1: "", 2: "double "}.get(as_one, f"{_spoken(as_one)}-strand ")
    return NamedWeave(
        WeaveSpec("pair", strokes, 2, as_one, twined=True, label=_label(f"{many}pairing", strokes)), words.turns
    )


def _wale(words: _Words) -> NamedWeave:
    rods_said = words.number("rods")
    rods, as_one = (rods_said, words.said or 1) if rods_said else (words.said, 1)
    if rods is None or rods < 3:
        raise UnknownWeaveError(words.match.group(), told("say its rods, three or more: three-rod wale"))
    usual = (Stroke(rods - 1, 1),)
    strokes = words.strokes or usual
    label = _label(f"{_spoken(rods)}-rod wale", strokes, usual)
    return NamedWeave(WeaveSpec("wale", strokes, rods, as_one, twined=True, label=label), words.turns)


def _three_rod(words: _Words) -> NamedWeave:
    strokes = words.strokes or (Stroke(2, 1),)
    return NamedWeave(
        WeaveSpec("wale", strokes, 3, 1, twined=True, label=_label("three-rod wale", strokes, (Stroke(2, 1),)))
    )


def _fixed(weave: WeaveSpec) -> Callable[[_Words], NamedWeave]:
    def build(words: _Words) -> NamedWeave:
        if words.strokes or words.said:
            raise UnknownWeaveError(
                words.match.group(), told("{weave} takes no strokes and no number", weave=weave.label)
            )
        return NamedWeave(weave)

    return build


_ENGLISH = WeaveSpec("french rand", _PLAIN, 1, 1, twined=False, label="English randing", one_by_one=True)
_MANY = rf"(?P<many>{_NUMBER})"
_RODS = rf"(?P<rods>{_NUMBER}) (?:rod|strand)"
_TURNS = r"(?: (?P<turns>arrow|chain))?"
_WEAVING = r"weav(?:e|ing)"
_SIMPLE = rf"(?:plain |simple |single )?{_WEAVING}"

# The base words of every weave, UK and US, those most often written first: a form is compiled only when it is reached.
# Strokes and “with 3” may stand anywhere.
_FORMS: tuple[tuple[str, Callable[[_Words], NamedWeave]], ...] = (
    (rf"(?:{_MANY} )?(?:pair(?:ing|ed)?|twin(?:e|ing|ed))(?: weav(?:e|ing))?{_TURNS}", _pair),
    (rf"{_RODS} (?:wal(?:e|ing)|coil){_TURNS}", _wale),
    (
        rf"(?:(?:plain |single )?rand(?:ing)?|(?:over and under|under and over|in and out)(?: {_WEAVING})?|{_SIMPLE})?",
        _rand,
    ),
    (rf"(?:{_MANY} )?chas(?:e|ing)(?: rand(?:ing)?| weav(?:e|ing))?|(?:weaving )?two weavers", _chase),
    (r"slew(?:ing)?(?: rand(?:ing)?)?", _slew),
    (rf"{_RODS} slew(?:ing)?", _slew_of_rods),
    (r"rib rand(?:ing)?|japanese weav(?:e|ing)", _over_two),
    (rf"{_MANY}(?: rand(?:ing)?| weav(?:e|ing)| over and under| slew(?:ing)?)?", _slew),
    (rf"{_RODS} (?P<turns>arrow|chain)(?: wal(?:e|ing))?", _wale),
    (r"wal(?:e|ing)|coil", _wale),
    (r"triple twist", _three_rod),
    (r"french rand(?:ing)?", _fixed(WeaveSpec("french rand", _PLAIN, 1, 1, twined=False, label="French randing"))),
    (r"english rand(?:ing)?", _fixed(_ENGLISH)),
    (r"pack(?:ing)?|short rows", _fixed(WeaveSpec("packing", _PLAIN, 1, 1, twined=False, label="packing"))),
    (r"fitch(?:ing)?", _fixed(WeaveSpec("fitch", _PLAIN, 2, 1, twined=True, label="fitching"))),
)
# Other words of the trade, and what says the same here; by a word in them.
_SAID_OTHERWISE = (
    (r"revers(?:e|ed)", "write the weave by its name, and reversed: yes beside it"),
    (r"step(?:ped)? up|stepped wale", "write the wale by its rods, and step_up: yes beside it"),
    (r"upsett?|set up|setting up", "write three-rod wale, and name: upsett beside it"),
    (r"open(?: weav(?:e|ing)| work)?|lace", "write open: and its height in place of weave"),
    (r"cross(?:ed|ing)? (?:stakes|spokes)", "write cross_stakes: {count: 1} in place of a band"),
    (r"twill|diagonal", "write its strokes, such as before 2 behind 2"),
    (r"chas(?:e|ing) slew(?:ing)?|slew(?:ing)? chas(?:e|ing)", "write double chasing"),
    (
        r"check(?:s|ed|er)?",
        "write chasing with two colours; two bands, the second with the colours turned round, make checks",
    ),
    (r"tying in|binding", "write pairing, and worked: grouped beside it"),
    (r"arrow|chain", "say its rods: three-rod arrow, three-rod chain"),
)
WEAVE_NAMES = (
    "randing", "slewing with 2", "double weave", "chasing", "pairing", "twining", "double pairing", "three-rod wale",
    "four-rod wale", "five-rod wale", "six-rod wale", "three-rod coil", "triple twist", "over and under",
    "double chasing", "before 2 behind 1", "over 2 under 1", "french randing", "english randing", "packing", "fitching", "three-rod arrow",
)  # fmt: skip
