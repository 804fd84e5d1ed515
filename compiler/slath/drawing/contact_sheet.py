"""A contact sheet: all figures of a pattern small on a page, each with its name."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from slath.drawing.options import Options
from slath.drawing.plate.lettering import word_width
from slath.drawing.scene import Ellipse, Group, Item, Path, Scene, Subpath, Text
from slath.messages import Listed, Own, message

_GAP, _NAME = 5.0, 5.0  # mm between figures, and for a name under each


def contact_sheets(
    scenes: Sequence[Scene], title: str = "", options: Options | None = None, columns: int = 3
) -> list[Scene]:
    """Pages of `sheet_mm` with the scenes in their order, `columns` across."""
    options = options or Options()
    title = title or options.say(message("figure-sheets.all-figures"))
    page_x, page_y = options.sheet_mm
    cell = (page_x - (columns - 1) * _GAP) / columns
    tall = min(cell * 1.15, (page_y - 10.0) / 2)
    rows = max(1, int((page_y - 8.0) / (tall + _NAME + _GAP)))
    pages: list[Scene] = []
    for first in range(0, len(scenes), rows * columns):
        number = len(pages) + 1
        heading = options.say(message("figure-sheets.contact-sheet", title=Own(title), number=number))
        items: list[Item] = [Text(0.0, 4.0, heading, 9.0, "start", bold=True, colour=options.ink)]
        for place, scene in enumerate(scenes[first : first + rows * columns]):
            row, column = divmod(place, columns)
            x, y = column * (cell + _GAP), 8.0 + row * (tall + _NAME + _GAP)
            scale = min(cell / scene.width, tall / scene.height)
            items.append(Group(tuple(moved(item, scale, x, y) for item in scene.items), name=scene.name))
            items.append(
                Text(
                    x, y + tall + 3.2, _fitting(scene.name, cell, options), options.text_pt, "start", colour=options.ink
                )
            )
        shown = Listed(tuple(Own(scene.title) for scene in scenes[first : first + rows * columns]))
        words = message("figure-sheets.contact-words", title=Own(title), figures=shown)
        pages.append(Scene(f"contact-sheet-{number}", title, options.say(words), page_x, page_y, tuple(items)))
    return pages


def _fitting(name: str, room: float, options: Options) -> str:
    while word_width(name, options.text_pt) > room and len(name) > 4:
        name = name[:-2].rstrip("….") + "…"
    return name


def moved(item: Item, scale: float, x: float, y: float) -> Item:
    """An item scaled about the page's corner and moved to (x, y)."""
    if isinstance(item, Group):
        clip = item.clip
        if clip:
            clip = (clip[0] * scale + x, clip[1] * scale + y, clip[2] * scale, clip[3] * scale)
        return Group(tuple(moved(inner, scale, x, y) for inner in item.items), item.name, clip)
    if isinstance(item, Path):
        lines = tuple(
            Subpath(
                tuple((round(px * scale + x, 3), round(py * scale + y, 3)) for px, py in line.points),
                line.closed,
                line.curve,
            )
            for line in item.subpaths
        )
        return replace(
            item, subpaths=lines, width=round(item.width * scale, 4), dash=tuple(step * scale for step in item.dash)
        )
    if isinstance(item, Ellipse):
        return replace(
            item,
            x=item.x * scale + x,
            y=item.y * scale + y,
            rx=item.rx * scale,
            ry=item.ry * scale,
            width=round(item.width * scale, 4),
        )
    return replace(item, x=item.x * scale + x, y=item.y * scale + y, size_pt=item.size_pt * scale)
