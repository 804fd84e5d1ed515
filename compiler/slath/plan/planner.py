"""A basket as acts, from the first stick to the lid: one bench runs through, and nothing is told from a place that has ended."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from slath.basket.border_ends import foot_ends, makes
from slath.basket.border_path import plait_spares
from slath.basket.courses import keeps_step, runs_on
from slath.basket.model import Basket, WorkedBorder, WorkedHandle, WovenBand
from slath.language.pattern import Board, ByeStakes, Frame
from slath.plan.acts import (
    Act,
    BendUp,
    Count,
    Damp,
    DrawOut,
    InTurn,
    LaySpares,
    Plan,
    PlannedStage,
    PlannedStep,
    Recount,
    SetFoot,
    SetIn,
    Take,
    TurnOver,
)
from slath.plan.bands import band_acts, ended, rows_acts
from slath.plan.bench import Bench, Units, changed_units, counted, singly, standing, taken, together, working_units
from slath.plan.border_rows import border_rows
from slath.plan.places import NoLongerHoldsError, Numbering, Place, Upright
from slath.quantities.results import Quantities

# The stage in which pieces of the list are taken up, by what their part is called; all else is taken up with the handle.
_TAKEN_AT = (
    ("base", ("base sticks", "through sticks", "half stick", "lengthwise", "crosswise", "extra ends", "tie of the slath",
              "ties of the slath", "cross pieces", "board", "corner posts")),
    ("stakes", ("stakes", "foot stakes")),
    ("border", ("added border pieces",)),
    ("lid", ("lid ", "hinge")),
)  # fmt: skip


def plan_of(basket: Basket, quantities: Quantities | None = None) -> Plan:
    """Everything that is done to a basket, in order. With its list the pieces are taken up as they are listed."""
    return _Planner(basket, quantities).plan()


def rim_numbering(basket: Basket) -> Numbering:
    """The stakes as they are counted at the rim, singly, when the side is done: what a handle's feet are told in."""
    planner = _Planner(basket, None)
    planner.stakes()
    planner.sides()
    return planner.rim_singly()


def handles_as_counted(basket: Basket) -> tuple[WorkedHandle, ...]:
    """Every handle with the numbers of the stakes its feet go down beside, as they are counted when it is set in: at the
    upsett as at the base, and later as at the rim, where stakes added and dropped have changed the count.

    A foot whose stake was dropped keeps the number it has in the pattern.
    """
    rim = rim_numbering(basket)
    stakes = [stake for stake in basket.stakes if stake.kind != "bye-stake"]
    uprights = dict(zip([stake.number for stake in basket.stakes], standing(basket.stakes), strict=True))

    def counted_now(number: int) -> int:
        try:
            return rim.number_of(uprights[number])
        except NoLongerHoldsError:
            return number

    known = {stake.number for stake in stakes}
    return tuple(
        handle
        if handle.spec.set_in == "at the upsett"
        else replace(
            handle, feet_at=tuple(counted_now(number) if number in known else number for number in handle.feet_at)
        )
        for handle in basket.handles
    )


def bent_up(basket: Basket) -> bool:
    """Whether stakes are bent upright at the edge and tied: not on a board, a mat, or where there is nothing to bend."""
    return not isinstance(basket.pattern.base, Board) and basket.profile is not None and bool(basket.stakes)


