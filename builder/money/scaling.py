"""A batch made to size: by covers, by a weight, or by what is there of one part.

Everything that has an amount in a batch is a row. Whichever amount is asked for says how many
times the batch is made, and every other amount follows.
"""

from __future__ import annotations

from builder.engine.arith import Column, either, known, or_else
from builder.engine.tables import Fold, Table, formula
from builder.money.pantry import INGREDIENT, PANTRY
from builder.money.plates import ACCOMPANIMENT, PLATE
from builder.money.portions import PORTION
from builder.yields.chain import BATCH

SCALE = Table("scale", "A batch, a recipe or a plate made to size")
SCALED = Table("scaled", "One amount of what is made to size")


SCALED.link("scale", SCALE)
for _link, _of in (
    ("raw", BATCH),
    ("loaded", BATCH),
    ("served", BATCH),
    ("main_portion", PLATE),
    ("further_portion", PORTION),
    ("raw_main", PLATE),
    ("raw_further", PORTION),
    ("recipe", PANTRY),
    ("line", INGREDIENT),
    ("side", ACCOMPANIMENT),
):
    SCALED.link(_link, _of)

SCALED.given("stated_amount", "unit", "Amount in a step, or the one plate that a recipe is for")
SCALED.given("wanted_amount", "unit", "Amount that is wanted, or is there, if not the batch's own")
SCALED.lookup("raw_weight", "raw", BATCH, "ap_weight")
SCALED.lookup("loaded_weight", "loaded", BATCH, "load")
SCALED.lookup("served_weight", "served", BATCH, "servable_weight")
SCALED.lookup("main_portions", "main_portion", PLATE, "portions_charged")
SCALED.lookup("further_portions", "further_portion", PORTION, "portions_charged")
SCALED.lookup("raw_of_main", "raw_main", PLATE, "ap_weight_per_portion")
SCALED.lookup("raw_of_further", "raw_further", PORTION, "ap_weight_per_portion")
SCALED.lookup("makes", "recipe", PANTRY)
SCALED.lookup("line_quantity", "line", INGREDIENT, "quantity")
SCALED.lookup("side_quantity", "side", ACCOMPANIMENT, "quantity")


@formula(SCALED, unit="unit", source="our rule: each row is of one kind")
def weight_in_batch(
    raw_weight: Column,
    loaded_weight: Column,
    served_weight: Column,
    raw_of_main: Column,
    raw_of_further: Column,
) -> Column:
    """Weight of the cut in the batch: as purchased, into the cook, servable, or for a portion.

    Nothing of a cut is not known.
    """
    portion = or_else(raw_of_main, raw_of_further)
    batch = or_else(raw_weight, or_else(loaded_weight, served_weight))
    return either(or_else(batch, portion) > 0, or_else(batch, portion), float("nan"))


@formula(SCALED, unit="unit", source="our rule: each row is of one kind")
def own_amount(
    stated_amount: Column,
    weight_in_batch: Column,
    main_portions: Column,
    further_portions: Column,
    makes: Column,
    line_quantity: Column,
    side_quantity: Column,
) -> Column:
    """Amount in the batch as it is written."""
    portions = or_else(main_portions, further_portions)
    in_recipe = or_else(makes, or_else(line_quantity, side_quantity))
    return or_else(stated_amount, or_else(weight_in_batch, or_else(portions, in_recipe)))


@formula(SCALED, unit="unit", source="our rule: what is asked for goes first")
def asked_amount(wanted_amount: Column, own_amount: Column) -> Column:
    """Amount that is asked for: what is wanted, or is there, else the batch's own."""
    return or_else(wanted_amount, own_amount)


@formula(SCALED, unit="factor", source="proportion: common practice, no published source")
def wanted_share(asked_amount: Column, own_amount: Column, wanted_amount: Column) -> Column:
    """Times that the batch is made for the amount that is wanted; not known where none is."""
    return either(known(wanted_amount) & (own_amount > 0), asked_amount / own_amount, float("nan"))


SCALE.total(
    "smallest_wanted",
    SCALED,
    "wanted_share",
    "scale",
    "Times that the batch is made by the amount that allows least",
    fold=Fold.LEAST,
)


@formula(SCALE, unit="count", source="proportion: common practice, no published source")
def batch_factor(smallest_wanted: Column) -> Column:
    """Times that the batch is made: as its file has it, once, where nothing is asked for."""
    return or_else(smallest_wanted, 1.0)


SCALED.lookups("scale", SCALE, "batch_factor")


@formula(SCALED, unit="unit", source="proportion: common practice, no published source")
def scaled_amount(own_amount: Column, batch_factor: Column) -> Column:
    """Amount in the batch made to size: its own times the factor."""
    return own_amount * batch_factor
