"""Photographs as image objects, in colours an sRGB archive may hold or in the inks of a press."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from PIL import ExifTags, Image, ImageOps
from reportlab.pdfbase.pdfdoc import PDFName

from slath.booklet.blocks import Photograph
from slath.output.pdf_colour import in_inks
from slath.output.pdf_file import PdfFile, RawStream

FINEST = 300  # dots an inch, as fine as offset printing shows (common practice)
SLACK = 1.25  # a picture is only made smaller if it is finer than this times what is printed
QUALITY = 90
SHOWN = ("RGB", "L")  # what a screen and an sRGB archive may hold
SPACES = {"RGB": "DeviceRGB", "L": "DeviceGray", "CMYK": "DeviceCMYK"}


def image(
    photograph: Photograph,
    width: float,
    file: PdfFile,
    images: dict[bytes, tuple[str, Any]],
    *,
    inks: bool = False,
    grey: bool = False,
) -> str:
    """The resource name of a photograph printed ``width`` points wide; the same picture is written once.

    JPEG data are kept as they are unless the camera says the picture lies on its side, or it is finer than any printer,
    or it is wanted in ``inks`` or in ``grey``.
    """
    known = images.get(photograph.data)
    if known is None:
        name = f"Im{len(images) + 1}"
        known = images[photograph.data] = (name, file.add(_stream(photograph.data, width, inks=inks, grey=grey)))
    return known[0]


def _stream(data: bytes, width: float, *, inks: bool, grey: bool) -> RawStream:
    with Image.open(BytesIO(data)) as opened:
        finest = max(round(width / 72 * FINEST), 1)
        turned = opened.getexif().get(ExifTags.Base.Orientation, 1) != 1
        fit = opened.mode in SHOWN and not turned and opened.width <= SLACK * finest
        if opened.format == "JPEG" and fit and not inks and not grey:
            return _jpeg(data, opened.size, opened.mode)
        picture = _on_paper(ImageOps.exif_transpose(opened))
    if picture.width > SLACK * finest:
        picture = picture.resize(
            (finest, max(round(picture.height * finest / picture.width), 1)), Image.Resampling.LANCZOS
        )
    if grey:
        picture = picture.convert("L")
    if inks and picture.mode == "RGB":
        picture = in_inks(picture)
    elif opened.format == "JPEG":
        out = BytesIO()
        picture.save(out, "JPEG", quality=QUALITY)
        return _jpeg(out.getvalue(), picture.size, picture.mode)
    return RawStream(picture.tobytes(), _entries(picture.size, picture.mode))


def _on_paper(picture: Image.Image) -> Image.Image:
    """The picture in grey or RGB, paper showing where it is clear."""
    if "A" in picture.getbands() or "transparency" in picture.info:
        clear = picture.convert("RGBA")
        ground = Image.new("RGB", picture.size, "white")
        ground.paste(clear, mask=clear.getchannel("A"))
        return ground
    return picture if picture.mode in SHOWN else picture.convert("RGB")


def _jpeg(data: bytes, size: tuple[int, int], mode: str) -> RawStream:
    return RawStream(data, {**_entries(size, mode), "Filter": PDFName("DCTDecode")}, compress=False)


def _entries(size: tuple[int, int], mode: str) -> dict[str, Any]:
    return {
        "Type": PDFName("XObject"), "Subtype": PDFName("Image"), "Width": size[0], "Height": size[1],
        "BitsPerComponent": 8, "ColorSpace": PDFName(SPACES[mode]),
    }  # fmt: skip
