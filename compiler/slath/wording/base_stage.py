"""The base begun: sticks pierced, threaded and crossed; a board drilled; a frame laid out; and the ends counted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.language.pattern import Board, Frame, OvalSlath, ReadyMade, RoundSlath
from slath.quantities.stick_pieces import tie_count
from slath.units.counting import counted, in_words, listed
from slath.wording.base_weaving import band_steps
from slath.wording.board import board_stage
from slath.wording.figure_names import BASE_PLAN
from slath.wording.speech import bracketed, figures, many, verbatim
from slath.wording.stuff import strand_words

if TYPE_CHECKING:
    from slath.basket.model import ConstructedBase
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work


def base_stage(work: Work) -> ToldStage:
    """The base, whatever it is made of, with the bands woven on it."""
    spec = work.basket.base.spec
    if isinstance(spec, Board):
        return board_stage(work, spec)
    if isinstance(spec, ReadyMade):
        return work.stage(
            "base", "The base", verbatim(spec.words) or "The base is made otherwise.", [_ready_made(work, spec)]
        )
    lead = "Work on a table, with the face that will be the underside towards you."
    return work.stage("base", "The base", lead, woven_base_steps(work, work.basket.base))


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
    return [first, *tied, *band_steps(work, base)]


def counting_sentence(work: Work, *names: str) -> str:
    """The sentence that counts, from the list, in this booklet's words."""
    return " ".join(bracketed(row.sentence) for row in work.quantities.counts if row.name in names)


# ------------------------------------------------------------------------------------------------------ round slath
def _round_slath(work: Work, base: ConstructedBase, spec: RoundSlath) -> ToldStep:
    pierced = spec.centre == "pierced"
    actions = _pierced_cross(spec) if pierced else _laid_cross(spec)
    if spec.half_stick:
        actions.append(
            "Push the [half stick] in beside them, as far as the middle, so that only one end of it stands out."
            if pierced
            else "Lay the [half stick] beside the first ones, with one end at the middle and the other at the edge."
        )
    actions.append("Slide the cross about until its arms are of one length.")
    actions.append(_extra_ends(work, spec))
    notes = [_laid_note(spec.laid), "A [stick] that splits while you work it is changed now, before it is bound."]
    return work.step(
        "slath",
        "Make the [slath]",
        actions,
        notes=notes,
        counts=[counting_sentence(work, "ends"), _arms(base)],
        figures=(BASE_PLAN,),
        does=("pierce", "point") if pierced else (),
        materials=(spec.material,),
    )


def _pierced_cross(spec: RoundSlath) -> list[str]:
    slit, threaded = spec.pierced, spec.threaded
    each = "each of them" if slit > 1 else "it"
    return [
        f"Take {many(slit, 'stick')} and mark the middle of {each}.",
        f"Lay {'one of them' if slit > 1 else 'it'} flat on a board.",
        f"Push the [bodkin] through at the mark, and work it along until the slit takes {many(threaded, 'stick')} side by side.",
        f"Slit {'the other ' + in_words(slit - 1) if slit > 2 else 'the other'} in the same way." if slit > 1 else "",
        f"Cut one end of each of the other {many(threaded, 'stick')} to a point."
        if threaded > 1
        else "Cut one end of the other [stick] to a point.",
        f"Thread {'them' if threaded > 1 else 'it'} through the slits{', one after another,' if threaded > 1 else ''} as far as the middle.",
        "Push the slit [sticks] close together, and see that the others lie flat and none has crossed its neighbour.",
    ]


def _laid_cross(spec: RoundSlath) -> list[str]:
    return [
        f"Lay {many(spec.pierced, 'stick')} side by side on the table{_bundles(spec.pierced, spec.laid)}.",
        f"Lay {many(spec.threaded, 'stick')} across the middle of them, side by side{_bundles(spec.threaded, spec.laid)}.",
        "Hold the cross with one hand, or with a weight, until the first round is tight.",
    ]


def _bundles(sticks: int, laid: int) -> str:
    """How sticks that are laid together as one lie in their layer: ``, in two groups of four``."""
    groups = sticks // laid if laid > 1 else 0
    if groups < 2 or sticks % laid:
        return ""
    return f", in {in_words(groups)} groups of {in_words(laid)}"


def _laid_note(laid: int) -> str:
    if laid < 2:
        return ""
    return (
        f"The [sticks] lie {in_words(laid)} together and each group is worked as one until it is parted. Leave a little room "
        "between the groups of a layer, so that the [strand] can pass."
    )


def _arms(base: ConstructedBase) -> str:
    slath = base.slath
    if slath is None or len(slath.group_sizes) > 4:
        return ""
    return f"Round the cross the arms have {listed([str(size) for size in slath.group_sizes])} ends."


