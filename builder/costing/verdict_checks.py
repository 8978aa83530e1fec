"""Warnings of plans that do not meet the kitchen's rule set, and of cautions under any."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.cautions import findings
from builder.costing.heat import Heat
from builder.problems import Problem, Severity
from builder.records.content import Content


def check_verdicts(content: Content, heat: Heat) -> Iterator[Problem]:
    """Warn of each cook, cooling, storing, reheating and holding that does not meet its rule."""
    for cook in content.cooks.values():
        for found in findings(cook, content.cuts[cook.cut], heat):
            yield Problem(found.place, found.message, found.hint, Severity.WARNING, cook.path)
