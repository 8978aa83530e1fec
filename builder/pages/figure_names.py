"""The names of every table's figures; written by `python -m tests.figure_names`."""

from typing import Literal, TypeAlias

# fmt: off

KitchenFigure: TypeAlias = Literal[
    "coins_in_unit", "count_whole", "cover_cost", "cover_food", "cover_hours", "cover_process",
    "electricity_price", "food_cost_target", "gas_price", "kitchen_garnish",
    "kitchen_garnish_share", "loaded_wage", "margin_target", "menu_food", "menu_food_share",
    "menu_margin", "menu_sales", "menu_sold", "running_hours", "seasoning_share",
    "stated_cover_cost", "tax_included", "tax_rate", "weeks_open"]

EquipmentFigure: TypeAlias = Literal[
    "available_hours", "charge_per_hour", "cleaning", "equipment_needed", "holds",
    "hours_booked", "how_many", "longest_cycle", "purchase_price", "running_hours",
    "service_life", "shares", "standby_power", "stated_charge", "turn_round", "use"]

CutFigure: TypeAlias = Literal[
    "ap_price", "deposit", "least_order", "sold_in"]

StageFigure: TypeAlias = Literal[
    "ap_price", "assumed_yield", "byproduct_share", "cost_factor_per_usable_kg",
    "cost_factor_per_usable_kg_high", "cost_factor_per_usable_kg_low", "cost_per_usable_kg",
    "cost_per_usable_kg_high", "cost_per_usable_kg_low", "credit_per_ap_kg", "credit_per_kg_in",
    "credits_so_far", "highest_yield", "loss_share", "lowest_yield", "mean_test_yield",
    "measured_yield", "price_into_stage", "price_into_stage_high", "price_into_stage_low",
    "published_yield", "residuals", "share_of_ap", "squared_deviations", "stage_yield",
    "stated_yield", "test_yield_spread", "test_yields", "tested_cost", "tested_credits",
    "tested_in", "tested_loss", "tested_out", "tested_parts", "tested_usable_value",
    "tests_count", "yield_half_width", "yield_high", "yield_low", "yield_standard_error"]

TestFigure: TypeAlias = Literal[
    "ap_price", "cost_factor_per_usable_kg", "loss_ratio", "loss_weight", "mean_test_yield",
    "parts_value", "parts_weight", "pooled_yield", "price_into_stage", "squared_deviation",
    "squared_residual", "test_cost", "test_cost_factor", "test_cost_per_usable_kg",
    "test_yield", "usable_value", "weight_in", "weight_out"]

ByproductFigure: TypeAlias = Literal[
    "byproduct_share_of_in", "byproduct_worth", "credit_rate", "stage_tested_in",
    "stated_share", "stated_worth", "tested_credit", "tested_value", "tested_weight"]

PartFigure: TypeAlias = Literal[
    "part_share", "part_value", "test_weight_in", "weight", "worth"]

BatchFigure: TypeAlias = Literal[
    "ap_cost", "ap_price", "ap_weight", "asked_core", "asked_hold", "available_hours",
    "batch_energy", "batch_energy_cost", "batch_energy_high", "batch_energy_low",
    "batch_labour", "batch_labour_high", "batch_labour_low", "batch_process", "batches_a_load",
    "booked_hours", "burns_gas", "byproducts_ratio", "byproducts_weight", "charge_per_hour",
    "chill_to", "chill_within", "chilled_fast", "chilled_slow", "chilled_typical", "come_up",
    "come_up_allowed", "consumables", "cook_hours", "cook_temperature", "cook_yield",
    "core_counted", "core_target", "cost_factor_per_kg", "cost_factor_per_kg_high",
    "cost_factor_per_kg_low", "cost_per_servable_kg", "cost_per_servable_kg_high",
    "cost_per_servable_kg_low", "credits", "credits_to_cook", "cycle_counted", "cycle_hours",
    "electricity_price", "energy_cost_high", "energy_cost_low", "energy_price",
    "equipment_charge", "equipment_share", "further_loads", "further_portions", "gas_price",
    "goes_in_by_number", "hands_on", "hold_fast", "hold_margin", "hold_slow", "hold_typical",
    "holds", "hours_taken", "how_many", "largest_further_loads", "largest_loads", "least_order",
    "load", "loaded_wage", "loads_needed", "loads_shared", "losses_ratio", "losses_weight",
    "measured_energy", "modelled_energy", "modelled_energy_high", "modelled_energy_low",
    "net_cost", "net_cost_high", "net_cost_low", "overall_yield", "piece_weight", "pieces",
    "pieces_a_load", "pieces_at_once", "plates_of_cook", "remainder_worth", "servable_weight",
    "shape_factor", "sold_in", "standby_power", "start_temperature", "thickness",
    "thickness_spread", "time_to_core_fast", "time_to_core_slow", "time_to_core_typical",
    "turn_round", "weekly_loads", "yield_to_load"]

