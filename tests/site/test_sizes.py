"""How large pages are: what one kind may take in the demo, so that growth is noticed."""

from __future__ import annotations

import pytest

from tests.site.sites import BuiltSite

BUDGETS = {
    # pages: kB in the mean, kB at most
    "plates/*.html": (25.7, 32.0),
    "cooks/*.html": (29.7, 43.5),
    "cuts/*.html": (10.9, 19.5),
    "swaps/*.html": (33.9, 52.5),
    "services/*.html": (33.6, 36.8),
    "methods/*.html": (5.2, 35.0),
    "menu.html": (45.0, 45.0),
    "index.html": (18.8, 18.8),
}


@pytest.mark.parametrize("pages", BUDGETS)
def test_pages_stay_within_their_budget(demo: BuiltSite, pages: str) -> None:
    sizes = [path.stat().st_size / 1000 for path in demo.folder.glob(pages)]
    mean, most = BUDGETS[pages]
    assert sum(sizes) / len(sizes) <= mean
    assert max(sizes) <= most
