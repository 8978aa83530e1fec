"""The pages of pantry items and sub-recipes: what a unit costs, and where it goes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from builder.costing.left_out import made_without_energy
from builder.costing.spreads import PANTRY_PRICE
from builder.language import ntr, tr
from builder.pages.allergens import allergens_part, short_words
from builder.pages.behind_spreads import jump_words
from builder.pages.buffet_uses import buffet_links
from builder.pages.components import Cell, Column, Figures, Link, Page, Part, Row, Table, Term
from builder.pages.figure_names import PantryFigure
from builder.pages.interval_words import sure_tile
from builder.pages.keeping import keeping_part
from builder.pages.labels import label_path
from builder.pages.listings import listing
from builder.pages.parts import (
    amounts,
    links,
    page_of,
    part,
    present,
    record_cell,
    record_link,
)
from builder.pages.printed_sums import COARSE_SUMS
from builder.pages.remarks import remarks
from builder.pages.service_orders import item_orders_part, sold_facts, supplier_cell
from builder.pages.steps import steps_part
from builder.pages.unknown import NOT_KNOWN
from builder.pages.values import measured
from builder.pages.view import View
from builder.pages.withheld import seen
from builder.reading.tree import Text
from builder.records.covered import cover_items
from builder.records.fields import Measure
from builder.records.kinds import PantryItem, Plate

NAV = "~/pantry.html"


def item_page(view: View, item: PantryItem) -> Page:
    """A pantry item or a sub-recipe."""
    return Page(
        path=page_of(item),
        title=item.title,
        lead=seen(_lead, view, item) or "",
        kind=tr("Sub-recipe") if item.of else tr("Pantry item"),
        crumbs=(Link(tr("Pantry"), NAV),),
        nav=NAV,
        aside=_facts(view, item),
        sections=present(
            view.notices(item.path),
            seen(_key_figures, view, item),
            seen(_lines_part, view, item),
            seen(steps_part, view, item),
            seen(keeping_part, view, item),
            seen(_used_part, view, item) if view.grants("plates") else None,
            seen(item_orders_part, view, item),
            allergens_part(view, item),
            _forms(item),
            *remarks(view, item),
            listing(view, item),
        ),
    )


def _lead(view: View, item: PantryItem) -> str:
    row = view.item(item)
    cost = row.text("food_per_unit")
    if row.hides("food_per_unit"):
        return (
            tr(
                "Made from {ingredients}.",
                ingredients=ntr("{count} ingredient", "{count} ingredients", len(item.of)),
            )
            if item.of
            else ""
        )
    if not item.of:
        bought = row.text("purchase_price")
        usable = row.text("usable_yield")
        if row.as_read("usable_yield") == 1:
            return tr("Bought at {bought}, all of it used.", bought=bought)
        return tr(
            "Bought at {bought}; {usable} of it is used, so that it costs {cost}.",
            bought=bought,
            usable=usable,
            cost=cost,
        )
    made = row.text("makes")
    return tr(
        "Made from {ingredients}: {made}, at {cost} for its food.",
        ingredients=ntr("{count} ingredient", "{count} ingredients", len(item.of)),
        made=made,
        cost=cost,
    )


def _facts(view: View, item: PantryItem) -> tuple[Term, ...]:
    current = view.costed.prices.get(item.id) if view.grants("suppliers") else None
    if current is None or not current.supplier:
        return tuple(sold_facts(view, item))
    dated = view.grants("prices") and current.since
    since = (
        tr(", since {since}", since=view.style.date(current.since))
        if dated and current.since
        else ""
    )
    return (
        Term(tr("Supplier"), current.supplier + since, "~/prices.html"),
        *sold_facts(view, item),
    )


def _key_figures(view: View, item: PantryItem) -> Figures:
    row = view.item(item)
    names: dict[PantryFigure, str] = {"food_per_unit": tr("Food cost a unit")}
    if item.of:
        names |= {
            "makes": tr("Makes"),
            "recipe_hands_on": tr("Work on a batch"),
            "hours_per_unit": tr("Work a unit"),
            "process_per_unit": tr("Energy and supplies a unit"),
        }
    else:
        names |= {"purchase_price": tr("As purchased"), "usable_yield": tr("Usable")}
    names = {name: label for name, label in names.items() if not row.hides(name)}
    unknown = seen(made_without_energy, view.costed, [item.id])
    notes: dict[PantryFigure, str] = {
        "process_per_unit": tr("the energy of {unknown} is not known", unknown=unknown)
        if unknown
        else "",
        "purchase_price": seen(jump_words, view, PANTRY_PRICE, row.row) or "",
    }
    tiles = [
        sure_tile(row, name, row.tile(name, label=label, note=notes.get(name, "")))
        for name, label in names.items()
    ]
    return Figures(
        tuple(
            tile if row.known(name) else replace(tile, value=tr(NOT_KNOWN), trace_href="")
            for name, tile in zip(names, tiles, strict=True)
        )
    )


def _lines_part(view: View, item: PantryItem) -> Part | None:
    if not item.of:
        return None
    lines = view.lines(item)
    columns, body = amounts(view, tr("Ingredient"), item.of, lines)
    row = view.item(item)
    stated = row.hides("ingredients_hours") or all(
        line.known("hours_per_unit") for line in lines.values()
    )
    total = Row(
        (
            Cell(tr("All ingredients")),
            Cell(""),
            Cell(""),
            row.cell("ingredients_food"),
            row.cell("ingredients_hours", note="" if stated else tr("as far as stated")),
        ),
        "total",
    )
    coarse = math.isfinite(view.width("pantry", "ingredients_food", row.row))
    about = tr(COARSE_SUMS) if coarse else ""
    caption = tr("What goes into {item}", item=item.title)
    table = Table("lines", caption, columns, body, (total,), about=about)
    return part("ingredients", tr("Ingredients"), table)


def _forms(item: PantryItem) -> Part | None:
    """The sheets of a sub-recipe."""
    if not item.of:
        return None
    labels = Link(tr("Labels"), f"~/{label_path(item)}", tr("made, use by, allergens, initials"))
    return part("forms", tr("To print"), links(tr("Printed forms"), [labels]))


def _used_part(view: View, item: PantryItem) -> Part:
    plates = view.uses.plates_with_item.get(item.id, ())
    recipes = view.uses.recipes_with_item.get(item.id, ())
    found = [
        *(
            record_link(plate, tr("plate"), _amount_of(view, _on(view, plate), item.id))
            for plate in plates
        ),
        *(
            record_link(other, tr("sub-recipe"), _amount_of(view, other.of, item.id))
            for other in recipes
        ),
        *buffet_links(view, item),
    ]
    # A buffet that the reader may not know of may use it.
    nothing = (
        tr("Nothing uses it yet.")
        if view.grants("buffets")
        else tr("No plate or sub-recipe uses it yet.")
    )
    return part("used", tr("Where it goes"), links(tr("Used in"), found, nothing))


def _on(view: View, plate: Plate) -> Mapping[Text, Measure]:
    """What is on a plate, what comes with its cover included; where both have it, the plate's."""
    return {**cover_items(view.costed.content, plate), **plate.with_}


