"""Parts made by themselves: each told like a small basket of its own, and then how it is joined."""

from __future__ import annotations

from slath.basket.made_parts import joined_to
from slath.basket.model import ConstructedPart
from slath.language.pattern import Join
from slath.messages import Length, Message, Numbers, message
from slath.messages.values import CUT
from slath.quantities.measuring import quantities_of
from slath.quantities.results import Piece
from slath.wording.lid_stage import steps_apart
from slath.wording.speech import own_words
from slath.wording.stuff import strand_said
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.work import Work


def part_stages(work: Work) -> list[ToldStage]:
    """A stage for each part, in the order they are made; its key is the name of the part."""
    first = 0 if work.basket.lid is None else 1
    return [_stage(work, part, first + place) for place, part in enumerate(work.basket.parts)]


def _stage(work: Work, part: ConstructedPart, place: int) -> ToldStage:
    spec = part.spec
    own = Work(part.basket, quantities_of(part.basket), work.voice, of_lid=True)
    name = own_words(spec.name)
    steps = steps_apart(work, own, place, spec.name.casefold())
    lead = message("joined.made-by-itself", name=name, count=spec.count)
    return work.stage(spec.name.casefold(), message("joined.title", name=name), lead, [*steps, _joined(work, part)])


def _joined(work: Work, part: ConstructedPart) -> ToldStep:
    """The step that joins a part, as many times as there are of it."""
    spec, join = part.spec, part.spec.join
    name = own_words(spec.name)
    tellers = {
        "tied": _bound, "hinged": _bound, "laced": _laced, "pushed in": _pushed_in, "on a stem": _stemmed,
        "hung": _hung, "resting": _resting,
    }  # fmt: skip
    again = message("joined.the-others-alike", name=name, count=spec.count - 1) if spec.count > 1 else None
    return work.step(
        f"{spec.name.casefold()} join",
        message("joined.join-it", name=name),
        [message("joined.let-both-dry") if join.way != "pushed in" else None, *tellers[join.way](work, part), again],
        notes=[message("side.own", words=own_words(note)) for note in (join.note, spec.note) if note],
        counts=[_checked(part)],
        does=("measure", "open weave", *_also(part, work)),
        materials=(join.material,) if join.material else (),
    )


def _also(part: ConstructedPart, work: Work) -> tuple[str, ...]:
    """What hands do besides, so that its cautions stand before it."""
    join = part.spec.join
    if join.way == "hung":
        return ("handle load",)
    if join.way == "on a stem" and any(made.base.holes for made in (part.basket, joined_to(work.basket, part))):
        return ("drill",)
    return ("point",) if join.way == "pushed in" else ()


def _other(part: ConstructedPart) -> Message:
    """What a part is joined to."""
    to = part.spec.join.to
    return message("joined.to-part", name=own_words(to)) if to else message("joined.to-basket")


def _set(part: ConstructedPart) -> Message:
    """Which edges come together."""
    join = part.spec.join
    return message(
        "joined.set-together", name=own_words(part.spec.name), base=join.by == "base", on_base=join.on == "base",
        other=_other(part),
    )  # fmt: skip


def _places(join: Join) -> Message:
    if join.at:
        return message("lid.count-round-from-the-mark", at=Numbers(tuple(sorted(join.at))))
    return message("joined.mark-places", count=join.places)


def _piece(work: Work, part: ConstructedPart) -> Piece:
    """What joins a part: the last of its pieces in the list."""
    return [piece for piece in work.quantities.pieces if piece.of == part.spec.name][-1]


def _taken(work: Work, part: ConstructedPart) -> Message:
    piece = _piece(work, part)
    strand = strand_said(work.basket.pattern.materials[piece.material])
    cut = Length(piece.cut_mm.value, CUT)
    return message("joined.take-a-length", strand=strand, cut=cut, count=part.spec.join.places)


def _bound(work: Work, part: ConstructedPart) -> list[Clause]:
    join = part.spec.join
    loose = join.way == "hinged"
    turns = join.turns or round(work.basket.pattern.settings["hinge_turns"].value)
    return [
        _set(part),
        _places(join),
        _taken(work, part),
        message("joined.round-both", turns=turns),
        message("joined.keep-it-loose") if loose else message("joined.pull-it-tight"),
        message("lid.tuck-both-ends-into-the"),
        message("lid.do-the-same-at-the", others=join.places - 1) if join.places > 1 else None,
    ]


def _laced(work: Work, part: ConstructedPart) -> list[Clause]:
    return [
        _set(part),
        _taken(work, part),
        message("joined.begin-lacing"),
        message("joined.over-in-every-space"),
        message("joined.end-lacing"),
    ]


def _pushed_in(work: Work, part: ConstructedPart) -> list[Clause]:
    join = part.spec.join
    depth = join.depth_mm if join.depth_mm is not None else work.basket.pattern.settings.mm("stake_depth")
    return [
        message("joined.damp-the-ends"),
        message("joined.point-the-ends"),
        message("joined.hold-it-in-place", name=own_words(part.spec.name), other=_other(part)),
        _places(join) if join.at else None,
        message("joined.open-a-way"),
        message("joined.push-them-in", depth=Length(depth)),
    ]


def _stemmed(work: Work, part: ConstructedPart) -> list[Clause]:
    join, piece = part.spec.join, _piece(work, part)
    return [
        message("joined.hole-for-stem", count=join.places, name=own_words(part.spec.name), other=_other(part)),
        message("joined.push-the-stem", count=join.places, cut=Length(piece.cut_mm.value, CUT)),
        message("joined.clear-between", rise=Length(join.rise_mm or 0.0)),
        message("joined.fasten-the-stem"),
    ]


def _hung(work: Work, part: ConstructedPart) -> list[Clause]:
    join = part.spec.join
    return [
        _places(join),
        _taken(work, part),
        message("joined.tie-cords", on_base=join.on == "base", other=_other(part)),
        message(
            "joined.tie-part", name=own_words(part.spec.name), base=join.by == "base", rise=Length(join.rise_mm or 0.0)
        ),
        message("joined.hangs-level"),
    ]


def _resting(work: Work, part: ConstructedPart) -> list[Clause]:
    del work
    return [_set(part)]


def _checked(part: ConstructedPart) -> Message:
    """What to see when it is joined."""
    name = own_words(part.spec.name)
    if part.spec.join.way == "hinged":
        return message("joined.it-opens", name=name)
    if part.spec.join.way == "hung":
        return message("joined.it-hangs", name=name)
    return message("joined.it-stands", name=name, loose=part.spec.join.way == "resting")
