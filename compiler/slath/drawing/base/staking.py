"""Where every stake goes: the base edge with its stick ends, the stakes beside them, their numbers and the start."""

from __future__ import annotations

from collections import Counter

import numpy as np

from slath.basket.model import Basket, Curve, Stake
from slath.basket.stakes import stake_depth as depth_of_stakes
from slath.drawing.base.board_holes import board_hole, cut_hole
from slath.drawing.base.course import BaseCourse
from slath.drawing.base.plan import stick_rods as flat_sticks
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers, eased, left_normals, travelled
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.clear import counted_off, disc_spot, text_spot
from slath.drawing.plate.lettering import POINT_MM
from slath.drawing.plate.plans import Plan, curve_points, fitting_ratio, seen_from_below
from slath.drawing.plate.plate import Plate, along_curve
from slath.drawing.scene import Scene
from slath.language.pattern import Board
from slath.messages import Length, Listed, Message, message
from slath.messages.values import Numbers as ByNumber
from slath.units.colour import with_lightness

_OUTSIDE = 17.0  # mm of stake drawn beyond the edge, on the page
_THINNEST = 1.25  # mm on the page, or a stake would be all edge


def draw_staking(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """The staking plan."""
    base = basket.base
    outline, em = base.spec.outline, options.text_pt * POINT_MM
    around = min(_OUTSIDE, 0.14 * options.width_mm) + 1.6 * em
    room = options.width_mm - 2 * around
    ratio = fitting_ratio(outline.length_mm, outline.width_mm, room, options.tallest_mm - 2 * around)
    tall = outline.width_mm / ratio
    plate = Plate(options.width_mm, tall + 2 * around + 5.2 * em, options)
    plan = Plan(plate.width / 2, around + 1.6 * em + tall / 2, ratio, below=seen_from_below(base))
    reach = around - 1.75 * em  # of it a disc and the gap before it
    if base.holes:
        _in_holes(plate, plan, basket, clothes)
    else:
        _beside_ends(plate, plan, basket, clothes, reach)
    _numbers(plate, plan, basket, reach)
    _notes(plate, plan, basket)
    return plate.scene(
        "staking-plan",
        message("figure-base.staking-title"),
        _words(basket, plan, options),
        seen_from=plan.view,
        caption=message(
            "captions.where-each-of-the-goes",
            count=len(basket.standing),
            view=plan.view,
            scale=plan.scale_said,
        ),
        data={"scale": plan.scale, "places": [(stake.number, stake.u) for stake in basket.stakes]},
    )


def stake_depth(basket: Basket) -> float:
    """How deep stakes go into the base, mm."""
    return depth_of_stakes(basket.base, basket.pattern).value


def _line_of(basket: Basket) -> Curve:
    return basket.base.hole_line or basket.base.edge


# ---------------------------------------------------------------------------------------------------------- a slath
def _beside_ends(plate: Plate, plan: Plan, basket: Basket, clothes: Wardrobe, reach: float) -> None:
    base, pattern = basket.base, basket.pattern
    edge = plan.at(curve_points(base.edge))
    plate.outline(edge, stroke=plate.quiet, width=0.3, fill="#f7f3ea")
    if base.slath is None:
        if base.sticks:
            width = max(pattern.materials[stick.material].width_mm for stick in base.sticks)
            plate.rods(flat_sticks(plan, base.sticks, width, clothes), Brush(gap=0.2, edge=0.24), name="sticks")
        _standing(plate, plan, basket, clothes, reach, None)
        return
    widths = [pattern.materials[stick.material].width_mm for stick in base.sticks]
    course = BaseCourse(base, max(widths), 2.5)
    _weave_hint(plate, plan, course)
    rods = []
    inner = max(course.room - max(stake_depth(basket) + 8.0, 0.5 * course.room), 0.3 * course.room)
    numbers: list[tuple[float, float, str]] = []
    for index, end in enumerate(base.ends):
        ways = np.linspace(inner, course.room + 3.0, 24)
        line = plan.at(course.end_at(index, ways))
        rods.append(Rod(np.column_stack([line, np.zeros(len(line))]), max(0.95 * course.stick * plan.scale, 1.5), clothes.sticks,
                        (False, True), name=f"end {end.number}"))  # fmt: skip
        x, y = plan.at(course.end_at(index, np.array([0.5 * (inner + course.room)])))[0].tolist()
        numbers.append((x, y, str(end.number)))
    plate.rods(rods, Brush(gap=0.2, edge=0.24), name="sticks")
    _standing(plate, plan, basket, clothes, reach, course)
    spots = [text_spot(x, y, number, plate.options.text_pt, bold=True) for x, y, number in numbers]
    for place in counted_off(spots):
        x, y, number = numbers[place]
        plate.text(x, y, number, bold=True)


def _weave_hint(plate: Plate, plan: Plan, course: BaseCourse) -> None:
    """Pale rings for the woven base the stakes are pushed into."""
    rings = []
    for share in (0.45, 0.58, 0.71, 0.84, 0.95):
        line = np.array([course.ring(step / 120, share * course.room) for step in range(121)])
        rings.append(plan.at(line))
    plate.lines(rings, 0.25, "#d8cfbe")


def _standing(
    plate: Plate, plan: Plan, basket: Basket, clothes: Wardrobe, reach: float, course: BaseCourse | None
) -> None:
    """Each stake: its hidden part dashed, from its tip beside the stick end to the edge, and standing out beyond."""
    pattern = basket.pattern
    pale = with_lightness(clothes.stakes.tones.body, 93, 0.4)
    rods: list[Rod] = []
    hidden: list[Numbers] = []
    for index, stake in enumerate(basket.stakes):
        width = max(pattern.materials[stake.material].width_mm * plan.scale, _THINNEST)
        if course is not None and stake.kind != "through" and stake_depth(basket) > 0:
            hidden.append(_outlined(_hidden_line(plan, basket, stake, course), width))
        outer = _edge_and_out(plan, basket, stake, reach)
        points = np.column_stack([outer, np.full(len(outer), 3.0)])
        rods.append(Rod(points, width, clothes.upright(index), (False, True), name=f"{stake.kind} {stake.number}"))
    plate.areas(hidden, pale, plate.ink, 0.25, dash=(0.9, 0.6))
    plate.rods(rods, Brush(gap=0.0, edge=0.22, rings=4.0), name="stakes")


def _edge_and_out(plan: Plan, basket: Basket, stake: Stake, reach: float) -> Numbers:
    """Page points where a stake leaves the edge and where its drawn part ends."""
    edge = basket.base.edge
    nx, ny = edge.normal(stake.u)
    at_edge = np.array(plan.one(edge.point(stake.u)))
    return np.array([at_edge, at_edge + np.array([nx, -ny if plan.below else ny]) * reach])


def _hidden_line(plan: Plan, basket: Basket, stake: Stake, course: BaseCourse) -> Numbers:
    """Page points of the part in the base: from its tip beside the stick end, along it, to its own place at the edge."""
    depth = min(stake_depth(basket), 0.92 * course.room)
    edge = np.array(basket.base.edge.point(stake.u))
    if stake.end is None:
        away = np.array(basket.base.edge.normal(stake.u))
        return plan.at(np.array([edge - away * depth, edge]))
    ways = np.linspace(course.room - depth, course.room, 10)
    line = course.end_at(stake.end - 1, ways)
    mine = [other.number for other in basket.stakes if other.end == stake.end and other.kind != "bye-stake"]
    width = basket.pattern.materials[stake.material].width_mm
    beside = left_normals(line) * _side_of(stake, mine) * (course.stick + width) / 2
    veer = eased(ways, ways[0], ways[-1])[:, None]
    return plan.at(line + beside * (1 - veer) + (edge - line[-1]) * veer)


def _side_of(stake: Stake, mine: list[int]) -> float:
    """Which side of its stick end a stake goes: -1 and +1 for two, a single one to the right of it."""
    if stake.number not in mine or len(mine) == 1:
        return 1.0
    place = mine.index(stake.number)
    return -1.0 if place < len(mine) / 2 else 1.0


def _outlined(line: Numbers, width: float) -> Numbers:
    """A strip `width` wide about a line, pointed at its start."""
    half = np.minimum(travelled(line) / 4.0, width / 2)
    return np.vstack([along_curve(line, half[:, None]), along_curve(line, -half[:, None])[::-1]])


# ---------------------------------------------------------------------------------------------------------- a board
def _in_holes(plate: Plate, plan: Plan, basket: Basket, clothes: Wardrobe) -> None:
    base = basket.base
    line = _line_of(basket)
    plate.outline(plan.at(curve_points(base.edge)), width=0.45, fill=clothes.wood.tones.highlight)
    plate.outline(plan.at(curve_points(line)), width=0.25, dash=(1.4, 0.8), stroke=plate.quiet)
    hole = board_hole(basket)
    size = max(hole.along_mm * plan.scale, 1.4), max(hole.across_mm * plan.scale, 1.4)
    for index, stake in enumerate(basket.stakes):
        fill = clothes.upright(index).tones.body
        cut_hole(plate, plan.one(line.point(stake.u)), line.normal(stake.u), size, fill, 0.4)


# ------------------------------------------------------------------------------------------------------------- words
def _numbers(plate: Plate, plan: Plan, basket: Basket, reach: float) -> None:
    line = _line_of(basket)
    em = plate.em
    inset = basket.base.spec.inset_mm * plan.scale if isinstance(basket.base.spec, Board) else 0.0
    away = (inset if basket.base.holes else reach) + 1.0 * em
    turn, size = -1.0 if plan.below else 1.0, plate.options.text_pt
    spots = []
    for stake in basket.standing:
        (x, y), (nx, ny) = plan.one(line.point(stake.u)), line.normal(stake.u)
        place = x + nx * away, y + turn * ny * away
        first = stake.number == 1
        spots.append(disc_spot(*place, "1", size) if first else text_spot(*place, str(stake.number), size))
    for number in counted_off(spots):
        spot = spots[number]
        if spot.words == "1":
            plate.disc(spot.x, spot.y, "1", moved=True)
        else:
            plate.text(spot.x, spot.y, spot.words)


def _notes(plate: Plate, plan: Plan, basket: Basket) -> None:
    em, stakes = plate.em, basket.pattern.stakes
    top = plate.height - 0.9 * em
    plate.text(0.4, top, plate.say(message("figure.seen-from", view=plan.view)), "start", italic=True)
    way = plan.way_round(plate.options)
    numbered = message("figure-base.numbered", count=len(basket.standing), way=way)
    plate.text(plate.width - 0.4, top, plate.say(numbered), "end")
    if basket.base.holes:
        below = message("figure-base.in-holes", two=_two_holes(basket), slot=board_hole(basket).is_slot)
        if stakes and stakes.below_mm:
            below = message("figure-base.below-board", below=Length(stakes.below_mm))
        plate.text(0.4, 0.9 * em, plate.say(below), "start")
    elif any(stake.kind == "stake" for stake in basket.stakes):
        beside = any(stake.end is not None for stake in basket.stakes)
        deep = message("figure-base.deep", deep=Length(stake_depth(basket)), ends=beside)
        plate.text(0.4, 0.9 * em, plate.say(deep), "start")
    plate.text(plate.width - 0.4, 0.9 * em, plate.say(plan.scale_said), "end", colour=plate.quiet)


def _two_holes(basket: Basket) -> bool:
    """Whether a stake goes down one hole and up the next."""
    return basket.pattern.stakes is not None and basket.pattern.stakes.holes_each == 2


def _words(basket: Basket, plan: Plan, options: Options) -> Message:
    count, way = len(basket.standing), plan.way_round(options)
    said = [message("figure-base.staking-seen", view=plan.view, way=way, count=count)]
    if basket.base.holes:
        said.append(message("figure-base.at-holes", two=_two_holes(basket), slot=board_hole(basket).is_slot))
        return message("figure.sentences", all=Listed(tuple(said)))
    posts = tuple(item.number for item in basket.standing if item.kind == "post")
    if posts:
        said.append(message("figure-base.posts", posts=ByNumber(posts)))
    by_end: dict[int, list[int]] = {end.number: [] for end in basket.base.ends}
    for item in basket.stakes:
        if item.end is not None and item.kind != "bye-stake":
            by_end[item.end].append(item.number)
    if any(item.kind == "through" for item in basket.stakes):
        said.append(message("figure-base.through", flat=basket.profile is None))
    elif any(by_end.values()):
        said += _at_ends({end: len(numbers) for end, numbers in by_end.items()}, basket)
    elif count:
        said.append(message("figure-base.evenly"))
    if count < len(basket.stakes):
        said.append(message("figure-base.set-afterwards"))
    first = tuple(by_end.get(1, ()))
    if first:
        said.append(message("figure-base.first-stake", count=len(first), numbers=ByNumber(first), mark=first[0]))
    return message("figure.sentences", all=Listed(tuple(said)))


def _at_ends(at_ends: dict[int, int], basket: Basket) -> list[Message]:
    """How many stakes go in at most stick ends, and the ends where it is another number."""
    shares = Counter(at_ends.values())
    usual = max(shares, key=lambda share: (shares[share], share))
    deep = Length(stake_depth(basket))
    odd = {
        share: tuple(end for end, here in at_ends.items() if here == share)
        for share in sorted(shares)
        if share != usual
    }
    others = ByNumber(tuple(sorted(end for ends in odd.values() for end in ends)))
    if usual == 1:
        said = [message("figure-base.push-one", others=others, deep=deep)]
    elif usual == 2:
        said = [message("figure-base.push-two", others=others, deep=deep)]
    else:
        said = [message("figure-base.push-several", count=usual, others=others, deep=deep)]
    for share, ends in odd.items():
        said.append(
            message(
                "figure-base.push-other",
                ends=ByNumber(ends),
                share=share,
                fewer=share < usual,
                several=len(ends) > 1 and share > 0,
            )
        )
    return said