StepFigure: TypeAlias = Literal[
    "after_cook", "ap_cost", "ap_weight", "before_cook", "byproduct_share", "cost_per_kg_in",
    "cost_per_kg_out", "cost_per_kg_out_high", "cost_per_kg_out_low", "credit_per_kg_in",
    "credit_per_kg_out", "credit_through_cook", "credits_before", "rise_per_kg",
    "rise_per_kg_high", "rise_per_kg_low", "share_before", "share_through", "stage_yield",
    "step_byproducts", "step_credit", "step_loss", "step_weight_in", "step_weight_out",
    "yield_before_cook", "yield_in_cook"]

CoolingFigure: TypeAlias = Literal[
    "around_temperature", "cook_temperature", "cooling_fast", "cooling_slow", "cooling_typical",
    "core_target", "shape_factor", "stage_allowed", "stage_from", "stage_to", "thickest",
    "thickness", "thickness_spread"]

PantryFigure: TypeAlias = Literal[
    "burns_gas", "deposit", "electricity_price", "food_per_unit", "food_per_unit_high",
    "food_per_unit_low", "gas_price", "hours_per_unit", "ingredients_food", "ingredients_hours",
    "ingredients_known_process", "ingredients_mass", "ingredients_process",
    "known_process_per_unit", "least_order", "makes", "process_per_unit",
    "process_per_unit_high", "process_per_unit_low", "purchase_price", "recipe_energy",
    "recipe_energy_price", "recipe_hands_on", "recipe_yield", "sold_in", "stated_makes",
    "usable_yield"]

IngredientFigure: TypeAlias = Literal[
    "food", "food_per_unit", "hours", "hours_per_unit", "known_process",
    "known_process_per_unit", "process", "process_per_unit", "quantity", "quantity_mass"]

CoverItemFigure: TypeAlias = Literal[
    "food", "food_per_unit", "hours", "hours_per_unit", "known_process",
    "known_process_per_unit", "process", "process_per_unit", "quantity"]

SectionFigure: TypeAlias = Literal[
    "dividing_after_prime", "dividing_margin", "dividing_mix", "items", "plates", "plates_both",
    "plates_earning", "plates_neither", "plates_selling", "section_food", "section_food_share",
    "section_margin", "section_margin_after_prime", "section_sales", "section_sold",
    "sold_with_labour"]

