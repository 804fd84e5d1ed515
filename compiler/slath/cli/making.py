"""Building and drawing: what is asked for is made whole, then written whole."""

from __future__ import annotations

import gc
import json
import time
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from slath.cli.compiling import compiled_variants
from slath.cli.leaving import Exit, leave, surroundings
from slath.cli.telling import progress, say, show_notes, show_open_notes, show_written
from slath.drawing.kept import KeptFigures
from slath.editions import drawings, edition_names, editions_of, editions_to_make, refuse_unknown
from slath.fonts.letters import lacking
from slath.language.spelling import letters_lacking
from slath.notes import Note, PatternFaultError
from slath.notes.records import note_record
from slath.output.watching import Watched
from slath.output.writing import older_files, write_set
from slath.pipeline import CommandFaultError, Compilation, notes_of_all
from slath.units.printing import First
from slath.work import LONGEST_NAME, BuildOptions, Work, damaged_pictures, stem_of

if TYPE_CHECKING:
    from slath.selling.buyers import Buyer

BUILD = Path("build")
AT_ONCE = 20  # copies written together


def _as_meant(names: tuple[str, ...]) -> tuple[str, ...]:
    """Names of more than one word, however they were joined and whatever their capitals."""
    return tuple(name.replace("-", " ").replace("_", " ").lower() for name in names)


def _as_printed(name: str) -> str:
    """The name of who gets a copy, on one line."""
    said = " ".join(name.split())
    if missing := lacking(said):
        raise CommandFaultError(f"--for: {letters_lacking(missing)[0]}")
    if len(said) > LONGEST_NAME:
        raise CommandFaultError(f"--for takes a name of up to {LONGEST_NAME} letters; this one has {len(said)}")
    return said


class Making(Struct, frozen=True):
    """What a build was asked for. Empty `editions` is the whole set; no `out` is build/ here."""

    editions: tuple[str, ...]
    sections: tuple[str, ...]
    sizes: tuple[str, ...]
    style: str | None
    paper: str | None
    units: First | None
    vocabulary: str
    language: str | None
    left_handed: bool
    copy_for: str
    workshop: Path | None
    out: Path | None
    overwrite: bool
    form: str
    variants: tuple[str, ...] = ()

    def options(self) -> BuildOptions:
        """The editions asked for, and how. CommandFaultError for a name no page can show."""
        return BuildOptions(
            editions=_as_meant(self.editions),
            style=self.style or "",
            paper=self.paper or "",
            units=self.units,
            vocabulary=self.vocabulary,
            language=self.language or "",
            left_handed=self.left_handed,
            sections=_as_meant(self.sections),
            copy_for=_as_printed(self.copy_for),
        )

    def folder(self, file: Path) -> Path:
        """Where what is made of a pattern goes."""
        return (self.out or BUILD) / stem_of(file)

    def written(self, file: Path, made: Mapping[str, bytes]) -> tuple[Path, ...]:
        """What was made of a pattern, written to its folder whole."""
        return write_set(self.folder(file), made, replace=self.overwrite, named=self.out or BUILD)

    def compiled(self, file: Path) -> Compilation:
        """The first variant asked for, worked out; PatternFaultError if it cannot be made."""
        return self.compiled_variants(file)[0]

    def compiled_variants(self, file: Path) -> tuple[Compilation, ...]:
        """Every variant asked for, worked out; PatternFaultError if one cannot be made."""
        made = compiled_variants(file, self.workshop, self.sizes, self.variants, self.language or "")
        notes = (*notes_of_all(made), *(note for one in made for note in damaged_pictures(one)))
        if any(note.stops for note in notes):
            raise PatternFaultError(notes)
        return made


def build_all(files: Sequence[Path], making: Making) -> None:
    """Build every pattern, those without fault even if another has one; leaves with exit code 1 if one had."""
    _refuse_one_folder_for_two(files)
    refuse_unknown(making.options())
    written: dict[str, list[str]] = {}
    notes: list[Note] = []
    for file in files:
        try:
            made = making.compiled_variants(file)
        except PatternFaultError as fault:
            found: Sequence[Note] = fault.notes
        else:
            found = notes_of_all(made)
        notes += found
        if making.form == "text":
            show_open_notes(found)
        if not any(note.stops for note in found):
            written[str(file)] = [str(path) for path in _build(file, made, making)]
    if making.form == "json":
        records = [note_record(note) for note in notes]
        say(json.dumps({"written": written, "notes": records}, ensure_ascii=False, indent=2))
    if any(note.stops for note in notes):
        raise SystemExit(Exit.FILE_AT_FAULT)


def _build(file: Path, variants: Sequence[Compilation], making: Making) -> tuple[Path, ...]:
    """Every edition of every variant asked for, written together."""
    made: dict[str, bytes] = {}
    for compilation in variants:
        made |= _editions(file, compilation, making)
    folder = making.folder(file)
    paths = making.written(file, made)
    if making.form == "text":
        show_written(folder, made, older_files(folder, made))
    return paths


def _editions(file: Path, compilation: Compilation, making: Making) -> dict[str, bytes]:
    options = making.options()
    work = Work(compilation, options)
    hands = None
    if len(editions_to_make(work)) > 1:
        from slath.hands import Hands, worth_sharing  # noqa: PLC0415 - one edition needs no processes

        hands = Hands(work, file, making.workshop, making.sizes) if worth_sharing(work) else None
    with progress(file.stem, edition_names(options)) as tell:  # a thread, on a terminal
        return dict(hands.editions(tell) if hands else editions_of(compilation, options, tell))


