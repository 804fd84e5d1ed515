"""Shape: whether whole rounds come to the heights and sizes asked for, and whether the side can take its flare."""

from __future__ import annotations

import math
from collections.abc import Iterator

from msgspec.structs import replace

from slath.basket.model import Round, WovenBand
from slath.basket.outline import curve_of
from slath.basket.weave import follows
from slath.language.pattern import OvalSlath, RoundSlath
from slath.rules.finding import Context, Finding, part_of
from slath.rules.recount import interlocks
from slath.units.counting import counted, in_words

_HAIR = 1e-6
_FURTHER = 7  # stakes beyond those needed that are tried for a count that suits


def band_height_met(context: Context) -> Iterator[Finding]:
    """A band of whole rounds reaches its height to within half a round; a thick round on a low band misses by much."""
    for band in context.bands:
        if not band.asked_mm or not band.rounds or band.spec.extent.to is not None:
            continue
        missed = band.reached_mm - band.asked_mm
        if abs(missed) <= context.setting("height_miss") * band.asked_mm or abs(missed) < 1:
            continue
        rounds, pitch = len(band.rounds), band.pitch.value
        yield Finding(
            (*band.spec.path, "height" if band.spec.extent.height_mm is not None else "size"), part_of(band),
            f"{counted(rounds, 'whole round comes', 'whole rounds come')} to {context.measure(band.reached_mm)}, "
            f"{context.measure(abs(missed))} {'more' if missed > 0 else 'less'} than the {context.measure(band.asked_mm)} "
            "asked for.",
            (
                f"ask for {context.measure(band.reached_mm)}",
                _next_round(context, rounds, pitch, more=missed < 0),
                "keep the height and pack the rounds to it (keep: height)",
            ),
        )  # fmt: skip


def _next_round(context: Context, rounds: int, pitch: float, *, more: bool) -> str:
    number = rounds + 1 if more else max(rounds - 1, 1)
    return f"give it {counted(number, 'round', 'rounds')}: {context.measure(number * pitch)}"


def side_height_met(context: Context) -> Iterator[Finding]:
    """Bands given by rounds may come to another height than the side is said to have."""
    side, profile = context.sized.side, context.basket.profile
    if side is None or side.height_mm is None or profile is None:
        return
    missed = profile.height_mm - side.height_mm
    tallest = max((band.pitch.value for band in context.on_stakes if band.rounds), default=0.0)
    if abs(missed) <= max(context.setting("height_miss") * side.height_mm, 0.75 * tallest):
        return
    last = context.on_stakes[-1]
    rounds = round(-missed / last.pitch.value) if last.pitch.value else 0
    remedies = [f"say height: {context.measure(profile.height_mm)}"]
    if rounds and len(last.rounds) + rounds > 0:
        remedies.append(
            f"give {last.name} {counted(len(last.rounds) + rounds, 'round', 'rounds')} in place of {len(last.rounds)}"
        )
    if all(band.spec.extent.to is None for band in context.on_stakes):
        remedies.append("let one band go to the top (to: top)")
    yield Finding(
        (*side.path, "height"), "side",
        f"The bands stand {context.measure(profile.height_mm)} high, {context.measure(abs(missed))} "
        f"{'more' if missed > 0 else 'less'} than the {context.measure(side.height_mm)} the side is to have.",
        tuple(remedies),
    )  # fmt: skip


def rim_met(context: Context) -> Iterator[Finding]:
    """Where bands end at outlines of their own, the last of them makes the rim, whatever the side says."""
    side, profile = context.sized.side, context.basket.profile
    if side is None or side.rim is None or profile is None:
        return
    made = profile.curve_at(profile.height_mm)
    asked = curve_of(side.rim)
    missed = made.perimeter - asked.perimeter
    if abs(missed) <= context.setting("height_miss") * asked.perimeter:
        return
    yield Finding(
        (*side.path, "rim"), "side",
        f"The bands bring the rim to {context.across(made.outline)}; {context.across(side.rim)} is asked for.",
        ("let the last band end at the rim's outline (ends_at)", "leave the rim out; the bands make it"),
    )  # fmt: skip


