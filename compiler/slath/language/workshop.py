"""The workshop file that patterns share, read beside a pattern; its places stand under the key that names it."""

from __future__ import annotations

from pathlib import Path as FilePath

from msgspec import Struct, field

from slath.language.checking import check
from slath.language.document import Document, read_document
from slath.language.files import OutsideError, file_inside
from slath.language.places import Path
from slath.language.schemas import schema
from slath.language.source import read_source
from slath.messages.told import told
from slath.notes import Note, PatternFaultError, Place, Severity

PREFIX: Path = ("workshop_file",)


class Workshop(Struct):
    """The file's data with its notes; empty where a pattern names none."""

    document: Document | None = None
    notes: list[Note] = field(default_factory=list)
    faulty: set[Path] = field(default_factory=set)


def read_workshop(pattern: Document, folder: FilePath, given: FilePath | None) -> Workshop:
    """The workshop file `given` on the command line, else the one the pattern names in its own folder."""
    named = pattern.data.get("workshop_file")
    if given is None and not isinstance(named, str):
        return Workshop()
    place = pattern.places[PREFIX][1] if PREFIX in pattern.places else Place(pattern.source.file, 1, 1)
    name = given.name if given is not None else str(named)
    try:
        file = given if given is not None else file_inside(folder, name)
        document = read_document(read_source(file))
    except OutsideError:
        return _refused(
            "outside-folder",
            place,
            told("{named} is outside the pattern's folder; nothing is read from there unasked.", named=named),
            told("copy it beside the pattern"),
            told("or give it on the command line: --workshop FILE"),
        )
    except OSError as error:
        return _refused(
            "file-not-read",
            place,
            told("The workshop file {name} cannot be read: {strerror}.", name=name, strerror=error.strerror),
            told("check its name"),
            told("put it beside the pattern"),
        )
    except PatternFaultError as fault:
        return Workshop(None, list(fault.notes), {PREFIX})
    notes, faulty, _ = check(document, schema("workshop"), (), PREFIX)
    return Workshop(document, [*document.notes, *notes], faulty)


def _refused(code: str, place: Place, sentence: str, *remedies: str) -> Workshop:
    return Workshop(None, [Note(code, Severity.ERROR, place, sentence, remedies=remedies)], {PREFIX})
