"""Swaps: a challenger plate against a benchmark plate in the same role on the menu.

Savings are of the full plate cost on the menu's basis. Every break-even is the
value of one input at which the saving is zero while all others stand still; for
price and wage the cost is a straight line in the input, so it has a closed form.
For the cook loss it has one by weight. By whole portions the cost jumps wherever a
piece gives one portion fewer, and between two jumps it rises as what is left over
shrinks; the limit is where the saving is lost for good on the way to a larger loss.
"""

from __future__ import annotations

from builder.engine.arith import (
    Column,
    either,
    endless,
    known,
    least,
    most,
    or_else,
    whole,
    whole_up,
)
from builder.engine.tables import Table, formula
from builder.money.kitchen import KITCHEN
from builder.money.partition import PARTITION
from builder.money.plates import PLATE

DIFFERENCE = "difference of two plate costs [our definition]"
LINEAR = "root of a straight line [our derivation]"
STEPS = "roots of (a - c x - r (x - n)) / n + b = d, n the whole part of x [our derivation]"

SWAP = Table("swap", "A challenger plate against a benchmark plate")
SWAP.link("challenger", PLATE)
SWAP.link("benchmark", PLATE)
SWAP.link("kitchen", KITCHEN)
SWAP.given("swap_forecast", "count/week", "Plates a week in this role, as the swap states it")
SWAP.given("invested", "money", "Price of equipment bought for the swap", 0.0, "nothing is bought")
SWAP.given("same_cut", "flag", "1 where both plates use the same cut", 0.0, "they do not")
SWAP.given("same_cook", "flag", "1 where both plates use the same cook", 0.0, "they do not")
SWAP.given("uncooked", "flag", "1 where the challenger's main portion has no cook", 0.0, "it has")

_SIDE_BY_SIDE = (
    "food_cost",
    "prime_cost",
    "full_cost",
    "full_cost_by_weight",
    "contribution_margin",
    "margin_after_full",
    "labour_hours",
    "ap_weight_per_portion",
    "seasoning_share",
    "food_factor",
)
for _role in ("challenger", "benchmark"):
    for _name in _SIDE_BY_SIDE:
        SWAP.lookup(f"{_role}_{_name}", _role, PLATE, _name)
SWAP.lookups(
    "challenger",
    PLATE,
    "ap_price",
    "cook_yield",
    "pieces",
    "portions_by_weight",
    "portion_pieces",
    "cook_batch_cost",
    "cook_dependent_cost",
    "later_credit",
    "cost_beside_cook",
    "spare_portion_worth",
    "count_whole",
    "counts_pieces",
    "price_ex_tax",
    "price_factor",
    "coins_in_unit",
)
SWAP.lookup("benchmark_cook_dependent_cost", "benchmark", PLATE, "cook_dependent_cost")
SWAP.lookup("benchmark_portion_pieces", "benchmark", PLATE, "portion_pieces")
SWAP.lookup("benchmark_weekly_count", "benchmark", PLATE, "weekly_count")
SWAP.lookups("kitchen", KITCHEN, "loaded_wage", "weeks_open")


@formula(SWAP, unit="money", source=DIFFERENCE)
def food_saving(benchmark_food_cost: Column, challenger_food_cost: Column) -> Column:
    """Food cost saved a plate."""
    return benchmark_food_cost - challenger_food_cost


@formula(SWAP, unit="money", source=DIFFERENCE)
def prime_saving(benchmark_prime_cost: Column, challenger_prime_cost: Column) -> Column:
    """Prime cost saved a plate."""
    return benchmark_prime_cost - challenger_prime_cost


@formula(SWAP, unit="money", source=DIFFERENCE)
def saving(benchmark_full_cost: Column, challenger_full_cost: Column) -> Column:
    """Full plate cost saved a plate."""
    return benchmark_full_cost - challenger_full_cost


