"""Numbers of the statistics that only an exact count or an edge shows.

Every expectation is counted here anew: by the distribution's own sum in exact fractions, by
enumeration, or by the definition of the edge.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import permutations, product
from math import ceil, comb, sqrt

import numpy as np
import pytest
from scipy.stats import norm, rankdata
from scipy.stats import t as student

from builder.tasting.comparisons import equivalence_within_margin, no_worse_by_margin
from builder.tasting.designs import order_balance, serving_orders
from builder.tasting.discrimination import FEWEST_FOR_SIMILARITY
from builder.tasting.judged import Question
from builder.tasting.needed import tasters_for_difference, tasters_for_similarity
from builder.tasting.protocols import DUO_TRIO, PAIRED, PAIRED_EITHER_WAY, TRIANGLE, Protocol
from builder.tasting.rank_distributions import natural_pattern, rank_sum_states
from builder.tasting.ranks import friedman_limit, friedman_test
from builder.tasting.shortlist import shortlist
from builder.tasting.studies import kitchen_hours
from builder.tasting.thurstone import sensory_distance


def at_most(correct: int, tasters: int, chance: Fraction) -> Fraction:
    """Chance of so many correct answers or fewer."""
    return sum(
        (comb(tasters, k) * chance**k * (1 - chance) ** (tasters - k) for k in range(correct + 1)),
        Fraction(0),
    )


def panel_shows_similarity(
    tasters: int, protocol: Protocol, limit: Fraction, beta: Fraction, power: Fraction
) -> bool:
    guess = Fraction(protocol.guess).limit_denominator(10)
    reported = guess + limit * (1 - guess)
    largest = max(
        (k for k in range(tasters + 1) if at_most(k, tasters, reported) <= beta), default=None
    )
    below = at_most(ceil(tasters * guess) - 1, tasters, guess)
    if largest is None or largest < tasters * guess:
        return False
    return (at_most(largest, tasters, guess) - below) / (1 - below) >= power


@pytest.mark.parametrize(
    ("protocol", "limit", "beta", "power"),
    [
        (TRIANGLE, "3/10", "1/20", "4/5"),
        (TRIANGLE, "1/2", "1/10", "4/5"),
        (DUO_TRIO, "1/2", "1/20", "9/10"),
        (DUO_TRIO, "2/5", "1/5", "1/2"),
    ],
)
def test_the_first_panel_that_shows_similarity_is_the_smallest(
    protocol: Protocol, limit: str, beta: str, power: str
) -> None:
    """The smallest panel in exact fractions, of those large enough for a claim at all.

    Of fewer correct than guessing brings no likeness is claimed: such results don't count.
    """
    exact = Fraction(limit), Fraction(beta), Fraction(power)
    found = tasters_for_similarity(
        float(exact[0]), protocol, beta=float(exact[1]), power=float(exact[2])
    )
    assert found.first is not None
    counted = next(
        n for n in range(FEWEST_FOR_SIMILARITY, 300) if panel_shows_similarity(n, protocol, *exact)
    )
    assert found.first == counted


def panel_shows_difference(
    tasters: int, protocol: Protocol, share: Fraction, alpha: Fraction, power: Fraction
) -> bool:
    guess = Fraction(protocol.guess).limit_denominator(10)
    chance = guess + share * (1 - guess)
    tail = alpha / 2 if protocol.two_sided else alpha
    fewest = next(k for k in range(tasters + 2) if 1 - at_most(k - 1, tasters, guess) <= tail)
    reached = 1 - at_most(fewest - 1, tasters, chance)
    if protocol.two_sided:
        reached += at_most(tasters - fewest, tasters, chance)
    return reached >= power


@pytest.mark.parametrize(
    ("protocol", "share", "alpha"),
    [
        (TRIANGLE, "1/2", "1/20"),
        (DUO_TRIO, "99/100", "1/32"),  # 5 of 5 by chance: just the level, which is enough
        (PAIRED_EITHER_WAY, "99/100", "1/16"),
        (PAIRED_EITHER_WAY, "1/2", "1/20"),
    ],
)
def test_the_first_panel_that_shows_a_difference_is_the_smallest(
    protocol: Protocol, share: str, alpha: str
) -> None:
    exact = Fraction(share), Fraction(alpha), Fraction(9, 10)
    found = tasters_for_difference(float(exact[0]), protocol, alpha=float(exact[1]), power=0.9)
    counted = next(n for n in range(1, 300) if panel_shows_difference(n, protocol, *exact))
    assert found.first == counted


def friedman(sums: np.ndarray, tasters: int) -> float:
    samples = len(sums)
    return float(
        12 / (tasters * samples * (samples + 1)) * (sums**2).sum() - 3 * tasters * (samples + 1)
    )


@pytest.mark.parametrize(
    ("samples", "tasters", "alpha"), [(3, 3, 0.2), (3, 4, 0.05), (3, 5, 0.01), (4, 2, 0.1)]
)
def test_friedman_s_limit_is_the_smallest_value_rare_enough(
    samples: int, tasters: int, alpha: float
) -> None:
    """Every ranking of every taster, counted."""
    orders = [np.array(order) for order in permutations(range(1, samples + 1))]
    values = [
        round(friedman(np.sum(chosen, axis=0), tasters), 9)
        for chosen in product(orders, repeat=tasters)
    ]
    rare = [v for v in set(values) if sum(x >= v for x in values) / len(values) <= alpha]
    limit = friedman_limit(samples, tasters, alpha)
    assert limit == (pytest.approx(min(rare)) if rare else None)


def test_friedman_without_ties_is_the_textbook_formula() -> None:
    table = np.array([[1, 2, 3, 4], [2, 1, 4, 3], [1, 3, 2, 4], [1, 2, 4, 3], [2, 1, 3, 4]])
    assert friedman_test(table).statistic == pytest.approx(friedman(table.sum(axis=0), 5))
    found = friedman_test(np.array([[1, 2, np.nan], [2, 3, 1], [1, 2, 3], [2, 1, 3]]))
    assert (found.tasters, found.informative, found.samples, found.degrees) == (4, 4, 3, 2)


def test_distributions_of_rank_sums_are_counted_whole() -> None:
    """Three tasters, three samples: 216 rankings, each state as often as it comes."""
    states = rank_sum_states((natural_pattern(3),) * 3)
    assert states.exact
    orders = list(permutations(natural_pattern(3)))
    counted: dict[tuple[int, ...], int] = {}
    for chosen in product(orders, repeat=3):
        key = tuple(sorted(np.sum(chosen, axis=0).tolist()))
        counted[key] = counted.get(key, 0) + 1
    found = {
        tuple(row): chance for row, chance in zip(states.sums.tolist(), states.chances, strict=True)
    }
    assert found == {key: pytest.approx(count / 216) for key, count in counted.items()}
    assert rank_sum_states((natural_pattern(7),) * 2).exact
    assert not rank_sum_states((natural_pattern(8),) * 2).exact


@pytest.mark.parametrize("side", [-1, 1])
def test_a_p_value_at_the_level_counts(side: int) -> None:
    """Differences placed so that the one-sided p of "no worse" is just about 5 %."""
    spread = np.array([-1.5, -0.5, 0.0, 0.5, 1.5])
    error = float(np.std(spread, ddof=1)) / sqrt(5)
    edge = float(student.ppf(0.95, 4)) * error - 4.0
    for nudge, shown in ((1e-9, True), (-1e-6, False)):
        moved = spread + edge + nudge
        assert no_worse_by_margin(moved, 4.0).established is shown
        assert no_worse_by_margin(-moved - 8.0, 4.0).worse is shown
        inside = spread * 1.0 + side * (4.0 - float(student.ppf(0.95, 4)) * error - nudge)
        assert equivalence_within_margin(inside, 4.0).equivalent is shown


def test_a_spread_smaller_than_rounding_is_none() -> None:
    """All alike but for the last bits: the sign test decides, p = 1/2 to the number of tasters."""
    alike = no_worse_by_margin([3.0, 3.0 + 1e-15, 3.0 - 1e-15, 3.0], 5.0)
    assert alike.p_value == 0.5**4
    assert alike.lower is None
    real = no_worse_by_margin([3.0, 3.1, 2.9, 3.0], 5.0)
    assert real.lower is not None
    assert real.lower < 3.0
    assert no_worse_by_margin([3.0], 5.0).p_value == 0.5


@pytest.mark.parametrize(
    ("samples", "tasters", "each"), [(4, 6, 2), (4, 4, 3), (5, 10, 3), (7, 7, 3), (6, 10, 3)]
)
def test_incomplete_servings_are_as_even_as_a_balanced_design(
    samples: int, tasters: int, each: int
) -> None:
    """Where a balanced incomplete block design exists every sample and pair comes equally often."""
    balance = order_balance(serving_orders(samples, tasters, each, "even"), samples)
    served = tasters * each // samples
    pairs = tasters * each * (each - 1) // (samples * (samples - 1))
    assert (balance.servings, balance.together) == ((served, served), (pairs, pairs))
    low, high = balance.positions
    assert high - low <= 1
    low, high = balance.neighbours
    assert high - low <= 2


@pytest.mark.parametrize(
    ("samples", "tasters", "each", "always"),
    [
        (6, 6, 5, None),
        (7, 15, 4, None),
        (10, 20, 5, None),
        (4, 9, 3, 1),
        (5, 6, 3, 1),
        (5, 15, 3, 1),
    ],
)
def test_every_place_comes_as_evenly_as_it_can(
    samples: int, tasters: int, each: int, always: int | None
) -> None:
    """A sample's counts over the places need not lie more than one apart, whatever the sets.

    König and de Werra (from memory): a graph of tasters and samples has an equitable colouring
    of its edges in as many colours as a taster has places.
    """
    orders = serving_orders(samples, tasters, each, "even", always)
    for sample in range(samples):
        places = [sum(order[place] == sample for order in orders) for place in range(each)]
        assert max(places) - min(places) <= 1


@pytest.mark.parametrize(
    ("hours", "set_to"),
    [(0.05, 0.25), (5.3, 5.25), (5.9, 6.0), (6.0, 6.0), (6.3, 6.5), (11.9, 12.0), (12.4, 12.0)],
)
def test_hours_are_set_in_the_steps_of_a_kitchen_s_clock(hours: float, set_to: float) -> None:
    assert kitchen_hours(hours) == set_to


@pytest.mark.parametrize(
    ("durations", "level"),
    [(2, Fraction(1, 4)), (3, Fraction(1, 36)), (4, Fraction(1, 12)), (3, Fraction(1, 20)),
     (4, Fraction(1, 100)), (5, Fraction(1, 400))],
)  # fmt: skip
def test_the_fewest_who_can_rule_a_duration_out_by_score(durations: int, level: Fraction) -> None:
    """Every ranking of every taster, counted: of all, those with one duration on top and one at
    the bottom for everybody.
    """
    orders = list(permutations(range(durations)))
    ends = Counter((order.index(0), order.index(durations - 1)) for order in orders)

    def chance(tasters: int) -> Fraction:
        return sum((Fraction(n, len(orders)) ** tasters for n in ends.values()), Fraction(0))

    counted = next(n for n in range(1, 40) if chance(n) <= level)
    hours, scores = range(12, 12 + durations), [list(range(durations))] * 3
    assert shortlist(list(hours), scores, [], float(level)).fewest == counted


@pytest.mark.parametrize(
    ("durations", "limit", "level"),
    [(1, Fraction(1, 2), Fraction(1, 4)), (2, Fraction(1, 2), Fraction(1, 4)),
     (3, Fraction(1, 5), Fraction(1, 20)), (4, Fraction(1, 4), Fraction(1, 32))],
)  # fmt: skip
def test_the_fewest_who_can_rule_a_duration_out_by_texture(
    durations: int, limit: Fraction, level: Fraction
) -> None:
    """All of them at one end, in exact fractions, shared among durations and their two ends."""
    counted = next(n for n in range(1, 60) if limit**n <= level / (2 * durations))
    asked = Question([[0] * durations] * 2, float(limit))
    found = shortlist(list(range(12, 12 + durations)), None, [asked], float(level))
    assert found.fewest == counted
    # By score too: the same level is shared by both questions, and the smaller panel counts.
    scored = shortlist(
        list(range(12, 12 + durations)), [list(range(durations))] * 2, [asked], 2 * float(level)
    )
    assert scored.fewest <= counted


@pytest.mark.parametrize("seed", range(6))
def test_states_of_tied_and_unlike_tasters_are_counted_whole(seed: int) -> None:
    """Every arrangement of every taster, those with ties too, beside the first kept apart."""
    dice = np.random.default_rng(seed)
    rows = np.sort(dice.integers(1, 4, size=(3, 3 + seed % 2)), axis=1)
    ranks = 2 * rankdata(rows, axis=1) - rows.shape[1] - 1
    patterns = tuple(sorted(tuple(int(v) for v in row) for row in ranks))
    apart = seed % 2
    counted: dict[tuple[int, ...], float] = {}
    chosen = [sorted(set(permutations(pattern))) for pattern in patterns]
    for arranged in product(*chosen):
        sums = np.sum(arranged, axis=0).tolist()
        key = (*sums[:apart], *sorted(sums[apart:]))
        counted[key] = counted.get(key, 0) + 1
    whole = sum(counted.values())
    states = rank_sum_states(patterns, apart)
    found = zip(states.sums.tolist(), states.chances, strict=True)
    assert {tuple(row): chance for row, chance in found} == {
        key: pytest.approx(count / whole) for key, count in counted.items()
    }


@pytest.mark.parametrize("protocol", [PAIRED, PAIRED_EITHER_WAY])
@pytest.mark.parametrize("correct", [28, 38, 45])
def test_the_standard_error_of_a_pair_is_the_closed_form(protocol: Protocol, correct: int) -> None:
    """A pair is answered rightly with Φ(d/√2), whose slope is φ(d/√2)/√2 (delta method)."""
    share = correct / 50
    z = norm.ppf(share)
    error = sqrt(share * (1 - share) / 50) / (norm.pdf(z) / sqrt(2))
    found = sensory_distance(correct, 50, protocol)
    assert found.estimate == pytest.approx(z * sqrt(2))
    assert found.standard_error == pytest.approx(error, rel=1e-4)
