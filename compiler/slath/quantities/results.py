"""The list: what everything printed must agree with. Built once for each size; nothing printed is computed twice."""

from __future__ import annotations

from msgspec import Struct

from slath.language.pattern import Gauge
from slath.language.places import Path
from slath.messages import Message
from slath.messages.told import Saying, saying
from slath.units import Amount, Unit


class Piece(Struct, frozen=True):
    """Pieces of one part and length to cut. `cut_mm` is rounded up to the maker's step from the sum of `parts`.

    `part` is a trade word ("lengthwise sticks", "stakes", "bow"); `count` are needed, `spare` are cut besides.
    `given_mm` is the designer's own cut length where the pattern fixes one. `mass_g` is what one weighs where its length
    does not tell it: a board. `whole` are rods left as they grew, which only must be as long as that: stakes of willow. `offcut`: of what is cut off those, so that nothing is bought for it.
    `lengths`: how many of them are wound on one after another where one would be longer than its material comes.
    """

    part: str
    material: str
    count: Amount
    spare: int
    needed_mm: Amount
    cut_mm: Amount
    parts: tuple[Amount, ...]
    path: Path
    given_mm: float | None = None
    mass_g: Amount | None = None
    whole: bool = False
    offcut: bool = False
    of: str = ""  # "lid", or the name of the part made by itself, that it is a piece of
    lengths: int = 1


class StrandRun(Struct, frozen=True):
    """Weaving material of one colour in one band, or in all rounds of one arrow or chain (`index` is then the first's).

    `rods` says how many of the band's strands are of this material. `length_mm` is what is woven, the ends each strand
    starts and finishes with, and the laps of its joins; `spare_mm` comes on top. `pieces` of `piece_mm` are prepared.
    """

    band: str
    part: str
    index: int
    material: str
    rods: int
    rounds: int
    woven_mm: Amount
    ends_mm: Amount
    joins: Amount
    laps_mm: Amount
    pieces: Amount
    piece_mm: Amount
    length_mm: Amount
    spare_mm: Amount


class BandRow(Struct, frozen=True):
    """A band's measures: `height` standing and along the side, rounds, pitch, take-up.

    `course` is the name under which its strands are listed: its own, or that of the arrow or chain it is a part of.
    `looks` says what its colours do, seen from outside ("steps right", "steps left", "upright stripes", "alternating";
    empty where they do not tell) and `steps` by how many uprights they move in each round, positive right.
    """

    name: str
    course: str
    part: str
    index: int
    weave: str
    rounds: Amount
    pitch: Amount
    height: Amount
    along: Amount
    take_up: Amount
    asked_mm: float | None
    left_over_mm: float | None
    looks: str = ""
    steps: int | None = None


class PackCount(Struct, frozen=True):
    """So many packs of one kind."""

    title: str
    count: int
    each_mm: float | None
    each_g: float | None
    price: float | None
    currency: str


class Share(Struct, frozen=True):
    """What one material of the pattern takes of what is bought together."""

    material: str
    length_mm: Amount


class Purchase(Struct, frozen=True):
    """What to buy of one stock as it is sold, in one colour, for one basket.

    Materials that are bought as one (natural under two names, or natural that is dyed at home) share a row: `shares`
    says what each takes, `material` is the first. `length_mm` is all that is used, spare included; `buy_mm` what has to
    be bought of it once the pieces are laid into `lengths` as sold and what is in hand (`have_mm`) is taken off.
    Rods that taper are counted; `butt_mm` and `tip_mm` grade them, thick end and thin.
    """

    material: str
    shares: tuple[Share, ...]
    stock: str
    title: str
    length_mm: Amount
    have_mm: Amount | None
    lengths: Amount | None
    buy_mm: Amount
    mass_g: Amount | None
    rods: Amount | None
    packs: tuple[PackCount, ...]
    surplus_mm: Amount | None
    cost: Amount | None
    butt_mm: float | None = None
    tip_mm: float | None = None

    def amounts(self) -> tuple[Amount, ...]:
        """Every amount that is known, in printed order."""
        found = (
            self.length_mm, self.have_mm, self.lengths, self.buy_mm, self.mass_g, self.rods, self.surplus_mm, self.cost,
        )  # fmt: skip
        return tuple(amount for amount in found if amount is not None)


class CountRow(Struct, frozen=True):
    """One count with the sentence that counts ("5 through 5 is 10 sticks, 20 ends, two stakes each: 40 stakes")."""

    name: str
    amount: Amount
    said: Message

    @property
    def sentence(self) -> Saying:
        """The sentence in English, in UK words, as notes and lists print it."""
        return saying(self.said)

    @property
    def reckoned(self) -> Saying:
        """The same without its full stop and the sum it comes to, to stand in brackets."""
        return saying(self.said, until=":")


