"""Checks of price lists among the records that they price."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import groupby

from builder.language import tr
from builder.problems import Place, Problem, bounded, did_you_mean
from builder.quantities import Dimension
from builder.records.amounts import UnitMismatchError, price_in_base
from builder.records.content import Content, PriceRow
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.listed import listed_candidates


def check_cut_price(cut: Cut, price: Measure) -> Iterator[Problem]:
    """A price of a cut must be by weight or for pieces that have one."""
    if price.dimension is Dimension.VOLUME:
        yield Problem(
            price.place, tr("a cut is priced by weight"), tr("by weight, such as 13.60/kg")
        )
    if price.dimension is Dimension.COUNT and cut.each is None and "each" not in cut.unread:
        yield Problem(
            price.place,
            tr("priced each, but one has no weight"),
            tr("write each:, such as each: 1.6 kg"),
        )


def check_prices(content: Content) -> Iterator[Problem]:
    """Every row of the price lists, and one price of an item a day."""
    for _, rows in groupby(content.prices, key=lambda row: row.item.file):
        yield from bounded(_check_rows(content, rows))
    yield from bounded(_check_one_price_a_day(content))


def _check_rows(content: Content, rows: Iterable[PriceRow]) -> Iterator[Problem]:
    candidates = listed_candidates(content)
    for row in rows:
        cut, item = content.cuts.get(row.item), content.pantry.get(row.item)
        if cut is None and item is None:
            if row.item in candidates or row.candidate is not None:
                continue  # a cut without a file: a row of it says what it is
            if content.has_file("cuts", row.item) or content.has_file("pantry", row.item):
                continue
            hint = did_you_mean(row.item, [*content.cuts, *content.pantry]) or tr(
                "an id of a cut or item"
            )
            yield Problem(
                row.item.place, tr('there is no cut or pantry item "{item}"', item=row.item), hint
            )
        elif cut is not None:
            yield from check_cut_price(cut, row.price)
        elif item is not None and item.of:
            yield Problem(
                row.item.place,
                tr("{item} is made, not bought", item=row.item),
                tr("take the row out"),
            )
        elif item is not None:
            yield from _check_item_price(item, row.price)


def _check_item_price(item: PantryItem, price: Measure) -> Iterator[Problem]:
    """A list may price by another unit where the item says what one weighs."""
    try:
        price_in_base(item, price)
    except UnitMismatchError as error:
        yield Problem(
            price.place,
            tr("{price} does not fit how {item} is counted", price=price.text, item=item.id),
            str(error),
        )


def _check_one_price_a_day(content: Content) -> Iterator[Problem]:
    first: dict[tuple[str, date, str], Place] = {}
    for row in content.prices:
        key = (str(row.item), row.date.day, str(row.supplier or ""))
        if key in first:
            yield Problem(
                row.price.place,
                tr("a second price for {item} on that day", item=row.item),
                str(first[key]),
            )
        first.setdefault(key, row.price.place)
