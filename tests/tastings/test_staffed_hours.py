"""A tasting's plan against the hours in which somebody is in the kitchen."""

from __future__ import annotations

import pytest

from builder.costing.tasting_hours import served_at
from builder.pages.tasting_plan import before
from builder.problems import Problem
from tests.tastings.kitchens import KITCHEN, PLACE, computed

# 36 h before 15:00 on Wednesday 14 Oct 2026 is Tuesday 3:00.
PLAN = """test: scores
samples: {short: chuck-24h, long: chuck-36h}
date: 2026-10-14
serve at: 15:00
tasters: 6
attributes: {tenderness: 9-point}
seed: nine grey geese over the weir
"""
OVER = "date: 2026-09-14"


def warned(plan: str = PLAN, staffed: str = "05:00-23:00") -> list[Problem]:
    """What is said of hands outside the staffed hours."""
    kitchen = KITCHEN["kitchen.yaml"] + (f"staffed: {staffed}\n" if staffed else "")
    _, problems = computed({"kitchen.yaml": kitchen, PLACE: plan})
    return [each for each in problems if "staffed hours" in each.message]


def test_a_cook_that_goes_in_at_night_is_warned_of_with_an_hour_that_fits() -> None:
    """36 h before 17:00 is 5:00, the first moment at which somebody is there."""
    (problem,) = warned()
    assert "start the cook Tue 3:00 a.m. (36 h)" in problem.message.replace(
        "\N{NO-BREAK SPACE}", " "
    )
    assert "24 h" not in problem.message
    assert problem.hint == "write serve at: 17:00"
    assert (problem.place.file, problem.place.line) == (PLACE, 4)
    assert not warned(PLAN.replace("15:00", "17:00"))


@pytest.mark.parametrize("staffed", ["", "00:00-24:00", "{tue: 02:00-20:00, wed: 09:00-22:00}"])
def test_a_plan_within_the_hours_and_a_kitchen_without_any_are_not_warned_of(staffed: str) -> None:
    assert warned(staffed=staffed, plan=PLAN.replace("short: chuck-24h, ", "")) == []


def test_a_day_that_no_hour_fits_says_which_sample_is_in_the_way() -> None:
    (problem,) = warned(staffed="{wed: 09:00-22:00}")
    assert "choose another day, or taste 36 h and 24 h another time" in problem.hint


def test_the_last_sample_is_tasted_within_the_hours_too() -> None:
    """The session begins within them and runs past their end."""
    (problem,) = warned(PLAN.replace("15:00", "22:55"))
    assert "serve everything" in problem.message and "start the cook" not in problem.message


@pytest.mark.parametrize(
    "other",
    [PLAN.replace("date: 2026-10-14", OVER), PLAN.replace("serve at: 15:00\n", "")],
)
def test_what_is_over_or_has_no_hour_is_not_warned_of(other: str) -> None:
    assert warned(other) == []


def test_hours_are_kept_in_a_night_in_which_the_clocks_change() -> None:
    """24 h before 15:00 on Sunday 1 Nov 2026 is 16:00 on Saturday: the clocks go back at 2:00.

    In Canada they do so on the first Sunday in November; the zone's table is Python's own.
    """
    plan = PLAN.replace("2026-10-14", "2026-11-01")
    zone = KITCHEN["kitchen.yaml"] + "time zone: America/Toronto\n"
    view, problems = computed({"kitchen.yaml": zone, PLACE: plan})
    assert view is not None
    [result] = view.costed.tastings.values()
    assert before(view, result.tasting, 13 * 60) == "Nov 1, 2026, 2:00\xa0a.m."
    assert before(view, result.tasting, 24 * 60) == "Oct 31, 2026, 4:00\xa0p.m."
    [problem] = [each for each in problems if "the clocks go" in each.message]
    assert problem.message.replace("\N{NO-BREAK SPACE}", " ") == (
        "the clocks go back by 60 minutes on Sun 2:00 a.m. (Nov 1, 2026), between the first start "
        "and serving"
    )
    assert (problem.place.file, problem.place.line) == (PLACE, 4)


def test_an_hour_that_the_clock_leaves_out_is_the_one_that_it_shows_then() -> None:
    """In Canada clocks go from 2:00 to 3:00 on the second Sunday of March: 14 Mar 2027."""
    plan = PLAN.replace("2026-10-14", "2027-03-14").replace("15:00", "02:30")
    zone = KITCHEN["kitchen.yaml"] + "time zone: America/Toronto\n"
    view, _ = computed({"kitchen.yaml": zone, PLACE: plan})
    assert view is not None
    [result] = view.costed.tastings.values()
    at = served_at(view.costed.content, result.tasting)
    assert at is not None and f"{at:%H:%M}" == "03:30"
    assert before(view, result.tasting, 60) == "Mar 14, 2027, 1:30\xa0a.m."
