"""A period or a service that was counted: what was sold, used, left and thrown away."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar, Self

from pydantic import Field, model_validator

from builder.language import Deferred, tr
from builder.reading.tree import Text
from builder.records.base import Record, Written
from builder.records.fields import Date, Day, Id, Mass, Money, Whole, Words, refuse
from builder.records.kind import FREE, Kind

_THROWN = Deferred("weights thrown away, by the reason, such as dropped")


class CountedPlate(Written):
    """A plate as it was sold: `98`, or with portions weighed in the period."""

    short_for: ClassVar[tuple[str, ...]] = ("sold",)
    examples: ClassVar[Mapping[str, str]] = {
        "sold": "98", "weighed portions": "[182 g, 176 g, 185 g]",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"sold": "sales", "weighed_portions": "weights"}

    sold: Whole = Field(description="plates sold in the period")
    weighed_portions: list[Mass] = Field(
        [], description="portions as they were weighed on the pass in the period, one by one"
    )

    @property
    def mean_portion(self) -> float | None:
        """Mean of the weighed portions [kg]."""
        weighed = self.weighed_portions
        return sum(each.value for each in weighed) / len(weighed) if weighed else None


class CountedCut(Written):
    """A cut's stock as purchased: `opening + bought - closing` is used, or `used` is written."""

    examples: ClassVar[Mapping[str, str]] = {
        "opening": "6.2 kg", "bought": "52.4 kg", "paid": "712.00", "closing": "9.1 kg",
        "used": "49.5 kg", "thrown": "{‹past its day›: 1.1 kg}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("used", "opening", "bought", "closing", "thrown"), "weights"),
        "paid": "prices",
    }  # fmt: skip

    used: Mass | None = Field(
        None, description="weight used, instead of opening, bought and closing"
    )
    opening: Mass | None = Field(None, description="weight in stock when the period began")
    bought: Mass | None = Field(None, description="weight delivered in the period")
    paid: Money | None = Field(None, description="what that delivery cost in all")
    closing: Mass | None = Field(None, description="weight in stock when the period ended")
    thrown: dict[Text, Mass] = Field({}, description=_THROWN)

    @model_validator(mode="after")
    def _used_once(self) -> Self:
        ends = [("opening", self.opening), ("closing", self.closing)]
        written = [(key, each) for key, each in ends if each is not None]
        if self.used is not None and written:
            key, measure = written[0]
            raise refuse(
                tr("used and {key} say the same", key=key), tr("keep one of them"), measure.place
            )
        if self.used is None and len(written) == 1:
            other = "closing" if self.closing is None else "opening"
            raise refuse(
                tr(
                    "{written} without {other} does not say what was used",
                    written=written[0][0],
                    other=other,
                ),
                tr(
                    "write {other}: too, for example {other}: 0 kg where there was none",
                    other=other,
                ),
            )
        if self.used is None and not written and (self.bought or self.paid):
            raise refuse(
                tr("what was bought does not say what was used"),
                tr("write opening: and closing:, or used:"),
            )
        if self.paid is not None and not (self.bought and self.bought.value > 0):
            raise refuse(tr("paid is for what was bought"), tr("write bought:, the weight"))
        return self

    @model_validator(mode="after")
    def _no_more_than_there_was(self) -> Self:
        if self.opening is None or self.closing is None:
            return self
        bought = self.bought.value if self.bought else 0.0
        if self.closing.value > self.opening.value + bought + 1e-9:
            there = tr(
                "opening {opening}, bought {bought}",
                opening=self.opening.text,
                bought=self.bought.text if self.bought else 0,
            )
            raise refuse(
                tr("more is left ({closing}) than there was", closing=self.closing.text),
                there,
                self.closing.place,
            )
        return self


