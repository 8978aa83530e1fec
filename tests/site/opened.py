"""Opening a page of a site in a real browser, from disk or over http, and looking it over."""

from __future__ import annotations

import re
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Literal

from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page

# The checker would read the stylesheet a second time, which the pages' own policy forbids.
WCAG = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
    "preload": False,
}
Scheme = Literal["light", "dark"]
UNFOLD = "document.querySelectorAll('details.part').forEach((part) => (part.open = true))"
DRAWN = (
    "![...document.querySelectorAll('figure[data-kind]:not([data-drawn])')]"
    ".some((figure) => figure.checkVisibility())"
)


@contextmanager
def opened(
    browser: Browser,
    home: str,
    path: str,
    *,
    width: int = 1280,
    scheme: Scheme = "light",
    scripts: bool = True,
    unfolded: bool = True,
) -> Iterator[Page]:
    """Open a page; a message on the console, a script's error or a request elsewhere fails.

    With `unfolded` all its parts are opened, as somebody does who wants to see everything.
    """
    context = browser.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, java_script_enabled=scripts
    )
    page = context.new_page()
    trouble: list[str] = []
    page.on("console", lambda message: trouble.append(message.text))
    page.on("pageerror", lambda error: trouble.append(str(error)))
    page.on("requestfailed", lambda request: trouble.append(f"{request.failure}: {request.url}"))
    page.on("request", lambda request: trouble.append(request.url))
    try:
        page.goto(f"{home}/{path}")
        if unfolded:
            unfold(page)
        if scripts:
            drawn(page)
        yield page
    finally:
        context.close()
    # What was still on its way when a click led elsewhere is given up, and says so.
    strange = [line for line in trouble if not line.startswith((home, "net::ERR_ABORTED"))]
    assert not strange, f"{path}: {strange}"


def unfold(page: Page) -> None:
    """Open all parts of a page."""
    page.evaluate(UNFOLD)


def drawn(page: Page) -> None:
    """Wait until every picture that is not folded away is drawn, or has failed to be."""
    until(page, DRAWN)


def until(page: Page, condition: str, *, seconds: float = 30) -> None:
    """Wait until an expression of JavaScript is true.

    The library's own wait polls by `eval` inside the page, which the pages' policy forbids as
    soon as the expression is not true at once; this asks from outside.

    Raises:
        AssertionError: it is still false after `seconds`.
    """
    deadline = time.monotonic() + seconds
    while not page.evaluate(condition):
        assert time.monotonic() < deadline, f"never true: {condition}"
        page.wait_for_timeout(50)


def violations(page: Page, *rules: str) -> list[tuple[str, list[str]]]:
    """What axe finds against WCAG 2.2 AA and its own best practice: the rule, where it fails.

    With `rules` given it looks for these alone.
    """
    options = {**WCAG, "runOnly": list(rules) or WCAG["runOnly"]}
    found = Axe().run(page, options=options).response["violations"]
    return [(v["id"], [node["html"][:120] for node in v["nodes"]]) for v in found]


def sheets_of(printed: bytes) -> int:
    """How many sheets of paper a PDF is: `/Page`, not the list of them, `/Pages`."""
    return len(re.findall(rb"/Type\s*/Page\b", printed))


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serve a folder on this machine only; gives its address."""

    class Quiet(SimpleHTTPRequestHandler):
        def log_message(self, format: str, *args: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
