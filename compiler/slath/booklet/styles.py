"""Styles: data files that say how content is set. Adding a style is adding a file to ``styles/``."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cached_property, lru_cache
from importlib import resources
from pathlib import Path
from typing import Any, Literal

from msgspec import Struct, field
from msgspec.structs import replace

from slath.booklet.faces import Look, face_name
from slath.booklet.laid import MM
from slath.booklet.papers import PAPERS, Paper
from slath.booklet.style_faults import room_fault
from slath.language.gate import surely_good

GUTTER = 6.0  # mm between the columns of the grid


class StyleError(ValueError):
    """A style file that cannot be used, or a paper the style is not made for."""


class Margins(Struct, frozen=True):
    """Millimetres. ``inner`` is at the fold or the punched edge."""

    inner: float
    outer: float
    top: float
    bottom: float


class Type(Struct, frozen=True):
    """Families and sizes in points; ``leading`` over size."""

    text: Literal["serif", "sans"]
    headings: Literal["serif", "sans"]
    tables: Literal["serif", "sans"]
    body: float
    leading: float
    lead: float
    small: float
    caption: float
    table: float
    title: float
    heading_1: float
    heading_2: float
    heading_3: float
    small_caps: bool = False


class Colours(Struct, frozen=True):
    """The five colours of a style, ``#rrggbb``."""

    ink: str
    accent: str
    quiet: str
    rule: str
    tint: str


class Lines(Struct, frozen=True):
    """Whether lines are filled to both edges, and whether words may be hyphenated."""

    justified: bool = False
    hyphens: bool = False


class Figures(Struct, frozen=True):
    """How far a figure may be enlarged to fill its column, and how tall it may stand among text (of the column)."""

    largest: float = 1.0
    tallest: float = 0.45


class CoverLook(Struct, frozen=True):
    """How the cover is set: with a band of the tint behind maker and title, from edge to edge, or plain."""

    band: Literal["none", "tint"] = "none"


class Style(Struct, frozen=True, dict=True):
    """One style. See ``style.schema.json`` for what each key means."""

    name: str
    title: str
    purpose: str
    paper: tuple[str, ...]
    margins: Margins
    type: Type
    colours: Colours
    lines: Lines = field(default_factory=Lines)
    figures: Figures = field(default_factory=Figures)
    cover: CoverLook = field(default_factory=CoverLook)
    landscape: bool = False
    two_sided: bool = False
    columns: int = 1
    gutter: float = 7.0
    grid: int = 1
    text_width: float = 0.0
    indent: float = 0.0
    tables: Literal["grid", "list", "fit"] = "fit"
    sections: tuple[str, ...] | None = None
    parts: Literal["page", "shared", "run on"] = "shared"

    @property
    def grey(self) -> bool:
        """Whether the style has no colour: then its figures are printed without colour too."""
        colours = self.colours
        return all(
            colour[1:3] == colour[3:5] == colour[5:7]
            for colour in (colours.ink, colours.accent, colours.quiet, colours.rule, colours.tint)
        )

    def shows(self, section: str) -> bool:
        """Whether the style prints a section of this name."""
        return self.sections is None or section in self.sections

    def sheet(self, paper: str = "") -> Paper:
        """The paper to set on, turned if the style lies on its side. Raises `StyleError` for other papers."""
        name = paper or self.paper[0]
        if name not in self.paper:
            raise StyleError(f"style {self.name} is made for {' or '.join(self.paper)}, not for {name}")
        return PAPERS[name].turned() if self.landscape else PAPERS[name]

    def margins_on(self, paper: str = "") -> Margins:
        """The margins on one paper: where the style fixes the width of its text, what is over or wanting is shared."""
        if not self.text_width:
            return self.margins
        spare = (self.sheet(paper).width - self.text_width - self.margins.inner - self.margins.outer) / 2
        return replace(self.margins, inner=self.margins.inner + spare, outer=self.margins.outer + spare)

    def column_width(self, paper: str = "") -> float:
        """The width of a column of text in millimetres: what a figure may take without being scaled."""
        margins = self.margins_on(paper)
        width = self.sheet(paper).width - margins.inner - margins.outer
        return (width - (self.columns - 1) * self.gutter) / self.columns

    def line_width(self, paper: str = "") -> float:
        """The width of the narrowest lines of running text in millimetres: one column of the grid."""
        return (self.column_width(paper) - self.indent - (self.grid - 1) * GUTTER) / self.grid

    def column_height(self, paper: str = "") -> float:
        """The height of the text area in millimetres."""
        return self.sheet(paper).height - self.margins.top - self.margins.bottom

    def look(
        self, size: float, *, strong: bool = False, emphasis: bool = False, family: str = "", colour: str = ""
    ) -> Look:
        """A look in the text family and the ink of this style unless said otherwise."""
        name = face_name(family or self.type.text, strong=strong, emphasis=emphasis)
        return Look(name, size, colour or self.colours.ink)

    def label_look(self, size: float, colour: str = "") -> Look:
        """The look of labels and running heads: small capitals where the style has them."""
        if self.type.small_caps and self.type.text == "serif":
            return Look("serif-caps", size * 1.06, colour or self.colours.ink)
        return Look("sans-bold", size, colour or self.colours.ink)

    def figure_room(self, paper: str = "") -> tuple[float, float, float]:
        """Width and height in millimetres a figure among text may take unscaled, and the least size of its labels.

        Figures drawn for this room are printed as they are; others are scaled down with their labels.
        """
        unit = self.line_width(paper)
        return (
            2 * unit + GUTTER if self.grid == 3 else self.column_width(paper) - self.indent,  # where it is tried first
            self.figures.tallest * self.column_height(paper),
            self.type.caption,
        )

    @cached_property
    def line(self) -> float:
        """The distance of baselines of body text, in points: the unit of all spacing."""
        return self.type.body * self.type.leading

    @property
    def gutter_points(self) -> float:
        """The space between columns in points."""
        return self.gutter * MM


def schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) every style file keeps to."""
    text = resources.files("slath.booklet").joinpath("style.schema.json").read_text(encoding="utf-8")
    loaded: dict[str, Any] = json.loads(text)
    return loaded


def folder() -> Path:
    """Where the shipped styles lie: in the installed package, or at the top of a checkout."""
    shipped = Path(str(resources.files("slath"))) / "_shipped" / "styles"
    if shipped.is_dir():
        return shipped
    checkout = Path(__file__).parents[3] / "styles"
    if checkout.is_dir():
        return checkout
    raise StyleError(f"no styles found, neither in {shipped} nor in {checkout}")


def names() -> tuple[str, ...]:
    """The shipped styles, in order of name."""
    return tuple(sorted(path.stem for path in folder().glob("*.yaml")))


@lru_cache
def shipped(name: str) -> Style:
    """A shipped style by its file name without ending."""
    path = folder() / f"{name}.yaml"
    if not path.is_file():
        raise StyleError(f"there is no style {name!r}; there are {', '.join(names())}")
    return read(path)


def read(path: Path) -> Style:
    """Read and check one style file. Raises `StyleError` naming the file and the key."""
    import yaml  # noqa: PLC0415

    try:
        text = path.read_text(encoding="utf-8")
        loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # libyaml is not everywhere: slower, otherwise the same
        data = yaml.load(text, Loader=loader)  # noqa: S506 - a safe one
    except yaml.MarkedYAMLError as error:
        line = f":{error.problem_mark.line + 1}" if error.problem_mark else ""
        raise StyleError(f"{path.name}{line}: this is no readable YAML: {error.problem}") from error
    except (yaml.YAMLError, UnicodeDecodeError) as error:
        raise StyleError(f"{path.name}: this is no readable YAML: {error}") from error
    return from_data(path.stem, data, text)


def from_data(name: str, data: Any, text: str | None = None) -> Style:
    """A style from the mapping of its file; with the ``text`` of the file, faults are told with their line."""
    if not surely_good(data, schema(), ()):
        from jsonschema import Draft202012Validator  # noqa: PLC0415 - 0.05 s that a good style does not pay

        from slath.booklet.style_faults import fault_words, strange_key  # noqa: PLC0415

        for error in sorted(Draft202012Validator(schema()).iter_errors(data), key=lambda error: error.json_path):
            path = tuple(error.absolute_path)
            raise StyleError(_told(name, fault_words(error), path, (*path, *strange_key(error)), text))
    style = _style(name, data)
    for paper in style.paper:
        fault = room_fault(style.line_width(paper), style.column_height(paper), paper)
        if fault:
            raise StyleError(_told(name, fault, (), ("margins",), text))
    return style


def _told(name: str, fault: str, path: Sequence[str | int], spot: Sequence[str | int], text: str | None) -> str:
    """A fault with the file, the line and the key it is about."""
    from slath.booklet.style_faults import line_in, place  # noqa: PLC0415

    file = f"{name}.yaml:{line_in(text, spot)}" if text is not None else f"style {name}"
    return f"{file}: {place(path)} {fault}" if path else f"{file}: {fault}"


def _style(name: str, data: Any) -> Style:
    data = dict(data)
    for key, record in (
        ("margins", Margins),
        ("type", Type),
        ("colours", Colours),
        ("lines", Lines),
        ("figures", Figures),
        ("cover", CoverLook),
    ):
        if key in data:
            data[key] = record(**data[key])
    data["paper"] = tuple(data["paper"])
    if "sections" in data:
        data["sections"] = tuple(data["sections"])
    return Style(name=name, **data)
