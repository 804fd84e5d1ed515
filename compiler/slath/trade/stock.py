"""A stock: one kind of material as it is sold, with its measures and what they rest on."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from slath.units import Basis

StockKind = Literal[
    "round reed", "flat reed", "oval reed", "half round reed", "centre cane", "chair cane", "willow", "rush", "braid",
    "dowel", "wood", "wire", "cord", "raffia", "other",
]  # fmt: skip


class Pack(Struct, frozen=True):
    """One way a stock is sold: by mass, by length or by the piece; price in the supplier's own money."""

    title: str
    mass_g: float | None = None
    length_mm: float | None = None
    pieces: int | None = None
    price: float | None = None
    currency: str = ""
    supplier: str = ""
    priced_on: str = ""


class Stock(Struct, frozen=True):
    """`name` is what a pattern writes ("us round reed 4"); mm is always printed beside a number.

    `width_mm` lies along the stake's face, `thickness_mm` stands off it; both equal the diameter of round material.
    Rods that taper give `butt_mm` and `tip_mm` and have `length_class_mm`; their width is the mean.
    """

    name: str
    kind: StockKind
    width_mm: float
    thickness_mm: float
    scale: str = ""
    number: str = ""
    grams_per_metre: float | None = None
    usual_length_mm: float | None = None
    length_class_mm: float | None = None
    butt_mm: float | None = None
    tip_mm: float | None = None
    packs: tuple[Pack, ...] = ()
    soak: str = ""
    basis: Basis = Basis.ESTIMATED
    source: str = ""
    mass_basis: Basis = Basis.ESTIMATED
    mass_source: str = ""
    length_basis: Basis = Basis.ESTIMATED
    length_source: str = ""
    soak_basis: Basis = Basis.ESTIMATED
    soak_source: str = ""
    pack_basis: Basis = Basis.ESTIMATED
    pack_source: str = ""

    @property
    def tapered(self) -> bool:
        """Whether it is a rod with a thick and a thin end, counted and not weighed."""
        return self.butt_mm is not None and self.tip_mm is not None

    def thickness_over(self, start_mm: float, end_mm: float) -> float:
        """Mean thickness (mm) of the part of a rod from `start_mm` to `end_mm` from its butt, taken to taper evenly.

        The stock's own thickness where it does not taper. An even taper is estimated: real rods thin faster at the tip.
        """
        length = self.length_class_mm
        if self.butt_mm is None or self.tip_mm is None or not length:
            return self.thickness_mm
        middle = min(max((start_mm + end_mm) / 2, 0.0), length)
        return self.butt_mm + (self.tip_mm - self.butt_mm) * middle / length
