"""Materials and stocks of a pattern: catalogue names looked up, own stocks read, letters given."""

from __future__ import annotations

from collections.abc import Mapping
from string import ascii_uppercase

from msgspec.structs import replace

from slath.language.keys import read
from slath.language.pattern import Material
from slath.language.spelling import or_list
from slath.language.view import View
from slath.messages.told import told, word
from slath.notes import Severity
from slath.trade import find_stock, nearest_stocks, scale_of
from slath.trade.dyes import drawn_colour
from slath.trade.soaking import rod_soak
from slath.trade.stock import Pack, Stock
from slath.trade.stock_words import stock_words
from slath.units import Basis
from slath.units.names import Dimension

NATURAL = "#efe4c8"
# How a source begins that is no publication.
_SOURCES = {
    "from memory": Basis.MEMORY,
    "memory": Basis.MEMORY,
    "estimate": Basis.ESTIMATED,
    "guess": Basis.ESTIMATED,
    "taken": Basis.ESTIMATED,
    "assumed": Basis.ESTIMATED,
    "measured": Basis.MEASURED,
    "weighed": Basis.MEASURED,
    "common practice": Basis.COMMON,
}
_EXAMPLES = {
    "willow": "{kind: willow, butt: 7 mm, tip: 3 mm, length_class: 5 ft}",
    "flat": "{kind: flat reed, width: 9 mm, thickness: 1.2 mm}",
    "oval": "{kind: oval reed, width: 6 mm, thickness: 3 mm}",
    "board": "{kind: wood, width: 300 mm, thickness: 6 mm}",
    "cane": "{kind: centre cane, diameter: 3 mm}",
    "plywood": "{kind: wood, width: 24 in, thickness: 1/4 in}",
    "wood": "{kind: wood, width: 1 in, thickness: 3/8 in}",
    "seagrass": "{kind: cord, diameter: 4 mm}",
    "cord": "{kind: cord, diameter: 3 mm}",
    "string": "{kind: cord, diameter: 2 mm}",
    "silk": "{kind: other, width: 24 in, thickness: 0.3 mm}",
    "cotton": "{kind: other, width: 36 in, thickness: 0.3 mm}",
    "cretonne": "{kind: other, width: 30 in, thickness: 0.4 mm}",
    "linen": "{kind: other, width: 36 in, thickness: 0.3 mm}",
    "leather": "{kind: other, width: 1/2 in, thickness: 2 mm}",
}
_UNKNOWN_STOCK = Stock("unknown", "other", 1.0, 1.0)
_MASS_PER_LENGTH = Dimension(-1, 1)
_LENGTH_PER_MASS = Dimension(1, -1)


def read_materials(
    view: View | None, house: Mapping[str, Stock], packs: Mapping[str, tuple[Pack, ...]]
) -> dict[str, Material]:
    """Every material under its key, each with a letter of its own.

    `packs` are how stocks are sold, by the stock's own name; they stand in place of those the stock brings.
    """
    materials = {key: _material(key, item, house, packs) for key, item in view.entries()} if view is not None else {}
    return _lettered(materials, view) if view is not None else materials


def read_stock(view: View, name: str) -> Stock:
    """A stock described in the file itself."""
    kind = view.text("kind", "other")
    width, thickness = _section(view)
    source = view.text("source")
    basis = _basis_of(source)
    mass = _mass_per_metre(view)
    length_class = view.length("length_class")
    # Willow soaks by its length, unless the maker says otherwise.
    soaking = rod_soak(name, length_class) if kind == "willow" and length_class and not view.has("soak") else None
    return read(
        Stock,
        view,
        {},
        name=name or kind,
        width_mm=width,
        thickness_mm=thickness,
        grams_per_metre=mass,
        soak=soaking.words if soaking else view.text("soak"),
        soak_basis=soaking.source.basis if soaking else Basis.GIVEN,
        soak_source=soaking.source.cite if soaking else "",
        basis=basis,
        mass_basis=basis if mass is not None else Basis.ESTIMATED,
        mass_source=source if mass is not None else "",
    )


def _basis_of(source: str) -> Basis:
    """What figures rest on, by the first words of the source the designer names for them."""
    said = source.casefold()
    named = next((basis for words, basis in _SOURCES.items() if said.startswith(words)), Basis.PUBLISHED)
    return named if said else Basis.GIVEN


