"""Plates that set menus' guests take: a week of equipment, by hand."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.components import Table, walk
from builder.pages.equipment import equipment_page
from builder.pages.plates import plate_page
from builder.pages.set_menus import set_menu_pages
from builder.pages.view import View
from tests.kitchens import costed_from, write
from tests.menus.kitchens import BASE
from tests.moving import with_row
from tests.pages_data.kitchens import html_of, text_of

# A load of 6 kg gives 4 kg, which is 20 portions of 200 g; 24 h a load.
BRAISED = {
    **BASE,
    "kitchen.yaml": BASE["kitchen.yaml"] + "equipment:\n  bath: {kind: water bath, holds: 6 kg}\n",
    "cuts/shoulder.yaml": "species: lamb\nprice: 12.00/kg\nallergens: none\n",
    "cooks/braise.yaml": (
        "cut: shoulder\nhow: water bath\nat: 66 °C\nfor: 24 h\nload: 6 kg\nequipment: bath\n"
        "yield: 66.66666666666667 %\nhands-on: 30 min\n"
    ),
    "plates/stew.yaml": (
        "menu: mains\ncook: braise\nportion: 200 g\nprice: 22.00\nhands-on: 6 min\nforecast: 40\n"
    ),
    "plates/pie.yaml": (
        "menu: mains\nwith: {beef: 1 each}\nprice: 24.20\nportions:\n"
        "  - {cook: braise, portion: 100 g}\n"
    ),
}
PLAIN = {path: text for path, text in BRAISED.items() if not path.startswith("menus/")}


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), BRAISED))


def plate(costed: Costed, name: str, figure: str) -> float:
    return costed.figures.value("plate", figure, costed.rows.plates[name])


def batch(costed: Costed, figure: str) -> float:
    return costed.figures.value("batch", figure, costed.rows.cooks["braise"])


def test_what_a_menus_guests_take_comes_on_top_of_what_is_sold_on_its_own(costed: Costed) -> None:
    """50 guests: 25 take the stew, 12.5 the pie, of which none is sold on its own."""
    assert plate(costed, "stew", "weekly_count") == 40
    assert plate(costed, "stew", "menu_plates_a_week") == pytest.approx(25)
    assert plate(costed, "stew", "plates_to_make") == pytest.approx(65)
    assert plate(costed, "pie", "plates_to_make") == pytest.approx(12.5)
    assert math.isnan(plate(costed, "pie", "weekly_count"))


def test_a_weeks_loads_and_hours_are_of_both(costed: Costed) -> None:
    """65 stews at 20 a load and 12.5 pies at 40: 3.5625 loads of 24 h."""
    assert batch(costed, "loads_needed") == pytest.approx(65 / 20 + 12.5 / 40)
    assert batch(costed, "booked_hours") == pytest.approx(24 * 3.5625)


def test_money_by_the_month_is_of_what_is_sold_at_the_plates_own_price(costed: Costed) -> None:
    assert plate(costed, "stew", "monthly_count") == pytest.approx(40 * 52 / 12, rel=0.01)


def test_more_guests_need_more_loads(costed: Costed) -> None:
    row = costed.rows.menus["sunday"].row
    moved = with_row(costed.figures, ("set_menu", "guests"), row, [90])
    found = moved.value("batch", "loads_needed", costed.rows.cooks["braise"])
    assert found == pytest.approx((40 + 45) / 20 + 22.5 / 40)


def test_without_guests_only_what_is_sold_on_its_own_counts(tmp_path: Path) -> None:
    unknown = BRAISED["menus/sunday.yaml"].replace("guests: 50\n", "")
    for number, files in enumerate((PLAIN, {**BRAISED, "menus/sunday.yaml": unknown})):
        costed = costed_from(write(tmp_path / str(number), files))
        assert plate(costed, "stew", "plates_to_make") == 40
        assert math.isnan(plate(costed, "pie", "plates_to_make"))
        # The pie is not counted, so its loads are not in it.
        assert batch(costed, "loads_needed") == pytest.approx(2)


def test_pages_say_what_is_sold_on_its_own_and_what_guests_take(costed: Costed) -> None:
    view = View.of(costed, [])
    page = next(page for page in set_menu_pages(view) if page.title == "Sunday")
    [week] = [each for each in walk(page.sections) if getattr(each, "id", "") == "week-plates"]
    assert isinstance(week, Table)
    found = {cells[0]: cells[1:] for cells in ([str(c.text) for c in r.cells] for r in week.rows)}
    assert [text_of(each) for each in found["Stew"]] == ["25", "25", "40", "65"]
    stew = text_of(html_of(plate_page(view, costed.content.plates["stew"])))
    assert "To make 65" in " ".join(stew.split())
    assert "what guests of set menus take comes on top" in stew
    equipment = equipment_page(view)
    assert equipment.answer == (
        "Nothing is over-booked in a week's forecast with the guests of set menus; "
        "the busiest is Bath, 50.9% of the hours there."
    )


def test_a_kitchen_without_guests_says_nothing_of_them(tmp_path: Path) -> None:
    costed = costed_from(write(tmp_path, PLAIN))
    view = View.of(costed, [])
    shown = plate_page(view, costed.content.plates["stew"]), equipment_page(view)
    assert all("set menu" not in html_of(page) for page in shown)
