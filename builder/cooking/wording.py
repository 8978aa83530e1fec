"""How the sentences of verdicts write a temperature and a time; a rule's printed figures stay."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from builder.cooking.ranges import spoken_min


def celsius(degrees: float) -> str:
    """Write a temperature [°C] to a tenth at most.

    >>> celsius(57.0), celsius(54.44)
    ('57 °C', '54.4 °C')
    """
    return f"{round(degrees, 1):g} °C"


@dataclass(frozen=True, slots=True)
class Wording:
    """Writes a temperature [°C] and a time [min] into a sentence, in whatever units are read."""

    temperature: Callable[[float], str] = celsius
    minutes: Callable[[float], str] = spoken_min


METRIC = Wording()
