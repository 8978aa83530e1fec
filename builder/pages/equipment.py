"""The equipment as the scarce thing: whose hours a week's forecast books, and what it needs."""

from __future__ import annotations

from builder.pages.components import Cell, Column, Page, Part, Row, Table
from builder.pages.parts import part, present, record_cell
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.kinds import Cook

PATH = "equipment.html"
SHARING = (
    "Each load is counted for itself; cooks of one temperature that share a bath take fewer hours."
)


def equipment_page(view: View) -> Page:
    """Every piece of equipment with its week, then the cooks that book it."""
    gear = list(view.costed.rows.equipment)
    return Page(
        path=PATH,
        title="Equipment",
        lead=_lead(view),
        kind="Capacity",
        nav="~/cooks.html",
        crumbs=(),
        contents=len(gear) > 1,
        sections=present(
            view.notices("equipment"),
            part("week", "The week", _week_table(view, gear), about=SHARING),
            *(_gear_part(view, name) for name in gear if _cooks(view, name)),
        ),
    )


def _cooks(view: View, name: str) -> list[Cook]:
    return list(view.uses.cooks_on_equipment.get(name, ()))


def _over(view: View) -> list[str]:
    rows = view.costed.rows.equipment
    return [n for n, row in rows.items() if view.number("equipment", "equipment_needed", row) > 1]


def _lead(view: View) -> str:
    rows = view.costed.rows.equipment
    if not rows:
        return "No equipment is written in kitchen.yaml, so nothing can be booked."
    over = _over(view)
    if over:
        verb = "does" if len(over) == 1 else "do"
        return f"{', '.join(over)} {verb} not hold what a week's forecast asks of it."
    busiest = max(rows, key=lambda name: view.number("equipment", "hours_booked", rows[name]))
    used = view.text("equipment", "use", rows[busiest])
    return f"Everything holds a week's forecast; {busiest} is the busiest, {used} of its hours."


def _week_table(view: View, names: list[str]) -> Table:
    figures = {
        "available_hours": "Hours a week",
        "hours_booked": "Booked",
        "use": "Use",
        "equipment_needed": "Needed of it",
    }
    columns = (
        Column("equipment", "Equipment"),
        *(Column(slug(key), label, numeric=True) for key, label in figures.items()),
    )
    rows = view.costed.rows.equipment
    over = _over(view)
    body = tuple(
        Row(
            (
                Cell(name, href=f"#{slug(name)}" if _cooks(view, name) else ""),
                *(
                    view.cell("equipment", key, rows[name], tone="loss" if name in over else "")
                    for key in figures
                ),
            )
        )
        for name in names
    )
    return Table("equipment", "Every piece of equipment", columns, body, sortable=len(body) > 1)


def _gear_part(view: View, name: str) -> Part:
    figures = {
        "cycle_hours": "A load keeps it",
        "weekly_loads": "Loads a week, at most",
        "loads_needed": "Loads needed",
        "booked_hours": "Booked",
    }
    columns = (
        Column("cook", "Cook"),
        Column("at", "At", numeric=True),
        *(Column(key.replace("_", "-"), label, numeric=True) for key, label in figures.items()),
    )
    body = tuple(
        Row(
            (
                record_cell(cook),
                Cell(view.style.temperature(cook.at.value) if cook.at else "–"),
                *(
                    view.cell("batch", figure, view.costed.rows.cooks[cook.id])
                    for figure in figures
                ),
            )
        )
        for cook in _cooks(view, name)
    )
    row = view.costed.rows.equipment[name]
    foot = Row(
        (
            Cell("All together"),
            *(Cell("") for _ in range(4)),
            view.cell("equipment", "hours_booked", row),
        ),
        kind="total",
    )
    table = Table(f"{slug(name)}-cooks", f"Hours of {name} in a week", columns, body, (foot,))
    return part(slug(name), name, table, about=_kind(view, name))


def _kind(view: View, name: str) -> str:
    gear = next(g for key, g in view.costed.content.kitchen.equipment.items() if key == name)
    holds = f", holds {gear.holds.text}" if gear.holds else ""
    return f"{str(gear.kind).capitalize()}{holds}."
