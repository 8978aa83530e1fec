"""The counts as open data: periods, their cuts, cooks and plates, and what was thrown away."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.count_rows import CountRows
from builder.language import Deferred
from builder.pages.doubt_data import doubt_of_plate
from builder.pages.resource import Field, Record, Resource, Texts
from builder.pages.unknown import plates_doubt, use_doubt
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


def _count_doubt(view: View, row: Record) -> str:
    content = view.costed.content
    names = content.counts[str(row["id"])].plates
    return plates_doubt(view, (content.plates[name] for name in names))


def _count_cut_doubt(view: View, row: Record) -> str:
    cooks = view.costed.counts[str(row["count"])].outputs
    return use_doubt(view, view.costed.content.cuts[str(row["cut"])], cooks)


def _count_cook_doubt(view: View, row: Record) -> str:
    return view.costed.doubts.cooks[str(row["cook"])]


def _thrown_doubt(view: View, row: Record) -> str:
    if row["cook"]:
        return _count_cook_doubt(view, row)
    return view.costed.doubts.of_cut(view.costed.content.cuts[str(row["cut"])])


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
        doubt=_count_doubt,
    ),
    Resource(
        "count_cuts",
        Deferred("Cuts in the counts: what was used, and what separates it from what was sold"),
        "usage",
        (Field("id", "Count and cut"), _COUNT, Field("cut", "Cut", refers="cuts")),
        _cuts,
        doubt=_count_cut_doubt,
    ),
    Resource(
        "count_cooks",
        Deferred("Cooks in the counts: what went in and came out"),
        "output",
        (Field("id", "Count and cook"), _COUNT, Field("cook", "Cook", refers="cooks")),
        _cooks,
        doubt=_count_cook_doubt,
    ),
    Resource(
        "count_plates",
        Deferred("Plates in the counts: what was sold, at which portion and yield"),
        "sale",
        (Field("id", "Count and plate"), _COUNT, Field("plate", "Plate", refers="plates")),
        _plates,
        doubt=doubt_of_plate("plate"),
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
        doubt=_thrown_doubt,
    ),
    Resource(
        "count_menus",
        Deferred("Guests of set menus in the counts: what they paid, and their covers"),
        "menu_sale",
        (Field("id", "Count and set menu"), _COUNT, Field("menu", "Set menu", refers="set_menus")),
        _menus,
    ),
)
