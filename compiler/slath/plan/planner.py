"""A basket as acts, from the first stick to the lid: one bench runs through, and nothing is told from a place that has ended."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from msgspec.structs import replace

from slath.basket.border_ends import foot_ends, makes
from slath.basket.border_path import plait_spares
from slath.basket.courses import keeps_step, runs_on
from slath.basket.model import Basket, WorkedBorder, WorkedHandle, WovenBand
from slath.language.handle_kinds import HANDLE_KINDS
from slath.language.pattern import Board, ByeStakes, Frame, HandleTime, ReadyMade
from slath.plan.acts import (
    Act,
    BendUp,
    Count,
    Damp,
    DrawOut,
    Dry,
    InTurn,
    LaySpares,
    Mark,
    Plan,
    PlannedStage,
    PlannedStep,
    Recount,
    SetFoot,
    SetIn,
    Take,
    TurnOver,
)
from slath.plan.bands import band_acts, begins_in_split, ended, rows_acts
from slath.plan.bench import Bench, Units, changed_units, counted, singly, standing, taken, together, working_units
from slath.plan.border_rows import border_rows
from slath.plan.places import NoLongerHoldsError, Numbering, Place, Upright
from slath.plan.taken import taken_at
from slath.quantities.results import Quantities


def plan_of(basket: Basket, quantities: Quantities | None = None) -> Plan:
    """Everything that is done to a basket, in order. With its list the pieces are taken up as they are listed."""
    return _Planner(basket, quantities).plan()


def rim_numbering(basket: Basket) -> Numbering:
    """The stakes at the rim, one by one as they stand there when the side is done."""
    planner = _Planner(basket, None)
    planner.stakes()
    planner.sides()
    return Numbering("stakes at the rim", singly(planner.bench.units))


def cut_away(basket: Basket) -> frozenset[int]:
    """The numbers of the stakes that are cut away on the way up."""
    left = {upright for unit in rim_numbering(basket).units for upright in unit}
    numbered = zip(standing(basket.stakes), basket.stakes, strict=True)
    return frozenset(stake.number for upright, stake in numbered if stake.kind != "bye-stake" and upright not in left)


def handles_as_counted(basket: Basket) -> tuple[WorkedHandle, ...]:
    """The handles with their feet in the numbers that hold when they are set: stakes added or cut away change them."""
    if not basket.changes:
        return basket.handles
    feet: dict[int, list[int]] = {}
    for act in plan_of(basket).acts:
        if isinstance(act, SetFoot):
            feet.setdefault(act.handle, []).append(act.at.number)
    return tuple(
        replace(handle, feet_at=tuple(feet.get(number, handle.feet_at)))
        for number, handle in enumerate(basket.handles, start=1)
    )


def stands_tied(basket: Basket) -> bool:
    """Whether the stakes stand round a mould from the start, tied with string until the first rounds hold them."""
    stakes = basket.pattern.stakes
    return isinstance(basket.pattern.base, ReadyMade) and stakes is not None and stakes.depth_mm == 0


def bent_up(basket: Basket) -> bool:
    """Whether stakes are bent upright at the edge and tied: not on a board, a mat, or where there is nothing to bend."""
    if isinstance(basket.pattern.base, Board) or basket.profile is None:
        return False
    return bool(basket.stakes) and not stands_tied(basket)


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
            ("ears", lambda: self.set_in("before the border")),
            ("border", self.border),
            *([("foot", self.foot)] if not on_board and foot_ends(basket) != "from the rim" else []),
            ("handle", self.handles),
            ("lid", self.lid),
            ("parts", self.parts),
        ]
        stages = [PlannedStage(key, tuple(step for step in made() if step.acts)) for key, made in makers]
        return Plan(tuple(stage for stage in stages if stage.steps))

    @property
    def tops_tied(self) -> bool:
        """Whether the tops stay tied until the border: rods of willow, which are left whole."""
        materials = self.basket.pattern.materials
        return any(materials[stake.material].stock.tapered for stake in self.basket.stakes)

    # -------------------------------------------------------------------------------------------------- pieces
    def takes(self, stage: str, path: tuple[str | int, ...] = ()) -> list[Act]:
        """The pieces of the list that are taken up in a stage; those under `path` of the file alone."""
        if self.quantities is None:
            return []
        return [
            Take(piece.part, piece.material, round(piece.count.value))
            for piece in self.quantities.pieces
            if taken_at(piece) == stage and piece.path[: len(path)] == path
        ]

    # ---------------------------------------------------------------------------------------------------- base
    def base(self) -> Iterable[PlannedStep]:
        """The sticks, and what is woven over their ends."""
        base = self.basket.base
        laid: list[Act] = self.takes("base")
        if base.ends:
            laid += [Damp("sticks"), SetIn(self.bench.numbering), Mark(self.bench.numbering.at(1))]
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
        held = bool(beyond) and runs_on(self.basket, beyond[0])
        in_split = begins_in_split(self.basket.base, band)
        acts += band_acts(
            self.bench, band, self.uprights, goes_on=goes_on, beyond=following, held=held, in_split=in_split
        )
        if not beyond or not (held or following):
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
        acts.append(Mark(self.uprights.at(1)))
        if stands_tied(self.basket):
            acts.append(self.bench.tie("stakes"))
        at_once = [bye for bye in self.basket.pattern.bye_stakes if not bye.after_band]
        byes = [PlannedStep("bye-stakes", tuple(self.takes("bye-stakes", bye.path))) for bye in at_once]
        return (PlannedStep("stakes", tuple(acts)), *byes)

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
            if band.rounds and not self.tops_tied:
                acts += self.bench.untied("stakes")
            steps.append(PlannedStep(f"band {band.index + 1}", tuple(acts)))
            if not band.index:
                steps += self.set_in("at the upsett")
            steps += [self._byes(bye) for bye in basket.pattern.bye_stakes if bye.after_band == band.name]
        steps += self._changes(lambda index: index >= len(basket.bands))
        return steps

    def _changes(self, here: Callable[[int], bool]) -> list[PlannedStep]:
        steps = []
        for number, (index, change, _) in enumerate(self.basket.changes, start=1):
            if here(index):
                acts = [*ended(self.bench, self.uprights), *self._counted(self.bench.units)]
                after, act = changed_units(self.bench, change, self.uprights)
                self.bench.units, self.uprights = after, act.to
                if change.action == "add":
                    acts += [piece for piece in self.takes("change") if isinstance(piece, Take)]
                acts += [act, Count(act.to, act.to.count)]
                steps.append(PlannedStep(f"change {number}", tuple(acts)))
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
        acts = self.takes("bye-stakes", bye.path)
        self.bench.units = tuple(after)
        acts += self._counted(self.bench.units, "beside")
        return PlannedStep("bye-stakes", tuple(acts))

    # -------------------------------------------------------------------------------------------------- border
    def border(self) -> Iterable[PlannedStep]:
        """The border, worked on what is counted at the rim."""
        border = self.basket.border
        yield PlannedStep("top", tuple(ended(self.bench, self.uprights)))
        acts = self.bench.untied("stakes")
        if border is None or not border.closes:
            yield PlannedStep("untied", tuple(acts))
            return
        yield from self._bordered("border", border, self._border_units(border), acts)

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
        acts += [] if border.spec.foot else self.takes("border ring")
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
        yield PlannedStep("foot ends", (*acts, SetIn(self.uprights), Mark(self.uprights.at(1))))
        for place, band in enumerate(self.basket.foot_bands):
            own = taken(units, band.group_sizes) if sum(band.group_sizes) == len(units) else units
            yield PlannedStep(
                f"foot band {place + 1}", self._band(band, own, self.basket.foot_bands[place + 1 : place + 2])
            )
        yield from self._bordered("foot", foot, units, [*ended(self.bench, self.uprights)])
        self.uprights = kept
        # The ends are trimmed dry; where the side is still to be woven on a board, its stakes are wetted again.
        woven_next = bool(self.basket.base.holes) and ends != "from the rim" and self.basket.profile is not None
        wet: tuple[Act, ...] = (Dry("stakes"), Damp("stakes")) if woven_next else ()
        yield PlannedStep("foot done", (*wet, TurnOver(foot_up=False), SetIn(kept)))

    # -------------------------------------------------------------------------------------------------- on top
    def set_in(self, when: HandleTime) -> list[PlannedStep]:
        """Feet of handles (ears, lugs, loops) set at a time of the work, told as the stakes are counted singly then."""
        chosen = [(n, one) for n, one in enumerate(self.basket.handles, start=1) if one.spec.set_in == when]
        if not any(handle.feet_at for _, handle in chosen):
            return []
        kept, one_by_one = self.uprights, singly(self.bench.units)
        bent: list[Act] = [Damp("handle")]
        if any(_bent_before(handle) for _, handle in chosen):
            bent.append(self.bench.tie("legs of the handle"))
        acts: list[Act] = self.bench.untied("legs of the handle")
        if kept.units != one_by_one:
            self.uprights = self.bench.counted_as(one_by_one)
            acts.append(Recount(self.uprights, "finished"))
        acts += [SetFoot(n, self._foot(number, self.uprights)) for n, handle in chosen for number in handle.feet_at]
        if self.uprights != kept and when == "at the upsett":
            acts.append(SetIn(kept))
            self.uprights = kept
        return [PlannedStep(f"handles bent {when}", tuple(bent)), PlannedStep(f"feet {when}", tuple(acts))]

    def handles(self) -> Iterable[PlannedStep]:
        """The handles, and all that binds and covers them."""
        return (PlannedStep("handle pieces", tuple(self.takes("handle"))), *self.set_in("after the border"))

    def _foot(self, number: int, rim: Numbering) -> Place:
        """Where a foot goes down: the stake the pattern names by its number at the base, as it is counted now. Where that one
        was cut away, the next to its left that still stands.
        """
        ring = [
            upright
            for upright, stake in zip(standing(self.basket.stakes), self.basket.stakes, strict=True)
            if stake.kind != "bye-stake" and stake.number <= number
        ]
        for upright in reversed(ring):
            try:
                return Place(rim, rim.number_of(upright))
            except NoLongerHoldsError:
                continue
        return Place(rim, rim.count)

    def lid(self) -> Iterable[PlannedStep]:
        """The pieces of the lid; what it is made of is a basket of its own, and has a plan of its own."""
        return (PlannedStep("lid", tuple(self.takes("lid"))),)

    def parts(self) -> Iterable[PlannedStep]:
        """The pieces of the parts made by themselves, and of what joins them; each part has a plan of its own."""
        return (PlannedStep("parts", tuple(self.takes("parts"))),)


def _bent_before(handle: WorkedHandle) -> bool:
    """Whether a handle dries in its shape, its legs tied, before its feet are set."""
    return HANDLE_KINDS[handle.spec.kind].dries and handle.spec.family in {"bow", "side"}


def _plaited(acts: tuple[Act, ...]) -> tuple[Act, ...]:
    """A plait is told as one row: what its last groups go under is where the spare lengths lay."""
    return tuple(bend for act in acts for bend in (act.bends if isinstance(act, InTurn) else (act,)))
