"""The page on muscles: how tender each is as published, and the cooking yield that stands in."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.data.muscles import Muscle, ShearForce, muscles
from builder.display.marks import in_style
from builder.display.style import NBSP, Style
from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Link, Page, Row, Table
from builder.quantities import Dimension, convert
from builder.reading.names import slug

PATH = "writing/published-muscles.html"
TITLE = Deferred("Published muscles")


def muscle_href(muscle: Muscle) -> str:
    """The way to a muscle's row."""
    return f"~/{PATH}#{slug(muscle.name)}"


def force_words(style: Style, force: ShearForce) -> str:
    """A shear force in the kitchen's unit of mass: pounds, where it writes them.

    Studies give the force as the kilograms that weigh as much.

    >>> force = ShearForce(3.2, 3.9, "3.2 to 3.9 kg, tender", "a study", "read")
    >>> force_words(Style.of("en_US", "USD", "us customary"), force).replace("\xa0", " ")
    '7.1 to 8.6 lb'
    """
    low, high = (_in_mass_unit(style, end) for end in (force.low, force.high))
    if math.isnan(force.low):
        return tr("below {force}", force=high)
    if math.isnan(force.high):
        return tr("above {force}", force=low)
    if force.low == force.high:
        return low
    return tr("{low} to {force}", low=_number(style, force.low), force=high)


def _in_mass_unit(style: Style, kilograms: float) -> str:
    return f"{_number(style, kilograms)}{NBSP}{style.unit(Dimension.MASS)}"


def _number(style: Style, kilograms: float) -> str:
    return style.number(convert(kilograms, style.unit(Dimension.MASS)), 1)


def force_cell(style: Style, force: ShearForce, href: str = "") -> Cell:
    """A shear force as its source gives it, with the kitchen's unit below where it is another."""
    note = "" if style.unit(Dimension.MASS) == "kg" else force_words(style, force)
    return Cell(in_style(tr(force.published), style), href=href, note=note)


def muscles_page(style: Style, crumbs: tuple[Link, ...], nav: str) -> Page:
    """Every muscle that a cut may name."""
    columns = (
        Column("muscle", tr("Muscle")),
        Column(
            "force", tr("Shear force"), about=tr("Warner-Bratzler, of beef; less is more tender")
        ),
        Column("source", tr("Where it comes from")),
        Column("status", tr("How far read")),
        Column(
            "yield", tr("Cooking yield used instead"), about=tr("of a candidate that names none")
        ),
    )
    rows = tuple(row for muscle in muscles().values() for row in _rows(style, muscle))
    return Page(
        path=PATH,
        title=tr(TITLE),
        lead=tr("{muscles} beef muscles come with the tool.", muscles=len(muscles())),
        also=(
            tr(
                "A cut names the one that most of it is under muscle:, and a candidate "
                "is judged by what is published of that."
            ),
        ),
        kind=tr("Writing the files"),
        crumbs=crumbs,
        nav=nav,
        sections=(Table("muscles", tr("Muscles and their tenderness"), columns, rows),),
    )


def _rows(style: Style, muscle: Muscle) -> Iterator[Row]:
    """A row for each source; the first one carries the muscle's name."""
    for number, force in enumerate(muscle.shear_forces):
        match = muscle.matched or tr("no cut of its own; all boneless beef")
        yield Row(
            (
                Cell(muscle.name),
                force_cell(style, force),
                Cell(tr(force.source)),
                Cell(force.status),
                Cell(muscle.cooking_yield, href="~/writing/published-yields.html", note=match),
            ),
            anchor="" if number else slug(muscle.name),
        )
