"""The input at which a swap earns nothing more: put back, both plates leave the same margin.

No outside source has these limits; they are held to the model that they come from, moved there.
"""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.costing.costed import Costed
from builder.engine.figures import Figures
from tests.money.test_swaps import (
    KITCHEN,
    is_nothing,
    of_challenger,
    swap_value,
    swaps,
    with_cook_yield,
)
from tests.moving import with_row
from tests.yields.test_chain import costed

_PRICE = re.compile(r"^price: .*\n", re.MULTILINE)


@st.composite
def priced_swaps(draw: st.DrawFn) -> dict[str, str]:
    """Swaps whose plates are sold at prices of their own."""
    files = draw(swaps())
    for name in ("rib", "shank"):
        plate = _PRICE.sub("", files[f"plates/{name}.yaml"])
        files[f"plates/{name}.yaml"] = f"{plate}price: {draw(st.integers(5, 60))}.00\n"
    return files


def _changes(figures: Figures) -> list[float]:
    column: list[float] = figures.column("swap", "margin_change")[0].tolist()
    return column


def _check(figures: Figures, figure: str, node: tuple[str, str], row: int) -> None:
    limit = swap_value(figures, figure)
    if math.isnan(limit):
        ends = _changes(with_row(figures, node, row, [0.0, 1e6]))
        touching = [is_nothing(end, figures) for end in ends]
        assert len({end > 0 for end in ends}) == 1 or any(touching)
        return
    moved = with_row(figures, node, row, [limit])
    assert is_nothing(swap_value(moved, "margin_change"), moved)


@settings(max_examples=60, deadline=None)
@given(priced_swaps())
def test_limits_put_back_leave_both_the_same_margin(files: dict[str, str]) -> None:
    kitchen = costed(files)
    figures = kitchen.figures
    _, cut = of_challenger(figures, 0)
    _check(figures, "equal_margin_ap_price", ("cut", "ap_price"), cut)
    _check(figures, "equal_margin_wage", ("kitchen", "loaded_wage"), 0)


@settings(max_examples=60, deadline=None)
@given(priced_swaps())
def test_a_loss_put_back_leaves_both_the_same_margin_by_weight(files: dict[str, str]) -> None:
    kitchen = costed({**files, "kitchen.yaml": KITCHEN.format(basis="by weight")})
    factor = swap_value(kitchen.figures, "equal_margin_yield_factor")
    if math.isnan(factor):
        return
    now = swap_value(kitchen.figures, "cook_yield")
    moved = with_cook_yield(kitchen, 0, now * factor)
    assert is_nothing(swap_value(moved, "margin_change"), moved)
    loss = swap_value(kitchen.figures, "equal_margin_cook_loss")
    assert math.isnan(loss) == (now * factor > 1)
    assert math.isnan(loss) or 1 - loss == pytest.approx(now * factor, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(priced_swaps())
def test_up_to_the_loss_by_whole_portions_it_never_earns_less(files: dict[str, str]) -> None:
    kitchen = costed({**files, "kitchen.yaml": KITCHEN.format(basis="whole")})
    loss = swap_value(kitchen.figures, "equal_margin_cook_loss_whole")
    if math.isnan(loss):
        return
    limit = 1 - loss
    within = with_cook_yield(kitchen, 0, *np.linspace(limit * (1 + 1e-7), 1.0, 120).tolist())
    assert all(x > 0 or is_nothing(x, kitchen.figures) for x in _changes(within))
    if swap_value(kitchen.figures, "portions_to_equal_margin") > 1:
        beyond = with_cook_yield(kitchen, 0, limit * (1 - 1e-6))
        change = swap_value(beyond, "margin_change")
        assert change < 0 or is_nothing(change, kitchen.figures)


def _sold_at(old: str, new: str) -> Costed:
    plate = "menu: mains\ncook: {}\nportion: 200 g\nprice: {}\nhands-on: 0 min\n"
    cook = "cut: {}\nhow: oven\nload: 5 kg\nloss: 20 %\nhands-on: 0 min\n"
    return costed(
        {
            "kitchen.yaml": "name: K\ncurrency: CAD\nportions: by weight\n",
            "cuts/a.yaml": "species: beef\nprice: 40.00/kg\n",
            "cuts/b.yaml": "species: beef\nprice: 8.00/kg\n",
            "cooks/a.yaml": cook.format("a"),
            "cooks/b.yaml": cook.format("b"),
            "plates/a.yaml": plate.format("a", old),
            "plates/b.yaml": plate.format("b", new),
            "swaps/b-for-a.yaml": "benchmark: a\nchallengers: [b]\n",
        }
    )


def test_a_dear_limit_of_the_saving_hides_a_near_one_of_the_margin() -> None:
    """By hand: 200 g of what 80 % leave take 0.25 kg; they cost 10.00 at 40.00 and 2.00 at 8.00.

    Sold for 7.00 less, the challenger earns 1.00 more; that is gone at 8.00 + 1.00 / 0.25 = 12.00
    a kilogram, while the saving of 8.00 is gone at 40.00 only. At a cook loss x 0.2 / (1 - x)
    kg at 8.00 are 3.00 at x = 1 - 1.6 / 3 = 46.67 %.
    """
    figures = _sold_at("30.00", "23.00").figures
    assert swap_value(figures, "margin_change") == pytest.approx(1)
    assert swap_value(figures, "equal_margin_ap_price") == pytest.approx(12)
    assert swap_value(figures, "break_even_ap_price") == pytest.approx(40)
    assert swap_value(figures, "equal_margin_cook_loss") == pytest.approx(1 - 1.6 / 3)


def test_at_one_price_margin_and_saving_end_together() -> None:
    figures = _sold_at("30.00", "30.00").figures
    for margin, saving in (
        ("equal_margin_ap_price", "break_even_ap_price"),
        ("equal_margin_cook_loss", "break_even_cook_loss"),
    ):
        assert swap_value(figures, margin) == pytest.approx(swap_value(figures, saving))
