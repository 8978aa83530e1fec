"""Guests of set menus in a count: the plates that they took, what they paid, and one cover each."""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column
from builder.engine.tables import Table, formula
from builder.money.counted import COUNT, SALE, STOCK, VARIANCE
from builder.money.plates import PLATE
from builder.money.set_menus import CHOICE, FIXED_PRICE, SET_MENU

EXPECTED: Final = (
    "our rule: who took what is not counted, so it is as the menu's shares expect; the plates sold "
    "on their own are counted apart"
)

MENU_SALE = Table("menu_sale", "The guests of a set menu in a count")
GUEST_SALE = Table("guest_sale", "What the guests of a set menu in a count took of a plate")
MENU_SALE.link("count", COUNT)
MENU_SALE.link("menu", SET_MENU)
GUEST_SALE.link("menu_sale", MENU_SALE)
GUEST_SALE.link("sale", SALE)
GUEST_SALE.link("choice", CHOICE)
MENU_SALE.given("guests_served", "count", "Guests in the period")
MENU_SALE.lookups("menu", SET_MENU, "price_ex_tax", "cover_cost")
GUEST_SALE.lookup("guests_served", "menu_sale", MENU_SALE)
GUEST_SALE.lookup("share", "choice", CHOICE)


@formula(MENU_SALE, unit="money", source=STOCK)
def guest_sales(guests_served: Column, price_ex_tax: Column) -> Column:
    """What the guests paid without tax, supplements as the menu's shares expect."""
    return guests_served * price_ex_tax


@formula(MENU_SALE, unit="money", source=FIXED_PRICE)
def guest_covers(guests_served: Column, cover_cost: Column) -> Column:
    """Food of the covers of the guests, one each."""
    return guests_served * cover_cost


@formula(GUEST_SALE, unit="plates", source=EXPECTED)
def taken_by_guests(guests_served: Column, share: Column) -> Column:
    """Plates that the guests are expected to have taken."""
    return guests_served * share


SALE.total("taken_by_guests", GUEST_SALE, "taken_by_guests", "sale", "Plates that guests took")
SALE.lookup("food_without_cover", "plate", PLATE)


@formula(SALE, unit="plates", source=EXPECTED)
def plates_sold(sold_alone: Column, taken_by_guests: Column) -> Column:
    """Plates of the period: those sold on their own, and those that guests of set menus took."""
    return sold_alone + taken_by_guests


@formula(SALE, unit="money", source=VARIANCE)
def theoretical_food(
    sold_alone: Column, food_cost: Column, taken_by_guests: Column, food_without_cover: Column
) -> Column:
    """What the food of the plates costs as the menu costs it; guests' covers are apart."""
    return sold_alone * food_cost + taken_by_guests * food_without_cover
