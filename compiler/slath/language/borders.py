"""Borders: passes of moves, and the named borders written out as the passes they are."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import cast

from msgspec.structs import replace

from slath.language.bands import read_bands
from slath.language.pattern import Border, BorderPass, FootStakes, LaidIn, Material, Move, MoveWay, Plait
from slath.language.spelling import nearest
from slath.language.view import View

_MOVE = re.compile(
    r"(behind|before|in front of|over|under|across|past) (?:the next )?(\d+|one|two|three|four|five|six)"
)
_BETWEEN = re.compile(r",? and then |,? then |,? and |,|/|;")
_COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_WAYS: dict[str, MoveWay] = {"in front of": "before", "across": "over", "past": "before"}
_ENDS: dict[str, MoveWay] = {"out": "out", "in": "in", "down": "down", "to the outside": "out", "to the inside": "in"}
_KINDS_NEED = {
    "plain": ("rods",),
    "rolled": ("rods",),
    "scalloped": ("height",),
    "trac": ("moves",),
    "rope": (),
    "plait": ("group", "over"),
}
_KEYS_OF = {
    "plain": {"rods", "behind"},
    "rolled": {"rods", "behind"},
    "open": {"past", "moves", "height"},
    "closed": {"past"},
    "scalloped": {"past", "moves", "height"},
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
        kind=kind,
        laid_in=_laid_in(view, materials),
        from_inside=view.choice("seen_from", "outside") == "inside",
    )


def _laid_in(view: View, materials: Mapping[str, Material]) -> LaidIn | None:
    inner = view.get("laid_in")
    if inner is None:
        return None
    return LaidIn(
        inner.path, inner.material("material", materials), inner.count("every", 1, most=12), inner.length("length")
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
    own |= set() if kind == "plait" else {"seen_from"}
    own |= set() if kind else {"laid_in"}
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
                "add kind: plain, open, closed, trac, rope or plait",
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
    made = replace(
        _pass_of(view, read_moves(moves) if moves is not None else ()),
        laid_first=view.count("laid_first", 0, least=0, most=60),
        under=view.maybe_count("under", most=12),
        depth_mm=view.length("depth"),
        through=view.texts("through"),
        legs_mm=view.length("legs"),
    )
    _check_depth(view, made)
    return (made,) * view.count("repeat", 1, most=12)


def _check_depth(view: View, made: BorderPass) -> None:
    """One way of saying how far an end goes down, of an end that goes down."""
    said = [key for key in ("depth", "through", "legs") if view.has(key)]
    if len(said) > 1:
        view.note("choose-one", f"{said[0]} and {said[1]} both say how far an end goes down.", f"keep one: {said[0]}")
    elif said and said[0] != "depth" and (not made.moves or made.moves[-1].way != "down"):
        told = {
            "through": "through which bands an end goes down",
            "legs": "how far ends that went down stand out below",
        }
        view.note("key-unfit", f"{said[0]} says {told[said[0]]}.", "end the pass with down")


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
        for text in _BETWEEN.split(item.own_text()):
            move = _move(item, " ".join(text.casefold().split()))
            if move is not None:
                moves.append(move)
    return moves


def read_moves(view: View) -> tuple[Move, ...]:
    """Moves written as a list or parted by commas: ``behind 2, before 1, out``."""
    moves = _listed_moves(view)
    if sum(move.count for move in moves) > GREATEST_REACH:
        view.note(
            "number-out-of-range",
            f"One pass reaches past {sum(move.count for move in moves)} stakes, more than any border does.",
        )
    early = next((move for move in moves[:-1] if not move.count), None)
    if early is not None and [move.way for move in moves[-2:]] != ["down", "out"]:
        view.note(
            "move-after-end",
            f"“{early.way}” ends a pass, but more moves follow it.",
            f"put it last, and what follows in brackets of its own: {_in_brackets(moves)}",
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
    """Each goes behind so many and down beside the last of them, or by moves of its own. Gill 1916, open borders."""
    moves = view.get("moves")
    if moves is not None:
        if view.has("past"):
            view.note("choose-one", "The loops have moves of their own, and past besides.", "keep one of the two")
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
    "closed": _closed,
    "scalloped": _open,
    "trac": _trac,
    "rope": _rope,
    "plait": lambda _view: (),
}
