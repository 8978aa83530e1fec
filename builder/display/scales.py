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


class ScaleStep(NamedTuple):
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
STEPS: dict[UnitSystem, dict[Dimension, tuple[ScaleStep, ...]]] = {
    UnitSystem.METRIC: {
        Dimension.MASS: (
            ScaleStep(0.001, "g", 2),
            ScaleStep(0.01, "g", 1),
            ScaleStep(0.9995, "g", 0),
            ScaleStep(100, "kg", 2, trim=False),
            ScaleStep(1000, "kg", 1, trim=False),
            ScaleStep(inf, "kg", 0),
        ),
        Dimension.VOLUME: (
            ScaleStep(0.01, "mL", 1),
            ScaleStep(0.9995, "mL", 0),
            ScaleStep(100, "L", 2, trim=False),
            ScaleStep(1000, "L", 1, trim=False),
            ScaleStep(inf, "L", 0),
        ),
        Dimension.LENGTH: (
            ScaleStep(100, "mm", 1),
            ScaleStep(999.5, "mm", 0),
            ScaleStep(inf, "m", 2),
        ),
        Dimension.TEMPERATURE: (ScaleStep(inf, "°C", 1),),
    },
    UnitSystem.US_CUSTOMARY: {
        Dimension.MASS: (
            ScaleStep(0.0283, "oz", 2),
            ScaleStep(0.45218, "oz", 1),
            ScaleStep(inf, "lb", 1),
        ),
        Dimension.VOLUME: (
            ScaleStep(0.9448, "fl oz", 1),
            ScaleStep(3.7806, "qt", 2),
            ScaleStep(inf, "gal", 2),
        ),
        Dimension.LENGTH: (ScaleStep(inf, "in", 2),),
        Dimension.TEMPERATURE: (ScaleStep(inf, "°F", 1),),
    },
}


def step_for(size: float, steps: tuple[ScaleStep, ...]) -> ScaleStep:
    """Find the step of a size by its magnitude.

    >>> step_for(-0.5, STEPS[UnitSystem.METRIC][Dimension.MASS]).unit
    'g'
    """
    magnitude = abs(size)
    return next(step for step in steps if magnitude < step.below)
