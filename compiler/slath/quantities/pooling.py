"""What is bought together: the materials of a pattern that come out of one coil, one bundle or one sheet."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from slath.basket.rods import butt_mm
from slath.language.materials import NATURAL
from slath.language.pattern import Material, SizedPattern
from slath.quantities.cutting import each_cut
from slath.quantities.results import Piece, StrandRun
from slath.trade.stock import Stock
from slath.trade.stock_words import stock_words


class Pool(Struct, frozen=True):
    """Materials that are bought as one, and everything made of them. `butt_mm`: how much of a rod serves for sticks.

    `measured_mm` are single lengths in hand, besides what the materials say there is of them. `taken` is what a woven basket
    took of each material by its key: mm, or rods of willow.
    """

    materials: tuple[Material, ...]
    pieces: tuple[Piece, ...]
    runs: tuple[StrandRun, ...]
    butt_mm: float
    measured_mm: tuple[float, ...] = ()
    taken: Mapping[str, float] = field(default_factory=dict)

    @property
    def first(self) -> Material:
        """The material that stands for all of them."""
        return self.materials[0]

    @property
    def stock(self) -> Stock:
        """The stock they all are."""
        return self.first.stock

    @property
    def title(self) -> str:
        """What is asked for in the shop: the material's own title, or the stock where several are bought as one."""
        titles = {material.title for material in self.materials}
        return self.first.title if len(titles) == 1 and not self.dyed_at_home else stock_words(self.stock)

    @property
    def dyed_at_home(self) -> bool:
        """Whether some of it is bought natural and dyed afterwards."""
        return any(material.dye and material.bought_natural for material in self.materials)

    @property
    def have_mm(self) -> float | None:
        """The length in hand of all of them; None where nothing is said of it."""
        told = [material.have_mm for material in self.materials if material.have_mm is not None]
        return math.fsum(told) + math.fsum(self.measured_mm) if told or self.measured_mm else None

    @property
    def whole_mm(self) -> list[float]:
        """Every piece that is cut in one: the cut list with its spares, and strands that take no join."""
        unjoined = [run for run in self.runs if run.joins.value == 0]
        return [
            *each_cut(self.pieces),
            *(run.piece_mm.value for run in unjoined for _ in range(round(run.pieces.value))),
        ]

    @property
    def joined_mm(self) -> float:
        """Weaving that is joined on from length to length, and all that is spare of strands."""
        joined = math.fsum(run.length_mm.value for run in self.runs if run.joins.value > 0)
        return joined + math.fsum(run.spare_mm.value for run in self.runs)


def pools(
    pieces: Sequence[Piece], runs: Sequence[StrandRun], pattern: SizedPattern, *, apart: bool = False
) -> tuple[Pool, ...]:
    """The used materials in the pattern's order, those that are bought as one together; `apart`: each by itself."""
    together: dict[object, list[Material]] = {}
    for key, material in pattern.materials.items():
        together.setdefault(key if apart else bought_as(material), []).append(material)
    found = [_pool(tuple(materials), pieces, runs, pattern) for materials in together.values()]
    if apart:  # as it is predicted, whatever a woven basket took
        found = [replace(pool, taken={}) for pool in found]
    return tuple(pool for pool in found if pool.pieces or pool.runs)


def bought_as(material: Material) -> tuple[Stock, str, str]:
    """What tells one thing in the shop from another: its measures and packs, and its colour where it is bought dyed."""
    stock = replace(material.stock, name="", soak="", source="")
    if material.bought_natural:
        return stock, "", NATURAL
    return stock, (material.dye or "").casefold(), material.colour


def _pool(
    materials: tuple[Material, ...], pieces: Sequence[Piece], runs: Sequence[StrandRun], pattern: SizedPattern
) -> Pool:
    keys = {material.key for material in materials}
    own_pieces = tuple(piece for piece in pieces if piece.material in keys)
    own_runs = tuple(run for run in runs if run.material in keys)
    used = {piece.material for piece in own_pieces} | {run.material for run in own_runs}
    kept = tuple(material for material in materials if material.key in used) or materials
    return Pool(kept, own_pieces, own_runs, butt_mm(materials[0], pattern), taken=_taken(kept, pattern))


def _taken(materials: tuple[Material, ...], pattern: SizedPattern) -> dict[str, float]:
    woven = pattern.woven
    if woven is None:
        return {}
    used = {material.key: woven.used[material.key] for material in materials if material.key in woven.used}
    return {key: amount - woven.left_over.get(key, 0.0) for key, amount in used.items()}
