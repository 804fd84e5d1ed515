"""The published baskets: each pattern file compiled once, beside what its book prints."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from slath.pipeline import Compilation, CompiledSize, compile_pattern
from slath.quantities.results import Piece

HERE = Path(__file__).resolve().parent
INCH = 25.4  # exact: NIST SP 811 (2008), B.8
REED_FT = 16  # a whole reed (Miller, in The Boy Mechanic, Book 2, 1915)
# What of a piece only helps the hand or is cut off: what is held, what is trimmed, what a half stick has beyond half.
_SPARE = ("hand hold", "trim", "extra")


@cache
def printed() -> Mapping[str, Mapping[str, Any]]:
    """What the books print, by basket."""
    facts: dict[str, dict[str, Any]] = yaml.safe_load((HERE / "expected.yaml").read_text(encoding="utf-8"))
    return facts


@cache
def compiled(name: str) -> Compilation:
    """A basket's pattern file compiled."""
    return compile_pattern(HERE / "baskets" / f"{name}.yaml")


def only(name: str) -> CompiledSize:
    """The one size a published basket has."""
    sizes = compiled(name).sizes
    assert len(sizes) == 1, f"{name} could not be constructed: {[note.sentence for note in compiled(name).notes]}"
    return sizes[0]


def piece(size: CompiledSize, part: str) -> Piece:
    """The piece listed under a part's name."""
    return pieces(size, part)[0]


def pieces(size: CompiledSize, part: str) -> list[Piece]:
    """The pieces listed under a part's name: more than one where they are of several colours."""
    found = [item for item in size.quantities.pieces if item.part == part]
    assert found, f"no {part}; there are {[item.part for item in size.quantities.pieces]}"
    return found


def least_mm(size: CompiledSize, item: Piece) -> float:
    """What a piece cannot be worked without: its parts, less what is held, trimmed, or past the stake an end rests on."""
    spare = sum(part.value for part in item.parts if any(word in part.name for word in _SPARE))
    tail = size.sized.settings.mm("border_tail")
    for part in item.parts:
        border = size.sized.foot if "foot" in part.name else size.sized.border
        if "border" not in part.name or border is None or border.plait is not None:
            continue
        spare += tail * (2 if part.name.endswith("(both ends)") else 1)
    return item.needed_mm.value - spare


def rows_of(size: CompiledSize) -> dict[str, int]:
    """Rows of every band as the books count them: a round of chasing is two rows."""
    lid = size.basket.lid
    bands = (*size.basket.woven, *((*lid.base.bands, *lid.bands) if lid else ()))
    return {band.name: len(band.rounds) * (2 if band.spec.weave.kind == "chase" else 1) for band in bands}


def measure_mm(size: CompiledSize, of: str) -> float:
    """A measure that follows from printed rows, as the tool works it out."""
    basket = size.basket
    if of == "base diameter":
        return basket.base.reached_mm or 0.0
    if of == "side":
        return sum(band.reached_mm for band in basket.bands)
    if of == "before the top wale":
        return sum(band.reached_mm for band in basket.bands[:-1])
    if of == "between two cross sticks":
        stick = size.sized.materials["sticks"].width_mm
        return basket.base.bands[0].reached_mm / 12 + stick
    return next(band.reached_mm for band in basket.bands if band.name == of)


def cut_shares(name: str) -> dict[str, float]:
    """Printed cut length over the length worked out, for every piece whose length is printed."""
    size = only(name)
    shares = {}
    for part, fact in printed()[name].get("pieces", {}).items():
        if "length" in fact:
            shares[part] = fact["length"] * INCH / piece(size, part).needed_mm.value
    return shares


def table() -> list[str]:
    """One line a basket: how far it is expressed, and how print and arithmetic differ."""
    lines = []
    for name, fact in printed().items():
        said = fact["expressed"] + (f", without {fact['lacks']}" if "lacks" in fact else "")
        lines.append(f"{name:20s} {said}{'; ' if _deviations(name, fact) else ''}{_deviations(name, fact)}")
    full = sum(fact["expressed"] == "fully" for fact in printed().values())
    lines.append(f"{full} of {len(printed())} expressed fully, {len(printed()) - full} in part, 0 not")
    return lines


def _deviations(name: str, fact: Mapping[str, Any]) -> str:
    size = only(name)
    told = [
        f"{part} {fact['pieces'][part]['length']:g} in, worked out {fact['pieces'][part]['length'] / share:.1f}"
        for part, share in cut_shares(name).items()
        if "handle" not in part
    ]
    for row in fact.get("measured", []):
        ours = measure_mm(size, row["of"]) / INCH
        told.append(f"{row['of']} {row['printed']:g} in, worked out {ours:.2f} ({ours / row['printed'] - 1:+.0%})")
    told += [f"noted: {reason}" for reason in fact.get("notes", {}).values()]
    if "says" in fact:
        told.append(f"noted: {fact['says']}")
    return "; ".join(told)
