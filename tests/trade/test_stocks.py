"""The catalogue of stocks against published figures, exact conversions and plain sense."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from slath.trade import all_stocks, find_stock, nearest_stocks, scale_of, suspect_density
from slath.trade.stocks import implied_density
from slath.units import Basis

US_ROUND_MM = {  # from memory, read nowhere
    "0": 1.25, "1": 1.5, "2": 1.75, "2 1/2": 2.0, "3": 2.25, "4": 2.75, "5": 3.25, "5 1/2": 3.5, "6": 4.25, "7": 5.0,
    "8": 5.6, "9": 6.8, "10": 8.0, "12": 9.6,
}  # fmt: skip
UK_CENTRE_MM = {  # from memory, read nowhere
    "1": 1.6, "2": 1.8, "3": 2.0, "4": 2.3, "5": 2.5, "6": 2.6, "8": 3.0, "10": 3.4, "12": 3.7, "15": 5.0,
}  # fmt: skip


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("us round reed 4", "us round reed 4"),
        ("US Round Reed No. 4", "us round reed 4"),
        ("us  round-reed #4", "us round reed 4"),
        ("us round reed 2½", "us round reed 2 1/2"),
        ("us round reed 2-1/2", "us round reed 2 1/2"),
        ("us round reed 2.5", "us round reed 2 1/2"),
        ("uk center cane 8", "uk centre cane 8"),
        ('us flat reed 1/2"', "us flat reed 1/2 in"),
        ("us flat reed 0.5 inch", "us flat reed 1/2 in"),
        ("us flat reed 2/4 in", "us flat reed 1/2 in"),
        ("willow 5 feet", "willow 5 ft"),
        ("willow 5'", "willow 5 ft"),
        ("willow 150 cm", "willow 150 cm"),
        ("brown willow 1.2 m", "brown willow 120 cm"),
        ("willow, brown, 7 ft", "brown willow 7 ft"),
        ("willow white 150 cm", "white willow 150 cm"),
        ("us chair cane fine", "us chair cane fine"),
        ("round reed 3.0 mm", "round reed 3 mm"),
    ],
)
def test_a_stock_is_found_however_it_is_written(written: str, name: str) -> None:
    """Case, spaces, 'No.', kinds of fraction and spelling of units do not matter."""
    found = find_stock(written)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize("written", ["", "us round reed 99", "round reed 3/0 mm", "round reed 900 mm", "willow 40 ft"])
def test_what_is_not_sold_is_not_found(written: str) -> None:
    """A number the scale does not have gives nothing, and never an exception."""
    assert find_stock(written) is None


@given(st.text(max_size=40))
def test_no_name_breaks_the_search(written: str) -> None:
    """Any text may stand in a pattern."""
    find_stock(written)
    assert all(find_stock(name) for name in nearest_stocks(written))


@pytest.mark.parametrize(("number", "mm"), [("000", 1.0), ("00", 1.25), ("0", 1.5)])
def test_noughts_are_numbers_of_their_own(number: str, mm: float) -> None:
    """A British cane seller's table of sizes: 1 mm is 000, 1.25 mm 00, 1.5 mm 0; none of them is another's."""
    found = find_stock(f"uk centre cane {number}")
    assert found is not None
    assert (found.number, found.width_mm) == (number, mm)


def test_a_number_beyond_its_scale_belongs_to_the_scale() -> None:
    """The whole scale can be told of any number, whether it has it or not; a kind unknown has none."""
    assert [stock.number for stock in scale_of("US round reed No. 99")][::14] == ["0", "12"]
    assert scale_of("us round reed 00") == scale_of("us round reed 4")
    assert find_stock("us round reed 00") is None
    assert scale_of("rush 4") == ()
    assert all(stock in scale_of(stock.name) for stock in all_stocks() if stock.number)


def test_nearest_names_are_offered() -> None:
    """A slip of the pen leads to the stock that was meant."""
    assert nearest_stocks("us round read 4")[0] == "us round reed 4"
    assert "us round reed 4" in nearest_stocks("reed 4")
    assert "uk centre cane 8" in nearest_stocks("uk center can 8")
    assert nearest_stocks("") == ()


def test_diameters_of_both_scales() -> None:
    """The two tables of diameters (from memory); the same number is another rod in another country."""
    for table, name in ((US_ROUND_MM, "us round reed"), (UK_CENTRE_MM, "uk centre cane")):
        for number, mm in table.items():
            found = find_stock(f"{name} {number}")
            assert found is not None
            assert found.width_mm == found.thickness_mm == mm
            assert found.basis is Basis.MEMORY


def test_a_pound_of_half_inch_flat_reed_runs_185_feet() -> None:
    """A cane and reed seller's length table, 2010: 185 ft in a one-pound coil; pound and foot exact (NIST SP 811)."""
    found = find_stock("us flat reed 1/2 in")
    assert found is not None
    assert found.grams_per_metre is not None
    assert 453.59237 / found.grams_per_metre / 0.3048 == pytest.approx(185)
    assert found.mass_basis is Basis.PUBLISHED


