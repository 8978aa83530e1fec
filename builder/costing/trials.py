"""What a candidate is first tried with: published figures, a cook like it, durations."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from statistics import fmean, stdev

from builder.cooking.verdict import Outcome
from builder.costing.heat import Heat
from builder.costing.tasting_results import Served, TastingAnalysis
from builder.data import CookingYield, cooking_yields
from builder.data.muscles import GRADES, Muscle, muscles
from builder.language import Deferred, tr
from builder.problems import Place
from builder.records.content import Content
from builder.records.kinds import Cook, Cut, Plate
from builder.records.listed import benchmark_of, candidates_of
from builder.records.stages import Stage
from builder.records.tastings import Tasting
from builder.tasting.studies import kitchen_hours

# First durations [h] by grade of tenderness, where the kitchen has tasted nothing like it, and how
# they are cooked. Common practice, no published source.
USUAL_HOURS: Mapping[str, tuple[float, ...]] = {
    "very tender": (4.0, 8.0, 12.0),
    "tender": (8.0, 12.0, 24.0),
    "intermediate": (12.0, 24.0, 36.0),
    "tough": (24.0, 36.0, 48.0),
}
USUAL_WAY = "water bath"
# Common practice, too. Poultry's is above what is asked of it without a hold; its muscles have no
# published grades.
_POULTRY, _POULTRY_HOURS = "poultry", (4.0, 8.0, 14.0)
_USUAL_AT = {"metric": "57 °C", "us customary": "135 °F"}
_POULTRY_AT = {"metric": "75 °C", "us customary": "167 °F"}
# What goes in at once where no cook of the kitchen says so.
_USUAL_LOAD = {"metric": "4 kg", "us customary": "9 lb"}
_FEWEST, _MOST = 3, 4
STATED = Deferred("as the file states it")
_LONGER = 4 / 3


class Likeness(StrEnum):
    """How a cut that the kitchen knows is like a candidate, the nearest first."""

    MUSCLE = "the same muscle"
    GRADE = "a muscle of the same grade of tenderness"
    SPECIES = "the same species"


@dataclass(frozen=True, slots=True)
class Published:
    """A published cooking yield [share] with its spread [share], NaN where none is published.

    `table` is its entry, empty for one of the file; `matched` how it was chosen where the file
    names none: empty where no cut of the tables is of that muscle.
    """

    value: float
    deviation: float
    samples: int
    words: str
    source: str
    status: str
    place: Place | None
    table: str = ""
    matched: str = ""
    by_muscle: bool = False


@dataclass(frozen=True, slots=True)
class OwnTrim:
    """What trimming leaves of other cuts of the kitchen [share]: mean, deviation, how many."""

    mean: float
    deviation: float
    count: int


@dataclass(frozen=True, slots=True)
class Trial:
    """A candidate with what it is first tried with; `hours` are the durations [h], rising.

    `at` and `load` are temperature and load as a file writes them, in the kitchen's units.
    `like` is the kitchen's cook that work, equipment and temperature are taken from, and `tasting`
    that durations are taken from; None where there is none.
    """

    cut: Cut
    has_file: bool
    benchmark: Plate
    muscle: Muscle | None
    published: Published | None
    trim: OwnTrim | None
    like: Cook | None
    likeness: Likeness | None
    tasting: Tasting | None
    hours: tuple[float, ...]
    at: str
    load: str

    @property
    def middle(self) -> float:
        """The duration [h] that costs are of."""
        return self.hours[len(self.hours) // 2]


def trials_of(
    content: Content, analyses: Mapping[str, TastingAnalysis], heat: Heat
) -> tuple[Trial, ...]:
    """A trial of every candidate, those with a file first.

    No trial follows a cook that fails its rule set, or that is a caution under any.
    """
    maker = _Trials(content, analyses, heat)
    return tuple(maker.trial(cut) for cut in candidates_of(content).values())


class _Trials:
    """The trials of one kitchen."""

    def __init__(
        self, content: Content, analyses: Mapping[str, TastingAnalysis], heat: Heat
    ) -> None:
        self.content = content
        self.cooks = [cook for cook in content.cooks.values() if _may_follow(content, cook, heat)]
        self.series = sorted(
            (
                found
                for found in analyses.values()
                if found.decision and found.series and _closest(found).cook in self.cooks
            ),
            key=lambda found: found.tasting.date.day if found.tasting.date else date.min,
            reverse=True,
        )

    def trial(self, cut: Cut) -> Trial:
        """What one candidate is tried with."""
        content = self.content
        muscle = muscles()[cut.muscle] if cut.muscle else None
        found, likeness = self._tasted(cut)
        if found is not None:
            like, hours = _closest(found).cook, _hours_of(found)
        else:
            like, likeness = self._cook_like(cut)
            hours = _usual_hours(cut, muscle)
        return Trial(
            cut,
            cut.id in content.cuts,
            content.plates[benchmark_of(cut)],
            muscle,
            _published(cut, muscle),
            None if _is_trimmed(cut) else self._trim_like(cut),
            like,
            likeness,
            found.tasting if found else None,
            hours,
            _at(cut, like, str(content.kitchen.units or "metric")),
            _load(like, str(content.kitchen.units or "metric")),
        )

    def _tasted(self, cut: Cut) -> tuple[TastingAnalysis | None, Likeness | None]:
        """The newest tasting of durations of the cut that is most like this one."""
        for wanted in (Likeness.MUSCLE, Likeness.GRADE):
            for found in self.series:
                cook = _closest(found).cook
                if cook and _likeness(cut, self.content.cuts[cook.cut]) is wanted:
                    return found, wanted
        return None, None

    def _cook_like(self, cut: Cut) -> tuple[Cook | None, Likeness | None]:
        """The kitchen's own water-bath cook of the cut most like this one, the best weighed."""
        for wanted in Likeness:
            found = [
                cook
                for cook in self.cooks
                if cook.how == USUAL_WAY and cook.for_ is not None
                and _likeness(cut, self.content.cuts[cook.cut]) is wanted
            ]  # fmt: skip
            if found:
                return max(found, key=lambda cook: len(cook.tests)), wanted
        return None, None

    def _trim_like(self, cut: Cut) -> OwnTrim | None:
        """What trimming leaves of the kitchen's other cuts of the species; from two on."""
        others = [
            share
            for other in self.content.cuts.values()
            if other.species == cut.species
            and other.id != cut.id
            and other.trim is not None
            and (share := _left_of(other.trim)) is not None
        ]
        return OwnTrim(fmean(others), stdev(others), len(others)) if len(others) > 1 else None


