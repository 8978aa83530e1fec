"""The names of every table's figures; written by `python -m tests.figure_names`."""

from typing import Literal, TypeAlias

# fmt: off

KitchenFigure: TypeAlias = Literal[
    "loaded_wage", "electricity_price", "gas_price", "tax_rate", "tax_included",
    "food_cost_target", "margin_target", "coins_in_unit", "weeks_open", "seasoning_share",
    "count_whole", "menu_sold", "menu_sales", "menu_food", "menu_margin", "menu_food_share",
    "running_hours", "kitchen_garnish_share", "kitchen_garnish", "stated_cover_cost",
    "cover_food", "cover_hours", "cover_process", "cover_cost",
]

EquipmentFigure: TypeAlias = Literal[
    "purchase_price", "service_life", "stated_charge", "standby_power", "charge_per_hour",
    "how_many", "holds", "turn_round", "cleaning", "running_hours", "available_hours",
    "hours_booked", "shares", "use", "equipment_needed",
]

CutFigure: TypeAlias = Literal[
    "ap_price",
]

StageFigure: TypeAlias = Literal[
    "assumed_yield", "stated_yield", "published_yield", "tests_count", "tested_in",
    "tested_out", "lowest_yield", "highest_yield", "measured_yield", "stage_yield", "residuals",
    "yield_standard_error", "yield_half_width", "yield_low", "yield_high", "byproduct_share",
    "credit_per_kg_in", "loss_share", "ap_price", "share_of_ap", "credit_per_ap_kg",
    "credits_so_far", "price_into_stage", "cost_per_usable_kg", "cost_factor_per_usable_kg",
    "tested_cost", "tested_parts", "tested_credits", "tested_loss", "tested_usable_value",
    "price_into_stage_low", "price_into_stage_high", "cost_per_usable_kg_low",
    "cost_per_usable_kg_high", "cost_factor_per_usable_kg_low",
    "cost_factor_per_usable_kg_high", "test_yields", "mean_test_yield", "squared_deviations",
    "test_yield_spread",
]

TestFigure: TypeAlias = Literal[
    "weight_in", "weight_out", "test_yield", "parts_weight", "loss_weight", "pooled_yield",
    "squared_residual", "ap_price", "price_into_stage", "cost_factor_per_usable_kg",
    "parts_value", "loss_ratio", "test_cost", "usable_value", "test_cost_per_usable_kg",
    "test_cost_factor", "mean_test_yield", "squared_deviation",
]

ByproductFigure: TypeAlias = Literal[
    "stated_share", "stated_worth", "tested_weight", "tested_value", "stage_tested_in",
    "byproduct_share_of_in", "byproduct_worth", "credit_rate", "tested_credit",
]

PartFigure: TypeAlias = Literal[
    "weight", "worth", "test_weight_in", "part_share", "part_value",
]

BatchFigure: TypeAlias = Literal[
    "load", "piece_weight", "remainder_worth", "ap_price", "yield_to_load", "overall_yield",
    "ap_weight", "servable_weight", "ap_cost", "pieces", "cook_yield", "credits",
    "credits_to_cook", "net_cost", "cost_per_servable_kg", "cost_factor_per_kg", "cook_hours",
    "hands_on", "measured_energy", "modelled_energy", "modelled_energy_low",
    "modelled_energy_high", "burns_gas", "loaded_wage", "electricity_price", "gas_price",
    "charge_per_hour", "standby_power", "consumables", "energy_price", "batch_labour",
    "batch_energy", "batch_energy_low", "batch_energy_high", "energy_cost_low",
    "energy_cost_high", "batch_energy_cost", "equipment_charge", "batch_process", "holds",
    "turn_round", "available_hours", "how_many", "cycle_hours", "weekly_loads", "pieces_a_load",
    "batches_a_load", "loads_shared", "largest_loads", "plates_of_cook", "further_loads",
    "largest_further_loads", "further_portions", "loads_needed", "booked_hours", "hours_taken",
    "equipment_share", "byproducts_weight", "losses_weight", "byproducts_ratio", "losses_ratio",
    "cook_temperature", "core_target", "start_temperature", "thickness", "thickness_spread",
    "shape_factor", "chill_to", "chill_within", "asked_core", "asked_hold", "core_counted",
    "time_to_core_fast", "time_to_core_typical", "time_to_core_slow", "come_up_allowed",
    "come_up", "chilled_fast", "chilled_typical", "chilled_slow", "hold_fast", "hold_typical",
    "hold_slow", "hold_margin", "cost_per_servable_kg_low", "cost_per_servable_kg_high",
    "cost_factor_per_kg_low", "cost_factor_per_kg_high", "net_cost_low", "net_cost_high",
    "batch_labour_low", "batch_labour_high",
]

