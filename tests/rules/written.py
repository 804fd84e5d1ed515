"""A plain round basket as a pattern file, to be changed line by line, and what the tool says of it."""

from __future__ import annotations

from pathlib import Path

from slath.notes import Note
from slath.pipeline import Compilation, compile_pattern

PLAIN = """\
slath: 1
title: Plain round basket
dated: 2026-04-01
sizes: [small, medium, large]
woven: {small: 2026-03-01, medium: 2026-03-01, large: 2026-03-01}
materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: us round reed 5}
  weaver: {stock: us round reed 3}
base:
  kind: round slath
  diameter: {small: 7 1/2 in, medium: 8 in, large: 8 1/2 in}
  pierced: 5
  threaded: 5
  material: sticks
  weaving:
    - {name: binding, weave: pairing, strands: weaver, rounds: 3, worked: grouped, pitch: 5 mm}
    - {name: base, weave: pairing, strands: weaver, to: edge, pitch: 5 mm}
stakes: {material: stakes, per_end: 2}
side:
  height: 5 in
  rim: {diameter: 9 in}
  bands:
    - {name: upsett, weave: three-rod wale, strands: weaver, rounds: 3, pitch: 5 mm}
    - {name: wall, weave: chasing, strands: weaver, to: top, pitch: 5 mm}
border:
  passes:
    - [behind 2, out]
    - [before 3, in]
"""


def changed(*changes: tuple[str, str], more: str = "", text: str = PLAIN) -> str:
    """The pattern with each first text put in place of; each must be there. `more` is added at the end."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text + more


def compiled(folder: Path, text: str, sizes: tuple[str, ...] = ()) -> Compilation:
    """The pattern `text` written into `folder` and worked out."""
    file = folder / "pattern.yaml"
    file.write_text(text, encoding="utf-8")
    return compile_pattern(file, sizes=sizes)


def notes_of(folder: Path, text: str, code: str, sizes: tuple[str, ...] = ()) -> list[Note]:
    """The notes with `code` that the pattern calls for."""
    return [note for note in compiled(folder, text, sizes).notes if note.code == code]