def profile_followed(context: Context) -> Iterator[Finding]:
    """A profile shapes a side whose bands say nothing of their ends, and its heights are those of the side."""
    side, profile = context.sized.side, context.basket.profile
    if side is None or profile is None or (side.profile == "straight" and not side.belly_mm):
        return
    path = (*side.path, "profile")
    ended = [band for band in context.on_stakes if band.spec.ends_at]
    if ended:
        yield Finding(
            path, "side",
            f"The bands say where they end ({ended[0].name}), and that alone shapes the side: its profile is not followed.",
            ("take the profile out", "take ends_at out of the bands"),
        )  # fmt: skip
    elif side.profile == "points" and side.points and side.height_mm is None:
        top = side.points[-1].height_mm
        if abs(profile.height_mm - top) <= context.setting("height_miss") * top:
            return
        yield Finding(
            path, "side",
            f"The profile is {context.measure(top)} high, the bands stand {context.measure(profile.height_mm)}: its heights "
            "are stretched to theirs.",
            (f"say height: {context.measure(top)}, and let a band go to the top", "give the profile the heights of the bands"),
        )  # fmt: skip


def base_size_met(context: Context) -> Iterator[Finding]:
    """The base is as wide as its whole rounds make it, and the stakes go in at that edge."""
    base = context.basket.base
    if not isinstance(base.spec, RoundSlath | OvalSlath) or base.reached_mm is None or not base.bands:
        return
    asked, last = base.spec.outline.width_mm, base.bands[-1]
    missed = base.reached_mm - asked
    if abs(missed) <= max(context.setting("height_miss") * asked, 1.5 * last.pitch.value):
        return
    wanted = len(last.rounds) - round(missed / 2 / last.pitch.value)
    key = "diameter" if isinstance(base.spec, RoundSlath) else "width"
    yield Finding(
        (*base.spec.path, key), "base",
        f"The rounds of the base come to {context.measure(base.reached_mm)} across; {context.measure(asked)} is asked for.",
        (
            *((f"give {last.name} {counted(wanted, 'round', 'rounds')} in place of {in_words(len(last.rounds))}",) if wanted > 0 else ()),
            f"say {key}: {context.measure(base.reached_mm)}",
            "let the last band go to the edge (to: edge)",
        ),
    )  # fmt: skip


def flare_gentle(context: Context) -> Iterator[Finding]:
    """Stakes that spread too much toward the rim leave weaving that slips; more stakes or less flare hold it."""
    basket, limit = context.basket, context.setting("flare_limit")
    if basket.profile is None or not basket.base_spacing_mm or not basket.rim_spacing_mm:
        return
    ratio = basket.rim_spacing_mm / basket.base_spacing_mm
    if ratio <= limit * (1 + _HAIR):
        yield from _flare_above_neck(context, limit)
        return
    side = context.sized.side
    most = basket.base.edge.perimeter * limit * basket.rim_uprights / basket.working
    share = most / basket.rim.perimeter
    rim = basket.rim.outline
    drawn_in = replace(rim, length_mm=rim.length_mm * share, width_mm=rim.width_mm * share)
    need = math.ceil(basket.rim.perimeter / (limit * basket.base_spacing_mm) - _HAIR)
    count = next((count for count in range(need, need + _FURTHER) if _top_holds(context, count)), None)
    more = (
        (f"add {counted(count - basket.rim_uprights, 'stake', 'stakes')} part-way up ({count} at the rim)",)
        if count is not None
        else ()
    )
    yield Finding(
        (*side.path, "rim") if side else (), "side",
        f"Stakes stand {context.measure(basket.base_spacing_mm)} apart at the base and "
        f"{context.measure(basket.rim_spacing_mm)} at the rim, {ratio:.2f} times as far; above {limit:g} the weaving slips.",
        (
            f"bring the rim in to {context.across(drawn_in, 'down')}",
            *more,
        ),
    )  # fmt: skip


