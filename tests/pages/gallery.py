"""A small site of invented pages that shows every component; the browser tests open it.

`python -m tests.pages.gallery FOLDER` writes it, to look at what a component became.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from builder.costing.costed import cost
from builder.pages.charts.assets import chart_assets
from builder.pages.charts.notices import third_party
from builder.pages.components import Link, Page, Part, Site, Term
from builder.pages.live import live_assets
from builder.pages.rendering import assets, render, search_data
from builder.pages.view import View
from builder.records.content import load
from tests.pages.chart_examples import CHARTS, WATERFALL
from tests.pages.examples import (
    BALANCE,
    DEFINITIONS,
    EMPTY,
    EXAMPLES,
    FIGURES,
    FORM,
    LINKS,
    LONG,
    MENU,
    NOTICES,
    PROSE,
    SOURCE,
    STAGES,
)
from tests.pages.rare_examples import ENDS, RARE, SHEETS, TWO_PLATES
from tests.site.sites import STARTER

SITE = Site(
    "Ferrystone Kitchen",
    (
        Link("Menu", "~/index.html"),
        Link("Plates", "~/plates/index.html"),
        Link("Pictures", "~/pictures/all/index.html"),
        Link("Forms", "~/forms/yield.html"),
        Link("Components", "~/components.html"),
        Link("Notices", "~/notices.html"),
    ),
    "An invented kitchen: every name, price and weighing here is made up.",
    ("Prices as of 2026-09-30. Figures in Canadian dollars.",),
    (Link("Notices", "~/notices.html"),),
)

PLATE = Page(
    "plates/index.html",
    "Chuck steak, bone sauce",
    "Costs 9.84 a plate and earns 15.87: the steadiest margin on the menu, on one cooking test.",
    (
        NOTICES,
        FIGURES,
        WATERFALL,
        Part("weights", "The chain of weights", (BALANCE, STAGES), "From the case to the plate."),
        Part("notes", "Notes", (PROSE, LINKS, EMPTY)),
        Part(
            "file",
            "As written",
            (SOURCE,),
            "The lines of the file.",
        ),
    ),
    "Plate",
    (Link("Menu", "~/index.html"), Link("Mains", "~/index.html")),
    "~/index.html",
    (
        Term("Cook", "Chuck roll, 30 h", "~/index.html"),
        Term("Price", "27.00, tax in"),
        Term("Sold", "388 in September"),
    ),
    True,
)

CLOSE = ("ordered", "courses", "side-by-side-table")
BESIDE = (
    replace(CHARTS[1], id="stack", table=None),
    replace(TWO_PLATES, id="beside", rows=TWO_PLATES.rows[:2]),
)
COMPONENTS = Page(
    "components.html",
    "Components",
    "Every component by itself, with invented data.",
    (
        *(
            Part(f"a-{at}", name.capitalize(), (example,))
            for at, (name, example) in enumerate({**EXAMPLES, **RARE}.items())
            # The one notice is among the notices.
            if name != "notice"
        ),
        *(Part(f"of-{it.kind}", it.kind.capitalize(), (it,)) for it in CHARTS),
        # Two parts are set in columns by their names, three tables close by theirs.
        Part("costs", "A picture beside its table", BESIDE, pair=True),
        Part("closer", "Close on a phone", tuple(replace(ENDS, id=name) for name in CLOSE)),
        Part("holds", "Parts in two columns", (DEFINITIONS, LINKS), "What holds it up."),
        Part("sheets", "Sheets, side by side", tuple(SHEETS.values())),
    ),
    "Gallery",
    also=("The numbers that open are those of the first kitchen.",),
    alarm=True,
    follows=True,
)

PAGES = (
    Page(
        "index.html",
        "Menu",
        "Six plates; chicken thigh sells most and earns least of those that sell.",
        (
            CHARTS[3],
            MENU,
            Part("more", "A long list", (LONG,)),
            Part("terms", "Terms", (DEFINITIONS,)),
        ),
        "September 2026",
    ),
    PLATE,
    COMPONENTS,
    Page("pictures/all/index.html", "Pictures", "One of every kind.", CHARTS, "Gallery"),
    Page(
        "forms/yield.html",
        "Butcher's yield test",
        "Print it and weigh.",
        (FORM,),
        "Form",
        sheet=True,
    ),
    Page(
        "forms/two.html",
        "Two sheets",
        "One after the other.",
        (
            Part("first", "The first", (FORM,)),
            Part(
                "second",
                "The second",
                (replace(FORM, id="second-test", title="Cooking loss test"),),
            ),
        ),
        "Forms",
        sheet=True,
    ),
    Page("notices.html", "Notices", "What others wrote and we pass on.", third_party(), "Licences"),
)

RECORDS = [
    ("Beef chuck roll", "cut", "plates/index.html", "116A Tarn & Vale"),
    ("Chuck steak, bone sauce", "plate", "plates/index.html", "bone sauce mash"),
    ("Ribeye steak", "plate", "index.html", "112A"),
    ("Celeriac purée", "pantry", "notices.html", "celeriac butter"),
]


@cache
def first_kitchen() -> View:
    """The kitchen whose numbers open on the components page."""
    content, _ = load(STARTER, None, date(2031, 5, 6))
    assert content is not None
    return View.of(cost(content), ())


def write(folder: Path, scripts: Path) -> Path:
    """Write the gallery below `folder` and return its first page; `scripts` keeps the charts'."""
    files = {page.path: render(page, SITE) for page in PAGES}
    files |= assets() | chart_assets(scripts) | dict(live_assets(first_kitchen()))
    files["assets/search-data.js"] = search_data(RECORDS)
    for path, data in files.items():
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    return folder / "index.html"


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as scripts:
        print("open", write(Path(sys.argv[1]), Path(scripts)))
