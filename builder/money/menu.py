"""The menu: how popular a plate is, what it earns beside its section, and what to buy."""

from __future__ import annotations

from builder.engine.arith import Column, either, known, or_else, whole, whole_up
from builder.engine.tables import Fold, Table, formula
from builder.money.kitchen import KITCHEN
from builder.money.plates import COME_WHOLE, PLATE
from builder.money.portions import PORTION
from builder.yields.weighings import YIELD_TEST

MENU_ANALYSIS = (
    "Kasavana & Smith, Menu Engineering, 1982; columns as in Dittmer & Keefe ch. 11 [read]"
)

LABOUR_ADJUSTED = (
    "the four classes with labour taken off the margin, as the trade does [from memory]"
)

SECTION = Table("section", "A section of the menu")
ORDER = Table("order", "A number of covers of a plate to buy for")
FURTHER_ORDER = Table("further_order", "The same of a further portion of a plate")

PLATE.link("section", SECTION)
PLATE.given("sold", "count", "Plates sold in the month that the menu page looks at")
PLATE.given("days_in_month", "count", "Days in that month", 30.0, "a month")
PLATE.given("first_sold", "count", "Plates sold in the first month that is counted")
PLATE.given("days_in_first_month", "count", "Days in the first month that is counted")
PLATE.given("forecast", "count/week", "Plates a week that the kitchen expects to sell")
SECTION.link("kitchen", KITCHEN)


@formula(PLATE, unit="money", source=MENU_ANALYSIS, as_sure_as="contribution_margin")
def month_margin(sold: Column, contribution_margin: Column) -> Column:
    """Contribution margin of all plates sold in the month."""
    return sold * contribution_margin


@formula(PLATE, unit="money", source=MENU_ANALYSIS)
def month_sales(sold: Column, price_ex_tax: Column) -> Column:
    """Sales of the plate in the month, without tax; nothing where no count is known."""
    return or_else(sold * price_ex_tax, 0.0)


@formula(PLATE, unit="money", source=MENU_ANALYSIS, as_sure_as="food_cost")
def month_food(sold: Column, food_cost: Column) -> Column:
    """Food that the plates sold in the month should have taken; nothing where none is counted."""
    return or_else(sold * food_cost, 0.0)


@formula(PLATE, unit="count", source=MENU_ANALYSIS)
def counted(sold: Column) -> Column:
    """Plates sold, nothing where no count is known."""
    return or_else(sold, 0.0)


@formula(PLATE, unit="money", source=MENU_ANALYSIS, as_sure_as="month_margin")
def counted_margin(month_margin: Column) -> Column:
    """Margin of the month, nothing where no count is known."""
    return or_else(month_margin, 0.0)


SECTION.total("items", PLATE, "sold", "section", "Plates with a count", fold=Fold.COUNT)
SECTION.total("section_sold", PLATE, "counted", "section", "All plates sold in the section")
SECTION.total(
    "section_margin", PLATE, "counted_margin", "section", "Contribution margin of the section"
)
SECTION.total(
    "section_sales", PLATE, "month_sales", "section", "Sales of the section ex tax",
    unit="money whole",
)  # fmt: skip
SECTION.total("section_food", PLATE, "month_food", "section", "Food cost of all plates sold")


@formula(SECTION, unit="share", source=MENU_ANALYSIS, as_sure_as="section_food")
def section_food_share(section_food: Column, section_sales: Column) -> Column:
    """Food cost of the section as it sold, as a share of its sales: what recipes say it took."""
    return section_food / section_sales


KITCHEN.total("menu_sold", SECTION, "section_sold", "kitchen", "All plates sold in the month")
KITCHEN.total("menu_sales", SECTION, "section_sales", "kitchen", "Sales of the menu ex tax")
KITCHEN.total("menu_food", SECTION, "section_food", "kitchen", "Food cost of all plates sold")
KITCHEN.total(
    "menu_margin", SECTION, "section_margin", "kitchen", "Contribution margin of the whole menu"
)


@formula(KITCHEN, unit="share", source=MENU_ANALYSIS, as_sure_as="menu_food")
def menu_food_share(menu_food: Column, menu_sales: Column) -> Column:
    """Food cost of the menu as it sold, as a share of its sales: what recipes say it took."""
    return menu_food / menu_sales


