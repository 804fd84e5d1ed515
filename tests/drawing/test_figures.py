"""Every figure of every test basket: there, printable, in words, on its plate, the same every time, mirrored rightly."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

import numpy as np
import pytest
from msgspec.structs import replace
from tests.drawing import specs

from slath.basket.construct import construct
from slath.basket.model import Basket
from slath.drawing.contact_sheet import contact_sheets
from slath.drawing.figures import draw, draw_figures, draw_sheets, figure_names_of
from slath.drawing.options import LEAST_STROKE_MM, LEAST_TEXT_PT, Options
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.plate.lettering import POINT_MM, word_width
from slath.drawing.plate.letters import rod_letters
from slath.drawing.scene import Ellipse, Group, Item, Path, Scene, Text
from slath.language.pattern import Board, Border, Frame, Outline, Side, SizedPattern
from slath.units.colour import lightness
from slath.wording import figure_names as spoken


def side_of(pattern: SizedPattern) -> Side:
    """The side of a pattern that has one."""
    assert pattern.side is not None
    return pattern.side


def board_tray() -> SizedPattern:
    """A tray on a drilled board with rounded corners."""
    base = Board(specs.AT, Outline("rounded rectangle", 300.0, 200.0, 40.0), "sticks", 6.0, None, 18.0, 9.5)
    pattern = specs.round_basket()
    side = replace(
        side_of(pattern), rim=Outline("rounded rectangle", 330.0, 230.0, 50.0), profile="straight", height_mm=60.0
    )
    return replace(pattern, base=base, side=side)


def half_stick_pot() -> SizedPattern:
    """A small pot of through sticks with a half stick, randed."""
    pattern = specs.round_basket()
    base = specs.round_slath(120.0, 4, 3, half=True, become=True)
    side = replace(
        side_of(pattern), height_mm=90.0, rim=Outline("circle", 150.0, 150.0),
        bands=(specs.band("wall", specs.rand(), ("plain",), to="top"),),
    )  # fmt: skip
    border = Border(specs.AT, specs.passes((("before", 1), ("behind", 1), ("in", 0))))
    return replace(pattern, base=base, stakes=None, side=side, border=border)


def mixed_wall() -> SizedPattern:
    """A wall with a band of nearly every weave."""
    pattern = specs.round_basket(1)
    bands = (
        specs.band("upsett", specs.wale(4), ("plain",), 2, step_up=True),
        specs.band("chased", specs.chase(), ("plain", "moss"), 4),
        specs.band("slewed", specs.slew(), ("plain", "rust"), 3),
        specs.band("in twos", specs.pair(), ("plain", "slate"), 3, groups=2),
        specs.band("arrow", specs.wale(3), ("plain", "rust", "slate"), 3),
        specs.band("reversed", specs.wale(3), ("plain", "rust", "slate"), 3, reversed_=True),
        specs.band("French", specs.french_rand(), ("plain", "moss"), 2),
    )
    return replace(pattern, side=replace(side_of(pattern), height_mm=None, bands=bands))


def frame_tray() -> SizedPattern:
    """A tray on a woven frame."""
    pattern = specs.round_basket()
    weaving = (specs.band("base", specs.rand(), ("plain",), to="edge", part="base"),)
    base = Frame(specs.AT, Outline("rectangle", 300.0, 200.0), 7, 5, "sticks", True, None, weaving=weaving)
    return replace(
        pattern, base=base, side=replace(side_of(pattern), rim=Outline("rectangle", 310.0, 210.0), profile="straight")
    )


PATTERNS = {
    "round": specs.round_basket, "oval": specs.oval_basket, "board": board_tray, "half stick": half_stick_pot,
    "mixed": mixed_wall, "frame": frame_tray,
}  # fmt: skip


@cache
def basket_of(name: str) -> Basket:
    """The basket of one pattern."""
    return construct(PATTERNS[name]())


@cache
def scenes_of(name: str, mirrored: bool = False) -> dict[str, Scene]:
    """Every figure and sheet of one pattern."""
    options = Options(mirrored=mirrored)
    return {**draw_figures(basket_of(name), None, options), **draw_sheets(basket_of(name), None, options)}


def leaves(
    items: Sequence[Item], clip: tuple[float, float, float, float] | None = None
) -> Iterator[tuple[Item, object]]:
    """Every path, ellipse and text with the clip it is painted in."""
    for item in items:
        if isinstance(item, Group):
            yield from leaves(item.items, item.clip or clip)
        else:
            yield item, clip


@pytest.mark.parametrize("name", PATTERNS)
def test_all_figures_are_drawn_with_words(name: str) -> None:
    """No figure is empty; each has a title, a caption, and words a step can be done from; names are as listed."""
    scenes = scenes_of(name)
    assert tuple(scenes) == figure_names_of(basket_of(name))
    assert len(scenes) >= 9
    for key, scene in scenes.items():
        assert scene.name == key
        assert sum(1 for _ in leaves(scene.items)) >= 5, key
        assert scene.title, key
        assert scene.caption.endswith("."), key
        assert scene.words.endswith("."), key
        assert len(scene.words.split()) >= 8 or key == "view", key
        assert "None" not in scene.words, key


@pytest.mark.parametrize("name", PATTERNS)
def test_nothing_is_too_small_to_print(name: str) -> None:
    """Letters are 7.5 pt or more and strokes a quarter of a millimetre or more, in every figure."""
    texts = strokes = 0
    for key, scene in scenes_of(name).items():
        for item, _ in leaves(scene.items):
            if isinstance(item, Text):
                texts += 1
                assert item.size_pt >= LEAST_TEXT_PT, (key, item.words)
            elif not isinstance(item, Group) and item.stroke:
                strokes += 1
                assert item.width >= LEAST_STROKE_MM - 1e-9, key
    assert texts > 50
    assert strokes > 200


@pytest.mark.parametrize("name", PATTERNS)
def test_everything_lies_on_its_plate(name: str) -> None:
    """Words, and lines that are not cut by a window, lie inside the figure to half a millimetre."""
    for key, scene in scenes_of(name).items():
        for item, clip in leaves(scene.items):
            if isinstance(item, Text):
                wide = word_width(item.words, item.size_pt, bold=item.bold)
                shift = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
                if abs(item.turn) < 1:
                    assert item.x + shift > -0.6, (key, item.words)
                    assert item.x + shift + wide < scene.width + 0.6, (key, item.words)
                assert item.size_pt * POINT_MM * 0.5 < item.y < scene.height + 0.2, (key, item.words)
            elif isinstance(item, Path) and clip is None:
                points = np.array([point for line in item.subpaths for point in line.points])
                assert points.min() > -0.6, key
                assert points[:, 0].max() < scene.width + 0.6, key
                assert points[:, 1].max() < scene.height + 0.6, key


@pytest.mark.parametrize("name", ["round", "board"])
def test_figures_are_the_same_every_time(name: str) -> None:
    """Drawing again gives equal records, figure by figure."""
    again = draw_figures(construct(PATTERNS[name]()))
    for key, scene in again.items():
        assert scene == scenes_of(name)[key], key


@pytest.mark.parametrize("name", ["round", "oval", "half stick"])
def test_mirrored_figures_mirror_geometry_and_not_words(name: str) -> None:
    """For a left hand cut ends, holes and discs lie at their mirrored places; words are whole, left and right changed.

    Keys and the order of panels stay as they are read, and a hidden end more or less may fall out of sight in the view.
    """
    checked = 0
    for key, scene in scenes_of(name).items():
        other = scenes_of(name, True)[key]
        assert (other.width, other.height) == (scene.width, scene.height)
        if key not in {"view", "side", "colour-plan", "step-up"} and not key.startswith(
            ("stroke", "base-opening", "base-weaving")
        ):
            mine = np.array(
                [(scene.width - item.x, item.y) for item, _ in leaves(scene.items) if isinstance(item, Ellipse)]
            )
            theirs = np.array([(item.x, item.y) for item, _ in leaves(other.items) if isinstance(item, Ellipse)])
            assert len(mine) == len(theirs), key
            assert all(np.hypot(*(theirs - spot).T).min() < 0.02 for spot in mine), key
            checked += len(mine)
        ours = sorted(item.words for item, _ in leaves(scene.items) if isinstance(item, Text))
        swapped = [_hand_changed(words) for words in ours]
        assert sorted(swapped) == sorted(item.words for item, _ in leaves(other.items) if isinstance(item, Text)), key
    assert checked >= 60


@pytest.mark.parametrize("mirrored", [False, True])
def test_panels_and_keys_are_read_from_left_to_right(mirrored: bool) -> None:
    """Panel titles stand in their order, top left first, and the key begins at the left, whichever way work runs."""
    scene = scenes_of("round", mirrored)["stroke-three-rod-wale"]
    titles = [
        item
        for item, _ in leaves(scene.items)
        if isinstance(item, Text) and item.bold and item.words.startswith(("Start", "before"))
    ]
    titles.sort(key=lambda item: (round(item.y), item.x))
    assert [item.words.split()[1] for item in titles] == ["three", "1", "2", "3"]
    names = {item.words: item.x for item, _ in leaves(scene.items) if isinstance(item, Text)}
    assert names["plain"] < names["rust, ringed"] < names["slate, lined"]


def test_strands_bear_the_letters_of_their_materials() -> None:
    """Where strands of one weave differ they bear the materials' own letters, as steps name them; like ones are numbered."""
    bands = {band.name: band for band in basket_of("mixed").bands}
    clothes = wardrobe(basket_of("mixed"))
    assert rod_letters(bands["arrow"], clothes) == ["P", "R", "S"]
    assert rod_letters(bands["upsett"], clothes) == ["P1", "P2", "P3", "P4"]
    assert rod_letters(bands["slewed"], clothes) == ["PR"]
    assert rod_letters(bands["French"], clothes) == ["P1", "M1", "P2", "M2"]
    for band, letters in (("arrow", {"P", "R", "S"}), ("upsett", {"P1", "P2", "P3", "P4"})):
        (name,) = spoken.stroke_names(bands[band], basket_of("mixed"))
        drawn = {
            item.words for item, _ in leaves(scenes_of("mixed")[name].items) if isinstance(item, Text) and item.bold
        }
        assert letters <= drawn, name


