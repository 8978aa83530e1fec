"""Plates and the menu against plain arithmetic on random kitchens."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.engine.figures import Figures
from tests.kitchens import costed_from, write
from tests.kitchens.small import SMALL
from tests.moving import with_row
from tests.yields.exact import ExactChain, chains, money
from tests.yields.test_chain import costed, value

WHOLE = st.booleans()
CENTS = st.integers(0, 5000)


@settings(max_examples=40, deadline=None)
@given(chains(), WHOLE, CENTS, CENTS, st.integers(0, 240), st.integers(1, 48), st.integers(0, 25))
def test_a_plate_adds_up(
    chain: ExactChain,
    whole: bool,
    wage: int,
    bags: int,
    minutes: int,
    hours: int,
    seasoning: int,
) -> None:
    """Food, prime and full cost from the batch's exact weights, on either basis."""
    files = chain.files()
    files["cooks/shank.yaml"] += (
        f"hands-on: {minutes} min\nfor: {hours} h\nequipment: pot\n"
        f"energy: 3.2 kWh\nconsumables: {{bags: {money(bags)}}}\n"
    )
    files["plates/shank.yaml"] += "hands-on: 2 min\n"
    files["kitchen.yaml"] = (
        f"name: Random\ncurrency: CAD\nportions: {'whole' if whole else 'by weight'}\n"
        f"loaded wage: {money(wage)}/h\nenergy: 0.15/kWh\nseasoning: {seasoning} %\n"
        "equipment: {pot: {kind: pot, charge: 0.80/h}}\n"
    )
    figures = costed(files).figures
    by_weight = chain.per_kg * chain.portion / 1000
    whole = whole and chain.piece is not None
    protein = chain.portion_cost_whole if whole else by_weight
    portions = Fraction(chain.whole_portions) if whole else chain.servable / chain.portion
    food = protein * (1 + Fraction(seasoning, 100))
    labour = (Fraction(minutes, 60) / portions + Fraction(2, 60)) * wage
    process = (Fraction(32, 10) * 15 + bags + hours * 80) / portions
    left = chain.servable - chain.whole_portions * chain.portion if whole else Fraction(0)
    exact = {
        "ap_cost_per_portion": chain.ap_cost / portions,
        "credit_per_portion": (chain.credits + left * chain.remainder / 1000) / portions,
        "food_cost": food,
        "prime_cost": food + labour,
        "full_cost": food + labour + process,
        "contribution_margin": 3000 - food,
        "margin_after_full": 3000 - food - labour - process,
    }
    for figure, cents in exact.items():
        found = value(figures, "plate", figure)
        assert found == pytest.approx(float(cents / 100), rel=1e-9, abs=1e-9), figure
    if not whole:
        assert value(figures, "plate", "full_cost_by_weight") == pytest.approx(
            value(figures, "plate", "full_cost"), rel=1e-9
        )


@settings(max_examples=25, deadline=None)
@given(chains(), st.integers(0, 30), WHOLE, st.integers(1, 99))
def test_a_price_that_is_asked_for_meets_its_target(
    chain: ExactChain, tax: int, included: bool, target: int
) -> None:
    files = chain.files()
    files["kitchen.yaml"] = (
        f"name: Random\ncurrency: CAD\ntax: {tax} %\n"
        f"prices include tax: {'yes' if included else 'no'}\n"
        f"targets: {{food cost: {target} %, margin: 12.50}}\n"
    )
    figures = costed(files).figures
    ex_tax = 30.0 / (1 + tax / 100) if included else 30.0
    assert value(figures, "plate", "price_ex_tax") == pytest.approx(ex_tax, rel=1e-12)
    cost = value(figures, "plate", "food_cost")
    price = value(figures, "plate", "price_for_food_cost")
    if not cost > 0:
        assert np.isnan(price)
        return
    assert price * 100 == pytest.approx(round(price * 100), abs=1e-6)
    asked, less = (at_price(figures, p, "food_cost_share") for p in (price, price - 0.01))
    assert asked <= target / 100 * (1 + 1e-9)
    assert less <= 0 or less > target / 100 * (1 - 1e-9)
    price = value(figures, "plate", "price_for_margin")
    asked, less = (at_price(figures, p, "contribution_margin") for p in (price, price - 0.01))
    assert asked >= 12.5 - 1e-9
    assert less < 12.5 + 1e-9


def at_price(figures: Figures, price: float, figure: str) -> float:
    return value(with_row(figures, ("plate", "menu_price"), 0, [price]), "plate", figure)


