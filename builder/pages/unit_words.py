"""The unit of a figure in words, with the kitchen's currency for money."""

from __future__ import annotations

from collections.abc import Mapping

_WORDS: Mapping[str, str] = {
    "share": "share of 1",
    "factor": "factor",
    "portion factor": "kg (cost over price)",
    "flag": "1 yes, 0 no",
    "kg2": "kg²",
    "unit": "kg, L or each, as the item is priced",
    "money/unit": "money per kg, L or each, as the item is priced",
    "h/unit": "h per kg, L or each, as the item is priced",
    "count": "number",
    "count/week": "number a week",
    "week": "weeks",
}


def unit_words(unit: str, currency: str = "money") -> str:
    """Write a figure's unit out.

    >>> unit_words("money/kg", "CAD"), unit_words("kg"), unit_words("flag")
    ('CAD/kg', 'kg', '1 yes, 0 no')
    """
    return _WORDS.get(unit, unit).replace("money", currency)
