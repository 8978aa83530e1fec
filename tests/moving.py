"""What-ifs of one input of one row."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from builder.engine.figures import Figures
from builder.engine.model import Node


def with_row(figures: Figures, node: Node, row: int, values: Iterable[float]) -> Figures:
    """Move one input of one row through a series of values, one draw for each."""
    series = np.array(list(values), dtype=np.float64)
    column = np.repeat(figures.column(*node)[:, :1], len(series), axis=1)
    column[row] = series
    return figures.moved({node: column})
