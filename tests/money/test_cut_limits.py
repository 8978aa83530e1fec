"""Break-evens of each cut of a surf-and-turf: the price put back makes both plates alike."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from builder.costing.costed import Costed
from builder.pages.cut_limits import cut_limits
from builder.pages.data import data_files
from builder.pages.view import View
from tests.money.test_further_portions import BASES, FILES, kitchen, plate
from tests.moving import with_row

SWAP = "swaps/one.yaml"
# Against more of the braise, against more prawns as a main portion, and against prawns beside
# another main one.
BENCHMARKS = {
    "roast": "menu: mains\ncook: braise\nportion: 400 g\nprice: 46\n",
    "prawns": "menu: mains\ncook: grill\nportion: 5 pieces\nprice: 43\n",
    "feast": (
        "menu: mains\nportions:\n  - {cook: braise, portion: 60 g}\n  - [grill, 7 pieces]\n"
        "price: 52\n"
    ),
}
EACH = pytest.mark.parametrize("benchmark", BENCHMARKS)


def swapped(folder: Path, benchmark: str, basis: str = "whole", **changed: str) -> Costed:
    files = {
        f"plates/{benchmark}.yaml": BENCHMARKS[benchmark],
        SWAP: f"benchmark: {benchmark}\nchallengers: [both]\n",
    }
    return kitchen(folder, basis, **{**files, **changed})


def limit(costed: Costed, figure: str) -> float:
    row = costed.rows.moved_cuts["one", "both", "prawn"]
    return costed.figures.value("moved_cut", figure, row)


def at_price(folder: Path, benchmark: str, basis: str, price: float) -> Costed:
    cut = FILES["cuts/prawn.yaml"].replace("price: 30/kg", f"price: {price:.9f}/kg")
    return swapped(folder, benchmark, basis, **{"cuts/prawn.yaml": cut})


@BASES
@EACH
@pytest.mark.parametrize(
    ("figure", "alike"),
    [("break_even_ap_price", "full_cost"), ("equal_margin_ap_price", "margin_after_full")],
)
def test_at_the_price_of_the_further_cut_both_plates_are_alike(
    benchmark: str, basis: str, figure: str, alike: str, tmp_path: Path
) -> None:
    price = limit(swapped(tmp_path / "now", benchmark, basis), figure)
    assert price > 0
    moved = at_price(tmp_path / "then", benchmark, basis, price)
    assert plate(moved, "both", alike) == pytest.approx(plate(moved, benchmark, alike), abs=1e-6)


def test_the_main_cut_keeps_its_own_limit(tmp_path: Path) -> None:
    """Only prawns are a further cut; the swap's own limit is the braise's price."""
    costed = swapped(tmp_path, "roast")
    assert list(costed.rows.moved_cuts) == [("one", "both", "prawn")]
    row = costed.rows.swaps["one", "both"]
    assert costed.figures.value("swap", "ap_price", row) == 14
    assert limit(costed, "ap_price") == 30


def test_a_plate_of_one_cut_has_no_further_limit(tmp_path: Path) -> None:
    costed = kitchen(tmp_path, **{SWAP: "benchmark: both\nchallengers: [turf]\n"})
    assert costed.rows.moved_cuts == {}
    view = View.of(costed, [])
    row = view.swap(costed.content.swaps["one"], "turf")
    assert cut_limits(view, costed.content.plates["turf"], row, "") is None


def test_where_no_price_ends_it_none_is_named(tmp_path: Path) -> None:
    """A benchmark that costs next to nothing is saved on by no price from zero up."""
    cheap = BENCHMARKS["roast"].replace("400 g", "20 g")
    costed = swapped(tmp_path, "roast", **{"plates/roast.yaml": cheap})
    assert np.isnan(limit(costed, "break_even_ap_price"))


def test_the_limit_follows_a_what_if(tmp_path: Path) -> None:
    """A dearer braise saves more against a roast: the prawns may cost more, too."""
    costed = swapped(tmp_path, "roast", "by weight")
    row = costed.rows.moved_cuts["one", "both", "prawn"]
    dearer = with_row(costed.figures, ("cut", "ap_price"), costed.rows.cuts["chuck"], [16.0])
    assert dearer.value("moved_cut", "break_even_ap_price", row) > limit(
        costed, "break_even_ap_price"
    )


def test_page_and_data_name_the_cut(tmp_path: Path) -> None:
    costed = swapped(tmp_path, "roast")
    view = View.of(costed, [])
    row = view.swap(costed.content.swaps["one"], "both")
    table = cut_limits(view, costed.content.plates["both"], row, "")
    assert table is not None
    [cells] = [each.cells for each in table.rows]
    assert str(cells[0].text) == "Prawn"
    assert cells[3].tries.startswith("cut.ap_price.")
    found = dict(data_files(view))["data/swap_cut_limits.csv"].decode().splitlines()
    head, line = (row.split(",") for row in found)
    values = dict(zip(head, line, strict=True))
    assert values["id"] == "one/both/prawn"
    assert float(values["break_even_ap_price"]) == limit(costed, "break_even_ap_price")
    assert head[-1] == "in_doubt"
