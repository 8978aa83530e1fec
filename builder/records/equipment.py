"""Parts of kitchen.yaml: what the kitchen aims at, and its equipment."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator

from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.base import Written, title_of
from builder.records.fields import (
    Date,
    Hours,
    Mass,
    Measure,
    Money,
    Power,
    PricePerHour,
    Share,
    Volume,
    Whole,
    Words,
    YesNo,
    one_of,
    quantity,
    schema,
)
from builder.records.kind import FREE

COVERS = ("open", "lid", "balls", "insulated")

Cover = Annotated[Text, PlainValidator(one_of(*COVERS))]
# Years of use, so without the limit of a year that a cook, a rest or a cleaning has.
Lifetime = Annotated[
    Measure,
    PlainValidator(quantity("a time, for example 36 h or 35 min", Dimension.TIME)),
    schema("8000 h", "time"),
]
Fuel = Annotated[Text, PlainValidator(one_of("electricity", "gas"))]


class Targets(Written):
    """What the kitchen aims at."""

    examples: ClassVar[Mapping[str, str]] = {
        "food cost": "30 %", "margin": "16.00",
    }  # fmt: skip

    food_cost: Share | None = Field(None, description="food cost as a share of the price")
    margin: Money | None = Field(None, description="contribution margin a plate")


class Equipment(Written):
    """A bath, an oven, a grill: what it holds, draws and costs."""

    examples: ClassVar[Mapping[str, str]] = {
        "title": "Bath, 40 L", "how many": "2", "holds": "12 kg", "price": "1150.00",
        "lasts": "8000 h", "service life": "14000", "charge": "1.20/h", "turn round": "20 min",
        "cleaning": "3 h", "pans": "10",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        "title": FREE, "kind": FREE,
        **dict.fromkeys(
            ("how_many", "volume", "holds", "cover", "covered", "measured_standby", "fuel",
             "turn_round", "pans"), "cooking"),
        "cleaning": "work", "price": "prices", "charge": "prices",
    }  # fmt: skip

    checked: Date | None = Field(None, description="day on which somebody looked over it")

    title: Words | None = Field(
        None, description="its name on pages and sheets; its key, without hyphens, if left out"
    )
    kind: Words = Field(description="water bath, oven, grill ...")
    how_many: Whole | None = Field(
        None, description="how many there are, all alike; one if left out, the rest is of one"
    )
    volume: Volume | None = Field(None, description="water that it holds")
    holds: Mass | None = Field(None, description="raw weight that goes in at once")
    cover: Cover | None = Field(None, description="open, lid, balls or insulated")
    covered: YesNo | None = Field(None, description="whether a lid is on; short for cover: lid")
    price: Money | None = Field(None, description="what one of it cost to buy")
    lasts: Lifetime | None = Field(None, description="hours of use that it is expected to last")
    service_life: Whole | None = Field(None, description="the same in whole hours, without a unit")
    charge: PricePerHour | None = Field(None, description="charge for an hour of use")
    measured_standby: Power | None = Field(None, description="mean draw at temperature, measured")
    fuel: Fuel | None = Field(None, description="electricity or gas")
    turn_round: Hours | None = Field(None, description="time between two loads")
    cleaning: Hours | None = Field(None, description="hours a week that cleaning keeps it idle")
    pans: Whole | None = Field(None, description="pans that a combination oven holds, 3 to 40")


def gear_title(equipment: Mapping[Text, Equipment], key: str) -> str:
    """What a piece of equipment is called where people read, by the key of its line.

    >>> gear_title({}, "bath-40")
    'Bath 40'
    """
    gear = next((each for name, each in equipment.items() if name == key), None)
    return str(gear.title) if gear and gear.title else title_of(key)
