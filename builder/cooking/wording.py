"""How the sentences of verdicts write a temperature and a time; a rule's printed figures stay."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from builder.cooking.ranges import worded_min
from builder.display.estimates import Way, rounded_min
from builder.display.numerals import as_read
from builder.language import tr
from builder.rounding import Halved


def celsius(degrees: float) -> str:
    """Write a temperature [°C] to a tenth at most.

    >>> celsius(57.0), celsius(54.44)
    ('57 °C', '54.4 °C')
    """
    return f"{as_read(degrees, 1):g} °C"


def percentage(share: float) -> str:
    """Write a share [1] as a whole percentage.

    >>> percentage(0.625)
    '63%'
    """
    return f"{Halved(share):.0%}"


def about_min(minutes: float, way: Way = "up", limit: float | None = None) -> str:
    """Write an estimated time [min], rounded to what a model knows.

    >>> about_min(253), about_min(83)
    ('about 4.5 h', 'about 85 min')
    """
    return tr("about {worded_min}", worded_min=worded_min(rounded_min(minutes, way, limit)))


class Estimating(Protocol):
    """Writes an estimated time [min], rounded one way without crossing a limit [min]."""

    def __call__(self, minutes: float, way: Way = "up", limit: float | None = None) -> str:
        """Return the words."""


@dataclass(frozen=True, slots=True)
class Wording:
    """Writes a temperature [°C], a time [min] and a share [1] into a sentence, as is read.

    `minutes` is for a time that a file or a rule states, `estimate` for one from a model.
    """

    temperature: Callable[[float], str] = celsius
    minutes: Callable[[float], str] = worded_min
    estimate: Estimating = about_min
    percent: Callable[[float], str] = percentage


METRIC = Wording()
