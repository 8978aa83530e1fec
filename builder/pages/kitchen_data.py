"""The kitchen, its menu's sections, what to buy and what ends a swap's saving, as open data."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.engine.tables import Given
from builder.engine.units import unit_words
from builder.language import Deferred
from builder.pages.doubt_data import doubt_of_plate, kitchen_doubt, limit_doubt, section_doubt
from builder.pages.reader import MONEY
from builder.pages.resource import Field, Resource, Texts
from builder.pages.swap_counts import pairs
from builder.pages.swap_limits import Limit, limits_of
from builder.pages.view import SwapRow, View
from builder.records.fields import Measure


def _kitchen(view: View) -> Iterator[tuple[int, Texts]]:
    kitchen, style = view.costed.content.kitchen, view.style
    zone = kitchen.time_zone
    texts = (
        kitchen.id,
        str(kitchen.name),
        style.currency,
        style.locale,
        str(style.units),
        zone.key if zone else None,
        str(kitchen.authority) if kitchen.authority else None,
        *map(_written, (kitchen.room, kitchen.fill_water)),
        _month(view),
    )
    yield 0, texts


def _written(measure: Measure | None) -> str | None:
    return None if measure is None else repr(measure.value)


def _number(value: float) -> str | None:
    return repr(value) if math.isfinite(value) else None


def _month(view: View) -> str | None:
    """The month that the menu's counts are of; None where nothing is counted."""
    counted = view.number("kitchen", "menu_sold", 0) > 0
    return f"{view.costed.menu_month:%Y-%m}" if counted else None


def _sections(view: View) -> Iterator[tuple[int, Texts]]:
    for name, row in view.costed.rows.sections.items():
        yield row, (name, _month(view))


def _orders(view: View) -> Iterator[tuple[int, Texts]]:
    for plate, rows in view.costed.rows.orders.items():
        for number, row in enumerate(rows, start=1):
            yield row, (f"{plate}/{number}", plate)


def _limits(view: View) -> Iterator[tuple[int, Texts]]:
    found = (
        _limit(view, f"{swap.id}/{plate.id}", row, limit)
        for swap in view.costed.content.swaps.values()
        for plate, row in pairs(view, swap)
        for limit in limits_of(view, plate, row)
    )
    yield from enumerate(found)


def _limit(view: View, swap: str, row: SwapRow, limit: Limit) -> Texts:
    at = row.number(limit.limit)
    side = ("below" if limit.slope > 0 else "above") if math.isfinite(at) else None
    return (
        f"{swap}/{limit.limit}",
        swap,
        limit.input,
        limit.basis or None,
        _as_written(view, limit.now, row.row),
        _number(row.number(limit.now)),
        _number(at),
        unit_words(view.definition("swap", limit.limit).unit, view.style.currency),
        side,
        limit.words,
        _number(row.number(limit.margin)) if limit.margin else None,
        *_ends(view, limit.limit, row.row),
        *_ends(view, limit.margin, row.row),
    )


def _ends(view: View, figure: str | None, row: int) -> Iterator[str | None]:
    """Both ends of a limit's 90 % interval; None for an end that is open, or without a limit."""
    for end in ("low", "high"):
        yield _number(view.number("swap", f"{figure}_{end}", row)) if figure else None


def _as_written(view: View, figure: str, row: int) -> str | None:
    """An input as its file states it; None where it is computed or nobody wrote it."""
    node, at = view.costed.figures.source(("swap", figure), row)
    given = isinstance(view.definition(*node).how, Given)
    return (view.costed.figures.origin(node, at).text or None) if given else None


_MONTH = Field("month", "Month that the plates were sold in, such as 2026-09", groups=("sales",))

KITCHEN_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "kitchen",
        Deferred("The kitchen: its inputs, and its menu as it sold"),
        "kitchen",
        (
            Field("id", "Name of the kitchen's file"),
            Field("name", "What it is called"),
            Field("currency", "Currency of every amount of money"),
            Field("locale", "How its pages write numbers"),
            Field("units", "Units of its pages; the tables are metric for every kitchen"),
            Field("time_zone", "Time zone of its clock"),
            Field("rule_set", "Rule set that its cooks are held against"),
            Field("room", "Temperature of the kitchen [°C]", "number"),
            Field(
                "fill_water", "Temperature of the water that baths are filled with [°C]", "number"
            ),
            _MONTH,
        ),
        _kitchen,
        doubt=kitchen_doubt,
    ),
    Resource(
        "menu_sections",
        Deferred("Sections of the menu as they sold"),
        "section",
        (Field("id", "Section as the plates' files name it"), _MONTH),
        _sections,
        doubt=section_doubt,
    ),
    Resource(
        "orders",
        Deferred("How much to buy for a number of portions"),
        "order",
        (
            Field("id", "Plate and number of the order"),
            Field("plate", "Plate to serve", refers="plates"),
        ),
        _orders,
        doubt=doubt_of_plate("plate"),
    ),
    Resource(
        "swap_limits",
        Deferred("What would end a swap's saving, one input at a time"),
        "",
        (
            Field("id", "Swap, challenger and column of the swaps that holds the limit"),
            Field("swap", "Swap and challenger", refers="swaps"),
            Field("input", "Input that is moved while all others stay as they are", said=True),
            Field("basis", "Whether the limit is by whole portions or by weight"),
            Field("written", "The input as its file states it; empty where it is computed"),
            Field("now", "The input now", "number"),
            Field("limit", "The input where the saving is zero; empty without one", "number"),
            Field("unit", "Unit of the input and its limit"),
            Field("saves", "Side of the limit, below or above, on which the challenger saves"),
            Field("words", "How far the limit is from now, or why there is none", said=True),
            Field(
                "equal_margin", "The input where both margins are equal; empty without", "number"
            ),
            *(
                Field(
                    f"{column}_{end}",
                    f"{words!s}: {end} end, 9 times in 10; empty where open",
                    "number",
                )
                for column, words in (
                    ("limit", "The limit"),
                    ("equal_margin", Deferred("The input at equal margins")),
                )
                for end in ("low", "high")
            ),
        ),
        _limits,
        groups=(*MONEY, "work", "sales", "weights"),
        doubt=limit_doubt,
    ),
)
