"""Copies of one finished PDF, each with a buyer's name on every page, made by adding to the file and changing nothing in it.

A copy is the plain file, byte for byte, and after it an incremental update (ISO 32000-1, 7.5.6): pages that show one more
line, the line itself with a font of its own, and what the file says about itself. So a thousand copies cost little more
than writing them, and nothing of one buyer can be in another's.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from html import escape
from io import BytesIO
from typing import cast

from msgspec import Struct
from pypdf import PdfReader
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject, NameObject, StreamObject, TextStringObject
from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName

from slath.booklet.furniture import copy_mark
from slath.booklet.laid import Glyphs
from slath.booklet.styles import Style
from slath.output.pdf_file import PdfFile, RawStream
from slath.output.pdf_text import Typist

_REFERENCE = re.compile(rb"\b(\d+) 0 R\b")
_STREAM = b"stream\n"
_SIDES = ("right", "left")  # pages by the hand they lie under in an open booklet; the first is a right-hand page
_DESCRIPTION = re.compile(rb"(<dc:description>.*?)(</rdf:li>)", re.DOTALL)


class Stampable(Struct, frozen=True):
    """A finished PDF made ready to be stamped. Numbers are object numbers of the file."""

    plain: bytes
    style: Style
    size: tuple[float, float]  # of a page, in points
    first_free: int
    root: int
    info: int
    metadata: int
    previous: int  # where the plain file's cross-reference stream begins
    identity: str  # of the plain file, in hexadecimal
    overrides: tuple[tuple[int, bytes], ...]  # pages and their resources, as every copy has them
    about: DictionaryObject
    xmp: bytes

    def copy_for(self, line: str) -> bytes:
        """The file with `line` on every page that has anything on it, and in what the file says about itself.

        The same line gives the same bytes. ContentError for letters no page can show.
        """
        added = [*self.overrides, *self._shown(line), (self.metadata, self._xmp(line)), (self.info, self._about(line))]
        out = bytearray(self.plain)
        offsets: dict[int, int] = {}
        for number, body in added:
            offsets[number] = len(out)
            out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
        self._cross_reference(out, offsets, line)
        return bytes(out)

    def _shown(self, line: str) -> list[tuple[int, bytes]]:
        """The two forms that paint the line, for right-hand and for left-hand pages, and its font."""
        file = PdfFile()
        typist = Typist(file)
        painted = []
        for index in range(len(_SIDES)):
            mark = copy_mark(self.style, line, index, self.size)
            runs = [item for item in mark.items if isinstance(item, Glyphs)]
            painted.append(typist.lines(runs, mark.x, self.size[1] - mark.y))
        entries = {
            "Type": PDFName("XObject"),
            "Subtype": PDFName("Form"),
            "BBox": PDFArray([0, 0, f"{self.size[0]:.3f}", f"{self.size[1]:.3f}"]),
            "Resources": PDFDictionary({"Font": file.fonts()}),
        }
        forms = [RawStream(words.encode("ascii"), entries).format(file.document) for words in painted]
        shift = self.first_free + len(_SIDES) - 1
        numbered = [*enumerate(forms, self.first_free), *((number + shift, body) for number, body in file.bodies())]
        return [(number, _renumbered(body, shift)) for number, body in numbered]

    def _xmp(self, line: str) -> bytes:
        said = _DESCRIPTION.sub(
            lambda found: found[1] + b". " + escape(line, quote=False).encode() + found[2], self.xmp, count=1
        )
        head = b"<</Type/Metadata/Subtype/XML/Length %d>>\n" % len(said)
        return head + _STREAM + said + b"\nendstream"

    def _about(self, line: str) -> bytes:
        subject = str(self.about.get("/Subject", ""))
        return _written(
            DictionaryObject({**self.about, NameObject("/Subject"): TextStringObject(f"{subject}. {line}")})
        )

    def _cross_reference(self, out: bytearray, offsets: dict[int, int], line: str) -> None:
        number, start = max(offsets) + 1, len(out)
        offsets[number] = start
        rows: list[bytes] = []
        index: list[int] = []  # runs of numbers, each as its first and how many
        for each in sorted(offsets):
            rows.append(b"\x01" + offsets[each].to_bytes(4, "big") + b"\0\0")
            if index and index[-2] + index[-1] == each:
                index[-1] += 1
            else:
                index += [each, 1]
        own = hashlib.sha256(self.identity.encode() + line.encode()).hexdigest()[:32]
        data = b"".join(rows)
        out += b"%d 0 obj\n<</Type/XRef/Size %d/W[1 4 2]/Index[%s]/Prev %d/Root %d 0 R/Info %d 0 R/ID[<%s><%s>]/Length %d>>\n" % (
            number, number + 1, b" ".join(b"%d" % part for part in index), self.previous, self.root, self.info,
            self.identity.encode(), own.encode(), len(data),
        )  # fmt: skip
        out += _STREAM + data + b"\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n" % start


def stampable(plain: bytes, style: Style) -> Stampable:
    """A PDF that `slath.output.pdf` wrote in this style, ready to be stamped."""
    reader = PdfReader(BytesIO(plain))
    trailer = reader.trailer
    catalog = reader.root_object
    free = int(str(trailer["/Size"]))
    box = reader.pages[0].mediabox
    return Stampable(
        plain=plain,
        style=style,
        size=(float(box.width), float(box.height)),
        first_free=free + len(_SIDES),
        root=_number(trailer, "/Root"),
        info=_number(trailer, "/Info"),
        metadata=_number(catalog, "/Metadata"),
        previous=int(plain.rsplit(b"startxref\n", 1)[1].split(b"\n", 1)[0]),
        identity=cast("ArrayObject", trailer["/ID"])[0].original_bytes.hex(),
        overrides=tuple(_overrides(reader, free, two_sided=style.two_sided)),
        about=DictionaryObject(cast("DictionaryObject", trailer["/Info"])),
        xmp=cast("StreamObject", catalog["/Metadata"]).get_data(),
    )


def _overrides(reader: PdfReader, free: int, *, two_sided: bool) -> Iterator[tuple[int, bytes]]:
    """What every copy adds alike: two streams that show the line, the resources that name it, the pages that do.

    The streams take the first free numbers, and the forms they show the next ones.
    """
    for place, side in enumerate(_SIDES):
        shown = b"/Artifact <</Type /Pagination>> BDC\nq /Copy%s Do Q\nEMC" % side.title().encode()
        yield free + place, b"<</Length %d>>\n" % len(shown) + _STREAM + shown + b"\nendstream"
    forms = {
        NameObject(f"/Copy{side.title()}"): IndirectObject(free + len(_SIDES) + place, 0, reader)
        for place, side in enumerate(_SIDES)
    }
    resources = set[int]()
    for index, page in enumerate(reader.pages):
        contents = page.raw_get("/Contents")
        if not cast("StreamObject", contents.get_object()).get_data().strip():
            continue  # a blank page stays blank
        line = IndirectObject(free + (index % 2 if two_sided else 0), 0, reader)
        whole = DictionaryObject({**page, NameObject("/Contents"): ArrayObject([contents, line])})
        number = _number(page, "/Resources")
        if number not in resources:
            resources.add(number)
            held = cast("DictionaryObject", page["/Resources"])
            others = cast("DictionaryObject", held.get("/XObject", DictionaryObject()))
            named = DictionaryObject({**others, **forms})
            yield number, _written(DictionaryObject({**held, NameObject("/XObject"): named}))
        assert page.indirect_reference is not None  # noqa: S101 - every page of a file has its number
        yield page.indirect_reference.idnum, _written(whole)


def _number(holder: DictionaryObject, key: str) -> int:
    """The number of the object that a dictionary names under a key."""
    return int(cast("IndirectObject", holder.raw_get(key)).idnum)


def _written(thing: DictionaryObject) -> bytes:
    out = BytesIO()
    thing.write_to_stream(out)
    return out.getvalue()


def _renumbered(body: bytes, shift: int) -> bytes:
    """An object with the numbers of those it names moved up; the data of a stream are left as they are."""
    head, stream, data = body.partition(_STREAM)
    return _REFERENCE.sub(lambda found: b"%d 0 R" % (int(found[1]) + shift), head) + stream + data
