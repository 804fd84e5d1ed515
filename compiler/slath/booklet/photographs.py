"""Photographs looked at before they are set: whether one can be decoded at all, and how it lies on the page."""

from __future__ import annotations

import warnings
from functools import lru_cache
from io import BytesIO

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
