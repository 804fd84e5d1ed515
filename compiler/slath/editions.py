"""Every edition of one compilation, as bytes by file name: the same content in different clothes, never a second copy."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from slath.booklet.content import HANDOUT, SECTIONS, booklet_document, handout_document
from slath.booklet.content_forms import bench_cards_document, proof_document, sheets_document, test_weave_document
from slath.drawing.figures import figure_names_of
from slath.drawing.kept import KeptFigures
from slath.messages import message
from slath.messages.voice import voice_of
from slath.pipeline import CommandFaultError, Compilation, instead
from slath.work import BuildOptions, Edition, Tell, Work, asked_style, style_for


# ------------------------------------------------------------------------------------------------------- one by one
def _booklet(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    from slath.output.pdf import Attachment  # noqa: PLC0415

    listed = Attachment(
        f"{work.stem}-list.csv", _csv(work), "text/csv", work.content.voice.text(message("labels.list-attached"))
    )
    document = booklet_document(work.content_for(edition))
    yield work.file("booklet", ".pdf", edition), work.set(document, edition, (listed,))


def _handout(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield work.file("handout", ".pdf", edition, _chosen(work)), _handout_pages(work, edition)


def _handout_pages(work: Work, edition: Edition) -> bytes:
    chosen = work.options.sections or HANDOUT
    return work.set(handout_document(work.content_for(edition), chosen), edition)


def _handout_two_up(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    from slath.output.imposition import several_up  # noqa: PLC0415

    yield work.file("handout-two-up", ".pdf", edition, _chosen(work)), several_up(_handout_pages(work, edition), 2, 1)


def _chosen(work: Work) -> tuple[str, ...]:
    """The sections chosen, in the order they are printed; none where they are the usual ones."""
    chosen = tuple(name for name in SECTIONS if name in work.options.sections)
    return chosen if chosen != HANDOUT else ()


def _press(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield work.file("booklet-for-press", ".pdf", edition), _press_pages(work, edition, inks=False)


def _press_in_inks(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield work.file("booklet-for-press-cmyk", ".pdf", edition), _press_pages(work, edition, inks=True)


def _press_pages(work: Work, edition: Edition, *, inks: bool) -> bytes:
    from slath.output.imposition import with_crop_marks  # noqa: PLC0415

    pages = work.set(booklet_document(work.content_for(edition)), edition, inks=inks)
    return with_crop_marks(pages, bleed=work.style(edition).sheet(work.paper(edition)).bleed)


def _large_print(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield work.file("large-print", ".pdf", edition), work.set(booklet_document(work.content_for(edition)), edition)


def _saddle_stitch(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    from slath.output.imposition import saddle_stitch  # noqa: PLC0415

    pages = work.set(booklet_document(work.content_for(edition)), edition)
    yield work.file("booklet-to-fold", ".pdf", edition), saddle_stitch(pages)


def _bench_cards(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield work.file("bench-cards", ".pdf", edition), work.set(bench_cards_document(work.content_for(edition)), edition)


def _test_weave(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield work.file("test-weave", ".pdf", edition), work.set(test_weave_document(work.content), edition)


def _sheets(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    document = sheets_document(work.content)
    if document is not None:
        yield work.file("full-size-sheets", ".pdf", edition), work.set(document, edition)


def _text(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    from slath.output.text import document_text  # noqa: PLC0415

    yield (
        work.file("booklet", ".txt", edition),
        document_text(work.named(booklet_document(work.content_off_paper))).encode(),
    )


def _web_page(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    from slath.output.html import document_html  # noqa: PLC0415

    yield (
        work.file("booklet", ".html", edition),
        document_html(work.named(booklet_document(work.content_off_paper))).encode(),
    )


def _list(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    from slath.output.listing import list_json  # noqa: PLC0415

    compilation = work.compilation
    quantities = [size.quantities for size in compilation.sizes]
    yield work.table_file("list", ".csv", edition), _csv(work)
    yield work.file("list", ".json", edition), list_json(compilation.pattern, quantities, compilation.notes).encode()


def _csv(work: Work) -> bytes:
    from slath.output.listing_text import list_csv  # noqa: PLC0415

    return list_csv(
        work.compilation.pattern, [size.quantities for size in work.compilation.sizes], voice_of(work.language)
    ).encode()


def _proof(work: Work, edition: Edition) -> Iterator[tuple[str, bytes]]:
    yield work.file("proof", ".pdf", edition), work.set(proof_document(work.content, work.compilation.notes), edition)


def _figures(work: Work, _: Edition) -> Iterator[tuple[str, bytes]]:
    from slath.output.svg import scene_svg  # noqa: PLC0415

    for size, content in zip(work.compilation.sizes, work.content.sizes, strict=True):
        for shelf in (content.figures, content.sheets):
            for name, scene in shelf.items():
                yield f"figures/{work.figure_file(size, name)}", scene_svg(scene).encode()


EDITIONS: Mapping[str, Edition] = {
    "booklet": Edition("the booklet, to read on screen or print at home", _booklet),
    "fold": Edition("the booklet on half-size pages, imposed for folding and stitching", _saddle_stitch, "booklet"),
    "handout": Edition("a class handout in grey, less what the licence withholds", _handout, "handout"),
    "two up": Edition("the handout, two pages on a sheet", _handout_two_up, "handout", in_set=False),
    "press": Edition(
        "half-size pages with bleed and crop marks, for a printing house", _press, "booklet", in_set=False
    ),
    "press cmyk": Edition("the same in printing inks, words in black alone", _press_in_inks, "booklet", in_set=False),
    "large print": Edition("the booklet re-laid in large type", _large_print, "large-print"),
    "bench cards": Edition("one card a stage, with boxes to tick for rounds", _bench_cards, "bench-cards"),
    "test weave": Edition("a form to fill in at a test weave, predicted values beside empty boxes", _test_weave),
    "sheets": Edition("marking rings and spacing strips at full size", _sheets, "sheets"),
    "text": Edition("the booklet as plain text", _text, paged=False),
    "web page": Edition("the booklet as one web page that needs nothing else", _web_page, paged=False),
    "figures": Edition("every figure as SVG", _figures, paged=False),
    "list": Edition("cut list and purchase as CSV and JSON", _list, paged=False, told=False),
    "proof": Edition("every number with its formula and what it rests on", _proof),
}


def refuse_unknown(options: BuildOptions) -> None:
    """Raise CommandFaultError for an edition, a section or a style that is not there, for a style that is faulty, and for
    one that is not made for the paper asked for: before anything is worked out.
    """
    for name in options.sections:
        if name not in SECTIONS:
            raise CommandFaultError(f"there is no section {name}{instead(name, SECTIONS)}")
    style_of = style_for if options.editions else asked_style
    for edition in (EDITIONS[name] for name in edition_names(options)):
        if edition.paged:
            style_of(edition, options)


def edition_names(options: BuildOptions) -> tuple[str, ...]:
    """The editions asked for, or those of the whole set. Raises CommandFaultError for a name that is no edition."""
    for name in options.editions:
        if name not in EDITIONS:
            known = [edition.replace(" ", "-") for edition in EDITIONS]
            raise CommandFaultError(f"there is no edition {name}{instead(name, known)}")
    return options.editions or tuple(name for name, edition in EDITIONS.items() if edition.in_set)


def editions_to_make(work: Work) -> tuple[str, ...]:
    """The editions asked for; of the whole set, those that suit the paper. Raises CommandFaultError for a name that is
    no edition.
    """
    names = edition_names(work.options)
    if work.options.editions:
        return names
    return tuple(name for name in names if work.papers_suit(EDITIONS[name]))


def editions_of(
    compilation: Compilation, options: BuildOptions, tell: Tell, kept: KeptFigures | None = None
) -> Iterator[tuple[str, bytes]]:
    """File names and contents of the editions asked for, or of the whole set; `kept` carries figures over from the build
    before. Raises CommandFaultError for what `refuse_unknown` refuses.
    """
    refuse_unknown(options)
    work = Work(compilation, options, tell, kept or KeptFigures())
    for name in editions_to_make(work):
        tell(name)
        yield from EDITIONS[name].make(work, EDITIONS[name])


def figure_names(compilation: Compilation) -> tuple[str, ...]:
    """Names of every figure and sheet the pattern has in any of the compiled sizes, in order."""
    return tuple(
        dict.fromkeys(name for size in compilation.sizes for name in figure_names_of(size.basket, size.quantities))
    )


def drawings(
    compilation: Compilation, names: Sequence[str], options: BuildOptions, *, contact_sheet: bool = False
) -> dict[str, bytes]:
    """The figures named (all if none are) of every size as SVG files, or all of them small on a contact sheet each.

    Raises CommandFaultError for a name that is no figure of this pattern.
    """
    from slath.drawing.contact_sheet import contact_sheets  # noqa: PLC0415
    from slath.output.svg import scene_svg  # noqa: PLC0415

    work = Work(compilation, options)
    known = figure_names(compilation)
    for name in names:
        if name not in known:
            raise CommandFaultError(f"this pattern has no figure {name}{instead(name, known)}")
    made: dict[str, bytes] = {}
    for size, content in zip(compilation.sizes, work.content.sizes, strict=True):
        scenes = (
            {**content.figures, **content.sheets}
            if contact_sheet or not names
            else {name: shelf[name] for shelf in (content.figures, content.sheets) for name in shelf if name in names}
        )
        if contact_sheet:
            title = f"{compilation.pattern.title}, {size.name}"
            for number, sheet in enumerate(contact_sheets(list(scenes.values()), title, work.drawing), start=1):
                made[work.figure_file(size, f"contact-{number}")] = scene_svg(sheet).encode()
            continue
        for name, scene in scenes.items():
            made[work.figure_file(size, name)] = scene_svg(scene).encode()
    return made
