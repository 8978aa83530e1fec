"""The formulas of a count and of a service one by one, each against arithmetic done by hand.

Common practice, no published source. Numbers are such that every other sign gives another answer.
"""

from __future__ import annotations

import numpy as np
import pytest

from builder.costing.model import MODEL
from builder.engine.arith import Column
from builder.money import counted, guest_sales, menu, plates, service
from tests.money.test_single_formulas import column, one

assert MODEL  # tables are declared in its order
NAN = float("nan")


def columns(*values: float) -> tuple[Column, ...]:
    return tuple(column(value) for value in values)


def test_the_yield_of_a_period_beside_the_one_costed() -> None:
    assert one(counted.standard_yield(*columns(6, 8))) == 0.75
    assert one(counted.counted_yield(*columns(6, 10))) == 0.6
    assert one(counted.yield_ratio(*columns(0.6, 0.75))) == pytest.approx(0.8)
    assert one(counted.yield_ratio(*columns(NAN, 0.75))) == 1
    assert one(counted.servable_as_made(*columns(6, 0.8))) == pytest.approx(4.8)


def test_what_plates_should_have_taken() -> None:
    # 30 on their own at 4.00, and 10 of set menus without a cover of 0.50.
    assert one(guest_sales.theoretical_food(*columns(30, 4, 10, 3.5))) == 155
    assert one(guest_sales.plates_sold(*columns(30, 10))) == 40
    assert one(counted.theoretical_protein(*columns(30, 3))) == 90
    assert one(counted.sales(*columns(30, 20))) == 600
    assert one(counted.counted_portion(*columns(NAN, 0.2, NAN, 0.9))) == 0.2
    assert one(counted.counted_portion(*columns(NAN, 0.2, 1, 0.9))) == pytest.approx(0.18)
    assert one(counted.weight_served(*columns(30, 0.2))) == pytest.approx(6)


@pytest.mark.parametrize(
    ("whole", "portions", "cost"),
    # 6 kg of 3 pieces, 0.45 kg a portion: 4 of a piece and 0.2 kg left, thrice, worth 5 a kg.
    [(1.0, 12.0, (50 - 0.6 * 5) / 12), (0.0, 6 / 0.45, 50 / (6 / 0.45))],
)
def test_portions_of_a_batch_and_what_one_costs(whole: float, portions: float, cost: float) -> None:
    for given, paid in (
        (counted.portions_as_weighed, counted.cost_as_weighed),
        (counted.portions_as_made, counted.cost_as_made),
    ):
        names = given.__code__.co_varnames[: given.__code__.co_argcount]
        values = {
            "counts_pieces": whole, "pieces": 3.0, "portions_per_piece": 5.0, "net_cost": 50.0,
            "portion_pieces": NAN,
            "servable_weight": 6.0, "servable_as_made": 6.0, "counted_portion": 0.45,
            "remainder_worth": 5.0, "portions_as_weighed": portions, "portions_as_made": portions,
        }  # fmt: skip
        assert one(given(*columns(*(values[name] for name in names)))) == pytest.approx(portions)
        costs = paid.__code__.co_varnames[: paid.__code__.co_argcount]
        assert one(paid(*columns(*(values[name] for name in costs)))) == pytest.approx(cost)


def test_the_effects_of_portion_and_yield() -> None:
    assert one(counted.portion_effect(*columns(30, 3.5, 3))) == 15
    assert one(counted.yield_effect(*columns(30, 4, 3.5))) == 15
    assert one(counted.yield_effect(*columns(30, NAN, 3.5))) == 0


def test_what_the_plates_sold_took_with_its_by_products() -> None:
    assert one(counted.ap_taken(*columns(30, 10, 12))) == 25
    assert one(counted.ap_taken(*columns(30, 10, NAN))) == 0
    assert one(counted.cost_taken(*columns(30, 4))) == 120
    assert one(counted.credit_taken(*columns(25, 6, 120))) == 30


def test_a_cooked_kilogram_sold_and_unsold() -> None:
    """25 kg bought for 5 kg served; unsold 10 kg for 6 kg at 0.8 of the yield."""
    assert one(counted.ap_per_kg_served(*columns(5, 25, 10, 6, 0.8))) == 5
    with np.errstate(divide="ignore"):
        unsold = one(counted.ap_per_kg_served(*columns(0, 25, 10, 6, 0.8)))
    assert unsold == pytest.approx(10 / 4.8)
    names = counted.cost_per_kg_served.__code__.co_varnames[:5]
    for served, expected in ((5.0, 24.0), (0.0, 50 / 4.8)):
        values = {"weight_served": served, "cost_taken": 120.0, "net_cost": 50.0,
                  "servable_weight": 6.0, "yield_ratio": 0.8}  # fmt: skip
        with np.errstate(divide="ignore"):
            found = counted.cost_per_kg_served(*columns(*(values[name] for name in names)))
        assert one(found) == pytest.approx(expected)


def test_what_is_thrown_kept_and_not_found() -> None:
    assert one(counted.thrown_cost(*columns(0.5, 24))) == 12
    assert one(counted.ap_thrown(*columns(0.5, 5))) == 2.5
    assert one(counted.credit_thrown(*columns(2.5, 6, 12))) == 3
    assert one(counted.ap_kept(*columns(3, 1, 5))) == 10
    assert one(counted.cooked_not_found(*columns(1, 6, 4, 2, 0.5))) == 0.5
    assert one(counted.cost_of_thrown(*columns(0.5, NAN, 6))) == 3
    assert one(counted.cost_of_thrown(*columns(0.5, 24, 6))) == 12


def test_what_goes_into_the_cook_for_a_service() -> None:
    """12 pieces in 30 kg: 5 of them weigh 12.5 kg; without a piece weight 0.4 of the load."""
    assert one(service.pieces_taken(*columns(10, 2.5, NAN))) == 4
    with np.errstate(divide="ignore"):
        assert one(service.pieces_taken(*columns(10, 0, NAN))) == 0
    assert one(service.batches_taken(*columns(10, 25, NAN))) == 0.4
    assert one(service.pieces_to_cook(*columns(12, 4.2))) == 5
    assert one(service.raw_weight(*columns(5, 30, 12, 0.4))) == 12.5
    assert one(service.raw_weight(*columns(NAN, 30, NAN, 0.4))) == 12


def test_a_plate_s_share_of_a_batch_s_energy() -> None:
    for share in (
        plates.energy_used_per_plate, plates.energy_per_plate_low, plates.energy_per_plate_high
    ):  # fmt: skip
        assert one(share(*columns(6, 24))) == 0.25
        assert one(share(*columns(6, NAN))) == 0


@pytest.mark.parametrize(
    ("popular", "earns", "classed"),
    [(1, 1, 0), (1, 0, 1), (0, 1, 2), (0, 0, 3), (NAN, NAN, None), (1, NAN, None), (NAN, 1, None)],
)
def test_a_plate_is_in_one_class_or_in_none(
    popular: float, earns: float, classed: int | None
) -> None:
    tests = (
        menu.sells_and_earns, menu.sells_earns_little, menu.earns_sells_little,
        menu.neither_sells_nor_earns,
    )  # fmt: skip
    assert [one(test(*columns(popular, earns))) for test in tests] == [
        float(number == classed) for number in range(4)
    ]
