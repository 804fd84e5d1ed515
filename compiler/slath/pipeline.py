"""The way through the house: read → construct → measure → check; `editions` then draws, composes and
hands over bytes to write.

Nothing is printed here. What goes wrong with a file comes back as notes; what goes wrong around it is an OSError.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.construct import construct
from slath.basket.model import Basket, CannotConstruct
from slath.language import read_pattern
from slath.language.pattern import Pattern, SizedPattern
from slath.language.schemas import published_schema
from slath.language.spelling import nearest
from slath.language.variants import NoSuchVariantError
from slath.notes import Note
from slath.quantities import quantities_of, taught
from slath.quantities.results import Quantities
from slath.rules import cannot, check_rules, settle
from slath.units.printing import First


class CompiledSize(Struct, frozen=True):
    """One size worked out: the resolved pattern, the basket and the list."""

    sized: SizedPattern
    basket: Basket
    quantities: Quantities

    @property
    def name(self) -> str:
        """The size's name."""
        return self.sized.size


class Compilation(Struct, frozen=True):
    """A pattern worked out in the sizes asked for, with every note it called for."""

    pattern: Pattern
    sizes: tuple[CompiledSize, ...]
    notes: tuple[Note, ...]

    @property
    def at_fault(self) -> bool:
        """Whether a note stops the booklet."""
        return any(note.stops for note in self.notes)


class CommandFaultError(ValueError):
    """Something was asked for on the command line that the pattern or slath does not have."""


def instead(name: str, known: Sequence[str]) -> str:
    """What was meant by a name that is not known, to end the sentence that says so."""
    near = nearest(name, known)
    return f"; did you mean {near}?" if near else f"; choose from {', '.join(known)}"


def compile_pattern(
    path: Path, workshop: Path | None = None, sizes: Sequence[str] = (), variant: str = "", language: str = ""
) -> Compilation:
    """Work out a pattern file in every size, or in those named, as its first variant or as the one named; its own words in
    `language` where it gives them in several.

    Raises PatternFaultError if the file allows no working out at all, CommandFaultError for a size or a variant it does
    not list.
    """
    try:
        pattern = read_pattern(path, workshop=workshop, variant=variant, language=language)
    except NoSuchVariantError as problem:
        raise CommandFaultError(str(problem)) from problem
    return work_out(pattern, sizes)


def compile_variants(
    path: Path, workshop: Path | None = None, sizes: Sequence[str] = (), language: str = ""
) -> tuple[Compilation, ...]:
    """Work out every variant of a pattern file, the first first; a file without variants is one. Raises as
    `compile_pattern`, for the first variant that cannot be worked out.
    """
    first = compile_pattern(path, workshop, sizes, language=language)
    rest = [variant.name for variant in first.pattern.variants[1:]]
    return (first, *(compile_pattern(path, workshop, sizes, name, language) for name in rest))


def notes_of_all(variants: Sequence[Compilation]) -> tuple[Note, ...]:
    """The notes of all variants, each once: what is so of some only says of which."""
    if len(variants) == 1:
        return variants[0].notes
    own = {made.pattern.variant: dict.fromkeys(made.notes) for made in variants}
    found: dict[Note, None] = {}
    for name, notes in own.items():
        for note in notes:
            of_all = all(note in others for others in own.values())
            found[note if of_all else replace(note, size=", ".join(part for part in (note.size, name) if part))] = None
    return tuple(sorted(found, key=lambda note: note.place))


def work_out(pattern: Pattern, sizes: Sequence[str] = ()) -> Compilation:
    """Work out a pattern that has been read, in every size or in those named. CommandFaultError as `compile_pattern`."""
    known = [sized.size for sized in pattern.sizes]
    for name in sizes:
        if name not in known:
            raise CommandFaultError(f"the pattern has no size {name}{instead(name, known)}")
    pattern, lessons = taught(pattern)
    notes, worked = list(pattern.notes), []
    for sized in pattern.sizes:
        if sizes and sized.size not in sizes:
            continue
        try:
            basket = construct(sized)
        except CannotConstruct as problem:
            notes.append(cannot(pattern, sized, problem))
            continue
        quantities = quantities_of(basket, lessons.get(sized.size))
        notes += check_rules(pattern, basket, quantities)
        notes += _on_words(pattern, basket, quantities)
        worked.append(CompiledSize(sized, basket, quantities))
    notes += _against_kept(pattern, worked)
    return Compilation(pattern, tuple(worked), settle(pattern, notes, whole=not sizes))


