"""The units that a figure may have: each declared here once, with its words.

How a value in each is printed is in `pages/values.py`, which fails at import where a unit of
this list has no rule; a figure whose unit is not in it fails where the figure is declared.
"""

from __future__ import annotations

from collections.abc import Mapping

from builder.language import tr
from builder.problems import did_you_mean

FIGURE_UNITS: Mapping[str, str] = {
    "money": "money",
    # What many plates come to in a month: nobody reads its coins.
    "money whole": "money",
    # A price that is asked for: never written below what it has to be.
    "money up": "money",
    "money/kg": "money/kg",
    "money/h": "money/h",
    "money/kWh": "money/kWh",
    # What is earned in a span of time: to three figures, for nobody knows it closer.
    "money/week": "money/week",
    "money/h earned": "money/h",
    # A wage at which something ends: to three figures.
    "money/h limit": "money/h",
    "money/month": "money/month",
    "money/year": "money/year",
    "money/unit": "money per kg, L or each, as the item is priced",
    # Ends of an interval: written no finer than it is wide.
    "money near": "money",
    "money up near": "money",
    "money/week near": "money/week",
    "money/month near": "money/month",
    "money/year near": "money/year",
    "money/kg near": "money/kg",
    "money/h near": "money/h",
    "money/h earned near": "money/h",
    "money/h limit near": "money/h",
    "money/unit near": "money per kg, L or each, as the item is priced",
    "share near": "share of 1",
    "share down near": "share of 1",
    "factor near": "factor",
    "portion factor near": "kg (cost over price)",
    "week near": "weeks",
    "times in 10": "share of 1",
    "share": "share of 1",
    # A rate set by others, as a sales tax: with the digits that it is stated with.
    "share stated": "share of 1",
    # How far something went up or down: in words, and as steady up to 5 per cent.
    "share change": "share of 1",
    # The most that may be: written rounded down, as one tenth more is too much.
    "share down": "share of 1",
    "factor": "factor",
    "portion factor": "kg (cost over price)",
    "count": "number",
    # The most that a week could give: to three figures, written rounded down.
    "count down": "number",
    # Of which guests are expected to take a share: written whole.
    "plates": "number",
    # Of a weight that is known to a few parts in a thousand: to a tenth.
    "portions": "number",
    # Of what is counted whole: written rounded down, for a part of one is not served.
    "whole portions": "number",
    "count/week": "number a week",
    "week": "weeks",
    "°C": "°C",
    "mm": "mm",
    # Of a model that is good to a quarter: written rounded up, down, or to the nearest.
    "mm down": "mm",
    "h up": "h",
    "h down": "h",
    "h near": "h",
    "unit": "kg, L or each, as the item is priced",
    "h": "h",
    "h/unit": "h per kg, L or each, as the item is priced",
    "kg": "kg",
    # The most that a weight may be: written rounded down, as one gram more is not there.
    "kg down": "kg",
    "kg2": "kg²",
    "L": "L",
    "kWh": "kWh",
    "kW": "kW",
    "flag": "1 yes, 0 no",
    "chance": "share of 1",
    "points": "points of 100",
    "tested": "points of 100, ranks, share of 1, h or number, as is tested",
}
"""Each unit, and how a table or a method page writes it out."""


def check_unit(unit: str, figure: str) -> None:
    """Raise ValueError, naming the figure, for a unit that is not declared.

    >>> check_unit("money/hour", "plate.wage")
    Traceback (most recent call last):
    ValueError: plate.wage: no unit "money/hour"; did you mean "money/h"?
    """
    if unit not in FIGURE_UNITS:
        hint = did_you_mean(unit, FIGURE_UNITS) or f"units: {', '.join(FIGURE_UNITS)}"
        raise ValueError(f'{figure}: no unit "{unit}"; {hint}')


def unit_words(unit: str, currency: str = "money") -> str:
    """Write a figure's unit out.

    >>> unit_words("money/kg", "CAD"), unit_words("kg"), unit_words("flag")
    ('CAD/kg', 'kg', '1 yes, 0 no')
    """
    # The currency takes the place of the word in every language.
    words = tr(FIGURE_UNITS[unit])
    return words if currency == "money" else words.replace(tr("money"), currency)
