"""Steps against what a batch comes to: more of the cut in one step than is bought for it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.filled_rows import Rows
from builder.engine.figures import Figures
from builder.language import tr
from builder.problems import Problem
from builder.quantities import written_like
from builder.records.content import Content
from builder.records.step_checks import ROUNDING


def check_step_figures(content: Content, figures: Figures, rows: Rows) -> Iterator[Problem]:
    """Each amount of a cook's cut by itself: one piece passes through several steps."""
    for cook in content.cooks.values():
        bought = figures.value("batch", "ap_weight", rows.cooks[cook.id])
        for step in cook.steps:
            for amount in step.amounts.values():
                if amount.value > bought * (1 + ROUNDING):
                    whole = written_like(amount.text, bought, places=2)
                    message = tr(
                        "this step takes {amount}, and a batch is {whole} as purchased",
                        amount=amount.text,
                        whole=whole,
                    )
                    yield Problem(amount.place, message, tr("take less, or fix load:"))
