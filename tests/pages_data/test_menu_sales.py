"""What a month of plates was sold for is written without coins on the menu."""

from __future__ import annotations

import re

from builder.pages.components import Figures, walk
from builder.pages.menu import menu_page
from tests.pages_data.opened import demo_view


def test_sales_on_the_menu_have_no_coins() -> None:
    sections = menu_page(demo_view()).sections
    tiles = [tile for each in walk(sections) if isinstance(each, Figures) for tile in each.tiles]
    sales = [str(tile.value) for tile in tiles if str(tile.label).startswith("Sales")]
    assert len(sales) > 3
    assert [each for each in sales if not re.fullmatch(r"\$\d+(,\d{3})*", each)] == []
