"""Analysis of variance with every taster as a block."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import fdtrc

from builder.engine.methods import method
from builder.language import tr
from builder.tasting.score_tables import BoolArray, FloatArray, IntArray, score_table

# Sums of squares this far below the total are rounding, not spread.
_ROUNDING = 1e-12


@dataclass(frozen=True, slots=True)
class AnovaRow:
    """One line of the table; None where there is nothing to divide by."""

    name: str
    sum_of_squares: float
    degrees: int
    mean_square: float | None
    f_value: float | None = None
    p_value: float | None = None


@dataclass(frozen=True, slots=True)
class ScoreAnova:
    """Two-way analysis of variance.

    `interaction` is None without replicates. `samples_over_tasters` tests samples against
    the interaction: it speaks for tasters beyond this panel. `adjusted_means` are free of
    who tasted what. `note` says why a test is missing.
    """

    tasters: int
    samples: AnovaRow
    panel: AnovaRow
    interaction: AnovaRow | None
    error: AnovaRow
    samples_over_tasters: AnovaRow | None
    adjusted_means: tuple[float | None, ...]
    note: str


@dataclass(frozen=True, slots=True)
class _Observations:
    """Scores in long form, with the number of taster and sample of each."""

    values: FloatArray
    taster: IntArray
    sample: IntArray


def within_taster(scores: ArrayLike) -> FloatArray:
    """Scores less the taster's own mean.

    >>> within_taster([[1, 3], [8, 6]]).tolist()
    [[-1.0, 1.0], [1.0, -1.0]]
    """
    table = score_table(scores)
    counts = np.maximum((~np.isnan(table)).sum(axis=1, keepdims=True), 1)
    centred: FloatArray = table - np.nansum(table, axis=1, keepdims=True) / counts
    return centred


def _observations(scores: ArrayLike) -> _Observations:
    cube = np.array(scores, dtype=np.float64)
    if cube.ndim == 2:
        cube = cube[:, :, None]
    if cube.ndim != 3 or not cube.size or np.isinf(cube).any():
        raise ValueError(
            "scores must be tasters by samples, or by samples by replicates, finite or NaN"
        )
    taster, sample, _ = np.nonzero(~np.isnan(cube))
    return _Observations(cube[~np.isnan(cube)], taster, sample)


def _indicators(labels: IntArray) -> FloatArray:
    found = np.unique(labels)
    columns: BoolArray = labels[:, None] == found[None, :]
    return columns.astype(np.float64)


def _less_block_means(columns: FloatArray, blocks: IntArray) -> FloatArray:
    """Every column less its mean within each block."""
    _, place = np.unique(blocks, return_inverse=True)
    counts = np.bincount(place)[:, None]
    sums = np.stack([np.bincount(place, weights=column) for column in columns.T], axis=1)
    centred: FloatArray = columns - (sums / counts)[place]
    return centred


def _sample_effects(data: _Observations, values: FloatArray) -> tuple[FloatArray, float, int]:
    """Least-squares effects of samples beside those of tasters; what they leave, and their rank.

    Tasters are taken out first, which leaves the effects of samples as they are in a fit of
    both (Frisch and Waugh) and the equations as few as there are samples.
    """
    within = _less_block_means(np.column_stack([_indicators(data.sample), values]), data.taster)
    columns, left = within[:, :-1], within[:, -1]
    found, _, rank, _ = np.linalg.lstsq(columns, left, rcond=None)
    effects = found.astype(np.float64)
    return effects, float(((left - columns @ effects) ** 2).sum()), int(rank)


def _within(labels: IntArray, values: FloatArray) -> tuple[float, int]:
    """Residual sum of squares about the mean of each label, and how many labels there are."""
    _, place = np.unique(labels, return_inverse=True)
    counts = np.bincount(place)
    means = np.bincount(place, weights=values) / counts
    return float(((values - means[place]) ** 2).sum()), int(counts.size)


def _row(name: str, squares: float, degrees: int, over: AnovaRow | None = None) -> AnovaRow:
    squares = max(squares, 0.0)
    mean_square = squares / degrees if degrees > 0 else None
    if mean_square is None or over is None or not over.mean_square:
        return AnovaRow(name, squares, degrees, mean_square)
    f_value = mean_square / over.mean_square
    p_value = float(fdtrc(degrees, over.degrees, f_value))
    return AnovaRow(name, squares, degrees, mean_square, f_value, p_value)


def _adjusted_means(
    data: _Observations, effects: FloatArray, samples: int
) -> tuple[float | None, ...]:
    """Least-squares sample means at the average taster; None where nobody scored one."""
    found, place = np.unique(data.sample, return_inverse=True)
    _, taster = np.unique(data.taster, return_inverse=True)
    levels = np.bincount(taster, weights=data.values - effects[place]) / np.bincount(taster)
    means: list[float | None] = [None] * samples
    for sample, effect in zip(found, effects, strict=True):
        means[int(sample)] = float(effect + levels.mean())
    return tuple(means)


def _note(tasters: int, samples: int, rank: int, error: AnovaRow) -> str:
    if rank < tasters + samples - 1:
        return tr("some samples share no taster, directly or in a chain: they can't be compared")
    if samples < 2:
        return tr("one sample only: nothing to compare")
    if tasters < 2:
        return tr("one taster only: no spread between tasters to judge by")
    return "" if error.mean_square else tr("no spread is left to judge by")


@method(
    unit="1",
    source="ISO 8586 annex, worked example [read; sums of squares computed]; Gacula et al.,"
    " Statistical Methods in Food and Consumer Research, 2009 [from memory]",
    title="Analysis of variance by taster and sample",
)
def score_anova(scores: ArrayLike) -> ScoreAnova:
    """Two-way analysis of variance of scores, tasters as blocks.

    Sum of squares of samples: fall of the residual when samples join a model of tasters
    (and the other way round), so missing scores need no filling in. With replicates the
    error is the spread within taster and sample, and the interaction stands apart.

    Parameters: scores: tasters by samples, or tasters by samples by replicates [points], empty
    where missing.
    Errors: ValueError for another shape or no score at all.

    >>> table = score_anova([[1, 2, 3], [2, 3, 4.5]])
    >>> table.samples.degrees, table.error.degrees
    (2, 2)
    """
    data = _observations(scores)
    if not data.values.size:
        raise ValueError("scores must hold at least 1 score")
    values = data.values - data.values.mean()
    cells = data.taster * (int(data.sample.max()) + 1) + data.sample
    taster_rss, taster_rank = _within(data.taster, values)
    sample_rss, sample_rank = _within(data.sample, values)
    effects, both_rss, sample_effects = _sample_effects(data, values)
    both_rank = taster_rank + sample_effects
    cell_rss, cell_rank = _within(cells, values)
    replicated = cell_rank < values.size
    rest, rest_rank = (cell_rss, cell_rank) if replicated else (both_rss, both_rank)
    tiny = _ROUNDING * max(float((data.values**2).sum()), 1.0)
    error = _row("error", rest if rest > tiny else 0.0, values.size - rest_rank)
    across = _row("interaction", both_rss - cell_rss, cell_rank - both_rank, error)
    between = taster_rss - both_rss, both_rank - taster_rank
    return ScoreAnova(
        tasters=taster_rank,
        samples=_row("samples", *between, error),
        panel=_row("tasters", sample_rss - both_rss, both_rank - sample_rank, error),
        interaction=across if replicated else None,
        error=error,
        samples_over_tasters=_row("samples", *between, across) if replicated else None,
        adjusted_means=_adjusted_means(data, effects, np.array(scores).shape[1]),
        note=_note(taster_rank, sample_rank, both_rank, error),
    )


@dataclass(frozen=True, slots=True)
class TasterAnova:
    """How well one taster tells samples apart over replicates; None where not computable."""

    taster: int
    mean: float | None
    mean_square: float | None
    f_value: float | None
    p_value: float | None


@method(
    unit="1",
    source="ISO 8586 annex, worked example [read]",
    title="Analysis of variance for one taster",
)
def taster_anova(scores: ArrayLike) -> tuple[TasterAnova, ...]:
    """One-way analysis of variance over samples for each taster who scored replicates.

    F = mean square between samples / mean square between replicates of a sample.

    Parameters: scores: tasters by samples by replicates [points], empty where missing.
    Errors: ValueError for another shape.

    >>> round(taster_anova([[[1, 2], [4, 5]]])[0].f_value, 1)
    18.0
    """
    cube = np.array(scores, dtype=np.float64)
    if cube.ndim != 3 or not cube.size:
        raise ValueError("scores must be tasters by samples by replicates")
    return tuple(_taster_anova(taster, cube[taster : taster + 1]) for taster in range(len(cube)))


def _taster_anova(taster: int, cube: FloatArray) -> TasterAnova:
    if np.isnan(cube).all():
        return TasterAnova(taster, None, None, None, None)
    whole = score_anova(cube)
    # One taster alone: without replicates "error" would be the fit of taster plus sample.
    row = whole.samples
    return TasterAnova(taster, float(np.nanmean(cube)), row.mean_square, row.f_value, row.p_value)
