"""Waterfalls: how an amount grows, bar by bar, out of the figures that are added."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.language import tr
from builder.pages.components import Cell, Chart, Column, Live, LiveTerm, Row, Table, Text, Value


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar: what it adds, or the total so far; `terms` are the figures that make it up.

    `text` is what is beside it; `shows` the figure whose own text that is, if it is one;
    `cell` the amount in a table, where it leads to its figure.
    """

    label: Text
    amount: float
    text: Text
    terms: tuple[LiveTerm, ...]
    shows: str = ""
    total: bool = False
    cell: Cell | None = None


def waterfall(
    chart_id: str,
    title: str,
    summary: str,
    money: str,
    bars: Sequence[Bar],
    *,
    listed: bool = False,
    beside: Table | None = None,
) -> Chart:
    """A waterfall; `listed` with its bars as a table, where the page has them nowhere else.

    Of a table `beside` it, a bar's name, text and figure are read where a row has the same.

    A bar whose amount is not known is in the table only.
    """
    drawn = [bar for bar in bars if math.isfinite(bar.amount)]
    return Chart(
        chart_id,
        "waterfall",
        title,
        summary,
        tuple(_rows(drawn)),
        _table(chart_id, title, bars) if listed else None,
        units={"money": money},
        live=dict(enumerate(_live(drawn))),
        beside=beside,
    )


def _table(chart_id: str, title: str, bars: Sequence[Bar]) -> Table:
    return Table(
        f"{chart_id}-rows",
        title,
        (Column("step", tr("Step")), Column("amount", tr("Amount"), numeric=True)),
        tuple(Row((Cell(bar.label), bar.cell or Cell(bar.text))) for bar in bars),
    )


def _rows(bars: Sequence[Bar]) -> Iterator[dict[str, Value]]:
    at = 0.0
    for bar in bars:
        start, end = (0.0, bar.amount) if bar.total else (at, at + bar.amount)
        kind = "total" if bar.total else "rise" if bar.amount > 0 else "fall"
        yield {"step": bar.label, "start": start, "end": end, "kind": kind, "text": bar.text}
        at = end


def _live(bars: Sequence[Bar]) -> Iterator[Live]:
    """What each bar adds; where it begins follows from the bars before it."""
    for bar in bars:
        terms = list(bar.terms)
        if terms == [(1.0, bar.shows)]:
            yield bar.shows
            continue
        yield {"adds": terms, "text": f"{{{bar.shows}}}" if bar.shows else terms}