StepFigure: TypeAlias = Literal[
    "before_cook", "after_cook", "stage_yield", "byproduct_share", "credit_per_kg_in",
    "share_before", "yield_before_cook", "ap_weight", "ap_cost", "step_weight_in",
    "step_weight_out", "step_byproducts", "step_loss", "step_credit", "credit_through_cook",
    "credits_before", "cost_per_kg_out", "cost_per_kg_in", "rise_per_kg", "credit_per_kg_out",
    "yield_in_cook", "share_through", "cost_per_kg_out_low", "cost_per_kg_out_high",
    "rise_per_kg_low", "rise_per_kg_high",
]

CoolingFigure: TypeAlias = Literal[
    "cook_temperature", "core_target", "thickness", "thickness_spread", "shape_factor",
    "around_temperature", "stage_from", "stage_to", "stage_allowed", "cooling_fast",
    "cooling_typical", "cooling_slow", "thickest",
]

ConsumableFigure: TypeAlias = Literal[
    "consumable_price",
]

PantryFigure: TypeAlias = Literal[
    "purchase_price", "usable_yield", "stated_makes", "recipe_yield", "recipe_hands_on",
    "recipe_energy", "burns_gas", "electricity_price", "gas_price", "ingredients_mass",
    "ingredients_food", "ingredients_hours", "ingredients_process", "ingredients_known_process",
    "makes", "food_per_unit", "hours_per_unit", "recipe_energy_price", "process_per_unit",
    "known_process_per_unit", "food_per_unit_low", "food_per_unit_high", "process_per_unit_low",
    "process_per_unit_high",
]

IngredientFigure: TypeAlias = Literal[
    "quantity", "quantity_mass", "food_per_unit", "hours_per_unit", "process_per_unit",
    "known_process_per_unit", "food", "hours", "process", "known_process",
]

CoverItemFigure: TypeAlias = Literal[
    "quantity", "food_per_unit", "hours_per_unit", "process_per_unit", "known_process_per_unit",
    "food", "hours", "process", "known_process",
]

SectionFigure: TypeAlias = Literal[
    "items", "section_sold", "section_margin", "section_sales", "section_food",
    "section_food_share", "dividing_margin", "dividing_mix", "plates", "plates_both",
    "plates_selling", "plates_earning", "plates_neither",
]

