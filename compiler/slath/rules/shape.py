"""Shape: whether whole rounds come to the heights and sizes asked for, and whether the side can take its flare."""

from __future__ import annotations

import math
from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Round, WovenBand
from slath.basket.outline import curve_of
from slath.basket.weave import follows
from slath.language.pattern import OvalSlath, RoundSlath
from slath.messages.told import Figure, Spoken, told
from slath.rules.finding import Context, Finding, part_of
from slath.rules.recount import interlocks

_HAIR = 1e-6
_FAR_MORE = 1.1  # times the flare from base to rim: another place of the side is then the one to mend
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
            (*band.spec.path, "height" if band.spec.extent.height_mm is not None else "size"),
            part_of(band),
            told(
                "{rounds#{rounds:words} whole round comes|{rounds:words} whole rounds come} to {reached}, {missed} {more?more|less} than the {asked} asked for.",
                rounds=rounds,
                reached=context.measure(band.reached_mm),
                missed=context.measure(abs(missed)),
                more=missed > 0,
                asked=context.measure(band.asked_mm),
            ),
            (
                told("ask for {reached}", reached=context.measure(band.reached_mm)),
                _next_round(context, rounds, pitch, more=missed < 0),
                told("keep the height and pack the rounds to it (keep: height)"),
            ),
        )


def _next_round(context: Context, rounds: int, pitch: float, *, more: bool) -> Spoken:
    number = rounds + 1 if more else max(rounds - 1, 1)
    return told(
        "give it {number#{number:words} round|{number:words} rounds}: {number2}",
        number=number,
        number2=context.measure(number * pitch),
    )


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
    remedies = [told("say height: {height}", height=context.measure(profile.height_mm))]
    if rounds and len(last.rounds) + rounds > 0:
        remedies.append(
            told(
                "give {last} {rounds#{rounds:words} round|{rounds:words} rounds} in place of {rounds2}",
                last=last.name,
                rounds=len(last.rounds) + rounds,
                rounds2=len(last.rounds),
            )
        )
    if all(band.spec.extent.to is None for band in context.on_stakes):
        remedies.append(told("let one band go to the top (to: top)"))
    yield Finding(
        (*side.path, "height"),
        "side",
        told(
            "The bands stand {height} high, {missed} {more?more|less} than the {height2} the side is to have.",
            height=context.measure(profile.height_mm),
            missed=context.measure(abs(missed)),
            more=missed > 0,
            height2=context.measure(side.height_mm),
        ),
        tuple(remedies),
    )


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
        (*side.path, "rim"),
        "side",
        told(
            "The bands bring the rim to {outline}; {rim} is asked for.",
            outline=context.across(made.outline),
            rim=context.across(side.rim),
        ),
        (told("let the last band end at the rim's outline (ends_at)"), told("leave the rim out; the bands make it")),
    )


def profile_followed(context: Context) -> Iterator[Finding]:
    """A profile shapes a side whose bands say nothing of their ends, and its heights are those of the side."""
    side, profile = context.sized.side, context.basket.profile
    if side is None or profile is None or (side.profile == "straight" and not side.belly_mm):
        return
    path = (*side.path, "profile")
    ended = [band for band in context.on_stakes if band.spec.ends_at]
    if ended:
        yield Finding(
            path,
            "side",
            told(
                "The bands say where they end ({ended}), and that alone shapes the side: its profile is not followed.",
                ended=ended[0].name,
            ),
            (told("take the profile out"), told("take ends_at out of the bands")),
        )
    elif side.profile == "points" and side.points and side.height_mm is None:
        top = side.points[-1].height_mm
        if abs(profile.height_mm - top) <= context.setting("height_miss") * top:
            return
        yield Finding(
            path,
            "side",
            told(
                "The profile is {top} high, the bands stand {height}: its heights are stretched to theirs.",
                top=context.measure(top),
                height=context.measure(profile.height_mm),
            ),
            (
                told("say height: {top}, and let a band go to the top", top=context.measure(top)),
                told("give the profile the heights of the bands"),
            ),
        )


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
        (*base.spec.path, key),
        "base",
        told(
            "The rounds of the base come to {reached} across; {asked} is asked for.",
            reached=context.measure(base.reached_mm),
            asked=context.measure(asked),
        ),
        (
            *(
                (
                    told(
                        "give {last} {wanted#{wanted:words} round|{wanted:words} rounds} in place of {rounds:words}",
                        last=last.name,
                        wanted=wanted,
                        rounds=len(last.rounds),
                    ),
                )
                if wanted > 0
                else ()
            ),
            told("say {key}: {reached}", key=key, reached=context.measure(base.reached_mm)),
            told("let the last band go to the edge (to: edge)"),
        ),
    )


