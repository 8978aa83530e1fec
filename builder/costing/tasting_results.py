"""What is known of a tasting once it is computed: samples, attributes, texture, choices."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.costing.ballots import Ballots
from builder.costing.panels import ALPHA, BETA, CAN_TELL, level
from builder.language import tr
from builder.reading.tree import Text
from builder.records.fields import Measure
from builder.records.kinds import Cook, Plate
from builder.records.tasting_values import RANKS
from builder.records.tastings import Attribute, Tasting
from builder.tasting.agreement import Concordance, TasterAgreement
from builder.tasting.comparisons import (
    BenchmarkComparison,
    Equivalence,
    NoWorse,
    fewest_for_orders,
    fewest_for_signs,
)
from builder.tasting.discrimination import DifferenceTest, ShareWhoCanTell, SimilarityTest
from builder.tasting.pairs import Pair
from builder.tasting.plans import ServingPlan
from builder.tasting.protocols import Protocol
from builder.tasting.rank_sums import RankSums
from builder.tasting.ranks import BenchmarkRanks, FriedmanTest, PageTrend
from builder.tasting.right import RightShares, RightWindow
from builder.tasting.scales import ScaleUse
from builder.tasting.score_tables import FloatArray
from builder.tasting.scores import ScoreAnova, TasterAnova
from builder.tasting.shortlist import Shortlist
from builder.tasting.studies import DurationStudy
from builder.tasting.thurstone import DPrime


@dataclass(frozen=True, slots=True)
class Served:
    """A sample with what it is made of; `hours` is its cook's time, None where not stated.

    `called`: its duration, where it is one of a series; empty where its name is its own.
    """

    name: str
    written: Text
    cook: Cook | None
    plate: Plate | None
    called: str = ""

    @property
    def hours(self) -> float | None:
        """How long it was cooked [h]."""
        return self.cook.for_.value if self.cook and self.cook.for_ else None

    @property
    def course(self) -> tuple[str, str, float] | None:
        """What durations are compared within: cut, way of cooking and temperature [°C]."""
        if self.cook is None or self.hours is None:
            return None
        at = round(self.cook.at.value, 1) if self.cook.at else -1.0
        return str(self.cook.cut), " ".join(self.cook.how.lower().split()), at

    @property
    def record(self) -> str:
        """The id of what is served."""
        found = self.plate or self.cook
        return found.path if found else self.name

    @property
    def words(self) -> str:
        """Its name as pages say it, the same everywhere."""
        return self.called or self.name.replace("-", " ")

    @property
    def title(self) -> str:
        """The name of its plate or cook."""
        return self.plate.title if self.plate else self.cook.title if self.cook else self.words


@dataclass(frozen=True, slots=True)
class Repeats:
    """Judgements of one cook or plate that was served under several codes.

    `columns`: those samples. `anova`: tasters by what was served by judgement, with the
    scatter of a taster's own judgements as the error; `panel`: the same for each taster.
    """

    columns: tuple[int, ...]
    anova: ScoreAnova
    panel: tuple[TasterAnova, ...]


@dataclass(frozen=True, slots=True)
class AttributeResult:
    """One scored or ranked attribute: tasters by samples, and every test of it.

    `table`: points of 100 (ranks: higher is better); `along`: the same over the
    series of durations. `pairs`: of all samples, none beside a benchmark; `compared`: of those
    judged, by place, taken from `pairs` where there are any; `sums`: of what was ranked, not
    scored. None where the tasting has no benchmark, margin or series.
    """

    name: str
    attribute: Attribute | None
    table: FloatArray
    along: FloatArray | None
    anova: ScoreAnova | None
    friedman: FriedmanTest
    ranks: BenchmarkRanks | None
    sums: RankSums | None
    differences: BenchmarkComparison | None
    no_worse: Mapping[int, NoWorse]
    within: Mapping[int, Equivalence]
    pairs: tuple[Pair, ...]
    compared: tuple[Pair, ...]
    repeats: Repeats | None
    trend: PageTrend | None
    study: DurationStudy | None
    agreement: Concordance
    panel: tuple[TasterAgreement, ...]
    use: tuple[ScaleUse, ...]
    holm_p_value: float = 1.0

    @property
    def words(self) -> str:
        """Its name in sentences: points of a scale whose low end is the good one are turned."""
        if self.attribute is not None and self.attribute.best == "low":
            return tr("{name} (100 is best)", name=self.name)
        return self.name


@dataclass(frozen=True, slots=True)
class RightResult:
    """One just-about-right attribute: shares by sample, and the window over the series."""

    name: str
    ends: tuple[str, str]
    table: FloatArray
    shares: tuple[RightShares, ...]
    along: FloatArray | None
    window: RightWindow | None


@dataclass(frozen=True, slots=True)
class ChoiceResult:
    """A discrimination test; `similarity` is None where no answer is the correct one."""

    protocol: Protocol
    first: str
    second: str
    difference: DifferenceTest
    similarity: SimilarityTest | None
    share: ShareWhoCanTell
    distance: DPrime

    @property
    def shown(self) -> ShownShare:
        """The share who can tell; either way, the lead of the sample that is ahead."""
        share, chosen = self.share, self.difference.correct
        ends = share.lower, share.upper, share.at_least, share.at_most
        if not self.protocol.two_sided:
            return ShownShare("", "", chosen, share.estimate, *ends)
        if share.estimate >= 0:
            return ShownShare(self.first, self.second, chosen, share.estimate, *ends)
        low, high, least, most = (-end for end in ends)
        others = self.difference.tasters - chosen
        return ShownShare(self.second, self.first, others, -share.estimate, high, low, most, least)


@dataclass(frozen=True, slots=True)
class ShownShare:
    """A share who can tell with its limits; either way: the lead of `ahead` over `behind`.

    `chosen`: correct answers; either way: choices of `ahead`.
    """

    ahead: str
    behind: str
    chosen: int
    estimate: float
    lower: float
    upper: float
    at_least: float
    at_most: float


@dataclass(frozen=True, slots=True)
class TastingAnalysis:
    """What the answers of a tasting say; `series` holds columns by rising duration.

    `decision`: what is out, may be right, came closest and comes next, by place in `judged`; None
    without answers on it. Whatever is said of durations comes from it, and of challengers that
    are no series, for more than the time differs. `answers_kept`: there are answers, and the reader
    of an edition may not see them.
    """

    tasting: Tasting
    samples: tuple[Served, ...]
    tasters: tuple[str, ...]
    ballots: Ballots
    series: tuple[int, ...]
    attributes: tuple[AttributeResult, ...] = ()
    rights: tuple[RightResult, ...] = ()
    choice: ChoiceResult | None = None
    decision: Shortlist | None = None
    answers_kept: bool = False

    def alike(self, column: int) -> tuple[int, ...]:
        """Columns of the same course and duration, the benchmark left out."""
        own = self.samples[column]
        return tuple(
            other
            for other, sample in enumerate(self.samples)
            if other == column
            or (own.course is not None and other != self.benchmark
                and (sample.course, sample.hours) == (own.course, own.hours))
        )  # fmt: skip

    def represented_by(self, column: int) -> int | None:
        """The column of the series that has a sample's course and duration."""
        return next((place for place in self.series if column in self.alike(place)), None)

    def words_of(self, name: str) -> str:
        """A sample's name in the file as pages say it."""
        return next((each.words for each in self.samples if each.name == name), name)

    @property
    def beside_series(self) -> tuple[int, ...]:
        """Challengers of a stated duration and another course than the series, if there is one."""
        return tuple(
            column
            for column, sample in enumerate(self.samples)
            if self.series and column != self.benchmark
            if sample.hours is not None and self.represented_by(column) is None
        )

    @property
    def judged(self) -> tuple[int, ...]:
        """Columns that the decision is about: the series, else all challengers."""
        columns = range(len(self.samples))
        return self.series or tuple(column for column in columns if column != self.benchmark)

    @property
    def judged_together(self) -> bool:
        """Whether several samples are one that is judged: their answers are then averaged."""
        return bool(self.series) and any(len(self.alike(column)) > 1 for column in self.series)

    @property
    def compared_among(self) -> int:
        """How many samples the pairs of those judged are compared among.

        Beside a benchmark, and where several samples are one duration, those judged alone.
        """
        alone = self.benchmark is not None or self.judged_together
        return len(self.judged if alone else self.samples)

    @property
    def held(self) -> bool:
        """Whether there are answers."""
        return bool(self.tasters) or self.choice is not None

    @property
    def count(self) -> int:
        """How many tasters answered; planned: how many are asked."""
        if self.choice is not None:
            return self.choice.difference.tasters
        return len(self.tasters) if self.held else len(self.tasting.tasters)

    @property
    def benchmark(self) -> int | None:
        """The benchmark's column."""
        names = [sample.name for sample in self.samples]
        return names.index(str(self.tasting.benchmark)) if self.tasting.benchmark else None

    @property
    def alpha(self) -> float:
        """Risk of a difference that is none."""
        return level(self.tasting.alpha, ALPHA)

    @property
    def shared_alpha(self) -> float:
        """The risk of each comparison with the benchmark, shared among the challengers."""
        return self.alpha / max(1, len(self.samples) - 1)

    @property
    def fewest(self) -> int:
        """Tasters without whom nothing is claimed beside the benchmark, even if all agree."""
        if self.tasting.test == RANKS:
            return fewest_for_orders(max(2, len(self.samples)), self.alpha, beside=True)
        one_sided = fewest_for_signs(self.shared_alpha, two_sided=False)
        return max(fewest_for_signs(self.alpha), one_sided)

    @property
    def power(self) -> float:
        """Chance of finding what matters."""
        return 1 - level(self.tasting.beta, BETA)

    @property
    def can_tell(self) -> float:
        """Smallest share who can tell that matters."""
        return level(self.tasting.can_tell, CAN_TELL)


@dataclass(frozen=True, slots=True)
class TastingResult(TastingAnalysis):
    """Everything that a tasting's page says: the analysis, and how it is served."""

    plan: ServingPlan = field(kw_only=True)

    @property
    def per_taster(self) -> int:
        """How many samples one taster is served."""
        return len(self.plan.ballots[0].servings) - any(line.warm_up for line in self.plan.key)

    @property
    def everybody_gets_all(self) -> bool:
        """Whether every taster is served every sample."""
        return self.tasting.is_discrimination or self.per_taster >= len(self.samples)


def margin_of(tasting: Tasting, attribute: Attribute | None) -> float | None:
    """The margin in points of 100, the attribute's own before the tasting's."""
    stated, points = margin_stated(tasting, attribute)
    return None if stated is None else points


def margin_stated(tasting: Tasting, attribute: Attribute | None) -> tuple[Measure | None, float]:
    """The margin as the file has it, and in points of 100; None and 0 where there is none."""
    stated = (attribute.margin or tasting.margin) if attribute else None
    return stated, 100 * stated.value if stated else 0.0
