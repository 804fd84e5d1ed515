"""Take-up of a band at any spacing: given by the designer, measured on a test piece, or from the geometry."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from slath.basket.model import Round, WovenBand
from slath.basket.pitch import gauges_of
from slath.basket.strand_lies import lying
from slath.language.pattern import Gauge, Material, SizedPattern, WeaveSpec
from slath.quantities.crossing import closest_mm, jammed_take_up, take_up
from slath.quantities.uprights import Upright
from slath.units import Amount, Basis


class TakeUpRule(Struct, frozen=True):
    """Strand used ÷ way covered as a function of weave and spacing (mm), with the amounts it rests on.

    `beside_mm` is how far outside (or inside) the line of the stakes a strand lies that passes before (or behind) them;
    nothing where the take-up was measured, which has it in it.
    """

    at: Callable[[WeaveSpec, float], float]
    amounts: tuple[Amount, ...]
    words: str
    beside_mm: float = 0.0


def take_up_rule(band: WovenBand, material: Material, upright: Upright, pattern: SizedPattern) -> TakeUpRule:
    """The designer's take-up for the band, else one measured on a test piece or a woven size, else Peirce's geometry."""
    given = band.spec.take_up
    if given is not None:
        return TakeUpRule(lambda _weave, _spacing: given.value, (given,), "the take-up given")
    geometry = _geometry(band, material, upright)
    measured = [entry for entry in gauges_of(band.spec, pattern) if entry.take_up or entry.length_factor]
    if not measured:
        return geometry
    entry = measured[-1]
    return _learned(entry, geometry) if entry.length_factor else _measured(entry, geometry, band.spec.weave)


def jammed_rounds(band: WovenBand, upright: Upright, pattern: SizedPattern) -> tuple[Round, ...]:
    """The rounds in which the thickest strand of the band has no room between the uprights."""
    if not band.spec.strands:
        return ()
    thickest = max(lying(pattern.materials[key], band.spec.laid)[1] for key in band.spec.strands)
    closest = closest_mm(upright.section, thickest)
    return tuple(found for found in band.rounds if found.spacing_mm <= closest)


def _geometry(band: WovenBand, material: Material, upright: Upright) -> TakeUpRule:
    """Crossings from face to face. Where uprights touch the strand on both sides it turns a quarter round each."""
    thickness = lying(material, band.spec.laid)[1]
    closest = closest_mm(upright.section, thickness)

    def at(weave: WeaveSpec, spacing: float) -> float:
        if spacing <= closest:
            return jammed_take_up(weave)
        return take_up(weave, spacing, upright.section, thickness)

    stock = material.stock
    amounts = [
        *upright.amounts,
        Amount("strand thickness", thickness, "mm", stock.basis, stock.source, path=material.path),
    ]
    if any(found.spacing_mm <= closest for found in band.rounds):
        name = "spacing at which uprights touch the strand on both sides"
        amounts.append(Amount(name, closest, "mm", Basis.ESTIMATED))
    beside = 0.0 if band.on_sticks else (upright.section.thickness_mm + thickness) / 2
    words = "two arcs and a straight piece at each change of face (Peirce 1937)"
    return TakeUpRule(at, tuple(amounts), words, beside)


def _measured(entry: Gauge, geometry: TakeUpRule, weave: WeaveSpec) -> TakeUpRule:
    """A measured take-up; where its spacing was noted, other spacings follow it in proportion to the geometry."""
    found = entry.take_up or 1.0
    measured = Amount("measured take-up", found, "ratio", Basis.MEASURED, entry.source, path=(*entry.path, "take_up"))
    crimp = geometry.at(weave, entry.spacing_mm) - 1.0 if entry.spacing_mm else 0.0
    if not entry.spacing_mm or crimp <= 0:
        return TakeUpRule(lambda _weave, _spacing: found, (measured,), "the take-up measured")
    share = (found - 1.0) / crimp
    noted = Amount("spacing on the test piece", entry.spacing_mm, "mm", Basis.MEASURED, path=(*entry.path, "spacing"))
    words = "the take-up measured, at other spacings in proportion to the geometry of the crossing"
    return TakeUpRule(lambda kind, spacing: 1.0 + share * (geometry.at(kind, spacing) - 1.0), (measured, noted), words)


def _learned(entry: Gauge, geometry: TakeUpRule) -> TakeUpRule:
    """What a whole test weave took, joins and waste of hand included, in proportion to the geometry; never below 1."""
    factor = entry.length_factor or 1.0
    name = "strand taken ÷ strand worked out"
    basis = Basis.ESTIMATED if entry.shared else Basis.MEASURED
    measured = Amount(name, factor, "ratio", basis, entry.source, path=entry.path)
    words = "the strand a test weave took, at each spacing in proportion to the geometry of the crossing"
    beside = factor * geometry.beside_mm
    return TakeUpRule(lambda kind, spacing: max(1.0, factor * geometry.at(kind, spacing)), (measured,), words, beside)
