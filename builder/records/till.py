"""How the till writes what was sold: `till` in kitchen.yaml, and the rows of `sales/*.csv`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator

from builder.reading.tree import Text
from builder.records.base import Written
from builder.records.fields import Date, Id, Money, Whole, Words, YesNo, one_of

ORDERS = ("year-month-day", "day/month/year", "month/day/year")
DateOrder = Annotated[Text, PlainValidator(one_of(*ORDERS))]
PriceOf = Annotated[Text, PlainValidator(one_of("one", "row"))]


class TillColumns(Written):
    """Which column of the till's file is which, by its heading."""

    examples: ClassVar[Mapping[str, str]] = {
        "date": "Business day", "plate": "Item", "count": "Qty", "price": "Amount",
    }  # fmt: skip

    date: Words | None = Field(None, description="heading of the days; date if left out")
    plate: Words | None = Field(None, description="heading of the plates; plate if left out")
    count: Words | None = Field(None, description="heading of the counts; count if left out")
    price: Words | None = Field(
        None, description="heading of the prices taken; price if left out, where there is one"
    )


class Till(Written):
    """What the exports in sales/ look like, written once."""

    examples: ClassVar[Mapping[str, str]] = {
        "plates": "{Chuck 180: chuck-steak}", "left out": "[‹Coffee›, ‹Gift card›]",
    }  # fmt: skip

    columns: TillColumns | None = Field(None, description="the headings of its columns")
    plates: dict[Text, Id] = Field(
        {}, description="ids of plates by what the till calls them, where it is not their name"
    )
    left_out: list[Words] = Field([], description="what the till sells that is no plate here")
    dates: DateOrder | None = Field(
        None, description=f"one of {', '.join(ORDERS)}; a time of day after it is passed over"
    )
    price_is: PriceOf | None = Field(
        None, description="one: the price of one plate; row: of all plates of the row"
    )
    decimal_comma: YesNo = Field(False, description="whether its prices are written as 27,50")

    def heading(self, name: str) -> str:
        """The heading of a column as it is compared, in lower case."""
        written: Text | None = getattr(self.columns, name, None)
        return (written or name).lower().strip()

    @property
    def is_priced(self) -> bool:
        """Whether every export has a column of prices."""
        return self.columns is not None and self.columns.price is not None


NO_TILL = Till.model_construct()
"""Exports with the headings date, plate, count and price, and names as the menu has them."""


class SaleRow(Written):
    """sales/*.csv: plates sold, as a till writes them out; counts may be below 0 where taken back.

    Every further column is passed over, and so are rows of what is left out.
    """

    examples: ClassVar[Mapping[str, str]] = {"plate": "chuck-steak", "count": "3"}

    date: Date = Field(description="the day on which they were sold")
    plate: Words = Field(description="id or name of a plate, or what the till calls it")
    count: Whole = Field(description="how many")
    price: Money | None = Field(
        None, description="price taken, with tax where the menu's prices include it"
    )
