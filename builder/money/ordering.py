"""What a service orders: what all of its plates take, in the whole cases and pieces that are sold.

A portion costs what it uses, whatever the order is rounded up to: the rest stays in the store.
A deposit is money tied up until the empties go back, so it is in no cost of a plate.
"""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, either, known, least, most, or_else, whole, whole_up
from builder.engine.tables import Table, formula
from builder.money.covers import COVER_ITEM
from builder.money.kitchen import KITCHEN
from builder.money.menu import FURTHER_ORDER, ORDER
from builder.money.pantry import INGREDIENT, PANTRY
from builder.money.plates import ACCOMPANIMENT, PLATE
from builder.money.portions import PORTION
from builder.money.service import LOADING, SERVING
from builder.yields.chain import BATCH, CUT
from builder.yields.weighings import YIELD_TEST

PACKS: Final = "sold in whole packs, pieces or steps: common practice, no published source"
BILLED: Final = "each line of a bill is rounded: common practice, no published source"
STOCK_FIRST: Final = "stock is used before more is bought: common practice, no published source"

CUT.given("sold_in", "kg", "Weight that it is sold in: a pack, a piece or a step of an order")
CUT.given("least_order", "kg", "Smallest order", 0.0, "none is stated")
CUT.given("deposit", "money", "Deposit on a pack, paid back for the empty", 0.0, "none is stated")
PANTRY.given("sold_in", "unit", "Amount that it is sold in: a pack, a piece or a step of an order")
PANTRY.given("least_order", "unit", "Smallest order", 0.0, "none is stated")
PANTRY.given(
    "deposit", "money", "Deposit on a pack, paid back for the empty", 0.0, "none is stated"
)
for _name in ("sold_in", "least_order"):
    BATCH.lookup(_name, "cut", CUT)
    for _table in (PLATE, PORTION):
        _table.lookup(_name, "batch", BATCH)
    ORDER.lookup(_name, "plate", PLATE)
    FURTHER_ORDER.lookup(_name, "portion", PORTION)
LOADING.lookup("yield_to_load", "batch", BATCH)


@formula(ORDER, FURTHER_ORDER, unit="kg", source=PACKS)
def quantity_as_sold(
    quantity_to_buy: Column, quantity_to_buy_whole: Column, sold_in: Column, least_order: Column
) -> Column:
    """AP weight, or the smallest order, up to whole packs, pieces or steps.

    Not known where any weight is sold and no smallest order is stated.
    """
    smallest = most(or_else(quantity_to_buy_whole, quantity_to_buy), least_order)
    rounded = whole_up(smallest / sold_in) * sold_in
    return either(known(sold_in), rounded, either(least_order > 0, smallest, sold_in))


@formula(LOADING, unit="kg", source=YIELD_TEST)
def weight_to_buy(raw_weight: Column, yield_to_load: Column) -> Column:
    """Weight as purchased of what goes into the cook: the yields before it turned round."""
    return raw_weight / yield_to_load


SERVICE_ORDER = Table("service_order", "What a service orders")
ORDER_LINE = Table("order_line", "One item that a service orders, for all of its plates together")
PREPARATION = Table("preparation", "What all plates of a service take of a sub-recipe")
ORDER_NEED = Table("order_need", "What one plate, cook or sub-recipe of a service takes of an item")

