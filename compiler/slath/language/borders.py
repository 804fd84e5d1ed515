"""Borders: passes of moves, and the named borders written out as the passes they are."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, cast

from slath.language.bands import read_bands
from slath.language.pattern import Border, BorderPass, FootStakes, Move, MoveWay, Plait
from slath.language.spelling import nearest

if TYPE_CHECKING:
    from slath.language.pattern import Material
    from slath.language.view import View

_MOVE = re.compile(
    r"(behind|before|in front of|over|under|across|past) (?:the next )?(\d+|one|two|three|four|five|six)"
)
_BETWEEN = re.compile(r",? and then |,? then |,? and |,")
_COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_WAYS: dict[str, MoveWay] = {"in front of": "before", "across": "over", "past": "before"}
_ENDS: dict[str, MoveWay] = {"out": "out", "in": "in", "down": "down", "to the outside": "out", "to the inside": "in"}
_KINDS_NEED = {
    "plain": ("rods",),
    "rolled": ("rods",),
    "open": ("past",),
    "scalloped": ("past", "height"),
    "trac": ("moves",),
    "rope": (),
    "plait": ("group", "over"),
}
_KEYS_OF = {
    "plain": {"rods", "behind"},
    "rolled": {"rods", "behind"},
    "open": {"past", "height"},
    "scalloped": {"past", "height"},
    "trac": {"moves"},
    "rope": set(),
    "plait": {"group", "added", "over"},
}
_FOOT_KEYS = {"turned_down", "bands", "stakes"}
GREATEST_REACH = 40


def read_border(view: View, materials: Mapping[str, Material], *, foot: bool = False) -> Border:
    """The border at `view`, named or written as passes."""
    kind = view.text("kind")
    _check_keys(view, kind, foot=foot)
    turned_down, stakes = view.get("turned_down"), view.get("stakes")
    return Border(
        path=view.path,
        passes=_NAMED[kind](view) if kind in _NAMED else _passes(view),
        plait=_plait(view) if kind == "plait" else None,
        groups=cast("int", view.together("worked")),
        tail_mm=view.length("tail", nought=True),
        hand_hold_mm=view.length("hand_hold", nought=True),
        allowance_mm=view.length("allowance"),
        name=view.text("name"),
        foot=foot,
        cut_to_one=view.yes("cut_to_one"),
        of=view.choice("of", "all"),
        turned_down=read_moves(turned_down) if turned_down is not None else (),
        bands=read_bands(view, "bands", "foot", materials),
        stakes=_foot_stakes(stakes, materials) if stakes is not None else None,
        loop_height_mm=view.length("height"),
    )


def _foot_stakes(view: View, materials: Mapping[str, Material]) -> FootStakes:
    return FootStakes(
        path=view.path,
        material=view.material("material", materials),
        depth_mm=view.length("depth"),
        length_mm=view.length("length"),
    )


def _check_keys(view: View, kind: str, *, foot: bool) -> None:
    own = {"kind", "name", "worked", "cut_to_one", "tail", "hand_hold", "allowance", "of"}
    if foot:
        own |= _FOOT_KEYS
        if view.has("stakes") and (view.has("turned_down") or view.has("of")):
            view.reading.note(
                "choose-one",
                (*view.path, "stakes"),
                "The foot has stakes of its own, and ends that come down from the rim as well.",
                "keep one of the two",
                at_key=True,
            )
    if view.has("kind") and not kind:
        return  # the kind is wrong, and told; what it would need is not known
    if not kind:
        if not view.has("passes"):
            view.note(
                "missing-key",
                "The border has neither passes nor a kind.",
                "add passes: and the moves of each",
                "add kind: plain, open, trac, rope or plait",
                at_key=True,
            )
        kind_keys = {"passes"}
    else:
        kind_keys = _KEYS_OF.get(kind, set())
        for key in _KINDS_NEED.get(kind, ()):
            if not view.has(key):
                view.note("missing-key", f"A {kind} border needs {key}.", f"add {key}:", at_key=True)
    for key in view.data:
        if key not in own | kind_keys:
            where = f"a {kind} border" if kind else "a border of passes"
            view.reading.note(
                "key-unfit",
                (*view.path, key),
                f"{key} has no meaning in {'a border at the rim' if key in _FOOT_KEYS else where}.",
                "write it in the foot" if key in _FOOT_KEYS else f"take {key} out",
                at_key=True,
            )


def _passes(view: View) -> tuple[BorderPass, ...]:
    """The passes; one pass written without brackets of its own, `passes: [behind 1, before 1, in]`, is one all the same."""
    inner = view.get("passes")
    if inner is None:
        return ()
    moves = [item.own_text() for item in inner.items() if isinstance(item.data, str)]
    ends = [index for index, text in enumerate(moves) if text.casefold() in _ENDS]
    if len(moves) > 1 and isinstance(inner.data, list) and len(moves) == len(inner.data) and ends == [len(moves) - 1]:
        return (BorderPass(inner.path, read_moves(inner)),)
    return tuple(_pass(item) for item in inner.items())


def _pass(view: View) -> BorderPass:
    if not isinstance(view.data, dict):
        return BorderPass(view.path, read_moves(view))
    moves = view.get("moves")
    return BorderPass(
        path=view.path,
        moves=read_moves(moves) if moves is not None else (),
        laid_first=view.count("laid_first", 0, least=0, most=60),
        under=view.maybe_count("under", most=12),
        depth_mm=view.length("depth"),
    )


def read_moves(view: View) -> tuple[Move, ...]:
    """Moves written as a list or parted by commas: ``behind 2, before 1, out``."""
    moves: list[Move] = []
    for item in view.items():
        for text in _BETWEEN.split(item.own_text()):
            move = _move(item, " ".join(text.casefold().split()))
            if move is not None:
                moves.append(move)
    if sum(move.count for move in moves) > GREATEST_REACH:
        view.note(
            "number-out-of-range",
            f"One pass reaches past {sum(move.count for move in moves)} stakes, more than any border does.",
        )
    early = next((move for move in moves[:-1] if not move.count), None)
    if early is not None:
        view.note(
            "move-after-end",
            f"“{early.way}” ends a pass, but more moves follow it.",
            "put it last, or begin another pass after it",
        )
    return tuple(moves)


def _move(item: View, text: str) -> Move | None:
    match = _MOVE.fullmatch(text)
    if match is not None:
        count = _COUNTS.get(match[2]) or int(match[2])
        if count == 0:
            item.note("number-out-of-range", "A move passes at least one stake.")
        return Move(_WAYS.get(match[1]) or cast("MoveWay", match[1]), max(count, 1))
    if text in _ENDS:
        return Move(_ENDS[text])
    word = text.split(" ", maxsplit=1)[0]
    near = nearest(word, ("behind", "before", "over", "under", *_ENDS))
    item.note(
        "unknown-move",
        f"“{text}” is no move of a border.",
        f"write {near}{' 1' if near not in _ENDS else ''}"
        if near
        else "write behind 2, before 1, over 1 or under 1; an end is out, in or down",
    )
    return None


def _plain(view: View) -> tuple[BorderPass, ...]:
    """A k-rod plain border behind b: each travels k + b spaces, and comes out beside the stake brought down next to it."""
    rods, behind = view.count("rods", 3, least=2, most=12), view.count("behind", 1, most=12)
    if behind >= rods:
        view.note(
            "border-rods-few",
            f"With {rods} rods laid behind {behind} there is nothing left to pass before.",
            f"lay {behind + 1} rods or more",
            f"lay them behind {rods - 1} or fewer",
        )
        behind = 1
    moves = (Move("behind", behind), Move("before", rods - behind), Move("behind", behind), Move("out"))
    return (BorderPass(view.path, moves, laid_first=rods),)


def _open(view: View) -> tuple[BorderPass, ...]:
    past = view.count("past", 1, most=12)
    return (BorderPass(view.path, (Move("behind", past), Move("down"))),)


def _trac(view: View) -> tuple[BorderPass, ...]:
    moves = view.get("moves")
    return (BorderPass(view.path, read_moves(moves) if moves is not None else ()),)


def _rope(view: View) -> tuple[BorderPass, ...]:
    """Two rows, each before one and in; the second lies over the first and twists with it. White 1901, Gill 1916."""
    row = (Move("before", 1), Move("in"))
    return (BorderPass(view.path, row), BorderPass(view.path, row))


def _plait(view: View) -> Plait:
    return Plait(
        path=view.path,
        group=view.count("group", 1, most=12),
        added=view.count("added", 0, least=0, most=60),
        over=view.count("over", 1, most=12),
        allowance_mm=view.length("allowance"),
    )


_NAMED: dict[str, Callable[[View], tuple[BorderPass, ...]]] = {
    "plain": _plain,
    "rolled": _plain,
    "open": _open,
    "scalloped": _open,
    "trac": _trac,
    "rope": _rope,
    "plait": lambda _view: (),
}
