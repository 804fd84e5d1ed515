"""A handle and its parts: the bow on the rim, the scarf where pieces lap, and the wrap unrolled."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from slath.basket.model import Basket, WorkedEar, WorkedHandle
from slath.drawing.handle.ears import ear_faces, ear_in_place
from slath.drawing.handle.feet import feet_in_side, rod_end
from slath.drawing.handle.hung import drop_in_place, ring_in_place
from slath.drawing.handle.lugs import Swinging, ear_cut_words, ear_in_side, ear_in_side_words, ear_to_scale, ear_words
from slath.drawing.handle.swinging import bow_in_ear, bow_laid, bow_words, bows_in_place, bows_words, turn_words
from slath.drawing.handle.wraps import wrap_laid_flat, wrap_words
from slath.drawing.options import Options
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.plans import fitting_ratio, scale_said
from slath.drawing.plate.plate import Anchor, Plate
from slath.drawing.scene import Scene
from slath.messages import Length, Listed, Message, Value, message
from slath.messages.names import named
from slath.messages.values import Numbers as ByNumber
from slath.plan.planner import handles_as_counted
from slath.units import Amount
from slath.wording.figure_names import figures_of_ears, wrap_name

_LEAST_THICK = 1.6  # mm on the page: a handle is drawn no thinner
_SCARF_HIGH, _SCARF_THIN = 5.0, 0.7  # mm on the page: thickness of a piece and of its shaved end


def handle_names(basket: Basket) -> list[str]:
    """For every handle or set of like ones: its ears, its place on the basket, its parts, and each wrap of it."""
    names: list[str] = []
    for number, worked in enumerate(basket.handles, start=1):
        own = figures_of_ears(number) if worked.ear is not None else (f"handle-{number}-parts",)
        names += [*own[:3], f"handle-{number}", *own[3:]] if worked.ear is not None else [f"handle-{number}", *own]
        names += [
            wrap_name(number, place, grouped=wrap.spec.group > 1)
            for place, wrap in enumerate(worked.wraps, start=1)
            if wrap.spec.strands
        ]
    return names


def draw_handle(basket: Basket, name: str, clothes: Wardrobe, options: Options) -> Scene:
    """The figure called `name` (see `handle_names`)."""
    _, number, *rest = name.split("-")
    worked = handles_as_counted(basket)[int(number) - 1]
    kind = worked.spec.kind
    if worked.ear is not None and (not rest or rest[0] not in {"wrap", "groups"}):
        return _swinging(basket, worked, worked.ear, name, (clothes, options))
    if not rest:
        height, draw = _bow_part(basket, worked, clothes, options)
        words = _bow_words(worked)
        title = message("figure-handle.the-handle", kind=_kind(worked))
        if kind == "ears":
            title = message("figure-handle.ear-in-place")
    elif rest[0] == "parts":
        height, draw = _pieces_part(basket, worked, clothes, options)
        words = _parts_words(basket, worked)
        title = message("figure-handle.the-parts", kind=_kind(worked))
        if kind == "ears":
            title = message("figure-handle.an-ear")
    else:
        wrap = worked.wraps[int(rest[1]) - 1]
        height, draw = wrap_laid_flat(basket, wrap, clothes, options)
        title, words = message("figure-handle.wrap-flat"), wrap_words(wrap)
    plate = Plate(options.width_mm, height + 1.0, options)
    draw(plate, 0.5)
    return plate.scene(
        name, title, words, seen_from=message("figure-handle.from-the-side"),
        caption=message("figure-handle.with-measures", title=title),
        data={"span_mm": worked.span_mm, "rise_mm": worked.rise_mm, "bow_mm": worked.bow_mm.value},
    )  # fmt: skip


def _swinging(basket: Basket, worked: WorkedHandle, ear: WorkedEar, name: str, how: tuple[Wardrobe, Options]) -> Scene:
    clothes, options = how
    bind = worked.spec.bind
    made = Swinging(worked, ear, thickness(basket, worked), clothes, clothes.of(bind.material) if bind else None)
    _, _, *rest = name.split("-")
    title, seen, (height, draw), words = {
        (): (
            message("figure-handle.bows-in-ears", several=worked.spec.count > 1),
            message("figure-handle.from-the-side"),
            bows_in_place(made, options),
            bows_words(made),
        ),
        ("bow",): (
            message("figure-handle.a-bow"),
            message("figure-handle.from-the-side"),
            bow_laid(made, options),
            bow_words(made),
        ),
        ("ears",): (
            message("figure-handle.ear-to-scale"),
            message("figure-handle.from-face-and-edge"),
            ear_to_scale(made, options),
            ear_words(made),
        ),
        ("ears", "in"): (
            message("figure-handle.ear-in-place"),
            message("figure-handle.from-outside"),
            ear_in_side(made, options),
            ear_in_side_words(made),
        ),
        ("turn",): (
            message("figure-handle.how-it-hangs"),
            message("figure-handle.from-the-edge"),
            bow_in_ear(made, options),
            turn_words(made),
        ),
    }[tuple(rest)]
    plate = Plate(options.width_mm, height + 1.0, options)
    draw(plate, 0.5)
    return plate.scene(
        name, title, words, seen_from=seen, caption=message("figure-handle.alone", title=title),
        data={"bow_mm": worked.bow_mm.value}, cut_words=[ear_cut_words(made)] if rest == ["ears"] else (),
    )  # fmt: skip


def _kind(worked: WorkedHandle) -> Value:
    """What a handle of its kind is called."""
    return named("parts", f"{worked.spec.kind} handle", count=1)


def scarfed(worked: WorkedHandle) -> bool:
    """Whether pieces of the handle are shaved and lapped on one another."""
    spec = worked.spec
    return spec.kind == "two-piece" or (spec.kind == "ring" and (spec.rounds or 1) == 1) or spec.through_base


def scarf_lap(basket: Basket, worked: WorkedHandle) -> float:
    """Length over which two shaved pieces lie together, mm."""
    own = next((part.value for part in worked.piece_mm.inputs if part.name == "lap"), None)
    if own is not None:
        return own
    return worked.spec.lap_mm if worked.spec.lap_mm is not None else basket.pattern.settings.mm("handle_lap")


def thickness(basket: Basket, worked: WorkedHandle) -> float:
    """Thickness of a handle piece, mm."""
    return basket.pattern.materials[worked.spec.material].thickness_mm


# ---------------------------------------------------------------------------------------------------------- the bow
def _bow_part(
    basket: Basket, worked: WorkedHandle, clothes: Wardrobe, options: Options
) -> tuple[float, Callable[[Plate, float], None]]:
    em = options.text_pt * POINT_MM
    foot, thick = worked.foot_mm.value, thickness(basket, worked)
    if worked.spec.kind == "ears":
        return ear_in_place(worked, thick, clothes, options, em)
    if worked.spec.kind in {"drop", "ring"}:
        hung = drop_in_place if worked.spec.kind == "drop" else ring_in_place
        return hung(worked, thick, clothes, options, em)
    curve = np.array(worked.curve)
    low, high = float(curve[:, 1].min()) - foot, float(curve[:, 1].max()) + thick / 2
    long = float(curve[:, 0].max() - curve[:, 0].min()) + thick
    ratio = fitting_ratio(long, high - low, options.width_mm - 15.0 * em, 0.55 * options.tallest_mm)
    tall = (high - low) / ratio
    scale_words = options.say(scale_said(ratio))
    feet = max((word_width(words, options.text_pt, bold=True) for words in _feet(worked, options)), default=0.0)
    half = worked.span_mm / 2 / ratio
    within = curve[curve[:, 1] > 3.2 * em * ratio, 0]  # the bow above the words
    room = (float(np.ptp(within)) - 2 * thick) / ratio if len(within) else 0.0
    inside = word_width(options.say(_span(worked)), options.text_pt) < room
    clear = half + 1.6 + feet + em < options.width_mm / 2 - word_width(scale_words, options.text_pt)
    under = 2.4 * em + (0.0 if inside else 2.2 * em) + (0.0 if clear else 0.9 * em)

    def draw(plate: Plate, y: float) -> None:
        scale = 1 / ratio
        middle, rim = plate.width / 2, y + under - low * scale
        page = np.column_stack([middle + curve[:, 0] * scale, rim + curve[:, 1] * scale])
        legs = foot * scale
        thickness_drawn = max(thick * scale, _LEAST_THICK)
        if foot > 0:
            down = [[0, rod_end(legs, thickness_drawn)]]
            page = np.vstack([page[:1] - down, page, page[-1:] - down])
        bow = Rod(np.column_stack([page, np.zeros(len(page))]), thickness_drawn, clothes.wood, name="bow")
        feet_at = [float(page[0, 0]), float(page[-1, 0])]
        feet_in_side(plate, worked, clothes, feet_at, (rim, legs, thickness_drawn), bow)
        _bow_measures(plate, worked, (middle, rim, scale, legs), inside=inside)
        plate.text(plate.width - 0.4, y + 0.9 * em, scale_words, "end", colour=plate.quiet)

    return tall + under + 3.6 * em, draw


def _span(worked: WorkedHandle) -> Message:
    return message("figure-handle.span", span=Length(worked.span_mm))


def _feet(worked: WorkedHandle, options: Options) -> list[str]:
    """The names of the places of the two feet, if there are two."""
    names = [options.say(message("figure-handle.at-stake", number=number)) for number in worked.feet_at[:2]]
    return names if len(names) == 2 else []


def _bow_measures(
    plate: Plate, worked: WorkedHandle, where: tuple[float, float, float, float], *, inside: bool
) -> None:
    """The measures; the span stands in the bow if its words have room there, else below the feet."""
    em = plate.em
    middle, rim, scale, legs = where
    half = worked.span_mm / 2 * scale
    top = rim + max(z for _, z in worked.curve) * scale
    spanned = rim + 1.8 * em if inside else rim - legs - 1.9 * em
    plate.dimension(
        (middle - half, spanned),
        (middle + half, spanned),
        plate.measured(message("figure-handle.measure-span"), worked.span_mm, _span(worked)),
        above=inside,
    )
    if worked.rise_mm:
        inner = rim + worked.rise_mm * scale
        rise = message("figure-handle.rise", rise=Length(worked.rise_mm))
        words = plate.measured(message("figure-handle.measure-rise"), worked.rise_mm, rise)
        fits = 0.5 * em + plate.wide(words) < 0.72 * half
        # In line with the foot where the bow has no room for its words.
        across = middle if fits else middle + half + 10.5
        plate.dimension((across, rim), (across, inner), "", offset=0.0)
        if fits:
            plate.text(middle + 0.5 * em, (rim + inner) / 2 + 0.8 * em, words, "start")
        else:
            plate.paragraph(across + 0.6 * em, (rim + inner) / 2 + 0.6 * em, words, plate.width - across - em)
    bow = worked.bow_mm.value
    along = message("figure-handle.along-bow", bow=Length(bow))
    plate.text(middle, top + 1.6 * em, plate.measured(message("figure-handle.measure-bow"), bow, along))
    if legs > 0:
        x = middle + half + 10.5
        plate.dimension((x, rim - legs), (x, rim), "", offset=0.0)
        foot = worked.foot_mm.value
        words = plate.measured(
            message("figure-handle.measure-foot"), foot, message("figure-handle.foot", foot=Length(foot))
        )
        room = plate.width - x - em
        lines = len(in_lines(words, room, plate.options.text_pt))
        first = max(rim - legs / 2 + 0.6 * em, rim - legs + (1.2 * lines - 1.05) * em)  # clear of the name of the stake
        plate.paragraph(x + 0.6 * em, first, words, room)
    for side, words in zip((-1, 1), _feet(worked, plate.options), strict=False):
        anchor: Anchor = "end" if side < 0 else "start"
        plate.text(middle + side * (half + 1.6), rim - legs - 1.0 * em, words, anchor, bold=True)


# ------------------------------------------------------------------------------------------------------------ parts
def _pieces_part(
    basket: Basket, worked: WorkedHandle, clothes: Wardrobe, options: Options
) -> tuple[float, Callable[[Plate, float], None]]:
    em = options.text_pt * POINT_MM
    if worked.spec.kind == "ears":
        return ear_faces(worked, thickness(basket, worked), clothes, em)
    piece = 7.8 * em + 1.15 * len(_too_wide(worked, options)) * em
    if not scarfed(worked):
        return piece, lambda plate, y: _piece(plate, worked, clothes, y)
    scarf = _SCARF_HIGH + 6.6 * em

    def both(plate: Plate, y: float) -> None:
        _scarf(plate, basket, worked, clothes, y)
        _piece(plate, worked, clothes, y + scarf)

    return piece + scarf, both


def _part_words(part: Amount, options: Options) -> str:
    return options.say(_share(part))


def _share(part: Amount) -> Message:
    """A part of a piece: what it is for, and how long."""
    return message("figure-handle.share", share=named("shares", part.name), length=Length(part.value))


def _too_wide(worked: WorkedHandle, options: Options) -> list[int]:
    """The places of the parts of a piece that are drawn shorter than their words are."""
    parts = worked.piece_mm.inputs
    scale = (options.width_mm - 6.0) / (math.fsum(part.value for part in parts) or 1.0)
    return [
        place
        for place, part in enumerate(parts)
        if word_width(_part_words(part, options), options.text_pt) >= part.value * scale
    ]


def _piece(plate: Plate, worked: WorkedHandle, clothes: Wardrobe, y: float) -> None:
    """One piece laid straight, with the parts its length is made of; the cut list has it whole, rounded up.

    Words wider than their part hang below it, each a line lower and left of its own pointer, so that none crosses any.
    """
    em = plate.em
    parts, too_wide = worked.piece_mm.inputs, _too_wide(worked, plate.options)
    total = math.fsum(part.value for part in parts) or 1.0
    left, right, level = 3.0, plate.width - 3.0, y + (2.9 + 1.15 * len(too_wide)) * em
    line = np.array([[left, level, 0.0], [right, level, 0.0]])
    plate.rods([Rod(line, 3.2, clothes.wood, (True, True))], Brush(gap=0.0), name="piece")
    plate.dimension((left, level + 1.6 * em), (right, level + 1.6 * em), plate.say(message("figure-handle.one-piece")))
    x = left
    for place, part in enumerate(parts):
        wide = part.value / total * (right - left)
        low = level - 1.3 * em
        words = _part_words(part, plate.options)
        plate.dimension((x, low), (x + wide, low), "" if place in too_wide else words, above=False)
        if place in too_wide:
            spot, row = x + wide / 2, low - (1.9 + 1.15 * too_wide.index(place)) * em
            leftwards = plate.wide(words) + 1.5 < spot
            plate.line([(spot, low - 0.5), (spot, row)], 0.25, plate.quiet)
            plate.text(spot - 0.9 if leftwards else spot + 0.9, row, words, "end" if leftwards else "start")
        x += wide


def _scarf(plate: Plate, basket: Basket, worked: WorkedHandle, clothes: Wardrobe, y: float) -> None:
    """Two pieces shaved to long tapers, a little apart, and the lap they make."""
    em, lap = plate.em, scarf_lap(basket, worked)
    left, right, foot = 3.0, plate.width - 3.0, y + 2.6 * em
    a, b = plate.width * 0.3, plate.width * 0.7
    high, thin = _SCARF_HIGH, _SCARF_THIN
    light, dark = clothes.wood.tones.highlight, clothes.wood.tones.body
    plate.area([(left, foot + 0.5), (left, foot + 0.5 + high), (b, foot + 0.5 + high), (b, foot + 0.5 + high - thin), (a, foot + 0.5)],
               light, plate.ink, 0.3)  # fmt: skip
    lower = [(right, foot), (right, foot + high), (b, foot + high), (a, foot + thin), (a, foot)]
    plate.area(lower, dark, plate.ink, 0.3)
    hatches = [
        [(x, foot + 0.4), (x + high * 0.8, foot + high - 0.4)] for x in np.arange(b + 1, right - high, 2.6).tolist()
    ]
    plate.lines(hatches, 0.25, clothes.wood.tones.edge)
    plate.disc(left + 1.2 * em, foot + high + 1.6 * em, "1")
    plate.text(left + 2.2 * em, foot + high + 1.6 * em, plate.say(message("figure-handle.first-piece")), "start")
    second = plate.say(message("figure-handle.second-piece"))
    plate.disc(right - plate.wide(second) - 1.2 * em, foot + high + 1.6 * em, "2")
    plate.text(right - 0.2 * em, foot + high + 1.6 * em, second, "end")
    words = message("figure-handle.scarf-and-lap", lap=Length(lap))
    plate.dimension((a, foot - 0.9 * em), (b, foot - 0.9 * em), plate.say(words), above=False)


# ------------------------------------------------------------------------------------------------------------ words
def _bow_words(worked: WorkedHandle) -> Message:
    span, rise, bow = Length(worked.span_mm), Length(worked.rise_mm), Length(worked.bow_mm.value)
    foot, count = Length(worked.foot_mm.value), len(worked.feet_at)
    at = message("figure-handle.at-stakes", stakes=ByNumber(tuple(worked.feet_at)))
    match worked.spec.kind:
        case "ears":
            return message("figure-handle.ears-words", count=count, at=at, foot=foot, rise=rise)
        case "drop":
            return message("figure-handle.drop-words", at=at, span=span, rise=rise, bow=bow, foot=foot)
        case "ring":
            said = [message("figure-handle.ring-words", span=span, bow=bow)]
            said += [message("figure-handle.ring-hangs", at=at)] if count else []
        case _:
            said = [message("figure-handle.bow-words", span=span, rise=rise, bow=bow)]
            said += [message("figure-handle.feet-words", foot=foot, at=at)] if foot.mm and count else []
    return message("figure.sentences", all=Listed(tuple(said)))


def _parts_words(basket: Basket, worked: WorkedHandle) -> Message:
    if worked.spec.kind == "ears":
        rise, foot = Length(worked.rise_mm), Length(worked.foot_mm.value)
        return message("figure-handle.ear-parts-words", rise=rise, foot=foot)
    parts = Listed(tuple(_share(part) for part in worked.piece_mm.inputs))
    said = [message("figure-handle.pieces-words", count=worked.spec.pieces, parts=parts)]
    if scarfed(worked):
        said.append(message("figure-handle.scarf-words", lap=Length(scarf_lap(basket, worked))))
    return message("figure.sentences", all=Listed(tuple(said)))
