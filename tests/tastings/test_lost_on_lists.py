"""A swap that earns more and that tasters found worse says so wherever it is proposed."""

from __future__ import annotations

import pytest

from builder.pages.home import home_page
from builder.pages.swaps import swap_pages
from tests.pages_data.kitchens import html_of, text_of
from tests.tastings.kitchens import PLACE, computed

PLATE = "menu: mains\ncook: chuck-24h\nportion: 200 g\nprice: 60.00\n"
SWAP = "benchmark: ribeye-steak\nchallengers: [steak]\ntasting: trial\nforecast: 50\n"
TASTING = (
    "test: scores\nsamples: {rib: ribeye-grill, chuck: chuck-24h}\nbenchmark: rib\n"
    "tasters: 10\nattributes: {tenderness: 9-point, flavour: 9-point}\nmargin: 10 %\nscores:\n"
)


def listed(chuck: int) -> tuple[str, str]:
    """What the first page and the list of swaps say where the ribeye scores 7 or 8 of 9."""
    rows = [
        f"  T{n}: {{rib: [{7 + n % 2}, 7], chuck: [{chuck + n % 2 - (n == 1)}, 7]}}"
        for n in range(1, 11)
    ]
    tasting = TASTING + "\n".join(rows) + "\n"
    view, problems = computed({"plates/steak.yaml": PLATE, "swaps/a.yaml": SWAP, PLACE: tasting})
    assert view is not None, problems
    swaps, *_ = swap_pages(view)
    return text_of(html_of(home_page(view))), text_of(html_of(swaps))


@pytest.mark.parametrize(("chuck", "lost"), [(4, True), (7, False)])
def test_what_tasters_found_worse_is_said_beside_what_it_earns(chuck: int, lost: bool) -> None:
    home, swaps = listed(chuck)
    assert "Swap Ribeye steak for Steak" in home
    assert ("tasters found it worse in tenderness" in home) is lost
    assert ("Steak instead of Ribeye steak; tasters found it worse in tenderness" in swaps) is lost
