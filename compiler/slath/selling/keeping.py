"""An edition kept from a compilation, and the editions kept beside a pattern."""

from __future__ import annotations

from pathlib import Path

from slath.booklet.content_steps import SizeContent
from slath.language.document import read_document
from slath.language.source import read_source
from slath.output.facts import facts_of
from slath.output.kept import KeptEdition, KeptSize, ToldStepText, read_kept
from slath.pipeline import Compilation, compile_pattern
from slath.wording.speech import plain
from slath.wording.told import spoken
from slath.work import BuildOptions, Work


def edition_of(compilation: Compilation, workshop: Path | None = None) -> KeptEdition:
    """The edition a compilation is: numbers, sentences and the words of figures, and the files they came from.

    `workshop` is the workshop file given in place of the one the pattern names.
    """
    pattern, work = compilation.pattern, Work(compilation, BuildOptions())
    path = Path(pattern.file)
    shared = workshop or workshop_of(path)
    return KeptEdition(
        file=path.name,
        title=pattern.title,
        edition=pattern.edition,
        dated=pattern.dated.isoformat() if pattern.dated else "",
        designer=pattern.designer,
        sizes=tuple(_kept_size(size, work) for size in work.content_off_paper.sizes),
        pattern_text=path.read_text("utf-8-sig"),
        workshop_file=shared.name if shared else "",
        workshop_text=shared.read_text("utf-8-sig") if shared else "",
    )


def workshop_of(path: Path) -> Path | None:
    """The workshop file a pattern names, if it is there."""
    named = read_document(read_source(path)).data.get("workshop_file")
    shared = path.parent / named if isinstance(named, str) else None
    return shared if shared and shared.is_file() else None


def read_edition(path: Path, workshop: Path | None = None) -> KeptEdition:
    """The edition in a file: one that was kept (``.json``), or that of a pattern as it stands.

    Raises KeptEditionError, PatternFaultError, OSError.
    """
    if path.suffix == ".json":
        return read_kept(path)
    return edition_of(compile_pattern(path, workshop), workshop)


def _kept_size(size: SizeContent, work: Work) -> KeptSize:
    steps = tuple(
        ToldStepText(
            stage.key, step.key, plain(step.title), tuple(plain(words) for words in (*step.actions, *step.notes))
        )
        for stage in (spoken(told, work.told[0].voice) for told in size.stages)
        for step in stage.steps
    )
    return KeptSize(
        name=size.name,
        facts=facts_of(size.quantities, work.first),
        steps=steps,
        figures={name: scene.words for name, scene in size.figures.items()},
    )
