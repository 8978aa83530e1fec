"""What one more weighing would bring: the stage whose next test narrows a figure most."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.costing.pooling import expected_width
from builder.costing.spreads import YIELD
from builder.engine.draws import Basis
from builder.engine.methods import method
from builder.engine.sensitivity import Reach

# What is not worth a line: a test that narrows the interval by less.
WORTH = 0.02
_TESTED = (Basis.TESTS, Basis.POOLED, Basis.LIKE)


@dataclass(frozen=True, slots=True)
class NextWeighing:
    """The stage's input, and the share of the interval's width that its next test takes off."""

    reach: Reach
    narrower: float


@method(
    unit="1",
    source="first-order propagation of independent errors, JCGM 100:2008, 5.1.2 [from memory]",
    title="width of an interval from its inputs",
)
def combined_width(swings: Iterable[tuple[float, Mapping[str, float]]]) -> float:
    """The width of a 90 % interval whose inputs move it by so much each, one at a time.

    Formula: the root of the sum of the squares; of inputs that move together, as prices of one
    list do, the parts of one factor are added up before. It holds where each input moves the
    figure along a straight line; the interval itself is drawn.

    Parameters: how far the figure moves between the low and the high end of each input's own
    90 % interval, and the input's share in each factor, none where it is on its own.

    >>> combined_width([(3.0, {}), (4.0, {})])
    5.0
    >>> combined_width([(3.0, {"list": 1.0}), (-4.0, {"list": 1.0})])
    1.0
    """
    alone: list[float] = []
    together: dict[str, float] = defaultdict(float)
    for swing, parts in swings:
        for factor, part in parts.items():
            together[factor] += swing * part
        if not parts:
            alone.append(swing)
    return math.hypot(*alone, *together.values())


def swing_of(reach: Reach, shorter: float = 1.0) -> tuple[float, Mapping[str, float]]:
    """What an input adds to the combined width, its interval made shorter by a factor."""
    spread = reach.spread
    parts = {factor: loading / spread.scale for factor, loading in spread.shared}
    return (reach.high - reach.low) * shorter, parts


@method(
    unit="1",
    source="the expected width of a yield's interval; standard error of a ratio of sums over n "
    "tests, Cochran, Sampling Techniques, 3rd ed. 1977, ch. 6 [from memory]",
    title="width that one more test leaves",
)
def width_after_one_more(tests: int, freedom: float) -> float:
    """Width of a yield's interval after one more test, over that of today, both in expectation.

    Formula: expected width at n + 1 tests over that at n, with as many degrees of freedom from
    like stages as are behind the interval of today beside the stage's own n - 1.

    Parameters: tests so far, at least one; degrees of freedom behind the interval of today.

    >>> round(width_after_one_more(2, 1), 3), round(width_after_one_more(11, 10), 3)
    (0.419, 0.951)
    >>> round(width_after_one_more(1, 2), 3), round(width_after_one_more(2, 3), 3)
    (0.646, 0.702)
    """
    like = freedom - (tests - 1)
    return expected_width(tests + 1, like) / expected_width(tests, like)


def next_weighing(reaches: Sequence[Reach]) -> NextWeighing | None:
    """The weighing that narrows a figure most; None where none is worth a line."""
    now = combined_width(map(swing_of, reaches))
    found = [
        NextWeighing(reach, 1 - combined_width(_with_one_more(reaches, reach)) / now)
        for reach in reaches
        if reach.node == YIELD and reach.spread.basis in _TESTED
    ]
    best = max(found, key=lambda each: each.narrower, default=None)
    return best if best and best.narrower >= WORTH else None


def _with_one_more(
    reaches: Sequence[Reach], tested: Reach
) -> Iterator[tuple[float, Mapping[str, float]]]:
    shorter = width_after_one_more(tested.spread.count, tested.spread.freedom)
    for reach in reaches:
        yield swing_of(reach, shorter if reach is tested else 1.0)