@formula(SECTION, unit="money", source=MENU_ANALYSIS, as_sure_as="section_margin")
def dividing_margin(section_margin: Column, section_sold: Column) -> Column:
    """Contribution margin that divides high from low: the section's margin over plates sold."""
    return section_margin / section_sold


@formula(SECTION, unit="share", source=MENU_ANALYSIS)
def dividing_mix(items: Column) -> Column:
    """Menu mix that divides popular from not: 0.7 over the number of plates."""
    return 0.7 / items


PLATE.lookups("section", SECTION, "section_sold", "dividing_margin", "dividing_mix")


@formula(PLATE, unit="share", source=MENU_ANALYSIS)
def menu_mix(sold: Column, section_sold: Column) -> Column:
    """Plates sold as a share of all sold in the section."""
    return sold / section_sold


@formula(PLATE, unit="flag", source=MENU_ANALYSIS)
def is_popular(
    menu_mix: Column, dividing_mix: Column, sold: Column, section_sold: Column
) -> Column:
    """1 where the menu mix is above the dividing mix; not known where nothing else was sold."""
    return either(section_sold > sold, either(menu_mix > dividing_mix, 1.0, 0.0), float("nan"))


@formula(PLATE, unit="flag", source=MENU_ANALYSIS)
def earns_above(
    contribution_margin: Column,
    dividing_margin: Column,
    coins_in_unit: Column,
    sold: Column,
    section_sold: Column,
) -> Column:
    """1 where the contribution margin is strictly above the dividing margin, both to the coin.

    Not known where nothing else of the section was sold: the plate is its own dividing line.
    """
    margin = whole(contribution_margin * coins_in_unit + 0.5)
    above = either(margin > whole(dividing_margin * coins_in_unit + 0.5), 1.0, 0.0)
    return either(section_sold > sold, above, float("nan"))


@formula(PLATE, unit="count", source=MENU_ANALYSIS)
def sells_and_earns(is_popular: Column, earns_above: Column) -> Column:
    """1 where the plate is popular and earns above the dividing margin, else 0."""
    return either((is_popular > 0) & (earns_above > 0), 1.0, 0.0)


@formula(PLATE, unit="count", source=MENU_ANALYSIS)
def sells_earns_little(is_popular: Column, earns_above: Column) -> Column:
    """1 where the plate is popular and does not earn above the dividing margin, else 0."""
    return either((is_popular > 0) & (earns_above <= 0), 1.0, 0.0)


@formula(PLATE, unit="count", source=MENU_ANALYSIS)
def earns_sells_little(is_popular: Column, earns_above: Column) -> Column:
    """1 where the plate is not popular and earns above the dividing margin, else 0."""
    return either((is_popular <= 0) & (earns_above > 0), 1.0, 0.0)


@formula(PLATE, unit="count", source=MENU_ANALYSIS)
def neither_sells_nor_earns(is_popular: Column, earns_above: Column) -> Column:
    """1 where the plate is not popular and does not earn above the dividing margin, else 0."""
    return either((is_popular <= 0) & (earns_above <= 0), 1.0, 0.0)


@formula(PLATE, unit="share change", source="change of the daily mean [our rule]")
def sold_change(
    sold: Column, days_in_month: Column, first_sold: Column, days_in_first_month: Column
) -> Column:
    """Plates a day in the month beside those in the first month counted, as a share of these.

    Not known where a single month is counted, or where none was sold in the first.
    """
    first = either(first_sold > 0, first_sold / days_in_first_month, float("nan"))
    return sold / days_in_month / first - 1


@formula(PLATE, unit="count", source=LABOUR_ADJUSTED)
def counted_with_labour(counted: Column, labour_cost: Column) -> Column:
    """Plates sold whose labour is known, else nothing."""
    return either(known(labour_cost), counted, 0.0)


@formula(PLATE, unit="money", source=LABOUR_ADJUSTED)
def month_margin_after_prime(counted_with_labour: Column, margin_after_prime: Column) -> Column:
    """Margin after prime cost of all plates sold in the month whose labour is known."""
    return or_else(counted_with_labour * margin_after_prime, 0.0)


SECTION.total(
    "sold_with_labour",
    PLATE,
    "counted_with_labour",
    "section",
    "Plates sold in the section whose labour is known",
)
SECTION.total(
    "section_margin_after_prime",
    PLATE,
    "month_margin_after_prime",
    "section",
    "Margin after prime cost of the section, where labour is known",
)


