"""Borders: passes of moves, and the named borders written out as the passes they are."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal, assert_never, cast

from slath.language.bands import read_bands
from slath.language.border_kinds import BORDER_KINDS, BorderName
from slath.language.keys import Materials, read
from slath.language.pattern import Border, BorderPass, Move, MoveWay, Plait
from slath.language.schemas import schema
from slath.language.spelling import nearest
from slath.language.view import View
from slath.messages.told import told
from slath.units.counting import numbers_to

_MOVE = re.compile(
    r"(behind|before|in front of|(?:in )?back of|over|under|across|past) "
    r"(?:(?:the next )?(\d+|one|two|three|four|five|six)|the next(?: one)?)\b"
)
_END = re.compile(r"(to the outside|to the inside|outside|inside|out|in|down)\b")
_BETWEEN = re.compile(r",? and then |,? then |,? and |,|/|;")
_COUNTS = numbers_to(6)
_WAYS: dict[str, MoveWay] = {
    "in front of": "before",
    "back of": "behind",
    "in back of": "behind",
    "across": "over",
    "past": "before",
}
_ENDS: dict[str, MoveWay] = {
    "out": "out",
    "in": "in",
    "down": "down",
    "outside": "out",
    "inside": "in",
    "to the outside": "out",
    "to the inside": "in",
}
_FOOT_KEYS = {"turned_down", "bands", "stakes"}
GREATEST_REACH = 40


def read_border(view: View, materials: Materials, *, foot: bool = False) -> Border:
    """The border at `view`, named or written as passes."""
    kind: BorderName | Literal[""] = view.choice("kind", "")
    _check_keys(view, kind, foot=foot)
    turned_down = view.get("turned_down")
    return read(
        Border,
        view,
        materials,
        passes=_passes_as_said(kind, view),
        plait=read(Plait, view, materials) if kind == "plait" else None,
        foot=foot,
        turned_down=read_moves(turned_down) if turned_down is not None else (),
        bands=read_bands(view, "bands", "foot", materials),
        from_inside=view.choice("seen_from", "outside") == "inside",
    )


def _check_keys(view: View, kind: BorderName | Literal[""], *, foot: bool) -> None:
    own = {"kind", "name", "worked", "cut_to_one", "tail", "hand_hold", "allowance", "of"}
    own |= set() if kind == "plait" else {"seen_from"}
    own |= set() if kind else {"laid_in"}
    own |= set() if foot else {"ring"}
    if foot:
        own |= _FOOT_KEYS
        if view.has("stakes") and (view.has("turned_down") or view.has("of")):
            view.reading.note(
                "choose-one",
                (*view.path, "stakes"),
                told("The foot has stakes of its own, and ends that come down from the rim as well."),
                told("keep one of the two"),
                at_key=True,
            )
    if view.has("kind") and not kind:
        return  # the kind is wrong, and told; what it would need is not known
    if not kind:
        if not view.has("passes"):
            view.note(
                "missing-key",
                told("The border has neither passes nor a kind."),
                told("add passes: and the moves of each"),
                told("add kind: plain, open, closed, trac, rope or plait"),
                at_key=True,
            )
        kind_keys = frozenset({"passes"})
    else:
        kind_keys, needs = BORDER_KINDS[kind].keys, BORDER_KINDS[kind].needs
        for key, usual in needs.items():
            if not view.has(key):
                view.note(
                    "missing-key",
                    told("A {kind} border needs {key}.", kind=kind, key=key),
                    told("add {key}: {usual}", key=key, usual=usual),
                    at_key=True,
                )
    known = schema("pattern")["$defs"]["border"]["properties"]
    for key in view.data:
        if key in known and key not in own | kind_keys:
            where = told("a {kind} border", kind=kind) if kind else told("a border of passes")
            view.reading.note(
                "key-unfit",
                (*view.path, key),
                told(
                    "{key} has no meaning in {where}.",
                    key=key,
                    where=told("a border at the rim") if key in _FOOT_KEYS else where,
                ),
                told("write it in the foot") if key in _FOOT_KEYS else told("take {key} out", key=key),
                at_key=True,
            )


def _passes_as_said(kind: BorderName | Literal[""], view: View) -> tuple[BorderPass, ...]:
    """The passes of a border by its name, or as they are written where it has none."""
    match kind:
        case "":
            return _passes(view)
        case "plain" | "rolled":
            return _plain(view)
        case "open" | "scalloped":
            return _open(view)
        case "closed":
            return _closed(view)
        case "trac" | "plait":
            return _trac(view) if kind == "trac" else ()
        case "rope":
            return _rope(view)
        case _:
            assert_never(kind)


def _passes(view: View) -> tuple[BorderPass, ...]:
    """The passes, as lists of moves or as they are read out: ``behind 1 and out, over 2 and in, over 1 and down``.

    Read out, a pass ends with its end. Moves listed without brackets of their own are read out too.
    """
    inner = view.get("passes")
    if inner is None:
        return ()
    items = list(inner.items())
    single = [isinstance(item.data, str) and len(_BETWEEN.split(item.own_text())) == 1 for item in items]
    if len(items) > 1 and all(single):
        return _read_out(inner)
    return tuple(made for item in items for made in _passes_of(item))


def _passes_of(view: View) -> tuple[BorderPass, ...]:
    if isinstance(view.data, str):
        return _read_out(view)
    if not isinstance(view.data, dict):
        return (_pass_of(view, read_moves(view)),)
    moves = view.get("moves")
    listed = _pass_of(view, read_moves(moves) if moves is not None else ())
    made = read(BorderPass, view, {}, moves=listed.moves, comes_out=listed.comes_out)
    _check_depth(view, made)
    return (made,) * view.count("repeat", 1, most=12)


def _check_depth(view: View, made: BorderPass) -> None:
    """One way of saying how far an end goes down, of an end that goes down."""
    said = [key for key in ("depth", "through", "legs") if view.has(key)]
    if len(said) > 1:
        view.note(
            "choose-one",
            told("{first} and {second} both say how far an end goes down.", first=said[0], second=said[1]),
            told("keep one: {key}", key=said[0]),
        )
    elif said and said[0] != "depth" and (not made.moves or made.moves[-1].way != "down"):
        meant = {
            "through": told("through which bands an end goes down"),
            "legs": told("how far ends that went down stand out below"),
        }
        view.note(
            "key-unfit",
            told("{key} says {what}.", key=said[0], what=meant[said[0]]),
            told("end the pass with down"),
        )


def _read_out(view: View) -> tuple[BorderPass, ...]:
    """Passes one after another, each up to its end."""
    passes: list[BorderPass] = []
    begun: list[Move] = []
    moves = _listed_moves(view)
    for index, move in enumerate(moves):
        begun.append(move)
        through = move.way == "down" and index + 1 < len(moves) and moves[index + 1].way == "out"
        if not move.count and not through:
            passes.append(_pass_of(view, tuple(begun)))
            begun = []
    if begun or not passes:
        passes.append(_pass_of(view, tuple(begun)))
    return tuple(passes)


def _pass_of(view: View, moves: tuple[Move, ...]) -> BorderPass:
    """A pass of these moves; ``down, out`` is an end that goes down and comes out through the side."""
    comes_out = [move.way for move in moves[-2:]] == ["down", "out"]
    return BorderPass(view.path, moves[:-1] if comes_out else moves, comes_out=comes_out)


def _listed_moves(view: View) -> list[Move]:
    moves: list[Move] = []
    for item in view.items():
        for run in _BETWEEN.split(item.own_text()):
            for text in _one_by_one(" ".join(run.casefold().split())):
                move = _move(item, text)
                if move is not None:
                    moves.append(move)
    return moves


def _one_by_one(text: str) -> list[str]:
    """The moves of words written one after another without a comma, ``behind 1 before 1 in``; else the words as they are."""
    found, place = [], 0
    while place < len(text):
        match = _MOVE.match(text, place) or _END.match(text, place)
        if match is None:
            return [text]
        found.append(match[0])
        place = match.end() + 1
    return found or [text]


def read_moves(view: View) -> tuple[Move, ...]:
    """Moves written as a list or parted by commas: ``behind 2, before 1, out``."""
    moves = _listed_moves(view)
    if sum(move.count for move in moves) > GREATEST_REACH:
        view.note(
            "number-out-of-range",
            told(
                "One pass reaches past {sum} stakes, more than any border does.",
                sum=sum(move.count for move in moves),
            ),
        )
    early = next((move for move in moves[:-1] if not move.count), None)
    if early is not None and [move.way for move in moves[-2:]] != ["down", "out"]:
        view.note(
            "move-after-end",
            told("“{way}” ends a pass, but more moves follow it.", way=early.way),
            told(
                "put it last, and what follows in brackets of its own: {in_brackets}", in_brackets=_in_brackets(moves)
            ),
        )
    return tuple(moves)


def _in_brackets(moves: Sequence[Move]) -> str:
    """The same moves, each pass in brackets: ``[[behind 1, out], [before 2, in]]``."""
    told = [f"{move.way} {move.count}" if move.count else f"{move.way}]" for move in moves]
    joined = ", ".join(told).replace("], ", "], [")
    return f"[[{joined}{']' if joined.endswith(']') else ']]'}"


def _move(item: View, text: str) -> Move | None:
    match = _MOVE.fullmatch(text)
    if match is not None:
        count = _COUNTS.get(match[2]) or int(match[2] or 1)
        if count == 0:
            item.note("number-out-of-range", told("A move passes at least one stake."))
        return Move(_WAYS.get(match[1]) or cast("MoveWay", match[1]), max(count, 1))
    if text in _ENDS:
        return Move(_ENDS[text])
    word = text.split(" ", maxsplit=1)[0]
    near = nearest(word, ("behind", "before", "over", "under", *_ENDS))
    item.note(
        "unknown-move",
        told("“{text}” is no move of a border.", text=text),
        told("write {near}{number? 1}", near=near, number=near not in _ENDS)
        if near
        else told("write behind 2, before 1, over 1 or under 1; an end is out, in or down"),
    )
    return None


def _plain(view: View) -> tuple[BorderPass, ...]:
    """A k-rod plain border behind b: each travels k + b spaces, and comes out beside the stake brought down next to it."""
    rods, behind = view.count("rods", 3, least=2, most=12), view.count("behind", 1, most=12)
    if behind >= rods:
        view.note(
            "border-rods-few",
            told(
                "With {rods} rods laid behind {behind} there is nothing left to pass before.", rods=rods, behind=behind
            ),
            told("lay {behind} rods or more", behind=behind + 1),
            told("lay them behind {rods} or fewer", rods=rods - 1),
        )
        behind = 1
    moves = (Move("behind", behind), Move("before", rods - behind), Move("behind", behind), Move("out"))
    return (BorderPass(view.path, moves, laid_first=rods),)


def _open(view: View) -> tuple[BorderPass, ...]:
    """Each goes behind so many and down beside the last of them, or by moves of its own. Gill 1916, open borders."""
    moves = view.get("moves")
    if moves is not None:
        if view.has("past"):
            view.note(
                "choose-one", told("The loops have moves of their own, and past besides."), told("keep one of the two")
            )
        return (_pass_of(moves, read_moves(moves)),)
    past = view.count("past", 1, most=12)
    return (BorderPass(view.path, (Move("behind", past), Move("down"))),)


def _closed(view: View) -> tuple[BorderPass, ...]:
    """Two rows: behind one and out, before so many (two unless said) and in. Gill 1916, closed borders."""
    past = view.count("past", 2, most=12)
    row, back = (Move("behind", 1), Move("out")), (Move("before", past), Move("in"))
    return (BorderPass(view.path, row), BorderPass(view.path, back))


def _trac(view: View) -> tuple[BorderPass, ...]:
    moves = view.get("moves")
    return (_pass_of(view, read_moves(moves) if moves is not None else ()),)


def _rope(view: View) -> tuple[BorderPass, ...]:
    """Two rows, each before one and in; the second lies over the first and twists with it. White 1901, Gill 1916."""
    row = (Move("before", 1), Move("in"))
    return (BorderPass(view.path, row), BorderPass(view.path, row))
