"""Formulas that whole kitchens rarely show apart, each against arithmetic done by hand.

Common practice, no published source: a week holds whole loads, a load whole pieces.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import numpy as np
import pytest

from builder.costing.model import MODEL
from builder.engine.arith import Column
from builder.money import (
    candidates,
    capacity,
    equal_margin,
    kitchen,
    menu,
    partition,
    plates,
    swaps,
)
from builder.money.intervals import chance_above_nothing, interval_90
from builder.money.swaps import break_even_yield_factor
from builder.yields import forms
from builder.yields.forms import loss_ratio, losses_ratio

assert MODEL  # tables are declared in its order


def column(*values: float) -> Column:
    return np.array(values, dtype=np.float64).reshape(-1, 1)


def one(found: Column) -> float:
    return float(np.asarray(found).ravel()[0])


def comes_to(formula: Callable[..., Column], given: tuple[float, ...], expected: float) -> bool:
    """Whether a formula gives what is expected of one row; NaN where it is not known."""
    with np.errstate(divide="ignore", invalid="ignore"):  # as a build computes both ways
        found = one(formula(*map(column, given)))
    return bool(np.isclose(found, expected, rtol=1e-12, atol=1e-12, equal_nan=True))


def test_a_week_s_portions_are_those_of_every_load_of_every_bath() -> None:
    # 10 kg hold 4 pieces of 2.5 kg, 3 portions each; 168 h less 8 h hold 5 loads of 31 h; 2 baths.
    hours = one(capacity.available_hours(column(168), column(8)))
    cycle = one(capacity.cycle_hours(column(30), column(1)))
    loads = one(capacity.weekly_loads(column(hours), column(cycle)))
    pieces = one(capacity.pieces_a_load(column(np.nan), column(10), column(5), column(2)))
    # Of 30 that lie side by side no more go in, whatever the weight.
    side_by_side = one(capacity.pieces_at_once(column(1), column(30)))
    assert side_by_side == 30
    assert one(capacity.pieces_a_load(column(30), column(100), column(5), column(2))) == 30
    assert np.isnan(one(capacity.pieces_at_once(column(0), column(30))))
    portions = one(capacity.portions_a_load(column(pieces), column(3), column(2), column(6.5)))
    assert (hours, cycle, loads, pieces, portions) == (160, 31, 5, 4, 12)
    assert one(capacity.portions_a_week(column(12), column(5), column(2))) == 120


def test_what_an_hour_of_a_bath_earns_and_what_a_forecast_books() -> None:
    assert one(capacity.margin_per_equipment_hour(column(12), column(7.75), column(31))) == 3
    assert one(capacity.loads_for_forecast(column(30), column(12))) == 2.5
    assert one(capacity.loads_needed(*map(column, (2.5, 2, 1.5, 1, 0, np.nan, 0)))) == 3
    # Without a piece weight nothing is whole.
    assert one(capacity.loads_needed(*map(column, (2.5, np.nan, 1.5, 1, 0, np.nan, 0)))) == 2.5
    uncounted, unused = (
        one(capacity.loads_needed(*map(column, (0, 2, np.nan, plates, 0, np.nan, 0))))
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
    assert one(capacity.equipment_needed(*map(column, (2.0000000001, 330, 167, 33)))) == 2
    assert one(capacity.equipment_needed(*map(column, (2.01, 335, 167, 33)))) == 3
    # 3 of 3 loads of one cook leave hours in which another's fit.
    assert one(capacity.equipment_needed(*map(column, (1.12, 165, 167, 50)))) == 1
    # Loads of 85, 85 and 1 h in 168: two hold them, though each long one is a share of 1.
    assert one(capacity.equipment_needed(*map(column, (1 + 1 + 1 / 168, 171, 168, 85)))) == 2
    # Three of 85 h are three pieces, and one that takes longer than a week has is by its share.
    assert one(capacity.equipment_needed(*map(column, (3, 255, 168, 85)))) == 3
    assert one(capacity.equipment_needed(*map(column, (2, 340, 168, 170)))) == 2
    assert one(capacity.equipment_needed(*map(column, (0, 0, 167, np.nan)))) == 0


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


def test_nothing_is_divided_by_nothing() -> None:
    """Warnings of numpy are errors here: what is not known is NaN, and nobody is warned of it."""
    zero, one_, cost = column(0), column(1), column(5)
    assert np.isnan(one(swaps.payback(column(1150), zero)))
    assert np.isnan(one(swaps.break_even_ap_price(column(13), column(2), zero)))
    assert np.isnan(one(swaps.break_even_wage(column(24), column(2), zero)))
    assert one(swaps.loss_moves_portions(zero, one_, column(np.nan), zero, zero)) == 1
    found = swaps.portions_to_break_even(cost, column(20), zero, cost, one_, one_)
    assert np.isnan(one(found))


@pytest.mark.parametrize(("gap", "saving"), [(6.0, -6.0), (6.0, -7.0), (0.0, 1.0), (-2.0, 3.0)])
def test_no_yield_ends_a_saving_that_the_cook_cannot_reach(gap: float, saving: float) -> None:
    assert np.isnan(one(break_even_yield_factor(column(gap), column(saving))))


def test_what_a_batch_takes_beside_its_food() -> None:
    # 900.00 over 3000 h are 0.30 an hour; 0.25 kW of standby for 30 h are 7.5 kWh.
    assert one(kitchen.charge_per_hour(column(np.nan), column(900), column(3000))) == 0.3
    assert one(kitchen.equipment_charge(column(0.25), column(30))) == 7.5
    unknown = column(np.nan)
    assert np.isnan(one(kitchen.equipment_charge(column(0.25), unknown)))
    assert one(kitchen.batch_energy(unknown, unknown, column(0.25), column(30))) == 7.5
    assert np.isnan(one(kitchen.batch_energy(unknown, unknown, column(0.25), unknown)))
    for cost in (kitchen.batch_energy_cost, kitchen.energy_cost_low, kitchen.energy_cost_high):
        assert one(cost(column(6), column(0.25))) == 1.5
    assert one(kitchen.batch_labour(column(1.5), column(20))) == 30
    assert one(kitchen.batch_labour(column(0), unknown)) == 0  # no work needs no wage
    assert one(kitchen.batch_process(column(1.5), column(0.75), column(9))) == 11.25


def test_what_a_portion_takes_of_its_batch() -> None:
    # 8 kWh, 6.00 of wrap, 2 h and 10 kg on 16 portions; 9.5 kg less 30 portions of 0.3 kg.
    assert one(plates.energy_used_per_plate(column(8), column(16))) == 0.5
    assert one(plates.energy_used_per_plate(column(8), column(np.nan))) == 0
    assert one(plates.consumables_per_plate(column(6), column(16))) == 0.375
    hours = plates.labour_hours(*map(column, (2, 16, 0.25, 0.5, 0, 0)))
    assert one(hours) == 0.875
    assert one(plates.ap_weight_per_portion(column(10), column(16))) == 0.625
    assert one(plates.remainder_weight(column(9.5), column(30), column(0.3))) == pytest.approx(0.5)
    assert one(plates.seasoning_cost(*map(column, (0.04, 5, 2, 0, 0)))) == pytest.approx(0.28)
    assert one(plates.margin_after_prime(column(30), column(12.5))) == 17.5
    for included, factor in ((1, 1.25), (0, 1)):
        assert one(plates.price_factor(column(0.25), column(included))) == factor


def test_what_one_plate_saves_on_another() -> None:
    for saved in (swaps.food_saving, swaps.prime_saving, swaps.extra_hours):
        assert one(saved(column(9), column(2.5))) == 6.5
    assert one(swaps.cook_loss(column(0.7))) == pytest.approx(0.3)
    # A quarter more for seasoning: 1.25 x (12 - 8) over 10 portions, 1.25 x 6.00/kg x 0.3 kg.
    credit = partition.later_credit(column(12), column(8), column(1.25), column(10))
    assert one(credit) == 0.5
    assert one(partition.spare_portion_worth(column(6), column(0.3), column(1.25))) == 2.25
    # A plate of 11.00 with half a kilogram of a cut of 8.00: 7.00 without the cut.
    for unpriced in (swaps.challenger_cost_unpriced, swaps.benchmark_cost_unpriced):
        assert one(unpriced(column(11), column(0.5), column(8))) == 7
    assert one(swaps.break_even_cost(column(7), column(0.5), column(9))) == 11.5
    # It leaves 5.00 of 16.00: 9.00 without the cut, 4.50 where a kilogram costs 9.00.
    for left in (equal_margin.challenger_margin_unpriced, equal_margin.benchmark_margin_unpriced):
        assert one(left(column(5), column(0.5), column(8))) == 9
    assert one(equal_margin.equal_margin_a_plate(column(9), column(0.5), column(9))) == 4.5


@pytest.mark.parametrize(
    ("batch", "pieces", "spare", "needed", "weights"),
    [
        (46, 2, 2, 3, 2.5),  # 23 a piece: two portions pay 9 each, 5 are owed at 2 a portion
        (8, 1, 10, 1, 1),  # one portion is the fewest, whatever its weight left over is worth
        (46, 2, 0, 3, 3),  # what is worth nothing pays nothing
    ],
)
def test_the_weight_left_over_pays_what_whole_portions_owe(
    batch: float, pieces: float, spare: float, needed: float, weights: float
) -> None:
    """By hand, with a benchmark plate of 12 and 1 beside the cook: 11 for the cook's portion."""
    given = (12, batch, 0, 1, spare, pieces, needed)
    found = swaps.portion_weights_to_break_even(*(column(amount) for amount in given))
    assert one(found) == weights


