"""Tastings computed: from answers to statistics, one result for each file."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace

import numpy as np

from builder.costing.ballots import read_ballots
from builder.costing.decisions import decided
from builder.costing.filled_rows import Rows
from builder.costing.panels import (
    OFF_TEXTURE,
    level,
    pair_of,
    protocol_of,
    scale_of,
    serving_plan,
)
from builder.costing.tasting_results import (
    AttributeResult,
    ChoiceResult,
    Repeats,
    RightResult,
    Served,
    TastingAnalysis,
    TastingResult,
    margin_of,
)
from builder.engine.figures import Figures
from builder.forking import shared_out, workers_for
from builder.language import tr
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.tasting_values import SCORES
from builder.records.tastings import Attribute, Sample, Tasting
from builder.tasting.agreement import kendalls_w, taster_agreement
from builder.tasting.comparisons import (
    Equivalence,
    NoWorse,
    benchmark_differences,
    equivalence_within_margin,
    holm_adjusted,
    no_worse_by_margin,
    paired_differences,
)
from builder.tasting.discrimination import (
    discrimination_difference,
    discrimination_similarity,
    share_who_can_tell,
)
from builder.tasting.pairs import Pair, all_pairs
from builder.tasting.plans import PlannedSample
from builder.tasting.rank_sums import rank_sums
from builder.tasting.ranks import benchmark_ranks, friedman_test, page_trend
from builder.tasting.right import just_about_right_shares, right_window
from builder.tasting.scales import rescale_scores, scale_use
from builder.tasting.score_tables import FloatArray
from builder.tasting.scores import score_anova, taster_anova
from builder.tasting.studies import DurationStudy, study_durations
from builder.tasting.thurstone import sensory_distance
from builder.tasting.wording import hours_in_words

# Starting workers takes about as long as the statistics of this many tastings.
FEW = 4


def tasting_analyses(content: Content) -> dict[str, TastingAnalysis]:
    """Run the statistics of every tasting of checked records; they need no other figure."""
    tastings = list(content.tastings.values())

    def work(number: int) -> TastingAnalysis:
        return _analysis(content, tastings[number])

    with shared_out(work, workers_for(len(tastings), FEW)) as done:
        found = dict(done(range(len(tastings))))
    return {tasting.id: found[number] for number, tasting in enumerate(tastings)}


def tasting_results(
    analyses: Mapping[str, TastingAnalysis], figures: Figures, rows: Rows
) -> dict[str, TastingResult]:
    """Add to every analysis how its samples are served, by the figures of their cooks."""
    return {name: _with_plan(found, figures, rows) for name, found in analyses.items()}


def _with_plan(found: TastingAnalysis, figures: Figures, rows: Rows) -> TastingResult:
    planned = [_planned(figures, rows, sample) for sample in found.samples]
    analysis = {field.name: getattr(found, field.name) for field in fields(found)}
    return TastingResult(**analysis, plan=serving_plan(found.tasting, planned))


def _analysis(content: Content, tasting: Tasting) -> TastingAnalysis:
    samples = tuple(_served(content, name, sample) for name, sample in tasting.samples.items())
    ballots = read_ballots(tasting, content.ballots.get(tasting.id, ()))
    tasters = ballots.tasters(tasting)
    series = _series(samples, tasting.benchmark)
    if not tasting.is_discrimination:
        samples = called_by_hours(samples, series)
    found = TastingAnalysis(tasting, samples, tasters, ballots, series)
    if tasting.is_discrimination:
        return _with_choice(found)
    return _decided(_with_marks(found)) if tasters else found


def _decided(found: TastingAnalysis) -> TastingAnalysis:
    return replace(found, decision=decided(found))


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
    """The challengers of one course with most durations, by rising duration.

    Of several samples with one duration the first is there for all.
    """
    groups: dict[tuple[str, str, float], dict[float, int]] = {}
    for column, sample in enumerate(samples):
        if sample.course is None or sample.hours is None or sample.name == benchmark:
            continue
        groups.setdefault(sample.course, {}).setdefault(sample.hours, column)
    longest = max(groups.values(), key=len, default={})
    return tuple(longest[hours] for hours in sorted(longest)) if len(longest) > 1 else ()


def called_by_hours(samples: tuple[Served, ...], series: Sequence[int]) -> tuple[Served, ...]:
    """Samples of the course of a series by their durations, where that leaves no two alike.

    What is served a second time is called so.
    """
    courses, seen = {samples[place].course for place in series}, Counter[str]()

    def called(sample: Served) -> Served:
        if sample.course not in courses:
            return sample
        hours = hours_in_words(sample.hours or 0.0)
        seen[hours] += 1
        return replace(sample, called=hours + _again(seen[hours]))

    found = tuple(map(called, samples))
    apart = len({each.words for each in found}) == len(found)
    one_each = len({each.hours for each in found if each.called}) == len(seen)
    return found if apart and one_each else samples


def _again(time: int) -> str:
    if time == 1:
        return ""
    return tr(" again") if time == 2 else tr(" again, time {time}", time=time)


# Discrimination


def _with_choice(found: TastingAnalysis) -> TastingAnalysis:
    tasting = found.tasting
    hits = sum(choice.hit for choice in found.ballots.choices)
    count = len(found.ballots.choices)
    if tasting.correct is not None:
        hits, count = int(tasting.correct.value), len(tasting.tasters)
    return replace(found, choice=_choice(found, hits, count)) if count else found


def _choice(found: TastingAnalysis, hits: int, count: int) -> ChoiceResult:
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
        share_who_can_tell(hits, count, protocol, 1 - found.alpha, found.power),
        # Of the difference's own side and level: a difference that shows is no distance of nothing.
        sensory_distance(hits, count, protocol, 1 - (1 if protocol.two_sided else 2) * found.alpha),
    )


# Scores and ranks


def _with_marks(found: TastingAnalysis) -> TastingAnalysis:
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


def _table(found: TastingAnalysis, attribute: str) -> FloatArray:
    """Answers as tasters by samples, as they were given."""
    columns = {sample.name: column for column, sample in enumerate(found.samples)}
    lines = {taster: row for row, taster in enumerate(found.tasters)}
    table = np.full((len(found.tasters), len(found.samples)), np.nan)
    for mark in found.ballots.marks:
        if mark.attribute == attribute and mark.value is not None:
            table[lines[mark.taster], columns[mark.sample]] = mark.value
    return table


def _percent(found: TastingAnalysis, name: str, attribute: Attribute | None) -> FloatArray:
    table = _table(found, name)
    if attribute is None or attribute.scale is None:
        return table
    low = attribute.best == "low"
    scales = [
        scale_of(found.ballots.scales.get(taster) or attribute.scale, attribute.half_points, low)
        for taster in found.tasters
    ]
    return rescale_scores(table.tolist(), scales)


def _along(found: TastingAnalysis, table: FloatArray) -> FloatArray | None:
    """Answers over the series; a taster's several ones on one duration are averaged."""
    columns = [_mean_where_there(table[:, list(found.alike(place))]) for place in found.series]
    if not columns or all(np.isnan(column).all() for column in columns):
        return None
    return np.column_stack(columns)