@formula(SWAP, unit="money", source=DIFFERENCE)
def saving_by_weight(
    benchmark_full_cost_by_weight: Column, challenger_full_cost_by_weight: Column
) -> Column:
    """Full plate cost saved a plate, both costed by weight."""
    return benchmark_full_cost_by_weight - challenger_full_cost_by_weight


@formula(SWAP, unit="money", source=DIFFERENCE)
def margin_change(
    challenger_margin_after_full: Column, benchmark_margin_after_full: Column
) -> Column:
    """Change of the margin after full cost a plate: cost saved less price given up."""
    return challenger_margin_after_full - benchmark_margin_after_full


@formula(SWAP, unit="count/week", source="our rule: the swap's own forecast, else the benchmark's")
def swap_count(swap_forecast: Column, benchmark_weekly_count: Column) -> Column:
    """Plates a week that the swap would concern."""
    return or_else(swap_forecast, benchmark_weekly_count)


@formula(SWAP, unit="money/week", source=DIFFERENCE)
def saving_a_week(saving: Column, swap_count: Column) -> Column:
    """Saving a week at the count that the swap concerns."""
    return saving * swap_count


@formula(SWAP, unit="money/year", source=DIFFERENCE)
def saving_a_year(saving_a_week: Column, weeks_open: Column) -> Column:
    """Saving a year at that count and the weeks that the kitchen is open."""
    return saving_a_week * weeks_open


@formula(SWAP, unit="money/year", source=DIFFERENCE)
def margin_change_a_year(margin_change: Column, swap_count: Column, weeks_open: Column) -> Column:
    """Change of the margin after full cost a year, each plate at its own menu price."""
    return margin_change * swap_count * weeks_open


@formula(
    SWAP,
    unit="week",
    source="simple payback: common practice, no published source",
    as_sure_as="saving_a_week",
)
def payback(invested: Column, saving_a_week: Column) -> Column:
    """Weeks of saving that pay for equipment bought for the swap.

    Not known where nothing is bought, or nothing is saved.
    """
    pays = (saving_a_week > 0) & (invested > 0)
    return invested / either(pays, saving_a_week, float("nan"))


@formula(
    SWAP,
    unit="week",
    source="simple payback: common practice, no published source",
    as_sure_as="margin_change_a_year",
)
def payback_by_margin(invested: Column, margin_change: Column, swap_count: Column) -> Column:
    """Weeks of margin gained that pay for equipment bought for the swap.

    What the menu prices give up is off the gain, and so is the equipment's own charge a plate.
    Not known where nothing is bought, or no more is earned.
    """
    gain = margin_change * swap_count
    pays = (gain > 0) & (invested > 0)
    return invested / either(pays, gain, float("nan"))


@formula(SWAP, unit="kg", source=LINEAR)
def challenger_price_slope(
    challenger_food_factor: Column,
    challenger_ap_weight_per_portion: Column,
    challenger_further_weight: Column,
) -> Column:
    """What a challenger plate costs more for each unit of money on a kilogram of its cut.

    That is the cut of its main cook; in a further portion of the plate it is moved, too.
    """
    weight = challenger_ap_weight_per_portion + challenger_further_weight
    return challenger_food_factor * weight


@formula(SWAP, unit="kg", source=LINEAR)
def benchmark_price_slope(
    benchmark_food_factor: Column,
    benchmark_ap_weight_per_portion: Column,
    same_cut: Column,
    benchmark_further_weight: Column,
) -> Column:
    """The same of a benchmark plate, which moves only where it uses that cut, too."""
    weight = either(same_cut > 0, benchmark_ap_weight_per_portion, 0.0) + benchmark_further_weight
    return benchmark_food_factor * weight


@formula(SWAP, unit="kg", source=LINEAR)
def price_slope(challenger_price_slope: Column, benchmark_price_slope: Column) -> Column:
    """Saving lost for each unit of money that a kilogram of the challenger's cut costs more."""
    return challenger_price_slope - benchmark_price_slope


