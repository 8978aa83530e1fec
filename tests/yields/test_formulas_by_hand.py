"""Every formula of weights that no other test computes by hand: its inputs in order, its answer.

Common practice, no published source. Numbers are such that every other sign gives another answer.
"""

from __future__ import annotations

from collections.abc import Callable
from math import nan, pi, sqrt, tan

import pytest

from builder.costing.model import MODEL
from builder.engine.arith import Column
from builder.yields import chain, forms, intervals, means, weighings
from tests.money.test_single_formulas import column, comes_to, one

assert MODEL  # tables are declared in its order

# Student's t has closed forms with one and two degrees of freedom.
T_1 = tan(pi * (0.975 - 0.5))
T_2 = (2 * 0.975 - 1) / sqrt(2 * 0.975 * 0.025)

Case = tuple[Callable[..., Column], tuple[float, ...], float]

# 10 kg at 9.00 are trimmed to a load of 8 kg, of which 6 kg are left to serve.
CHAIN: tuple[Case, ...] = (
    (chain.yield_before_cook, (1, 0.8), 0.8),
    (chain.yield_before_cook, (0, 0.8), 1),
    (chain.ap_weight, (8, 0.8), 10),
    (chain.servable_weight, (10, 0.6), 6),
    (chain.ap_cost, (10, 9), 90),
    (chain.pieces, (10, 2.45), 4),
    (chain.pieces, (10, 2.54), 4),
    (chain.pieces, (10, 2.5), 4),
    (chain.pieces, (10, 2.2), 10 / 2.2),
    (chain.pieces, (1, 4), 0.25),
    (chain.pieces, (10, nan), nan),
    (chain.step_weight_in, (10, 0.8), 8),
    (chain.step_weight_out, (8, 0.75), 6),
    (chain.step_byproducts, (8, 0.125), 1),
    (chain.step_loss, (8, 6, 1.5), 0.5),
    (chain.step_credit, (8, 0.5), 4),
    (chain.credit_through_cook, (1, 4), 0),
    (chain.credit_through_cook, (0, 4), 4),
    (chain.cost_per_kg_out, (90, 10, 8, 6), 12),
    (chain.cost_per_kg_in, (90, 10, 8), 10),
    (chain.rise_per_kg, (10, 0.8), 2.5),
    (chain.credit_per_kg_out, (3, 6), 0.5),
    (chain.yield_in_cook, (0, 0, 0.75), 0.75),
    (chain.yield_in_cook, (1, 0, 0.75), 1),
    (chain.yield_in_cook, (0, 1, 0.75), 1),
    (chain.net_cost, (90, 12), 78),
    (chain.cost_per_servable_kg, (78, 6), 13),
    (chain.cost_factor_per_kg, (12, 8), 1.5),
    (forms.credit_per_ap_kg, (0.8, 0.5), 0.4),
    (forms.share_through, (0.8, 0.75), 0.6),
    (forms.byproducts_ratio, (3, 12), 0.25),
)

# Residuals of 0.75 kg2 in 4 tests of 20 kg: the root of 4 / 3 x 0.75 is 1 kg in 20.
TESTS: tuple[Case, ...] = (
    (weighings.test_yield, (6, 8), 0.75),
    (weighings.part_share, (1, 8), 0.125),
    (weighings.part_value, (2, 3), 6),
    (weighings.loss_weight, (8, 6, 1.5), 0.5),
    (weighings.measured_yield, (12, 16), 0.75),
    (weighings.stage_yield, (nan, 0.7, 0.8, 0.9), 0.7),
    (weighings.stage_yield, (nan, nan, nan, nan), 1),
    (weighings.squared_residual, (6.5, 0.75, 8), 0.25),
    (weighings.yield_standard_error, (0.75, 4, 20), 0.05),
    (weighings.yield_standard_error, (0.75, 1, 20), nan),
    (weighings.yield_standard_error, (0, 0, 0), nan),
    (weighings.yield_half_width, (0.05, 3), 0.05 * T_2),
    (weighings.yield_low, (0.75, 0.1), 0.65),
    (weighings.yield_low, (0.05, 0.1), 0),
    (weighings.yield_high, (0.95, 0.1, 0.98), 1),
    (weighings.yield_high, (0.95, 0.1, 1), 1),
    (weighings.yield_high, (0.95, 0.1, 1.02), 1.05),
    (weighings.byproduct_share_of_in, (2, 16, 0.3), 0.125),
    (weighings.byproduct_share_of_in, (0, 0, 0.3), 0.3),
    (weighings.byproduct_worth, (4, 6, 2), 4),
    (weighings.byproduct_worth, (nan, 6, 2), 3),
    (weighings.byproduct_worth, (nan, 0, 0), 0),
    (weighings.credit_rate, (0.125, 4), 0.5),
    (weighings.loss_share, (0.75, 0.15), 0.1),
    (means.mean_test_yield, (1.5, 2), 0.75),
    (means.squared_deviation, (0.8, 0.75), 0.0025),
    (means.test_yield_spread, (0.0075, 4), 0.05),
    (means.test_yield_spread, (0, 1), nan),
    (means.test_yield_spread, (0, 0), nan),
)


@pytest.mark.parametrize(
    ("formula", "given", "expected"),
    [*CHAIN, *TESTS],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_a_formula_comes_to_what_a_hand_computes(
    formula: Callable[..., Column], given: tuple[float, ...], expected: float
) -> None:
    assert comes_to(formula, given, expected)


@pytest.mark.parametrize(("degrees", "point"), [(1, T_1), (2, T_2), (0.5, nan), (0, nan)])
def test_student_s_t_is_its_closed_form(degrees: float, point: float) -> None:
    found = one(intervals.t_975(column(degrees)))
    assert found == pytest.approx(point, rel=1e-9, nan_ok=True)
