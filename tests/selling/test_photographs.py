"""Photographs of every kind a camera, a scanner or an ill-willed sender makes: printed clean, or refused with a note."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from PIL import ExifTags, Image, ImageCms, TiffImagePlugin
from PIL.PngImagePlugin import PngInfo
from pypdf import PdfReader

from slath.booklet.photographs import FINEST, WIDEST_MM, damage, prepared
from slath.editions import EDITIONS, editions_of
from slath.notes import PatternFaultError
from slath.pipeline import compile_pattern
from slath.work import BuildOptions, damaged_pictures

PATTERN = (Path(__file__).parents[2] / "patterns" / "eel-mat.yaml").read_text("utf-8")


def _colours(size: tuple[int, int] = (400, 300), mode: str = "RGB") -> Image.Image:
    """A picture whose top left is red, so that it can be told which way up it stands."""
    picture = Image.new("RGB", size, (40, 90, 160))
    picture.paste((200, 30, 30), (0, 0, size[0] // 2, size[1] // 2))
    return picture.convert(mode)


def _saved(picture: Image.Image, kind: str, **options: object) -> bytes:
    out = BytesIO()
    picture.save(out, kind, **options)
    return out.getvalue()


def _with_a_place() -> bytes:
    """A JPEG as a telephone writes it: lying on its side, with where it was taken and by whom."""
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = 6
    exif[ExifTags.Base.Artist] = "Somebody Private"
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitude] = (
        TiffImagePlugin.IFDRational(51), TiffImagePlugin.IFDRational(30), TiffImagePlugin.IFDRational(7),
    )  # fmt: skip
    return _saved(_colours(), "JPEG", exif=exif, comment=b"Somebody Private")


def _profiled(mode: str) -> bytes:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    return _saved(_colours(mode=mode), "JPEG", icc_profile=profile)


GOOD: dict[str, Callable[[], bytes]] = {
    "jpeg": lambda: _saved(_colours(), "JPEG"),
    "grey": lambda: _saved(_colours(mode="L"), "JPEG"),
    "cmyk": lambda: _saved(_colours(mode="CMYK"), "JPEG"),
    "progressive": lambda: _saved(_colours(), "JPEG", progressive=True),
    "with a place": _with_a_place,
    "with a profile": lambda: _profiled("RGB"),
    "with a wrong profile": lambda: _saved(_colours(), "JPEG", icc_profile=b"no profile at all"),
    "cmyk with a profile of another kind": lambda: _profiled("CMYK"),
    "huge": lambda: _saved(_colours((5000, 3000)), "JPEG"),
    "one dot": lambda: _saved(_colours((1, 1)), "PNG"),
    "clear": lambda: _saved(_colours(mode="RGBA"), "PNG"),
    "few colours": lambda: _saved(_colours(mode="P"), "PNG"),
    "black and white": lambda: _saved(_colours(mode="1"), "PNG"),
    "sixteen bits": lambda: _saved(Image.new("I;16", (40, 40), 40000), "PNG"),
    "with words": lambda: _saved(_colours(), "PNG", pnginfo=_words()),
}


def _words() -> PngInfo:
    info = PngInfo()
    info.add_text("Author", "Somebody Private")
    return info


@pytest.mark.parametrize("kind", GOOD)
def test_a_photograph_is_made_ready(kind: str) -> None:
    """In grey or RGB, no finer than the widest page shows, with nothing in the file but the picture, the same every time."""
    raw = GOOD[kind]()
    assert not damage(raw)
    made = prepared(raw)
    assert made == prepared(raw)
    with Image.open(BytesIO(made)) as picture:
        assert picture.mode in {"RGB", "L"}
        assert picture.width <= round(WIDEST_MM / 25.4 * FINEST)
        assert not picture.getexif()
        assert not {"exif", "comment", "icc_profile", "xmp"} & set(picture.info)
    assert b"Somebody Private" not in made


def test_a_picture_on_its_side_stands_up() -> None:
    """The red corner, top left in the camera's rows, is at the top right once it is turned as the camera was held."""
    with Image.open(BytesIO(prepared(_with_a_place()))) as picture:
        assert picture.size == (300, 400)
        red, _, blue = picture.convert("RGB").getpixel((280, 20))  # type: ignore[misc]
        assert red > blue


def test_sixteen_bits_of_grey_keep_their_tone() -> None:
    """40,000 of 65,536 is 156 of 256, not white."""
    with Image.open(BytesIO(prepared(GOOD["sixteen bits"]()))) as picture:
        assert abs(picture.getpixel((20, 20)) - 156) <= 2  # type: ignore[operator]


def _bomb() -> bytes:
    """A PNG of a few hundred bytes that says it is 50,000 dots wide and high."""
    head = struct.pack(">IIBBBBB", 50_000, 50_000, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(b"\0" * 1000)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data)) for kind, data in chunks
    )


BAD: dict[str, Callable[[], bytes]] = {
    "bomb": _bomb,
    "cut off": lambda: _saved(_colours(), "JPEG")[:600],
    "cut off png": lambda: _saved(_colours(), "PNG")[:200],
    "noise": lambda: b"\xff\xd8\xff" + bytes(range(256)) * 40,
    "a GIF called JPEG": lambda: _saved(_colours(mode="P"), "GIF"),
    "empty": lambda: b"",
    "words": lambda: b"this is no picture",
}


def _pattern(folder: Path, data: bytes, at: str = "cover") -> Path:
    (folder / "photo.jpg").write_bytes(data)
    file = folder / "mat.yaml"
    text = PATTERN.replace("workshop_file: otter-weir.workshop.yaml\n", "")
    file.write_text(
        f"{text}photographs:\n  - {{file: photo.jpg, shows: The finished mat., at: {at}, caption: On the table}}\n",
        "utf-8",
    )
    return file


@pytest.mark.parametrize("kind", BAD)
def test_what_is_no_picture_is_refused_where_it_is_named(kind: str, tmp_path: Path) -> None:
    """With a note, before anything is set; never by an exception."""
    file = _pattern(tmp_path, BAD[kind]())
    try:
        compilation = compile_pattern(file)
        notes = (*compilation.notes, *damaged_pictures(compilation))
    except PatternFaultError as fault:
        notes = fault.notes
    assert [note for note in notes if note.stops]


@pytest.mark.parametrize("at", ["cover", "back", "base"])
def test_it_stands_where_it_was_asked_for_and_makes_no_page_heavy(at: str, tmp_path: Path) -> None:
    """Once in the booklet, as JPEG, in few bytes; in the words of the text edition too."""
    file = _pattern(tmp_path, GOOD["huge"](), at)
    compilation = compile_pattern(file)
    made = dict(editions_of(compilation, BuildOptions(editions=("booklet", "text")), lambda _: None))
    (pdf,) = [data for name, data in made.items() if name.endswith(".pdf")]
    images = {image.data for page in PdfReader(BytesIO(pdf)).pages[:1] for image in page.images}  # all pages share them
    assert len(images) == 1
    assert all(len(data) < 1_000_000 for data in images)
    (text,) = [data.decode() for name, data in made.items() if name.endswith(".txt")]
    assert "The finished mat." in text


def test_every_edition_takes_the_clean_picture(tmp_path: Path) -> None:
    """The web page holds no word of the camera's either."""
    file = _pattern(tmp_path, _with_a_place(), "base")
    made = dict(editions_of(compile_pattern(file), BuildOptions(editions=("web page", "handout")), lambda _: None))
    assert EDITIONS
    for data in made.values():
        assert b"Somebody Private" not in data
        assert b"Exif" not in data