def _mean_where_there(columns: FloatArray) -> FloatArray:
    """Mean of each row over what is there, NaN where nothing is."""
    there = (~np.isnan(columns)).sum(axis=1)
    sums = np.where(there > 0, np.nansum(columns, axis=1), np.nan)
    means: FloatArray = sums / np.maximum(there, 1)
    return means


def _study(
    found: TastingAnalysis, along: FloatArray, compared: Sequence[Pair], scored: bool
) -> DurationStudy:
    """The durations; ranks add up to one number for every taster, so no curve is laid through."""
    hours = [found.samples[column].hours or 0.0 for column in found.series]
    log_time = bool(found.tasting.log_time)
    study = study_durations(along, hours, log_time, 1 - found.alpha, compared)
    return study if scored else replace(study, curve=None, next_cook=None, note=tr("by ranks"))


def _repeats(found: TastingAnalysis, table: FloatArray) -> Repeats | None:
    """The scatter of tasters' own judgements, where one thing was served under several codes."""
    served: dict[str, list[int]] = {}
    for column, sample in enumerate(found.samples):
        served.setdefault(sample.record, []).append(column)
    most = max(map(len, served.values()))
    if most < 2:
        return None
    cube = np.full((len(table), len(served), most), np.nan)
    for place, columns in enumerate(served.values()):
        cube[:, place, : len(columns)] = table[:, columns]
    again = tuple(c for columns in served.values() if len(columns) > 1 for c in columns)
    return Repeats(again, score_anova(cube), taster_anova(cube))


