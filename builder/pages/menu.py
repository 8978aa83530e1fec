"""The menu page: one table of all plates, what each earns, how it sells, what to do with it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from builder.language import Deferred, clauses, ntr, tr
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
from builder.pages.figure_names import PlateFigure
from builder.pages.figure_rows import PlateRow
from builder.pages.held import held_counts
from builder.pages.menu_classes import (
    CLASSES,
    class_after_labour,
    class_doubt,
    class_of,
    class_words,
    over_target,
    section_plates,
)
from builder.pages.parts import as_written, month_words, part, present, record_cell
from builder.pages.sales import menu_sales
from builder.pages.set_menus import set_menus_part
from builder.pages.targets import asked_price, over_words
from builder.pages.tries import menu_tries, tries
from builder.pages.unknown import IN_DOUBT, doubted, doubted_chart, named, plate_doubt, sold_doubt
from builder.pages.view import View
from builder.pages.warned import plate_faults
from builder.pages.withheld import WITHHELD, seen
from builder.pages.worth_doing import Exchange, comes, leaves
from builder.reading.names import slug
from builder.records.kinds import Plate
from builder.records.uses import MENU

PATH = "menu.html"


def menu_page(view: View) -> Page:
    """Every plate by section."""
    names = _sections(view)
    plates = view.costed.content.plates
    lead = seen(_answer, view) or tr(
        "{plates}, section by section.", plates=ntr("{count} plate", "{count} plates", len(plates))
    )
    also = filter(None, (seen(_in_doubt, view), seen(_as_sold, view)))
    return Page(
        path=PATH,
        title=tr("Menu"),
        lead=lead,
        also=tuple(also),
        nav=f"~/{PATH}",
        sections=present(
            view.notices(MENU, most=MOST_NOTICES),
            seen(_whole_menu, view),
            tries(menu_tries(view)),
            _table(view, [plate for name in names for plate in section_plates(view, name)]),
            *(part(slug(name), name.capitalize(), *_section_parts(view, name)) for name in names),
            set_menus_part(view),
            buffets_part(view),
            seen(menu_sales, view),
        ),
    )


SELL_MORE, DROP = Deferred("sell more of it"), Deferred("rework or drop")
_EXCHANGES = {
    Exchange.GO: Deferred("swap it"),
    Exchange.GO_BACK: Deferred("take its swap back"),
    Exchange.COME: Deferred("swap it in"),
    Exchange.COME_BACK: Deferred("bring it back"),
    Exchange.WAIT: Deferred("fix a cook, then swap it in"),
}
# What a class asks for: common practice, no published source.
TO_DO: Mapping[str, str] = dict(
    zip(
        MARGIN_CLASSES,
        (Deferred("keep as it is"), Deferred("cut its cost"), SELL_MORE, DROP),
        strict=True,
    )
)
_LABOUR_CLASS: tuple[PlateFigure, ...] = (
    "is_popular", "earns_above", "earns_after_labour", "labour_cost",
)  # fmt: skip
_AFTER_LABOUR = Deferred(
    "The class if the labour in a plate is taken off its margin, too, and off the line that "
    "divides its section."
)
_TREND = Deferred(
    "Plates sold a day beside those of the first month counted; up to {share} either way is steady."
)
# More would stand before the table; each is on the page that it concerns, too.
MOST_NOTICES = 3
# By these names the picture asks for the words of the classes.
_CORNERS = ("both", "sells", "earns", "neither")
# What the till took may be less; its own page says so.
_SALES, _AT_MENU = Deferred("Sales ex tax"), Deferred("at today's menu prices")


def _counted(view: View) -> bool:
    return view.kitchen.number("menu_sold") > 0


def _whole_menu(view: View) -> Figures | None:
    """The menu as it sold: what a month's food should have cost by the recipes."""
    if not _counted(view):
        return None
    costs = (
        view.kitchen.tile("menu_food_share", label=tr("Food cost % as sold")),
        view.kitchen.tile("menu_margin", label=tr("Contribution")),
    )
    return Figures(
        (
            view.kitchen.tile(
                "menu_sold", label=tr("Plates sold in {month_words}", month_words=month_words(view))
            ),
            view.kitchen.tile("menu_sales", label=_SALES, note=_AT_MENU),
            *doubted(costs, sold_doubt(view, view.costed.content.plates.values())).tiles,
        ),
        tr("The menu in {month_words}", month_words=month_words(view)),
    )


def _sections(view: View) -> list[str]:
    listed = [str(name) for name in view.costed.content.kitchen.sections]
    return [name for name in listed if name in view.costed.rows.sections] or list(
        view.costed.rows.sections
    )