class CountedCook(Written):
    """A cook's output: what went in and came out, and what of it was not sold."""

    examples: ClassVar[Mapping[str, str]] = {
        "used": "42.0 kg", "made": "31.6 kg", "opening": "1.5 kg", "left": "2.2 kg",
        "thrown": "{dropped: 0.8 kg, end of service: 1.1 kg}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = dict.fromkeys(
        ("used", "made", "opening", "left", "thrown"), "weights"
    )

    left: Mass | None = Field(None, description="weight to serve that is kept for another day")
    used: Mass | None = Field(None, description="raw weight that went into the cook")
    made: Mass | None = Field(None, description="weight to serve that came of it")
    opening: Mass | None = Field(
        None, description="weight to serve that was there when the period began"
    )
    thrown: dict[Text, Mass] = Field({}, description=_THROWN)

    @model_validator(mode="after")
    def _in_and_out(self) -> Self:
        used, made = self.used, self.made
        if (used is None) != (made is None):
            this, other = ("used", "made") if made is None else ("made", "used")
            raise refuse(
                tr("{this} without {other} gives no yield", this=this, other=other),
                tr("write {other}: too", other=other),
            )
        if used is not None and made is not None and not made.value > 0:
            raise refuse(
                tr("nothing came out of this cook"), tr("leave used and made out"), made.place
            )
        return self


class Count(Record):
    """counts/ID.yaml: a period or a service, with what was sold, used, left and thrown away."""

    folder: ClassVar[str] = "counts"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("count"), counted=("{count} count", "{count} counts"),
        meant=("stock", "inventory", "stocktakes"), names=("cuts", "cooks", "plates"),
        needs=("weights",),
        tables=("count", "usage", "output", "sale", "further_sale", "menu_sale", "guest_sale",
            "waste"),
        worked={"count": Deferred("A week of January")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "from": "2026-09-07", "to": "2026-09-13", "date": "2026-09-11",
        "plates": "{chuck-steak: 98, ribeye-steak: {sold: 47, weighed portions: [231 g, 228 g]}}",
        "menus": "{sunday-three-courses: 68}",
        "cuts": "{beef-chuck-roll: {opening: 6.2 kg, bought: 52.4 kg, closing: 9.1 kg}}",
        "cooks": "{chuck-roll-30h: {used: 42.0 kg, made: 31.6 kg, thrown: {dropped: 0.8 kg}}}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "date", "from_", "to", "plates", "cuts", "cooks"), FREE),
        "menus": "sales",
    }  # fmt: skip

    name: Words | None = Field(None, description="what it is called")
    date: Date | None = Field(None, description="the day, where it is one service")
    from_: Date | None = Field(None, description="first day of the period")
    to: Date | None = Field(None, description="last day of the period")
    plates: dict[Id, CountedPlate] = Field({}, description="plates by id, with what was sold")
    menus: dict[Id, Whole] = Field(
        {},
        description="set menus by id, with their guests in the period: what these took, by the "
        "menu's shares, comes on top of plates, which are sold on their own",
    )
    cuts: dict[Id, CountedCut] = Field({}, description="cuts by id, weighed as purchased")
    cooks: dict[Id, CountedCook] = Field({}, description="cooks by id, what became of them")
    note: Words | None = Field(None, description="free text, Markdown")

    @model_validator(mode="after")
    def _one_time(self) -> Self:
        first, last, day = self.from_, self.to, self.date
        if day is not None and (first or last):
            raise refuse(
                tr("a count is of one day or of a period"), tr("keep one of them"), day.place
            )
        if day is None and (first is None or last is None):
            one = first or last
            missing = "to" if first else "from"
            hint = (
                tr("write {missing}: too", missing=missing)
                if one
                else tr("write from: and to:, or date:")
            )
            raise refuse(tr("when this was counted is not known"), hint)
        if first and last and last.day < first.day:
            hint = tr("from {day} to {day2}?", day=last.day, day2=first.day)
            raise refuse(tr("it ends before it begins"), hint, last.place)
        return self

    @property
    def links(self) -> Iterator[tuple[str, Text]]:
        """All that it counts."""
        for kind in ("plates", "menus", "cuts", "cooks"):
            yield from ((kind, name) for name in getattr(self, kind))

    @property
    def end(self) -> Day | None:
        """The last day; None only of a record that could not be read."""
        return self.date or self.to

    @property
    def start(self) -> Day | None:
        """The first day; None only of a record that could not be read."""
        return self.date or self.from_
