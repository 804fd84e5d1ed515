"""Notes to the designer: the record, the catalogue of codes, and how notes are printed."""

from slath.notes.note import Note, PatternFaultError, Place, Severity

__all__ = ["Note", "PatternFaultError", "Place", "Severity"]
