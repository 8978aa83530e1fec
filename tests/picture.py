"""The picture in the README: `python -m tests.picture` builds the demo and takes it anew."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from playwright.sync_api import Browser, sync_playwright

from builder.build import build
from tests.browser import ARGUMENTS, chromium
from tests.site.opened import opened
from tests.site.sites import DEMO, ROOT

PAGE: Final = "swaps/chuck-for-ribeye.html"
SIZE: Final = (1280, 900)
FILE: Final = ROOT / ".ci" / "screenshot.png"


def take(browser: Browser, home: str, file: Path) -> None:
    """Take the top of the swap page in the light scheme."""
    with opened(browser, home, PAGE, width=SIZE[0], unfolded=False) as page:
        assert page.viewport_size == {"width": SIZE[0], "height": SIZE[1]}
        page.screenshot(path=file)


def main() -> int:
    """Build the demo, take the picture and say where it is."""
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = Path(folder) / "site"
        outcome = build(DEMO, site, None, date.today())
        if outcome.report is None:
            sys.stderr.write("the demo has errors; see: shankbook check content\n")
            return 1
        browser = playwright.chromium.launch(executable_path=chromium(), args=list(ARGUMENTS))
        take(browser, site.as_uri(), FILE)
        browser.close()
    sys.stderr.write(f"{FILE.relative_to(ROOT)}: {FILE.stat().st_size} bytes\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
