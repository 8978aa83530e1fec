"""Rank tests against printed limits, a worked example and scipy."""

from __future__ import annotations

from collections import Counter
from itertools import permutations, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import friedmanchisquare, kendalltau, page_trend_test

from builder.tasting.agreement import Standing, kendalls_w, taster_agreement
from builder.tasting.rank_sums import rank_sums
from builder.tasting.ranks import (
    benchmark_ranks,
    friedman_limit,
    friedman_test,
    least_significant_rank_difference,
    page_limit,
    page_trend,
)
from builder.tasting.score_tables import rank_within_tasters

from .published import Row, label, rows

# Strength of cotton, Hollander & Wolfe, example 7.2: blocks by levels (data read).
COTTON = [
    [7.46, 7.17, 7.76, 8.14, 7.63],
    [7.68, 7.57, 7.73, 8.15, 8.00],
    [7.21, 7.80, 7.74, 7.87, 7.93],
]

tables = st.integers(2, 6).flatmap(
    lambda p: st.lists(st.lists(st.integers(1, 9), min_size=p, max_size=p), min_size=2, max_size=10)
)


def test_cotton_strength_trend() -> None:
    """L = 158 (from memory), exact p .002492."""
    found = page_trend(COTTON)
    assert found.statistic == 158
    assert found.exact
    assert found.p_value == pytest.approx(0.002492, abs=5e-7)


def test_cotton_strength_friedman_is_significant_though_chi_square_says_no() -> None:
    """Friedman 8.80: chi-square p .066, yet beyond the exact 5 % limit 8.53."""
    found = friedman_test(COTTON)
    assert found.statistic == pytest.approx(8.80)
    assert found.chi_square_p_value == pytest.approx(0.066, abs=5e-4)
    assert found.exact
    assert found.p_value < 0.05
    limit = friedman_limit(5, 3, 0.05)
    assert limit is not None
    assert found.statistic > limit


@pytest.mark.parametrize("row", rows("friedman_limits.csv"), ids=label)
def test_friedman_limits(row: Row) -> None:
    found = friedman_limit(int(row["samples"]), int(row["tasters"]), float(row["alpha"]))
    assert found == pytest.approx(float(row["limit"]), abs=5.1e-3)


@pytest.mark.parametrize("row", rows("page_limits.csv"), ids=label)
def test_page_limits(row: Row) -> None:
    found = page_limit(int(row["samples"]), int(row["tasters"]), float(row["alpha"]))
    assert found == int(row["limit"])


@pytest.mark.parametrize(("tasters", "samples", "difference"), [(10, 4, 11.32), (12, 5, 15.18)])
def test_least_significant_difference(tasters: int, samples: int, difference: float) -> None:
    """Computed outside the package from the formula (from memory) of ISO 8587."""
    found = least_significant_rank_difference(tasters, samples)
    assert found == pytest.approx(difference, abs=5.1e-3)


@given(tables)
def test_statistic_equals_scipys_tie_corrected_one(scores: list[list[int]]) -> None:
    found = friedman_test(scores)
    table = np.array(scores)
    if table.shape[1] < 3 or not found.informative:
        return
    expected = friedmanchisquare(*table.T)
    assert found.statistic == pytest.approx(expected.statistic)
    assert found.chi_square_p_value == pytest.approx(expected.pvalue)


def brute_force_p(scores: list[list[int]]) -> float:
    """Share of all rearrangements within tasters with rank sums as uneven."""
    ranks = rank_within_tasters(scores)
    observed = (ranks.sum(axis=0) ** 2).sum()
    choices = [[np.array(order) for order in permutations(row)] for row in ranks]
    reached = [(np.sum(rows_, axis=0) ** 2).sum() >= observed - 1e-9 for rows_ in product(*choices)]
    return float(np.mean(reached))


@settings(max_examples=25)
@given(st.lists(st.lists(st.integers(1, 4), min_size=3, max_size=3), min_size=2, max_size=4))
def test_exact_p_equals_brute_force(scores: list[list[int]]) -> None:
    assert friedman_test(scores).p_value == pytest.approx(brute_force_p(scores))


