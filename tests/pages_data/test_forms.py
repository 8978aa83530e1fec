"""The two classic forms against published worked examples, from YAML text to the sheet.

C1: rib of beef, problem after Dittmer & Keefe, Principles of Food, Beverage, and Labor
Cost Controls, ch. 6 [figures from a posted solution]. C2: lamb loin, ex. 6.3 of the same
book [a posted form]. Values are compared within one unit of the last printed place,
because the sources round.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.costing.model import MODEL
from builder.pages.components import Form, FormGrid, Page
from builder.pages.view import View
from tests.pages_data.kitchens import (
    SMALL,
    by_path,
    form_pages,
    html_of,
    ids_of,
    small,
    text_of,
    view_of,
)

US = "name: Test Kitchen\ncurrency: USD\nlocale: en_US\nunits: us customary\n"
RIB = {
    "kitchen.yaml": US,
    "cuts/rib.yaml": """
species: beef
price: 3.19/lb
trim:
  tests:
    - date: 2026-09-01
      in: 38 lb 12 oz
      out: 22 lb
      parts:
        fat: [6 lb 8 oz, 0/lb]
        bones: [4 lb 4 oz, 0.32/lb]
        short ribs: [3 lb 4 oz, 1.49/lb]
        chopped beef: [2 lb 8 oz, 1.59/lb]
""",
    "cooks/rib-roast.yaml": """
cut: rib
how: oven
load: 22 lb
tests: [{date: 2026-09-02, in: 22 lb, out: 20 lb 4 oz}]
carve: {tests: [{date: 2026-09-02, in: 20 lb 4 oz, out: 19 lb, parts: {bones: 1 lb 4 oz}}]}
""",
    "plates/rib.yaml": "menu: mains\ncook: rib-roast\nportion: 10 oz\nprice: 20.00\n",
}
LAMB = {
    "kitchen.yaml": US,
    "cuts/loin.yaml": """
species: lamb
price: 6.65/lb
trim:
  tests:
    - date: 2026-09-01
      in: 12 lb
      out: 6 lb
      parts: {fat: [3 lb, 0/lb], kidneys: [1 lb, 6.10/lb], flanks: [1 lb 8 oz, 4.60/lb]}
""",
    "cooks/as-it-is.yaml": "cut: loin\nhow: raw portions\nload: 6 lb\nloss: 0 %\n",
    "plates/loin.yaml": "menu: mains\ncook: as-it-is\nportion: 5 oz\nprice: 20.00\n",
}
LB = 0.45359237


def forms_of(page: Page) -> dict[str, Form]:
    """The sheets of a page by their id."""
    return {section.id: section for section in page.sections if isinstance(section, Form)}


def cells_of(form: Form) -> dict[str, list[str]]:
    """The rows of every grid on a sheet, by their first cell."""
    grids = [block for block in form.blocks if isinstance(block, FormGrid)]
    rows = [row for grid in grids for row in (*grid.rows, *grid.foot)]
    return {
        str(row.cells[0].text): [
            str(c.text).replace("\N{NO-BREAK SPACE}", " ") for c in row.cells[1:]
        ]
        for row in rows
    }


@pytest.fixture(scope="module")
def rib() -> View:
    return view_of(RIB)


@pytest.fixture(scope="module")
def lamb() -> View:
    return view_of(LAMB)


def part(view: View, cut: str, name: str, figure: str) -> float:
    """A figure of one part of the only test of a cut's trim."""
    (test,) = view.costed.rows.tests[view.costed.rows.stages[f"cuts/{cut}", "trim"]]
    return view.number("part", figure, view.costed.rows.parts[test][name])


def test_figure(view: View, cut: str, figure: str) -> float:
    """A figure of the only test of a cut's trim."""
    (test,) = view.costed.rows.tests[view.costed.rows.stages[f"cuts/{cut}", "trim"]]
    return view.number("test", figure, test)


test_figure.__test__ = False  # type: ignore[attr-defined]

RIB_RATIOS = {"fat": 16.77, "bones": 10.97, "short ribs": 8.39, "chopped beef": 6.45}
RIB_CREDITS = {"bones": 1.360, "short ribs": 4.843, "chopped beef": 3.975}


@pytest.mark.parametrize(("name", "printed"), RIB_RATIOS.items())
def test_c1_ratio_to_total(rib: View, name: str, printed: float) -> None:
    assert part(rib, "rib", name, "part_share") * 100 == pytest.approx(printed, abs=0.01)


@pytest.mark.parametrize(("name", "printed"), RIB_CREDITS.items())
def test_c1_value_of_parts(rib: View, name: str, printed: float) -> None:
    assert part(rib, "rib", name, "part_value") == pytest.approx(printed, abs=0.001)


