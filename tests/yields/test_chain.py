"""Random chains of weights against exact fractions, and what must hold for every one."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import isnan
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.costing.costed import Costed
from builder.engine.figures import Figures
from tests.kitchens import costed_from, write
from tests.moving import with_row
from tests.yields.exact import ExactChain, ExactStage, Weighing, chains, weighings

KITCHEN = {"kitchen.yaml": "name: Random kitchen\ncurrency: CAD\n"}
EXACT = 1e-9


def costed(files: Mapping[str, str]) -> Costed:
    with tempfile.TemporaryDirectory() as folder:
        return costed_from(write(Path(folder), {**KITCHEN, **files}))


def value(figures: Figures, table: str, figure: str) -> float:
    """The figure of the only row."""
    return figures.value(table, figure, 0)


def close(to: object) -> object:
    return pytest.approx(to, rel=EXACT, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(chains())
def test_every_figure_of_a_batch_is_that_of_exact_arithmetic(chain: ExactChain) -> None:
    figures = costed(chain.files()).figures
    exact = {
        "ap_weight": chain.ap_weight / 1000,
        "servable_weight": chain.servable / 1000,
        "overall_yield": chain.servable / chain.ap_weight,
        "cook_yield": chain.cook.yield_,
        "ap_cost": chain.ap_cost / 100,
        "credits": chain.credits / 100,
        "net_cost": (chain.ap_cost - chain.credits) / 100,
        "cost_per_servable_kg": chain.per_kg / 100,
        "cost_factor_per_kg": chain.per_kg / chain.price,
    }
    for name, fraction in exact.items():
        assert value(figures, "batch", name) == close(float(fraction)), name
    plate = {
        "portions_by_weight": chain.servable / chain.portion,
        "portion_cost_by_weight": chain.per_kg * chain.portion / 100_000,
        "cost_factor_per_portion": chain.per_kg * chain.portion / 1000 / chain.price,
    }
    whole = ("pieces", "whole_portions", "portion_cost_whole")
    if chain.piece:
        plate["pieces"] = Fraction(chain.pieces)
        plate["whole_portions"] = Fraction(chain.whole_portions)
        plate["portion_cost_whole"] = chain.portion_cost_whole / 100
    else:
        assert all(isnan(value(figures, "plate", name)) for name in whole)
    for name, fraction in plate.items():
        assert value(figures, "plate", name) == close(float(fraction)), name


@settings(max_examples=30, deadline=None)
@given(chains())
def test_mass_and_money_are_conserved(chain: ExactChain) -> None:
    """AP weight = servable + by-products + losses; AP cost = servable cost + credits."""
    figures = costed(chain.files()).figures
    weight = value(figures, "batch", "ap_weight")
    servable = value(figures, "batch", "servable_weight")
    byproducts = figures.column("step", "step_byproducts").sum()
    losses = figures.column("step", "step_loss").sum()
    assert servable + byproducts + losses == close(weight)
    assert byproducts == close(float(chain.byproducts / 1000))
    assert (figures.column("step", "step_loss") > -1e-9).all()
    per_kg = value(figures, "batch", "cost_per_servable_kg")
    ap_cost = value(figures, "batch", "ap_cost")
    assert per_kg * servable + value(figures, "batch", "credits") == close(ap_cost)
    # On the menu's portions nothing of the batch is paid for twice or lost.
    portions = value(figures, "plate", "portions_charged")
    on_plates = portions * value(figures, "plate", "protein_cost")
    left = value(figures, "plate", "remainder_credit") if chain.piece else 0.0
    assert on_plates + left + value(figures, "batch", "credits") == close(ap_cost)


@settings(max_examples=30, deadline=None)
@given(chains())
def test_a_step_takes_up_where_the_last_one_left_off(chain: ExactChain) -> None:
    figures = costed(chain.files()).figures
    into = figures.column("step", "step_weight_in")[:, 0]
    out = figures.column("step", "step_weight_out")[:, 0]
    np.testing.assert_allclose(into[1:], out[:-1], rtol=EXACT)
    assert into[0] == close(value(figures, "batch", "ap_weight"))
    assert out[-1] == close(value(figures, "batch", "servable_weight"))
    last = figures.value("step", "cost_per_kg_out", len(out) - 1)
    assert last == close(value(figures, "batch", "cost_per_servable_kg"))
    # From the AP price what every stage adds and takes off leads to the cost that can be served.
    rises, credits = (figures.column("step", n) for n in ("rise_per_kg", "credit_per_kg_out"))
    assert value(figures, "batch", "ap_price") + float(np.sum(rises - credits)) == close(last)


@settings(max_examples=30, deadline=None)
@given(chains(), st.integers(2, 7))
def test_a_larger_batch_changes_no_cost_per_kg(chain: ExactChain, times: int) -> None:
    once = costed(chain.files()).figures
    more = costed(replace(chain, load=chain.load * times).files()).figures
    for figure in ("cost_per_servable_kg", "cost_factor_per_kg", "overall_yield"):
        assert value(more, "batch", figure) == close(value(once, "batch", figure))
    for figure in ("ap_weight", "servable_weight", "net_cost"):
        assert value(more, "batch", figure) == close(times * value(once, "batch", figure))
    same = value(once, "plate", "portion_cost_by_weight")
    assert value(more, "plate", "portion_cost_by_weight") == close(same)


@settings(max_examples=30, deadline=None)
@given(chains(), st.floats(0.01, 50))
def test_a_credit_never_makes_the_servable_part_cost_more(chain: ExactChain, more: float) -> None:
    figures = costed(chain.files()).figures
    for row in range(figures.size("byproduct")):
        worth = figures.value("byproduct", "byproduct_worth", row)
        dearer = with_row(figures, ("byproduct", "stated_worth"), row, [worth, worth + more])
        before, after = dearer.column("batch", "cost_per_servable_kg")[0]
        assert before == close(value(figures, "batch", "cost_per_servable_kg"))
        assert after <= before + 1e-12
        share = figures.value("byproduct", "byproduct_share_of_in", row)
        assert (after < before) or share * more < 1e-9


@settings(max_examples=30, deadline=None)
@given(chains())
def test_whole_portions_are_never_more_and_never_cheaper(chain: ExactChain) -> None:
    """Cheaper only where what is left over is worth something, or the batch less than nothing."""
    dear = chain.price + 2500  # no by-product is worth more a kg
    chain = replace(chain, piece=chain.piece or chain.load)
    figures = costed(replace(chain, remainder=0, price=dear).files()).figures
    assert value(figures, "plate", "whole_portions") <= (
        value(figures, "plate", "portions_by_weight") + 1e-9
    )
    whole = value(figures, "plate", "portion_cost_whole")
    by_weight = value(figures, "plate", "portion_cost_by_weight")
    assert whole >= by_weight - 1e-9 * abs(by_weight)
    per_kg = value(figures, "batch", "cost_per_servable_kg")
    even = with_row(figures, ("batch", "remainder_worth"), 0, [per_kg])
    assert value(even, "plate", "portion_cost_whole") == close(by_weight)


def one_stage(tests: list[Weighing]) -> dict[str, str]:
    chain = ExactChain(900, 8000, None, {}, ExactStage(tuple(tests)), {}, 100)
    return chain.files()


@settings(max_examples=30, deadline=None)
@given(st.lists(weighings(), min_size=1, max_size=5))
def test_tests_are_pooled_as_a_ratio_of_sums(tests: list[Weighing]) -> None:
    """All tests together count as one with their sums, in whatever order they stand."""
    figures = costed(one_stage(tests)).figures
    pooled = value(figures, "stage", "measured_yield")
    assert pooled == close(sum(t.out for t in tests) / sum(t.into for t in tests))
    low, high = (value(figures, "stage", name) for name in ("lowest_yield", "highest_yield"))
    assert low - 1e-12 <= pooled <= high + 1e-12
    turned = costed(one_stage(tests[::-1])).figures
    for name in ("measured_yield", "credit_per_kg_in", "byproduct_share", "yield_half_width"):
        assert value(turned, "stage", name) == pytest.approx(
            value(figures, "stage", name), rel=1e-7, abs=1e-12, nan_ok=True
        )


@settings(max_examples=25, deadline=None)
@given(chains(), st.integers(1, 400))
def test_buying_for_covers_and_its_rearrangements_agree(chain: ExactChain, covers: int) -> None:
    """Quantity = portions x size / yield; its own answers put back give the question."""
    chain = replace(chain, piece=chain.piece or chain.load)
    kitchen = {"kitchen.yaml": f"name: Random kitchen\ncurrency: CAD\ncovers: [{covers}]\n"}
    figures = costed({**chain.files(), **kitchen}).figures
    quantity = value(figures, "order", "quantity_to_buy")
    exact = covers * chain.portion * chain.ap_weight / chain.servable / 1000
    assert quantity == close(float(exact))
    # A batch of exactly that quantity gives the covers and the portion back.
    load = quantity * value(figures, "batch", "yield_to_load")
    bought = with_row(figures, ("batch", "load"), 0, [load])
    assert value(bought, "order", "portions_from") == close(covers)
    assert value(bought, "order", "portion_size_from") == close(chain.portion / 1000)
    whole = value(figures, "order", "pieces_to_cook")
    each = value(figures, "plate", "portions_per_piece")
    assert (whole - 1) * each < covers <= whole * each
    assert value(figures, "order", "quantity_to_buy_whole") >= quantity * (1 - EXACT)
