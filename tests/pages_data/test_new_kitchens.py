"""What the pages say of the kitchens that `shankbook new` writes, before anything is counted."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from builder.pages.allergen_matrix import allergen_pages
from builder.pages.components import Page
from builder.pages.decision_sheets import decision_page
from builder.pages.equipment import equipment_page
from builder.pages.forms import cooking_loss_page, yield_test_page
from builder.pages.kitchen_page import prices_page
from builder.pages.menu import menu_page
from builder.pages.reference import reference_pages
from builder.pages.tries import plate_tries
from builder.pages.view import View
from tests.pages_data.kitchens import html_of, text_of, view_of
from tests.site.sites import STARTER

METRIC, CUSTOMARY = STARTER, STARTER.with_name("customary")


@cache
def started(folder: Path) -> View:
    """A first kitchen, computed once."""
    paths = [path for path in folder.rglob("*") if path.suffix in {".yaml", ".csv"}]
    return view_of({str(p.relative_to(folder)): p.read_text(encoding="utf-8") for p in paths})


def words(page: Page) -> str:
    return text_of(html_of(page))


@pytest.mark.parametrize("folder", [METRIC, CUSTOMARY])
def test_hours_that_nobody_can_count_are_no_share_of_a_week(folder: Path) -> None:
    """The equipment's page leaves them open, and so does the sheet of the swap."""
    view = started(folder)
    [swap] = view.costed.content.swaps.values()
    sheet = words(decision_page(view, swap))
    assert "no count says how much it is used" in sheet
    assert "a week's plates" not in sheet
    assert "so no hours are booked" in words(equipment_page(view))


def test_none_is_said_as_a_sentence() -> None:
    view = started(METRIC)
    assert menu_page(view).answer == "No plate is above the 30.0% food cost aimed at."
    assert "Each price is the one in the item's own file" in words(prices_page(view))
    lead = next(iter(allergen_pages(view))).answer
    assert lead.startswith("On 2 of 2 plates a part does not state its allergens.")


def test_the_keys_of_a_customary_kitchen_have_examples_in_its_units() -> None:
    pages = {page.path: html_of(page) for page in reference_pages(started(CUSTOMARY))}
    # Units and rules in both systems, and what the law or a published table prints, are apart.
    apart = {f"writing/{name}.html" for name in ("units", "rules", "yaml")}
    metric = re.compile(r"\d ?(kg|g|ml|mm|°C)\b|/(kg|L)\b")
    texts = {path: text_of(html) for path, html in pages.items() if path not in apart}
    texts = {path: text for path, text in texts.items() if "published" not in path}
    texts["writing/allergens.html"] = texts["writing/allergens.html"].partition("Words that")[0]
    assert {path: metric.findall(text) for path, text in texts.items() if metric.search(text)} == {}
    assert "beef-chuck-roll,3.58/lb" in text_of(pages["writing/prices.html"])
    cooks = pages["writing/cooks.html"].replace("\N{NO-BREAK SPACE}", " ")
    assert "<code>135 °F</code>" in cooks
    assert "<code>{fat: [6 %, 0.18/lb]}</code>" in cooks
    own = {page.path: html_of(page) for page in reference_pages(started(METRIC))}
    assert "<code>57 °C</code>" in own["writing/cooks.html"]


@pytest.mark.parametrize("folder", [METRIC, CUSTOMARY])
def test_a_sheet_says_no_more_than_its_figures(folder: Path) -> None:
    view = started(folder)
    sheet = next(page for page in allergen_pages(view) if page.sheet)
    assert sheet.answer == "1 sheet for the front of house, on one page of A4 or Letter."
    cut = view.costed.content.cuts["chuck-roll"]
    every, first, _ = yield_test_page(view, cut).sections
    said = "Portions as served are costed by all tests together."
    assert said in text_of(str(first))
    assert said not in text_of(str(every))
    cook = view.costed.content.cooks["ribeye-grill"]
    assert re.search(r"\bFor\s*12\s*min", words(cooking_loss_page(view, cook)))


def test_a_tariff_is_offered_where_a_batch_is_known_to_draw() -> None:
    view = started(METRIC)
    plates = view.costed.content.plates
    offered = {name: {each.label for each in plate_tries(view, plates[name])} for name in plates}
    assert "Electricity tariff" in offered["chuck-steak"]
    assert "Electricity tariff" not in offered["ribeye-steak"]
