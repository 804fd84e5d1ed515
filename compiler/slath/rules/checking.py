"""Rules applied: findings turned into notes, and acceptances heard."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.model import Basket, CannotConstruct
from slath.language.pattern import Pattern, SizedPattern
from slath.messages.told import Spoken, told, word
from slath.notes import Note, Severity
from slath.quantities import quantities_of
from slath.quantities.results import Quantities
from slath.rules.acceptance import accepted
from slath.rules.finding import Context, Finding, Rule, measured
from slath.rules.gathering import in_order


def apply_rules(rules: Sequence[Rule], pattern: Pattern, basket: Basket, quantities: Quantities) -> tuple[Note, ...]:
    """Every note that `rules` call for in one size, in the order of the file."""
    context = Context(pattern, basket.pattern, basket, quantities)
    notes = [_note(context, rule, found) for rule in rules for found in rule.check(context)]
    for one in basket.apart:
        own = Context(pattern, one.basket.pattern, one.basket, quantities_of(one.basket))
        asked = [rule for rule in rules if not (rule.whole or rule.basket_only)]
        notes += [_of(one.name, _note(own, rule, found)) for rule in asked for found in rule.check(own)]
    return tuple(sorted((accepted(pattern, note) for note in notes), key=in_order))


def _of(name: str, note: Note) -> Note:
    return (
        note
        if note.part.startswith(name)
        else replace(note, part=told("{name}, {part}", name=word(name), part=note.part))
    )


def _note(context: Context, rule: Rule, found: Finding) -> Note:
    pattern = context.pattern
    return Note(
        rule.code,
        rule.severity,
        pattern.key_place(found.path),
        found.sentence.begun(),
        size="" if rule.whole else context.sized.size,
        part=_part(found.part),
        remedies=found.remedies,
        related=tuple((pattern.key_place(path), words) for path, words in found.related),
    )


def _part(part: str) -> str:
    """What a part is called: a word of ours, unless it was told of with a name in it."""
    return part if isinstance(part, Spoken) or not part else word(part)


def cannot(pattern: Pattern, sized: SizedPattern, exc: CannotConstruct) -> Note:
    """The note for a size that could not be constructed at all."""
    first = pattern.units
    reason, remedies = exc.told(lambda mm: measured(mm, first))
    sentence = told("{reason}.", reason=reason.begun())
    place = pattern.key_place(exc.path)
    return Note(exc.code, Severity.ERROR, place, sentence, size=sized.size, part=_part(exc.part), remedies=remedies)
