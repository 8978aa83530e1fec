"""The draws at shares of their order, against numpy's quantiles [reference library]."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from builder.engine.draws import nearest_draws
from builder.money.intervals import interval_90

SHARES = [(0.05, 0.95), (0.5,), (0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.99)]


@pytest.mark.parametrize("shares", SHARES)
@given(
    arrays(
        float,
        st.tuples(st.integers(1, 3), st.integers(1, 60)),
        elements=st.floats(allow_nan=False) | st.sampled_from([0.0, 1.0, 2.0]),
    )
)
def test_as_numpy_has_them(shares: tuple[float, ...], values: np.ndarray) -> None:
    reference = np.quantile(values, shares, axis=1, method="nearest")
    np.testing.assert_array_equal(nearest_draws(values, shares), reference)


def test_an_interval_is_found_row_by_row_whatever_the_others_lack() -> None:
    """All known, some without a value, too many without, none that moves: alone and together."""
    rng = np.random.default_rng(8)
    values = rng.normal(size=(5, 4000))
    values[1, :100], values[2, :300] = np.nan, np.nan
    values[3], values[4] = 2.0, np.nan
    together = interval_90(values)
    alone = np.concatenate([interval_90(row[None]) for row in values], axis=1)
    np.testing.assert_array_equal(together, alone)
    np.testing.assert_array_equal(
        together[:, 0], np.quantile(values[0], (0.05, 0.95), method="nearest")
    )
    np.testing.assert_array_equal(
        together[:, 1], np.nanquantile(values[1], (0.05, 0.95), method="nearest")
    )
    assert together[:, 2].tolist() == [-np.inf, np.inf]
    assert np.isnan(together[:, 3:]).all()
