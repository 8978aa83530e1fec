"""Rank sums, and how far apart chance alone brings them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from builder.engine.methods import method
from builder.tasting.ranks import largest_difference, upper_tail
from builder.tasting.score_tables import (
    FloatArray,
    check_column,
    complete_rows,
    informative_rows,
    rank_within_tasters,
    score_table,
)

_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class RankSums:
    """Rank sums [ranks] of the tasters who judged every sample.

    `limit`: differences up to it may be chance [ranks].
    """

    tasters: int
    sums: tuple[float, ...]
    limit: float


def _limit(values: FloatArray, chances: FloatArray, exact: bool, alpha: float) -> float:
    """The largest difference that comes by chance more often than alpha."""
    may_be = [v for v in np.unique(values) if upper_tail(values, chances, exact, v) > alpha + _HAIR]
    return float(max(may_be, default=0.0))


@method(
    unit="ranks",
    source="Hollander & Wolfe, Nonparametric Statistical Methods, 2nd ed. 1999, sections 7.3 and"
    " 7.4 (rank sums, all pairs and many to one) [from memory]",
    title="Rank sums and their limit",
)
def rank_sums(scores: ArrayLike, benchmark: int | None = None, alpha: float = 0.05) -> RankSums:
    """Rank sum of every sample, and the difference that chance alone seldom exceeds.

    The limit is counted over all rearrangements within tasters: if no sample differs, the
    largest difference to the benchmark, or without one of any two samples, is larger in at most
    alpha of them. Beside a benchmark it is the limit of the rank comparisons with it.

    Parameters: scores: tasters by samples [any scale], tasters with a missing score are left out.
    benchmark: number of its column, none: every two samples. alpha: [1], above 0 and below 1.
    Errors: ValueError outside that.

    >>> rank_sums([[1, 2, 3]] * 4).sums, rank_sums([[1, 2, 3]] * 4).limit
    ((4.0, 8.0, 12.0), 6.0)
    """
    table = score_table(scores)
    if benchmark is not None:
        check_column("benchmark", benchmark, table)
    if not 0 < alpha < 1:
        raise ValueError("alpha must be above 0 and below 1")
    complete = complete_rows(table)
    ranks = rank_within_tasters(complete) if complete.size else complete
    chance = largest_difference(informative_rows(ranks), 0 if benchmark is None else 1)
    sums = tuple(map(float, ranks.sum(axis=0)))
    return RankSums(len(ranks), sums, _limit(*chance, alpha))
