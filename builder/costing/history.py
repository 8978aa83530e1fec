"""What is kept of a build, so that the next one can say what changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Literal

from builder.engine.model import Node

Number = float | None
"""A figure's value; None where it was not known."""


class Cause(StrEnum):
    """Groups of inputs that a cost moves by, in the order in which they are replaced."""

    RECIPE = "recipe"
    PRICE = "price"
    YIELD = "yield"
    PORTION = "portion"
    WAGE = "wage"
    WORK = "work"
    ENERGY = "energy"
    MENU_PRICE = "menu price"


@dataclass(frozen=True, slots=True)
class KeptRows:
    """Who the rows of a table are, and columns of values beside them."""

    rows: tuple[str, ...]
    columns: Mapping[str, tuple[Number, ...]]


@dataclass(frozen=True, slots=True)
class Snapshot:
    """A kitchen as it was computed once.

    `records` are titles and hashes of files by path, `inputs` the values that plates' costs are
    computed from by table, `plates` their results by path.
    """

    tool: str
    day: date
    kitchen: str
    records: Mapping[str, tuple[str, str]]
    inputs: Mapping[str, KeptRows]
    plates: Mapping[str, Mapping[str, Number]]


@dataclass(frozen=True, slots=True)
class Earlier:
    """A kitchen to compare with: at the build before, or at a `revision`.

    `renamed` are earlier paths by today's, where something beside the files' content says so.
    """

    snapshot: Snapshot
    revision: str = ""
    renamed: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Move:
    """A figure of a plate that moved; `stations` is what it comes to after each replacement.

    No stations where it was not known before or is not known now.
    """

    plate: str
    title: str
    figure: str
    before: Number
    after: Number
    stations: tuple[tuple[Cause, float], ...] = ()


class ClassCause(StrEnum):
    """What moved a plate to another class."""

    OWN_MARGIN = "own margin"
    LINE = "others' margin"
    OWN_SALES = "own sales"
    OTHERS_SALES = "others' sales"


Flags = tuple[bool, bool] | None
"""Whether a plate is popular, and earns above the line; None without a class."""


@dataclass(frozen=True, slots=True)
class ClassMove:
    """A plate that is in another class; no causes where it had no class, or has none now."""

    plate: str
    title: str
    before: Flags
    after: Flags
    causes: tuple[ClassCause, ...] = ()


@dataclass(frozen=True, slots=True)
class RecordMove:
    """A record that came, went, or has another name; `before` is its earlier title."""

    what: Literal["added", "removed", "renamed"]
    path: str
    title: str
    before: str = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """What changed from one build to another; `left_out` plates are counted only.

    `id` names it for good, a UUID made from the rest and from the entry before. `revision` is
    what was compared with, where that was no build."""

    since: date
    day: date
    moves: tuple[Move, ...] = ()
    classes: tuple[ClassMove, ...] = ()
    records: tuple[RecordMove, ...] = ()
    left_out: int = 0
    other_tool: bool = False
    id: str = ""
    revision: str = ""

    @property
    def says_something(self) -> bool:
        """Whether anything changed."""
        return bool(self.moves or self.classes or self.records)


@dataclass(frozen=True, slots=True)
class History:
    """The latest build and what changed in those before, the newest first; `format` is the file's.

    Without a `now` nothing is kept of a build.
    """

    now: Snapshot | None = None
    entries: tuple[Entry, ...] = field(default=())
    format: Literal[1] = 1


TARGETS = ("food_cost", "full_cost", "contribution_margin")
"""The figures of a plate whose moves are split."""

BESIDE = (
    "is_popular", "earns_above", "menu_mix", "sold", "section_sold", "dividing_margin",
    "dividing_mix",
)  # fmt: skip
"""The figures of a plate that say why its class moved."""

SHARE: Node = ("byproduct", "byproduct_share_of_in")

INSTEAD: Mapping[Node, Node] = {
    ("stage", "stage_yield"): ("stage", "assumed_yield"),
    ("byproduct", "byproduct_worth"): ("byproduct", "stated_worth"),
    SHARE: ("byproduct", "stated_share"),
}
"""Figures kept in place of the weighings behind them, and the input that sets each."""

_INPUTS: Mapping[Cause, tuple[str, ...]] = {
    Cause.RECIPE: (
        "accompaniment.quantity", "cover_item.quantity", "ingredient.quantity",
        "ingredient.quantity_mass", "kitchen.kitchen_garnish", "kitchen.kitchen_garnish_share",
        "kitchen.seasoning_share", "kitchen.stated_cover_cost", "plate.bears_cover",
        "plate.plate_cover", "plate.plate_garnish", "plate.plate_garnish_share",
        "plate.plate_seasoning",
    ),
    Cause.PRICE: (
        "cut.ap_price", "pantry.purchase_price", "batch.remainder_worth",
        "byproduct.byproduct_worth",
    ),
    Cause.YIELD: (
        "stage.stage_yield", "byproduct.byproduct_share_of_in", "batch.load",
        "batch.piece_weight", "pantry.recipe_yield", "pantry.stated_makes",
        "pantry.usable_yield", "step.before_cook",
    ),
    Cause.PORTION: (
        "plate.stated_portion", "plate.portion_pieces", "portion.stated_portion",
        "portion.portion_pieces", "kitchen.count_whole",
    ),
    Cause.WAGE: ("kitchen.loaded_wage",),
    Cause.WORK: ("batch.hands_on", "pantry.recipe_hands_on", "plate.plating"),
    Cause.ENERGY: (
        "batch.burns_gas", "batch.cook_hours", "batch.measured_energy", "batch.modelled_energy",
        "consumable.consumable_price", "equipment.purchase_price", "equipment.service_life",
        "equipment.standby_power", "equipment.stated_charge", "kitchen.electricity_price",
        "kitchen.gas_price", "pantry.burns_gas", "pantry.recipe_energy",
    ),
    Cause.MENU_PRICE: ("plate.menu_price", "kitchen.tax_rate", "kitchen.tax_included"),
}  # fmt: skip


def _nodes() -> Iterator[tuple[Node, Cause]]:
    for cause, names in _INPUTS.items():
        for name in names:
            table, _, figure = name.partition(".")
            yield (table, figure), cause


CAUSE_OF: Mapping[Node, Cause] = dict(_nodes())
"""Which group each kept value belongs to."""

# A row that was not there before, of a record that was: what it does nothing at.
ABSENT: Mapping[Node, float] = {
    ("stage", "stage_yield"): 1.0,
    SHARE: 0.0,
    ("consumable", "consumable_price"): 0.0,
}
