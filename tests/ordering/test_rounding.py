"""What every order keeps to, whatever is needed and however it is sold."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from builder.money.ordering import amount_ordered, packs_ordered

NEEDS = st.decimals(0, 500, places=3).map(Fraction)
STEPS = st.decimals("0.01", 60, places=2).map(Fraction)
LEAST = st.one_of(st.just(Fraction(0)), STEPS)
# What a weight may be off by in floats, well below a gram.
_DUST = 1e-6


def ordered(need: Fraction, step: Fraction | None, least: Fraction) -> float:
    size = math.nan if step is None else float(step)
    columns = (np.array([[float(each)]]) for each in (need, size, math.nan, least))
    return amount_ordered(*columns).item()


@given(NEEDS, STEPS, LEAST)
def test_an_order_covers_the_need_by_less_than_a_pack_or_up_to_the_smallest_order(
    need: Fraction, step: Fraction, least: Fraction
) -> None:
    """Against whole numbers of packs in exact fractions."""
    found = ordered(need, step, least)
    exact = math.ceil(max(need, least) / step) * step if need else Fraction(0)
    assert math.isclose(found, exact, abs_tol=_DUST)
    assert found >= need - _DUST
    assert found - need < step + _DUST or found - least < step + _DUST
    count = packs_ordered(np.array([[found]]), np.array([[float(step)]])).item()
    assert count == exact / step


@given(st.lists(NEEDS, min_size=1, max_size=6), STEPS, LEAST)
def test_rounding_once_never_buys_more_than_rounding_each_plate(
    needs: list[Fraction], step: Fraction, least: Fraction
) -> None:
    apart = sum(ordered(need, step, least) for need in needs)
    assert ordered(sum(needs, Fraction(0)), step, least) <= apart + _DUST


@given(NEEDS, LEAST)
def test_without_a_pack_what_is_needed_is_ordered_or_the_smallest_order(
    need: Fraction, least: Fraction
) -> None:
    assert ordered(need, None, least) == (float(max(need, least)) if need else 0)
