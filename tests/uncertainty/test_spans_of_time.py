"""What a week, a month, a year or an hour earns is written to three figures."""

from __future__ import annotations

import re

from tests.live.test_recomputed import KITCHENS, view_of
from tests.uncertainty.test_fineness import figures, pages

EARNED = {"money/week", "money/month", "money/year", "money/h earned", "count down"}
NUMBER = re.compile(r"\d[\d,]*(?:\.(\d+))?")


def test_what_a_span_of_time_earns_has_three_figures() -> None:
    """Without coins from ten up, with an interval or without one: nobody knows a week closer."""
    view, seen = view_of(KITCHENS["demo"]), set()
    for path, node, row, text in figures(view, pages(view)):
        if view.definition(*node).unit in EARNED and (found := NUMBER.search(text)):
            seen.add(node)
            digits = found[0].replace(",", "")
            assert "." not in digits or float(digits) < 10, (path, node, row, text)
            assert len(digits.rstrip("0").replace(".", "").strip("0")) <= 3, (path, node, text)
    assert {
        ("plate", "margin_per_equipment_hour"), ("plate", "portions_a_week"),
        ("set_menu", "week_margin"), ("buffet", "week_margin"),
    } <= seen  # fmt: skip
