"""What draws cost beside bare numpy: `python -m tests.benchmarks.draws [plates ...]`.

The same plates of a generated kitchen are drawn twice, in turn, in processes of their own: by
the builder, from its formulas, and by the few lines of numpy below, written by hand for this one
kind of plate. Both draw the same inputs from the same seeds, so their intervals must agree, and
the ratio of their times is what the formulas, links and blocks of rows cost. Run by hand, never
a test.
"""

from __future__ import annotations

import argparse
import json
import resource
import subprocess
import sys
import tempfile
from datetime import date
from pathlib import Path
from time import perf_counter

import numpy as np

from builder.build import compute_content
from builder.costing.costed import Costed
from builder.costing.spreads import YIELD
from builder.costing.uncertainty import drawn_ends
from builder.engine.arith import Column
from builder.engine.draws import drawn, spread_name
from builder.engine.model import Node
from builder.engine.sampling import BLOCK_ROWS
from builder.money.intervals import DRAWS, PLATE_INTERVALS
from tests.benchmarks.kitchens import generate

DAY = date(2026, 10, 1)
ENERGY: Node = ("batch", "modelled_energy")
AGREE = 1e-9


class Bare:
    """A plate's costs by hand: one cut, stages in a row, whole portions, no shared draws.

    Work to plate that is not written counts as none, as the plate counts it.
    """

    def __init__(self, costed: Costed) -> None:
        assert costed.uncertainty is not None
        self.figures, self.spreads = costed.figures, costed.uncertainty.spreads

    def ends(self) -> dict[str, Column]:
        """Both ends of every target's interval, shape (2, plates)."""
        size = self.figures.size("plate")
        blocks = [
            self.block(range(n, min(n + BLOCK_ROWS, size))) for n in range(0, size, BLOCK_ROWS)
        ]
        return {
            name: np.concatenate([block[name] for block in blocks], axis=1) for name in blocks[0]
        }

    def block(self, rows: range) -> dict[str, Column]:
        """The ends of some plates' targets."""
        value = self.figures.value
        batches = [self.figures.linked("plate", "batch", row) for row in rows]

        def plate(name: str) -> Column:
            return np.array([[value("plate", name, row)] for row in rows])

        def batch(name: str) -> Column:
            return np.array([[value("batch", name, row)] for row in batches])

        bought, servable, credits = self.weights(batches)
        portion, load = plate("portion"), batch("load")
        net = bought * batch("ap_price") - credits
        pieces = np.maximum(np.floor(load / batch("piece_weight") + 0.5), 1.0)
        whole = pieces * np.floor(servable / pieces / portion + 1e-9)
        left_over = (servable - whole * portion) * batch("remainder_worth")
        food = ((net - left_over) / whole + plate("accompaniments_food")) * (
            1 + plate("seasoning_share")
        )
        hours = batch("hands_on") / whole + plate("accompaniments_hours")
        hours = hours + np.nan_to_num(plate("plating"))
        prime = food + hours * plate("loaded_wage")
        energy = self.inputs(ENERGY, batches) * batch("electricity_price") / whole
        used = batch("consumables")
        full = prime + energy + np.divide(used, whole, out=np.zeros_like(whole), where=whole > 0)
        full = full + plate("accompaniments_known_process")
        price, coins = plate("price_ex_tax"), plate("coins_in_unit")
        asked = food / plate("food_cost_target") * plate("price_factor")
        targets = {
            "food_cost": food,
            "prime_cost": prime,
            "full_cost": full,
            "food_cost_share": food / price,
            "contribution_margin": price - food,
            "price_for_food_cost": np.ceil(asked * coins - 1e-9) / coins,
        }
        return {
            name: np.quantile(column, (0.05, 0.95), axis=1, method="nearest")
            for name, column in targets.items()
        }

    def weights(self, batches: list[int]) -> tuple[Column, Column, Column]:
        """Bought and servable weight and credits of loads, stage by stage."""
        share = np.ones((len(batches), DRAWS))
        to_load, credits = np.ones_like(share), np.zeros_like(share)
        for at, batch in enumerate(batches):
            for step in self.figures.children("step", "batch", batch):
                stage = self.figures.linked("step", "stage", step)
                kept = self.input(YIELD, stage, "stage_yield")
                credits[at] += share[at] * self.figures.value("stage", "credit_per_kg_in", stage)
                share[at] *= kept
                if self.figures.value("step", "before_cook", step) > 0:
                    to_load[at] *= kept
        loads = np.array([[self.figures.value("batch", "load", batch)] for batch in batches])
        bought = loads / to_load
        return bought, bought * share, bought * credits

    def inputs(self, node: Node, rows: list[int]) -> Column:
        """Draws of an input for some rows."""
        return np.stack([np.broadcast_to(self.input(node, row, node[1]), DRAWS) for row in rows])

    def input(self, node: Node, row: int, plain: str) -> Column:
        """Draws of an input, or its plain value where it has no spread."""
        spread = self.spreads.get(node, {}).get(row)
        if spread is None:
            return np.array([self.figures.value(node[0], plain, row)])
        return drawn(spread, spread_name(node, self.figures.identity(node[0], row)), DRAWS)