def brute_force_largest(scores: list[list[int]]) -> list[float]:
    ranks = rank_within_tasters(scores)
    choices = [[np.array(order) for order in permutations(row)] for row in ranks]
    sums = [np.sum(rows_, axis=0) for rows_ in product(*choices)]
    largest = np.array([np.abs(total[1:] - total[0]).max() for total in sums])
    observed = ranks.sum(axis=0)
    return [float((largest >= abs(r - observed[0]) - 1e-9).mean()) for r in observed[1:]]


@settings(max_examples=15)
@given(st.lists(st.lists(st.integers(1, 4), min_size=3, max_size=3), min_size=2, max_size=4))
def test_benchmark_p_equals_brute_force(scores: list[list[int]]) -> None:
    found = [line.adjusted_p_value for line in benchmark_ranks(scores, 0).comparisons]
    assert found == pytest.approx(brute_force_largest(scores))


def test_tasters_above_below_and_alike_are_counted() -> None:
    """By hand, of five tasters: two above, one below and two alike; none, four and one."""
    found = benchmark_ranks([[5, 7, 5], [5, 6, 4], [5, 4, 3], [5, 5, 1], [5, 5, 2]], 0).comparisons
    assert [(c.above, c.below, c.alike) for c in found] == [(2, 1, 2), (0, 4, 1)]


@pytest.mark.parametrize(
    ("scores", "note"),
    [
        ([[1], [2]], "one sample only"),
        ([[1, 1], [2, 2]], "nobody told any two samples apart"),
        ([[1, 2, 3]], "one taster only"),
        ([[1, 2, 3], [1, 3, 2]], ""),
        ([[1, 2, 3], [1, 3, 2], [3, 1, 2]], ""),
    ],
)
def test_a_rank_test_says_why_it_says_little(scores: list[list[int]], note: str) -> None:
    assert friedman_test(scores).note == note


def test_sampled_p_is_near_the_large_panel_limit() -> None:
    """60 tasters, 6 samples: the chi-square approximation is good; 4 SE of sampling + .01."""
    scores = np.random.default_rng(8).integers(1, 10, (60, 6))
    found = friedman_test(scores)
    assert not found.exact
    assert found.chi_square_p_value is not None
    assert found.p_value == pytest.approx(found.chi_square_p_value, abs=0.02)


def test_a_sampled_p_counts_the_observed_arrangement() -> None:
    """Phipson & Smyth 2010 (from memory): (b + 1) / (m + 1); none of 2,000 draws is so uneven."""
    found = friedman_test([[1, 2, 3, 4, 5, 6]] * 100)
    assert not found.exact
    assert found.p_value == pytest.approx(1 / 2_001, rel=1e-12)


@settings(max_examples=30)
@given(st.integers(0, 10_000), st.integers(3, 6), st.integers(2, 8))
def test_trend_equals_scipys_exact_one(seed: int, samples: int, tasters: int) -> None:
    scores = np.random.default_rng(seed).random((tasters, samples))
    expected = page_trend_test(scores, method="exact")
    found = page_trend(scores)
    assert found.statistic == expected.statistic
    assert found.p_value == pytest.approx(expected.pvalue)


def test_long_trends_use_the_normal_approximation() -> None:
    """scipy.stats.page_trend_test, method asymptotic."""
    scores = np.random.default_rng(9).random((12, 10))
    expected = page_trend_test(scores, method="asymptotic")
    found = page_trend(scores)
    assert not found.exact
    assert found.p_value == pytest.approx(expected.pvalue)


def test_trend_follows_the_stated_order() -> None:
    scores = [[3, 1, 2], [3, 1, 2], [3, 1, 2]]
    assert page_trend(scores, [1, 2, 0]).p_value == pytest.approx(1 / 216)
    assert page_trend(scores, [0, 2, 1]).p_value == pytest.approx(1.0)
    with pytest.raises(ValueError, match="order must name each column"):
        page_trend(scores, [0, 0, 1])


