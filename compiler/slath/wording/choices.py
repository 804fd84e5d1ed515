"""Where the variants of a pattern part: told in the stage where a part that differs is made, or would be."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from slath.language.pattern import Pattern
from slath.language.variants import Variant
from slath.messages import Listed, Message, Own, message
from slath.wording.told import ToldStage

# The stages in which a key of the pattern is worked, the first of them that there is; a part that one variant lacks is
# told of where it would be worked.
_WORKED_IN = {
    "materials": ("prepare",),
    "base": ("base",),
    "stakes": ("stakes", "base"),
    "bye_stakes": ("side", "upsett"),
    "side": ("upsett", "side", "border"),
    "handle": ("ears", "border", "handle", "finish"),
    "handles": ("ears", "border", "handle", "finish"),
    "border": ("border", "finish"),
    "foot": ("foot", "border", "finish"),
    "lid": ("lid", "finish"),
    "parts": ("finish",),
    "fittings": ("finish",),
}  # fmt: skip


def with_choices(stages: Sequence[ToldStage], pattern: Pattern) -> tuple[ToldStage, ...]:
    """The stages with what else could be made there, where the pattern has variants."""
    own = pattern.as_variant
    if own is None:
        return tuple(stages)
    keys = [stage.key for stage in stages]
    parting: dict[str, list[Variant]] = {}
    for key, worked in _WORKED_IN.items():
        where = next((name for name in worked if name in keys), None)
        others = [variant for variant in pattern.variants if variant != own and key in own.differs | variant.differs]
        if where is not None and others:
            listed = parting.setdefault(where, [])
            listed += [variant for variant in others if variant not in listed]
    return tuple(
        replace(stage, choice=_told(own, parting[stage.key])) if stage.key in parting else stage for stage in stages
    )


def variant_named(variant: Variant) -> Message:
    """A variant as it is spoken of."""
    return message("variants.named", name=Own(variant.words or variant.name))


def _told(own: Variant, others: Sequence[Variant]) -> Message:
    return message(
        "variants.part-here",
        own=variant_named(own),
        others=Listed(tuple(variant_named(variant) for variant in others)),
    )
