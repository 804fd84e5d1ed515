"""Photographs looked at before they are set: whether one can be decoded at all, and how it lies on the page."""

from __future__ import annotations

import warnings
from functools import lru_cache
from io import BytesIO

from PIL import Image

from slath.units.names import INCH_MM

_ON_ITS_SIDE = frozenset({5, 6, 7, 8})  # values of Orientation (Exif 2.32, 4.6.4) by which rows become columns


@lru_cache(maxsize=32)
def damage(data: bytes) -> str:
    """What keeps a JPEG or PNG from being printed, in the words of its decoder; empty if nothing does."""
    from PIL import Image, ImageOps  # noqa: PLC0415 - only photographs need it

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of data that may be left out, such as a camera's remarks
        try:
            with Image.open(BytesIO(data), formats=("JPEG", "PNG")) as image:
                ImageOps.exif_transpose(image).convert("RGB")
        except Exception as problem:  # noqa: BLE001 - decoders raise whatever comes to them on damaged data
            return str(problem) or type(problem).__name__
    return ""


@lru_cache(maxsize=256)
def shape(data: bytes) -> tuple[int, int]:
    """Dots across and down as the photograph is shown, its data not decoded. OSError for what is no picture."""
    from PIL import ExifTags, Image  # noqa: PLC0415

    with Image.open(BytesIO(data)) as image:
        width, height = image.size
        turned = image.getexif().get(ExifTags.Base.Orientation) in _ON_ITS_SIDE
    return (height, width) if turned else (width, height)


FINEST = 300  # dots an inch, as fine as offset printing shows (common practice)
WIDEST_MM = 220.0  # across a page with its bleed: no photograph is printed wider
QUALITY = 88
_PNG_MODES = ("1", "P", "L", "LA")  # drawings and scans, which JPEG would smear


@lru_cache(maxsize=32)
def prepared(data: bytes) -> bytes:
    """A photograph as every edition takes it: upright, in sRGB or grey, no finer than any page shows, and nothing in the
    file but the picture – no place, no camera, no small picture of another view.

    JPEG, or PNG for a drawing in few colours. Raises what its decoder raises for what is no picture.
    """
    from PIL import Image, ImageOps  # noqa: PLC0415 - only photographs need it

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with Image.open(BytesIO(data), formats=("JPEG", "PNG")) as opened:
            drawn = opened.format == "PNG" and opened.mode in _PNG_MODES
            picture = _on_white(_in_srgb(ImageOps.exif_transpose(opened)))
    most = round(WIDEST_MM / INCH_MM * FINEST)
    if picture.width > most:
        height = max(round(picture.height * most / picture.width), 1)
        picture = picture.resize((most, height), Image.Resampling.LANCZOS)
    bare = Image.frombytes(picture.mode, picture.size, picture.tobytes())  # pixels alone
    out = BytesIO()
    if drawn:
        bare.save(out, "PNG", optimize=True)
    else:
        bare.save(out, "JPEG", quality=QUALITY, optimize=True, subsampling=0)
    return out.getvalue()


def _in_srgb(picture: Image.Image) -> Image.Image:
    """The picture in sRGB or grey, by the profile it carries, or as its numbers stand where it carries none or a bad one."""
    from PIL import ImageCms  # noqa: PLC0415

    profile = picture.info.get("icc_profile")
    clear = "A" in picture.getbands() or "transparency" in picture.info
    if profile and picture.mode in {"RGB", "CMYK", "L"} and not clear:
        try:
            made = ImageCms.profileToProfile(
                picture, ImageCms.ImageCmsProfile(BytesIO(profile)), ImageCms.createProfile("sRGB"), outputMode="RGB"
            )
        except (ImageCms.PyCMSError, OSError, ValueError):
            made = None
        if made is not None:
            return made
    if picture.mode.startswith("I"):  # sixteen bits of grey
        return picture.point(lambda value: value * (1 / 256)).convert("L")
    return picture if picture.mode in {"RGB", "RGBA", "L", "LA"} else picture.convert("RGBA" if clear else "RGB")


def _on_white(picture: Image.Image) -> Image.Image:
    """Paper where the picture is clear."""
    from PIL import Image  # noqa: PLC0415

    if "A" not in picture.getbands():
        return picture if picture.mode in {"RGB", "L"} else picture.convert("RGB")
    clear = picture.convert("RGBA")
    ground = Image.new("RGB", picture.size, "white")
    ground.paste(clear, mask=clear.getchannel("A"))
    return ground
