"""What the services order, as open data: each order, its lines, and the sub-recipes behind it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred
from builder.pages.resource import Field, Record, Resource, Texts
from builder.pages.service_orders import order_lines, sold_of, supplier_of
from builder.pages.unknown import plates_doubt
from builder.pages.view import View
from builder.records.kinds import Cut
from builder.records.sold_as import SoldAs

_Rows = Iterator[tuple[int, Texts]]


def _orders(view: View) -> _Rows:
    for service in view.costed.content.services.values():
        yield view.costed.orders[service.id].row, (service.id, service.title)


def _lines(view: View) -> _Rows:
    for service in view.costed.content.services.values():
        for item, line in order_lines(view, service):
            is_cut = isinstance(item, Cut)
            yield (
                line.row,
                (
                    f"{service.id}/{item.path}",
                    service.id,
                    item.id if is_cut else None,
                    None if is_cut else item.id,
                    supplier_of(view, item) or None,
                    _as_written(sold_of(view, item)),
                    view.per("order_line", line.row),
                ),
            )


def _as_written(sold: SoldAs | None) -> str | None:
    """How an item is sold in the words of its file; None where nobody says."""
    if sold is None:
        return None
    ways = ("", sold.pack), ("piece of ", sold.piece), ("steps of ", sold.steps)
    parts = (*ways, ("minimum ", sold.minimum))
    return ", ".join(f"{word}{each.text}" for word, each in parts if each) or None


def _made(view: View) -> _Rows:
    for service, rows in view.costed.orders.items():
        for name, row in rows.made.items():
            yield row, (f"{service}/{name}", service, name, view.per("preparation", row))


_SERVICE = Field("service", "Service whose order it is", refers="service_orders")


def _order_doubt(view: View, row: Record) -> str:
    content = view.costed.content
    names = content.services[str(row["id"])].plates
    return plates_doubt(view, (content.plates[name] for name in names))


def _order_line_doubt(view: View, row: Record) -> str:
    """What is bought of a cut rests on the yields of the cooks that the service makes of it."""
    if not row["cut"]:
        return ""
    doubts, content = view.costed.doubts, view.costed.content
    planned = view.costed.services[str(row["service"])].cooks
    cooks = (doubts.cooks[each.cook.id] for each in planned if each.cook.cut == row["cut"])
    return doubts.of_cut(content.cuts[str(row["cut"])]) or next(filter(None, cooks), "")


ORDER_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "service_orders",
        Deferred("What each service orders, with deposits apart"),
        "service_order",
        (Field("id", "Name of the service's file"), Field("name", "What the service is called")),
        _orders,
        groups=("prices", "food cost"),
        doubt=_order_doubt,
    ),
    Resource(
        "order_lines",
        Deferred(
            "Items of each service's order, in the cases, pieces and steps that they are sold in"
        ),
        "order_line",
        (
            Field("id", "Service and item"),
            _SERVICE,
            Field("cut", "Cut that is ordered; none for a pantry item", refers="cuts"),
            Field("item", "Pantry item that is ordered; none for a cut", refers="pantry"),
            Field("supplier", "Who sells it", groups=("suppliers",)),
            Field(
                "sold_as",
                "How it is sold, as written or by its price; empty where any amount is sold",
            ),
            Field("counted_in", "Unit of its amounts: kg, L or each"),
        ),
        _lines,
        groups=("weights",),
        doubt=_order_line_doubt,
    ),
    Resource(
        "service_recipes",
        Deferred("Sub-recipes that each service takes"),
        "preparation",
        (
            Field("id", "Service and sub-recipe"),
            _SERVICE,
            Field("item", "Sub-recipe", refers="pantry"),
            Field("counted_in", "Unit of its amounts: kg, L or each"),
        ),
        _made,
        groups=("weights",),
    ),
)
