"""What a designer says of selling: photographs for the pages, and what the work costs."""

from typing import Literal

from msgspec import Struct

from slath.language import keys as key
from slath.language.keys import Annotated, declared
from slath.language.places import Path

PhotographPlace = Literal[
    "cover", "back", "prepare", "base", "base check", "stakes", "pricking up", "upsett", "side", "border", "foot", "handle",
    "lid", "finish",
]  # fmt: skip


@declared(
    "photograph",
    "A photograph beside the pattern, JPEG or PNG.",
    example="{file: basket.jpg, shows: The finished basket on a doorstep.}",
    listed="a photograph",
)
class PatternPhotograph(Struct, frozen=True):
    """A photograph and where it stands: ``cover``, ``back``, or a stage of the work. `shows` is told to who cannot see it."""

    path: Path
    file: Annotated[str, key.text("Its file, in the pattern's folder.")]
    shows: Annotated[str, key.text("What it shows, for who cannot see it.")]
    at: Annotated[
        PhotographPlace,
        key.choice("Where it stands: the cover, the back, or a stage. Left out: the cover."),
    ] = "cover"
    caption: Annotated[str, key.text("A line below it.")] = ""


@declared("fee", "A cost that comes with every basket.", example="{what: box, amount: 1.20}", listed="a fee")
class Fee(Struct, frozen=True):
    """A cost that comes with every basket: a stall, a box, a card."""

    what: Annotated[str, key.text("What it is for.")]
    amount: Annotated[float, key.money("How much, in plain digits.")]


@declared("cost", "What one basket costs beside its material.", example="{currency: GBP, hours: 5, rate: 18}")
class Money(Struct, frozen=True):
    """What making one basket of a size costs beside its material, all in one currency.

    `hours` of work at `rate` an hour; `mark_up` is a share of all costs (0.4 is 40 %). None: not said.
    """

    path: Path
    currency: Annotated[
        str,
        key.text(
            "Three letters: GBP, USD, EUR.",
            part={"type": "string", "pattern": "^[A-Z]{3}$", "x-wants": "three capital letters, such as GBP"},
        ),
    ]
    hours: Annotated[float | None, key.ratio("Hours of work.")] = None
    rate: Annotated[float | None, key.money("What an hour is paid.")] = None
    fees: Annotated[tuple[Fee, ...], key.many(Fee, "fee", "Costs that come with every basket.")] = ()
    mark_up: Annotated[
        float,
        key.by_hand(
            {
                "type": ["number", "string"],
                "minimum": 0,
                "maximum": 1000,
                "minLength": 1,
                "x-wants": "percent as a number, such as 40",
            },
            "What is added to all costs for the price of a kit or basket, in percent.",
        ),
    ] = 0.0