def test_a_whole_reed_is_about_sixteen_feet() -> None:
    """Miller, in The Boy Mechanic, Book 2 (1915)."""
    found = find_stock("us round reed 4")
    assert found is not None
    assert found.usual_length_mm == pytest.approx(16 * 304.8)
    assert found.length_basis is Basis.PUBLISHED


def test_every_value_says_what_it_rests_on() -> None:
    """No size, mass, length, soaking or pack without a basis and a source."""
    for stock in all_stocks():
        for cite in (stock.source, stock.mass_source, stock.length_source, stock.soak_source, stock.pack_source):
            assert cite, stock.name
        assert stock.mass_basis >= Basis.ESTIMATED or stock.grams_per_metre is not None


def test_every_density_is_that_of_cane() -> None:
    """Between 0.40 and 0.65 g/cm³, or the row contradicts itself."""
    assert [stock.name for stock in all_stocks() if suspect_density(stock)] == []
    weighed = [stock for stock in all_stocks() if stock.kind == "round reed"]
    assert all(implied_density(stock) is not None for stock in weighed)


def test_a_row_that_contradicts_itself_is_found() -> None:
    """No. 4 at twice its feet a pound would be as light as balsa; at half, as heavy as water."""
    reed = find_stock("us round reed 4")
    assert reed is not None
    assert reed.grams_per_metre is not None
    for factor in (0.5, 2.0):
        assert suspect_density(replace(reed, grams_per_metre=reed.grams_per_metre * factor)) is not None


def test_willow_is_counted_and_tapers() -> None:
    """Willow goes by length class, has a butt and a tip, and no mass by the metre (common practice, no source)."""
    rods = [stock for stock in all_stocks() if stock.kind == "willow"]
    assert rods
    for rod in rods:
        assert rod.tapered
        assert rod.butt_mm is not None
        assert rod.tip_mm is not None
        assert rod.tip_mm < rod.width_mm < rod.butt_mm
        assert rod.grams_per_metre is None
        assert rod.length_class_mm == pytest.approx(float(rod.number) * 304.8)


def test_names_are_told_apart() -> None:
    """Every stock is found by its own name, so no two share one."""
    for stock in all_stocks():
        assert find_stock(stock.name) is stock


@pytest.mark.parametrize(
    ("metric", "feet"), [("buff willow 90 cm", 3), ("buff willow 1.5 m", 5), ("brown willow 180 cm", 6)]
)
def test_metric_rods_are_as_thick_as_their_class_and_as_long_as_they_say(metric: str, feet: int) -> None:
    """Growers sort by 30 cm where others sort by the foot (common practice, no source): one thickness, two lengths."""
    rods, class_in_feet = find_stock(metric), find_stock(f"{metric.partition(' willow')[0]} willow {feet} ft")
    assert rods is not None
    assert class_in_feet is not None
    assert (rods.butt_mm, rods.tip_mm) == (class_in_feet.butt_mm, class_in_feet.tip_mm)
    assert rods.length_class_mm == 300.0 * feet
    assert class_in_feet.length_class_mm == pytest.approx(304.8 * feet)


@pytest.mark.parametrize(
    ("rods", "words"),
    [
        ("buff willow 3 ft", "soak half an hour"),
        ("white willow 9 ft", "soak three and a half hours"),
        ("brown willow 6 ft", "soak about six days, then mellow a day"),
        ("brown willow 180 cm", "soak about six days, then mellow a day"),
    ],
)
def test_willow_soaks_by_its_length(rods: str, words: str) -> None:
    """Buff half an hour at 3 ft to three and a half at 9 ft; brown a day for each foot and a day to mellow (growers' tables)."""
    stock = find_stock(rods)
    assert stock is not None
    assert stock.soak == words
    assert stock.soak_basis is Basis.PUBLISHED


@pytest.mark.parametrize("name", ["round reed 3 mm", "centre cane 2.5 mm", "dowel 6 mm"])
def test_what_is_named_in_millimetres_is_sold_by_the_metric_system(name: str) -> None:
    """No pound and no yard (from memory: sellers on the metric system sell coils of 250 g and 500 g, and rods of 1 m)."""
    stock = find_stock(name)
    assert stock is not None
    assert stock.packs
    for pack in stock.packs:
        assert pack.title.endswith(("g coil", "m rod"))
        assert (pack.mass_g or pack.length_mm or 0) % 10 == 0
    assert stock.pack_source.startswith("from memory")
