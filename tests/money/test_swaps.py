"""Every break-even, put back where it came from, ends the saving."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.costing.costed import Costed
from builder.engine.figures import Figures
from tests.kitchens import costed_from, write
from tests.kitchens.small import SMALL
from tests.moving import with_row
from tests.yields.exact import ExactChain, ExactStage, chains
from tests.yields.test_chain import costed

KITCHEN = """\
name: Random
currency: CAD
loaded wage: 21.00/h
energy: 0.15/kWh
seasoning: 4 %
portions: {basis}
"""


def work(minutes: int, hours: int) -> str:
    return f"hands-on: {minutes} min\nfor: {hours} h\nenergy: {hours / 2} kWh\n"


@st.composite
def swaps(draw: st.DrawFn) -> dict[str, str]:
    """Two plates: of two cuts, of two cooks of one cut, or of one cook."""
    kind = draw(st.sampled_from(["two cuts", "one cut", "one cook"]))
    first, second = draw(chains()), draw(chains())
    files = {**first.files("rib"), **second.files("shank")}
    for name in ("rib", "shank"):
        files[f"cooks/{name}.yaml"] += work(draw(st.integers(0, 200)), draw(st.integers(1, 48)))
        files[f"plates/{name}.yaml"] += f"hands-on: {draw(st.integers(0, 9))} min\n"
    if kind == "one cut":
        files["cooks/shank.yaml"] = files["cooks/shank.yaml"].replace("cut: shank", "cut: rib")
    if kind == "one cook":
        files["plates/shank.yaml"] = files["plates/shank.yaml"].replace("cook: shank", "cook: rib")
    files["kitchen.yaml"] = KITCHEN.format(basis=draw(st.sampled_from(["whole", "by weight"])))
    files["swaps/shank-for-rib.yaml"] = "benchmark: rib\nchallengers: [shank]\nforecast: 100\n"
    return files


def swap_value(figures: Figures, figure: str, row: int = 0) -> float:
    return figures.value("swap", figure, row)


def is_nothing(saving: float, figures: Figures, row: int = 0) -> bool:
    """Zero to the last bits beside the costs that it is the difference of."""
    costs = [
        abs(figures.value("swap", f"{role}_full_cost{basis}", row))
        for role in ("challenger", "benchmark")
        for basis in ("", "_by_weight")
    ]
    scale = max(filter(math.isfinite, costs))
    return abs(saving) <= 1e-9 * max(scale, 1.0)


def of_challenger(figures: Figures, row: int) -> tuple[int, int]:
    """The batch and the cut of a swap's challenger."""
    plate = figures.linked("swap", "challenger", row)
    batch = figures.linked("plate", "batch", plate)
    return batch, figures.linked("batch", "cut", batch)


def savings(figures: Figures, row: int) -> list[float]:
    """The saving in each draw of a what-if."""
    column: list[float] = figures.column("swap", "saving")[row].tolist()
    return column


def check_no_root(figures: Figures, row: int) -> None:
    """From nothing to a sum that nobody pays, the saving keeps its sign."""
    ends = savings(figures, row)
    touching = [is_nothing(end, figures, row) for end in ends]
    assert all(touching) or len({end > 0 for end in ends}) == 1 or any(touching)


def check_price(figures: Figures, row: int) -> None:
    price = swap_value(figures, "break_even_ap_price", row)
    _, cut = of_challenger(figures, row)
    if math.isnan(price):
        check_no_root(with_row(figures, ("cut", "ap_price"), cut, [0.0, 1e6]), row)
        return
    assert price >= 0
    moved = with_row(figures, ("cut", "ap_price"), cut, [price])
    assert is_nothing(swap_value(moved, "saving", row), moved, row)


def check_wage(figures: Figures, row: int) -> None:
    wage = swap_value(figures, "break_even_wage", row)
    if math.isnan(wage):
        check_no_root(with_row(figures, ("kitchen", "loaded_wage"), 0, [0.0, 1e6]), row)
        return
    assert wage >= 0
    moved = with_row(figures, ("kitchen", "loaded_wage"), 0, [wage])
    assert is_nothing(swap_value(moved, "saving", row), moved, row)


