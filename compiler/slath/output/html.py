"""A document as one web page that needs nothing else: semantic, readable at any size, figures inside it as SVG."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator, Sequence
from html import escape

from slath.booklet.blocks import (
    Abreast,
    Bar,
    Block,
    Caution,
    CautionRow,
    Contents,
    CountBox,
    Cover,
    Definitions,
    Document,
    Fields,
    Figure,
    Form,
    Heading,
    KeepTogether,
    Listing,
    NotesLines,
    Notice,
    PageBreak,
    Panel,
    Paragraph,
    Photograph,
    Row,
    Section,
    SizeRing,
    Step,
    Table,
    TickRow,
    Words,
    every,
    pieces_of,
)
from slath.booklet.places import anchors_of
from slath.booklet.reading import bound, plain
from slath.messages import Own, Value, message
from slath.messages.voice import voice_of
from slath.output.html_script import SCRIPT
from slath.output.html_style import STYLE
from slath.output.html_words import fractions_html, words_html
from slath.output.svg import svg_element


def document_html(document: Document) -> str:
    """The whole document as an HTML page (WHATWG HTML living standard), made to meet WCAG 2.2 AA."""
    writer = _Writer(document)
    body = "\n".join(writer.blocks(document.blocks))
    title, subtitle = escape(document.title), escape(document.subtitle)
    head = "" if document.covered else f"<h1>{title}</h1>" + (f'<p class="lead">{subtitle}</p>' if subtitle else "")
    copy = f"<p>{escape(document.copy_line)}</p>" if document.copy_line else ""
    about = escape(document.subject or document.subtitle or document.title)
    return f"""<!DOCTYPE html>