def test_a_test_s_form_is_reckoned_by_hand() -> None:
    """8 kg bought at 5.00 give 5 kg to use and parts worth 2.50: 37.50, or 7.50 a usable kg."""
    cost = one(forms.test_cost(column(8), column(5)))
    value = one(forms.usable_value(column(cost), column(2.5)))
    per_kg = one(forms.test_cost_per_usable_kg(column(value), column(5)))
    assert (cost, value, per_kg) == (40, 37.5, 7.5)
    assert one(forms.test_cost_factor(column(per_kg), column(5))) == 1.5
    assert one(forms.cost_factor_per_usable_kg(column(per_kg), column(5))) == 1.5
    assert one(forms.tested_cost(column(8), column(5))) == 40
    assert one(forms.tested_credit(column(2.5), column(1.5))) == 3.75
    assert one(forms.tested_usable_value(column(40), column(2.5))) == 37.5
    assert one(forms.tested_loss(column(8), column(5), column(2.5))) == 0.5
    # What 0.8 of the cut costs a kilogram after 1.00 of credits, and at the next stage's yield.
    assert one(forms.price_into_stage(column(5), column(1), column(0.8))) == 5
    assert one(forms.cost_per_usable_kg(column(5), column(1), column(0.5))) == 8


def test_an_order_and_its_rearrangements() -> None:
    """48 portions of 0.25 kg at a yield of a half are 24 kg; 10 portions, 3 a piece, 4 pieces."""
    assert one(menu.quantity_to_buy(column(48), column(0.25), column(0.5))) == 24
    assert one(menu.portions_from(column(24), column(0.5), column(0.25))) == 48
    assert one(menu.portion_size_from(column(24), column(0.5), column(48))) == 0.25
    assert one(menu.pieces_to_cook(column(10), column(3))) == 4
    assert one(menu.quantity_to_buy_whole(column(4), column(24), column(6))) == 16


