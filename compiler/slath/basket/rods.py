"""How thick tapering rods are where they are used: short sticks come from the butts, stakes stand on theirs."""

from __future__ import annotations

from msgspec.structs import replace

from slath.language.pattern import Board, Material, ReadyMade, SizedPattern


def butt_mm(material: Material, pattern: SizedPattern) -> float:
    """How much of a rod, from its butt, is thick enough for short sticks; nothing of material that does not taper."""
    share = pattern.settings["butt_share"].value
    return share * (material.stock.length_class_mm or 0.0) if material.stock.tapered else 0.0


def stick_of(key: str, pattern: SizedPattern) -> Material:
    """The material of a base stick as thick as it is there; a rod that turns up at both ends lies there whole."""
    material, base = pattern.materials[key], pattern.base
    whole = not isinstance(base, Board | ReadyMade) and base.become_stakes
    return material if whole else part_of(material, 0.0, butt_mm(material, pattern))


def part_of(material: Material, start_mm: float, end_mm: float) -> Material:
    """The material as thick as a rod of it is from `start_mm` to `end_mm`, measured from the butt."""
    if not material.stock.tapered:
        return material
    thickness = material.stock.thickness_over(start_mm, end_mm)
    return replace(material, stock=replace(material.stock, width_mm=thickness, thickness_mm=thickness))