<html lang="{escape(document.language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{title}</title>
<meta name="description" content="{about}">
<meta name="author" content="{escape(document.author)}">
<style>{STYLE}</style>
</head>
<body>
<a class="skip" href="#content">Skip to the content</a>
<main id="content">
{head}
{_chooser(document, writer.label("your-size"))}
{body}
</main>
<script>{SCRIPT}</script>
<footer><p>{escape(document.foot or document.title)}</p>{copy}</footer>
</body>
</html>
"""


class _Writer:
    """Writes blocks, numbering figures and headings so that identifiers never clash."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.voice = voice_of(document.language)
        self.figures = 0
        self.ticks = 0
        blocks = list(every(document.blocks))
        self.headings = [block for block in blocks if isinstance(block, Heading)]
        self.identities = {id(block): block.anchor or f"heading-{n}" for n, block in enumerate(self.headings, 1)}
        self.anchors = frozenset(anchor for block in blocks for anchor in anchors_of(block)) | frozenset(
            self.identities.values()
        )

    def label(self, key: str, **values: Value) -> str:
        """What the page says of its own, in the language of the document."""
        return escape(self.voice.text(message(f"labels.{key}", **values)))

    def blocks(self, blocks: Sequence[Block]) -> Iterator[str]:
        """Blocks one after another; steps that follow one another make one list."""
        steps: list[str] = []
        for block in blocks:
            if isinstance(block, Step):
                steps.append(self.step(block))
                continue
            if steps:
                yield f'<ol class="steps">\n{"".join(steps)}</ol>'
                steps = []
            yield self.block(block)
        if steps:
            yield f'<ol class="steps">\n{"".join(steps)}</ol>'

    def block(self, block: Block) -> str:  # noqa: C901, PLR0911, PLR0912  (one line a kind)
        """One block."""
        match block:
            case Heading():
                return self.heading(block)
            case Paragraph(words, role):
                return f'<p class="{role}"{_identity(block.anchor)}>{self.words(words)}</p>'
            case Notice(words):
                return f'<p class="notice">{self.words(words)}</p>'
            case Caution():
                return self.caution(block)
            case CountBox():
                return self.count(block)
            case Figure():
                return self.figure(block)
            case Step():
                return f'<ol class="steps">{self.step(block)}</ol>'
            case Listing():
                return self.listing(block)
            case Table():
                return self.table(block)
            case Definitions(entries, kind):
                inner = "".join(
                    f"<div{_identity(entry.anchor)}><dt>{self.words(entry.name)}</dt><dd>{self.words(entry.meaning)}</dd></div>"
                    for entry in entries
                )
                return f'<dl class="{kind}">{inner}</dl>'
            case Cover():
                return self.cover(block)
            case Contents():
                return self.contents(block)
            case TickRow():
                return self.tick_row(block)
            case CautionRow(due):
                return self.marks(due)
            case Fields(rows):
                return self.fields(rows)
            case Bar():
                parts = "; ".join(f"{self.words(part)} <b>{self.words(much)}</b>" for part, much, _ in block.parts)
                return f'<p class="bar"><strong>{self.words(block.name)}</strong>: {parts}.</p>'
            case Abreast(columns):
                return "\n".join("\n".join(self.blocks(column)) for column in columns)
            case Panel(title, blocks):
                inner = "\n".join(self.blocks(blocks))
                return f'<section class="panel"><p class="title">{self.words(title)}</p>\n{inner}\n</section>'
            case Form():
                return self.form(block)
            case NotesLines(heading):
                self.ticks += 1
                return f'<p><label for="notes-{self.ticks}">{escape(heading)}</label></p><textarea id="notes-{self.ticks}" rows="6"></textarea>'
            case KeepTogether(blocks):
                return "\n".join(self.blocks(blocks))
            case Section(name, blocks):
                return f'<section class="{escape(name)}">\n' + "\n".join(self.blocks(blocks)) + "\n</section>"
            case PageBreak():
                return ""

    def words(self, words: Words) -> str:
        """Words with their looks."""
        return words_html(words, self.anchors, self.label("done"))

    def heading(self, block: Heading) -> str:
        """A heading, of a stage with its number and what to have at hand."""
        tag = f"h{block.level + 1}"
        number = f'<span class="stage">{escape(block.number)}</span> ' if block.number else ""
        aside = "".join(f'<p class="aside">{self.words(words)}</p>' for words in block.aside)
        if block.number:
            aside = aside.replace('<p class="aside">', '<p class="aside have">', 1)
        return f'<{tag} id="{escape(self.identities[id(block)])}">{number}{self.words(block.words)}</{tag}>{aside}'

    def marks(self, due: Sequence[Caution]) -> str:
        """Cautions at a step: each its name and two or three words; the panel tells them whole."""
        told = "".join(f"<li><strong>{escape(each.label)}:</strong> {self.words(each.short)}</li>" for each in due)
        return f'<ul class="marks">{told}</ul>' if told else ""

    def fields(self, rows: Sequence[Sequence[str]]) -> str:
        """Lines to fill in."""
        parts = []
        for name in (name for row in rows for name in row):
            self.ticks += 1
            parts.append(
                f'<p class="field"><label for="field-{self.ticks}">{escape(name)}</label> <input type="text" id="field-{self.ticks}"></p>'
            )
        return "".join(parts)

    def caution(self, block: Caution) -> str:
        """A caution, its kind said in words."""
        return (
            f'<p class="caution {block.kind}"><strong>{escape(block.heading)}.</strong> {self.words(block.words)}</p>'
        )

    def count(self, block: CountBox) -> str:
        """Stop and count, with a box to tick."""
        return (
            f'<p class="count"><label><input type="checkbox"> <strong>{escape(block.label)}:</strong> '
            f"{self.words(block.words)}</label></p>"
        )

    def figure(self, block: Figure) -> str:
        """A figure with its caption, and its words behind a button for whoever wants them read."""
        self.figures += 1
        picture = block.picture
        if isinstance(picture, Photograph):
            kind = "png" if picture.data[:4] == b"\x89PNG" else "jpeg"
            data = base64.b64encode(picture.data).decode("ascii")
            drawn = f'<img alt="{escape(block.spoken)}" src="data:image/{kind};base64,{data}">'
        else:
            drawn = _NAMESPACE.sub("", svg_element(picture, words=block.spoken, prefix=f"figure-{self.figures}-"))
        label = f"<b>{escape(block.label)}</b> " if block.label else ""
        caption = f"{label}{self.words(block.caption)}" if block.caption or label else ""
        asked = self.label("what-figure-shows")
        told = f"<details><summary>{asked}</summary><p>{escape(block.spoken)}</p></details>"
        return f"<figure{_identity(block.anchor)}>{drawn}<figcaption>{caption}{told}</figcaption></figure>\n"

    def step(self, block: Step) -> str:
        """One step."""
        title = f' <span class="title">{self.words(block.title)}</span>' if block.title else ""
        parts = [f'<p class="number"><span class="n">{escape(block.number)}</span>{title}</p>']
        parts += [f'<p class="aside">{self.words(block.lead)}</p>'] if block.lead else []
        parts.append(self.marks([each for each in block.cautions if each.short]))
        parts += [self.caution(each) for each in block.cautions if not each.mark]
        parts += [self.count(each) for each in block.stops]
        for figure in block.figures:
            parts.append(self.figure(figure))
            parts += [self.table(figure.measures)] if figure.measures else []
        said = "".join(f"<li>{self.words(words)}</li>" for words in block.actions)
        parts.append(f'<ol class="actions">{said}</ol>')
        parts += [f'<p class="reason">{self.words(words)}</p>' for words in block.notes]
        parts += [self.count(each) for each in block.counts]
        return f"<li{_identity(block.anchor)}>{''.join(parts)}</li>\n"

    def listing(self, block: Listing) -> str:
        """A list."""
        tag = "ol" if block.kind == "number" else "ul"
        tick = '<label><input type="checkbox"> ' if block.kind == "tick" else ""
        end = "</label>" if tick else ""
        items = "".join(f"<li>{tick}{self.words(words)}{end}</li>" for words in block.items)
        return f'<{tag} class="{block.kind}">{items}</{tag}>'

    def table(self, block: Table) -> str:
        """A table with its header cells; it scrolls sideways by itself where the screen is narrow."""
        aligns = [column.align for column in block.columns]
        marks = _size_classes(block)
        heads = "".join(
            f'<th scope="col" class="{align}{mark}">{self.words(column.header)}</th>'
            for column, align, mark in zip(block.columns, aligns, marks, strict=True)
        )
        bodies = "\n</tbody><tbody>\n".join(
            "\n".join(self.row(block, row) for row in rows) for rows in _by_group(block.rows)
        )
        caption = f"<caption>{self.words(block.caption)}</caption>" if block.caption else ""
        notes = "".join(f'<p class="small">{self.words(note)}</p>' for note in block.footnotes)
        name = escape(plain(block.caption) or "Table")
        return (
            f'<div class="table" tabindex="0" role="group" aria-label="{name}"{_identity(block.anchor)}><table>{caption}'
            f"<thead><tr>{heads}</tr></thead><tbody>\n{bodies}\n</tbody></table></div>{notes}"
        )

    def row(self, block: Table, row: Row) -> str:
        """One row."""
        if row.kind == "group":
            return f'<tr class="group"><th scope="rowgroup" colspan="{len(block.columns)}">{self.words(row.cells[0])}</th></tr>'
        cells = []
        for column, words, mark in zip(block.columns, row.cells, _size_classes(block), strict=True):
            tag, scope = ("th", ' scope="row"') if column.row_header else ("td", "")
            cells.append(f'<{tag}{scope} class="{column.align}{mark}">{self.words(words)}</{tag}>')
        return f'<tr class="{row.kind}">{"".join(cells)}</tr>'

    def cover(self, block: Cover) -> str:
        """Title and drawn view."""
        parts = [
            f'<p class="maker">{escape(block.designer)}</p>' if block.designer else "",
            f"<h1>{fractions_html(bound(block.title))}</h1>",
        ]
        if block.subtitle:
            parts.append(f'<p class="lead">{fractions_html(bound(block.subtitle))}</p>')
        if block.figure:
            parts.append(self.figure(block.figure))
        parts += [f"<p>{self.words(words)}</p>" for words in block.about]
        if block.sizes:
            parts.append(self.table(block.sizes))
        parts += [f'<p class="notice">{self.words(words)}</p>' for words in block.notices]
        if block.edition:
            parts.append(f'<p class="small">{escape(block.edition)}</p>')
        return f"<header>{''.join(parts)}</header>"

    def contents(self, block: Contents) -> str:
        """Links to the headings."""
        items = "".join(
            f'<li class="level-{each.level}"><a href="#{escape(self.identities[id(each)])}">{self.words(each.words)}</a></li>'
            for each in self.headings
            if each.level <= block.levels
        )
        return f'<nav aria-label="{escape(block.heading)}"><p class="title">{escape(block.heading)}</p><ul>{items}</ul></nav>'

    def tick_row(self, block: TickRow) -> str:
        """Boxes to tick, each named by its number; where a size stops before the others its name stands after its last."""
        ends = dict(block.ends)
        boxes = "".join(
            f'<input type="checkbox" aria-label="{self.label("of", number=number, count=block.count)}">'
            + (f"<small>{escape(ends[number])}</small>" if number in ends else "")
            + ("<span></span>" if number % block.group == 0 else "")
            for number in range(1, block.count + 1)
        )
        return f'<fieldset class="ticks"><legend>{self.words(block.label)}</legend>{boxes}</fieldset>'

    def form(self, block: Form) -> str:
        """Values to fill in."""
        named = [self.label("box-found", name=Own(plain(box.name))) for box in block.boxes]
        rows = "".join(
            f'<tr><th scope="row" class="left">{self.words(box.name)}</th><td>{self.words(box.predicted)}</td>'
            f'<td><input type="text" aria-label="{self.label("box-found", name=Own(plain(box.name)))}"> {escape(box.unit)}</td></tr>'
            for box, name in zip(block.boxes, named, strict=True)
        )
        heads = "".join(f'<th scope="col" class="left">{escape(text)}</th>' for text in block.headings)
        return f'<div class="table" tabindex="0" role="group" aria-label="{self.label("form")}"><table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>'


