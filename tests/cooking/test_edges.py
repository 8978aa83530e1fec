"""Edges of the cook's functions: just there, just not, and which of two clauses holds."""

from __future__ import annotations

import numpy as np
import pytest

from builder.cooking.cooling import hot_holding_clause
from builder.cooking.heating import Cases, core_temperature, time_to_core
from builder.cooking.rule_library import rule_sets
from tests.cooking.test_rules import INTACT_ROAST

FOOD_CODE = rule_sets()["us-food-code-2017"]


def slab(medium: float, start: float) -> Cases:
    return Cases(50, 0, start, medium, 1.4e-7, 95)


@pytest.mark.parametrize(
    ("medium", "start", "target"),
    [(57.0, 5.0, 5.0), (57.0, 5.0, 4.0), (2.0, 57.0, 57.0), (2.0, 57.0, 60.0)],
)
def test_a_core_that_is_there_already_takes_no_time(
    medium: float, start: float, target: float
) -> None:
    assert float(time_to_core(slab(medium, start), target)) == 0.0


@pytest.mark.parametrize(
    ("medium", "start", "target"), [(57.0, 5.0, 5.01), (57.0, 5.0, 56.9), (2.0, 57.0, 5.0)]
)
def test_the_time_put_back_gives_the_target(medium: float, start: float, target: float) -> None:
    cases = slab(medium, start)
    minutes = float(time_to_core(cases, target))
    assert minutes > 0
    assert float(core_temperature(cases, [minutes])[0]) == pytest.approx(target, abs=1e-6)


@pytest.mark.parametrize(("medium", "start", "target"), [(57.0, 5.0, 57.0), (2.0, 57.0, 2.0)])
def test_the_surroundings_own_temperature_is_never_reached(
    medium: float, start: float, target: float
) -> None:
    with pytest.raises(ValueError, match="never brings its core"):
        time_to_core(slab(medium, start), target)


def test_a_series_of_targets_takes_longer_and_longer() -> None:
    targets = np.array([10.0, 30.0, 50.0, 56.0])
    minutes = time_to_core(slab(57.0, 5.0), targets)
    assert (np.diff(minutes) > 0).all()


def test_a_roast_that_was_cooked_so_is_held_at_the_lower_of_two_temperatures() -> None:
    """US FDA Food Code 2017, 3-501.16(A)(1) [read]: 135 °F, cooked by 3-401.11(B) 130 °F."""
    cooked, not_cooked = (
        hot_holding_clause(INTACT_ROAST, FOOD_CODE, cooked=cooked) for cooked in (True, False)
    )
    assert cooked is not None
    assert not_cooked is not None
    assert cooked.at_c == pytest.approx((130 - 32) / 1.8, abs=0.01)
    assert not_cooked.at_c == pytest.approx((135 - 32) / 1.8, abs=0.01)
