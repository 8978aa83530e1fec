"""The published pasteurisation table, every row, and the lethality integral by hand."""

from __future__ import annotations

from math import ceil

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from builder.cooking.heating import Cases, core_temperature
from builder.cooking.lethality import (
    E_COLI,
    LISTERIA,
    ORGANISMS,
    SALMONELLA,
    Organism,
    log_reduction,
    pasteurisation_time,
)
from tests.cooking.published import rows

TABLE = rows("pasteurisation")
THICK = np.array([float(row["thickness_mm"]) for row in TABLE])
BATH = np.array([float(row["bath_C"]) for row in TABLE])
PUBLISHED = np.array([float(row["published_min"]) for row in TABLE])

# The rows, by thickness [mm] and bath [°C], that print one step away from the published one.
ONE_STEP_OFF = {
    (25, 55): 1,
    (25, 64): 1,
    (25, 65): 1,
    (35, 59): -1,
    (35, 61): -1,
    (35, 64): -1,
    (55, 62): -1,
    (65, 57): -1,
}

# The properties with which the table comes out [partly from memory, fitted on this table].
MINUTES = pasteurisation_time(
    Cases(THICK, np.where(THICK <= 30, 0, 0.28), 5, BATH, 1.11e-7, 95), until_min=600
)


def printed_step(minutes: float) -> int:
    """The step that the table is printed in: 15 min from an hour on, 5 below, 1 below 20."""
    return 15 if minutes > 55 else 5 if minutes >= 20 else 1


def as_printed(minutes: float) -> int:
    """Round up to the step in which a table of this kind prints."""
    step = printed_step(minutes)
    return ceil(minutes / step) * step


@pytest.mark.parametrize("index", range(len(TABLE)), ids=[f"{t:g}mm-{b:g}C" for t, b in zip(
    THICK, BATH, strict=True)])  # fmt: skip
def test_the_published_table_within_one_printed_step(index: int) -> None:
    """Baldwin 2012 and his tables [secondary, half of the table]: all 84 rows, no miss."""
    published = PUBLISHED[index]
    steps = abs(as_printed(MINUTES[index]) - published) / printed_step(published)
    assert steps <= 1


def test_which_rows_are_one_step_off() -> None:
    """Not hidden by the step allowed: 76 of 84 rows print as published, these eight do not."""
    steps = [
        round((as_printed(m) - p) / printed_step(p))
        for m, p in zip(MINUTES, PUBLISHED, strict=True)
    ]
    off = zip(THICK.tolist(), BATH.tolist(), steps, strict=True)
    assert {(t, b): step for t, b, step in off if step} == ONE_STEP_OFF


def test_the_rows_that_miss_unrounded() -> None:
    """Without rounding up, these rows lie more than a printed step below the published one."""
    off = np.abs(MINUTES - PUBLISHED) > [printed_step(p) for p in PUBLISHED]
    missed = set(zip(THICK[off].tolist(), BATH[off].tolist(), strict=True))
    assert missed == {(35, 59), (35, 61), (35, 64), (55, 62), (65, 57)}


def test_ten_times_d_is_ten_decades_at_the_reference() -> None:
    for organism in ORGANISMS:
        held = log_reduction([55, 55], [0, 10 * organism.d_min], organism)
        assert held[-1] == pytest.approx(10)


def test_z_kelvin_hotter_goes_ten_times_as_fast() -> None:
    for organism in ORGANISMS:
        held = log_reduction(np.full(2, 55 + organism.z_k), [0, organism.d_min], organism)
        assert held[-1] == pytest.approx(10)


def test_a_ramp_agrees_with_the_integral_on_paper() -> None:
    """R = z / (D ln 10 s) (10^(s t / z) - 1) for a core that rises at s K/min from Tref."""
    time = np.linspace(0, 20, 4001)
    made = log_reduction(55 + 0.5 * time, time, SALMONELLA)[-1]
    z, d = SALMONELLA.z_k, SALMONELLA.d_min
    assert made == pytest.approx(z / (d * np.log(10) * 0.5) * (10 ** (10 / z) - 1), rel=1e-6)


def test_uk_two_minutes_at_70_are_six_decades_of_listeria() -> None:
    """UK benchmark [secondary]: D70 = 0.333 min, z = 7.5 K, so 2 min at 70 °C is 6 log."""
    benchmark = Organism("Listeria, UK benchmark", 0.333, 70, 7.5, 6, "secondary")
    assert log_reduction([70, 70], [0, 2], benchmark)[-1] == pytest.approx(6, abs=0.01)


def test_the_slowest_organism_decides() -> None:
    case = Cases(25, 0, 5, 60, 1.11e-7, 95)
    alone = [float(pasteurisation_time(case, (o,))) for o in (LISTERIA, SALMONELLA, E_COLI)]
    assert float(pasteurisation_time(case)) == max(alone)


def test_a_search_that_ends_too_soon_says_so() -> None:
    assert np.isinf(pasteurisation_time(Cases(65, 0, 5, 55, 1.11e-7, 95), until_min=60))


@pytest.mark.parametrize("times", [[0], [0, 0], [5, 3]])
def test_a_curve_that_does_not_go_on_is_refused(times: list[float]) -> None:
    with pytest.raises(ValueError, match="at least 2 times"):
        log_reduction([55] * len(times), times, SALMONELLA)


def test_half_minutes_are_fine_enough_for_a_thin_piece_in_a_hot_bath() -> None:
    """SciPy's quadrature and root finder, which step finely enough, within three seconds."""
    cases, (_, _, coli) = Cases(5, 0, 5, 70, 1.11e-7, 95), ORGANISMS
    # E. coli is the last of the three down here: D 19.35 min at 55 °C, z 4.87 K, five decades.

    def decades(minutes: float) -> float:
        def rate(t: float) -> float:
            core = float(core_temperature(cases, np.array([t]))[0])
            return float(10 ** ((core - 55) / 4.87) / 19.35)

        return float(quad(rate, 0, minutes, limit=200)[0])

    assert coli.target_log == 5
    each = [float(pasteurisation_time(cases, (o,), until_min=20)) for o in ORGANISMS]
    reached = brentq(lambda minutes: decades(minutes) - 5, 1, 19)
    assert each[2] == pytest.approx(reached, abs=3 / 60)
    assert float(pasteurisation_time(cases, until_min=20)) == max(each)
