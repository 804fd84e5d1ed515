"""When pieces of the cut list are taken up."""

from __future__ import annotations

from slath.quantities.results import Piece

# The stage in which pieces of the list are taken up, by what their part is called; all else is taken up with the handle.
_TAKEN_AT = (
    ("base", ("base sticks", "through sticks", "half stick", "lengthwise", "crosswise", "extra ends", "tie of the slath",
              "ties of the slath", "cross pieces", "board", "corner posts", "base ring")),
    ("stakes", ("stakes", "foot stakes")),
    ("border", ("added border pieces",)),
    ("lid", ("lid ", "hinge")),
)  # fmt: skip


def taken_at(piece: Piece) -> str:
    """The stage in which pieces of a part are taken up."""
    part = piece.part
    if piece.of not in {"", "lid"}:
        return "parts"
    if part == "added stakes":
        return "change"
    if part == "bye-stakes":
        return "bye-stakes"
    if part == "rim ring":
        return "border ring"
    for stage, names in (_TAKEN_AT[3], *_TAKEN_AT[:3]):
        if any(part.startswith(name) for name in names):
            return stage
    return "handle"