class BorderRow(Struct, frozen=True):
    """Stake needed above the weaving for a border (or below the base for a foot), in its parts.

    `given_mm` is the designer's own allowance where the pattern fixes one; stakes are then cut with that.
    """

    foot: bool
    reach: int
    needed_mm: Amount
    parts: tuple[Amount, ...]
    loose_loops: tuple[int, ...]
    thickness_mm: Amount
    given_mm: float | None = None


class Finished(Struct, frozen=True):
    """The finished basket: standing height with border, base, rim and where it is measured, mass, height with handle."""

    height: Amount
    along: Amount
    base_length: Amount
    base_width: Amount
    rim_length: Amount
    rim_width: Amount
    mass_g: Amount | None
    height_with_handle: Amount | None
    height_with_parts: Amount | None = None  # where parts stand on stems above it
    rim_measured: str = "at the stakes"  # or outside, inside, over all (a mat)


class TestRow(Struct, frozen=True):
    """One thing a test weave measures: the keys it is written under, what is predicted, and what was found, if it was.

    `key` leads from the size's entry under ``woven`` to the value: ("rounds", "spiral"). `found` is in the unit of
    `predicted`. `judged` is False for what the maker chose and only noted (the length stakes were cut to); a miss is a
    share of `share_of`, which is the predicted value unless that is a small remainder of something greater.
    """

    __test__ = False  # a record, not a class of tests

    key: tuple[str, ...]
    what: Message
    predicted: Amount
    found: float | None = None
    judged: bool = True
    share_of: float | None = None

    @property
    def difference(self) -> float:
        """Found less predicted; 0 where nothing was found."""
        return 0.0 if self.found is None else self.found - self.predicted.value

    @property
    def miss(self) -> float | None:
        """The difference as a share, positive where more was found than predicted; None where nothing can be said."""
        whole = self.predicted.value if self.share_of is None else self.share_of
        if self.found is None or not self.judged or whole <= 0:
            return None
        return self.difference / whole


class Doubt(Struct, frozen=True):
    """A figure of the test-weave form too far from what was worked out to learn from; mm or g."""

    path: Path
    what: Message
    found: float
    predicted: float
    unit: Unit = "mm"


class Lesson(Struct, frozen=True):
    """What the test weave of one size taught: `before` is what was predicted from the file without it.

    `gauges` say how high rounds came and what strand they took. `border` is what the border took of one end, `mass`
    what the basket weighed; `mass_as_woven` what the list makes of the basket as it was woven.
    """

    before: Quantities
    gauges: tuple[Gauge, ...] = ()
    border: Amount | None = None
    mass: Amount | None = None
    mass_as_woven: Amount | None = None
    doubts: tuple[Doubt, ...] = ()


class Quantities(Struct, frozen=True):
    """Everything one size takes and measures."""

    size: str
    stakes: Amount
    working: Amount
    base_spacing: Amount
    rim_spacing: Amount
    counts: tuple[CountRow, ...]
    pieces: tuple[Piece, ...]
    strands: tuple[StrandRun, ...]
    bands: tuple[BandRow, ...]
    purchase: tuple[Purchase, ...]
    border: BorderRow | None
    foot: BorderRow | None
    finished: Finished
    tested: str  # "woven 2026-03-01" or "calculated, not yet woven"
    test: tuple[TestRow, ...] = ()  # what a test weave of this size measures, and found
    doubts: tuple[Doubt, ...] = ()

    def sets_of_rods(self, part: str, index: int) -> int:
        """How many sets of rods a band takes one after the other: at least one, and one more as often as they run out."""
        runs = [run for run in self.strands if (run.part, run.index) == (part, index) and run.rods]
        return max((round(run.pieces.value / run.rods) for run in runs), default=1)

    def taken_mm(self) -> dict[str, float]:
        """Length taken of every material, spare included, by its key in the pattern."""
        return {share.material: share.length_mm.value for row in self.purchase for share in row.shares}

    def amounts(self) -> tuple[Amount, ...]:
        """Every amount in printed order, for the proof."""
        found: list[Amount] = [row.amount for row in self.counts]
        found += [self.stakes, self.working, self.base_spacing, self.rim_spacing]
        for piece in self.pieces:
            found += [piece.count, *piece.parts, piece.needed_mm, piece.cut_mm]
        for band in self.bands:
            found += [band.rounds, band.pitch, band.height, band.along, band.take_up]
        for run in self.strands:
            found += [run.woven_mm, run.ends_mm, run.joins, run.laps_mm, run.length_mm]
            found += [run.pieces, run.piece_mm, run.spare_mm]
        for row in (self.border, self.foot):
            if row:
                found += [*row.parts, row.needed_mm, row.thickness_mm]
        for bought in self.purchase:
            found += bought.amounts()
        finished = self.finished
        found += [finished.height, finished.along, finished.base_length, finished.base_width]
        found += [finished.rim_length, finished.rim_width]
        found += [
            a for a in (finished.mass_g, finished.height_with_handle, finished.height_with_parts) if a is not None
        ]
        return tuple(found)
