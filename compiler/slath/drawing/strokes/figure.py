"""The stroke: how each weave starts and its first strokes, from in front and from above, one panel a movement."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from msgspec.structs import replace

from slath.basket.model import WovenBand
from slath.drawing.options import Options
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.key import draw_key, key_height, rod_entries
from slath.drawing.plate.lettering import POINT_MM, word_width
from slath.drawing.plate.letters import rod_letters, shown_rods
from slath.drawing.plate.plate import Plate, disc_radius
from slath.drawing.scene import Scene
from slath.drawing.strokes.grid import Grid, Heading, heading_lines
from slath.drawing.strokes.panel import Panel
from slath.drawing.strokes.short_row import draw_turn, turned_at
from slath.drawing.strokes.words import figure_words, passed_by, start_said, stroke_said
from slath.messages import message
from slath.wording.strokes import weave_name

_PANELS = 4
_LINES_ROUND = 15.5  # of lettering above and below a plan that its room leaves out; a stroke has that room too
_LEAST_SPACING, _WIDEST_SPACING = 3.8, 11.5  # mm between uprights on the page


def draw_stroke(
    band: WovenBand, name: str, clothes: Wardrobe, options: Options, *, renewed: bool = False, single: bool = False,
    in_split: bool = False,
) -> Scene:  # fmt: skip
    """The first strokes of one weave, as the figure called `name`: the start and three movements.

    `single` says that the uprights are worked together where the weave begins, and apart only in the band that is drawn.

    `in_split`: its rods are begun by their tips in the split of the slath.

    Of a weave with a rod at every upright the last panel shows how a new set begins where its rods are `renewed`.
    """
    turned = turned_at(band)
    if turned:
        band = replace(band, start=band.spec.cells[0].stakes[0])
    weave = band.spec.weave
    renewed = renewed and weave.kind == "french rand"
    letters = rod_letters(band, clothes)
    moves = _movements(band)[: _PANELS - renewed]
    headings = _headings(band, letters, moves, options)
    if turned:
        headings[-1] = Heading(options.say(message("figure-strokes.turn-round", number=turned)))
    if renewed:
        headings.append(Heading(options.say(message("figure-strokes.new-set"))))
    grid = _grid(band, moves, letters, headings, options)
    entries = rod_entries(band, letters, clothes)
    below = key_height(entries, options)
    above = _seen_from_above(grid, -(-len(headings) // grid.columns), options, below)
    heights = [grid.height(options, above=seen) for seen in above]
    plate = Plate(options.width_mm, math.fsum(heights) + below, options)
    for number, heading in enumerate(headings):
        column = number % grid.columns
        column = grid.columns - 1 - column if options.mirrored else column  # read from left to right
        left = column * (options.width_mm - grid.width) / max(grid.columns - 1, 1)
        row = number // grid.columns
        top = plate.height - math.fsum(heights[:row])
        panel = Panel(plate, band, clothes, letters, grid, left, top, above=above[row])
        panel.heading(heading)
        if number == len(moves):
            panel.draw_new_set()
        elif turned and number == len(moves) - 1:
            draw_turn(panel, turned)
        elif _next_round(letters, number):
            panel.draw_next_round()
        else:
            panel.draw(moves[number], moves[number - 1] if number else ())
    draw_key(plate, entries, below)
    named = weave_name(weave)
    return plate.scene(
        name,
        message("figure-strokes.title", weave=named),
        figure_words(band, letters, moves, renewed=renewed, in_split=in_split),
        seen_from=message("figure-strokes.seen-from", worked=band.on_sticks),
        caption=message("captions.the-start-and-the-first", weave=named, worked=band.on_sticks, single=single),
        data={"band": band.name, "moves": moves},
    )


def _seen_from_above(grid: Grid, rows: int, options: Options, below: float) -> list[bool]:
    """Which rows of panels show the view from above too: all, or in large type the lower ones for which there is room."""
    room = options.tallest_mm + _LINES_ROUND * options.text_pt * POINT_MM
    seen = [True] * rows
    for row in range(rows):
        if math.fsum(grid.height(options, above=each) for each in seen) + below > room:
            seen[row] = False
    return seen


def _movements(band: WovenBand) -> list[tuple[int, ...]]:
    """How many strokes every rod has made in each panel: none at first, then one more of the leftmost each time."""
    weave, done = band.spec.weave, [0] * shown_rods(band)
    order = [step % len(done) for step in range(_PANELS - 1)]
    if weave.kind == "chase":  # rods do not take turns stroke by stroke: one goes ahead and the other follows
        order = [0, 0, 1]
    elif weave.kind == "french rand":  # each next rod is worked to the left of the one before
        order = [len(done) - 1 - step for step in range(_PANELS - 1)]
    states = [tuple(done)]
    for rod in order:
        done[rod] += 1
        states.append(tuple(done))
    return states


def _next_round(letters: Sequence[str], number: int) -> bool:
    """Whether a panel shows a weave of one rod come round again, rather than one more stroke."""
    return len(letters) == 1 and number == _PANELS - 1


def _headings(
    band: WovenBand, letters: Sequence[str], moves: Sequence[tuple[int, ...]], options: Options
) -> list[Heading]:
    """What each panel shows: the start, then which strand moves and past what."""
    told = [Heading(options.say(message("figure-strokes.starts", where=start_said(band))))]
    for number, (before, after) in enumerate(pairwise(moves), start=1):
        rod = next(index for index in range(len(after)) if after[index] != before[index])
        if _next_round(letters, number):
            told.append(Heading(options.say(message("figure-strokes.next-round"))))
        else:
            stroke = options.say(message("figure-strokes.heading", stroke=stroke_said(band, rod, before[rod])))
            told.append(Heading(stroke, str(number), letters[rod]))
    return told


def _grid(
    band: WovenBand,
    moves: Sequence[tuple[int, ...]],
    letters: Sequence[str],
    headings: Sequence[Heading],
    options: Options,
) -> Grid:
    """Panels in one row where all four have room, else two by two, or one under another where uprights would stand too close for their numbers."""
    weave, em = band.spec.weave, options.text_pt * POINT_MM
    reach = max(rod + passed_by(weave, done) for state in moves for rod, done in enumerate(state))
    first, last = -1, max(reach, len(letters) + 1)
    shown = last - first + 1
    radius = max(disc_radius(letter, options.text_pt) for letter in letters)
    number = word_width(str(band.uprights), options.text_pt, bold=True) + 0.3 * em
    for columns in (4, 2, 1):
        width = (options.width_mm - 5.0 * (columns - 1)) / columns
        spacing = min((width - 0.55 * em - radius) / (shown + 0.34), _WIDEST_SPACING, 3.2 * em)
        if spacing >= max(number, _LEAST_SPACING):
            break
    apart = 2 * radius + 0.15 * em
    disc_rows = next((rows for rows in (1, 2) if rows * spacing >= apart), 3)
    lines = max(len(heading_lines(heading, width, options)) for heading in headings)
    return Grid(columns, width, spacing, first, last, lines, disc_rows, radius)
