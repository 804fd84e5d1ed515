"""What a comparison leaves in a folder: the slip, the note for buyers, the data, and the words for the changes page."""

from __future__ import annotations

import json

from slath.booklet.styles import shipped
from slath.output.pdf import set_document
from slath.selling.comparing import Comparison
from slath.selling.errata import buyers_note, comparison_data, errata_slip, is_printed

SLIP_STYLE = "booklet"  # half-size pages, which fold into any copy


def change_files(found: Comparison, contact: str = "") -> dict[str, bytes]:
    """The files by name; no slip where a buyer has nothing to correct."""
    stem = found.new.file.rsplit(".", 1)[0]
    made = {
        f"{stem}-changes.json": json.dumps(comparison_data(found), ensure_ascii=False, indent=2).encode() + b"\n",
        f"{stem}-note-for-buyers.txt": buyers_note(found, contact).encode(),
    }
    if any(is_printed(change) for change in found.numbers) or found.words or found.figures:
        made[f"{stem}-errata-slip.pdf"] = set_document(errata_slip(found, contact), shipped(SLIP_STYLE))
    return made
