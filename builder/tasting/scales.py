"""Declared scales, and how tasters use them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite

import numpy as np

from builder.engine.methods import method
from builder.language import tr
from builder.tasting.score_tables import FloatArray, score_table


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale as its ballot declares it.

    low, high: ends [points]; step: distance of neighbouring answers [points], 0 for a line;
    best_is_low: whether the low end is the good one. Raises ValueError for low >= high, ends
    that are not finite or a step below 0.

    >>> nine = Scale("9-point", 1, 9)
    >>> nine.holds(9), nine.holds(9.5), nine.holds(0)
    (True, False, False)
    """

    name: str
    low: float
    high: float
    step: float = 1.0
    best_is_low: bool = False

    def __post_init__(self) -> None:
        if not (isfinite(self.low) and isfinite(self.high) and self.low < self.high):
            raise ValueError(f"{self.name}: low must lie below high, both finite points")
        if self.step < 0:
            raise ValueError(f"{self.name}: step must be 0 points or more, not {self.step}")

    def holds(self, value: float) -> bool:
        """Tell whether a value is an answer on this scale."""
        if not (isfinite(value) and self.low <= value <= self.high):
            return False
        steps = (value - self.low) / self.step if self.step else 0.0
        return abs(steps - round(steps)) < 1e-9

    @property
    def answers(self) -> str:
        """Say what may be written on the ballot."""
        between = (
            tr("any point between") if not self.step else tr("in steps of {step:g}", step=self.step)
        )
        return tr("{low:g} to {high:g}, {between}", low=self.low, high=self.high, between=between)


@method(
    unit="points of 100",
    source="common practice, no published source",
    title="Rescaling to 0-100",
)
def rescale_scores(scores: Sequence[Sequence[float]], scales: Sequence[Scale]) -> FloatArray:
    """Scores as points of 100 by each taster's declared scale.

    100 (score − low) / (high − low), turned over where the low end is the best.

    Parameters: scores: tasters by samples [points], empty where missing. scales: one per taster.
    Errors: ValueError for a score off its scale, naming taster, scale and what it allows.

    >>> scales = [Scale("9-point", 1, 9), Scale("line", 0, 5, 0)]
    >>> rescale_scores([[1, 5, 9], [0, 2.5, 5]], scales).tolist()
    [[0.0, 50.0, 100.0], [0.0, 50.0, 100.0]]
    """
    table = score_table(scores)
    if len(scales) != len(table):
        raise ValueError(f"scales must be one per taster, {len(table)}, not {len(scales)}")
    for number, (row, scale) in enumerate(zip(table, scales, strict=True), start=1):
        off = [value for value in row if not np.isnan(value) and not scale.holds(float(value))]
        if off:
            raise ValueError(
                f"taster {number}: {off[0]:g} is off the {scale.name} scale ({scale.answers})"
            )
        worst, best = (scale.high, scale.low) if scale.best_is_low else (scale.low, scale.high)
        row[:] = 100 * (row - worst) / (best - worst)
    return table


@dataclass(frozen=True, slots=True)
class ScaleUse:
    """How one taster uses the scale, in points of 100.

    `mean`, `lowest`, `highest` are None for a taster without scores, `spread` (standard
    deviation) for fewer than two; `one_score_for_all`: two or more samples, all alike.
    """

    taster: int
    scored: int
    mean: float | None
    spread: float | None
    lowest: float | None
    highest: float | None
    one_score_for_all: bool
    only_ends: bool


def _scale_use(taster: int, row: FloatArray) -> ScaleUse:
    there = row[~np.isnan(row)]
    if not there.size:
        return ScaleUse(taster, 0, None, None, None, None, False, False)
    alike = there.size >= 2 and float(there.max()) == float(there.min())
    return ScaleUse(
        taster=taster,
        scored=there.size,
        mean=float(there.mean()),
        spread=float(there.std(ddof=1)) if there.size >= 2 else None,
        lowest=float(there.min()),
        highest=float(there.max()),
        one_score_for_all=alike,
        only_ends=there.size >= 3 and not alike and bool(np.isin(there, (0.0, 100.0)).all()),
    )


@method(
    unit="points of 100",
    source="common practice, no published source",
    title="Scale use by taster",
)
def scale_use(percent: FloatArray) -> tuple[ScaleUse, ...]:
    """How each taster uses the scale: level, spread, ends reached.

    Parameters: percent: tasters by samples [points of 100], empty where missing.
    Errors: ValueError unless it is such a table.

    >>> scale_use(np.array([[50.0, 50.0, 50.0]]))[0].one_score_for_all
    True
    """
    return tuple(_scale_use(taster, row) for taster, row in enumerate(score_table(percent)))
