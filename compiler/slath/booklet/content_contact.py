"""Photographs off the steps, and whom to write to: what a designer gives of themselves, where it stands."""

from __future__ import annotations

from slath.booklet.blocks import Block, Figure, Paragraph, Photograph
from slath.booklet.content_record import BookletContent
from slath.messages import Own, message


def photographs_at(content: BookletContent, at: str) -> list[Figure]:
    """The photographs for a place off the steps, ``cover`` or ``back``, those that can be printed."""
    return [
        Figure(
            Photograph(content.pictures[photograph.file], title=photograph.shows, words=photograph.shows),
            caption=photograph.caption or photograph.shows,
            width="page" if at == "cover" else "column",
        )
        for photograph in content.pattern.photographs
        if photograph.at == at and photograph.file in content.pictures
    ]


def contact_lines(content: BookletContent) -> list[Block]:
    """Where to write, and where mistakes are reported; nothing where the designer gives neither."""
    pattern, say = content.pattern, content.voice.say
    lines = []
    if pattern.contact:
        lines.append(say(message("contact.write-to", contact=Own(pattern.contact))))
    if pattern.errata:
        lines.append(say(message("contact.mistakes", errata=Own(pattern.errata))))
    elif pattern.contact:
        lines.append(say(message("contact.mistakes-too")))
    return [Paragraph(line, role="small") for line in lines]


def class_licence(content: BookletContent) -> list[Block]:
    """What a student may do with a handout, and whom to write to."""
    licence = content.pattern.licence
    return [*([Paragraph(licence, role="small")] if licence else []), *contact_lines(content)]
