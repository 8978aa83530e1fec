"""Prices that their suppliers' newer lists no longer carry."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.content import Content
from builder.records.listed import listed_candidates, page_of_item, title_of_item
from builder.records.pricing import is_no_price, lists_of, newest_rows
from builder.records.unpriced import also_on
from builder.records.uses import MENU, Uses

# The path of the page that lists every price, as in `Problem.also`.
PRICES = "prices"


def check_old_prices(content: Content) -> Iterator[Problem]:
    """Warn of a price that its supplier's newer list no longer carries.

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
    for item, row in newest_rows(content).items():
        listed = newest_list.get(row.supplier or "")
        may_have_it = (item, listed) in passed_over or (row.supplier, listed) in misnamed
        if listed and row.date.day < listed and not may_have_it:
            path = page_of_item(content, item, candidates)
            yield Problem(
                row.price.place,
                tr(
                    "{item}: its supplier's list of {listed} is newer than this of {day}",
                    item=title_of_item(content, item, candidates),
                    listed=listed,
                    day=row.date.day,
                ),
                tr("ask for today's price"),
                Severity.WARNING,
                path,
                (PRICES, *_resting_on(content, uses, item)),
                needs=lists_of(path),
            )


def _resting_on(content: Content, uses: Uses, item: str) -> Iterator[str]:
    if cut := content.cuts.get(item):
        yield from (path for path in also_on(content, uses, cut) if path != MENU)
