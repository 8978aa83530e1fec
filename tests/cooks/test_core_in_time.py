"""A core's times are written on the side of the cook's length on which they are."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.pages.cooks import cook_page
from tests.cooks.kitchens import COOK, changed
from tests.kitchens import write
from tests.live.test_recomputed import view_of
from tests.pages_data.kitchens import html_of, text_of


def minutes(words: str) -> float:
    """A time as a page writes it."""
    hours, rest = re.search(r"(\d+) h", words), re.search(r"(\d+) min", words)
    return 60 * float(hours[1] if hours else 0) + float(rest[1] if rest else 0)


@pytest.mark.parametrize("length", [88, 90, 92, 94, 96, 98, 100, 104, 110, 130, 150])
def test_a_core_is_there_in_time_as_its_figure_says(length: int, tmp_path: Path) -> None:
    files = changed(COOK, ("30 h", f"{length} min"), ("60 mm", "35 mm"), ("57 °C", "63 °C"))
    view = view_of(write(tmp_path, files))
    cook = view.costed.content.cooks["chuck-30h"]
    row, page = view.batch(cook), " ".join(text_of(html_of(cook_page(view, cook))).split())
    slow = 60 * row.number("time_to_core_slow")
    tile = re.search(r"slow end about (\d[^a-z]*(?:h|min)(?:\s\d+\smin)?)", page)
    span = re.search(r"to (\d[^a-z]*(?:h|min)(?:\s\d+\smin)?) from the fast to the slow end", page)
    assert tile is not None
    assert span is not None
    for found in (tile, span):
        assert (minutes(found[1]) > length) is (slow > length)
        assert slow <= minutes(found[1]) <= slow * 9 / 8
