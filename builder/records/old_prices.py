"""Prices that their suppliers' newer lists no longer carry, or that are over a year old."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.content import Content
from builder.records.listed import listed_candidates, page_of_item, title_of_item
from builder.records.pricing import STALE, is_no_price, lists_of, newest_rows
from builder.records.unpriced import also_on
from builder.records.uses import MENU, Uses

# The path of the page that lists every price, as in `Problem.also`.
PRICES = "prices"


def check_old_prices(content: Content) -> Iterator[Problem]:
    """Warn of a price that its supplier's newer list no longer carries, or over a year old.

    Of a cut on every page whose cost rests on it, too, but for the menu: its plates say it.
    """
    newest_list: dict[str, date] = {}
    for row in content.prices:
        if row.supplier and row.date.day <= content.as_of and not is_no_price(row.price):
            held = newest_list.get(row.supplier, row.date.day)
            newest_list[str(row.supplier)] = max(held, row.date.day)
    uses = Uses.of(content)
    # A row whose item is misspelt may be the one that an item lacks.
    candidates = listed_candidates(content)
    known = {*content.cuts, *content.pantry, *candidates}
    misnamed = {(r.supplier, r.date.day) for r in content.prices if r.item not in known}
    passed_over = {(r.item, r.date.day) for r in content.prices if is_no_price(r.price)}
    # Where every price is old the day of the site is asked about alone.
    others_newer = any(content.as_of - row.date.day <= STALE for row in content.prices)
    for item, row in newest_rows(content).items():
        listed = newest_list.get(row.supplier or "")
        may_have_it = (item, listed) in passed_over or (row.supplier, listed) in misnamed
        title, day = title_of_item(content, item, candidates), row.date.day
        is_stale = others_newer and _is_stale(content, item, day)
        if may_have_it or not (message := _old_words(title, day, listed, is_stale=is_stale)):
            continue
        path = page_of_item(content, item, candidates)
        yield Problem(
            row.price.place,
            message,
            tr("ask for today's price"),
            Severity.WARNING,
            path,
            (PRICES, *_resting_on(content, uses, item)),
            needs=lists_of(path),
        )


def _old_words(title: str, day: date, listed: date | None, *, is_stale: bool) -> str:
    """How old an item's newest price is, where it is old; `listed`: the newest of its supplier."""
    if listed and day < listed:
        return tr(
            "{item}: its supplier's list of {listed} is newer than this of {day}",
            item=title,
            listed=listed,
            day=day,
        )
    if is_stale:
        return tr("{item}: its newest price is of {day}, over a year old", item=title, day=day)
    return ""


def _is_stale(content: Content, item: str, day: date) -> bool:
    """Whether a price is over a year old, unless its item's file was checked within the year."""
    owner = content.cuts.get(item) or content.pantry.get(item)
    looked = owner.checked.day if owner and owner.checked else day
    return content.as_of - max(day, looked) > STALE


def _resting_on(content: Content, uses: Uses, item: str) -> Iterator[str]:
    if cut := content.cuts.get(item):
        yield from (path for path in also_on(content, uses, cut) if path != MENU)
