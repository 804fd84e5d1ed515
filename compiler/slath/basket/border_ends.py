"""Whose ends make a border: all stakes, one half of every group, or one kind; and where a foot takes its ends from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from slath.basket.model import Basket, CannotConstruct, Stake, WorkedBorder
from slath.language.pattern import Board, Border
from slath.messages.told import kept

FootEnds = Literal["below a board", "from the rim", "after the border", "of its own"]
_KINDS = {"stakes": "stake", "bye-stakes": "bye-stake", "through sticks": "through"}


def ends_for(border: Border, stakes: Sequence[Stake]) -> tuple[Stake, ...]:
    """The stakes whose ends make `border`, in order. Of an odd group the left half is the larger.

    Raises CannotConstruct where no stake is of that kind or stands in that half.
    """
    stakes = [stake for stake in stakes if stake.kind != "post"]  # a post is cut off level with the border
    if border.of == "all":
        return tuple(stakes)
    if border.of in _KINDS:
        chosen = tuple(stake for stake in stakes if stake.kind == _KINDS[border.of])
    else:
        chosen = tuple(stake for stake in stakes if _half_of(stake, stakes) == border.of)
    if not chosen:
        raise CannotConstruct(
            "border-without-ends", (*border.path, "of"), "foot border" if border.foot else "border",
            kept("refusals.the-border-is-to-be", of=border.of),
            (kept("refusals.take-the-stakes-in-twos"), kept("refusals.leave-it-out-every-stake")),
        )  # fmt: skip
    return chosen


def _half_of(stake: Stake, stakes: Sequence[Stake]) -> str:
    group = [other.number for other in stakes if other.working == stake.working]
    left = group.index(stake.number) < (len(group) + 1) // 2
    return f"{'left' if left else 'right'} half of each group"


def makes(border: WorkedBorder | None, stake: Stake) -> bool:
    """Whether the end of `stake` is worked into `border`."""
    return border is not None and (not border.stakes or stake.number in border.stakes)


def foot_ends(basket: Basket) -> FootEnds | None:
    """Where the ends of the foot border come from; None on a basket without one.

    Below a board they are what the stakes leave standing there. On a woven base they come down outside: of some stakes
    from the rim, or of all after the border, if its last pass goes down as deep as the designer says; else short stakes of
    its own are pushed up beside the uprights.
    """
    foot, border = basket.foot, basket.border
    if foot is None:
        return None
    if foot.spec.stakes is not None:
        return "of its own"
    if foot.spec.turned_down or foot.spec.of != "all":
        return "from the rim"
    if isinstance(basket.pattern.base, Board):
        return "below a board"
    last = border.passes[-1] if border is not None and border.passes else None
    # An end that only goes down to hold, as deep as ends usually do, does not come out below the base.
    through = last is not None and last.ending == "down" and last.spec.depth_mm is not None
    through = through and last is not None and not last.spec.comes_out
    return "after the border" if basket.profile is None or through else "of its own"
