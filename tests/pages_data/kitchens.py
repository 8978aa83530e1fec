"""Small kitchens written as text, and pages as text to look into."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import html5lib  # type: ignore[import-untyped]

from builder.costing.costed import cost
from builder.pages.components import Page, Site
from builder.pages.forms import blank_form_pages, cooking_loss_page, yield_test_page
from builder.pages.rendering import render
from builder.pages.view import View
from builder.records.checks import check
from builder.records.content import load
from builder.records.counted import with_till_counts


def form_pages(view: View) -> Iterator[Page]:
    """Every form of a kitchen, blank and filled."""
    yield from blank_form_pages(view)
    for cut in view.costed.content.cuts.values():
        yield yield_test_page(view, cut)
    for cook in view.costed.content.cooks.values():
        yield cooking_loss_page(view, cook)


SITE = Site("Ferrystone Kitchen")
TODAY = date(2026, 10, 1)

KITCHEN = """
name: Ferrystone Kitchen
currency: CAD
as of: 2026-10-01
tax: 5 %
loaded wage: 24.50/h
energy: 0.14/kWh
gas: 0.052/kWh
targets: {food cost: 30 %, margin: 16.00}
equipment:
  bath-40: {kind: water bath, volume: 40 L, holds: 12 kg, price: 1150.00, service life: 14000}
note: Weigh everything; the roll is [[cuts/chuck-roll]].
"""
SMALL: Mapping[str, str] = {
    "kitchen.yaml": KITCHEN,
    "cuts/chuck-roll.yaml": """
name: Chuck roll, "neck off" & tied
imps: 116A
species: beef
price: 13.60/kg
purge: 1.2 %
trim:
  tests:
    - {date: 2026-09-03, in: 8.42 kg, out: 7.10 kg, parts: {grind: [0.74 kg, 8/kg], fat: 0.41 kg}}
    - {date: 2026-09-10, in: 8.10 kg, out: 6.90 kg, parts: {grind: [0.70 kg, 8/kg], fat: 0.40 kg}}
""",
    "cuts/ribeye.yaml": "species: beef\nprice: 17.20/lb\n",
    "cooks/chuck-30h.yaml": """
cut: chuck-roll
how: water bath
at: 57 °C
for: 30 h
equipment: bath-40
hands-on: 35 min
load: 7.1 kg
tests:
  - {date: 2026-09-05, in: 7.10 kg, out: 5.68 kg, parts: {juices: [0.92 kg, 0.60/kg]}}
finish: {how: sear, loss: 3 %}
store: {at: 3 °C, for: 5 d, source: the head chef}
steps:
  - {what: Season and bag, amounts: {chuck-roll: 7.1 kg}}
  - {what: Hold in the bath, at: 57 °C, for: 30 h, caution: Lids away from you}
""",
    "cooks/ribeye-grill.yaml": "cut: ribeye\nhow: grill\nload: 5 kg\nloss: 18 %\n",
    "pantry/bones.yaml": "price: 2.5/kg\n",
    "pantry/stock.yaml": "of: {bones: 5 kg}\nmakes: 4 L\nhands on: 20 min\n",
    "pantry/sauce.yaml": "of: {stock: 2 L}\nmakes: 600 ml\n",
    "plates/chuck-steak.yaml": """
menu: mains
cook: chuck-30h
portion: 180 g
with: {sauce: 60 ml}
price: 27.00
sold: {2026-08: 412}
""",
    "plates/ribeye-steak.yaml": """
menu: mains
cook: ribeye-grill
portion: 200 g
price: 37.00
""",
    "plates/broth.yaml": "menu: starters\nwith: {stock: 250 ml}\nprice: 9.00\n",
    "swaps/chuck-for-ribeye.yaml": "benchmark: ribeye-steak\nchallengers: [chuck-steak]\n",
    "tastings/chuck-or-ribeye.yaml": """
test: scores
date: 2026-09-20
samples: {chuck: chuck-30h, ribeye: {plate: ribeye-steak}}
benchmark: ribeye
tasters: 3
attributes: {tenderness: 9-point}
margin: 10 %
scores:
  T1: {chuck: 6, ribeye: 7}
  T2: {chuck: 7, ribeye: 7}
  T3: {chuck: 5, ribeye: 7}
""",
    "prices/south-yard.csv": (
        "date,item,price,supplier\n"
        "2026-08-03,bones,2.90/kg,South Yard\n"
        "2026-09-07,ribeye,18.40/lb,South Yard\n"
    ),
}


def view_of(files: Mapping[str, str]) -> View:
    """Write a kitchen's files, read them back, and look at what they cost."""
    with TemporaryDirectory() as folder:
        for name, text in files.items():
            path = Path(folder) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        content, problems = load(Path(folder), None, TODAY)
    assert content is not None
    found = [*problems, *check(content)]
    assert not [str(p.place) + p.message for p in found if p.is_error]
    counted, _ = with_till_counts(content)
    return View.of(cost(counted), found)


@cache
def small() -> View:
    """The small kitchen, computed once."""
    return view_of(SMALL)


def html_of(page: Page) -> str:
    """A page as it is published; an error where it is not valid HTML."""
    html = render(page, SITE).decode()
    html5lib.HTMLParser(strict=True).parse(html)
    return html


def ids_of(html: str) -> list[str]:
    """Every id on a page."""
    return re.findall(r"""\sid="?([^\s">]*)""", html)


def hrefs_of(html: str) -> list[str]:
    """Every address that a page links to."""
    return re.findall(r"""\shref="?([^\s">]*)""", html)


def text_of(html: str) -> str:
    """A page's words on one line."""
    tree: Any = html5lib.parse(html, namespaceHTMLElements=False)
    return " ".join(" ".join(tree.itertext()).replace("\N{NO-BREAK SPACE}", " ").split())


def by_path(pages: Iterable[Page]) -> dict[str, Page]:
    """Pages by path; an error where two have the same."""
    found: dict[str, Page] = {}
    for page in pages:
        assert page.path not in found, page.path
        found[page.path] = page
    return found
