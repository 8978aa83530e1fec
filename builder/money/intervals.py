"""How sure the figures of money are: 90 % intervals of plates and swaps, and chances."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from builder.engine.arith import Column
from builder.engine.draws import nearest_draws
from builder.engine.methods import method
from builder.engine.tables import Table, formula, in_words
from builder.money import capacity as _capacity  # noqa: F401 - declares what equipment earns
from builder.money import equal_margin as _equal_margin  # noqa: F401 - declares where margins meet
from builder.money.menu import MENU_ANALYSIS
from builder.money.plates import PLATE, PRICING
from builder.money.swaps import SWAP

PROPAGATION = "JCGM 101:2008, propagation of distributions by a Monte Carlo method [from memory]"

DRAWS: Final = 4000
"""How often every input that is not known for sure is drawn."""

PLATE_INTERVALS: Final = (
    "protein_cost", "food_cost", "prime_cost", "full_cost", "food_cost_share",
    "contribution_margin", "margin_after_prime", "margin_after_full", "price_for_food_cost",
    "price_for_margin", "margin_per_equipment_hour", "cost_factor_per_portion",
)  # fmt: skip
SWAP_INTERVALS: Final = (
    "food_saving", "saving", "saving_a_week", "margin_change", "saving_a_year",
    "margin_change_a_year", "price_for_equal_margin", "break_even_ap_price", "break_even_wage",
    "break_even_cook_loss", "break_even_cook_loss_whole", "equal_margin_ap_price",
    "equal_margin_wage", "equal_margin_cook_loss", "equal_margin_cook_loss_whole",
)  # fmt: skip

# Draws that must have a value for the ends of an interval to be known, and for a chance.
_KNOWN = 0.95
_ENDS = (0.05, 0.95)
_COUNTED = 0.5
# What two sides share cancels but for the last digits of their sums [money, or its share].
_ROUNDING = 1e-9


@method(unit="1", source=PROPAGATION, title="90 % interval of a figure of money")
def interval_90(values: Column) -> Column:
    """Both ends of what a figure is in nine draws of ten.

    Every input with a spread is drawn 4000 times: a yield by its tests, a price by the changes
    of its list, a portion, work, energy and counts by what is stated or weighed of them. Each
    draw computes the figure anew, whole portions and all. Five in a hundred draws lie below the
    low end and five above the high end. Inputs with nothing behind their spread are held at
    what is written; in a period that was counted so is every price, for none of them moves ahead
    any more.

    Draws: an input's values are the middles of 4000 equally likely parts of its normal
    distribution or Student's t, in an order of their own. The order is the permutation of
    numpy's Philox generator whose key is the 16-byte BLAKE2b hash, highest byte first, of the
    text "shankbook 1", a blank and the input's seed name. So an input has the same draws in
    every build and for every plate that uses it. `data/spreads.csv` has each input's
    distribution and seed name. Prices of one supplier are sums of one draw for each of its
    lists (`data/spread_factors.csv`), divided by the root of one chi-square over its degrees
    of freedom (its parts in falling order before they are permuted), which the supplier's
    prices with as many changes share.

    Formula: the 5 % and the 95 % quantile of the draws.

    Parameters: the draws of a figure. Returns both ends. Not known where no draw moves the figure.
    An end is open, at plus or minus infinity, where the draws there have no end; both are where
    more than 5 % of the draws have no value.
    """
    ends = np.full((2, len(values)), np.nan)
    known = (~np.isnan(values)).mean(axis=1)
    moved = (known >= _KNOWN) & _moves(values)
    ends[:, (known > 0) & (known < _KNOWN)] = [[-np.inf], [np.inf]]
    whole = known == 1
    if (rows := moved & whole).all():
        return nearest_draws(values, _ENDS)
    if rows.any():
        ends[:, rows] = nearest_draws(values[rows], _ENDS)
    if (rows := moved & ~whole).any():
        # The nearest draw, for between two of them may lie a cost without end.
        ends[:, rows] = np.nanquantile(values[rows], _ENDS, axis=1, method="nearest")
    return ends


@method(unit="1", source=PROPAGATION, title="chance that a figure is above nothing")
def chance_above_nothing(values: Column) -> Column:
    """Share of the draws in which a figure is above nothing.

    The draws are those of the 90 % intervals; what both sides of a swap share is drawn once
    for both.

    A draw in which a side has a cost without end, for a piece gives no whole portion, says
    nothing of which earns more, so it does not count.

    Formula: draws above nothing / draws with a value.

    Parameters: the draws of a figure. Not known where no draw moves the figure, nor where fewer
    than half of the draws have a value with an end.

    >>> chance_above_nothing(np.array([[1.0, 2.0, -1.0, 3.0]])).tolist()
    [0.75]
    """
    known = np.isfinite(values)
    counted = known.sum(axis=1)
    enough = (counted >= _COUNTED * values.shape[1]) & _moves(values)
    share = (known & (values > 0)).sum(axis=1) / np.maximum(counted, 1)
    return np.where(enough, share, np.nan)


def _moves(values: Column) -> NDArray[np.bool_]:
    """Which rows differ among their draws by more than the rounding of what cancels, (rows,)."""
    low, high = np.fmin.reduce(values, axis=1), np.fmax.reduce(values, axis=1)
    finite = np.where(np.isfinite(low), np.abs(low), 0.0)
    return np.asarray(high > low + _ROUNDING * np.maximum(finite, 1.0))


@method(unit="1", source=PROPAGATION, title="chance that a plate's class is right")
def chance_of_class(popular: Column, earning: Column, plain: tuple[Column, Column]) -> Column:
    """Share of the draws in which a plate falls into the class that the menu shows.

    Each draw has its own counts, margins and dividing lines of the section. While an input is
    tried, a page goes on from this chance: it knows at nine shares of the draws how far the plate
    lay beyond each line, moves and widens both with the what-if, and takes the two as apart.

    Parameters: draws of whether the plate is popular and whether it earns above; both as they
    stand. Not known without a class.
    """
    same = (popular == plain[0]) & (earning == plain[1])
    classed = ~np.isnan(plain[0][:, 0]) & ~np.isnan(plain[1][:, 0])
    return np.where(classed, same.mean(axis=1), np.nan)


@formula(PLATE, unit="share", source=PRICING)
def food_cost_over(food_cost_share: Column, food_cost_target: Column) -> Column:
    """How far the food cost % lies above the share aimed at; below zero where it is within."""
    return food_cost_share - food_cost_target


@formula(PLATE, unit="share", source=MENU_ANALYSIS)
def popular_by(menu_mix: Column, dividing_mix: Column) -> Column:
    """How far the menu mix lies above the mix that divides popular from not."""
    return menu_mix - dividing_mix


@formula(PLATE, unit="money", source=MENU_ANALYSIS)
def earns_by(contribution_margin: Column, dividing_margin: Column) -> Column:
    """How far the contribution margin lies above the margin that divides high from low."""
    return contribution_margin - dividing_margin


def with_intervals(table: Table, names: tuple[str, ...]) -> None:
    """Declare both ends of the 90 % interval of some figures of a table."""
    for name in names:
        unit, label = f"{table.figures[name].unit} near", in_words(name)
        for end, other in (("low", "high"), ("high", "low")):
            about = f"{label[:1].upper()}{label[1:]}: {end} end, 9 times in 10"
            limit = f"{name}_{other}"
            table.applied(
                f"{name}_{end}", unit, about, interval_90, name, limit=limit, follows="end"
            )


def with_chance_over_target(table: Table) -> None:
    """Declare how likely the food cost of a table's rows is above the share aimed at."""
    table.applied(
        "chance_over_target",
        "times in 10",
        "Chance that the food cost % is above the share aimed at",
        chance_above_nothing,
        "food_cost_over",
        "food_cost_share",
        follows="chance",
    )


with_intervals(PLATE, PLATE_INTERVALS)
with_intervals(SWAP, SWAP_INTERVALS)
PLATE.applied(
    "class_chance",
    "times in 10",
    "Chance that the plate's class is the one that the menu shows",
    chance_of_class,
    "is_popular",
    "earns_above",
    "popular_by",
    "earns_by",
    follows="class",
)
with_chance_over_target(PLATE)
SWAP.applied(
    "chance_earns_more",
    "times in 10",
    "Chance that the challenger earns more than the benchmark after all costs",
    chance_above_nothing,
    "margin_change",
    follows="chance",
)
SWAP.applied(
    "chance_food_cheaper",
    "times in 10",
    "Chance that the challenger's food costs less than the benchmark's",
    chance_above_nothing,
    "food_saving",
    follows="chance",
)
