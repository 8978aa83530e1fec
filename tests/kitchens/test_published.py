"""A kitchen of published figures only: BLS prices and USDA yields, read as anybody's files.

Outside values: USDA Table of Cooking Yields, Release 2, 2014 (read in a mirror
transcription), and BLS average price data, US city average, November 2023 (read in
a mirror); copied here by hand and compared with what the chain makes of the files.
"""

from __future__ import annotations

from datetime import date

import pytest

from builder.costing.costed import Costed
from builder.problems import Problem
from tests.kitchens import PUBLISHED, read

LB = 0.453_592_37

# cook, USD per lb as purchased, cooking yield
TWO_TABLES = [
    ("pot-roast", 7.612, 0.64),
    ("under-blade-steak", 7.612, 0.6496),
    ("bottom-round", 6.846, 0.84),
    ("eye-of-round", 6.846, 0.81),
    ("stew", 7.160, 0.67),
    ("sirloin-steak", 11.533, 0.80),
    ("broiled-chops", 4.629, 0.79),
    ("braised-chops", 4.629, 0.73),
]


@pytest.fixture(scope="module")
def loaded() -> tuple[Costed, list[Problem]]:
    costed, problems = read(PUBLISHED)
    assert costed is not None, problems
    return costed, problems


def test_it_loads_without_a_problem(loaded: tuple[Costed, list[Problem]]) -> None:
    assert loaded[1] == []


def test_it_is_computed_for_a_month_of_the_data(loaded: tuple[Costed, list[Problem]]) -> None:
    costed, _ = loaded
    assert costed.content.as_of == date(2023, 11, 30)
    assert {price.since for price in costed.prices.values()} == {date(2023, 11, 1)}


@pytest.mark.parametrize(("cook", "price", "cooking_yield"), TWO_TABLES)
def test_a_cooked_pound_costs_its_price_over_its_yield(
    cook: str, price: float, cooking_yield: float, loaded: tuple[Costed, list[Problem]]
) -> None:
    costed, _ = loaded
    row = costed.rows.cooks[cook]
    per_lb = costed.figures.value("batch", "cost_per_servable_kg", row) * LB
    assert per_lb == pytest.approx(price / cooking_yield, rel=1e-12)


def test_the_raw_premium_shrinks_once_cooked(loaded: tuple[Costed, list[Problem]]) -> None:
    """Sirloin over pot roast: 1.515 raw, 1.21 cooked (ours from the two tables)."""
    costed, _ = loaded

    def ratio(figure: str) -> float:
        steak, roast = (
            costed.figures.value("batch", figure, costed.rows.cooks[cook])
            for cook in ("sirloin-steak", "pot-roast")
        )
        return steak / roast

    assert ratio("ap_price") == pytest.approx(1.515, abs=0.0005)
    assert ratio("cost_per_servable_kg") == pytest.approx(1.21, abs=0.005)


def test_the_swap_saves_the_difference_of_the_cooked_portions(
    loaded: tuple[Costed, list[Problem]],
) -> None:
    """6 oz of each: (14.416 - 11.894) x 6 / 16, ours from the two tables."""
    costed, _ = loaded
    row = costed.rows.swaps["pot-roast-for-sirloin", "pot-roast"]
    saving = costed.figures.value("swap", "food_saving", row)
    assert saving == pytest.approx((11.533 / 0.80 - 7.612 / 0.64) * 6 / 16, rel=1e-12)
    assert costed.figures.value("swap", "saving_a_week", row) == pytest.approx(100 * saving)


def test_a_stand_in_says_whose_figure_it_is(loaded: tuple[Costed, list[Problem]]) -> None:
    costed, _ = loaded
    stage = costed.rows.stages["cooks/sirloin-steak", "cook"]
    origin = costed.figures.explain(("stage", "published_yield"), stage).origin
    assert origin is not None
    assert "USDA Table of Cooking Yields" in origin.reason
    assert "n = 20" in origin.reason
