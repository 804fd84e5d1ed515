"""Pieces of handles and of what is wrapped round them."""

from __future__ import annotations

import math
from collections import Counter

from msgspec.structs import replace

from slath.basket.model import HandlePiece, WorkedHandle, WorkedWrap
from slath.language.handle_kinds import HANDLE_KINDS
from slath.language.pattern import SizedPattern
from slath.quantities.cutting import piece_of, wound_on
from slath.quantities.results import Piece
from slath.units import Amount, Basis, worked

_STRANDS = {"rope": "rope strands", "lapping": "lapping strands", "twist": "twisting strands"}
_BINDINGS = {"wire": "binding wires", "cord": "binding threads"}
_WHOLE_MM = 1e-6


def handle_pieces(handles: tuple[WorkedHandle, ...], pattern: SizedPattern) -> tuple[Piece, ...]:
    """Every piece of every handle, then its wraps, in the order they are worked."""
    pieces: list[Piece] = []
    for handle in handles:
        pieces += [_other(other, pattern) for other in handle.before]
        pieces.append(_handle(handle, pattern))
        pieces += [_other(other, pattern) for other in handle.after]
        for wrap in handle.wraps:
            pieces += _wrap(handle, wrap, pattern)
        if handle.lash_mm is not None:
            pieces.append(_lashing(handle, handle.lash_mm, pattern))
    return tuple(pieces)


def _lashing(handle: WorkedHandle, lash: Amount, pattern: SizedPattern) -> Piece:
    """One lashing for each foot; what hangs from the border hangs in loops."""
    path = (*handle.spec.path, "lash")
    places = len(handle.feet_at) or handle.spec.count  # the ring of a lid stands beside no stake
    count = Amount("lashings", places, "count", Basis.COUNTED, formula="one for each foot", path=path)
    one = "loop" if handle.spec.family in ("drop", "ring") else "lashing"
    name = one if count.value == 1 else f"{one}s"
    return piece_of(name, handle.spec.lash, count, _parts(lash), pattern, path=path)


def _handle(handle: WorkedHandle, pattern: SizedPattern) -> Piece:
    spec = handle.spec
    number = spec.count * max(spec.pieces, 1)
    one, more = HANDLE_KINDS[spec.kind].piece
    if spec.pieces > 1:
        one, more = f"{one} piece", f"{one} pieces"
    part = more if number > 1 else one
    formula = "handles × pieces of each" if spec.pieces > 1 else "handles"
    count = worked(part, number, "count", formula, basis=Basis.GIVEN, path=spec.path)
    return piece_of(
        part,
        spec.material,
        count,
        _parts(handle.piece_mm),
        pattern,
        path=(*spec.path, "length") if spec.length_mm is not None else spec.path,
        given_mm=spec.length_mm,
    )


def _other(other: HandlePiece, pattern: SizedPattern) -> Piece:
    """Ears, bindings, liners: what a handle has besides its own pieces."""
    part = other.part[1] if other.count.value > 1 else other.part[0]
    path = (*other.path, "length") if other.given_mm is not None else other.path
    return piece_of(
        part, other.material, other.count, _parts(other.length), pattern, path=path, given_mm=other.given_mm
    )


def _wrap(handle: WorkedHandle, wrap: WorkedWrap, pattern: SizedPattern) -> list[Piece]:
    """Wrapping strands by material: the strands listed are used in turn until there are enough."""
    spec = wrap.spec
    number = round(wrap.strands.value)
    shares = Counter(spec.strands[index % len(spec.strands)] for index in range(number))
    pieces: list[Piece] = []
    for key, share in shares.items():
        part = wrap_part(wrap, key, pattern)
        total = share * handle.spec.count * spec.places
        formula = "strands of this material × handles" + (" × places" if spec.places > 1 else "")
        handles = Amount("handles", handle.spec.count, "count", Basis.GIVEN, path=handle.spec.path)
        count = worked(part, total, "count", formula, wrap.strands, handles, path=spec.path)
        made = piece_of(part, key, count, _parts(wrap.strand_mm), pattern, path=spec.path)
        made = replace(made, offcut=spec.offcuts)
        pieces.append(wound_on(made, pattern) if spec.kind == "lapping" else made)
    return pieces


def wrap_part(wrap: WorkedWrap, material: str, pattern: SizedPattern) -> str:
    """What a strand wound round a handle is called in the list: wire and thread bind, they do not lap."""
    usual = _STRANDS[wrap.spec.kind]
    return _BINDINGS.get(pattern.materials[material].stock.kind, usual) if wrap.spec.kind == "lapping" else usual


def _parts(length: Amount) -> tuple[Amount, ...]:
    """The lengths that were added up to `length`; the length itself where it was not a sum."""
    inputs = tuple(item for item in length.inputs if item.unit == "mm")
    if len(inputs) > 1 and abs(math.fsum(item.value for item in inputs) - length.value) < _WHOLE_MM:
        return inputs
    return (length,)
