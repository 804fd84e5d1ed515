"""Plan shapes."""

from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.forms import SHAPES
from slath.language.keys import Annotated, declared

OutlineShape = Literal["circle", "ellipse", "stadium", "rectangle", "rounded rectangle", "half round"]


@declared(
    "outline",
    "A plan shape: a diameter, or a length and a width.",
    example="{diameter: 9 in}",
    also={"diameter": key.length("Across a circle.")},
)
class Outline(Struct, frozen=True):
    """A plan shape: length ≥ width, where the stakes stand (a board: its edge); `corner_mm` is the corner radius of a
    rounded rectangle.
    """

    shape: Annotated[
        OutlineShape,
        key.choice(
            "Plan shape; half round has a straight back as long as it is, and the rest of it curves round in front.",
            say=SHAPES,
            needed=False,
        ),
    ]
    length_mm: Annotated[float, key.length("The longer way.", needed=False)]
    width_mm: Annotated[float, key.length("The shorter way.", needed=False)]
    corner_mm: Annotated[float, key.length("Corner radius of a rounded rectangle.", nought=True)] = 0.0
