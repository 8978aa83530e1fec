"""Where only energy has a range nothing is claimed of how sure a plate or a swap is."""

from __future__ import annotations

from math import isfinite, isnan
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.how_sure import plate_sure_part
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


def weighed(outs: tuple[str, str]) -> str:
    """The bath's cook with two weighings in place of its stated loss."""
    tests = "".join(
        f"  - {{date: 2026-09-0{day}, in: 8 kg, out: {out} kg}}\n"
        for day, out in enumerate(outs, 1)
    )
    return BATH.replace("loss: 20 %\n", f"tests:\n{tests}")


def test_a_yield_that_moves_no_whole_portion_is_not_said_to_be_held(tmp_path: Path) -> None:
    """A piece of 2 kg leaves 1.592 to 1.608 kg, 9 times in 10: eight portions of 180 g.

    That is 0.8 give or take 6.31 (t of one degree of freedom) times 0.00088 / sqrt(2).
    """
    kitchen = costed_from(
        write(tmp_path, {**FILES, "cooks/bath.yaml": weighed(("6.395", "6.405"))})
    )
    assert isnan(kitchen.figures.value("swap", "margin_change_low", 0))
    words = page(kitchen)
    assert "prices and yields are held at what is written" not in words
    said = "prices and yields that have a range do not move it, and all others are held"
    assert f"Little is known of how sure this is: {said}" in words
    assert f"so it has no interval: {said}" in words


def test_two_plates_of_one_cook_are_moved_alike(tmp_path: Path) -> None:
    """What the cook loses moves both plates by the same, so the margins are equal at any loss."""
    files = {
        **FILES,
        "cooks/bath.yaml": weighed(("6.20", "6.60")),
        "plates/rib.yaml": FILES["plates/chuck.yaml"] + "forecast: 60\n",
    }
    kitchen = costed_from(write(tmp_path, files))
    assert kitchen.figures.value("plate", "full_cost_low", 0) < kitchen.figures.value(
        "plate", "full_cost_high", 0
    )
    words = page(kitchen)
    assert "What has a range moves both plates alike." in words
    assert "What has a range moves both plates alike, so the margin change" in words
    assert "Little is known" not in words and "Nothing says how far off" not in words
    assert "whatever the loss" not in words and "small enough to save" not in words
    assert "both plates use this cook, so its loss moves both" in words


def test_energy_by_the_hour_is_held_with_its_tariff(tmp_path: Path) -> None:
    """A gas hob costed by its standby draw and hours: that draw and the gas price are held."""
    hob = "  hob: {kind: range, fuel: gas, measured standby: 4 kW}\n"
    files = {
        **FILES,
        "kitchen.yaml": KITCHEN.replace("energy:", "gas: 0.05/kWh\nenergy:") + hob,
        "cooks/grill.yaml": FILES["cooks/grill.yaml"] + "equipment: hob\n",
    }
    kitchen = costed_from(write(tmp_path, files))
    view = View.of(kitchen, ())
    held = {
        name: str(plate_sure_part(view, view.costed.content.plates[name]))
        for name in ("rib", "chuck")
    }
    assert "the measured standby" in held["rib"] and "the gas tariff" in held["rib"]
    assert "the electricity tariff" not in held["rib"]
    # The bath's energy is modelled, with a range.
    assert "the measured standby" not in held["chuck"] and "the gas tariff" not in held["chuck"]
    assert "the electricity tariff" in held["chuck"]
