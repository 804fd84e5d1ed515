"""The base begun: sticks pierced, threaded and crossed; a board drilled; a frame laid out; and the ends counted."""

from __future__ import annotations

from itertools import takewhile

from slath.basket.model import ConstructedBase
from slath.language.pattern import Board, Frame, OvalSlath, ReadyMade, RoundSlath
from slath.messages import Length, Listed, message
from slath.messages.values import CUT
from slath.quantities.stick_pieces import tie_count
from slath.wording.base_weaving import band_steps
from slath.wording.board import board_stage
from slath.wording.figure_names import BASE_PLAN
from slath.wording.speech import verbatim
from slath.wording.stuff import strand_said
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.work import Work


def base_stage(work: Work) -> ToldStage:
    """The base, whatever it is made of, with the bands woven on it."""
    spec = work.basket.base.spec
    if isinstance(spec, Board):
        return board_stage(work, spec)
    if isinstance(spec, ReadyMade):
        return work.stage(
            "base",
            message("base.the-base"),
            verbatim(spec.words) or message("base.the-base-is-made-otherwise"),
            [_ready_made(work, spec)],
        )
    lead = message("base.work-on-a-table-with", flat=work.basket.profile is None)
    return work.stage("base", message("base.the-base"), lead, woven_base_steps(work, work.basket.base))


def woven_base_steps(work: Work, base: ConstructedBase) -> list[ToldStep]:
    """Begin and weave a base of sticks: the basket's own, or its lid's."""
    spec = base.spec
    if isinstance(spec, RoundSlath):
        first = _round_slath(work, base, spec)
    elif isinstance(spec, OvalSlath):
        first = _oval_slath(work, base, spec)
    elif isinstance(spec, Frame):
        first = _frame(work, spec)
    else:
        return []
    tied = _tied(work, spec) if isinstance(spec, RoundSlath | OvalSlath) else []
    return [first, *tied, *band_steps(work, base, marked(base, flat=work.basket.profile is None))]


def counting_sentence(work: Work, *names: str) -> Clause:
    """The sentence that counts, from the list, in this booklet's words."""
    said = tuple(row.said for row in work.quantities.counts if row.name in names)
    return message("base.counted", said=Listed(said)) if said else None


# ------------------------------------------------------------------------------------------------------ round slath
def _round_slath(work: Work, base: ConstructedBase, spec: RoundSlath) -> ToldStep:
    pierced = spec.centre == "pierced"
    actions: list[Clause] = _pierced_cross(spec) if pierced else _laid_cross(spec)
    if spec.half_stick:
        beside = message("base.lay-the-half-stick-beside")
        if spec.become_stakes:
            beside = message("base.lay-the-half-stick-long")
        actions.append(message("base.push-the-half-stick-in") if pierced else beside)
    actions.append(message("base.slide-the-cross-about-until"))
    actions.append(_extra_ends(work, spec))
    notes: list[Clause] = [_laid_note(spec.laid)]
    mends = [message("base.a-stick-that-splits-while")]
    return work.step(
        "slath",
        message("base.make-the-slath"),
        actions,
        notes=notes,
        mends=mends,
        counts=[counting_sentence(work, "ends"), _arms(base)],
        figures=(BASE_PLAN,),
        does=("pierce", "point") if pierced else (),
        materials=(spec.material,),
    )


def _pierced_cross(spec: RoundSlath) -> list[Clause]:
    slit, threaded = spec.pierced, spec.threaded
    return [
        message("base.take-and-mark-the-middle", slit=slit),
        message("base.lay-flat-on-a-board", slit=slit),
        message("base.push-the-bodkin-through-at", threaded=threaded),
        message("base.slit-in-the-same-way", others=slit - 1) if slit > 1 else None,
        message("base.cut-one-end-of-each", threaded=threaded) if threaded > 1 else message("base.cut-one-end-of-the"),
        message("base.thread-through-the-slits-as", threaded=threaded),
        message("base.push-the-slit-sticks-close"),
    ]


