"""One compilation at work: what is told and drawn of it, once, and set in the style, on the paper and in the words asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property, partial
from pathlib import Path

from msgspec import Struct, field
from msgspec.structs import replace

from slath.booklet.blocks import Definitions, Document
from slath.booklet.content_record import BookletContent
from slath.booklet.content_steps import SizeContent
from slath.booklet.scene_words import without_scale
from slath.booklet.styles import Style
from slath.drawing.figures import draw, figure_names_of
from slath.drawing.kept import KeptFigures
from slath.drawing.options import LEAST_TEXT_PT, Options
from slath.drawing.plate.legibility import can_be_read
from slath.drawing.plate.lettering import POINT_MM
from slath.drawing.scene import Scene
from slath.drawing.sheets import sheet_names
from slath.drawing.shelf import Shelf
from slath.language.files import file_inside, read_bytes
from slath.language.pictures import GREATEST_PICTURE
from slath.language.spelling import or_list
from slath.messages import Language
from slath.notes import Note, Place, Severity
from slath.output.naming import LONGEST, file_name, file_names
from slath.output.pdf import Attachment
from slath.pipeline import CommandFaultError, Compilation, CompiledSize, instead
from slath.trade.words import UK, US, Vocabulary
from slath.units import printing
from slath.wording.speech import plain
from slath.wording.telling import Told, tell

Tell = Callable[[str], None]
HOME = "home"  # the style of editions that are not a style of their own
HALF_SIZE = "booklet"  # and its place is taken on half-size paper
US_PAPERS, METRIC_PAPERS = ("letter", "half-letter"), ("a4", "a5")
VIEW = "view"
LONGEST_NAME = 80  # letters of who gets a copy: what fits the narrowest foot of a page and can still be read
STYLE_ENDINGS = (".yaml", ".yml")  # of a style that is a file of the designer's own
SHARES_OF_HEIGHT = (1.0, 0.8, 0.62, 0.48, 0.36)  # tried until all labels of a figure can be read
LEAST_TALL = 30.0  # mm, the least height a plan is given
LINES_ROUND_A_PLAN = 15.5  # of lettering above and below a plan or section, as figures set them


class BuildOptions(Struct, frozen=True):
    """How the editions are wanted; empty `editions` means the whole set, empty `style` and `paper` the edition's own."""

    editions: tuple[str, ...] = ()
    style: str = ""
    paper: str = ""
    units: printing.First | None = None  # None: as the pattern is written
    vocabulary: str = "uk"
    language: str = ""  # by its code; empty: as the pattern asks
    left_handed: bool = False
    sections: tuple[str, ...] = ()  # of the handout, as the teacher chose them; empty means the usual ones
    copy_for: str = ""  # whose copy it is, said on every page


class Edition(Struct, frozen=True):
    """One edition: what it is, and how it is made. `style` is the style it is set in unless another is asked for."""

    about: str
    make: Callable[[Work, Edition], Iterator[tuple[str, bytes]]]
    style: str = HOME
    in_set: bool = True
    paged: bool = True
    told: bool = True  # in somebody's words, for one hand, measures in some order


