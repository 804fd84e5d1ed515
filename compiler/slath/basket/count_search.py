"""Which numbers of stakes suit a basket: tried one by one on its bands, its border and its handles.

A count is tried whole: stakes worked together, changes part-way up and groups all follow from it, as in the basket
itself. What each count does to the colours and to the spacing is told beside what speaks against it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from slath.basket.bands import materials_of
from slath.basket.border import smallest_count
from slath.basket.border_path import PathFault, legs_of
from slath.basket.construct import changed
from slath.basket.handle_feet import facing_miss
from slath.basket.model import Basket, CannotConstruct
from slath.basket.stakes import regrouped
from slath.basket.weave import colour_period, colour_step, follows, holds, seen_step, step_words
from slath.language.handle_kinds import SPANNING
from slath.language.pattern import Band, Board, Border, OvalSlath, RoundSlath, Stakes
from slath.messages.told import Told, kept

FEWEST_STAKES = 3


class Objection(Struct, frozen=True):
    """What speaks against a count, in which part. `stops`: it cannot be woven so; else it is only less good."""

    part: str
    reason: Told
    stops: bool = True


class Colours(Struct, frozen=True):
    """What a count does to the colours of a band, seen from outside: uprights they move each round, right positive, and
    in words (upright stripes, alternating, steps right, steps left).
    """

    band: str
    steps: int
    looks: str


class CountTried(Struct, frozen=True):
    """One number of stakes: what speaks against it, what it does to the colours, its spacing, and how to come to it.

    `changes` each name what a maker would do and the count it gives, the simplest first; empty at the basket's own.
    """

    stakes: int
    objections: tuple[Objection, ...]
    colours: tuple[Colours, ...]
    base_spacing_mm: float
    rim_spacing_mm: float
    changes: tuple[Told, ...]

    @property
    def suits(self) -> bool:
        """Whether it can be woven."""
        return not any(objection.stops for objection in self.objections)


def try_counts(basket: Basket, lowest: int, highest: int) -> tuple[CountTried, ...]:
    """Every number of stakes from `lowest` to `highest` tried on the basket, in order."""
    return tuple(try_count(basket, stakes) for stakes in range(max(lowest, FEWEST_STAKES), highest + 1))


def counts_that_suit(basket: Basket, lowest: int, highest: int) -> tuple[CountTried, ...]:
    """Only those numbers of stakes that can be woven."""
    return tuple(tried for tried in try_counts(basket, lowest, highest) if tried.suits)


def try_count(basket: Basket, stakes: int) -> CountTried:
    """One number of stakes tried on the basket."""
    groups = _groups(basket, stakes)
    objections = [] if _joined(basket) else list(_short_group(groups))
    colours: list[Colours] = []
    rim = groups
    try:
        for band, rim in _side(basket, groups):
            if band is not None:
                uprights = len(regrouped(rim, band.groups))
                objections += _against_band(band, uprights)
                objections += _left_over(band, rim)
                objections += _against_colours(basket, band, uprights)
                colours += _colours(basket, band, uprights)
    except CannotConstruct as fault:
        objections.append(Objection(fault.part, fault.reason))
    objections += _against_base(basket, stakes)
    objections += _against_border("border", basket.pattern.border, len(rim))
    objections += _against_border("foot border", basket.pattern.foot, len(groups))
    objections += _against_handles(basket, stakes)
    edge = basket.base.hole_line or basket.base.edge
    base_spacing = edge.perimeter / len(groups)
    objections += _against_spacing(basket, base_spacing)
    return CountTried(
        stakes, tuple(objections), tuple(colours), base_spacing, basket.rim.perimeter / len(rim),
        ways_to(basket, stakes),
    )  # fmt: skip


def _groups(basket: Basket, stakes: int) -> tuple[int, ...]:
    """So many stakes taken together as the pattern takes its own: so many as one, or named stick ends with the next."""
    spec, base = basket.pattern.stakes, basket.pattern.base
    joined = min(_joined(basket), stakes // 2)
    if joined:
        return (2,) * joined + (1,) * (stakes - 2 * joined)
    together = max(spec.worked_as if spec else getattr(base, "worked_as", 1), 1)
    whole, rest = divmod(stakes, together)
    return (together,) * whole + ((rest,) if rest else ())


def _joined(basket: Basket) -> int:
    """How many stick ends that turn up are worked as one with the next, where the others stand alone."""
    spec, base = basket.pattern.stakes, basket.pattern.base
    alone = spec is None and isinstance(base, RoundSlath | OvalSlath) and base.worked_as == 1
    return len(base.as_one) if alone and isinstance(base, RoundSlath | OvalSlath) else 0


def _short_group(groups: Sequence[int]) -> Iterator[Objection]:
    if groups and groups[-1] != groups[0]:
        yield Objection("stakes", kept("refusals.worked-together-would-be-left", groups=groups[0], groups2=groups[-1]))


def _side(basket: Basket, groups: tuple[int, ...]) -> Iterator[tuple[Band | None, tuple[int, ...]]]:
    """The bands of the side with the uprights each is worked on, changes taken as they come."""
    side = basket.pattern.side
    for item in side.bands if side else ():
        if isinstance(item, Band):
            yield item, groups
        else:
            groups = changed(groups, item)
            yield None, groups


# -------------------------------------------------------------------------------------------------------- objections
def _against_band(band: Band, uprights: int) -> Iterator[Objection]:
    weave = band.weave
    if not holds(weave, uprights, band.shift):
        yield Objection(band.name, kept("refusals.does-not-hold-uprights", weave=weave.label, uprights=uprights))
    elif not follows(weave, uprights):
        yield Objection(band.name, kept("refusals.on-uprights-the-chasing-strands", uprights=uprights), stops=False)


def _left_over(band: Band, groups: tuple[int, ...]) -> Iterator[Objection]:
    """Uprights that a band worked so many together does not take up."""
    size = band.groups if isinstance(band.groups, int) else 1
    left = sum(groups) % max(size, 1)
    if left and len(set(regrouped(groups, size))) > 1:
        yield Objection(band.name, kept("refusals.worked-together-would-be-left", groups=size, groups2=left))


def _against_base(basket: Basket, stakes: int) -> Iterator[Objection]:
    """Where every stick end is a stake, or a mat has none, the weaving of the base is worked on that count too."""
    if len(basket.base.ends) != len(_main(basket)) and basket.stakes:
        return
    for band in basket.base.bands:
        if sum(band.group_sizes) != len(basket.base.ends):
            continue  # woven across the sticks that lie one way
        if isinstance(band.spec.groups, int) and max(band.group_sizes, default=1) <= band.spec.groups:
            yield from _against_band(band.spec, stakes // band.spec.groups)


def base_holds(basket: Basket, ends: int) -> bool:
    """Whether the weaving of the base holds on so many stick ends, where they are taken singly, in twos and so on."""
    return all(
        ends % band.spec.groups == 0 and holds(band.spec.weave, ends // band.spec.groups, band.spec.shift)
        for band in basket.base.bands
        if isinstance(band.spec.groups, int)
    )


def _against_colours(basket: Basket, band: Band, uprights: int) -> Iterator[Objection]:
    """What the pattern says of the colours, and turns of colour that do not close where the round does."""
    spec, materials = band, materials_of(band, uprights)
    if spec.weave.kind == "french rand" and len(set(spec.strands)) > 1 and uprights % len(spec.strands):
        yield Objection(
            band.name,
            kept("refusals.colours-in-turn-do-not", strands=len(spec.strands), uprights=uprights),
            stops=False,
        )
    wanted = promised(band.looks or "")
    step = seen_step(colour_step(band.weave, materials, uprights), leftwards=basket.pattern.leftwards)
    looks = step_words(step, colour_period(materials))
    if wanted is not None and looks and looks not in wanted:
        yield Objection(band.name, kept("refusals.not-but", looks=band.looks, looks2=looks), stops=False)


def _colours(basket: Basket, band: Band, uprights: int) -> Iterator[Colours]:
    materials = materials_of(band, uprights)
    step = seen_step(colour_step(band.weave, materials, uprights), leftwards=basket.pattern.leftwards)
    if step is not None:
        yield Colours(band.name, step, step_words(step, colour_period(materials)))


def _against_border(part: str, border: Border | None, uprights: int) -> Iterator[Objection]:
    if border is None:
        return
    together = border.plait.group if border.plait else max(border.groups, 1)
    left = uprights % together
    if left:
        yield Objection(part, kept("refusals.taken-at-a-time-of", together=together, left=left, uprights=uprights))
    try:
        legs = legs_of(border)
    except PathFault as fault:
        yield Objection(part, fault.reason)
        return
    fewest = smallest_count(border, legs)
    if uprights // together < fewest:
        yield Objection(part, kept("refusals.the-border-meets-itself-it", fewest=fewest * together))


def _against_handles(basket: Basket, stakes: int) -> Iterator[Objection]:
    for handle in basket.pattern.handles:
        if handle.family not in SPANNING:
            continue
        if any(number > stakes for number in handle.at):
            yield Objection("handle", kept("refusals.there-would-be-no-stake", at=max(handle.at)))
        elif len(handle.at) > 1:
            if facing_miss(handle.at[0], handle.at[1], stakes):
                yield Objection("handle", kept("refusals.its-feet-would-not-face"), stops=False)
        elif stakes % 2:
            yield Objection("handle", kept("refusals.on-stakes-no-two-face", stakes=stakes), stops=False)


def _against_spacing(basket: Basket, spacing_mm: float) -> Iterator[Objection]:
    if not isinstance(basket.base.spec, Board):
        return
    settings = basket.pattern.settings
    low, high = settings.mm("spacing_low_board"), settings.mm("spacing_high_board")
    if not low <= spacing_mm <= high:
        closer = spacing_mm < low
        yield Objection("board", kept("refusals.the-holes-would-stand-than", closer=closer), stops=False)


# ------------------------------------------------------------------------------------------------------------- changes
def ways_to(basket: Basket, stakes: int) -> tuple[Told, ...]:
    """What a maker would change to have this many stakes, each with the count, the simplest first."""
    now, spec, base = own_count(basket), basket.pattern.stakes, basket.base.spec
    more = stakes - now
    if more == 0:
        return ()
    if isinstance(base, Board):
        return (kept("refusals.drill-holes", stakes=stakes),)
    if spec is None or (isinstance(base, RoundSlath | OvalSlath) and base.become_stakes):
        return _by_ends(basket, more, 1, stakes)
    if spec.count is not None:
        return (kept("refusals.set-stakes", stakes=stakes),)
    return (
        *_by_ends(basket, more, spec.per_end, stakes),
        *_alike(basket, spec, stakes),
        *_by_stakes(basket, more, stakes),
    )


def _by_ends(basket: Basket, more: int, per_end: int, stakes: int) -> tuple[Told, ...]:
    """A half stick brings one end, a stick two."""
    base = basket.base.spec
    slath = base if isinstance(base, RoundSlath | OvalSlath) else None
    ways: list[Told] = []
    if not per_end or more % per_end or not base_holds(basket, len(basket.base.ends) + more // per_end):
        return ()
    if slath and more == per_end and not slath.half_stick:
        ways.append(kept("refusals.add-a-half-stick", stakes=stakes, bracketed=False))
    if slath and more == -per_end and slath.half_stick:
        ways.append(kept("refusals.leave-out-the-half-stick", stakes=stakes, bracketed=False))
    sticks, rest = divmod(abs(more), 2 * per_end)
    if not rest and sticks and not isinstance(base, Board) and basket.base.sticks:
        ways.append(kept("refusals.sticks-more", sticks=sticks, more=more > 0, stakes=stakes, bracketed=False))
    return tuple(ways)


def _alike(basket: Basket, spec: Stakes, stakes: int) -> tuple[Told, ...]:
    """The same number at every end, where that gives the count."""
    ends = len(basket.base.ends)
    each, rest = divmod(stakes, ends) if ends else (0, 1)
    plain = not spec.exceptions and not spec.add and not spec.leave_out and each == spec.per_end
    return (
        () if rest or not each or plain else (kept("refusals.at-each-end", each=each, stakes=stakes, bracketed=False),)
    )


def _by_stakes(basket: Basket, more: int, stakes: int) -> tuple[Told, ...]:
    """Single stakes left out, or set in beside others: at most one to an end."""
    ends = len(basket.base.ends)
    if not ends or abs(more) > ends:
        return ()
    if more < 0:
        return (kept("refusals.leave-out", more=-more, stakes=stakes, bracketed=False),)
    return (kept("refusals.set-in-more", more=more, stakes=stakes, bracketed=False),)


def own_count(basket: Basket) -> int:
    """The count a basket has as it is: its stakes, or the stick ends of a mat."""
    return len(_main(basket)) or len(basket.base.ends)


def _main(basket: Basket) -> list[int]:
    return [stake.number for stake in basket.standing]


def promised(words: str) -> frozenset[str] | None:
    """What `looks` promises, as the set of things seen that keep it; None if it says nothing that can be checked."""
    said = words.casefold()
    if "alternat" in said or "checker" in said or "chequer" in said:
        return frozenset({"alternating"})
    if "upright" in said or "stripe" in said or "straight up" in said:
        return frozenset({"upright stripes"})
    if "left" in said:
        return frozenset({"steps left"})
    if "right" in said:
        return frozenset({"steps right"})
    if "spiral" in said or "step" in said:
        return frozenset({"steps left", "steps right"})
    return None
