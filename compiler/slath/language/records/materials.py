"""Materials and stocks, and how they are sold."""

from typing import Literal, get_args

from msgspec import Struct

from slath.language import keys as key
from slath.language.keys import FORMS, Annotated, declare, declared, refer
from slath.language.places import Path
from slath.language.view import GREATEST_STRAND_MM
from slath.trade.stock import Pack, Stock, StockKind

Marks = Literal["none", "rings", "centre line", "dots"]
LETTER = {"type": ["string", "integer"], "pattern": r"^[^\s]{1,2}$", "x-wants": "one letter, or two"}
_SOAK = "How long to soak it, in words."


@declared(
    "material",
    example="{stock: us round reed 4}",
    also={
        "stock": key.by_hand(
            {
                "type": ["string", "number", "object"],
                "if": {"type": "object"},
                "then": refer("stock"),
                "x-examples": "stocks",
            },
            "Name of a stock (us round reed 4), or a stock described here.",
            needed=True,
        ),
        "bought": key.choice(
            "Whether a dyed material is bought dyed (the default) or natural, to be dyed at home: it is then bought together with the undyed.",
            among=("dyed", "natural"),
        ),
    },
)
class Material(Struct, frozen=True):
    """One material of the pattern: a stock, perhaps dyed, with the letter and marks that tell it in the drawings."""

    key: str
    path: Path
    stock: Stock
    title: Annotated[str, key.text("What it is called in print; left out: its stock and dye.", needed=False)]
    dye: Annotated[str | None, key.text("Name of the dye; left out: natural.", examples="dyes")] = None
    letter: Annotated[
        str, key.text("The letter that tells it in the drawings; left out: one is chosen.", part=LETTER)
    ] = ""
    colour: Annotated[str, key.text(part="colour")] = "#efe4c8"
    marks: Annotated[Marks, key.choice("Marks that tell it without colour.")] = "none"
    soak: Annotated[str, key.text(_SOAK)] = ""
    have_mm: Annotated[
        float | None,
        key.length("Length you have of it; it is taken off what is to be bought.", most=GREATEST_STRAND_MM),
    ] = None
    bought_natural: bool = False  # dyed at home, so that it is bought with the undyed

    @property
    def width_mm(self) -> float:
        """Width along the face; the diameter of round material."""
        return self.stock.width_mm

    @property
    def thickness_mm(self) -> float:
        """Thickness off the face; the diameter of round material."""
        return self.stock.thickness_mm


declare(
    "stock",
    "A material as it is sold.",
    Stock,
    example="{kind: round reed, diameter: 3 mm}",
    also={
        "diameter": key.by_hand("length", "Diameter of round material."),
        "mass_per_length": key.by_hand(
            "measure", "Mass for a length: 3.2 g per m, or the length for a mass: 500 ft per lb."
        ),
    },
    fields={
        "kind": key.choice("What it is.", among=get_args(StockKind), needed=True, stand_in="other"),
        "width_mm": key.length("Width along the stake's face.", needed=False),
        "thickness_mm": key.length("Thickness off the stake's face.", needed=False),
        "butt_mm": key.length("Diameter at the butt of a tapering rod."),
        "tip_mm": key.length("Diameter at the tip of a tapering rod."),
        "length_class_mm": key.length("Length by which rods are sorted and sold."),
        "usual_length_mm": key.length("Length of one piece as sold.", most=GREATEST_STRAND_MM),
        "scale": key.text("Whose numbering it has: US, UK."),
        "number": key.text("Its number on that scale."),
        "soak": key.text(_SOAK),
        "source": key.text("Where the figures come from; left out: measured by you."),
        "packs": key.many(Pack, "pack", "How it is sold."),
    },
)
declare(
    "pack",
    "One way a stock is sold: by mass, by length or by the piece.",
    Pack,
    example="{title: 1 lb coil, mass: 1 lb}",
    listed="a pack",
    fields={
        "title": key.text("As the seller calls it: 1 lb coil."),
        "mass_g": key.mass(),
        "length_mm": key.length("Length in the pack.", most=GREATEST_STRAND_MM),
        "pieces": key.count("Pieces in the pack.", most=100_000),
        "price": key.money(),
        "currency": key.text("Three letters: GBP, USD, EUR.", part={"type": "string", "pattern": "^[A-Z]{3}$"}),
        "supplier": key.text("Who sells it."),
        "priced_on": key.day("Day of the price.", as_text=True),
    },
)
FORMS["packs"] = {"type": "object", "additionalProperties": {"type": "array", "minItems": 1, "items": refer("pack")}}
FORMS["settings"] = {"type": "object", "additionalProperties": refer("measure")}