def _tied(work: Work, spec: RoundSlath | OvalSlath) -> list[ToldStep]:
    """The crossing bound crosswise before the first round, where the designer ties it."""
    tie = spec.tied
    if tie is None:
        return []
    (piece, *_) = work.pieces("tie of the slath", "ties of the slath")
    turns = tie.turns if tie.turns is not None else round(work.basket.pattern.settings["tie_turns"].value)
    strand = strand_words(work.basket.pattern.materials[tie.material])
    where = {
        "middle": "the middle crosswise [stick]" if tie_count(tie, spec) == 1 else "the two middle crosswise [sticks]",
        "ends": "the crosswise [sticks] at either end",
        "every": "every crosswise [stick]",
    }[tie.at]
    actions = [
        f"Take a length of {strand}, {work.voice.length(piece.cut_mm.value)} long"
        + ("" if isinstance(spec, RoundSlath) or tie_count(tie, spec) == 1 else ", for each crossing")
        + ".",
        f"Work over the crossing at {where}." if isinstance(spec, OvalSlath) else "Work over the middle of the cross.",
        "Lay it slantwise from one corner of the crossing to the opposite one, down between the [sticks], and back underneath.",
        f"Go over that slant {_times(turns)}, then over the other slant {_times(turns)}, so that the turns make a cross on both faces.",
        "Pull every turn tight, and tuck both ends underneath.",
    ]
    return [
        work.step(
            "tie",
            "Tie the crossing",
            actions,
            notes=["A crossing that can still be turned under the thumb is tied again."],
            does=("wrap",),
            materials=(tie.material,),
        )
    ]


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{in_words(count)} times")


def _extra_ends(work: Work, spec: RoundSlath | OvalSlath) -> str:
    """Ends of weavers that are left to be worked as sticks."""
    extra = spec.extra_ends
    if extra is None:
        return ""
    strand = strand_words(work.basket.pattern.materials[extra.material])
    they = "an end" if extra.count == 1 else f"{in_words(extra.count)} ends"
    return f"Lay {they} of {strand} from the middle to the edge as well: from now on {'it counts as a [stick end]' if extra.count == 1 else 'they count as [stick ends]'}."


# ------------------------------------------------------------------------------------------------------- oval slath
def _oval_slath(work: Work, base: ConstructedBase, spec: OvalSlath) -> ToldStep:
    across = sum(spec.groups)
    slit, threaded = ("crosswise", "lengthwise") if spec.pierced != "lengthwise" else ("lengthwise", "crosswise")
    through = spec.lengthwise if threaded == "lengthwise" else across
    groups = _grouping(spec.groups)
    if spec.pierced == "none":
        actions = [
            f"Lay the {spec.lengthwise} lengthwise [sticks] side by side on the table.",
            f"Lay the {across} crosswise [sticks] over them {groups}, and weigh them down.",
        ]
    else:
        actions = [
            f"Mark the middle of each of the {across if slit == 'crosswise' else spec.lengthwise} {slit} [sticks].",
            "Lay one of them flat on a board.",
            f"Push the [bodkin] through at the mark, and work it along until the slit takes {many(through, 'stick')} side by side.",
            "Slit the others in the same way.",
            f"Cut one end of each of the {through} {threaded} [sticks] to a point.",
            "Thread them through the slits, one after another, as far as the middle.",
        ]
    actions.append(f"Move the crosswise [sticks] along into their places, {groups}.")
    actions.append("Keep the middle of the field at the middle of the long ones.")
    actions.append(_field(work, base, spec))
    if spec.half_stick:
        actions.append("Lay the [half stick] beside the long ones, with one end at the middle.")
    actions.append(_extra_ends(work, spec))
    keys = (spec.lengthwise_material, spec.crosswise_material)
    return work.step(
        "slath",
        "Make the [slath]",
        actions,
        notes=[
            "Measure from the first cross [stick] to the last on both sides: a field that is askew makes a twisted base."
        ],
        counts=[counting_sentence(work, "ends")],
        figures=(BASE_PLAN,),
        does=("pierce", "point", "measure") if spec.pierced != "none" else ("measure",),
        materials=keys,
    )


def _grouping(groups: tuple[int, ...]) -> str:
    if set(groups) == {1}:
        return "singly"
    sizes = [in_words(size) for size in groups]
    return f"in groups of {listed(sizes)}, counted from one end"


def _field(work: Work, base: ConstructedBase, spec: OvalSlath) -> str:
    slath = base.slath
    if slath is None or len(spec.groups) < 2:
        return ""
    return f"Space the groups evenly, so that the field is {work.voice.length(slath.length_mm)} long from outside to outside."


