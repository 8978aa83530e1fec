"""How long a thousand heat curves take: run `python -m tests.benchmarks.heat_curves`."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

import numpy as np

from builder.cooking.heating import Cases, core_temperature, temperature_at_depth, time_to_core
from builder.cooking.lethality import pasteurisation_time

GOAL_S = 2.0
PIECES = 1000
MINUTES = 240


def pieces(count: int = PIECES) -> Cases:
    """Return pieces that all differ, so that no root is found twice."""
    draw = np.random.default_rng(20260901)
    return Cases(
        thickness_mm=draw.uniform(10, 120, count),
        shape_factor=draw.uniform(0, 2, count),
        start_c=draw.uniform(1, 10, count),
        medium_c=draw.uniform(56, 85, count),
        diffusivity_m2_s=draw.uniform(1.1e-7, 1.5e-7, count),
        surface_w_m2k=draw.uniform(60, 300, count),
    )


def seconds(work: Callable[[], object], rounds: int = 3) -> float:
    """Return the best of a few rounds [s]."""
    best = float("inf")
    for _ in range(rounds):
        begin = perf_counter()
        work()
        best = min(best, perf_counter() - begin)
    return best


def main() -> None:
    """Print the seconds of each kind of work and their ratio to the goal."""
    cases, times = pieces(), np.linspace(0, 600, MINUTES)
    few = pieces(100)
    work: dict[str, Callable[[], object]] = {
        f"{PIECES} core curves of {MINUTES} points": lambda: core_temperature(cases, times),
        f"{PIECES} times to a core of 54.4 °C": lambda: time_to_core(cases, 54.4),
        "100 curves at 11 depths": lambda: temperature_at_depth(few, times, np.linspace(0, 1, 11)),
        "100 pasteurisation times": lambda: pasteurisation_time(few, until_min=600),
    }
    for name, call in work.items():
        took = seconds(call)
        print(f"{name:40} {took:7.3f} s  {took / GOAL_S:6.3f} of {GOAL_S:g} s")


if __name__ == "__main__":
    main()
