"""Serving orders: balance proven by counting it here, apart from the package's own count."""

from __future__ import annotations

from collections import Counter
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.tasting.designs import Orders, order_balance, serving_orders, williams_design

# Kunert 1998: n = 5, ten rows, carry-over balanced. Status: read.
KUNERT = "51243 32451 43125 23541 52134 41352 14532 34215 15423 25314"
# p = 4 from first row 1 2 4 3, adding 1 modulo 4. Status: exact.
FOUR = "1243 2314 3421 4132"


def parsed(text: str) -> Orders:
    return tuple(tuple(int(digit) - 1 for digit in word) for word in text.split())


def neighbour_counts(orders: Orders) -> Counter[tuple[int, int]]:
    return Counter(pair for order in orders for pair in pairwise(order))


def place_counts(orders: Orders) -> Counter[tuple[int, int]]:
    return Counter((place, sample) for order in orders for place, sample in enumerate(order))


def pair_counts(orders: Orders) -> Counter[tuple[int, int]]:
    return Counter(pair for order in orders for pair in combinations(sorted(order), 2))


@pytest.mark.parametrize("samples", range(2, 13))
def test_williams_design_is_balanced_by_count(samples: int) -> None:
    """Williams 1949 (from memory): one square for even numbers, two for odd ones."""
    orders = williams_design(samples)
    squares = 2 if samples % 2 else 1
    assert len(orders) == squares * samples
    assert set(place_counts(orders).values()) == {squares}
    assert len(place_counts(orders)) == samples**2
    assert set(neighbour_counts(orders).values()) == {squares}
    assert len(neighbour_counts(orders)) == samples * (samples - 1)


def test_williams_design_of_four_is_the_printed_one() -> None:
    assert sorted(williams_design(4)) == sorted(parsed(FOUR))


def test_balance_count_finds_the_property_of_a_published_design() -> None:
    orders = parsed(KUNERT)
    balance = order_balance(orders, 5)
    assert balance.exact
    assert balance.neighbours == (2, 2) == (min(neighbour_counts(orders).values()),) * 2
    assert balance.positions == (2, 2)


def test_balance_count_notices_a_spoilt_design() -> None:
    orders = list(parsed(KUNERT))
    orders[0] = orders[0][::-1]
    balance = order_balance(orders, 5)
    assert not balance.exact
    assert balance.neighbours == (1, 3)
    assert "1 to 3 times" in balance.sentence
    assert "10 tasters" in balance.sentence


@pytest.mark.parametrize(
    ("samples", "each", "said"),
    [(3, 3, "12 tasters, 3 samples each: "), (1, 1, "12 tasters, 1 sample each: "),
     (7, 3, "12 tasters, 3 of 7 samples each: ")],
)  # fmt: skip
def test_how_many_samples_each_taster_gets(samples: int, each: int, said: str) -> None:
    orders = serving_orders(samples, 12, each, "demo")
    assert order_balance(orders, samples).sentence.startswith(said)


@pytest.mark.parametrize(
    ("samples", "tasters", "size", "together"),
    [(7, 7, 3, 1), (7, 7, 4, 2), (6, 10, 3, 2), (5, 10, 3, 3), (9, 12, 3, 1), (11, 11, 5, 2),
     (8, 14, 4, 3), (9, 18, 4, 3), (12, 22, 6, 5)],
)  # fmt: skip
def test_incomplete_blocks_reach_known_balanced_designs(
    samples: int, tasters: int, size: int, together: int
) -> None:
    """Fisher & Yates, Statistical Tables (from memory): these balanced designs exist.

    Every pair meets λ = r (k − 1) / (t − 1) times.
    """
    orders = serving_orders(samples, tasters, size, "seed")
    assert tasters * size * (size - 1) == together * samples * (samples - 1)
    counts = pair_counts(orders)
    assert len(counts) == samples * (samples - 1) // 2
    assert set(counts.values()) == {together}


@pytest.mark.parametrize(("samples", "tasters", "size"), [(6, 9, 4), (6, 14, 3), (6, 22, 3)])
def test_incomplete_blocks_reach_regular_graph_designs(
    samples: int, tasters: int, size: int
) -> None:
    """John & Mitchell 1977 (from memory): where no balanced design exists, the best have pairs

    that meet λ or λ + 1 times, every sample served equally often.
    """
    orders = serving_orders(samples, tasters, size, "even")
    meetings = pair_counts(orders)
    counts = [meetings[pair] for pair in combinations(range(samples), 2)]
    assert max(counts) - min(counts) == 1
    served = Counter(sample for order in orders for sample in order)
    assert set(served.values()) == {tasters * size // samples}


@settings(max_examples=25)
@given(st.integers(2, 8), st.integers(1, 24), st.integers(2, 5), st.text(max_size=5))
def test_orders_are_fair_whatever_the_numbers(
    samples: int, tasters: int, size: int, seed: str
) -> None:
    orders = serving_orders(samples, tasters, size, seed)
    per_taster = min(size, samples)
    assert len(orders) == tasters
    assert all(len(set(order)) == len(order) == per_taster for order in orders)
    served = Counter(sample for order in orders for sample in order)
    counts = [served[sample] for sample in range(samples)]
    assert max(counts) - min(counts) <= 1
    assert orders == serving_orders(samples, tasters, size, seed)


def test_the_benchmark_goes_to_everybody() -> None:
    orders = serving_orders(7, 12, 4, "seed", always=2)
    assert all(2 in order for order in orders)
    places = Counter(order.index(2) for order in orders)
    assert len(places) == 4


def test_another_seed_gives_other_orders() -> None:
    assert serving_orders(5, 10, 5, "a") != serving_orders(5, 10, 5, "b")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((0, 5, 3, "s"), "samples must be from 1 to 12"),
        ((13, 5, 3, "s"), "samples must be from 1 to 12"),
        ((5, 0, 5, "s"), "tasters must be from 1 to 200"),
        ((8, 5, 7, "s"), "per_taster must be from 1 to 6"),
        ((8, 5, 4, "s", 8), "always must be from 0 to 7"),
    ],
)
def test_numbers_off_the_range_are_named(arguments: tuple[int, int, int, str], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        serving_orders(*arguments)


@pytest.mark.parametrize("orders", [(), ((),), ((0, 0),), ((0, 5),)])
def test_broken_orders_are_refused(orders: Orders) -> None:
    with pytest.raises(ValueError, match="order"):
        order_balance(orders, 3)