def test_every_band_is_shown_in_its_own_materials() -> None:
    """The first strokes a band calls for are drawn with its own strands, on its own part of the basket."""
    basket = basket_of("round")
    drawn = {name: scene.data["band"] for name, scene in scenes_of("round").items() if name.startswith("stroke")}
    by_name = {band.name: band for band in basket.woven}
    for band in basket.woven:
        (name,) = spoken.stroke_names(band, basket)
        shown = by_name[str(drawn[name])]
        assert (shown.materials, shown.part, shown.spec.weave) == (band.materials, band.part, band.spec.weave)


def _hand_changed(words: str) -> str:
    for one, other in (
        ("anticlockwise", "clockwise"),
        ("further left", "further right"),
        ("work to the left", "work to the right"),
    ):
        words = words.replace(one, "\0").replace(other, one).replace("\0", other)
    return words


def test_steps_find_the_figures_they_call_for() -> None:
    """The names the wording calls figures by are the names they are drawn under."""
    for name in PATTERNS:
        basket, drawn = basket_of(name), set(scenes_of(name))
        wanted = {spoken.BASE_PLAN, spoken.STAKING_PLAN, spoken.SIDE, spoken.PROFILE}
        if basket.base.slath is not None:
            wanted |= set(spoken.base_band_names(basket.base))
        wanted |= {name for band in basket.woven for name in spoken.stroke_names(band, basket)}
        if basket.border and basket.border.closes:
            wanted |= {
                each
                for worked in basket.border.passes
                for each in spoken.border_pass_names(basket.border, worked.number)
            }
        for number, handle in enumerate(basket.handles, start=1):
            wanted |= set(spoken.handle_names(number)) | {
                spoken.wrap_name(number, place) for place in range(1, len(handle.wraps) + 1)
            }
        assert wanted <= drawn, name


