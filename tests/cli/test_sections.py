"""The teacher chooses the sections of a handout; what the licence withholds stays out whatever is chosen."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pypdf
import pytest
from tests.cli.running import slath, start

from slath.editions import editions_of
from slath.pipeline import CommandFaultError, compile_pattern
from slath.work import BuildOptions

PATTERN = Path("patterns/wren-pot.yaml")


def words_of(path: Path, *sections: str, edition: str = "handout") -> str:
    """All words of the edition."""
    made = dict(editions_of(compile_pattern(path), BuildOptions((edition,), sections=sections), lambda _: None))
    (data,) = made.values()
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(BytesIO(data)).pages).split())


def test_only_the_chosen_sections_are_in_the_handout() -> None:
    """A handout of the cut list and the tools holds both and no steps; the usual handout holds the steps."""
    chosen = words_of(PATTERN, "cut list", "tools")
    assert "Cut list" in chosen
    assert "Tools" in chosen
    assert "across the middle of them, side by side" not in chosen
    assert "across the middle of them, side by side" in words_of(PATTERN)


def test_what_the_licence_withholds_cannot_be_chosen(tmp_path: Path) -> None:
    """A section named under `withheld` is left out even when the teacher asks for it."""
    text = PATTERN.read_text(encoding="utf-8")
    kept = [line for line in text.splitlines() if not line.startswith(("withheld:", "workshop_file:"))]
    path = tmp_path / "pot.yaml"
    path.write_text("\n".join([*kept, "withheld: [cut list]", ""]), encoding="utf-8")
    words = words_of(path, "cut list", "tools")
    assert "Tools" in words
    assert "Cut list" not in words


def test_an_unknown_section_is_answered_with_the_nearest() -> None:
    """A slip of spelling is the command's fault and names the section meant."""
    with pytest.raises(CommandFaultError, match="did you mean tools"):
        words_of(PATTERN, "toolz")


def test_two_handout_pages_share_a_sheet() -> None:
    """Two-up, half as many sheets carry the same pages."""
    single = dict(editions_of(compile_pattern(PATTERN), BuildOptions(("handout",)), lambda _: None))
    double = dict(editions_of(compile_pattern(PATTERN), BuildOptions(("two up",)), lambda _: None))
    pages, sheets = (len(pypdf.PdfReader(BytesIO(*made.values())).pages) for made in (single, double))
    assert sheets == (pages + 1) // 2


def test_pages_for_press_carry_their_boxes() -> None:
    """Trim box inside bleed box inside media box, by 3 mm of bleed all round (PDF 32000-1, 14.11.2)."""
    made = dict(editions_of(compile_pattern(PATTERN), BuildOptions(("press",)), lambda _: None))
    for page in pypdf.PdfReader(BytesIO(*made.values())).pages:
        trim, bleed, media = page.trimbox, page.bleedbox, page.mediabox
        assert float(trim.left - bleed.left) == pytest.approx(3 / 25.4 * 72, abs=0.01)
        assert float(bleed.top - trim.top) == pytest.approx(3 / 25.4 * 72, abs=0.01)
        assert media.left < bleed.left
        assert bleed.top < media.top


def test_a_letter_the_fonts_lack_is_the_files_fault(tmp_path: Path) -> None:
    """A title in letters the bundled fonts do not hold ends with exit code 1 and names the letter; nothing is written."""
    file = start(tmp_path)
    file.write_text(file.read_text("utf-8").replace("title: Trial", "title: Trial Ω"), "utf-8")
    done = slath("build", file, "--edition", "booklet", cwd=tmp_path)
    assert done.returncode == 1
    assert "U+03A9" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "build").exists()
