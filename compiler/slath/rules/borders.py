"""Borders: whether they close on the stakes there are, and whether the stakes are long enough for them."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.border_ends import foot_ends, makes
from slath.basket.border_path import legs_of, unheld
from slath.basket.gathering import gathered_of, inwards_mm, rise_mm
from slath.basket.model import WorkedBorder
from slath.messages.told import Spoken, told
from slath.rules.finding import Context, Finding
from slath.rules.recount import at_least, multiple_of, ways_to

_HAIR_MM = 0.5


def worked_borders(context: Context) -> Iterator[tuple[str, WorkedBorder]]:
    """Every border of the basket with its part's name."""
    basket = context.basket
    if basket.border:
        yield "border", basket.border
    if basket.foot:
        yield told("foot border"), basket.foot


def border_closes(context: Context) -> Iterator[Finding]:
    """A border that reaches round to its own beginning meets itself and cannot be finished."""
    for part, border in worked_borders(context):
        if border.why_not is None:
            continue
        least = border.smallest_count
        ways = ways_to(context, at_least(least)) if part == "border" else ()
        yield Finding(
            border.spec.path,
            part,
            told("{reason}.", reason=border.why_not.begun()),
            (
                *(ways or ((told("use at least {least} uprights", least=least),) if least > border.count else ())),
                told("shorten its passes (fewer stakes behind or before)"),
            )[:3],
        )


def border_ends_held(context: Context) -> Iterator[Finding]:
    """Every end a border leaves is held: between stakes, in the weaving, or under the ends laid after it."""
    for part, border in worked_borders(context):
        if not border.passes or border.spec.plait is not None or not unheld(border.spec, legs_of(border.spec)):
            continue
        last = border.passes[-1]
        where = told("inside") if (last.visits[-1].face == "behind") != border.spec.from_inside else told("outside")
        other = "out" if last.visits[-1].face == "behind" else "in"
        over = ", ".join(f"over {move.count}" for move in last.spec.moves if move.count)
        ways: tuple[Spoken, ...] = (
            told("end the row with {other}", other=other),
            told("end it with down, into the weaving"),
        )
        if last.number > 1:
            ways = (
                ways[0],
                told("roll the ends over each other: [{over}, down]", over=over),
                told("leave the row out, if the one before it holds"),
            )
        yield Finding(
            last.spec.path,
            part,
            told(
                "Nothing holds the ends: in row {last_number} they only lie {where} along the others, and the first pull brings them up.",
                last_number=last.number,
                where=where,
            ),
            ways,
        )


def laid_in_rolls(context: Context) -> Iterator[Finding]:
    """Short stakes are laid into ends that are rolled; nothing else would hold them."""
    border = context.basket.border
    if border is None or border.spec.laid_in is None or not border.passes or border.passes[-1].ending == "rolled":
        return
    yield Finding(
        border.spec.laid_in.path,
        "border",
        told("Short stakes are laid into a roll, and the last row of this border is none."),
        (told("end the border with a roll: [over 1, down]"), told("take laid_in out")),
    )


def foot_ends_reach(context: Context) -> Iterator[Finding]:
    """Ends that go down through the wall make a foot only if they come out below it."""
    basket = context.basket
    if foot_ends(basket) != "after the border" or basket.profile is None or basket.border is None:
        return
    last = basket.border.passes[-1].spec
    depth, wall = last.depth_mm or 0.0, basket.profile.along_mm
    if depth >= wall - _HAIR_MM:
        return
    yield Finding(
        (*last.path, "depth"),
        told("foot border"),
        told(
            "The ends go {depth} down, and the wall is {wall} from rim to base: they do not come out below, and there is nothing to make the foot of.",
            depth=context.measure(depth),
            wall=context.measure(wall),
        ),
        (
            told("let the ends go {wall} down (depth)", wall=context.at_least(wall)),
            told("give the foot short stakes of its own (stakes)"),
        ),
    )


def tails_have_meaning(context: Context) -> Iterator[Finding]:
    """A tail is what an end lies past the stake it rests on; an end that goes down into the weaving has none."""
    for part, border in worked_borders(context):
        last = border.passes[-1] if border.passes else None
        if border.spec.tail_mm is None or last is None or last.ending != "down" or last.spec.comes_out:
            continue
        yield Finding(
            (*border.spec.path, "tail"),
            part,
            told("The ends go down into the weaving, so that there is no tail to leave: this length changes nothing."),
            (told("take the tail out"), told("say how far the ends go down (depth)")),
        )


def side_is_closed(context: Context) -> Iterator[Finding]:
    """Something must hold the last round: a border, or the stakes drawn together over it."""
    side = context.sized.side
    if side is None or context.sized.border is not None or side.gathered is not None or not context.basket.stakes:
        return
    yield Finding(
        side.path,
        "side",
        told("There is no border: nothing holds the last round, and nothing says what becomes of the stakes' ends."),
        (
            told("add border: and its passes, or its name"),
            told("draw the stakes together over the weaving and bind them (gathered, under side)"),
        ),
    )


