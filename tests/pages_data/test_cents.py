"""Printed amounts and their printed sums: where a coin is missing the page says why."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.printed_sums import TO_THE_COIN, sums_words
from builder.pages.view import View
from tests.kitchens import costed_from, write

FILES = {
    "kitchen.yaml": "name: Invented kitchen\ncurrency: CAD\nloaded wage: 20.00/h\n",
    "pantry/a.yaml": "price: 10.00/kg\nallergens: none\n",
    "pantry/b.yaml": "price: 10.00/kg\nallergens: none\n",
    "cuts/c.yaml": "species: beef\nprice: 10.00/kg\nallergens: none\n",
}
PLATE = "menu: mains\nportion: {portion}\ncut: c\nwith: {{a: {side}}}\nprice: 20.00\n"


@pytest.mark.parametrize(
    ("portion", "side", "is_off"),
    [("100.4 g", "100.4 g", True), ("100 g", "100 g", False)],
)
def test_a_plate_whose_cents_do_not_add_up_says_so(
    portion: str, side: str, is_off: bool, tmp_path: Path
) -> None:
    """1.004 and 1.004 are 2.008: 1.00 and 1.00 on the page, and 2.01 below them."""
    plate = PLATE.format(portion=portion, side=side)
    costed = costed_from(write(tmp_path, {**FILES, "plates/p.yaml": plate}))
    view = View.of(costed, [])
    said = sums_words(view, [costed.content.plates["p"]])
    assert said == (str(TO_THE_COIN) if is_off else "")
