"""The sentences that count: sticks, ends, stakes, each with the arithmetic that leads to it."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from slath.basket.board_holes import hole_name
from slath.basket.stakes import working_groups
from slath.language.pattern import Board, Frame, OvalSlath, RoundSlath
from slath.quantities.results import CountRow
from slath.units import Amount, Basis, worked
from slath.units.counting import counted, in_words, listed

if TYPE_CHECKING:
    from slath.basket.model import Basket, ConstructedBase
    from slath.language.pattern import Stakes

_WAYS = {
    "pierced": "pierced",
    "threaded": "threaded",
    "half stick": "half",
    "lengthwise": "lengthwise",
    "crosswise single": "crosswise",
    "crosswise group": "crosswise",
}


def count_rows(basket: Basket) -> tuple[CountRow, ...]:
    """Sticks, ends and stakes, in the order they are counted."""
    base = basket.base
    rows: list[CountRow] = []
    if base.sticks:
        rows.append(CountRow("sticks", _sticks(base), f"{_laying(base)}."))
    if base.ends:
        rows.append(CountRow("ends", _ends(base), f"{_to_ends(base)}."))
    if base.holes:
        rows.append(_holes(base))
    if basket.stakes:
        rows.append(CountRow("stakes", stakes_amount(basket), f"{_chain(basket)}."))
    if basket.stakes and basket.working != len(basket.stakes):
        rows.append(_working(basket))
    return tuple(rows)


def stakes_amount(basket: Basket) -> Amount:
    """How many uprights stand round the base, bye-stakes set at the start included."""
    spec = basket.pattern.stakes
    path = spec.path if spec is not None else basket.pattern.base.path
    formula, inputs = _stakes_sum(basket)
    return worked("stakes", len(basket.stakes), "count", formula, *inputs, path=path)


def _sticks(base: ConstructedBase) -> Amount:
    kinds = Counter(_WAYS[stick.kind] for stick in base.cut_sticks)
    parts = [
        Amount(f"{way} sticks", count, "count", Basis.COUNTED, path=base.spec.path) for way, count in kinds.items()
    ]
    formula = " + ".join(part.name for part in parts)
    return worked("sticks", len(base.cut_sticks), "count", formula, *parts, path=base.spec.path)


def _ends(base: ConstructedBase) -> Amount:
    halves = sum(stick.kind == "half stick" for stick in base.sticks)
    formula = "2 × whole sticks + half sticks" if halves else "2 × sticks"
    extra = len(base.sticks) - len(base.cut_sticks)
    if extra:
        more = Amount("extra ends", extra, "count", Basis.GIVEN, path=(*base.spec.path, "extra_ends"))
        return worked(
            "ends", len(base.ends), "count", f"{formula} + extra ends", _sticks(base), more, path=base.spec.path
        )
    if not base.sticks:
        return Amount("ends", len(base.ends), "count", Basis.GIVEN, path=(*base.spec.path, "ends"))
    return worked("ends", len(base.ends), "count", formula, _sticks(base), path=base.spec.path)


def _laying(base: ConstructedBase) -> str:
    """``5 through 5 is 10 sticks``, with a half stick if there is one."""
    spec, total = base.spec, len(base.cut_sticks)
    halves = " and a half stick" if any(stick.kind == "half stick" for stick in base.sticks) else ""
    if isinstance(spec, RoundSlath):
        word = "through" if spec.centre == "pierced" else "over"
        return f"{spec.threaded} {word} {spec.pierced}{halves} is {total} sticks"
    if isinstance(spec, OvalSlath):
        across = sum(spec.groups)
        grouped = f" (in {listed([str(size) for size in spec.groups])})" if set(spec.groups) != {1} else ""
        return f"{spec.lengthwise} lengthwise and {across} crosswise{grouped}{halves} is {total} sticks"
    if isinstance(spec, Frame):
        cross = f" and {spec.crosswise} crosswise is {total} sticks" if spec.crosswise else " sticks"
        return f"{spec.lengthwise} lengthwise{cross}"
    return f"A base with {len(base.ends)} ends"


def _to_ends(base: ConstructedBase) -> str:
    """The same as far as the ends they come to, with ends of weavers if there are any."""
    extra = len(base.sticks) - len(base.cut_sticks)
    more = f" and {counted(extra, 'extra end', 'extra ends')}" if extra else ""
    return f"{_laying(base)}{more}, {len(base.ends)} ends"


def _holes(base: ConstructedBase) -> CountRow:
    spec = base.spec
    given = isinstance(spec, Board) and spec.holes is not None
    amount = Amount("holes", len(base.holes), "count", Basis.GIVEN if given else Basis.COUNTED, path=spec.path)
    return CountRow("holes", amount, f"{len(base.holes)} {_hole_name(base)}s round the board.")


def _hole_name(base: ConstructedBase) -> str:
    return hole_name(slots=isinstance(base.spec, Board) and base.spec.slots)


def _chain(basket: Basket) -> str:
    base, spec = basket.base, basket.pattern.stakes
    if base.holes:
        name = _hole_name(base)
        holes = counted(len(base.holes), name, f"{name}s", figures=True)
        if spec is not None and spec.holes_each == 2:
            return f"{holes}, each stake down one and up the next: {_stood(basket)} to weave round"
        return f"{holes}, one stake each: {_stood(basket)}"
    if not base.ends:
        return _stood(basket).capitalize()
    lead = _to_ends(base)
    if any(stake.kind == "through" for stake in basket.stakes):
        inserted = sum(stake.kind == "stake" for stake in basket.stakes)
        more = f" and {counted(inserted, 'stake', 'stakes', figures=True)} set in" if inserted else ""
        return f"{lead}, each end a stake{more}: {_stood(basket)}"
    if spec is None or spec.count is not None:
        return f"{lead}: {_stood(basket)}"
    return f"{lead}, {_per_end(basket)}{_extras(basket)}: {_stood(basket)}"


def _stood(basket: Basket) -> str:
    """The total, with the bye-stakes that stand beside told apart."""
    kinds = Counter(stake.kind for stake in basket.stakes)
    byes, posts = kinds["bye-stake"], kinds["post"]
    told = [f"{len(basket.stakes) - byes - posts} stakes"]
    told += [f"{byes} bye-stakes"] if byes else []
    told += [f"{posts} corner posts"] if posts else []
    return listed(told)


def _per_end(basket: Basket) -> str:
    """``two stakes each``, or how many ends have how many."""
    shares = Counter(end.stakes for end in basket.base.ends)
    if len(shares) == 1:
        return f"{counted(next(iter(shares)), 'stake', 'stakes')} each"
    (most, first), *rest = sorted(shares.items(), reverse=True)
    parts = [f"{counted(most, 'stake', 'stakes')} at each of {first} ends"]
    parts += [f"{in_words(stakes)} at each of {ends}" for stakes, ends in rest]
    return listed(parts)


def _extras(basket: Basket) -> str:
    spec = basket.pattern.stakes
    if spec is None:
        return ""
    more = f", {in_words(spec.add)} more" if spec.add else ""
    less = f", less {in_words(spec.leave_out)}" if spec.leave_out else ""
    return f"{more}{less}"


def _stakes_sum(basket: Basket) -> tuple[str, tuple[Amount, ...]]:
    """The sum the stakes come to, and what is summed."""
    spec, base = basket.pattern.stakes, basket.base
    kinds = Counter(stake.kind for stake in basket.stakes)
    byes = [Amount("bye-stakes", kinds["bye-stake"], "count", Basis.COUNTED)] if kinds["bye-stake"] else []
    byes += [Amount("corner posts", kinds["post"], "count", Basis.COUNTED)] if kinds["post"] else []
    if base.holes:
        parts = [Amount("holes", len(base.holes), "count", Basis.COUNTED)]
    elif kinds["through"]:
        parts = [Amount("stick ends", kinds["through"], "count", Basis.COUNTED)]
        parts += [Amount("stakes set in", kinds["stake"], "count", Basis.COUNTED)] if kinds["stake"] else []
    elif spec is None or spec.count is not None or not base.ends:
        return "given", tuple(byes)
    else:
        shares = sorted(Counter(end.stakes for end in base.ends).items(), reverse=True)
        parts = [Amount(f"ends with {in_words(each)}", ends, "count", Basis.COUNTED) for each, ends in shares]
        sums = [f"{each} × {part.name}" for (each, _), part in zip(shares, parts, strict=True)]
        return _with_extras(sums, [*parts, *byes], spec)
    return " + ".join(part.name for part in (*parts, *byes)), (*parts, *byes)


def _with_extras(sums: list[str], parts: list[Amount], spec: Stakes) -> tuple[str, tuple[Amount, ...]]:
    sums += [part.name for part in parts[len(sums) :]]
    added = Amount("added", spec.add, "count", Basis.COUNTED, path=(*spec.path, "add"))
    left_out = Amount("left out", spec.leave_out, "count", Basis.COUNTED, path=(*spec.path, "leave_out"))
    formula = " + ".join([*sums, *(["added"] if spec.add else [])]) + (" - left out" if spec.leave_out else "")
    return formula, (*parts, *([added] if spec.add else []), *([left_out] if spec.leave_out else []))


def _working(basket: Basket) -> CountRow:
    byes = any(stake.kind == "bye-stake" for stake in basket.stakes)
    each = len(basket.stakes) / basket.working
    amount = worked(
        "working uprights", basket.working, "count", "stakes worked together count as one", stakes_amount(basket)
    )
    if not byes and len(set(working_groups(basket.stakes))) > 1:
        told = f"Stakes that are taken together count as one: {basket.working} uprights."
        return CountRow("working uprights", amount, told)
    how = "a stake and its bye-stake" if byes else f"{in_words(round(each))} stakes"
    return CountRow(
        "working uprights", amount, f"{how[0].upper()}{how[1:]} are worked as one: {basket.working} uprights."
    )
