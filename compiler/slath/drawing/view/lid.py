"""The lid of the finished basket: open at its hinges, or leaning against the side; with what it is lifted and shut by."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket, ConstructedLid
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.wardrobe import Wardrobe, wardrobe
from slath.drawing.plate.plans import curve_points
from slath.drawing.view.body import body, side_surface
from slath.drawing.view.in_space import OVER, Eye, Placement, SpaceRod
from slath.drawing.view.surface import Surface
from slath.drawing.view.wall import stake_mm
from slath.drawing.view.windings import ball, coil, course_of, ring, twisted
from slath.drawing.wall.profile_ends import border_high
from slath.language.pattern import Fastening

_OPEN = 98.0  # degrees a lid stands open on its hinges
_SLACK = 0.4  # of what lies beyond the hinges by which their turns let it move out
_STEEP = 68.0  # degrees to the table at which one leans, or less where the side is too low to hold it so
_FRONT = 34.0  # degrees from the right towards the eye where it leans
_TOP_LIGHT, _INNER_LIGHT = -0.03, -0.16
_APART = 0.06  # of a turn of the rim between hinges whose places are not given


class SetLid(Struct, frozen=True):
    """A lid where it is shown: its rods, the eye that sees it best, and its shadow (n, 2) if it stands on the table."""

    rods: list[SpaceRod]
    eye: Eye
    shadow: Numbers | None


class _Work(Struct, frozen=True):
    """A lid and its basket with all they are drawn from."""

    basket: Basket
    lid: ConstructedLid
    clothes: Wardrobe
    surface: Surface
    own: list[SpaceRod]  # the lid as it lies closed, its edge at z = 0
    eye: Eye

    @property
    def top(self) -> float:
        """The height at which a lid rests on the border, pressed down by its own weight."""
        height = self.basket.profile.height_mm if self.basket.profile else 0.0
        return height + 0.7 * border_high(self.basket)


def set_lid(basket: Basket, eye: Eye) -> SetLid | None:
    """The lid of a basket where it is shown; None without one."""
    lid = basket.lid
    if lid is None:
        return None
    clothes = wardrobe(lid.basket)
    hinged = lid.spec.hinge is not None
    own = list(OVER.rods(body(lid.basket, clothes, _INNER_LIGHT if hinged else _TOP_LIGHT)))
    lowest = min(float(rod.points[:, 2].min()) for rod in own)
    lay = Placement(np.eye(3), np.array([0.0, 0.0, -lowest]))
    work = _Work(basket, lid, wardrobe(basket), side_surface(basket), list(lay.rods(own)), eye)
    work.own.extend(_lifted_by(work))
    return _opened(work) if hinged else _leant(work)


def _look(work: _Work, key: str) -> Dress:
    return replace(work.clothes.of(key), marks="none")


# --------------------------------------------------------------------------------------------------------------- open
def _opened(work: _Work) -> SetLid:
    """Standing open at the back, turned about the edge where it is hung."""
    places = _hinge_places(work)
    hung = _rim_points(work, places)
    back = hung[:, :2].mean(axis=0)
    back /= np.linalg.norm(back) + 1e-9
    away = math.degrees(math.atan2(back[1], back[0]))
    eye = replace(work.eye, azimuth=work.eye.azimuth + 90.0 - away)
    ways = np.array([*back, 0.0]), np.array([-back[1], back[0], 0.0])
    closed = np.array([0.0, 0.0, work.top])
    edge = np.vstack([rod.points for rod in work.own])
    # A round lid turns about the line between its hinges; what lies beyond that line stays outside the wall.
    hinges, reach = float((hung @ ways[0]).mean()) + 0.5 * border_high(work.basket), float((edge @ ways[0]).max())
    pivot = ways[0] * (min(hinges, reach) + _SLACK * max(reach - hinges, 0.0)) + closed
    turn = _about(ways[1], math.radians(_OPEN))
    placed = Placement(turn, pivot + turn @ (closed - pivot))
    rods = [*placed.rods(work.own), *_lashed(work, places, ways[0]), *_fastened(work, placed, back)]
    return SetLid(rods, eye, None)


def _about(axis: Numbers, angle: float) -> Numbers:
    """The turn about a unit axis."""
    x, y, z = axis.tolist()
    c, s = math.cos(angle), math.sin(angle)
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(c * np.eye(3) + s * cross + (1 - c) * np.outer(axis, axis))


def _hinge_places(work: _Work) -> list[float]:
    """Fractions round the rim where it is hung: beside the stakes named, or either side of the back."""
    hinge = work.lid.spec.hinge
    if hinge is None:
        return []
    named = [stake.u for number in hinge.at for stake in work.basket.standing if stake.number == number]
    if named:
        return named
    return [0.25 + (place - (hinge.count - 1) / 2) * _APART * 2 for place in range(hinge.count)]


def _rim_points(work: _Work, places: list[float]) -> Numbers:
    return work.surface.at(np.array(places), np.full(len(places), work.surface.along), 0.0)[0]


def _lashed(work: _Work, places: list[float], back: Numbers) -> Iterator[SpaceRod]:
    """The turns of each hinge round the border and the edge of the lid beside it."""
    hinge = work.lid.spec.hinge
    if hinge is None:
        return
    turns = hinge.turns if hinge.turns is not None else round(work.basket.pattern.settings["hinge_turns"].value)
    stake = stake_mm(work.basket)
    strand = work.basket.pattern.materials[hinge.material].width_mm if hinge.material else stake
    look = _look(work, hinge.material) if hinge.material else work.clothes.stakes
    high = border_high(work.basket)
    for point in _rim_points(work, places):
        along = np.cross(back, np.array([0.0, 0.0, 1.0]))
        middle = point + back * 0.5 * high + np.array([0.0, 0.0, 0.75 * high])
        line = coil(middle, 0.85 * high + 1.2 * stake, along, -back, max(turns, 1), strand)
        yield SpaceRod(line, strand, look, name="hinge")


def _fastened(work: _Work, placed: Placement, back: Numbers) -> Iterator[SpaceRod]:
    """The loop that hangs from the front edge of an open lid, and the peg in it or the knob it goes over."""
    fastening = work.lid.spec.fastening
    if fastening is None:
        return
    basket = work.basket
    strand, look = basket.pattern.materials[fastening.material].width_mm, _look(work, fastening.material)
    across = fastening.across_mm if fastening.across_mm is not None else basket.pattern.settings.mm("knob")
    named = [stake.u for number in fastening.at for stake in basket.standing if stake.number == number]
    edge = np.vstack([rod.points for rod in work.own])
    for place in named or [_facing(work, back)]:
        out = work.surface.at(np.array([place]), np.full(1, work.surface.along), 0.0)
        front = np.array([*out[0][0][:2], 0.0]) / np.linalg.norm(out[0][0][:2])
        reach = float((edge @ front).max())
        long = 2 * border_high(basket) + 0.5 * across
        # It keeps the bend it has when the lid is shut: down in front of the rim.
        down = np.array([0.0, 0.0, -1.0])
        hangs = front * reach + np.linspace(0.0, long, 12)[:, None] * down
        loop = twisted(course_of(hangs, 0.6), 2, strand, 4 * strand)
        eye, pegged = hangs[-1] + 0.55 * across * down, fastening.kind == "loop and peg"
        loop.append(ring(eye, 0.55 * across, front if pegged else _level_across(front), down))
        yield from placed.rods(SpaceRod(line, strand, look, name="loop") for line in loop)
        if pegged:
            yield from placed.rods([_peg(work, fastening, eye + 0.4 * across * down, _level_across(front))])
        if fastening.kind == "loop and knob":
            low = work.surface.along - long
            spot, normal = work.surface.at(np.array([place]), np.array([low]), across / 2 + stake_mm(basket))
            for line in ball(spot[0], across, strand):
                yield SpaceRod(line, strand, look, np.repeat(normal, len(line), axis=0), name="knob")


def _peg(work: _Work, fastening: Fastening, middle: Numbers, along: Numbers) -> SpaceRod:
    """The peg through the loop, as long as it is cut."""
    key = fastening.peg or fastening.material
    half = work.basket.pattern.settings.mm("peg") / 2
    line = middle + np.linspace(-half, half, 9)[:, None] * along
    thick = work.basket.pattern.materials[key].thickness_mm
    return SpaceRod(line, thick, _look(work, key), ends=(True, True), name="peg")


def _facing(work: _Work, back: Numbers) -> float:
    """The place on the rim opposite the hinges."""
    rim = curve_points(work.basket.rim)
    return float((rim @ -back).argmax()) / len(rim)


def _level_across(front: Numbers) -> Numbers:
    return np.array([-front[1], front[0], 0.0])


# --------------------------------------------------------------------------------------------------------------- lean
def _leant(work: _Work) -> SetLid:
    """Its top outwards, its edge on the table, leaning against the side or on the rim."""
    across, right, away = math.radians(_FRONT), work.eye.right, work.eye.away
    out = right * math.cos(across) - away * math.sin(across)
    points = np.vstack([rod.points for rod in work.own])
    half = float(np.abs(points[:, 1]).max())
    slope = math.radians(min(_STEEP, math.degrees(math.asin(min(0.94, 1.8 * work.top / (2 * half))))))
    up = np.array([0.0, 0.0, 1.0])
    face = out * math.sin(slope) + up * math.cos(slope)
    rise = -out * math.cos(slope) + up * math.sin(slope)
    turn = np.column_stack([np.cross(rise, face), rise, face])
    turned = Placement(turn, np.zeros(3))
    placed = turned.points(points)
    sunk = float(placed[:, 2].min())
    ground = -max((rod.diameter for rod in work.own), default=0.0) / 2
    placed = placed - up * (sunk + ground)
    clear = _clear(work, placed, out)
    shift = out * clear - up * (sunk + ground)
    rods = list(Placement(turn, shift).rods(work.own))
    return SetLid(rods, work.eye, _shadow(work, turn, shift))


def _clear(work: _Work, placed: Numbers, out: Numbers) -> float:
    """How far outwards the lid has to be moved so that it touches the side and no part of it is inside."""
    profile = work.basket.profile
    high = profile.height_mm if profile else 0.0
    thick = 1.6 * stake_mm(work.basket)
    levels = np.linspace(0.0, high, 12)
    reach = []
    for level in levels.tolist():
        curve = profile.curve_at(level) if profile else work.basket.base.edge
        reach.append(float((curve_points(curve, 90) @ out[:2]).max()))
    low = placed[:, 2] <= work.top
    wall = np.interp(placed[low, 2], levels, np.array(reach)) + thick
    return float((wall - placed[low] @ out).max())


def _shadow(work: _Work, turn: Numbers, shift: Numbers) -> Numbers:
    edge = curve_points(work.lid.basket.rim, 90) * 1.04
    flat = np.column_stack([edge, np.zeros(len(edge))]) @ turn.T + shift
    light = work.eye.right * 0.30 + work.eye.away * 0.1  # mm along the table for each mm of height
    return np.asarray(flat[:, :2] + np.maximum(flat[:, 2:], 0.0) * light[:2])


# -------------------------------------------------------------------------------------------------------------- lifted
def _lifted_by(work: _Work) -> Iterator[SpaceRod]:
    """The knob or the ring in the middle of the lid, as it lies closed."""
    lid, materials = work.lid, work.basket.pattern.materials
    top = max(float(rod.points[:, 2].max()) + rod.diameter / 2 for rod in work.own)
    if lid.spec.knob is not None:
        knob = lid.spec.knob
        across = knob.across_mm if knob.across_mm is not None else work.basket.pattern.settings.mm("knob")
        strand = materials[knob.material].width_mm
        for line in ball(np.array([0.0, 0.0, top + across / 2]), across, strand):
            yield SpaceRod(line, strand, _look(work, knob.material), name="knob")
    if lid.ring is not None:
        thick = materials[lid.spec.ring].thickness_mm
        radius = float(np.array(lid.ring.curve)[:, 0].max())
        flat = ring(np.array([0.0, -radius, top + thick / 2]), radius, np.array([1.0, 0, 0]), np.array([0, 1.0, 0]))
        yield SpaceRod(flat, thick, _look(work, lid.spec.ring), name="ring")
        held = ring(np.array([0.0, -0.3 * thick, top]), 1.1 * thick, np.array([0.0, 1.0, 0]), np.array([0, 0, 1.0]))
        yield SpaceRod(held, 0.8 * thick, _look(work, lid.spec.ring), name="ring")