def test_incomplete_blocks_give_durbins_statistic() -> None:
    """Durbin 1951 (formula from memory) on the seven-point plane, k 3, r 3, t 7:

    T = 12 (t − 1) / (r t (k − 1)(k + 1)) Σ (R − r (k + 1) / 2)².
    """
    blocks = [(0, 1, 3), (1, 2, 4), (2, 3, 5), (3, 4, 6), (4, 5, 0), (5, 6, 1), (6, 0, 2)]
    generator = np.random.default_rng(10)
    scores = np.full((7, 7), np.nan)
    sums = np.zeros(7)
    for taster, block in enumerate(blocks):
        order = generator.permutation(3)
        scores[taster, block] = order
        sums[list(block)] += order + 1
    expected = 12 * 6 / (3 * 7 * 2 * 4) * ((sums - 6) ** 2).sum()
    found = friedman_test(scores)
    assert found.statistic == pytest.approx(expected)
    assert found.degrees == 6
    assert 0 < found.p_value <= 1


GAPS = np.array([[1, 2, 3, np.nan], [2, 1, np.nan, 3], [np.nan, 1, 2, 2], [1, np.nan, 2, np.nan]])


def test_a_sampled_p_of_incomplete_blocks_is_near_that_of_every_rearrangement() -> None:
    """All 6 x 6 x 6 x 2 arrangements of what each taster scored; four standard errors of it."""
    there = ~np.isnan(GAPS)
    choices = [permutations(row[~np.isnan(row)]) for row in GAPS]
    table, statistics = GAPS.copy(), []
    for orders in product(*choices):
        table[there] = [score for order in orders for score in order]
        statistics.append(friedman_test(table).statistic)
    found = friedman_test(GAPS)
    share = float(np.mean(np.array(statistics) >= found.statistic - 1e-9))
    assert not found.exact
    assert 0.05 < share < 0.95
    assert found.p_value == pytest.approx(share, abs=4 * (share * (1 - share) / 10_000) ** 0.5)


@given(tables)
def test_w_equals_friedman_over_its_largest_value(scores: list[list[int]]) -> None:
    """W = T / (J (p − 1)) (Kendall & Babington Smith 1939, from memory), with ties too."""
    w, test = kendalls_w(scores).w, friedman_test(scores)
    if w is None:
        return
    informative = [row for row in scores if len(set(row)) > 1]
    w = kendalls_w(informative).w if len(informative) > 1 else None
    if w is not None:
        assert w == pytest.approx(test.statistic / (test.informative * (test.samples - 1)))


def test_w_of_two_tasters_follows_spearman() -> None:
    """W = (1 + ρ) / 2 for two tasters; ρ from scipy would be 0.8 here."""
    assert kendalls_w([[1, 2, 3, 4], [2, 1, 3, 4]]).w == pytest.approx((1 + 0.8) / 2)
    assert kendalltau([1, 2, 3, 4], [2, 1, 3, 4]).statistic > 0


def test_tasters_are_told_from_random_ones() -> None:
    scores = [
        [10, 30, 50, 70, 90],
        [20, 30, 60, 70, 80],
        [10, 40, 50, 60, 90],
        [90, 70, 50, 30, 10],
        [50, 50, 50, 50, 50],
    ]
    standings = [line.standing for line in taster_agreement(scores)]
    assert standings[:3] == [Standing.AGREES] * 3
    assert standings[3:] == [Standing.CONTRARY, Standing.ONE_SCORE]


def test_random_tasters_are_rarely_said_to_agree() -> None:
    """A taster answering at random agrees in 5 % of 1,000 panels; 4 standard errors."""
    generator = np.random.default_rng(12)
    hits = 0
    for _ in range(1_000):
        scores = np.tile(np.arange(5.0), (4, 1)) + generator.normal(0, 1, (4, 5))
        scores[0] = generator.random(5)
        hits += taster_agreement(scores)[0].standing is Standing.AGREES
    assert hits / 1_000 < 0.05 + 4 * np.sqrt(0.05 * 0.95 / 1_000)


def test_three_samples_are_too_few_to_judge_a_taster() -> None:
    standings = {line.standing for line in taster_agreement([[1, 2, 3], [1, 2, 3], [2, 4, 6]])}
    assert standings == {Standing.TOO_FEW}


