"""The structure tree of a tagged PDF (ISO 32000-1, 14.7 and 14.8): what belongs where, in reading order."""

from __future__ import annotations

from typing import Any

from msgspec import Struct, field
from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFObjectReference

from slath.booklet.laid import Node
from slath.output.pdf_file import PdfFile, text_string

OWNER = {"ListNumbering": "List", "Scope": "Table", "ColSpan": "Table", "Placement": "Layout"}


class _Content(Struct, frozen=True):
    """A marked-content sequence on a page, or with ``annotation`` an annotation of it."""

    page: PDFObjectReference
    number: int = 0
    annotation: PDFObjectReference | None = None


class _Element(Struct, eq=False):
    node: Node
    kids: list[_Element | _Content] = field(default_factory=list)
    box: tuple[float, float, float, float] | None = None


class Tree:
    """Collects elements as their content is painted; painting order is reading order."""

    def __init__(self, root: Node) -> None:
        self._root = _Element(root)
        self._elements: dict[Node, _Element] = {root: self._root}
        self._parents: list[list[Node] | Node] = []

    def attach(self, node: Node) -> None:
        """Put a node into the tree at the place reached, with all it stands in."""
        self._element(node)

    def content(self, node: Node, page: PDFObjectReference, number: int) -> None:
        """Say that marked content ``number`` of ``page`` belongs to ``node``."""
        self._element(node).kids.append(_Content(page, number))

    def annotation(self, node: Node, page: PDFObjectReference, annotation: PDFObjectReference) -> int:
        """Say that an annotation belongs to ``node``; its key in the parent tree."""
        self._element(node).kids.append(_Content(page, annotation=annotation))
        self._parents.append(node)
        return len(self._parents) - 1

    def box(self, node: Node, box: tuple[float, float, float, float]) -> None:
        """The place of a figure on its page; several boxes make one that holds them all."""
        element = self._element(node)
        if element.box is not None:
            (a, b, c, d), (e, f, g, h) = element.box, box
            box = (min(a, e), min(b, f), max(c, g), max(d, h))
        element.box = box

    def page(self, nodes: list[Node]) -> int:
        """The owners of the marked content of one page, by number; the page's key in the parent tree."""
        self._parents.append(nodes)
        return len(self._parents) - 1

    def _names(self) -> dict[Node, str]:
        """A name for each cell that others call their header; in order, as a name tree must be (ISO 32000-1, 7.9.6)."""
        heads = dict.fromkeys(head for node in self._elements for head in node.headers)
        return {head: f"h{number:05}" for number, head in enumerate(heads, 1)}

    def _element(self, node: Node) -> _Element:
        known = self._elements.get(node)
        if known is None:
            if node.parent is None:
                raise ValueError(f"a {node.role} stands in no part of the document")
            parent = self._element(node.parent)
            known = self._elements[node] = _Element(node)
            parent.kids.append(known)
        return known

    def write(self, file: PdfFile) -> PDFObjectReference:
        """Number every element and return the reference to the root of the tree."""
        root = PDFDictionary({"Type": PDFName("StructTreeRoot")})
        reference = file.add(root, "structure")
        numbered: dict[Node, PDFObjectReference] = {}
        names = self._names()
        top = _write_element(self._root, reference, file, numbered, names)
        root["K"] = PDFArray([top])
        if names:
            pairs = [entry for node, name in names.items() for entry in (text_string(name), numbered[node])]
            root["IDTree"] = file.add(PDFDictionary({"Names": PDFArray(pairs)}))
        numbers: list[Any] = []
        for key, owner in enumerate(self._parents):
            numbers.append(key)
            if isinstance(owner, list):
                numbers.append(file.add(PDFArray([numbered[node] for node in owner])))
            else:
                numbers.append(numbered[owner])
        root["ParentTree"] = file.add(PDFDictionary({"Nums": PDFArray(numbers)}))
        root["ParentTreeNextKey"] = len(self._parents)
        return reference


def _write_element(
    element: _Element,
    parent: PDFObjectReference,
    file: PdfFile,
    numbered: dict[Node, PDFObjectReference],
    names: dict[Node, str],
) -> PDFObjectReference:
    node = element.node
    entries = PDFDictionary({"Type": PDFName("StructElem"), "S": PDFName(node.role), "P": parent})
    reference = file.add(entries)
    numbered[node] = reference
    if node.alt:
        entries["Alt"] = text_string(node.alt)
    if node in names:
        entries["ID"] = text_string(names[node])
    attributes = _attributes(element, names)
    if attributes:
        entries["A"] = attributes[0] if len(attributes) == 1 else PDFArray(attributes)
    page = _first_page(element)
    if page is not None:
        entries["Pg"] = page
    kids: list[Any] = []
    for kid in element.kids:
        if isinstance(kid, _Element):
            kids.append(_write_element(kid, reference, file, numbered, names))
        elif kid.annotation is not None:
            kids.append(PDFDictionary({"Type": PDFName("OBJR"), "Pg": kid.page, "Obj": kid.annotation}))
        elif page is not None and kid.page.name == page.name:
            kids.append(kid.number)
        else:
            kids.append(PDFDictionary({"Type": PDFName("MCR"), "Pg": kid.page, "MCID": kid.number}))
    if kids:
        entries["K"] = kids[0] if len(kids) == 1 else PDFArray(kids)
    return reference


def _first_page(element: _Element) -> PDFObjectReference | None:
    for kid in element.kids:
        page = _first_page(kid) if isinstance(kid, _Element) else kid.page
        if page is not None:
            return page
    return None


def _attributes(element: _Element, names: dict[Node, str]) -> list[PDFDictionary]:
    owners: dict[str, dict[str, Any]] = {}
    for name, value in element.node.attributes:
        owners.setdefault(OWNER[name], {})[name] = PDFName(value) if isinstance(value, str) else value
    if element.node.headers:
        owners.setdefault("Table", {})["Headers"] = PDFArray(
            [text_string(names[head]) for head in element.node.headers]
        )
    if element.box is not None:
        owners.setdefault("Layout", {})["BBox"] = PDFArray([f"{edge:.2f}" for edge in element.box])
    return [PDFDictionary({"O": PDFName(owner), **entries}) for owner, entries in owners.items()]