def _attribute(found: TastingAnalysis, name: str, attribute: Attribute | None) -> AttributeResult:
    table, benchmark = _percent(found, name, attribute), found.benchmark
    along = _along(found, table)
    scored = attribute is not None
    pairs = all_pairs(table) if benchmark is None else ()
    compared = _compared(found, table, along, pairs)
    return AttributeResult(
        name=name,
        attribute=attribute,
        table=table,
        along=along,
        anova=score_anova(table) if scored else None,
        friedman=friedman_test(table),
        ranks=None if benchmark is None else benchmark_ranks(table, benchmark),
        sums=None if scored else rank_sums(table, benchmark, found.alpha),
        differences=benchmark_differences(table, benchmark, confidence=1 - found.alpha)
        if scored and benchmark is not None
        else None,
        no_worse=_no_worse(found, table, attribute),
        within=_within(found, table, attribute),
        pairs=pairs,
        compared=compared,
        repeats=_repeats(found, table) if scored else None,
        trend=None if along is None else page_trend(along),
        study=None if along is None else _study(found, along, compared, scored),
        agreement=kendalls_w(table),
        panel=taster_agreement(table, found.alpha),
        use=scale_use(table) if scored else (),
    )


def _compared(
    found: TastingAnalysis, table: FloatArray, along: FloatArray | None, pairs: Sequence[Pair]
) -> tuple[Pair, ...]:
    """Pairs of the samples judged, as the comparison of all samples has them where there is one.

    So what decides says no other than what compares all.
    """
    places = {column: place for place, column in enumerate(found.judged)}
    if found.benchmark is not None or found.judged_together:
        return all_pairs(table[:, list(places)] if along is None else along)
    return tuple(
        replace(pair, first=places[pair.first], second=places[pair.second])
        for pair in pairs
        if pair.first in places and pair.second in places
    )


def _no_worse(
    found: TastingAnalysis, table: FloatArray, attribute: Attribute | None
) -> dict[int, NoWorse]:
    """Each challenger's test, at a level shared among as many as there are."""
    alpha = found.shared_alpha
    return {
        column: no_worse_by_margin(values, margin, 1 - alpha)
        for column, values, margin in _to_benchmark(found, table, attribute)
    }


def _within(
    found: TastingAnalysis, table: FloatArray, attribute: Attribute | None
) -> dict[int, Equivalence]:
    """Each challenger's test of lying within the margin both ways, at the same level."""
    alpha = found.shared_alpha
    return {
        column: equivalence_within_margin(values, margin, alpha)
        for column, values, margin in _to_benchmark(found, table, attribute)
    }


def _to_benchmark(
    found: TastingAnalysis, table: FloatArray, attribute: Attribute | None
) -> Iterator[tuple[int, FloatArray, float]]:
    """Each challenger with its differences to the benchmark and the margin; none without one."""
    benchmark, margin = found.benchmark, margin_of(found.tasting, attribute)
    if margin is None or benchmark is None:
        return
    differences = paired_differences(table, benchmark)
    for column in range(len(found.samples)):
        if column != benchmark:
            yield column, differences[:, column], margin


def _right(found: TastingAnalysis, name: str, attribute: Attribute) -> RightResult:
    table = _table(found, name)
    window, along = None, _along(found, table)
    if along is not None:
        hours = [found.samples[column].hours or 0.0 for column in found.series]
        limit = level(found.tasting.off_texture, OFF_TEXTURE)
        window = right_window(along, hours, limit)
    low, high = attribute.ends
    return RightResult(
        name, (low, high), table, just_about_right_shares(table, 1 - found.alpha), along, window
    )
