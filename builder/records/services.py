"""A service that comes round every week: when it is, what it serves, who does what before."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import time
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator

from builder.language import Deferred
from builder.reading.tree import Text
from builder.records.base import Record, Written
from builder.records.fields import Amount, Hours, Id, TimeOfDay, Whole, Words, one_of
from builder.records.kind import FREE, Kind

DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")

Day = Annotated[Text, PlainValidator(one_of(*DAYS))]


class Serving(Written):
    """How much of a plate a service serves: `40`, or `[40, 2 d]` where it is cooked ahead."""

    short_for: ClassVar[tuple[str, ...]] = ("covers", "ahead")
    examples: ClassVar[Mapping[str, str]] = {
        "covers": "40", "ahead": "2 d",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"covers": "work", "ahead": "cooking"}

    covers: Whole = Field(description="portions to serve")
    ahead: Hours | None = Field(
        None,
        description="time that it lies chilled before it is reheated; left out, it goes "
        "straight from the cook to the plate, as what its cooks do not chill does",
    )


class StaffStep(Written):
    """A step of the staff's work; the last one ends when the service begins."""

    examples: ClassVar[Mapping[str, str]] = {
        "for": "30 min",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"what": FREE, "for_": FREE}

    what: Words = Field(description="what is done, in a few words")
    for_: Hours = Field(description="how long it takes")


class Service(Record):
    """services/ID.yaml: a weekly service, from which every start is counted back."""

    folder: ClassVar[str] = "services"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("service"), counted=("{count} service", "{count} services"),
        meant=("schedule", "prep", "orders"), editions=("kitchen",), names=("plates",),
        tables=("loading", "serving", "menu_serving", "job", "service_order", "order_line",
            "order_need", "preparation"),
        worked={"service": Deferred("Friday dinner")},
        stand_ins={"day": Text("monday"), "at": Text("12:00")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "plates": "{chuck-steak: 40, shank: [25, 2 d]}",
        "menus": "{sunday-three-courses: 70}",
        "on hand": "{cream: 2 L, beef-chuck-roll: 4 kg}", "besides": "{salt: 500 g}",
        "steps": "[{what: ‹set the pass›, for: 30 min}]",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "day", "at", "plates", "steps"), FREE), "menus": "work",
        "on_hand": "weights", "besides": "weights",
    }  # fmt: skip

    name: Words | None = Field(None, description="what the service is called")
    day: Day = Field(description="day of the week")
    at: TimeOfDay = Field(description="when the first plate goes out")
    plates: dict[Id, Serving] = Field({}, description="plates by id, with their covers")
    menus: dict[Id, Whole] = Field(
        {},
        description="set menus by id, with their guests: what these take by the menu's shares is "
        "added to the plates, up to whole ones; a plate's own line may say 0 and its time ahead",
    )
    on_hand: dict[Id, Amount] = Field(
        {},
        description="stock at hand, by cut or pantry item: taken off what is needed before it is "
        "rounded up to what is sold; cuts as purchased",
    )
    besides: dict[Id, Amount] = Field(
        {},
        description="pantry items, and cuts as purchased, that the service uses besides what its "
        "plates take, such as the salt and pepper that no plate lists",
    )
    steps: list[StaffStep] = Field([], description="the staff's steps before it, in order")
    note: Words | None = Field(None, description="free text, Markdown")

    @property
    def links(self) -> Iterator[tuple[str, Text]]:
        """Its plates and set menus."""
        yield from (("plates", name) for name in self.plates)
        yield from (("menus", name) for name in self.menus)

    @property
    def named_paths(self) -> set[str]:
        """The paths of its plates: without a set menu it still serves the rest."""
        return {f"plates/{name}" for name in self.plates}

    @property
    def weekday(self) -> int:
        """The day's number, Monday 0."""
        return DAYS.index(self.day)

    @property
    def clock(self) -> time:
        """The time of day at which it begins."""
        return self.at.hour
