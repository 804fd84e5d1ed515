"""Finishing: what is done when the last end is tucked away."""

from __future__ import annotations

from slath.messages import Length, Numbers, message
from slath.plan.planner import stands_tied
from slath.wording.figure_names import PROFILE
from slath.wording.speech import own_words
from slath.wording.stuff import next_length, strand_said
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.work import Work

_HAIRY = {"round reed", "flat reed", "oval reed", "half round reed", "centre cane"}


def finish_stage(work: Work) -> ToldStage:
    """Trimming, cleaning, shaping and drying."""
    kinds = {material.stock.kind for material in work.basket.pattern.materials.values()}
    reed = bool(kinds & _HAIRY)
    profile = work.basket.profile
    steps = [
        work.step(
            "tidy",
            message("finish.look-it-over"),
            [
                message("finish.turn-the-basket-inside-and") if profile else message("finish.turn-both-faces-to-the"),
                message("finish.cut-off-every-loose-end"),
                message("finish.press-down-a-round-that"),
                _unmarked(work),
            ],
            does=("trim", "open weave"),
        ),
        *_fittings(work, wet=True),
        _shape(work),
    ]
    if reed:
        steps.append(
            work.step(
                "singe",
                message("finish.take-off-the-hairs"),
                [
                    message("finish.let-the-basket-dry-through"),
                    message("finish.pass-a-small-flame-quickly"),
                    message("finish.brush-off-what-is-burnt"),
                ],
                notes=[message("finish.instead-of-the-flame-you")],
                does=("singe",),
            )
        )
    steps += _fittings(work, wet=False)
    lead = message("finish.what-is-done-now-decides", profile=bool(profile))
    return work.stage("finish", message("finish.finishing"), lead, steps)


def _unmarked(work: Work) -> Clause:
    """Whoever looked for the first stake at the border by its thread has no more need of it."""
    lid = work.basket.lid
    if not work.basket.border:
        return None
    return message("finish.take-off-the-thread", lid=lid is not None and lid.border is not None)


def _fittings(work: Work, *, wet: bool) -> list[ToldStep]:
    """What was cut or wound for the basket besides its construction, put on; how, only the designer knows. What is plaited
    stuff goes on while all is still damp (`wet`), cloth and the like when it is dry and singed.
    """
    pattern = work.basket.pattern
    fittings = [one for one in pattern.fittings if (work.stock_kind(one.material) != "other") == wet]
    if not fittings:
        return []
    actions: list[Clause] = []
    for fitting in fittings:
        part, told = own_words(fitting.part), bool(fitting.note)
        material = pattern.materials[fitting.material]
        # A bag of cretonne needs no word of cretonne again.
        known = any(name.casefold() in fitting.part.casefold() for name in (material.title, material.key))
        strand = None if known else strand_said(material)
        across = Length(fitting.across_mm or fitting.ball_mm or 0.0)
        if fitting.ball_mm is not None:
            made = message(
                "finish.fitting-ball", count=fitting.count, part=part, strand=strand, across=across, told=told
            )
        elif fitting.links > 1:
            made = message(
                "finish.fitting-chain",
                count=fitting.count,
                part=part,
                links=fitting.links,
                strand=strand,
                across=across,
            )
        elif fitting.across_mm is not None:
            made = message(
                "finish.fitting-loop", count=fitting.count, part=part, strand=strand, across=across, told=told
            )
        else:
            made = message("finish.fitting", count=fitting.count, part=part, strand=strand, told=told)
        pieces = [piece for piece in work.pieces(fitting.part) if piece.path == fitting.path]
        plait = message("finish.plait-it", count=fitting.count, part=part, plaited=fitting.plaited)
        at = message("finish.fasten-at", at=Numbers(tuple(sorted(fitting.at)))) if fitting.at else None
        actions += [
            plait if fitting.plaited > 1 else None,
            made,
            at,
            next_length(pieces),
            message("side.own", words=own_words(fitting.note)) if told else None,
        ]
    return [
        work.step(
            "fittings",
            message("finish.put-on-the-fittings"),
            actions,
            does=("open weave", "measure"),
            materials=tuple(dict.fromkeys(fitting.material for fitting in fittings)),
        )
    ]


def _shape(work: Work) -> ToldStep:
    finished = work.quantities.finished
    profile = work.basket.profile
    wide, long = finished.rim_width.value, finished.rim_length.value
    rim = (
        message("finish.by", long=Length(long), wide=Length(wide))
        if abs(long - wide) > 0.5
        else message("finish.across", wide=Length(wide))
    )
    actions = [
        message("finish.damp-the-whole-basket-once") if profile else message("finish.damp-it-once-more-all"),
        message("finish.shape-the-rim-with-your", rim=rim)
        if profile
        else message("finish.press-it-flat-under-a", rim=rim),
        message("finish.stand-it-on-a-level") if profile else "",
        message("finish.let-it-dry-in-moving"),
        message("finish.draw-off-the-mould") if stands_tied(work.basket) else None,
    ]
    height = message("finish.measure-the-basket-it-stands", height=Length(finished.height.value)) if profile else ""
    mends = [message("finish.measures-are-those-of-the") if profile else None]
    return work.step(
        "shape",
        message("finish.shape-and-dry"),
        actions,
        notes=[message("finish.keep-it-where-air-can")],
        mends=mends,
        counts=[height] if height else [],
        figures=(PROFILE,) if profile else (),
        does=("damp", "measure"),
    )
