"""Takes the pictures of the page that docs/how-to/the-page.md shows: on a laptop, a tablet and a phone.

    python builders/page_pictures.py

Needs Chromium on the PATH, as the tests of the page do.
The server is one of its own, on an empty folder. Flight has its main rod turned by one after it was opened,
or sweeps the wind with Sedge laid over it; Bench on a laptop has Marram's example sheet opened. Run it again
when the page looks different.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures"
SHEET = ROOT / "examples" / "bench" / "marram-bench.csv"
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
SIZES = {"wide": (1280, 800), "tablet": (820, 1180), "phone": (390, 844)}
ADDRESSES = {
    "flight": "/flight?boat=Marram&speed=12",
    "wind": "/flight?boat=Marram&sweep=wind&wind=8",
    "bench": "/bench?boat=Marram&wand=45",
}
LONGEST_COMPILE_MS = 300_000.0  # of the physics of sailing in a wind, the first time on a machine
CURVES_TOO: dict[str, Any] = {"wide": {"x": 0, "y": 0, "width": 1280, "height": 1320}}
REST_MS = 3000.0  # until every answer is drawn, without the compiled physics too


def picture(browser: Any, home: str, name: str, size: str) -> Path:
    """One picture: the first screen of a page, over the wind on a laptop with the curves."""
    wide, high = SIZES[size]
    page = browser.new_page(viewport={"width": wide, "height": high}, locale="en-GB")
    page.goto(home + ADDRESSES[name])
    page.wait_for_selector("body[data-full]", state="attached", timeout=60_000)
    if name == "flight":
        page.get_by_role("button", name="main rod: more").click()
        page.mouse.move(1, 1)
    elif name == "wind":
        page.get_by_text("flies on down to").wait_for(timeout=LONGEST_COMPILE_MS)
        page.locator("#over").select_option("Sedge")
        page.wait_for_selector("#chart-speed .curve-other", state="attached")
    elif size == "wide":
        page.locator("details:has(#sheet) > summary").click()
        page.locator("#sheet").fill(SHEET.read_text(encoding="utf-8"))
        page.wait_for_selector("#chain .other", state="attached", timeout=60_000)
    page.wait_for_timeout(REST_MS)
    page.evaluate("() => { document.activeElement?.blur(); scrollTo(0, 0); }")
    path = PICTURES / f"page-{name}-{size}.png"
    # Over the wind the curves are what is to be seen, and they stand under the first screen.
    clip = CURVES_TOO.get(size) if name == "wind" else None
    page.screenshot(path=path, full_page=clip is not None, clip=clip)
    page.close()
    return path


def main() -> None:
    program = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    if program is None:
        sys.exit("No Chromium on the PATH.")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        words = [sys.executable, "-m", "foilwright.cli.main", "serve", "--port", "0", "--data", folder]
        environment = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
        server = subprocess.Popen(words, env=environment, stdout=subprocess.PIPE, text=True)
        try:
            assert server.stdout is not None
            home = server.stdout.readline().strip().rstrip("/")
            browser = play.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-gpu"])
            for name in ADDRESSES:
                for size in SIZES if name != "wind" else ("wide", "phone"):
                    path = picture(browser, home, name, size)
                    print(path.relative_to(ROOT), path.stat().st_size)
            browser.close()
        finally:
            server.terminate()
            server.wait(20)


if __name__ == "__main__":
    main()
