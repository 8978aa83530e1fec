"""Words about times of a core that its page says in several places."""

from __future__ import annotations

from builder.cooking.ranges import Range
from builder.display.estimates import Way, about, about_span
from builder.pages.view import View


def minutes(view: View, amount: float) -> str:
    """A time [min] that a file or a rule states, as the kitchen writes it."""
    return view.style.duration(amount / 60)


def estimated(view: View, amount: float, way: Way = "up", limit: float | None = None) -> str:
    """A time [min] from a model, without crossing a limit [min]."""
    return about(view.style, amount, way, limit)


def span(view: View, reach: Range, limit: float | None = None) -> str:
    """From the fast to the slow end; an end beyond the limit [min] is written beyond it."""
    return about_span(view.style, reach.low, reach.high, limit)
