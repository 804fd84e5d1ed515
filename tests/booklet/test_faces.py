"""The bundled faces: complete, legally shipped, and measured as the fonts themselves say."""

from __future__ import annotations

import re
from importlib import resources
from pathlib import Path

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from slath.booklet.faces import MissingGlyphError, face, has_fractions
from slath.booklet.reading import VULGAR
from slath.fonts.letters import LETTERS, lacking
from slath.output.glyph_outlines import outline

FOLDER = Path(str(resources.files("slath.fonts")))
FILES = sorted(FOLDER.glob("*.ttf"))
TEXT_FACES = [path.stem for path in FILES if not path.stem.endswith("-fractions")]
NEEDED = "×–—°′″→←↑↓✓☐“”‘’…•·−±½¼¾éèüöäñçøåßæÉÖ&§€£"


def test_two_families_with_their_licences_are_bundled() -> None:
    """Both families are there, and each licence text is the SIL Open Font License 1.1."""
    assert {path.stem.partition("-")[0] for path in FILES} == {"serif", "sans"}
    for family in ("serif", "sans"):
        licence = (FOLDER / f"OFL-{family}.txt").read_text(encoding="utf-8")
        assert "SIL OPEN FONT LICENSE Version 1.1" in licence


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_modified_face_does_not_bear_the_reserved_name(path: Path) -> None:
    """SIL OFL 1.1, condition 3: a modified version may not use the reserved font name; ours reserve "Source"."""
    names = TTFont(path)["name"]
    for identity in (1, 3, 4, 6, 16):
        assert "Source" not in (names.getDebugName(identity) or "")
    assert names.getDebugName(0), "the copyright notice stays"


def test_every_face_has_its_own_postscript_name() -> None:
    """Two files with one PostScript name would be taken for one font by whoever embeds them."""
    names = [TTFont(path)["name"].getDebugName(6) for path in FILES]
    assert len(set(names)) == len(names) > 10


@pytest.mark.parametrize("name", TEXT_FACES)
def test_every_character_booklets_need_is_there(name: str) -> None:
    """Printable ASCII and the signs of the trade have a glyph in every text face."""
    advances = face(name).advances
    missing = [c for c in NEEDED + "".join(map(chr, range(0x20, 0x7F))) if ord(c) not in advances]
    assert missing == []


@pytest.mark.parametrize("name", [n for n in TEXT_FACES if has_fractions(n)])
def test_any_fraction_can_be_set(name: str) -> None:
    """Each text face but small capitals has a face of fraction digits with all ten digits, all of one width."""
    digits = face(f"{name}-fractions").advances
    widths = {round(digits[ord(c)], 2) for c in "0123456789"}
    assert max(widths) - min(widths) <= 0.03
    assert all(numerator and denominator for numerator, denominator in VULGAR.values())


@pytest.mark.parametrize("name", [n for n in TEXT_FACES if n != "serif-caps"])
def test_figures_are_tabular(name: str) -> None:
    """All digits of a text face have the same width, so that columns of numbers line up."""
    widths = [face(name).advances[ord(c)] for c in "0123456789"]
    assert max(widths) - min(widths) < 0.002


@pytest.mark.parametrize("name", TEXT_FACES)
def test_kerning_is_read_as_fonttools_reads_it(name: str) -> None:
    """The pairs read from the ``kern`` table are those fontTools (reference library) reads."""
    font = TTFont(FOLDER / f"{name}.ttf")
    table = font["kern"].kernTables[0].kernTable
    cmap = font.getBestCmap()
    ours = face(name).kerns
    assert len(ours) > 500
    for pair, value in ours.items():
        assert table[cmap[ord(pair[0])], cmap[ord(pair[1])]] == round(value * 1000)


def test_width_adds_advances_and_kerning() -> None:
    """The pair "AV" is narrower than its two letters, by the pair's kerning."""
    own = face("serif")
    assert own.kerns["AV"] < 0
    assert own.width("AV") == pytest.approx(own.advances[65] + own.advances[86] + own.kerns["AV"])


def test_a_missing_character_is_named() -> None:
    """Words the faces cannot show are refused, with the character and its code."""
    with pytest.raises(MissingGlyphError, match=r"U\+4E2D"):
        face("serif").width("中")


@pytest.mark.parametrize("character", ["A", "g", "é", "8", "%", "i"])
def test_outlines_are_those_of_the_font(character: str) -> None:
    """Every outline has the contours and end points fontTools (reference library) finds, composites included."""
    font = TTFont(FOLDER / "sans.ttf")
    glyphs = font.getGlyphSet()
    pen = DecomposingRecordingPen(glyphs)
    glyphs[font.getBestCmap()[ord(character)]].draw(pen)
    moves = [arguments for operator, arguments in pen.value if operator == "moveTo"]
    path = outline("sans", character)
    assert path.count("h") == len(moves) > 0
    xs = [float(x) for x in re.findall(r"(-?[\d.]+) -?[\d.]+ (?:[mlc])", path)]
    points = [point for _, arguments in pen.value for point in arguments if point is not None]
    assert min(xs) >= min(x for x, _ in points) - 1
    assert max(xs) <= max(x for x, _ in points) + 1


def test_letters_told_while_a_pattern_is_read_are_those_of_every_face() -> None:
    """The table of letters is what all faces of running words have: no letter more, and none less."""
    faces = [face(name) for name in TEXT_FACES]
    assert len(faces) > 8
    everywhere = set.intersection(*(set(one.advances) for one in faces)) - {0xFFFF}
    assert {ord(letter) for letter in LETTERS} == everywhere
    assert lacking("Grüße ½ ⅕\n") == ()
    assert lacking("Ω and Ω or ☺") == ("Ω", "☺")
