"""Pages without optional quotes and end tags are the same documents, as html5lib reads them.

html5lib implements the parsing rules of the WHATWG HTML Standard [reference library].
"""

from __future__ import annotations

from typing import Any

import html5lib  # type: ignore[import-untyped]
import pytest

from builder.pages import rendering
from builder.pages.components import Page
from builder.pages.rendering import render
from builder.pages.slim import slim
from tests.pages.gallery import PAGES, SITE


def document(html: str) -> list[object]:
    """Every element in order with what holds it, its attributes and the words beside its tags."""
    found: list[object] = []

    def visit(element: Any, path: str) -> None:
        path = f"{path}/{element.tag}"
        words = [" ".join((text or "").split()) for text in (element.text, element.tail)]
        found.append((path, dict(element.attrib), *words))
        for child in element:
            visit(child, path)

    visit(html5lib.HTMLParser(strict=True).parse(html), "")
    return found


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.path)
def test_a_slim_page_is_the_same_document(page: Page, monkeypatch: pytest.MonkeyPatch) -> None:
    light = render(page, SITE).decode()
    monkeypatch.setattr(rendering, "slim", lambda html: html)
    full = render(page, SITE).decode()
    assert document(light) == document(full)
    assert len(light) < len(full)
    assert light.count("\n") == full.count("\n")


@pytest.mark.parametrize(
    "html",
    [
        '<p title="two words">x</p>',
        '<a href="?a=b&amp;c">x</a>',
        '<img alt="">',
        "<td></td>",
        '<script type=x>{"a=":"b"}</script>',
        '<script type=x>["a=","b" ,"=" ]</script>',
    ],
)
def test_what_needs_its_quotes_or_its_end_keeps_them(html: str) -> None:
    assert slim(html) == html
