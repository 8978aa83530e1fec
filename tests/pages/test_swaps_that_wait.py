"""Home's row for a swap that waits for a cook's plan, and the picture of a swap's margins."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.pages.components import Chart
from builder.pages.crossovers import cost_crossover, margin_crossover
from builder.pages.home_actions import worth_words
from builder.pages.home_rows import action_row
from builder.pages.swap_counts import pairs
from builder.pages.swaps import swap_pages
from builder.pages.worth_doing import actions
from tests.pages_data.opened import demo_view


def test_a_swap_whose_cook_fails_is_listed_as_the_plan_to_fix_and_not_summed() -> None:
    view = demo_view()
    found = actions(view)
    waiting = [each for each in found if each.kind == "plan"]
    assert {each.swap.id for each in waiting if each.swap} == {"pork-butt-for-loin"}
    assert str(action_row(view, waiting[0]).cells[0].text).startswith("Fix the plan of ")
    assert "does not meet the rules" in str(action_row(view, waiting[0]).cells[-1].text)
    assert worth_words(view, waiting) == ""
    # To drop the sandwich is worth more than to put it in another's place.
    [drop] = [each for each in found if each.kind == "drop" and each.plate.id == "chuck-sandwich"]
    said = str(action_row(view, drop).cells[-1].text)
    assert "the swap Chuck for eye of round in the sandwich instead would bring " in said
    assert said.endswith(" a month, once a cook's plan is fixed")


@pytest.mark.parametrize("crossover", [margin_crossover, cost_crossover])
def test_both_lines_of_a_picture_meet_where_it_says_so(
    crossover: Callable[..., Chart | None],
) -> None:
    """By hand: each line goes through its ends, so its height at the marked price is between."""
    view = demo_view()
    swap = view.costed.content.swaps["chuck-for-ribeye"]
    (plate, row), *_ = pairs(view, swap)
    chart = crossover(view, plate, view.costed.content.plates[swap.benchmark], row)
    assert chart is not None
    first, last, low, high = _points(chart, "line")
    ((price, cost),) = _points(chart, "break-even")
    for start, end in ((first, last), (low, high)):
        share = (price - start[0]) / (end[0] - start[0])
        assert start[1] + share * (end[1] - start[1]) == pytest.approx(cost)


def _points(chart: Chart, role: str) -> list[tuple[float, float]]:
    """Price and amount of the rows with a role."""
    found = (each for each in chart.rows if each["role"] == role)
    return [(float(str(each["price"])), float(str(each["cost"]))) for each in found]


def test_the_money_of_a_challenger_whose_cook_fails_begins_a_paragraph() -> None:
    pages = {page.path: page for page in swap_pages(demo_view())}
    page = pages["swaps/pork-butt-for-loin.html"]
    assert page.alarm and "does not meet" in page.lead
    earns = "Pork shoulder with roots: "
    assert [said.startswith(earns) for said in page.also if earns in said] == [True]
