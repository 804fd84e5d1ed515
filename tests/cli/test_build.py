"""`slath build` and `slath draw`: what they write, what they never write over, and what they say."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.cli.running import PATTERNS, faulty, gone, slath, start

from slath.editions import EDITIONS, editions_of
from slath.hands import Hands
from slath.output.writing import REGISTER
from slath.pipeline import CommandFaultError, compile_pattern
from slath.work import BuildOptions, Work


def written(folder: Path) -> dict[str, bytes]:
    """Every file below `folder` with what it holds."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()
    }


def test_the_whole_set(tmp_path: Path) -> None:
    """A build writes every edition into a folder of the pattern's name, and says what and how large, without progress."""
    done = slath("build", start(tmp_path).name, cwd=tmp_path)
    assert done.returncode == 0
    files = written(tmp_path / "build" / "basket")
    for name in ("booklet.pdf", "booklet-to-fold.pdf", "handout.pdf", "large-print.pdf", "bench-cards.pdf", "test-weave.pdf",
                 "full-size-sheets.pdf", "booklet.txt", "booklet.html", "list.csv", "list.json", "proof.pdf"):  # fmt: skip
        assert len(files[f"basket-{name}"]) > 500
        assert f"  basket-{name}  " in done.stdout
    assert any(name.startswith("figures/one-size-") for name in files)
    assert "\x1b" not in done.stdout + done.stderr
    assert not [name for name in files if ".slath-" in name]
    assert "Traceback" not in done.stderr


def test_the_same_pattern_gives_the_same_files(tmp_path: Path) -> None:
    """Two builds are equal byte for byte, whatever the seed of hashes, the time zone and the language."""
    file = start(tmp_path)
    editions = [
        part for name in ("booklet", "figures", "list", "text", "web-page", "proof") for part in ("--edition", name)
    ]
    first = slath("build", file.name, "--out", "one", *editions, cwd=tmp_path, PYTHONHASHSEED="1", TZ="UTC")
    second = slath("build", file.name, "--out", "two", *editions, cwd=tmp_path, PYTHONHASHSEED="2", TZ="Pacific/Auckland",
                   LC_ALL="tr_TR.UTF-8")  # fmt: skip
    assert (first.returncode, second.returncode) == (0, 0)
    assert len(written(tmp_path / "one")) > 20
    assert written(tmp_path / "one") == written(tmp_path / "two")


def test_many_hands_make_the_same_files(tmp_path: Path) -> None:
    """What processes for every core make is byte for byte, and in the same order, what one process makes."""
    file = start(tmp_path)
    options = BuildOptions(("bench cards", "text", "list", "proof"))
    compilation = compile_pattern(file)
    work = Work(compilation, options)
    many = list(Hands(work, file, None, ()).editions(lambda _text: None))
    assert many == list(editions_of(compilation, options, lambda _text: None))
    assert len(many) > 4


def test_a_hand_that_is_lost_is_made_up_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """If a process is ended from outside, what it was to make is made here."""
    file = start(tmp_path)
    work = Work(compile_pattern(file), BuildOptions(("list", "text")))
    monkeypatch.setattr("slath.hands._made", gone)  # what the processes are told to do
    made = dict(Hands(work, file, None, ()).editions(lambda _text: None))
    assert set(made) == {"basket-list.csv", "basket-list.json", "basket-booklet.txt"}


def test_a_fault_found_by_another_hand_is_told(tmp_path: Path) -> None:
    """What goes wrong in another process comes out as it would here."""
    file = start(tmp_path)
    work = Work(compile_pattern(file), BuildOptions(("list", "booklet", "proof"), style="home", paper="a5"))
    with pytest.raises(CommandFaultError, match="home is made for"):
        list(Hands(work, file, None, ()).editions(lambda _text: None))


