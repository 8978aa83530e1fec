"""What one statistical test of a tasting finds, as figures: one table for every kind of test.

A row is one test, or one estimate with its limits. Each has the figures that its method gives;
the others are not known.
"""

from __future__ import annotations

from builder.engine.tables import Table
from builder.tasting.agreement import kendalls_w, taster_agreement
from builder.tasting.comparisons import (
    benchmark_differences,
    equivalence_within_margin,
    no_worse_by_margin,
)
from builder.tasting.discrimination import (
    discrimination_difference,
    discrimination_similarity,
    share_who_can_tell,
)
from builder.tasting.durations import curve_misfit, duration_curve
from builder.tasting.pairs import all_pairs
from builder.tasting.rank_sums import rank_sums
from builder.tasting.ranks import benchmark_ranks, friedman_test, page_trend
from builder.tasting.right import just_about_right_shares, right_window
from builder.tasting.scales import scale_use
from builder.tasting.scores import score_anova, taster_anova
from builder.tasting.studies import not_distinguishable_from_best
from builder.tasting.thurstone import sensory_distance

FINDING = Table("finding", "A statistical test of a tasting")
FINDING.given("tasters", "count", "Tasters whose answers the test rests on")
FINDING.given(
    "correct", "count", "Correct answers; in a pair that asks either way, choices of the sample"
)
FINDING.given("answers", "count", "Answers of the kind that is counted")
FINDING.given("guess", "share", "Share of correct answers where everybody guesses")
FINDING.given("risk", "share", "Risk of a false claim that the test is held to")
FINDING.given("limit", "share", "Share that matters: who can tell, or who find it off")
FINDING.given("margin", "points", "Margin stated before the tasting")

_COUNTED = ("tasters", "correct", "answers", "guess", "risk", "limit", "margin")
_ESTIMATES = (
    share_who_can_tell, sensory_distance, score_anova, friedman_test, benchmark_differences,
    no_worse_by_margin, equivalence_within_margin, all_pairs, duration_curve,
    just_about_right_shares, right_window, kendalls_w, taster_agreement, scale_use, rank_sums,
)  # fmt: skip
_LIMITS = (
    share_who_can_tell, sensory_distance, benchmark_differences, equivalence_within_margin,
    duration_curve, just_about_right_shares, right_window,
)  # fmt: skip
_BOUNDS = (share_who_can_tell, no_worse_by_margin)

FINDING.applied(
    "statistic",
    "count",
    "What the test computes: F, Friedman's chi-square, Page's L, a difference of rank sums",
    (score_anova, taster_anova, friedman_test, page_trend, benchmark_ranks),
    *_COUNTED,
)
FINDING.applied(
    "degrees_of_freedom",
    "count",
    "Degrees of freedom of the statistic",
    (score_anova, friedman_test),
    *_COUNTED,
)
FINDING.applied(
    "error_degrees_of_freedom",
    "count",
    "Degrees of freedom of the error that F is over",
    score_anova,
    *_COUNTED,
)
FINDING.applied(
    "p_value",
    "chance",
    "Chance of such answers, or clearer ones, if what the test would refute were true",
    (
        discrimination_difference, discrimination_similarity, score_anova, taster_anova,
        friedman_test, benchmark_differences, no_worse_by_margin, equivalence_within_margin,
        page_trend, curve_misfit, taster_agreement,
    ),
    *_COUNTED,
)  # fmt: skip
FINDING.applied(
    "adjusted_p_value",
    "chance",
    "The p value with all that were tested at once counted",
    (
        friedman_test, benchmark_differences, benchmark_ranks, all_pairs,
        not_distinguishable_from_best,
    ),
    *_COUNTED,
)  # fmt: skip
FINDING.applied("estimate", "tested", "What is estimated", _ESTIMATES, *_COUNTED)
FINDING.applied("lower", "tested", "Lower of two limits of the estimate", _LIMITS, *_COUNTED)
FINDING.applied("upper", "tested", "Upper of two limits of the estimate", _LIMITS, *_COUNTED)
FINDING.applied("at_least", "tested", "One-sided bound from below", _BOUNDS, *_COUNTED)
FINDING.applied("at_most", "tested", "One-sided bound from above", _BOUNDS, *_COUNTED)
FINDING.applied(
    "confidence",
    "share",
    "Confidence of the limits and bounds, each pair or each bound",
    (*_LIMITS, no_worse_by_margin),
    *_COUNTED,
)
FINDING.applied(
    "spread",
    "points",
    "Standard deviation: of differences, of a taster's answers, of judgements of one thing",
    (benchmark_differences, no_worse_by_margin, scale_use, score_anova),
    *_COUNTED,
)
FINDING.applied("lowest", "points", "Lowest answer", scale_use, *_COUNTED)
FINDING.applied("highest", "points", "Highest answer", scale_use, *_COUNTED)
FINDING.applied(
    "critical_number",
    "count",
    "Correct answers that are just enough to show a difference, or just few enough for likeness",
    (discrimination_difference, discrimination_similarity),
    *_COUNTED,
)
FINDING.applied(
    "above", "count", "Tasters who put the sample above the other", benchmark_ranks, *_COUNTED
)
FINDING.applied("alike", "count", "Tasters who put both alike", benchmark_ranks, *_COUNTED)
FINDING.applied("below", "count", "Tasters who put the sample below", benchmark_ranks, *_COUNTED)
