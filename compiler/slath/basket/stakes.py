"""Stakes set round the base: their count from the ends, their numbers, and how they are worked together."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.ends import parted
from slath.basket.model import CannotConstruct, ConstructedBase, Curve, Stake
from slath.basket.stake_places import stakes_at_ends
from slath.language.pattern import Base, Board, ByeStakes, Frame, OvalSlath, RoundSlath, SizedPattern
from slath.messages.told import kept
from slath.units import Amount, Basis, worked

_LEAST_HOLD_MM = 19.0  # less than three quarters of an inch holds no stake, unless it is fine; estimated
_LEAST_HOLD_STAKES = 8  # times its thickness, the least depth that holds a fine stake; estimated


def set_stakes(base: ConstructedBase, pattern: SizedPattern) -> tuple[Stake, ...]:
    """All uprights round the base edge, left to right from outside; none on a base that has no stakes or ends."""
    stakes = _with_posts(base, _main_stakes(base, pattern))
    byes = [bye for bye in pattern.bye_stakes if not bye.after_band]
    if byes and not stakes:
        raise CannotConstruct(
            "no-stakes", byes[0].path, "bye-stakes", kept("refusals.bye-stakes-stand-beside-stakes"),
            (kept("refusals.give-stakes-or-let-the"),),
        )  # fmt: skip
    return _with_byes(stakes, byes) if byes else stakes


def _main_stakes(base: ConstructedBase, pattern: SizedPattern) -> tuple[Stake, ...]:
    spec, stakes = base.spec, pattern.stakes
    if isinstance(spec, RoundSlath | OvalSlath | Frame) and spec.become_stakes:
        return _through(base, pattern)
    if stakes is None:
        return ()
    together = stakes.worked_as
    if isinstance(spec, Board):
        return tuple(
            Stake(index + 1, u, None, "stake", stakes.material_of(index // stakes.pieces_each), index // together + 1)
            for index, u in enumerate(base.holes)
        )
    at_ends = [end.stakes for end in base.ends]
    count = stakes.count if stakes.count is not None else sum(at_ends) + stakes.add - stakes.leave_out
    if count < 3:
        raise CannotConstruct(
            "too-few-stakes", stakes.path, "stakes", kept("refusals.stakes-cannot-stand-a-side", count=count),
            (kept("refusals.give-more-stakes-to-an"), kept("refusals.leave-fewer-out")),
        )  # fmt: skip
    ends = _ends_of(base, pattern, count)
    lead = _lead(base, stakes_at_ends(base, pattern), count) if sum(at_ends) else 0.0
    return tuple(
        Stake(index + 1, lead + index / count, ends[index], "stake", stakes.material_of(index), index // together + 1)
        for index in range(count)
    )


def _through(base: ConstructedBase, pattern: SizedPattern) -> tuple[Stake, ...]:
    """Sticks that turn up at both ends, and any stakes set in between them."""
    material = {stick.number: stick.material for stick in base.sticks}
    through = [(end.u, end.number, material[end.stick]) for end in base.ends]
    stakes, spec = pattern.stakes, base.spec
    if stakes is None:
        working = _through_together(spec, len(through))
        return tuple(
            Stake(index + 1, u, end, "through", key, working[index]) for index, (u, end, key) in enumerate(through)
        )
    placed: list[tuple[int, str, str]] = []
    put_in = 0
    for (_, end, key), here in zip(through, stakes_at_ends(base, pattern), strict=True):
        placed.append((end, "through", key))
        placed += [(end, "stake", stakes.material_of(put_in + more)) for more in range(here)]
        put_in += here
    total, together = len(placed), stakes.worked_as
    lead = through[0][0]
    return tuple(
        Stake(
            index + 1,
            lead + index / total,
            end,
            "through" if kind == "through" else "stake",
            key,
            index // together + 1,
        )
        for index, (end, kind, key) in enumerate(placed)
    )


def _through_together(spec: Base, count: int) -> list[int]:
    """The working upright of each stick end that turns up: so many together, and named ones together with the next."""
    together = spec.worked_as if isinstance(spec, RoundSlath | OvalSlath | Frame) else 1
    joined = set(spec.as_one) if isinstance(spec, RoundSlath | OvalSlath) else set()
    working: list[int] = []
    for index in range(count):
        begins = index % together == 0 and index not in joined
        working.append((working[-1] if working else 0) + begins)
    return working


def _with_posts(base: ConstructedBase, stakes: tuple[Stake, ...]) -> tuple[Stake, ...]:
    """A post at each corner of a frame that has them, each a working upright of its own; stakes set in are spread evenly
    between two posts.
    """
    spec = base.spec
    if not isinstance(spec, Frame) or spec.corner_posts is None or not stakes:
        return stakes
    length, width = spec.outline.length_mm / 2, spec.outline.width_mm / 2
    corners = sorted(
        _u_towards(base.edge, x, y) for x, y in ((length, width), (-length, width), (-length, -width), (length, -width))
    )
    begin = stakes[0].u % 1.0
    ring: list[tuple[float, Stake | None]] = [((stake.u - begin) % 1.0, stake) for stake in stakes]
    ring += [((corner - begin) % 1.0, None) for corner in corners]
    ring.sort(key=lambda item: (item[0], item[1] is not None))
    placed: list[Stake] = []
    working, last = 0, 0
    for offset, stake in ring:
        if stake is None:
            working, last = working + 1, 0
            placed.append(Stake(len(placed) + 1, begin + offset, None, "post", spec.corner_posts.material, working))
            continue
        if stake.working != last:
            working, last = working + 1, stake.working
        placed.append(replace(stake, number=len(placed) + 1, u=begin + offset, working=working))
    return _between_posts(placed) if stakes[0].kind == "stake" else tuple(placed)


def _between_posts(stakes: list[Stake]) -> tuple[Stake, ...]:
    """Stakes that are set in, moved so that they stand evenly from post to post."""
    posts = [index for index, stake in enumerate(stakes) if stake.kind == "post"]
    moved = list(stakes)
    for here, there in zip(posts, [*posts[1:], posts[0] + len(stakes)], strict=True):
        start = stakes[here].u
        finish = stakes[there % len(stakes)].u + (1.0 if there >= len(stakes) else 0.0)
        for index in range(here + 1, there):
            u = start + (finish - start) * (index - here) / (there - here)
            if index >= len(stakes):
                u -= 1.0
            moved[index % len(stakes)] = replace(stakes[index % len(stakes)], u=u)
    return tuple(moved)


def _u_towards(edge: Curve, x: float, y: float) -> float:
    """The place on the edge nearest to a point."""
    steps = 1440
    return min(range(steps), key=lambda index: math.dist(edge.point(index / steps), (x, y))) / steps


def stake_depth(base: ConstructedBase, pattern: SizedPattern) -> Amount:
    """How deep the stakes go into the base: as the designer says, or the maker's habit, but no deeper than the slath."""
    spec = pattern.stakes
    if spec is not None and spec.depth_mm is not None:
        return Amount("into the base", spec.depth_mm, "mm", Basis.GIVEN, path=(*spec.path, "depth"))
    usual = replace(pattern.settings["stake_depth"], name="into the base")
    room = room_to_slath(base)
    if room is None or usual.value <= room or room < _least_hold(pattern):
        return usual
    return worked(
        usual.name,
        room,
        "mm",
        "from the edge to the slath, less than the usual depth",
        usual,
        path=spec.path if spec else (),
    )