def _top_holds(context: Context, count: int) -> bool:
    """Whether the last band of the side and the border can be worked on `count` uprights."""
    last, border = context.on_stakes[-1], context.basket.border
    size = last.spec.groups if isinstance(last.spec.groups, int) else 1
    holding = count % size == 0 and interlocks(last, count // size) and follows(last.spec.weave, count // size)
    together = max(border.spec.plait.group if border.spec.plait else border.spec.groups, 1) if border else 1
    return holding and count % together == 0


def _flare_above_neck(context: Context, limit: float) -> Iterator[Finding]:
    """A side that draws in before it spreads, or after, is flared from the narrowest place below its widest."""
    # Stakes taken together stand no further apart for it: the spacing is told of single ones.
    places = [
        (each.perimeter_mm / sum(band.group_sizes), each)
        for band in context.on_stakes
        for each in band.rounds
        if sum(band.group_sizes)
    ]
    if not places:
        return
    upwards = sorted(places, key=lambda place: place[1].along_mm)
    necks: list[tuple[float, Round]] = []  # the closest so far, at each place
    for place in upwards:
        necks.append(min([*necks[-1:], place], key=lambda found: found[0]))
    (close, neck), (wide, widest) = max(zip(necks, upwards, strict=True), key=lambda pair: pair[1][0] / pair[0][0])
    ratio = wide / close
    if ratio <= limit * (1 + _HAIR):
        return
    side = context.sized.side
    most = widest.perimeter_mm / limit / math.pi
    if neck is upwards[0][1]:
        where = f"in the first round, and {context.measure(wide)} where the side is widest"
        less = f"bring the widest place in to {context.at_most(widest.perimeter_mm * limit / ratio / math.pi)} across"
    else:
        where = (
            f"where the side is narrowest, {context.measure(neck.height_mm)} up, and {context.measure(wide)} above it"
        )
        less = f"leave the neck {context.at_least(most)} across or more"
    yield Finding(
        (*side.path, "profile") if side else (), "side",
        f"Stakes stand {context.measure(close)} apart {where}, {ratio:.2f} times as far; above {limit:g} the weaving slips.",
        (less, "add stakes part-way up (add_stakes)" if neck is upwards[0][1] else "add stakes above the neck (add_stakes)"),
    )  # fmt: skip


def french_rand_flare(context: Context) -> Iterator[Finding]:
    """The rods of a French rand lie in one spiral each and open where the stakes spread under them."""
    for band in context.bands:
        if band.spec.weave.kind != "french rand" or len(band.rounds) < 2:
            continue
        spread = band.rounds[-1].spacing_mm / band.rounds[0].spacing_mm
        if spread <= context.setting("french_rand_spread"):
            continue
        yield Finding(
            (*band.spec.path, "weave"), part_of(band),
            f"From its first round to its last the stakes spread {spread:.2f} times; a French rand opens on such a flare.",
            (f"use it only for the first {_rounds_within(context, band)} rounds", "rand or slew the flare", "wale it"),
        )  # fmt: skip


def _rounds_within(context: Context, band: WovenBand) -> int:
    limit = context.setting("french_rand_spread") * band.rounds[0].spacing_mm
    return sum(found.spacing_mm <= limit for found in band.rounds)


_FEWEST_TWISTING = 3  # a round or two that bind the slath pull nothing about; common practice, no source


def oval_pairs_both_ways(context: Context) -> Iterator[Finding]:
    """Pairing pulls one way round; on an oval base worked one way only it twists the base out of flat."""
    base = context.basket.base
    if not isinstance(base.spec, OvalSlath):
        return
    twined = [band for band in base.bands if band.spec.weave.twined]
    rounds = sum(len(band.rounds) for band in twined)
    ways = {band.spec.reversed for band in twined}
    if rounds < _FEWEST_TWISTING or len(ways) == 2:
        return
    half = rounds // 2
    yield Finding(
        (*twined[-1].spec.path, "weave"), part_of(twined[-1]),
        f"All {rounds} rounds of pairing on this oval base go one way: the base will twist.",
        (f"reverse {half} of the {rounds} rounds (a band with reversed: yes)", "chase the base"),
    )  # fmt: skip