class Work(Struct, frozen=True, dict=True):
    """One compilation with its options: content is told and drawn once, when the first edition needs it."""

    compilation: Compilation
    options: BuildOptions
    tell: Tell = field(default=lambda _text: None)
    kept: KeptFigures = field(default_factory=KeptFigures)

    @property
    def stem(self) -> str:
        """The pattern's file name without its ending, such as every system takes, and the variant if it is not the first."""
        pattern = self.compilation.pattern
        stem = stem_of(Path(pattern.file))
        names = file_names(variant.name for variant in pattern.variants)
        first = next(iter(names), pattern.variant)
        return stem if pattern.variant == first else f"{stem}-{names[pattern.variant]}"

    def file(self, what: str, ending: str, edition: Edition, sections: Sequence[str] = ()) -> str:
        """The name of a file of the pattern: what it is, and whatever would make it another file than a plain build's."""
        return "-".join((self.stem, what, *self._marks(edition, sections))) + ending

    def table_file(self, what: str, ending: str, edition: Edition) -> str:
        """The name of a file of numbers, whose headings alone are in a language."""
        return "-".join((self.stem, what, *self._marks(edition, ()), *self._other_language)) + ending

    def figure_file(self, size: CompiledSize, name: str) -> str:
        """The file of a figure of a size: no two sizes share one, whatever they are called."""
        own = self.stem.removeprefix(stem_of(Path(self.compilation.pattern.file))).removeprefix("-")
        return "-".join((*([own] if own else []), self._size_files[size.name], name, *self._spoken)) + ".svg"

    @cached_property
    def _size_files(self) -> dict[str, str]:
        """What every size of the pattern is called in names of files."""
        return file_names(sized.size for sized in self.compilation.pattern.sizes)

    def _marks(self, edition: Edition, sections: Sequence[str]) -> Iterator[str]:
        """What tells a build from a plain one, each such as a file can be called."""
        if len(self.compilation.sizes) < len(self.compilation.pattern.sizes):
            yield _joined([self._size_files[size.name] for size in self.compilation.sizes])
        if sections:
            yield _joined([file_name(name) for name in sections])
        if edition.paged:
            plain = replace(self.options, style="", paper="")
            style = self.style(edition)
            if style != style_for(edition, plain):
                own = self.options.style.endswith(STYLE_ENDINGS)
                yield f"{'style-' if own else ''}{file_name(style.name, blanks=' ')}"
            if self.options.paper and self.options.paper != replace(self, options=plain).paper(edition):
                yield self.options.paper
        if edition.told:
            yield from self._spoken
            if self.options.copy_for:
                yield f"for-{file_name(self.options.copy_for)}"

    @property
    def _spoken(self) -> tuple[str, ...]:
        """Whose measures and words, and for which hand, where not as the pattern is written."""
        units = self.options.units if self.first != self.compilation.pattern.units else None
        marks = (
            units,
            "us" if self.options.vocabulary == "us" else None,
            *self._other_language,
            "left-handed" if self.options.left_handed else None,
        )
        return tuple(mark for mark in marks if mark)

    @property
    def _other_language(self) -> tuple[str, ...]:
        return () if self.language == self.compilation.pattern.language else (self.language,)

    @property
    def vocabulary(self) -> Vocabulary:
        """Whose words of the trade."""
        return US if self.options.vocabulary == "us" else UK

    @property
    def first(self) -> printing.First:
        """Which measure stands first: as asked for, or as the language has it, or as the pattern is written."""
        return self.options.units or Language(self.language).first or self.compilation.pattern.units

    @property
    def language(self) -> str:
        """The language it is told in: as asked for, or as the pattern asks."""
        return self.options.language or self.compilation.pattern.language

    def paper(self, edition: Edition) -> str:
        """The paper asked for; else the one American readers have for American words, and that of all others for British
        ones, if the style is made for it; else the style's first.
        """
        usual = US_PAPERS if self.options.vocabulary == "us" else METRIC_PAPERS
        style = self.style(edition)
        return self.options.paper or next((name for name in style.paper if name in usual), style.paper[0])

    @property
    def mirrored(self) -> bool:
        """Whether the work runs right to left, by the pattern or for a left hand (both together cancel out)."""
        return self.options.left_handed != (self.compilation.pattern.working_direction == "right to left")

    @cached_property
    def told(self) -> tuple[Told, ...]:
        """Every size in words."""
        return tuple(
            tell(
                self.compilation.pattern,
                size.basket,
                size.quantities,
                vocabulary=self.vocabulary,
                first=self.first,
                left_handed=self.options.left_handed,
                language=self.language,
            )
            for size in self.compilation.sizes
        )

    @cached_property
    def drawing(self) -> Options:
        """How figures are drawn where no page says how much room they have."""
        voice = self.told[0].voice
        return Options(
            mirrored=self.mirrored,
            voice=voice,
        )

    def drawing_for(self, edition: Edition) -> Options:
        """How figures are drawn for the column and the lettering of an edition, so that they are printed unscaled."""
        width, height, label = self.style(edition).figure_room(self.paper(edition))
        drawing = replace(self.drawing, text_pt=max(label, LEAST_TEXT_PT), lettered=len(self.compilation.sizes) > 1)
        return in_room(drawing, width, height)

    def prepare(self) -> None:
        """Tell the words and draw the view on the cover, which are the same in every edition."""
        self._views[(len(self._views) - 1) // 2].get(VIEW)  # which speaks of its parts as the words do

    @cached_property
    def content(self) -> BookletContent:
        """Everything a booklet of these sizes says and shows, its figures drawn for no page in particular."""
        return self._content(self.drawing, self._views)

    @cached_property
    def content_off_paper(self) -> BookletContent:
        """The same for who reads it on a screen or hears it: no figure names a scale."""
        return replace(self.content, sizes=tuple(_off_paper(size) for size in self.content.sizes))

    def content_for(self, edition: Edition) -> BookletContent:
        """The same with figures drawn for the pages of an edition, at whatever width they stand there."""
        content = self._content(self.drawing_for(edition), self._views, on_pages=True)
        return replace(content, sizes=tuple(_off_paper(size) for size in content.sizes))

    @cached_property
    def _views(self) -> tuple[Shelf, ...]:
        """The view of each size, which bears no lettering and is fitted to any cover."""
        return tuple(self._shelf(size, (VIEW,), self.drawing) for size in self.compilation.sizes)

    @cached_property
    def _names(self) -> tuple[tuple[str, ...], ...]:
        """The names of the figures of each size."""
        return tuple(figure_names_of(size.basket, size.quantities) for size in self.compilation.sizes)

    def _content(self, drawing: Options, views: Sequence[Shelf], *, on_pages: bool = False) -> BookletContent:
        return BookletContent(
            pattern=self.compilation.pattern,
            sizes=tuple(
                self._size(size, told, drawing, view, on_pages=on_pages)
                for size, told, view in zip(self.compilation.sizes, self.told, views, strict=True)
            ),
            voice=self.told[0].voice,
            skill=self.told[0].skill,
            tools=tuple(dict.fromkeys(tool for told in self.told for tool in told.tools)),
            glossary=_merged([told.glossary for told in self.told]),
            pictures=_printable(pictures_of(self.compilation)),
        )

    def _size(self, size: CompiledSize, told: Told, drawing: Options, views: Shelf, *, on_pages: bool) -> SizeContent:
        names = self._names[self.compilation.sizes.index(size)]
        sheets = tuple(sheet_names(size.basket))
        figures = tuple(name for name in names if name not in sheets and name != VIEW)
        others = self._shelf(size, figures, drawing)
        return SizeContent(
            basket=size.basket,
            quantities=size.quantities,
            stages=told.told,
            figures=Shelf((*views, *others), lambda name: views[name] if name in views else others[name]),
            sheets=self._shelf(size, sheets, drawing),
            at=partial(self._fitted, size, drawing) if on_pages else None,
        )

    def _shelf(self, size: CompiledSize, names: tuple[str, ...], drawing: Options) -> Shelf:
        """Figures drawn when they are asked for."""
        return Shelf(names, lambda name: self._scene(size, name, drawing))

    def _fitted(self, size: CompiledSize, drawing: Options, name: str, width: float, tallest: float) -> Scene | None:
        """A figure drawn for a room in mm, as high as it may be with all its lettering readable; None if it cannot be read
        at any height.
        """
        wanted = in_room(drawing, width, tallest)
        height = 0.0
        for share in SHARES_OF_HEIGHT:
            scene = self._scene(size, name, replace(wanted, tallest_mm=share * wanted.tallest_mm))
            if scene.height == height:  # lower ones would be no other
                return None
            height = scene.height
            if height <= tallest and can_be_read(scene):
                return without_scale(scene)
        return None

    def _scene(self, size: CompiledSize, name: str, wanted: Options) -> Scene:
        """One figure, drawn now or kept from before."""

        def now() -> Scene:
            self.tell(f"drawing {size.name}, {name}")
            return draw(name, size.basket, size.quantities, wanted)

        return self.kept.scene(name, size.basket, size.quantities, wanted, now)

    def named(self, document: Document) -> Document:
        """A document that says whose copy it is, if that is to be said."""
        return replace(document, copy_for=self.options.copy_for)

    def set(
        self, document: Document, edition: Edition, attached: Sequence[Attachment] = (), *, inks: bool = False
    ) -> bytes:
        """A document as PDF in the style and paper asked for, with files inside it if there are any, in the colours of a
        screen or in the inks of a press.
        """
        from slath.output.pdf import set_document  # noqa: PLC0415 - reading a list needs no pages
        from slath.output.pdf_colour import GREY, PRESS, SCREEN  # noqa: PLC0415

        style, paper = self.style(edition), self.paper(edition)
        return set_document(
            self.named(document), style, paper, attached, PRESS if inks else GREY if style.grey else SCREEN
        )

    def style(self, edition: Edition) -> Style:
        """The style an edition is set in (see `style_for`)."""
        return style_for(edition, self.options)

    def papers_suit(self, edition: Edition) -> bool:
        """Whether an edition of the whole set can be set on the paper asked for, or needs none."""
        return (
            not edition.paged
            or not self.options.paper
            or self.options.paper in asked_style(edition, self.options).paper
        )


def stem_of(file: Path) -> str:
    """The name under which everything made of the pattern in `file` lies."""
    return file_name(file.stem, blanks=" ")


def _joined(names: Sequence[str]) -> str:
    joined = "+".join(names)
    return joined if len(joined.encode()) <= LONGEST else file_name(joined)


def style_for(edition: Edition, options: BuildOptions) -> Style:
    """The style an edition is set in. Raises CommandFaultError if the style asked for is not there or is faulty, or if it
    is not made for the paper asked for.
    """
    style = asked_style(edition, options)
    if options.paper and options.paper not in style.paper:
        raise CommandFaultError(f"style {style.name} is made for {or_list(style.paper)}, not for {options.paper}")
    return style


def asked_style(edition: Edition, options: BuildOptions) -> Style:
    """The style asked for, by name or as a file of the designer's own, else the edition's. In the whole set, an edition
    that is a style of its own, such as large print, stays what it is.
    """
    from slath.booklet.styles import StyleError, names, read, shipped  # noqa: PLC0415

    own = not options.style or (not options.editions and edition.style != HOME)
    name = edition.style if own else options.style
    if own and name == HOME and options.paper and options.paper not in shipped(HOME).paper:
        name = HALF_SIZE
    is_file = name.endswith(STYLE_ENDINGS)
    if not (Path(name).is_file() if is_file else name in names()):
        raise CommandFaultError(f"there is no style {name}{instead(name, names())}")
    try:
        return read(Path(name)) if is_file else shipped(name)
    except StyleError as problem:
        raise CommandFaultError(str(problem)) from problem


def in_room(drawing: Options, width: float, height: float) -> Options:
    """How figures are drawn for a room in mm, captions and lettering above and below them allowed for."""
    tallest = max(height - LINES_ROUND_A_PLAN * drawing.text_pt * POINT_MM, LEAST_TALL)
    return replace(drawing, width_mm=width, tallest_mm=tallest, column_mm=height)


def _off_paper(size: SizeContent) -> SizeContent:
    figures = size.figures
    return replace(size, figures=Shelf(tuple(figures), lambda name: without_scale(figures[name])))


def _merged(glossaries: Sequence[Definitions]) -> Definitions:
    """One glossary of the words of every size, each once, in the order of the alphabet."""
    entries = {entry.anchor: entry for glossary in glossaries for entry in glossary.entries}
    return Definitions(tuple(sorted(entries.values(), key=lambda entry: plain(entry.name).casefold())))


def pictures_of(compilation: Compilation) -> dict[str, bytes]:
    """The designer's own pictures, read from the pattern's folder."""
    folder = Path(compilation.pattern.file).parent
    names = [file for stage in compilation.pattern.stages for file, _ in stage.pictures]
    names += [photograph.file for photograph in compilation.pattern.photographs]
    return {name: read_bytes(file_inside(folder, name), GREATEST_PICTURE) for name in dict.fromkeys(names)}


def _printable(pictures: Mapping[str, bytes]) -> dict[str, bytes]:
    """The pictures made ready for paper and screen; a damaged one, of which a build has told, is left out."""
    if not pictures:
        return {}
    from slath.booklet.photographs import damage, prepared  # noqa: PLC0415 - most patterns have no pictures

    return {name: prepared(data) for name, data in pictures.items() if not damage(data)}


def damaged_pictures(compilation: Compilation) -> tuple[Note, ...]:
    """A note on every picture that cannot be decoded, where it is named. Decoding takes too long for every check."""
    from slath.booklet.photographs import damage  # noqa: PLC0415 - most patterns have no pictures

    found = []
    for name, data in pictures_of(compilation).items():
        if why := damage(data):
            sentence = f"The picture {name} is damaged ({why}) and cannot be printed."
            place = _named_at(compilation, name)
            found.append(Note("not-a-picture", Severity.ERROR, place, sentence, remedies=("save the picture anew",)))
    return tuple(found)


def _named_at(compilation: Compilation, name: str) -> Place:
    """Where in the file a picture is named."""
    pattern = compilation.pattern
    held = [((*stage.path, "pictures"), [file for file, _ in stage.pictures]) for stage in pattern.stages]
    held.append((("photographs",), [photograph.file for photograph in pattern.photographs]))
    path, files = next((path, files) for path, files in held if name in files)
    return pattern.place((*path, files.index(name), "file"))