PlateFigure: TypeAlias = Literal[
    "stated_portion", "portion_pieces", "menu_price", "plating", "loaded_wage", "tax_rate",
    "tax_included", "food_cost_target", "margin_target", "coins_in_unit", "count_whole",
    "ap_price", "ap_weight", "overall_yield", "servable_weight", "pieces", "credits",
    "net_cost", "cost_per_servable_kg", "cost_factor_per_kg", "remainder_worth", "hands_on",
    "batch_energy", "batch_energy_cost", "energy_cost_low", "energy_cost_high", "consumables",
    "equipment_charge", "accompaniments_food", "accompaniments_hours", "accompaniments_process",
    "accompaniments_known_process", "portion", "portion_cost_by_weight",
    "cost_factor_per_portion", "portions_by_weight", "counts_pieces", "portions_per_piece",
    "whole_portions", "remainder_weight", "remainder_credit", "portion_cost_whole",
    "protein_cost", "portions_charged", "ap_weight_per_portion", "ap_cost_per_portion",
    "credit_per_portion", "further_food", "further_hours", "seasoning_cost", "food_cost",
    "labour_hours", "labour_cost", "prime_cost", "energy_per_plate", "energy_used_per_plate",
    "energy_per_plate_low", "energy_per_plate_high", "consumables_per_plate",
    "equipment_per_plate", "further_process", "process_per_plate", "full_cost", "price_ex_tax",
    "contribution_margin", "margin_after_prime", "margin_after_full", "food_cost_share",
    "price_factor", "price_for_food_cost", "price_for_margin", "sold", "days_in_month",
    "forecast", "month_margin", "month_sales", "month_food", "counted", "counted_margin",
    "section_sold", "dividing_margin", "dividing_mix", "menu_mix", "is_popular", "earns_above",
    "sells_and_earns", "sells_earns_little", "earns_sells_little", "neither_sells_nor_earns",
    "weekly_count", "pieces_a_load", "batches_a_load", "weekly_loads", "cycle_hours",
    "how_many", "portions_a_load", "portions_a_week", "margin_per_equipment_hour",
    "loads_for_forecast", "loads_counted", "plate_seasoning", "plate_garnish_share",
    "plate_garnish", "plate_cover", "bears_cover", "kitchen_seasoning_share",
    "kitchen_garnish_share", "kitchen_garnish", "kitchen_cover_cost", "kitchen_cover_hours",
    "kitchen_cover_process", "seasoning_share", "garnish_share", "garnish_stated",
    "food_factor", "garnish_cost", "cover_cost", "cover_hours", "cover_process", "ap_cost",
    "credits_to_cook", "cook_yield", "batch_labour", "batch_process", "cook_batch_cost",
    "cook_dependent_cost", "later_credit", "cost_beside_cook", "full_cost_by_weight",
    "spare_portion_worth", "weeks_open", "monthly_count", "reprice_a_month", "margin_a_month",
    "food_cost_over", "popular_by", "earns_by", "protein_cost_low", "protein_cost_high",
    "food_cost_low", "food_cost_high", "prime_cost_low", "prime_cost_high", "full_cost_low",
    "full_cost_high", "food_cost_share_low", "food_cost_share_high", "contribution_margin_low",
    "contribution_margin_high", "margin_after_prime_low", "margin_after_prime_high",
    "margin_after_full_low", "margin_after_full_high", "price_for_food_cost_low",
    "price_for_food_cost_high", "price_for_margin_low", "price_for_margin_high",
    "margin_per_equipment_hour_low", "margin_per_equipment_hour_high", "class_chance",
    "chance_over_target", "food_without_cover", "labour_without_cover", "process_without_cover",
]

AccompanimentFigure: TypeAlias = Literal[
    "quantity", "food_per_unit", "hours_per_unit", "process_per_unit", "known_process_per_unit",
    "food", "hours", "process", "known_process",
]

PortionFigure: TypeAlias = Literal[
    "stated_portion", "portion_pieces", "count_whole", "ap_price", "ap_weight", "overall_yield",
    "servable_weight", "pieces", "credits", "net_cost", "cost_per_servable_kg",
    "cost_factor_per_kg", "remainder_worth", "hands_on", "batch_energy", "batch_energy_cost",
    "energy_cost_low", "energy_cost_high", "consumables", "equipment_charge", "portion_hours",
    "portion_process", "portion", "portion_cost_by_weight", "cost_factor_per_portion",
    "portions_by_weight", "counts_pieces", "portions_per_piece", "whole_portions",
    "remainder_weight", "remainder_credit", "portion_cost_whole", "protein_cost",
    "portions_charged", "ap_weight_per_portion", "ap_cost_per_portion", "credit_per_portion",
    "energy_per_plate", "energy_used_per_plate", "energy_per_plate_low",
    "energy_per_plate_high", "consumables_per_plate", "equipment_per_plate", "weekly_count",
    "pieces_a_load", "batches_a_load", "weekly_loads", "cycle_hours", "how_many",
    "portions_a_load", "portions_a_week", "loads_for_forecast", "loads_counted",
    "seasoning_share",
]

OrderFigure: TypeAlias = Literal[
    "covers", "portion", "overall_yield", "portions_per_piece", "ap_weight", "pieces",
    "quantity_to_buy", "portions_from", "portion_size_from", "pieces_to_cook",
    "quantity_to_buy_whole",
]

FurtherOrderFigure: TypeAlias = Literal[
    "covers", "portion", "overall_yield", "portions_per_piece", "ap_weight", "pieces",
    "quantity_to_buy", "portions_from", "portion_size_from", "pieces_to_cook",
    "quantity_to_buy_whole",
]

