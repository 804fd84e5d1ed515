"""What every stage is written from: one basket, its list, and the voice it is told in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from slath.booklet.blocks import CountBox
from slath.wording.told import ToldStage, ToldStep

if TYPE_CHECKING:
    from slath.basket.model import Basket, WovenBand
    from slath.booklet.blocks import Words
    from slath.quantities.results import BandRow, Piece, Quantities
    from slath.wording.speech import Voice


@dataclass(frozen=True)
class Work:
    """One size ready to be told."""

    basket: Basket
    quantities: Quantities
    voice: Voice

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

    def setting(self, name: str) -> str:
        """A length setting as it is printed."""
        return self.voice.length(self.basket.pattern.settings.mm(name))

    def stage(self, key: str, title: str, lead: str, steps: list[ToldStep]) -> ToldStage:
        """A stage from sentences."""
        return ToldStage(key, self.voice.say(title), self.voice.say(lead), tuple(steps))

    def step(
        self,
        key: str,
        title: str,
        actions: list[str],
        *,
        notes: list[str] | None = None,
        stops: list[str] | None = None,
        counts: list[str] | None = None,
        figures: tuple[str, ...] = (),
        does: tuple[str, ...] = (),
        materials: tuple[str, ...] = (),
        rounds: int = 0,
    ) -> ToldStep:
        """A step from sentences; `materials` are the keys it handles. Empty sentences are left out."""
        return ToldStep(
            key=key,
            title=self.voice.say(title),
            actions=self.said(actions),
            notes=self.said(notes or []),
            stops=tuple(CountBox(words) for words in self.said(stops or [])),
            counts=tuple(CountBox(words, "Check") for words in self.said(counts or [])),
            figures=figures,
            operations=frozenset(does),
            stocks=frozenset(self.stock_kind(key) for key in materials),
            rounds=rounds,
        )

    def said(self, sentences: list[str]) -> tuple[Words, ...]:
        """Sentences as words, without the empty ones."""
        return tuple(self.voice.say(sentence) for sentence in sentences if sentence)
