"""What is a caution under every authority and under none: hours where bacteria grow.

Nothing here is a rule of one text: a core that is long between 10 and 54.4 °C on its way up
or down, and a long cook that never leaves that range.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from builder.cooking.pieces import CoreEstimate
from builder.language import Deferred
from builder.quantities.prints import ROUNDING_C, lower_print

GROWS_FROM_C, GROWS_TO_C = 10.0, (130 - 32) / 1.8
"""50 and 130 °F [common caution; FSIS Appendix A prints them for its own table, secondary]."""
PRINTED_TO_C = lower_print(GROWS_TO_C)
"""54.4 °C, as 130 °F is printed in °C: a bath or a core at either is not below it."""
PASSED_WITHIN_MIN = 6 * 60.0
"""6 h from the one to the other [as above]."""
COOL_COOK_MIN = 4 * 60.0
"""The longest cook below 54.4 °C without a caution: US model Food Code 3-501.19, time as a
control [from memory]."""

GROWTH_C = (GROWS_FROM_C, GROWS_TO_C)


class Slow(Enum):
    """What takes long; the value names it."""

    COOK = Deferred("the cook")
    COMING_UP = Deferred("coming up")
    COOLING = Deferred("cooling")
    REHEATING = Deferred("reheating")


@dataclass(frozen=True, slots=True)
class Caution:
    """One stretch in the range where bacteria grow.

    `taken_min` [min] is at the slow end; `gets_through` is False where the core does not come
    out of the range in the time given.
    """

    what: Slow
    taken_min: float
    gets_through: bool = True


def cool_cook(hottest_c: float, time_min: float) -> Iterator[Caution]:
    """A long cook whose core never comes to 54.4 °C; `hottest_c` [°C] bounds the core."""
    if hottest_c < PRINTED_TO_C - ROUNDING_C and time_min > COOL_COOK_MIN:
        yield Caution(Slow.COOK, time_min, gets_through=False)


def slow_warming(what: Slow, heat: CoreEstimate, time_min: float | None) -> Iterator[Caution]:
    """A core that comes up through the range too slowly, in a plan of so long [min]."""
    if not heat.reaches(GROWS_TO_C):
        return
    into = heat.reach_min(GROWS_FROM_C).high
    ends = float("inf") if time_min is None else time_min
    out = heat.reach_min(GROWS_TO_C).high
    taken = min(out, ends) - into
    if PASSED_WITHIN_MIN < taken < float("inf"):
        yield Caution(what, taken, gets_through=out <= ends)


def slow_cooling(heat: CoreEstimate) -> Iterator[Caution]:
    """A core that falls through the range too slowly."""
    if not heat.reaches(GROWS_FROM_C):
        return
    taken = heat.reach_min(GROWS_FROM_C).high - heat.reach_min(GROWS_TO_C).high
    if taken > PASSED_WITHIN_MIN:
        yield Caution(Slow.COOLING, taken)
