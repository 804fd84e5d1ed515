"""Measures as people write and read them; plain millimetres and grams inside."""

from slath.units.amount import Amount, Basis, Unit, weakest, worked

__all__ = ["Amount", "Basis", "Unit", "weakest", "worked"]
