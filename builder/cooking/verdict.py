"""What may be said of a plan beside a published rule."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from builder.cooking.ranges import Range
from builder.cooking.rules import (
    ComeUp,
    Forbidding,
    HoldRow,
    HoldTable,
    RuleSet,
    SurfaceRule,
)
from builder.language import Deferred, labelled, tr

DECIDES = Deferred("local code and the licensed authority decide")


DEFERENCE = Deferred(
    "arithmetic on published tables, not a food-safety plan; log the core with a calibrated "
    "probe; local code and the licensed authority decide"
)


UNMODELLED = Deferred("this way of cooking is not modelled here")


class Outcome(Enum):
    """What may be said of a plan beside a published rule; the value is its wording."""

    MEETS = "meets"
    DOES_NOT_MEET = "does not meet"
    NOT_COVERED = "is not covered by"

    @property
    def rank(self) -> int:
        """0 for not covered, 1 for not met, 2 for met."""
        return (Outcome.NOT_COVERED, Outcome.DOES_NOT_MEET, Outcome.MEETS).index(self)


_WITH_RULE = {
    Outcome.MEETS: Deferred("meets {rule}"),
    Outcome.DOES_NOT_MEET: Deferred("does not meet {rule}"),
    Outcome.NOT_COVERED: Deferred("is not covered by {rule}"),
}


def worded(outcome: Outcome, rule: str) -> str:
    """Put an outcome and a rule's name and edition into the one sentence that is allowed.

    >>> worded(Outcome.MEETS, "Example code, 2020")[:42]
    'meets Example code, 2020: arithmetic on pu'
    """
    return labelled(tr(_WITH_RULE[outcome], rule=rule), tr(DEFERENCE))


_BRIEF = {**_WITH_RULE, Outcome.MEETS: Deferred("meets {rule}, by arithmetic")}


def worded_briefly(outcome: Outcome, rule: str) -> str:
    """The same for a page that says once, of all its verdicts, who decides.

    >>> worded_briefly(Outcome.MEETS, "Example code, 2020")
    'meets Example code, 2020, by arithmetic'
    """
    return tr(_BRIEF[outcome], rule=rule)


@dataclass(frozen=True, slots=True)
class ComeUpCheck:
    """How long the core takes through the clause's temperatures [min], at the slow end."""

    clause: ComeUp
    taken_min: float

    @property
    def kept(self) -> bool:
        """Whether the core comes up within the clause's time."""
        return self.taken_min <= self.clause.within_min


@dataclass(frozen=True, slots=True)
class HoldCheck:
    """One row of a table: when the core reaches it [min] and what the plan then holds."""

    table: HoldTable
    row: HoldRow
    reach_min: Range
    time_min: float

    @property
    def available_min(self) -> float:
        """Minutes held at the row's temperature or above, at the slow end; 0 if not reached."""
        return max(self.time_min - self.reach_min.high, 0.0)

    @property
    def margin_min(self) -> float:
        """Minutes to spare; negative when the plan is too short by as many."""
        return self.time_min - self.reach_min.high - self.row.hold_min


@dataclass(frozen=True, slots=True)
class Asked:
    """The row of a clause that names the food which a core has to show.

    That is its first row, the least of them, the one that the kitchen's own core comes to, or
    the first whose hold a cook without one is long enough for.
    """

    table: HoldTable
    row: HoldRow


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a rule set says of a plan, and the figures that it rests on.

    `modelled` is false where nothing is computed of this way of cooking; `waits_for` says
    what the files leave out, in words, where the rules may have an answer once it is written.
    """

    outcome: Outcome
    rule_set: RuleSet
    reasons: tuple[str, ...]
    hold: HoldCheck | None = None
    come_up: ComeUpCheck | None = None
    surface: SurfaceRule | None = None
    forbidden_by: Forbidding | None = None
    asked: Asked | None = None
    modelled: bool = True
    waits_for: str = ""

    @property
    def ruling_hold(self) -> HoldCheck | None:
        """The row that the outcome rests on; None where something else decides."""
        decides = self.hold and not self.surface and not self.forbidden_by
        return self.hold if decides and self._held == (self.outcome is Outcome.MEETS) else None

    @property
    def asked_of_core(self) -> HoldCheck | Asked | None:
        """The row that the core has to show; None where its surface or a ban decides instead."""
        if self.surface or self.forbidden_by:
            return None
        return self.ruling_hold or self.asked

    @property
    def target(self) -> Asked | None:
        """The clause and the row that a log of the core has to show, where one is known."""
        return Asked(self.hold.table, self.hold.row) if self.hold else self.asked

    @property
    def clause(self) -> str:
        """The clause that the outcome rests on; empty when none covers the plan."""
        if self.forbidden_by:
            return self.forbidden_by.clause
        if self.surface:
            return self.surface.clause
        if self.comes_up_late and self.come_up and self._held:
            return self.come_up.clause.clause
        decided = self.target if self.outcome is not Outcome.NOT_COVERED else None
        return decided.table.clause if decided else ""

    @property
    def comes_up_late(self) -> bool:
        """Whether a come-up that the rule set limits is too slow."""
        return self.come_up is not None and self.come_up.clause.binding and not self.come_up.kept

    @property
    def _held(self) -> bool:
        return self.hold is not None and self.hold.margin_min >= 0

    @property
    def asks(self) -> tuple[str, ...]:
        """What else the clause wants that no arithmetic can see."""
        if self.surface:
            return self.surface.asks
        return self.hold.table.asks if self.hold else ()

    @property
    def short(self) -> str:
        """The outcome in a few words, for a table."""
        if not self.modelled:
            return Deferred("is not modelled here")
        if self.waits_for:
            return Deferred("waits for keys")
        return Deferred(self.outcome.value.removesuffix(" by"))

    @property
    def sentence(self) -> str:
        """The verdict in words, deferring to whoever decides."""
        if why := self._why_not:
            return tr(
                "can't be compared with {rule_set}: {why}; {local}",
                rule_set=self.rule_set.name,
                why=why,
                local=DECIDES,
            )
        return worded(self.outcome, self._rule)

    @property
    def brief(self) -> str:
        """The verdict in words, for a page that says once who decides."""
        if why := self._why_not:
            return tr(
                "can't be compared with {rule_set}: {why}", rule_set=self.rule_set.name, why=why
            )
        return worded_briefly(self.outcome, self._rule)

    @property
    def _why_not(self) -> str:
        return self.waits_for if self.modelled else tr(UNMODELLED)

    @property
    def _rule(self) -> str:
        return self.rule_set.name + (f" ({self.clause})" if self.clause else "")