def with_cook_yield(kitchen: Costed, row: int, *cook_yields: float) -> Figures:
    """The same kitchen, the challenger's cook leaving other shares, a draw for each."""
    batch, _ = of_challenger(kitchen.figures, row)
    cook = next(name for name, number in kitchen.rows.cooks.items() if number == batch)
    stage = kitchen.rows.stages[f"cooks/{cook}", "cook"]
    return with_row(kitchen.figures, ("stage", "assumed_yield"), stage, cook_yields)


def check_yield(kitchen: Costed, row: int) -> None:
    figures = kitchen.figures
    factor = swap_value(figures, "break_even_yield_factor", row)
    if not math.isnan(factor):
        now = swap_value(figures, "cook_yield", row)
        moved = with_cook_yield(kitchen, row, now * factor)
        assert is_nothing(swap_value(moved, "saving_beside_loss", row), moved, row)
        loss = swap_value(figures, "break_even_cook_loss", row)
        assert math.isnan(loss) == (now * factor > 1)
        assert math.isnan(loss) or 1 - loss == pytest.approx(now * factor, rel=1e-9)


def check_whole(kitchen: Costed, row: int) -> None:
    """At every smaller loss the challenger costs no more; a crumb beyond the limit it does.

    Between two steps of the staircase the limit is a root: put back, it leaves no saving.
    """
    figures = kitchen.figures
    loss = swap_value(figures, "break_even_cook_loss_whole", row)
    if math.isnan(loss):
        return
    limit = 1 - loss
    steps = np.linspace(limit * (1 + 1e-7), 1.0, 150).tolist()
    within = with_cook_yield(kitchen, row, *steps)
    assert all(x > 0 or is_nothing(x, figures, row) for x in savings(within, row))
    plate = figures.linked("swap", "challenger", row)
    given_up = swap_value(figures, "portion_weights_to_break_even", row)
    portions = swap_value(figures, "portions_at_break_even", row)
    assert within.column("plate", "portions_per_piece")[plate, 0] == portions
    if abs(given_up - portions) > 1e-6:
        at_limit = with_cook_yield(kitchen, row, limit)
        assert is_nothing(swap_value(at_limit, "saving", row), figures, row)
    if portions > 1:
        beyond = with_cook_yield(kitchen, row, limit * (1 - 1e-6))
        saving = swap_value(beyond, "saving", row)
        assert saving < 0 or is_nothing(saving, figures, row)


@settings(max_examples=60, deadline=None)
@given(swaps())
def test_break_evens_put_back_end_the_saving(files: dict[str, str]) -> None:
    kitchen = costed(files)
    check_price(kitchen.figures, 0)
    check_wage(kitchen.figures, 0)
    check_yield(kitchen, 0)


@settings(max_examples=80, deadline=None)
@given(swaps())
def test_the_largest_cook_loss_by_whole_portions_is_where_the_saving_is_lost_for_good(
    files: dict[str, str],
) -> None:
    check_whole(costed({**files, "kitchen.yaml": KITCHEN.format(basis="whole")}), 0)


def test_what_is_left_over_may_pay_for_a_portion_fewer() -> None:
    """By hand: 10 kg at 10.00, portions of 1 kg; what is left over is worth 6.00 a kilogram.

    A benchmark of 12.50 allows 100 / 12.50 = 8 portions with nothing left over. With 7 portions
    and x kg of meat, 100 - 6 (x - 7) = 7 x 12.50 at x = 9.083: more than 8, so that 8 is the
    limit. Of a benchmark of 14.00: 100 / 14 = 7.14, so 8 again; with 7 portions
    100 - 6 (x - 7) = 98 at x = 7.333, a loss of 26.67 %.
    """
    for benchmark, weights, portions in ((1250, 8.0, 8), (1400, 7 + 1 / 3, 7)):
        plain = ExactChain(benchmark, 1000, 1000, {}, ExactStage((), 0), {}, 1000)
        chain = ExactChain(1000, 10000, 10000, {}, ExactStage((), 10), {}, 1000, 600)
        kitchen = costed(
            {
                **plain.files("rib"),
                **chain.files("shank"),
                "swaps/shank-for-rib.yaml": "benchmark: rib\nchallengers: [shank]\n",
            }
        )
        figures = kitchen.figures
        assert swap_value(figures, "portion_weights_to_break_even") == pytest.approx(weights)
        assert swap_value(figures, "portions_at_break_even") == portions
        loss = swap_value(figures, "break_even_cook_loss_whole")
        assert loss == pytest.approx(1 - weights / 10)
        check_whole(kitchen, 0)


