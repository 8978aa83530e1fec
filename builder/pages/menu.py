"""The menu page: one table of all plates, what each earns, how it sells, what to do with it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from markupsafe import Markup

from builder.pages.buffets import buffets_part
from builder.pages.charts.fields import MARGIN_CLASSES
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Figures,
    Page,
    Row,
    Table,
    Text,
    Tone,
    Value,
)
from builder.pages.held import held_counts
from builder.pages.parts import as_written, number_of, part, present, record_cell
from builder.pages.sales import menu_sales
from builder.pages.set_menus import set_menus_part
from builder.pages.targets import is_over
from builder.pages.tries import menu_tries, tries
from builder.pages.unknown import IN_DOUBT, doubted, doubted_chart, named, plate_doubt, sold_doubt
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.kinds import Plate
from builder.records.uses import MENU

PATH = "menu.html"

# (popular, earns above the dividing margin) -> class.
CLASSES = dict(
    zip(((True, True), (True, False), (False, True), (False, False)), MARGIN_CLASSES, strict=True)
)


def menu_page(view: View) -> Page:
    """Every plate by section."""
    names = _sections(view)
    lead, *also = _answer(view)
    return Page(
        path=PATH,
        title="Menu",
        lead=lead,
        also=tuple(also),
        nav=f"~/{PATH}",
        sections=present(
            view.notices(MENU),
            _whole_menu(view),
            tries(menu_tries(view)),
            _table(view, [plate for name in names for plate in _plates(view, name)]),
            *(
                part(slug(name), name.capitalize(), *_section(view, name, _plates(view, name)))
                for name in names
            ),
            set_menus_part(view),
            buffets_part(view),
            menu_sales(view),
        ),
    )


# What a class asks for: common practice, no published source.
TO_DO = dict(
    zip(
        MARGIN_CLASSES,
        ("keep as it is", "cost it anew", "sell it more", "rework or drop"),
        strict=True,
    )
)
# A class that holds in so many draws needs no word of doubt.
SURE = 0.95


def class_of(view: View, plate: Plate) -> str:
    """Which of the four classes a plate falls in; empty where it has none."""
    row = view.plate(plate)
    if not row.known("is_popular"):
        return ""
    popular = row.number("is_popular") > 0
    earns = row.number("earns_above") > 0
    return CLASSES[popular, earns]


def class_words(view: View, plate: Plate) -> Text:
    """The class of a plate, as sure as it is, or why it has none."""
    if found := class_of(view, plate):
        words = as_written(found) + _class_chance(view, plate)
        return words + f", {IN_DOUBT}" if class_doubt(view, plate) else words
    counted = view.plate(plate).known("menu_mix")
    return "no class: nothing beside it sold" if counted else "not counted"


def _class_chance(view: View, plate: Plate) -> Markup:
    """How sure a class is; hidden where it needs no word of doubt, until a what-if makes it."""
    row = view.plate(plate)
    chance = row.number("class_chance")
    if math.isnan(chance):
        return Markup()
    hidden = Markup(" hidden") if chance >= SURE else ""
    words = Markup(' <span class="whole" data-below="{}"{}>({})</span>')
    return words.format(SURE, hidden, row.traced("class_chance"))


def class_doubt(view: View, plate: Plate) -> str:
    """Why the class of a plate is in doubt: the line that divides rests on all that was sold."""
    if not class_of(view, plate):
        return ""
    return sold_doubt(view, _plates(view, str(plate.menu)))


def over_target(view: View, plate: Plate) -> bool:
    """Whether a plate's food cost is a larger share of its price than is aimed at."""
    return is_over(view.plate(plate))


def month_words(view: View) -> str:
    """The month that the menu's counts are of."""
    month = view.costed.menu_month
    return view.style.month((month.year, month.month))


# What the till took may be less; its own page says so.
_SALES, _AT_MENU = "Sales ex tax", "at today's menu prices"


def _counted(view: View) -> bool:
    return view.kitchen.number("menu_sold") > 0


def _whole_menu(view: View) -> Figures | None:
    """The menu as it sold: what a month's food should have cost by the recipes."""
    if not _counted(view):
        return None
    costs = (
        view.kitchen.tile("menu_food_share", label="Food cost % as sold"),
        view.kitchen.tile("menu_margin", label="Contribution"),
    )
    return Figures(
        (
            view.kitchen.tile("menu_sold", label=f"Plates sold in {month_words(view)}"),
            view.kitchen.tile("menu_sales", label=_SALES, note=_AT_MENU),
            *doubted(costs, sold_doubt(view, view.costed.content.plates.values())).tiles,
        ),
        f"The menu in {month_words(view)}",
    )


def _sections(view: View) -> list[str]:
    listed = [str(name) for name in view.costed.content.kitchen.sections]
    return [name for name in listed if name in view.costed.rows.sections] or list(
        view.costed.rows.sections
    )


def _plates(view: View, section: str) -> list[Plate]:
    return [plate for plate in view.costed.content.plates.values() if plate.menu == section]


