"""What the heights of a woven size say of the height of one round, weave by weave and stock by stock."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket, WovenBand
from slath.basket.profile import profile_of
from slath.language.pattern import Gauge, Material, Outline, Side, WovenSize
from slath.language.places import Path
from slath.messages import message
from slath.quantities.as_woven import is_counted
from slath.quantities.results import Doubt
from slath.units import Basis

# How far rounds may come from what was worked out before the figure is taken for a slip of the pen. Estimated.
_LEAST, _MOST = 0.5, 2.0

Weave = tuple[str, str]  # label of the weave and name of the stock


class _Sum(Struct):
    """Rounds and the height they came to, of one weave in one stock."""

    path: Path
    strand: str
    rounds: int = 0
    over_mm: float = 0.0
    shared: bool = False


def learned_heights(basket: Basket, woven: WovenSize) -> tuple[tuple[Gauge, ...], tuple[Doubt, ...]]:
    """Gauges from a basket constructed as it was woven, and doubts where its figures cannot be.

    Bands whose own height was measured teach it. What the rest of the side came to, and the base out from its slath,
    teaches the weaves it is made of: one alone exactly; several share it, and the shares are marked as estimated.
    """
    ledger = _Ledger(basket, woven, {}, [])
    ledger.own_heights()
    side, base = ledger.up_the_side(), ledger.out_from_the_slath()
    if side is not None:
        rest = [band for band in basket.bands if band.spec.written_as not in woven.band_heights_mm]
        measured = [height for name, height in woven.band_heights_mm.items() if _has_rounds(basket.bands, name)]
        ledger.shared_out(rest, side - math.fsum(measured), (*woven.path, "height"))
    if base is not None:
        key = "base_diameter" if basket.base.spec.outline.shape == "circle" else "base_width"
        ledger.shared_out(basket.base.bands, base, (*woven.path, key))
    return ledger.gauges(), tuple(ledger.doubts)


class _Ledger(Struct, frozen=True):
    """What has been learned so far."""

    basket: Basket
    woven: WovenSize
    sums: dict[Weave, _Sum]
    doubts: list[Doubt]

    def gauges(self) -> tuple[Gauge, ...]:
        """One gauge for each weave in each stock."""
        woven = self.woven
        return tuple(
            Gauge(
                found.path, label, found.strand, found.rounds, found.over_mm, None, None, woven.by, woven.on,
                of_size=self.basket.size, shared=found.shared,
            )
            for (label, _), found in self.sums.items()
        )  # fmt: skip

    def own_heights(self) -> None:
        """Bands whose own height was measured; the parts of an arrow or a chain together."""
        for name, height in self.woven.band_heights_mm.items():
            bands = [band for band in self.basket.bands if band.spec.written_as == name]
            path = (*self.woven.path, "band_heights", name)
            if bands and all(is_counted(band.spec) for band in bands) and self._believed(bands, height, path):
                self._add(bands, height, path)

    def shared_out(self, bands: Sequence[WovenBand], way_mm: float, path: Path) -> None:
        """A way that several bands came to: bands whose pitch is known keep it, the others share what is left."""
        unknown = [band for band in bands if _teaches(band, self.basket) and band.pitch.basis > Basis.MEASURED]
        unknown = unknown or [band for band in bands if _teaches(band, self.basket)]
        if not unknown or not all(is_counted(band.spec) for band in unknown):
            return
        known = [band for band in bands if not any(band is other for other in unknown)]
        left = way_mm - math.fsum(band.reached_mm for band in known)
        if not self._believed(unknown, left, path):
            return
        factor = left / math.fsum(band.reached_mm for band in unknown)
        shared = len({_weave(band, self.basket) for band in unknown}) > 1
        for band in unknown:
            self._add([band], factor * band.reached_mm, path, shared=shared)

    def _believed(self, bands: Sequence[WovenBand], height_mm: float, path: Path) -> bool:
        predicted = math.fsum(band.reached_mm for band in bands)
        if _LEAST * predicted <= height_mm <= _MOST * predicted:
            return True
        rounds = sum(len(band.rounds) for band in bands)
        self.doubts.append(Doubt(path, message("tested.height-of-rounds", rounds=rounds), height_mm, predicted))
        return False

    def _add(self, bands: Sequence[WovenBand], height_mm: float, path: Path, *, shared: bool = False) -> None:
        weave = _weave(bands[0], self.basket)
        if weave is None:
            return
        found = self.sums.setdefault(weave, _Sum(path, bands[0].spec.strands[0]))
        if shared and found.rounds and not found.shared:
            return  # what was measured for itself is surer
        found.rounds += sum(len(band.rounds) for band in bands)
        found.over_mm += height_mm
        found.shared = found.shared or shared

    def up_the_side(self) -> float | None:
        """The mean way up the side to the height measured; None where a change of outline hides it."""
        side, height = self.basket.pattern.side, self.woven.height_mm
        if side is None or height is None or any(band.spec.ends_at for band in self.basket.bands):
            return None
        foot = (self.basket.base.hole_line or self.basket.base.edge).outline
        return profile_of(_with_rim(side, self.woven), foot, height).along_mm

    def out_from_the_slath(self) -> float | None:
        base, width = self.basket.base, self.woven.base_width_mm
        if width is None or base.reached_mm is None:
            return None
        return math.fsum(band.reached_mm for band in base.bands) + (width - base.reached_mm) / 2


def material_of(band: WovenBand, basket: Basket) -> Material | None:
    """The material of a band if all its strands are of one stock, whatever their colours; None for a mixture."""
    materials = [basket.pattern.materials[key] for key in band.spec.strands]
    one_stock = len({material.stock.name for material in materials}) == 1
    return materials[0] if one_stock else None


def _weave(band: WovenBand, basket: Basket) -> Weave | None:
    material = material_of(band, basket)
    return None if material is None else (band.spec.weave.label, material.stock.name)


def _teaches(band: WovenBand, basket: Basket) -> bool:
    """Whether a band's height can say something: it has rounds, of one stock, whose height the designer did not fix."""
    return bool(band.rounds) and band.spec.pitch is None and _weave(band, basket) is not None


def _has_rounds(bands: Sequence[WovenBand], name: str) -> bool:
    return any(band.rounds for band in bands if band.spec.written_as == name)


def _with_rim(side: Side, woven: WovenSize) -> Side:
    """The side with the rim that was measured, where it was."""
    if side.rim is None or woven.rim_length_mm is None or woven.rim_width_mm is None:
        return side
    rim = Outline(side.rim.shape, woven.rim_length_mm, woven.rim_width_mm, side.rim.corner_mm)
    return replace(side, rim=rim)
