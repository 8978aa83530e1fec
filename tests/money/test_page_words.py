"""What the pages of plates, cuts, menu and pantry say, beside the figures that they print.

Every amount is worked out by hand beside its check.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isnan
from pathlib import Path

import pytest
from markupsafe import Markup

from builder.pages.components import Chart, Figures, Page, Part, Row, Section, Table
from builder.pages.cooks import cook_page
from builder.pages.cuts import cut_page
from builder.pages.equipment import equipment_page
from builder.pages.menu import menu_page
from builder.pages.pantry import item_page
from builder.pages.plates import plate_page
from builder.pages.view import View
from tests.kitchens import costed_from, write

KITCHEN = """\
name: Words
currency: CAD
locale: en_CA
tax: 5 %
equipment: {pot: {kind: pot, price: 90}}
"""
FILES = {
    "kitchen.yaml": KITCHEN,
    "cuts/x.yaml": """\
species: beef
price: 10/kg
trim: {loss: 20 %, parts: {bones: [10 %, 5/kg]}}
""",
    "cooks/a.yaml": """\
cut: x
how: oven
equipment: pot
load: 4 kg
loss: 20 %
hands-on: 1 h
energy: 2 kWh
""",
    "plates/one.yaml": "menu: mains\ncook: a\nportion: 200 g\nprice: 21\nsold: {2026-08: 9}\n"
    "hands-on: 0 min\n",
    "plates/two.yaml": "menu: mains\ncook: a\nportion: 160 g\nprice: 21\nsold: {2026-09: 30}\n",
    "pantry/roots.yaml": "price: 2/kg\n",
    "pantry/mash.yaml": "of: {roots: 1 kg}\nyield: 90 %\nhands-on: 30 min\n",
}


def view_of(root: Path, files: Mapping[str, str]) -> View:
    return View.of(costed_from(write(root, {**FILES, **files})), ())


def flat(sections: tuple[Section, ...]) -> list[Section]:
    found: list[Section] = []
    for section in sections:
        found += flat(section.sections) if isinstance(section, Part) else [section]
    return found


def tiles(page: Page) -> dict[str, str]:
    groups = [section for section in flat(page.sections) if isinstance(section, Figures)]
    return {str(tile.label): str(tile.value) for group in groups for tile in group.tiles}


def rows(page: Page, table_id: str) -> list[Row]:
    tables = [section for section in flat(page.sections) if isinstance(section, Table)]
    return [row for table in tables if table.id == table_id for row in table.rows]


def chart(page: Page, chart_id: str) -> Chart:
    charts = [section for section in flat(page.sections) if isinstance(section, Chart)]
    return next(found for found in charts if found.id == chart_id)


def costs(page: Page) -> dict[str, str]:
    return {str(row.cells[0].text): str(row.cells[1].text) for row in rows(page, "cost-lines")}


def notes(page: Page) -> list[str]:
    return [str(row.cells[0].note) for row in rows(page, "cost-lines") if row.cells[0].note]


def test_work_and_energy_that_cost_nothing_say_why(tmp_path: Path) -> None:
    view = view_of(tmp_path / "bare", {})
    assert notes(plate_page(view, view.costed.content.plates["one"])) == [
        "no wage is stated",
        "no tariff is stated",
        "no hours are stated for A",
    ]
    timed = FILES["cooks/a.yaml"] + "for: 5 h\n"
    view = view_of(tmp_path / "timed", {"cooks/a.yaml": timed})
    assert "neither charge nor service life of Pot is stated" in notes(
        plate_page(view, view.costed.content.plates["one"])
    )
    priced = KITCHEN.replace("price: 90", "charge: 1/h")
    priced += "loaded wage: 20/h\nenergy: 0.14/kWh\n"
    view = view_of(tmp_path / "priced", {"kitchen.yaml": priced, "cooks/a.yaml": timed})
    page = plate_page(view, view.costed.content.plates["one"])
    assert notes(page) == []
    assert "known" not in page.answer


def test_a_cost_that_is_not_known_is_no_nothing(tmp_path: Path) -> None:
    """Neither shown nor stored as 0.00; the sums say what they leave out.

    5 kg at 10 less 2.50 of bones give 3.2 kg: 47.50 / 16 portions = 2.96875 of food.
    """
    view = view_of(tmp_path, {})
    page = plate_page(view, view.costed.content.plates["one"])
    reported = costs(page)
    for label in ("Direct labour", "Energy", "Equipment charge"):
        assert reported[label] == "not known"
    assert reported["Full plate cost"] == reported["Food cost"]
    assert "labour, energy and equipment not known in full" in page.answer
    assert "as far as known, add up to $2.97" in str(chart(page, "waterfall").summary)
    row = view.costed.rows.plates["one"]
    for figure in ("labour_cost", "energy_per_plate", "equipment_per_plate"):
        assert isnan(view.number("plate", figure, row))
    assert view.number("plate", "full_cost", row) == pytest.approx(2.96875)
    batch = {str(r.cells[0].text): str(r.cells[1].text)
             for r in rows(cook_page(view, view.costed.content.cooks["a"]), "batch")}  # fmt: skip
    assert batch["Active work"] == batch["Energy"] == batch["Equipment charge"] == "not known"


def test_a_cook_whose_energy_nobody_wrote_draws_what_is_not_known(tmp_path: Path) -> None:
    cook = FILES["cooks/a.yaml"].replace("energy: 2 kWh\n", "").replace("hands-on: 1 h\n", "")
    tariff = KITCHEN + "energy: 0.14/kWh\nloaded wage: 20/h\n"
    view = view_of(tmp_path, {"cooks/a.yaml": cook, "kitchen.yaml": tariff})
    page = plate_page(view, view.costed.content.plates["one"])
    assert "no hands-on time is stated for A" in notes(page)
    assert "nothing written says how much energy A takes" in notes(page)
    assert isnan(view.number("batch", "batch_energy", view.costed.rows.cooks["a"]))


def test_what_is_made_without_a_known_energy_says_so_in_the_sides(tmp_path: Path) -> None:
    plate = FILES["plates/one.yaml"] + "with: {mash: 100 g}\n"
    view = view_of(tmp_path, {"plates/one.yaml": plate})
    page = plate_page(view, view.costed.content.plates["one"])
    assert costs(page)["Energy and supplies in the sides"] == "not known"
    assert "the energy of Mash is not known" in notes(page)
    item = item_page(view, view.costed.content.pantry["mash"])
    assert tiles(item)["Energy and supplies a unit"] == "not known"


def test_a_credit_larger_than_the_cost_falls_below_nothing(tmp_path: Path) -> None:
    """5 kg at 10 is 50; 10 % of bones at 200/kg give back 100: 16 portions at -50 / 16."""
    dear = FILES["cuts/x.yaml"].replace("5/kg", "200/kg")
    view = view_of(tmp_path, {"cuts/x.yaml": dear})
    steps = chart(plate_page(view, view.costed.content.plates["one"]), "waterfall").rows
    assert steps[0]["kind"] == "fall"
    assert steps[0]["end"] == pytest.approx(-50 / 16)


def test_a_cut_says_what_it_costs_once_it_is_trimmed(tmp_path: Path) -> None:
    """(10 - 0.1 x 5) / 0.8 = 11.875 a kilogram."""
    view = view_of(tmp_path, {})
    assert tiles(cut_page(view, view.costed.content.cuts["x"]))["Cost after trim"] == "$11.88/kg"


def test_by_products_that_nobody_weighed_are_shown_with_their_worth(tmp_path: Path) -> None:
    view = view_of(tmp_path, {})
    [row] = rows(cut_page(view, view.costed.content.cuts["x"]), "parts-trim")
    assert [str(cell.text) for cell in row.cells] == ["Bones", "10.0%", "$5.00/kg"]


def test_weighed_by_products_are_shown_with_their_mean_worth(tmp_path: Path) -> None:
    """1 kg at 5.00 and 3 kg at 1.00 are 8.00 for 4 kg."""
    tests = ", ".join(
        f"{{date: 2026-09-0{n}, in: 10 kg, out: 7 kg, parts: {{fat: [{kg} kg, {worth}/kg]}}}}"
        for n, kg, worth in ((1, 1, 5), (2, 3, 1))
    )
    cut = f"species: beef\nprice: 10/kg\ntrim: {{tests: [{tests}]}}\n"
    view = view_of(tmp_path, {"cuts/x.yaml": cut})
    page = cut_page(view, view.costed.content.cuts["x"])
    tables = [s for s in flat(page.sections) if isinstance(s, Table) and s.id == "tests-trim"]
    foot = [str(cell.text) for cell in tables[0].foot[0].cells]
    assert foot == ["Worth by weight", "", "", "$2.00/kg", "", ""]


def test_the_menu_names_its_month_and_what_food_came_to(tmp_path: Path) -> None:
    """47.50 over 20 portions of 160 g is 2.375 against 20.00: 11.9 %; 30 sold give 600.00."""
    view = view_of(tmp_path, {})
    page = menu_page(view)
    found = tiles(page)
    assert found["Plates sold in Sep 2026"] == found["Sold in Sep 2026"] == "30"
    assert found["Sales ex tax"] == "$600"
    assert found["Food cost % as sold"] == "11.9%"
    assert "By the recipes, food came to 11.9% of sales in Sep 2026." in page.answer
    counted, not_counted = (
        tiles(plate_page(view, view.costed.content.plates[name])) for name in ("two", "one")
    )
    assert counted["Sold in Sep 2026"] == "30"
    assert "Sold in Sep 2026" not in not_counted


def test_a_menu_that_nobody_counted_says_nothing_of_sales(tmp_path: Path) -> None:
    plates = {f"plates/{name}.yaml": "menu: mains\nprice: 9\n" for name in ("one", "two")}
    page = menu_page(view_of(tmp_path, plates))
    costs = "What 2 plates cost is in doubt."
    assert page.answer == f"2 plates, with all costs side by side. {costs}"
    assert tiles(page) == {}


def test_a_recipe_says_its_own_work(tmp_path: Path) -> None:
    view = view_of(tmp_path, {})
    found = tiles(item_page(view, view.costed.content.pantry["mash"]))
    assert found["Work on a batch"].split() == ["30", "min"]


def test_steps_of_money_are_in_the_unit_of_the_kitchen(tmp_path: Path) -> None:
    """10.00/kg is 4.54 a pound; a servable kilogram at 14.84375 is 6.73 a pound."""
    view = view_of(tmp_path, {"kitchen.yaml": KITCHEN + "units: us customary\n"})
    found = chart(cook_page(view, view.costed.content.cooks["a"]), "waterfall")
    first, last = found.rows[0], found.rows[-1]
    assert (first["text"], last["text"]) == ("$4.54/lb", "$6.73/lb")
    assert first["end"] == pytest.approx(4.5359237)
    assert last["end"] == pytest.approx(14.84375 * 0.45359237)
    assert dict(found.units) == {"money": "CAD a lb"}


def reported_classes(page: Page) -> list[str]:
    return [Markup(row.cells[6].text).striptags() for row in rows(page, "plates")]


def test_a_plate_that_nothing_beside_it_sold_has_no_class(tmp_path: Path) -> None:
    """In the month looked at only one plate sold, so it is its own dividing line."""
    view = view_of(
        tmp_path, {"plates/one.yaml": FILES["plates/one.yaml"].replace("-08: 9", "-09: 0")}
    )
    assert reported_classes(menu_page(view)) == [
        "neither",
        "no class: nothing else in its section sold",
    ]
    alone = view_of(tmp_path / "alone", {})
    page = menu_page(alone)
    assert reported_classes(page) == ["not counted", "no class: nothing else in its section sold"]
    assert not [s for s in flat(page.sections) if isinstance(s, Chart)]
    assert not {"Dividing margin", "Dividing mix"} & tiles(page).keys()
    figures = flat(plate_page(alone, alone.costed.content.plates["two"]).sections)
    [note] = [t.note for s in figures if isinstance(s, Figures) for t in s.tiles
              if t.label == "Contribution"]  # fmt: skip
    assert note == "no class: nothing else in its section sold"


@pytest.mark.parametrize(
    ("changes", "lead"),
    [
        ({}, "Nothing is over-booked in a week as sold in Sep 2026;"),
        ({"plates/two.yaml": "forecast: 9\n"}, "Nothing is over-booked in a week's forecast;"),
        ({"plates/one.yaml": "forecast: 9\n"},
         "Nothing is over-booked in a week as forecast and as sold in Sep 2026;"),
    ],
)  # fmt: skip
def test_a_week_is_called_what_it_is_counted_from(
    changes: Mapping[str, str], lead: str, tmp_path: Path
) -> None:
    files = {path: FILES[path] + more for path, more in changes.items()}
    files["kitchen.yaml"] = KITCHEN.replace("price: 90", "price: 90, holds: 4 kg")
    files["cooks/a.yaml"] = FILES["cooks/a.yaml"] + "for: 2 h\n"
    assert equipment_page(view_of(tmp_path, files)).answer.startswith(lead)


def test_what_is_not_known_to_hold_a_week_is_not_said_to_hold_it(tmp_path: Path) -> None:
    """Of a ring nobody wrote how much goes on at once, so its loads are not known."""
    ring = KITCHEN.replace("equipment: {", "equipment: {ring: {kind: range}, ")
    ring = ring.replace("price: 90", "price: 90, holds: 4 kg")
    assert ring != KITCHEN
    cook = FILES["cooks/a.yaml"].replace("pot", "ring").replace("how: oven", "how: pan")
    files = {
        "kitchen.yaml": ring,
        "cooks/a.yaml": FILES["cooks/a.yaml"] + "for: 2 h\n",
        "cooks/b.yaml": cook + "for: 9 min\npiece: {weight: 200 g}\n",
        "plates/three.yaml": FILES["plates/two.yaml"].replace("cook: a", "cook: b"),
    }
    lead = equipment_page(view_of(tmp_path, files)).answer
    known = (
        "The use of Ring is not known; nothing else is over-booked in a week as sold in Sep 2026;"
    )
    assert lead.startswith(known)


def test_without_a_count_no_hours_are_booked(tmp_path: Path) -> None:
    bare = {f"plates/{n}.yaml": FILES[f"plates/{n}.yaml"].split("sold")[0] for n in ("one", "two")}
    lead = equipment_page(view_of(tmp_path, bare)).answer
    assert (
        lead
        == "No plate that uses it has a forecast or a count of its sales, so no hours are booked."
    )


def test_a_forecast_of_what_no_equipment_cooks_books_no_hours(tmp_path: Path) -> None:
    """Of two plates only the one with a forecast is cooked on nothing that the kitchen names."""
    files = {f"plates/{n}.yaml": FILES[f"plates/{n}.yaml"].split("sold")[0] for n in ("one", "two")}
    files["cooks/bare.yaml"] = FILES["cooks/a.yaml"].replace("equipment: pot\n", "")
    files["plates/two.yaml"] = "menu: mains\ncook: bare\nportion: 200 g\nprice: 20\nforecast: 40\n"
    lead = equipment_page(view_of(tmp_path, files)).answer
    assert lead.startswith("No plate that uses it has a forecast")


def test_a_title_of_several_needs_no_verb(tmp_path: Path) -> None:
    """Titles may be plural: no sentence with one has a verb that would have to agree with it."""
    cook = FILES["cooks/a.yaml"].replace("cut:", "name: Pork cheeks\ncut:", 1)
    view = view_of(tmp_path, {"cooks/a.yaml": cook})
    said = " ".join(notes(plate_page(view, view.costed.content.plates["one"])))
    assert "no hours are stated for Pork cheeks" in said
    assert "Pork cheeks states" not in said
