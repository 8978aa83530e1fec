"""What the inputs that may lie off are called beside the record that each belongs to."""

from __future__ import annotations

from collections.abc import Mapping

from builder.costing.candidates import COOK_YIELD, LISTED_PRICE, TRIM
from builder.costing.spreads import (
    AP_PRICE,
    COVER_AMOUNT,
    FURTHER_PORTION,
    LEFT,
    PANTRY_PRICE,
    PORTION,
    SOLD,
    YIELD,
)
from builder.engine.model import Node
from builder.language import Deferred, tr
from builder.pages.held import FORECAST

INPUT_NAMES: Mapping[Node, str] = {
    YIELD: Deferred("yield of {label}"),
    AP_PRICE: Deferred("AP price"),
    PANTRY_PRICE: "price",
    PORTION: "portion",
    FURTHER_PORTION: Deferred("portion of {label}"),
    ("plate", "plating"): Deferred("work to plate one"),
    SOLD: Deferred("plates sold"),
    FORECAST: Deferred("plates forecast"),
    ("batch", "hands_on"): Deferred("work on a batch"),
    ("batch", "modelled_energy"): Deferred("energy of a batch"),
    ("batch", "measured_energy"): Deferred("energy of a batch"),
    ("pantry", "recipe_hands_on"): Deferred("work on a batch"),
    ("kitchen", "loaded_wage"): Deferred("loaded wage"),
    ("kitchen", "electricity_price"): Deferred("electricity tariff"),
    ("kitchen", "gas_price"): Deferred("gas tariff"),
    ("kitchen", "kitchen_garnish_share"): Deferred("garnish"),
    ("kitchen", "kitchen_garnish"): Deferred("garnish"),
    ("kitchen", "stated_cover_cost"): Deferred("cover cost"),
    ("plate", "plate_garnish_share"): Deferred("garnish"),
    ("plate", "plate_garnish"): Deferred("garnish"),
    ("plate", "plate_cover"): Deferred("cover cost"),
    COVER_AMOUNT: Deferred("{label} of a cover"),
    LEFT: Deferred("what is left"),
    COOK_YIELD: Deferred("published cooking yield of {label}"),
    TRIM: Deferred("trim of {label}, as of other cuts"),
    LISTED_PRICE: Deferred("AP price of {label}"),
}


def words_of_input(node: Node, label: str) -> str:
    """What an input is called within a sentence; `label`: what it is of.

    One that has a capital in English for its initials alone begins small in another language.

    >>> words_of_input(LISTED_PRICE, "Shank")
    'AP price of Shank'
    """
    words = INPUT_NAMES[node]
    said = tr(words)
    return (said if said == words else said[:1].lower() + said[1:]).format(label=label)