def _answer(view: View) -> str:
    plates = list(view.costed.content.plates.values())
    over = sum(over_target(view, plate) for plate in plates)
    if not view.kitchen.known("food_cost_target"):
        return tr(
            "{plates}, with all costs side by side.",
            plates=ntr("{count} plate", "{count} plates", len(plates)),
        )
    aimed = view.kitchen.text("food_cost_target")
    if not over:
        return tr("No plate is above the {aimed} food cost aimed at.", aimed=aimed)
    return over_words(over, ntr("{count} plate", "{count} plates", len(plates)), aimed)


def _as_sold(view: View) -> str:
    """What food came to of sales as the menu sold; nothing where nothing is counted."""
    if not _counted(view):
        return ""
    share = view.kitchen.text("menu_food_share")
    doubt = sold_doubt(view, view.costed.content.plates.values())
    return tr(
        "By the recipes, food came to {share} of sales in {month_words}{which_is}.",
        month_words=month_words(view),
        share=share,
        which_is=tr(", which is {in_doubt}", in_doubt=IN_DOUBT) if doubt else "",
    )


def _in_doubt(view: View) -> str:
    """How many plates' costs are in doubt; nothing for a reader who sees no cost."""
    if not view.grants("food cost"):
        return ""
    count = sum(map(bool, view.costed.doubts.plates.values()))
    return (
        ntr("What {count} plate costs is in doubt.", "What {count} plates cost is in doubt.", count)
        if count
        else ""
    )


def _section_parts(view: View, name: str) -> Iterator[Chart | Figures]:
    """A section's picture and figures; what sold alone, where margins are not for the reader."""
    parts = seen(lambda: list(_section(view, name, section_plates(view, name))))
    if parts is None:
        yield from seen(lambda: list(_section_sold(view, name))) or ()
    else:
        yield from parts


def _section_sold(view: View, name: str) -> Iterator[Figures]:
    row = view.section(name)
    if row.number("section_sold") > 0:
        tiles = (
            row.tile(
                "section_sold", label=tr("Sold in {month_words}", month_words=month_words(view))
            ),
            row.tile("section_sales", label=_SALES, note=_AT_MENU),
        )
        yield Figures(
            tiles,
            tr("{name} in {month_words}", name=name.capitalize(), month_words=month_words(view)),
        )


def _section(view: View, name: str, plates: list[Plate]) -> Iterator[Chart | Figures]:
    row = view.section(name)
    if not row.known("dividing_margin"):
        return
    classed = any(class_of(view, plate) for plate in plates)
    divides = ("dividing_margin", tr("Dividing margin")), ("dividing_mix", tr("Dividing mix"))
    costs = (
        ("section_food_share", tr("Food cost % as sold")),
        ("section_margin", tr("Contribution")),
        *(divides if classed else ()),
    )
    tiles = (row.tile(figure, label=label) for figure, label in costs)
    if classed:
        yield _scatter(view, name, plates)
    yield Figures(
        (
            row.tile(
                "section_sold", label=tr("Sold in {month_words}", month_words=month_words(view))
            ),
            row.tile("section_sales", label=_SALES, note=_AT_MENU),
            *doubted(tiles, sold_doubt(view, plates), but=(tr("Dividing mix"),)).tiles,
        ),
        tr("{name} in {month_words}", name=name.capitalize(), month_words=month_words(view)),
    )


def _table(view: View, plates: list[Plate]) -> Table:
    columns = (
        Column("plate", tr("Plate")),
        *((Column("price", tr("Menu price"), numeric=True),) if _is_without_margins(view) else ()),
        Column("margin", tr("Contribution margin"), numeric=True),
        Column("share", tr("Food cost %"), numeric=True),
        Column("sold", tr("Sold"), True, seen(_when_sold, view) or ""),
        Column("trend", tr("Trend"), about=tr(_TREND, share=view.style.percent(0.05, 0))),
        Column("section", tr("Section")),
        Column("class", tr("Class")),
        Column("labour", tr("After labour"), about=tr(_AFTER_LABOUR)),
        Column("do", tr("Do")),
    )
    return Table(
        "plates",
        tr("Every plate of the menu"),
        columns,
        tuple(_row(view, plate) for plate in plates),
        sortable=len(plates) > 1,
        filterable=len(plates) > 8,
        pick=len(plates) > 1,
        empty=tr("No plate is written yet."),
        about=seen(held_counts, view, plates) or "",
    )


def _when_sold(view: View) -> str:
    return tr("in {month_words}", month_words=month_words(view)) if _counted(view) else ""


