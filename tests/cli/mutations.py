"""Pattern files made wrong in every way a slip of the hand can make them wrong, and some that no hand would."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import yaml

PATTERNS = sorted(path for path in (Path(__file__).parents[2] / "patterns").glob("*.yaml") if "." not in path.stem)

STRANGE: tuple[Any, ...] = (
    0, 1, 2, 3, 7, 13, 32, 499, 10_000, 10**9, -1, -40, 0.0, 0.5, 1.5, 1e300, -1e300, float("nan"), float("inf"),
    None, True, False, "", " ", "yes", "no", "0", "0 in", "1/64 in", "-1 in", "1e300 in", "1e-300 in", "5 ft", "3 mi",
    "12 m", "3 lb", "1 in per lb", "1/0 in", "nan in", "3", "3 / 0", "side_height", "base_length * 3", "base + side",
    "max(1 in, 2 ft)", "round(7 in, 0 in)", "unknown_name", "in", "before", "before 2", "behind 1", "behind 9999",
    "out", "in", "down", "to", "top", "edge", "singly", "in twos", "in sixes", "grouped", "randing", "pairing", "chasing",
    "three-rod wale", "twelve-rod wale", "English randing", "French randing", "four-rod wale before 2 behind 2", "packing",
    "fitching", "over 9 under 9", "before 1 behind 0", "double over 2 under 1", "slewing with 12", "three-rod arrow",
    "steps right", "steps left", "vertical", "plain", "rope", "trac", "plait", "open", "bow", "ring", "ears", "drop", "roped",
    "braided", "two-piece", "twisted", "round slath", "oval slath", "board", "frame", "ready made", "ellipse", "stadium",
    "rectangle", "rounded rectangle", "circle", "belly", "waist", "bowl", "straight", "us round reed 8",
    "us flat reed 1/2 in", "willow 4 ft", "plywood 6 mm", "round reed 400 mm", "#zzzzzz", "#000000", "2026-02-30",
    "../../etc/passwd", "/etc/passwd", "{band.wall.rounds}", "{nothing.at.all}", "\u202e\u0000", "é" * 300, "x" * 5000,
    [], {}, [[]], [{}], [None], [1, 2, 3], ["behind 1", "out"], [["behind 1", "out"]], {"small": "1 in"}, {"medium": 3},
    {"kind": "plain", "rods": 3}, {"stock": "us round reed 3"}, {"shape": "circle", "diameter": "8 in"},
    {"weave": "pairing", "strands": "plain", "to": "top"}, {"weave": "randing", "strands": "stakes", "rounds": 500},
)  # fmt: skip
KEYS = (
    "kind", "length", "width", "diameter", "height", "shape", "rounds", "to", "per_end", "except", "add", "leave_out",
    "count", "worked", "half_stick", "become_stakes", "pierced", "groups", "sticks", "material", "strands", "weave", "looks",
    "keep", "shift", "step_up", "reversed", "working_length", "take_up", "pitch", "crown", "field", "depth", "below", "every",
    "rods", "behind", "passes", "moves", "laid_first", "under", "tail", "allowance", "group", "added", "over", "past", "rise",
    "span", "at", "feet", "lap", "pieces", "lash", "wraps", "fit", "clearance", "ring", "lid", "foot", "handles", "bye_stakes",
    "profile", "swell", "rim", "gauge", "woven", "accept", "steps", "settings", "packs", "stock", "dye", "letter", "marks",
    "tools", "size", "height", "laid_together", "cut_to_one", "add_stakes", "drop_stakes", "part_stakes", "cross_stakes", "open",
)  # fmt: skip


@cache
def _borrowed() -> dict[Any, list[Any]]:
    """Every value the shipped patterns and the good files of the corpus give a key."""
    found: dict[Any, list[Any]] = {}
    for path in (*PATTERNS, *sorted((Path(__file__).parents[1] / "corpus" / "good").rglob("*.yaml"))):
        for holder, key in _places(yaml.safe_load(path.read_text(encoding="utf-8"))):
            if isinstance(key, str):
                found.setdefault(key, []).append(holder[key])
    return found


def slipped(path: Path, random: Random, changes: int) -> str:
    """The pattern at `path` with so many numbers changed or values taken from other patterns: wrong, but well formed."""
    data = yaml.safe_load(path.read_text(encoding="utf-8"))
    for _ in range(changes):
        holder, key = random.choice(list(_places(data)))
        value = holder[key]
        if isinstance(value, int) and not isinstance(value, bool):
            holder[key] = max(0, value + random.choice([-3, -2, -1, 1, 2, 5, 20]))
        elif isinstance(value, str) and any(char.isdigit() for char in value) and random.random() < 0.7:
            holder[key] = re.sub(
                r"\d+", lambda found: str(int(found.group()) * random.choice([0, 1, 2, 3, 5]) // 2), value, count=1
            )
        elif isinstance(key, str):
            holder[key] = copy.deepcopy(random.choice(_borrowed()[key]))
        elif isinstance(holder, list):
            holder.insert(key, copy.deepcopy(value)) if random.random() < 0.5 else holder.pop(key)
    return str(yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=10**9))


def mutated(path: Path, random: Random, changes: int) -> str:
    """The pattern at `path` with so many changes of any kind, as YAML text."""
    data = yaml.safe_load(path.read_text(encoding="utf-8"))
    for _ in range(changes):
        _change(data, random)
    text = yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=10**9)
    return _rough(text, random) if random.random() < 0.1 else str(text)


def _places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every key or index with what holds it."""
    items = (
        list(value.items()) if isinstance(value, dict) else list(enumerate(value)) if isinstance(value, list) else []
    )
    for key, inner in items:
        yield value, key
        yield from _places(inner)


def _change(data: Any, random: Random) -> None:
    places = list(_places(data))
    if not places:
        return
    holder, key = random.choice(places)
    other_holder, other_key = random.choice(places)
    match random.randrange(8):
        case 0:
            del holder[key]
        case 1 | 2 | 3:
            holder[key] = copy.deepcopy(random.choice(STRANGE))
        case 4 if isinstance(holder, list):
            holder.insert(key, copy.deepcopy(holder[key]))
        case 4 | 5:
            holder[key] = copy.deepcopy(other_holder[other_key])
        case 6 if isinstance(holder, dict):
            holder[random.choice(KEYS)] = holder.pop(key)
        case _ if isinstance(holder, dict):
            holder[random.choice(KEYS)] = copy.deepcopy(
                random.choice([other_holder[other_key], *random.sample(STRANGE, 3)])
            )
        case _:
            random.shuffle(holder)


def _rough(text: str, random: Random) -> str:
    """The text with a piece cut out, doubled or garbled, as a careless edit leaves it."""
    start = random.randrange(len(text))
    stop = min(len(text), start + random.randrange(1, 40))
    piece = random.choice(
        ["", text[start:stop] * 2, "\t", "{", "]", ": ", "&a ", "*a", "\x00", "- ", "  ", "'", "\ufeff", "!!python/x "]
    )
    return text[:start] + piece + text[stop:]