def _laid_cross(spec: RoundSlath) -> list[Clause]:
    return [
        message("base.lay-side-by-side-on", pierced=spec.pierced, bundles=_bundles(spec.pierced, spec.laid)),
        message("base.lay-across-the-middle-of", threaded=spec.threaded, bundles=_bundles(spec.threaded, spec.laid)),
        message("base.hold-the-cross-with-one"),
    ]


def _bundles(sticks: int, laid: int) -> Clause:
    """How sticks that are laid together as one lie in their layer: ``, in two groups of four``."""
    groups = sticks // laid if laid > 1 else 0
    if groups < 2 or sticks % laid:
        return None
    return message("base.in-groups-of", groups=groups, laid=laid)


def _laid_note(laid: int) -> Clause:
    if laid < 2:
        return None
    return message("base.the-sticks-lie-together-and", laid=laid)


def _arms(base: ConstructedBase) -> Clause:
    slath = base.slath
    if slath is None or len(slath.group_sizes) > 4:
        return None
    return message("base.round-the-cross-the-arms", ends=Listed(slath.group_sizes))


def _tied(work: Work, spec: RoundSlath | OvalSlath) -> list[ToldStep]:
    """The crossing bound crosswise before the first round, where the designer ties it."""
    tie = spec.tied
    if tie is None:
        return []
    (piece, *_) = work.pieces("tie of the slath", "ties of the slath")
    turns = tie.turns if tie.turns is not None else round(work.basket.pattern.settings["tie_turns"].value)
    strand = strand_said(work.basket.pattern.materials[tie.material])
    where = {
        "middle": message("base.the-middle-crosswise-stick")
        if tie_count(tie, spec) == 1
        else message("base.the-two-middle-crosswise-sticks"),
        "ends": message("base.the-crosswise-sticks-at-either"),
        "every": message("base.every-crosswise-stick"),
    }[tie.at]
    actions: list[Clause] = [
        message(
            "base.take-a-length-of-long",
            strand=strand,
            cut=Length(piece.cut_mm.value, CUT),
            several=isinstance(spec, OvalSlath) and tie_count(tie, spec) > 1,
        ),
        message("base.work-over-the-crossing-at", where=where)
        if isinstance(spec, OvalSlath)
        else message("base.work-over-the-middle-of"),
        message("base.lay-it-slantwise-from-one"),
        message("base.go-over-that-slant-then", turns=turns),
        message("base.pull-every-turn-tight-and"),
    ]
    return [
        work.step(
            "tie",
            message("base.tie-the-crossing"),
            actions,
            notes=[message("base.a-crossing-that-can-still")],
            does=("wrap",),
            materials=(tie.material,),
        )
    ]


def _extra_ends(work: Work, spec: RoundSlath | OvalSlath) -> Clause:
    """Ends of weavers that are left to be worked as sticks."""
    extra = spec.extra_ends
    if extra is None:
        return None
    strand = strand_said(work.basket.pattern.materials[extra.material])
    return message("base.lay-of-from-the-middle", strand=strand, count=extra.count)


