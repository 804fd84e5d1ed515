"""Every error and warning a designer gets after construction: one rule, one function, one code, one visible list."""

from __future__ import annotations

from collections.abc import Sequence

from slath.basket.model import Basket
from slath.language.pattern import Pattern
from slath.notes import Note, Severity
from slath.quantities.results import Quantities
from slath.rules import (
    boards,
    borders,
    colours,
    counts,
    ears,
    handles,
    lengths,
    lids,
    making,
    materials,
    parts,
    promises,
    shape,
    spacing,
    testing,
    words,
)
from slath.rules.acceptance import accepted, idle
from slath.rules.checking import apply_rules, cannot
from slath.rules.finding import Context, Finding, Rule
from slath.rules.gathering import gathered

__all__ = ["ALL_RULES", "Context", "Finding", "Rule", "cannot", "check_rules", "settle"]

_ERROR, _WARNING, _ADVICE = Severity.ERROR, Severity.WARNING, Severity.ADVICE

ALL_RULES: tuple[Rule, ...] = (
    # The weave holds.
    Rule("weave-does-not-hold", _ERROR, counts.weave_holds),
    Rule("too-few-for-rods", _ERROR, counts.more_uprights_than_rods),
    Rule("stakes-do-not-double", _ERROR, counts.doubled_in_pairs),
    Rule("stakes-do-not-fill-groups", _ERROR, counts.stakes_fill_groups),
    Rule("band-does-not-fill-groups", _ERROR, counts.bands_fill_groups),
    Rule("sticks-regrouped", _ERROR, counts.openings_go_outwards),
    Rule("rows-pair-up", _WARNING, counts.chase_follows),
    Rule("half-stick-changes-nothing", _WARNING, counts.half_stick_counts),
    # There is room and length.
    Rule("stakes-too-close", _ERROR, spacing.weaver_passes),
    Rule("piece-too-short", _ERROR, lengths.pieces_cover_parts),
    Rule("piece-may-not-reach", _WARNING, lengths.pieces_reach),
    Rule("piece-far-too-long", _ADVICE, lengths.pieces_not_far_too_long),
    Rule("stock-too-short", _ERROR, lengths.stock_long_enough),
    Rule("material-runs-out", _ADVICE, lengths.material_goes_round),
    Rule("working-length-too-short", _ERROR, lengths.strands_longer_than_laps, basket_only=True),
    Rule("stake-too-deep", _ERROR, lengths.stakes_stop_at_slath),
    Rule("foot-too-short", _ERROR, lengths.foot_has_stake),
    Rule("piece-leaves-no-hold", _WARNING, lengths.pieces_leave_hold),
    Rule("sticks-opened-too-early", _WARNING, spacing.sticks_opened_in_time),
    # The border closes.
    Rule("border-meets-itself", _ERROR, borders.border_closes),
    Rule("laid-in-without-roll", _ERROR, borders.laid_in_rolls),
    Rule("foot-ends-too-short", _WARNING, borders.foot_ends_reach),
    Rule("tail-not-used", _WARNING, borders.tails_have_meaning),
    Rule("side-without-border", _WARNING, borders.side_is_closed),
    Rule("gathered-do-not-meet", _ERROR, borders.gathered_meet),
    Rule("border-ends-loose", _ERROR, borders.border_ends_held),
    Rule("border-does-not-fill-groups", _ERROR, borders.border_fills_groups),
    Rule("border-under-later-pass", _ERROR, borders.border_passes_in_order, whole=True),
    Rule("ends-used-twice", _ERROR, borders.ends_used_once),
    Rule("border-allowance-too-small", _WARNING, borders.border_allowance_covers),
    # Boards, handles and lids.
    Rule("hole-too-small", _ERROR, boards.holes_take_stakes),
    Rule("flat-stakes-in-holes", _ADVICE, boards.holes_suit_flat_stakes),
    Rule("holes-too-close", _ERROR, boards.holes_leave_wood),
    Rule("holes-and-stakes-differ", _ERROR, boards.holes_match_stakes),
    Rule("holes-not-as-spaced", _WARNING, boards.holes_spaced_as_said),
    Rule("handle-foot-cut-away", _ERROR, handles.feet_still_stand),
    Rule("handle-foot-too-deep", _ERROR, handles.feet_inside_side),
    Rule("handle-feet-not-facing", _WARNING, handles.feet_face),
    Rule("handle-span-off", _WARNING, handles.feet_span_rim),
    Rule("rope-does-not-cover", _ADVICE, handles.rope_covers),
    Rule("board-beyond-sheet", _WARNING, boards.board_fits_sheet),
    Rule("ear-hole-too-small", _ERROR, ears.holes_take_bows),
    Rule("ear-too-small", _ERROR, ears.holes_fit_ears),
    Rule("ear-wood-thin", _WARNING, ears.ears_leave_wood),
    Rule("scarfs-meet", _WARNING, ears.scarfs_leave_arch),
    Rule("liner-without-band", _ERROR, ears.liners_find_band),
    Rule("handle-wider-than-lid", _WARNING, lids.lid_handles_fit, basket_only=True),
    Rule("lid-does-not-fit", _WARNING, lids.lid_fits),
    Rule("fitting-no-stake", _ERROR, lids.fitting_places_exist),
    Rule("part-no-stake", _ERROR, parts.part_places_exist),
    Rule("part-without-ends", _ERROR, parts.part_has_ends),
    Rule("part-does-not-meet", _WARNING, parts.part_meets),
    Rule("lid-no-stake", _ERROR, lids.lid_places_exist),
    # Nothing is used before it is made.
    Rule("change-without-stake", _ERROR, making.changes_find_stakes),
    Rule("bye-stakes-without-band", _ERROR, making.bye_stakes_find_band),
    Rule("bye-stakes-too-deep", _ERROR, making.bye_stakes_have_depth),
    Rule("sticks-not-parted", _WARNING, making.stakes_follow_openings),
    Rule("woven-band-unknown", _ERROR, testing.woven_bands_known, basket_only=True),
    Rule("band-named-twice", _ERROR, making.band_names_differ),
    Rule("figure-outside-band", _ERROR, promises.figure_inside_band),
    # What the pattern says is so.
    Rule("typed-count-disagrees", _ERROR, words.typed_counts_agree, basket_only=True),
    Rule("strands-do-not-run-on", _ERROR, promises.strands_run_on),
    Rule("looks-not-kept", _WARNING, promises.looks_kept),
    Rule("looks-unclear", _WARNING, promises.looks_understood, whole=True),
    Rule("arrow-does-not-meet", _WARNING, promises.arrow_meets),
    Rule("colours-do-not-close", _WARNING, promises.turns_of_colour_close),
    Rule("band-misses-height", _WARNING, shape.band_height_met),
    Rule("side-misses-height", _WARNING, shape.side_height_met),
    Rule("rim-misses-size", _WARNING, shape.rim_met),
    Rule("profile-not-followed", _WARNING, shape.profile_followed),
    Rule("base-misses-size", _WARNING, shape.base_size_met),
    # It will be good to work and to use.
    Rule("base-spacing-unusual", _WARNING, spacing.base_spacing_usual),
    Rule("rim-spacing-unusual", _WARNING, spacing.rim_spacing_usual),
    Rule("stakes-crack-in-border", _WARNING, spacing.stakes_bend_at_rim),
    Rule("weaver-thicker-than-stake", _WARNING, spacing.weavers_finer_than_stakes),
    Rule("sticks-thinner-than-stakes", _WARNING, materials.sticks_carry_stakes),
    Rule("willow-out-of-order", _WARNING, materials.willow_in_order),
    Rule("tops-do-not-serve", _ERROR, materials.tops_long_enough),
    Rule("stakes-not-coarser", _ADVICE, materials.stakes_coarser),
    Rule("flare-too-strong", _WARNING, shape.flare_gentle),
    Rule("french-rand-on-flare", _WARNING, shape.french_rand_flare),
    Rule("oval-will-twist", _WARNING, shape.oval_pairs_both_ways),
    # It can be read.
    Rule("colours-too-alike", _WARNING, colours.colours_told_apart, whole=True),
    Rule("marks-alike", _WARNING, colours.marks_told_apart, whole=True),
    # It can be trusted.
    Rule("size-not-woven", _WARNING, testing.size_woven, basket_only=True),
    Rule("pitch-estimated", _WARNING, testing.pitch_measured),
    Rule("prediction-missed", _WARNING, testing.prediction_held, basket_only=True),
    Rule("woven-figure-doubtful", _WARNING, testing.woven_figures_believable, basket_only=True),
    Rule("gauge-not-used", _ADVICE, testing.gauge_used, whole=True),
    Rule("density-suspect", _WARNING, materials.density_believable, whole=True),
    Rule("price-old", _WARNING, materials.prices_fresh, whole=True),
)


def check_rules(pattern: Pattern, basket: Basket, quantities: Quantities) -> tuple[Note, ...]:
    """Every note one size calls for; warnings the pattern accepts carry the designer's reason."""
    return apply_rules(ALL_RULES, pattern, basket, quantities)


def settle(pattern: Pattern, notes: Sequence[Note], *, whole: bool = True) -> tuple[Note, ...]:
    """The notes of all sizes as they are told: accepted, each cause once, errors first, reminders last.

    With `whole` (every size was checked) an acceptance that overrules nothing is told too; not if a size could not be
    constructed, since its rules have not been heard.
    """
    heard = [accepted(pattern, note) for note in notes]
    codes = {rule.code for rule in ALL_RULES}
    unheard = any(note.stops and note.code not in codes for note in heard)
    if whole and not unheard:
        heard += idle(pattern, heard)
    return gathered(pattern, heard)
