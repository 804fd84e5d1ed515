"""Figures kept from one build to the next: the same while nothing they show has changed, and drawn again when it has."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from slath.drawing.kept import KeptFigures
from slath.drawing.options import Options
from slath.drawing.scene import Scene
from slath.messages import Language, Voice
from slath.pipeline import CompiledSize, compile_pattern
from slath.trade.words import US

PATTERN = Path(__file__).parents[2] / "patterns" / "wren-pot.yaml"


def scene() -> Scene:
    """A scene like no other by identity."""
    return Scene("x", "x", "x", 1.0, 1.0, ())


def taken(kept: KeptFigures, size: CompiledSize, options: Options, name: str = "side") -> Scene:
    """The figure of a size from among those kept."""
    return kept.scene(name, size.basket, size.quantities, options, scene)


def test_an_unchanged_basket_keeps_its_figures() -> None:
    """A pattern read again without change of basket or list gives the scene drawn before."""
    one, two = (compile_pattern(PATTERN, sizes=["wren"]).sizes[0] for _ in range(2))
    assert one.basket is not two.basket
    kept = KeptFigures()
    before = taken(kept, one, Options())
    kept.begin()
    assert taken(kept, two, Options()) is before


def test_what_a_figure_shows_is_heeded() -> None:
    """Another size, name, unit, hand, vocabulary, language or width is another figure."""
    wren, robin = compile_pattern(PATTERN, sizes=["wren", "robin"]).sizes
    kept, usual = KeptFigures(), Options()
    scenes = [
        taken(kept, wren, usual),
        taken(kept, robin, usual),
        taken(kept, wren, usual, name="profile"),
        taken(kept, wren, replace(usual, voice=Voice({}, first="mm"))),
        taken(kept, wren, replace(usual, mirrored=True)),
        taken(kept, wren, replace(usual, voice=Voice({}, US))),
        taken(kept, wren, replace(usual, voice=Voice({}, language=Language("de")))),
        taken(kept, wren, replace(usual, width_mm=80.0)),
    ]
    assert len({id(found) for found in scenes}) == len(scenes)
    assert taken(kept, wren, usual) is scenes[0]


def test_what_is_not_used_is_let_go() -> None:
    """A figure that one whole build did not use is drawn anew in the next."""
    size = compile_pattern(PATTERN, sizes=["wren"]).sizes[0]
    kept = KeptFigures()
    before = taken(kept, size, Options())
    kept.begin()
    kept.begin()
    assert taken(kept, size, Options()) is not before
