"""A PDF file from ReportLab's objects, written compactly and the same way every time.

Objects are packed in object streams with a cross-reference stream (ISO 32000-1, 7.5.7 and 7.5.8). The file identifier
is a hash of the objects, so the same content has the same identifier and different content never shares one.
"""

from __future__ import annotations

import hashlib
import zlib
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFDocument, PDFName, PDFObjectReference, PDFString
from reportlab.pdfbase.pdfdoc import format as pdf_format

PER_STREAM = 200  # objects packed together
LEVEL = 4  # of zlib: a quarter of the time of level 6 for a tenth more bytes, measured on booklets full of figures
VERSION = (1, 7)
HEADER = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
FREE_ENTRY = b"\x00\x00\x00\x00\x00\xff\xff"
BLOCK = 100  # entries in one block of a ToUnicode map (Adobe Technical Note 5411, from memory)


class RawStream:
    """A stream whose bytes are final; ``entries`` go into its dictionary beside the filter and the length."""

    def __init__(self, data: bytes, entries: dict[str, Any] | None = None, *, compress: bool = True) -> None:
        self.entries = dict(entries or {})
        if compress:
            data = zlib.compress(data, LEVEL)
            self.entries["Filter"] = PDFName("FlateDecode")
        self.data = data
        self.entries["Length"] = len(data)

    def format(self, document: PDFDocument) -> bytes:
        """The stream as the body of an object. An end of line stands before ``endstream`` (ISO 19005-2, 6.1.7.1)."""
        head: bytes = pdf_format(PDFDictionary(self.entries), document)
        return head + b"\nstream\n" + self.data + b"\nendstream"


class PdfFile:
    """Collects numbered objects; fonts and dictionaries are ReportLab's."""

    def __init__(self) -> None:
        self.document = PDFDocument(compression=1, invariant=1, pdfVersion=VERSION)
        self.document.setCompression(1)
        self._names = 0

    def add(self, thing: Any, name: str = "") -> PDFObjectReference:
        """Number an object and return the reference to it. A name given twice replaces what it named."""
        if not name:
            self._names += 1
            name = f"object-{self._names}"
        reference: PDFObjectReference = self.document.Reference(thing, name)  # type: ignore[no-untyped-call]
        return reference

    def fonts(self) -> PDFDictionary:
        """Embed the fonts used so far and return the dictionary of resources that names them."""
        document = self.document
        for font in document.delayedFonts:
            font.addObjects(document)
        objects: dict[str, Any] = document.idToObject
        for name, thing in objects.items():
            if name.startswith("toUnicodeCMap:"):
                thing.content = _in_blocks(thing.content)
        return PDFDictionary(objects["BasicFonts"].dict)

    def write(self, catalog: dict[str, Any], info: dict[str, Any]) -> bytes:
        """The whole file. ``catalog`` and ``info`` are the entries of the two dictionaries the trailer names."""
        root = self.add(PDFDictionary({"Type": PDFName("Catalog"), **catalog}), "catalog")
        about = self.add(PDFDictionary(info), "info")
        bodies = self.bodies()
        out = bytearray(HEADER)
        offsets: dict[int, int] = {}
        packed: list[tuple[int, bytes]] = []
        digest = hashlib.sha256()
        for number, body in bodies:
            digest.update(body)
            if body.endswith(b"endstream"):
                offsets[number] = len(out)
                out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
            else:
                packed.append((number, body))
        places = _pack(packed, len(bodies) + 1, out, offsets)
        self._cross_reference(out, offsets, places, (root, about, digest.digest()[:16]))
        return bytes(out)

    def bodies(self) -> list[tuple[int, bytes]]:
        """Every object formatted; formatting may number further ones, which follow."""
        document = self.document
        bodies: list[tuple[int, bytes]] = []
        while (number := len(bodies) + 1) in document.numberToId:
            thing = document.idToObject[document.numberToId[number]]
            body = thing.format(document) if isinstance(thing, RawStream) else pdf_format(thing, document, toplevel=1)
            body = body.encode("latin1") if isinstance(body, str) else body
            if body.endswith(b"endstream\n"):
                body = body[:-10] + b"\nendstream"
            bodies.append((number, body.strip() if not body.endswith(b"endstream") else body))
        return bodies

    def _cross_reference(
        self,
        out: bytearray,
        offsets: dict[int, int],
        places: dict[int, tuple[int, int]],
        trailer: tuple[Any, Any, bytes],
    ) -> None:
        start = len(out)
        number = max([*offsets, *places]) + 1
        offsets[number] = start
        rows = [FREE_ENTRY]
        for each in range(1, number + 1):
            if each in offsets:
                rows.append(b"\x01" + offsets[each].to_bytes(4, "big") + b"\0\0")
            else:
                holder, index = places[each]
                rows.append(b"\x02" + holder.to_bytes(4, "big") + index.to_bytes(2, "big"))
        root, about, identity = trailer
        entries = {
            "Type": PDFName("XRef"), "Size": number + 1, "W": PDFArray([1, 4, 2]), "Root": root, "Info": about,
            "ID": f"[<{identity.hex()}> <{identity.hex()}>]",
            "DecodeParms": PDFDictionary({"Predictor": 12, "Columns": len(FREE_ENTRY)}),
        }  # fmt: skip
        body = RawStream(_predicted(rows), entries).format(self.document)
        out += b"%d 0 obj\n%s\nendobj\nstartxref\n%d\n%%%%EOF\n" % (number, body, start)