PlateFigure: TypeAlias = Literal[
    "accompaniments_food", "accompaniments_hours", "accompaniments_known_process",
    "accompaniments_process", "ap_cost", "ap_cost_per_portion", "ap_price", "ap_weight",
    "ap_weight_per_portion", "batch_energy", "batch_energy_cost", "batch_labour",
    "batch_process", "batches_a_load", "bears_cover", "chance_over_target", "class_chance",
    "coins_in_unit", "consumables", "consumables_per_plate", "contribution_margin",
    "contribution_margin_high", "contribution_margin_low", "cook_batch_cost",
    "cook_dependent_cost", "cook_yield", "cost_beside_cook", "cost_factor_per_kg",
    "cost_factor_per_portion", "cost_factor_per_portion_high", "cost_factor_per_portion_low",
    "cost_per_servable_kg", "count_whole", "counted", "counted_margin", "counted_with_labour",
    "counts_pieces", "cover_cost", "cover_hours", "cover_process", "credit_per_portion",
    "credits", "credits_to_cook", "cycle_hours", "days_in_first_month", "days_in_month",
    "dividing_after_prime", "dividing_margin", "dividing_mix", "drop_a_month", "earns_above",
    "earns_after_labour", "earns_by", "earns_sells_little", "energy_cost_high",
    "energy_cost_low", "energy_per_plate", "energy_per_plate_high", "energy_per_plate_low",
    "energy_used_per_plate", "equipment_charge", "equipment_per_plate", "first_sold",
    "food_cost", "food_cost_high", "food_cost_low", "food_cost_over", "food_cost_share",
    "food_cost_share_high", "food_cost_share_low", "food_cost_target", "food_factor",
    "food_without_cover", "forecast", "full_cost", "full_cost_by_weight", "full_cost_high",
    "full_cost_low", "further_food", "further_hours", "further_process", "garnish_cost",
    "garnish_share", "garnish_stated", "hands_on", "how_many", "is_popular",
    "kitchen_cover_cost", "kitchen_cover_hours", "kitchen_cover_process", "kitchen_garnish",
    "kitchen_garnish_share", "kitchen_seasoning_share", "labour_cost", "labour_hours",
    "labour_without_cover", "later_credit", "least_order", "loaded_wage", "loads_counted",
    "loads_for_forecast", "margin_a_month", "margin_after_full", "margin_after_full_high",
    "margin_after_full_low", "margin_after_prime", "margin_after_prime_high",
    "margin_after_prime_low", "margin_per_equipment_hour", "margin_per_equipment_hour_high",
    "margin_per_equipment_hour_low", "margin_target", "menu_mix", "menu_plates_a_week",
    "menu_price", "month_food", "month_margin", "month_margin_after_prime", "month_sales",
    "monthly_count", "neither_sells_nor_earns", "net_cost", "others_margin", "overall_yield",
    "own_cover", "pieces", "pieces_a_load", "plate_cover", "plate_garnish",
    "plate_garnish_share", "plate_seasoning", "plates_to_make", "plating", "popular_by",
    "portion", "portion_cost_by_weight", "portion_cost_whole", "portion_for_food_cost",
    "portion_pieces", "portions_a_load", "portions_a_week", "portions_by_weight",
    "portions_charged", "portions_for_food_cost", "portions_per_piece", "price_ex_tax",
    "price_factor", "price_for_food_cost", "price_for_food_cost_high",
    "price_for_food_cost_low", "price_for_margin", "price_for_margin_high",
    "price_for_margin_low", "price_to_write", "prime_cost", "prime_cost_high", "prime_cost_low",
    "process_per_plate", "process_without_cover", "promote_a_month", "protein_cost",
    "protein_cost_high", "protein_cost_low", "protein_for_food_cost", "remainder_credit",
    "remainder_weight", "remainder_worth", "reprice_a_month", "reprice_lost_sales",
    "seasoning_cost", "seasoning_share", "section_margin", "section_sold", "sells_and_earns",
    "sells_earns_little", "servable_weight", "sold", "sold_at_the_line", "sold_change",
    "sold_in", "sold_with_labour", "spare_portion_worth", "stated_portion", "tax_included",
    "tax_rate", "usual_month", "weekly_count", "weekly_loads", "weeks_open", "whole_portions"]

AccompanimentFigure: TypeAlias = Literal[
    "food", "food_per_unit", "hours", "hours_per_unit", "known_process",
    "known_process_per_unit", "process", "process_per_unit", "quantity"]

