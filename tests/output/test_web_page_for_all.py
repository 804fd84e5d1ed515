"""The web page of a shipped pattern for everybody: it is what HTML says a page is, axe-core finds nothing in it, what is
ticked stays ticked, and the size chosen is the one shown.

Runs in Chromium with its driver where both are installed; the parse needs neither.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import axe_core_python
import html5lib
import pytest
from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from tests.booklet.shipped_patterns import work

from slath.booklet.content import booklet_document
from slath.output.html import document_html

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
in_browser = pytest.mark.skipif(not (CHROMIUM and DRIVER), reason="no Chromium with its driver is installed")


@pytest.fixture(scope="module", params=["weir-field", "mill-tray"])
def html(request: pytest.FixtureRequest) -> str:
    """The page of a pattern in three sizes."""
    return document_html(booklet_document(work(request.param).content_off_paper))


@pytest.fixture(scope="module")
def page(html: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """The page opened from the disk."""
    file: Path = tmp_path_factory.mktemp("web") / "page.html"
    file.write_text(html, "utf-8")
    options = Options()
    for argument in (
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
    ):
        options.add_argument(argument)
    driver = webdriver.Chrome(options=options, service=Service(DRIVER))
    driver.get(file.as_uri())
    yield driver
    driver.quit()


def test_it_is_parsed_without_an_error(html: str) -> None:
    """The parser of the HTML standard (WHATWG, 13.2), strict: no unclosed, misplaced or doubled element or attribute."""
    parser = html5lib.HTMLParser(strict=True)
    parser.parse(html)
    with pytest.raises(html5lib.html5parser.ParseError):
        html5lib.HTMLParser(strict=True).parse(html.replace("</p>", "</span>", 1))


@in_browser
@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("width", [360, 1200])
def test_everybody_can_use_it(page: Any, width: int, *, dark: bool) -> None:
    """axe-core finds nothing, on a telephone and on a desk, light and dark; nothing but tables scrolls sideways."""
    scheme = [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]
    page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": scheme})
    sides = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
    page.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", sides)
    page.set_script_timeout(120)
    page.execute_script(Path(axe_core_python.__file__).with_name("axe.min.js").read_text("utf-8"))
    found = page.execute_async_script(
        "const done = arguments[0]; axe.run().then((found) => done(found.violations.map("
        "(one) => `${one.id}: ${one.nodes.map((node) => node.html).join(' ').slice(0, 200)}`)))"
    )
    assert found == []
    assert page.execute_script("return document.documentElement.scrollWidth") <= width


@in_browser
def test_a_tick_is_kept_on_the_device(page: Any) -> None:
    """What was ticked is ticked when the page is opened again."""
    page.execute_script("document.querySelector('input[type=checkbox]').click()")
    page.refresh()
    assert page.execute_script("return document.querySelector('input[type=checkbox]').checked")
    page.execute_script("document.querySelector('input[type=checkbox]').click()")
    page.refresh()
    assert not page.execute_script("return document.querySelector('input[type=checkbox]').checked")