def _is_without_margins(view: View) -> bool:
    """Whether the reader may not see what a plate leaves; what it is sold for is then beside it."""
    return ("plate", "contribution_margin") in view.hidden


def _row(view: View, plate: Plate) -> Row:
    row = view.plate(plate)
    over = seen(over_target, view, plate)
    tone: Tone = "loss" if over else ""
    doubtful = tr(IN_DOUBT) if plate_doubt(view, plate) else ""
    to_do: Text = WITHHELD
    if over is not None and not row.hides("is_popular"):
        to_do = "" if doubtful else _to_do(view, plate, over=over)
    # What is over says so in its last column, but where that is empty for a doubt.
    note = as_written(clauses((tr("over") if over and doubtful else "", doubtful)))
    return Row(
        (
            record_cell(plate),
            *(row.cells("menu_price") if _is_without_margins(view) else ()),
            row.cell("contribution_margin", note=doubtful),
            row.cell("food_cost_share", tone=tone, note=note),
            row.cell("sold"),
            _trend_cell(row),
            Cell(str(plate.menu)),
            _class_cell(view, plate),
            _labour_cell(view, plate),
            Cell(to_do or "–", fixed=bool(to_do)),
        )
    )


def _class_cell(view: View, plate: Plate) -> Cell:
    row = view.plate(plate)
    if row.hides("is_popular") or row.hides("earns_above"):
        return Cell(WITHHELD)
    found = class_of(view, plate)
    # The whole cell is marked.
    return Cell(class_words(view, plate, str), sort=found, fixed=bool(found))


def _trend_cell(row: PlateRow) -> Cell:
    """How sales moved since the first month counted; empty where that is the only one."""
    if row.hides("sold_change") or row.known("sold_change"):
        return row.cell("sold_change")
    return Cell("", sort="")


def _labour_cell(view: View, plate: Plate) -> Cell:
    """The class after labour, which says little where it is the usual one."""
    row = view.plate(plate)
    if any(map(row.hides, _LABOUR_CLASS)):
        return Cell(WITHHELD)
    usual, found = class_of(view, plate), class_after_labour(view, plate)
    if not usual:
        return Cell("")
    if found == usual:
        return Cell(tr("same"), sort=found, tone="muted", fixed=True)
    # How it sells is the same: what it earns is what differs.
    earns = row.number("earns_after_labour") > 0
    words = (tr("earns") if earns else tr("earns little")) if found else tr("not known")
    return Cell(words, sort=found, fixed=True)


def _to_do(view: View, plate: Plate, *, over: bool) -> str:
    """What the class and the target of a plate ask for in a few words, as the first page does."""
    if leaving := _exchanged(view, plate, leaves):
        return leaving
    # What earns more than its section does keeps its price, as on the first page.
    if over and not view.plate(plate).number("earns_above") > 0:
        return tr("raise to {asked_price}", asked_price=asked_price(view, plate))
    asked = TO_DO.get(class_of(view, plate), "")
    if asked == SELL_MORE and plate_faults(view, plate):
        return tr("fix its cook first")
    coming = _exchanged(view, plate, comes) if asked == DROP else ""
    return "" if class_doubt(view, plate) else coming or tr(asked)


def _exchanged(view: View, plate: Plate, how: Callable[[View, Plate], Exchange | None]) -> str:
    """What a swap asks of a plate; the first page and the swap's name the other plate."""
    asked = None if view.hidden else seen(how, view, plate)
    return tr(_EXCHANGES[asked]) if asked else ""


def _scatter(view: View, name: str, plates: list[Plate]) -> Chart:
    classed = [
        plate
        for plate in plates
        if class_of(view, plate) and view.plate(plate).known("contribution_margin")
    ]
    # The numbers of a class follow each other in the key under the picture.
    counted = sorted(classed, key=lambda plate: MARGIN_CLASSES.index(class_of(view, plate)))
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
        tr("{name}: what a plate earns against how it sells", name=name.capitalize()),
        ntr(
            "{best} of {counted} plates counted both sells and earns above the dividing lines.",
            "{best} of {counted} plates counted both sell and earn above the dividing lines.",
            best,
            best=best,
            counted=len(counted),
        ),
        tuple(rows),
        None,
        units={
            "sold": tr("menu mix, % of plates sold"),
            "margin": tr(
                "contribution margin, {currency} a plate",
                currency=view.costed.content.kitchen.currency,
            ),
            **{key: tr(words) for key, words in zip(_CORNERS, MARGIN_CLASSES, strict=True)},
        },
    )
    return doubted_chart(found, sold_doubt(view, plates))
