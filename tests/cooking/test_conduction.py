"""The conduction series: textbook coefficients, exact cases, finite differences."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.cooking.conduction import (
    conduction_coefficients,
    conduction_roots,
    core_ratio,
    depth_ratio,
    fourier_to_ratio,
)
from builder.cooking.heating import SHAPES, Cases, core_temperature, temperature_at_depth
from tests.cooking.finite_differences import temperatures
from tests.cooking.published import rows

SHAPE = st.floats(0, 2)
BIOT = st.floats(0.05, 50)


@pytest.mark.parametrize("row", rows("first_terms"), ids=lambda r: f"{r['shape']}-{r['biot']}")
def test_first_term_agrees_with_the_textbook(row: dict[str, str]) -> None:
    """Incropera Table 5.1 [from memory], printed to four decimals; one in the last place."""
    shape = SHAPES[row["shape"]]
    root = conduction_roots(shape, float(row["biot"]), 1)
    weight = conduction_coefficients(shape, root)
    assert root[0] == pytest.approx(float(row["root"]), abs=1.01e-4)
    assert weight[0] == pytest.approx(float(row["coefficient"]), abs=1.01e-4)


def test_sphere_at_biot_1_has_exact_roots() -> None:
    """1 - z cot z = Bi: at Bi = 1 the roots are odd multiples of pi / 2, C1 = 4 / pi."""
    roots = conduction_roots(2.0, 1.0, 12)
    assert roots == pytest.approx(pi / 2 * np.arange(1, 25, 2), rel=1e-10)
    assert conduction_coefficients(2.0, roots)[0] == pytest.approx(4 / pi, rel=1e-10)


@given(SHAPE, st.floats(1e-4, 1e4))
def test_roots_satisfy_the_surface_condition_one_a_half_turn(shape: float, biot: float) -> None:
    """The elementary forms z tan z = Bi and 1 - z cot z = Bi at the two ends of the shapes."""
    roots = conduction_roots(np.array([0.0, 2.0, shape]), biot, 15)
    slab, sphere = roots[0], roots[1]
    assert slab * np.sin(slab) == pytest.approx(biot * np.cos(slab), abs=1e-7 * (1 + biot))
    left = np.sin(sphere) - sphere * np.cos(sphere)
    assert left == pytest.approx(biot * np.sin(sphere), abs=1e-7 * (1 + biot))
    # Between the shapes each root lies between the slab's and the sphere's.
    assert (roots[2] >= slab - 1e-9).all()
    assert (roots[2] <= sphere + 1e-9).all()


@pytest.mark.parametrize("shape", [0.0, 0.28, 1.0, 1.5, 2.0])
@pytest.mark.parametrize("minutes", [10, 40, 120, 300])
def test_series_agrees_with_finite_differences(shape: float, minutes: int) -> None:
    """An independent solver with 60 cells and 5 s steps: within 0.02 K everywhere."""
    case = Cases(50, shape, 5, 60, 1.4e-7, 95)
    places, there = temperatures(0.025, shape, 5, 60, 1.4e-7, 95, 0.48, minutes)
    series = temperature_at_depth(case, [minutes], places)[0]
    assert np.abs(series - there).max() < 0.02


@pytest.mark.parametrize(("shape", "biot"), [(0.0, 0.5), (0.0, 20.0), (1.0, 5.0), (2.0, 40.0)])
def test_small_times_do_not_ring(shape: float, biot: float) -> None:
    """No place may be colder than the start or go back, down to a Fourier number of 1e-4."""
    times = np.geomspace(1e-4, 3, 400)
    places = np.linspace(0, 1, 21)
    left = depth_ratio(times, places, shape, biot)
    assert left.max() <= 1
    assert np.diff(left, axis=0).max() < 1e-9
    # From the core outwards it is never further behind.
    assert np.diff(left, axis=1).max() < 1e-9


def test_early_core_agrees_with_finite_differences() -> None:
    """Where the answer switches from the start temperature to the series: no step to be seen."""
    case = Cases(60, 0, 5, 60, 1.3e-7, 200)
    times = np.array([1.0, 1.7, 1.75, 2.0, 4.0])
    there = [temperatures(0.03, 0, 5, 60, 1.3e-7, 200, 0.48, t, step_s=1)[1][0] for t in times]
    assert core_temperature(case, times) == pytest.approx(np.array(there), abs=0.01)


@given(SHAPE, BIOT, st.floats(1e-6, 1 - 1e-6))
def test_time_and_ratio_are_each_others_inverse(shape: float, biot: float, ratio: float) -> None:
    time = fourier_to_ratio(ratio, shape, biot)
    assert core_ratio(time[None], shape, biot)[0] == pytest.approx(ratio, rel=1e-8)


def test_the_first_moments_of_a_piece_that_hardly_takes_heat() -> None:
    """A plate at Biot 0.01: the core waits for the heat to come through, then follows the mean.

    As a body of one temperature it has exp(-Bi Fo) left, which lags by half of Bi at most, for
    the core is as far behind the surface (lumped capacity, textbook: error below Bi / 2).
    """
    left = np.array([0.9995, 0.999, 0.99, 0.9, 0.5])
    found = fourier_to_ratio(left, 0.0, 0.01)
    assert np.isfinite(found).all()
    lag = found - -np.log(left) / 0.01
    assert ((lag > 0) & (lag < 0.5 + -np.log(left))).all(), lag


def test_columns_give_what_single_pieces_give() -> None:
    shapes, biots = np.array([0, 0.28, 1, 2.0]), np.array([0.3, 4, 9, 30.0])
    times = np.linspace(0, 1, 30)
    together = core_ratio(times, shapes, biots)
    for index in range(4):
        alone = core_ratio(times, shapes[index], biots[index])
        assert together[index] == pytest.approx(alone, abs=1e-12)


@pytest.mark.parametrize("ratio", [0.0, 1.0, -0.1, 1.1, float("nan")])
def test_a_ratio_outside_its_range_is_refused(ratio: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        fourier_to_ratio(ratio, 0.0, 1.0)
