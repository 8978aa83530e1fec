"""Every formula of money that no other test computes by hand: its inputs in order, its answer.

Common practice, no published source. Numbers are such that every other sign gives another answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest

from builder.costing.model import MODEL
from builder.engine.arith import Column
from builder.money import (
    actions,
    actuals,
    candidates,
    capacity,
    counted,
    covers,
    decisions,
    equal_margin,
    factors,
    further_sales,
    intervals,
    kitchen,
    menu,
    menu_actions,
    pantry,
    partition,
    plates,
    portions,
    sales,
    service,
    smaller,
    swap_portions,
    swaps,
)  # fmt: skip
from tests.money.test_single_formulas import comes_to

assert MODEL  # tables are declared in its order
NAN, INF = math.nan, math.inf

Case = tuple[Callable[..., Column], tuple[float, ...], float]

# 12 kg bought for 100.00 give 3 pieces, 6 kg to serve, 0.45 kg a portion, 4 of a piece.
PLATE: tuple[Case, ...] = (
    (plates.portion, (0.4, 2, 6, 4), 0.4),
    (plates.portion, (NAN, 2, 6, 4), 3),
    (plates.portion_cost_by_weight, (20, 0.3), 6),
    (plates.cost_factor_per_portion, (6, 8), 0.75),
    (plates.portions_by_weight, (6, 0.3), 20),
    (plates.counts_pieces, (1, 3), 1),
    (plates.counts_pieces, (1, NAN), 0),
    (plates.counts_pieces, (0, 3), 0),
    (plates.portions_per_piece, (6, 3, 0.45, NAN), 4),
    (plates.portions_per_piece, (6, 3, 0.45, 0.5), 2),
    (plates.whole_portions, (3, 4), 12),
    (plates.remainder_credit, (0.5, 6), 3),
    (plates.portion_cost_whole, (100, 4, 12), 8),
    (plates.protein_cost, (8, 7, 1), 8),
    (plates.protein_cost, (8, 7, 0), 7),
    (plates.protein_cost, (NAN, NAN, 0), 0),
    (plates.portions_charged, (12, 13, 1), 12),
    (plates.portions_charged, (12, 13, 0), 13),
    (plates.ap_cost_per_portion, (0.625, 8), 5),
    (plates.ap_cost_per_portion, (0, NAN), 0),
    (plates.credit_per_portion, (6, 3, 12, 1), 0.75),
    (plates.credit_per_portion, (6, 3, 12, 0), 0.5),
    (plates.credit_per_portion, (0, NAN, NAN, 0), 0),
    (plates.seasoning_cost, (0, INF, 2, 0, 0), 0),  # what no piece gives has no allowance
    (plates.food_cost, (8, 2, 1, 3, 0.5, 1.5), 16),
    (plates.labour_hours, (2, 8, NAN, 0, 0, 0), 0.25),
    (plates.labour_hours, (NAN, 8, 0.5, 0, 0, 0), 0.5),
    (plates.labour_hours, (NAN, 8, NAN, 0.5, 0.25, 0.125), 0.875),
    (plates.labour_hours, (NAN, 8, NAN, 0, 0, 0), NAN),
    (plates.labour_cost, (0.5, 20), 10),
    (plates.labour_cost, (0, NAN), 0),  # no work needs no wage
    (plates.labour_cost, (NAN, 20), NAN),
    (plates.prime_cost, (14, 10), 24),
    (plates.prime_cost, (14, NAN), 14),
    (plates.energy_per_plate, (6, 24), 0.25),
    (plates.energy_per_plate, (6, NAN), 0),
    (plates.equipment_per_plate, (6, 24), 0.25),
    (plates.equipment_per_plate, (6, NAN), 0),
    (plates.process_per_plate, (0.5, 0.25, 2, 0.75, 0.25, 0.5), 4.25),
    (plates.process_per_plate, (NAN, 0.25, NAN, 0.75, 0.25, 0), 1.25),
    (plates.full_cost, (24, 3.75), 27.75),
    (plates.price_ex_tax, (25, 0.25, 1), 20),
    (plates.price_ex_tax, (25, 0.25, 0), 25),
    (plates.contribution_margin, (20, 14), 6),
    (plates.margin_after_full, (20, 12), 8),
    (plates.food_cost_share, (6, 20), 0.3),
    # In coins of 0.05: 6.01 / 0.3 x 1.25 is 25.0417, and (6.01 + 10) x 1.25 is 20.0125.
    (plates.price_for_food_cost, (6.01, 0.3, 1.25, 20), 25.05),
    (plates.price_for_food_cost, (0, 0.3, 1.25, 20), NAN),
    (plates.price_for_food_cost, (-1, 0.3, 1.25, 20), NAN),
    (plates.price_for_margin, (6.01, 10, 1.25, 20), 20.05),
    (plates.price_for_margin, (0, 10, 1.25, 20), 12.5),
    (plates.price_for_margin, (-1, 10, 1.25, 20), NAN),
    (portions.portion_hours, (2, 8), 0.25),
    (portions.portion_hours, (NAN, 8), 0),
    (portions.portion_process, (0.5, 0.25, 2), 2.75),
    (portions.portion_process, (NAN, 0.25, NAN), 0.25),
    (partition.cook_batch_cost, (100, 20, 1.25, 30, 5), 135),
    (partition.cook_batch_cost, (100, 20, 1.25, NAN, 5), 105),
    (partition.cook_dependent_cost, (135, 27), 5),
    (partition.full_cost_by_weight, (8, 3, 4), 9),
    (partition.full_cost_by_weight, (NAN, NAN, 4), 4),
    (factors.seasoning_share, (NAN, 0.03), 0.03),
    (factors.seasoning_share, (0, 0.03), 0),
    (factors.garnish_share, (NAN, 0.2), 0.2),
    (factors.garnish_share, (0.1, 0.2), 0.1),
    (factors.garnish_stated, (NAN, 0.5), 0.5),
    (factors.garnish_stated, (0, 0.5), 0),
    (factors.food_factor, (0.25, 0.2), 1.5),
    (factors.garnish_cost, (0.25, 0.5, 5, 2, 1), 2.5),
    (factors.garnish_cost, (0, 0.5, INF, 2, 1), 0.5),  # what no piece gives has no share
    (factors.cover_cost, (NAN, 1, 1.25), 1.25),
    (factors.cover_cost, (NAN, 0, 1.25), 0),
    (factors.cover_cost, (0, 1, 1.25), 0),
    (factors.cover_hours, (1, 0.25), 0.25),
    (factors.cover_hours, (0, 0.25), 0),
    (factors.cover_process, (1, 0.25), 0.25),
    (factors.cover_process, (0, 0.25), 0),
    (covers.cover_cost, (NAN, 0.75), 0.75),
    (covers.cover_cost, (1.5, 0.75), 1.5),
    (service.pieces_taken, (10, NAN, 4), 2.5),
    (service.pieces_taken, (10, NAN, NAN), 0),
    (service.batches_taken, (10, NAN, 25), 0.4),
    (service.batches_taken, (10, NAN, NAN), 0),
    (service.batches_taken, (10, 0, NAN), 0),
    (service.pieces_to_cook, (NAN, 4.2), NAN),
)

BESIDE: tuple[Case, ...] = (
    (pantry.food, (3, 2), 6),
    (pantry.hours, (3, 0.5), 1.5),
    (pantry.hours, (3, NAN), 0),
    (pantry.process, (3, 4), 12),
    (pantry.known_process, (3, 4), 12),
    (pantry.makes, (5, 8, 0.75), 5),
    (pantry.makes, (NAN, 8, 0.75), 6),
    (pantry.food_per_unit, (6, 0.75, 0, NAN), 8),
    (pantry.food_per_unit, (NAN, 1, 12, 4), 3),
    (pantry.hours_per_unit, (2, 1, 4), 0.75),
    (pantry.hours_per_unit, (NAN, 1, 4), 0.25),
    (pantry.hours_per_unit, (2, 0, 4), 0.5),
    (pantry.hours_per_unit, (NAN, 0, 4), NAN),
    (pantry.hours_per_unit, (NAN, 0, NAN), 0),  # what is bought brings no work
    (pantry.recipe_energy_price, (1, 0.08, 0.25), 0.08),
    (pantry.recipe_energy_price, (0, 0.08, 0.25), 0.25),
    (pantry.process_per_unit, (2, 0.25, 1.5, 4), 0.5),
    (pantry.process_per_unit, (NAN, 0.25, 1.5, 4), NAN),
    (pantry.process_per_unit, (NAN, 0.25, 0, NAN), 0),
    (pantry.known_process_per_unit, (2, 0.25, 1.5, 4), 0.5),
    (pantry.known_process_per_unit, (NAN, 0.25, 1.5, 4), 0.375),
    (pantry.known_process_per_unit, (NAN, 0.25, 0, NAN), 0),
    (kitchen.energy_price, (1, 0.08, 0.25), 0.08),
    (kitchen.energy_price, (0, 0.08, 0.25), 0.25),
    (kitchen.batch_labour, (NAN, 20), NAN),
    (kitchen.batch_process, (NAN, 0.75, NAN), 0.75),
    (capacity.batches_a_load, (10, 4), 2.5),
    (capacity.hours_taken, (3, 93), 93),
    (capacity.hours_taken, (0, NAN), 0),
    (capacity.hours_taken, (NAN, NAN), 0),
    # On two plates as a further portion, and none of them has a count.
    (capacity.loads_needed, (0, 2, NAN, 0, 0, NAN, 2), NAN),
    (capacity.loads_needed, (1.5, 2, 1.5, 1, 0.75, 0.75, 1), 3),
)

MENU: tuple[Case, ...] = (
    (menu.month_margin, (30, 9), 270),
    (menu.month_sales, (30, 20), 600),
    (menu.month_sales, (NAN, 20), 0),
    (menu.month_food, (30, 4), 120),
    (menu.month_food, (NAN, 4), 0),
    (menu.section_food_share, (120, 400), 0.3),
    (menu.menu_food_share, (120, 400), 0.3),
    (menu.dividing_margin, (270, 30), 9),
    (menu.dividing_mix, (4,), 0.175),
    (menu.menu_mix, (30, 120), 0.25),
    # 2 a day against 1.6 a day, then against none and against nothing counted.
    (menu.sold_change, (60, 30, 49.6, 31), 0.25),
    (menu.sold_change, (60, 30, 0, 31), NAN),
    (menu.sold_change, (60, 30, NAN, NAN), NAN),
    (menu.counted_with_labour, (30, 4), 30),
    (menu.counted_with_labour, (30, 0), 30),
    (menu.counted_with_labour, (30, NAN), 0),
    (menu.month_margin_after_prime, (30, 9), 270),
    (menu.month_margin_after_prime, (0, NAN), 0),
    (menu.dividing_after_prime, (270, 30), 9),
    # Margin, line, labour, coins, its own plates and all those with labour: to the coin, then
    # without labour, then alone.
    (menu.earns_after_labour, (9.01, 9, 4, 100, 30, 120), 1),
    (menu.earns_after_labour, (9.004, 9, 4, 100, 30, 120), 0),
    (menu.earns_after_labour, (8, 9, 4, 100, 30, 120), 0),
    (menu.earns_after_labour, (9.01, 9, NAN, 100, 30, 120), NAN),
    (menu.earns_after_labour, (9.01, 9, 4, 100, 30, 30), NAN),
    (menu.is_popular, (0.25, 0.175, 30, 120), 1),
    (menu.is_popular, (0.175, 0.175, 21, 120), 0),
    (menu.is_popular, (1, 0.7, 30, 30), NAN),
    (menu.is_popular, (NAN, 0.7, NAN, 30), NAN),
    # 9.01 to the cent is above 9.00; 9.00 is not above 9.00.
    (menu.earns_above, (9.006, 9.004, 100, 30, 120), 1),
    (menu.earns_above, (9.004, 8.996, 100, 30, 120), 0),
    (menu.earns_above, (9.006, 9.014, 100, 30, 120), 0),
    (menu.earns_above, (9, 8, 100, 30, 30), NAN),
    (menu.earns_above, (9, 8, 100, NAN, 30), NAN),
    (menu.weekly_count, (50, 60, 30), 50),
    (menu.weekly_count, (NAN, 60, 30), 14),
    (intervals.food_cost_over, (0.3, 0.25), 0.05),
    (intervals.popular_by, (0.25, 0.175), 0.075),
    (intervals.earns_by, (9, 4), 5),
    (actions.monthly_count, (40, 48), 160),
    (actions.price_to_write, (26, 20, NAN, 100), 26),
    (actions.price_to_write, (20, 20, NAN, 100), NAN),
    (actions.price_to_write, (18, 20, NAN, 100), NAN),
    (actions.raise_a_month, (26, 20, 1.25, 160), 768),
    (actions.raise_a_month, (NAN, 20, 1.25, 160), NAN),
    (actions.lost_sales_of_raise, (768, 2304), 0.25),
    (menu_actions.others_margin, (1640, 280, 280, 20), 1360 / 260),
    (menu_actions.others_margin, (280, 280, 20, 20), NAN),
    (menu_actions.sold_at_the_line, (0.175, 285), 50),
    (menu_actions.usual_month, (48, 30), 28 / 30),
    (menu_actions.promote_a_month, (1, 50, 20, 0.9, 14, 5), 243),
    (menu_actions.promote_a_month, (0, 50, 20, 0.9, 14, 5), NAN),
    (menu_actions.drop_a_month, (1, 40, 2, 6.5), 180),
    (menu_actions.drop_a_month, (0, 40, 2, 6.5), NAN),
    (smaller.protein_for_food_cost, (6, 11, 0.3, 30, 1.25), 4.4),
    (smaller.protein_for_food_cost, (1, 11, 0.3, 30, 1.25), NAN),
    (smaller.portions_for_food_cost, (40, 4, 2.4, 1, NAN), 5),
    (smaller.portions_for_food_cost, (40, 4, 2.4, 0, NAN), NAN),
    (smaller.portions_for_food_cost, (40, 4, 2.4, 1, 2), NAN),
    (smaller.portion_for_food_cost, (0.2, 4.5, 6, 4, 4, NAN, NAN), 0.15),
    (smaller.portion_for_food_cost, (0.25, 2.4, 2.5, 4, 4, 5, NAN), 0.2),
    (smaller.portion_for_food_cost, (0.25, 2.4, 2.5, 4, 4, 5, 2), NAN),
    (actions.margin_a_month, (9, 160), 1440),
    (actions.margin_change_a_month, (4800,), 400),
    (sales.price_taken, (600, 30), 20),
    (sales.price_taken, (0, 0), NAN),
    (sales.price_gap, (20, 18), 2),
    (sales.taken_gap, (2, 30), 60),
)

SWAP: tuple[Case, ...] = (
    (swaps.saving, (20, 12), 8),
    (swaps.saving_by_weight, (20, 12), 8),
    (swaps.saving_beside_loss, (5, 3, 1), 3),
    (swaps.saving_beside_loss, (5, 3, 0), 5),
    (swaps.margin_change, (9, 4), 5),
    (equal_margin.price_for_equal_margin, (20, 3.99, 1.25, 20), 20.05),  # 20.0125 in coins of 0.05
    (equal_margin.price_for_equal_margin, (4, 4, 1.25, 20), 0),
    (equal_margin.price_for_equal_margin, (4, 5, 1.25, 20), NAN),
    (decisions.stop_a_month, (-0.5, 30, 48, -40), 60),
    (decisions.stop_a_month, (-0.5, NAN, 48, -40), 40),
    (swaps.saving_a_week, (2.5, 40), 100),
    (swaps.saving_a_year, (100, 50), 5000),
    (swaps.margin_change_a_year, (2, 40, 50), 4000),
    (swaps.payback, (1200, 100), 12),
    (swaps.payback, (1200, -100), NAN),
    (swaps.payback, (0, 100), NAN),
    (swaps.payback_by_margin, (1200, 0.5, 40), 60),
    (swaps.payback_by_margin, (1200, -0.5, 40), NAN),
    (swaps.payback_by_margin, (0, 0.5, 40), NAN),
    (swaps.challenger_price_slope, (1.25, 0.4, 0.2), 0.75),
    (swaps.benchmark_price_slope, (1.25, 0.4, 1, 0.2), 0.75),
    (swaps.benchmark_price_slope, (1.25, 0.4, 0, 0.2), 0.25),
    (swaps.price_slope, (0.75, 0.25), 0.5),
    (swap_portions.weight_on_challenger, (1, 0.3), 0.3),
    (swap_portions.weight_on_challenger, (0, 0.3), 0),
    (swap_portions.weight_on_benchmark, (1, 0.3), 0),
    (swap_portions.weight_on_benchmark, (0, 0.3), 0.3),
    (swaps.break_even_ap_price, (8, 3, 0.5), 14),
    (swaps.break_even_ap_price, (8, 4, -0.5), 0),
    (swaps.break_even_ap_price, (8, 3, -0.25), NAN),
    # What two sums of one weight differ by, their last digits, moves nothing.
    (swaps.break_even_ap_price, (8, 3, 1e-12), NAN),
    (swaps.break_even_ap_price, (8, 3, 5e-13), NAN),
    (swaps.break_even_wage, (20, 3, 0.5), 26),
    (swaps.break_even_wage, (NAN, 3, 0.5), 6),
    (swaps.break_even_wage, (20, -10, 0.5), 0),
    (swaps.break_even_wage, (20, -11, 0.5), NAN),
    (swaps.break_even_wage, (20, 3, 1e-12), NAN),
    (swaps.break_even_wage, (20, 3, 5e-13), NAN),
    (swaps.break_even_yield_factor, (1e-12, 1 - 1e-12), NAN),
    (swaps.portion_weights_to_break_even, (1, 1 + 5e-13, 0, 0, 1e-12, 1, 2), 2),
    (swaps.cook_dependent_gap, (8, NAN, 5, NAN, 1, 0, 0), 3),
    (swaps.cook_dependent_gap, (8, NAN, 5, NAN, 0, 0, 0), 8),
    (swaps.cook_dependent_gap, (8, 1, 5, NAN, 1, 0, 0), -5),
    (swaps.cook_dependent_gap, (8, NAN, 5, 1, 1, 0, 0), 8),
    (swaps.cook_dependent_gap, (8, NAN, NAN, NAN, 0, 0, 0), 8),
    (swaps.cook_dependent_gap, (8, NAN, 5, NAN, 0, 1, 0), NAN),
    (swaps.cook_dependent_gap, (8, NAN, 5, NAN, 0, 0, 1), NAN),
    (swaps.break_even_cook_loss, (0.7, 0.9), 0.37),
    (swaps.break_even_cook_loss, (0.5, 2), 0),
    (swaps.break_even_cook_loss, (0.7, 2), NAN),
    # 12 + 4 - 6 leave 10 for a portion: 121 are 12.1 portions of 4 pieces, 3.025 a piece.
    (swaps.portions_to_break_even, (12, 121, 4, 6, 4, 1), 4),
    (swaps.portions_to_break_even, (2, 121, 4, 6, 4, 1), NAN),
    (swaps.portions_to_break_even, (12, 121, 4, 6, 4, 0), NAN),
    (equal_margin.portions_to_equal_margin, (12, 121, 4, 6, 4, 1), 4),
    (equal_margin.portions_to_equal_margin, (2, 121, 4, 6, 4, 1), NAN),
    (equal_margin.portions_to_equal_margin, (12, 121, 4, 6, 4, 0), NAN),
    (swaps.loss_moves_portions, (0, 1, NAN, 0, 0), 1),
    (swaps.loss_moves_portions, (1, 1, NAN, 0, 0), 0),
    (swaps.loss_moves_portions, (0, 0, NAN, 0, 0), 0),
    (swaps.loss_moves_portions, (0, 1, 2, 0, 0), 0),
    (swaps.loss_moves_portions, (0, 1, NAN, 1, 0), 0),
    (swaps.loss_moves_portions, (0, 1, NAN, 0, 1), 0),
    # 3 portions of 2 pieces are 6 of the 12 in the batch: half of the yield may go.
    (swaps.break_even_cook_loss_whole, (0.8, 3, 2, 12), 0.6),
    (swaps.break_even_cook_loss_whole, (0.8, 7.5, 2, 12), 0),
    (swaps.break_even_cook_loss_whole, (0.8, 15, 2, 12), NAN),
    (candidates.trim_left, (0.8, 0.9, 0.5), 0.36),
    (candidates.trim_left, (NAN, NAN, 0.5), 0.5),
    (candidates.cost_per_trimmed_kg, (9, 8, 0.5), 18),
    (candidates.cost_per_trimmed_kg, (NAN, 8, 0.5), 16),
    (candidates.cost_per_servable_kg, (12, 0.75, 0.8), 20),
    (candidates.raw_weight_per_portion, (0.3, 0.75, 0.8), 0.5),
    (candidates.meat_cost, (20, 0.3, 1.25), 7.5),
    (candidates.portion_saving, (9, 7.5), 1.5),
    (candidates.candidate_saving_a_month, (1.5, 160), 240),
    # 2.50 saved on half a kilogram, of which 0.8 is left, with a quarter more: 3.20 a kg.
    (candidates.ap_price_that_saves_nothing, (8, 2.5, 0.5, 0.8, 1.25), 11.2),
    (candidates.ap_price_that_saves_nothing, (8, -6.25, 0.5, 0.8, 1.25), 0),
    (candidates.ap_price_that_saves_nothing, (8, -7, 0.5, 0.8, 1.25), NAN),
)

# A piece of 2 kg costed at 4 portions gives 4 of 505 g, 1 % too heavy, and 3 of 515 g, 3 %.
COUNT: tuple[Case, ...] = (
    *((given, (1, 3, 4, NAN, 6, 0.505), 12.0) for given in (
        counted.portions_as_weighed, counted.portions_as_made)),
    *((given, (1, 3, 4, NAN, 6, 0.515), 9.0) for given in (
        counted.portions_as_weighed, counted.portions_as_made)),
    *((given, (1, 3, 4, 0.25, 6, 0.505), 12.0) for given in (
        counted.portions_as_weighed, counted.portions_as_made)),
    # A portion of pieces leaves nothing; by whole portions 1.2 kg are worth 5.00 each.
    *((paid, (50, 1, NAN, 5, 6, 12, 0.4), 44 / 12) for paid in (
        counted.cost_as_weighed, counted.cost_as_made)),
    *((paid, (50, 1, 0.25, 5, 6, 12, 0.4), 50 / 12) for paid in (
        counted.cost_as_weighed, counted.cost_as_made)),
    *((paid, (50, 0, NAN, 5, 6, 12, 0.4), 50 / 12) for paid in (
        counted.cost_as_weighed, counted.cost_as_made)),
    *((both, (5, 3), 8.0) for both in (
        further_sales.weight_served, further_sales.ap_taken, further_sales.cost_taken,
        further_sales.theoretical_protein, further_sales.portion_effect,
        further_sales.yield_effect, further_sales.credit_taken)),
    (actuals.counted_use, (9, 4, 10, 3), 9),
    (actuals.counted_use, (NAN, 4, 10, 3), 11),
    (actuals.explained_use, (5, 2, 1, 0.5), 8.5),
    (actuals.used, (NAN, 8.5), 8.5),
    (actuals.counted_price, (60, 10, 7, 5), 6),
    (actuals.counted_price, (NAN, 10, 7, 5), 7),
    (actuals.counted_price, (NAN, 10, NAN, 5), 5),
    (actuals.price_effect, (11, 7, 5), 22),
    (actuals.thrown_effect, (12, 2, 5), 22),
    (actuals.credit_per_kg_taken, (30, 25), 1.2),
    (actuals.credit_per_kg_taken, (0, 0), 0),
    (actuals.unexplained_use, (11, 8.5), 2.5),
    (actuals.unexplained, (2.5, 6, 1.2), 12),
    (actuals.counted_credits, (30, 3, 2.5, 1.2), 36),
    (actuals.actual_protein, (11, 7, 2, 5, 36), 31),
    (actuals.difference, (31, 25), 6),
    (actuals.actual_food, (100, 6), 106),
    (actuals.theoretical_share, (100, 400), 0.25),
    (actuals.actual_share, (106, 400), 0.265),
)  # fmt: skip


@pytest.mark.parametrize(
    ("formula", "given", "expected"),
    [*PLATE, *BESIDE, *MENU, *SWAP, *COUNT],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_a_formula_comes_to_what_a_hand_computes(
    formula: Callable[..., Column], given: tuple[float, ...], expected: float
) -> None:
    assert comes_to(formula, given, expected)


def test_a_figure_that_moves_by_the_rounding_of_large_sums_has_no_interval() -> None:
    """A thousandth of a millionth of 1 000 000 is 0.001: less is the last digits of a sum."""
    rows = np.array([[1e6, 1e6 + 1e-4], [1e6, 1e6 + 1e-2], [1.0, 1.0 + 1e-4], [0.0, 1e-9]])
    assert np.isnan(intervals.interval_90(rows)[0]).tolist() == [True, False, False, True]


def test_the_chance_of_a_class_counts_the_draws_that_fall_into_it() -> None:
    """Four draws; the first plate sells and earns, the second has no count."""
    popular = np.array([[1.0, 1.0, 1.0, 0.0], [NAN] * 4, [1.0] * 4])
    earning = np.array([[1.0, 1.0, 0.0, 0.0], [1.0] * 4, [NAN] * 4])
    plain = (np.array([[1.0], [NAN], [1.0]]), np.array([[1.0], [1.0], [NAN]]))
    found = intervals.chance_of_class(popular, earning, plain)
    assert found[0] == 0.5
    assert np.isnan(found[1:]).all()
    sells = (np.array([[0.0]]), np.array([[0.0]]))
    assert intervals.chance_of_class(popular[:1], earning[:1], sells).tolist() == [0.25]
