"""Runs broken into lines: the best breaks for the whole paragraph, justified or ragged, measures never broken.

The method is total-fit line breaking (D. E. Knuth and M. F. Plass, "Breaking Paragraphs into Lines", Software:
Practice and Experience 11, 1981): every feasible set of breaks is priced by how far its spaces depart from their
natural width, and the cheapest is kept. Hyphenation is tried only if the paragraph is poor without it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from msgspec import Struct
from pyphen import Pyphen

from slath.booklet.faces import NUMERATOR_RISE, Look, face, has_fractions
from slath.booklet.insets import inset_width
from slath.booklet.reading import FRACTION_SLASH, NO_BREAK, Inset, Run, fraction_parts

SOFT_HYPHEN = "\u00ad"
STRETCH = 0.5  # of a word space, at a badness of 100
SHRINK = 1 / 3  # of a word space, never more (Knuth and Plass: 6 units, which stretch by 3 and shrink by 2)
RAGGED_STRETCH = 0.16  # of the line, the shortfall at a badness of 100
GOOD_ENOUGH = 1.6  # worst stretch of a line for which hyphenation is not tried
HYPHEN_PRICE = 140.0
HYPHENS_IN_A_ROW_PRICE = 4000.0
LEAST_STRETCH = 3.0  # ems, the same in narrow columns
RUNT_PRICE = 30000.0  # a last line shorter than RUNT of the measure
RUNT = 0.15
FRACTION_SIZE = 1.12  # of the type size: fraction digits are drawn small, and these are read at an arm's length
MIXED_GAP = 0.17  # em between a whole number and its fraction; readers of text miss a smaller space
WORD = re.compile(r"[^\W\d_]{6,}")
JOINT = re.compile(r"(?<=\w[-–—/])(?=[^\W\d])|(?<=[^\W\d][-–—])(?=\w)")


class Span(NamedTuple):
    """A part of a line in one look, ``x`` from the left end of the line. An inset has no text."""

    x: float
    text: str
    look: Look
    width: float
    target: str = ""
    inset: Inset | None = None
    space: float = 0.0  # what each word space gains


class Line(Struct, frozen=True):
    """One line and its width as set."""

    spans: tuple[Span, ...]
    width: float


class _Fragment(NamedTuple):
    text: str
    look: Look
    width: float
    target: str
    inset: Inset | None = None
    fixed: bool = False  # its spaces are no word spaces: they neither stretch nor join their neighbours

    @property
    def gaps(self) -> int:
        """How many word spaces stretch. Breaking ones and others stretch alike, so a line looks even."""
        return 0 if self.fixed else self.text.count(" ") + self.text.count(NO_BREAK)


class _Chunk(NamedTuple):
    """What is never broken. ``after``: a space, a place to hyphenate, a joint such as a hyphen, or the end."""

    fragments: tuple[_Fragment, ...]
    width: float
    after: str  # " ", "-", "" (joint) or "." (end)


class Setting(Struct, frozen=True):
    """How lines are filled."""

    width: float
    justified: bool = False
    hyphens: str = ""  # language of the hyphenation patterns, or none
    indent: float = 0.0  # of every line but the first, as under a hanging number


@lru_cache(maxsize=4)
def _hyphenator(language: str) -> Pyphen:
    import pyphen  # noqa: PLC0415  (loaded with its patterns only if something is hyphenated)

    return pyphen.Pyphen(lang=pyphen.language_fallback(language.replace("-", "_")) or "en_GB", left=3, right=3)


@lru_cache(maxsize=8192)
def _parts(word: str, language: str) -> tuple[tuple[str, str], ...]:
    """A word at its joints and, with a language, its places to hyphenate: (text, what breaks after it)."""
    parts: list[tuple[str, str]] = []
    for joint in JOINT.split(word):
        syllables = _syllables(joint, language) if language else [joint]
        parts.extend((syllable, "-") for syllable in syllables[:-1])
        parts.append((syllables[-1], ""))
    return tuple(parts)


def _syllables(text: str, language: str) -> list[str]:
    cuts = [
        match.start() + position
        for match in WORD.finditer(text)
        if not match.group().isupper()
        for position in _hyphenator(language).positions(match.group())
    ]
    ends = [0, *cuts, len(text)]
    return [text[a:b] for a, b in pairwise(ends)]


def _fragments(text: str, look: Look, target: str) -> list[_Fragment]:
    """Text without spaces as fragments: fractions are taken out and set from their own face."""
    if FRACTION_SLASH not in text or not has_fractions(look.face):
        return [_Fragment(text, look, face(look.face).width(text) * look.size, target)]
    fragments: list[_Fragment] = []
    digits = f"{look.face}-fractions"
    slash = look._replace(size=FRACTION_SIZE * look.size)
    lower = slash._replace(face=digits)
    upper = lower._replace(rise=look.rise + NUMERATOR_RISE[look.face.partition("-")[0]] * lower.size)
    for shape, first, second in fraction_parts(text):
        if shape == "text":
            fragments.append(_Fragment(first, look, face(look.face).width(first) * look.size, target))
        elif shape == "gap":
            narrow = look._replace(
                size=look.size * MIXED_GAP / face(look.face).space()
            )  # a true space, as wide as the gap
            fragments.append(_Fragment(" ", narrow, MIXED_GAP * look.size, target, fixed=True))
        else:
            for digits_of, part in ((first, upper), (FRACTION_SLASH, slash), (second, lower)):
                fragments.append(_Fragment(digits_of, part, face(part.face).width(digits_of) * part.size, target))
    return fragments


class _Cutter:
    """Gathers fragments into chunks."""

    def __init__(self, look_of: Callable[[Run], Look], language: str) -> None:
        self.look_of, self.language = look_of, language
        self.look = look_of(Run(""))
        self.chunks: list[_Chunk] = []
        self.held: list[_Fragment] = []

    def close(self, after: str) -> None:
        """End the chunk; a space after nothing new belongs to the chunk before."""
        if self.held:
            self.chunks.append(_Chunk(tuple(self.held), math.fsum(fragment.width for fragment in self.held), after))
            self.held.clear()
        elif self.chunks and after == " ":
            self.chunks[-1] = self.chunks[-1]._replace(after=" ")

    def inset(self, inset: Inset) -> None:
        """Take in something drawn."""
        self.held.append(_Fragment("", self.look, inset_width(inset, self.look.size), "", inset))

    def run(self, run: Run) -> None:
        """Take in words of one look."""
        self.look = self.look_of(run)
        for number, word in enumerate(run.text.split(" ")):
            if number:
                self.close(" ")
            pieces = _parts(word, self.language) if word else ()
            for position, (text, after) in enumerate(pieces, 1):
                self.held.extend(_fragments(text, self.look, run.target))
                if position < len(pieces):
                    self.close(after)


class Cut(NamedTuple):
    """Runs taken apart into what never breaks; the narrowest column they can stand in so, and their width on one line."""

    pieces: tuple[_Chunk, ...]
    narrowest: float
    natural: float


def cut(parts: Iterable[Run | Inset], look_of: Callable[[Run], Look], language: str = "") -> Cut:
    """Take runs apart, at the places where words of a language are hyphenated as well if one is given."""
    pieces = _chunks(parts, look_of, language)
    base = look_of(Run(""))
    space = face(base.face).space() * base.size
    natural = math.fsum(piece.width + (space if piece.after == " " else 0.0) for piece in pieces)
    return Cut(pieces, max((piece.width for piece in pieces), default=0.0), natural)


def _chunks(parts: Iterable[Run | Inset], look_of: Callable[[Run], Look], language: str) -> tuple[_Chunk, ...]:
    cutter = _Cutter(look_of, language)
    for part in parts:
        if isinstance(part, Inset):
            cutter.inset(part)
        else:
            cutter.run(part)
    cutter.close(".")
    if cutter.chunks:
        cutter.chunks[-1] = cutter.chunks[-1]._replace(after=".")
    return tuple(cutter.chunks)


class _Priced(NamedTuple):
    ends: tuple[int, ...]
    worst: float


def _best_breaks(pieces: Sequence[_Chunk], setting: Setting, space: float, hyphen: float, em: float) -> _Priced:
    """The cheapest ends of lines, as indices after the last piece of each, and the worst stretch among them."""
    count = len(pieces)
    widths, spaces = [0.0], [0]
    for piece in pieces:
        widths.append(widths[-1] + piece.width)
        spaces.append(spaces[-1] + (piece.after == " "))
    price: list[float] = [0.0] + [float("inf")] * count
    before = [0] * (count + 1)
    stretch_at = [0.0] * (count + 1)
    starts = [0]
    squeeze = SHRINK * space if setting.justified else 0.0
    for end in range(1, count + 1):
        after = pieces[end - 1].after
        tail = hyphen if after == "-" else 0.0
        alive: list[int] = []
        for start in starts:
            gaps = spaces[end - 1] - spaces[start]
            room = setting.width - (setting.indent if start else 0.0)
            spare = room - (widths[end] - widths[start] + gaps * space + tail)
            if price[start] >= price[end] and spare + gaps * squeeze >= -0.01:
                alive.append(start)  # it fits, and no line costs less than nothing
                continue
            if spare + gaps * squeeze < -0.01:
                if start == end - 1:  # wider than the line and unbreakable: it must stand somewhere
                    cost, worst = price[start] + 1e9 * (1 - spare), 99.0
                else:
                    continue
            else:
                alive.append(start)
                cost, worst = _line_price(setting, after, gaps, spare, room, space, em)
                if after == "-" and start and pieces[start - 1].after == "-":
                    cost += HYPHENS_IN_A_ROW_PRICE
                cost += price[start]
            if cost < price[end]:
                price[end], before[end] = cost, start
                stretch_at[end] = max(worst, stretch_at[start])
        starts = [*alive, end]
    ends = [count]
    while before[ends[-1]]:
        ends.append(before[ends[-1]])
    return _Priced(tuple(reversed(ends)), stretch_at[count])


def _line_price(
    setting: Setting, after: str, gaps: int, spare: float, room: float, space: float, em: float
) -> tuple[float, float]:
    """The demerits of one line, and how far its spaces are stretched (1 is as far as is handsome)."""
    if after == ".":
        return (RUNT_PRICE if room - spare < RUNT * room else 100.0), 0.0
    in_spaces = max(gaps, 0.3) * space * (STRETCH if spare >= 0 else SHRINK)
    give = in_spaces if setting.justified else max(RAGGED_STRETCH * room, LEAST_STRETCH * em)
    ratio = abs(spare) / give
    badness = 100 * min(ratio, 10.0) ** 3
    return (10 + badness + (HYPHEN_PRICE if after == "-" else 0.0)) ** 2, (ratio if spare > 0 else 0.0)


def break_lines(parts: Iterable[Run | Inset], look_of: Callable[[Run], Look], setting: Setting) -> list[Line]:
    """Set runs in lines of ``setting.width`` points."""
    parts = list(parts)
    return lines_of(lambda language: cut(parts, look_of, language), look_of(Run("")), setting)


def lines_of(cut_for: Callable[[str], Cut], base: Look, setting: Setting) -> list[Line]:
    """Lines of ``setting.width`` points from words cut for a language, or for none; ``base`` is the look of plain ones."""
    pieces, ends = _broken(cut_for, base, setting)
    lines, start = [], 0
    for end in ends:
        inner = setting if start == 0 else Setting(setting.width - setting.indent, setting.justified)
        lines.append(_line(pieces[start:end], inner, last=end == len(pieces)))
        start = end
    return lines


def count_lines(cut_for: Callable[[str], Cut], base: Look, setting: Setting) -> int:
    """How many lines `lines_of` would make."""
    return len(_broken(cut_for, base, setting)[1])


def _broken(cut_for: Callable[[str], Cut], base: Look, setting: Setting) -> tuple[tuple[_Chunk, ...], tuple[int, ...]]:
    """The pieces and the ends of lines, as indices after the last piece of each."""
    pieces, _, natural = cut_for("")
    if natural <= setting.width or not pieces:
        return pieces, (len(pieces),) if pieces else ()
    own = face(base.face)
    space, hyphen = own.space() * base.size, own.width("-") * base.size
    best = _best_breaks(pieces, setting, space, hyphen, base.size)
    if setting.hyphens and best.worst > (GOOD_ENOUGH if setting.justified else 98.0):
        pieces = cut_for(setting.hyphens).pieces
        best = _best_breaks(pieces, setting, space, hyphen, base.size)
    return pieces, best.ends


def _line(pieces: Sequence[_Chunk], setting: Setting, *, last: bool) -> Line:
    """Join pieces into spans. Words are parted by real spaces at the end of a line too, as readers of text need."""
    joined: list[_Fragment] = []

    def add(fragment: _Fragment) -> None:
        if joined and _joins(joined[-1], fragment):
            joined[-1] = joined[-1]._replace(text=joined[-1].text + fragment.text, width=-1.0)
        else:
            joined.append(fragment)

    for number, piece in enumerate(pieces):
        for fragment in piece.fragments:
            add(fragment)
        if number + 1 < len(pieces) and piece.after == " ":
            add(_space_between(piece.fragments[-1], pieces[number + 1].fragments[0]))
    end = pieces[-1].fragments[-1]
    if pieces[-1].after == "-":
        add(end._replace(text=SOFT_HYPHEN))
    spans, x = _placed(joined)
    gaps = sum(fragment.gaps for fragment in joined)
    spare = setting.width - x
    justify = setting.justified and gaps and (not last or spare < 0)
    extra, shift = spare / gaps if justify else 0.0, 0.0
    for number, fragment in enumerate(joined if justify else ()):
        span, gain = spans[number], extra * fragment.gaps
        space = 0.0 if fragment.fixed else extra
        spans[number] = span._replace(x=span.x + shift, width=span.width + gain, space=space)
        shift += gain
    if pieces[-1].after == " ":
        _part(spans)
    return Line(tuple(spans), setting.width if justify else x)


def _part(spans: list[Span]) -> None:
    """Put a space after the last word of a line, where it shows nowhere."""
    final = spans[-1]
    if final.inset:
        spans.append(Span(final.x + final.width, " ", final.look, 0.0))
    else:
        spans[-1] = final._replace(text=final.text + " ")


def _joins(first: _Fragment, second: _Fragment) -> bool:
    return (
        first.look == second.look
        and first.target == second.target
        and not first.inset
        and not second.inset
        and not first.fixed
        and not second.fixed
    )


def _space_between(first: _Fragment, second: _Fragment) -> _Fragment:
    """A word space between two fragments, in the look of the one that is plain text and leads nowhere."""
    for holder in (first, second):
        if (
            not holder.inset
            and not holder.target
            and not holder.look.face.endswith("-fractions")
            and not holder.look.rise
        ):
            break
    else:
        holder = first if not first.inset else second
    look = holder.look._replace(face=holder.look.face.removesuffix("-fractions"), rise=0.0)
    return _Fragment(
        " ", look, face(look.face).space() * look.size, holder.target if first.target == second.target else ""
    )


def _placed(joined: list[_Fragment]) -> tuple[list[Span], float]:
    spans, x = [], 0.0
    for fragment in joined:
        width = fragment.width
        if width < 0:
            width = face(fragment.look.face).width(fragment.text) * fragment.look.size
        spans.append(Span(x, fragment.text, fragment.look, width, fragment.target, fragment.inset))
        x += width
    return spans, x
