"""The equipment as the scarce thing: whose hours a week's plates book, and what it needs."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.weekly_counts import counts_of
from builder.display.words import listed
from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Link, Page, Part, Row, Table
from builder.pages.figure_names import BatchFigure, EquipmentFigure
from builder.pages.menu_guests import rule_words
from builder.pages.parts import gear_name, links, part, present, record_cell
from builder.pages.unknown import NOT_KNOWN
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.ways import gear_words
from builder.reading.names import slug
from builder.records.kinds import Cook

PATH = "equipment.html"
SHARING = Deferred(
    "Each load is counted on its own. A weekly count knows no days, so "
    "nothing is taken off for cooks of one temperature that share a "
    "bath; the schedule knows, and counts such hours once."
)
NOT_BOOKED = Deferred(
    "Chilling and reheating are in no count: the files name no equipment for them."
)

NO_BUFFETS = Deferred("What counters and buffets put out is in no count.")


def equipment_page(view: View) -> Page:
    """Every piece of equipment with its week, then the cooks that book it."""
    gear = list(view.costed.rows.equipment)
    return Page(
        path=PATH,
        title=tr("Equipment"),
        lead=_lead(view),
        also=(tr("It is counted for {week}.", week=_week(view)),) if _over(view) else (),
        kind=tr("Capacity"),
        nav="~/cooks.html",
        crumbs=(),
        sections=present(
            view.notices("equipment"),
            part(
                "week",
                tr("The week"),
                _week_table(view, gear),
                links(
                    tr("Further"),
                    [Link(tr("Schedule"), "~/schedule.html", tr("hours booked by the day"))],
                ),
                about=" ".join(filter(None, _what_counts(view))),
            ),
            *(_gear_part(view, name) for name in gear if _cooks(view, name)),
        ),
    )


def _what_counts(view: View) -> Iterator[str]:
    """What the week's hours take in, and what they leave out."""
    yield tr(SHARING)
    yield tr(NOT_BOOKED)
    buffets = view.costed.content.buffets.values()
    if view.grants("buffets") and any(buffet.cooks for buffet in buffets):
        yield tr(NO_BUFFETS)
    yield rule_words(view)


def _cooks(view: View, name: str) -> list[Cook]:
    return list(view.uses.cooks_on_equipment.get(name, ()))


def _over(view: View) -> list[str]:
    rows = {name: view.equipment(name) for name in view.costed.rows.equipment}
    return [n for n, row in rows.items() if row.number("equipment_needed") > _there(view, n)]


def _there(view: View, name: str) -> float:
    return view.equipment(name).number("how_many")


def _week(view: View) -> str:
    """The week that the equipment is booked for; nothing where no plate of it is counted."""
    on_it = {cook.id for name in view.costed.rows.equipment for cook in _cooks(view, name)}
    plates = [p for p in view.costed.content.plates.values() if on_it.intersection(p.cooks)]
    menus = view.costed.content.menus.values()
    return counts_of(plates, view.costed.menu_month, menus).week(view.style)


def _lead(view: View) -> str:
    rows = view.costed.rows.equipment
    if not rows:
        return tr("No equipment is written in kitchen.yaml, so nothing can be booked.")
    week = _week(view)
    if not week:
        return tr(
            "No plate that uses it has a forecast or a count of its sales, so no hours are booked."
        )
    over = _over(view)
    if len(over) == 1:
        row, name = view.equipment(over[0]), gear_name(view, over[0])
        booked, there = row.texts("hours_booked", "available_hours")
        if _there(view, over[0]) > 1:
            return tr(
                "Over-booked: {name}, with {booked} needed a week and {there} on each.",
                name=name,
                booked=booked,
                there=there,
            )
        return tr(
            "Over-booked: {name}, with {booked} needed a week and {there} there.",
            name=name,
            booked=booked,
            there=there,
        )
    if over:
        names = listed([gear_name(view, name) for name in over])
        return tr("Over-booked in {week}: {names}.", names=names, week=week)
    known = [name for name in rows if is_counted(view, name)]
    if not known:
        return tr("How much of the equipment's week is used is not known.")
    busiest = max(known, key=lambda name: view.equipment(name).number("use"))
    used = view.equipment(busiest).text("use")
    unknown = listed([gear_name(view, name) for name in rows if name not in known])
    most = tr(
        "the busiest is {gear_name}, {used} of the hours there",
        gear_name=gear_name(view, busiest),
        used=used,
    )
    if unknown:
        return tr(
            "The use of {unknown} is not known; nothing else is over-booked in {week}; {most}.",
            unknown=unknown,
            week=week,
            most=most,
        )
    return tr("Nothing is over-booked in {week}; {most}.", week=week, most=most)


