"""Cut the bundled faces from the variable originals. Run by hand, never at run time; its output is in `compiler/slath/fonts`.

    pip install fonttools fontpkg-source-serif-4 fontpkg-source-sans-3
    python .ci/derive_fonts.py

Each face is one instance of a variable font, kept to the characters booklets need, with three changes that spare the
booklet all shaping: kerning is written as a plain ``kern`` table; small capitals stand at the places of the small
letters; and fraction digits become faces of their own in which ``0`` to ``9`` show the denominators of the font and
are raised to show its numerators. Text keeps its own characters, so what is copied out of a PDF reads right.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib import resources
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables._k_e_r_n import KernTable_format_0
from fontTools.varLib.instancer import instantiateVariableFont

HERE = Path(__file__).resolve().parent.parent / "compiler" / "slath" / "fonts"
KERNED = (
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"
    ".,:;!?-–—‘’“”()[]/ &"  # what stands next to letters in running text
)
KEPT = "".join(
    [
        *(chr(code) for code in range(0x20, 0x7F)),
        *(chr(code) for code in range(0xA0, 0x180)),  # Latin-1 and Latin Extended-A: every western European name
        "–—‘’‚“”„†‡•…‰′″‹›⁄€№™←↑→↓≈≤≥−×÷°±½¼¾⅓⅔⅛⅜⅝⅞✓☐☑\u2002\u2003\u2009\u200a\u202f\u00ad",
    ]
)
FRACTION_CHARACTERS = "0123456789⁄ "
SMALLEST_KERN = 4  # thousandths of an em; less than this is not seen in print


@dataclass(frozen=True)
class Face:
    """One file to write, and where in the design space of the original it lies."""

    name: str
    family: str
    style: str
    package: str
    source: str
    axes: dict[str, float]
    feature: str = ""


SERIF = ("Withy Serif", "fontpkg_source_serif_4", "SourceSerif4[opsz,wght].ttf")
SERIF_ITALIC = ("Withy Serif", "fontpkg_source_serif_4", "SourceSerif4-Italic[opsz,wght].ttf")
SANS = ("Withy Sans", "fontpkg_source_sans_3", "SourceSans3[wght].ttf")
SANS_ITALIC = ("Withy Sans", "fontpkg_source_sans_3", "SourceSans3-Italic[wght].ttf")


def _face(name: str, style: str, origin: tuple[str, str, str], feature: str = "", **axes: float) -> Face:
    family, package, source = origin
    return Face(name, family, style, package, source, axes, feature)


FACES = (
    _face("serif", "Regular", SERIF, opsz=11, wght=400),
    _face("serif-italic", "Italic", SERIF_ITALIC, opsz=11, wght=400),
    _face("serif-bold", "Bold", SERIF, opsz=11, wght=640),
    _face("serif-bold-italic", "Bold Italic", SERIF_ITALIC, opsz=11, wght=640),
    _face("serif-display", "Display", SERIF, opsz=40, wght=400),
    _face("serif-caps", "Small Caps", SERIF, "smcp", opsz=11, wght=430),
    _face("sans", "Regular", SANS, wght=400),
    _face("sans-italic", "Italic", SANS_ITALIC, wght=400),
    _face("sans-bold", "Bold", SANS, wght=650),
    _face("sans-bold-italic", "Bold Italic", SANS_ITALIC, wght=650),
)


def single_substitutions(font: TTFont, tag: str) -> dict[str, str]:
    """The one-for-one glyph exchanges of an OpenType feature."""
    table = font["GSUB"].table
    lookups = {
        i
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == tag
        for i in record.Feature.LookupListIndex
    }
    exchanges: dict[str, str] = {}
    for index in sorted(lookups):
        for held in table.LookupList.Lookup[index].SubTable:
            subtable = held.ExtSubTable if held.LookupType == 7 else held
            if subtable.LookupType == 1:
                exchanges.update(subtable.mapping)
    return exchanges


def kerning_pairs(font: TTFont, glyphs: list[str]) -> dict[tuple[str, str], int]:
    """Horizontal kerning between ``glyphs`` in font units, read from the pair lookups of the ``kern`` feature."""
    table = font["GPOS"].table
    lookups = {
        i
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "kern"
        for i in record.Feature.LookupListIndex
    }
    subtables = []
    for index in sorted(lookups):
        for held in table.LookupList.Lookup[index].SubTable:
            subtable = held.ExtSubTable if held.LookupType == 9 else held
            if subtable.LookupType == 2:
                subtables.append(subtable)
    pairs: dict[tuple[str, str], int] = {}
    for left in glyphs:
        chain = [subtable for subtable in subtables if left in subtable.Coverage.glyphs]
        for right in glyphs:
            value = next((v for v in (_pair_value(subtable, left, right) for subtable in chain) if v is not None), 0)
            if abs(value) >= SMALLEST_KERN:
                pairs[left, right] = value
    return pairs


def _pair_value(subtable: object, left: str, right: str) -> int | None:
    """The kerning one subtable gives a pair, or None if it leaves the pair to the next subtable."""
    if subtable.Format == 1:  # type: ignore[attr-defined]
        records = subtable.PairSet[subtable.Coverage.glyphs.index(left)].PairValueRecord  # type: ignore[attr-defined]
        found = next((record for record in records if record.SecondGlyph == right), None)
        return None if found is None else getattr(found.Value1, "XAdvance", 0)
    first = subtable.ClassDef1.classDefs.get(left, 0)  # type: ignore[attr-defined]
    second = subtable.ClassDef2.classDefs.get(right, 0)  # type: ignore[attr-defined]
    value = subtable.Class1Record[first].Class2Record[second].Value1  # type: ignore[attr-defined]
    return getattr(value, "XAdvance", 0) if value else 0


def rename(font: TTFont, family: str, style: str) -> None:
    """Give the face its own names; copyright and licence records stay as they are."""
    full = f"{family} {style}"
    own = {1: full, 2: "Regular", 3: f"{full}; slath", 4: full, 6: full.replace(" ", ""), 16: family, 17: style}
    table = font["name"]
    table.names = [record for record in table.names if record.nameID in (0, 8, 9, 11, 13, 14)]
    for identity, text in own.items():
        table.setName(text, identity, 3, 1, 0x409)


def keep(font: TTFont, characters: str) -> None:
    """Drop every glyph but those of ``characters``, and every layout table."""
    options = Options()
    options.layout_features = []
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "STAT", "DSIG", "MVAR", "HVAR", "avar", "meta", "gasp", "BASE"]
    options.name_IDs = ["*"]
    options.hinting = False
    options.legacy_kern = True
    options.glyph_names = False
    options.notdef_outline = True
    subsetter = Subsetter(options)
    subsetter.populate(text=characters)
    subsetter.subset(font)


def with_kerning(font: TTFont) -> None:
    """Write the kerning of running text as a version 0 ``kern`` table."""
    cmap = font.getBestCmap()
    glyphs = sorted({cmap[ord(c)] for c in KERNED if ord(c) in cmap})
    subtable = KernTable_format_0()
    subtable.coverage, subtable.kernTable, subtable.apple = 1, kerning_pairs(font, glyphs), False
    table = newTable("kern")
    table.version, table.kernTables = 0, [subtable]
    font["kern"] = table


def show(font: TTFont, exchanges: dict[str, str]) -> None:
    """Let the characters of each glyph show the glyph it is exchanged for."""
    for table in font["cmap"].tables:
        if table.isUnicode():
            for code, glyph in list(table.cmap.items()):
                table.cmap[code] = exchanges.get(glyph, glyph)


def instance(face: Face) -> TTFont:
    """The static font of a face, before its characters are chosen."""
    original = TTFont(str(resources.files(face.package) / "files" / face.source), recalcTimestamp=False)
    return instantiateVariableFont(original, face.axes)


def write(face: Face) -> None:
    """Write the face and its fraction face."""
    font = instance(face)
    if face.feature:
        show(font, single_substitutions(font, face.feature))
    else:
        fractions = instance(face)
        numerators, denominators = (single_substitutions(fractions, tag) for tag in ("numr", "dnom"))
        three = fractions.getBestCmap()[ord("3")]
        tops = [fractions["glyf"][glyph[three]].yMax for glyph in (numerators, denominators)]
        show(fractions, denominators)
        keep(fractions, FRACTION_CHARACTERS)
        rename(fractions, face.family, f"{face.style} Fractions")
        fractions.save(HERE / f"{face.name}-fractions.ttf")
        print(f"{face.name}: numerators stand {(tops[0] - tops[1]) / 1000:.3f} em above denominators")
    if "tnum" in {record.FeatureTag for record in font["GSUB"].table.FeatureList.FeatureRecord}:
        show(font, single_substitutions(font, "tnum"))
    with_kerning(font)
    keep(font, KEPT)
    rename(font, face.family, face.style)
    font.save(HERE / f"{face.name}.ttf")


if __name__ == "__main__":
    for each in FACES:
        write(each)
