"""Samples without a benchmark: all pairs, groups in words, incomplete servings."""

from __future__ import annotations

from itertools import combinations, permutations, product

import numpy as np
import pytest

from builder.costing.tasting_words import findings_in_full, headline
from builder.tasting.judged import Fault
from builder.tasting.pairs import all_pairs
from builder.tasting.studies import not_distinguishable_from_best
from tests.tastings.kitchens import BATH, computed, result_of

HEAD = """test: scores
samples: {a: ribeye-grill, b: {plate: steak}, c: {plate: ribeye-steak}}
attributes: {liking: line 0-100}
"""


def said(rows: list[list[float]]) -> str:
    """The lead of a tasting of a, b and c with these scores."""
    yaml = f"{HEAD}tasters: {len(rows)}\nscores:\n"
    for number, row in enumerate(rows, start=1):
        cells = ", ".join(f"{n}: {value:g}" for n, value in zip("abc", row, strict=True))
        yaml += f"  T{number}: {{{cells}}}\n"
    return headline(result_of(yaml))


WOBBLE = np.array([[3, -2, 0], [-4, 1, 2], [0, 3, -5], [2, -3, 4], [-1, 0, 1], [5, 2, -2]] * 2)


def test_samples_that_differ_are_named_in_groups() -> None:
    words = said((np.array([80, 30, 78]) + WOBBLE).tolist())
    assert "a and c above b (every pair counted)." in words


def test_an_order_of_three_is_named() -> None:
    words = said((np.array([80, 20, 50]) + WOBBLE).tolist())
    assert "a above b and c; c above b" in words


def test_nothing_is_named_where_nothing_differs() -> None:
    words = said((np.array([50, 50, 50]) + WOBBLE).tolist())
    assert "could not tell any two samples apart" in words


def test_means_and_ranks_that_disagree_are_both_said() -> None:
    """Seven of twelve put b above a by a hair, five put a far above: mean 66.7 against 33.9."""
    words = said([[50.0, 51, 40]] * 7 + [[90.0, 10, 0]] * 5)
    assert "a above b and c" in words
    assert "by mean ranks b above a instead" in words


def brute_force(scores: np.ndarray) -> list[float]:
    """Share of all rearrangements whose largest standardised difference is as large.

    Three samples: variance of a difference 0.6 of its own squares, 0.4 of those of all.
    """
    usual = ((scores - scores.mean(axis=1, keepdims=True)) ** 2).sum() / 2
    choices = [[np.array(order) for order in permutations(row)] for row in scores]
    tables = np.array([np.array(rows) for rows in product(*choices)])

    def apart(tables: np.ndarray) -> np.ndarray:
        pairs = tables[..., [0, 0, 1]] - tables[..., [1, 2, 2]]
        own = (pairs**2).sum(axis=-2)
        found: np.ndarray = np.abs(pairs.sum(axis=-2)) / np.sqrt(0.6 * own + 0.4 * 2 * usual)
        return found

    largest = apart(tables).max(axis=-1)
    return [float((largest >= own - 1e-9).mean()) for own in apart(scores)]


@pytest.mark.parametrize("seed", range(4))
def test_adjusted_chances_equal_all_rearrangements(seed: int) -> None:
    """5 tasters by 3 samples, 7,776 arrangements; 4 standard errors of 5,000 draws."""
    scores = np.random.default_rng(seed).integers(0, 9, (5, 3)).astype(float)
    found = [pair.adjusted_p_value for pair in all_pairs(scores)]
    for own, expected in zip(found, brute_force(scores), strict=True):
        assert own == pytest.approx(expected, abs=4 * np.sqrt(0.25 / 5000) * 0.9 + 1e-3)


def incomplete(means: list[float], seed: int, tasters: int = 12) -> np.ndarray:
    """Each taster has two of four samples."""
    generator = np.random.default_rng(seed)
    table = generator.normal(means, 6, (tasters, 4)) + generator.normal(0, 15, (tasters, 1))
    pairs = [(0, 1), (2, 3), (0, 2), (1, 3), (0, 3), (1, 2)]
    for row in range(tasters):
        table[row, [c for c in range(4) if c not in pairs[row % 6]]] = np.nan
    return table


def test_incomplete_servings_rule_out_what_lies_far_below() -> None:
    """Nobody has both in common more than twice: only the block model can tell."""
    table = incomplete([20, 40, 80, 60], 1)
    assert not_distinguishable_from_best(table).best == 2
    assert 0 not in not_distinguishable_from_best(table).rivals
    difference = {(p.first, p.second): p.difference for p in all_pairs(table)}[0, 2]
    assert difference == pytest.approx(-60, abs=15)


def test_incomplete_servings_that_are_alike_rarely_rule_anything_out() -> None:
    """Seeded simulation of 200 panels: 5 % and 3 standard errors."""
    wrong = sum(any(told(incomplete([50.0] * 4, seed))) for seed in range(200))
    assert wrong <= most_wrong(200)


def told(table: np.ndarray) -> list[bool]:
    """Of every two samples whether they are told apart, in the order of `combinations`."""
    return [pair.adjusted_p_value <= 0.05 for pair in all_pairs(table)]


