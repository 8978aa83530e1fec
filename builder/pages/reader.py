"""Who a site is printed for, and which groups of figures that reader may see."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal, get_args

from builder.engine.model import Model, Node
from builder.engine.tables import Entered, FigureDef
from builder.engine.units import FIGURE_UNITS
from builder.tasting.findings import FINDING

Group = Literal["money", "labour", "sales", "suppliers", "weights", "cooking", "tastings"]

_UNITS: dict[Group, tuple[str, ...]] = {
    "money": (
        "portion factor",
        "portion factor near",
        "share near",
        "times in 10",
        *(unit for unit in FIGURE_UNITS if unit.startswith("money")),
    ),
    "labour": ("h/unit",),
    "sales": ("count/week",),
    "weights": (
        "kg",
        "kg2",
        "L",
        "unit",
        "share",
        "factor",
        "factor near",
        "count",
        "flag",
        "week",
        "week near",
    ),
    "cooking": ("°C", "mm", "mm down", "h", "h up", "h down", "h near", "kWh", "kW"),
    "tastings": ("chance", "points", "tested"),
}
_GROUP_OF_UNIT = {unit: group for group, units in _UNITS.items() for unit in units}
if without := set(FIGURE_UNITS) - set(_GROUP_OF_UNIT):
    raise ValueError(f"no group of figures has the units {', '.join(sorted(without))}")
# Inputs whose unit does not give their group away.
_GROUP_OF_INPUT: dict[Node, Group] = {
    ("kitchen", "tax_rate"): "money", ("kitchen", "tax_included"): "money",
    ("kitchen", "food_cost_target"): "money", ("kitchen", "coins_in_unit"): "money",
    ("equipment", "cleaning"): "labour", ("batch", "hands_on"): "labour",
    ("pantry", "recipe_hands_on"): "labour", ("plate", "plating"): "labour",
    ("kitchen", "weeks_open"): "sales", ("plate", "sold"): "sales",
    ("plate", "days_in_month"): "sales", ("order", "covers"): "sales",
    ("serving", "covers"): "sales", ("sale", "plates_sold"): "sales",
    ("taking", "till_count"): "sales", ("taking", "till_priced"): "sales",
    ("swap", "sold_since"): "sales", ("swap", "weeks_since"): "sales",
}  # fmt: skip


def group_of(definition: FigureDef) -> Group:
    """The group of a figure that is entered with its rows."""
    if definition.table == FINDING.name:
        return "tastings"
    node = (definition.table, definition.name)
    return _GROUP_OF_INPUT.get(node) or _GROUP_OF_UNIT[definition.unit]


@dataclass(frozen=True, slots=True)
class Reader:
    """Somebody with a name who may see the figures of the groups listed, and no others."""

    name: str
    groups: frozenset[Group]

    def sees_all(self, groups: Collection[Group]) -> bool:
        """Whether every one of the groups may be seen."""
        return self.groups.issuperset(groups)

    def sees(self, model: Model, node: Node) -> bool:
        """Whether a figure may be seen: it, and every input that it is computed from.

        What is hidden can then not be worked out from what is shown.
        """
        if self.groups == OWNER.groups:
            return True
        made_from = (model.definition(each) for each in (node, *model.upstream([node])))
        return self.sees_all(
            {group_of(each) for each in made_from if isinstance(each.how, Entered)}
        )


OWNER = Reader("owner", frozenset(get_args(Group)))
