"""A kitchen's cooks beside its rule set: verdicts, cooling, holding, reheating, storing.

All cores are solved together, by the column, and every answer is kept by what it
depends on, so that a thousand cooks alike are computed once.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar, cast

from builder.cooking.cautions import (
    GROWS_TO_C,
    GROWTH_C,
    PASSED_WITHIN_MIN,
    Caution,
    Slow,
    cool_cook,
    slow_cooling,
    slow_warming,
)
from builder.cooking.cooling import (
    AfterCookVerdict,
    judge_cooling,
    judge_reheating,
    largest_cooling_thickness,
)
from builder.cooking.holding import judge_hot_holding_of_any
from builder.cooking.pieces import CoreBand, CoreEstimate, core_times, even_times, solve
from builder.cooking.ranges import Range
from builder.cooking.rules import RuleSet
from builder.cooking.storing import judge_storing, judge_unsealed_storing
from builder.cooking.verdict import Outcome, Verdict
from builder.cooking.verdicts import MEASURE, judge, waiting
from builder.cooking.wording import METRIC, Wording
from builder.costing.authority import Authority
from builder.costing.plans import (
    COLD_MEDIA,
    HOT_MEDIA,
    cooling_of,
    heating_of,
    missing_keys,
    modelled,
    moist,
    nearly_there_c,
    piece_of,
    plan_of,
    possible_foods,
    unstated,
)
from builder.language import Deferred, tr
from builder.records.kinds import Cook, Cut, PantryItem

UNNAMED = Deferred(
    "the file does not say how the rules name the piece (counts as: roast, or steak)"
)
T = TypeVar("T")
_STORED_C = 3.0
_ANY_THICKNESS_MM = 50.0


@dataclass(frozen=True, slots=True)
class Chilling:
    """One way to cool a cook: the verdict, the time to where the kitchen wants it."""

    where: str
    around_c: float
    verdict: AfterCookVerdict
    to_target_min: Range | None
    thickest_mm: float | None


@dataclass(frozen=True, slots=True)
class Heat:
    """What physics and one rule set say of a kitchen's cooks."""

    authority: Authority
    say: Wording = field(default=METRIC, compare=False, repr=False)
    _solved: dict[CoreEstimate, CoreEstimate] = field(
        default_factory=dict, compare=False, repr=False
    )
    _kept: dict[Hashable, object] = field(default_factory=dict, compare=False, repr=False)

    @classmethod
    def of(cls, authority: Authority, cooks: Iterable[Cook], say: Wording = METRIC) -> Heat:
        """Solve every core that the cooks' pages will ask for, all at once.

        `say` is how the kitchen writes temperatures and times.
        """
        rules = authority.rule_set
        wanted: dict[CoreEstimate, dict[float, None]] = {}
        for cook in cooks:
            heating = heating_of(cook)
            if heating is not None:
                targets = [*(rules.temperatures_c if rules else ()), nearly_there_c(cook, heating)]
                wanted.setdefault(heating, {}).update(dict.fromkeys([*targets, *GROWTH_C]))
            for where in _chilled_in(cook):
                cooling = cooling_of(cook, where)
                if cooling is not None and cook.cool is not None:
                    stages = rules.cooling.temperatures_c if rules and rules.cooling else ()
                    targets = [*stages, cook.cool.to.value, *GROWTH_C]
                    wanted.setdefault(cooling, {}).update(dict.fromkeys(targets))
        solved = solve(list(wanted), [list(targets) for targets in wanted.values()])
        return cls(authority, say, dict(zip(wanted, solved, strict=True)))

    @property
    def rule_set(self) -> RuleSet | None:
        """The rule set that the kitchen names; None where it names none."""
        return self.authority.rule_set

    def _once(self, key: Hashable, compute: Callable[[], T]) -> T:
        if key not in self._kept:
            self._kept[key] = compute()
        return cast("T", self._kept[key])

    def heating(self, cook: Cook) -> CoreEstimate | None:
        """The core's model of a cook; None where it is not modelled."""
        return self._once(("heating", cook.path), lambda: self._known(heating_of(cook)))

    def _known(self, estimate: CoreEstimate | None) -> CoreEstimate | None:
        return None if estimate is None else self._solved.get(estimate, estimate)

    def verdict(self, cook: Cook, cut: Cut) -> Verdict | None:
        """What the rule set says of a cook; None where the kitchen names no rule set."""
        rule_set = self.rule_set
        if rule_set is None:
            return None
        return self._once(("cook", cook.path), lambda: self._judged(cook, cut, rule_set))

    def _judged(self, cook: Cook, cut: Cut, rule_set: RuleSet) -> Verdict:
        verdict = self._by_the_rules(cook, cut, rule_set)
        if verdict.outcome is not Outcome.NOT_COVERED or modelled(cook):
            return verdict
        if verdict.waits_for and self._may_answer(cook, cut, rule_set):
            return verdict
        return replace(verdict, modelled=False, reasons=(tr(MEASURE),))

    def _may_answer(self, cook: Cook, cut: Cut, rule_set: RuleSet) -> bool:
        """Whether the rules answer for anything that the piece of a cook without a model may be."""
        plan = plan_of(cook, cut)
        foods = possible_foods(cook, cut)
        found = (judge(replace(plan, food=food), None, rule_set, self.say) for food in foods)
        return any(verdict.outcome is not Outcome.NOT_COVERED for verdict in found)

    def _by_the_rules(self, cook: Cook, cut: Cut, rule_set: RuleSet) -> Verdict:
        plan, heating = plan_of(cook, cut), self.heating(cook)
        verdict = self._once(
            ("verdict", plan, heating), lambda: judge(plan, heating, rule_set, self.say)
        )
        if verdict.forbidden_by is not None:
            return verdict
        missing = unstated(cook, cut, by_food=self.asks_what_it_is(cook, cut))
        if not missing and (cook.counts_as or verdict.outcome is Outcome.MEETS):
            return verdict
        whatever = [
            judge(replace(plan, food=food), heating, rule_set, self.say)
            for food in possible_foods(cook, cut)
        ]
        if whatever and (found := _fails_whatever(whatever)):
            return found
        alike = len({(each.outcome, each.clause) for each in whatever}) == 1
        if alike and (not missing or (cook.for_ and verdict.outcome is not Outcome.NOT_COVERED)):
            return verdict
        open_verdict = waiting(rule_set, missing or tr(UNNAMED))
        # No key can name a species that the rules do not know.
        return replace(open_verdict, waits_for="") if cut.species == "other" else open_verdict

    def missing_keys(self, cook: Cook, cut: Cut) -> tuple[str, ...]:
        """The keys without which a rule set can't be compared with a cook, where it names some."""
        verdict = self.verdict(cook, cut)
        if verdict is None or not (verdict.waits_for and verdict.modelled):
            return ()
        keys = missing_keys(cook, by_food=self.asks_what_it_is(cook, cut))
        # How the piece is named changes nothing where its core is not modelled.
        only_named = all(key.startswith("counts as") for key in keys)
        return () if only_named and UNNAMED not in verdict.reasons[0] else keys

    def asks_what_it_is(self, cook: Cook, cut: Cut) -> bool:
        """Whether the rule set has several answers for what the file leaves open."""
        rules = self.rule_set
        if rules is None:
            return False
        foods = possible_foods(cook, cut)
        return len({(rules.tables_for(food), rules.surfaces_for(food)) for food in foods}) > 1

    def reach_min(self, heating: CoreEstimate, target_c: float) -> Range | None:
        """Minutes to a core temperature; None where it is never reached."""
        return core_times(heating, target_c)

    def curve(self, heating: CoreEstimate, until_min: float) -> CoreBand:
        """The core's band up to a moment."""
        return self.curve_at(heating, tuple(even_times(until_min).tolist()))

    def curve_at(self, heating: CoreEstimate, time_min: tuple[float, ...]) -> CoreBand:
        """The core's band at some moments."""
        return self._once(("curve", heating, time_min), lambda: heating.curve(time_min))

    def cautions(self, cook: Cook) -> tuple[Caution, ...]:
        """What is long where bacteria grow, whatever the rule set says, and without one."""
        return self._once(("cautions", cook.path), lambda: tuple(self._cautions(cook)))

    def _cautions(self, cook: Cook) -> Iterator[Caution]:
        bounds = [measure.value for measure in (cook.at, cook.core) if measure is not None]
        minutes = cook.for_.value * 60 if cook.for_ else None
        if bounds and minutes is not None:
            yield from cool_cook(min(bounds), minutes)
        if heating := self.heating(cook):
            yield from slow_warming(Slow.COMING_UP, heating, minutes)
        if cooling := self.cooling(cook):
            yield from slow_cooling(cooling)
        if cook.reheat and (again := _reheated(cook)):
            yield from slow_warming(Slow.REHEATING, again, cook.reheat.for_.value * 60)

    def cooling(self, cook: Cook) -> CoreEstimate | None:
        """The model of the way of cooling that the cook's file names."""
        return self._known(cooling_of(cook, _cooled_in(cook))) if cook.cool else None

    def come_up_min(self, cook: Cook, cut: Cut) -> tuple[float, float] | None:
        """Minutes that the core takes through the clause's temperatures, and those allowed.

        At the slow end; where the rule set has no clause, through 10 to 54.4 °C beside the
        caution's 6 h. None where the core is not modelled or never comes through.
        """
        verdict, heating = self.verdict(cook, cut), self.heating(cook)
        if verdict and (check := verdict.come_up):
            return check.taken_min, check.clause.within_min
        if heating is None or not heating.reaches(GROWS_TO_C):
            return None
        into, out = (heating.reach_min(edge).high for edge in GROWTH_C)
        return out - into, PASSED_WITHIN_MIN

    def chilling(self, cook: Cook) -> Chilling | None:
        """The way of cooling that the cook's file names."""
        wanted = _cooled_in(cook)
        return next((found for found in self.chillings(cook) if found.where == wanted), None)

    def chillings(self, cook: Cook) -> tuple[Chilling, ...]:
        """A chilled cook in an ice bath, in a blast chiller, and where its file says."""
        rule_set = self.rule_set
        if rule_set is None or cook.cool is None:
            return ()
        target = cook.cool.to.value
        found = (self._chilling(where, cook, target, rule_set) for where in _chilled_in(cook))
        return tuple(chilling for chilling in found if chilling is not None)

    def _chilling(
        self, where: str, cook: Cook, target_c: float, rule_set: RuleSet
    ) -> Chilling | None:
        cooling = self._known(cooling_of(cook, where))
        if cooling is None:
            return None
        shape = replace(cooling.piece, thickness_mm=_ANY_THICKNESS_MM)
        medium, around_c = COLD_MEDIA[where]
        return Chilling(
            Deferred(where),
            around_c,
            self._once(("cooling", cooling), lambda: judge_cooling(cooling, rule_set, self.say)),
            self.reach_min(cooling, target_c),
            self._once(
                ("thickest", shape, where),
                lambda: largest_cooling_thickness(shape, medium, around_c, rule_set),
            ),
        )

    def hot_holding(self, cook: Cook, cut: Cut) -> AfterCookVerdict | None:
        """What the rule set says of the hot holding; None where the cook is not held hot."""
        rule_set, hold = self.rule_set, cook.hold_at
        if rule_set is None or hold is None:
            return None
        verdict, foods = self.verdict(cook, cut), tuple(possible_foods(cook, cut))
        open_cook = verdict is None or verdict.outcome is Outcome.NOT_COVERED
        cooked = None if open_cook else verdict is not None and verdict.outcome is Outcome.MEETS
        return judge_hot_holding_of_any(hold.value, foods, rule_set, self.say, cooked=cooked)

    def reheating(self, cook: Cook, cut: Cut) -> tuple[CoreEstimate, AfterCookVerdict] | None:
        """The reheating's model and what the rule set says of it."""
        rule_set, reheat, heating = self.rule_set, cook.reheat, _reheated(cook)
        if rule_set is None or reheat is None or heating is None:
            return None
        minutes = reheat.for_.value * 60
        cooked, held = self.verdict(cook, cut), cook.hold_at is not None
        foods = tuple(possible_foods(cook, cut))
        verdict = self._once(
            ("reheating", heating, minutes, cooked, held, foods),
            lambda: judge_reheating(
                heating, minutes, rule_set, self.say, cooked=cooked, held_hot=held, foods=foods
            ),
        )
        return heating, verdict

    def storing(self, cook: Cook, cut: Cut) -> AfterCookVerdict | None:
        """What the rule set says of a chilled cook kept as its file states."""
        if cook.store is None:
            return None
        return self.kept_cold(cook, cut, cook.store.for_.value)

    def storing_made(self, item: PantryItem) -> AfterCookVerdict | None:
        """What the rule set says of a sub-recipe kept cold; None of what is bought."""
        if item.store is None or self.rule_set is None or not item.of:
            return None
        at, days = item.store.at.value, item.store.for_.value / 24
        return judge_unsealed_storing(at, days, self.rule_set, self.say)

    def kept_cold(self, cook: Cook, cut: Cut, hours: float) -> AfterCookVerdict | None:
        """What the rule set says of a cook kept cold for so long [h], in its bag or without."""
        if self.rule_set is None:
            return None
        at, days = cook.store.at.value if cook.store else _STORED_C, hours / 24
        if not moist(cook):
            return judge_unsealed_storing(at, days, self.rule_set, self.say)
        verdict, chilling = self.verdict(cook, cut), self.chilling(cook)
        cooked, cooled = (
            found.outcome if found else Outcome.NOT_COVERED
            for found in (verdict, chilling and chilling.verdict)
        )
        cooling = (cook.cool.to.value, cook.cool.within.value * 60) if cook.cool else None
        return judge_storing(
            at, days, self.rule_set, self.say, cooked=cooked, cooled=cooled, cooling=cooling
        )


def _fails_whatever(verdicts: Sequence[Verdict]) -> Verdict | None:
    """The mildest verdict where the cook is too cold for all that the piece may be."""
    if not all(each.asked and each.outcome is Outcome.DOES_NOT_MEET for each in verdicts):
        return None
    return min(verdicts, key=lambda each: each.asked.row.at_c if each.asked else 0.0)


def _chilled_in(cook: Cook) -> list[str]:
    """Both usual ways to cool a chilled cook, then that of its file."""
    if cook.cool is None:
        return []
    return list(dict.fromkeys(["ice bath", "blast chiller", _cooled_in(cook)]))


def _cooled_in(cook: Cook) -> str:
    return str((cook.cool and cook.cool.in_) or "ice bath")


def _reheated(cook: Cook) -> CoreEstimate | None:
    """The model of a reheating from the cold; None where none is written, or no thickness."""
    piece = piece_of(cook, cook.store.at.value if cook.store else _STORED_C)
    if cook.reheat is None or piece is None:
        return None
    medium = HOT_MEDIA[str(cook.reheat.in_ or "water bath")]
    return CoreEstimate(piece, medium, cook.reheat.at.value)
