"""Money that has an interval is written no finer than that, on every page of the demo."""

from __future__ import annotations

import math
import re
from functools import cache

import pytest
from markupsafe import Markup

from builder.money.intervals import PLATE_INTERVALS, SWAP_INTERVALS
from builder.pages.rendering import render
from builder.pages.site import frame
from builder.pages.view import View
from tests.kitchens import pages_but_methods
from tests.live.test_recomputed import KITCHENS, view_of
from tests.site.sites import text_of

INTERVALS = {"plate": PLATE_INTERVALS, "swap": SWAP_INTERVALS}
# Words of the pages; listings, methods and data say what is written or computed.
WORDS = ("index", "menu", "swaps", "plates/", "cooks/", "cuts/")


@cache
def pages(name: str) -> dict[str, str]:
    view = view_of(KITCHENS[name])
    return {
        page.path: render(page, frame(view)).decode()
        for page in pages_but_methods(view)
        if page.path.startswith(WORDS)
    }


def to_the_cent(view: View) -> dict[tuple[str, str, int], str]:
    """What must not be read: amounts to the cent whose interval is a unit of money wide or more."""
    found = {}
    for table, names in INTERVALS.items():
        for name in names:
            for row in range(view.costed.figures.size(table)):
                value, low, high = (
                    view.number(table, each, row) for each in (name, f"{name}_low", f"{name}_high")
                )
                unit = view.definition(table, name).unit
                if unit.startswith("money") and high - low >= 1 and math.isfinite(value):
                    text = str(view.shown(unit, value, "kg", None))
                    if text != str(view.text(table, name, row)):
                        found[table, name, row] = text
    return found


@pytest.mark.parametrize("name", ["demo", "customary"])
def test_no_page_writes_an_amount_to_the_cent_inside_an_interval_of_units(name: str) -> None:
    sharp = to_the_cent(view_of(KITCHENS[name]))
    links = re.compile(r"<a ([^>]*)>([^<]*)</a>")
    seen, wrong = 0, []
    for path, markup in pages(name).items():
        for link, text in links.findall(markup):
            method = re.search(r"methods/(plate|swap)-([a-z0-9-]+)\.html", link)
            row = re.search(r"\.html#(\d+)", link)
            if method and row:
                node = (method[1], method[2].replace("-", "_"), int(row[1]))
                seen += node in sharp
                if sharp.get(node) == Markup(text).unescape():
                    wrong.append((path, *node, text))
    assert wrong == []
    assert seen


@pytest.mark.parametrize("name", ["demo", "customary"])
def test_a_lead_writes_money_as_its_tiles_do(name: str) -> None:
    view = view_of(KITCHENS[name])
    leads = {
        path: text_of("".join(re.findall(r"<p class=lead>.*?</p>", markup, re.DOTALL)))
        for path, markup in pages(name).items()
    }
    for (table, figure, row), text in to_the_cent(view).items():
        owner = view.costed.figures.identity(table, row).owner
        amounts = re.findall(r"−?\$[\d,]+(?:\.\d+)?(?:/\w+)?", leads[f"{owner}.html"])
        assert text not in amounts, (owner, figure)


@pytest.mark.parametrize("name", ["demo", "customary"])
def test_money_is_written_with_all_its_decimals_or_none(name: str) -> None:
    for path, markup in pages(name).items():
        assert not re.search(r"\$[\d,]+\.\d(?!\d)", text_of(markup)), path
