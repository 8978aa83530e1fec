"""Formulas that whole kitchens rarely show apart, each against arithmetic done by hand.

Common practice, no published source: a week holds whole loads, a load whole pieces.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from builder.costing.model import MODEL
from builder.engine.arith import Column
from builder.money import capacity
from builder.money.swaps import break_even_yield_factor
from builder.yields.forms import loss_ratio, losses_ratio

assert MODEL  # tables are declared in its order


def column(*values: float) -> Column:
    return np.array(values, dtype=np.float64).reshape(-1, 1)


def one(found: Column) -> float:
    return float(np.asarray(found).ravel()[0])


def test_a_week_s_portions_are_those_of_every_load_of_every_bath() -> None:
    # 10 kg hold 4 pieces of 2.5 kg, 3 portions each; 168 h less 8 h hold 5 loads of 31 h; 2 baths.
    hours = one(capacity.available_hours(column(168), column(8)))
    cycle = one(capacity.cycle_hours(column(30), column(1)))
    loads = one(capacity.weekly_loads(column(hours), column(cycle)))
    pieces = one(capacity.pieces_a_load(column(10), column(5), column(2)))
    portions = one(capacity.portions_a_load(column(pieces), column(3), column(2), column(6.5)))
    assert (hours, cycle, loads, pieces, portions) == (160, 31, 5, 4, 12)
    assert one(capacity.portions_a_week(column(12), column(5), column(2))) == 120


def test_what_an_hour_of_a_bath_earns_and_what_a_forecast_books() -> None:
    assert one(capacity.margin_per_equipment_hour(column(12), column(7.75), column(31))) == 3
    assert one(capacity.loads_for_forecast(column(30), column(12))) == 2.5
    assert one(capacity.loads_needed(column(2.5), column(2), column(1.5), column(1))) == 3
    # Without a piece weight nothing is whole.
    assert one(capacity.loads_needed(column(2.5), column(np.nan), column(1.5), column(1))) == 2.5
    uncounted, unused = (
        one(capacity.loads_needed(column(0), column(2), column(np.nan), column(plates)))
        for plates in (1, 0)
    )
    assert np.isnan(uncounted)
    assert unused == 0
    assert one(capacity.loads_counted(column(np.nan))) == 0
    unweighed = capacity.portions_a_load(column(np.nan), column(3), column(2), column(6.5))
    assert one(unweighed) == 13
    assert one(capacity.booked_hours(column(3), column(31))) == 93
    assert one(capacity.equipment_share(column(3), column(5))) == 0.6
    assert one(capacity.use(column(96), column(160), column(2))) == 0.3
    assert one(capacity.equipment_needed(column(2.0000000001))) == 2
    assert one(capacity.equipment_needed(column(2.01))) == 3


def test_losses_are_shares_of_what_went_in() -> None:
    assert one(loss_ratio(column(0.5), column(8))) == 0.0625
    assert one(losses_ratio(column(3), column(12))) == 0.25


@pytest.mark.parametrize(
    ("gap", "saving"), [("6", "1.5"), ("6", "-1.5"), ("-2", "-1"), ("5", "0"), ("-3", "1")]
)
def test_the_yield_factor_put_back_ends_the_saving(gap: str, saving: str) -> None:
    """The saving by weight is s + a - a / f where a is the gap; its root f, in exact fractions."""
    a, s = Fraction(gap), Fraction(saving)
    found = one(break_even_yield_factor(column(float(a)), column(float(s))))
    root = a / (a + s)
    assert found == pytest.approx(float(root), rel=1e-12)
    assert s + a - a / root == 0


@pytest.mark.parametrize(("gap", "saving"), [(6.0, -6.0), (6.0, -7.0), (0.0, 1.0), (-2.0, 3.0)])
def test_no_yield_ends_a_saving_that_the_cook_cannot_reach(gap: float, saving: float) -> None:
    assert np.isnan(one(break_even_yield_factor(column(gap), column(saving))))
