"""Differences to a benchmark within tasters: permutation tests, bounds, equivalence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, log, log2, sqrt
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import stdtr, stdtrit

from builder.engine.methods import method
from builder.tasting.draws import random_words
from builder.tasting.score_tables import FloatArray, check_column, score_table, sorted_rows

Side = Literal["two-sided", "greater"]

EXACT_TASTERS = 14
DRAWS = 20_000
# Two statistics nearer than this are the same but for rounding.
_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class PairedDifference:
    """One sample less the benchmark, over the tasters who had both.

    mean, spread (standard deviation), lower, upper (two-sided t interval): [points], None
    where too few tasters or no spread; p_value: sign-flip permutation; adjusted_p_value: the
    same for all comparisons at once; holm_p_value: p_value adjusted after Holm.
    """

    sample: int
    tasters: int
    mean: float | None
    spread: float | None
    lower: float | None
    upper: float | None
    p_value: float
    adjusted_p_value: float
    holm_p_value: float


@dataclass(frozen=True, slots=True)
class BenchmarkComparison:
    """All samples against the benchmark; `exact` when every sign pattern was counted."""

    benchmark: int
    confidence: float
    exact: bool
    differences: tuple[PairedDifference, ...]


def _signs(tasters: int) -> tuple[FloatArray, bool]:
    """Every pattern of signs, or a fixed random set of them with the observed one first."""
    if tasters <= EXACT_TASTERS:
        bits = np.arange(2**tasters)[:, None] >> np.arange(tasters)
        return (1.0 - 2.0 * (bits & 1)).astype(np.float64), True
    words = random_words((DRAWS, tasters), "sign flips")
    flips = 1.0 - 2.0 * (words >> np.uint64(63)).astype(np.float64)
    flips[0] = 1.0
    return flips, False


def _flip_statistics(differences: FloatArray) -> tuple[FloatArray, bool]:
    """Scaled sums for every sign pattern [patterns by samples]; the first is the observed.

    With the sum of squares fixed under flips, the sum over its root is a rising function of
    Student's t and, unlike t, finite when all differences are alike.
    """
    rows = np.nan_to_num(sorted_rows(differences[(differences != 0).any(axis=1)]))
    size = np.sqrt((rows**2).sum(axis=0))
    signs, exact = _signs(len(rows))
    scaled: FloatArray = rows / np.where(size > 0, size, 1.0)
    return (signs @ scaled).astype(np.float64), exact


def _tail_shares(statistics: FloatArray, observed: FloatArray) -> list[float]:
    """Share of patterns that reach each observed statistic [samples]."""
    reached = statistics >= observed[None, :] - _HAIR
    return [float(share) for share in reached.mean(axis=0)]


def holm_adjusted(p_values: Sequence[float]) -> tuple[float, ...]:
    """P values adjusted for several comparisons after Holm (1979).

    The k-th smallest of m times m − k + 1, never below the one before it, at most 1.

    >>> [round(p, 3) for p in holm_adjusted([0.01, 0.04, 0.03])]
    [0.03, 0.06, 0.06]
    """
    order = sorted(range(len(p_values)), key=lambda index: p_values[index])
    adjusted, highest = [0.0] * len(p_values), 0.0
    for rank, index in enumerate(order):
        highest = max(highest, min(1.0, (len(p_values) - rank) * p_values[index]))
        adjusted[index] = highest
    return tuple(adjusted)


def fewest_for_signs(alpha: float = 0.05, two_sided: bool = True) -> int:
    """Fewest tasters with whom a sign-flip test of one difference can reach alpha.

    All agreeing is one pattern of 2^n, two where either side counts. alpha: [1], above 0 and
    below 1.

    >>> fewest_for_signs(0.05, two_sided=False), fewest_for_signs()
    (5, 6)
    """
    return ceil(log2((2 if two_sided else 1) / alpha) - _HAIR)


def fewest_for_orders(samples: int, alpha: float = 0.05, beside: bool = False) -> int:
    """Fewest tasters with whom rearrangements within tasters can tell two samples apart.

    If all agree, the first and the last sample are one of k(k − 1) ordered pairs at the ends
    of every taster's order; beside: only the 2(k − 1) pairs with one given sample count.
    samples k: 2 or more. alpha: [1], above 0 and below 1.

    >>> fewest_for_orders(2), fewest_for_orders(3), fewest_for_orders(3, beside=True)
    (6, 3, 3)
    """
    orders = samples * (samples - 1)
    counted = 2 * (samples - 1) if beside else orders
    return ceil(log(counted / alpha) / log(orders) - _HAIR)


def _moments(values: FloatArray) -> tuple[float | None, float | None]:
    mean = float(values.mean()) if values.size else None
    return mean, float(values.std(ddof=1)) if values.size >= 2 else None


def _interval(values: FloatArray, confidence: float) -> tuple[float | None, float | None]:
    """Two-sided t interval; None where there is no spread to make one from."""
    mean, spread = _moments(values)
    if mean is None or not spread:
        return None, None
    reach = -float(stdtrit(values.size - 1, (1 - confidence) / 2)) * spread / sqrt(values.size)
    return mean - reach, mean + reach


def _check_confidence(confidence: float) -> None:
    if not 0.5 <= confidence < 1:
        raise ValueError(f"confidence must be from 0.5 to below 1, not {confidence}")


def paired_differences(scores: ArrayLike, benchmark: int) -> FloatArray:
    """Each taster's scores less that taster's score of the benchmark [tasters by samples]."""
    table = score_table(scores)
    check_column("benchmark", benchmark, table)
    differences: FloatArray = table - table[:, [benchmark]]
    return differences


@method(
    unit="points",
    source="Nichols & Holmes, Nonparametric permutation tests, Human Brain Mapping 15, 2002 (sign"
    " flips, maximum statistic); Holm, Scandinavian Journal of Statistics 6, 1979 [from memory]",
    title="Differences to the benchmark",
)
def benchmark_differences(
    scores: ArrayLike, benchmark: int, side: Side = "two-sided", confidence: float = 0.95
) -> BenchmarkComparison:
    """Every sample less the benchmark within tasters, with permutation p values.

    If a sample eats like the benchmark, a taster's difference is as likely turned round.
    p = share of sign patterns (one sign per taster) whose |Σ d| / √(Σ d²) reaches the
    observed; adjusted p = the same for the largest over all samples. All patterns up to 14
    tasters with a difference, else 20,000 fixed random ones.

    Parameters: scores: tasters by samples [points of one scale], empty where missing. benchmark:
    number of its column. side: "greater" asks only whether the sample scores above. confidence:
    [1], 0.5 to below 1.
    Errors: ValueError outside those ranges.

    >>> table = [[5, 7], [4, 6], [6, 9], [5, 6], [3, 6]]
    >>> benchmark_differences(table, 0).differences[0].p_value
    0.0625
    """
    differences = paired_differences(scores, benchmark)
    _check_confidence(confidence)
    others = [column for column in range(differences.shape[1]) if column != benchmark]
    statistics, exact = _flip_statistics(differences[:, others])
    if side == "two-sided":
        statistics = np.abs(statistics)
    single = _tail_shares(statistics, statistics[0])
    highest = statistics.max(axis=1, initial=-np.inf)[:, None]
    joint = _tail_shares(highest, statistics[0])
    holm = holm_adjusted(single)
    found = []
    for index, column in enumerate(others):
        values = differences[:, column][~np.isnan(differences[:, column])]
        mean, spread = _moments(values)
        limits = _interval(values, confidence)
        ps = (single[index], joint[index], holm[index])
        found.append(PairedDifference(column, values.size, mean, spread, *limits, *ps))
    return BenchmarkComparison(benchmark, confidence, exact, tuple(found))


@dataclass(frozen=True, slots=True)
class NoWorse:
    """Is the challenger no worse by more than the margin?

    mean, spread, lower (one-sided bound of challenger − benchmark), upper (one-sided bound
    from above): [points]; None where there are too few tasters or no spread.
    `by_signs`: no spread, so only the count of tasters beyond the margin was tested.
    worse_p_value: the same test the other way, that it lies below by more than the margin.
    """

    tasters: int
    margin: float
    confidence: float
    mean: float | None
    spread: float | None
    lower: float | None
    upper: float | None
    p_value: float
    worse_p_value: float
    by_signs: bool

    @property
    def established(self) -> bool:
        """Whether "no worse by more than the margin" is shown."""
        return self.p_value <= 1 - self.confidence + 1e-12

    @property
    def worse(self) -> bool:
        """Whether "worse by more than the margin" is shown instead."""
        return self.worse_p_value <= 1 - self.confidence + 1e-12


def _t_tail(mean: float, spread: float, count: int, shift: float) -> float:
    """Chance of a mean so far above `shift` when that is the truth."""
    return float(stdtr(count - 1, (shift - mean) * sqrt(count) / spread))


def _sign_tail(values: FloatArray, limit: float) -> float:
    """One-sided sign test that the median lies above `limit`, all values being alike."""
    return 0.5**values.size if values.size and float(values[0]) > limit else 1.0


def _differences(differences: ArrayLike) -> FloatArray:
    values = np.array(differences, dtype=np.float64).ravel()
    if np.isinf(values).any():
        raise ValueError("differences must be finite points or NaN")
    return values[~np.isnan(values)]


def _spread_is_real(values: FloatArray) -> bool:
    """Whether differences vary by more than rounding."""
    return values.size >= 2 and float(np.ptp(values)) > _HAIR * max(1.0, np.abs(values).max())


@method(
    unit="points",
    source="Walker & Nowacki, Understanding equivalence and noninferiority testing, Journal of"
    " General Internal Medicine 26, 2011 [from memory]",
    title="No worse by more than the margin",
)
def no_worse_by_margin(differences: ArrayLike, margin: float, confidence: float = 0.95) -> NoWorse:
    """One-sided paired t test that the challenger is no worse by more than the margin.

    Lower bound = mean − t × spread / √n; established when it lies above −margin. Upper bound
    below −margin: worse by more than it. When all tasters differ alike there is no spread:
    then the sign test, p = 2^−n.

    Parameters: differences: challenger − benchmark for each taster [points], empty ones left out.
    margin: [points], above 0, stated before the tasting. confidence: [1], 0.5 to below 1.
    Errors: ValueError outside those ranges.

    >>> no_worse_by_margin([2, -4, 1, 3, -2, 0, 5, 1], margin=5).established
    True
    """
    if not margin > 0:
        raise ValueError(f"margin must be above 0 points, not {margin}")
    _check_confidence(confidence)
    values = _differences(differences)
    mean, spread = _moments(values)
    if mean is None or spread is None or not _spread_is_real(values):
        signs = _sign_tail(values, -margin), _sign_tail(-values, margin)
        return NoWorse(values.size, margin, confidence, mean, spread, None, None, *signs, True)
    limits = _interval(values, 2 * confidence - 1)
    tails = (
        _t_tail(mean, spread, values.size, -margin),
        _t_tail(-mean, spread, values.size, margin),
    )
    return NoWorse(values.size, margin, confidence, mean, spread, *limits, *tails, False)


@dataclass(frozen=True, slots=True)
class Equivalence:
    """Two one-sided tests; limits [points] are those of the interval at 1 − 2 alpha."""

    tasters: int
    margin: float
    mean: float | None
    standard_error: float | None
    lower: float | None
    upper: float | None
    p_value: float
    alpha: float

    @property
    def equivalent(self) -> bool:
        """Whether the difference is shown to lie within the margin, both ways."""
        return self.p_value <= self.alpha


@method(
    unit="points",
    source="Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15, 1987 [from memory;"
    " checked against values of a statistics library's own tests, read]",
    title="Equivalence within a margin",
)
def equivalence_within_margin(
    differences: ArrayLike, margin: float, alpha: float = 0.05
) -> Equivalence:
    """Two one-sided paired t tests that the difference lies within ± margin.

    p = the larger of both one-sided p values; interval: mean ± t₁₋α × spread / √n.

    Parameters: differences: challenger − benchmark for each taster [points], empty ones left out.
    margin: [points], above 0. alpha: [1], above 0 and at most 0.5.
    Errors: ValueError outside those ranges.

    >>> equivalence_within_margin([0.1, -0.2, 0.3, 0.0, -0.1], margin=1).equivalent
    True
    """
    if not margin > 0 or not 0 < alpha <= 0.5:
        raise ValueError(
            f"margin must be above 0 points and alpha above 0, at most 0.5; not {margin}, {alpha}"
        )
    values = _differences(differences)
    mean, spread = _moments(values)
    if mean is None or spread is None or not _spread_is_real(values):
        p_value = max(_sign_tail(values, -margin), _sign_tail(-values, -margin))
        return Equivalence(values.size, margin, mean, None, None, None, p_value, alpha)
    p_value = max(
        _t_tail(mean, spread, values.size, -margin), _t_tail(-mean, spread, values.size, -margin)
    )
    lower, upper = _interval(values, 1 - 2 * alpha)
    error = spread / sqrt(values.size)
    return Equivalence(values.size, margin, mean, error, lower, upper, p_value, alpha)