class _Planner:
    """One basket on the bench."""

    def __init__(self, basket: Basket, quantities: Quantities | None) -> None:
        self.basket, self.quantities = basket, quantities
        ends = tuple((Upright("stick end", end.number - 1),) for end in basket.base.ends)
        self.bench = Bench("count", Numbering("ends of the sticks", ends, "stick end"), ends)
        self.uprights: Numbering = self.bench.numbering

    def plan(self) -> Plan:
        """Stage by stage in working order. The foot border of a board is worked before its side."""
        basket = self.basket
        on_board = bool(basket.base.holes) and foot_ends(basket) != "from the rim"
        makers: list[tuple[str, Callable[[], Iterable[PlannedStep]]]] = [
            ("base", self.base),
            ("stakes", self.stakes),
            *([("foot", self.foot)] if on_board else []),
            ("pricking up", self.pricking_up),
            ("side", self.sides),
            *([("foot", self.foot)] if foot_ends(basket) == "from the rim" else []),
            ("ears", self.feet_before_border),
            ("border", self.border),
            *([("foot", self.foot)] if not on_board and foot_ends(basket) != "from the rim" else []),
            ("handle", self.handles),
            ("lid", self.lid),
        ]
        stages = [PlannedStage(key, tuple(step for step in made() if step.acts)) for key, made in makers]
        return Plan(tuple(stage for stage in stages if stage.steps))

    # -------------------------------------------------------------------------------------------------- pieces
    def takes(self, stage: str) -> list[Act]:
        """The pieces of the list that are taken up in a stage."""
        if self.quantities is None:
            return []
        return [
            Take(piece.part, piece.material, round(piece.count.value))
            for piece in self.quantities.pieces
            if taken_at(piece.part) == stage
        ]

    # ---------------------------------------------------------------------------------------------------- base
    def base(self) -> Iterable[PlannedStep]:
        """The sticks, and what is woven over their ends."""
        base = self.basket.base
        laid: list[Act] = self.takes("base")
        if base.ends:
            laid += [Damp("sticks"), SetIn(self.bench.numbering)]
        yield PlannedStep("base", tuple(laid))
        up = self.basket.bands[:1] if self._goes_up() else ()
        for place, band in enumerate(base.bands):
            key, beyond = f"base band {place + 1}", base.bands[place + 1 : place + 2] or up
            if isinstance(base.spec, Frame) and sum(band.group_sizes) != len(base.ends):
                yield PlannedStep(key, tuple(self._across(band)))
            else:
                yield PlannedStep(key, self._band(band, taken(self.bench.units, band.group_sizes), beyond))

    def _across(self, band: WovenBand) -> list[Act]:
        """Rows to and fro across the sticks of a frame that lie one way."""
        sticks = tuple((Upright("stick", index),) for index in range(band.uprights))
        across = Numbering("sticks across", sticks, "stick end")
        self.uprights = self.bench.numbering
        rows = [(1, band.uprights)] * len(band.rounds)
        return [SetIn(across), *rows_acts(self.bench, band, across, rows), SetIn(self.uprights)]

    def _band(self, band: WovenBand, units: Units, beyond: Sequence[WovenBand]) -> tuple[Act, ...]:
        acts = self._counted(units)
        following = beyond[0] if beyond and beyond[0].part == band.part and self._follows(band, beyond[0]) else None
        goes_on = runs_on(self.basket, band)
        acts += band_acts(self.bench, band, self.uprights, goes_on=goes_on, beyond=following)
        if not beyond or not (runs_on(self.basket, beyond[0]) or following):
            acts += ended(self.bench, self.uprights)
        return tuple(acts)

    def _follows(self, band: WovenBand, beyond: WovenBand) -> bool:
        changed = any(index == beyond.index for index, _, _ in self.basket.changes) and beyond.part == "side"
        return keeps_step(band, beyond) and not changed

    def _counted(self, units: Units, why: str = "") -> list[Act]:
        """Uprights counted as `units` from now on, if they are not yet."""
        if units == self.uprights.units:
            return []
        finer = len(units) > len(self.uprights.units)
        self.uprights = self.bench.counted_as(units)
        return [Recount(self.uprights, why or ("part" if finer else "group"))]  # type: ignore[arg-type]

    # -------------------------------------------------------------------------------------------------- stakes
    def stakes(self) -> Iterable[PlannedStep]:
        """The stakes set in, or the sticks turned up, counted singly."""
        if not self.basket.stakes:
            return ()
        acts: list[Act] = [*ended(self.bench, self.uprights)] if not self._goes_up() else []
        each = tuple((upright,) for upright in standing(self.basket.stakes))
        self.uprights = Numbering("stakes", singly(each), counted(singly(each)))
        self.bench.units = working_units(self.basket.stakes)
        acts += [Damp("stakes"), *self.takes("stakes"), SetIn(self.uprights), Count(self.uprights, self.uprights.count)]
        return (PlannedStep("stakes", tuple(acts)),)

    def _goes_up(self) -> bool:
        """Whether the strands of the base run on up the side."""
        return bool(self.basket.bands) and runs_on(self.basket, self.basket.bands[0])

    def pricking_up(self) -> Iterable[PlannedStep]:
        """The stakes bent upright and tied."""
        if not bent_up(self.basket):
            return ()
        acts: tuple[Act, ...] = (Damp("stakes"), BendUp(self.uprights), self.bench.tie("stakes"))
        return (PlannedStep("pricking up", acts),)

    # ---------------------------------------------------------------------------------------------------- side
    def sides(self) -> Iterable[PlannedStep]:
        """Bands with the changes before them, untied as soon as the first rounds hold; what is at work is ended at the top."""
        basket, steps = self.basket, []
        for band in basket.bands:
            steps += self._changes(lambda index, band=band: index == band.index)  # type: ignore[misc]
            units = together(self.bench.units, band.spec.groups if isinstance(band.spec.groups, int) else 1)
            acts = list(self._band(band, units, basket.bands[band.index + 1 : band.index + 2]))
            if band.rounds:
                acts += self.bench.untied("stakes")
            steps.append(PlannedStep(f"band {band.index + 1}", tuple(acts)))
            steps += [self._byes(bye) for bye in basket.pattern.bye_stakes if bye.after_band == band.name]
        steps += self._changes(lambda index: index >= len(basket.bands))
        return steps

    def _changes(self, here: Callable[[int], bool]) -> list[PlannedStep]:
        steps = []
        for index, change, _ in self.basket.changes:
            if here(index):
                acts = [*ended(self.bench, self.uprights), *self._counted(self.bench.units)]
                after, act = changed_units(self.bench, change, self.uprights)
                self.bench.units, self.uprights = after, act.to
                if change.action == "add":
                    acts += [piece for piece in self.takes("change") if isinstance(piece, Take)]
                acts += [act, Count(act.to, act.to.count)]
                steps.append(PlannedStep(f"change {change.action}", tuple(acts)))
        return steps

    def _byes(self, bye: ByeStakes) -> PlannedStep:
        """Second uprights pushed down beside stakes, woven with them from here on."""
        numbers = set(bye.beside) or {
            stake.number for stake in self.basket.standing if (stake.number - 1) % bye.every == 0
        }
        hosts = sorted(numbers)[: bye.count] if bye.count is not None and not bye.beside else sorted(numbers)
        after: list[tuple[Upright, ...]] = []
        for unit in self.bench.units:
            members: list[Upright] = []
            for one in unit:
                members.append(one)
                if one.kind in {"stake", "post"} and self.basket.stakes[one.index].number in hosts:
                    members.append(Upright("bye-stake", 10_000 + self.bench.added))
                    self.bench.added += 1
            after.append(tuple(members))
        acts = self.takes("bye-stakes")
        self.bench.units = tuple(after)
        acts += self._counted(self.bench.units, "beside")
        return PlannedStep("bye-stakes", tuple(acts))

    # -------------------------------------------------------------------------------------------------- border
    def border(self) -> Iterable[PlannedStep]:
        """The border, worked on what is counted at the rim."""
        border = self.basket.border
        acts: list[Act] = [*ended(self.bench, self.uprights), *self.bench.untied("stakes")]
        if border is None or not border.closes:
            return (PlannedStep("top", tuple(acts)),)
        return self._bordered("border", border, self._border_units(border), acts)

    def _border_units(self, border: WorkedBorder) -> Units:
        """What is bent down as one: the units of the rim that the border is made of, so many together."""
        own = []
        for unit in self.bench.units:
            left = tuple(one for one in unit if self._worked_in(border, one))
            if left:
                own.append(left)
        size = border.spec.plait.group if border.spec.plait else max(border.spec.groups, 1)
        whole = [own[first : first + size] for first in range(0, len(own), size)]
        units = [tuple(one for unit in some for one in unit) for some in whole[: border.count]]
        if len(whole) > border.count and units:
            units[-1] += tuple(one for some in whole[border.count :] for unit in some for one in unit)
        return tuple(unit[:1] if border.spec.cut_to_one else unit for unit in units)

    def _worked_in(self, border: WorkedBorder, one: Upright) -> bool:
        if one.kind in {"added", "foot stake", "end below"} or one.index >= len(self.basket.stakes):
            return border.spec.of == "all"
        return makes(border, self.basket.stakes[one.index])

    def _bordered(self, key: str, border: WorkedBorder, units: Units, acts: list[Act]) -> Iterable[PlannedStep]:
        self.uprights = self.bench.counted_as(units)
        acts += [Recount(self.uprights, "turned over" if border.spec.foot else "finished")]
        acts += [Damp("foot ends" if border.spec.foot else "stakes"), Count(self.uprights, self.uprights.count)]
        yield PlannedStep(f"{key} ready", tuple(acts))
        rows = border_rows(border, self.uprights)
        plait = border.spec.plait
        for row in rows:
            if plait is None:
                yield PlannedStep(f"{key} {row.number}", row.acts())
                continue
            laid = LaySpares(tuple((self.uprights.at(first), many) for first, _, many in plait_spares(plait)))
            spares: list[Act] = [*self.takes("border"), laid] if plait.added else []
            drawn: list[Act] = [DrawOut()] if plait.added else []
            yield PlannedStep(f"{key} {row.number}", (*spares, *_plaited(row.acts()), *drawn))

    def foot(self) -> Iterable[PlannedStep]:
        """The border below the base, with what is woven there first."""
        foot, ends = self.basket.foot, foot_ends(self.basket)
        if foot is None or not foot.closes:
            return
        acts: list[Act] = [*ended(self.bench, self.uprights), TurnOver(foot_up=True)]
        kept = self.uprights
        kind = "foot stake" if ends == "of its own" else "end below"
        units = tuple((Upright(kind, index),) for index in range(foot.count))  # type: ignore[arg-type]
        self.uprights = self.bench.counted_as(units)
        yield PlannedStep("foot ends", (*acts, SetIn(self.uprights)))
        for place, band in enumerate(self.basket.foot_bands):
            own = taken(units, band.group_sizes) if sum(band.group_sizes) == len(units) else units
            yield PlannedStep(
                f"foot band {place + 1}", self._band(band, own, self.basket.foot_bands[place + 1 : place + 2])
            )
        yield from self._bordered("foot", foot, units, [*ended(self.bench, self.uprights)])
        self.uprights = kept
        yield PlannedStep("foot done", (TurnOver(foot_up=False), SetIn(kept)))

    # -------------------------------------------------------------------------------------------------- on top
    def rim_singly(self) -> Numbering:
        """The stakes at the rim, one by one as they stand there now."""
        return Numbering("stakes at the rim", singly(self.bench.units))

    def handles(self) -> Iterable[PlannedStep]:
        """The handles, their feet told as the stakes are counted at the rim."""
        if not self.basket.handles:
            yield PlannedStep("handles", tuple(self.takes("handle")))
            return
        rim = self.rim_singly()
        yield PlannedStep("handle pieces", (*self.takes("handle"), Damp("handle"), Recount(rim, "finished")))
        self.uprights = rim
        for number, handle in enumerate(self.basket.handles, start=1):
            if handle.spec.set_in == "after the border":
                feet = [self._foot(place, rim) for place in handle.feet_at]
                yield PlannedStep(f"handle {number}", tuple(SetFoot(number, place) for place in feet))

    def feet_before_border(self) -> Iterable[PlannedStep]:
        """Ears, and feet of handles that are set in before the border, told as the stakes are counted at the rim."""
        rim = self.rim_singly()
        for number, handle in enumerate(self.basket.handles, start=1):
            if handle.spec.set_in != "after the border":
                feet = [self._foot(place, rim) for place in handle.feet_at]
                acts = tuple(SetFoot(number, place) for place in feet)
                wet, one_by_one, back = Damp("handle"), Recount(rim, "part"), Recount(self.uprights, "group")
                yield PlannedStep(f"handle {number} ears in", (wet, one_by_one, *acts, back))  # lugs are none the worse

    def _foot(self, number: int, rim: Numbering) -> Place:
        """Where a foot goes down: the stake the pattern names by its number at the base, as it is counted now."""
        index = next(
            index
            for index, stake in enumerate(self.basket.stakes)
            if stake.number == number and stake.kind != "bye-stake"
        )
        return Place(rim, rim.number_of(standing(self.basket.stakes)[index]))

    def lid(self) -> Iterable[PlannedStep]:
        """The pieces of the lid; what it is made of is a basket of its own, and has a plan of its own."""
        return (PlannedStep("lid", tuple(self.takes("lid"))),)


def taken_at(part: str) -> str:
    """The stage in which pieces of a part are taken up."""
    if part == "added stakes":
        return "change"
    if part == "bye-stakes":
        return "bye-stakes"
    for stage, names in (_TAKEN_AT[3], *_TAKEN_AT[:3]):
        if any(part.startswith(name) for name in names):
            return stage
    return "handle"


def _plaited(acts: tuple[Act, ...]) -> tuple[Act, ...]:
    """A plait is told as one row: what its last groups go under is where the spare lengths lay."""
    return tuple(bend for act in acts for bend in (act.bends if isinstance(act, InTurn) else (act,)))
