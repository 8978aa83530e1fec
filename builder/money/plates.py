"""Plates: food cost, prime cost and full plate cost side by side, and what the plate earns."""

from __future__ import annotations

from builder.engine.arith import Column, either, known, or_else, whole, whole_up
from builder.engine.tables import Table, formula
from builder.money.kitchen import FOR_PRICES, KITCHEN, PROCESS
from builder.money.pantry import INGREDIENT, PANTRY
from builder.money.portions import FROM_BATCH, PORTION
from builder.yields.chain import BATCH
from builder.yields.weighings import YIELD_TEST

PRICING = "Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls [from memory]"

COME_WHOLE = "portions come whole: common practice, no published source"
CHOSEN = "our rule: the kitchen chooses whole portions or weight"

PLATE = Table("plate", "A plate as it is sold")
ACCOMPANIMENT = Table("accompaniment", "One side of a plate")

PLATE.link("batch", BATCH)
PLATE.link("kitchen", KITCHEN)
PORTION.link("plate", PLATE)
ACCOMPANIMENT.link("plate", PLATE)
ACCOMPANIMENT.link("item", PANTRY)

ACCOMPANIMENT.given("quantity", "unit", "Amount on a plate, in the unit that the item is priced by")
ACCOMPANIMENT.lookup("food_per_unit", "item", PANTRY, "food_per_unit")
ACCOMPANIMENT.lookup("hours_per_unit", "item", PANTRY, "hours_per_unit")
ACCOMPANIMENT.lookup("process_per_unit", "item", PANTRY, "process_per_unit")
ACCOMPANIMENT.lookup("known_process_per_unit", "item", PANTRY, "known_process_per_unit")
ACCOMPANIMENT.borrow(INGREDIENT, "food", "hours", "process", "known_process")

PLATE.given("stated_portion", "kg", "Weight of the cooked portion, where it is written")
PLATE.given("portion_pieces", "factor", "Servable pieces in a portion, where it is written so")
PLATE.given("menu_price", "money", "Price on the menu")
PLATE.given("plating", "h", "Active work to finish and plate one portion")
PLATE.lookups("kitchen", KITCHEN, *FOR_PRICES, "count_whole")
PLATE.lookups("batch", BATCH, *FROM_BATCH)
PLATE.total("accompaniments_food", ACCOMPANIMENT, "food", "plate", "Food cost of the sides")
PLATE.total("accompaniments_hours", ACCOMPANIMENT, "hours", "plate", "Hours of work in the sides")
PLATE.total(
    "accompaniments_process",
    ACCOMPANIMENT,
    "process",
    "plate",
    "Energy and supplies in the sides",
)
PLATE.total(
    "accompaniments_known_process",
    ACCOMPANIMENT,
    "known_process",
    "plate",
    "Energy and supplies in the sides, as far as they are known",
)


@formula(PLATE, PORTION, unit="kg", source="conservation of mass")
def portion(
    stated_portion: Column, portion_pieces: Column, servable_weight: Column, pieces: Column
) -> Column:
    """Weight of the cooked portion on the plate: as stated, else of its servable pieces."""
    return or_else(stated_portion, portion_pieces * servable_weight / pieces)


@formula(PLATE, PORTION, unit="money", source=YIELD_TEST, as_sure_as="protein_cost")
def portion_cost_by_weight(cost_per_servable_kg: Column, portion: Column) -> Column:
    """Cost of a portion by weight: cost of a servable kg times the portion."""
    return cost_per_servable_kg * portion


@formula(PLATE, PORTION, unit="portion factor", source=YIELD_TEST)
def cost_factor_per_portion(portion_cost_by_weight: Column, ap_price: Column) -> Column:
    """Portion cost over the AP price of a kilogram; times a new price, the new portion cost."""
    return portion_cost_by_weight / ap_price


@formula(PLATE, PORTION, unit="portions", source=YIELD_TEST)
def portions_by_weight(servable_weight: Column, portion: Column) -> Column:
    """Portions in a batch if nothing were left over."""
    return servable_weight / portion


@formula(PLATE, PORTION, unit="flag", source=CHOSEN)
def counts_pieces(count_whole: Column, pieces: Column) -> Column:
    """1 where portions are counted whole: the kitchen does so and a piece's weight is known."""
    return either((count_whole > 0) & known(pieces), 1.0, 0.0)


@formula(PLATE, PORTION, unit="count", source=COME_WHOLE)
def portions_per_piece(
    servable_weight: Column, pieces: Column, portion: Column, portion_pieces: Column
) -> Column:
    """Whole portions that one piece gives; not known without a piece weight.

    A portion of pieces is served whatever they weigh: one over its pieces.
    """
    return or_else(1 / portion_pieces, whole(servable_weight / pieces / portion))


@formula(PLATE, PORTION, unit="whole portions", source=COME_WHOLE)
def whole_portions(pieces: Column, portions_per_piece: Column) -> Column:
    """Portions in a batch: the whole ones of each piece, times its pieces."""
    return pieces * portions_per_piece


