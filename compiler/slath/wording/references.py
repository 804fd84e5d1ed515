"""Numbers a designer may name in their own words, such as ``{band.spiral.rounds}``, bound to the list of one size."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches

from slath.messages import Length, Listed, Mass, Own, Value
from slath.units import Amount
from slath.units.printing import steps_nearest
from slath.wording.speech import own_words
from slath.wording.work import Work

REFERENCE = re.compile(r"\{([^{}]*)\}")


def amounts_by_name(work: Work) -> dict[str, Amount]:
    """Every number that can be named, by its name: underscores and spaces in names are alike, capitals do not matter."""
    return {_plain_name(name): amount for name, amount in _named(work)}


def bound(text: str, amounts: Mapping[str, Amount], work: Work) -> tuple[str, tuple[str, ...]]:
    """`text` with its references replaced by printed numbers, and the names that mean nothing."""
    unknown: list[str] = []

    def printed_name(found: re.Match[str]) -> str:
        name = _plain_name(found[1])
        if name == "size":
            return work.basket.size
        if name not in amounts:
            unknown.append(found[1])
            return found[0]
        return printed(amounts[name], work)

    return REFERENCE.sub(printed_name, text), tuple(unknown)


def parts_of(text: str, amounts: Mapping[str, Amount], work: Work) -> Listed:
    """`text` in its parts: the designer's words as they stand, and each number they name as a value."""
    parts: list[Value] = []
    for place, piece in enumerate(REFERENCE.split(text)):
        name = _plain_name(piece)
        if place % 2 == 0:
            parts += [own_words(piece)] if piece else []
        elif name == "size":
            parts.append(Own(work.basket.size))
        else:
            parts.append(_value(amounts[name]) if name in amounts else Own(f"{{{piece}}}"))
    return Listed(tuple(parts))


def _value(amount: Amount) -> Value:
    if amount.unit == "mm":
        return Length(amount.value)
    if amount.unit == "g":
        return Mass(amount.value)
    if amount.unit == "count":
        return steps_nearest(amount.value, 1.0)
    return Own(f"{amount.value:.2f}".rstrip("0").rstrip("."))


def nearest_references(name: str, amounts: Mapping[str, Amount]) -> list[str]:
    """Up to three names nearest to one that means nothing."""
    return get_close_matches(_plain_name(name), list(amounts), n=3, cutoff=0.5)


def printed(amount: Amount, work: Work) -> str:
    """An amount as it stands in a sentence, in the booklet's units."""
    if amount.unit == "mm":
        return work.voice.length(amount.value)
    if amount.unit == "g":
        return work.voice.mass(amount.value)
    if amount.unit == "count":
        return str(steps_nearest(amount.value, 1.0))
    return f"{amount.value:.2f}".rstrip("0").rstrip(".")


def _plain_name(name: str) -> str:
    return " ".join(name.replace("_", " ").casefold().split())


def _named(work: Work) -> Iterator[tuple[str, Amount]]:
    listed, finished = work.quantities, work.quantities.finished
    for name, amount in work.basket.pattern.measures.items():
        yield name, amount
        yield f"measure.{name}", amount
    for row in listed.counts:
        yield row.name, row.amount
    yield "stakes", listed.stakes
    yield "working", listed.working
    yield "spacing.base", listed.base_spacing
    yield "spacing.rim", listed.rim_spacing
    yield "height", finished.height
    yield "along", finished.along
    for name in ("base_length", "base_width", "rim_length", "rim_width"):
        yield name.replace("_", "."), getattr(finished, name)
    if finished.mass_g is not None:
        yield "mass", finished.mass_g
    if finished.height_with_handle is not None:
        yield "height with handle", finished.height_with_handle
    yield from _rows(work)


def _rows(work: Work) -> Iterator[tuple[str, Amount]]:
    listed = work.quantities
    for band in listed.bands:
        for measure in ("rounds", "pitch", "height", "along"):
            yield f"band.{band.name}.{measure}", getattr(band, measure)
    for piece in listed.pieces:
        yield f"piece.{piece.part}.count", piece.count
        yield f"piece.{piece.part}.cut", piece.cut_mm
        for part in piece.parts:
            yield f"piece.{piece.part}.{part.name}", part
    for name, row in (("border", listed.border), ("foot", listed.foot)):
        if row is not None:
            yield f"{name}.needed", row.needed_mm
    shares = [share for bought in listed.purchase for share in bought.shares]
    yield from ((f"buy.{share.material}.length", share.length_mm) for share in shares)
    for number, handle in enumerate(work.handles, start=1):
        for name in (f"handle.{number}", *(("handle",) if number == 1 else ())):
            yield f"{name}.bow", handle.bow_mm
            yield f"{name}.foot", handle.foot_mm
            yield f"{name}.piece", handle.piece_mm
