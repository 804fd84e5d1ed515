"""Order of work: nothing is used before it is made, and no two parts go by one name."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from slath.basket.model import WovenBand
from slath.language.pattern import Band, ByeStakes
from slath.messages.told import Spoken, several, told
from slath.rules.finding import UNNAMED, Context, Finding, name_of, part_of, surely_less


def changes_find_stakes(context: Context) -> Iterator[Finding]:
    """Stakes named for a change must stand there when it is made."""
    standing = context.basket.working
    for _, change, after in context.basket.changes:
        missing = [number for number in change.stakes if not 1 <= number <= standing]
        if missing:
            yield Finding(
                (*change.path, "stakes"),
                "side",
                told(
                    "There is no upright {number} to change; at this height there are {standing}.",
                    number=several([str(number) for number in missing], "or"),
                    standing=standing,
                ),
                (
                    told("name uprights from 1 to {standing}", standing=standing),
                    told("make the change after the band that adds them"),
                ),
            )
        standing = after


def bye_stakes_find_band(context: Context) -> Iterator[Finding]:
    """Bye-stakes go in after a band that is woven on the side."""
    names = [band.name for band in context.on_stakes]
    for bye in context.sized.bye_stakes:
        if bye.after_band and bye.after_band not in names:
            yield Finding(
                (*bye.path, "after"),
                "bye-stakes",
                told(
                    "Bye-stakes are to go in after “{after_band}”, but the side has no band of that name.",
                    after_band=bye.after_band,
                ),
                (told("name {names}", names=several(names, "or")), told("leave it out: they go in with the stakes")),
            )


def bye_stakes_have_depth(context: Context) -> Iterator[Finding]:
    """A bye-stake is pushed into weaving that is already there."""
    for bye in context.sized.bye_stakes:
        band = next((band for band in context.on_stakes if band.name == bye.after_band), None)
        depth = _bye_depth(context, bye)
        if band is None or depth <= band.to_mm + surely_less(replace(band.pitch, value=band.to_mm)) + 0.5:
            continue
        yield Finding(
            (*bye.path, "depth" if bye.depth_mm is not None else "after"),
            "bye-stakes",
            told(
                "Bye-stakes go {depth} into the weaving, but only {to} is woven when they are put in, after {band}.",
                depth=context.measure(depth),
                to=context.measure(band.to_mm),
                band=name_of(band),
            ),
            (told("put them {to} deep at most", to=context.at_most(band.to_mm)), _later(context, depth)),
        )


def _bye_depth(context: Context, bye: ByeStakes) -> float:
    """How deep a set of bye-stakes goes, as the list has it."""
    pieces = (piece for piece in context.quantities.pieces if piece.path[: len(bye.path)] == bye.path)
    return next((piece.parts[0].value for piece in pieces), 0.0)


def _later(context: Context, depth: float) -> Spoken:
    deep_enough = next((band.name for band in context.on_stakes if band.to_mm >= depth), "")
    return (
        told("put them in after {deep_enough}", deep_enough=deep_enough)
        if deep_enough
        else told("weave more before them")
    )


def band_names_differ(context: Context) -> Iterator[Finding]:
    """Steps, list and drawings call a band by its name, so no two bands share one."""
    first: dict[str, WovenBand] = {}
    for band in context.bands:
        name = band.name.strip().casefold()
        if UNNAMED.fullmatch(name):
            continue
        if name in first:
            yield Finding(
                (*band.spec.path, "name"),
                part_of(band),
                told("Two bands are called “{band}”.", band=band.name),
                (told("call this one “{band} {second}”", band=band.name, second=_second(context, band)),),
                (((*first[name].spec.path, "name"), told("the first of the name")),),
            )
        first.setdefault(name, band)


def _second(context: Context, band: WovenBand) -> int:
    taken = {other.name.strip().casefold() for other in context.bands}
    return next(number for number in range(2, 1000) if f"{band.name} {number}".casefold() not in taken)


def stakes_follow_openings(context: Context) -> Iterator[Finding]:
    """Stakes set beside single ends need the ends parted first: the base must end with its sticks worked singly."""
    base, stakes = context.basket.base, context.sized.stakes
    if stakes is None or not base.bands or not base.ends:
        return
    last = base.bands[-1]
    if last.uprights >= len(base.ends) or not any(end.stakes for end in base.ends):
        return
    if any(stake.kind == "through" for stake in context.basket.stakes) and context.basket.working <= last.uprights + 1:
        return  # the ends turn up as they are, and the side is woven on the same groups
    opened = isinstance(last.spec, Band) and last.spec.groups == "grouped"
    yield Finding(
        (*last.spec.path, "worked"),
        part_of(last),
        told(
            "The base ends with its {ends} sticks ends still worked as {uprights}{opened?, as the slath has them}; stakes go in beside single ends.",
            ends=len(base.ends),
            uprights=last.uprights,
            opened=opened,
        ),
        (told("add a band worked singly before the stakes go in"),),
    )