def most_wrong(panels: int) -> float:
    """Panels in which something may be told apart wrongly: 5 % and 3 standard errors."""
    return float(panels * (0.05 + 3 * np.sqrt(0.05 * 0.95 / panels)))


@pytest.mark.parametrize(
    ("means", "tasters", "had", "alike"),
    [
        ([50, 50, 50], 5, 3, [0, 1, 2]),
        ([50, 50, 50], 15, 2, [0, 1, 2]),
        ([50, 50, 20], 9, 2, [0]),
        ([50, 50, 75, 75], 10, 4, [0, 5]),
    ],
)
def test_samples_that_are_alike_are_rarely_told_apart(
    means: list[float], tasters: int, had: int, alike: list[int]
) -> None:
    """100 panels of tasters who use a third, the whole or the double of a scale; seeded.

    had: how many samples each is served, in turn. alike: pairs that do not differ.
    """
    wrong, sets = 0, list(combinations(range(len(means)), had))
    for seed in range(100):
        generator = np.random.default_rng(seed)
        used = generator.choice([0.3, 1, 2], (tasters, 1))
        table = generator.normal((np.array(means) - 50) * used, 12 * used) + 50
        for row in range(tasters):
            table[row, [c for c in range(len(means)) if c not in sets[row % len(sets)]]] = np.nan
        found = told(table)
        wrong += any(found[place] for place in alike)
    assert wrong <= most_wrong(100)


@pytest.mark.parametrize(("tasters", "had"), [(8, 4), (12, 3)])
def test_samples_that_lie_far_apart_are_told_apart(tasters: int, had: int) -> None:
    """25 points apart with a spread of 10: 12 panels, three of four pairs told apart at least."""
    found, sets = 0, list(combinations(range(4), had))
    for seed in range(12):
        table = np.random.default_rng(seed).normal([65, 65, 40, 40], 10, (tasters, 4))
        for row in range(tasters):
            table[row, [c for c in range(4) if c not in sets[row % len(sets)]]] = np.nan
        found += sum(told(table)[1:5])
    assert found >= 0.75 * 4 * 12


SERIES = {f"cooks/c{h}.yaml": f"for: {h} h\nloss: 20 %\n{BATH}" for h in (24, 36, 48)}


@pytest.mark.parametrize("seed", [8, 30, 33, 37])
def test_what_is_out_is_what_the_comparison_of_all_pairs_puts_below_another(seed: int) -> None:
    """Fifteen tasters, two of three durations to each: one answer in lead and table of tests."""
    table = np.random.default_rng(seed).normal([60, 50, 42], 10, (15, 3)).round()
    served, rows = [(0, 1), (0, 2), (1, 2)], ""
    for n, scores in enumerate(table):
        marks = (f"{scores[c]:g}" if c in served[n % 3] else "–" for c in range(3))
        cells = (f"h{hours}: {mark}" for hours, mark in zip((24, 36, 48), marks, strict=True))
        rows += f"  T{n + 1}: {{{', '.join(cells)}}}\n"
    yaml = "test: scores\nsamples: {h24: c24, h36: c36, h48: c48}\ntasters: 15\n"
    yaml += f"attributes: {{liking: line 0-100}}\nscores:\n{rows}"
    view, problems = computed({"tastings/trial.yaml": yaml, **SERIES})
    assert view is not None, problems
    result = view.costed.tastings["trial"]
    assert result.decision is not None
    (found,) = result.attributes
    assert found.study is not None
    below = {pair.ordered[1] for pair in found.pairs if pair.adjusted_p_value <= 0.05}
    out = {each.place for each in result.decision.judged if each.faults == ((Fault.LESS, None),)}
    best = found.study.best_tried
    assert below == out == {c for c in range(3) if c not in best.rivals}
    for column in out:
        assert best.p_values[column] in {pair.adjusted_p_value for pair in found.pairs}


def test_samples_that_divide_the_tasters_are_rarely_told_apart_beside_calm_ones() -> None:
    """Each taster loves a or b and dislikes the other; c and d lie between, the same to all.

    Which of a and b is loved is a coin: 5 % of 150 panels at most, 3 standard errors.
    """
    generator, wrong = np.random.default_rng(3), 0
    for _ in range(150):
        side = 20 * generator.choice([-1, 1], (12, 1)) * np.array([1, -1, 0, 0])
        wrong += told(generator.normal(60 + side, 5))[0]
    assert wrong <= most_wrong(150)


def test_samples_that_no_chain_of_tasters_joins_have_no_difference() -> None:
    nan = float("nan")
    table = [[1, 2, nan, nan], [2, 4, nan, nan], [nan, nan, 5, 6], [nan, nan, 4, 6]]
    pairs = {(p.first, p.second): p for p in all_pairs(table)}
    assert pairs[0, 2].difference is None
    assert pairs[0, 2].adjusted_p_value == 1.0


def test_what_leads_a_ranking_has_no_p_value() -> None:
    yaml = HEAD.replace("test: scores", "test: ranks\nasks: liking").partition("attributes")[0]
    yaml += "benchmark: a\ntasters: 8\nranks:\n"
    result = result_of(yaml + "".join(f"  T{n}: [a, c, b]\n" for n in range(1, 9)))
    assert "samples differ; b below a." in headline(result)
    assert "samples differ (p < 0.001); b below a." in " ".join(findings_in_full(result))