def by_formulas(costed: Costed) -> dict[str, Column]:
    """The same by the builder."""
    assert costed.uncertainty is not None
    found = drawn_ends(costed.figures, costed.uncertainty.spreads, "plate", PLATE_INTERVALS)
    return {
        name: np.stack([found["plate", f"{name}_{end}"][:, 0] for end in ("low", "high")])
        for name in PLATE_INTERVALS
    }


def run(content: Path, way: str) -> None:
    """Draw a kitchen one way; print seconds, the memory that it took, and the sum of all ends."""
    costed, problems = compute_content(content, DAY, DAY)
    assert costed is not None, problems[:3]
    before = _peak_mb()
    start = perf_counter()
    np.seterr(divide="ignore", invalid="ignore")  # a piece that gives no whole portion
    ends = Bare(costed).ends() if way == "bare" else by_formulas(costed)
    seconds = perf_counter() - start
    total = {name: float(np.nansum(column)) for name, column in ends.items()}
    print(json.dumps({"seconds": seconds, "before": before, "peak": _peak_mb(), "total": total}))


def _peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000


def report(plates: int, runs: int) -> None:
    """Draw a kitchen of so many plates both ways in turn, and print the median of the ratios."""
    ratios = []
    with tempfile.TemporaryDirectory() as folder:
        content = Path(folder) / "content"
        generate(content, plates)
        for _ in range(runs):
            found = {}
            for way in ("bare", "formulas"):
                command = [sys.executable, "-m", __spec__.name, "--way", way, str(content)]
                printed = subprocess.run(command, check=True, capture_output=True, text=True)
                found[way] = json.loads(printed.stdout)
            for name, total in found["bare"]["total"].items():
                other = found["formulas"]["total"][name]
                assert abs(total - other) <= AGREE * abs(total), (name, total, other)
            ratios.append(found["formulas"]["seconds"] / found["bare"]["seconds"])
    ratios.sort()
    mine, bare = found["formulas"], found["bare"]
    print(
        f"{plates} plates x {DRAWS} draws: {mine['seconds']:.1f} s by the formulas, "
        f"{bare['seconds']:.1f} s in bare numpy, ratio {ratios[len(ratios) // 2]:.2f} "
        f"({ratios[0]:.2f} to {ratios[-1]:.2f}); peak {mine['peak']:.0f} MB, "
        f"{mine['before']:.0f} MB of it before the draws",
        flush=True,
    )


def main() -> None:
    """Run the benchmark, or one way of it in this process."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("plates", nargs="*", default=["1000", "10000"])
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--way", choices=("bare", "formulas"), help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.way:
        run(Path(options.plates[0]), options.way)
        return
    for plates in map(int, options.plates):
        report(plates, options.runs)


if __name__ == "__main__":
    main()
