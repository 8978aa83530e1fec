"""The ranges that docstrings state, held at their ends; power by all outcomes."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from scipy.stats import binom, binomtest

from builder.tasting.agreement import Standing, taster_agreement
from builder.tasting.codes import blind_codes, codes_by_taster, usable_codes
from builder.tasting.comparisons import equivalence_within_margin, no_worse_by_margin
from builder.tasting.discrimination import (
    check_share,
    discrimination_difference,
    discrimination_similarity,
    share_who_can_tell,
)
from builder.tasting.durations import duration_curve
from builder.tasting.needed import (
    difference_test_power,
    similarity_test_power,
    tasters_for_margin,
)
from builder.tasting.plans import PlannedSample, SessionRules
from builder.tasting.protocols import PAIRED_EITHER_WAY, TRIANGLE
from builder.tasting.ranks import friedman_limit, page_limit
from builder.tasting.right import right_window
from builder.tasting.shortlist import shortlist
from builder.tasting.studies import not_distinguishable_from_best
from builder.tasting.thurstone import clopper_pearson

SCORES = [[3, 6, 7, 5], [4, 7, 7, 4], [2, 6, 8, 5], [3, 5, 7, 6]]
HOURS = (12.0, 24.0, 36.0, 48.0)
SIGNS = [[-1, 0, 0, 1]] * 8
GAPS = [2, -4, 1, 3, -2, 0, 5, 1]


# A call with the value, the least and the most of its range, and whether each belongs to it.
RANGES: list[tuple[Callable[[float], object], float, float, bool, bool]] = [
    (lambda v: check_share("alpha", v), 0, 1, False, False),
    (lambda v: taster_agreement(SCORES, v), 0, 1, False, False),
    (lambda v: not_distinguishable_from_best(SCORES, v), 0, 1, False, False),
    (lambda v: shortlist(HOURS, SCORES, (), v), 0, 1, False, False),
    (lambda v: duration_curve(SCORES, HOURS, confidence=v), 0, 1, False, False),
    (lambda v: clopper_pearson(3, 9, v), 0, 1, False, False),
    (lambda v: right_window(SIGNS, HOURS, 0.2, v), 0, 1, False, False),
    (lambda v: right_window(SIGNS, HOURS, v), 0, 0.5, False, False),
    (lambda v: equivalence_within_margin(GAPS, 5, v), 0, 0.5, False, True),
    (lambda v: equivalence_within_margin(GAPS, v), 0, 100, False, True),
    (lambda v: no_worse_by_margin(GAPS, v), 0, 100, False, True),
    (lambda v: share_who_can_tell(9, 12, TRIANGLE, v), 0.5, 1, False, False),
    (lambda v: discrimination_difference(9, 12, TRIANGLE, v), 0, 1, False, False),
    (lambda v: discrimination_similarity(4, 12, TRIANGLE, v), 0, 1, False, False),
    (lambda v: tasters_for_margin(v, 8), 0, 100, False, True),
    (lambda v: tasters_for_margin(5, v), 0, 20, False, True),
    (lambda v: tasters_for_margin(5, 8, v), -5, 100, False, True),
    (lambda v: PlannedSample("x", v, 10, 0.5), 0, 1e4, True, True),
    (lambda v: PlannedSample("x", 10, v, 0.5), 0, 1e4, True, True),
    (lambda v: PlannedSample("x", 10, 10, v), 0, 1.5, False, True),
    (lambda v: SessionRules(portion=v), 0, 500, False, True),
    (lambda v: SessionRules(spare=v), 0, 1, True, True),
    (lambda v: SessionRules(tasting_time=v), 0, 60, True, True),
    (lambda v: SessionRules(palate_break=v), 0, 60, True, True),
]


@pytest.mark.parametrize(("call", "least", "most", "takes_least", "takes_most"), RANGES)
def test_a_range_is_what_its_docstring_says(
    call: Callable[[float], object], least: float, most: float, takes_least: bool, takes_most: bool
) -> None:
    inside = 0.02 * (most - least)
    call(least + inside)
    call(most - inside)
    outside = [least - inside]
    for end, takes in ((least, takes_least), (most, takes_most)):
        if takes:
            call(end)
        else:
            outside.append(end)
    for value in outside:
        with pytest.raises(ValueError, match=r"must be|above"):
            call(value)


# A call with a value that may be either end of its range, and a step out of it.
CLOSED: list[tuple[Callable[[float], object], float, float, float]] = [
    (lambda v: difference_test_power(30, v, TRIANGLE, 0.05), 0, 1, 0.1),
    (lambda v: similarity_test_power(60, v, TRIANGLE, 0.3, 0.05), 0, 1, 0.1),
    (lambda v: equivalence_within_margin(GAPS, 5, v), 1e-9, 0.5, 0.1),
    (lambda v: PlannedSample("x", 10, 10, v), 1e-9, 1.5, 0.1),
    (lambda v: SessionRules(spare=v), 0, 1, 0.1),
    (lambda v: clopper_pearson(int(v), 9, 0.9), 0, 9, 1),
    (lambda v: discrimination_difference(int(v), 12, TRIANGLE), 0, 12, 1),
    (lambda v: friedman_limit(int(v), 4, 0.05), 2, 7, 1),
    (lambda v: friedman_limit(3, int(v), 0.05), 1, 50, 1),
    (lambda v: page_limit(int(v), 4, 0.05), 2, 8, 1),
    (lambda v: page_limit(3, int(v), 0.05), 1, 50, 1),
]


@pytest.mark.parametrize(("call", "least", "most", "step"), CLOSED)
def test_both_ends_of_a_closed_range_belong_to_it_and_nothing_beyond(
    call: Callable[[float], object], least: float, most: float, step: float
) -> None:
    for value in (least, least + step, most - step, most):
        call(value)
    for value in (least - step, most + step):
        with pytest.raises(ValueError, match=r"must be|above|answers"):
            call(value)


def test_who_can_always_tell_always_shows_it_and_never_a_likeness() -> None:
    assert difference_test_power(30, 1, TRIANGLE, 0.05) == pytest.approx(1)
    assert similarity_test_power(60, 1, TRIANGLE, 0.3, 0.05) == pytest.approx(0)


@pytest.mark.parametrize(
    ("call", "most"),
    [
        (lambda count: codes_by_taster(count, ["T1", "T2"], "seed"), 20),
        (lambda count: blind_codes(count, "seed"), len(usable_codes())),
    ],
)
def test_codes_are_drawn_from_none_to_as_many_as_there_are(
    call: Callable[[int], object], most: int
) -> None:
    for count in (0, most):
        call(count)
    for count in (-1, most + 1):
        with pytest.raises(ValueError, match=f"count must be from 0 to {most}"):
            call(count)


@pytest.mark.parametrize("tasters", [8, 13, 20])
@pytest.mark.parametrize("share", [0, 0.1, 0.3])
def test_the_power_either_way_is_that_of_all_outcomes(tasters: int, share: float) -> None:
    """Every number of answers that scipy's two-sided binomial test finds unlikely at 10 %."""
    chance = 0.5 + share / 2
    shown = [k for k in range(tasters + 1) if binomtest(k, tasters, 0.5).pvalue <= 0.1]
    power = sum(float(binom.pmf(k, tasters, chance)) for k in shown)
    found = difference_test_power(tasters, share, PAIRED_EITHER_WAY, 0.1)
    assert found == pytest.approx(power, rel=1e-9)


def test_two_samples_are_too_few_though_the_rest_of_the_panel_is_level() -> None:
    """The others give 66 and 72, 70 and 64: level on average, and two orders prove nothing."""
    panel = taster_agreement([[75.0, 72.0], [66.0, 72.0], [70.0, 64.0]])
    assert {line.standing for line in panel} == {Standing.TOO_FEW}
