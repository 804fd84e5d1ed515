"""The kinds of handle, one row each: what a kind is built like, and what may be said of it.

Every later room asks a handle's family by ``match`` and ends in ``assert_never``, so that a new family cannot be forgotten.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct

HandleName = Literal["bow", "twisted", "roped", "two-piece", "braided", "drop", "ring", "side", "ears", "swinging"]
Family = Literal["bow", "side", "drop", "ring", "ears", "swinging"]
Piece = tuple[str, str]  # one, and many


class HandleKind(Struct, frozen=True):
    """One kind of handle. `family`: a bow goes over the top, side handles stand at one place of the rim, drops and rings
    hang from loops, ears stand by themselves, swinging bows hang in ears.

    `keys` may be given besides those every handle has. `dries` in its shape before it is set in.
    """

    family: Family
    piece: Piece
    keys: frozenset[str]
    fewest_pieces: int = 1
    dries: bool = False


SPANNING = frozenset({"bow", "swinging"})  # families that stand on two stakes facing each other
EVERY_HANDLE = frozenset(
    {"kind", "material", "count", "direction", "at", "length", "wraps", "lash", "note", "set", "liner"}
)
_ARCH = frozenset({"pieces", "rise", "span", "shape", "feet"})
_OVER = _ARCH | {"through_base", "lap"}

HANDLE_KINDS: Mapping[HandleName, HandleKind] = {
    "bow": HandleKind("bow", ("bow handle", "bow handles"), _OVER, dries=True),
    "twisted": HandleKind("bow", ("twisted handle", "twisted handles"), _OVER),
    "roped": HandleKind("bow", ("roped handle", "roped handles"), _OVER, dries=True),
    "two-piece": HandleKind("bow", ("two-piece handle", "two-piece handles"), _OVER, fewest_pieces=2, dries=True),
    "braided": HandleKind("bow", ("braided handle", "braided handles"), _OVER, fewest_pieces=3),
    "side": HandleKind("side", ("side handle", "side handles"), _ARCH, dries=True),
    "drop": HandleKind("drop", ("drop handle", "drop handles"), frozenset({"rise", "span", "shape", "feet"})),
    "ring": HandleKind("ring", ("ring handle", "ring handles"), frozenset({"diameter", "span", "lap", "rounds"})),
    "ears": HandleKind("ears", ("ear", "ears"), frozenset({"rise", "feet"})),
    "swinging": HandleKind(
        "swinging", ("bow", "bows"), frozenset({"rise", "span", "shape", "scarf", "ears", "bind"}), dries=True
    ),
}
