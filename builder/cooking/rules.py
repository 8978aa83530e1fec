"""Published rules as data: what a rule set of one authority and edition says."""

from __future__ import annotations

from dataclasses import dataclass

from builder.cooking.foods import Food, Scope
from builder.language import tr, written
from builder.quantities.prints import ROUNDING_C

# Relative humidity [1] from which an oven counts as a sealed bag does.
HUMID = 0.9


@dataclass(frozen=True, slots=True)
class Clause:
    """Where a rule is published: its clause, its title, and how its values came here."""

    clause: str
    title: str
    status: str


@dataclass(frozen=True, slots=True)
class HoldRow:
    """Hold the core at `at_c` [°C] or above for `hold_s` [s]; 0 s means on reaching it.

    `at_c` is the highest of the printed temperatures, which differ by their rounding. Either
    print meets the row, so a core or a bath is compared with the lowest, `least_c`.
    """

    at_c: float
    hold_s: float
    printed: tuple[str, ...]
    printed_hold: str
    least_c: float

    @property
    def hold_min(self) -> float:
        """The hold in minutes."""
        return self.hold_s / 60

    @property
    def printed_core(self) -> str:
        """The core as the rule set prints it, in one unit or in both."""
        return " / ".join(map(written, self.printed))

    def __str__(self) -> str:
        return tr(
            "{printed} for {printed_hold}",
            printed=self.printed_core,
            printed_hold=self.printed_hold,
        )


@dataclass(frozen=True, slots=True)
class HoldTable(Clause):
    """Core temperatures, ascending, each with its hold; each row holds on its own.

    `moist` asks for a sealed bag or at least the humidity `HUMID`; `asks` is what else the
    clause wants, in words, for the kitchen to see to. `lower_needs` names what lets a
    kitchen cook these foods below the first row: a clause that has it is the least that
    its authority allows, so that a colder cook does not meet it. Without it a colder cook
    is covered by no row. `taken_as` says what a food is taken for where the code parts what a
    file can't, in a sentence of its own.
    """

    scope: Scope
    moist: bool
    asks: tuple[str, ...]
    rows: tuple[HoldRow, ...]
    lower_needs: str = ""
    taken_as: str = ""


@dataclass(frozen=True, slots=True)
class SurfaceRule(Clause):
    """An intact piece may do with a hot surface [°C], in a cook of at most so long [min].

    Where `surface_c` is None the clause asks a cooked surface and names no temperature.
    """

    scope: Scope
    surface_c: float | None
    cook_max_min: float
    asks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ComeUp(Clause):
    """The core passes from one temperature to another [°C] within a time [min].

    Where it is not `binding` the clause belongs to another text and only warns.
    """

    from_c: float
    to_c: float
    within_min: float
    binding: bool


@dataclass(frozen=True, slots=True)
class CoolingStage:
    """The core falls from one temperature to another [°C] within a time [min]."""

    from_c: float
    to_c: float
    within_min: float


@dataclass(frozen=True, slots=True)
class Cooling(Clause):
    """The stages of cooling, each on its own clock."""

    stages: tuple[CoolingStage, ...]

    @property
    def temperatures_c(self) -> tuple[float, ...]:
        """Every temperature at which a stage begins or ends [°C]."""
        return tuple({t: None for stage in self.stages for t in (stage.from_c, stage.to_c)})


@dataclass(frozen=True, slots=True)
class HotHolding(Clause):
    """Hot food of this scope is held at `at_c` [°C] or above.

    `least_c` [°C] is the lowest of its prints, which differ by their rounding: either meets it.
    `printed` is the limit in the clause's own words.
    """

    scope: Scope
    at_c: float
    least_c: float
    printed: str


@dataclass(frozen=True, slots=True)
class AsCooked(Clause):
    """What was cooked by the hold table of one clause may be reheated by its rows too."""

    table: str


@dataclass(frozen=True, slots=True)
class Reheating(Clause):
    """Reheat to `at_c` [°C] for `hold_s` [s] within a time [min], where one is named.

    That is for hot holding; what is served `to_order` may have a clause of its own.
    """

    at_c: float
    hold_s: float
    within_min: float | None
    as_cooked: AsCooked | None = None
    to_order: Clause | None = None