def test_an_unknown_figure_is_named_with_those_there_are() -> None:
    """Asking for a figure that is not there says which are."""
    with pytest.raises(KeyError, match="base-plan"):
        draw("portrait", basket_of("round"))


def test_full_size_sheets_are_true_to_size() -> None:
    """Test squares are 50 mm and 2 in; holes lie at the places of the list; strips are ticked at the spacing."""
    sheets = draw_sheets(basket_of("board"))
    assert list(sheets) == ["sheet-hole-ring", "sheet-spacing"]
    for scene in sheets.values():
        assert scene.full_size
        for key, side in (("square_50_mm", 50.0), ("square_2_in", 50.8)):
            x, y, wide, high = numbers_of(scene, key)
            assert (wide, high) == (side, side)
            corners = {(x, y), (x + side, y), (x, y + side), (x + side, y + side)}
            assert any(_same(corners, item) for item, _ in leaves(scene.items)), key
    ring, base = sheets["sheet-hole-ring"], basket_of("board").base
    cx, cy = numbers_of(ring, "centre")
    assert base.hole_line is not None
    drawn = np.array([(item.x, item.y) for item, _ in leaves(ring.items) if isinstance(item, Ellipse)])
    for u in base.holes:
        x, y = base.hole_line.point(u)
        assert np.hypot(*(drawn - [cx + x, cy - y]).T).min() < 0.002


