"""The designer's own pictures: whether each is there, and is a picture that can be printed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from slath.language.files import OutsideError, file_inside, read_bytes

if TYPE_CHECKING:
    from slath.language.view import View

# How a file of each kind begins: ISO/IEC 10918-1 B.1.1.3 (start of image), ISO/IEC 15948 5.2 (signature).
GREATEST_PICTURE = 50_000_000  # bytes: more than any camera's JPEG
_BEGINNINGS = (b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")


def read_picture(view: View) -> tuple[str, str]:
    """The file of a picture, as written, and what it shows."""
    file = view.get("file")
    name = file.own_text() if file is not None else ""  # printed nowhere, so in whatever letters the disk has
    if file is not None:
        _look_at(file, name)
    return name, view.text("shows")


def _look_at(file: View, name: str) -> None:
    try:
        begins = read_bytes(file_inside(Path(file.reading.file).parent, name), max(map(len, _BEGINNINGS)))
    except OutsideError:
        file.note(
            "outside-folder",
            f"{name} is outside the pattern's folder.",
            "copy it beside the pattern and write its name",
        )
        return
    except OSError as error:
        file.note(
            "file-not-read",
            f"The picture {name} cannot be read: {error.strerror}.",
            "check its name",
            "put it beside the pattern",
        )
        return
    if not begins.startswith(_BEGINNINGS):
        file.note(
            "not-a-picture",
            f"{name} is no JPEG or PNG picture, whatever its name says.",
            "save it as JPEG or PNG, and name the new file",
        )
