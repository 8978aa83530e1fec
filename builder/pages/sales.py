"""What the till took: its page by month and plate, and its part on the menu and on a plate."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from builder.language import ntr, tr
from builder.pages.components import Cell, Column, Link, Page, Part, Row, SourceListing, Table
from builder.pages.parts import links, month_words, part, present, record_cell
from builder.pages.reader import reads_till
from builder.pages.view import TakingRow, View
from builder.reading.names import slug
from builder.records.kinds import Plate
from builder.records.sales import FOLDER

PATH = "sales.html"

Sold = tuple[Plate, date, TakingRow]


def sales_pages(view: View) -> Iterator[Page]:
    """The page of the till's exports; none where there are none."""
    found = list(_sold(view))
    if not found:
        return
    months = list(dict.fromkeys(sorted((month for _, month, _ in found), reverse=True)))
    yield Page(
        path=PATH,
        title=tr("Sales"),
        lead=_lead(found, months),
        also=_other_prices(view, found, months),
        kind=tr("Menu"),
        crumbs=(Link(tr("Menu"), "~/menu.html"),),
        nav="~/menu.html",
        sections=present(
            *(
                part(
                    f"{month:%Y-%m}",
                    view.style.month((month.year, month.month)),
                    _table(view, f"till-{month:%Y-%m}", [s for s in found if s[1] == month]),
                )
                for month in months
            ),
            *_files(view),
        ),
    )


def menu_sales(view: View) -> Part | None:
    """On the menu page: plates whose mean price taken is not the menu's, in the menu's month."""
    found = [s for s in _sold(view) if s[1] == view.costed.menu_month]
    if not found:
        return None
    differing = [s for s in found if _differs(s[2])]
    words = month_words(view)
    counted = ntr("{count} plate", "{count} plates", len(found))
    price, of = tr("the menu's price"), tr("each plate")
    if differing:
        price, of = (
            tr("another price than the menu's"),
            tr("{differing} of {counted}", differing=len(differing), counted=counted),
        )
    about = tr(
        "The till took {price} for {of} that it counted in {words}.",
        price=price,
        of=of,
        words=words,
    )
    table = _table(view, "till-differs", differing) if differing else None
    return part(
        "till",
        tr("What the till took"),
        table,
        links(
            tr("Further"),
            [Link(tr("Sales"), f"~/{PATH}", tr("what the till counted, month by month"))],
        ),
        about=about,
    )


def plate_sales(view: View, plate: Plate) -> Table | None:
    """On a plate's page: the months in which the till did not take the menu's price."""
    found = [s for s in _sold(view) if s[0] is plate and _differs(s[2])]
    return _table(view, "till-differs", found, by_month=True) if found else None


def _sold(view: View) -> Iterator[Sold]:
    """Every plate and month of the till; none for a reader who may not see what it took."""
    if not reads_till(view.reader):
        return
    plates = view.costed.content.plates
    for (name, month), row in view.costed.rows.takings.items():
        yield plates[name], month, view.taking(row)


def _differs(row: TakingRow) -> bool:
    """Whether the price taken is another one than the menu's, as pages print both."""
    return row.known("price_taken") and row.as_read("price_taken") != row.as_read("menu_price")


def _lead(found: list[Sold], months: list[date]) -> str:
    plates = len({plate.id for plate, _, _ in found})
    return tr(
        "The till counted {plates} in {months}.",
        plates=ntr("{count} plate", "{count} plates", plates),
        months=ntr("{count} month", "{count} months", len(months)),
    )


def _other_prices(view: View, found: list[Sold], months: list[date]) -> tuple[str, ...]:
    """For how many plates the till took another price than the menu's in the newest month."""
    differing = sum(_differs(row) for _, month, row in found if month == months[0])
    if not differing:
        return ()
    said = tr(
        "In {newest} it took another price than the menu's for {plates}.",
        newest=view.style.month((months[0].year, months[0].month)),
        plates=ntr("{count} plate", "{count} plates", differing),
    )
    return (said,)


def _table(view: View, name: str, found: Iterable[Sold], *, by_month: bool = False) -> Table:
    columns = (
        Column("month", tr("Month")) if by_month else Column("plate", tr("Plate")),
        Column("sold", tr("Sold"), numeric=True),
        Column("taken", tr("Price taken"), True, tr("average, where the till has it")),
        Column("menu", tr("Menu price"), True, tr("today")),
        Column("gap", tr("Difference"), numeric=True),
        Column("all", tr("For all sold"), True, tr("against today's menu price")),
    )
    rows = tuple(_row(view, sold, by_month) for sold in found)
    caption = tr("Price taken against the menu's")
    return Table(name, caption, columns, rows, sortable=len(rows) > 1, filterable=len(rows) > 8)


def _row(view: View, sold: Sold, by_month: bool) -> Row:
    plate, month, row = sold
    words = view.style.month((month.year, month.month))
    first = Cell(words, f"{month:%Y-%m}") if by_month else record_cell(plate)
    figures = row.cells("till_count", "price_taken", "menu_price", "price_gap", "taken_gap")
    return Row((first, *figures))


def _files(view: View) -> Iterator[Part]:
    """The exports as they were written; the first row of each month and plate carries a mark."""
    firsts = [month.place for month in view.costed.content.till.values()]
    for name, file in sorted(view.costed.content.files.items()):
        if file.folder != FOLDER or not view.where.listed(name)[0]:
            continue
        lines = tuple(file.data.decode("utf-8-sig", "replace").splitlines())
        used = frozenset(place.line for place in firsts if place.file == name)
        source = SourceListing(name, lines, used, f"{slug(name)}-")
        yield Part(slug(name), f"{file.id}{file.suffix}", (source,))