def test_a_changed_file_is_never_replaced_unasked(tmp_path: Path) -> None:
    """A file the user changed stops the build before anything is written; --overwrite replaces it."""
    file = start(tmp_path)
    build = ("build", file.name, "--edition", "list", "--edition", "text")
    assert slath(*build, cwd=tmp_path).returncode == 0
    listed = tmp_path / "build/basket/basket-list.csv"
    listed.write_text("my own remarks", "utf-8")
    file.write_text(file.read_text("utf-8").replace("title: Trial", "title: Trial again"), "utf-8")
    before = written(tmp_path)
    done = slath(*build, cwd=tmp_path)
    assert done.returncode == 3
    assert str(listed.relative_to(tmp_path)) in done.stderr
    assert "--overwrite" in done.stderr
    assert written(tmp_path) == before
    assert slath(*build, "--overwrite", cwd=tmp_path).returncode == 0
    assert b"Trial again" in (tmp_path / "build/basket/basket-booklet.txt").read_bytes()


def test_files_of_earlier_builds_are_told(tmp_path: Path) -> None:
    """What an earlier build left and this one does not renew is named, so that nobody takes it for new."""
    file = start(tmp_path)
    assert slath("build", file.name, "--edition", "list", cwd=tmp_path).returncode == 0
    done = slath("build", file.name, "--edition", "text", cwd=tmp_path)
    assert "Not renewed, from an earlier build: basket-list.csv, basket-list.json" in done.stdout


def test_json_tells_what_was_written(tmp_path: Path) -> None:
    """`--format json` names every file written and holds every note; a faulty pattern among them gives exit code 1."""
    done = slath(
        "build", start(tmp_path).name, faulty(tmp_path).name, "--edition", "list", "--format", "json", cwd=tmp_path
    )  # fmt: skip
    assert done.returncode == 1
    told = json.loads(done.stdout)
    assert told["written"] == {
        "basket.yaml": ["build/basket/basket-list.csv", "build/basket/basket-list.json"],
    }  # fmt: skip
    assert "unknown-name" in {note["code"] for note in told["notes"]}
    assert done.stderr == ""


def test_editions_can_be_listed(tmp_path: Path) -> None:
    """`--editions` needs no file and names every edition with what it is."""
    done = slath("build", "--editions", cwd=tmp_path)
    assert done.returncode == 0
    assert [line.split()[0] for line in done.stdout.splitlines()] == [name.replace(" ", "-") for name in EDITIONS]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--edition", "bocklet"), "there is no edition bocklet; did you mean booklet?"),
        (("--edition", "q"), "there is no edition q; choose from booklet, fold,"),
        (("--size", "medum"), "the pattern has no size medum; did you mean medium?"),
        (("--style", "hme"), "there is no style hme; did you mean home?"),
        (("--style", "nowhere/mine.yaml"), "there is no style nowhere/mine.yaml"),
        (("--style", "home", "--paper", "a5", "--edition", "booklet"), "style home is made for"),
        (("--paper", "a3"), "'a3' is not one of 'letter', 'a4', 'half-letter', 'a5'"),
        (("--units", "cubits"), "'cubits' is not one of 'inches', 'mm'"),
    ],
)
def test_what_is_not_there_is_named(options: tuple[str, ...], said: str, tmp_path: Path) -> None:
    """A name on the command line that means nothing is the command's fault, and what was meant is offered."""
    done = slath("build", start(tmp_path, sizes=("small", "medium")).name, *options, cwd=tmp_path)
    assert done.returncode == 2
    assert said in done.stderr
    assert not (tmp_path / "build").exists()


@pytest.mark.parametrize("option", ["--style", "--edition", "--section"])
def test_a_slip_on_the_command_line_is_told_before_the_pattern_is_worked_out(option: str, tmp_path: Path) -> None:
    """Nobody waits for a pattern to be compiled, or mends it, to hear that a name was misspelt: exit code 2 and not 1."""
    done = slath("build", faulty(tmp_path).name, option, "bocklet", cwd=tmp_path)
    assert done.returncode == 2
    assert "bocklet" in done.stderr
    assert "unknown-name" not in done.stderr


