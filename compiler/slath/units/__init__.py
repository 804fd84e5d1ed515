"""Measures as people write and read them; plain millimetres and grams inside."""

from slath.units.amount import Amount, Basis, FinishedSize, LengthToCut, Unit, weakest, worked

__all__ = ["Amount", "Basis", "FinishedSize", "LengthToCut", "Unit", "weakest", "worked"]