def gathered_meet(context: Context) -> Iterator[Finding]:
    """Stakes that are drawn together must reach the middle, and cannot make a border as well."""
    basket, spec = context.basket, gathered_of(context.basket)
    if spec is None:
        return
    if basket.border is not None:
        yield Finding(
            spec.path,
            "side",
            told("The stakes are worked into a border, and drawn together over the weaving as well."),
            (told("leave the border out"), told("leave gathered out")),
        )
    if rise_mm(basket, spec) is None:
        inwards = inwards_mm(basket)
        yield Finding(
            (*spec.path, "above"),
            "side",
            told(
                "Bound {above} above the weaving the stakes do not meet: from the rim to the middle they come in {inwards}.",
                above=context.measure(spec.above_mm),
                inwards=context.measure(inwards),
            ),
            (
                told("bind them {inwards} above the weaving or more", inwards=context.measure(1.2 * inwards)),
                told("draw the rim in"),
            ),
        )


def border_fills_groups(context: Context) -> Iterator[Finding]:
    """A border worked on groups takes up every upright, or one group comes short and leaves a gap."""
    basket = context.basket
    for part, border, uprights in (
        ("border", basket.border, basket.rim_uprights),
        (told("foot border"), basket.foot, basket.working),
    ):
        if border is None:
            continue
        size = border.spec.plait.group if border.spec.plait else border.spec.groups
        left = uprights % size if size > 1 else 0
        if not left:
            continue
        yield Finding(
            (*border.spec.path, "group" if border.spec.plait else "worked"),
            part,
            told(
                "{uprights} uprights taken {size:words} at a time leave {left:words} over.",
                uprights=uprights,
                size=size,
                left=left,
            ),
            (
                *_already_together(context, border, size),
                *ways_to(context, multiple_of(size)),
                told("work them singly") if size > 2 or uprights % 3 else told("take them three at a time"),
            ),
        )


def _already_together(context: Context, border: WorkedBorder, size: int) -> tuple[Spoken, ...]:
    """Stakes that are woven in twos are in twos at the border without another word."""
    stakes = context.sized.stakes
    if stakes is None or stakes.worked_as != size or border.spec.plait is not None:
        return ()
    return (told("take worked out of the border: the stakes are worked {size:words} together already", size=size),)


def border_passes_in_order(context: Context) -> Iterator[Finding]:
    """An end can go under a pass only when that pass has been worked."""
    for part, border in worked_borders(context):
        for number, spec in enumerate(border.spec.passes, start=1):
            if spec.under is None or 1 <= spec.under < number:
                continue
            yield Finding(
                (*spec.path, "under"),
                part,
                told(
                    "Pass {number} goes under pass {under}, which is not worked yet.", number=number, under=spec.under
                ),
                (told("name {earlier}", earlier=_earlier(number)),)
                if number > 1
                else (told("the first pass goes under none; take it out"),),
            )


def _earlier(number: int) -> Spoken:
    return told("pass 1") if number == 2 else told("a pass from 1 to {number}", number=number - 1)


def ends_used_once(context: Context) -> Iterator[Finding]:
    """An end that comes down from the rim to make the foot cannot be worked into the border as well."""
    basket = context.basket
    border, foot = basket.border, basket.foot
    if border is None or foot is None or foot_ends(basket) != "from the rim":
        return
    both = [stake for stake in basket.stakes if makes(border, stake) and makes(foot, stake)]
    if not both:
        return
    all_of_them = len(both) == len(basket.stakes)
    yield Finding(
        foot.spec.path,
        told("foot border"),
        told(
            "The foot is made of ends that come down from the rim, and the border above of {all_of_them?the same|some of the same}.",
            all_of_them=all_of_them,
        ),
        (
            told("give the foot one half of each group and the border the other (of)"),
            told("give the foot short stakes of its own (stakes)"),
        ),
        ((border.spec.path, told("the border")),),
    )


def border_allowance_covers(context: Context) -> Iterator[Finding]:
    """The designer's allowance above the weaving against what the passes use up at this rim."""
    basket, list_ = context.basket, context.quantities
    for part, border, row in (("border", basket.border, list_.border), (told("foot border"), basket.foot, list_.foot)):
        if border is None or row is None or row.given_mm is None:
            continue
        need, given = row.needed_mm.value, row.given_mm
        if given >= need - 0.5:
            continue
        yield Finding(
            (*border.spec.path, "allowance"),
            part,
            told(
                "{given} of stake is allowed for the border; at {spacing} spacing it takes {need}, {need2} more.",
                given=context.measure(given),
                spacing=context.measure(border.spacing_mm),
                need=context.measure(need),
                need2=context.measure(need - given),
            ),
            (
                told("allow {need}", need=context.at_least(need)),
                told("leave the allowance out: it is worked out for every size"),
            ),
        )
