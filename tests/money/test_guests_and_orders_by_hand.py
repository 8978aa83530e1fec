"""Formulas of guests, counters, orders and sizes by hand; and that every formula of money is.

Common practice, no published source. Numbers are such that every other sign gives another answer.
"""

from __future__ import annotations

import ast
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.costing.model import MODEL
from builder.engine.arith import Column
from builder.money import (
    actuals,
    buffets,
    candidates,
    capacity,
    decisions,
    equal_margin,
    factors,
    guest_sales,
    kitchen,
    menu,
    ordering,
    scaling,
    service,
    set_menus,
    swap_portions,
    swaps,
)
from tests.money.test_formulas_by_hand import NAN, Case
from tests.money.test_single_formulas import comes_to

assert MODEL  # tables are declared in its order

# 40 guests pay 30.00 and supplements of 2.00; a quarter takes the plate of 9.00.
SET_MENU: tuple[Case, ...] = (
    (set_menus.food_without_cover, (9, 1.5), 7.5),
    (set_menus.labour_without_cover, (5, 0.1, 20), 3),
    (set_menus.labour_without_cover, (5, 0.1, NAN), 5),
    (set_menus.labour_without_cover, (NAN, 0.1, NAN), 0),
    (set_menus.process_without_cover, (2, 0.5), 1.5),
    (set_menus.known_share, (0.25,), 0.25),
    (set_menus.known_share, (NAN,), 0),
    (set_menus.has_equal_part, (0.25,), 0),
    (set_menus.has_equal_part, (NAN,), 1),
    (set_menus.equal_share, (0.4, 3), 0.2),
    (set_menus.equal_share, (1.2, 3), 0),
    (set_menus.equal_share, (0.4, 0), 0),
    (set_menus.share, (0.25, 0.2), 0.25),
    (set_menus.share, (NAN, 0.2), 0.2),
    (set_menus.food_after_supplement, (9, 5, 1.25), 5),
    *((part, (0.25, 9), 2.25) for part in (
        set_menus.choice_food, set_menus.choice_labour, set_menus.choice_process,
        set_menus.choice_supplement, set_menus.choice_price)),
    (set_menus.cover_cost, (1.5, 1, 2, 3), 1.5),
    (set_menus.cover_cost, (NAN, 1, 2, 3), 2),
    (set_menus.cover_cost, (NAN, 0, 2, 3), 3),
    (set_menus.food_cost, (7.5, 1.5), 9),
    (set_menus.labour_cost, (5, 0.1, 20), 7),
    (set_menus.labour_cost, (5, 0.1, NAN), 5),
    (set_menus.process_per_plate, (1.5, 0.5), 2),
    (set_menus.menu_price, (30, 2), 32),
    # 6.01 over 0.3, a quarter of tax, less 2.00: 23.0417, up to the next 0.05.
    (set_menus.price_for_food_cost, (6.01, 0.3, 1.25, 2, 20), 23.05),
    (set_menus.price_for_food_cost, (0, 0.3, 1.25, -2, 20), NAN),
    (set_menus.price_for_food_cost, (-6, 0.3, 1.25, 2, 20), NAN),
    (set_menus.price_for_margin, (6, 10.01, 1.25, 2, 20), 18.05),
    (set_menus.price_for_margin, (0, 10, 1.25, 2, 20), 10.5),
    (set_menus.price_for_margin, (-1, 10, 1.25, 2, 20), NAN),
    (set_menus.off_prices_apart, (30, 40), 0.25),
    (set_menus.week_margin, (40, 12), 480),
    (set_menus.plates_a_week, (0.25, 40), 10),
    (set_menus.plates_expected, (10,), 10),
    (set_menus.plates_expected, (NAN,), 0),
    (set_menus.plates_to_make, (10, 4), 14),
    (set_menus.plates_to_make, (NAN, 4), 4),
    (set_menus.plates_to_make, (10, 0), 10),
    (set_menus.plates_to_make, (NAN, 0), NAN),
    (guest_sales.guest_sales, (40, 25), 1000),
    (guest_sales.guest_covers, (40, 1.5), 60),
    *((taken, (40, 0.25), 10.0) for taken in (
        guest_sales.taken_by_guests, service.taken_by_guests)),
)  # fmt: skip