SetMenuFigure: TypeAlias = Literal[
    "guest_price", "guests", "plate_cover", "bears_cover", "loaded_wage", "tax_rate",
    "tax_included", "food_cost_target", "margin_target", "coins_in_unit", "kitchen_cover_cost",
    "kitchen_cover_hours", "kitchen_cover_process", "courses_food", "courses_labour",
    "courses_process", "supplements", "prices_apart", "cover_cost", "cover_hours",
    "cover_process", "food_cost", "labour_cost", "process_per_plate", "menu_price",
    "prime_cost", "full_cost", "price_ex_tax", "contribution_margin", "margin_after_prime",
    "margin_after_full", "food_cost_share", "food_cost_over", "price_factor",
    "price_for_food_cost", "price_for_margin", "off_prices_apart", "week_margin",
    "food_cost_low", "food_cost_high", "prime_cost_low", "prime_cost_high", "full_cost_low",
    "full_cost_high", "food_cost_share_low", "food_cost_share_high", "contribution_margin_low",
    "contribution_margin_high", "margin_after_prime_low", "margin_after_prime_high",
    "margin_after_full_low", "margin_after_full_high", "price_for_food_cost_low",
    "price_for_food_cost_high", "price_for_margin_low", "price_for_margin_high",
    "chance_over_target",
]

CourseFigure: TypeAlias = Literal[
    "known_shares", "equal_parts", "equal_share", "taken", "course_food", "course_labour",
    "course_process", "course_supplements", "course_prices", "dearest_food", "cheapest_food",
    "guests",
]

ChoiceFigure: TypeAlias = Literal[
    "stated_share", "supplement", "plate_food", "plate_labour", "plate_process", "price_factor",
    "plate_price", "known_share", "has_equal_part", "equal_share", "share",
    "food_after_supplement", "choice_food", "choice_labour", "choice_process",
    "choice_supplement", "choice_price", "guests", "plates_a_week",
]

BuffetFigure: TypeAlias = Literal[
    "loaded_wage", "tax_rate", "tax_included", "food_cost_target", "coins_in_unit",
    "seasoning_share", "price_per_kg", "guest_price", "left_share", "left_worth", "sold_a_week",
    "guests", "put_out", "dishes_food", "dishes_labour", "dishes_process", "taken_weight",
    "left_credit", "food_cost", "left_cost", "cost_per_kg_sold", "full_cost_per_kg_sold",
    "price_factor", "price_per_kg_ex_tax", "price_ex_tax", "margin_per_kg",
    "contribution_margin", "food_cost_share", "full_cost", "price_per_kg_for_food_cost",
    "price_for_food_cost", "week_margin", "food_cost_low", "food_cost_high",
    "cost_per_kg_sold_low", "cost_per_kg_sold_high", "contribution_margin_low",
    "contribution_margin_high", "food_cost_share_low", "food_cost_share_high",
    "margin_per_kg_low", "margin_per_kg_high",
]

DishFigure: TypeAlias = Literal[
    "stated_weight", "quantity", "kg_per_unit", "cost_per_servable_kg", "servable_weight",
    "batch_labour", "batch_process", "food_per_unit", "hours_per_unit",
    "known_process_per_unit", "loaded_wage", "weight", "dish_food", "dish_labour",
    "dish_process",
]

ScaleFigure: TypeAlias = Literal[
    "smallest_wanted", "batch_factor",
]

ScaledFigure: TypeAlias = Literal[
    "stated_amount", "wanted_amount", "raw_weight", "loaded_weight", "served_weight",
    "main_portions", "further_portions", "raw_of_main", "raw_of_further", "makes",
    "line_quantity", "side_quantity", "weight_in_batch", "own_amount", "asked_amount",
    "wanted_share", "batch_factor", "scaled_amount",
]

TakingFigure: TypeAlias = Literal[
    "till_count", "till_priced", "till_taken", "menu_price", "price_taken", "price_gap",
    "taken_gap",
]