# ------------------------------------------------------------------------------------------------------------ frame
def _frame(work: Work, spec: Frame) -> ToldStep:
    length, width = work.voice.length(spec.outline.length_mm), work.voice.length(spec.outline.width_mm)
    actions = [
        f"Lay the {spec.lengthwise} lengthwise [sticks] side by side, spread evenly over {width}.",
        "Hold them upright in a screw block, or nail a batten across each end to keep them apart.",
        f"Mark {length} along them, from the first row to the last.",
        *_cross_sticks(work, spec),
    ]
    actions += _posts(work, spec)
    return work.step(
        "slath",
        "Lay out the frame",
        actions,
        notes=["Measure the two diagonals: when they are alike the base is square."],
        counts=[counting_sentence(work, "ends")],
        figures=(BASE_PLAN,),
        does=("measure", "weave flat base"),
        materials=(spec.material,),
    )


def _posts(work: Work, spec: Frame) -> list[str]:
    """The posts at the corners, which are set when the base has been woven."""
    posts = work.pieces("corner posts")
    if spec.corner_posts is None or not posts:
        return []
    length = work.voice.length(posts[0].cut_mm.value)
    return [
        f"When it is woven, set a post at each corner, through the last rows: {length} long, standing upright.",
        "They are woven round like [stakes], and are cut off level with the [border] in the end.",
    ]


def _cross_sticks(work: Work, spec: Frame) -> list[str]:
    """The cross sticks of a frame, put in as the weaving comes to their places."""
    if not spec.crosswise:
        return []
    lines = sorted({stick.start[0] for stick in work.basket.base.sticks if stick.kind.startswith("crosswise")})
    doubled = spec.doubled_ends and spec.crosswise >= 4
    places = spec.crosswise - 2 if doubled else spec.crosswise
    apart = work.voice.length((lines[-1] - lines[0]) / (places - 1)) if places > 1 else ""
    return [
        f"Mark the places of the crosswise [sticks] between these, {places} of them, {apart} from one to the next."
        if apart
        else "Mark the place of the crosswise [stick] half-way between these.",
        "Two [sticks] lie together at the first place and at the last." if doubled else "",
        "When the weaving comes to a place, push a crosswise [stick] through over one and under the next, as a row of its own.",
    ]


# ------------------------------------------------------------------------------------------------------- ready made
def _ready_made(work: Work, spec: ReadyMade) -> ToldStep:
    actions = ["Have the base ready, its edge trimmed and sound."]
    counts = [f"It has {counted(spec.ends, 'end', 'ends', figures=True)}."] if spec.ends else []
    return work.step("slath", "The base", actions, counts=counts, does=("measure",))


# ------------------------------------------------------------------------------------------------------------ check
def _measured_again(work: Work) -> str:
    """How to find out whether a base is true: a round one is as wide every way, any other has two like diagonals."""
    finished = work.quantities.finished
    if abs(finished.base_length.value - finished.base_width.value) > 0.5:
        return "Measure it aslant, one way and the other: the two must be alike, or it is twisted."
    return "Measure it again the other way."


def base_check(work: Work) -> ToldStage | None:
    """Measuring, counting and trimming the base before stakes go in; None where there is nothing woven to check."""
    base, voice, finished = work.basket.base, work.voice, work.quantities.finished
    spec = base.spec
    if not base.ends or isinstance(spec, ReadyMade):
        return None
    long, wide = finished.base_length.value, finished.base_width.value
    across = (
        f"{voice.length(long)} by {voice.length(wide)}" if abs(long - wide) > 0.5 else f"{voice.length(long)} across"
    )
    actions = [
        f"Measure the base: it should be {across}.",
        _measured_again(work),
        "Look along it: it must lie as it will stand.",
        "Press a base that is a little out of shape with your palms while it is damp, and leave it under a weight.",
    ]
    becomes = not isinstance(spec, Board) and spec.become_stakes
    does = ["check", "measure"]
    if not becomes:
        actions.append("When the base is true, cut the [stick ends] off level with the weaving.")
        does.append("trim base")
    mark = f"Tie a thread to one [stick end]: it is the first, and you count from it to the {voice.on} as you look at the outside."
    actions.append(mark)
    return work.stage(
        "base check",
        "Check the base",
        "What is wrong now grows with every round; this is the place to mend it.",
        [
            work.step(
                "base check",
                "Measure and count",
                actions,
                counts=[f"{figures(len(base.ends), 'stick end')} reach the edge."],
                does=(*does, "trim", "mark") if not becomes else (*does, "mark"),
            )
        ],
    )
