"""What the borders take of the ends of stakes: of every end above the weaving, and of those that make the foot."""

from __future__ import annotations

import math
from collections.abc import Iterable

from msgspec import Struct

from slath.basket.border import work_border
from slath.basket.border_ends import FootEnds, foot_ends, makes
from slath.basket.border_length import border_need
from slath.basket.gathering import gathered_of
from slath.basket.model import Basket, Stake
from slath.language.pattern import Border, BorderPass
from slath.quantities.borders import border_row, stake_mm, taken_by
from slath.quantities.results import BorderRow
from slath.units import Amount, Basis, weakest, worked

_ALIKE_MM = 1.0  # stakes whose ways up the side differ by less are told as one length
_OVER_THE_RIM = ("turned down", "pass 1")  # parts of a path that lie at the rim; the rest is its end


def up_the_side(basket: Basket, from_mm: float = 0.0) -> Amount:
    """The longest stake's own way from `from_mm` up the side to the top of the weaving.

    Where the outline is not a circle stakes differ; all are cut as long as the longest needs.
    """
    profile = basket.profile
    if profile is None:
        return Amount("up the side", 0.0, "mm", Basis.COUNTED, formula="a mat has no side")
    top = profile.height_mm
    places = [stake.u for stake in basket.stakes] or [0.0]
    start = profile.height_of(from_mm) if from_mm > 0 else 0.0
    ways = [profile.slope_mm(u, top) - (profile.slope_mm(u, start) if start else 0.0) for u in places]
    height = Amount("standing height", top - start, "mm", weakest(tuple(band.pitch for band in basket.bands)))
    spread = max(ways) - min(ways)
    formula = "the stake's own curve from base edge to the top of the weaving"
    if spread > _ALIKE_MM:
        formula += f"; the longest, stakes differ by up to {spread:.0f} mm round the basket"
    path = basket.pattern.side.path if basket.pattern.side else ()
    return worked("up the side", max(ways), "mm", formula, height, path=path)


def crossings(basket: Basket) -> tuple[Amount, ...]:
    """What slanting takes where stakes are crossed or taken together anew, over the height left open there."""
    profile = basket.profile
    if profile is None:
        return ()
    found: list[Amount] = []
    standing = basket.working
    for index, change, after in basket.changes:
        if change.action in {"cross", "regroup"} and index < len(basket.bands):
            band = basket.bands[index]
            before = basket.bands[index - 1] if index else None
            opened = [item for item in (before, band) if item is not None and item.spec.weave.kind == "open"]
            high = math.fsum(item.reached_mm for item in opened)
            spacing = profile.curve_at(profile.height_of(band.from_mm)).perimeter / standing
            across = (change.count or 1) * spacing if change.action == "cross" else spacing / 2
            if high > 0:
                apart = Amount("spacing there", spacing, "mm", Basis.COUNTED, path=change.path)
                open_mm = Amount("height left open", high, "mm", Basis.GIVEN, path=band.spec.path)
                more = math.hypot(high, across) - high
                formula = "slant over the height left open, less that height"
                found.append(worked("to cross over", more, "mm", formula, open_mm, apart, path=change.path))
        standing = after
    if len(found) < 2:
        return tuple(found)
    total = math.fsum(one.value for one in found)
    return (worked("to cross over", total, "mm", "slant of every crossing, added up", *found, path=found[0].path),)


