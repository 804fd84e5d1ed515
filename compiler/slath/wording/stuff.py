"""Material in words: a stock with its number, its country's scale and its millimetres; a colour and its letter."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from slath.basket.model import Basket, WovenBand
from slath.language.pattern import Material
from slath.messages import Length, Letter, Message, Own, Value, message
from slath.messages.names import named
from slath.quantities.results import Piece
from slath.trade.stock import Stock
from slath.trade.stock_words import stock_words
from slath.wording.told import Clause


def lettered(basket: Basket) -> frozenset[str]:
    """Keys of the materials that are told apart by letters: those woven or wound, not sticks, stakes and bows."""
    woven = [band for part in _parts(basket) for band in part]
    wound = [key for handle in basket.handles for wrap in handle.wraps for key in wrap.spec.strands]
    several = wound if len(set(wound)) > 1 else []
    keys = [key for band in woven for rod in band.materials for key in rod]
    return frozenset(key for key in (*keys, *several) if basket.pattern.materials[key].letter)


def _parts(basket: Basket) -> Iterable[Iterable[WovenBand]]:
    yield basket.base.bands
    yield basket.bands
    yield basket.foot_bands
    for one in basket.apart:
        yield from _parts(one.basket)


# ------------------------------------------------------------------------------------------------------- as messages
def material_said(material: Material) -> Message:
    """The stock whole, with the colour before it and the letter after it."""
    return _dyed(material, _stock(material.stock, whole=True))


def strand_said(material: Material) -> Message:
    """A strand by its colour, its number and its letter, without its scale."""
    return _dyed(material, _stock(material.stock, whole=False))


def listed_said(material: Material) -> Message:
    """A strand as the cut list names it, with its letter: by the designer's own title, where it has one."""
    title = title_said(material, whole=False)
    if not isinstance(title, Own):
        return strand_said(material)
    return message("stuff.dyed", dye=None, stock=title, letter=_said_letter(material))


def title_said(material: Material, *, whole: bool = True) -> Value:
    """A material by its title in tables: its stock and colour, unless the designer gave it a title of its own."""
    usual = f"{stock_words(material.stock)}, {material.dye}" if material.dye else stock_words(material.stock)
    if material.title and material.title != usual:
        before, opened, after = material.title.partition(" (")
        return Own(material.title if whole else f"{before}{after.partition(')')[2]}" if opened else before)
    dye = dye_said(material.dye) if material.dye else None
    return message("stuff.title", stock=_stock(material.stock, whole=whole), dye=dye)


def colour_said(key: str, materials: Mapping[str, Material], among: Iterable[str]) -> Message:
    """A strand by its colour and letter, as it is picked up in the work; by its number as well where another strand
    `among` those in hand has the same colour.
    """
    material = materials[key]
    if any(materials[other].dye == material.dye for other in among if other != key):
        return strand_said(material)
    return message("stuff.colour", colour=dye_said(material.dye or "natural"), letter=_said_letter(material))


def dye_said(dye: str) -> Value:
    """A colour by its name; a name we do not know stays as it is written."""
    return named("dyes", dye)


def part_said(part: str, count: int) -> Value:
    """A part of the list, one or several of it; a designer's own fitting by its own name."""
    of, colon, piece = part.rpartition(": ")
    if colon:  # a piece of a part made by itself, which has its own name
        return message("parts.of-part", part=Own(of), piece=part_said(piece, count))
    found = named("parts", part.removesuffix("s"), count=count)
    if isinstance(found, Message):
        return found
    one = part.removesuffix("s")
    return Own(one if count == 1 else f"{one}s")


def _dyed(material: Material, stock: Message) -> Message:
    dye = dye_said(material.dye) if material.dye else None
    return message("stuff.dyed", dye=dye, stock=stock, letter=_said_letter(material))


def _said_letter(material: Material) -> Letter | None:
    return Letter(material.key) if material.letter else None


def _stock(stock: Stock, *, whole: bool) -> Message:
    """A stock by its number, whose number it is, and its millimetres: numbers differ between countries."""
    size = _size(stock) if whole else None
    kind = named("kinds", stock.kind)
    if stock.kind == "willow":
        skin, _, unit = stock.name.partition(f" {stock.number}")  # classes in feet or in centimetres
        if stock.number:
            return message("stuff.willow", number=Own(f"{stock.number}{unit}"), skin=named("kinds", skin))
        return message("stuff.plain", name=named("kinds", stock.name), size=None)
    if stock.scale in {"US", "UK"} and stock.number:
        if stock.number[0].isdigit() and not stock.name.endswith(" in"):
            number = Own(stock.number)
            return message("stuff.numbered", number=number, kind=kind, scale=Own(stock.scale), size=size)
        wide = stock.name.endswith(" in")
        return message("stuff.wide", number=Own(stock.number), inches=wide, kind=kind, size=size)
    if stock.number and stock.scale in {"inch", "mm"}:
        if stock.kind == "wood":
            kind = named("kinds", stock.name.split(" ", maxsplit=1)[0])
        return message("stuff.thick", number=Own(stock.number), inches=stock.scale == "inch", kind=kind)
    return message("stuff.plain", name=named("kinds", stock.name or stock.kind), size=size)


def _size(stock: Stock) -> Message:
    if abs(stock.width_mm - stock.thickness_mm) < 1e-9:
        return message("stuff.size", size=Length(stock.width_mm))
    return message("stuff.size-flat", wide=Length(stock.width_mm), thick=Length(stock.thickness_mm))


def next_length(pieces: Sequence[Piece]) -> Clause:
    """How a winding goes on that is longer than its material comes; nothing where one length of it is enough."""
    lengths = max((piece.lengths for piece in pieces), default=1)
    return message("handle.next-length", lengths=lengths) if lengths > 1 else None