def test_four_samples_of_which_two_are_alike_never_show_that_a_taster_agrees() -> None:
    """Of 24 orders of 1, 2, 2, 3 two give every row of scores: p is 1/12 at the least."""
    scores = [[1, 2, 2, 3], [1, 2, 2, 3], [1, 2, 3, 4]]
    panel = taster_agreement(scores)
    assert [line.p_value for line in panel] == pytest.approx([1 / 12, 1 / 12, 1 / 12])
    assert {line.standing for line in panel} == {Standing.TOO_FEW}
    apart = taster_agreement([[1, 2, 3, 4], [1, 3, 2, 4], [1, 2, 3, 4]])
    assert apart[0].p_value == pytest.approx(1 / 12)  # the others' tie leaves two orders alike


def test_an_undecided_taster_is_neither_agreeing_nor_contrary() -> None:
    scores = [[10, 30, 50, 70, 90], [20, 30, 60, 70, 80], [50, 10, 90, 20, 60]]
    line = taster_agreement(scores)[2]
    assert line.standing is Standing.NOT_SHOWN
    assert line.p_value is not None
    assert 0.05 < line.p_value < 0.95


def _largest_in_all_panels(samples: int, tasters: int, *, of_any: bool) -> Counter[int]:
    """Every ranking of every taster, counted by the largest difference of rank sums."""
    found: Counter[int] = Counter()
    for panel in product(permutations(range(samples)), repeat=tasters):
        sums = [sum(column) for column in zip(*panel, strict=True)]
        found[max(sums) - min(sums) if of_any else max(abs(s - sums[0]) for s in sums)] += 1
    return found


@pytest.mark.parametrize("of_any", [True, False])
@pytest.mark.parametrize(("samples", "tasters"), [(3, 3), (3, 4), (3, 5), (4, 3), (2, 6)])
def test_the_limit_of_rank_sums_is_that_of_all_panels_counted(
    samples: int, tasters: int, of_any: bool
) -> None:
    counted = _largest_in_all_panels(samples, tasters, of_any=of_any)
    total = counted.total()
    allowed = [d for d in counted if sum(n for e, n in counted.items() if e >= d) / total > 0.05]
    table = [list(range(samples))] * tasters
    found = rank_sums(table, None if of_any else 0)
    assert found.limit == max(allowed)
    assert found.sums == tuple(tasters * (column + 1) for column in range(samples))


def test_critical_rank_sums_of_three_samples() -> None:
    """Tables of the largest range of three rank sums: 7 for 4 tasters, 8 for 5 (from memory)."""
    assert [rank_sums([[1, 2, 3]] * n).limit for n in (4, 5)] == [6, 7]


def test_a_sample_beyond_the_limit_is_told_apart_from_the_benchmark_and_none_within() -> None:
    generator = np.random.default_rng(6)
    for _ in range(60):
        drawn = generator.integers(0, 5, (int(generator.integers(4, 9)), 4))
        table = np.asarray(drawn + np.array([0, 0, 1, 2]), dtype=np.float64)
        found = rank_sums(table, 0)
        for line in benchmark_ranks(table, 0).comparisons:
            beyond = abs(found.sums[line.sample] - found.sums[0]) > found.limit
            assert beyond == (line.adjusted_p_value <= 0.05)


def test_rank_sums_leave_out_who_did_not_judge_all() -> None:
    found = rank_sums([[1.0, 2.0, 3.0], [1.0, 2.0, float("nan")], [3.0, 2.0, 1.0]])
    assert (found.tasters, found.sums) == (2, (4, 4, 4))
    assert rank_sums([[1.0, float("nan")]]).sums == (0, 0)
    with pytest.raises(ValueError, match="alpha"):
        rank_sums([[1, 2]], alpha=1)


def test_the_first_of_two_counts_as_it_does_among_all() -> None:
    """Its mean rank in all orders of five, listed: 2 for the last of two, 4 for the first."""
    among = [sorted(order[:2]) for order in permutations(range(1, 6))]
    low, high = np.mean(among, axis=0)
    gap = float("nan")
    table = [[1.0, 2.0, 3.0, 4.0, 5.0], [7.0, 9.0, gap, gap, gap]]
    means = friedman_test(table).mean_ranks
    assert means[:2] == pytest.approx([(1 + low) / 2, (2 + high) / 2])
    assert means[2:] == (3.0, 4.0, 5.0)
