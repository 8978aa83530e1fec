"""Tastings computed: from answers to statistics, one result for each file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from builder.costing.ballots import Ballots, read_ballots
from builder.costing.fill import Rows
from builder.costing.panels import (
    ALPHA,
    BETA,
    CAN_TELL,
    OFF_TEXTURE,
    level,
    pair_of,
    protocol_of,
    scale_of,
    serving_plan,
)
from builder.engine.figures import Figures
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.kinds import Cook, Plate
from builder.records.tastings import SCORES, Attribute, Sample, Tasting
from builder.tasting.agreement import (
    Concordance,
    TasterAgreement,
    kendalls_w,
    taster_agreement,
)
from builder.tasting.comparisons import (
    BenchmarkComparison,
    NoWorse,
    benchmark_differences,
    holm_adjusted,
    no_worse_by_margin,
    paired_differences,
)
from builder.tasting.discrimination import (
    DifferenceTest,
    ShareWhoCanTell,
    SimilarityTest,
    discrimination_difference,
    discrimination_similarity,
    share_who_can_tell,
)
from builder.tasting.plans import PlannedSample, ServingPlan
from builder.tasting.protocols import Protocol
from builder.tasting.ranks import (
    BenchmarkRanks,
    FriedmanTest,
    PageTrend,
    benchmark_ranks,
    friedman_test,
    page_trend,
)
from builder.tasting.right import RightShares, RightWindow, just_about_right_shares, right_window
from builder.tasting.scales import ScaleUse, rescale_scores, scale_use
from builder.tasting.scores import ScoreAnova, score_anova
from builder.tasting.studies import DurationStudy, study_durations
from builder.tasting.tables import FloatArray
from builder.tasting.thurstone import DPrime, sensory_distance


@dataclass(frozen=True, slots=True)
class Served:
    """A sample with what it is made of; `hours` is its cook's time, None where not stated."""

    name: str
    written: Text
    cook: Cook | None
    plate: Plate | None

    @property
    def hours(self) -> float | None:
        """How long it was cooked [h]."""
        return self.cook.for_.value if self.cook and self.cook.for_ else None

    @property
    def words(self) -> str:
        """Its short name as a sentence says it."""
        return self.name.replace("-", " ")

    @property
    def title(self) -> str:
        """The name of its plate or cook."""
        return self.plate.title if self.plate else self.cook.title if self.cook else self.words


@dataclass(frozen=True, slots=True)
class AttributeResult:
    """One scored or ranked attribute: tasters by samples, and every test of it.

    `table`: points of 100 (ranks: higher is better); `hours`: columns of the series of
    durations in rising order. None where the tasting has no benchmark, margin or series.
    """

    name: str
    attribute: Attribute | None
    table: FloatArray
    anova: ScoreAnova | None
    friedman: FriedmanTest
    ranks: BenchmarkRanks | None
    differences: BenchmarkComparison | None
    no_worse: Mapping[int, NoWorse]
    trend: PageTrend | None
    study: DurationStudy | None
    agreement: Concordance
    panel: tuple[TasterAgreement, ...]
    use: tuple[ScaleUse, ...]
    holm_p_value: float = 1.0


@dataclass(frozen=True, slots=True)
class RightResult:
    """One just-about-right attribute: shares by sample, and the window over the series."""

    name: str
    ends: tuple[str, str]
    table: FloatArray
    shares: tuple[RightShares, ...]
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


@dataclass(frozen=True, slots=True)
class TastingResult:
    """Everything that a tasting's page says; `series` holds columns by rising duration."""

    tasting: Tasting
    samples: tuple[Served, ...]
    tasters: tuple[str, ...]
    ballots: Ballots
    plan: ServingPlan
    series: tuple[int, ...]
    attributes: tuple[AttributeResult, ...] = ()
    rights: tuple[RightResult, ...] = ()
    choice: ChoiceResult | None = None

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
    def power(self) -> float:
        """Chance of finding what matters."""
        return 1 - level(self.tasting.beta, BETA)

    @property
    def can_tell(self) -> float:
        """Smallest share who can tell that matters."""
        return level(self.tasting.can_tell, CAN_TELL)


