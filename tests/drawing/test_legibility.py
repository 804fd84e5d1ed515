"""A figure is read only if its lettering lies inside it and no label lies over another."""

from __future__ import annotations

import pytest

from slath.drawing.plate.legibility import can_be_read
from slath.drawing.scene import Scene, Text


def scene(*labels: Text) -> Scene:
    """A figure of 40 × 20 mm with nothing but these labels."""
    return Scene("trial", "Trial", "Words.", 40.0, 20.0, labels)


@pytest.mark.parametrize(
    ("label", "readable"),
    [
        (Text(20.0, 10.0, "stake"), True),
        (Text(1.0, 10.0, "stake"), False),  # half of it left of the figure
        (Text(1.0, 10.0, "stake", anchor="start"), True),
        (Text(39.0, 10.0, "stake", anchor="start"), False),
        (Text(39.0, 10.0, "stake", anchor="end"), True),
        (Text(20.0, 1.0, "stake"), False),  # letters of 7.5 point stand 1.9 mm high on their line
        (Text(20.0, 20.0, "stake"), True),
        (Text(20.0, 21.0, "stake"), False),
        (Text(20.0, 10.0, "forty-eight stakes, each with its bye-stake"), False),  # wider than the figure
        (Text(2.5, 10.0, "bye-stake", turn=90.0), True),  # beside the edge, running down
        (Text(2.5, 10.0, "bye-stake"), False),
        (Text(-30.0, 10.0, " "), True),  # nothing to be read
    ],
)
def test_a_label_lies_inside(label: Text, readable: bool) -> None:
    """By all its letters, as it is anchored and turned; the margin of a page takes half a millimetre."""
    assert can_be_read(scene(label)) is readable


@pytest.mark.parametrize(
    ("one", "other", "readable"),
    [
        ((20.0, 10.0), (20.0, 10.0), False),
        ((20.0, 10.0), (22.0, 11.0), False),
        ((20.0, 10.0), (20.0, 13.0), True),  # a line below
        ((8.0, 10.0), (30.0, 10.0), True),  # beside it
    ],
)
def test_labels_lie_clear_of_one_another(one: tuple[float, float], other: tuple[float, float], readable: bool) -> None:
    """Two words of 7.5 point in each other's place are no words."""
    assert can_be_read(scene(Text(*one, "stake"), Text(*other, "waling"))) is readable