PortionFigure: TypeAlias = Literal[
    "ap_cost_per_portion", "ap_price", "ap_weight", "ap_weight_per_portion", "batch_energy",
    "batch_energy_cost", "batches_a_load", "consumables", "consumables_per_plate",
    "cost_factor_per_kg", "cost_factor_per_portion", "cost_factor_per_portion_high",
    "cost_factor_per_portion_low", "cost_per_servable_kg", "count_whole", "counts_pieces",
    "credit_per_portion", "credits", "cycle_hours", "energy_cost_high", "energy_cost_low",
    "energy_per_plate", "energy_per_plate_high", "energy_per_plate_low",
    "energy_used_per_plate", "equipment_charge", "equipment_per_plate", "hands_on", "how_many",
    "least_order", "loads_counted", "loads_for_forecast", "net_cost", "overall_yield", "pieces",
    "pieces_a_load", "plates_to_make", "portion", "portion_cost_by_weight",
    "portion_cost_whole", "portion_hours", "portion_pieces", "portion_process",
    "portions_a_load", "portions_a_week", "portions_by_weight", "portions_charged",
    "portions_per_piece", "protein_cost", "remainder_credit", "remainder_weight",
    "remainder_worth", "seasoning_share", "servable_weight", "sold_in", "stated_portion",
    "weekly_count", "weekly_loads", "whole_portions"]

OrderFigure: TypeAlias = Literal[
    "ap_weight", "covers", "least_order", "overall_yield", "pieces", "pieces_to_cook",
    "portion", "portion_size_from", "portions_from", "portions_per_piece", "quantity_as_sold",
    "quantity_to_buy", "quantity_to_buy_whole", "sold_in"]

FurtherOrderFigure: TypeAlias = Literal[
    "ap_weight", "covers", "least_order", "overall_yield", "pieces", "pieces_to_cook",
    "portion", "portion_size_from", "portions_from", "portions_per_piece", "quantity_as_sold",
    "quantity_to_buy", "quantity_to_buy_whole", "sold_in"]

SetMenuFigure: TypeAlias = Literal[
    "bears_cover", "chance_over_target", "coins_in_unit", "contribution_margin",
    "contribution_margin_high", "contribution_margin_low", "courses_food", "courses_labour",
    "courses_process", "cover_cost", "cover_hours", "cover_process", "food_cost",
    "food_cost_high", "food_cost_low", "food_cost_over", "food_cost_share",
    "food_cost_share_high", "food_cost_share_low", "food_cost_target", "full_cost",
    "full_cost_high", "full_cost_low", "guest_price", "guests", "kitchen_cover_cost",
    "kitchen_cover_hours", "kitchen_cover_process", "labour_cost", "loaded_wage",
    "margin_after_full", "margin_after_full_high", "margin_after_full_low",
    "margin_after_prime", "margin_after_prime_high", "margin_after_prime_low", "margin_target",
    "menu_price", "off_prices_apart", "own_cover", "plate_cover", "price_ex_tax",
    "price_factor", "price_for_food_cost", "price_for_food_cost_high",
    "price_for_food_cost_low", "price_for_margin", "price_for_margin_high",
    "price_for_margin_low", "prices_apart", "prime_cost", "prime_cost_high", "prime_cost_low",
    "process_per_plate", "supplements", "tax_included", "tax_rate", "week_margin"]

CourseFigure: TypeAlias = Literal[
    "cheapest_food", "course_food", "course_labour", "course_prices", "course_process",
    "course_supplements", "dearest_food", "equal_parts", "equal_share", "guests",
    "known_shares", "own_cover", "taken"]

ChoiceFigure: TypeAlias = Literal[
    "choice_food", "choice_labour", "choice_price", "choice_process", "choice_supplement",
    "equal_share", "food_after_supplement", "guests", "has_equal_part", "known_share",
    "own_cover", "plate_food", "plate_labour", "plate_price", "plate_process", "plates_a_week",
    "plates_expected", "price_factor", "share", "stated_share", "supplement"]

