"""What equipment is called: its title where one is written, else its key in words, like records."""

from __future__ import annotations

from builder.pages.equipment import equipment_page
from builder.records.equipment import gear_title
from tests.pages_data.opened import demo_view, table_of


def test_pages_show_the_title_and_data_keep_the_key() -> None:
    view = demo_view()
    titles = {line["id"]: line["title"] for line in table_of(view, "equipment")}
    assert titles["bath-40"] == "Old bath of 40 L"
    assert titles["grill"] == "Grill"
    page = equipment_page(view)
    assert "bath-" not in str(page.answer)


def test_a_key_without_a_title_is_written_in_words() -> None:
    gear = demo_view().costed.content.kitchen.equipment
    assert gear_title(gear, "bath-40") == "Old bath of 40 L"
    assert gear_title(gear, "slow-oven-two") == "Slow oven two"