@formula(SWAP, unit="money/kg", source=LINEAR)
def break_even_ap_price(ap_price: Column, saving: Column, price_slope: Column) -> Column:
    """AP price of the challenger's cut at which the saving is zero.

    Not known where the price does not move the saving, nor where no price from zero up
    brings it to zero.
    """
    moves = abs(price_slope) > 1e-12
    limit = ap_price + saving / either(moves, price_slope, float("nan"))
    return either(limit >= 0, limit, float("nan"))


@formula(SWAP, unit="money", source=LINEAR)
def challenger_cost_unpriced(
    challenger_full_cost: Column, challenger_price_slope: Column, ap_price: Column
) -> Column:
    """Cost of a challenger plate if its cut cost nothing: where its line of costs begins."""
    return challenger_full_cost - challenger_price_slope * ap_price


@formula(SWAP, unit="money", source=LINEAR)
def benchmark_cost_unpriced(
    benchmark_full_cost: Column, benchmark_price_slope: Column, ap_price: Column
) -> Column:
    """Cost of a benchmark plate if the challenger's cut cost nothing."""
    return benchmark_full_cost - benchmark_price_slope * ap_price


@formula(SWAP, unit="money", source=LINEAR, as_sure_as="benchmark_full_cost")
def break_even_cost(
    benchmark_cost_unpriced: Column, benchmark_price_slope: Column, break_even_ap_price: Column
) -> Column:
    """What both plates cost at the price at which the saving is zero."""
    return benchmark_cost_unpriced + benchmark_price_slope * break_even_ap_price


@formula(SWAP, unit="h", source=LINEAR)
def extra_hours(challenger_labour_hours: Column, benchmark_labour_hours: Column) -> Column:
    """Active work that a challenger plate takes more than a benchmark plate."""
    return challenger_labour_hours - benchmark_labour_hours


@formula(SWAP, unit="money/h limit", source=LINEAR)
def break_even_wage(loaded_wage: Column, saving: Column, extra_hours: Column) -> Column:
    """Loaded wage at which the saving is zero.

    Not known where both plates take the same work, nor where no wage from zero up
    brings the saving to zero.
    """
    differs = abs(extra_hours) > 1e-12
    limit = or_else(loaded_wage, 0.0) + saving / either(differs, extra_hours, float("nan"))
    no_wage_ends_it = endless(saving) & (saving > 0)
    return either(no_wage_ends_it, saving, either(limit >= 0, limit, float("nan")))


@formula(SWAP, unit="money", source=PARTITION)
def cook_dependent_gap(
    cook_dependent_cost: Column,
    portion_pieces: Column,
    benchmark_cook_dependent_cost: Column,
    benchmark_portion_pieces: Column,
    same_cook: Column,
    moved_cooks: Column,
    uncooked: Column,
) -> Column:
    """Part of the cost by weight that grows as one over the challenger's cook yield.

    Less that of the benchmark plate, which moves only where both plates use one cook. A portion
    of pieces costs the same whatever they lose. Not known where a further portion is of the
    same cook, nor without a cook.
    """
    own = either(known(portion_pieces), 0.0, cook_dependent_cost)
    other = either(
        known(benchmark_portion_pieces), 0.0, or_else(benchmark_cook_dependent_cost, 0.0)
    )
    return either(moved_cooks + uncooked > 0, float("nan"), own - same_cook * other)


@formula(SWAP, unit="money", source=DIFFERENCE)
def saving_beside_loss(saving: Column, saving_by_weight: Column, counts_pieces: Column) -> Column:
    """Saving that a challenger's loss by weight moves.

    Both plates by weight where the menu counts the challenger's portions whole, else the
    challenger by weight, as it is on the menu, against the benchmark as it is on the menu.
    """
    return either(counts_pieces > 0, saving_by_weight, saving)


@formula(SWAP, unit="factor", source="root of a / y + b = 0 [our derivation]")
def break_even_yield_factor(cook_dependent_gap: Column, saving_beside_loss: Column) -> Column:
    """Factor on the cook's yield at which the saving, the challenger by weight, is zero.

    Not known where no yield can end it.
    """
    left = cook_dependent_gap + saving_beside_loss
    return cook_dependent_gap / either(cook_dependent_gap * left > 1e-12, left, float("nan"))


