"""The workshop file: what it lends a pattern, where its notes stand, and what it may not reach."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.language.fragments import notes_of_file, whole

from slath.language import check_workshop, read_pattern
from slath.notes import PatternFaultError, Severity
from slath.units import Basis

SHOP = """slath: 1
name: Otter Weir
stocks:
  weir willow: {kind: willow, butt: 8 mm, tip: 4 mm, length_class: 6 ft}
settings: {join_lap: 2 1/2 in, stake_depth: 1 in}
gauge: [{weave: randing, strand: us round reed 4, rounds: 12, over: 1 in}]
packs: {us round reed 4: [{title: 1 lb coil, mass: 1 lb}]}
steps: [{stage: border, care: [Wet the stakes.]}, {stage: base, care: [Flat.]}]
tools: [a tin bath]
"""


def _write(folder: Path, pattern: str, shop: str = SHOP) -> Path:
    (folder / "shop.yaml").write_text(shop, "utf-8")
    file = folder / "trial.yaml"
    file.write_text(whole(pattern), "utf-8")
    return file


def test_a_workshop_lends_its_things(tmp_path: Path) -> None:
    """Stocks, settings, gauge, packs, wording and tools of the workshop serve the pattern; its own words come first."""
    pattern = read_pattern(
        _write(
            tmp_path,
            "workshop_file: shop.yaml\nmaterials: {sticks: {stock: weir willow}, stakes: {stock: us round reed 5}}\n"
            "settings: {stake_depth: 2 in}\nsteps: [{stage: base, care: [Mine.]}]\ntools: [a knife]\n",
        )
    )
    sized = pattern.sizes[0]
    assert pattern.workshop == "Otter Weir"
    assert sized.materials["sticks"].stock.length_class_mm == 1828.8
    assert (sized.settings["join_lap"].value, sized.settings["join_lap"].basis) == (63.5, Basis.GIVEN)
    assert sized.settings["stake_depth"].value == 50.8
    assert sized.gauge[0].rounds == 12
    assert list(pattern.packs) == ["us round reed 4"]
    assert [(stage.stage, stage.care) for stage in pattern.stages] == [
        ("base", ("Mine.",)),
        ("border", ("Wet the stakes.",)),
    ]
    assert pattern.tools == ("a tin bath", "a knife")


def test_places_in_the_workshop_are_its_own(tmp_path: Path) -> None:
    """A value from the workshop file has its place there, not in the pattern."""
    pattern = read_pattern(_write(tmp_path, "workshop_file: shop.yaml"))
    place = pattern.place(pattern.sizes[0].settings["join_lap"].path)
    assert (place.file, place.line) == (str(tmp_path / "shop.yaml"), 5)


def test_a_fault_of_the_workshop_is_told_in_its_file(tmp_path: Path) -> None:
    """A slip in the workshop file is told with that file's name and line."""
    file = _write(tmp_path, "workshop_file: shop.yaml", SHOP.replace("join_lap", "join_lapp").replace("tools", "tolls"))
    with pytest.raises(PatternFaultError) as caught:
        read_pattern(file)
    told = [(note.code, note.place.file, note.place.line) for note in caught.value.notes]
    assert told == [
        ("unknown-setting", str(tmp_path / "shop.yaml"), 5),
        ("unknown-key", str(tmp_path / "shop.yaml"), 9),
    ]


@pytest.mark.parametrize(
    "name", ["../shop.yaml", "/etc/passwd", "inner/../../shop.yaml", "..\\shop.yaml", "C:shop.yaml", "link.yaml"]
)
def test_nothing_outside_the_folder_is_read_unasked(name: str, tmp_path: Path) -> None:
    """A path that leads out of the pattern's folder, even by a link, is refused before it is opened."""
    (tmp_path / "shop.yaml").write_text(SHOP, "utf-8")
    folder = tmp_path / "patterns"
    folder.mkdir()
    (folder / "link.yaml").symlink_to(tmp_path / "shop.yaml")
    file = folder / "trial.yaml"
    file.write_text(whole(f"workshop_file: '{name}'"), "utf-8")
    assert [(note.code, note.severity) for note in notes_of_file(file)] == [("outside-folder", Severity.ERROR)]


def test_a_workshop_given_by_hand_may_stand_anywhere(tmp_path: Path) -> None:
    """A workshop file given on the command line is read wherever it stands, in place of the one named."""
    (tmp_path / "elsewhere.yaml").write_text(SHOP, "utf-8")
    folder = tmp_path / "patterns"
    folder.mkdir()
    file = folder / "trial.yaml"
    file.write_text(whole("workshop_file: not-there.yaml"), "utf-8")
    assert read_pattern(file, workshop=tmp_path / "elsewhere.yaml").workshop == "Otter Weir"


COILS = "packs: {US Round Reed 4: [{title: half-pound coil, mass: 8 oz, price: 7.20, currency: USD}]}\n"


@pytest.mark.parametrize(("pattern", "shop", "sold"), [
    (COILS, "slath: 1\nname: Otter Weir\n", "half-pound coil"),
    ("", SHOP, "1 lb coil"),
    (COILS, SHOP, "half-pound coil"),
])  # fmt: skip
def test_packs_stand_for_those_of_the_stock(tmp_path: Path, pattern: str, shop: str, sold: str) -> None:
    """How a stock is sold, said in the pattern or else in its workshop, is what its material is bought in, however its
    name is spelled.
    """
    sized = read_pattern(_write(tmp_path, f"workshop_file: shop.yaml\n{pattern}", shop)).sizes[0]
    stock = sized.materials["plain"].stock
    assert [pack.title for pack in stock.packs] == [sold]
    assert (stock.pack_basis, sized.materials["rust"].stock.packs) == (Basis.GIVEN, stock.packs)


def test_packs_of_a_house_stock(tmp_path: Path) -> None:
    """A stock the workshop describes may be given its packs by name as well."""
    shop = SHOP.replace("packs: {", "packs: {weir willow: [{title: bolt, pieces: 100}], ")
    file = _write(
        tmp_path,
        "workshop_file: shop.yaml\nmaterials: {sticks: {stock: weir willow}, stakes: {stock: us round reed 5}}\n",
        shop,
    )
    assert read_pattern(file).sizes[0].materials["sticks"].stock.packs[0].title == "bolt"


def test_workshop_file_by_itself(tmp_path: Path) -> None:
    """A workshop file is held to what a workshop file may say, each fault at its place; a pattern is left to its own."""
    (tmp_path / "shop.yaml").write_text(SHOP, "utf-8")
    assert check_workshop(tmp_path / "shop.yaml") == ()
    wrong = SHOP.replace("join_lap", "join_lapp").replace("weave: randing", "weave: rnding")
    (tmp_path / "shop.yaml").write_text(f"{wrong}extra: 1\n", "utf-8")
    notes = check_workshop(tmp_path / "shop.yaml")
    assert notes is not None
    assert [(note.place.line, note.code) for note in notes] == [
        (5, "unknown-setting"),
        (6, "unknown-weave"),
        (10, "unknown-key"),
    ]
    (tmp_path / "trial.yaml").write_text(whole(""), "utf-8")
    assert check_workshop(tmp_path / "trial.yaml") is None
