"""The counts as open data: periods, their cuts, cooks and plates, and what was thrown away."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.count_rows import CountRows
from builder.language import Deferred
from builder.pages.downloads import Field, Resource, Texts
from builder.pages.view import View
from builder.records.counts import Count

_Rows = Iterator[tuple[int, Texts]]


def _counts(view: View) -> Iterator[tuple[Count, CountRows]]:
    rows = view.costed.counts
    return ((count, rows[count.id]) for count in view.costed.content.counts.values())


def _periods(view: View) -> _Rows:
    for count, rows in _counts(view):
        ends = (each.day.isoformat() if each else None for each in (count.start, count.end))
        yield rows.row, (count.id, count.title, *ends)


def _cuts(view: View) -> _Rows:
    for count, rows in _counts(view):
        for name, row in rows.usages.items():
            yield row, (f"{count.id}/{name}", count.id, name)


def _cooks(view: View) -> _Rows:
    for count, rows in _counts(view):
        for name, row in rows.outputs.items():
            yield row, (f"{count.id}/{name}", count.id, name)


def _plates(view: View) -> _Rows:
    for count, rows in _counts(view):
        for name, row in rows.sales.items():
            yield row, (f"{count.id}/{name}", count.id, name)


def _menus(view: View) -> _Rows:
    for count, rows in _counts(view):
        for name, row in rows.menus.items():
            yield row, (f"{count.id}/{name}", count.id, name)


def _thrown(view: View) -> _Rows:
    for count, rows in _counts(view):
        for number, ((path, reason), row) in enumerate(rows.wastes.items(), start=1):
            folder, _, name = path.partition("/")
            cut, cook = (name if folder == kind else None for kind in ("cuts", "cooks"))
            yield row, (f"{count.id}/{number}", count.id, cut, cook, reason)


_COUNT = Field("count", "Count that it belongs to", refers="counts")

COUNT_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "counts",
        Deferred("Periods and services that were counted: actual against theoretical food cost"),
        "count",
        (
            Field("id", "Name of the count's file"),
            Field("name", "What the count is called"),
            Field("from", "First day", "date"),
            Field("to", "Last day", "date"),
        ),
        _periods,
    ),
    Resource(
        "count_cuts",
        Deferred("Cuts in the counts: what was used, and what parts it from what was sold"),
        "usage",
        (Field("id", "Count and cut"), _COUNT, Field("cut", "Cut", refers="cuts")),
        _cuts,
    ),
    Resource(
        "count_cooks",
        Deferred("Cooks in the counts: what went in and came out"),
        "output",
        (Field("id", "Count and cook"), _COUNT, Field("cook", "Cook", refers="cooks")),
        _cooks,
    ),
    Resource(
        "count_plates",
        Deferred("Plates in the counts: what was sold, at which portion and yield"),
        "sale",
        (Field("id", "Count and plate"), _COUNT, Field("plate", "Plate", refers="plates")),
        _plates,
    ),
    Resource(
        "count_thrown",
        Deferred("Weights thrown away in the counts, each with its reason"),
        "waste",
        (
            Field("id", "Count and number"),
            _COUNT,
            Field("cut", "Cut, where it was thrown away raw", refers="cuts"),
            Field("cook", "Cook, where it was thrown away cooked", refers="cooks"),
            Field("reason", "Why, as it is written"),
        ),
        _thrown,
    ),
    Resource(
        "count_menus",
        Deferred("Guests of set menus in the counts: what they paid, and their covers"),
        "menu_sale",
        (Field("id", "Count and set menu"), _COUNT, Field("menu", "Set menu", refers="set_menus")),
        _menus,
    ),
)