class Ends(Struct, frozen=True):
    """What is needed of an end beyond the weaving.

    `border` is what the border takes of each end that makes it, `foot` what weaving and border below the base take,
    `from_rim` what an end takes that comes down outside before it gets there.
    """

    basket: Basket
    border: tuple[Amount, ...]
    foot: tuple[Amount, ...]
    from_rim: tuple[Amount, ...]
    foot_of: FootEnds | None

    @property
    def below_board(self) -> tuple[Amount, ...]:
        """What stakes leave standing below a board."""
        return self.foot if self.foot_of == "below a board" else ()

    def above(self, stakes: Iterable[Stake]) -> tuple[Amount, ...]:
        """What `stakes` that are cut alike need above the weaving: as much as that one of them which needs most."""
        return max((self._of(stake) for stake in stakes), key=_total, default=())

    def of_later(self, kind: str) -> tuple[Amount, ...]:
        """The same of stakes put in part-way up: "bye-stakes", or "stakes" that were added."""
        border = self.basket.border
        if border is None or border.spec.of in {"all", kind} or border.spec.of.endswith("group"):
            return self._in_border
        return ()

    @property
    def _in_border(self) -> tuple[Amount, ...]:
        return (*self.border, *self.foot) if self.foot_of == "after the border" else self.border

    def _of(self, stake: Stake) -> tuple[Amount, ...]:
        if self.foot_of == "from the rim" and makes(self.basket.foot, stake):
            return (*self.from_rim, *self.foot)
        drawn = gathered_of(self.basket) is not None and stake.kind != "post"
        return self._in_border if drawn or makes(self.basket.border, stake) else ()


def ends_of(basket: Basket, border: BorderRow | None) -> Ends:
    """The needs of one basket; `border` is its border's row in the list."""
    taken_from = foot_ends(basket)
    foot = border_row(basket.foot, stake_mm(basket), basket.pattern)
    below = (*_woven_below(basket), *taken_by(foot))
    rim = _from_rim(basket) if taken_from == "from the rim" else ()
    return Ends(basket, taken_by(border) or _gathered(basket), below, rim, taken_from)


def _gathered(basket: Basket) -> tuple[Amount, ...]:
    """What a stake that is drawn together with the others takes above the weaving."""
    spec = gathered_of(basket)
    if spec is None:
        return ()
    above = Amount("to the binding", spec.above_mm, "mm", Basis.GIVEN, path=(*spec.path, "above"))
    stands = Amount("over the binding", spec.stands_mm, "mm", Basis.GIVEN, path=(*spec.path, "stands"))
    return (above, stands)


def _woven_below(basket: Basket) -> tuple[Amount, ...]:
    """The weaving between the base and the foot border."""
    bands = basket.foot_bands
    if not bands:
        return ()
    high = math.fsum(band.reached_mm for band in bands)
    pitches = tuple(band.pitch for band in bands)
    formula = "rounds × height of one round, band by band"
    path = basket.foot.spec.path if basket.foot else ()
    return (worked("through the weaving of the foot", high, "mm", formula, *pitches, path=path),)


def _from_rim(basket: Basket) -> tuple[Amount, ...]:
    """Over the rim by the designer's moves, or one bend, and down outside as far as the base."""
    foot, settings = basket.foot, basket.pattern.settings
    assert foot is not None  # noqa: S101 - there is a foot, or nothing would come down to it
    path = (*foot.spec.path, "turned_down")
    down = up_the_side(basket)
    outside = worked("down outside", down.value, "mm", "as far as up the side", down, path=path)
    if not foot.spec.turned_down:
        bend = settings["bend_allowance"]
        return (worked("over the rim", bend.value, "mm", "one bend", bend, path=path), outside)
    moves = Border(path, (BorderPass(path, foot.spec.turned_down),))
    turned = work_border(moves, foot.count, basket.rim.perimeter / foot.count)
    spacing = Amount("spacing at the rim", turned.spacing_mm, "mm", Basis.COUNTED, path=path)
    parts = [
        part for part in border_need(turned, stake_mm(basket), spacing, settings).parts if part.name in _OVER_THE_RIM
    ]
    formula = " + ".join(part.name for part in parts)
    over = worked("over the rim", math.fsum(part.value for part in parts), "mm", formula, *parts, path=path)
    return (over, outside)


def _total(parts: tuple[Amount, ...]) -> float:
    return math.fsum(part.value for part in parts)