# 10 kg are put out for 100.00 and a quarter of seasoning; a fifth is left, worth 3.00/kg.
BUFFET: tuple[Case, ...] = (
    (buffets.weight, (2, NAN, NAN), 2),
    (buffets.weight, (NAN, 3, 0.5), 1.5),
    (buffets.dish_food, (2, 12, NAN, NAN), 24),
    (buffets.dish_food, (1.5, NAN, 3, 4), 12),
    (buffets.dish_labour, (2, 8, 20, NAN, NAN, NAN), 5),
    (buffets.dish_labour, (1.5, NAN, NAN, 3, 0.5, 20), 30),
    (buffets.dish_labour, (2, 8, NAN, NAN, NAN, 20), 0),
    (buffets.dish_process, (2, 8, 20, NAN, NAN), 5),
    (buffets.dish_process, (1.5, NAN, NAN, 3, 0.5), 1.5),
    (buffets.dish_process, (2, 8, NAN, NAN, NAN), 0),
    (buffets.taken_weight, (10, 0.2), 8),
    (buffets.left_credit, (10, 0.2, 3), 6),
    (buffets.food_cost, (100, 0.25, 6), 119),
    (buffets.left_cost, (119, 6, 0.2), 19),
    (buffets.cost_per_kg_sold, (120, 8), 15),
    (buffets.full_cost_per_kg_sold, (100, 12, 8, 8), 15),
    (buffets.price_per_kg_ex_tax, (25, 0.25, 1), 20),
    (buffets.price_per_kg_ex_tax, (25, 0.25, 0), 25),
    (buffets.price_ex_tax, (25, 0.25, 1, NAN, 8), 20),
    (buffets.price_ex_tax, (25, 0.25, 0, NAN, 8), 25),
    (buffets.price_ex_tax, (NAN, 0.25, 1, 20, 8), 160),
    (buffets.margin_per_kg, (20, 15), 5),
    (buffets.full_cost, (100, 12, 8), 120),
    (buffets.price_per_kg_for_food_cost, (15, 0.3, 1.25), 62.5),
    (buffets.price_for_food_cost, (15, 0.3, 1.25), 62.5),
    (buffets.week_margin, (40, 12, NAN, NAN), 480),
    (buffets.week_margin, (NAN, 12, 60, 5), 300),
)

# Packs of 2 kg, or no less than 5 kg; what the last bits of a sum leave over is not ordered.
SHORT = (ordering.amount_made, ordering.amount_short)
ORDER: tuple[Case, ...] = (
    (ordering.quantity_as_sold, (7, NAN, 2, 0), 8),
    (ordering.quantity_as_sold, (7, 9, 2, 0), 10),
    (ordering.quantity_as_sold, (3, NAN, 2, 5), 6),
    (ordering.quantity_as_sold, (3, NAN, NAN, 5), 5),
    (ordering.quantity_as_sold, (7, NAN, NAN, 0), NAN),
    (ordering.weight_to_buy, (6, 0.75), 8),
    (ordering.amount_a_cover, (0.4, NAN, NAN, NAN), 0.4),
    (ordering.amount_a_cover, (NAN, 0.3, NAN, NAN), 0.3),
    (ordering.amount_a_cover, (NAN, NAN, 2, NAN), 2),
    (ordering.amount_a_cover, (NAN, NAN, NAN, 3), 3),
    (ordering.amount_taken, (8, NAN, NAN, NAN, NAN, NAN, NAN), 8),
    (ordering.amount_taken, (NAN, 12, 0.25, NAN, NAN, NAN, NAN), 3),
    (ordering.amount_taken, (NAN, NAN, NAN, 3, 2, 4, NAN), 1.5),
    (ordering.amount_taken, (NAN, NAN, NAN, NAN, NAN, NAN, 0.7), 0.7),
    *((short, (5, 2), 3.0) for short in SHORT),
    *((short, (2, 5), 0.0) for short in SHORT),
    *((short, (1e-9, 0), 0.0) for short in SHORT),
    *((short, (3e-9, 0), 3e-9) for short in SHORT),
    (ordering.step_size, (2, NAN), 2),
    (ordering.step_size, (NAN, 3), 3),
    (ordering.amount_needed, (6, 0.75), 8),
    (ordering.amount_needed, (6, NAN), 6),
    (ordering.from_stock, (6, 2), 2),
    (ordering.from_stock, (2, 6), 2),
    (ordering.amount_ordered, (7, 2, 0, NAN), 8),
    (ordering.amount_ordered, (3, 2, 5, NAN), 6),
    (ordering.amount_ordered, (3, 2, NAN, 5), 6),
    (ordering.amount_ordered, (3, NAN, 5, NAN), 5),
    (ordering.amount_ordered, (0, 2, 5, NAN), 0),
    (ordering.packs_ordered, (8, 2), 4),
    (ordering.packs_ordered, (NAN, 2), NAN),
    (ordering.left_over, (8, 7), 1),
    (ordering.price_paid, (4, NAN), 4),
    (ordering.price_paid, (NAN, 5), 5),
    (ordering.line_cost, (8, 2.5), 20),
    (ordering.line_billed, (1.125, 100), 1.13),
    (ordering.line_billed, (1.12, 20), 1.1),
    (ordering.left_over_cost, (1.5, 4), 6),
    (ordering.deposits, (3, 2, NAN), 6),
    (ordering.deposits, (3, NAN, 5), 15),
    (ordering.deposits, (NAN, 2, NAN), 0),
    (ordering.paid_today, (100, 6), 106),
    (ordering.billed_today, (100, 6), 106),
    (service.covers, (12, 9.2), 22),
    (service.loads_as_written, (25, 10, NAN, NAN, NAN), 3),
    (service.loads_as_written, (25, 10, 12, NAN, NAN), NAN),
    (service.loads_as_written, (25, 10, 12, 7, 2), 4),
)

