"""Names of the figures a step calls for; the drawings go by the same names, and a test holds the two together."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from slath.basket.model import ConstructedBase, WorkedBorder, WovenBand

BASE_PLAN = "base-plan"
STAKING_PLAN = "staking-plan"
SIDE = "side"
COLOUR_PLAN = "colour-plan"
PROFILE = "profile"


def base_band_names(base: ConstructedBase) -> list[str]:
    """One for each band of the base: openings while the ends are grouped, then weavings by their names."""
    names: list[str] = []
    openings = 0
    for band in base.bands:
        if max(band.group_sizes, default=1) > 1:
            openings += 1
            names.append(f"base-opening-{openings}")
            continue
        name = f"base-weaving-{_slug(band.name)}"
        while name in names:
            name += "-again"
        names.append(name)
    return names


def stroke_name(band: WovenBand) -> str:
    """The first strokes of a weave; bands of one weave share the figure."""
    return f"stroke-{_slug(band.spec.weave.label)}{'-reversed' if band.spec.reversed else ''}"


def border_pass_names(border: WorkedBorder, number: int) -> tuple[str, ...]:
    """The start, the running and the finish of one pass."""
    stem = "foot-border" if border.spec.foot else "border"
    return tuple(f"{stem}-{number}-{phase}" for phase in ("start", "running", "finish"))


def handle_names(number: int) -> tuple[str, ...]:
    """The parts of a handle, and its place on the basket."""
    return (f"handle-{number}", f"handle-{number}-parts")


def wrap_name(number: int, place: int) -> str:
    """One wrap of a handle, unrolled."""
    return f"handle-{number}-wrap-{place}"


def _slug(text: str) -> str:
    return "-".join("".join(sign if sign.isalnum() else " " for sign in text.lower()).split())
