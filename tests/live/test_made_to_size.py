"""A batch made to size: by portions, by weight, by what is there; computed and in a browser."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from markupsafe import Markup
from playwright.sync_api import Browser, expect

from builder.pages.steps import amounts_of, scaled
from builder.pages.view import View
from tests.pages_data.kitchens import SMALL, view_of
from tests.site.conftest import demo, script_cache  # noqa: F401 - fixtures
from tests.site.opened import opened
from tests.site.sites import BuiltSite

SAUCE = {
    **SMALL,
    "pantry/wine.yaml": "price: 9/L\n",
    "pantry/sauce.yaml": "of: {stock: 2 L, wine: 500 ml}\nmakes: 600 ml\n"
    "steps: [{what: Reduce, amounts: {wine: 200 ml}}]\n",
}


@cache
def kitchen() -> View:
    return view_of(SAUCE)


def made(path: str, wanted: dict[str, float]) -> dict[str, float]:
    """Amounts of a record by their labels, where others are asked for."""
    figures, rows = kitchen().costed.figures, kitchen().costed.rows.scaling
    own = {each.label: each.row for each in rows.amounts[path]}
    own |= {name: row for (of, _, name), row in rows.in_steps.items() if of == path}
    column = np.full((figures.size("scaled"), 1), np.nan)
    for label, amount in wanted.items():
        column[own[label]] = amount
    moved = figures.moved({("scaled", "wanted_amount"): column})
    return {label: moved.value("scaled", "scaled_amount", row) for label, row in own.items()}


def test_nothing_asked_for_is_as_written() -> None:
    assert made("pantry/sauce", {}) == {"Makes": 0.6, "Stock": 2.0, "Wine": 0.5, "wine": 0.2}


def test_a_recipe_follows_any_of_its_amounts_by_hand() -> None:
    """0.6 L made of 2 L and 0.5 L, 0.2 L of that at the step: 1.5 L is two and a half times."""
    two_and_a_half = {"Makes": 1.5, "Stock": 5.0, "Wine": 1.25, "wine": 0.5}
    assert made("pantry/sauce", {"Makes": 1.5}) == pytest.approx(two_and_a_half)
    assert made("pantry/sauce", {"Wine": 1.25}) == pytest.approx(two_and_a_half)


def test_what_runs_out_first_decides() -> None:
    """Stock for three times and wine for twice."""
    assert made("pantry/sauce", {"Stock": 6.0, "Wine": 1.0})["Makes"] == pytest.approx(1.2)


def test_a_cook_by_portions_and_by_what_is_there() -> None:
    """7.1 kg in; 5.68 of 7.1 kg left by the cook, 97 % by the sear, 180 g a portion.

    As purchased: 14.00 of 16.52 kg through the trim, after 1.2 % of purge.
    """
    servable = 5.68 * 0.97
    bought = 7.1 / (14.0 / 16.52) / (1 - 0.012)
    title = 'Chuck roll, "neck off" & tied'
    found = made("cooks/chuck-30h", {"Portions of Chuck steak": 60})
    assert found["To serve"] == pytest.approx(60 * 0.18)
    assert found[f"{title}, into the cook"] == pytest.approx(60 * 0.18 / servable * 7.1)
    there = made("cooks/chuck-30h", {f"{title}, as purchased": 2 * bought})
    assert there["Portions of Chuck steak"] == pytest.approx(2 * servable / 0.18)
    assert there["chuck-roll"] == pytest.approx(14.2)


def test_a_plate_by_one_of_its_parts() -> None:
    """60 ml of sauce a plate: 1.5 L is for 25."""
    assert made("plates/chuck-steak", {"Sauce": 1.5})["Portions"] == pytest.approx(25)


def test_an_amount_is_made_to_size_as_it_is_written() -> None:
    """90 g of a cabbage of 900 g that is 78 % usable are no tenth of one that is bought."""
    plate = SMALL["plates/chuck-steak.yaml"].replace("with: {", "with: {cabbage: 90 g, ")
    files = {
        **SMALL,
        "pantry/cabbage.yaml": "price: 1.40/each\neach: 900 g\nyield: 78 %\n",
        "plates/chuck-steak.yaml": f"{plate}steps: [{{what: Wilt, amounts: {{cabbage: 60 g}}}}]\n",
    }
    view = view_of(files)
    plates, rows = view.costed.content.plates, view.costed.rows.scaling
    (row,) = (each.row for each in rows.amounts["plates/chuck-steak"] if "abbage" in each.label)
    assert Markup(scaled(view, row).traced("scaled_amount")).striptags() == "90 g"
    (at_the_step,) = amounts_of(view, plates["chuck-steak"], 1)
    assert Markup(at_the_step[1]).striptags() == "60 g"


@pytest.mark.browser
def test_a_page_follows_an_amount_and_prints_what_is_made(
    browser: Browser,
    demo: BuiltSite,  # noqa: F811
) -> None:
    with opened(browser, demo.home("file"), "pantry/bone-sauce.html") as page:
        strip = page.locator("details.made")
        strip.locator("summary").focus()
        page.keyboard.press("Enter")
        box = strip.get_by_label("Brown bone stock", exact=True)
        box.fill("9")
        box.press("Enter")
        steps = page.locator("#steps .amounts")
        # 6 L are for 2.2 L, so 9 L are for half as much again; 300 g of onions become 450 g.
        expect(steps.first).to_contain_text("450")
        expect(strip.get_by_label("Makes", exact=True)).to_have_value("3.3")
        assert "wanted_amount*9" in page.url
        page.evaluate("dispatchEvent(new Event('beforeprint'))")
        assert "450" in steps.first.inner_text()
        assert "300" in page.locator("#ingredients").inner_text()
        page.evaluate("dispatchEvent(new Event('afterprint'))")


@pytest.mark.browser
def test_a_tried_size_goes_along_to_the_sheet(browser: Browser, demo: BuiltSite) -> None:  # noqa: F811
    tried = "?try=scaled:pantry/bone-sauce%23made.makes.wanted_amount*4.4"
    with opened(browser, demo.home("file"), f"forms/pantry/bone-sauce-spec.html{tried}") as page:
        expect(page.locator("#steps .fields a").first).to_contain_text("4.40")
        expect(page.locator("#steps tbody")).to_contain_text("600")