@pytest.mark.parametrize(
    ("figure", "printed", "unit", "within"),
    [
        ("loss_ratio", 0.0065, 1, 0.0001),
        ("test_yield", 0.5677, 1, 0.0001),
        # The source rounds the AP cost to cents first: 123.61 - 10.178; unrounded 113.435.
        ("usable_value", 113.433, 1, 0.0026),
        ("test_cost_per_usable_kg", 5.156, 1 / LB, 0.001),
        ("test_cost_factor", 1.616, 1, 0.001),
    ],
)
def test_c1_results(rib: View, figure: str, printed: float, unit: float, within: float) -> None:
    assert test_figure(rib, "rib", figure) / unit == pytest.approx(printed, abs=within)


def test_c1_sheet_prints_the_published_form(rib: View) -> None:
    page = by_path(form_pages(rib))["forms/rib-yield-test.html"]
    (form,) = forms_of(page).values()
    cells = cells_of(form)
    assert cells["Bones"] == ["4 lb 4 oz", "11.0%", "$0.32/lb", "$1.36"]
    assert cells["Short ribs"] == ["3 lb 4 oz", "8.4%", "$1.49/lb", "$4.84"]
    assert cells["Loss in cutting"][:2] == ["4 oz", "0.6%"]
    assert cells["Usable weight"] == ["22 lb", "56.8%", "$5.16/lb", "$113.44"]
    assert cells["Total"][0] == "38 lb 12 oz"


@pytest.mark.parametrize(
    ("table", "figure", "expected", "unit"),
    [
        # Cooked half: its inputs are published, the results ours and unrounded; with the AP
        # cost rounded to cents first, as the source does, they are 5.9701 and 3.7313.
        ("batch", "overall_yield", 0.4903, 1),
        ("batch", "cost_per_servable_kg", 5.9703, 1 / LB),
        ("batch", "cost_factor_per_kg", 1.8716, 1),
        ("plate", "portion_cost_by_weight", 3.7314, 1),
        ("plate", "cost_factor_per_portion", 1.1697, LB),
    ],
)
def test_c1_cooked_half(rib: View, table: str, figure: str, expected: float, unit: float) -> None:
    assert rib.number(table, figure, 0) / unit == pytest.approx(expected, abs=0.0001)


def test_c1_cooking_loss_sheet_balances(rib: View) -> None:
    page = by_path(form_pages(rib))["forms/rib-roast-cooking-loss.html"]
    cells = cells_of(forms_of(page)["batch"])
    assert cells["As purchased (AP)"] == ["38 lb 12 oz", "100.0%"]
    assert cells["Trimmed, into the cook"] == ["22 lb", "56.8%"]
    assert cells["Cooked"] == ["20 lb 4 oz", "52.3%"]
    # 16 lb 8 oz in cutting and 1 lb 4 oz in carving; 4 oz in cutting and 1 lb 12 oz in the oven.
    assert cells["Bones, trim and other by-products"][0] == "17 lb 12 oz"
    assert cells["Lost in all"][0] == "2 lb"
    assert cells["Servable (EP)"] == ["19 lb", "49.0%"]
    shares = (
        rib.number("batch", name, 0)
        for name in ("byproducts_ratio", "losses_ratio", "overall_yield")
    )
    assert sum(shares) == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize(
    ("name", "ratio", "value"),
    [("fat", 25.0, 0.0), ("kidneys", 8.33, 6.10), ("flanks", 12.50, 6.90)],
)
def test_c2_parts(lamb: View, name: str, ratio: float, value: float) -> None:
    assert part(lamb, "loin", name, "part_share") * 100 == pytest.approx(ratio, abs=0.01)
    assert part(lamb, "loin", name, "part_value") == pytest.approx(value, abs=0.005)


@pytest.mark.parametrize(
    ("figure", "printed", "unit"),
    [
        ("test_cost", 79.80, 1),
        ("usable_value", 66.80, 1),
        ("test_cost_per_usable_kg", 11.13, 1 / LB),
        ("test_cost_factor", 1.67, 1),
        ("loss_ratio", 0.0417, 1),
        ("test_yield", 0.50, 1),
    ],
)
def test_c2_results(lamb: View, figure: str, printed: float, unit: float) -> None:
    within = 0.0001 if printed < 1 else 0.01
    assert test_figure(lamb, "loin", figure) / unit == pytest.approx(printed, abs=within)


def test_c2_portion_of_five_ounces(lamb: View) -> None:
    assert lamb.number("plate", "portion_cost_by_weight", 0) == pytest.approx(3.48, abs=0.01)
    assert lamb.number("plate", "cost_factor_per_portion", 0) / LB == pytest.approx(0.52, abs=0.01)
    page = by_path(form_pages(lamb))["forms/loin-yield-test.html"]
    (form,) = forms_of(page).values()
    assert cells_of(form)["Loin"][:3] == ["5 oz", "$3.48", "0.523"]


# The stages of a cut in a row: the forms' own route against exact fractions and the chain.

SHARES = st.integers(1, 40).map(lambda percent: Fraction(percent, 100))


