"""Names of the figures a step calls for, under which they are drawn."""

from __future__ import annotations

from slath.basket.model import Basket, ConstructedBase, WorkedBorder, WovenBand

BASE_PLAN = "base-plan"
STAKING_PLAN = "staking-plan"
SIDE = "side"
APART = r"(lid-|part-\d+-)?"  # what the names of figures of what is made apart begin with
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


def stroke_bands(basket: Basket) -> dict[str, tuple[WovenBand, ...]]:
    """The first strokes by name, in working order, with the bands each figure stands for.

    Bands share a figure if they are worked alike with the same materials on the same part: whatever else differs would
    have to be told beside it.
    """
    alike: dict[tuple[object, ...], list[WovenBand]] = {}
    for band in basket.woven:
        if band.materials and band.rounds and not band.spec.weave.one_by_one:  # one rod alone shows nothing of it
            alike.setdefault(_worked(band), []).append(band)
    named: dict[str, tuple[WovenBand, ...]] = {}
    for bands in alike.values():
        first = bands[0]
        name = f"stroke-{_slug(first.spec.weave.label)}{'-reversed' if first.spec.reversed else ''}"
        if name in named:
            name += f"-{_slug(first.name)}"
        while name in named:
            name += "-again"
        named[name] = tuple(bands)
    return named


def stroke_names(band: WovenBand, basket: Basket) -> tuple[str, ...]:
    """The name of the first strokes of a band of `basket`; none for a height left open."""
    return tuple(name for name, bands in stroke_bands(basket).items() if any(found is band for found in bands))


def border_pass_names(border: WorkedBorder, number: int) -> tuple[str, ...]:
    """The start, the running and the finish of one pass."""
    stem = "foot-border" if border.spec.foot else "border"
    return tuple(f"{stem}-{number}-{phase}" for phase in ("start", "running", "finish"))


def handle_names(number: int) -> tuple[str, ...]:
    """The parts of a handle, and its place on the basket."""
    return (f"handle-{number}", f"handle-{number}-parts")


def figures_of_ears(number: int) -> tuple[str, ...]:
    """An ear of a swinging handle, its place in the side, a bow lying straight, and how it hangs in its ear."""
    return (f"handle-{number}-ears", f"handle-{number}-ears-in", f"handle-{number}-bow", f"handle-{number}-turn")


def wrap_name(number: int, place: int, *, grouped: bool = False) -> str:
    """One wrap of a handle, unrolled; strands wound in groups go by a name of their own."""
    return f"handle-{number}-{'groups' if grouped else 'wrap'}-{place}"


def apart_figure(name: str, basket: Basket, place: int) -> str:
    """A figure of what is made apart from `basket` (the one at `place` in `Basket.apart`) by its name among its own; first
    strokes the basket has too, or what is made before, are drawn once.
    """
    apart = basket.apart
    own = stroke_bands(apart[place].basket).get(name)
    if own:
        for before, one in enumerate((basket, *(made.basket for made in apart[:place])), start=-1):
            for shared, bands in stroke_bands(one).items():
                if _worked(bands[0]) == _worked(own[0]):
                    return shared if before < 0 else apart_figure(shared, basket, before)
    return f"{apart_stem(basket, place)}{name}"


def apart_stem(basket: Basket, place: int) -> str:
    """What the names of figures of what is made apart begin with: "lid-", or "part-2-" by the place among the parts."""
    apart = basket.apart
    if apart[place].name == "lid":
        return "lid-"
    return f"part-{place + (0 if apart[0].name == 'lid' else 1)}-"


def apart_of(name: str, basket: Basket) -> Basket:
    """The basket a figure is of by its name: what is made apart, or the basket itself."""
    stems = {apart_stem(basket, place): one.basket for place, one in enumerate(basket.apart)}
    return next((made for stem, made in stems.items() if name.startswith(stem)), basket)


def _worked(band: WovenBand) -> tuple[object, ...]:
    return band.on_sticks, band.spec.weave.label, band.spec.reversed, band.materials


def _slug(text: str) -> str:
    return "-".join("".join(sign if sign.isalnum() else " " for sign in text.lower()).split())
