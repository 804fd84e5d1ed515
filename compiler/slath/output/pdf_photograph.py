"""Photographs as image objects, in colours an sRGB archive may hold."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING, Any

from PIL import Image
from reportlab.pdfbase.pdfdoc import PDFName

from slath.output.pdf_file import RawStream

if TYPE_CHECKING:
    from slath.booklet.blocks import Photograph
    from slath.output.pdf_file import PdfFile

SPACES = {"RGB": "DeviceRGB", "L": "DeviceGray"}


def image(photograph: Photograph, file: PdfFile, images: dict[bytes, tuple[str, Any]]) -> str:
    """The resource name of a photograph; the same bytes are written once. JPEG data are kept as they are."""
    known = images.get(photograph.data)
    if known is None:
        name = f"Im{len(images) + 1}"
        known = images[photograph.data] = (name, file.add(_stream(photograph.data)))
    return known[0]


def _stream(data: bytes) -> RawStream:
    with Image.open(BytesIO(data)) as picture:
        width, height = picture.size
        kept = picture.format == "JPEG" and picture.mode in SPACES
        if not kept and "A" in picture.getbands():
            ground = Image.new("RGB", picture.size, "white")  # paper shows where the picture is clear
            ground.paste(picture, mask=picture.getchannel("A"))
            pixels, mode = ground.tobytes(), "RGB"
        else:
            mode = picture.mode if picture.mode in SPACES else "RGB"
            pixels = b"" if kept else picture.convert(mode).tobytes()
    entries = {
        "Type": PDFName("XObject"), "Subtype": PDFName("Image"), "Width": width, "Height": height,
        "BitsPerComponent": 8, "ColorSpace": PDFName(SPACES[mode]),
    }  # fmt: skip
    if kept:
        return RawStream(data, {**entries, "Filter": PDFName("DCTDecode")}, compress=False)
    return RawStream(pixels, entries)
