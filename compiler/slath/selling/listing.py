"""The words of an offer: what a shop's page says of a pattern, as plain text, as data, and as a flyer to print."""

from __future__ import annotations

import datetime as dt
from io import BytesIO
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet.blocks import Block, Definition, Definitions, Document, Figure, Heading, Paragraph
from slath.booklet.content_record import BookletContent
from slath.booklet.content_steps import SizeContent
from slath.messages import Message, Own, message, plain
from slath.messages.language import Language
from slath.wording.speech import sentence_case
from slath.wording.strokes import weave_name

Lines = tuple[str, ...]
NO_DAY = dt.date(2000, 1, 1)


class Offered(Struct, frozen=True):
    """One file a buyer gets: its name, the language it is in, the paper it is set on, and how many pages it has."""

    file: str
    language: str
    paper: str
    pages: int


class Listing(Struct, frozen=True):
    """What is said of a pattern to who may buy it. `sizes` are finished measures by name; nothing withheld is in it."""

    title: str
    subtitle: str
    designer: str
    edition: str
    about: str
    sizes: tuple[tuple[str, str], ...]
    skill: str
    time: str
    learn: Lines
    tools: Lines
    materials: Lines
    files: tuple[Offered, ...]
    woven: bool
    licence: str
    contact: str


def pages_in(data: bytes) -> int:
    """How many pages a PDF has."""
    from pypdf import PdfReader  # noqa: PLC0415

    return len(PdfReader(BytesIO(data)).pages)


def listing_of(content: BookletContent, files: tuple[Offered, ...]) -> Listing:
    """The listing of a pattern in the language its content is told in."""
    pattern = content.pattern
    return Listing(
        title=pattern.title,
        subtitle=pattern.subtitle,
        designer=pattern.designer or pattern.workshop,
        edition=pattern.edition,
        about=" ".join(pattern.about.split()),
        sizes=tuple((size.name, _measures(content, size)) for size in content.sizes),
        skill=". ".join(part for part in (sentence_case(pattern.skill), plain(content.skill)) if part),
        time=pattern.time,
        learn=_learnt(content),
        tools=tuple(plain(name) for name, _ in content.tools),
        materials=tuple(dict.fromkeys(row.title for size in content.sizes for row in size.quantities.purchase)),
        files=files,
        woven=all(size.basket.pattern.woven_on for size in content.sizes),
        licence=_first_sentence(pattern.licence),
        contact=pattern.contact,
    )


def _measures(content: BookletContent, size: SizeContent) -> str:
    """The finished measures of a size, which nothing withholds: a buyer must know how large it is."""
    voice, finished = content.voice, size.quantities.finished
    wide, long = finished.rim_width.value, finished.rim_length.value
    across = voice.length(long) if abs(long - wide) < 1 else voice.by(long, wide)
    height = (finished.height_with_handle or finished.height).value
    if size.basket.profile is None or not height:
        return across
    return voice.text(message("offer.high", across=Own(across), height=Own(voice.length(height))))


def _learnt(content: BookletContent) -> Lines:
    """The weaves, and what is made besides, each once in the order they come."""
    voice = content.voice
    basket = content.sizes[0].basket
    weaves = [voice.text(weave_name(band.spec.weave)) for band in basket.woven]
    more = [
        *([message("offer.border")] if basket.border else []),
        *([message("offer.handle")] if basket.handles else []),
        *([message("offer.lid")] if basket.lid else []),
    ]
    return tuple(dict.fromkeys([*weaves, *(voice.text(said) for said in more)]))


def _first_sentence(text: str) -> str:
    words = " ".join(text.split())
    head, stop, _ = words.partition(". ")
    return f"{head}." if stop else words


