"""Which price holds: the newest of the price lists on or before the day, else the file's own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from builder.language import tr
from builder.problems import Problem, Severity
from builder.quantities import is_free
from builder.records.content import Content, PriceRow
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.listed import TRY_NEXT, listed_candidates, page_of_item, title_of_item
from builder.records.sold_as import SoldAs, settled

STALE = timedelta(days=365)
"""From this age on a price or a weighing is said to be old."""


@dataclass(frozen=True, slots=True)
class CurrentPrice:
    """The price that counts, with its supplier, the day from which it holds and how it is sold."""

    price: Measure
    supplier: str
    since: date | None
    sold_as: SoldAs | None = None


def current_prices(content: Content) -> Mapping[str, CurrentPrice]:
    """The price that counts for every cut, listed candidate and bought item that has one."""
    newest = _newest_rows(content)
    found: dict[str, CurrentPrice] = {}
    cuts = [*content.cuts.values(), *listed_candidates(content).values()]
    records: list[Cut | PantryItem] = [*cuts, *content.pantry.values()]
    for record in records:
        row = newest.get(record.id)
        supplier = str(record.supplier or "")
        if row is not None:
            sold, seller = settled(row.price, row.sold, record.sold_as), row.supplier or supplier
            found[record.id] = CurrentPrice(row.price, str(seller), row.date.day, sold)
        elif record.price is not None:
            sold = settled(record.price, None, record.sold_as)
            found[record.id] = CurrentPrice(record.price, supplier, None, sold)
    return found


def first_to_come(content: Content) -> dict[str, tuple[Cut | PantryItem, PriceRow]]:
    """By path what has no price on the day but a later one, with the first of those."""
    first: dict[str, PriceRow] = {}
    for row in sorted(content.prices, key=lambda each: each.date.day):
        if not is_no_price(row.price):
            first.setdefault(str(row.item), row)
    bought = (item for item in content.pantry.values() if not item.of)
    records: list[Cut | PantryItem] = [*content.cuts.values(), *bought]
    return {
        record.path: (record, first[record.id])
        for record in records
        if record.price is None and record.id in first and first[record.id].date.day > content.as_of
    }


def is_no_price(price: Measure) -> bool:
    """Whether it is nothing in figures, as a report's row without a trade; free is in words."""
    return price.value <= 0 and not is_free(price.text)


def _newest_rows(content: Content) -> dict[str, PriceRow]:
    """The row that counts for each item; of one day that of its own supplier, else the first."""
    newest: dict[str, PriceRow] = {}
    for row in content.prices:
        held = newest.get(row.item)
        if (
            row.date.day <= content.as_of
            and not is_no_price(row.price)
            and (held is None or _order(content, held) < _order(content, row))
        ):
            newest[str(row.item)] = row
    return newest


def _order(content: Content, row: PriceRow) -> tuple[date, bool]:
    """Later days come after earlier ones, on one day the item's own supplier after others."""
    record = content.cuts.get(row.item) or content.pantry.get(row.item)
    own = record.supplier if record else None
    return row.date.day, own is not None and own == row.supplier


def check_no_prices(content: Content) -> Iterator[Problem]:
    """Warn of a price of nothing in figures: a list's row is passed over, a file's own counts."""
    records: dict[str, Cut | PantryItem] = {**content.pantry, **content.cuts}
    for row in content.prices:
        record = records.get(row.item)
        if record and is_no_price(row.price):
            message = tr(
                "{record}: {price} is no price, so this row does not count",
                record=record.title,
                price=row.price.text,
            )
            hint = tr("take the row out; where it costs nothing write free")
            yield _no_price(record, row.price, message, hint)
    for record in records.values():
        if record.price and is_no_price(record.price):
            message = tr(
                "{record}: {price} counts as free", record=record.title, price=record.price.text
            )
            hint = tr("write free, or the price that it is bought at")
            yield _no_price(record, record.price, message, hint)


def _no_price(record: Cut | PantryItem, price: Measure, message: str, hint: str) -> Problem:
    # A price as it is written may name its pack, which is a weight.
    needs = (record.folder, "prices", "weights")
    return Problem(price.place, message, hint, Severity.WARNING, record.path, needs=needs)


def _lists_of(path: str) -> tuple[str, ...]:
    """What a warning of an item's price lists rests on, by the item's page."""
    kind = path.partition("/")[0]
    return ("cuts" if path == TRY_NEXT else kind, "prices", "suppliers")


def check_same_day(content: Content) -> Iterator[Problem]:
    """Warn where several suppliers price an item on one day, and its file names none of them."""
    counts, listed = _newest_rows(content), listed_candidates(content)
    for row in content.prices:
        held = counts.get(row.item)
        if held is None or held is row or is_no_price(row.price):
            continue
        if _order(content, held) != _order(content, row):
            continue
        path = page_of_item(content, row.item, listed)
        named = tr("name its supplier in {path}.yaml", path=path)
        hint = (
            named
            if path != TRY_NEXT
            else tr("keep the row of the supplier that you would buy from")
        )
        yield Problem(
            row.price.place,
            tr(
                "{item}: {supplier} has a price of that day, too, and that one counts",
                item=title_of_item(content, row.item, listed),
                supplier=held.supplier or tr("another list"),
            ),
            hint,
            Severity.WARNING,
            path,
            needs=_lists_of(path),
        )


def check_old_prices(content: Content) -> Iterator[Problem]:
    """Warn of a price that its supplier's newer list no longer carries, or of over a year ago."""
    newest_list: dict[str, date] = {}
    for row in content.prices:
        if row.supplier and row.date.day <= content.as_of and not is_no_price(row.price):
            held = newest_list.get(row.supplier, row.date.day)
            newest_list[str(row.supplier)] = max(held, row.date.day)
    # A row whose item is misspelt may be the one that an item lacks.
    candidates = listed_candidates(content)
    known = {*content.cuts, *content.pantry, *candidates}
    misnamed = {(r.supplier, r.date.day) for r in content.prices if r.item not in known}
    passed_over = {(r.item, r.date.day) for r in content.prices if is_no_price(r.price)}
    for item, row in _newest_rows(content).items():
        listed = newest_list.get(row.supplier or "")
        may_have_it = (item, listed) in passed_over or (row.supplier, listed) in misnamed
        title = title_of_item(content, item, candidates)
        if listed and row.date.day < listed and not may_have_it:
            message = tr(
                "{item}: its supplier's list of {listed} is newer than this of {day}",
                item=title,
                listed=listed,
                day=row.date.day,
            )
        elif content.as_of - row.date.day > STALE and not may_have_it:
            message = tr(
                "{item}: the newest price is of {day}, over a year old",
                item=title,
                day=row.date.day,
            )
        else:
            continue
        path = page_of_item(content, item, candidates)
        yield Problem(
            row.price.place,
            message,
            tr("ask for today's price"),
            Severity.WARNING,
            path,
            needs=_lists_of(path),
        )
