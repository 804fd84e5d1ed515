"""Stakes and bye-stakes."""

from collections.abc import Mapping

from msgspec import Struct, field

from slath.language import keys as key
from slath.language.keys import Annotated, Schema, declared
from slath.language.places import Path

_ENDS = ("lengthwise", "crosswise", "crosswise singles", "crosswise pairs", "half stick")
ENDS: Schema = {
    "minProperties": 1,
    "propertyNames": {"x-names": list(_ENDS), "pattern": f"^({'|'.join(_ENDS)}|[0-9]+)$"},
}


@declared("stakes", example="{material: stakes, per_end: 2}", one_of=("material", "in_turn"))
class Stakes(Struct, frozen=True):
    """How stakes come to the ends. `exceptions` maps named ends to stakes per end.

    Names of ends: "lengthwise", "crosswise", "crosswise singles", "crosswise pairs", "half stick", or an end's number.
    `count` fixes the total where ends do not (boards, ready-made bases). `worked_as` uprights are woven as one.
    `length_mm` is a cut length the designer fixes; it must cover what is needed. `in_turn` are materials taken one after
    another from stake 1 on; `material` is then the first of them.
    """

    path: Path
    material: Annotated[str, key.material("What they are made of: one of your materials.", needed=False)]
    per_end: Annotated[int, key.count("Stakes to each stick end; 1 unless you say.", least=0, most=12)] = 1
    exceptions: Annotated[
        Mapping[str, int],
        key.by_name(
            key.count(least=0, most=12),
            "Other numbers for some ends: lengthwise, crosswise, crosswise singles, crosswise pairs, half stick, or an end's number.",
            ENDS,
            name="except",
        ),
    ] = field(default_factory=dict)
    add: Annotated[int, key.count("Stakes added beyond these.", least=0, part="count_added")] = 0
    leave_out: Annotated[int, key.count("Stakes left out of these, spread evenly round the base.", least=0)] = 0
    add_at: Annotated[
        tuple[int, ...], key.counts("Numbers of the stick ends with one stake more.")
    ] = ()  # numbers of the ends with one more each; `add` is how many
    leave_out_at: Annotated[tuple[int, ...], key.counts("Numbers of the stick ends with one stake fewer.")] = ()
    count: Annotated[
        int | None, key.count("Stakes in all, where the ends do not settle it (boards, ready-made bases).", most=1000)
    ] = None
    depth_mm: Annotated[float | None, key.length("How deep they go into the base.", nought=True)] = None
    worked_as: Annotated[int, key.worked(name="worked")] = 1
    length_mm: Annotated[float | None, key.length("Cut length, where you fix it; it must cover what is needed.")] = None
    below_mm: Annotated[float, key.length("Left standing below a board for its foot border.", nought=True)] = (
        0.0  # left standing below a board for its foot border
    )
    holes_each: Annotated[
        int,
        key.count(
            "Holes of a board each stake goes through: 2 where it goes down one and up the next; 1 unless you say.",
            most=2,
        ),
    ] = 1  # 2 where a stake goes down one hole of a board and up the next
    in_turn: Annotated[
        tuple[str, ...],
        key.materials(
            "Materials taken one after another from the first stake on: [plain, rust] for two colours in turn.",
            part="in_turn",
        ),
    ] = ()
    doubled: Annotated[
        bool,
        key.yes(
            "yes: each length is doubled over the ring or edge of a ready made base, and its halves are two stakes."
        ),
    ] = False

    @property
    def pieces_each(self) -> int:
        """Stakes that are one length: two where it goes through two holes, or is doubled over a ring."""
        return 2 if self.doubled else self.holes_each

    @property
    def materials(self) -> tuple[str, ...]:
        """The materials the stakes are of, each once, in the order they are taken."""
        return tuple(dict.fromkeys(self.in_turn)) or (self.material,)

    def material_of(self, index: int) -> str:
        """The material of the stake set in as number `index`, counted from 0."""
        return self.in_turn[index % len(self.in_turn)] if self.in_turn else self.material


@declared("bye_stakes", example="{material: stakes, every: 2}", listed="bye-stakes", one_of=("material", "in_turn"))
class ByeStakes(Struct, frozen=True):
    """Second uprights beside stakes, not set into the base."""

    path: Path
    material: Annotated[str, key.material("What they are made of: one of your materials.", needed=False)]
    count: Annotated[
        int | None, key.count("How many; left out: one to every stake (or to every so many).", most=1000)
    ] = None
    every: Annotated[int, key.count("2: beside every second stake.", most=100)] = 1
    depth_mm: Annotated[float | None, key.length("How deep they go into the weaving.")] = None
    length_mm: Annotated[float | None, key.length("Cut length, where you fix it.")] = None
    after_band: Annotated[str, key.text("Name of the band after which they are put in.", part="name", name="after")] = (
        ""
    )
    beside: Annotated[
        tuple[int, ...], key.counts("Numbers of the stakes they stand beside, counted from the first.")
    ] = ()  # numbers of the stakes they stand beside
    in_turn: Annotated[
        tuple[str, ...], key.materials("Materials taken one after another.", part="in_turn")
    ] = ()  # materials taken one after another; `material` is then the first

    def material_of(self, index: int) -> str:
        """The material of the bye-stake set as number `index`, counted from 0."""
        return self.in_turn[index % len(self.in_turn)] if self.in_turn else self.material
