"""The records that live in folders, one class for each."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Annotated, ClassVar, Self

from pydantic import Field, PlainValidator, model_validator

from builder.language import Deferred, spelled, tr
from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.allergens import AllergensStated
from builder.records.base import Record
from builder.records.buffets import Buffet
from builder.records.candidates import Candidate, MuscleName
from builder.records.counts import Count
from builder.records.equipment import Equipment, Fuel, Targets
from builder.records.fields import (
    Amount,
    CookHours,
    Energy,
    Hours,
    Id,
    Mass,
    Money,
    PricePerMass,
    Share,
    Temperature,
    Volume,
    Words,
    YesNo,
    one_of,
    refuse,
)
from builder.records.kind import FREE, Kind
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
from builder.records.tolerances import (
    CookTolerance,
    CutTolerance,
    PantryTolerance,
)

_CUT_CHAIN = dict.fromkeys(("purge", "trim", "portion_cut"), "weights")
_COOK_CHAIN = dict.fromkeys(("cure", "finish", "rest", "carve", "hold"), "weights")
_ALLERGENS = dict.fromkeys(("allergens", "may_contain"), "allergens")
Species = Annotated[Text, PlainValidator(one_of(*SPECIES, meant=SPECIES_MEANT))]


class Cut(Record):
    """cuts/ID.yaml: a cut as it is bought, and how it is trimmed."""

    folder: ClassVar[str] = "cuts"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("cut"), counted=("{count} cut", "{count} cuts"), meant=("meat", "meats"),
        editions=("kitchen", "front-of-house"),
        tables=("cut", "stage", "test", "byproduct", "part"),
        worked={"cut": Deferred("Beef cheek")}, stand_ins={"species": Text("other")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "price": "7.90/kg", "give or take": "{price: 8 %}", "each": "4.2 kg", "purge": "1.5 %",
        "slices": "28 g", "sold as": "piece of about 1.8 kg",
        "candidate": "{for: ribeye-steak, shape: slab, thickness: 45 mm}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "imps", "species", "muscle"), FREE), "supplier": "suppliers",
        "price": "prices", "each": "weights", "slices": "weights", **_CUT_CHAIN, **_ALLERGENS,
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
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("cook"), counted=("{count} cook", "{count} cooks"),
        editions=("kitchen", "front-of-house"), names=("cuts",),
        tables=("batch", "step", "cooling", "consumable"),
        worked={"cook": Deferred("Beef cheek 30h")}, stand_ins={"cut": Text("-"), "how": Text("-")},
    )  # fmt: skip
    short_for: ClassVar[tuple[str, ...]] = ()
    examples: ClassVar[Mapping[str, str]] = {
        "cut": "beef-chuck-roll", "equipment": "bath-40", "load": "7.10 kg", "hands on": "35 min",
        "slices": "28 g", "gas": "1.8 m3", "for": "36 h", "consumables": "{bags: 2.40}",
        "give or take": "{hands on: 10 min}", "hold at": "60 °C",
        "remainder": "4.00/kg", "steps": "[‹Season and bag›, {what: ‹Sear›, for: 90 s}]",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **Stage.granted, **_CUT_CHAIN, **_COOK_CHAIN,
        **dict.fromkeys(("name", "cut", "equipment"), FREE),
        **dict.fromkeys(
            ("at", "core", "form", "counts_as", "seared", "sealed", "piece", "energy",
             "gas", "hold_at", "hold_source", "cool", "store", "reheat"), "cooking"),
        "load": "weights", "slices": "weights", "hands_on": "work", "consumables": "prices",
        "remainder": "prices", "steps": "steps",
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
                tr("a piece marked intact can't also be {other}", other=spelled(other)),
                tr("keep one of them"),
                other.place,
            )
        return self


class PantryItem(Record):
    """pantry/ID.yaml: something bought, or a sub-recipe that is made."""

    folder: ClassVar[str] = "pantry"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("pantry item"), counted=("{count} pantry item", "{count} pantry items"),
        meant=("ingredients", "items", "recipes", "sub recipes"),
        editions=("kitchen", "front-of-house"), tables=("pantry", "ingredient"),
        worked={"pantry": Deferred("Bones"), "recipe": Deferred("Red sauce")},
        about_worked=Deferred("Something bought, and something made."),
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "price": "1.10/kg", "of": "{beef-bones: 2 kg, onion: 300 g}", "makes": "1.5 L",
        "sold as": "{pack: crate of 12 x 1 L, deposit: 3.00}",
        "yield": "85 %", "hands on": "25 min",
        "give or take": "{price: 8 %}", "each": "60 g", "litre": "1.03 kg",
        "quart": "2.15 lb", "steps": "[‹Roast the bones›, {what: ‹Simmer›, for: 12 h}]",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        "name": FREE, "supplier": "suppliers", "price": "prices", "of": FREE,
        **dict.fromkeys(("makes", "yield_", "each", "litre", "quart"), "weights"),
        **dict.fromkeys(("energy", "fuel", "store"), "cooking"), "hands_on": "work",
        **_ALLERGENS, "steps": "steps",
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