# ------------------------------------------------------------------------------------------------------------- told
def listing_text(listing: Listing, content: BookletContent) -> str:
    """The listing as plain text, to be pasted into a shop's page."""
    parts = [listing.title]
    parts += [listing.subtitle] if listing.subtitle else []
    parts += [content.voice.text(message("offer.by", designer=Own(listing.designer)))] if listing.designer else []
    parts += ["", listing.about] if listing.about else []
    for label, lines in _facts(listing, content):
        parts += ["", label, *(f"- {line}" for line in lines)]
    return "\n".join(parts) + "\n"


def _facts(listing: Listing, content: BookletContent) -> list[tuple[str, Lines]]:
    """Every fact with its label, those that are known, in the order a buyer asks."""
    say = content.voice.text
    sizes = tuple(
        say(message("offer.size", name=Own(sentence_case(name)), measures=Own(told))) for name, told in listing.sizes
    )
    got = tuple(dict.fromkeys(_got(offered, content) for offered in listing.files))
    found: list[tuple[Message, Lines]] = [
        (message("offer.sizes"), sizes if listing.woven else (*sizes, say(message("offer.untested")))),
        (message("offer.skill"), (listing.skill,) if listing.skill else ()),
        (message("offer.time"), (listing.time,) if listing.time else ()),
        (message("offer.learn"), listing.learn),
        (message("offer.tools"), listing.tools),
        (message("offer.materials"), listing.materials),
        (message("offer.you-get"), (*got, say(message("offer.tagged"))) if got else ()),
        (message("offer.licence"), (listing.licence,) if listing.licence else ()),
        (message("offer.contact"), (listing.contact,) if listing.contact else ()),
    ]
    return [(say(label), lines) for label, lines in found if lines]


def _got(offered: Offered, content: BookletContent) -> str:
    language = Own(Language(offered.language).about("name"))
    pages, paper = Own(str(offered.pages)), Own(offered.paper.upper() if len(offered.paper) == 2 else offered.paper)
    return content.voice.text(message("offer.pages", pages=pages, paper=paper, language=language))


def listing_data(listing: Listing) -> dict[str, Any]:
    """The listing as plain data for programs."""
    return {
        "listing": 1,
        "title": listing.title,
        "subtitle": listing.subtitle,
        "designer": listing.designer,
        "edition": listing.edition,
        "about": listing.about,
        "sizes": [{"size": name, "measures": told} for name, told in listing.sizes],
        "skill": listing.skill,
        "time": listing.time,
        "practises": list(listing.learn),
        "tools": list(listing.tools),
        "materials": list(listing.materials),
        "files": [
            {"file": each.file, "language": each.language, "paper": each.paper, "pages": each.pages}
            for each in listing.files
        ],
        "woven": listing.woven,
        "licence": listing.licence,
        "contact": listing.contact,
    }


def flyer(listing: Listing, content: BookletContent) -> Document:
    """One page to print and hand out: the finished basket, what it is, what a buyer gets."""
    pattern = content.pattern
    blocks: list[Block] = [Heading(1, listing.title)]
    lead = " ".join(part for part in (_ended(listing.subtitle), listing.about) if part)
    if lead:
        blocks.append(Paragraph(lead, role="lead"))
    view = content.sizes[(len(content.sizes) - 1) // 2].figures.get("view")
    if view is not None:
        blocks.append(Figure(view, caption=listing.designer or listing.title))
    short = replace(listing, tools=(), materials=())  # which a buyer reads before the work, not on a stall
    facts = tuple(Definition(label, "; ".join(lines)) for label, lines in _facts(short, content))
    blocks.append(Definitions(facts, kind="facts"))
    return Document(
        title=listing.title,
        blocks=tuple(blocks),
        author=listing.designer,
        language=content.voice.language.about("tag"),
        subject=listing.subtitle or listing.title,
        date=pattern.dated or NO_DAY,
        foot=content.voice.text(message("offer.by", designer=Own(listing.designer))) if listing.designer else "",
    )


def _ended(sentence: str) -> str:
    return f"{sentence}." if sentence and sentence[-1] not in ".!?" else sentence
