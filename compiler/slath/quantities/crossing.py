"""How much strand one upright takes: the crossing from face to face, the cycle of a weave and its take-up.

Uprights are taken as straight, so the strand alone is crimped: F. T. Peirce, "The Geometry of Cloth Structure",
Journal of the Textile Institute 28 (1937), with one thread system straight. All lengths in millimetres.
"""

from __future__ import annotations

import math

from msgspec import Struct

from slath.language.pattern import WeaveSpec


class UprightSection(Struct, frozen=True):
    """What a strand goes round: the width of one working upright along the wall and its thickness through the wall.

    Uprights worked in twos or threes, and flat ones, are wider than thick; the strand lies straight along the
    difference and bends round the edges, which are taken as half round.
    """

    width_mm: float
    thickness_mm: float

    @property
    def flat_mm(self) -> float:
        """The part of the width along which the strand lies straight."""
        return max(0.0, self.width_mm - self.thickness_mm)


class StakesTooCloseError(ValueError):
    """The uprights leave no room for the strand to pass between them."""

    def __init__(self, spacing_mm: float, needed_mm: float) -> None:
        super().__init__(f"spacing {spacing_mm:.2f} mm, the strand needs more than {needed_mm:.2f} mm")
        self.spacing_mm = spacing_mm
        self.needed_mm = needed_mm


def closest_mm(upright: UprightSection, strand_thickness_mm: float) -> float:
    """The spacing at which the weave jams: upright and strand side by side fill it."""
    return upright.flat_mm + upright.thickness_mm + strand_thickness_mm


def crossing_mm(spacing_mm: float, upright: UprightSection, strand_thickness_mm: float) -> float:
    """Strand from the front of one upright to the back of the next.

    Two arcs of radius (D + d)/2 round the uprights' centres, each turning through θ, and the straight piece t that
    touches both. Peirce's pair of equations, with D + d = S and s the spacing between round uprights,
    t sin θ + S (1 - cos θ) = S and s = t cos θ + S sin θ, solve to sin θ = S / s and t = √(s² - S²).
    Raises StakesTooCloseError where s ≤ S.
    """
    span = spacing_mm - upright.flat_mm
    swing = upright.thickness_mm + strand_thickness_mm
    if span <= swing:
        raise StakesTooCloseError(spacing_mm, closest_mm(upright, strand_thickness_mm))
    return upright.flat_mm + math.sqrt(span * span - swing * swing) + swing * math.asin(swing / span)


def jammed_mm(upright: UprightSection, strand_thickness_mm: float) -> float:
    """The longest a crossing can be: the strand turns a quarter round each upright, which touch it on both sides."""
    return upright.flat_mm + (upright.thickness_mm + strand_thickness_mm) * math.pi / 2


def face_changes(weave: WeaveSpec) -> int:
    """How often a strand changes face in one cycle of its strokes, the last stroke followed by the first."""
    faces = [
        face
        for stroke in weave.strokes
        for face, count in (("before", stroke.before), ("behind", stroke.behind))
        for _ in range(count)
    ]
    return sum(face != faces[place - 1] for place, face in enumerate(faces))


def cycle_mm(weave: WeaveSpec, spacing_mm: float, upright: UprightSection, strand_thickness_mm: float) -> float:
    """One strand through one cycle: a crossing for each change of face, the spacing for each upright passed besides."""
    changes = face_changes(weave)
    straight = (weave.cycle - changes) * spacing_mm
    return straight + changes * crossing_mm(spacing_mm, upright, strand_thickness_mm)


def take_up(weave: WeaveSpec, spacing_mm: float, upright: UprightSection, strand_thickness_mm: float) -> float:
    """Strand used ÷ distance covered (a ratio above 1). Raises StakesTooCloseError where the weave jams."""
    return cycle_mm(weave, spacing_mm, upright, strand_thickness_mm) / (weave.cycle * spacing_mm)


def jammed_take_up(weave: WeaveSpec) -> float:
    """The take-up of round uprights touched by the strand on both sides: no weave takes more."""
    changes = face_changes(weave)
    return (weave.cycle - changes + changes * math.pi / 2) / weave.cycle
