"""The demo's drawn pictures: `python -m tests.drawings` makes the PNGs of the SVGs in .ci/."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.browser import ARGUMENTS, chromium

ROOT = Path(__file__).parents[1]
PICTURES = ROOT / "content" / "pictures"


def draw() -> None:
    """Every drawing as a picture that a kitchen may show: pages take no SVG."""
    with sync_playwright() as tools:
        browser = tools.chromium.launch(executable_path=chromium(), args=list(ARGUMENTS))
        page = browser.new_page(viewport={"width": 600, "height": 440})
        for drawing in sorted((ROOT / ".ci").glob("*.svg")):
            page.goto(drawing.as_uri())
            page.screenshot(path=PICTURES / f"{drawing.stem}.png")


if __name__ == "__main__":
    draw()
