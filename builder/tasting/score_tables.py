"""Tables of tasters [rows] by samples [columns], NaN where a score is missing."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray: TypeAlias = NDArray[np.float64]
BoolArray: TypeAlias = NDArray[np.bool_]
IntArray: TypeAlias = NDArray[np.int64]


def score_table(scores: ArrayLike) -> FloatArray:
    """Return scores as a checked table.

    Raises ValueError unless it is tasters by samples, at least 1 by 1, with finite scores
    (NaN where one is missing).

    >>> score_table([[1, 2], [3, float("nan")]]).shape
    (2, 2)
    """
    table = np.array(scores, dtype=np.float64)
    if table.ndim != 2 or not table.size or np.isinf(table).any():
        raise ValueError(
            "scores must be a table of tasters [rows] by samples [columns], at least 1 by 1,"
            " every score finite or NaN"
        )
    return table


def check_column(name: str, column: int, table: FloatArray) -> None:
    """Raise ValueError unless `column` is the number of a sample."""
    if not 0 <= column < table.shape[1]:
        raise ValueError(f"{name} must be from 0 to {table.shape[1] - 1}, not {column}")


def complete_rows(table: FloatArray) -> FloatArray:
    """Keep the tasters who scored every sample."""
    kept: FloatArray = table[~np.isnan(table).any(axis=1)]
    return kept


def informative_rows(table: FloatArray) -> FloatArray:
    """Keep the tasters who scored two samples or more and not all alike."""
    present = ~np.isnan(table)
    high = np.where(present, table, -np.inf).max(axis=1)
    low = np.where(present, table, np.inf).min(axis=1)
    kept: FloatArray = table[(present.sum(axis=1) >= 2) & (high > low)]
    return kept


def sorted_rows(table: FloatArray) -> FloatArray:
    """Rows in an order that depends on neither the tasters' names nor the samples'.

    Chance draws that go over the rows then come out alike however both are listed.
    """
    if len(table) < 2:
        return table
    inner = np.sort(table, axis=1)
    keys = [*table.T[::-1], *inner.T[::-1]]
    ordered: FloatArray = table[np.lexsort(keys)]
    return ordered


def rank_within_tasters(scores: ArrayLike) -> FloatArray:
    """Ranks within each taster, 1 for the lowest score, ties sharing their mean.

    >>> rank_within_tasters([[5, 7, 7], [0.2, 0.1, float("nan")]]).tolist()
    [[1.0, 2.5, 2.5], [2.0, 1.0, nan]]
    """
    rows = score_table(scores)
    each, other = rows[:, :, None], rows[:, None, :]
    ranks = (each > other).sum(axis=2) + ((each == other).sum(axis=2) + 1) / 2
    return np.asarray(np.where(np.isnan(rows), np.nan, ranks))
