"""A small kitchen with a cover cost, a set menu and a combo; every figure can be had by hand."""

from __future__ import annotations

from collections.abc import Mapping

KITCHEN = """\
name: Invented kitchen
currency: CAD
tax: 10 %
loaded wage: 20.00/h
energy: 0.20/kWh
targets: {food cost: 30 %, margin: 15.00}
seasoning: 10 %
cover cost: {of: {bread: 100 g, butter: 20 g}, on: [mains]}
"""
SUNDAY = """\
name: Sunday
price: 33.00
guests: 50
courses:
  starter: {soup: 60 %, salad: [20 %, 5.50]}
  main: {stew: 50 %, pie: equal, roast: equal}
"""
BASE: Mapping[str, str] = {
    "kitchen.yaml": KITCHEN,
    # 100 g of bread: 0.40 of flour, 3 min of work, 0.5 kWh; 20 g of butter: 0.20.
    "pantry/bread.yaml": (
        "of: {flour: 2 kg}\nmakes: 2 kg\nhands-on: 1 h\nenergy: 10 kWh\nmay contain: [sesame]\n"
    ),
    "pantry/flour.yaml": "price: 4.00/kg\nallergens: [wheat]\n",
    "pantry/butter.yaml": "price: 10.00/kg\nallergens: [milk]\n",
    "pantry/leek.yaml": "price: 2.00/each\nallergens: none\n",
    "pantry/egg.yaml": "price: 1.00/each\nallergens: [eggs]\n",
    "pantry/beef.yaml": "price: 5.00/each\nallergens: none\n",
    "plates/soup.yaml": "menu: starters\nwith: {leek: 1 each}\nprice: 11.00\nhands-on: 3 min\n",
    "plates/salad.yaml": "menu: starters\nwith: {egg: 3 each}\nprice: 13.20\n",
    "plates/stew.yaml": "menu: mains\nwith: {beef: 1 each}\nprice: 22.00\nhands-on: 6 min\n",
    "plates/pie.yaml": (
        "menu: mains\nwith: {beef: 1 each, egg: 1 each}\nprice: 24.20\nseasoning: 0 %\n"
        "garnish: 20 %\n"
    ),
    "plates/roast.yaml": (
        "menu: mains\nwith: {beef: 2 each}\nprice: 33.00\ngarnish: 2.00\ncover cost: none\n"
    ),
    "menus/sunday.yaml": SUNDAY,
    "menus/lunch.yaml": "price: 22.00\nplates: [soup, salad]\n",
}