def test_a_candidate_s_portion_is_its_meat_its_work_and_its_process() -> None:
    assert one(candidates.portion_cost(column(4), column(1.5), column(0.25))) == 5.75
    assert one(candidates.benchmark_portion_cost(column(12), column(3.5))) == 8.5
    # 250 g of a load of 10 kg for 36 h take a fortieth of them.
    assert one(candidates.bath_hours_per_portion(column(0.25), column(10), column(36))) == 0.9


def test_all_that_stands_beside_a_cook_is_added_up() -> None:
    # 1.5 times 1.50 + 0.50, 0.20 with a quarter of seasoning, a cover of 0.75; 6 + 3 + 1.2 + 1.8
    # min at 20 an hour; 0.40 + 0.10 + 0.05 of energy and supplies.
    found = partition.cost_beside_cook(
        *map(column, (1.5, 1.5, 0.1, 0.05, 20, 0.4)),
        *map(column, (0.5, 0.02, 0.1, 0.25, 0.2, 0.75, 0.03, 0.05)),
    )
    assert one(found) == pytest.approx(3 + 0.25 + 0.75 + 4 + 0.55)


DRAWN = np.concatenate([np.arange(1.0, 96.0), np.full(5, np.nan)])[None]
FEWER = np.concatenate([np.arange(1.0, 95.0), np.full(6, np.nan)])[None]


def test_as_many_draws_as_asked_for_give_ends_and_a_chance_and_one_fewer_does_not() -> None:
    """Five in a hundred may be without a value; the ends are numpy's of those that have one.

    With fewer both ends are open. A chance needs half of the draws.
    """
    ends = np.nanquantile(DRAWN, (0.05, 0.95), axis=1, method="nearest")
    assert interval_90(DRAWN).tolist() == ends.tolist()
    assert interval_90(FEWER).tolist() == [[-np.inf], [np.inf]]
    assert chance_above_nothing(DRAWN - 19).tolist() == [pytest.approx(76 / 95)]
    assert chance_above_nothing(FEWER - 19).tolist() == [pytest.approx(75 / 94)]
    half = np.where(np.arange(100) % 2, np.nan, np.arange(100.0))[None]
    assert chance_above_nothing(half).tolist() == [pytest.approx(49 / 50)]
    half[0, 2] = np.nan
    assert np.isnan(chance_above_nothing(half)).all()
    # A row that never moves has no interval, whichever rows stand beside it.
    still = np.vstack([np.full(100, 7.0), np.arange(100.0), DRAWN[0]])
    assert np.isnan(interval_90(still)[:, 0]).all()
    assert np.isfinite(interval_90(still)[:, 1:]).all()
    # Nor has one whose few draws without a value are all that differs; with more its ends are open.
    assert np.isnan(interval_90(np.where(np.isnan(DRAWN), np.nan, 7.0))).all()
    assert interval_90(np.where(np.isnan(FEWER), np.nan, 7.0)).tolist() == [[-np.inf], [np.inf]]


def test_a_candidate_takes_its_share_of_bags_and_in_step_with_the_hours_of_the_rest() -> None:
    # A tenth of 5 of bags, and of (2 + 4) for 30 h, which is 9 for 45 h.
    whole = [column(x) for x in (1, 10, 5, 2, 4, 45, 30)]
    assert one(candidates.process_cost(*whole)) == pytest.approx(0.1 * (5 + 9))
    untimed = [column(x) for x in (1, 10, 5, 2, 4, 45, np.nan)]
    assert one(candidates.process_cost(*untimed)) == pytest.approx(0.5)
    assert one(candidates.work_cost(column(1), column(12), column(10))) == pytest.approx(1.2)