# A challenger plate of 30.00 that earns 4.00 more; the limits put back leave nothing more.
MARGIN: tuple[Case, ...] = (
    (equal_margin.equal_margin_ap_price, (8, 3, 0.5), 14),
    (equal_margin.equal_margin_ap_price, (8, -4, 0.5), 0),
    (equal_margin.equal_margin_ap_price, (8, 3, -0.25), NAN),
    (equal_margin.equal_margin_ap_price, (8, 3, 1e-12), NAN),
    (equal_margin.equal_margin_wage, (20, 3, 0.5), 26),
    (equal_margin.equal_margin_wage, (NAN, 3, 0.5), 6),
    (equal_margin.equal_margin_wage, (20, -10, 0.5), 0),
    (equal_margin.equal_margin_wage, (20, -11, 0.5), NAN),
    (equal_margin.equal_margin_wage, (20, 3, 1e-12), NAN),
    (equal_margin.equal_margin_yield_factor, (8, 3, 1, 6), 0.5),
    (equal_margin.equal_margin_yield_factor, (-2, 3, 1, 6), NAN),
    (equal_margin.equal_margin_yield_factor, (1e-12, 0, 0, 1 - 1e-12), NAN),
    (equal_margin.equal_margin_cook_loss, (0.7, 0.9), 0.37),
    (equal_margin.equal_margin_cook_loss, (0.5, 2), 0),
    (equal_margin.equal_margin_cook_loss, (0.7, 2), NAN),
    (equal_margin.equal_margin_cost, (30, 4), 34),
    # 46 of 2 pieces: two portions pay 9 each, 5 are owed, at 2.50 a portion's weight left over.
    (equal_margin.portion_weights_to_equal_margin, (12, 46, 0.5, 1, 2, 2, 3), 2),
    (equal_margin.portion_weights_to_equal_margin, (12, 8, 0, 1, 10, 1, 1), 1),
    (equal_margin.portion_weights_to_equal_margin, (12, 46, 0, 1, 0, 2, 3), 3),
    (equal_margin.portion_weights_to_equal_margin, (1, 1 + 5e-13, 0, 0, 1e-12, 1, 2), 2),
    (equal_margin.equal_margin_cook_loss_whole, (0.8, 3, 2, 12), 0.6),
    (equal_margin.equal_margin_cook_loss_whole, (0.8, 7.5, 2, 12), 0),
    (equal_margin.equal_margin_cook_loss_whole, (0.8, 15, 2, 12), NAN),
    (swap_portions.ap_weight_per_portion, (0.4, 0.3), 0.4),
    (swap_portions.ap_weight_per_portion, (NAN, 0.3), 0.3),
    (swap_portions.price_slope, (1.25, 0.5, 1.5, 0.2), 0.325),
    (swaps.swap_count, (30, 20), 30),
    (swaps.swap_count, (NAN, 20), 20),
    (swaps.portions_at_break_even, (2.7,), 2),
    (decisions.sold_a_week_since, (60, 4), 15),
    (decisions.promised_since, (2, 15, 4), 120),
    (decisions.earned_since, (2, 60), 120),
)

