"""What a PDF says about itself: XMP, dates, colour, bookmarks."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any

from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFObjectReference

from slath.booklet.laid import Bookmark, Laid
from slath.output.pdf_file import PdfFile, RawStream, text_string

PRODUCER = "slath with ReportLab"
UA_SCHEMA = """<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#"><pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource"><pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema><pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI><pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix><pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource"><pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType><pdfaProperty:category>internal</pdfaProperty:category><pdfaProperty:description>PDF/UA version identifier</pdfaProperty:description></rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas></rdf:Description>"""
XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:format>application/pdf</dc:format><dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title><dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator><dc:description><rdf:Alt><rdf:li xml:lang="x-default">{subject}</rdf:li></rdf:Alt></dc:description><dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language></rdf:Description>
<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/"><xmp:CreatorTool>slath</xmp:CreatorTool><xmp:CreateDate>{date}</xmp:CreateDate><xmp:ModifyDate>{date}</xmp:ModifyDate></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"><pdf:Producer>{producer}</pdf:Producer><pdf:Keywords>{keywords}</pdf:Keywords></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"><pdfaid:part>{part}</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance></rdf:Description>
{extension}
</rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>"""


def information(laid: Laid) -> dict[str, Any]:
    """The entries of the information dictionary, which must agree with the XMP (ISO 19005-2, 6.6.3)."""
    date = f"(D:{laid.date:%Y%m%d}000000Z)"
    return {
        "Title": text_string(laid.title), "Author": text_string(laid.author), "Subject": text_string(laid.subject),
        "Keywords": text_string(", ".join(laid.keywords)), "Creator": text_string("slath"),
        "Producer": text_string(PRODUCER), "CreationDate": date, "ModDate": date,
    }  # fmt: skip


def xmp(laid: Laid, part: int) -> RawStream:
    """The metadata stream claiming PDF/UA-1 and PDF/A of the given part, level A."""
    said = XMP.format(
        title=_escaped(laid.title), author=_escaped(laid.author), subject=_escaped(laid.subject),
        language=_escaped(laid.language),
        date=f"{laid.date:%Y-%m-%d}T00:00:00+00:00", producer=PRODUCER, keywords=_escaped(", ".join(laid.keywords)),
        part=part, extension=UA_SCHEMA,
    )  # fmt: skip
    return RawStream(said.encode(), {"Type": PDFName("Metadata"), "Subtype": PDFName("XML")}, compress=False)


def _escaped(words: str) -> str:
    return escape(words, quote=False)


def output_intent(file: PdfFile) -> PDFArray:
    """The colours meant: sRGB (IEC 61966-2-1), by the profile LittleCMS makes, free for any use."""
    from PIL import ImageCms  # noqa: PLC0415  (a native library only a finished PDF needs)

    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    profile[24:36] = bytes((0x07, 0xD0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0))  # its date (ICC.1:2022, 7.2.10), fixed
    profile[84:100] = bytes(16)  # its identifier, which hashes the date; zero says "not calculated"
    stream = file.add(RawStream(bytes(profile), {"N": 3, "Alternate": PDFName("DeviceRGB")}))
    intent = {
        "Type": PDFName("OutputIntent"), "S": PDFName("GTS_PDFA1"), "OutputConditionIdentifier": text_string("sRGB"),
        "Info": text_string("sRGB IEC61966-2.1"), "RegistryName": text_string("http://www.color.org"),
        "DestOutputProfile": stream,
    }  # fmt: skip
    return PDFArray([file.add(PDFDictionary(intent))])


def outline(
    file: PdfFile, bookmarks: Sequence[Bookmark], pages: Sequence[PDFObjectReference], height: float
) -> PDFObjectReference | None:
    """Bookmarks of the headings, nested by level."""
    if not bookmarks:
        return None
    root = PDFDictionary({"Type": PDFName("Outlines")})
    reference = file.add(root)
    entries: list[tuple[int, PDFDictionary, PDFObjectReference]] = []
    parents: list[tuple[int, PDFDictionary, PDFObjectReference]] = [(-1, root, reference)]
    last: dict[int, tuple[PDFDictionary, PDFObjectReference]] = {}
    for mark in bookmarks:
        level = max(mark.level, 1)
        while parents[-1][0] >= level:
            parents.pop()
        _, above, above_reference = parents[-1]
        place = PDFArray([pages[mark.place.page], PDFName("XYZ"), 0, f"{height - mark.place.top:.2f}", "null"])
        entry = PDFDictionary({"Title": text_string(mark.title), "Parent": above_reference, "Dest": place})
        own = file.add(entry)
        before = last.get(id(above))
        if before is None:
            above["First"] = own
        else:
            before[0]["Next"] = own
            entry["Prev"] = before[1]
        last[id(above)] = (entry, own)
        above["Last"] = own
        for _, holder, _ in parents:
            holder["Count"] = holder.dict.get("Count", 0) + 1
        parents.append((level, entry, own))
        entries.append((level, entry, own))
    return reference
