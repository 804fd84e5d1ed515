"""The designer's page in a real browser: saved is seen, wrong is told, and everybody can use it.

Runs where Chromium and its driver are installed. How long a save takes to be seen is printed by
``tests/benchmarks/bench_page.py``; here it only has to be seen.
"""

from __future__ import annotations

import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import axe_core_python
import pytest
from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
PATTERNS = Path(__file__).parents[2] / "patterns"
PATIENCE_S = 90  # on a busy machine
pytestmark = pytest.mark.skipif(not (CHROMIUM and DRIVER), reason="no Chromium with its driver is installed")


class Bench:
    """A running page and the pattern it follows."""

    def __init__(self, folder: Path) -> None:
        for name in ("wren-pot.yaml", "otter-weir.workshop.yaml"):
            shutil.copy(PATTERNS / name, folder)
        self.file = folder / "wren-pot.yaml"
        command = [sys.executable, "-m", "slath", "bench", str(self.file), "--no-open"]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        self.address = self.process.stdout.readline().strip()

    def save(self, old: str, new: str) -> None:
        """Change the pattern as an editor does: another file moved over it."""
        text = self.file.read_text("utf-8")
        assert old in text
        other = self.file.with_name("being-saved.tmp")
        other.write_text(text.replace(old, new), "utf-8")
        other.replace(self.file)


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    """The command, running as a designer runs it, and ended with Ctrl-C."""
    made = Bench(tmp_path_factory.mktemp("bench"))
    yield made
    made.process.send_signal(signal.SIGINT)
    assert made.process.wait(20) in {0, 2, 130}
    assert made.process.stdout is not None
    made.process.stdout.close()


@pytest.fixture(scope="module")
def page(bench: Bench) -> Iterator[Any]:
    """The page opened in a headless browser."""
    options = Options()
    for argument in (
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync", "--window-size=1600,1200",
    ):  # fmt: skip
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    driver = webdriver.Chrome(options=options, service=Service(DRIVER))
    driver.get(bench.address)
    yield driver
    driver.quit()


def _until(page: Any, seen: Callable[[Any], Any]) -> Any:
    return WebDriverWait(page, PATIENCE_S, poll_frequency=0.1).until(seen)


def _version(page: Any) -> int:
    return int(page.execute_script("return document.body.dataset.version || -1"))


def _shown(page: Any, name: str) -> bool:
    """Whether a drawing is loaded in the version the page is at."""
    return bool(
        page.execute_script(
            "const image = document.querySelector(`figure[data-name='${arguments[0]}'] img`);"
            "return image && image.complete && image.naturalWidth > 0 && image.src.endsWith(`version=${document.body.dataset.version}`)",
            name,
        )
    )


def test_the_basket_is_seen(bench: Bench, page: Any) -> None:
    """The drawing of the whole basket, the numbers of all sizes, the first page; no error on the console."""
    _until(page, lambda it: _version(it) > 0 and _shown(it, "view"))
    assert page.title.endswith("slath")
    assert len(page.find_elements("css selector", "#number-table tbody tr")) > 10
    page.execute_script("document.querySelector('#pages').scrollIntoView()")
    _until(page, lambda it: it.execute_script("return document.querySelector('#page').naturalWidth") > 300)
    assert [entry for entry in page.get_log("browser") if entry["level"] == "SEVERE"] == []
    ports = re.findall(r":(\d+)/", bench.address)
    listening = Path("/proc/net/tcp")
    if listening.exists():
        rows = [line.split() for line in listening.read_text("ascii").splitlines()[1:]]
        here = [row[1] for row in rows if row[3] == "0A" and int(row[1].split(":")[1], 16) == int(ports[0])]
        assert here == [f"0100007F:{int(ports[0]):04X}"]


def test_a_save_is_seen_and_a_slip_is_told_over_the_last_good_drawing(bench: Bench, page: Any) -> None:
    """A new title, then an error with its line, then the mended file: each comes by itself."""
    before = _version(page)
    bench.save("title: Wren Pot", "title: Wren Pot two")
    _until(page, lambda it: _version(it) > before and "two" in it.find_element("id", "title").text)
    bench.save("kind: round slath", "kind: round slab")
    _until(page, lambda it: "wrong" in it.find_element("tag name", "body").get_attribute("class"))
    assert page.find_elements("css selector", "#note-list .error")
    assert page.find_elements("css selector", "#lines li.error")
    page.execute_script("document.querySelector('#drawings').scrollIntoView()")
    _until(page, lambda it: _shown(it, "view"))
    bench.save("kind: round slab", "kind: round slath")
    _until(page, lambda it: "wrong" not in it.find_element("tag name", "body").get_attribute("class"))


@pytest.mark.parametrize(("width", "dark"), [(360, False), (1600, False), (1600, True), (360, True)])
def test_everybody_can_use_it(page: Any, width: int, *, dark: bool) -> None:
    """axe-core finds nothing, narrow and wide, light and dark; nothing but tables and the file's lines scrolls sideways."""
    axe = Path(axe_core_python.__file__).with_name("axe.min.js").read_text("utf-8")
    scheme = [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]
    page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": scheme})
    sides = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
    page.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", sides)
    page.execute_script(axe)
    found = page.execute_async_script(
        "const done = arguments[0]; axe.run().then((found) => done(found.violations.map("
        "(one) => `${one.id}: ${one.nodes.map((node) => node.html).join(' ').slice(0, 200)}`)))"
    )
    assert found == []
    assert page.execute_script("return document.documentElement.scrollWidth") <= width


def test_the_keyboard_alone_is_enough(page: Any) -> None:
    """Every control is reached by tabbing, shows where one is, and turns pages."""
    body = page.find_element("tag name", "body")
    page.execute_script("document.activeElement.blur(); window.scrollTo(0, 0)")
    reached = set[str]()
    for _ in range(80):
        page.switch_to.active_element.send_keys(Keys.TAB) if reached else body.send_keys(Keys.TAB)
        reached.add(
            page.execute_script("return document.activeElement.id || document.activeElement.textContent.slice(0, 12)")
        )
    assert {"size", "units", "vocabulary", "language", "style", "hand", "back", "on", "page-number"} <= reached
    page.find_element("id", "on").send_keys(Keys.ENTER)
    _until(page, lambda it: it.find_element("id", "page-number").get_property("value") == "2")
