"""Where a swap earns nothing more: the input at which both plates leave the same margin.

A plate that is cheaper and sold for less keeps little of its saving; what ends that little is
not what ends the saving.
"""

from __future__ import annotations

from builder.engine.arith import Column, either, endless, least, most, or_else, whole_up
from builder.engine.tables import formula
from builder.money.swaps import DIFFERENCE, LINEAR, STEPS, SWAP


@formula(SWAP, unit="money up", source=DIFFERENCE)
def price_for_equal_margin(
    price_ex_tax: Column, margin_change: Column, price_factor: Column, coins_in_unit: Column
) -> Column:
    """Lowest menu price of the challenger, to the coin, at which it earns no less.

    Against a benchmark whose piece gives no portion every price does, however low.
    """
    price = (price_ex_tax - margin_change) * price_factor
    to_the_coin = whole_up(price * coins_in_unit) / coins_in_unit
    return either((price >= 0) | endless(price), to_the_coin, float("nan"))


@formula(SWAP, unit="money/kg", source=LINEAR)
def equal_margin_ap_price(ap_price: Column, margin_change: Column, price_slope: Column) -> Column:
    """AP price of the challenger's cut at which both plates leave the same margin.

    Not known where the price does not move the margin change, nor where no price from
    zero up brings it to zero.
    """
    moves = abs(price_slope) > 1e-12
    limit = ap_price + margin_change / either(moves, price_slope, float("nan"))
    return either(limit >= 0, limit, float("nan"))


@formula(SWAP, unit="money", source=LINEAR, as_sure_as="challenger_margin_after_full")
def challenger_margin_unpriced(
    challenger_margin_after_full: Column, challenger_price_slope: Column, ap_price: Column
) -> Column:
    """Margin of a challenger plate if its cut cost nothing: where its line of margins begins."""
    return challenger_margin_after_full + challenger_price_slope * ap_price


@formula(SWAP, unit="money", source=LINEAR, as_sure_as="benchmark_margin_after_full")
def benchmark_margin_unpriced(
    benchmark_margin_after_full: Column, benchmark_price_slope: Column, ap_price: Column
) -> Column:
    """Margin of a benchmark plate if the challenger's cut cost nothing."""
    return benchmark_margin_after_full + benchmark_price_slope * ap_price


@formula(SWAP, unit="money", source=LINEAR, as_sure_as="benchmark_margin_after_full")
def equal_margin_a_plate(
    benchmark_margin_unpriced: Column, benchmark_price_slope: Column, equal_margin_ap_price: Column
) -> Column:
    """What both plates leave at the price of the challenger's cut at which they leave the same."""
    return benchmark_margin_unpriced - benchmark_price_slope * equal_margin_ap_price


@formula(SWAP, unit="money/h limit", source=LINEAR)
def equal_margin_wage(loaded_wage: Column, margin_change: Column, extra_hours: Column) -> Column:
    """Loaded wage at which both plates leave the same margin.

    Not known where both plates take the same work, nor where no wage from zero up brings the
    margin change to zero.
    """
    differs = abs(extra_hours) > 1e-12
    limit = or_else(loaded_wage, 0.0) + margin_change / either(differs, extra_hours, float("nan"))
    no_wage_ends_it = endless(margin_change) & (margin_change > 0)
    return either(no_wage_ends_it, margin_change, either(limit >= 0, limit, float("nan")))


@formula(SWAP, unit="factor", source="root of a / y + b = 0 [our derivation]")
def equal_margin_yield_factor(
    cook_dependent_gap: Column, saving_beside_loss: Column, saving: Column, margin_change: Column
) -> Column:
    """Factor on the cook's yield at which both plates leave the same margin.

    Costed as the saving is that a loss moves. Not known where no yield brings them there.
    """
    left = cook_dependent_gap + saving_beside_loss - saving + margin_change
    return cook_dependent_gap / either(cook_dependent_gap * left > 1e-12, left, float("nan"))


@formula(SWAP, unit="share", source="root of a / y + b = 0 [our derivation]")
def equal_margin_cook_loss(cook_yield: Column, equal_margin_yield_factor: Column) -> Column:
    """Cook loss of the challenger by weight at which both plates leave the same margin.

    Everything that leaves the piece in the cook counts as its loss. Not known where no loss from
    zero up brings them there.
    """
    limit = 1 - cook_yield * equal_margin_yield_factor
    return either(limit >= 0, limit, float("nan"))


@formula(SWAP, unit="money", source=LINEAR)
def equal_margin_cost(challenger_full_cost: Column, margin_change: Column) -> Column:
    """Full cost of a challenger plate at which both plates leave the same margin."""
    return challenger_full_cost + margin_change


@formula(SWAP, unit="count", source="smallest whole n with a / n + b <= c [our derivation]")
def portions_to_equal_margin(
    equal_margin_cost: Column,
    cook_batch_cost: Column,
    later_credit: Column,
    cost_beside_cook: Column,
    pieces: Column,
    loss_moves_portions: Column,
) -> Column:
    """Fewest whole portions a piece at which the challenger earns no less, nothing left over.

    Not known where no count suffices, nor where a loss does not move the count alone.
    """
    left = equal_margin_cost - cost_beside_cook + later_credit
    pays = (left > 0) & (loss_moves_portions > 0)
    return most(whole_up(cook_batch_cost / either(pays, left, float("nan")) / pieces), 1.0)


@formula(SWAP, unit="count", source=STEPS)
def portion_weights_to_equal_margin(
    equal_margin_cost: Column,
    cook_batch_cost: Column,
    later_credit: Column,
    cost_beside_cook: Column,
    spare_portion_worth: Column,
    pieces: Column,
    portions_to_equal_margin: Column,
) -> Column:
    """Portion weights that a piece must give, so that from there on the challenger earns no less.

    That many whole portions, or one fewer and enough left over for its worth to pay the rest.
    """
    fewer = portions_to_equal_margin - 1
    worth = later_credit + spare_portion_worth
    left = equal_margin_cost - cost_beside_cook - spare_portion_worth
    owed = cook_batch_cost / pieces - fewer * left
    pays = (fewer > 0) & (worth > 1e-12)
    paid = owed / either(pays, worth, float("nan"))
    return least(or_else(paid, portions_to_equal_margin), portions_to_equal_margin)


@formula(SWAP, unit="share down", source=STEPS)
def equal_margin_cook_loss_whole(
    cook_yield: Column,
    portion_weights_to_equal_margin: Column,
    pieces: Column,
    portions_by_weight: Column,
) -> Column:
    """Largest cook loss up to which the challenger never earns less, by whole portions.

    Not known where no loss is small enough, nor where the benchmark moves with the same cook.
    """
    limit = 1 - cook_yield * portion_weights_to_equal_margin * pieces / portions_by_weight
    return either(limit >= 0, limit, float("nan"))
