"""What the maker's own hand came to: test pieces, and sizes somebody has woven."""

from collections.abc import Mapping
from datetime import date

from msgspec import Struct, field

from slath.language import keys as key
from slath.language.forms import WEAVE
from slath.language.keys import Annotated, declared, refer
from slath.language.places import Path


@declared(
    "gauge",
    "Measured on a test piece: rounds over a height, or the take-up of a strand.",
    listed="a measurement",
    example="{weave: randing, strand: plain, rounds: 12, over: 1 in}",
    some_of=(("rounds", "over"), ("take_up",)),
    needs={"rounds": ("over",), "over": ("rounds",)},
)
class Gauge(Struct, frozen=True):
    """What was measured on a test piece, or learned from a size that was woven: rounds over a height, and take-up.

    `length_factor` is strand taken ÷ strand worked out for a whole test weave of the size `of_size`. `shared`: several
    weaves went into one measured height, shared out among them in proportion to what was worked out.
    """

    path: Path
    weave: Annotated[str, key.by_hand(WEAVE, "The weave in words.")]
    strand: Annotated[str, key.text("The material, or the stock.", part="name")]
    rounds: Annotated[int | None, key.count("Rounds counted.", needed=False)]
    over_mm: Annotated[float | None, key.length("Height they came to.", needed=False)]
    take_up: Annotated[float | None, key.ratio("Length of strand for a length of weaving.", needed=False)]
    spacing_mm: Annotated[float | None, key.length("Spacing of the stakes on the test piece.", needed=False)]
    by: Annotated[str, key.text("Who measured it.", needed=False)]
    on: Annotated[date | None, key.day("When.", needed=False)]
    length_factor: float | None = None
    of_size: str = ""
    shared: bool = False

    @property
    def source(self) -> str:
        """Where, by whom and when it was measured."""
        where = f"measured on the {self.of_size} size" if self.of_size else "test piece measured"
        who = f" by {self.by}" if self.by else ""
        when = f" on {self.on.isoformat()}" if self.on else ""
        return f"{where}{who}{when}"


@declared(
    "test_weave",
    "The day it was woven, or what the test weave found.",
    otherwise=refer("date"),
    also={
        "base_diameter": key.length("Across a round base, woven."),
        "rim_diameter": key.length("Across a round rim, at the top of the weaving."),
    },
)
class WovenSize(Struct, frozen=True):
    """The test-weave form of one size, filled in: what is None or not there was not measured.

    `rounds` and `band_heights_mm` (up the side) are by the name of the band as written. `used` is what was begun with of
    each material and `left_over` what remained of that: millimetres, or whole rods where the stock is sold by the rod.
    `stake_cut_mm` is what each stake was cut to, `stake_left_mm` what was cut off it in the end.
    """

    path: Path
    on: Annotated[date | None, key.day(needed=True)]
    by: Annotated[str, key.text("Who wove it.")] = ""
    time: Annotated[str, key.text("In words: 5 hours.")] = ""
    note: Annotated[str, key.text("What else was noticed.")] = ""
    height_mm: Annotated[float | None, key.length("Standing height to the top of the weaving.")] = None
    base_length_mm: Annotated[float | None, key.length("The longer way of the base, woven.")] = None
    base_width_mm: Annotated[float | None, key.length("The shorter way of the base, woven.")] = None
    rim_length_mm: Annotated[float | None, key.length("The longer way of the rim.")] = None
    rim_width_mm: Annotated[float | None, key.length("The shorter way of the rim.")] = None
    mass_g: Annotated[float | None, key.mass("Finished, dry.")] = None
    stake_cut_mm: Annotated[float | None, key.length("What each stake was cut to.")] = None
    stake_left_mm: Annotated[float | None, key.length("Cut off each stake at the end.", nought=True)] = None
    rounds: Annotated[Mapping[str, int], key.by_name(key.count(), "Rounds of each band, under its name.")] = field(
        default_factory=dict
    )
    band_heights_mm: Annotated[
        Mapping[str, float], key.by_name(key.length(), "Height of each band up the side, under its name.")
    ] = field(default_factory=dict)
    used: Annotated[
        Mapping[str, float],
        key.by_name(key.length(), "Length begun with of each material, under its name; whole rods of willow."),
    ] = field(default_factory=dict)
    left_over: Annotated[
        Mapping[str, float],
        key.by_name(key.length(), "Length of that left over, under the material's name; whole rods of willow."),
    ] = field(default_factory=dict)
