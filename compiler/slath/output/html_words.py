"""Words with their looks as HTML."""

from __future__ import annotations

from collections.abc import Collection
from html import escape

from slath.booklet.pieces import (
    Blank,
    Chip,
    Emphasis,
    Link,
    Measure,
    MeasureLetter,
    Piece,
    Second,
    Shows,
    SizeRing,
    Strong,
    Term,
    TickBox,
    Words,
    pieces_of,
)
from slath.booklet.reading import bound, fraction_parts


def words_html(words: Words, anchors: Collection[str], done: str) -> str:
    """Words with their looks; those that lead to one of the ``anchors`` of the page are links. ``done`` is what
    a box to tick is called by who hears the page.
    """
    return "".join(_piece(piece, anchors, done) for piece in pieces_of(words))


def _piece(piece: Piece, anchors: Collection[str], done: str) -> str:  # noqa: C901, PLR0911, PLR0912  (one line a kind)
    """One piece of words."""
    match piece:
        case str():
            return fractions_html(bound(piece))
        case Measure(text):
            return fractions_html(bound(text, measure=True))
        case Strong(words):
            return f"<strong>{words_html(words, anchors, done)}</strong>"
        case Emphasis(words):
            return f"<em>{words_html(words, anchors, done)}</em>"
        case Term(words, anchor):
            said = f"<dfn>{words_html(words, anchors, done)}</dfn>"
            return f'<a href="#{escape(anchor)}">{said}</a>' if anchor in anchors else said
        case Link(words, target):
            outside = target.startswith(("https:", "http:", "mailto:"))
            if not outside and target.lstrip("#") not in anchors:
                return words_html(words, anchors, done)
            return f'<a href="{escape(target if outside else "#" + target.lstrip("#"))}">{words_html(words, anchors, done)}</a>'
        case Blank(name, width):
            return f'<input type="text" aria-label="{escape(name)}" style="width:{width:g}mm">'
        case TickBox():
            return f'<input type="checkbox" aria-label="{escape(done)}"> '
        case Second(words):
            return f'<span class="second">{words_html(words, anchors, done)}</span>'
        case MeasureLetter(letter):
            return f'<b class="letter">{escape(letter)}</b>'
        case SizeRing() | Shows():
            return ""
        case Chip(colour, letter):
            return f'<span class="chip" style="background:{escape(colour)}"></span><b>{escape(letter)}</b>'


def fractions_html(text: str) -> str:
    """Text with its fractions marked, so that fonts show them as such, and with the spaces that never break."""
    parts = []
    for shape, first, second in fraction_parts(text):
        if shape == "text":
            parts.append(escape(first))
        elif shape == "gap":
            parts.append("&nbsp;")
        else:
            parts.append(f'<span class="f"><sup>{first}</sup>⁄<sub>{second}</sub></span>')
    return "".join(parts)
