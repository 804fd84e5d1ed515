"""The web page in a real browser: it needs no network, reflows on a narrow screen, and its fields can be reached.

Runs where a Chromium is installed; the page is written so that other browsers have nothing else to do.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from html import escape, unescape
from pathlib import Path
from typing import Any

import pytest
from tests.booklet.sample import booklet

from slath.output.html import document_html
from slath.output.svg import scene_svg
from slath.pipeline import compile_pattern
from slath.work import BuildOptions, Work

BROWSER = next(
    (found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))), ""
)
NARROW = 320  # CSS pixels: WCAG 2.2, 1.4.10 Reflow
PROBE = """<script>addEventListener("load", () => {
  const page = document.querySelector("iframe").contentDocument;
  const seen = {
    width: page.documentElement.scrollWidth,
    errors: window.errors.length,
    fetched: performance.getEntriesByType("resource").length + page.defaultView.performance.getEntriesByType("resource").length,
    fields: page.querySelectorAll("input, textarea").length,
    unnamed: [...page.querySelectorAll("input, textarea")].filter(f => !f.labels.length && !f.ariaLabel).length,
    small: [...page.querySelectorAll("input[type=checkbox], summary")].filter(f => f.getBoundingClientRect().height < 24).length,
    first: page.querySelector("h1").innerText,
  };
  document.body.innerHTML = "<pre>" + JSON.stringify(seen) + "</pre>";
});</script>"""

MEASURE = """<script>addEventListener("load", () => {
  const shapes = [...document.images].map(picture => [picture.naturalWidth, picture.naturalHeight]);
  document.body.innerHTML = "<pre>" + JSON.stringify(shapes) + "</pre>";
});</script>"""
PATTERN = Path("patterns/wren-pot.yaml")


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What the browser says of the page shown 320 pixels wide."""
    if not BROWSER:
        pytest.skip("no Chromium is installed")
    page = escape(document_html(booklet()), quote=True)
    holder = (
        "<!DOCTYPE html><script>window.errors=[];addEventListener('error',e=>errors.push(e.message))</script>"
        f'{PROBE}<body><iframe style="width:{NARROW}px;height:600px;border:0" srcdoc="{page}"></iframe></body>'
    )
    file: Path = tmp_path_factory.mktemp("web") / "holder.html"
    file.write_text(holder, encoding="utf-8")
    found: dict[str, Any] = shown(file)
    return found


def shown(file: Path) -> Any:
    """What a page says of itself as JSON in the first ``pre`` once the browser has run it."""
    flags = ("--headless", "--no-sandbox", "--disable-gpu", "--virtual-time-budget=5000", "--dump-dom")
    done = subprocess.run([BROWSER, *flags, file.as_uri()], capture_output=True, text=True, timeout=120, check=True)
    found = re.search(r"<body><pre>(.*?)</pre>", done.stdout, re.DOTALL)
    assert found
    return json.loads(unescape(found.group(1)))


def test_every_kind_of_figure_opens(tmp_path: Path) -> None:
    """Each figure and sheet of a shipped pattern, as a file of its own, is a picture to the browser, of its own shape."""
    if not BROWSER:
        pytest.skip("no Chromium is installed")
    work = Work(compile_pattern(PATTERN, None, ["wren"]), BuildOptions())
    scenes = [*work.content.sizes[0].figures.values(), *work.content.sizes[0].sheets.values()]
    for number, scene in enumerate(scenes):
        (tmp_path / f"{number}.svg").write_text(scene_svg(scene), encoding="utf-8")
    pictures = "".join(f'<img src="{number}.svg">' for number in range(len(scenes)))
    file = tmp_path / "all.html"
    file.write_text(f"<!DOCTYPE html><body>{pictures}{MEASURE}</body>", encoding="utf-8")
    shapes = shown(file)
    assert len(shapes) == len(scenes) > 10
    for (width, height), scene in zip(shapes, scenes, strict=True):
        assert width / height == pytest.approx(scene.width / scene.height, rel=0.02), scene.name


def test_the_page_reflows_on_a_narrow_screen(seen: dict[str, Any]) -> None:
    """At 320 pixels nothing but tables, which scroll by themselves, is wider than the screen (WCAG 2.2, 1.4.10)."""
    assert seen["width"] <= NARROW


def test_the_page_loads_alone(seen: dict[str, Any]) -> None:
    """Nothing is fetched, nothing goes wrong, and the title is shown."""
    assert seen["fetched"] == 0
    assert seen["errors"] == 0
    assert seen["first"] == "Weir Basket"


def test_every_field_is_named_and_large_enough(seen: dict[str, Any]) -> None:
    """Boxes have a name and are at least 24 pixels high (WCAG 2.2, 4.1.2 and 2.5.8)."""
    assert seen["fields"] > 40
    assert seen["unnamed"] == 0
    assert seen["small"] == 0
