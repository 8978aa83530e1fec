"""The menu's columns of the trend and of the class after labour.

Worked out by hand. That the class after labour takes the same lines of the margin less labour is
from memory of how the trade does it, no published source was read; what is steady is our rule.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.pages.components import Table
from builder.pages.menu import menu_page
from builder.pages.menu_classes import class_after_labour
from builder.pages.view import View
from tests.kitchens import write
from tests.live.test_recomputed import view_of

PLATE = "name: {}\nmenu: mains\nwith: {{beans: 1 kg}}\nprice: {}\n"
# Food 2 a plate leaves 10, 8 and 6; work at 30 an hour takes 6 of the first, 1 of the second.
FILES: Mapping[str, str] = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nlocale: en_CA\nloaded wage: 30/h\n",
    "pantry/beans.yaml": "price: 2/kg\n",
    "plates/a.yaml": PLATE.format("Slow", 12)
    + "hands on: 12 min\nsold: {2026-07: 31, 2026-08: 90, 2026-09: 50}\n",
    "plates/b.yaml": PLATE.format("Quick", 10)
    + "hands on: 2 min\nsold: {2026-08: 52, 2026-09: 50}\n",
    "plates/c.yaml": PLATE.format("Silent", 8) + "sold: {2026-09: 20}\n",
}


def columns(view: View, *keys: str) -> dict[str, tuple[str, ...]]:
    """Some cells of every plate of the menu."""
    parts = menu_page(view).sections
    table = next(part for part in parts if isinstance(part, Table) and part.id == "plates")
    numbers = [[column.key for column in table.columns].index(key) for key in keys]
    return {
        str(row.cells[0].text): tuple(str(row.cells[n].text) for n in numbers) for row in table.rows
    }


def test_the_line_is_of_plates_whose_labour_is_known(tmp_path: Path) -> None:
    view = view_of(write(tmp_path, FILES))
    section = view.section("mains")
    assert section.number("dividing_margin") == pytest.approx((500 + 400 + 120) / 120)
    assert section.number("dividing_after_prime") == pytest.approx((50 * 4 + 50 * 7) / 100)


def test_a_class_that_labour_turns_is_said_beside_the_usual_one(tmp_path: Path) -> None:
    view = view_of(write(tmp_path, FILES))
    assert columns(view, "class", "labour") == {
        "Slow": ("sells and earns", "earns little"),
        "Quick": ("sells, earns little", "earns"),
        "Silent": ("neither", "not known"),
    }
    plates = view.costed.content.plates
    assert class_after_labour(view, plates["a"]) == "sells, earns little"
    assert class_after_labour(view, plates["b"]) == "sells and earns"


def test_where_labour_turns_nothing_the_class_is_the_same(tmp_path: Path) -> None:
    quick = FILES["plates/a.yaml"].replace("12 min", "2 min")
    found = columns(view_of(write(tmp_path, {**FILES, "plates/a.yaml": quick})), "labour")
    assert found == {"Slow": ("same",), "Quick": ("same",), "Silent": ("not known",)}


def test_without_a_wage_no_class_after_labour_is_known(tmp_path: Path) -> None:
    kitchen = FILES["kitchen.yaml"].replace("loaded wage: 30/h\n", "")
    found = columns(view_of(write(tmp_path, {**FILES, "kitchen.yaml": kitchen})), "labour")
    assert set(found.values()) == {("not known",)}


def test_alone_in_its_section_with_known_labour_a_plate_is_its_own_line(tmp_path: Path) -> None:
    idle = FILES["plates/b.yaml"].replace("hands on: 2 min\n", "")
    found = columns(view_of(write(tmp_path, {**FILES, "plates/b.yaml": idle})), "labour")
    assert set(found.values()) == {("not known",)}


def test_the_trend_is_of_plates_a_day_since_the_first_month_counted(tmp_path: Path) -> None:
    """31 in a month of 31 days is 1 a day, 50 in one of 30 days 1.67; 52 in 31 days is 1.68."""
    view = view_of(write(tmp_path, FILES))
    found = columns(view, "trend")
    assert "↑ up 67%" in found["Slow"][0]
    assert "→ steady" in found["Quick"][0]
    assert found["Silent"] == ("",)
    row = view.plate(view.costed.content.plates["a"])
    assert row.number("sold_change") == pytest.approx((50 / 30) / (31 / 31) - 1)


def test_what_was_not_sold_at_first_has_no_trend(tmp_path: Path) -> None:
    none = FILES["plates/b.yaml"].replace("2026-08: 52", "2026-08: 0")
    found = columns(view_of(write(tmp_path, {**FILES, "plates/b.yaml": none})), "trend")
    assert found["Quick"] == ("",)