def _usual_hours(cut: Cut, muscle: Muscle | None) -> tuple[float, ...]:
    if cut.species == _POULTRY:
        return _POULTRY_HOURS
    return USUAL_HOURS[muscle.grade if muscle else GRADES[-1]]


def _at(cut: Cut, like: Cook | None, units: str) -> str:
    """The temperature of the cook like it, else the usual one of its species."""
    if like and like.at:
        return like.at.text
    return (_POULTRY_AT if cut.species == _POULTRY else _USUAL_AT)[units]


def _load(like: Cook | None, units: str) -> str:
    """As the cook like it: as stated, else as in its first test."""
    if like and like.load:
        return like.load.text
    if like and like.tests:
        return like.tests[0].in_.text
    return f"{_USUAL_LOAD[units]}  # {tr('as much as you try')}"


def _left_of(trim: Stage) -> float | None:
    """The share that a trim leaves by its tests, pooled, else as stated."""
    if trim.tests:
        return sum(t.out.value for t in trim.tests) / sum(t.in_.value for t in trim.tests)
    return trim.stated_yield


def _may_follow(content: Content, cook: Cook, heat: Heat) -> bool:
    verdict = heat.verdict(cook, content.cuts[cook.cut])
    fails = verdict is not None and verdict.outcome is Outcome.DOES_NOT_MEET
    return not fails and not heat.cautions(cook)


def _is_trimmed(cut: Cut) -> bool:
    return cut.trim is not None and cut.trim.has_figure


def _likeness(cut: Cut, other: Cut) -> Likeness | None:
    if cut.species != other.species:
        return None
    if cut.muscle and cut.muscle == other.muscle:
        return Likeness.MUSCLE
    if cut.muscle and other.muscle and _grade(cut) == _grade(other):
        return Likeness.GRADE
    return Likeness.SPECIES


def _grade(cut: Cut) -> str:
    return muscles()[str(cut.muscle)].grade


def _closest(found: TastingAnalysis) -> Served:
    """The sample of a series that came closest to the benchmark."""
    assert found.decision is not None
    return found.samples[found.series[found.decision.closest[0]]]


def _hours_of(found: TastingAnalysis) -> tuple[float, ...]:
    """Durations that a tasting of a like cut did not rule out, with their nearest neighbours."""
    decision = found.decision
    assert decision is not None
    tried = [judged.hours for judged in decision.judged]
    best = tried[decision.closest[0]]
    left = {tried[place] for place in decision.left}
    nearest = sorted(tried, key=lambda hours: (hours not in left, abs(math.log(hours / best))))
    count = min(max(len(left), _FEWEST), _MOST)
    return tuple(sorted(nearest[:count]))


def long_enough(hours: Sequence[float], core_h: float) -> tuple[float, ...]:
    """Durations in which the core comes near the bath, at least as many as were asked for or three.

    hours: [h], rising; core_h: time to the core [h], NaN where not known.

    >>> long_enough((4.0, 8.0, 12.0), 5.2)
    (8.0, 12.0, 16.0)
    """
    if math.isnan(core_h):
        return tuple(hours)
    kept = [each for each in hours if each >= core_h]
    if not kept:
        kept = [kitchen_hours(core_h + 1)]
    while len(kept) < _FEWEST:
        kept.append(kitchen_hours(kept[-1] * _LONGER))
    return tuple(kept)


def _published(cut: Cut, muscle: Muscle | None) -> Published | None:
    """The yield that the candidate names, else that of its muscle."""
    stated = cut.candidate.published if cut.candidate else None
    if stated is not None and stated.table is not None:
        found = cooking_yields().get(stated.table)
        return _of_table(found, stated.table.place) if found else None
    if stated is not None and stated.yield_ is not None:
        words, place = str(stated.source), stated.yield_.place
        return Published(stated.yield_.value, math.nan, 0, words, words, tr(STATED), place)
    if muscle is None or cut.muscle is None:
        return None
    found = cooking_yields()[muscle.cooking_yield]
    return _of_table(found, cut.muscle.place, muscle.matched, by_muscle=True)


def _of_table(
    found: CookingYield, place: Place, matched: str = "", *, by_muscle: bool = False
) -> Published:
    deviation = math.nan if found.deviation is None else found.deviation
    words = f"{found.description}, {found.how}"
    return Published(
        found.value, deviation, found.samples, words, found.source, found.status, place,
        found.entry, matched, by_muscle,
    )  # fmt: skip