def copies_for(file: Path, buyers: Sequence[Buyer], making: Making) -> None:
    """Write a copy for each buyer, a few at a time: a thousand booklets would not fit into memory together."""
    from slath.selling.copies import copies_of  # noqa: PLC0415 - only who sells

    compilation = making.compiled(file)
    show_open_notes(compilation.notes)
    folder = making.folder(file) / "copies"
    names = [buyer.name for buyer in buyers]
    with progress(file.stem, names) as tell:
        made = copies_of(compilation, making.options(), buyers, tell)
        for start in range(0, len(names), AT_ONCE):
            tell(names[start])
            some = dict(islice(made, AT_ONCE))
            write_set(folder, some, replace=making.overwrite, named=making.out or BUILD)
    say(f"{folder}/\n  {len(names)} {'copies' if len(names) > 1 else 'copy'}")


def offer_of(file: Path, making: Making, watermark: str) -> None:
    """Write what a shop's page wants of a pattern."""
    from slath.selling.offer import offer_files  # noqa: PLC0415 - only who sells

    compilation = making.compiled(file)
    show_open_notes(compilation.notes)
    with progress(file.stem, ["the flyer"]) as tell:
        made = offer_files(compilation, making.options(), tell, watermark)
    _write_into(making, file, "offer", made)


def shop_of(file: Path, makings: Sequence[Making], watermark: str) -> None:
    """Write a shop's folder: everything that is sold, and the offer."""
    from slath.selling.offer import shop_files  # noqa: PLC0415 - only who sells

    making = makings[0]
    compilation = making.compiled(file)
    show_open_notes(compilation.notes)
    with progress(file.stem, [name for each in makings for name in each.editions]) as tell:
        made = shop_files(compilation, [each.options() for each in makings], tell, watermark)
    _write_into(making, file, "shop", made)


def _write_into(making: Making, file: Path, inner: str, made: Mapping[str, bytes]) -> None:
    """Write files into a folder of their own beside what a build makes, and name them."""
    folder = making.folder(file) / inner
    write_set(folder, made, replace=making.overwrite, named=making.out or BUILD)
    show_written(folder, made, older_files(folder, made))


def _refuse_one_folder_for_two(files: Sequence[Path]) -> None:
    for stem, count in Counter(stem_of(file).casefold() for file in dict.fromkeys(files)).items():
        if count > 1:
            leave(
                Exit.COMMAND_AT_FAULT,
                f"Error: {count} of these patterns are called {stem} and would be written over each other; "
                "build them one at a time, each with its own --out.",
            )


def keep_building(files: Sequence[Path], making: Making) -> None:
    """Build, and build again whenever a pattern or a file beside it changes, until interrupted."""
    _refuse_one_folder_for_two(files)
    refuse_unknown(making.options())
    watched = Watched(files, also=(making.workshop,) if making.workshop else ())
    kept = {file: KeptFigures() for file in files}
    say("Watching; stop with Ctrl-C.", error=True)
    due: Sequence[Path] = files
    try:
        while True:
            for file in due:
                _renew(file, making, watched, kept[file])
            gc.collect()  # while there is time; builds leave it off
            due = watched.wait()
    except KeyboardInterrupt:
        say("Stopped watching.", error=True)


def _renew(file: Path, making: Making, watched: Watched, kept: KeptFigures) -> None:
    """Build one pattern: its first edition is written as soon as it is made, the rest unless a change comes between."""
    started = time.perf_counter()
    kept.begin()
    try:
        compilation = making.compiled(file)
        show_open_notes(compilation.notes)
        made: dict[str, bytes] = {}
        for name, data in editions_of(compilation, making.options(), lambda _text: None, kept):
            if watched.has_changed():
                return
            if not made:
                making.written(file, {name: data})
                _told(making.folder(file) / name, "", started)
            made[name] = data
        making.written(file, made)
        _told(making.folder(file), f", {len(made)} files", started)
    except PatternFaultError as fault:
        show_notes(fault.notes)
    except CommandFaultError as problem:
        say(f"Error: {problem}", error=True)
    except OSError as problem:
        say(surroundings(problem), error=True)


def _told(path: Path, files: str, started: float) -> None:
    say(f"{path}{files}: renewed in {time.perf_counter() - started:.1f} s")


def draw_all(
    compilation: Compilation,
    figures: Sequence[str],
    *,
    out: Path | None,
    units: First | None,
    vocabulary: str,
    language: str | None,
    left_handed: bool,
    contact_sheet: bool,
    overwrite: bool,
) -> None:
    """Write the figures named, or all of them, beside those of a build."""
    wanted = BuildOptions((), "", "", units, vocabulary, language or "", left_handed)
    made = drawings(compilation, figures, wanted, contact_sheet=contact_sheet)
    folder, inner = (out, "") if out else (BUILD / stem_of(Path(compilation.pattern.file)), "figures/")
    files = {f"{inner}{name}": data for name, data in made.items()}
    for path in write_set(folder, files, replace=overwrite, named=out or BUILD):
        say(str(path))
