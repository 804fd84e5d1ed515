"""A pattern held against the edition kept under its name: numbers a buyer has that would now be printed otherwise."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from slath.language.pattern import Pattern
from slath.notes import Note, Severity
from slath.output.facts import Fact, facts_of
from slath.output.kept import KeptEditionError, read_kept
from slath.quantities.results import Quantities

TOLD = 3  # numbers named in the note; the comparison has them all


def numbers_changed(pattern: Pattern, path: Path, found: Sequence[Quantities]) -> tuple[Note, ...]:
    """One warning at ``edition`` if numbers of any of these sizes differ from the edition kept at `path`."""
    place = pattern.key_place(("edition",))
    try:
        kept = read_kept(path)
    except (KeptEditionError, OSError) as problem:
        remedy = "take the file away, or keep the edition again from the files it was made of (slath keep)"
        return (
            Note("kept-edition-broken", Severity.WARNING, place, f"{problem}.", part="edition", remedies=(remedy,)),
        )
    before = {size.name: size.facts for size in kept.sizes}
    moved = [
        f"{quantities.size}, {line}"
        for quantities in found
        if quantities.size in before
        for line in _moved(before[quantities.size], facts_of(quantities, pattern.units))
    ]
    if not moved:
        return ()
    more = f" and {len(moved) - TOLD} more" if len(moved) > TOLD else ""
    sentence = f"Edition {kept.edition} was kept with other numbers. {'; '.join(moved[:TOLD])}{more}."
    remedies = (
        "give the edition another name",
        f"see what changed: slath compare {path} {pattern.file}",
    )
    return (Note("edition-not-raised", Severity.WARNING, place, sentence, part="edition", remedies=remedies),)


def _moved(before: Sequence[Fact], after: Sequence[Fact]) -> Iterator[str]:
    was, now = ({fact.key: fact for fact in facts} for facts in (before, after))
    for key in dict.fromkeys([*now, *was]):
        old, new = was.get(key), now.get(key)
        if old is None or new is None or not old.agrees(new):
            fact = new or old
            assert fact is not None  # noqa: S101 - the key came from one of the two
            yield f"{fact.part}, {fact.what}: {old.printed if old else 'none'} → {new.printed if new else 'none'}"