REST: tuple[Case, ...] = (
    (scaling.weight_in_batch, (10, 9, 8, NAN, NAN), 10),
    (scaling.weight_in_batch, (NAN, 9, 8, NAN, NAN), 9),
    (scaling.weight_in_batch, (NAN, NAN, 8, NAN, NAN), 8),
    (scaling.weight_in_batch, (NAN, NAN, NAN, 0.4, 0.3), 0.4),
    (scaling.weight_in_batch, (NAN, NAN, NAN, NAN, 0.3), 0.3),
    (scaling.weight_in_batch, (0, NAN, NAN, NAN, NAN), NAN),
    *((scaling.own_amount, (*[NAN] * n, *[5.0] * (7 - n)), 5.0) for n in range(7)),
    (scaling.asked_amount, (6, 4), 6),
    (scaling.asked_amount, (NAN, 4), 4),
    (scaling.wanted_share, (6, 4, 6), 1.5),
    (scaling.wanted_share, (4, 4, NAN), NAN),
    (scaling.wanted_share, (6, 0, 6), NAN),
    (scaling.batch_factor, (1.5,), 1.5),
    (scaling.batch_factor, (NAN,), 1),
    (scaling.scaled_amount, (4, 1.5), 6),
    *((end, (5, 4, 6), 5.0) for end in (kitchen.batch_energy_low, kitchen.batch_energy_high)),
    *((end, (NAN, 4, 6), 4.0) for end in (kitchen.batch_energy_low, kitchen.batch_energy_high)),
    *((end, (NAN, NAN, 6), 6.0) for end in (kitchen.batch_energy_low, kitchen.batch_energy_high)),
    (capacity.cycle_counted, (2, 30), 30),
    (capacity.cycle_counted, (0, 30), 0),
    (actuals.sales, (900, 600), 1500),
    (actuals.theoretical_food, (300, 60), 360),
    (candidates.ap_price, (9, 8), 9),
    (candidates.ap_price, (NAN, 8), 8),
    *((known, (3,), 3.0) for known in (factors.own_cover, menu.counted, menu.counted_margin)),
    *((known, (NAN,), 0.0) for known in (factors.own_cover, menu.counted, menu.counted_margin)),
)


@pytest.mark.parametrize(
    ("formula", "given", "expected"),
    [*SET_MENU, *BUFFET, *ORDER, *MARGIN, *REST],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_a_formula_comes_to_what_a_hand_computes(
    formula: Callable[..., Column], given: tuple[float, ...], expected: float
) -> None:
    assert comes_to(formula, given, expected)


def _is_formula(node: ast.stmt) -> bool:
    calls = [d for d in getattr(node, "decorator_list", ()) if isinstance(d, ast.Call)]
    return any(ast.unparse(call.func) == "formula" for call in calls)


def _declared(path: Path) -> set[str]:
    """The formulas that a module declares, as "module.name"."""
    body = ast.parse(path.read_text(encoding="utf-8")).body
    found = (node for node in body if isinstance(node, ast.FunctionDef) and _is_formula(node))
    return {f"{path.stem}.{node.name}" for node in found}


def _named(path: Path) -> set[str]:
    """What a file of tests names of other modules, as "module.name"."""
    nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    taken = {
        f"{node.module.rpartition('.')[2]}.{alias.name}"
        for node in nodes
        if isinstance(node, ast.ImportFrom) and node.module
        for alias in node.names
    }
    return taken | {ast.unparse(node) for node in nodes if isinstance(node, ast.Attribute)}


def test_every_formula_of_money_is_computed_by_hand() -> None:
    """In this file or a neighbour that calls single formulas."""
    here, room = Path(__file__).parent, Path(equal_margin.__file__).parent
    files = [*here.glob("test_*_by_hand.py"), *here.glob("test_*_formulas.py")]
    named = set().union(*map(_named, files))
    declared = set().union(*map(_declared, room.glob("*.py")))
    assert len(declared) > 250
    assert declared - named == set()
