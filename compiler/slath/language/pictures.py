"""The designer's own pictures: whether each is there, and is a picture that can be printed."""

from __future__ import annotations

from pathlib import Path

from slath.language.files import OutsideError, file_inside, read_bytes
from slath.language.view import View
from slath.messages.told import Figure, told

# How a file of each kind begins: ISO/IEC 10918-1 B.1.1.3 (start of image), ISO/IEC 15948 5.2 (signature).
_HEAD = 1_000_000  # bytes of a file that are looked at: a camera's remarks and its small picture stand before the size
MOST_DOTS = 60_000_000  # 180 MB once decoded; a page across both columns is printed from eight million
MOST_OBLONG = 40  # times as long as wide
GREATEST_PICTURE = 50_000_000  # bytes: more than any camera's JPEG
_PNG = b"\x89PNG\r\n\x1a\n"
_BEGINNINGS = (b"\xff\xd8\xff", _PNG)


def size_of(begins: bytes) -> tuple[int, int] | None:
    """Dots across and down by the first bytes of a JPEG or PNG; None where they do not say, or say none.

    ISO/IEC 15948 11.2.2 (image header); ISO/IEC 10918-1 B.2.2 (frame header), found by walking the segments before it.
    """
    found = _png_size(begins) if begins.startswith(_PNG) else _jpeg_size(begins)
    return found if found and min(found) > 0 else None


def _png_size(begins: bytes) -> tuple[int, int] | None:
    if begins[12:16] != b"IHDR" or len(begins) < 24:
        return None
    return int.from_bytes(begins[16:20], "big"), int.from_bytes(begins[20:24], "big")


def _jpeg_size(begins: bytes) -> tuple[int, int] | None:
    at = 2
    while at + 9 < len(begins):
        if begins[at] != 0xFF:
            return None
        marker = begins[at + 1]
        if marker == 0xFF or 0xD0 <= marker <= 0xD8 or marker == 1:  # filling, and markers without a segment
            at += 1 if marker == 0xFF else 2
            continue
        if 0xC0 <= marker <= 0xCF and marker not in {0xC4, 0xC8, 0xCC}:
            return int.from_bytes(begins[at + 7 : at + 9], "big"), int.from_bytes(begins[at + 5 : at + 7], "big")
        at += 2 + int.from_bytes(begins[at + 2 : at + 4], "big")
    return None


def read_picture(view: View) -> tuple[str, str]:
    """The file of a picture, as written, and what it shows."""
    file = view.get("file")
    name = file.own_text() if file is not None else ""  # printed nowhere, so in whatever letters the disk has
    if file is not None:
        _look_at(file, name)
    return name, view.text("shows")


def _look_at(file: View, name: str) -> None:
    try:
        place = file_inside(Path(file.reading.file).parent, name)
        begins = read_bytes(place, _HEAD)
        length = place.stat().st_size
    except OutsideError:
        file.note(
            "outside-folder",
            told("{name} is outside the pattern's folder.", name=name),
            told("copy it beside the pattern and write its name"),
        )
        return
    except OSError as error:
        file.note(
            "file-not-read",
            told("The picture {name} cannot be read: {strerror}.", name=name, strerror=error.strerror),
            told("check its name"),
            told("put it beside the pattern"),
        )
        return
    if not begins.startswith(_BEGINNINGS):
        file.note(
            "not-a-picture",
            told("{name} is no JPEG or PNG picture, whatever its name says.", name=name),
            told("save it as JPEG or PNG, and name the new file"),
        )
        return
    found = size_of(begins)
    if found is None:
        file.note(
            "not-a-picture",
            told("{name} is damaged: it does not say how large it is.", name=name),
            told("save the picture anew"),
        )
    elif length > GREATEST_PICTURE or found[0] * found[1] > MOST_DOTS:
        file.note(
            "file-too-large",
            told(
                "{name} is {found} × {found2} dots in {length} MB; {most_dots} million dots in {greatest_picture} MB are the most.",
                name=name,
                found=found[0],
                found2=found[1],
                length=Figure(f"{length / 1000000.0:.0f}"),
                most_dots=MOST_DOTS // 10**6,
                greatest_picture=GREATEST_PICTURE // 10**6,
            ),
            told("save it smaller: 4000 dots along its longer side print finely on a whole page"),
        )
    elif max(found) > MOST_OBLONG * min(found):
        file.note(
            "not-a-picture",
            told(
                "{name} is {found} × {found2} dots: too long and thin to be seen on a page.",
                name=name,
                found=found[0],
                found2=found[1],
            ),
            told("cut it to what it shows"),
        )
