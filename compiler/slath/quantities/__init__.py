"""What a constructed basket takes: pieces, strands, purchase, mass and cost, each number with what it rests on."""

from slath.quantities.learning import taught
from slath.quantities.measuring import quantities_of

__all__ = ["quantities_of", "taught"]
