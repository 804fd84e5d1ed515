"""What a lid hangs by, how it is kept shut, and the knob it is lifted by."""

from __future__ import annotations

from slath.basket.model import WorkedHandle
from slath.language.pattern import Fastening, Hinge, Knob
from slath.messages import Length, Message, Numbers, message
from slath.messages.values import CUT
from slath.wording.handle_stage import ring_actions
from slath.wording.stuff import next_length, strand_said
from slath.wording.told import Clause, ToldStep
from slath.wording.work import Work


def fastening_steps(work: Work) -> list[ToldStep]:
    """The steps after the lid has been fitted: hinge, fastening, knob, where it has them."""
    lid = work.basket.pattern.lid
    if lid is None:
        return []
    steps = []
    if lid.hinge is not None:
        steps.append(_hinge_in_one(work, lid.hinge) if lid.hinge.in_one else _hinge(work, lid.hinge))
    if lid.fastening is not None:
        steps.append(_fastening(work, lid.fastening))
    if lid.knob is not None:
        steps.append(_knob(work, lid.knob))
    if work.basket.lid is not None and work.basket.lid.ring is not None:
        steps.append(_ring(work, work.basket.lid.ring))
    return steps


def _ring(work: Work, ring: WorkedHandle) -> ToldStep:
    """The ring a lid is lifted by, hung at its middle."""
    strand = strand_said(work.basket.pattern.materials[ring.spec.lash])
    hung = message("lid.hang-it-at-the-middle", strand=strand, cut=_cut(work, "lid ring loop"))
    piece = message("lid.take-the-piece-for-the-ring", cut=_cut(work, "lid ring"))
    return work.step(
        "lid ring",
        message("lid.make-the-ring"),
        [piece, *ring_actions(work, ring, hung)],
        counts=[message("lid.the-ring-lies-flat")],
        does=("shave", "open weave", "measure", "soak"),
        materials=(ring.spec.material, ring.spec.lash),
    )


def _cut(work: Work, *parts: str) -> Length:
    """The length the first of these parts is cut to."""
    (piece, *_) = work.pieces(*parts)
    return Length(piece.cut_mm.value, CUT)


def _places(at: tuple[int, ...], count: int, where: Message) -> Clause:
    """Find the stakes they go beside, or share the places out by eye."""
    if at:
        return message("lid.count-round-from-the-mark", at=Numbers(at))
    if count == 1:
        return message("lid.mark-the-middle-of", where=where)
    return message("lid.mark-places-at-as-far", count=count, where=where)


def _turns(work: Work, hinge: Hinge) -> int:
    return hinge.turns if hinge.turns is not None else round(work.basket.pattern.settings["hinge_turns"].value)


def _hinge(work: Work, hinge: Hinge) -> ToldStep:
    material = work.basket.pattern.materials[hinge.material]
    actions = [
        message("lid.lay-the-lid-on-the"),
        _places(hinge.at, hinge.count, message("lid.the-back")),
        message(
            "lid.take-a-length-of-for",
            strand=strand_said(material),
            count=hinge.count,
            cut=_cut(work, "hinge lashings", "hinge lashing"),
        ),
        message("lid.carry-it-round-the-border", turns=_turns(work, hinge)),
        message("lid.go-through-the-weaving-just"),
        message("lid.keep-it-loose-enough-for"),
        message("lid.tuck-both-ends-into-the"),
        message("lid.do-the-same-at-the", others=hinge.count - 1) if hinge.count > 1 else None,
    ]
    return work.step(
        "lid hinge",
        message("lid.hang-the-lid"),
        actions,
        mends=[message("lid.a-hinge-that-is-too")],
        counts=[message("lid.the-lid-opens-stands-and")],
        does=("wrap", "open weave", "soak"),
        materials=(hinge.material,),
    )


def _hinge_in_one(work: Work, hinge: Hinge) -> ToldStep:
    actions = [
        message("lid.lay-the-lid-on-the"),
        _places(hinge.at, hinge.count, message("lid.the-back")),
        message("lid.soak-again-the-ends-that", count=hinge.count),
        message("lid.carry-each-round-the-border", turns=_turns(work, hinge)),
        message("lid.keep-it-loose-enough-for-2"),
        message("lid.bring-the-end-back-into"),
    ]
    return work.step(
        "lid hinge",
        message("lid.hang-the-lid"),
        actions,
        counts=[message("lid.the-lid-opens-stands-and")],
        does=("border", "open weave", "damp"),
    )


def _fastening(work: Work, fastening: Fastening) -> ToldStep:
    pattern = work.basket.pattern
    across = fastening.across_mm if fastening.across_mm is not None else pattern.settings.mm("knob")
    strand = strand_said(pattern.materials[fastening.material])
    loop = [
        _places(fastening.at, fastening.count, message("lid.the-front")),
        message("lid.fold-a-length-of-long", strand=strand, cut=_cut(work, "fastening loops", "fastening loop")),
        message("lid.push-its-ends-through-under"),
    ]
    if fastening.kind == "loop and peg":
        closed: list[Clause] = [
            message("lid.open-the-weaving-of-the"),
            message("lid.push-the-peg-through-the", cut=_cut(work, "fastening pegs", "fastening peg")),
        ]
    else:
        closed = [
            *_wound(work, across, strand, "fastening knobs", "fastening knob"),
            message("lid.thread-both-its-ends-through"),
            message("lid.the-loop-goes-over-the"),
        ]
    return work.step(
        "lid fastening",
        message("lid.fasten-the-lid"),
        [*loop, *closed],
        counts=[message("lid.the-lid-stays-shut-when", across=Length(across))]
        if fastening.kind == "loop and knob"
        else [message("lid.the-lid-stays-shut-when-2")],
        does=("open weave", "measure"),
        materials=(fastening.material,),
    )


def _wound(work: Work, across_mm: float, strand: Message, *parts: str) -> list[Clause]:
    pieces = [piece for part in parts for piece in work.pieces(part)]
    return [
        message("lid.for-the-knob-take-a", strand=strand, cut=_cut(work, *parts)),
        message("lid.wind-it-round-two-fingers"),
        next_length(pieces),
        message("lid.wind-on-until-it-is", across=Length(across_mm)),
    ]


def _knob(work: Work, knob: Knob) -> ToldStep:
    across = knob.across_mm if knob.across_mm is not None else work.basket.pattern.settings.mm("knob")
    strand = strand_said(work.basket.pattern.materials[knob.material])
    actions = [
        *_wound(work, across, strand, "lid knob"),
        message("lid.thread-both-ends-down-through"),
    ]
    return work.step(
        "lid knob",
        message("lid.make-the-knob"),
        actions,
        counts=[message("lid.the-knob-stands-upright-in")],
        does=("open weave", "measure"),
        materials=(knob.material,),
    )
