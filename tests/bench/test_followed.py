"""What the bench knows of a pattern that is being written: good, wrong, gone and back again; and how little it keeps."""

from __future__ import annotations

import os
import shutil
import threading
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from slath.bench.followed import MOST_KEPT, Followed, GoneError, PastError
from slath.bench.what_if import counts_near, figure_on, on_count
from slath.pipeline import compile_pattern
from slath.work import BuildOptions, Work

PATTERNS = Path(__file__).parents[2] / "patterns"
PLAIN = BuildOptions()
SAVES = int(os.environ.get("SLATH_SAVES", "25"))  # 500 on request


@pytest.fixture
def followed(tmp_path: Path) -> Followed:
    """A shipped pattern at the bench, looked at once."""
    for name in ("weir-field.yaml", "otter-weir.workshop.yaml"):
        shutil.copy(PATTERNS / name, tmp_path)
    made = Followed(tmp_path / "weir-field.yaml")
    made.look()
    return made


def _save(followed: Followed, old: str, new: str) -> None:
    text = followed.file.read_text("utf-8")
    assert old in text
    followed.file.write_text(text.replace(old, new), "utf-8")
    followed.look()


def test_a_saved_height_is_in_the_numbers_and_the_drawing(followed: Followed) -> None:
    """Numbers and figures are those of the file as it stands, size by size."""
    before = followed.figure("medium", "profile", PLAIN)
    state = followed.state(PLAIN)
    assert state["sizes"] == ["small", "medium", "large"]
    assert not state["wrong"]
    _save(followed, "medium: 5 in", "medium: 6 in")
    assert followed.figure("medium", "profile", PLAIN) != before
    rows = {(row["part"], row["what"]): row["values"] for row in followed.state(PLAIN)["numbers"]}
    (size,) = compile_pattern(followed.file, sizes=["medium"]).sizes
    spiral = next(band for band in size.quantities.bands if band.name == "spiral")
    assert rows["side, spiral", "rounds"][1] == f"{spiral.rounds.value:.0f}"


@pytest.mark.parametrize("wrong", ["title: [", "base: {kind: no such}", "\x00", "materials: {}\n"])
def test_a_wrong_file_leaves_the_last_good_drawing_with_its_errors(followed: Followed, wrong: str) -> None:
    """The page is told that it is wrong and why; what was drawn is still there, and a mended file is good again."""
    good, drawn = followed.file.read_text("utf-8"), followed.figure("small", "side", PLAIN)
    followed.file.write_text(wrong, "utf-8")
    followed.look()
    state = followed.state(PLAIN)
    assert state["wrong"]
    assert [note for note in state["notes"] if note["severity"] == "error"]
    assert followed.figure("small", "side", PLAIN) == drawn
    followed.file.write_text(good, "utf-8")
    followed.look()
    assert not followed.state(PLAIN)["wrong"]


def test_a_file_that_is_gone_is_told_and_found_again(followed: Followed) -> None:
    """Moved away and put back, as some editors save."""
    away = followed.file.with_suffix(".away")
    followed.file.rename(away)
    followed.look()
    assert followed.state(PLAIN)["wrong"]
    assert followed.state(PLAIN)["notes"][0]["code"] == "file-not-read"
    assert followed.state(PLAIN)["sizes"] == ["small", "medium", "large"]
    away.rename(followed.file)
    followed.look()
    assert not followed.state(PLAIN)["wrong"]


def test_pages_are_pictures_of_the_booklet(followed: Followed) -> None:
    """Every number up to the last gives a page, and none beyond; a left hand has pages of its own."""
    count = followed.pages(PLAIN)
    assert count > 4
    with Image.open(BytesIO(followed.page(count, PLAIN))) as picture:
        assert min(picture.size) > 600
    for number in (0, count + 1):
        with pytest.raises(GoneError):
            followed.page(number, PLAIN)
    assert followed.page(count - 2, BuildOptions(left_handed=True)) != followed.page(count - 2, PLAIN)


def test_nothing_is_drawn_of_what_there_is_not(followed: Followed) -> None:
    """A size or figure that is not there is told, never guessed."""
    for size, name in (("tiny", "side"), ("small", "no-such"), ("small", "../x")):
        with pytest.raises(GoneError):
            followed.figure(size, name, PLAIN)
    with pytest.raises(GoneError):
        Followed(followed.file.with_name("none.yaml")).figure("small", "side", PLAIN)


def test_what_was_asked_for_before_a_save_is_not_made(followed: Followed) -> None:
    """A browser that is behind keeps nobody waiting."""
    now = followed.looked.version
    assert followed.figure("small", "profile", PLAIN, now)
    followed.look()
    with pytest.raises(PastError):
        followed.figure("small", "profile", PLAIN, now)
    with pytest.raises(PastError):
        followed.page(1, PLAIN, now)


def test_counts_nearby_are_those_of_the_counts_command_and_can_be_drawn(followed: Followed) -> None:
    """Each that suits gives a basket with just that many stakes; what cannot be drawn on another count is refused."""
    size = followed.compiled("medium")
    counts = counts_near(size)
    assert [count["stakes"] for count in counts] == list(range(34, 43))
    assert [count["stakes"] for count in counts if count["own"]] == [len(size.basket.stakes)]
    for count in counts:
        if count["drawn"]:
            assert len(on_count(size, count["stakes"]).stakes) == count["stakes"]
    drawing = Work(compile_pattern(followed.file), PLAIN).drawing
    drawn = {stakes: figure_on(followed, "medium", stakes, "side", drawing) for stakes in (37, 38, 39)}
    assert len(set(drawn.values())) == 3
    for stakes, name in ((38, "profile"), (2, "side"), (501, "side")):
        with pytest.raises(GoneError):
            figure_on(followed, "medium", stakes, name, drawing)


def test_save_after_save_keeps_no_more_than_it_may(followed: Followed) -> None:
    """Pictures and pages kept, figures and threads stay bounded however often the file is saved."""
    threads = threading.active_count()
    sizes = []
    for turn in range(SAVES):
        _save(followed, "medium: 5" if turn % 2 == 0 else "medium: 6", "medium: 6" if turn % 2 == 0 else "medium: 5")
        for name in ("profile", "base-plan"):
            followed.figure("medium", name, PLAIN)
        sizes.append(len(followed._made) + len(followed._works))
    assert threading.active_count() == threads
    assert max(sizes) == min(sizes)
    for number in range(MOST_KEPT + 5):
        followed.once(("filler", number), lambda: b"")
    assert len(followed._made) <= MOST_KEPT
