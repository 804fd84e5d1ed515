"""Laid pages written as one tagged, archival PDF: PDF/UA-1 (ISO 14289-1) and PDF/A-2a (ISO 19005-2)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec import Struct
from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFObjectReference

from slath.booklet.blocks import Document
from slath.booklet.flow import lay_out
from slath.booklet.laid import Area, Drawing, Glyphs, Item, Laid, Mark, Node, Page, Picture, Rule
from slath.booklet.reading import NO_BREAK
from slath.booklet.styles import Style
from slath.output.pdf_about import information, outline, output_intent, xmp
from slath.output.pdf_colour import GREY, PRESS, SCREEN, Colours
from slath.output.pdf_file import PdfFile, RawStream, text_string
from slath.output.pdf_photograph import image
from slath.output.pdf_scene import scene_operators
from slath.output.pdf_text import Typist
from slath.output.pdf_tree import Tree

ARTIFACT = "/Artifact BMC"
PAGINATION = "/Artifact <</Type /Pagination>> BDC"


class UntaggedContentError(ValueError):
    """Words or pictures were painted that belong to no element and are no running head or foot."""


class Attachment(Struct, frozen=True):
    """A file carried inside the PDF, such as the cut list as CSV. ``name`` with its ending; ``about`` in a sentence."""

    name: str
    data: bytes
    media_type: str
    about: str


def set_document(
    document: Document, style: Style, paper: str = "", attached: Sequence[Attachment] = (), colours: Colours = SCREEN
) -> bytes:
    """Set a document in a style on a paper: the finished PDF. The same in gives the same bytes out.

    With files attached the PDF is a PDF/A-3a (ISO 19005-3) instead of a PDF/A-2a, which may hold none. In the colours
    of a press it is neither, and is meant to be put on sheets (see `slath.output.imposition`).
    Raises `StyleError` for a paper the style is not made for, `ContentError` for content that cannot be set.
    """
    return write_pdf(lay_out(document, style, paper), attached, colours)


def write_pdf(laid: Laid, attached: Sequence[Attachment] = (), colours: Colours = SCREEN) -> bytes:
    """Laid pages as a PDF."""
    file = PdfFile()
    typist = Typist(file, colours)
    tree = Tree(laid.root)
    references = [PDFObjectReference(f"page-{page.number}") for page in laid.pages]
    resources = PDFDictionary({})
    held = file.add(resources, "resources")
    pages = file.add(
        PDFDictionary({"Type": PDFName("Pages"), "Kids": PDFArray(references), "Count": len(references)}), "pages"
    )
    images: dict[bytes, tuple[str, Any]] = {}
    for page, reference in zip(laid.pages, references, strict=True):
        painter = _Painter(laid, file, typist, tree, reference, references, images)
        entries = painter.page(page)
        file.add(
            PDFDictionary({"Type": PDFName("Page"), "Parent": pages, "Resources": held, **entries}), reference.name
        )
    resources["Font"] = file.fonts()
    if images:
        resources["XObject"] = PDFDictionary(dict(images.values()))
    catalog = _catalog(laid, file, tree, pages, references)
    if colours is not PRESS:
        catalog["OutputIntents"] = output_intent(file)
        catalog["Metadata"] = file.add(xmp(laid, 3 if attached else 2))
    if attached:
        catalog |= _attach(laid, file, attached)
    return file.write(catalog, information(laid))


def _attach(laid: Laid, file: PdfFile, attached: Sequence[Attachment]) -> dict[str, Any]:
    """Entries of the catalog that name the files inside (ISO 32000-1, 7.11.4; ISO 19005-3, 6.8)."""
    names: list[Any] = []
    for each in sorted(attached, key=lambda each: each.name):
        parameters = {"Size": len(each.data), "ModDate": f"(D:{laid.date:%Y%m%d}000000Z)"}
        kind = "/" + each.media_type.replace("/", "#2F")  # a solidus ends a name (ISO 32000-1, 7.3.5)
        embedded = file.add(
            RawStream(
                each.data, {"Type": PDFName("EmbeddedFile"), "Subtype": kind, "Params": PDFDictionary(parameters)}
            )
        )
        entries = {
            "Type": PDFName("Filespec"), "F": text_string(each.name), "UF": text_string(each.name),
            "Desc": text_string(each.about), "AFRelationship": PDFName("Data"),
            "EF": PDFDictionary({"F": embedded, "UF": embedded}),
        }  # fmt: skip
        names += [text_string(each.name), file.add(PDFDictionary(entries))]
    tree = PDFDictionary({"EmbeddedFiles": PDFDictionary({"Names": PDFArray(names)})})
    return {"Names": tree, "AF": PDFArray(names[1::2])}


def _catalog(
    laid: Laid, file: PdfFile, tree: Tree, pages: Any, references: Sequence[PDFObjectReference]
) -> dict[str, Any]:
    preferences: dict[str, Any] = {"DisplayDocTitle": "true"}
    if laid.full_size:
        preferences["PrintScaling"] = PDFName("None")
    if laid.two_sided:
        preferences["Duplex"] = PDFName("DuplexFlipLongEdge")
    entries = {
        "Pages": pages,
        "Lang": text_string(laid.language),
        "MarkInfo": PDFDictionary({"Marked": "true"}),
        "StructTreeRoot": tree.write(file),
        "ViewerPreferences": PDFDictionary(preferences),
    }
    bookmarks = outline(file, laid.bookmarks, references, laid.height)
    if bookmarks is not None:
        entries |= {"Outlines": bookmarks, "PageMode": PDFName("UseOutlines")}
    return entries


class _Painter:
    """Paints one page: every mark in its marked-content sequence."""

    def __init__(
        self, laid: Laid, file: PdfFile, typist: Typist, tree: Tree, reference: PDFObjectReference,
        references: Sequence[PDFObjectReference], images: dict[bytes, tuple[str, Any]],
    ) -> None:  # fmt: skip
        self.laid, self.file, self.typist, self.tree = laid, file, typist, tree
        self.reference, self.references, self.images = reference, references, images
        self.out: list[str] = []
        self.owners: list[Node] = []
        self.links: list[PDFObjectReference] = []

    def page(self, page: Page) -> dict[str, Any]:
        """The entries of the page dictionary that depend on what is painted."""
        open_for: object = None
        for mark in page.marks:
            if mark.node is not None and not mark.items:
                self.tree.attach(mark.node)
                continue
            owner: object = mark.node or (PAGINATION if mark.pagination else ARTIFACT)
            if owner is not open_for:
                if open_for is not None:
                    self.out.append("EMC")
                self._open(mark)
                open_for = owner
            self._items(mark)
            if mark.node is not None and mark.node.target:
                self._link(mark, mark.node)
        if open_for is not None:
            self.out.append("EMC")
        content = self.file.add(RawStream("\n".join(self.out).encode("ascii")))
        entries: dict[str, Any] = {
            "MediaBox": PDFArray([0, 0, f"{self.laid.width:.3f}", f"{self.laid.height:.3f}"]),
            "Contents": content, "Tabs": PDFName("S"), "StructParents": self.tree.page(self.owners),
        }  # fmt: skip
        if self.links:
            entries["Annots"] = PDFArray(self.links)
        return entries

    def _open(self, mark: Mark) -> None:
        if mark.node is None:
            if not mark.pagination and any(isinstance(item, Glyphs | Picture | Drawing) for item in mark.items):
                _refuse_untagged(mark)
            self.out.append(PAGINATION if mark.pagination else ARTIFACT)
            return
        number = len(self.owners)
        self.owners.append(mark.node)
        self.tree.content(mark.node, self.reference, number)
        self.out.append(f"/{mark.node.role} <</MCID {number}>> BDC")

    def _items(self, mark: Mark) -> None:
        x, y = mark.x, self.laid.height - mark.y
        texts: list[Glyphs] = []
        for item in mark.items:
            if isinstance(item, Glyphs):
                texts.append(item)
            else:
                self.out.append(self._shape(item, mark, x, y))
        if texts:
            self.out.append(self.typist.lines(texts, x, y))

    def _shape(self, item: Item, mark: Mark, x: float, y: float) -> str:
        match item:
            case Rule():
                dash = f"[{' '.join(f'{length:g}' for length in item.dash)}] 0 d "
                line = f"{x + item.x0:.2f} {y - item.y0:.2f} m {x + item.x1:.2f} {y - item.y1:.2f} l S"
                return f"{self.typist.colours.stroke(item.colour)} {item.width:g} w {dash}{line}"
            case Area():
                self._figure_box(mark, x + item.x, y - item.y, item.width, item.height)
                return _rectangle(item, x, y, self.typist.colours)
            case Drawing():
                self._figure_box(mark, x + item.x, y - item.y, *item.size)
                return scene_operators(item.scene, self.typist, x + item.x, y - item.y, item.scale, item.window)
            case Picture():
                self._figure_box(mark, x + item.x, y - item.y, item.width, item.height)
                name = image(
                    item.photograph,
                    item.width,
                    self.file,
                    self.images,
                    inks=self.typist.colours is PRESS,
                    grey=self.typist.colours is GREY,
                )
                return f"q {item.width:.3f} 0 0 {item.height:.3f} {x + item.x:.2f} {y - item.y - item.height:.2f} cm /{name} Do Q"
            case _:
                raise TypeError(item)

    def _figure_box(self, mark: Mark, x: float, top: float, width: float, height: float) -> None:
        if mark.node is not None and mark.node.role == "Figure":
            self.tree.box(mark.node, (x, top - height, x + width, top))

    def _link(self, mark: Mark, node: Node) -> None:
        """An annotation over the words of a mark, which lie on one line."""
        runs = [item for item in mark.items if isinstance(item, Glyphs)]
        left, right = min(run.x for run in runs), max(run.x + run.width for run in runs)
        size, base = max(run.size for run in runs), self.laid.height - mark.y - runs[0].y
        words = "".join(run.text for run in runs).strip().replace(NO_BREAK, " ")
        entries: dict[str, Any] = {
            "Type": PDFName("Annot"), "Subtype": PDFName("Link"), "F": 4, "Border": PDFArray([0, 0, 0]),
            "Rect": PDFArray([f"{v:.2f}" for v in (mark.x + left, base - 0.3 * size, mark.x + right, base + 0.9 * size)]),
            "Contents": text_string(words or node.target),
        }  # fmt: skip
        if node.target.startswith("#"):
            place = self.laid.places[node.target[1:]]
            top = f"{self.laid.height - place.top:.2f}"
            entries["Dest"] = PDFArray([self.references[place.page], PDFName("XYZ"), 0, top, "null"])
        else:
            entries["A"] = PDFDictionary({"S": PDFName("URI"), "URI": text_string(node.target)})
        annotation = PDFDictionary(entries)
        reference = self.file.add(annotation)
        annotation["StructParent"] = self.tree.annotation(node, self.reference, reference)
        self.links.append(reference)


def _refuse_untagged(mark: Mark) -> None:
    """Dots of a table of contents and the letters of head and foot are no content; anything else must be tagged."""
    words = "".join(item.text for item in mark.items if isinstance(item, Glyphs))
    if words.strip(". ") or any(isinstance(item, Picture | Drawing) for item in mark.items):
        raise UntaggedContentError(f"painted outside every element of the document: {words or 'a picture'!r}")


def _rectangle(area: Area, x: float, y: float, colours: Colours) -> str:
    out = []
    if area.fill:
        out.append(colours.fill(area.fill))
    if area.stroke:
        out.append(f"{colours.stroke(area.stroke)} {area.line:g} w [] 0 d")
    out.append(f"{x + area.x:.2f} {y - area.y - area.height:.2f} {area.width:.2f} {area.height:.2f} re")
    out.append("B" if area.fill and area.stroke else "f" if area.fill else "S")
    return " ".join(out)
