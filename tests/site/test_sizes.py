"""How large pages are: what one kind may take in the demo, so that growth is noticed."""

from __future__ import annotations

import pytest

from tests.site.sites import BuiltSite

BUDGETS = {
    # pages: kB in the mean, kB at most
    "plates/*.html": (20.3, 25.5),
    "cooks/*.html": (25.0, 36.5),
    "cuts/*.html": (9.3, 16.6),
    "swaps/*.html": (31.0, 48.6),
    "services/*.html": (30.8, 33.7),
    "methods/*.html": (4.7, 34.5),
    "menu.html": (45.2, 45.2),
    "index.html": (23.8, 23.8),
}


@pytest.mark.parametrize("pages", BUDGETS)
def test_pages_stay_within_their_budget(demo: BuiltSite, pages: str) -> None:
    sizes = [path.stat().st_size / 1000 for path in demo.folder.glob(pages)]
    mean, most = BUDGETS[pages]
    assert sum(sizes) / len(sizes) <= mean
    assert max(sizes) <= most
