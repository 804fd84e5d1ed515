"""Counts: whether each weave holds on the uprights it is worked on, at every opening of the base and up the side."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.model import WovenBand
from slath.basket.weave import follows, holds
from slath.language.pattern import OvalSlath, RoundSlath, WeaveSpec
from slath.rules.finding import Context, Finding, part_of
from slath.rules.recount import ends_remedies, interlocks, multiple_of, stakes_of, ways_to
from slath.units.counting import counted, in_words, listed

_MOST_WAYS = 4  # remedies told for one note


def weave_holds(context: Context) -> Iterator[Finding]:
    """Every strand must come before and behind every upright: randing needs an odd count, over 2 under 1 no multiple of 3."""
    for band in context.bands:
        if band.spec.weave.twined or band.interlocks:
            continue
        shift = band.spec.shift
        shifted = f", which work as {band.uprights - shift} with the shift of {in_words(shift)}" if shift else ""
        unshifted = ("leave out the shift",) if shift and holds(band.spec.weave, band.uprights) else ()
        yield Finding(
            (*band.spec.path, "weave"), part_of(band),
            f"{_named(band.spec.weave)} {needs(band.spec.weave, uprights_word(context, band))}; "
            f"you have {band.uprights}{reckoning(context, band)}{shifted}.",
            (*unshifted, *_other_ways(context, band))[:_MOST_WAYS],
        )  # fmt: skip


def more_uprights_than_rods(context: Context) -> Iterator[Finding]:
    """A pair or a wale needs more uprights than it has rods, or a rod would have to pass itself."""
    for band in context.bands:
        weave = band.spec.weave
        if weave.twined and band.uprights <= weave.rods:
            yield Finding(
                (*band.spec.path, "weave"), part_of(band),
                f"{_named(weave)} works {counted(weave.rods, 'rod', 'rods')} and needs more than {weave.rods} "
                f"{uprights_word(context, band)}; you have {band.uprights}.",
                (f"use at least {weave.rods + 1} {uprights_word(context, band)}", "work it with fewer rods", "rand or chase"),
            )  # fmt: skip


def chase_follows(context: Context) -> Iterator[Finding]:
    """Chasing wants an even count: on an odd one the second strand meets the faces of the row below and rows pair up."""
    for band in context.bands:
        weave = band.spec.weave
        if not band.interlocks or follows(weave, band.uprights):
            continue
        ways = ends_remedies(context.basket) if context.on_base(band) else ways_to(context, multiple_of(2))
        one = ("rand with one strand",) if holds(_single(weave), band.uprights) else ()
        yield Finding(
            (*band.spec.path, "weave"), part_of(band),
            f"{_named(weave)} needs an even number of {uprights_word(context, band)}; on {band.uprights}"
            f"{reckoning(context, band)} each row repeats the faces of the row below it, so rows lie in pairs.",
            (*one, *ways, "pair"),
        )  # fmt: skip


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
        (*base.path, "half_stick"), "base",
        f"The half stick makes {ends} ends, but there are {stakes} stakes, an even number: it changes nothing.",
        (f"give the half stick one stake fewer ({stakes - 1})", f"leave out the half stick ({ends - 1} ends)"),
    )  # fmt: skip


def openings_go_outwards(context: Context) -> Iterator[Finding]:
    """Sticks are parted as the base grows, from groups to singles; once parted they do not go back together."""
    for below, above in zip(context.basket.base.bands, context.basket.base.bands[1:], strict=False):
        if above.uprights < below.uprights:
            yield Finding(
                (*above.spec.path, "worked"), part_of(above),
                f"“{below.name}” parts the sticks into {below.uprights}; this band works them as {above.uprights}, but sticks "
                "once parted cannot be brought together again.",
                (f"work it on {below.uprights} as well", "put this band before the other"),
                (((*below.spec.path, "worked"), "parted here"),),
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
            (*(spec.path if spec is not None else basket.base.spec.path), "worked"), "stakes",
            f"{total} stakes worked {in_groups(together)} leave {in_words(left)} over.",
            (f"leave out {in_words(left)} ({fewer})", f"add {in_words(more - total)} ({more})", "work them singly"),
        )  # fmt: skip


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
                (*band.spec.path, "worked"), part_of(band),
                f"{total} uprights worked {in_groups(size)} leave {in_words(left)} over.",
                (f"use {total - left} or {total - left + size} stakes", "work the band singly"),
            )  # fmt: skip


# ------------------------------------------------------------------------------------------------------------ words
def needs(weave: WeaveSpec, noun: str) -> str:
    """What a weave asks of a count, read off the model: ``needs an odd number of stakes``."""
    cycle = weave.cycle
    start = cycle * (weave.rods + 2)
    good = [over for over in range(cycle) if holds(weave, start + over)]
    bad = [over for over in range(cycle) if over not in good]
    if cycle % 2 == 0 and good == list(range(1, cycle, 2)):
        return f"needs an odd number of {noun}"
    if cycle % 2 == 0 and good == list(range(0, cycle, 2)):
        return f"needs an even number of {noun}"
    if bad == [0]:
        return f"needs a number of {noun} that is not a multiple of {cycle}"
    over = listed([str(value) for value in good], "or")
    return f"needs a number of {noun} that leaves {over} over when counted off {in_groups(cycle)}"


def uprights_word(context: Context, band: WovenBand) -> str:
    """What the band is worked round, in the plural."""
    if max(band.group_sizes, default=1) > 1:
        return "groups"
    return "stick ends" if context.on_base(band) else "stakes"


def reckoning(context: Context, band: WovenBand) -> str:
    """How the count comes about, in brackets, from the sentence that counts; empty where the band opens groups."""
    on_base = context.on_base(band)
    name = "ends" if on_base else "stakes"
    if max(band.group_sizes, default=1) > 1:
        return f" ({_groups(band)})" if len(band.group_sizes) > 1 else ""
    if band.uprights != (len(context.basket.base.ends) if on_base else len(context.basket.stakes)):
        return ""
    row = next((row for row in context.quantities.counts if row.name == name), None)
    if row is None:
        return ""
    said = row.sentence.rstrip(".")
    return f" ({said.rpartition(':')[0] or said})"


def _groups(band: WovenBand) -> str:
    sizes = sorted(set(band.group_sizes), reverse=True)
    if len(sizes) == 1:
        return in_groups(sizes[0])
    return listed([f"{band.group_sizes.count(size)} of {in_words(size)}" for size in sizes])


def _named(weave: WeaveSpec) -> str:
    label = weave.label[:1].upper() + weave.label[1:]
    if weave.kind == "rand" and weave.rods == 1 and weave.as_one == 1:
        return f"{label} with one strand"
    return label


def in_groups(size: int) -> str:
    """``in twos``; above twelve in figures."""
    word = in_words(size)
    return f"in {word}es" if word.endswith("x") else f"in {word}s"


def _single(weave: WeaveSpec) -> WeaveSpec:
    return WeaveSpec("rand", weave.strokes, 1, 1, twined=False, label="randing")


def _other_ways(context: Context, band: WovenBand) -> tuple[str, ...]:
    weave, count = band.spec.weave, band.uprights
    ways: list[str] = []
    more: list[str] = []
    plain = weave.kind == "rand" and weave.cycle == 2 and weave.rods == 1
    if plain and count % 2 == 0:
        ways.append("chase with two strands")
    if context.on_base(band):
        more += ends_remedies(context.basket) if max(band.group_sizes) == 1 else ["open the sticks into other groups"]
    else:
        more += ways_to(context, lambda stakes: interlocks(band, count + stakes - stakes_of(context.basket)))
    ways += more[:1]
    if count > 2:
        ways.append("pair")
    ways += more[1:]
    if len(ways) < _MOST_WAYS and not band.spec.shift and holds(weave, count - 1):
        ways.append("pass one stake more once a round (shift: 1)")
    return tuple(ways[:_MOST_WAYS])