@formula(PLATE, PORTION, unit="kg", source="conservation of mass")
def remainder_weight(servable_weight: Column, whole_portions: Column, portion: Column) -> Column:
    """Servable weight that is left after the whole portions: a by-product with its own worth."""
    return servable_weight - whole_portions * portion


@formula(PLATE, PORTION, unit="money", source=YIELD_TEST)
def remainder_credit(remainder_weight: Column, remainder_worth: Column) -> Column:
    """What the remainder is worth."""
    return remainder_weight * remainder_worth


@formula(PLATE, PORTION, unit="money", source=YIELD_TEST, as_sure_as="protein_cost")
def portion_cost_whole(
    net_cost: Column, remainder_credit: Column, whole_portions: Column
) -> Column:
    """Cost of a portion by whole portions: net cost less the remainder's worth, over the count."""
    return (net_cost - remainder_credit) / whole_portions


@formula(PLATE, PORTION, unit="money", source=CHOSEN)
def protein_cost(
    portion_cost_whole: Column, portion_cost_by_weight: Column, counts_pieces: Column
) -> Column:
    """Cost of the portion on the basis that the menu uses; nothing on a plate without a cook."""
    return or_else(either(counts_pieces > 0, portion_cost_whole, portion_cost_by_weight), 0.0)


@formula(PLATE, PORTION, unit="count", source=CHOSEN)
def portions_charged(
    whole_portions: Column, portions_by_weight: Column, counts_pieces: Column
) -> Column:
    """Portions that a batch's work and energy are spread over."""
    return either(counts_pieces > 0, whole_portions, portions_by_weight)


@formula(PLATE, PORTION, unit="kg", source=YIELD_TEST)
def ap_weight_per_portion(ap_weight: Column, portions_charged: Column) -> Column:
    """Weight as purchased that one portion takes."""
    return or_else(ap_weight / portions_charged, 0.0)


@formula(PLATE, PORTION, unit="money", source=YIELD_TEST, as_sure_as="protein_cost")
def ap_cost_per_portion(ap_weight_per_portion: Column, ap_price: Column) -> Column:
    """What the weight as purchased costs that one portion takes; nothing without a cook."""
    return or_else(ap_weight_per_portion * ap_price, 0.0)


@formula(PLATE, PORTION, unit="money", source=YIELD_TEST)
def credit_per_portion(
    credits: Column, remainder_credit: Column, portions_charged: Column, counts_pieces: Column
) -> Column:
    """What by-products give back on one portion; by whole portions what is left over, too."""
    left_over = either(counts_pieces > 0, remainder_credit, 0.0)
    return or_else((credits + left_over) / portions_charged, 0.0)


PLATE.total("further_food", PORTION, "protein_cost", "plate", "Food cost of the further portions")
PLATE.total("further_hours", PORTION, "portion_hours", "plate", "Work in the further portions")


@formula(PLATE, unit="money", source=PROCESS)
def seasoning_cost(
    seasoning_share: Column,
    protein_cost: Column,
    accompaniments_food: Column,
    further_food: Column,
    garnish_cost: Column,
) -> Column:
    """Allowance for salt, oil and the like: a share of the other food; nothing without one."""
    food = protein_cost + further_food + accompaniments_food + garnish_cost
    return either(seasoning_share > 0, seasoning_share * food, 0.0)


@formula(PLATE, unit="money", source=PRICING)
def food_cost(
    protein_cost: Column,
    accompaniments_food: Column,
    seasoning_cost: Column,
    further_food: Column,
    garnish_cost: Column,
    cover_cost: Column,
) -> Column:
    """Food on the plate: protein, further portions, sides, allowances, the cover."""
    listed = protein_cost + further_food + accompaniments_food
    return listed + garnish_cost + seasoning_cost + cover_cost


@formula(PLATE, unit="h", source=PROCESS)
def labour_hours(
    hands_on: Column,
    portions_charged: Column,
    plating: Column,
    accompaniments_hours: Column,
    further_hours: Column,
    cover_hours: Column,
) -> Column:
    """Active work in one plate: its share of each batch, plating, sides and cover.

    What nobody states of them is left out; not known where nobody states any.
    """
    share = hands_on / portions_charged
    beside = accompaniments_hours + further_hours + cover_hours
    work = or_else(share, 0.0) + or_else(plating, 0.0) + beside
    stated = known(share) | known(plating) | (beside > 0)
    return either(stated, work, float("nan"))


@formula(PLATE, unit="money", source=PROCESS)
def labour_cost(labour_hours: Column, loaded_wage: Column) -> Column:
    """Direct labour in one plate at the loaded wage; not known without hours or a wage."""
    return either(labour_hours > 0, labour_hours * loaded_wage, labour_hours)


@formula(PLATE, unit="money", source=PRICING)
def prime_cost(food_cost: Column, labour_cost: Column) -> Column:
    """Food and direct labour together; labour that is not known is left out."""
    return food_cost + or_else(labour_cost, 0.0)