# ------------------------------------------------------------------------------------------------------- oval slath
def _oval_slath(work: Work, base: ConstructedBase, spec: OvalSlath) -> ToldStep:
    across = sum(spec.groups)
    slit, threaded = ("crosswise", "lengthwise") if spec.pierced != "lengthwise" else ("lengthwise", "crosswise")
    through = spec.lengthwise if threaded == "lengthwise" else across
    groups = _grouping(spec.groups)
    actions: list[Clause]
    if spec.pierced == "none":
        actions = [
            message("base.lay-the-lengthwise-sticks-side", lengthwise=spec.lengthwise),
            message("base.lay-the-crosswise-sticks-over", across=across, groups=groups),
        ]
    else:
        actions = [
            message(
                "base.mark-the-middle-of-each",
                count=across if slit == "crosswise" else spec.lengthwise,
                crosswise=slit == "crosswise",
            ),
            message("base.lay-one-of-them-flat"),
            message("base.push-the-bodkin-through-at-2", through=through),
            message("base.slit-the-others-in-the"),
            message("base.cut-one-end-of-each-2", through=through, crosswise=threaded == "crosswise"),
            message("base.thread-them-through-the-slits"),
        ]
    actions.append(message("base.move-the-crosswise-sticks-along", groups=groups))
    actions.append(message("base.keep-the-middle-of-the"))
    actions.append(_field(base, spec))
    if spec.half_stick:
        actions.append(message("base.lay-the-half-stick-beside-2"))
    actions.append(_extra_ends(work, spec))
    keys = (spec.lengthwise_material, spec.crosswise_material)
    return work.step(
        "slath",
        message("base.make-the-slath"),
        actions,
        notes=[message("base.measure-from-the-first-cross")],
        counts=[counting_sentence(work, "ends")],
        figures=(BASE_PLAN,),
        does=("pierce", "point", "measure") if spec.pierced != "none" else ("measure",),
        materials=keys,
    )


def _grouping(groups: tuple[int, ...]) -> Clause:
    if set(groups) == {1}:
        return message("base.singly")
    return message("base.in-groups-of-counted-from", sizes=Listed(groups))


def _field(base: ConstructedBase, spec: OvalSlath) -> Clause:
    slath = base.slath
    if slath is None or len(spec.groups) < 2:
        return None
    return message("base.space-the-groups-evenly-so", length=Length(slath.length_mm))


# ------------------------------------------------------------------------------------------------------------ frame
def _frame(work: Work, spec: Frame) -> ToldStep:
    length, width = Length(spec.outline.length_mm), Length(spec.outline.width_mm)
    actions: list[Clause] = [
        message("base.lay-the-lengthwise-sticks-side-2", lengthwise=spec.lengthwise, width=width),
        message("base.hold-them-upright-in-a"),
        message("base.mark-along-them-from-the", length=length),
        *_cross_sticks(work, spec),
    ]
    actions += _posts(work, spec)
    return work.step(
        "slath",
        message("base.lay-out-the-frame"),
        actions,
        notes=[message("base.measure-the-two-diagonals-when")],
        counts=[counting_sentence(work, "ends")],
        figures=(BASE_PLAN,),
        does=("measure", "weave flat base"),
        materials=(spec.material,),
    )


def _posts(work: Work, spec: Frame) -> list[Clause]:
    """The posts at the corners, which are set when the base has been woven."""
    posts = work.pieces("corner posts")
    if spec.corner_posts is None or not posts:
        return []
    length = Length(posts[0].cut_mm.value, CUT)
    return [
        message("base.when-it-is-woven-set", length=length),
        message("base.they-are-woven-round-like"),
    ]


def _cross_sticks(work: Work, spec: Frame) -> list[Clause]:
    """The cross sticks of a frame, put in as the weaving comes to their places."""
    if not spec.crosswise:
        return []
    lines = sorted({stick.start[0] for stick in work.basket.base.sticks if stick.kind.startswith("crosswise")})
    doubled = spec.doubled_ends and spec.crosswise >= 4
    places = spec.crosswise - 2 if doubled else spec.crosswise
    apart = Length((lines[-1] - lines[0]) / (places - 1)) if places > 1 else None
    return [
        message("base.mark-the-places-of-the", places=places, apart=apart)
        if apart
        else message("base.mark-the-place-of-the"),
        message("base.two-sticks-lie-together-at") if doubled else None,
        message("base.when-the-weaving-comes-to"),
    ]


