"""The days of the week on which something starts or is served, and the way to their prep sheets."""

from __future__ import annotations

from datetime import date

from builder.display.style import day_name
from builder.language import tr
from builder.pages.components import Link, LinkList
from builder.pages.parts import links
from builder.pages.view import View

# Names of the pages, in every language.
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
# Any Monday: days of the week are named by a date.
_MONDAY = date(2024, 1, 1)


def weekdays(view: View) -> list[int]:
    """The days, 0 for Monday, that have a prep sheet of their own."""
    plans = view.costed.services.values()
    found = {step.start.weekday() for plan in plans for step, _ in plan.starts()}
    return sorted(found | {plan.at.weekday() for plan in plans})


def weekday_name(weekday: int) -> str:
    """What a day is called, 0 for Monday.

    >>> weekday_name(3)
    'Thursday'
    """
    return day_name(_MONDAY.replace(day=_MONDAY.day + weekday))


def day_path(weekday: int) -> str:
    """The page of a day's prep sheet, 0 for Monday.

    >>> day_path(3)
    'forms/prep-thursday.html'
    """
    return f"forms/prep-{_DAYS[weekday]}.html"


def day_links(view: View) -> LinkList:
    """The way to the prep sheets of the week."""
    found = (
        Link(tr("Prep sheet, {day}", day=weekday_name(day)), f"~/{day_path(day)}")
        for day in weekdays(view)
    )
    return links(tr("Prep sheets"), found)