@formula(PLATE, PORTION, unit="money", source=PROCESS)
def energy_per_plate(batch_energy_cost: Column, portions_charged: Column) -> Column:
    """The plate's share of the batch's energy."""
    return either(known(portions_charged), batch_energy_cost / portions_charged, 0.0)


@formula(PLATE, PORTION, unit="kWh", source=PROCESS)
def energy_used_per_plate(batch_energy: Column, portions_charged: Column) -> Column:
    """The plate's share of the kilowatt-hours of the batch."""
    return either(known(portions_charged), batch_energy / portions_charged, 0.0)


@formula(PLATE, PORTION, unit="money", source=PROCESS)
def energy_per_plate_low(energy_cost_low: Column, portions_charged: Column) -> Column:
    """Low end of the plate's share of the batch's energy."""
    return either(known(portions_charged), energy_cost_low / portions_charged, 0.0)


@formula(PLATE, PORTION, unit="money", source=PROCESS)
def energy_per_plate_high(energy_cost_high: Column, portions_charged: Column) -> Column:
    """High end of the plate's share of the batch's energy."""
    return either(known(portions_charged), energy_cost_high / portions_charged, 0.0)


@formula(PLATE, PORTION, unit="money", source=PROCESS)
def consumables_per_plate(consumables: Column, portions_charged: Column) -> Column:
    """The plate's share of the batch's consumables."""
    return or_else(consumables / portions_charged, 0.0)


@formula(PLATE, PORTION, unit="money", source=PROCESS)
def equipment_per_plate(equipment_charge: Column, portions_charged: Column) -> Column:
    """The plate's share of the batch's equipment charge."""
    return either(known(portions_charged), equipment_charge / portions_charged, 0.0)


PLATE.total(
    "further_process",
    PORTION,
    "portion_process",
    "plate",
    "Energy and supplies in the further portions, as far as they are known",
)


@formula(PLATE, unit="money", source=PROCESS)
def process_per_plate(
    energy_per_plate: Column,
    consumables_per_plate: Column,
    equipment_per_plate: Column,
    accompaniments_known_process: Column,
    further_process: Column,
    cover_process: Column,
) -> Column:
    """Energy, supplies and equipment, beside labour, and those of what is beside it.

    What is not known of them is left out.
    """
    energy = or_else(energy_per_plate, 0.0)
    equipment = or_else(equipment_per_plate, 0.0)
    beside = accompaniments_known_process + further_process + cover_process
    return energy + consumables_per_plate + equipment + beside


@formula(PLATE, unit="money", source=PROCESS)
def full_cost(prime_cost: Column, process_per_plate: Column) -> Column:
    """Full plate cost: prime cost, energy and supplies, without what is not known of them."""
    return prime_cost + process_per_plate


@formula(PLATE, unit="money", source=PRICING)
def price_ex_tax(menu_price: Column, tax_rate: Column, tax_included: Column) -> Column:
    """Price without sales tax."""
    return either(tax_included > 0, menu_price / (1 + tax_rate), menu_price)


@formula(PLATE, unit="money", source=PRICING)
def contribution_margin(price_ex_tax: Column, food_cost: Column) -> Column:
    """Price without tax less food cost: what it contributes to everything else."""
    return price_ex_tax - food_cost


@formula(PLATE, unit="money", source=PRICING)
def margin_after_prime(price_ex_tax: Column, prime_cost: Column) -> Column:
    """Price without tax less prime cost."""
    return price_ex_tax - prime_cost


@formula(PLATE, unit="money", source=PRICING)
def margin_after_full(price_ex_tax: Column, full_cost: Column) -> Column:
    """Price without tax less full plate cost."""
    return price_ex_tax - full_cost


@formula(PLATE, unit="share", source=PRICING)
def food_cost_share(food_cost: Column, price_ex_tax: Column) -> Column:
    """Food cost as a share of the price without tax (food cost %)."""
    return food_cost / price_ex_tax


@formula(PLATE, unit="factor", source=PRICING)
def price_factor(tax_rate: Column, tax_included: Column) -> Column:
    """What turns a price without tax into the price on the menu."""
    return either(tax_included > 0, 1 + tax_rate, 1.0)


@formula(PLATE, unit="money up", source=PRICING)
def price_for_food_cost(
    food_cost: Column, food_cost_target: Column, price_factor: Column, coins_in_unit: Column
) -> Column:
    """Lowest menu price, to the coin, at which food cost is no more than the share aimed at.

    Not known where the food costs nothing, or less than nothing.
    """
    price = food_cost / food_cost_target * price_factor
    return either(food_cost > 0, whole_up(price * coins_in_unit) / coins_in_unit, float("nan"))


@formula(PLATE, unit="money up", source=PRICING)
def price_for_margin(
    food_cost: Column, margin_target: Column, price_factor: Column, coins_in_unit: Column
) -> Column:
    """Lowest menu price, to the coin, at which the contribution margin is no less than aimed at.

    Not known where the food costs less than nothing.
    """
    price = (food_cost + margin_target) * price_factor
    return either(food_cost >= 0, whole_up(price * coins_in_unit) / coins_in_unit, float("nan"))
