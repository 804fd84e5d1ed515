"""What every stage is written from: one basket, its list, and the voice it is told in."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from msgspec import Struct

from slath.basket.model import Basket, WorkedHandle, WovenBand
from slath.messages import Length
from slath.plan.acts import Act, Plan
from slath.plan.planner import handles_as_counted, plan_of
from slath.quantities.results import BandRow, Piece, Quantities
from slath.wording.speech import Voice
from slath.wording.told import Phase, Telling, ToldStage, ToldStep
from slath.wording.weaving import Weaving, weaving


class Work(Struct, frozen=True, dict=True):
    """One size ready to be told."""

    basket: Basket
    quantities: Quantities
    voice: Voice
    of_lid: bool = False  # a lid, told as a small basket of its own

    @cached_property
    def plan(self) -> Plan:
        """The acts of the work, which words are told from."""
        return plan_of(self.basket)

    @cached_property
    def handles(self) -> tuple[WorkedHandle, ...]:
        """The handles, their feet told in the numbers that hold when they are set."""
        return handles_as_counted(self.basket)

    def acts(self, key: str) -> tuple[Act, ...]:
        """The acts of a step of the plan; none where it has no such step."""
        return tuple(act for stage in self.plan.stages for step in stage.steps if step.key == key for act in step.acts)

    def weaving(self, band: WovenBand) -> Weaving:
        """What the acts say of a band."""
        return weaving(self.band_acts(band), self.plan.acts)

    def band_acts(self, band: WovenBand, further: int = 0) -> tuple[Act, ...]:
        """The acts of a band, or of the one so many further on."""
        basket = self.basket
        for name, bands in (("base band", basket.base.bands), ("band", basket.bands), ("foot band", basket.foot_bands)):
            for place, found in enumerate(bands, start=1):
                if found is band:
                    return self.acts(f"{name} {place + further}")
        return ()

    def band_row(self, band: WovenBand) -> BandRow:
        """The measures of a band; KeyError if the list does not hold it."""
        for row in self.quantities.bands:
            if (row.part, row.index, row.name) == (band.part, band.index, band.name):
                return row
        raise KeyError(band.name)

    def pieces(self, *parts: str) -> tuple[Piece, ...]:
        """Pieces whose part is one of `parts`, in the order of the list."""
        return tuple(piece for piece in self.quantities.pieces if piece.part in parts)

    def stock_kind(self, key: str) -> str:
        """The kind of stock a material is."""
        return self.basket.pattern.materials[key].stock.kind

    def length_setting(self, name: str) -> Length:
        """A length setting."""
        return Length(self.basket.pattern.settings.mm(name))

    def setting(self, name: str) -> str:
        """A length setting as it is printed."""
        return self.voice.length(self.basket.pattern.settings.mm(name))

    def stage(self, key: str, title: Telling | None, lead: Telling | None, steps: Sequence[ToldStep]) -> ToldStage:
        """A stage from sentences."""
        return ToldStage(key, title or "", lead or "", tuple(steps))

    def step(
        self,
        key: str,
        title: Telling | None,
        actions: Sequence[Telling | None],
        *,
        notes: Sequence[Telling | None] = (),
        stops: Sequence[Telling | None] = (),
        counts: Sequence[Telling | None] = (),
        figures: tuple[str, ...] = (),
        does: tuple[str, ...] = (),
        materials: tuple[str, ...] = (),
        rounds: int = 0,
        mends: Sequence[Telling | None] = (),
        sources: Sequence[Telling | None] = (),
        shown: Sequence[Phase] = (),
    ) -> ToldStep:
        """A step from sentences; `materials` are the keys it handles. Empty sentences are left out.

        `mends` say what can have gone wrong, and what to do; `sources` what the step rests on. `shown` says from which of the `actions` on
        which figure shows what is told, and what heads those sentences.
        """
        return ToldStep(
            key=key,
            title=title or "",
            actions=_there(actions),
            notes=_there(notes),
            stops=_there(stops),
            counts=_there(counts),
            figures=figures,
            operations=frozenset(does),
            stocks=frozenset(self.stock_kind(key) for key in materials),
            rounds=rounds,
            mends=_there(mends),
            sources=_there(sources),
            shown=tuple((len(_there(actions[:place])), figure, head) for place, figure, head in shown),
        )


def _there(told: Sequence[Telling | None]) -> tuple[Telling, ...]:
    """What there is to tell, without what is empty."""
    return tuple(one for one in told if one)