_NAMESPACE = re.compile(r' xmlns(?::\w+)?="[^"]*"')  # which HTML knows by itself (HTML, 13.2.6.5)


def _sized(words: Words) -> bool:
    """Whether words are the name of a size over its column."""
    return any(isinstance(piece, SizeRing) for piece in pieces_of(words))


def _size_classes(block: Table) -> list[str]:
    """For every column the class of the size it is of, counted from 1; nothing for other columns."""
    found, number = [], 0
    for column in block.columns:
        number += _sized(column.header)
        found.append(f" size-{number}" if _sized(column.header) else "")
    return found


def _chooser(document: Document, heading: str) -> str:
    """Buttons to choose a size, so that its column stands out in every table; nothing where there is one size."""
    tables = (block for block in every(document.blocks) if isinstance(block, Table))
    heads = next(
        (found for table in tables if len(found := [c.header for c in table.columns if _sized(c.header)]) > 1), []
    )
    names = [plain(pieces_of(head)[1]) for head in heads]
    buttons = "".join(
        f'<label><input type="radio" name="size" value="{number}"> {escape(name)}</label>'
        for number, name in enumerate(names, 1)
    )
    return f'<fieldset class="sizes"><legend>{heading}</legend>{buttons}</fieldset>' if names else ""


def _by_group(rows: Sequence[Row]) -> list[list[Row]]:
    """Rows under the heading of their group, which heads no rows but these (HTML, 4.9.12.2)."""
    groups: list[list[Row]] = [[]]
    for row in rows:
        if row.kind == "group" and groups[-1]:
            groups.append([])
        groups[-1].append(row)
    return groups


def _identity(anchor: str) -> str:
    return f' id="{escape(anchor)}"' if anchor else ""