def _against_kept(pattern: Pattern, worked: Sequence[CompiledSize]) -> tuple[Note, ...]:
    """A warning where an edition was kept beside the pattern under this very name, with other numbers."""
    from slath.output.naming import kept_beside  # noqa: PLC0415 - most patterns have none

    path = kept_beside(Path(pattern.file), pattern.edition)
    if not pattern.edition or not path.is_file():
        return ()
    from slath.output.kept_notes import numbers_changed  # noqa: PLC0415

    return numbers_changed(pattern, path, [size.quantities for size in worked])


def _on_words(pattern: Pattern, basket: Basket, quantities: Quantities) -> tuple[Note, ...]:
    """What is wrong with the designer's own words: stages and references that do not exist, numbers that disagree."""
    if not (pattern.stages or pattern.photographs):
        return ()
    from slath.wording.telling import check_words  # noqa: PLC0415 - most patterns say nothing in their own words

    return check_words(pattern, basket, quantities)


def listing_text(compilation: Compilation, form: str, first: First | None, language: str = "") -> str:
    """The list of the compiled sizes: "table", "csv" or "json"."""
    from slath.messages.voice import voice_of  # noqa: PLC0415
    from slath.output.listing import list_json  # noqa: PLC0415 - a check prints no list
    from slath.output.listing_text import list_csv, list_table  # noqa: PLC0415

    found = [size.quantities for size in compilation.sizes]
    if form == "json":
        return list_json(compilation.pattern, found, compilation.notes)
    spoken = voice_of(language or compilation.pattern.language)
    voice = replace(spoken, first=first or spoken.language.first or compilation.pattern.units)
    if form == "csv":
        return list_csv(compilation.pattern, found, voice)
    return list_table(compilation.pattern, found, voice)


def proof_of(compilation: Compilation, language: str = "") -> str:
    """The proof of the compiled sizes as text, in a language by its code; left out: as the pattern asks."""
    from slath.messages.voice import voice_of  # noqa: PLC0415
    from slath.output.proof_text import proof_text  # noqa: PLC0415

    found = [size.quantities for size in compilation.sizes]
    return proof_text(compilation.pattern, found, compilation.notes, voice_of(language or compilation.pattern.language))


def counts_of(compilation: Compilation, lowest: int | None, highest: int | None, first: First) -> str:
    """For each compiled size, the stake counts near its own (or in the range asked for) that can be woven."""
    from slath.basket.count_search import own_count, try_counts  # noqa: PLC0415
    from slath.output.counts_text import REACH, counts_text  # noqa: PLC0415

    if lowest and highest and lowest > highest:
        raise CommandFaultError(f"the range runs from {lowest} down to {highest}; give the smaller count to --from")
    texts = []
    for size in compilation.sizes:
        own = own_count(size.basket)
        start = lowest or max(3, min(own, highest or own) - REACH)
        stop = highest or max(own, start) + REACH
        texts.append(counts_text(size.basket, try_counts(size.basket, start, stop), first))
    return "\n".join(texts)


def schema_text(name: str) -> str:
    """A shipped JSON Schema as text: pattern, workshop, class, list, class-list or style. KeyError for any other name."""
    import json  # noqa: PLC0415 - only this command writes JSON here

    return json.dumps(_SCHEMAS[name](), ensure_ascii=False, indent=2) + "\n"


def _style_schema() -> object:
    from slath.booklet.styles import schema  # noqa: PLC0415

    return schema()


def _list_schema() -> object:
    from slath.output.listing import list_schema  # noqa: PLC0415

    return list_schema()


_SCHEMAS: dict[str, Callable[[], object]] = {
    "pattern": lambda: published_schema("pattern"),
    "workshop": lambda: published_schema("workshop"),
    "class": lambda: published_schema("class"),
    "list": _list_schema,
    "style": _style_schema,
}
