"""A cook's key figures say that their interval takes a loss as written, as swaps and plates do."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.components import Figures
from builder.pages.cooks import cook_page
from tests.kitchens import write
from tests.live.test_recomputed import view_of

FILES = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nas of: 2026-10-01\n",
    "cuts/x.yaml": "species: beef\nprice: 10/kg\ngive or take: {price: 5 %}\n",
}
COOK = "cut: x\nhow: oven\nload: 4 kg\n"
TESTS = (
    "tests: [{date: 2026-09-01, in: 4 kg, out: 3 kg}, {date: 2026-09-02, in: 4 kg, out: 2.9 kg}]\n"
)


@pytest.mark.parametrize(
    ("loss", "said"),
    [
        ("loss: 25 %\n", True),
        ("loss: 25 %\ngive or take: {loss: 2 %}\n", False),
        (TESTS, False),
    ],
)
def test_a_loss_that_nothing_weighs_is_said_beside_the_cost(
    loss: str, said: bool, tmp_path: Path
) -> None:
    view = view_of(write(tmp_path, {**FILES, "cooks/a.yaml": COOK + loss}))
    page = cook_page(view, view.costed.content.cooks["a"])
    figures = next(part for part in page.sections if isinstance(part, Figures))
    notes = {str(tile.label): str(tile.note) for tile in figures.tiles}
    costs = [notes["Cost of servable weight"], notes["Cost factor"]]
    # The factor is of weights alone: with none in doubt it has no interval.
    assert "9 times in 10" in costs[0]
    assert ["its cook loss taken as written" in note for note in costs[:1]] == [said]
    assert "as written" not in notes["Servable from a batch"]
