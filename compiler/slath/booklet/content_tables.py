"""The tables of a booklet: sizes, what to buy, what to cut, how it is made up, what each band takes. From the list."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from slath.booklet.blocks import Bar, Column, Measure, Row, Strong, Table, TickBox, Words, pieces_of
from slath.booklet.size_table import (
    NOTHING,
    Measured,
    by_size,
    cells,
    in_one,
    measures_in_one,
    pair_of,
    row_of,
    shared_unit,
    size_columns,
)
from slath.messages import Length, Listed, Message, message
from slath.messages.names import named
from slath.quantities.results import PackCount, Piece, Purchase, Quantities
from slath.units import Amount, Basis
from slath.wording.speech import Voice, own_words
from slath.wording.stuff import part_said

_OVER_MM = 6.0  # over its parts: more than a slip of the shears
BARRED = 3  # parts a length is made of, from which on a bar shows them


def sizes_table(sizes: Sequence[Measured], voice: Voice, *, short: bool = False) -> Table:
    """One column for each size: base, rim, heights, stakes, mass; whether it was woven where that differs. The `short`
    one of a cover has only what a buyer asks.
    """
    rows: list[Row] = []

    def _(key: str) -> Message:
        return message(f"tables.{key}")

    def add(name: Message, value: Callable[[Quantities], str]) -> None:
        printed = by_size(sizes, lambda size: value(size.quantities))
        if any(printed):
            rows.append(row_of(voice.say(name), printed))

    flat = all(size.basket.profile is None for size in sizes)
    add(_("base"), lambda q: over_all(q.finished.base_length, q.finished.base_width, voice))
    add(
        _("over-the-border") if flat else message("tables.rim", where=_where_measured(sizes)),
        lambda q: over_all(q.finished.rim_length, q.finished.rim_width, voice),
    )
    if not short:
        add(_("weaving-up-the-side"), lambda q: voice.length(q.finished.along.value) if q.finished.along.value else "")
    handled = any(size.quantities.finished.height_with_handle for size in sizes)
    if not (short and handled):
        add(
            _("thick-at-the-edge") if flat else _("standing-height-border-and-all"),
            lambda q: voice.length(q.finished.height.value) if q.finished.height.value else "",
        )
    add(_("high-with-the-handle"), lambda q: _optional(q.finished.height_with_handle, voice.length))
    add(_("high-with-its-parts"), lambda q: _optional(q.finished.height_with_parts, voice.length))
    if not short:
        rows += _counted(sizes, voice)
        add(
            _("stake-spacing-at-the-base"), lambda q: voice.length(q.base_spacing.value) if q.base_spacing.value else ""
        )
    add(_("weight-about"), lambda q: _optional(q.finished.mass_g, voice.mass))
    if len({size.quantities.tested for size in sizes}) > 1:
        tested = (
            voice.text(message("tables.tested", status=named("status", size.quantities.tested))) for size in sizes
        )
        rows.append(Row((voice.say(_("woven")), *tested)))
    return Table("", (Column(voice.text(_("size")), row_header=True, weight=0.8), *size_columns(sizes)), tuple(rows))


def _counted(sizes: Sequence[Measured], voice: Voice) -> list[Row]:
    """How many stakes each size has."""
    changes = any(size.basket.changes for size in sizes)
    rows: list[Row] = []
    if any(size.quantities.stakes.value for size in sizes):
        counts = (f"{size.quantities.stakes.value:.0f}" if size.quantities.stakes.value else NOTHING for size in sizes)
        rows.append(Row((voice.say(message("tables.stakes", changes=changes)), *counts)))
    if changes:
        rows.append(
            Row((voice.say(message("tables.uprights-at-the-top")), *(f"{size.basket.rim_uprights}" for size in sizes)))
        )
    return rows


def _where_measured(sizes: Sequence[Measured]) -> Listed:
    where = sorted({size.quantities.finished.rim_measured for size in sizes})
    return Listed(tuple(named("measured", one) for one in where))


def over_all(length: Amount, width: Amount, voice: Voice) -> str:
    """Length by width, or how far across where they are the same; nothing where there is no length."""
    if not length.value:
        return ""
    if abs(length.value - width.value) < 0.5:
        return voice.text(message("tables.across", length=Length(length.value)))
    return voice.by(length.value, width.value)


def _optional(amount: Amount | None, printed: Callable[[float], str]) -> str:
    return printed(amount.value) if amount else ""


# ------------------------------------------------------------------------------------------------------------ buying
def buying_table(sizes: Sequence[Measured], voice: Voice, how: str = "") -> Table:
    """What to buy of each material and colour, a row each, and what it is for; below it packs and weights."""
    keys = _in_order([item.material for item in size.quantities.purchase] for size in sizes)
    printed = {
        key: by_size(sizes, lambda size, key=key: _bought(key, size, voice))  # type: ignore[misc]
        for key in keys
    }
    unit = shared_unit(list(printed.values()))
    rows = tuple(
        Row((_title(key, sizes), voice.say(_used_for(key, sizes)), *cells(printed[key], bare=bool(unit))))
        for key in keys
    )
    columns = (
        Column(voice.text(message("tables.material")), row_header=True, weight=2.0),
        Column(voice.text(message("tables.for")), weight=1.0),
        *size_columns(sizes, unit),
    )
    packs, one_does = _packs(keys, sizes, voice)
    said = tuple(piece for note in (packs, how, _resting(sizes, voice)) if note for piece in (*pieces_of(note), " "))
    weights = "" if one_does else _weights(keys, sizes, voice)  # of one coil that is more than enough nobody asks
    notes = [note for note in (said[:-1], weights) if note]
    return Table(voice.text(message("tables.to-buy-for-one-basket")), columns, rows, footnotes=tuple(notes))


def _in_order(lists: Iterable[Sequence[str]]) -> list[str]:
    return list(dict.fromkeys(key for keys in lists for key in keys))


def _title(key: str, sizes: Sequence[Measured]) -> Words:
    """A material, or what several of one stock are bought as."""
    size, item = next((size, item) for size in sizes if (item := _purchase(key, size)))
    return item.title if len(item.shares) > 1 else size.title(key)


def _purchase(key: str, size: Measured) -> Purchase | None:
    return next((item for item in size.quantities.purchase if item.material == key), None)


def _bought(key: str, size: Measured, voice: Voice) -> str:
    """A length, a count of rods with their thick end, or the size of a board."""
    item = _purchase(key, size)
    if item is None:
        return ""
    if item.rods is not None:
        butt = Length(item.butt_mm) if item.butt_mm is not None else None
        return voice.text(message("tables.rods", rods=round(item.rods.value), butt=butt))
    pieces = [piece for piece in size.quantities.pieces if piece.material == key]
    boards = [outline for piece in pieces if (outline := size.board(piece.part))]
    if boards and len(boards) == len(pieces):
        return ", ".join(voice.by(outline.length_mm, outline.width_mm) for outline in boards)
    return voice.long(item.buy_mm.value, up=True)


def _used_for(key: str, sizes: Sequence[Measured]) -> Message:
    """Which pieces and which bands take of a material."""
    counts: dict[str, int] = {}
    for size in sizes:
        for piece in size.quantities.pieces:
            if piece.material == key:
                counts[piece.part] = max(counts.get(piece.part, 0), round(piece.count.value))
    parts = [part_said(part, count) for part, count in counts.items()]
    bands = dict.fromkeys(
        own_words(run.band) for size in sizes for run in size.quantities.strands if run.material == key
    )
    told = (*parts, *bands)
    if len(told) <= 3:
        return message("tables.used", things=Listed(told))
    return message("tables.used-and-woven", parts=Listed(tuple(parts)))


def _packs(keys: Sequence[str], sizes: Sequence[Measured], voice: Voice) -> tuple[Words, bool]:
    """How many packs; one sentence where one of each kind does for every size, and whether that is so."""
    bought = {(key, size.name): _packs_of(_purchase(key, size)) for key in keys for size in sizes}
    packs = [pack for each in bought.values() for pack in each]
    if not packs:
        return "", False
    titles = {pack.title for pack in packs}
    if all(len(each) == 1 and each[0].count == 1 for each in bought.values() if each) and len(titles) == 1:
        one = message("tables.one-of-each-kind-is", pack=named("packs", packs[0].title), several=len(sizes) > 1)
        return (Strong(voice.text(one)),), True
    told = []
    for key in keys:
        counts = [_so_many_packs(bought[key, size.name], voice) for size in sizes]
        if any(counts):
            none = voice.text(message("tables.none"))
            told.append((*pieces_of(_title(key, sizes)), f": {in_one([one or none for one in counts])}"))
    joined = tuple(piece for place, words in enumerate(told) for piece in (("; ", *words) if place else words))
    return (Strong(voice.text(message("tables.packs"))), *joined, "."), False


def _so_many_packs(packs: Sequence[PackCount], voice: Voice) -> str:
    told = tuple(message("tables.pack", count=pack.count, pack=named("packs", pack.title)) for pack in packs)
    return voice.text(message("tables.used", things=Listed(told)))


def _packs_of(item: Purchase | None) -> list[PackCount]:
    return [pack for pack in item.packs if pack.count] if item else []


def _weights(keys: Sequence[str], sizes: Sequence[Measured], voice: Voice) -> Words:
    """What the material weighs, for who buys or has it by weight."""
    told: list[Words] = []
    for key in keys:
        printed = [_optional(item.mass_g, voice.mass) if (item := _purchase(key, size)) else "" for size in sizes]
        if any(printed):
            told.append((*pieces_of(_title(key, sizes)), f" {measures_in_one(printed)}"))
    if not told:
        return ""
    joined = tuple(
        piece
        for place, words in enumerate(told)
        for piece in (("; ", *pieces_of(words)) if place else pieces_of(words))
    )
    return (voice.text(message("tables.weights-about")), *joined, ".")


def _resting(sizes: Sequence[Measured], voice: Voice) -> Words:
    """What the weakest of these numbers rests on, if that is less than a published figure."""
    weakest = max(
        (
            amount.basis
            for size in sizes
            for item in size.quantities.purchase
            for amount in (item.length_mm, item.mass_g)
            if amount
        ),
        default=Basis.COUNTED,
    )
    if weakest <= Basis.PUBLISHED:
        return ""
    return voice.text(message("tables.some-of-the-figures-behind", basis=named("bases", weakest.words)))


# ----------------------------------------------------------------------------------------------------------- cutting
def cutting_table(sizes: Sequence[Measured], voice: Voice) -> Table:
    """Every piece to cut, with a box to tick: part, material, how many, and how long in each size."""
    keys = list(dict.fromkeys((piece.part, piece.material) for size in sizes for piece in size.quantities.pieces))
    found = {key: [_piece(key, size) for size in sizes] for key in keys}
    printed = {
        key: [_cut_to(piece, size, voice) if piece else "" for piece, size in zip(pieces, sizes, strict=True)]
        for key, pieces in found.items()
    }
    unit = shared_unit(list(printed.values()))
    rows = tuple(
        Row(
            (
                (TickBox(), *pieces_of(_part(key[0], found[key], voice))),
                _material(key[1], sizes),
                in_one(
                    [_how_many(piece, voice) if piece else voice.text(message("tables.none")) for piece in found[key]]
                ),
                *cells(printed[key], bare=bool(unit)),
            )
        )
        for key in keys
    )
    columns = (
        Column(voice.text(message("tables.piece")), row_header=True, weight=1.3),
        Column(voice.text(message("tables.material")), weight=1.2),
        Column(voice.text(message("tables.how-many")), weight=0.8),
        *size_columns(sizes, unit),
    )
    return Table(voice.text(message("tables.to-cut")), columns, rows)


def _part(part: str, pieces: Sequence[Piece | None], voice: Voice) -> Words:
    """A part of the list, as its table names it."""
    count = max(round(piece.count.value) for piece in pieces if piece)
    return voice.say(message("tables.part", part=part_said(part, count)))


def _piece(key: tuple[str, str], size: Measured) -> Piece | None:
    return next((piece for piece in size.quantities.pieces if (piece.part, piece.material) == key), None)


def _material(key: str, sizes: Sequence[Measured]) -> Words:
    return next(size.short_title(key) for size in sizes if key in size.basket.pattern.materials)


def _how_many(piece: Piece, voice: Voice) -> str:
    return voice.text(message("tables.so-many", count=round(piece.count.value), spare=piece.spare))


def _cut_to(piece: Piece, size: Measured, voice: Voice) -> str:
    board = size.board(piece.part)
    if piece.offcut:
        return voice.text(message("tables.of-the-tops-cut-off", cut=Length(piece.cut_mm.value)))
    if piece.whole:
        return voice.text(message("tables.left-whole-at-the-least", needed=Length(piece.cut_mm.value)))
    return voice.by(board.length_mm, board.width_mm) if board else voice.length(piece.cut_mm.value)


def bars(sizes: Sequence[Measured], voice: Voice) -> list[Bar]:
    """How each length that is made up of several parts is made up; the bar is drawn for the size in the middle."""
    found: list[Bar] = []
    middle = sizes[(len(sizes) - 1) // 2]
    for piece in middle.quantities.pieces:
        parts = _laid_off(piece)
        if len(parts) < BARRED:
            continue
        others = [each for size in sizes if (each := _piece((piece.part, piece.material), size))]
        whole = math.fsum(part.value for part in parts)
        told = []
        for part in parts:
            printed = [
                voice.length(mine.value) for other in others for mine in _laid_off(other) if mine.name == part.name
            ]
            told.append(
                (
                    voice.say(message("tables.share", share=named("shares", part.name))),
                    Measure(_much(printed)),
                    part.value / whole,
                )
            )
        found.append(Bar(_part(piece.part, [piece], voice), tuple(told)))
    return found


def _laid_off(piece: Piece) -> list[Amount]:
    """The parts a piece is laid off in, and what a length that was given has over them."""
    parts = [part for part in piece.parts if part.value > 0]
    over = (piece.given_mm or 0.0) - piece.needed_mm.value
    return [*parts, Amount("left over", over, "mm", Basis.GIVEN)] if over > _OVER_MM else parts


def _much(printed: Sequence[str]) -> str:
    """How much goes to one part in each size, in the unit that is cut by."""
    pairs = [pair_of(cell) for cell in printed]
    numbers = list(dict.fromkeys(pair.first for pair in pairs))
    return f"{' · '.join(numbers)} {pairs[0].first_unit}"