# Smallest coins: ISO 4217, list one [from memory]: JPY 0, CAD 2, KWD 3 decimals.
@pytest.mark.parametrize(
    ("currency", "asked", "for_margin"),
    [("CAD", 23.38, 13.02), ("JPY", 24.0, 14.0), ("KWD", 23.379, 13.014)],
)
def test_a_price_asked_for_is_rounded_up_to_the_smallest_coin(
    currency: str, asked: float, for_margin: float
) -> None:
    """Food 7.0136 at 30 % is 23.37866..., and with a margin of 6 it is 13.0136."""
    figures = costed(
        {
            "kitchen.yaml": f"name: Up\ncurrency: {currency}\n"
            "targets: {food cost: 30 %, margin: 6}\n",
            "pantry/roots.yaml": "price: 7.0136/kg\n",
            "plates/roots.yaml": "menu: mains\nwith: {roots: 1 kg}\nprice: 20\n",
        }
    ).figures
    assert value(figures, "plate", "price_for_food_cost") == asked
    assert value(figures, "plate", "price_for_margin") == for_margin


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 500), CENTS, CENTS), min_size=1, max_size=6))
def test_menu_analysis_is_plain_counting(plates: list[tuple[int, int, int]]) -> None:
    """Kasavana & Smith, 1982 [secondary]: mix, dividing margin by sales, 0.7 over the items."""
    files = {}
    for number, (sold, cost, margin) in enumerate(plates):
        files[f"pantry/item-{number}.yaml"] = f"price: {money(cost)}/each\n"
        files[f"plates/item-{number}.yaml"] = (
            f"menu: mains\nwith: {{item-{number}: 1 each}}\nsold: {{2026-09: {sold}}}\n"
            f"price: {money(cost + margin + 1)}\n"
        )
    # A plate that nobody counted takes no part.
    files["plates/uncounted.yaml"] = "menu: mains\nwith: {item-0: 1 each}\nprice: 9.00\n"
    figures = costed(files).figures
    count = sum(sold for sold, _, _ in plates)
    total = sum(sold * (margin + 1) for sold, _, margin in plates)
    assert value(figures, "section", "items") == len(plates)
    assert value(figures, "section", "section_sold") == count
    assert value(figures, "section", "section_margin") == pytest.approx(total / 100, abs=1e-9)
    food = sum(sold * cost for sold, cost, _ in plates)
    for table, start in (("section", "section"), ("kitchen", "menu")):
        assert value(figures, table, f"{start}_food") == pytest.approx(food / 100, abs=1e-9)
        sales = value(figures, table, f"{start}_sales")
        assert sales == pytest.approx((food + total) / 100, abs=1e-9)
        if count:
            share = value(figures, table, f"{start}_food_share")
            assert share == pytest.approx(food / (food + total), abs=1e-12)
    if count == 0:
        assert np.isnan(value(figures, "section", "dividing_margin"))
        return
    for row, (sold, _, margin) in enumerate(plates):
        if sold == count:  # nothing beside it sold: it is its own dividing line
            for figure in ("is_popular", "earns_above"):
                assert np.isnan(figures.value("plate", figure, row))
            continue
        popular = Fraction(sold, count) > Fraction(7, 10 * len(plates))
        assert figures.value("plate", "is_popular", row) == float(popular)
        # Half a cent away from the dividing margin, binary money may fall on either side.
        if abs((margin + 1) * count - total) * 2 > count:
            earns = (margin + 1) * count > total
            assert figures.value("plate", "earns_above", row) == float(earns)


@pytest.mark.parametrize("sold", [1, 3, 7, 9, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 49])
def test_a_plate_that_earns_what_the_section_earns_is_not_above_it(sold: int) -> None:
    """Strictly above only (Kasavana & Smith, 1982 [secondary]): two alike are the line."""
    plate = f"menu: mains\nwith: {{item: 1 each}}\nsold: {{2026-09: {sold}}}\nprice: 10.10\n"
    item = {"pantry/item.yaml": "price: 3.33/each\n"}
    two = costed({**item, "plates/one.yaml": plate, "plates/two.yaml": plate}).figures
    assert two.column("plate", "earns_above")[:, 0].tolist() == [0, 0]
    alone = costed({**item, "plates/only.yaml": plate}).figures
    assert np.isnan(alone.value("plate", "earns_above", 0))
    assert np.isnan(alone.value("plate", "is_popular", 0))


def test_a_margin_that_reads_as_the_dividing_margin_is_not_above_it() -> None:
    """By hand: food of 4.004 and 3.996 leaves 5.996 and 6.004; both read 6.00, as their mean."""
    files = {"kitchen.yaml": "name: Tie\ncurrency: CAD\n"}
    for name, cost in (("a", "4.004"), ("b", "3.996")):
        files[f"pantry/{name}.yaml"] = f"price: {cost}/each\n"
        files[f"plates/{name}.yaml"] = (
            f"menu: mains\nwith: {{{name}: 1 each}}\nsold: {{2026-09: 10}}\nprice: 10\n"
        )
    figures = costed(files).figures
    assert figures.value("section", "dividing_margin", 0) == pytest.approx(6)
    assert [figures.value("plate", "earns_above", row) for row in (0, 1)] == [0, 0]


def test_a_gas_oven_pays_the_gas_tariff(tmp_path_factory: pytest.TempPathFactory) -> None:
    small = costed_from(write(tmp_path_factory.mktemp("small"), SMALL))
    row = small.rows.cooks["chuck-braise"]
    assert small.figures.value("batch", "batch_energy_cost", row) == pytest.approx(9 * 0.06)
    assert small.figures.value("batch", "equipment_charge", row) == pytest.approx(5 * 0.90)
    row = small.rows.cooks["chuck-30h"]
    assert small.figures.value("batch", "batch_energy_cost", row) == pytest.approx(0.21 * 30 * 0.14)
    assert small.figures.value("batch", "equipment_charge", row) == pytest.approx(1150 / 6000 * 30)


def test_a_week_is_the_forecast_or_seven_days_of_the_month(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    small = costed_from(write(tmp_path_factory.mktemp("small"), SMALL))

    def weekly(plate: str) -> float:
        return small.figures.value("plate", "weekly_count", small.rows.plates[plate])

    assert weekly("mash") == 60
    assert weekly("chuck-steak") == pytest.approx(388 / 30 * 7)
