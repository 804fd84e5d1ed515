"""Counts: whether each weave holds on the uprights it is worked on, at every opening of the base and up the side."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.model import WovenBand
from slath.basket.weave import follows, holds
from slath.language.pattern import OvalSlath, RoundSlath, WeaveSpec
from slath.messages.told import Spoken, several, told, word
from slath.rules.finding import Context, Finding, part_of
from slath.rules.recount import ends_remedies, interlocks, multiple_of, stakes_of, ways_to
from slath.units.counting import in_words

_MOST_WAYS = 4  # remedies told for one note


def weave_holds(context: Context) -> Iterator[Finding]:
    """Every strand must come before and behind every upright: randing needs an odd count, over 2 under 1 no multiple of 3."""
    for band in context.bands:
        if band.spec.weave.twined or band.interlocks:
            continue
        shift = band.spec.shift
        shifted = (
            told(
                ", which work as {uprights} with the shift of {shift:words}",
                uprights=band.uprights - shift,
                shift=shift,
            )
            if shift
            else ""
        )
        unshifted = (told("leave out the shift"),) if shift and holds(band.spec.weave, band.uprights) else ()
        yield Finding(
            (*band.spec.path, "weave"),
            part_of(band),
            told(
                "{named} {needs}; you have {uprights}{reckoning}{shifted}.",
                named=_named(band.spec.weave),
                needs=needs(band.spec.weave, uprights_word(context, band)),
                uprights=band.uprights,
                reckoning=reckoning(context, band),
                shifted=shifted,
            ),
            (*unshifted, *_other_ways(context, band))[:_MOST_WAYS],
        )


def more_uprights_than_rods(context: Context) -> Iterator[Finding]:
    """A pair or a wale needs more uprights than it has rods, or a rod would have to pass itself."""
    for band in context.bands:
        weave = band.spec.weave
        if weave.twined and band.uprights <= weave.rods:
            yield Finding(
                (*band.spec.path, "weave"),
                part_of(band),
                told(
                    "{named} works {rods#{rods:words} rod|{rods:words} rods} and needs more than {rods} {uprights_word}; you have {uprights}.",
                    named=_named(weave),
                    rods=weave.rods,
                    uprights_word=uprights_word(context, band),
                    uprights=band.uprights,
                ),
                (
                    told(
                        "use at least {rods} {uprights_word}",
                        rods=weave.rods + 1,
                        uprights_word=uprights_word(context, band),
                    ),
                    told("work it with fewer rods"),
                    told("rand or chase"),
                ),
            )


def chase_follows(context: Context) -> Iterator[Finding]:
    """Chasing wants an even count: on an odd one the second strand meets the faces of the row below and rows pair up."""
    for band in context.bands:
        weave = band.spec.weave
        if not band.interlocks or follows(weave, band.uprights):
            continue
        ways = ends_remedies(context.basket) if context.on_base(band) else ways_to(context, multiple_of(2))
        one = (told("rand with one strand"),) if holds(_single(weave), band.uprights) else ()
        yield Finding(
            (*band.spec.path, "weave"),
            part_of(band),
            told(
                "{named} needs an even number of {uprights_word}; on {uprights}{reckoning} each row repeats the faces of the row below it, so rows lie in pairs.",
                named=_named(weave),
                uprights_word=uprights_word(context, band),
                uprights=band.uprights,
                reckoning=reckoning(context, band),
            ),
            (*one, *ways, told("pair")),
        )


def half_stick_counts(context: Context) -> Iterator[Finding]:
    """A half stick is there to make the count odd; two stakes at each end make it even again."""
    base, basket = context.basket.base.spec, context.basket
    if (
        not (isinstance(base, RoundSlath | OvalSlath) and base.half_stick)
        or len(basket.stakes) % 2
        or not basket.stakes
    ):
        return
    needs_odd = any(not interlocks(band, band.uprights - 1) for band in basket.base.bands if not band.spec.weave.twined)
    if needs_odd:
        return
    stakes, ends = len(basket.stakes), len(basket.base.ends)
    yield Finding(
        (*base.path, "half_stick"),
        "base",
        told(
            "The half stick makes {ends} ends, but there are {stakes} stakes, an even number: it changes nothing.",
            ends=ends,
            stakes=stakes,
        ),
        (
            told("give the half stick one stake fewer ({stakes})", stakes=stakes - 1),
            told("leave out the half stick ({ends} ends)", ends=ends - 1),
        ),
    )


def openings_go_outwards(context: Context) -> Iterator[Finding]:
    """Sticks are parted as the base grows, from groups to singles; once parted they do not go back together."""
    for below, above in zip(context.basket.base.bands, context.basket.base.bands[1:], strict=False):
        if above.uprights < below.uprights:
            yield Finding(
                (*above.spec.path, "worked"),
                part_of(above),
                told(
                    "“{below}” parts the sticks into {uprights}; this band works them as {uprights2}, but sticks once parted cannot be brought together again.",
                    below=below.name,
                    uprights=below.uprights,
                    uprights2=above.uprights,
                ),
                (
                    told("work it on {uprights} as well", uprights=below.uprights),
                    told("put this band before the other"),
                ),
                (((*below.spec.path, "worked"), told("parted here")),),
            )


def doubled_in_pairs(context: Context) -> Iterator[Finding]:
    """A length that is doubled over a ring makes two stakes, so that there must be an even number."""
    stakes = context.sized.stakes
    set_in = sum(stake.kind == "stake" for stake in context.basket.stakes)
    if stakes is not None and stakes.doubled and set_in % 2:
        yield Finding(
            (*stakes.path, "doubled"), "stakes",
            told("Each length is doubled and makes two stakes; {stakes} is an odd number.", stakes=set_in),
            (told("set {stakes} stakes", stakes=set_in - 1), told("set {stakes} stakes", stakes=set_in + 1)),
        )  # fmt: skip


def stakes_fill_groups(context: Context) -> Iterator[Finding]:
    """Stakes worked in twos or threes must share out, or one group is short and every round limps there."""
    spec, basket = context.sized.stakes, context.basket
    together = spec.worked_as if spec is not None else getattr(basket.base.spec, "worked_as", 1)
    if together < 2:
        return
    total = sum(stake.kind not in {"bye-stake", "post"} for stake in basket.stakes)
    left = total % together
    if left:
        fewer, more = total - left, total - left + together
        yield Finding(
            (*(spec.path if spec is not None else basket.base.spec.path), "worked"),
            "stakes",
            told(
                "{total} stakes worked {together} leave {left:words} over.",
                total=total,
                together=in_groups(together),
                left=left,
            ),
            (
                told("leave out {left:words} ({fewer})", left=left, fewer=fewer),
                told("add {more:words} ({more2})", more=more - total, more2=more),
                told("work them singly"),
            ),
        )


def bands_fill_groups(context: Context) -> Iterator[Finding]:
    """A side band worked in twos or threes must take up all uprights evenly."""
    for band in context.on_stakes:
        size = band.spec.groups
        if not isinstance(size, int) or size < 2 or len(set(band.group_sizes)) < 2:
            continue
        total = sum(band.group_sizes)
        left = total % size
        if left:
            yield Finding(
                (*band.spec.path, "worked"),
                part_of(band),
                told(
                    "{total} uprights worked {size} leave {left:words} over.",
                    total=total,
                    size=in_groups(size),
                    left=left,
                ),
                (
                    told("use {total} or {total2} stakes", total=total - left, total2=total - left + size),
                    told("work the band singly"),
                ),
            )


# ------------------------------------------------------------------------------------------------------------ words
def needs(weave: WeaveSpec, noun: str) -> Spoken:
    """What a weave asks of a count, read off the model: ``needs an odd number of stakes``."""
    cycle = weave.cycle
    start = cycle * (weave.rods + 2)
    good = [over for over in range(cycle) if holds(weave, start + over)]
    bad = [over for over in range(cycle) if over not in good]
    if cycle % 2 == 0 and good == list(range(1, cycle, 2)):
        return told("needs an odd number of {noun}", noun=noun)
    if cycle % 2 == 0 and good == list(range(0, cycle, 2)):
        return told("needs an even number of {noun}", noun=noun)
    if bad == [0]:
        return told("needs a number of {noun} that is not a multiple of {cycle}", noun=noun, cycle=cycle)
    over = several((str(value) for value in good), "or")
    return told(
        "needs a number of {noun} that leaves {over} over when counted off {cycle}",
        noun=noun,
        over=over,
        cycle=in_groups(cycle),
    )


def uprights_word(context: Context, band: WovenBand) -> Spoken:
    """What the band is worked round, in the plural."""
    if max(band.group_sizes, default=1) > 1:
        return told("groups")
    return told("stick ends") if context.on_base(band) else told("stakes")


def reckoning(context: Context, band: WovenBand) -> str:
    """How the count comes about, in brackets, from the sentence that counts; empty where the band opens groups."""
    on_base = context.on_base(band)
    name = "ends" if on_base else "stakes"
    if max(band.group_sizes, default=1) > 1:
        return told("{several? ({groups})}", several=len(band.group_sizes) > 1, groups=_groups(band))
    if band.uprights != (len(context.basket.base.ends) if on_base else len(context.basket.stakes)):
        return ""
    row = next((row for row in context.quantities.counts if row.name == name), None)
    return "" if row is None else told(" ({reckoned})", reckoned=row.reckoned)


def _groups(band: WovenBand) -> Spoken:
    sizes = sorted(set(band.group_sizes), reverse=True)
    if len(sizes) == 1:
        return in_groups(sizes[0])
    return several([told("{count} of {size:words}", count=band.group_sizes.count(size), size=size) for size in sizes])


def _named(weave: WeaveSpec) -> Spoken:
    label = word(weave.label).begun()
    if weave.kind == "rand" and weave.rods == 1 and weave.as_one == 1:
        return told("{label} with one strand", label=label)
    return label


def in_groups(size: int) -> Spoken:
    """``in twos``; above twelve in figures."""
    several = in_words(size)
    return word(f"in {several}es" if several.endswith("x") else f"in {several}s")


def _other_groups(context: Context, band: WovenBand) -> list[Spoken]:
    """How the groups of a slath come to another number: with its half stick as one of them, or opened otherwise."""
    base, groups = context.basket.base.spec, band.uprights
    half = isinstance(base, RoundSlath | OvalSlath) and base.half_stick and not base.half_apart
    apart = half and band.spec.groups == "grouped" and interlocks(band, groups + 1)
    first = told("let the half stick be a group of its own (half_stick_apart: yes): {groups} groups", groups=groups + 1)
    return [*([first] if apart else []), told("open the sticks into other groups")]


def _single(weave: WeaveSpec) -> WeaveSpec:
    return WeaveSpec("rand", weave.strokes, 1, 1, twined=False, label="randing")


def _other_ways(context: Context, band: WovenBand) -> tuple[Spoken, ...]:
    weave, count = band.spec.weave, band.uprights
    ways: list[Spoken] = []
    more: list[Spoken] = []
    plain = weave.kind == "rand" and weave.cycle == 2 and weave.rods == 1
    if plain and count % 2 == 0:
        ways.append(told("chase with two strands"))
    if context.on_base(band):
        more += ends_remedies(context.basket) if max(band.group_sizes) == 1 else _other_groups(context, band)
    else:
        more += ways_to(context, lambda stakes: interlocks(band, count + stakes - stakes_of(context.basket)))
    ways += more[:1]
    if count > 2:
        ways.append(told("pair"))
    ways += more[1:]
    if len(ways) < _MOST_WAYS and not band.spec.shift and holds(weave, count - 1):
        ways.append(told("pass one stake more once a round (shift: 1)"))
    return tuple(ways[:_MOST_WAYS])
