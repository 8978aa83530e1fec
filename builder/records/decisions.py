"""What was decided on a swap, and the figures that it was decided on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator, ValidationInfo

from builder.reading.tree import Text
from builder.records.base import Written
from builder.records.fields import Date, Id, Measure, Whole, Words, YesNo, read_money, schema
from builder.records.initials import Initials
from builder.records.kind import FREE


def _change(node: object, info: ValidationInfo) -> Measure:
    """An amount of money that may be less than nothing, such as -0.40."""
    if not isinstance(node, Text) or node[:1] not in {"-", "−", "+"}:
        return read_money(node, info)
    rest = node[1:].lstrip()
    found = read_money(Text(rest, node.file, node.line, node.column), info)
    sign = 1 if node[:1] == "+" else -1
    return Measure(sign * found.value, node.place, str(node), found.dimension, found.resolution)


Change = Annotated[Measure, PlainValidator(_change), schema("-0.40", "money, with its sign")]


class Decision(Written):
    """What was decided on a swap, with the figures that its page showed on that day."""

    examples: ClassVar[Mapping[str, str]] = {
        "plate": "chuck-steak", "margin change": "1.20", "food saved": "6.10", "forecast": "50",
        "why": "‹earns more, and no taster missed the ribeye›",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("date", "who", "why", "plate", "taken"), FREE),
        "margin_change": "margins", "food_saved": "food cost", "forecast": "sales",
    }  # fmt: skip

    date: Date = Field(description="the day on which it was decided")
    who: Initials = Field(description="the decider's own initials, never a name")
    why: Words = Field(description="the reason for it")
    plate: Id | None = Field(
        None, description="id of the challenger decided on, where there are several"
    )
    taken: YesNo = Field(True, description="whether it takes the benchmark's place")
    margin_change: Change | None = Field(
        None, description="margin change a plate that the swap's page showed on that day"
    )
    food_saved: Change | None = Field(
        None, description="food cost saved a plate that the swap's page showed on that day"
    )
    forecast: Whole | None = Field(None, description="plates a week that were expected")
