"""Where only energy has a range nothing is claimed of how sure a plate or a swap is."""

from __future__ import annotations

from math import isfinite, isnan
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.swaps import swap_pages
from builder.pages.view import View
from tests.kitchens import costed_from, write

KITCHEN = (
    "name: K\ncurrency: CAD\nas of: 2026-10-01\nenergy: 0.14/kWh\nloaded wage: 24/h\n"
    "equipment:\n  tub: {kind: water bath, volume: 40 L, holds: 12 kg, cover: lid, "
    "measured standby: 0.2 kW}\n"
)
BATH = (
    "cut: chuck\nhow: water bath\nat: 57 °C\nfor: 30 h\nload: 8 kg\nequipment: tub\n"
    "piece: {shape: slab, thickness: 60 mm, starts at: 4 °C, weight: 2 kg}\nloss: 20 %\n"
)
FILES = {
    "kitchen.yaml": KITCHEN,
    "cuts/chuck.yaml": "species: beef\nprice: 13.00/kg\ntrim: 15 %\n",
    "cuts/rib.yaml": "species: beef\nprice: 36.00/kg\ntrim: 8 %\n",
    "cooks/bath.yaml": BATH,
    "cooks/grill.yaml": "cut: rib\nhow: grill\nfor: 12 min\nload: 5 kg\n"
    "piece: {weight: 250 g}\nloss: 18 %\n",
    "plates/chuck.yaml": "menu: mains\ncook: bath\nportion: 180 g\nprice: 26\n",
    "plates/rib.yaml": "menu: mains\ncook: grill\nportion: 200 g\nprice: 38\nforecast: 60\n",
    "swaps/chuck.yaml": "benchmark: rib\nchallengers: [chuck]\n",
}
LITTLE = "Little is known of how sure this is: prices and yields are held at what is written."


def page(kitchen: Costed) -> str:
    return str(list(swap_pages(View.of(kitchen, ()))))


@pytest.fixture(scope="module")
def energy(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("energy"), FILES))


def test_no_interval_and_no_chance_rest_on_energy_alone(energy: Costed) -> None:
    known = energy.uncertainty
    assert known is not None
    assert list(known.spreads) == [("batch", "modelled_energy")]
    for table, figure in (("swap", "margin_change"), ("swap", "saving"), ("plate", "full_cost")):
        assert all(
            isnan(energy.figures.value(table, f"{figure}_{end}", 0)) for end in ("low", "high")
        )
    assert isnan(energy.figures.value("swap", "chance_earns_more", 0))


def test_the_page_says_so(energy: Costed) -> None:
    words = page(energy)
    assert LITTLE in words
    assert "alone moves it" in words
    assert "hardly uncertain" not in words and "times in 10" not in words


def test_a_price_with_a_range_brings_the_interval_back(tmp_path: Path) -> None:
    cut = FILES["cuts/chuck.yaml"] + "give or take: {price: 10 %}\n"
    kitchen = costed_from(write(tmp_path, {**FILES, "cuts/chuck.yaml": cut}))
    value = kitchen.figures.value
    low, high = (value("swap", f"margin_change_{end}", 0) for end in ("low", "high"))
    assert isfinite(low) and low < high
    assert isfinite(kitchen.figures.value("swap", "chance_earns_more", 0))
    assert LITTLE not in page(kitchen)
