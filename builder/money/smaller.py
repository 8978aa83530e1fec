"""The portion at which a plate's food cost is what is aimed at, at today's menu price."""

from __future__ import annotations

from builder.engine.arith import Column, either, known, whole_up
from builder.engine.tables import formula
from builder.money.plates import COME_WHOLE, PLATE, PRICING


@formula(PLATE, unit="money", source=PRICING)
def protein_for_food_cost(
    protein_cost: Column,
    food_cost: Column,
    food_cost_target: Column,
    price_ex_tax: Column,
    food_factor: Column,
) -> Column:
    """What the main portion may cost for food to be the share of the price that is aimed at.

    Not known where all else on the plate costs as much already.
    """
    may = protein_cost - (food_cost - food_cost_target * price_ex_tax) / food_factor
    return either(may > 0, may, float("nan"))


@formula(PLATE, unit="count", source=COME_WHOLE)
def portions_for_food_cost(
    net_cost: Column,
    pieces: Column,
    protein_for_food_cost: Column,
    counts_pieces: Column,
    portion_pieces: Column,
) -> Column:
    """Whole portions that a piece has to give for that, with nothing left over.

    Not known by weight, nor of a portion of so many pieces.
    """
    cut = whole_up(net_cost / pieces / protein_for_food_cost)
    return either(known(portion_pieces) | (counts_pieces <= 0), float("nan"), cut)


@formula(PLATE, unit="kg", source=PRICING)
def portion_for_food_cost(
    portion: Column,
    protein_for_food_cost: Column,
    protein_cost: Column,
    servable_weight: Column,
    pieces: Column,
    portions_for_food_cost: Column,
    portion_pieces: Column,
) -> Column:
    """The main portion at which the protein costs no more than that.

    By whole portions the largest of which a piece gives as many. Not known of a portion of so
    many pieces.
    """
    by_weight = portion * protein_for_food_cost / protein_cost
    of_a_piece = servable_weight / pieces / portions_for_food_cost
    cut = either(known(portions_for_food_cost), of_a_piece, by_weight)
    return either(known(portion_pieces), float("nan"), cut)