def test_a_kitchen_that_costs_by_weight_has_no_limit_by_whole_portions() -> None:
    kitchen = costed({**one_cook(150), "plates/rib.yaml": "menu: mains\nprice: 30.00\n"})
    assert not math.isnan(swap_value(kitchen.figures, "saving"))
    for figure in ("portions_to_break_even", "break_even_cook_loss_whole"):
        assert math.isnan(swap_value(kitchen.figures, figure))


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("small"), SMALL))


def test_a_kitchen_with_sides_tests_and_nested_recipes(small: Costed) -> None:
    figures = small.figures
    for row in range(figures.size("swap")):
        for name in ("break_even_ap_price", "break_even_yield_factor"):
            assert not math.isnan(swap_value(figures, name, row))
        check_price(figures, row)
        check_wage(figures, row)
        check_yield(small, row)
        check_whole(small, row)


def test_one_cut_on_both_sides_moves_both(small: Costed) -> None:
    """The price of the cut that both plates use changes the saving by both weights."""
    row = small.rows.swaps["braise-for-chuck", "braise"]
    figures = small.figures
    assert swap_value(figures, "same_cut", row) == 1
    slope = swap_value(figures, "price_slope", row)
    _, cut = of_challenger(figures, row)
    price = figures.value("cut", "ap_price", cut)
    moved = with_row(figures, ("cut", "ap_price"), cut, [price + 1])
    change = swap_value(moved, "saving", row) - swap_value(figures, "saving", row)
    assert change == pytest.approx(-slope, rel=1e-9)
    other = small.rows.swaps["chuck-for-ribeye", "braise"]
    assert swap_value(figures, "same_cut", other) == 0
    assert swap_value(figures, "price_slope", other) > slope


def one_cook(portion: int) -> Mapping[str, str]:
    chain = ExactChain(1000, 10000, 10000, {}, ExactStage((), 30), {}, 200)
    smaller = replace(chain, portion=portion).files("rib")
    return {
        **chain.files("rib"),
        "plates/shank.yaml": smaller["plates/rib.yaml"],
        "kitchen.yaml": KITCHEN.format(basis="by weight"),
        "swaps/shank-for-rib.yaml": "benchmark: rib\nchallengers: [shank]\n",
    }


def test_one_cook_on_both_sides_has_no_yield_that_ends_the_saving() -> None:
    """A smaller portion of the same cook is cheaper at every yield."""
    kitchen = costed(one_cook(150))
    assert swap_value(kitchen.figures, "saving_by_weight") > 0
    for figure in ("break_even_yield_factor", "portions_to_break_even"):
        assert math.isnan(swap_value(kitchen.figures, figure))


def test_the_saving_is_spread_over_week_year_and_payback(small: Costed) -> None:
    row = small.rows.swaps["chuck-for-ribeye", "chuck-steak"]
    figures = small.figures
    saving = swap_value(figures, "saving", row)
    assert saving == pytest.approx(
        swap_value(figures, "benchmark_full_cost", row)
        - swap_value(figures, "challenger_full_cost", row)
    )
    week = saving * 204 / 30 * 7
    assert swap_value(figures, "saving_a_week", row) == pytest.approx(week)
    assert swap_value(figures, "saving_a_year", row) == pytest.approx(week * 50)
    assert swap_value(figures, "payback", row) == pytest.approx(1150 / week)
    change = swap_value(figures, "margin_change", row) * 204 / 30 * 7 * 50
    assert swap_value(figures, "margin_change_a_year", row) == pytest.approx(change)
    assert swap_value(figures, "margin_change", row) == pytest.approx(
        saving + (27.00 - 44.00) / 1.05
    )


def test_nothing_is_paid_back_without_a_saving(small: Costed) -> None:
    dear = with_row(small.figures, ("cut", "ap_price"), small.rows.cuts["chuck"], [500.0])
    row = small.rows.swaps["chuck-for-ribeye", "chuck-steak"]
    assert swap_value(dear, "saving", row) < 0
    assert math.isnan(swap_value(dear, "payback", row))