def _least_hold(pattern: SizedPattern) -> float:
    """The least depth in which a stake stands fast, mm; the fine ones of a doll's basket need less."""
    stakes = pattern.stakes
    thick = pattern.materials[stakes.material].thickness_mm if stakes else _LEAST_HOLD_MM
    return min(_LEAST_HOLD_MM, _LEAST_HOLD_STAKES * thick)


def room_to_slath(base: ConstructedBase) -> float | None:
    """From the edge to the slath where stakes are set in, the least way; None where there is no slath to meet."""
    slath, spec = base.slath, base.spec
    if slath is None or not isinstance(spec, RoundSlath | OvalSlath):
        return None
    rooms = []
    for end in base.ends:
        along = end.kind in {"lengthwise", "half stick"} or (end.kind == "pierced" and isinstance(spec, RoundSlath))
        whole, core = (spec.outline.length_mm, slath.length_mm) if along else (spec.outline.width_mm, slath.width_mm)
        if end.stakes:
            rooms.append((whole - core) / 2)
    return min(rooms, default=None)


def _ends_of(base: ConstructedBase, pattern: SizedPattern, count: int) -> list[int | None]:
    """The stick end each stake goes beside."""
    at_ends = stakes_at_ends(base, pattern) if any(end.stakes for end in base.ends) else []
    listed: list[int | None] = [
        end.number for end, here in zip(base.ends, at_ends, strict=bool(at_ends)) for _ in range(here)
    ]
    return listed if len(listed) == count else [None] * count


def _lead(base: ConstructedBase, at_ends: Sequence[int], count: int) -> float:
    """The u of stake 1 that brings evenly spaced stakes as near as can be to their stick ends, on the whole."""
    number, gaps = 0, []
    for end, stakes in zip(base.ends, at_ends, strict=True):
        if stakes:
            gaps.append(end.u - (number + (stakes - 1) / 2) / count)
        number += stakes
    return math.fsum(gaps) / len(gaps)


def _with_byes(stakes: tuple[Stake, ...], byes: Sequence[ByeStakes]) -> tuple[Stake, ...]:
    """Bye-stakes set to the right of their stakes; they stand in the same working upright."""
    beside: dict[int, list[str]] = {}
    for bye in byes:
        hosts = [stake.number for stake in stakes if _hosts(bye, stake)]
        if bye.count is not None:
            hosts = hosts[: bye.count]
        for index, number in enumerate(hosts):
            beside.setdefault(number, []).append(bye.material_of(index))
    placed: list[Stake] = []
    spacing = 1 / len(stakes)
    for stake in stakes:
        placed.append(stake)
        for place, key in enumerate(beside.get(stake.number, []), start=1):
            u = stake.u + place * spacing * 0.1  # close against the stake; drawn, never measured
            placed.append(replace(stake, u=u, kind="bye-stake", material=key))
    return tuple(placed)


def _hosts(bye: ByeStakes, stake: Stake) -> bool:
    return stake.number in bye.beside if bye.beside else (stake.number - 1) % bye.every == 0


def working_groups(stakes: Sequence[Stake]) -> tuple[int, ...]:
    """How many uprights each working upright is made of, in order."""
    sizes: dict[int, int] = {}
    for stake in stakes:
        sizes[stake.working] = sizes.get(stake.working, 0) + 1
    return tuple(sizes[number] for number in sorted(sizes))


def regrouped(groups: tuple[int, ...], size: int | str) -> tuple[int, ...]:
    """Working uprights taken `size` at a time (bands worked in twos and so on)."""
    if size in (1, "grouped"):
        return groups
    merged: list[int] = []
    position = 0
    for taken in parted(len(groups), int(size)):
        merged.append(sum(groups[position : position + taken]))
        position += taken
    return tuple(merged)