def _amount_of(view: View, amounts: Mapping[Text, Measure], name: str) -> str:
    if not view.grants("weights"):
        return ""
    return next(measured(view.style, amount) for key, amount in amounts.items() if key == name)


def _work(view: View, item: PantryItem) -> Cell:
    """Work a unit; what is bought ready takes none, and says nothing of it."""
    row = view.item(item)
    worked = item.of or row.hides("hours_per_unit") or row.number("hours_per_unit")
    return row.cell("hours_per_unit") if worked else Cell("–")


def pantry_list_page(view: View) -> Page:
    """The list of pantry items and sub-recipes."""
    items = list(view.costed.content.pantry.values())
    columns = (
        Column("item", tr("Item")),
        Column("food", tr("Food cost a unit"), numeric=True),
        Column("work", tr("Work a unit"), numeric=True),
        Column("kind", tr("Kind")),
        Column("supplier", tr("Supplier")),
        Column("allergens", tr("Allergens")),
    )
    body = tuple(
        Row(
            (
                record_cell(item),
                view.item(item).cell("food_per_unit"),
                _work(view, item),
                Cell(tr("made") if item.of else tr("bought")),
                supplier_cell(view, item),
                Cell(short_words(view, item)),
            )
        )
        for item in items
    )
    made = sum(bool(item.of) for item in items)
    return Page(
        path="pantry.html",
        title=tr("Pantry"),
        lead=tr(
            "{items} bought and {sub_recipes} made from them.",
            items=ntr("{count} item", "{count} items", len(items) - made),
            sub_recipes=ntr("{count} sub-recipe", "{count} sub-recipes", made),
        ),
        nav=NAV,
        sections=(
            Table("pantry", tr("Pantry items"), columns, body, sortable=True, filterable=True),
        ),
    )