SERVICE_ORDER.link("kitchen", KITCHEN)
SERVICE_ORDER.lookup("coins_in_unit", "kitchen", KITCHEN)
ORDER_LINE.link("order", SERVICE_ORDER)
ORDER_LINE.lookup("coins_in_unit", "order", SERVICE_ORDER)
ORDER_LINE.link("cut", CUT)
ORDER_LINE.link("item", PANTRY)
PREPARATION.link("item", PANTRY)
PREPARATION.lookup("makes", "item", PANTRY)
ORDER_NEED.link("line", ORDER_LINE)
ORDER_NEED.link("preparation", PREPARATION)
ORDER_NEED.link("loading", LOADING)
ORDER_NEED.link("serving", SERVING)
ORDER_NEED.link("plate", PLATE)
ORDER_NEED.link("portion", PORTION)
ORDER_NEED.link("side", ACCOMPANIMENT)
ORDER_NEED.link("cover_item", COVER_ITEM)
ORDER_NEED.link("ingredient", INGREDIENT)
ORDER_NEED.link("within", PREPARATION)
ORDER_NEED.given("amount_besides", "unit", "Amount used besides what plates take")
ORDER_NEED.lookup("weight_to_buy", "loading", LOADING)
ORDER_NEED.lookup("covers", "serving", SERVING)
ORDER_NEED.lookup("main_weight", "plate", PLATE, "ap_weight_per_portion")
ORDER_NEED.lookup("further_weight", "portion", PORTION, "ap_weight_per_portion")
ORDER_NEED.lookup("side_quantity", "side", ACCOMPANIMENT, "quantity")
ORDER_NEED.lookup("cover_quantity", "cover_item", COVER_ITEM, "quantity")
ORDER_NEED.lookup("line_quantity", "ingredient", INGREDIENT, "quantity")
ORDER_NEED.recursive(
    "made_of_it", "within", PREPARATION, "amount_made", "unit", "Amount made of the sub-recipe"
)
ORDER_NEED.recursive(
    "recipe_makes", "within", PREPARATION, "makes", "unit", "Amount that the sub-recipe makes"
)


@formula(ORDER_NEED, unit="unit", source=YIELD_TEST)
def amount_a_cover(
    main_weight: Column, further_weight: Column, side_quantity: Column, cover_quantity: Column
) -> Column:
    """What one cover takes: weight as purchased of an uncooked portion, or of a pantry item."""
    portion = or_else(main_weight, further_weight)
    return or_else(portion, or_else(side_quantity, cover_quantity))


@formula(ORDER_NEED, unit="unit", source=YIELD_TEST)
def amount_taken(
    weight_to_buy: Column,
    covers: Column,
    amount_a_cover: Column,
    made_of_it: Column,
    line_quantity: Column,
    recipe_makes: Column,
    amount_besides: Column,
) -> Column:
    """Weight of a cook's whole pieces; of a plate covers times an amount; a recipe's share."""
    of_recipe = or_else(made_of_it * line_quantity / recipe_makes, amount_besides)
    return or_else(weight_to_buy, or_else(covers * amount_a_cover, of_recipe))


for _table in (PREPARATION, ORDER_LINE):
    _table.given("on_hand", "unit", "Stock at hand before the service", 0.0, "none is written")
PREPARATION.total(
    "amount_wanted",
    ORDER_NEED,
    "amount_taken",
    "preparation",
    "Amount that all plates of the service take",
)


@formula(PREPARATION, unit="unit", source=STOCK_FIRST)
def amount_made(amount_wanted: Column, on_hand: Column) -> Column:
    """Amount to make: what all plates of the service take, less the stock at hand.

    Never below nothing, and nothing where they are as much but for the last bits of binary
    arithmetic.
    """
    return either(amount_wanted <= on_hand + 1e-9, 0.0, amount_wanted - on_hand)


ORDER_LINE.total(
    "amount_used", ORDER_NEED, "amount_taken", "line", "Amount that all plates of the service use"
)
ORDER_LINE.lookup("cut_price", "cut", CUT, "ap_price")
ORDER_LINE.lookup("cut_sold_in", "cut", CUT, "sold_in")
ORDER_LINE.lookup("cut_least_order", "cut", CUT, "least_order")
ORDER_LINE.lookup("cut_deposit", "cut", CUT, "deposit")
ORDER_LINE.lookup("item_price", "item", PANTRY, "purchase_price")
ORDER_LINE.lookup("item_sold_in", "item", PANTRY, "sold_in")
ORDER_LINE.lookup("item_least_order", "item", PANTRY, "least_order")
ORDER_LINE.lookup("item_deposit", "item", PANTRY, "deposit")
ORDER_LINE.lookup("usable_yield", "item", PANTRY)


@formula(ORDER_LINE, unit="unit", source=PACKS)
def step_size(cut_sold_in: Column, item_sold_in: Column) -> Column:
    """Size of what is sold: a pack, a piece or a step; not known where any amount is sold."""
    return or_else(cut_sold_in, item_sold_in)


@formula(ORDER_LINE, unit="unit", source=YIELD_TEST)
def amount_needed(amount_used: Column, usable_yield: Column) -> Column:
    """Amount as purchased for what is used: of a pantry item over its usable share."""
    return amount_used / or_else(usable_yield, 1.0)