def flare_gentle(context: Context) -> Iterator[Finding]:
    """Stakes that spread too much toward the rim leave weaving that slips; more stakes or less flare hold it."""
    basket, limit = context.basket, context.setting("flare_limit")
    if basket.profile is None or not basket.base_spacing_mm or not basket.rim_spacing_mm:
        return
    ratio = basket.rim_spacing_mm / basket.base_spacing_mm
    spread = _widest_spread(context)
    if ratio <= limit * (1 + _HAIR) or (spread is not None and spread.ratio > ratio * _FAR_MORE):
        yield from _flare_above_neck(context, limit, spread)
        return
    side = context.sized.side
    most = basket.base.edge.perimeter * limit * basket.rim_uprights / basket.working
    share = most / basket.rim.perimeter
    rim = basket.rim.outline
    drawn_in = replace(rim, length_mm=rim.length_mm * share, width_mm=rim.width_mm * share)
    need = math.ceil(basket.rim.perimeter / (limit * basket.base_spacing_mm) - _HAIR)
    count = next((count for count in range(need, need + _FURTHER) if _top_holds(context, count)), None)
    more = (
        (
            told(
                "add {count#{count:words} stake|{count:words} stakes} part-way up ({count2} at the rim)",
                count=count - basket.rim_uprights,
                count2=count,
            ),
        )
        if count is not None
        else ()
    )
    yield Finding(
        (*side.path, "rim") if side else (),
        "side",
        told(
            "Stakes stand {base_spacing} apart at the base and {rim_spacing} at the rim, {ratio} times as far; above {limit} the weaving slips.",
            base_spacing=context.measure(basket.base_spacing_mm),
            rim_spacing=context.measure(basket.rim_spacing_mm),
            ratio=Figure(f"{ratio:.2f}"),
            limit=Figure(f"{limit:g}"),
        ),
        (
            told("bring the rim in to {drawn_in}", drawn_in=context.across(drawn_in, "down")),
            *more,
        ),
    )


def _top_holds(context: Context, count: int) -> bool:
    """Whether the last band of the side and the border can be worked on `count` uprights."""
    last, border = context.on_stakes[-1], context.basket.border
    size = last.spec.groups if isinstance(last.spec.groups, int) else 1
    holding = count % size == 0 and interlocks(last, count // size) and follows(last.spec.weave, count // size)
    together = max(border.spec.plait.group if border.spec.plait else border.spec.groups, 1) if border else 1
    return holding and count % together == 0


class _Spread(Struct, frozen=True):
    """Where stakes stand closest below the place where they stand widest for it: spacing in mm, and the rounds."""

    close: float
    neck: Round
    wide: float
    widest: Round
    from_first: bool

    @property
    def ratio(self) -> float:
        """How many times as far apart."""
        return self.wide / self.close


def _widest_spread(context: Context) -> _Spread | None:
    """The strongest flare anywhere up a side, whether it draws in before it spreads, or after."""
    # Stakes taken together stand no further apart for it: the spacing is told of single ones.
    places = [
        (each.perimeter_mm / sum(band.group_sizes), each)
        for band in context.on_stakes
        for each in band.rounds
        if sum(band.group_sizes)
    ]
    if not places:
        return None
    upwards = sorted(places, key=lambda place: place[1].along_mm)
    necks: list[tuple[float, Round]] = []  # the closest so far, at each place
    for place in upwards:
        necks.append(min([*necks[-1:], place], key=lambda found: found[0]))
    (close, neck), (wide, widest) = max(zip(necks, upwards, strict=True), key=lambda pair: pair[1][0] / pair[0][0])
    return _Spread(close, neck, wide, widest, neck is upwards[0][1])


def _flare_above_neck(context: Context, limit: float, spread: _Spread | None) -> Iterator[Finding]:
    """A side is flared from the narrowest place below its widest."""
    if spread is None or spread.ratio <= limit * (1 + _HAIR):
        return
    ratio, wide, close, widest, neck = spread.ratio, spread.wide, spread.close, spread.widest, spread.neck
    side = context.sized.side
    most = widest.perimeter_mm / limit / math.pi
    if spread.from_first:
        where = told("in the first round, and {wide} where the side is widest", wide=context.measure(wide))
        less = told(
            "bring the widest place in to {perimeter} across",
            perimeter=context.at_most(widest.perimeter_mm * limit / ratio / math.pi),
        )
    else:
        where = told(
            "where the side is narrowest, {height} up, and {wide} above it",
            height=context.measure(neck.height_mm),
            wide=context.measure(wide),
        )
        less = told("leave the neck {most} across or more", most=context.at_least(most))
    yield Finding(
        (*side.path, "profile") if side else (),
        "side",
        told(
            "Stakes stand {close} apart {where}, {ratio} times as far; above {limit} the weaving slips.",
            close=context.measure(close),
            where=where,
            ratio=Figure(f"{ratio:.2f}"),
            limit=Figure(f"{limit:g}"),
        ),
        (
            less,
            told("add stakes part-way up (add_stakes)")
            if spread.from_first
            else told("add stakes above the neck (add_stakes)"),
        ),
    )


def french_rand_flare(context: Context) -> Iterator[Finding]:
    """The rods of a French rand lie in one spiral each and open where the stakes spread under them."""
    for band in context.bands:
        if band.spec.weave.kind != "french rand" or len(band.rounds) < 2:
            continue
        spread = band.rounds[-1].spacing_mm / band.rounds[0].spacing_mm
        if spread <= context.setting("french_rand_spread"):
            continue
        yield Finding(
            (*band.spec.path, "weave"),
            part_of(band),
            told(
                "From its first round to its last the stakes spread {spread} times; a French rand opens on such a flare.",
                spread=Figure(f"{spread:.2f}"),
            ),
            (
                told("use it only for the first {rounds_within} rounds", rounds_within=_rounds_within(context, band)),
                told("rand or slew the flare"),
                told("wale it"),
            ),
        )


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
        (*twined[-1].spec.path, "weave"),
        part_of(twined[-1]),
        told("All {rounds} rounds of pairing on this oval base go one way: the base will twist.", rounds=rounds),
        (
            told("reverse {half} of the {rounds} rounds (a band with reversed: yes)", half=half, rounds=rounds),
            told("chase the base"),
        ),
    )