def _pack(
    packed: list[tuple[int, bytes]], first: int, out: bytearray, offsets: dict[int, int]
) -> dict[int, tuple[int, int]]:
    """Write object streams to ``out``; the places of the packed objects as (stream, index)."""
    places: dict[int, tuple[int, int]] = {}
    for turn, begin in enumerate(range(0, len(packed), PER_STREAM)):
        chunk = packed[begin : begin + PER_STREAM]
        number = first + turn
        heads, at = [], 0
        for index, (inner, body) in enumerate(chunk):
            heads.append(b"%d %d" % (inner, at))
            at += len(body) + 1
            places[inner] = (number, index)
        head = b" ".join(heads) + b"\n"
        data = zlib.compress(head + b"\n".join(body for _, body in chunk), LEVEL)
        offsets[number] = len(out)
        out += b"%d 0 obj\n<</Type/ObjStm/N %d/First %d/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream\nendobj\n" % (
            number, len(chunk), len(head), len(data), data,
        )  # fmt: skip
    return places


def _predicted(rows: list[bytes]) -> bytes:
    """Rows under the PNG "up" predictor, which makes runs of like offsets small."""
    before, out = bytes(len(FREE_ENTRY)), bytearray()
    for row in rows:
        out.append(2)
        out += bytes((a - b) & 255 for a, b in zip(row, before, strict=True))
        before = row
    return bytes(out)


def _in_blocks(cmap: str) -> str:
    """Cut a ToUnicode map into blocks no longer than readers must accept."""
    lines = cmap.split("\n")
    start = next(index for index, line in enumerate(lines) if line.endswith("beginbfchar"))
    end = lines.index("endbfchar")
    entries = lines[start + 1 : end]
    blocks: list[str] = []
    for begin in range(0, len(entries), BLOCK):
        chunk = entries[begin : begin + BLOCK]
        blocks += [f"{len(chunk)} beginbfchar", *chunk, "endbfchar"]
    return "\n".join([*lines[:start], *blocks, *lines[end + 1 :]])


def text_string(text: str) -> PDFString:
    """A text string of any characters."""
    return PDFString(text)


# ASCII85 makes files a quarter larger and is of no use (ISO 32000-1, 7.4.3): streams are binary.
rl_config.useA85 = 0