def numbers_of(scene: Scene, key: str) -> tuple[float, ...]:
    """Numbers a figure gives beside its picture."""
    value = scene.data[key]
    assert isinstance(value, tuple)
    return tuple(float(number) for number in value)


def _same(corners: set[tuple[float, float]], item: Item) -> bool:
    if not isinstance(item, Path) or len(item.subpaths) != 1 or len(item.subpaths[0].points) != 4:
        return False
    return all(min(abs(x - a) + abs(y - b) for a, b in corners) < 0.005 for x, y in item.subpaths[0].points)


def test_base_plan_is_to_scale() -> None:
    """The dimension line under the base is as long on the page as the base at the scale printed."""
    scene = scenes_of("round")["base-plan"]
    scale = scene.data["scale"]
    assert isinstance(scale, float)
    longest = [
        abs(line.points[1][0] - line.points[0][0])
        for item, _ in leaves(scene.items)
        if isinstance(item, Path)
        for line in item.subpaths
        if len(line.points) == 2 and abs(line.points[0][1] - line.points[1][1]) < 1e-6
    ]
    assert any(abs(length - 190.0 * scale) < 0.01 for length in longest)


def test_staking_plan_numbers_run_round_from_the_marked_start() -> None:
    """Every stake that has room is numbered once, and seen from below the numbers run clockwise."""
    scene = scenes_of("round")["staking-plan"]
    assert scene.seen_from == "below"
    numbers: dict[int, tuple[float, float]] = {}
    for item, _ in leaves(scene.items):
        if isinstance(item, Text) and item.words.isdigit() and not (item.bold and item.words != "1"):
            numbers.setdefault(int(item.words), (item.x, item.y))
    assert sorted(numbers) == list(range(1, 41))
    middle = np.mean(list(numbers.values()), axis=0)
    turns = np.unwrap([np.arctan2(y - middle[1], x - middle[0]) for x, y in (numbers[n] for n in range(2, 41))])
    assert np.all(np.diff(turns) > 0)  # y runs down the page, so rising angles are clockwise


@pytest.mark.parametrize("name", PATTERNS)
def test_weavers_are_told_apart_in_grey(name: str) -> None:
    """Any two materials that differ in colour lie 15 L* apart or carry different marks, and have different letters."""
    clothes = wardrobe(basket_of(name))
    looks: list[Dress] = list(clothes.weavers.values())
    for place, one in enumerate(looks):
        for other in looks[place + 1 :]:
            assert one.letter != other.letter
            apart = abs(lightness(one.tones.body) - lightness(other.tones.body))
            assert one.tones.body == other.tones.body or apart >= 15 or one.marks != other.marks
    for upright in (clothes.stakes, clothes.sticks):
        assert all(abs(lightness(upright.tones.body) - lightness(look.tones.body)) >= 6.5 for look in looks)


def test_wider_paper_and_larger_letters_are_laid_out_anew() -> None:
    """A figure for wider paper in larger letters keeps to its plate and its least sizes."""
    options = Options(width_mm=165.0, text_pt=11.0)
    for key, scene in draw_figures(basket_of("oval"), None, options).items():
        assert scene.width == 165.0, key
        sizes = {item.size_pt for item, _ in leaves(scene.items) if isinstance(item, Text)}
        assert all(size >= 11.0 for size in sizes), key


def test_contact_sheet_holds_every_figure() -> None:
    """All figures stand on the contact sheets, in order and by name."""
    scenes = list(scenes_of("oval").values())
    sheets = contact_sheets(scenes, "Oval")
    named = [item.name for sheet in sheets for item in sheet.items if isinstance(item, Group)]
    assert named == [scene.name for scene in scenes]
    assert all(item.width > 0 for sheet in sheets for item, _ in leaves(sheet.items) if isinstance(item, Path))


def test_the_step_up_is_drawn_where_a_band_has_one() -> None:
    """The close view stands for stepped-up twined bands and only for them; all their rods climb at the end of a round."""
    assert "step-up" in scenes_of("round")
    assert "step-up" not in scenes_of("half stick")
    scene = scenes_of("round")["step-up"]
    assert "climb to the next round together" in scene.words


def test_figures_are_drawn_when_they_are_asked_for() -> None:
    """Looking a name up draws nothing; asking twice gives the same record."""
    figures = draw_figures(basket_of("round"))
    assert "side" in figures
    assert "portrait" not in figures
    assert figures["profile"] is figures["profile"]
