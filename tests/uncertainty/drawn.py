"""Kitchens whose figures are drawn, and draws of single figures."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from builder.costing.costed import Costed
from builder.costing.uncertainty import Uncertainty
from builder.engine.draws import Spread
from builder.engine.model import Node
from builder.engine.sampling import drawn_targets
from builder.money.intervals import DRAWS
from tests.kitchens import costed_from, write

KITCHEN = {"kitchen.yaml": "name: Drawn kitchen\ncurrency: CAD\n"}
Values = NDArray[np.float64]


def costed(files: Mapping[str, str]) -> Costed:
    with tempfile.TemporaryDirectory() as folder:
        return costed_from(write(Path(folder), {**KITCHEN, **files}))


def known(kitchen: Costed) -> Uncertainty:
    assert kitchen.uncertainty is not None
    return kitchen.uncertainty


def spreads(kitchen: Costed, node: Node) -> Mapping[int, Spread]:
    return known(kitchen).spreads.get(node, {})


def ends(kitchen: Costed, table: str, figure: str, row: int = 0) -> tuple[float, float]:
    low, high = (kitchen.figures.value(table, f"{figure}_{end}", row) for end in ("low", "high"))
    return low, high


def draws_of(kitchen: Costed, *targets: Node) -> dict[Node, Values]:
    """Every draw of some figures of one table, each of shape (rows, draws)."""
    rows = np.arange(kitchen.figures.size(targets[0][0]))
    blocks = list(
        drawn_targets(
            kitchen.figures, known(kitchen).spreads, targets, rows, DRAWS, lambda _, found: found
        )
    )
    return {node: np.concatenate([block[node] for block in blocks]) for node in targets}