@formula(SECTION, unit="money", source=LABOUR_ADJUSTED)
def dividing_after_prime(section_margin_after_prime: Column, sold_with_labour: Column) -> Column:
    """Margin after prime cost that divides high from low: the section's over plates sold."""
    return section_margin_after_prime / sold_with_labour


PLATE.lookups("section", SECTION, "sold_with_labour", "dividing_after_prime")


@formula(PLATE, unit="flag", source=LABOUR_ADJUSTED)
def earns_after_labour(
    margin_after_prime: Column,
    dividing_after_prime: Column,
    labour_cost: Column,
    coins_in_unit: Column,
    sold: Column,
    sold_with_labour: Column,
) -> Column:
    """1 where the margin after prime cost is strictly above its dividing line, both to the coin.

    Not known without labour, nor where nothing else of the section whose labour is known was
    sold: the plate is its own dividing line.
    """
    margin = whole(margin_after_prime * coins_in_unit + 0.5)
    above = either(margin > whole(dividing_after_prime * coins_in_unit + 0.5), 1.0, 0.0)
    return either(known(labour_cost) & (sold_with_labour > sold), above, float("nan"))


SECTION.total(
    "plates", PLATE, "counted", "section", "Plates of the section, sold or not", fold=Fold.COUNT
)
SECTION.total("plates_both", PLATE, "sells_and_earns", "section", "Plates that sell and earn")
SECTION.total(
    "plates_selling", PLATE, "sells_earns_little", "section", "Plates that sell but earn little"
)
SECTION.total(
    "plates_earning", PLATE, "earns_sells_little", "section", "Plates that earn but sell little"
)
SECTION.total(
    "plates_neither", PLATE, "neither_sells_nor_earns", "section", "Plates that do neither"
)


@formula(PLATE, unit="count/week", source="seven days of the month's daily mean [our rule]")
def weekly_count(forecast: Column, sold: Column, days_in_month: Column) -> Column:
    """Plates a week: as forecast, else the month's count brought to seven days."""
    return or_else(forecast, sold / days_in_month * 7)


PORTION.lookup("weekly_count", "plate", PLATE)

ORDER.link("plate", PLATE)
ORDER.given("covers", "count", "Portions to serve")
ORDER.lookups(
    "plate",
    PLATE,
    "portion",
    "overall_yield",
    "portions_per_piece",
    "ap_weight",
    "pieces",
)
FURTHER_ORDER.link("portion", PORTION)
FURTHER_ORDER.borrow(ORDER, "covers")
FURTHER_ORDER.lookups(
    "portion", PORTION, "portion", "overall_yield", "portions_per_piece", "ap_weight", "pieces"
)


@formula(ORDER, FURTHER_ORDER, unit="kg", source=YIELD_TEST)
def quantity_to_buy(covers: Column, portion: Column, overall_yield: Column) -> Column:
    """AP weight for a number of portions: portions x portion size / yield."""
    return covers * portion / overall_yield


@formula(ORDER, FURTHER_ORDER, unit="portions", source=YIELD_TEST)
def portions_from(ap_weight: Column, overall_yield: Column, portion: Column) -> Column:
    """Portions from an AP weight: weight x yield / portion size; here from one batch."""
    return ap_weight * overall_yield / portion


@formula(ORDER, FURTHER_ORDER, unit="kg down", source=YIELD_TEST)
def portion_size_from(ap_weight: Column, overall_yield: Column, covers: Column) -> Column:
    """Portion size that an AP weight allows: weight x yield / portions; here one batch for all."""
    return ap_weight * overall_yield / covers


@formula(
    ORDER,
    FURTHER_ORDER,
    unit="count",
    source=COME_WHOLE,
)
def pieces_to_cook(covers: Column, portions_per_piece: Column) -> Column:
    """Whole pieces that give the number of portions."""
    return whole_up(covers / portions_per_piece)


@formula(
    ORDER,
    FURTHER_ORDER,
    unit="kg",
    source=COME_WHOLE,
)
def quantity_to_buy_whole(pieces_to_cook: Column, ap_weight: Column, pieces: Column) -> Column:
    """AP weight of the whole pieces that give the number of portions."""
    return pieces_to_cook * ap_weight / pieces
