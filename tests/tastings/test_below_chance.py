"""Fewer correct answers than guessing brings are told, by the binomial of scipy."""

from __future__ import annotations

import pytest
from scipy.stats import binom

from builder.costing.below_chance import SURE
from builder.problems import Severity
from tests.tastings.kitchens import PLACE, computed


@pytest.mark.parametrize(
    ("test", "guess", "correct", "tasters"),
    [
        ("triangle", 1 / 3, 0, 12),
        ("triangle", 1 / 3, 0, 14),
        ("triangle", 1 / 3, 8, 80),
        ("triangle", 1 / 3, 9, 18),
        ("paired\nexpected: long\nasks: tenderness", 1 / 2, 1, 12),
        ("paired\nexpected: long\nasks: tenderness", 1 / 2, 3, 12),
        ("paired\nasks: tenderness", 1.0, 1, 12),
    ],
)
def test_a_panel_that_chance_does_not_explain(
    test: str, guess: float, correct: int, tasters: int
) -> None:
    """Without an expected sample no answer is the correct one, so nothing is too few."""
    answered = "".join(
        f"  T{n + 1}: {'long' if n < correct else 'short'}\n" for n in range(tasters)
    )
    counted = f"answers:\n{answered}" if guess == 1.0 else f"correct: {correct}\n"
    yaml = f"test: {test}\nsamples: {{long: chuck-36h, short: chuck-24h}}\ntasters: {tasters}\n"
    _, problems = computed({PLACE: yaml + counted})
    told = [each for each in problems if "fewer than guessing alone brings" in each.message]
    rare = guess < 1 and binom.cdf(correct, tasters, guess) < 1 - SURE
    assert len(told) == rare, [str(each) for each in problems]
    for each in told:
        assert each.severity is Severity.WARNING
        assert f"{correct} correct of {tasters}" in each.message
