"""How far a written value may lie from the true one, where the kitchen knows it: `give or take`.

Each says: nine times in ten the true value lies so near. A share of the value (8 %) or, where
it is a weight or a time, an amount of its own unit (5 g, 10 min). A loss is given or taken
in points: 22 % give or take 3 % is 19 % to 25 %. So is what a buffet leaves.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator

from builder.language import tr
from builder.problems import Place
from builder.quantities import Dimension
from builder.records.base import Written
from builder.records.fields import Measure, Share, quantity, refuse, scalar, schema
from builder.records.kind import FREE

D = Dimension
_DAYS = {"day": 1.0, "week": 7.0, "month": 365.25 / 12}
_LONGEST_DAYS = 366.0
_HORIZON = re.compile(r"([0-9]+)\s*(day|week|month)s?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Horizon:
    """How far ahead a kitchen plans, in days, as written."""

    days: float
    place: Place
    text: str


def _horizon(node: object) -> Horizon:
    text = scalar(node, tr("a time ahead, for example 3 months"))
    found = _HORIZON.fullmatch(text.strip())
    if found is None:
        hint = tr("days, weeks or months as a whole number, such as 90 days, 6 weeks or 3 months")
        raise refuse(tr('"{text}" is no time ahead', text=text), hint, text.place)
    days = int(found[1]) * _DAYS[found[2].lower()]
    if not 0 < days <= _LONGEST_DAYS:
        raise refuse(
            tr("{text} is no time to plan prices for", text=text),
            tr("from 1 day to 12 months"),
            text.place,
        )
    return Horizon(days, text.place, str(text))


TimeAhead = Annotated[Horizon, PlainValidator(_horizon), schema("3 months", "a time ahead")]
MassOrShare = Annotated[
    Measure,
    PlainValidator(quantity("a weight or a share, for example 5 g or 3 %", D.MASS, D.RATIO)),
    schema("5 g", "weight or per cent"),
]
TimeOrShare = Annotated[
    Measure,
    PlainValidator(quantity("a time or a share, for example 10 min or 20 %", D.TIME, D.RATIO)),
    schema("10 min", "time or per cent"),
]


class StageTolerance(Written):
    """Of a stage: its loss, gain or yield as stated, in points; a lone share is that."""

    short_for: ClassVar[tuple[str, ...]] = ("loss",)
    examples: ClassVar[Mapping[str, str]] = {"loss": "3 %"}
    granted: ClassVar[Mapping[str, str]] = {"loss": FREE}

    loss: Share | None = Field(
        None, description="of the loss, gain or yield that is stated, in points of the weight in"
    )


class CookTolerance(StageTolerance):
    """Of a cook: its loss in points, its work and its energy."""

    short_for: ClassVar[tuple[str, ...]] = ()
    examples: ClassVar[Mapping[str, str]] = {
        "loss": "3 %", "hands on": "10 min", "energy": "15 %",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"loss": FREE, "hands_on": "work", "energy": "cooking"}

    hands_on: TimeOrShare | None = Field(None, description="of the work on the batch")
    energy: Share | None = Field(None, description="of the energy of the batch")


class CutTolerance(Written):
    """Of a cut: its price over the time ahead, where a contract or a deal bounds it."""

    examples: ClassVar[Mapping[str, str]] = {"price": "8 %"}

    price: Share | None = Field(
        None, description="of the price over the planning horizon; it wins over the lists' changes"
    )


class PantryTolerance(CutTolerance):
    """Of a pantry item: its price, and the work on it where it is made."""

    examples: ClassVar[Mapping[str, str]] = {"price": "8 %", "hands on": "10 min"}

    hands_on: TimeOrShare | None = Field(None, description="of the work on the amount made")


class PlateTolerance(Written):
    """Of a plate: its mean portion, the work on it, and how many are sold."""

    examples: ClassVar[Mapping[str, str]] = {
        "portion": "5 g", "hands on": "1 min", "count": "25 %", "garnish": "20 %",
        "cover cost": "10 %",
    }  # fmt: skip

    portion: MassOrShare | None = Field(None, description="of the mean portion on the plate")
    hands_on: TimeOrShare | None = Field(None, description="of the work to plate one")
    count: Share | None = Field(None, description="of the plates that are sold or forecast")
    garnish: Share | None = Field(None, description="of its own garnish")
    cover_cost: Share | None = Field(None, description="of its own cover cost")


class KitchenTolerance(Written):
    """Of what holds for the whole kitchen."""

    examples: ClassVar[Mapping[str, str]] = {
        "loaded wage": "5 %", "energy": "15 %", "gas": "15 %", "portion": "6 g",
        "hands on": "20 %", "garnish": "20 %", "cover cost": "10 %",
    }  # fmt: skip

    loaded_wage: Share | None = Field(None, description="of the loaded wage")
    energy: Share | None = Field(None, description="of the electricity tariff")
    gas: Share | None = Field(None, description="of the gas tariff")
    portion: MassOrShare | None = Field(
        None, description="of the mean portion of every plate that has no weighed portions"
    )
    hands_on: Share | None = Field(
        None, description="of every piece of work that says nothing else"
    )
    garnish: Share | None = Field(
        None, description="of the garnish, and of a plate's own that says nothing else"
    )
    cover_cost: Share | None = Field(
        None,
        description="of the cover cost, or of each amount of its items, and of a plate's own that "
        "says nothing else",
    )


class BuffetTolerance(Written):
    """Of a counter or a buffet: what is left of what is put out, in points of it."""

    examples: ClassVar[Mapping[str, str]] = {"left": "3 %"}

    left: Share | None = Field(None, description="of the share that is left, in points of it")