@formula(ORDER_LINE, unit="unit", source=STOCK_FIRST)
def from_stock(amount_needed: Column, on_hand: Column) -> Column:
    """What of it is at hand: no more than is needed."""
    return least(amount_needed, on_hand)


@formula(ORDER_LINE, unit="unit", source=STOCK_FIRST)
def amount_short(amount_needed: Column, on_hand: Column) -> Column:
    """What has to be bought of it: what is needed less the stock at hand, never below zero.

    Nothing, too, where they are as much but for the last bits of binary arithmetic: no smallest
    order is due then.
    """
    return either(amount_needed <= on_hand + 1e-9, 0.0, amount_needed - on_hand)


@formula(ORDER_LINE, unit="unit", source=PACKS)
def amount_ordered(
    amount_short: Column, step_size: Column, cut_least_order: Column, item_least_order: Column
) -> Column:
    """What is short, or the smallest order, up to whole packs, pieces or steps; rounded once.

    What is over stays in the store: a portion costs what it uses, not what the order is
    rounded up to.
    """
    smallest = most(amount_short, or_else(cut_least_order, item_least_order))
    rounded = either(known(step_size), whole_up(smallest / step_size) * step_size, smallest)
    return either(amount_short > 0, rounded, amount_short)


@formula(ORDER_LINE, unit="count", source=PACKS)
def packs_ordered(amount_ordered: Column, step_size: Column) -> Column:
    """How many packs, pieces or steps are ordered; not known where any amount is sold."""
    return whole_up(amount_ordered / step_size)


@formula(ORDER_LINE, unit="unit", source=PACKS)
def left_over(amount_ordered: Column, amount_short: Column) -> Column:
    """What the service does not need of the order; stock that it does not need is apart."""
    return amount_ordered - amount_short


@formula(ORDER_LINE, unit="money/unit", source=PACKS)
def price_paid(cut_price: Column, item_price: Column) -> Column:
    """Price of a unit as purchased."""
    return or_else(cut_price, item_price)


@formula(ORDER_LINE, unit="money", source=PACKS)
def line_cost(amount_ordered: Column, price_paid: Column) -> Column:
    """What is ordered at its price, without deposits; a piece costs what its scale then says."""
    return amount_ordered * price_paid


@formula(ORDER_LINE, unit="money", source=BILLED)
def line_billed(line_cost: Column, coins_in_unit: Column) -> Column:
    """What is ordered at its price, to the coin as on a bill, so that a bill's lines add up."""
    return whole(line_cost * coins_in_unit + 0.5) / coins_in_unit


@formula(ORDER_LINE, unit="money", source=PACKS)
def left_over_cost(left_over: Column, price_paid: Column) -> Column:
    """What was paid for what the service does not need."""
    return left_over * price_paid


@formula(ORDER_LINE, unit="money", source=PACKS)
def deposits(packs_ordered: Column, cut_deposit: Column, item_deposit: Column) -> Column:
    """Deposits on the packs: tied up until the empties go back, and in no cost of a plate."""
    return or_else(packs_ordered, 0.0) * or_else(cut_deposit, item_deposit)


SERVICE_ORDER.total("goods_cost", ORDER_LINE, "line_cost", "order", "What the goods cost")
SERVICE_ORDER.total(
    "goods_billed", ORDER_LINE, "line_billed", "order", "What the bills of the goods come to"
)
SERVICE_ORDER.total(
    "goods_left_over", ORDER_LINE, "left_over_cost", "order", "Cost of what the service leaves over"
)
SERVICE_ORDER.total(
    "deposits_paid", ORDER_LINE, "deposits", "order", "Deposits, given back with the empties"
)


@formula(SERVICE_ORDER, unit="money", source=PACKS)
def paid_today(goods_cost: Column, deposits_paid: Column) -> Column:
    """What the order costs today: the goods, and the deposits that come back."""
    return goods_cost + deposits_paid


@formula(SERVICE_ORDER, unit="money", source=BILLED)
def billed_today(goods_billed: Column, deposits_paid: Column) -> Column:
    """What the order's bills come to: goods to the coin, and the deposits that come back."""
    return goods_billed + deposits_paid
