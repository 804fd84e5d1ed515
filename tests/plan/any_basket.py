"""Any basket, and more of what changes part-way: stakes added, dropped, parted and taken anew, strands that follow others of
their kind, rows that turn back, rolls and borders of any moves, handles.
"""

from __future__ import annotations

from hypothesis import strategies as st
from tests.properties.constructions import Text, patterns


@st.composite
def any_basket(draw: st.DrawFn) -> Text:
    """A pattern drawn by the laws of every construction, with a few things changed in it."""
    pattern: Text = draw(patterns())
    bands = pattern["side"]["bands"]
    if draw(st.booleans()):
        pattern["border"] = draw(borders())
    if draw(st.booleans()):
        place = draw(st.integers(0, len(bands)))
        bands.insert(place, draw(changes()))
    if draw(st.booleans()):
        again = draw(st.integers(1, 5))
        for number in range(draw(st.integers(1, 3))):
            key = draw(st.sampled_from(["plain", "rust"]))
            bands.insert(0, {"name": f"more {number}", "weave": "randing", "strands": key, "rounds": again + number})
    if draw(st.booleans()):
        over = f"{draw(st.integers(1, 4))} to {draw(st.integers(8, 13))}"
        rows = {"over": over, "shorter": draw(st.integers(0, 1))}
        bands.insert(1, {"name": "built up", "weave": "packing", "strands": "plain", "rounds": 3, "short_rows": rows})
    if draw(st.booleans()):
        feet = draw(st.sampled_from([{}, {"at": [draw(st.integers(1, 12))]}]))
        pattern["handles"] = {"kind": "bow", "material": "sticks", "rise": "150 mm", **feet}
    return pattern


@st.composite
def changes(draw: st.DrawFn) -> Text:
    """Stakes added, dropped or parted, at listed ones or evenly."""
    action = draw(st.sampled_from(["add", "add evenly", "drop", "part", "regroup"]))
    listed = sorted(draw(st.sets(st.integers(1, 12), min_size=1, max_size=4)))
    made: dict[str, Text] = {
        "add": {"add_stakes": {"beside": "listed", "stakes": listed, "material": "stakes", "length": "400 mm"}},
        "add evenly": {
            "add_stakes": {"beside": "every other", "count": len(listed), "material": "stakes", "length": "400 mm"}
        },
        "drop": {"drop_stakes": {"beside": "listed", "stakes": listed}},
        "part": {"part_stakes": {"count": 1}},
        "regroup": {"regroup_stakes": {"count": 2, "first": draw(st.integers(1, 2))}},
    }
    return made[action]


@st.composite
def borders(draw: st.DrawFn) -> Text:
    """A border of two or three rows, the last one often a roll; or a plain one laid behind more than one."""
    if draw(st.booleans()):
        rods, behind = draw(st.integers(2, 5)), draw(st.integers(1, 2))
        moves = [f"behind {behind}", f"before {max(rods - behind, 1)}", f"behind {behind}"]
        return {"passes": [{"moves": [*moves, *draw(st.sampled_from([[], ["out"]]))], "laid_first": rods}]}
    passes = [
        [draw(st.sampled_from(["behind 1", "behind 2", "before 1", "before 2"])), draw(st.sampled_from(["in", "out"]))],
        [f"{draw(st.sampled_from(['behind', 'before']))} {draw(st.integers(1, 3))}", "in"],
    ]
    if draw(st.booleans()):
        passes.append([f"over {draw(st.integers(1, 3))}", "down"])
    return {"passes": passes}
