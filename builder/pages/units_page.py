"""The page of units: every unit that is read, with its exact factor and source."""

from __future__ import annotations

from decimal import Decimal, localcontext
from fractions import Fraction

from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Link, Page, Part, Row, Table
from builder.quantities import UNITS, Dimension, Unit
from builder.quantities.units import UNCLEAR

_BASE = {unit.dimension: unit.name for unit in UNITS if unit.factor == 1 and not unit.zero} | {
    Dimension.RATIO: ""
}
# What is measured, where its name alone means something else to a kitchen.
_MEASURES = {Dimension.MASS: Deferred("mass"), Dimension.COUNT: Deferred("number of things")}


def exact_text(factor: Fraction) -> str:
    """A factor without rounding: as a decimal where it ends, else as a fraction.

    >>> exact_text(Fraction("0.45359237")), exact_text(Fraction(5, 9))
    ('0.45359237', '5/9')
    """
    rest = factor.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest != 1:
        return f"{factor.numerator}/{factor.denominator}"
    with localcontext() as context:
        context.prec = 60
        return f"{Decimal(factor.numerator) / Decimal(factor.denominator):f}"


def in_base(unit: Unit) -> str:
    """What one of a unit is in the base unit of its dimension.

    >>> [in_base(unit) for unit in UNITS if unit.name in ("oz", "°F", "min")]
    ['0.028349523125 kg', '(value − 32) × 5/9 °C', '1/60 h']
    """
    factor = exact_text(unit.factor)
    if unit.zero:
        factor = tr(
            "(value − {exact_text}) × {factor}", exact_text=exact_text(unit.zero), factor=factor
        )
    return f"{factor} {_BASE[unit.dimension]}".strip()


def units_page(crumbs: tuple[Link, ...], nav: str) -> Page:
    """Every unit by dimension, and the spellings that are refused."""
    return Page(
        path="writing/units.html",
        title=tr("Units"),
        lead=tr(
            "{units} units are read, metric and US customary side by side.",
            units=len(UNITS),
        ),
        also=(tr("Each converts by an exact factor. Nothing is rounded before the last step."),),
        kind=tr("Writing the files"),
        crumbs=crumbs,
        nav=nav,
        sections=(
            _units_table(),
            Part("unclear", tr("Spellings that are refused"), (_unclear_table(),)),
        ),
    )


def _units_table() -> Table:
    columns = (
        Column("unit", tr("Unit")),
        Column("measures", tr("Measures")),
        Column("spellings", tr("Also written")),
        Column("factor", tr("One is exactly")),
        Column("source", tr("Source")),
    )
    rows = tuple(
        Row(
            (
                Cell(unit.name),
                Cell(tr(_MEASURES.get(unit.dimension, unit.dimension))),
                Cell(", ".join(unit.aliases)),
                Cell(in_base(unit)),
                Cell(tr(unit.source)),
            )
        )
        for unit in UNITS
    )
    about = tr("Capitals are forgiven where no two units differ by them alone.")
    return Table("units", tr("Units"), columns, rows, sortable=True, filterable=True, about=about)


def _unclear_table() -> Table:
    columns = (Column("written", tr("Written")), Column("instead", tr("What to write")))
    rows = tuple(Row((Cell(spelling), Cell(hint))) for spelling, hint in UNCLEAR.items())
    return Table("unclear-units", tr("Spellings that mean two things"), columns, rows)
