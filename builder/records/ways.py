"""Ways of cooking and kinds of equipment by the other names that kitchens give them."""

from __future__ import annotations

from collections.abc import Mapping

from builder.reading.tree import Text
from builder.records.kinds import Cook, Equipment, Kitchen

BATH = "water bath"
_BATHS = {
    "water bath", "waterbath", "bath", "hot water bath", "circulating bath", "circulator",
    "immersion circulator", "sous vide bath", "sous vide",
}  # fmt: skip
_BATH_WAYS = _BATHS | {"in the bath", "bag in bath", "sous vide in the bath", "sous vide bag"}
_WAYS = {
    "steamed": "steam", "steaming": "steam", "poached": "poach", "poaching": "poach",
    "simmered": "simmer", "simmering": "simmer",
}  # fmt: skip


def plain(text: str) -> str:
    """A word without its capitals, hyphens and spaces beyond one.

    >>> plain("Sous-Vide  bath")
    'sous vide bath'
    """
    return " ".join(text.lower().replace("-", " ").replace("_", " ").split())


def with_usual_kinds(kitchen: Kitchen) -> Kitchen:
    """The kitchen with every water bath called one, whatever its file calls it."""
    gear = {
        name: each.model_copy(update={"kind": _named(each.kind, BATH)})
        if plain(each.kind) in _BATHS
        else each
        for name, each in kitchen.equipment.items()
    }
    return kitchen.model_copy(update={"equipment": gear})


def with_usual_ways(cooks: Mapping[str, Cook], kitchen: Kitchen) -> dict[str, Cook]:
    """The cooks with each way of cooking under the name that the model knows it by."""
    return {
        name: cook.model_copy(update={"how": way})
        if (way := _way(cook, gear_of(cook, kitchen))) != cook.how
        else cook
        for name, cook in cooks.items()
    }


def gear_of(cook: Cook, kitchen: Kitchen) -> Equipment | None:
    """The equipment of a cook, where one is named and there."""
    return kitchen.equipment.get(cook.equipment) if cook.equipment else None


def _way(cook: Cook, gear: Equipment | None) -> Text:
    word = plain(cook.how)
    if word == BATH or (word in _BATH_WAYS and (gear is None or gear.kind == BATH)):
        return _named(cook.how, BATH)
    known = _WAYS.get(word)
    return _named(cook.how, known) if known else cook.how


def _named(text: Text, name: str) -> Text:
    return Text(name, text.file, text.line, text.column)
