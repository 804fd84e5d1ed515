"""The dress of every material of a pattern, told apart by role: weavers, stakes, sticks."""

from __future__ import annotations

from msgspec import Struct, field
from msgspec.structs import replace

from slath.basket.model import Basket
from slath.drawing.paint.dress import Dress, Surface, dress, set_apart
from slath.language.pattern import Band, Material
from slath.messages import Message, message
from slath.messages.language import slug
from slath.wording.stuff import title_said

_UNDYED = "#efe4c8"  # what the language gives a material of no colour of its own
_FLAT = 0.62  # of its width: material no thicker lies flat; half round reed and oval reed lie near it
_STAKES, _STICKS, _WOOD = "#d9cdb4", "#c2a878", "#cdb98f"  # undyed material told apart by role, our own choice


class Wardrobe(Struct, frozen=True):
    """Dresses by material key; stakes and sticks are darkened where they would be lost among the weavers.

    `stakes` is the dress of the first stake; `uprights` holds each stake's own, in order, where they are of more than
    one material.
    """

    weavers: dict[str, Dress]
    stakes: Dress
    sticks: Dress
    wood: Dress
    others: dict[str, Dress] = field(default_factory=dict)
    uprights: tuple[Dress, ...] = ()

    def weaver(self, key: str) -> Dress:
        """The dress of a weaving material."""
        return self.weavers[key]

    def of(self, key: str) -> Dress:
        """The dress of any material."""
        return self.weavers.get(key) or self.others[key]

    def upright(self, index: int) -> Dress:
        """The dress of the stake at `index`, counted from 0 and on past the last to the first again."""
        return self.uprights[index % len(self.uprights)] if self.uprights else self.stakes

    @property
    def stake_looks(self) -> tuple[Dress, ...]:
        """The dresses of the stakes, each once, where there is more than one."""
        return tuple(dict.fromkeys(self.uprights))


def wardrobe(basket: Basket) -> Wardrobe:
    """The dresses of one basket. Deterministic in the order the pattern lists its materials."""
    materials = basket.pattern.materials
    used = [key for key in materials if key in _weaving_keys(basket)]
    weavers = {key: _dress(materials[key]) for key in used}
    bodies = tuple(look.tones.body for look in weavers.values()) or (_UNDYED,)
    stake = materials.get(basket.stakes[0].material) if basket.stakes else None
    stick = materials.get(basket.base.sticks[0].material) if basket.base.sticks else None
    stakes = _upright(stake, _STAKES, bodies, 7.0)
    sticks = _upright(stick, _STICKS, (*bodies, stakes.tones.body), 9.0)
    others = {key: _dress(materials[key]) for key in materials if key not in weavers}
    return Wardrobe(weavers, stakes, sticks, dress(_WOOD), others, _uprights(basket, stakes, bodies))


def _uprights(basket: Basket, first: Dress, bodies: tuple[str, ...]) -> tuple[Dress, ...]:
    """Each stake's dress where stakes are of more than one material, told apart from one another; else none."""
    materials = basket.pattern.materials
    keys = list(dict.fromkeys(stake.material for stake in basket.stakes))
    if len(keys) < 2:
        return ()
    looks: dict[str, Dress] = {}
    for key in keys:
        taken = (*bodies, *(look.tones.body for look in looks.values()))
        look = _upright(materials[key], _STAKES, taken, 7.0) if looks else first
        looks[key] = replace(look, letter=materials[key].letter)
    return tuple(looks[stake.material] for stake in basket.stakes)


def _upright(material: Material | None, undyed: str, weavers: tuple[str, ...], least: float) -> Dress:
    colour = undyed if material is None or material.colour.lower() == _UNDYED else material.colour
    marks = material.marks if material else "none"
    return dress(set_apart(colour, weavers, least), marks, name=title_said(material, whole=False) if material else None)


def _dress(material: Material) -> Dress:
    return dress(
        material.colour, material.marks, material.letter, title_said(material, whole=False), _surface(material)
    )


def _surface(material: Material) -> Surface:
    if material.stock.kind == "braid":
        return "plait"
    return "flat" if is_flat(material) else "round"


def is_flat(material: Material) -> bool:
    """Whether a strand lies flat: much wider than thick."""
    return material.thickness_mm < _FLAT * material.width_mm


def _weaving_keys(basket: Basket) -> set[str]:
    bands = [*basket.woven]
    bands += [band for one in basket.apart for band in one.woven]
    listed = {key for band in bands for rod in band.materials for key in rod}
    side = basket.pattern.side
    return listed | {key for item in (side.bands if side else ()) if isinstance(item, Band) for key in item.strands}


def described(look: Dress) -> Message:
    """A material's name, without its measures, with its marks: "rust, ringed"."""
    marked = look.marks in {"rings", "centre line", "dots"}
    marks = message(f"figure.mark-{slug(look.marks)}") if marked else None
    return message("figure.material", name=look.name, marks=marks)