def test_two_patterns_of_one_name(tmp_path: Path) -> None:
    """Two patterns that would be written over each other are refused before anything is made."""
    (tmp_path / "inner").mkdir()
    start(tmp_path)
    start(tmp_path / "inner")
    done = slath("build", "basket.yaml", "inner/basket.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert "called basket" in done.stderr


@pytest.mark.parametrize(
    ("paper", "points"), [("letter", (612, 792)), ("a4", (595, 842)), ("half-letter", (396, 612)), ("a5", (420, 595))]
)
def test_every_paper(paper: str, points: tuple[int, int], tmp_path: Path) -> None:
    """The booklet comes on the paper asked for (ISO 216 A4 and A5; 8½ × 11 in and half of it), half sizes included."""
    from pypdf import PdfReader  # noqa: PLC0415

    done = slath("build", start(tmp_path).name, "--edition", "booklet", "--paper", paper, cwd=tmp_path)
    assert done.returncode == 0
    (file,) = (tmp_path / "build/basket").glob("*.pdf")
    box = PdfReader(file).pages[0].mediabox
    assert (round(float(box.width)), round(float(box.height))) == points


def test_a_style_of_ones_own(tmp_path: Path) -> None:
    """A style file named by its path is used; a fault in it is told with its key."""
    shipped = (PATTERNS.parent / "styles" / "home.yaml").read_text("utf-8")
    (tmp_path / "mine.yaml").write_text(shipped, "utf-8")
    file = start(tmp_path)
    build = ("build", file.name, "--edition", "booklet", "--style", "mine.yaml")
    assert slath(*build, cwd=tmp_path).returncode == 0
    (tmp_path / "mine.yaml").write_text(shipped.replace("margins:", "margin:"), "utf-8")
    done = slath(*build, cwd=tmp_path)
    assert done.returncode == 2
    assert "margin" in done.stderr


def test_large_print_stays_large(tmp_path: Path) -> None:
    """A style chosen for the whole set is laid on the editions that have none of their own, and on no others."""
    work = Work(compile_pattern(start(tmp_path)), BuildOptions(style="booklet"))
    styles = {name: work.style(edition).name for name, edition in EDITIONS.items() if edition.paged and edition.in_set}
    own = {"handout": "handout", "large print": "large-print", "bench cards": "bench-cards", "sheets": "sheets"}
    assert {name: styles[name] for name in own} == own
    assert {style for name, style in styles.items() if name not in own} == {"booklet"}


def test_drawing_every_figure_and_some(tmp_path: Path) -> None:
    """`draw` writes the figures a build writes, in the same place; named ones alone; and tells their names."""
    file = start(tmp_path, kind="board")
    names = slath("draw", file.name, "--names", cwd=tmp_path).stdout.split()
    assert "base-plan" in names
    done = slath("draw", file.name, cwd=tmp_path)
    assert done.returncode == 0
    drawn = written(tmp_path / "build/basket/figures")
    assert set(drawn) == {f"one-size-{name}.svg" for name in names}
    assert all(data.startswith((b"<?xml", b"<svg")) for data in drawn.values())
    assert slath("build", file.name, "--edition", "figures", cwd=tmp_path).returncode == 0
    assert written(tmp_path / "build/basket/figures") == drawn
    done = slath("draw", file.name, "base-plan", "--out", "some", cwd=tmp_path)
    assert done.stdout == "some/one-size-base-plan.svg\n"
    assert set(written(tmp_path / "some")) == {"one-size-base-plan.svg", REGISTER}
    wrong = slath("draw", file.name, "base-plam", cwd=tmp_path)
    assert wrong.returncode == 2
    assert "did you mean base-plan?" in wrong.stderr


def test_a_contact_sheet(tmp_path: Path) -> None:
    """`draw --contact-sheet` puts all figures on sheets."""
    done = slath("draw", start(tmp_path).name, "--contact-sheet", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stdout.splitlines()[0] == "build/basket/figures/one-size-contact-1.svg"
