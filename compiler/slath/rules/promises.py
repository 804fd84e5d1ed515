"""What a pattern promises of its weaving, and whether the counts keep it: colours, reversed bands, stepped figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from slath.basket.bands import materials_of
from slath.basket.count_search import promised
from slath.basket.courses import band_before
from slath.basket.model import WovenBand
from slath.basket.weave import colour_period, colour_step, seen_step, step_words
from slath.language.places import Path
from slath.messages.told import Spoken, several, told
from slath.rules.finding import Context, Finding, name_of, part_of
from slath.rules.recount import multiple_of, stakes_of, uprights_if, ways_to

_ONE_COLOUR = "one colour"


def looks_understood(context: Context) -> Iterator[Finding]:
    """A promise about the colours is checked only if it says which way they step."""
    for band in context.bands:
        if band.spec.looks and promised(band.spec.looks) is None:
            yield Finding(
                (*band.spec.path, "looks"),
                part_of(band),
                told("“{looks}” cannot be checked against the count.", looks=band.spec.looks),
                (told("say upright stripes, steps left, steps right or alternating"),),
            )


def looks_kept(context: Context) -> Iterator[Finding]:
    """The colour over stake p in round r is (p + r·S) mod k, so the count alone decides which way a spiral leans."""
    for band in context.bands:
        wanted = promised(band.spec.looks or "")
        if wanted is None:
            continue
        band = _as_seen(context, band)  # noqa: PLW2901 - the same band, its strands told by what they look like
        found = seen(context, band, band.uprights)
        if found not in wanted:
            yield Finding(
                (*band.spec.path, "looks"),
                part_of(band),
                told(
                    "The pattern says “{looks}”, but on {uprights} uprights {found}.",
                    looks=band.spec.looks,
                    uprights=band.uprights,
                    found=_told(band, found),
                ),
                _keeping(context, band, wanted, found),
            )


def _as_seen(context: Context, band: WovenBand) -> WovenBand:
    """The band with strands of one stock and one dye as one material: the eye knows no names."""
    first: dict[tuple[str, str, str], str] = {}
    alike: dict[str, str] = {}
    for key in dict.fromkeys(key for rod in band.materials for key in rod):
        material = context.sized.materials[key]
        alike[key] = first.setdefault((material.stock.name, material.dye or "", material.colour), key)
    materials = tuple(tuple(alike[key] for key in rod) for rod in band.materials)
    return replace(band, materials=materials, steps=colour_step(band.spec.weave, materials, band.uprights))


def seen(context: Context, band: WovenBand, uprights: int) -> str:
    """What the colours of the band do on `uprights`, seen from outside."""
    weave = band.spec.weave
    materials = (
        band.materials
        if uprights == band.uprights or weave.kind != "french rand"
        else materials_of(band.spec, uprights)
    )
    step = seen_step(colour_step(weave, materials, uprights), leftwards=context.sized.leftwards)
    return step_words(step, colour_period(materials)) or _ONE_COLOUR


def _told(band: WovenBand, found: str) -> Spoken:
    if found == _ONE_COLOUR:
        return told("all its strands are of one colour")
    if found == "upright stripes":
        return told("every round lays the colours over the same stakes: upright stripes")
    if found == "alternating":
        return told("the colours change places in every round: they alternate")
    step = abs(band.steps or 1)
    return told(
        "each round lies {step#{step:words} stake|{step:words} stakes} further {left?left|right}",
        step=step,
        left=found.endswith("left"),
    )


def _keeping(context: Context, band: WovenBand, wanted: frozenset[str], found: str) -> tuple[Spoken, ...]:
    if found == _ONE_COLOUR:
        return (
            told("list strands of two or more colours for its {rods} rods", rods=band.spec.weave.rods),
            told("take the promise out"),
        )
    now = stakes_of(context.basket)
    by_count: tuple[Spoken, ...] = ()
    if not context.on_base(band):
        by_count = ways_to(context, lambda stakes: seen(context, band, uprights_if(band, stakes - now)) in wanted)
    honest = (told("say “looks: {found}”", found=found),)
    leaning = {"steps left", "steps right"}
    mirrored = (
        told(
            "work the other way round, {onward?left to right|right to left} (working_direction)",
            onward=context.sized.leftwards,
        ),
    )
    return (*by_count, *(mirrored if found in leaning and wanted <= leaning else ()), *honest)


def arrow_meets(context: Context) -> Iterator[Finding]:
    """Reversed rounds make an arrow of the rounds below only if they begin with the colours those ended with.

    A band of its own begins anew with its leftmost strand; after R rounds on S uprights the colours stand (R - 1)·S
    further on, so where the rods do not divide that, it begins with the colour order turned by so much. Where an arrow or
    a chain is one band its strands run on, and meet their own colours only if the rods divide S.
    """
    heard: set[Path] = set()
    for below, above in zip(context.on_stakes, context.on_stakes[1:], strict=False):
        rods = above.spec.weave.rods
        same = below.spec.weave == above.spec.weave and sorted(below.materials) == sorted(above.materials)
        coloured = colour_period(above.materials) > 1 and above.spec.weave.twined
        if not (same and coloured and above.spec.reversed and not below.spec.reversed) or not below.rounds:
            continue
        turn = (len(below.rounds) - 1) * above.uprights % rods
        turned = below.materials[turn:] + below.materials[:turn]
        parted = above.spec.path == below.spec.path
        meets = above.uprights % colour_period(above.materials) == 0 if parted else above.materials == turned
        if meets or above.spec.path in heard:
            continue
        heard.add(above.spec.path)
        order = ", ".join(key for rod in turned for key in rod)
        anew = (
            told("write the turned rounds as a band of their own, with strands: [{order}]", order=order)
            if parted
            else told("list strands: [{order}]", order=order)
        )
        yield Finding(
            (*above.spec.path, "weave" if parted else "reversed"),
            part_of(above),
            told(
                "The reversed rounds should make an arrow of those below, but on {uprights} uprights, counted off by {rods}, they do not begin with the colours the rounds below end with.",
                uprights=above.uprights,
                rods=rods,
            ),
            (*((anew,) if turn or not parted else ()), *ways_to(context, multiple_of(rods), most=1)),
        )


def figure_inside_band(context: Context) -> Iterator[Finding]:
    """A figure can be worked only over rows and uprights that are there."""
    for band in context.bands:
        rows = len(band.rounds)
        for index, cell in enumerate(band.spec.cells):
            too_high, too_far = cell.rows[1] > rows, cell.stakes[1] > band.uprights
            backwards = cell.rows[0] > cell.rows[1] or cell.stakes[0] > cell.stakes[1]
            if not (too_high or too_far or backwards or cell.rows[0] < 1 or cell.stakes[0] < 1):
                continue
            asked = told(
                "rows {rows} to {rows2}, stakes {stakes} to {stakes2}",
                rows=cell.rows[0],
                rows2=cell.rows[1],
                stakes=cell.stakes[0],
                stakes2=cell.stakes[1],
            )
            yield Finding(
                (*band.spec.path, "figure", index),
                part_of(band),
                told(
                    "The figure asks for {asked}; the band has rows 1 to {rows} and stakes 1 to {uprights}.",
                    asked=asked,
                    rows=rows,
                    uprights=band.uprights,
                ),
                (
                    told(
                        "end it at row {rows}, stake {stakes}",
                        rows=min(cell.rows[1], rows),
                        stakes=min(cell.stakes[1], band.uprights),
                    ),
                    *((told("give the band {rows} rounds", rows=cell.rows[1]),) if too_high else ()),
                ),
            )


def turns_of_colour_close(context: Context) -> Iterator[Finding]:
    """Colours taken in turn all round, by stakes or by the rods of a French rand, must share out, or two alike meet."""
    stakes = context.sized.stakes
    if stakes is not None and len(stakes.materials) > 1:
        set_in = sum(stake.kind == "stake" for stake in context.basket.stakes) // stakes.pieces_each
        period = len(stakes.in_turn)
        over = set_in % period
        if over:
            fewer, more = set_in - over, set_in - over + period
            yield Finding(
                (*stakes.path, "in_turn"),
                "stakes",
                told(
                    "{period} in turn over {set_in} stakes leave {over} over: where the last stake meets the first, the order of the colours breaks.",
                    period=period,
                    set_in=set_in,
                    over=over,
                ),
                (
                    told("set {fewer} or {more} stakes", fewer=fewer, more=more),
                    told("list the colours in a turn that shares out among the stakes"),
                ),
            )
    for band in context.bands:
        if band.spec.weave.kind != "french rand":
            continue
        period, over = len(band.spec.strands), band.uprights % len(band.spec.strands)
        if over and len(set(band.spec.strands)) > 1:
            yield Finding(
                (*band.spec.path, "strands"),
                part_of(band),
                told(
                    "{period} colours in turn over {uprights} rods leave {over} over: where the round closes, the order of the colours breaks.",
                    period=period,
                    uprights=band.uprights,
                    over=over,
                ),
                (
                    *ways_to(context, multiple_of(period)),
                    told(
                        "list the colours in a turn that {uprights} can be shared by{shares}",
                        uprights=band.uprights,
                        shares=_shares(band.uprights),
                    ),
                ),
            )


def _shares(uprights: int) -> Spoken:
    parts = [str(part) for part in range(2, 9) if uprights % part == 0]
    return told("{parts? ({listed})}", parts=bool(parts), listed=several(parts, "or"))


def strands_run_on(context: Context) -> Iterator[Finding]:
    """A band worked on with the strands of the one before has the same strands, in the same order."""
    for band in context.bands:
        if not band.spec.goes_on:
            continue
        before = band_before(context.basket, band)
        if before is not None and before.materials and before.materials == band.materials:
            continue
        if before is None or not before.materials:
            reason = told("there is no weaving before it whose strands could go on")
            remedies: tuple[Spoken, ...] = (told("take goes_on out"),)
        else:
            had, has = ([key for rod in found.materials for key in rod] for found in (before, band))
            reason = told(
                "{before} is woven with {strands_in}, and {band} with {strands_in2}",
                before=name_of(before),
                strands_in=_strands_in(had),
                band=name_of(band),
                strands_in2=_strands_in(has),
            )
            remedies = (
                told("give it the same strands: [{strands}], and a weave for as many", strands=", ".join(had)),
                told("take goes_on out: new strands are begun"),
            )
        yield Finding(
            (*band.spec.path, "goes_on"),
            part_of(band),
            told("The strands cannot run on into {band}: {reason}.", band=name_of(band), reason=reason),
            remedies,
        )


def _strands_in(keys: Sequence[str]) -> Spoken:
    return told(
        "{count#{count:words} strand|{count:words} strands} ({keys})", count=len(keys), keys=several(keys, ", ")
    )
