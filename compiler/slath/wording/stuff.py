"""Material in words: a stock with its number, its country's scale and its millimetres; a colour and its letter."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from slath.trade.stock_words import stock_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from slath.basket.model import Basket, WovenBand
    from slath.language.pattern import Material


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
    if basket.lid:
        yield from _parts(basket.lid.basket)


def material_words(material: Material) -> str:
    """The stock, with the colour before it and the letter after it."""
    dyed = f"{material.dye}-dyed " if material.dye else ""
    return f"{dyed}{stock_words(material.stock)}{_letter(material)}"


def strand_words(material: Material) -> str:
    """A strand by its colour, its number and its letter, without its scale: ``rust-dyed No. 4 round reed <rust>``."""
    dyed = f"{material.dye}-dyed " if material.dye else ""
    stock = re.sub(r" \(.*\)$", "", stock_words(material.stock))
    return f"{dyed}{stock}{_letter(material)}"


def colour_words(key: str, materials: Mapping[str, Material], among: Iterable[str]) -> str:
    """A strand by its colour and letter, as it is picked up in the work: ``rust <rust>``, ``natural <plain>``.

    Where another strand `among` those in hand has the same colour, it is told by its number as well.
    """
    material = materials[key]
    alike = any(materials[other].dye == material.dye for other in among if other != key)
    return strand_words(material) if alike else f"{material.dye or 'natural'}{_letter(material)}"


def _letter(material: Material) -> str:
    return f" <{material.key}>" if material.letter else ""
