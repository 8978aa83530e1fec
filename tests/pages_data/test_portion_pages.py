"""What pages say of a plate with several portions, one of them of a cut without a cook."""

from __future__ import annotations

import re

from builder.pages.components import Page
from builder.pages.cooks import cook_page
from builder.pages.counts import count_pages
from builder.pages.cuts import cut_page
from builder.pages.log_sheets import prep_page
from builder.pages.plates import plate_page
from builder.pages.schedule import schedule_pages
from tests.pages_data.kitchens import SMALL, by_path, html_of, text_of, view_of

VIEW = view_of(
    {
        **SMALL,
        "cuts/oyster.yaml": "species: other\nprice: 1.40/each\neach: 84 g\ntrim: {loss: 85 %}\n",
        "plates/both.yaml": "name: Both\nmenu: mains\nprice: 40\nforecast: 20\n"
        "portions: [[chuck-30h, 180 g], {cut: oyster, portion: 3 pieces}]\n",
        "services/friday.yaml": "day: friday\nat: 18:00\nplates: {both: 12}\n",
        "counts/week.yaml": "from: 2026-09-21\nto: 2026-09-27\nplates: {both: 30}\n",
    }
)


def words(page: Page) -> str:
    return re.sub(r"\s+", " ", text_of(html_of(page)))


def test_the_plate_has_each_portion_and_what_to_buy_for_it() -> None:
    said = words(plate_page(VIEW, VIEW.costed.content.plates["both"]))
    for text in (
        "Chuck 30h Portion 180 g",
        "Cut, no cook Oyster Portion 3 pieces",
        "Each portion of the plate",
        "Further portions $4.20",  # three of 1.40
        "How much to buy for Oyster",
        "Oyster: served without a cook.",
    ):
        assert text in said, text


def test_cook_and_cut_lead_back_to_the_plate() -> None:
    content = VIEW.costed.content
    assert "portion of 180 g" in words(cook_page(VIEW, content.cooks["chuck-30h"]))
    said = words(cut_page(VIEW, content.cuts["oyster"]))
    assert "it is served without a cook in Both" in said
    assert "portion of 3 pieces" in said


def test_a_service_and_its_prep_sheet_name_what_no_cook_makes() -> None:
    service = words(by_path(schedule_pages(VIEW))["services/friday.html"])
    assert "180 g with 3 pieces Oyster" in service
    assert "Oyster: served without a cook." in service
    sheet = words(prep_page(VIEW, VIEW.costed.services["friday"]))
    assert "12 × Both: 180 g Chuck 30h and 3 pieces Oyster" in sheet


def test_a_count_says_which_portions_it_follows() -> None:
    said = words(by_path(count_pages(VIEW))["counts/week.html"])
    assert "the further ones of Both are in the parts of their cuts." in said


def test_a_plate_with_one_portion_has_no_further_lines() -> None:
    said = words(plate_page(VIEW, VIEW.costed.content.plates["chuck-steak"]))
    assert "urther portions" not in said
    assert "Each portion" not in said
