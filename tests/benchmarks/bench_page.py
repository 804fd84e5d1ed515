"""How long a save takes to be seen in the browser: python tests/benchmarks/bench_page.py [SAVES].

A shipped pattern of three sizes is saved again and again with another height, count or colour. Measured in the page, from
the moment the file is in its place: until the notes and numbers are those of the save, until the whole basket is drawn
anew, and until the page looked at is. Medians, in seconds by the clock.
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

ROOT = Path(__file__).parents[2]
WATCH = """
window.seen = {};
const now = () => Date.now() / 1000;
new MutationObserver(() => { window.seen[`notes ${document.body.dataset.version}`] ??= now(); })
  .observe(document.body, { attributes: true });
const at = (image) => /version=(\\d+)/.exec(image.src)?.[1];
document.querySelector("figure[data-name=view] img").addEventListener("load", (event) => { window.seen[`drawing ${at(event.target)}`] ??= now(); });
document.querySelector("#page").addEventListener("load", (event) => { window.seen[`page ${at(event.target)}`] ??= now(); });
"""
CHANGES = (
    ("medium: 5 in", "medium: 5 1/4 in"),
    ("#c0713f", "#b0612f"),
    ("crosswise singles: 1", "crosswise singles: 2"),
)


def main() -> None:
    """Print the medians."""
    saves = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for file in ("weir-field.yaml", "otter-weir.workshop.yaml"):
            shutil.copy(ROOT / "patterns" / file, folder)
        pattern = folder / "weir-field.yaml"
        command = [sys.executable, "-m", "slath", "bench", str(pattern), "--no-open"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
            assert process.stdout is not None
            address = process.stdout.readline().strip()
            try:
                took = measured(pattern, address, saves)
            finally:
                process.terminate()
    for what, times in took.items():
        middle, most = statistics.median(times), max(times)
        print(f"{what}: {middle:.2f} s in the median of {len(times)}, {most:.2f} at most")  # noqa: T201


def measured(pattern: Path, address: str, saves: int) -> dict[str, list[float]]:
    """Seconds from each save until it was seen, by what was seen."""
    options = Options()
    for argument in ("--headless", "--no-sandbox", "--disable-gpu", "--window-size=1600,1000"):
        options.add_argument(argument)
    driver = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))
    took: dict[str, list[float]] = {"notes": [], "drawing": [], "page": []}
    try:
        driver.get(address)
        time.sleep(8)
        driver.execute_script(WATCH)
        for turn in range(2 * saves):
            if turn == saves:
                driver.execute_script("document.querySelector('#pages').scrollIntoView()")
                time.sleep(8)
            shown = "drawing" if turn < saves else "page"
            old, new = CHANGES[turn // 2 % len(CHANGES)]
            text = pattern.read_text("utf-8")
            there, other = (old, new) if turn % 2 == 0 else (new, old)
            assert there in text
            version = int(driver.execute_script("return document.body.dataset.version"))
            staged = pattern.with_suffix(".tmp")
            staged.write_text(text.replace(there, other), "utf-8")
            started = time.time()
            staged.replace(pattern)
            took["notes"].append(_seen(driver, f"notes {version + 1}") - started)
            took[shown].append(_seen(driver, f"{shown} {version + 1}") - started)
            time.sleep(1)
    finally:
        driver.quit()
    return took


def _seen(driver: webdriver.Chrome, what: str) -> float:
    deadline = time.time() + 60
    while time.time() < deadline:
        found = driver.execute_script("return window.seen[arguments[0]]", what)
        if found:
            return float(found)
        time.sleep(0.02)
    raise TimeoutError(what)


if __name__ == "__main__":
    main()