@given(purge=SHARES, trim=SHARES, part_share=st.integers(0, 50), cents=st.integers(1, 9999))
def test_price_through_two_stages_is_exact(
    purge: Fraction, trim: Fraction, part_share: int, cents: int
) -> None:
    kept = trim * part_share / 100
    view = view_of(
        {
            "kitchen.yaml": "name: K\ncurrency: CAD\n",
            "cuts/a.yaml": (
                f"species: beef\nprice: {cents / 100:.2f}/kg\npurge: {float(purge * 100):g} %\n"
                f"trim: {{loss: {float(trim * 100):g} %, "
                f"parts: {{grind: [{float(kept * 100):g} %, 0.01/kg]}}}}\n"
            ),
        }
    )
    row = view.costed.rows.stages["cuts/a", "trim"]
    price = Fraction(cents, 100)
    into = price / (1 - purge)
    out = (into - kept * Fraction(1, 100)) / (1 - trim)
    assert view.number("stage", "price_into_stage", row) == pytest.approx(float(into), rel=1e-12)
    assert view.number("stage", "cost_per_usable_kg", row) == pytest.approx(float(out), rel=1e-12)


def test_pooled_sheet_agrees_with_the_chain_of_weights() -> None:
    view = small()
    rows = view.costed.rows
    stage = rows.stages["cuts/chuck-roll", "trim"]
    step = next(row for link, row in rows.steps["chuck-30h"] if link.name == "trim")
    by_chain = view.number("step", "cost_per_kg_out", step)
    by_form = view.number("stage", "cost_per_usable_kg", stage)
    pooled = view.number("stage", "tested_usable_value", stage) / view.number(
        "stage", "tested_out", stage
    )
    assert by_form == pytest.approx(by_chain, rel=1e-12)
    assert pooled == pytest.approx(by_chain, rel=1e-12)


def test_a_stage_of_a_cook_has_no_place_in_the_cut() -> None:
    view = small()
    row = view.costed.rows.stages["cooks/chuck-30h", "finish"]
    for figure in ("share_of_ap", "credits_so_far", "price_into_stage", "cost_per_usable_kg"):
        assert view.text("stage", figure, row) == "–"


# Pages


def test_a_cut_with_two_tests_has_a_pooled_sheet_and_one_for_each() -> None:
    page = by_path(form_pages(small()))["forms/chuck-roll-yield-test.html"]
    assert list(forms_of(page)) == ["trim-all", "trim-1", "trim-2"]


def test_the_price_into_the_first_stage_is_the_one_at_the_sheet_s_head() -> None:
    """The price of a list moves, so a figure made of it is written coarser than the price is."""
    rows = "2026-06-01,chuck-roll,13.10/kg\n2026-07-01,chuck-roll,14.20/kg\n"
    rows += "2026-08-01,chuck-roll,12.90/kg\n2026-09-01,chuck-roll,13.63/kg\n"
    cut = SMALL["cuts/chuck-roll.yaml"].replace("purge: 1.2 %\n", "")
    files = {**SMALL, "cuts/chuck-roll.yaml": cut, "prices/l.csv": f"date,item,price\n{rows}"}
    page = by_path(form_pages(view_of(files)))["forms/chuck-roll-yield-test.html"]
    words = text_of(html_of(page))
    paid = set(re.findall(r"AP price (\S+)", words))
    assert paid == {"$13.63/kg"}
    assert set(re.findall(r"Price into the stage (\S+)", words)) == paid


def test_a_cut_without_tests_has_a_sheet_to_write_on() -> None:
    page = by_path(form_pages(small()))["forms/ribeye-yield-test.html"]
    (form,) = forms_of(page).values()
    assert form.id == "open"
    assert "Ribeye" in text_of(html_of(page))


def test_every_record_has_its_form_and_every_form_is_a_sheet() -> None:
    pages = by_path(form_pages(small()))
    assert set(pages) == {
        "forms/blank-yield-test.html",
        "forms/blank-cooking-loss.html",
        "forms/chuck-roll-yield-test.html",
        "forms/ribeye-yield-test.html",
        "forms/chuck-30h-cooking-loss.html",
        "forms/ribeye-grill-cooking-loss.html",
    }
    for page in pages.values():
        assert page.sheet
        ids = ids_of(html_of(page))
        assert len(set(ids)) == len(ids)


def test_figures_on_a_form_lead_to_their_method() -> None:
    html = html_of(by_path(form_pages(small()))["forms/chuck-30h-cooking-loss.html"])
    assert "href=../methods/batch-cost-per-servable-kg.html#" in html
    assert "href=../methods/test-weight-in.html#" in html


def test_blank_forms_hold_no_figure() -> None:
    pages: Mapping[str, Page] = by_path(form_pages(small()))
    for name in ("blank-yield-test", "blank-cooking-loss"):
        html = html_of(pages[f"forms/{name}.html"]).partition("<section class=form")[2]
        assert "$" not in html
        assert "CAD" in html


def test_figures_of_the_forms_are_declared_in_the_model() -> None:
    assert MODEL.definition(("batch", "losses_ratio")).unit == "share"