@dataclass(frozen=True, slots=True)
class StorageLimit:
    """Keep at `at_c` [°C] or below for at most `days` [d]; `most_c` is its highest print.

    `cooled_c` [°C] and `cooled_min` [min] say how cold it has to be first, and within what time.
    """

    at_c: float
    days: float
    status: str
    note: str
    most_c: float
    cooled_c: float | None = None
    cooled_min: float | None = None

    def is_for(self, store_c: float) -> bool:
        """Whether food kept at so cold [°C] comes under it, by the higher of its prints."""
        return store_c <= self.most_c + ROUNDING_C

    def allows(self, store_c: float, days: float) -> bool:
        """Whether it lets a bag be kept at so cold [°C] for so long [d]."""
        return self.is_for(store_c) and days <= self.days

    def is_cold(self, to_c: float) -> bool:
        """Whether a cooling to here [°C] goes as far as the limit asks."""
        return self.cooled_c is None or to_c <= self.cooled_c + ROUNDING_C

    def is_cooled(self, to_c: float, within_min: float) -> bool:
        """Whether a cooling to so cold [°C] within so long [min] is what the limit asks for."""
        return self.is_cold(to_c) and (self.cooled_min is None or within_min <= self.cooled_min)


@dataclass(frozen=True, slots=True)
class Keeping(Clause):
    """How long cooked food may be kept cold.

    Where the `first_day_counts` the day of preparation is day 1, so that a storage of seven
    whole days ends on day 8.
    """

    limits: tuple[StorageLimit, ...]
    first_day_counts: bool

    def longest_days(self, store_c: float) -> float | None:
        """Return the longest storage named for a temperature [°C]; None when none is."""
        return max((x.days for x in self.limits if x.is_for(store_c)), default=None)


@dataclass(frozen=True, slots=True)
class Packaging(Keeping):
    """Reduced-oxygen packaging: what it needs first, and how long it may be kept.

    `cooked_by` and `cooled_by` name the clauses that the cook and its cooling have to meet.
    """

    needs: tuple[str, ...]
    cooked_by: str
    cooled_by: str


@dataclass(frozen=True, slots=True)
class Forbidding(Clause):
    """Food may be within a band of temperature [°C] for at most so long in all [min]."""

    low_c: float
    high_c: float
    total_max_min: float


@dataclass(frozen=True, slots=True)
class RuleSet:
    """Everything that one authority's text of one edition says, as far as it is held here."""

    id: str
    title: str
    authority: str
    jurisdiction: str
    edition: str
    status: str
    note: str
    holds: tuple[HoldTable, ...] = ()
    surfaces: tuple[SurfaceRule, ...] = ()
    come_up: ComeUp | None = None
    cooling: Cooling | None = None
    hot_holding: tuple[HotHolding, ...] = ()
    reheating: Reheating | None = None
    packaging: Packaging | None = None
    keeping: Keeping | None = None
    forbids: tuple[Forbidding, ...] = ()

    @property
    def name(self) -> str:
        """The title and the edition: a rule is never named without its edition."""
        return f"{self.title}, {self.edition}"

    @property
    def temperatures_c(self) -> tuple[float, ...]:
        """Every core temperature that a verdict on a cook asks for [°C]."""
        rows = [row.at_c for table in self.holds for row in table.rows]
        come_up = [self.come_up.from_c, self.come_up.to_c] if self.come_up else []
        bands = [edge for clause in self.forbids for edge in (clause.low_c, clause.high_c)]
        return tuple(dict.fromkeys([*rows, *come_up, *bands]))

    def tables_for(self, food: Food) -> tuple[HoldTable, ...]:
        """Return the hold tables that are written for a food."""
        return tuple(table for table in self.holds if table.scope.covers(food))

    def surfaces_for(self, food: Food) -> tuple[SurfaceRule, ...]:
        """Return the surface clauses that cover a food, which has to be seared."""
        return tuple(s for s in self.surfaces if food.surface_seared and s.scope.covers(food))