BuffetFigure: TypeAlias = Literal[
    "coins_in_unit", "contribution_margin", "contribution_margin_high",
    "contribution_margin_low", "cost_per_kg_sold", "cost_per_kg_sold_high",
    "cost_per_kg_sold_low", "dishes_food", "dishes_labour", "dishes_process", "food_cost",
    "food_cost_high", "food_cost_low", "food_cost_share", "food_cost_share_high",
    "food_cost_share_low", "food_cost_target", "full_cost", "full_cost_per_kg_sold",
    "guest_price", "guests", "left_cost", "left_credit", "left_share", "left_worth",
    "loaded_wage", "margin_per_kg", "margin_per_kg_high", "margin_per_kg_low", "price_ex_tax",
    "price_ex_tax_high", "price_ex_tax_low", "price_factor", "price_for_food_cost",
    "price_for_food_cost_high", "price_for_food_cost_low", "price_per_kg",
    "price_per_kg_ex_tax", "price_per_kg_for_food_cost", "price_per_kg_for_food_cost_high",
    "price_per_kg_for_food_cost_low", "put_out", "seasoning_share", "sold_a_week",
    "taken_weight", "tax_included", "tax_rate", "week_margin"]

DishFigure: TypeAlias = Literal[
    "batch_labour", "batch_process", "cost_per_servable_kg", "dish_food", "dish_labour",
    "dish_process", "food_per_unit", "hours_per_unit", "kg_per_unit", "known_process_per_unit",
    "loaded_wage", "quantity", "servable_weight", "stated_weight", "weight"]

ScaledFigure: TypeAlias = Literal[
    "asked_amount", "batch_factor", "further_portions", "line_quantity", "loaded_weight",
    "main_portions", "makes", "own_amount", "raw_of_further", "raw_of_main", "raw_weight",
    "scaled_amount", "served_weight", "side_quantity", "stated_amount", "wanted_amount",
    "wanted_share", "weight_in_batch"]

TakingFigure: TypeAlias = Literal[
    "menu_price", "price_gap", "price_taken", "taken_gap", "till_count", "till_priced",
    "till_taken"]

SwapFigure: TypeAlias = Literal[
    "ap_price", "benchmark_ap_weight_per_portion", "benchmark_contribution_margin",
    "benchmark_cook_dependent_cost", "benchmark_cost_unpriced", "benchmark_food_cost",
    "benchmark_food_factor", "benchmark_full_cost", "benchmark_full_cost_by_weight",
    "benchmark_further_weight", "benchmark_labour_hours", "benchmark_margin_after_full",
    "benchmark_margin_unpriced", "benchmark_portion_pieces", "benchmark_price_slope",
    "benchmark_prime_cost", "benchmark_seasoning_share", "benchmark_weekly_count",
    "break_even_ap_price", "break_even_ap_price_high", "break_even_ap_price_low",
    "break_even_cook_loss", "break_even_cook_loss_high", "break_even_cook_loss_low",
    "break_even_cook_loss_whole", "break_even_cook_loss_whole_high",
    "break_even_cook_loss_whole_low", "break_even_cost", "break_even_wage",
    "break_even_wage_high", "break_even_wage_low", "break_even_yield_factor",
    "challenger_ap_weight_per_portion", "challenger_contribution_margin",
    "challenger_cost_unpriced", "challenger_food_cost", "challenger_food_factor",
    "challenger_full_cost", "challenger_full_cost_by_weight", "challenger_further_weight",
    "challenger_labour_hours", "challenger_margin_after_full", "challenger_margin_unpriced",
    "challenger_price_slope", "challenger_prime_cost", "challenger_seasoning_share",
    "chance_earns_more", "chance_food_cheaper", "coins_in_unit", "cook_batch_cost",
    "cook_dependent_cost", "cook_dependent_gap", "cook_loss", "cook_yield", "cost_beside_cook",
    "count_whole", "counts_pieces", "decided_food_saving", "decided_forecast",
    "decided_margin_change", "earned_since", "equal_margin_a_plate", "equal_margin_ap_price",
    "equal_margin_ap_price_high", "equal_margin_ap_price_low", "equal_margin_cook_loss",
    "equal_margin_cook_loss_high", "equal_margin_cook_loss_low", "equal_margin_cook_loss_whole",
    "equal_margin_cook_loss_whole_high", "equal_margin_cook_loss_whole_low",
    "equal_margin_cost", "equal_margin_wage", "equal_margin_wage_high", "equal_margin_wage_low",
    "equal_margin_yield_factor", "extra_hours", "food_saving", "food_saving_high",
    "food_saving_low", "invested", "later_credit", "loaded_wage", "loss_moves_portions",
    "margin_change", "margin_change_a_month", "margin_change_a_year",
    "margin_change_a_year_high", "margin_change_a_year_low", "margin_change_high",
    "margin_change_low", "moved_cooks", "payback", "payback_by_margin", "pieces",
    "portion_pieces", "portion_weights_to_break_even", "portion_weights_to_equal_margin",
    "portions_at_break_even", "portions_by_weight", "portions_to_break_even",
    "portions_to_equal_margin", "price_ex_tax", "price_factor", "price_for_equal_margin",
    "price_for_equal_margin_high", "price_for_equal_margin_low", "price_slope", "prime_saving",
    "promised_since", "same_cook", "same_cut", "saving", "saving_a_week", "saving_a_week_high",
    "saving_a_week_low", "saving_a_year", "saving_a_year_high", "saving_a_year_low",
    "saving_beside_loss", "saving_by_weight", "saving_high", "saving_low", "sold_a_week_since",
    "sold_since", "spare_portion_worth", "stop_a_month", "swap_count", "swap_forecast",
    "uncooked", "weeks_open", "weeks_since"]

