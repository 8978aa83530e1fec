"""The records themselves, one class for each folder of the content."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Annotated, ClassVar, Self

from pydantic import Field, PlainValidator, model_validator

from builder.language import languages, tr
from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.allergens import AllergenList, AllergensStated
from builder.records.base import Record
from builder.records.buffets import Buffet
from builder.records.candidates import Candidate, MuscleName
from builder.records.clock import StaffedHours, TimeZone
from builder.records.counts import Count
from builder.records.covers import Cover, Garnish
from builder.records.editions import Edition
from builder.records.equipment import Equipment, Fuel, Targets
from builder.records.fields import (
    Amount,
    CookHours,
    Date,
    Energy,
    Hours,
    Id,
    Mass,
    Money,
    PricePerHour,
    PricePerKwh,
    PricePerMass,
    Share,
    Temperature,
    Volume,
    Whole,
    Words,
    YesNo,
    one_of,
    refuse,
)
from builder.records.menus import SetMenu
from builder.records.plans import (
    CUTS,
    FORMS,
    Cooling,
    CountsAs,
    Forms,
    Piece,
    Reheating,
    Storing,
)
from builder.records.plates import Plate
from builder.records.services import Service
from builder.records.sizes import SliceSize, WeighedIn
from builder.records.sold_as import PurchasePrice, Sold
from builder.records.species import SPECIES, SPECIES_MEANT
from builder.records.stages import Stage, StatedPart, WeighingTest
from builder.records.steps import Steps
from builder.records.swaps import Swap
from builder.records.tastings import Tasting
from builder.records.till import Till
from builder.records.tolerances import (
    CookTolerance,
    CutTolerance,
    KitchenTolerance,
    PantryTolerance,
    TimeAhead,
)

Species = Annotated[Text, PlainValidator(one_of(*SPECIES, meant=SPECIES_MEANT))]
Units = Annotated[Text, PlainValidator(one_of("metric", "us customary"))]
Basis = Annotated[Text, PlainValidator(one_of("whole", "by weight"))]
Language = Annotated[Text, PlainValidator(one_of(*languages()))]


class Kitchen(Record):
    """kitchen.yaml: what holds for the whole kitchen."""

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
        description="id of the rule set that the cooks are held against, one of the tool's "
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


class Cut(Record):
    """cuts/ID.yaml: a cut as it is bought, and how it is trimmed."""

    folder: ClassVar[str] = "cuts"
    examples: ClassVar[Mapping[str, str]] = {
        "price": "7.90/kg", "give or take": "{price: 8 %}", "each": "4.2 kg", "purge": "1.5 %",
        "slices": "28 g", "sold as": "piece of about 1.8 kg",
        "candidate": "{for: ribeye-steak, shape: slab, thickness: 45 mm}",
    }  # fmt: skip

    name: Words | None = Field(None, description="what it is called")
    imps: Words | None = Field(None, description="USDA institutional purchase specification number")
    species: Species = Field(description=f"one of {', '.join(SPECIES)}")
    muscle: MuscleName | None = Field(
        None, description="beef muscle that most of it is, for what is published of that"
    )
    candidate: Candidate | None = Field(
        None, description="plate that it might take the place of, while it is on none itself"
    )
    supplier: Words | None = Field(None, description="who sells it")
    price: PurchasePrice | None = Field(
        None, description="as purchased, or free; a price list in prices/ wins"
    )
    each: Mass | None = Field(None, description="weight of one, where it is priced each")
    slices: SliceSize | None = Field(
        None, description="what one slice weighs, or how many one gives, where nothing cooks it"
    )
    sold_as: Sold | None = Field(
        None, description="by the case, by the piece or in steps; as priced, if left out"
    )
    give_or_take: CutTolerance | None = Field(
        None, description="how far what is written may lie from the true value, 9 times in 10"
    )
    purge: Stage | None = Field(None, description="weight lost in the bag or in thawing")
    trim: Stage | None = Field(None, description="trimming")
    portion_cut: Stage | None = Field(None, description="cutting into raw portions")
    allergens: AllergensStated | None = Field(
        None, description="what it contains; none says so on purpose, left out is not stated"
    )
    may_contain: AllergensStated | None = Field(
        None, description="allergens of which there may be traces, as its label warns, or none"
    )
    note: Words | None = Field(None, description="free text, Markdown")


class Cook(Stage, Record):
    """cooks/ID.yaml: one way to cook a cut, with its tests; the cook is itself a stage."""

    folder: ClassVar[str] = "cooks"
    short_for: ClassVar[tuple[str, ...]] = ()
    examples: ClassVar[Mapping[str, str]] = {
        "cut": "beef-chuck-roll", "equipment": "bath-40", "load": "7.10 kg", "hands on": "35 min",
        "slices": "28 g", "gas": "1.8 m3", "for": "36 h", "consumables": "{bags: 2.40}",
        "give or take": "{hands on: 10 min}", "hold at": "60 °C",
        "remainder": "4.00/kg", "steps": "[Season and bag, {what: Sear, for: 90 s}]",
    }  # fmt: skip

    name: Words | None = Field(None, description="what it is called")
    cut: Id = Field(description="id of the cut that is cooked")
    how: Words = Field(description="water bath (or sous vide), oven, braise, smoke, grill, pan ...")
    at: Temperature | None = Field(None, description="temperature of the bath or oven")
    for_: CookHours | None = Field(None, description="how long it takes")
    core: Temperature | None = Field(None, description="core temperature that is aimed at")
    form: Forms | None = Field(None, description=f"one or several of {', '.join(FORMS)}")
    counts_as: CountsAs | None = Field(
        None, description=f"how the rules name the piece, one of {', '.join(CUTS)}"
    )
    seared: YesNo | None = Field(
        None, description="whether every outer surface is seared to a change of colour"
    )
    sealed: YesNo | None = Field(
        None, description="in a sealed bag, or at 90 % humidity or more; yes in a water bath"
    )
    piece: Piece | None = Field(None, description="shape, thickness, start and weight of a piece")
    equipment: Id | None = Field(None, description="id of equipment in kitchen.yaml")
    load: WeighedIn | None = Field(
        None, description="raw weight that goes in at once, or its number of pieces"
    )
    slices: SliceSize | None = Field(
        None, description="what one slice weighs as it is served, or how many a piece gives"
    )
    hands_on: Hours | None = Field(None, description="active work for the whole batch")
    energy: Energy | None = Field(None, description="energy for the batch, read from a meter")
    gas: Volume | None = Field(None, description="gas for the batch, read from a meter")
    consumables: dict[Text, Money] = Field({}, description="bags, gas ... for the batch")
    give_or_take: CookTolerance | None = Field(
        None, description="how far what is written may lie from the true value, 9 times in 10"
    )
    remainder: PricePerMass | None = Field(None, description="worth of what is no whole portion")
    purge: Stage | None = Field(None, description="instead of the cut's own")
    trim: Stage | None = Field(None, description="instead of the cut's own")
    portion_cut: Stage | None = Field(None, description="instead of the cut's own")
    cure: Stage | None = Field(None, description="cure or marinade; it may gain weight")
    finish: Stage | None = Field(None, description="sear or finish")
    rest: Stage | None = Field(None, description="resting")
    carve: Stage | None = Field(None, description="carving")
    hold: Stage | None = Field(None, description="holding until service")
    hold_at: Temperature | None = Field(None, description="temperature of the hot holding")
    hold_source: Words | None = Field(
        None, description="the clause, or who says, how long and at what it is held"
    )
    cool: Cooling | None = Field(None, description="where it is chilled and reheated")
    store: Storing | None = Field(
        None, description="where it is kept chilled, in its bag or without"
    )
    reheat: Reheating | None = Field(
        None,
        description="where it is reheated: for hot holding if hold at is written, else to order",
    )
    steps: Steps = Field([], description="how it is done, step by step, for one load")

    @model_validator(mode="after")
    def _one_energy(self) -> Self:
        if self.energy is not None and self.gas is not None:
            raise refuse(
                tr("energy and gas are one figure"), tr("keep one of them"), self.gas.place
            )
        return self

    @model_validator(mode="after")
    def _forms_agree(self) -> Self:
        forms = self.form or ()
        if "intact" in forms and len(forms) > 1:
            other = next(form for form in forms if form != "intact")
            raise refuse(
                tr("a piece marked intact can't also be {other}", other=other),
                tr("keep one of them"),
                other.place,
            )
        return self


class PantryItem(Record):
    """pantry/ID.yaml: something bought, or a sub-recipe that is made."""

    folder: ClassVar[str] = "pantry"
    examples: ClassVar[Mapping[str, str]] = {
        "price": "1.10/kg", "of": "{beef-bones: 2 kg, onion: 300 g}", "makes": "1.5 L",
        "sold as": "{pack: crate of 12 x 1 L, deposit: 3.00}",
        "yield": "85 %", "hands on": "25 min",
        "give or take": "{price: 8 %}", "each": "60 g", "litre": "1.03 kg",
        "quart": "2.15 lb", "steps": "[Roast the bones, {what: Simmer, for: 12 h}]",
    }  # fmt: skip

    name: Words | None = Field(None, description="what it is called")
    supplier: Words | None = Field(None, description="who sells it")
    price: PurchasePrice | None = Field(
        None, description="as purchased, or free, where it is bought"
    )
    sold_as: Sold | None = Field(
        None, description="by the case, by the piece or in steps; as priced, if left out"
    )
    of: dict[Id, Amount] = Field({}, description="ingredients by id, where it is made")
    makes: Amount | None = Field(None, description="amount that the ingredients make")
    yield_: Share | None = Field(
        None, description="usable share of what is bought, or weight made over ingredients"
    )
    hands_on: Hours | None = Field(None, description="active work for the amount made")
    energy: Energy | None = Field(None, description="energy for the amount made")
    fuel: Fuel | None = Field(None, description="electricity or gas")
    give_or_take: PantryTolerance | None = Field(
        None, description="how far what is written may lie from the true value, 9 times in 10"
    )
    each: Mass | None = Field(None, description="weight of one")
    litre: Mass | None = Field(None, description="weight of one litre")
    quart: Mass | None = Field(None, description="weight of one US quart, instead of a litre's")
    allergens: AllergensStated | None = Field(
        None,
        description="what it contains beyond its ingredients; none says so on purpose, left out "
        "is not stated",
    )
    may_contain: AllergensStated | None = Field(
        None, description="allergens of which there may be traces, as its label warns, or none"
    )
    store: Storing | None = Field(
        None, description="how long it is kept cold once it is made, or opened"
    )
    steps: Steps = Field([], description="how it is made, step by step, where it is made")
    note: Words | None = Field(None, description="free text, Markdown")

    @cached_property
    def listed_by(self) -> Dimension | None:
        """What the price lists count it in, where all their rows agree; set by `load`."""
        return None

    @model_validator(mode="after")
    def _one_density(self) -> Self:
        if self.litre is not None and self.quart is not None:
            raise refuse(tr("litre and quart say the same"), tr("keep one"), self.quart.place)
        return self

    @model_validator(mode="after")
    def _bought_or_made(self) -> Self:
        if bool(self.of) and self.price is not None:
            raise refuse(
                tr("a pantry item is bought or made, not both"),
                tr("keep price, or keep of and makes"),
                self.price.place,
            )
        if self.of and self.makes is None and self.yield_ is None:
            raise refuse(
                tr("a sub-recipe must say how much it makes"),
                tr("write makes: or yield:, such as makes: 2.4 L"),
            )
        return self


RECORDS: tuple[type[Record], ...] = (
    Cut, Cook, PantryItem, Plate, SetMenu, Buffet, Swap, Service, Tasting, Count,
)  # fmt: skip
"""The kinds that live in folders, in the order in which they lean on each other."""

__all__ = [
    "RECORDS",
    "Buffet",
    "Cook",
    "Count",
    "Cut",
    "Equipment",
    "Kitchen",
    "PantryItem",
    "Plate",
    "Record",
    "Service",
    "SetMenu",
    "Stage",
    "StatedPart",
    "Swap",
    "Targets",
    "Tasting",
    "WeighingTest",
]
