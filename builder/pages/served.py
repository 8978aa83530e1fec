"""What a service serves: its plates with their covers, and what guests of set menus take."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.services import ServicePlan
from builder.display.rounded_sizes import lasting
from builder.display.words import listed
from builder.language import ntr, tr
from builder.pages.components import Cell, Column, Link, LinkList, Row, Table
from builder.pages.figure_names import MenuServingFigure, ServingFigure
from builder.pages.form_pieces import MOST_LABELS
from builder.pages.parts import form_path, links, page_of, record_cell
from builder.pages.portions import portion_note
from builder.pages.service_orders import order_path
from builder.pages.view import FigureRow, View
from builder.records.fields import Measure
from builder.records.guests import own_covers
from builder.records.kinds import Plate, Service, SetMenu
from builder.records.services import Serving


def served_table(view: View, service: Service) -> Table:
    """The plates of a service, with their covers and portions."""
    columns = (
        Column("plate", tr("Plate")),
        Column("covers", tr("Covers"), numeric=True),
        Column("portion", tr("Portion"), numeric=True),
        Column("ahead", tr("In the cold before"), numeric=True),
    )
    body = tuple(
        Row(
            (
                record_cell(view.costed.content.plates[name]),
                _covers(view, service, name, serving),
                _main(view, view.costed.content.plates[name]),
                _ahead(view, view.costed.content.plates[name], serving),
            )
        )
        for name, serving in service.plates.items()
    )
    return Table("plates-table", tr("Plates with their covers"), columns, body)


def _covers(view: View, service: Service, plate: str, serving: Serving) -> Cell:
    """Portions to serve; where guests of set menus take it, too, how many are its own."""
    row = view.costed.rows.services.servings[service.id, plate]
    found: FigureRow[ServingFigure] = FigureRow(view, "serving", row)
    own = own_covers(serving.covers)
    if own is serving.covers:
        return found.cell("covers")
    alone = tr("{own} on their own", own=own.text) if own and own.value > 0 else ""
    return found.cell("covers", note=alone or tr("guests of set menus"))


def guests_table(view: View, service: Service) -> Table | None:
    """The set menus of a service with their guests, and what these take of each plate."""
    if not service.menus:
        return None
    columns = (
        Column("menu", tr("Set menu")),
        Column("plate", tr("Plate")),
        Column("share", tr("Guests who take it"), numeric=True),
        Column("taken", tr("Portions"), numeric=True),
    )
    body = tuple(
        row
        for name, guests in service.menus.items()
        if (menu := view.costed.content.menus.get(name))
        for row in _guests_rows(view, service, menu, guests)
    )
    about = tr("What guests of all set menus take of a plate is made ready in whole portions.")
    return Table("guests", tr("Guests of set menus"), columns, body, about=about) if body else None


def _guests_rows(view: View, service: Service, menu: SetMenu, guests: Measure) -> Iterator[Row]:
    """What the guests of one menu take, plate by plate."""
    title = Cell(
        menu.title,
        href=f"~/{page_of(menu)}",
        note=ntr("{count} guest", "{count} guests", int(guests.value)),
    )
    for (course, plate), choice in view.costed.rows.menus[menu.id].choices.items():
        row = view.costed.rows.services.guests[service.id, choice]
        found: FigureRow[MenuServingFigure] = FigureRow(view, "menu_serving", row)
        named = record_cell(view.costed.content.plates[plate], note=course)
        yield Row((title, named, *found.cells("share", "taken_by_guests")))


def _ahead(view: View, plate: Plate, serving: Serving) -> Cell:
    """How long a plate lies in the cold, with what of it does where that is not all."""
    if serving.ahead is None:
        return Cell("–")
    cooks = [view.costed.content.cooks[name] for name in plate.cooks]
    chilled = [cook.title for cook in cooks if cook.cool]
    part = listed(chilled) if len(chilled) < len(plate.served) else ""
    return Cell(lasting(view.style, serving.ahead.value), note=part)


def _main(view: View, plate: Plate) -> Cell:
    return view.plate(plate).cell("portion", note=portion_note(view, plate))


def covers_of(service: Service) -> int:
    """Plates of their own and guests of set menus, each of whom is one cover."""
    own = (own_covers(serving.covers) for serving in service.plates.values())
    return sum(int(each.value) for each in (*own, *service.menus.values()) if each)


def forms_links(plan: ServicePlan) -> LinkList:
    """The sheets of a service, to print."""
    found = [Link(tr("Prep sheet"), f"~/{form_path(plan.service.id, 'prep')}")]
    found += [Link(tr("Order"), f"~/{order_path(plan.service)}", tr("supplier by supplier"))]
    many = any(planned.pieces > MOST_LABELS for planned in plan.cooks)
    pieces = (
        tr("one a piece, {most_labels} of a cook at most", most_labels=MOST_LABELS)
        if many
        else tr("one a piece")
    )
    found += [Link(tr("Labels"), f"~/{form_path(plan.service.path, 'labels')}", pieces)]
    found += [
        Link(
            tr("Log sheet, {cook}", cook=planned.cook.title),
            f"~/{form_path(planned.cook.id, 'log')}",
        )
        for planned in plan.cooks
    ]
    return links(tr("Printed forms"), dict.fromkeys(found))
