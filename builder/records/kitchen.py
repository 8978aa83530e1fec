"""What holds for the whole kitchen: kitchen.yaml."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator

from builder.language import Deferred, languages
from builder.reading.tree import Text
from builder.records.allergens import AllergenList
from builder.records.base import Record
from builder.records.clock import StaffedHours, TimeZone
from builder.records.covers import Cover, Garnish
from builder.records.editions import Edition
from builder.records.equipment import Equipment, Targets
from builder.records.fields import (
    Date,
    Hours,
    Id,
    Money,
    PricePerHour,
    PricePerKwh,
    Share,
    Temperature,
    Whole,
    Words,
    YesNo,
    one_of,
)
from builder.records.kind import FREE, Kind
from builder.records.till import Till
from builder.records.tolerances import KitchenTolerance, TimeAhead

Units = Annotated[Text, PlainValidator(one_of("metric", "us customary"))]
Basis = Annotated[Text, PlainValidator(one_of("whole", "by weight"))]
Language = Annotated[Text, PlainValidator(one_of(*languages()))]


class Kitchen(Record):
    """kitchen.yaml: what holds for the whole kitchen."""

    kind: ClassVar[Kind] = Kind(
        worked={"kitchen": Deferred("Our kitchen")},
        stand_ins={"name": Text("Kitchen"), "currency": Text("XXX")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "tax": "5 %", "gas": "0.05/kWh", "seasoning": "2 %", "room": "22 °C",
        "fill water": "15 °C", "running hours": "168 h", "weeks open": "48",
        "planning horizon": "3 months",
        "give or take": "{loaded wage: 5 %}",
        "cover cost": "{of: {sourdough: 60 g, butter: 15 g}, on: [mains]}",
        "covers": "[40, 80, 120]", "price endings": "[.50, .95]", "sections": "[starters, mains]",
        "equipment": "{bath-40: {kind: water bath, volume: 40 L}}",
        "editions": "{chefs: {records: [cuts, cooks], figures: [weights, cooking]}}",
        "authority": "us-food-code-2017", "language": "fr",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(
            ("name", "about", "currency", "locale", "units", "as_of", "time_zone", "authority",
             "sections", "equipment"), FREE),
        "cover_cost": "plates", "garnish": "prices",
        "allergens": "allergens", "portions": "weights", "covers": "work", "staffed": "work",
        "room": "cooking", "fill_water": "cooking", "running_hours": "cooking",
    }  # fmt: skip

    name: Words = Field(description="the kitchen's name")
    about: Words | None = Field(None, description="a line that stands on every page")
    currency: Words = Field(description="ISO 4217 code, such as CAD")
    locale: Words | None = Field(None, description="how numbers are written, such as en_CA")
    language: Language | None = Field(
        None,
        description="the language of pages and messages, such as en or fr; that of the locale if "
        "left out, where there is one, else English",
    )
    units: Units | None = Field(None, description="metric or us customary")
    as_of: Date | None = Field(None, description="the day that the site is computed for")
    time_zone: TimeZone | None = Field(
        None,
        description="where the kitchen is, so that hours are right where the clocks change",
    )
    staffed: StaffedHours | None = Field(
        None,
        description="hours in which somebody is there, such as 07:00-23:00 or 18:00-01:00; by "
        "weekday as {mon-fri: 07:00-23:00, sat: 10:00-01:00}, where a day left out is closed",
    )
    tax: Share | None = Field(None, description="sales tax on menu prices")
    prices_include_tax: YesNo = Field(True, description="whether menu prices include it")
    loaded_wage: PricePerHour | None = Field(None, description="an hour of work with all dues")
    energy: PricePerKwh | None = Field(None, description="electricity tariff")
    gas: PricePerKwh | None = Field(None, description="gas tariff")
    targets: Targets | None = Field(None, description="food cost and margin aimed at")
    portions: Basis | None = Field(None, description="cost by whole portions or by weight")
    seasoning: Share | None = Field(None, description="allowance as a share of the other food")
    garnish: Garnish | None = Field(
        None, description="trimmings that no plate lists, as money or as a share of the listed food"
    )
    cover_cost: Cover | None = Field(
        None, description="bread, butter, condiments: what every cover gets that no plate lists"
    )
    authority: Id | None = Field(
        None,
        description="id of the rule set that the cooks are compared with, one of the tool's "
        "own or of rules/",
    )
    allergens: AllergenList | None = Field(
        None,
        description="the allergens that pages list: a law's, or a list of the kitchen's own; by "
        "the authority, else the locale, if left out",
    )
    room: Temperature | None = Field(None, description="temperature of the kitchen, for energy")
    fill_water: Temperature | None = Field(
        None, description="temperature of the water that baths are filled with"
    )
    running_hours: Hours | None = Field(
        None, description="hours a week in which equipment may run, with nobody there too"
    )
    weeks_open: Whole | None = Field(None, description="weeks a year that it serves")
    price_endings: list[Money] = Field(
        [], description="how prices on the menu end, such as .50 and .95, or 4 and 9"
    )
    planning_horizon: TimeAhead | None = Field(
        None,
        description="how far ahead costs are judged: prices may move as they did so far over so "
        "many days, weeks or months; a month if left out",
    )
    give_or_take: KitchenTolerance | None = Field(
        None, description="how far what is written may lie from the true value, 9 times in 10"
    )
    covers: list[Whole] = Field([], description="numbers of covers that buying is shown for")
    sections: list[Words] = Field([], description="menu sections in the order of the menu")
    equipment: dict[Text, Equipment] = Field({}, description="equipment by id")
    till: Till | None = Field(None, description="how the exports of the till in sales/ are written")
    editions: dict[Text, Edition] = Field(
        {}, description="sites for readers who do not see all, by name, with what each is granted"
    )
    note: Words | None = Field(None, description="free text, Markdown")

    @property
    def counts_whole(self) -> bool:
        """Whether portions are counted whole, as they are unless it is written otherwise."""
        return self.portions is None or self.portions == "whole"
