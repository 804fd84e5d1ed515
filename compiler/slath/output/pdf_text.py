"""Runs of glyphs as PDF operators, kerned, in embedded fonts."""

from __future__ import annotations

from collections.abc import Iterable

from slath.booklet.faces import face
from slath.booklet.laid import Glyphs
from slath.output.pdf_colour import SCREEN, Colours
from slath.output.pdf_file import PdfFile


class Typist:
    """Writes text of one file: knows its colours, and which characters each font of the file holds so far."""

    def __init__(self, file: PdfFile, colours: Colours = SCREEN) -> None:
        self.colours = colours
        self._document = file.document
        self._shown: dict[tuple[str, str], list[tuple[str, str]]] = {}

    def shown(self, name: str, text: str) -> list[tuple[str, str]]:
        """``text`` as (font resource, operand of ``TJ``), one for each subset of the font it needs."""
        known = self._shown.get((name, text))
        if known is None:
            known = self._shown[name, text] = self._encode(name, text)
        return known

    def _encode(self, name: str, text: str) -> list[tuple[str, str]]:
        own = face(name)
        kerns = own.kerns
        out: list[tuple[str, str]] = []
        at = 0
        for subset, codes in own.font.splitString(text, self._document):
            resource = own.font.getSubsetInternalName(subset, self._document)
            parts, begin = [], 0
            for index in range(len(codes) - 1) if kerns else ():
                kern = kerns.get(text[at + index : at + index + 2])
                if kern:
                    parts.append(f"<{codes[begin : index + 1].hex()}>{-kern * 1000:.0f}")
                    begin = index + 1
            parts.append(f"<{codes[begin:].hex()}>")
            out.append((resource, "[" + "".join(parts) + "]"))
            at += len(codes)
        return out

    def lines(self, runs: Iterable[Glyphs], x: float, y: float) -> str:
        """One text object that shows ``runs``, placed from (x, y) on a page whose y points up from there."""
        out = ["BT"]
        font, colour, space = "", "", 0.0
        for run in runs:
            if run.colour != colour:
                colour = run.colour
                out.append(self.colours.fill(colour))
            if run.space != space:
                space = run.space
                out.append(f"{space:.3f} Tw")
            place = f"1 0 0 1 {x + run.x:.2f} {y - run.y:.2f} Tm"
            for resource, operand in self.shown(run.face, run.text):
                wanted = f"{resource} {run.size:g} Tf"
                if wanted != font:
                    font = wanted
                    out.append(wanted)
                out.append(f"{place} {operand} TJ" if place else f"{operand} TJ")
                place = ""
        if space:
            out.append("0 Tw")
        out.append("ET")
        return "\n".join(out)