MovedCutFigure: TypeAlias = Literal[
    "ap_price", "benchmark_food_factor", "break_even_ap_price", "break_even_ap_price_high",
    "break_even_ap_price_low", "challenger_food_factor", "equal_margin_ap_price",
    "equal_margin_ap_price_high", "equal_margin_ap_price_low", "margin_change", "price_slope",
    "saving", "weight_on_benchmark", "weight_on_challenger"]

CandidateFigure: TypeAlias = Literal[
    "ap_price", "ap_price_that_saves_nothing", "ap_price_that_saves_nothing_high",
    "ap_price_that_saves_nothing_low", "bath_hours_per_portion", "benchmark_cost_beside_cook",
    "benchmark_full_cost", "benchmark_portion_cost", "candidate_saving_a_month", "chance_saves",
    "cost_per_servable_kg", "cost_per_trimmed_kg", "cut_price", "food_factor",
    "left_after_finish", "like_batch_energy_cost", "like_batch_labour", "like_consumables",
    "like_cook_hours", "like_equipment_charge", "like_load", "listed_price", "meat_cost",
    "monthly_count", "portion", "portion_cost", "portion_cost_high", "portion_cost_low",
    "portion_saving", "portion_saving_high", "portion_saving_low", "process_cost",
    "published_cook_yield", "raw_weight_per_portion", "seasoning_share", "stand_in_trim",
    "thickness", "time_to_core", "trial_hours", "trim_left", "trimmed_cost",
    "trimmed_share_before", "trimmed_yield", "work_cost"]

ServingFigure: TypeAlias = Literal[
    "batches_taken", "covers", "further_by_weight", "further_per_piece", "own_covers",
    "pieces_taken", "portions_by_weight", "portions_per_piece", "taken_by_guests"]

MenuServingFigure: TypeAlias = Literal[
    "menu_guests", "share", "taken_by_guests"]

ServiceOrderFigure: TypeAlias = Literal[
    "billed_today", "coins_in_unit", "deposits_paid", "goods_billed", "goods_cost",
    "goods_left_over", "paid_today"]

OrderLineFigure: TypeAlias = Literal[
    "amount_needed", "amount_ordered", "amount_short", "amount_used", "coins_in_unit",
    "cut_deposit", "cut_least_order", "cut_price", "cut_sold_in", "deposits", "from_stock",
    "item_deposit", "item_least_order", "item_price", "item_sold_in", "left_over",
    "left_over_cost", "line_billed", "line_cost", "on_hand", "packs_ordered", "price_paid",
    "step_size", "usable_yield"]