SwapFigure: TypeAlias = Literal[
    "swap_forecast", "invested", "same_cut", "same_cook", "uncooked", "challenger_food_cost",
    "challenger_prime_cost", "challenger_full_cost", "challenger_full_cost_by_weight",
    "challenger_contribution_margin", "challenger_margin_after_full", "challenger_labour_hours",
    "challenger_ap_weight_per_portion", "challenger_seasoning_share", "challenger_food_factor",
    "benchmark_food_cost", "benchmark_prime_cost", "benchmark_full_cost",
    "benchmark_full_cost_by_weight", "benchmark_contribution_margin",
    "benchmark_margin_after_full", "benchmark_labour_hours", "benchmark_ap_weight_per_portion",
    "benchmark_seasoning_share", "benchmark_food_factor", "ap_price", "cook_yield", "pieces",
    "portions_by_weight", "portion_pieces", "cook_batch_cost", "cook_dependent_cost",
    "later_credit", "cost_beside_cook", "spare_portion_worth", "count_whole", "counts_pieces",
    "price_ex_tax", "price_factor", "coins_in_unit", "benchmark_cook_dependent_cost",
    "benchmark_portion_pieces", "benchmark_weekly_count", "loaded_wage", "weeks_open",
    "food_saving", "prime_saving", "saving", "saving_by_weight", "margin_change",
    "price_for_equal_margin", "swap_count", "saving_a_week", "saving_a_year",
    "margin_change_a_year", "payback", "challenger_price_slope", "benchmark_price_slope",
    "price_slope", "break_even_ap_price", "challenger_cost_unpriced", "benchmark_cost_unpriced",
    "break_even_cost", "extra_hours", "break_even_wage", "cook_dependent_gap",
    "break_even_yield_factor", "cook_loss", "break_even_cook_loss", "loss_moves_portions",
    "portions_to_break_even", "portion_weights_to_break_even", "portions_at_break_even",
    "break_even_cook_loss_whole", "margin_change_a_month", "equal_margin_ap_price",
    "equal_margin_wage", "equal_margin_yield_factor", "equal_margin_cook_loss",
    "equal_margin_cost", "portions_to_equal_margin", "portion_weights_to_equal_margin",
    "equal_margin_cook_loss_whole", "food_saving_low", "food_saving_high", "saving_low",
    "saving_high", "saving_a_week_low", "saving_a_week_high", "margin_change_low",
    "margin_change_high", "saving_a_year_low", "saving_a_year_high", "margin_change_a_year_low",
    "margin_change_a_year_high", "price_for_equal_margin_low", "price_for_equal_margin_high",
    "break_even_ap_price_low", "break_even_ap_price_high", "break_even_wage_low",
    "break_even_wage_high", "break_even_cook_loss_low", "break_even_cook_loss_high",
    "break_even_cook_loss_whole_low", "break_even_cook_loss_whole_high",
    "equal_margin_ap_price_low", "equal_margin_ap_price_high", "equal_margin_wage_low",
    "equal_margin_wage_high", "equal_margin_cook_loss_low", "equal_margin_cook_loss_high",
    "equal_margin_cook_loss_whole_low", "equal_margin_cook_loss_whole_high",
    "chance_earns_more", "chance_food_cheaper", "challenger_further_weight",
    "benchmark_further_weight", "moved_cooks",
]

MovedFigure: TypeAlias = Literal[
    "on_challenger", "moved_cook", "ap_weight_per_portion", "weight_on_challenger",
    "weight_on_benchmark",
]

CandidateFigure: TypeAlias = Literal[
    "listed_price", "stand_in_trim", "published_cook_yield", "trial_hours", "thickness",
    "cut_price", "trimmed_cost", "trimmed_share_before", "trimmed_yield", "left_after_finish",
    "portion", "seasoning_share", "food_factor", "monthly_count", "benchmark_full_cost",
    "benchmark_cost_beside_cook", "like_load", "like_batch_labour", "like_consumables",
    "like_batch_energy_cost", "like_equipment_charge", "like_cook_hours", "ap_price",
    "trim_left", "cost_per_trimmed_kg", "cost_per_servable_kg", "raw_weight_per_portion",
    "meat_cost", "work_cost", "process_cost", "portion_cost", "benchmark_portion_cost",
    "portion_saving", "candidate_saving_a_month", "bath_hours_per_portion",
    "ap_price_that_saves_nothing", "portion_cost_low", "portion_cost_high",
    "portion_saving_low", "portion_saving_high", "ap_price_that_saves_nothing_low",
    "ap_price_that_saves_nothing_high", "chance_saves", "time_to_core",
]