def _week_table(view: View, names: list[str]) -> Table:
    several = any(_there(view, name) > 1 for name in view.costed.rows.equipment)
    figures: dict[EquipmentFigure, str] = {
        **({"how_many": tr("There are")} if several else {}),
        "equipment_needed": tr("Needed"),
        "use": tr("Use"),
        "hours_booked": tr("Booked"),
        "available_hours": tr("Hours a week, each") if several else tr("Hours a week"),
    }
    columns = (
        Column("equipment", tr("Equipment")),
        *(Column(slug(key), label, numeric=True) for key, label in figures.items()),
    )
    over = _over(view)
    body = tuple(
        Row(
            (
                Cell(gear_name(view, name), href=f"#{slug(name)}" if _cooks(view, name) else ""),
                *(
                    Cell(tr(NOT_KNOWN))
                    if key in _COUNTED and not is_counted(view, name)
                    else view.equipment(name).cell(key, tone="loss" if name in over else "")
                    for key in figures
                ),
            )
        )
        for name in names
    )
    return Table("equipment", tr("Every piece of equipment"), columns, body, sortable=len(body) > 1)


_COUNTED = frozenset(("equipment_needed", "use", "hours_booked"))


def is_counted(view: View, name: str) -> bool:
    """Whether any cook on it has a plate with a count; what no cook uses is known to be idle."""
    cooks = _cooks(view, name)
    return not cooks or any(view.batch(cook).known("loads_needed") for cook in cooks)


def _gear_part(view: View, name: str) -> Part:
    several = _there(view, name) > 1
    figures: dict[BatchFigure, str] = {
        "cycle_hours": tr("A load ties one up for") if several else tr("A load ties it up for"),
        "weekly_loads": tr("Loads a week of one, at most")
        if several
        else tr("Loads a week, at most"),
        "loads_needed": tr("Loads needed"),
        "booked_hours": tr("Booked"),
    }
    columns = (
        Column("cook", tr("Cook")),
        Column("at", tr("At"), numeric=True),
        *(Column(key.replace("_", "-"), label, numeric=True) for key, label in figures.items()),
    )
    body = tuple(
        Row(
            (
                record_cell(cook),
                *view.batch(cook).cells("cook_temperature", *figures),
            )
        )
        for cook in _cooks(view, name)
    )
    row, title = view.equipment(name), gear_name(view, name)
    foot = Row(
        (
            Cell(tr("All together")),
            *(Cell("") for _ in range(4)),
            row.cell("hours_booked") if is_counted(view, name) else Cell(tr(NOT_KNOWN)),
        ),
        kind="total",
    )
    table = Table(
        f"{slug(name)}-cooks", tr("Hours of {title} in a week", title=title), columns, body, (foot,)
    )
    return part(slug(name), title, table, about=_kind(view, name))


def _kind(view: View, name: str) -> str:
    gear = next(g for key, g in view.costed.content.kitchen.equipment.items() if key == name)
    holds = tr(", holds {holds}", holds=view.style.weight(gear.holds.value)) if gear.holds else ""
    there = _there(view, name)
    many = tr("; there are {there}, all alike", there=view.style.count(there)) if there > 1 else ""
    return f"{capital(gear_words(str(gear.kind)))}{holds}{many}."