def _material(key: str, view: View, house: Mapping[str, Stock], packs: Mapping[str, tuple[Pack, ...]]) -> Material:
    stock = _stock(key, view, house)
    if stock.name in packs:
        stock = replace(stock, packs=packs[stock.name], pack_basis=Basis.GIVEN, pack_source="")
    dye = view.text("dye") or None
    colour = view.text("colour") or (drawn_colour(dye) if dye else "")
    if dye and not colour and "colour" not in view.data:
        view.note(
            "colour-missing",
            told("{key} is dyed {dye} but has no colour to draw it in.", key=key, dye=dye),
            told('add colour: "#rrggbb"'),
            severity=Severity.ADVICE,
            at_key=True,
        )
    return read(
        Material,
        view,
        {},
        key=key,
        stock=stock,
        title=view.text("title") or (f"{stock_words(stock)}, {dye}" if dye else stock_words(stock)),
        dye=dye,
        colour=colour or NATURAL,
        bought_natural=view.text("bought") == "natural",
    )


def _stock(key: str, view: View, house: Mapping[str, Stock]) -> Stock:
    inner = view.get("stock")
    if inner is None:
        return _UNKNOWN_STOCK
    if isinstance(inner.data, dict):
        return read_stock(inner, view.text("title") or key.replace("_", " "))
    name = inner.own_text()
    found = house.get(name) or find_stock(name)
    if found is None:
        _unknown_stock(inner, name, house)
        return _UNKNOWN_STOCK
    return found


def _unknown_stock(inner: View, name: str, house: Mapping[str, Stock]) -> None:
    """A number its scale does not have is told with the whole scale; any other name with those that come near."""
    scale = scale_of(name)
    if scale:
        numbers = [stock.number for stock in scale]
        inner.note(
            "unknown-stock",
            told(
                "“{name}” is not among the sizes known of this scale: {numbers}.", name=name, numbers=or_list(numbers)
            ),
            told("measure it and describe it here: {example}", example=_example(name)),
        )
        return
    own = [stock for stock in house if stock.casefold() == name.casefold()]
    near = list(dict.fromkeys([*own, *(nearest_stocks(name) if inner.reading.may_ask() else ())]))
    inner.note(
        "unknown-stock",
        told("There is no stock called “{name}”.", name=name),
        *(told("write {other}", other=other) for other in near[:3]),
        told("describe it here: {example}", example=_example(name)),
    )


def _example(name: str) -> str:
    """A stock described, of the kind its name speaks of."""
    kind = next((kind for kind in _EXAMPLES if kind in name.casefold()), "")
    return _EXAMPLES.get(kind, "{kind: round reed, diameter: 3 mm}")


def _section(view: View) -> tuple[float, float]:
    """Width and thickness in mm of whatever way the designer gave them."""
    diameter, width, thickness = view.length("diameter"), view.length("width"), view.length("thickness")
    butt, tip = view.length("butt"), view.length("tip")
    if diameter is not None:
        return diameter, diameter
    if width is not None:
        return width, thickness if thickness is not None else width
    if butt is not None and tip is not None:
        return (butt + tip) / 2, (butt + tip) / 2
    view.note(
        "missing-key",
        told("The stock has no measure across."),
        told("add diameter:, or width: and thickness:, or butt: and tip:"),
        at_key=True,
    )
    return 1.0, 1.0


def _mass_per_metre(view: View) -> float | None:
    inner = view.get("mass_per_length")
    found = inner.any_quantity() if inner is not None else None
    if inner is None or found is None:
        return None
    if found.value <= 0:
        inner.note("number-out-of-range", told("The mass for a length must be more than nothing."))
    elif found.dimension == _MASS_PER_LENGTH:
        return found.value * 1000
    elif found.dimension == _LENGTH_PER_MASS:
        return 1000 / found.value
    else:
        inner.note(
            "wrong-dimension",
            told("mass per length is {words} here.", words=word(found.dimension.words)),
            told("write 3.2 g per m, or 500 ft per lb"),
        )
    return None


_STRANDS = "ABCD"


def _lettered(materials: dict[str, Material], view: View) -> dict[str, Material]:
    """Letters for the materials that have none: from the key, else the next free one; letters given twice are told.

    A to D come last, because drawings call strands of one material by them.
    """
    taken: dict[str, str] = {}
    for key, material in materials.items():
        if material.letter in taken:
            spot = view.get(key)
            given = spot.get("letter") if spot is not None else None
            if given is not None:
                given.note(
                    "letter-twice",
                    told(
                        "{key} and {taken} both have the letter {letter}.",
                        key=key,
                        taken=taken[material.letter],
                        letter=material.letter,
                    ),
                    told("give one of them another letter"),
                )
        elif material.letter:
            taken[material.letter] = key
    for key, material in materials.items():
        if not material.letter:
            own = [char.upper() for char in key if char.isalpha()]
            wanted = sorted((*own, *ascii_uppercase), key=lambda char: char in _STRANDS)  # a stable sort
            letter = next((char for char in wanted if char not in taken), "?")
            taken[letter] = key
            materials[key] = replace(material, letter=letter)
    return materials