PreparationFigure: TypeAlias = Literal[
    "amount_made", "amount_wanted", "makes", "on_hand"]

CountFigure: TypeAlias = Literal[
    "actual_food", "actual_food_high", "actual_food_low", "actual_share", "actual_share_high",
    "actual_share_low", "difference", "difference_high", "difference_low", "menu_covers",
    "menu_sales", "plate_sales", "plates_food", "plates_sold", "portion_effect",
    "portion_effect_high", "portion_effect_low", "price_effect", "sales", "theoretical_food",
    "theoretical_food_high", "theoretical_food_low", "theoretical_share",
    "theoretical_share_high", "theoretical_share_low", "thrown_effect", "thrown_effect_high",
    "thrown_effect_low", "unexplained", "unexplained_high", "unexplained_low", "yield_effect",
    "yield_effect_high", "yield_effect_low"]

UsageFigure: TypeAlias = Literal[
    "actual_protein", "actual_protein_high", "actual_protein_low", "ap_kept", "ap_price",
    "ap_taken", "ap_thrown", "bought", "closing", "cooked_thrown_cost", "counted_credits",
    "counted_price", "counted_use", "credit_per_kg_taken", "credit_taken", "credit_thrown",
    "difference", "difference_high", "difference_low", "explained_use", "further_ap_taken",
    "further_credit_taken", "further_portion_effect", "further_theoretical_protein",
    "further_yield_effect", "listed_price", "main_ap_taken", "main_credit_taken",
    "main_portion_effect", "main_theoretical_protein", "main_yield_effect", "opening", "paid",
    "portion_effect", "portion_effect_high", "portion_effect_low", "price_effect", "raw_thrown",
    "stated_used", "theoretical_protein", "theoretical_protein_high", "theoretical_protein_low",
    "thrown_effect", "thrown_effect_high", "thrown_effect_low", "unexplained",
    "unexplained_high", "unexplained_low", "unexplained_use", "used", "yield_effect",
    "yield_effect_high", "yield_effect_low"]

OutputFigure: TypeAlias = Literal[
    "ap_kept", "ap_per_kg_served", "ap_price", "ap_taken", "ap_thrown", "ap_weight",
    "cooked_not_found", "cooked_opening", "cost_per_kg_served", "cost_taken", "counted_yield",
    "credit_thrown", "further_ap_taken", "further_cost_taken", "further_weight_served", "left",
    "load", "made", "main_ap_taken", "main_cost_taken", "main_weight_served", "net_cost",
    "raw_used", "servable_weight", "standard_yield", "thrown_cost", "thrown_weight",
    "weight_served", "yield_ratio"]

SaleFigure: TypeAlias = Literal[
    "ap_price", "ap_taken", "ap_weight", "cost_as_made", "cost_as_weighed", "cost_taken",
    "counted_portion", "counts_pieces", "credit_taken", "food_cost", "food_without_cover",
    "net_cost", "pieces", "plates_sold", "portion", "portion_effect", "portion_effect_high",
    "portion_effect_low", "portion_pieces", "portions_as_made", "portions_as_weighed",
    "portions_per_piece", "price_ex_tax", "protein_cost", "remainder_worth", "sales",
    "servable_as_made", "servable_weight", "sold_alone", "taken_by_guests", "theoretical_food",
    "theoretical_food_high", "theoretical_food_low", "theoretical_protein", "weighed_portion",
    "weight_served", "whole_portions", "yield_effect", "yield_effect_high", "yield_effect_low",
    "yield_ratio"]

MenuSaleFigure: TypeAlias = Literal[
    "cover_cost", "guest_covers", "guest_sales", "guests_served", "price_ex_tax"]

WasteFigure: TypeAlias = Literal[
    "ap_price", "cost_of_thrown", "cost_per_kg_served", "thrown_weight"]
