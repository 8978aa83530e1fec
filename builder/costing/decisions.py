"""What a tasting decides of its samples: one object for lead, table, tile and texture section."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.panels import OFF_TEXTURE, level
from builder.costing.tasting_results import AttributeResult, RightResult, TastingAnalysis
from builder.tasting.comparisons import NoWorse
from builder.tasting.judged import Fault, Judged, Margin, Question
from builder.tasting.score_tables import FloatArray
from builder.tasting.shortlist import Shortlist, shortlist


def main_study(result: TastingAnalysis) -> AttributeResult | None:
    """The attribute that leads: over the durations, or of samples that are no series the first."""
    if result.series:
        return next((found for found in result.attributes if found.study), None)
    return next(iter(result.attributes), None)


def asked_of_texture(result: TastingAnalysis) -> list[RightResult]:
    """The questions on texture, in the order of a sample's counts."""
    if not result.series:
        return list(result.rights)
    return [right for right in result.rights if right.along is not None]


def decided(result: TastingAnalysis) -> Shortlist | None:
    """Decide which samples are out, and what follows; None without answers.

    Samples that are no series are decided on where they are held against a benchmark, or asked
    for their texture: their order means nothing then.
    """
    main, asked, columns = main_study(result), asked_of_texture(result), result.judged
    if not (main or asked) or len(columns) < 2:
        return None
    beside = bool(main and main.no_worse)
    if not (result.series or beside or asked):
        return None
    limit = level(result.tasting.off_texture, OFF_TEXTURE)
    questions = [Question(_on(result, right.table, right.along), limit) for right in asked]
    scores = _on(result, main.table, main.along) if main else None
    margin = Margin(list(_worse(result, main)), result.fewest) if main and beside else None
    order = range(1, len(columns) + 1)
    hours = [result.samples[column].hours or 0.0 for column in result.series] or order
    return shortlist(
        hours, scores, questions, result.alpha, margin, _means(result, main),
        main.compared if main else None, result.compared_among,
    )  # fmt: skip


def _means(
    result: TastingAnalysis, main: AttributeResult | None
) -> tuple[float | None, ...] | None:
    """Means as the table has them, beside all samples; None where several are one duration."""
    if main is None or main.anova is None or result.judged_together:
        return None
    return tuple(main.anova.adjusted_means[column] for column in result.judged)


def _on(result: TastingAnalysis, table: FloatArray, along: FloatArray | None) -> FloatArray:
    """Answers on the samples judged, one column each."""
    return table[:, list(result.judged)] if along is None else along


def _worse(result: TastingAnalysis, main: AttributeResult) -> Iterator[float]:
    """For each sample judged the chance that it is not worse by more than the margin."""
    for column in result.judged:
        test = main.no_worse[column]
        yield test.worse_p_value if _can_be_worse(result, test) else 1.0


def _can_be_worse(result: TastingAnalysis, test: NoWorse) -> bool:
    """Whether there are tasters enough, and the bound beside it in the table shows it too."""
    return test.tasters >= result.fewest and test.worse


def judged_at(result: TastingAnalysis, column: int) -> Judged | None:
    """What is decided of a sample."""
    if result.decision is None or column not in result.judged:
        return None
    return result.decision.judged[result.judged.index(column)]


def is_worse(result: TastingAnalysis, found: AttributeResult, column: int) -> bool:
    """Whether a challenger is worse than the benchmark by more than the margin."""
    judged = judged_at(result, column)
    if judged is not None and found is main_study(result):
        return (Fault.WORSE, None) in judged.faults
    return _can_be_worse(result, found.no_worse[column])