def _answer(view: View) -> list[str]:
    plates = list(view.costed.content.plates.values())
    over = sum(over_target(view, plate) for plate in plates)
    target = view.costed.figures.value("kitchen", "food_cost_target", 0)
    share = view.kitchen.text("menu_food_share")
    as_sold = (
        f"As it sold in {month_words(view)}, food comes to {share} of sales by the recipes"
        f"{f', which is {IN_DOUBT}' if sold_doubt(view, plates) else ''}."
        if _counted(view)
        else ""
    )
    also = filter(None, (_in_doubt(view), as_sold))
    if not math.isfinite(target):
        return [f"{number_of(len(plates), 'plate')}, with all costs side by side.", *also]
    aimed = view.kitchen.text("food_cost_target")
    return [
        f"Food cost is above the {aimed} of the price aimed at on {over or 'none'} of "
        f"{number_of(len(plates), 'plate')}.",
        *also,
    ]


def _in_doubt(view: View) -> str:
    count = sum(map(bool, view.costed.doubts.plates.values()))
    verb = "costs" if count == 1 else "cost"
    return f"What {number_of(count, 'plate')} {verb} is in doubt." if count else ""


def _section(view: View, name: str, plates: list[Plate]) -> Iterator[Chart | Figures]:
    row = view.section(name)
    if not row.known("dividing_margin"):
        return
    classed = any(class_of(view, plate) for plate in plates)
    divides = ("dividing_margin", "Dividing margin"), ("dividing_mix", "Dividing mix")
    costs = (
        ("section_food_share", "Food cost % as sold"),
        ("section_margin", "Contribution"),
        *(divides if classed else ()),
    )
    tiles = (row.tile(figure, label=label) for figure, label in costs)
    if classed:
        yield _scatter(view, name, plates)
    yield Figures(
        (
            row.tile("section_sold", label=f"Sold in {month_words(view)}"),
            row.tile("section_sales", label=_SALES, note=_AT_MENU),
            *doubted(tiles, sold_doubt(view, plates), but=("Dividing mix",)).tiles,
        ),
        f"{name.capitalize()} in {month_words(view)}",
    )


def _table(view: View, plates: list[Plate]) -> Table:
    columns = (
        Column("plate", "Plate"),
        Column("margin", "Contribution margin", numeric=True),
        Column("share", "Food cost %", numeric=True),
        Column("sold", "Sold", True, f"in {month_words(view)}" if _counted(view) else ""),
        Column("section", "Section"),
        Column("class", "Class"),
        Column("do", "Do"),
    )
    return Table(
        "plates",
        "Every plate of the menu",
        columns,
        tuple(_row(view, plate) for plate in plates),
        sortable=len(plates) > 1,
        filterable=len(plates) > 8,
        pick=len(plates) > 1,
        empty="No plate is written yet.",
        about=held_counts(view, plates),
    )


def _row(view: View, plate: Plate) -> Row:
    row = view.plate(plate)
    over = over_target(view, plate)
    tone: Tone = "loss" if over else ""
    doubtful = IN_DOUBT if plate_doubt(view, plate) else ""
    # What is over says so in its last column, but where that is empty for a doubt.
    note = as_written("; ".join(filter(None, ("over" if over and doubtful else "", doubtful))))
    return Row(
        (
            record_cell(plate),
            row.cell("contribution_margin", note=doubtful),
            row.cell("food_cost_share", tone=tone, note=note),
            row.cell("sold"),
            Cell(str(plate.menu)),
            Cell(class_words(view, plate), sort=class_of(view, plate)),
            Cell("" if doubtful else as_written(_to_do(view, plate, over=over))),
        )
    )


def _to_do(view: View, plate: Plate, *, over: bool) -> str:
    """What the class and the target of a plate ask for, in two or three words."""
    if over:
        return f"raise to {view.plate(plate).text('price_for_food_cost')}"
    return "" if class_doubt(view, plate) else TO_DO.get(class_of(view, plate), "")


def _scatter(view: View, name: str, plates: list[Plate]) -> Chart:
    counted = [
        plate
        for plate in plates
        if class_of(view, plate) and view.plate(plate).known("contribution_margin")
    ]
    section = view.section(name)
    rows: list[dict[str, Value]] = [
        {
            "role": "plate",
            "number": str(number),
            "plate": named(view, plate),
            "sold": view.plate(plate).number("menu_mix") * 100,
            "margin": view.plate(plate).number("contribution_margin"),
            "class": class_of(view, plate),
        }
        for number, plate in enumerate(counted, 1)
    ]
    rows.append(
        {
            "role": "divide",
            "sold": section.number("dividing_mix") * 100,
            "margin": section.number("dividing_margin"),
        }
    )
    best = sum(class_of(view, plate) == CLASSES[True, True] for plate in counted)
    found = Chart(
        f"scatter-{slug(name)}",
        "margin-scatter",
        f"{name.capitalize()}: what a plate earns against how it sells",
        f"{best} of {len(counted)} plates counted both sell and earn above the dividing lines.",
        tuple(rows),
        None,
        units={
            "sold": "menu mix, % of plates sold",
            "margin": f"contribution margin, {view.costed.content.kitchen.currency} a plate",
        },
    )
    return doubted_chart(found, sold_doubt(view, plates))
