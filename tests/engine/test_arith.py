"""The helpers of formula bodies, against exact arithmetic."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from builder.engine.arith import either, known, least, most, or_else, whole, whole_up

GRAMS = st.integers(1, 100_000)


@given(GRAMS, GRAMS)
def test_whole_counts_pieces_as_exact_division_does(weight: int, piece: int) -> None:
    """Weights in whole grams, up to 100 kg: binary fractions lose no portion and add none."""
    quotient = np.array([weight / 1000]) / np.array([piece / 1000])
    assert float(whole(quotient)[0]) == weight // piece
    assert float(whole_up(quotient)[0]) == math.ceil(Fraction(weight, piece))


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_least_and_most_are_those_of_python(x: float, y: float) -> None:
    assert float(least(np.array([x]), y)[0]) == min(x, y)
    assert float(most(np.array([x]), y)[0]) == max(x, y)


def test_what_is_not_known() -> None:
    column = np.array([[np.nan], [0.0], [2.0]])
    assert known(column).tolist() == [[False], [True], [True]]
    assert or_else(column, 7.0).tolist() == [[7.0], [0.0], [2.0]]
    assert either(column > 1, column, -1.0).tolist() == [[-1.0], [-1.0], [2.0]]
