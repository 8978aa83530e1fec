"""Who a site is printed for, and which groups of figures that reader may see."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from builder.engine.model import Model, Node
from builder.engine.tables import Entered, FigureDef
from builder.engine.units import FIGURE_UNITS
from builder.problems import Problem
from builder.records.editions import GROUPS, KINDS, PARTS, Group
from builder.records.kinds import RECORDS
from builder.tasting.findings import FINDING

# Groups of money: all of them together are what a doubt about a cost may tell of.
MONEY: frozenset[Group] = frozenset(("prices", "menu prices", "food cost", "labour", "margins"))
_MONEY_UNITS = frozenset(
    (
        "portion factor",
        "portion factor near",
        "share near",
        "share down near",
        "times in 10",
        *(unit for unit in FIGURE_UNITS if unit.startswith("money")),
    )
)
_UNITS: dict[Group, tuple[str, ...]] = {
    "work": ("h/unit",),
    "sales": ("count/week", "share change"),
    "weights": (
        "kg",
        "kg down",
        "kg2",
        "L",
        "unit",
        "share",
        "share stated",
        "share down",
        "factor",
        "factor near",
        "count",
        "count down",
        "plates",
        "portions",
        "whole portions",
        "flag",
        "week",
        "week near",
    ),
    "cooking": ("°C", "mm", "mm down", "h", "h up", "h down", "h near", "kWh", "kW"),
    "tasting answers": ("chance", "points", "tested"),
    "prices": tuple(_MONEY_UNITS),
}
_GROUP_OF_UNIT = {unit: group for group, units in _UNITS.items() for unit in units}
if without := set(FIGURE_UNITS) - set(_GROUP_OF_UNIT):
    raise ValueError(f"no group of figures has the units {', '.join(sorted(without))}")
# Inputs whose unit does not give their group away.
_GROUP_OF_INPUT: dict[Node, Group] = {
    ("kitchen", "tax_rate"): "menu prices", ("kitchen", "tax_included"): "menu prices",
    ("kitchen", "coins_in_unit"): "menu prices", ("plate", "menu_price"): "menu prices",
    ("kitchen", "food_cost_target"): "margins", ("kitchen", "margin_target"): "margins",
    ("swap", "invested"): "margins", ("swap", "decided_margin_change"): "margins",
    ("swap", "decided_food_saving"): "food cost", ("kitchen", "loaded_wage"): "labour",
    ("batch", "thickness_spread"): "cooking", ("batch", "shape_factor"): "cooking",
    ("equipment", "cleaning"): "work", ("batch", "hands_on"): "work",
    ("pantry", "recipe_hands_on"): "work", ("plate", "plating"): "work",
    ("order", "covers"): "work", ("serving", "own_covers"): "work",
    ("menu_serving", "menu_guests"): "work",
    ("further_order", "covers"): "work",
    ("kitchen", "kitchen_garnish_share"): "prices", ("plate", "plate_garnish_share"): "prices",
    ("set_menu", "guest_price"): "menu prices", ("choice", "supplement"): "menu prices",
    ("buffet", "guest_price"): "menu prices", ("buffet", "price_per_kg"): "menu prices",
    ("choice", "stated_share"): "work", ("buffet", "sold_a_week"): "sales",
    ("kitchen", "weeks_open"): "sales", ("plate", "sold"): "sales",
    ("plate", "first_sold"): "sales", ("plate", "days_in_first_month"): "sales",
    ("plate", "days_in_month"): "sales", ("sale", "sold_alone"): "sales",
    ("menu_sale", "guests_served"): "sales",
    ("taking", "till_count"): "sales", ("taking", "till_priced"): "sales",
    ("taking", "till_taken"): "sales",
    ("swap", "sold_since"): "sales", ("swap", "weeks_since"): "sales",
}  # fmt: skip
# Groups that go with an input's own: the builder works it out from others, or it tells of two.
_ALSO_NEEDS: dict[Node, tuple[Group, ...]] = {
    **dict.fromkeys(
        (("batch", f"modelled_energy{end}") for end in ("", "_low", "_high")), ("weights",)
    ),
    ("job", "hours"): ("work", "weights"),
    ("taking", "till_taken"): ("menu prices",),
}
# Of what a figure that is not shown needs, the first of these is kept back, where all else of
# it is shown: who has both could work it out.
_KEPT_BACK_FIRST: tuple[Group, ...] = (
    "personal codes", "suppliers", "tasting answers", "sales", "labour", "prices", "menu prices",
    "margins", "food cost", "work", "cooking", "weights",
)  # fmt: skip


def group_of(definition: FigureDef) -> Group:
    """The group of a figure that is entered with its rows."""
    if definition.table == FINDING.name:
        return "tasting answers"
    node = (definition.table, definition.name)
    return _GROUP_OF_INPUT.get(node) or _GROUP_OF_UNIT[definition.unit]


def own_group(model: Model, node: Node) -> Group | None:
    """The group that a figure needs beside those of what it is made from; None of most.

    One of money is a food cost, with the wage in it labour, and with a menu price a margin, unless
    all that it is made from is of one group; what counts times menu prices come to are sales.
    """
    definition = model.definition(node)
    above = [model.definition(each) for each in model.upstream([node])]
    if isinstance(definition.how, Entered) and not above:
        return group_of(definition)
    if definition.unit not in _MONEY_UNITS and not any(e.unit in _MONEY_UNITS for e in above):
        return "tasting answers" if definition.table == FINDING.name else None
    found = {group_of(each) for each in above if isinstance(each.how, Entered)}
    if len(found) == 1:
        return next(iter(found))
    if found == {"menu prices", "sales"}:
        return "sales"
    order: tuple[Group, ...] = ("margins", "menu prices", "labour")
    first = next((group for group in order if group in found), None)
    return "margins" if first == "menu prices" else first or "food cost"


@dataclass(frozen=True, slots=True)
class Kept:
    """Why a figure is not shown: a group that is not granted, or another figure."""

    group: Group | None = None
    figure: Node | None = None
    made_from: bool = True


@lru_cache(maxsize=64)
def kept_back(model: Model, groups: frozenset[Group]) -> Mapping[Node, Kept]:
    """The figures that a reader of some groups may not see, each with the reason.

    What is made from one that is kept back is kept back as well. Where all that one is made from
    would be shown, so that it could be worked out, one of those is kept back, too. So what is
    shown rests on nothing that is not: whatever has the values withheld, it is the same.
    """
    if groups >= frozenset(GROUPS):
        return MappingProxyType({})
    hidden: dict[Node, Kept] = {}
    for node in model.needs:
        for group in (own_group(model, node), *_ALSO_NEEDS.get(node, ())):
            if group is not None and group not in groups:
                hidden[node] = Kept(group=group)
    grown = -1
    while grown != len(hidden):
        grown = len(hidden)
        hidden.update(_made_from(model, hidden))
        hidden.update(_gives_away(model, hidden))
    return MappingProxyType(hidden)


def settled(model: Model, groups: frozenset[Group]) -> frozenset[Group]:
    """The groups without those of which an input is kept back because it would give others away.

    What files and pages hold of a group beside its figures goes with these.
    """
    given_away = {
        group_of(model.definition(node))
        for node, kept in kept_back(model, groups).items()
        if not kept.made_from and isinstance(model.definition(node).how, Entered)
    }
    return settled(model, groups - given_away) if groups & given_away else groups


def _made_from(model: Model, hidden: Mapping[Node, Kept]) -> dict[Node, Kept]:
    found: dict[Node, Kept] = {}
    for stage in model.stages:
        for node in stage.nodes:
            for need in () if node in hidden else model.needs[node]:
                if need in hidden or need in found:
                    found[node] = Kept(figure=need)
                    break
    return found


def _gives_away(model: Model, hidden: Mapping[Node, Kept]) -> dict[Node, Kept]:
    found: dict[Node, Kept] = {}
    for node in hidden:
        needs = [need for need in model.needs[node] if need != node]
        if needs and not any(need in hidden or need in found for need in needs):
            found[min(needs, key=lambda need: _rank(model, need))] = Kept(
                figure=node, made_from=False
            )
    return found


def _rank(model: Model, node: Node) -> int:
    """How early a figure is kept back: by the first of the groups that it rests on."""
    above = (model.definition(each) for each in (node, *model.upstream([node])))
    groups = {group_of(each) for each in above if isinstance(each.how, Entered)}
    return min((_KEPT_BACK_FIRST.index(group) for group in groups), default=99)


# Kinds of record that the rows of each table belong to, and parts, all of which have to be granted.
_TABLES: Mapping[str, tuple[str, ...]] = {
    "kitchen": (), "equipment": (), "scale": ("plates", "steps"), "scaled": ("plates", "steps"),
    "candidate": KINDS,
    **{table: (record.folder,) for record in RECORDS for table in record.kind.tables},
}  # fmt: skip


# Inputs that are made from records of another kind than their row is of.
_MADE_FROM_KINDS: Mapping[Node, str] = dict.fromkeys(
    (("swap", "sold_since"), ("swap", "weeks_since")), "counts"
)


def _has_rows(table: str, granted: frozenset[str]) -> bool:
    return granted.issuperset(_TABLES[table])


def _is_of_records(node: Node, granted: frozenset[str]) -> bool:
    """Whether a figure is of records that are granted, and made from no others."""
    return _has_rows(node[0], granted) and _MADE_FROM_KINDS.get(node, "") in {"", *granted}


@lru_cache(maxsize=64)
def _hidden(model: Model, groups: frozenset[Group], granted: frozenset[str]) -> frozenset[Node]:
    """What is kept back, the figures of records that are not granted, and what is made of these."""
    of_others = {node: Kept() for node in model.needs if not _is_of_records(node, granted)}
    hidden = {**of_others, **kept_back(model, groups)}
    return frozenset({**hidden, **_made_from(model, hidden)})


@dataclass(frozen=True, slots=True)
class Reader:
    """Somebody with a name: the groups of figures, kinds of record and parts that are granted."""

    name: str
    groups: frozenset[Group]
    kinds: frozenset[str] = frozenset(KINDS)
    parts: frozenset[str] = frozenset(PARTS)

    @property
    def is_owner(self) -> bool:
        """Whether everything is granted."""
        return (
            self.groups >= frozenset(GROUPS)
            and self.kinds >= frozenset(KINDS)
            and self.parts >= frozenset(PARTS)
        )

    @property
    def sees_figures(self) -> bool:
        """Whether every group of figures is granted."""
        return self.groups >= frozenset(GROUPS)

    @property
    def sees_records(self) -> bool:
        """Whether every figure of every kind of record is granted, and what is in them."""
        return self.sees_figures and self.kinds >= frozenset(KINDS) and "allergens" in self.parts

    def hidden(self, model: Model) -> frozenset[Node]:
        """The figures that may not be seen, for what they are or for the records they are of."""
        return _hidden(model, self.groups, self.kinds | self.parts)

    def has_rows(self, table: str) -> bool:
        """Whether the records, and the part of them, are granted that a table's rows are of."""
        return _has_rows(table, self.kinds | self.parts)

    def sees_all(self, groups: Collection[Group]) -> bool:
        """Whether every one of the groups may be seen."""
        return self.groups.issuperset(groups)

    def sees(self, model: Model, node: Node) -> bool:
        """Whether a figure may be seen: it, and every input that it is computed from."""
        return node not in self.hidden(model)


OWNER = Reader("owner", frozenset(GROUPS))


def reads_files(reader: Reader) -> bool:
    """Whether a reader is shown the lines of files: any key and name may be in one."""
    parts = ("raw files", "notes", "steps", "allergens")
    return reader.sees_records and reader.parts.issuperset(parts)


def reads_till(reader: Reader) -> bool:
    """Whether a reader is shown what the till counted and took."""
    return "plates" in reader.kinds and reader.sees_all(("sales", "menu prices"))


def reads_warnings(reader: Reader) -> bool:
    """Whether a reader is shown every warning of the build."""
    return reader.sees_records and reader.parts.issuperset(("warnings", "notes", "steps"))


def reads_warning(reader: Reader, problem: Problem) -> bool:
    """Whether a reader is shown a warning: all that its sentence rests on may be seen.

    One of which nobody has said what it rests on may name any figure, record and step.
    """
    if reads_warnings(reader):
        return True
    granted = reader.kinds | reader.groups | reader.parts
    return (
        "warnings" in reader.parts and problem.needs is not None
        and granted.issuperset(problem.needs)
    )  # fmt: skip
