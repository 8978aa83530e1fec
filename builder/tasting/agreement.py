"""Do tasters agree, and who can't be told from somebody answering at random?"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from itertools import permutations
from math import factorial

import numpy as np
from numpy.typing import ArrayLike, NDArray

from builder.engine.methods import method
from builder.language import tr
from builder.tasting.discrimination import check_share
from builder.tasting.draws import random_words
from builder.tasting.score_tables import FloatArray, complete_rows, rank_within_tasters, score_table
from builder.tasting.scores import within_taster

_MOST_EXACT_SAMPLES = 7
_DRAWS = 10_000
_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Concordance:
    """Kendall's W over the tasters who scored all samples; None where not computable."""

    tasters: int
    samples: int
    w: float | None
    note: str


@method(
    unit="1",
    source="Kendall & Babington Smith, The problem of m rankings, Annals of Mathematical"
    " Statistics 10, 1939 [from memory]",
    title="Kendall's W",
)
def kendalls_w(scores: ArrayLike) -> Concordance:
    """Agreement of tasters in ranking samples: 0 none, 1 complete.

    W = 12 S / (J² (p³ − p) − J Σ T), S the sum of squares of rank sums about their mean, T
    the sum of t³ − t over a taster's ties.

    Parameters: scores: tasters by samples [any scale], empty where missing.
    Errors: ValueError unless it is such a table.

    >>> kendalls_w([[1, 2, 3], [2, 4, 9]]).w
    1.0
    """
    table = score_table(scores)
    rows = complete_rows(table)
    tasters, samples = rows.shape
    if tasters < 2 or samples < 2:
        return Concordance(tasters, samples, None, tr("agreement needs two who had every sample"))
    centred = rank_within_tasters(rows) - (samples + 1) / 2
    # J² (p³ − p) − J Σ T is 12 J times the squares of all centred ranks.
    squares = float((centred**2).sum())
    if not squares:
        return Concordance(tasters, samples, None, tr("nobody told any two samples apart"))
    w = float((centred.sum(axis=0) ** 2).sum()) / (tasters * squares)
    return Concordance(tasters, samples, w, "")


class Standing(StrEnum):
    """How a taster compares with the rest of the panel."""

    AGREES = "agrees with the rest"
    NOT_SHOWN = "may be answering at random"
    CONTRARY = "answers the other way round"
    ONE_SCORE = "gave one score to all"
    TOO_FEW = "too few samples to tell"


@dataclass(frozen=True, slots=True)
class TasterAgreement:
    """One taster against the mean of the others.

    correlation: Pearson's, over samples that both scored; p_value: chance that the same
    scores in random order agree as well. None where not computable.
    """

    taster: int
    compared: int
    correlation: float | None
    p_value: float | None
    standing: Standing


@lru_cache(maxsize=16)
def _orders(count: int) -> NDArray[np.intp]:
    """Every order of `count` things, or a fixed random set with the given order first."""
    if count <= _MOST_EXACT_SAMPLES:
        return np.array(list(permutations(range(count))), dtype=np.intp)
    orders = np.argsort(random_words((_DRAWS, count), "taster orders"), axis=1)
    orders[0] = np.arange(count)
    return orders


def _correlations(own: FloatArray, rest: FloatArray) -> FloatArray:
    """Correlation with the rest for every order of the taster's own scores; observed first."""
    own, rest = own - own.mean(), rest - rest.mean()
    size = float(np.sqrt((own**2).sum() * (rest**2).sum()))
    values: FloatArray = own[_orders(own.size)] @ rest / size
    return values


def _flat(values: FloatArray) -> bool:
    return values.size < 2 or float(np.ptp(values)) <= _HAIR * max(1.0, np.abs(values).max())


def _least_chance(compared: int) -> float:
    """The least chance that any scores of so many samples can have."""
    return 1 / factorial(compared)


def _standing(p_value: float, opposite: float, least: float, alpha: float) -> Standing:
    if least > alpha:
        return Standing.TOO_FEW
    if p_value <= alpha:
        return Standing.AGREES
    return Standing.CONTRARY if opposite <= alpha else Standing.NOT_SHOWN


def _taster(taster: int, centred: FloatArray, alpha: float) -> TasterAgreement:
    others = np.delete(centred, taster, axis=0)
    there = ~np.isnan(centred[taster]) & (~np.isnan(others)).any(axis=0)
    own = centred[taster][there]
    if _flat(own):
        standing = Standing.ONE_SCORE if own.size >= 2 else Standing.TOO_FEW
        return TasterAgreement(taster, own.size, None, None, standing)
    rest = np.nanmean(others[:, there], axis=0)
    if _flat(rest):
        standing = _standing(1.0, 1.0, _least_chance(own.size), alpha)
        return TasterAgreement(taster, own.size, None, None, standing)
    values = _correlations(own, rest)
    p_value = float((values >= values[0] - _HAIR).mean())
    opposite = float((values <= values[0] + _HAIR).mean())
    ends = float(values.max()) - _HAIR, float(values.min()) + _HAIR
    least = min(float((values >= ends[0]).mean()), float((values <= ends[1]).mean()))
    standing = _standing(p_value, opposite, least, alpha)
    return TasterAgreement(taster, own.size, float(values[0]), p_value, standing)


@method(
    unit="1",
    source="common practice, no published source (correlation with the rest of the panel,"
    " permutation test)",
    title="Agreement of each taster",
)
def taster_agreement(scores: ArrayLike, alpha: float = 0.05) -> tuple[TasterAgreement, ...]:
    """Each taster's correlation with the mean of the rest, and how chance would do.

    Pearson's r between the taster's scores and the mean of the others' scores less their own
    means. p = share of orders of the taster's own scores with r as large: all orders up to 7
    samples, 10,000 fixed random ones above. With three samples or fewer p can't be below
    1/6, with four of which two are scored alike not below 1/12: too few to tell.

    Parameters: scores: tasters by samples [points of one scale], empty where missing. alpha: [1],
    above 0 and below 1.
    Errors: ValueError outside that.

    >>> [t.standing.value for t in taster_agreement([[1, 2, 3, 4], [2, 4, 5, 8], [5, 5, 5, 5]])][0]
    'agrees with the rest'
    """
    check_share("alpha", alpha)
    centred = within_taster(scores)
    return tuple(_taster(taster, centred, alpha) for taster in range(len(centred)))
