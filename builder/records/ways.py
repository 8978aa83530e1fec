"""Ways of cooking and kinds of equipment by the other names that kitchens give them."""

from __future__ import annotations

import re
from collections.abc import Mapping

from builder.reading.tree import Text
from builder.records.kinds import Cook, Equipment
from builder.records.kitchen import Kitchen
from builder.records.tree_paths import tidy_key

BATH = "water bath"
# Words of a name by which it is a bath of warm water, and those by which it is something else.
_BATH_WORDS = re.compile(
    r"\b(?:water|thermo)?(?:bath|circulator)s?\b|\bsous ?vide\b|\bbain ?marie\b|\bwater tank\b"
)
_NO_BATH = re.compile(r"oven|steam|\b(?:ice|oil|salt|sand|butter|fat|cold|cooling|chilling)\b")
_WAYS = {
    "steamed": "steam", "steaming": "steam", "poached": "poach", "poaching": "poach",
    "simmered": "simmer", "simmering": "simmer",
}  # fmt: skip


def is_bath(name: str) -> bool:
    """Whether a kind of equipment or a way of cooking is a bath of warm water by its name.

    >>> [is_bath(name) for name in ("Immersion bath", "sous-vide bag", "ice bath", "blender")]
    [True, True, False, False]
    """
    return bool(_BATH_WORDS.search(tidy_key(name))) and not _NO_BATH.search(tidy_key(name))


def with_usual_kinds(kitchen: Kitchen) -> Kitchen:
    """The kitchen with every water bath called one, whatever its file calls it."""
    gear = {
        name: each.model_copy(update={"kind": _named(each.kind, BATH)})
        if is_bath(each.kind)
        else each
        for name, each in kitchen.equipment.items()
    }
    return kitchen.model_copy(update={"equipment": gear})


def with_usual_ways(cooks: Mapping[str, Cook]) -> dict[str, Cook]:
    """The cooks with each way of cooking under the name that the model knows it by."""
    return {
        name: cook.model_copy(update={"how": way}) if (way := _way(cook)) != cook.how else cook
        for name, cook in cooks.items()
    }


def gear_of(cook: Cook, kitchen: Kitchen) -> Equipment | None:
    """The equipment of a cook, where one is named and there."""
    return kitchen.equipment.get(cook.equipment) if cook.equipment else None


def _way(cook: Cook) -> Text:
    if is_bath(cook.how):
        return _named(cook.how, BATH)
    known = _WAYS.get(tidy_key(cook.how))
    return _named(cook.how, known) if known else cook.how


def _named(text: Text, name: str) -> Text:
    return Text(name, text.file, text.line, text.column)
