"""A set menu or a combo: one price for several plates, and the share of guests that takes each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Self

from pydantic import Field, PlainValidator, model_validator

from builder.language import Deferred, tr
from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.base import Record, Written
from builder.records.covers import PlateCover
from builder.records.fields import Id, Measure, Money, Whole, Words, quantity, refuse, schema
from builder.records.kind import FREE, Kind
from builder.rounding import Halved, without_noise

EVERY_GUEST = Deferred("every guest")
"""What the plates that every guest gets are called where a menu's courses are listed."""

_ALL = 1.0 + 1e-9
_SHARE = quantity(
    "a share of the guests, for example 40 %",
    Dimension.RATIO,
    most=1.0,
    limit=Deferred("at most 100 %"),
)


def _share(node: object) -> Measure | None:
    """A share of the guests, or None for an equal part of those that are left."""
    if isinstance(node, Text) and node.strip().lower() == "equal":
        return None
    return _SHARE(node)


GuestShare = Annotated[
    Measure | None, PlainValidator(_share), schema("40 %", "share of the guests, or equal")
]


class Choice(Written):
    """A plate of a course: `40 %` or `equal`, or `[40 %, 6.00]` with a supplement."""

    short_for: ClassVar[tuple[str, ...]] = ("share", "supplement")
    examples: ClassVar[Mapping[str, str]] = {"share": "40 %", "supplement": "6.00"}
    granted: ClassVar[Mapping[str, str]] = {"share": "work", "supplement": "menu prices"}

    share: GuestShare = Field(
        None, description="share of the guests that takes it; equal parts of the rest if left out"
    )
    supplement: Money | None = Field(None, description="what it costs its guest on top")


class SetMenu(Record):
    """menus/ID.yaml: a set menu or a combo, one price a guest for several plates."""

    folder: ClassVar[str] = "menus"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("set menu"), counted=("{count} set menu", "{count} set menus"),
        meant=("combos", "set menus"), editions=("kitchen", "front-of-house"), names=("plates",),
        tables=("set_menu", "course", "choice"),
        worked={"menu": Deferred("Sunday lunch, two courses"), "combo": Deferred("Roll and slaw")},
        about_worked=Deferred("A menu of courses with choices, and a combo."),
        stand_ins={"price": Text("1")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "price": "42.00", "plates": "[chuck-sandwich, side-slaw]", "guests": "60",
        "courses": "{main: {chuck-steak: 60 %, ribeye-steak: [40 %, 8.00]}}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "plates", "courses"), FREE), "price": "menu prices",
        "guests": "sales", "cover_cost": "prices",
    }  # fmt: skip

    name: Words | None = Field(None, description="what it is called")
    price: Money = Field(description="what a guest pays, without supplements")
    plates: list[Id] = Field([], description="ids of plates that every guest gets: a combo")
    courses: dict[Words, dict[Id, Choice]] = Field(
        {}, description="courses by name, each with plates by id and the share that takes each"
    )
    guests: Whole | None = Field(None, description="guests a week that are expected")
    cover_cost: PlateCover | None = Field(
        None,
        description="none, or an amount; left out, a guest gets a cover where a plate bears one",
    )
    note: Words | None = Field(None, description="free text, Markdown")

    @property
    def links(self) -> Iterator[tuple[str, Text]]:
        """Its plates."""
        yield from (("plates", plate) for _, plate, _ in self.served)

    @model_validator(mode="after")
    def _shares_fit(self) -> Self:
        for name, choices in self.courses.items():
            if not choices:
                hint = tr("write a plate and its share, such as chuck-steak: 60 %")
                raise refuse(tr('nothing is served as "{name}"', name=name), hint, name.place)
            _check_shares(choices)
        return self

    @property
    def served(self) -> Iterator[tuple[str, Text, Choice | None]]:
        """Every plate with its course and its choice; None where every guest gets it."""
        yield from ((EVERY_GUEST, plate, None) for plate in self.plates)
        for course, choices in self.courses.items():
            yield from ((str(course), plate, choice) for plate, choice in choices.items())

    @property
    def shares(self) -> Iterator[tuple[str, Text, float]]:
        """Every plate with its course and the share of guests that takes it."""
        for plate in self.plates:
            yield EVERY_GUEST, plate, 1.0
        for course, choices in self.courses.items():
            equal = _equal_share(choices)
            for plate, choice in choices.items():
                yield str(course), plate, choice.share.value if choice.share else equal

    @property
    def plate_ids(self) -> tuple[str, ...]:
        """The ids of all its plates, each once."""
        return tuple(dict.fromkeys(str(plate) for _, plate, _ in self.served))


def _equal_share(choices: Mapping[Text, Choice]) -> float:
    """What each plate without a share is taken by: an equal part of the guests that are left."""
    written = [choice.share.value for choice in choices.values() if choice.share is not None]
    equal = len(choices) - len(written)
    return max(1 - sum(written), 0.0) / equal if equal else 0.0


def _check_shares(choices: Mapping[Text, Choice]) -> None:
    """The shares of a course come to no more than all guests, and leave some for equal parts."""
    written = [choice.share for choice in choices.values() if choice.share is not None]
    total = sum(share.value for share in written)
    if total > _ALL:
        hint = tr(
            "together they are {percent}: take {percent2} off",
            percent=_percent(total),
            percent2=_percent(total - 1),
        )
        raise refuse(tr("more guests than there are take these plates"), hint, written[-1].place)
    equal = [plate for plate, choice in choices.items() if choice.share is None]
    if equal and written and total > 1 - 1e-9:
        hint = tr("the other shares are {percent} already", percent=_percent(total))
        raise refuse(tr("no guest is left to take {equal}", equal=equal[0]), hint, equal[0].place)


def _percent(share: float) -> str:
    return f"{Halved(without_noise(100 * share)):.4g} %"
