"""A small kitchen that buys by the case, the crate, the piece and in steps; all by hand."""

from __future__ import annotations

from collections.abc import Mapping

BASE: Mapping[str, str] = {
    "kitchen.yaml": (
        "name: Invented kitchen\ncurrency: CAD\nloaded wage: 20.00/h\nenergy: 0.20/kWh\n"
        "time zone: America/Toronto\n"
        "cover cost: {of: {bread: 100 g}, on: [mains]}\n"
    ),
    # Half of it is served: a quarter is trimmed off, a third of the rest lost in the cook.
    "cuts/shoulder.yaml": (
        "species: lamb\nprice: 12.00/kg\nsold as: piece of about 2 kg\ntrim: {loss: 25 %}\n"
        "allergens: none\n"
    ),
    "cuts/oyster.yaml": (
        "species: other\nprice: 48.00/case of 24\neach: 100 g\nallergens: [molluscs]\n"
    ),
    "cooks/shoulder-roast.yaml": (
        "cut: shoulder\nhow: oven\nat: 140 °C\nfor: 4 h\nload: 6 kg\nhands-on: 1 h\nenergy: 5 kWh\n"
        "yield: 66.66666666666667 %\n"
    ),
    "pantry/cream.yaml": (
        "price: 30.00/crate\nsold as: {pack: crate of 6 x 1 L, deposit: 4.50}\n"
        "store: {at: 4 °C, for: 3 d}\nallergens: [milk]\n"
    ),
    "pantry/flour.yaml": (
        "price: 1.00/kg\nsold as: {steps: 5 kg, minimum: 20 kg}\nallergens: [wheat]\n"
    ),
    "pantry/carrot.yaml": "price: 2.00/kg\nyield: 80 %\nsold as: minimum 3 kg\nallergens: none\n",
    "pantry/bread.yaml": (
        "of: {flour: 1 kg, cream: 200 ml}\nmakes: 1 kg\nhands-on: 10 min\nenergy: 1 kWh\n"
    ),
    "plates/roast.yaml": (
        "menu: mains\ncook: shoulder-roast\nportion: 200 g\nwith: {cream: 50 ml, carrot: 120 g}\n"
        "price: 40.00\n"
    ),
    "plates/pie.yaml": (
        "menu: mains\ncook: shoulder-roast\nportion: 100 g\nwith: {cream: 100 ml, flour: 80 g}\n"
        "price: 28.00\n"
    ),
    "plates/oysters.yaml": "menu: starters\ncut: oyster\nportion: 6 pieces\nprice: 24.00\n",
    "services/friday.yaml": ("day: friday\nat: 18:00\nplates: {roast: 24, pie: 16, oysters: 10}\n"),
}