@formula(SWAP, unit="share", source="conservation of mass")
def cook_loss(cook_yield: Column) -> Column:
    """Everything that leaves the challenger in its cook, juices included."""
    return 1 - cook_yield


@formula(SWAP, unit="share", source="root of a / y + b = 0 [our derivation]")
def break_even_cook_loss(cook_yield: Column, break_even_yield_factor: Column) -> Column:
    """Cook loss of the challenger by weight at which the saving is zero.

    Everything that leaves the piece in the cook counts as its loss; what its by-products are worth
    stands still. Not known where no loss from zero up brings the saving to zero.
    """
    limit = 1 - cook_yield * break_even_yield_factor
    return either(limit >= 0, limit, float("nan"))


@formula(SWAP, unit="flag", source=STEPS)
def loss_moves_portions(
    same_cook: Column,
    counts_pieces: Column,
    portion_pieces: Column,
    moved_cooks: Column,
    uncooked: Column,
) -> Column:
    """1 where the loss of the challenger's cook moves its count of whole portions alone.

    Not where the benchmark, or a further portion, moves with the same cook, where the plate is
    costed by weight, where its portion is of pieces, whose count is given, nor without a cook.
    """
    alone = (same_cook < 1) & (moved_cooks + uncooked < 1) & (counts_pieces > 0)
    return either(known(portion_pieces), 0.0, either(alone, 1.0, 0.0))


@formula(SWAP, unit="count", source="smallest whole n with a / n + b <= c [our derivation]")
def portions_to_break_even(
    benchmark_full_cost: Column,
    cook_batch_cost: Column,
    later_credit: Column,
    cost_beside_cook: Column,
    pieces: Column,
    loss_moves_portions: Column,
) -> Column:
    """Fewest whole portions a piece at which the challenger costs no more with nothing left over.

    Not known where no count suffices, nor where a loss does not move the count alone.
    """
    left = benchmark_full_cost - cost_beside_cook + later_credit
    pays = (left > 0) & (loss_moves_portions > 0)
    return most(whole_up(cook_batch_cost / either(pays, left, float("nan")) / pieces), 1.0)


@formula(SWAP, unit="count", source=STEPS)
def portion_weights_to_break_even(
    benchmark_full_cost: Column,
    cook_batch_cost: Column,
    later_credit: Column,
    cost_beside_cook: Column,
    spare_portion_worth: Column,
    pieces: Column,
    portions_to_break_even: Column,
) -> Column:
    """Portion weights that a piece must give, so that from there on the challenger costs no more.

    That many whole portions, or one fewer and enough left over for its worth to pay the rest.
    """
    fewer = portions_to_break_even - 1
    left = benchmark_full_cost - cost_beside_cook - spare_portion_worth
    worth = later_credit + spare_portion_worth
    owed = cook_batch_cost / pieces - fewer * left
    pays = (fewer > 0) & (worth > 1e-12)
    paid = owed / either(pays, worth, float("nan"))
    return least(or_else(paid, portions_to_break_even), portions_to_break_even)


@formula(SWAP, unit="count", source=STEPS)
def portions_at_break_even(portion_weights_to_break_even: Column) -> Column:
    """Whole portions that a piece gives where the saving by whole portions ends."""
    return whole(portion_weights_to_break_even)


@formula(SWAP, unit="share down", source=STEPS)
def break_even_cook_loss_whole(
    cook_yield: Column,
    portion_weights_to_break_even: Column,
    pieces: Column,
    portions_by_weight: Column,
) -> Column:
    """Largest cook loss up to which the challenger never costs more, by whole portions.

    The saving is zero there, or falls below it with the next crumb lost. Not known where no
    loss is small enough, nor where the benchmark moves with the same cook.
    """
    limit = 1 - cook_yield * portion_weights_to_break_even * pieces / portions_by_weight
    return either(limit >= 0, limit, float("nan"))