# ------------------------------------------------------------------------------------------------------- ready made
def _ready_made(work: Work, spec: ReadyMade) -> ToldStep:
    actions: list[Clause] = _ring(work, spec) if spec.ring else [message("base.have-the-base-ready-its")]
    counts = [message("base.it-has", ends=spec.ends)] if spec.ends else []
    return work.step(
        "slath",
        message("base.the-base"),
        actions,
        counts=counts,
        does=("measure",),
        materials=(spec.ring,) if spec.ring else (),
    )


def _ring(work: Work, spec: ReadyMade) -> list[Clause]:
    """A ring bent of one length, on which the work is begun."""
    (piece,) = work.pieces("base ring")
    lap = Length(piece.parts[1].value)
    return [
        message("base.bend-the-ring", cut=Length(piece.cut_mm.value, CUT), lap=lap),
        message("base.bind-the-ring", size=Length(spec.outline.length_mm)),
    ]


# ------------------------------------------------------------------------------------------------------------ check
def _measured_again(work: Work) -> Clause:
    """How to find out whether a base is true: a round one is as wide every way, any other has two like diagonals."""
    finished = work.quantities.finished
    if abs(finished.base_length.value - finished.base_width.value) > 0.5:
        return message("base.measure-it-aslant-one-way")
    return message("base.measure-it-again-the-other")


def marked(base: ConstructedBase, *, flat: bool) -> Clause:
    """The stick end that all is counted from: of a round base one that its arms tell, of a long one that where its numbers begin.

    Feet of a handle are told by number, so that a count begun elsewhere would set them askew.
    """
    lengthwise = list(takewhile(lambda end: end.kind == "lengthwise", base.ends))
    if lengthwise and len(lengthwise) == sum(stick.kind == "lengthwise" for stick in base.sticks):
        half = len(lengthwise) < len(base.ends) and base.ends[len(lengthwise)].kind == "half stick"
        return message("base.tie-a-thread-to-first", ends=len(lengthwise), flat=flat, half=half)
    if not isinstance(base.spec, RoundSlath):
        return message("base.tie-a-thread-to-one", flat=flat)
    return message("base.tie-a-thread-arm", which=message(f"base.arm-{_first_arm(base, base.spec)}"))


def _first_arm(base: ConstructedBase, spec: RoundSlath) -> str:
    first = [end.kind for end in base.ends[: base.slath.group_sizes[0]]] if base.slath else []
    if "half stick" in first or "extra end" in first:
        return "half"
    if spec.centre == "pierced":
        return "slit"
    return "any" if spec.pierced == spec.threaded else "laid-first"


def base_check(work: Work) -> ToldStage | None:
    """Measuring, counting and trimming the base before stakes go in; None where there is nothing woven to check."""
    base, finished = work.basket.base, work.quantities.finished
    spec = base.spec
    if not base.ends or isinstance(spec, ReadyMade):
        return None
    flat = work.basket.profile is None
    long, wide = finished.base_length.value, finished.base_width.value
    across = (
        message("base.by", long=Length(long), wide=Length(wide))
        if abs(long - wide) > 0.5
        else message("base.across", long=Length(long))
    )
    actions: list[Clause] = [
        message("base.measure-the-base-it-should", across=across),
        _measured_again(work),
        message("base.look-along-it-it-must", flat=flat),
        message("base.press-a-base-that-is"),
    ]
    becomes = not isinstance(spec, Board) and spec.become_stakes
    does = ["check", "measure"]
    if not becomes:
        actions.append(message("base.when-the-base-is-true"))
        does.append("trim base")
    if base.slath:
        actions.append(message("base.keep-the-thread"))
    elif any(stake.end is not None for stake in work.basket.stakes) or not work.basket.stakes:
        actions.append(marked(base, flat=flat))
    return work.stage(
        "base check",
        message("base.check-the-base"),
        message("base.what-is-wrong-now-grows"),
        [
            work.step(
                "base check",
                message("base.measure-and-count"),
                actions,
                counts=[message("base.reach-the-edge", ends=len(base.ends))],
                does=(*does, "trim", "mark") if not becomes else (*does, "mark"),
            )
        ],
    )
