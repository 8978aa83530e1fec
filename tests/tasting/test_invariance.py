"""What must change nothing: names, order, a taster without opinion, a taster's own scale."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from builder.tasting.agreement import kendalls_w, taster_agreement
from builder.tasting.comparisons import benchmark_differences
from builder.tasting.durations import duration_curve
from builder.tasting.ranks import benchmark_ranks, friedman_test, page_trend
from builder.tasting.right import right_window
from builder.tasting.scales import Scale, rescale_scores
from builder.tasting.score_tables import sorted_rows
from builder.tasting.scores import score_anova
from builder.tasting.studies import not_distinguishable_from_best
from tests.tasting.usual_scales import LINE, NINE_POINT

Array = NDArray[np.float64]


@st.composite
def panels(draw: st.DrawFn, most_tasters: int = 16) -> Array:
    """Nine-point scores of 2 to 16 tasters on 2 to 5 samples."""
    samples = draw(st.integers(2, 5))
    row = st.lists(st.integers(1, 9), min_size=samples, max_size=samples)
    return np.array(draw(st.lists(row, min_size=2, max_size=most_tasters)), dtype=float)


@settings(max_examples=25)
@given(panels(), st.integers(0, 999))
def test_renaming_tasters_changes_nothing(table: Array, seed: int) -> None:
    order = np.random.default_rng(seed).permutation(len(table))
    other = table[order]
    assert friedman_test(other) == friedman_test(table)
    assert benchmark_ranks(other, 0) == benchmark_ranks(table, 0)
    assert page_trend(other) == page_trend(table)
    for found, expected in zip(
        benchmark_differences(other, 0).differences,
        benchmark_differences(table, 0).differences,
        strict=True,
    ):
        assert found.p_value == pytest.approx(expected.p_value)
        assert found.adjusted_p_value == pytest.approx(expected.adjusted_p_value)
        assert found.mean == pytest.approx(expected.mean)
    rows = taster_agreement(other)
    assert [line.standing for line in rows] == [
        taster_agreement(table)[int(taster)].standing for taster in order
    ]


@settings(max_examples=25)
@given(panels(most_tasters=12), st.integers(0, 999))
def test_renaming_samples_changes_nothing(table: Array, seed: int) -> None:
    order = np.random.default_rng(seed).permutation(table.shape[1])
    other = table[:, order]
    new_place = {int(old): new for new, old in enumerate(order)}
    assert friedman_test(other).p_value == friedman_test(table).p_value
    assert friedman_test(other).statistic == pytest.approx(friedman_test(table).statistic)
    benchmark = new_place[0]
    ranks = {int(order[c.sample]): c for c in benchmark_ranks(other, benchmark).comparisons}
    scores = {int(order[c.sample]): c for c in benchmark_differences(other, benchmark).differences}
    for before in benchmark_ranks(table, 0).comparisons:
        assert ranks[before.sample].adjusted_p_value == pytest.approx(before.adjusted_p_value)
        assert ranks[before.sample].above == before.above
    for line in benchmark_differences(table, 0).differences:
        assert scores[line.sample].adjusted_p_value == pytest.approx(line.adjusted_p_value)
    assert score_anova(other).samples.sum_of_squares == pytest.approx(
        score_anova(table).samples.sum_of_squares, abs=1e-9
    )
    w, expected = kendalls_w(other).w, kendalls_w(table).w
    assert w == (None if expected is None else pytest.approx(expected))
    assert {int(order[c]) for c in not_distinguishable_from_best(other).rivals} == set(
        not_distinguishable_from_best(table).rivals
    ) or _tied_best(table)


def _tied_best(table: Array) -> bool:
    """Whether several samples share the highest mean: then the first is named as best."""
    means = table.mean(axis=0)
    return int((means > means.max() - 1e-9).sum()) > 1


@settings(max_examples=25)
@given(panels(), st.integers(1, 9), st.integers(1, 3))
def test_a_taster_with_one_score_for_all_changes_no_rank_verdict(
    table: Array, score: int, count: int
) -> None:
    flat = np.full((count, table.shape[1]), float(score))
    more = np.vstack([table, flat])
    before, after = friedman_test(table), friedman_test(more)
    assert (after.statistic, after.p_value) == (before.statistic, before.p_value)
    assert page_trend(more).p_value == page_trend(table).p_value
    for found, expected in zip(
        benchmark_ranks(more, 0).comparisons, benchmark_ranks(table, 0).comparisons, strict=True
    ):
        assert found.adjusted_p_value == expected.adjusted_p_value
        assert (found.above, found.below) == (expected.above, expected.below)


@settings(max_examples=25)
@given(panels(most_tasters=10), st.data())
def test_another_scale_for_one_taster_changes_nothing(table: Array, data: st.DataObject) -> None:
    taster = data.draw(st.integers(0, len(table) - 1))
    low = data.draw(st.integers(-5, 5))
    width = data.draw(st.integers(1, 200))
    own = Scale("own", low, low + width, step=0)
    scales = [NINE_POINT] * len(table)
    plain = rescale_scores(table.tolist(), scales)
    moved = table.copy()
    moved[taster] = low + width * ((table[taster] - 1) / 8)
    found = rescale_scores(moved.tolist(), [*scales[:taster], own, *scales[taster + 1 :]])
    assert found == pytest.approx(plain)
    assert friedman_test(moved).p_value == friedman_test(table).p_value
    assert page_trend(moved) == page_trend(table)
    assert score_anova(found).samples.sum_of_squares == pytest.approx(
        score_anova(plain).samples.sum_of_squares, abs=1e-6
    )
    for one, other in zip(
        benchmark_differences(found, 0).differences,
        benchmark_differences(plain, 0).differences,
        strict=True,
    ):
        assert one.adjusted_p_value == pytest.approx(other.adjusted_p_value)


@settings(max_examples=15)
@given(panels(most_tasters=8), st.integers(0, 999))
def test_windows_and_curves_know_no_names(table: Array, seed: int) -> None:
    hours = [12.0 * (column + 1) for column in range(table.shape[1])]
    other = table[np.random.default_rng(seed).permutation(len(table))]
    assert right_window(np.sign(other - 5), hours) == right_window(np.sign(table - 5), hours)
    one, two = duration_curve(other, hours), duration_curve(table, hours)
    assert (one is None) == (two is None)
    if one is not None and two is not None:
        assert one.fit.curvature == pytest.approx(two.fit.curvature, abs=1e-9)


def test_the_line_scale_is_its_own_percentage() -> None:
    assert rescale_scores([[0.0, 37.5, 100.0]], [LINE]).tolist() == [[0.0, 37.5, 100.0]]


@pytest.mark.parametrize("tasters", [1, 2, 3, 4])
def test_rows_come_in_one_order_however_tasters_are_listed(tasters: int) -> None:
    """By their sorted scores, then as they are: two tasters too, as Python's own sort has them."""
    dice = np.random.default_rng(tasters)
    for _ in range(20):
        rows = dice.integers(1, 4, size=(tasters, 3)).astype(float).tolist()
        expected = sorted(rows, key=lambda row: (sorted(row), row))
        for listed in permutations(rows):
            assert sorted_rows(np.array(listed)).tolist() == expected
