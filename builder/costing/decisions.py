"""What a tasting decides of durations: one object for lead, table, tile and texture section."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.panels import OFF_TEXTURE, level
from builder.costing.tasting_results import AttributeResult, RightResult, TastingAnalysis
from builder.tasting.comparisons import NoWorse
from builder.tasting.judged import Fault, Judged, Margin, Question
from builder.tasting.shortlist import Shortlist, shortlist


def main_study(result: TastingAnalysis) -> AttributeResult | None:
    """The attribute that leads over the durations."""
    return next((found for found in result.attributes if found.study), None)


def asked_of_texture(result: TastingAnalysis) -> list[RightResult]:
    """The questions on texture, in the order of a duration's counts."""
    return [right for right in result.rights if right.along is not None]


def decided(result: TastingAnalysis) -> Shortlist | None:
    """Decide which durations are out, and what follows; None without a series or answers."""
    main, asked = main_study(result), asked_of_texture(result)
    if not result.series or not (main or asked):
        return None
    hours = [result.samples[column].hours or 0.0 for column in result.series]
    limit = level(result.tasting.off_texture, OFF_TEXTURE)
    questions = [Question(right.along, limit) for right in asked if right.along is not None]
    beside = bool(main and main.no_worse)
    margin = Margin(list(_worse(result, main)), result.fewest) if main and beside else None
    return shortlist(hours, main.along if main else None, questions, result.alpha, margin)


def _worse(result: TastingAnalysis, main: AttributeResult) -> Iterator[float]:
    """For each duration the chance that it is not worse by more than the margin."""
    for column in result.series:
        test = main.no_worse[column]
        yield test.worse_p_value if _can_be_worse(result, test) else 1.0


def _can_be_worse(result: TastingAnalysis, test: NoWorse) -> bool:
    """Whether there are tasters enough, and the bound beside it in the table shows it too."""
    return test.tasters >= result.fewest and test.worse


def judged_at(result: TastingAnalysis, column: int) -> Judged | None:
    """What is decided of a sample of the series."""
    if result.decision is None or column not in result.series:
        return None
    return result.decision.judged[result.series.index(column)]


def is_worse(result: TastingAnalysis, found: AttributeResult, column: int) -> bool:
    """Whether a challenger is worse than the benchmark by more than the margin."""
    judged = judged_at(result, column)
    if judged is not None and found is main_study(result):
        return (Fault.WORSE, None) in judged.faults
    return _can_be_worse(result, found.no_worse[column])
