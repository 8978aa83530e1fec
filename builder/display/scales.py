"""Which unit and how many decimals a size is shown with: common practice, no published source."""

from __future__ import annotations

from enum import StrEnum
from math import inf
from typing import NamedTuple

from builder.quantities import Dimension


class UnitSystem(StrEnum):
    """The units that a kitchen reads."""

    METRIC = "metric"
    US_CUSTOMARY = "us customary"


class Step(NamedTuple):
    """Sizes below a limit [base unit], the unit they are shown in and its decimals."""

    below: float
    unit: str
    places: int
    trim: bool = True


UNIT: dict[UnitSystem, dict[Dimension, str]] = {
    UnitSystem.METRIC: {
        Dimension.MASS: "kg",
        Dimension.VOLUME: "L",
        Dimension.LENGTH: "mm",
        Dimension.TEMPERATURE: "°C",
    },
    UnitSystem.US_CUSTOMARY: {
        Dimension.MASS: "lb",
        Dimension.VOLUME: "qt",
        Dimension.LENGTH: "in",
        Dimension.TEMPERATURE: "°F",
    },
}

# The limits lie where the smaller unit would round up to a whole one of the larger.
STEPS: dict[UnitSystem, dict[Dimension, tuple[Step, ...]]] = {
    UnitSystem.METRIC: {
        Dimension.MASS: (
            Step(0.001, "g", 2),
            Step(0.01, "g", 1),
            Step(0.9995, "g", 0),
            Step(100, "kg", 2, trim=False),
            Step(1000, "kg", 1, trim=False),
            Step(inf, "kg", 0),
        ),
        Dimension.VOLUME: (
            Step(0.01, "mL", 1),
            Step(0.9995, "mL", 0),
            Step(100, "L", 2, trim=False),
            Step(1000, "L", 1, trim=False),
            Step(inf, "L", 0),
        ),
        Dimension.LENGTH: (Step(100, "mm", 1), Step(999.5, "mm", 0), Step(inf, "m", 2)),
        Dimension.TEMPERATURE: (Step(inf, "°C", 1),),
    },
    UnitSystem.US_CUSTOMARY: {
        Dimension.MASS: (
            Step(0.0283, "oz", 2),
            Step(0.45218, "oz", 1),
            Step(inf, "lb", 1),
        ),
        Dimension.VOLUME: (
            Step(0.9448, "fl oz", 1),
            Step(3.7806, "qt", 2),
            Step(inf, "gal", 2),
        ),
        Dimension.LENGTH: (Step(inf, "in", 2),),
        Dimension.TEMPERATURE: (Step(inf, "°F", 1),),
    },
}


def step_for(size: float, steps: tuple[Step, ...]) -> Step:
    """Find the step of a size by its magnitude.

    >>> step_for(-0.5, STEPS[UnitSystem.METRIC][Dimension.MASS]).unit
    'g'
    """
    magnitude = abs(size)
    return next(step for step in steps if magnitude < step.below)
