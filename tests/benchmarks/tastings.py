"""How long a hundred tastings take to compute: `python -m tests.benchmarks.tastings [count]`."""

from __future__ import annotations

import os
import sys
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

import numpy as np

from builder.build import compute_content
from tests.tastings.kitchens import BATH, KITCHEN

GOAL_S = 10.0
DAY = date(2026, 10, 1)
HOURS = (18, 24, 30, 42, 60)
WORDS = ("too firm", "right", "falling apart")


def tasting(seed: int, tasters: int = 12) -> str:
    """A file of scores of a benchmark and five durations that no other seed repeats."""
    draw = np.random.default_rng(seed)
    names = ["bench", *(f"c{hours}" for hours in HOURS)]
    samples = ", ".join(["bench: ribeye-grill", *(f"{name}: {name}" for name in names[1:])])
    lines = [
        f"test: scores\nsamples: {{{samples}}}\nbenchmark: bench\nmargin: 12 %\ntasters: {tasters}",
        "attributes: {tenderness: 9-point, flavour: 9-point,",
        "  texture: [too firm, right, falling apart]}",
        "scores:",
    ]
    for taster in range(1, tasters + 1):
        scores = draw.integers(3, 10, (len(names), 2))
        texture = draw.integers(0, 3, len(names))
        cells = (
            f"{name}: [{a}, {b}, {WORDS[place]}]"
            for name, (a, b), place in zip(names, scores, texture, strict=True)
        )
        lines.append(f"  T{taster}: {{{', '.join(cells)}}}")
    return "\n".join(lines) + "\n"


def files(count: int) -> dict[str, str]:
    """A kitchen with this many tastings."""
    cooks = {f"cooks/c{h}.yaml": f"for: {h} h\nloss: 20 %\n{BATH}" for h in HOURS}
    return {**KITCHEN, **cooks, **{f"tastings/t{n}.yaml": tasting(n) for n in range(count)}}


def worked() -> float:
    """Seconds of the processor so far, those of processes that have ended with them."""
    return sum(os.times()[:4])


def seconds(count: int) -> tuple[float, float]:
    """Seconds on the clock and of the processor to compute a kitchen with this many tastings."""
    with TemporaryDirectory() as folder:
        for name, text in files(count).items():
            path = Path(folder) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        begin, before = perf_counter(), worked()
        costed, problems = compute_content(Path(folder), None, DAY)
        assert costed is not None, problems
        return perf_counter() - begin, worked() - before


def main(count: int) -> None:
    """Print the seconds of the tastings, those of the same kitchen without any taken off."""
    bare = seconds(0)
    full = seconds(count)
    goal = GOAL_S * count / 100
    for what, with_all, without in zip(("clock", "processor"), full, bare, strict=True):
        took = with_all - without
        each = f"{1000 * took / count:.0f} ms each; goal {goal:g} s"
        print(f"{count} tastings, {what:9} {took:7.2f} s, {each}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
