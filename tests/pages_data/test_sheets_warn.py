"""Paper that goes along says what is wrong with a plan, and what a log has to show."""

from __future__ import annotations

import math

from builder.costing.clashes import check_services
from builder.pages.clash_notices import clash_problems
from builder.pages.log_sheets import log_page, prep_page
from builder.pages.pantry import item_page
from builder.pages.printed_sums import COARSE_SUMS
from builder.pages.view import View
from builder.pages.warned import cook_warnings
from tests.pages_data.kitchens import html_of, text_of
from tests.pages_data.opened import demo_view

COSTED = demo_view().costed
PROBLEMS = list(check_services(COSTED.content, COSTED.services))
VIEW = View.of(COSTED, PROBLEMS)


def test_a_prep_sheet_names_the_clashes_of_its_plan() -> None:
    told = 0
    for plan in COSTED.services.values():
        sheet = " ".join(text_of(html_of(prep_page(VIEW, plan))).split())
        own = [p for p in PROBLEMS if p.record == plan.service.path]
        own += clash_problems(VIEW, plan.service)
        told += len(own)
        for problem in own:
            assert " ".join(problem.message.split()) in sheet
    assert told == 1


def test_the_log_of_a_seared_steak_says_what_the_clause_asks_of_its_surface() -> None:
    sheet = text_of(html_of(log_page(VIEW, COSTED.content.cooks["ribeye-grill"])))
    assert "To show: top and bottom at" in sheet and "3-401.11(C)" in sheet


def test_a_sum_that_is_written_coarsely_says_so() -> None:
    """Lines of a recipe with an uncertain price need not add up to the total that is printed."""
    content = COSTED.content
    for item in (found for found in content.pantry.values() if found.of):
        page = text_of(html_of(item_page(VIEW, item)))
        row = VIEW.item(item).row
        wide = math.isfinite(VIEW.width("pantry", "ingredients_food", row))
        assert (str(COARSE_SUMS) in " ".join(page.split())) == wide, item.id
    assert "no finer" in str(COARSE_SUMS)


def test_a_warning_behind_the_name_of_its_cook_goes_on_in_small_letters() -> None:
    """As in the build's own output: "Eye of round 18h: the plan does not meet ..."."""
    view = demo_view()
    said = [
        text for cook in view.costed.content.cooks.values() for text in cook_warnings(view, cook)
    ]
    assert any(": the plan does not meet" in text for text in said)
    assert not any(": The" in text for text in said)
