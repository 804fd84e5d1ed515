"""The desk a document is set on: style, paper and the setting of words into strips of lines."""

from __future__ import annotations

from msgspec import Struct, field
from msgspec.structs import replace

from slath.booklet.blocks import Words
from slath.booklet.faces import Look, face, face_name
from slath.booklet.insets import inset_mark
from slath.booklet.laid import MM, Glyphs, Mark, Node
from slath.booklet.lines import Cut, Line, Setting, count_lines, cut, lines_of
from slath.booklet.reading import Run, runs
from slath.booklet.strips import IN_PARAGRAPH, NEVER, WIDOW, Strip
from slath.booklet.styles import Style

SECOND = 0.85  # of the type size: words of less weight
NARROW = 27.0  # ems; narrower lines are set ragged even where the style justifies


def varied(look: Look, run: Run) -> Look:
    """The look of a run inside words of ``look``."""
    if run.second:
        look = look._replace(size=SECOND * look.size)
    if not (run.strong or run.emphasis or run.term) or look.face.endswith(("-caps", "-display")):
        return look
    family = look.face.partition("-")[0]
    strong = run.strong or "-bold" in look.face
    emphasis = (run.emphasis or run.term) != ("-italic" in look.face)
    return look._replace(face=face_name(family, strong=strong, emphasis=emphasis))


class Desk(Struct, frozen=True):
    """Style, size of a column in points, language."""

    style: Style
    width: float
    height: float
    language: str
    heading_shift: int = 0
    anchors: frozenset[str] = frozenset()
    broken: dict[tuple[Words, Look, Setting], list[Line]] = field(default_factory=dict)
    cuts: dict[tuple[Words, Look, str], Cut] = field(default_factory=dict)

    @property
    def indent(self) -> float:
        """How far text stands in, in points."""
        return self.style.indent * MM

    @property
    def line(self) -> float:
        """The distance of baselines of body text."""
        return self.style.line

    def narrowed(self, width: float) -> Desk:
        """The same desk with a narrower column and no indent."""
        return replace(self, width=width, style=replace(self.style, indent=0.0))

    def leading(self, size: float) -> float:
        """The distance of baselines for a type size; display sizes are set closer."""
        body = self.style.type.leading
        return size * (body if size <= self.style.type.lead else max(1.14, body - 0.2))

    def baseline(self, look: Look) -> float:
        """How far the baseline of a line lies below its top: its capitals stand in the middle."""
        return (self.leading(look.size) + face(look.face).cap_height * look.size) / 2

    def lines(self, words: Words, look: Look, width: float, *, ragged: bool = False, indent: float = 0.0) -> list[Line]:
        """Words broken into lines of ``width`` points, all but the first shorter by ``indent``."""
        setting = self._setting(look, width, ragged=ragged, indent=indent)
        key = (words, look, setting)
        if key not in self.broken:  # the same words are tried at several places of the page before one is taken
            self.broken[key] = lines_of(lambda language: self._cut(words, look, language), look, setting)
        return self.broken[key]

    def count(self, words: Words, look: Look, width: float, *, ragged: bool = False) -> int:
        """How many lines `lines` would make."""
        setting = self._setting(look, width, ragged=ragged)
        return count_lines(lambda language: self._cut(words, look, language), look, setting)

    def _setting(self, look: Look, width: float, *, ragged: bool, indent: float = 0.0) -> Setting:
        lines = self.style.lines
        justified = lines.justified and not ragged and width >= NARROW * look.size
        return Setting(width, justified, self.language if lines.hyphens and not ragged else "", indent)

    def _cut(self, words: Words, look: Look, language: str = "") -> Cut:
        """Words taken apart, once for all the widths they are tried at."""
        key = (words, look, language)
        if key not in self.cuts:
            self.cuts[key] = cut(runs(words), lambda run: varied(look, run), language)
        return self.cuts[key]

    def widths(self, words: Words, look: Look) -> tuple[float, float]:
        """Narrowest and natural width of words."""
        made = self._cut(words, look)
        return made.narrowest, made.natural

    def text(
        self, words: Words, node: Node, look: Look, *, x: float = 0.0, width: float = 0.0, ragged: bool = False,
        align: str = "left", leading: float = 0.0, indent: float = 0.0,
    ) -> list[Strip]:  # fmt: skip
        """Words as strips of one line each, costs of widows and orphans set; lines after the first stand in by ``indent``."""
        width = width or self.width - x
        leading = leading or self.leading(look.size)
        baseline = (leading + face(look.face).cap_height * look.size) / 2
        set_lines = self.lines(words, look, width, ragged=ragged or align != "left", indent=indent)
        links: dict[str, Node] = {}
        strips = []
        for number, line in enumerate(set_lines):
            shift = {"left": 0.0, "centre": (width - line.width) / 2, "right": width - line.width}[align]
            marks = line_marks(line, node, x + shift + (indent if number else 0.0), baseline, links, self.anchors)
            strips.append(Strip(leading, marks, cost=line_cost(number, len(set_lines))))
        return strips


def line_cost(number: int, count: int) -> float:
    """What a break before a line of a paragraph costs: no first or last line stands alone."""
    if number == 0:
        return 0.0
    if count <= 3:
        return NEVER / 2
    return WIDOW if number in {1, count - 1} else IN_PARAGRAPH


def line_marks(
    line: Line, node: Node, x: float, y: float, links: dict[str, Node], anchors: frozenset[str]
) -> list[Mark]:
    """One line on the baseline ``y``. ``links`` keeps the Link element of the line before, by its target: a link that
    runs on is one element, while the same target named again further on is another, or it would be read out of turn.

    Words that would lead to a section the style leaves out are set as plain words.
    """
    marks: list[Mark] = []
    for span in line.spans:
        look = span.look
        if span.target not in links:
            links.clear()
        if span.inset:
            marks.extend(inset_mark(span.inset, node, x + span.x, y, look))
            continue
        owner = node
        if span.target and (not span.target.startswith("#") or span.target[1:] in anchors):
            owner = links.get(span.target) or links.setdefault(span.target, Node("Link", node, target=span.target))
        glyphs = Glyphs(x + span.x, y - look.rise, span.text, look.face, look.size, look.colour, span.width, span.space)
        if marks and marks[-1].node is owner:
            marks[-1] = Mark(owner, (*marks[-1].items, glyphs))
        else:
            marks.append(Mark(owner, (glyphs,)))
    return marks


def spaced(strips: list[Strip], above: float = 0.0, below: float = 0.0) -> list[Strip]:
    """Give a block its space above and below."""
    if strips:
        strips[0] = replace(strips[0], above=max(above, strips[0].above))
        strips[-1] = replace(strips[-1], below=max(below, strips[-1].below))
    return strips