LoadingFigure: TypeAlias = Literal[
    "load", "pieces", "pieces_shared", "batches_shared", "pieces_to_cook", "raw_weight",
]

ServingFigure: TypeAlias = Literal[
    "covers", "portions_per_piece", "portions_by_weight", "further_per_piece",
    "further_by_weight", "pieces_taken", "batches_taken",
]

JobFigure: TypeAlias = Literal[
    "hours", "pieces_to_cook", "raw_weight",
]

FindingFigure: TypeAlias = Literal[
    "tasters", "correct", "answers", "guess", "risk", "limit", "margin", "statistic",
    "degrees_of_freedom", "error_degrees_of_freedom", "p_value", "adjusted_p_value", "estimate",
    "lower", "upper", "at_least", "at_most", "confidence", "spread", "lowest", "highest",
    "critical_number", "above", "alike", "below",
]

CountFigure: TypeAlias = Literal[
    "plates_sold", "sales", "theoretical_food", "portion_effect", "yield_effect",
    "thrown_effect", "unexplained", "price_effect", "difference", "actual_food",
    "theoretical_share", "actual_share",
]

UsageFigure: TypeAlias = Literal[
    "ap_price", "main_theoretical_protein", "further_theoretical_protein",
    "main_portion_effect", "further_portion_effect", "main_yield_effect",
    "further_yield_effect", "main_ap_taken", "further_ap_taken", "main_credit_taken",
    "further_credit_taken", "ap_taken", "theoretical_protein", "portion_effect", "yield_effect",
    "credit_taken", "stated_used", "opening", "bought", "closing", "paid", "listed_price",
    "cooked_thrown_cost", "ap_thrown", "credit_thrown", "ap_kept", "raw_thrown", "counted_use",
    "explained_use", "used", "counted_price", "price_effect", "thrown_effect",
    "credit_per_kg_taken", "unexplained_use", "unexplained", "counted_credits",
    "actual_protein", "difference",
]

OutputFigure: TypeAlias = Literal[
    "raw_used", "made", "cooked_opening", "left", "load", "ap_weight", "ap_price",
    "servable_weight", "net_cost", "standard_yield", "counted_yield", "yield_ratio",
    "thrown_weight", "cost_per_kg_served", "ap_per_kg_served", "thrown_cost", "ap_thrown",
    "credit_thrown", "ap_kept", "cooked_not_found", "main_weight_served",
    "further_weight_served", "main_ap_taken", "further_ap_taken", "main_cost_taken",
    "further_cost_taken", "weight_served", "ap_taken", "cost_taken",
]

SaleFigure: TypeAlias = Literal[
    "plates_sold", "weighed_portion", "portion", "portion_pieces", "food_cost", "protein_cost",
    "price_ex_tax", "counts_pieces", "pieces", "portions_per_piece", "whole_portions",
    "servable_weight", "ap_weight", "ap_price", "net_cost", "remainder_worth", "yield_ratio",
    "theoretical_food", "theoretical_protein", "sales", "counted_portion",
    "portions_as_weighed", "cost_as_weighed", "servable_as_made", "portions_as_made",
    "cost_as_made", "portion_effect", "yield_effect", "ap_taken", "cost_taken", "credit_taken",
    "weight_served",
]

FurtherSaleFigure: TypeAlias = Literal[
    "weighed_portion", "plates_sold", "yield_ratio", "portion", "portion_pieces",
    "protein_cost", "counts_pieces", "pieces", "portions_per_piece", "servable_weight",
    "ap_weight", "ap_price", "net_cost", "remainder_worth", "theoretical_protein",
    "counted_portion", "portions_as_weighed", "cost_as_weighed", "servable_as_made",
    "portions_as_made", "cost_as_made", "portion_effect", "yield_effect", "ap_taken",
    "cost_taken", "credit_taken", "weight_served",
]

WasteFigure: TypeAlias = Literal[
    "thrown_weight", "cost_per_kg_served", "ap_price", "cost_of_thrown",
]
