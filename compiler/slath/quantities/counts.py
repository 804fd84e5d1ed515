"""The sentences that count: sticks, ends, stakes, each with the arithmetic that leads to it."""

from __future__ import annotations

from collections import Counter

from slath.basket.model import Basket, ConstructedBase
from slath.basket.stakes import working_groups
from slath.language.pattern import Board, Frame, OvalSlath, RoundSlath, Stakes
from slath.messages import Listed, Message, message
from slath.quantities.results import CountRow
from slath.units import Amount, Basis, worked
from slath.units.counting import in_words

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
        rows.append(CountRow("sticks", _sticks(base), message("counts.sentence", said=_laying(base))))
    if base.ends:
        rows.append(CountRow("ends", _ends(base), message("counts.sentence", said=_to_ends(base))))
    if base.holes:
        rows.append(_holes(base))
    if basket.stakes:
        rows.append(CountRow("stakes", stakes_amount(basket), message("counts.sentence", said=_chain(basket))))
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


def _laying(base: ConstructedBase) -> Message:
    """How many sticks make how many: 5 through 5 is 10 sticks, with a half stick if there is one."""
    spec, total = base.spec, len(base.cut_sticks)
    half = any(stick.kind == "half stick" for stick in base.sticks)
    if isinstance(spec, RoundSlath):
        through = spec.centre == "pierced"
        return message(
            "counts.round", threaded=spec.threaded, through=through, pierced=spec.pierced, half=half, total=total
        )
    if isinstance(spec, OvalSlath):
        return message(
            "counts.oval",
            lengthwise=spec.lengthwise,
            across=sum(spec.groups),
            grouped=Listed(spec.groups) if set(spec.groups) != {1} else None,
            half=half,
            total=total,
        )
    if isinstance(spec, Frame):
        return message("counts.frame", lengthwise=spec.lengthwise, crosswise=spec.crosswise, total=total)
    return message("counts.ready-made", ends=len(base.ends))


def _to_ends(base: ConstructedBase) -> Message:
    """The same as far as the ends they come to, with ends of weavers if there are any."""
    extra = len(base.sticks) - len(base.cut_sticks)
    return message("counts.to-ends", laying=_laying(base), extra=extra, ends=len(base.ends))


def _holes(base: ConstructedBase) -> CountRow:
    spec = base.spec
    given = isinstance(spec, Board) and spec.holes is not None
    amount = Amount("holes", len(base.holes), "count", Basis.GIVEN if given else Basis.COUNTED, path=spec.path)
    return CountRow("holes", amount, message("counts.holes-round", holes=len(base.holes), slots=_slots(base)))


def _slots(base: ConstructedBase) -> bool:
    """Whether the holes of a board are slots."""
    return isinstance(base.spec, Board) and base.spec.slots


def _chain(basket: Basket) -> Message:
    base, spec = basket.base, basket.pattern.stakes
    stood = _stood(basket)
    if base.holes:
        twice = spec is not None and spec.holes_each == 2
        return message("counts.in-holes", holes=len(base.holes), slots=_slots(base), twice=twice, stood=stood)
    if not base.ends:
        return message("counts.stood", stood=stood)
    lead = _to_ends(base)
    if any(stake.kind == "through" for stake in basket.stakes):
        inserted = sum(stake.kind == "stake" for stake in basket.stakes)
        return message("counts.each-end-a-stake", lead=lead, inserted=inserted, stood=stood)
    if spec is None or spec.count is not None:
        return message("counts.given", lead=lead, stood=stood)
    return message(
        "counts.by-ends", lead=lead, shares=_per_end(basket), add=spec.add, leave_out=spec.leave_out, stood=stood
    )


def _stood(basket: Basket) -> Listed:
    """The total, with the bye-stakes that stand beside told apart."""
    kinds = Counter(stake.kind for stake in basket.stakes)
    byes, posts = kinds["bye-stake"], kinds["post"]
    told = [message("counts.stakes", count=len(basket.stakes) - byes - posts)]
    told += [message("counts.bye-stakes", count=byes)] if byes else []
    told += [message("counts.corner-posts", count=posts)] if posts else []
    return Listed(tuple(told))


def _per_end(basket: Basket) -> Listed:
    """So many stakes each, or how many ends have how many."""
    shares = Counter(end.stakes for end in basket.base.ends)
    if len(shares) == 1:
        return Listed((message("counts.each", stakes=next(iter(shares))),))
    (most, first), *rest = sorted(shares.items(), reverse=True)
    parts = [message("counts.at-each-of-ends", stakes=most, ends=first)]
    parts += [message("counts.and-at-each-of", stakes=stakes, ends=ends) for stakes, ends in rest]
    return Listed(tuple(parts))


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
        return CountRow("working uprights", amount, message("counts.taken-together", working=basket.working))
    said = message("counts.worked-as-one", byes=byes, each=round(each), working=basket.working)
    return CountRow("working uprights", amount, said)