def tasting_results(content: Content, figures: Figures, rows: Rows) -> dict[str, TastingResult]:
    """Compute every tasting of checked records."""
    return {
        tasting.id: _result(content, figures, rows, tasting)
        for tasting in content.tastings.values()
    }


def _result(content: Content, figures: Figures, rows: Rows, tasting: Tasting) -> TastingResult:
    samples = tuple(_served(content, name, sample) for name, sample in tasting.samples.items())
    ballots = read_ballots(tasting, content.ballots.get(tasting.id, ()))
    plan = serving_plan(tasting, [_planned(figures, rows, sample) for sample in samples])
    tasters = ballots.tasters(tasting)
    found = TastingResult(
        tasting, samples, tasters, ballots, plan, _series(samples, tasting.benchmark)
    )
    if tasting.is_discrimination:
        return _with_choice(found)
    return _with_marks(found) if tasters else found


def _served(content: Content, name: Text, sample: Sample) -> Served:
    plate = content.plates[sample.plate] if sample.plate else None
    cook = sample.cook or (plate.cook if plate else None)
    return Served(str(name), name, content.cooks[cook] if cook else None, plate)


def _planned(figures: Figures, rows: Rows, sample: Served) -> PlannedSample:
    """What a sample takes: time in the cook, time after it, servable share of its load."""
    cook = sample.cook
    if cook is None:
        return PlannedSample(sample.name, 0.0, 0.0, 1.0)
    after = (cook.finish, cook.rest, cook.carve)
    finish = sum(stage.for_.value * 60 for stage in after if stage and stage.for_)
    row = rows.cooks[cook.id]
    whole, loaded = (
        figures.value("batch", name, row) for name in ("overall_yield", "yield_to_load")
    )
    return PlannedSample(sample.name, (sample.hours or 0.0) * 60, finish, whole / loaded)


def _series(samples: Sequence[Served], benchmark: Text | None) -> tuple[int, ...]:
    """The challengers of one cut at one temperature with most durations, by rising duration."""
    groups: dict[tuple[str, float], dict[float, int]] = {}
    for column, sample in enumerate(samples):
        if sample.cook is None or sample.hours is None or sample.name == benchmark:
            continue
        at = round(sample.cook.at.value, 1) if sample.cook.at else 0.0
        groups.setdefault((str(sample.cook.cut), at), {}).setdefault(sample.hours, column)
    longest = max(groups.values(), key=len, default={})
    return tuple(longest[hours] for hours in sorted(longest)) if len(longest) > 1 else ()


# Discrimination


def _with_choice(found: TastingResult) -> TastingResult:
    tasting = found.tasting
    hits = sum(choice.hit for choice in found.ballots.choices)
    count = len(found.ballots.choices)
    if tasting.correct is not None:
        hits, count = int(tasting.correct.value), len(tasting.tasters)
    return replace(found, choice=_choice(found, hits, count)) if count else found


def _choice(found: TastingResult, hits: int, count: int) -> ChoiceResult:
    protocol = protocol_of(found.tasting)
    similarity = None
    if not protocol.two_sided:
        beta = 1 - found.power
        similarity = discrimination_similarity(hits, count, protocol, found.can_tell, beta)
    return ChoiceResult(
        protocol,
        *pair_of(found.tasting),
        discrimination_difference(hits, count, protocol, found.alpha),
        similarity,
        share_who_can_tell(hits, count, protocol, 1 - found.alpha),
        sensory_distance(hits, count, protocol, 1 - found.alpha),
    )


# Scores and ranks


def _with_marks(found: TastingResult) -> TastingResult:
    tasting = found.tasting
    names = list(tasting.scored) if tasting.test == SCORES else [tasting.asked]
    attributes = [
        _attribute(found, name, tasting.scored.get(name))
        for name in names
        if not np.isnan(_table(found, name)).all()
    ]
    holm = holm_adjusted([attribute.friedman.p_value for attribute in attributes])
    return replace(
        found,
        attributes=tuple(
            replace(attribute, holm_p_value=p)
            for attribute, p in zip(attributes, holm, strict=True)
        ),
        rights=tuple(
            _right(found, name, attribute)
            for name, attribute in tasting.just_right.items()
            if not np.isnan(_table(found, name)).all()
        ),
    )


def _table(found: TastingResult, attribute: str) -> FloatArray:
    """Answers as tasters by samples, as they were given."""
    columns = {sample.name: column for column, sample in enumerate(found.samples)}
    lines = {taster: row for row, taster in enumerate(found.tasters)}
    table = np.full((len(found.tasters), len(found.samples)), np.nan)
    for mark in found.ballots.marks:
        if mark.attribute == attribute and mark.value is not None:
            table[lines[mark.taster], columns[mark.sample]] = mark.value
    return table


def _percent(found: TastingResult, name: str, attribute: Attribute | None) -> FloatArray:
    table = _table(found, name)
    if attribute is None or attribute.scale is None:
        return table
    low = attribute.best == "low"
    scales = [
        scale_of(found.ballots.scales.get(taster) or attribute.scale, attribute.half_points, low)
        for taster in found.tasters
    ]
    return rescale_scores(table.tolist(), scales)


def _attribute(found: TastingResult, name: str, attribute: Attribute | None) -> AttributeResult:
    table, benchmark = _percent(found, name, attribute), found.benchmark
    columns = list(found.series)
    along = table[:, columns] if columns and not np.isnan(table[:, columns]).all() else None
    hours = [found.samples[column].hours or 0.0 for column in columns]
    scored = attribute is not None
    return AttributeResult(
        name=name,
        attribute=attribute,
        table=table,
        anova=score_anova(table) if scored else None,
        friedman=friedman_test(table),
        ranks=None if benchmark is None else benchmark_ranks(table, benchmark),
        differences=benchmark_differences(table, benchmark, confidence=1 - found.alpha)
        if scored and benchmark is not None
        else None,
        no_worse=_no_worse(found, table, attribute),
        trend=None if along is None else page_trend(along),
        study=None
        if along is None
        else study_durations(along, hours, bool(found.tasting.log_time), 1 - found.alpha),
        agreement=kendalls_w(table),
        panel=taster_agreement(table, found.alpha),
        use=scale_use(table) if scored else (),
    )


def margin_of(tasting: Tasting, attribute: Attribute | None) -> float | None:
    """The margin in points of 100, the attribute's own before the tasting's."""
    own = attribute.margin if attribute else None
    stated = own or tasting.margin
    return None if stated is None or attribute is None else 100 * stated.value


def _no_worse(
    found: TastingResult, table: FloatArray, attribute: Attribute | None
) -> dict[int, NoWorse]:
    """Each challenger's test, at a level shared among as many as there are."""
    margin, benchmark = margin_of(found.tasting, attribute), found.benchmark
    if margin is None or benchmark is None or len(found.samples) < 2:
        return {}
    differences = paired_differences(table, benchmark)
    confidence = 1 - found.alpha / (len(found.samples) - 1)
    return {
        column: no_worse_by_margin(differences[:, column], margin, confidence)
        for column in range(len(found.samples))
        if column != benchmark
    }


def _right(found: TastingResult, name: str, attribute: Attribute) -> RightResult:
    table = _table(found, name)
    window = None
    if found.series:
        hours = [found.samples[column].hours or 0.0 for column in found.series]
        limit = level(found.tasting.off_texture, OFF_TEXTURE)
        window = right_window(table[:, list(found.series)], hours, limit)
    low, high = attribute.ends
    return RightResult(
        name, (low, high), table, just_about_right_shares(table, 1 - found.alpha), window
    )
