"""The rows of a picture as the block of data that scripts read, what the page has left out."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from itertools import groupby

from markupsafe import Markup

from builder.language import written
from builder.pages.charts.fields import KINDS, lacking
from builder.pages.components import Chart, Value


def chart_data(chart: Chart) -> Markup:
    """Pack a chart's rows as a data block that cannot end the script element.

    Raises ValueError for an unknown kind, a missing field or unit, or NaN.
    """
    if chart.kind not in KINDS:
        raise ValueError(f"no chart kind {chart.kind!r}: {', '.join(KINDS)}")
    if absent := set(KINDS[chart.kind].units) - chart.units.keys():
        raise ValueError(f"chart {chart.id}: no unit for {', '.join(sorted(absent))}")
    for row in chart.rows:
        if missing := lacking(chart.kind, row):
            raise ValueError(f"chart {chart.id}: {', '.join(sorted(missing))} missing in {row}")
    read_off = _read_off(chart)
    rows = [_bar_alone(row) for row in chart.rows] if read_off else chart.rows
    live = {"live": chart.live} if chart.live and not read_off else {}
    own = chart.table.rows if chart.table and not chart.table.sortable else ()
    headings = {str(row.cells[0].text): n for n, row in reversed([*enumerate(own)])}
    packed = json.dumps(
        {
            "rows": [_packed(names, group, headings) for names, group in groupby(rows, key=tuple)],
            "units": dict(chart.units),
            **({"options": dict(chart.options)} if chart.options else {}),
            **live,
            **read_off,
        },
        ensure_ascii=False,
        allow_nan=False,
        separators=(",", ":"),
        default=dict,
    )
    return Markup(packed.replace("<", "\\u003c"))


def _read_off(chart: Chart) -> dict[str, object]:
    """The table whose rows have the names, texts and figures of all a waterfall's bars, and which.

    Empty where any bar is not in it.
    """
    table = chart.beside
    if table is None:
        return {}
    said = {
        (str(row.cells[0].text), str(row.cells[1].text), row.cells[1].href): at
        for at, row in enumerate(table.rows)
    }
    asked = (
        (row["step"], row["text"], f"={chart.live.get(n)}") for n, row in enumerate(chart.rows)
    )
    found = [said.get((str(step), str(text), way)) for step, text, way in asked]
    return {} if None in found else {"beside": table.id, "at": found}


def _bar_alone(row: Mapping[str, Value]) -> dict[str, Value]:
    """A bar without what a table has of it, and without its start, where the one before it ends."""
    return {"end": row["end"], "kind": row["kind"]}


def _packed(
    names: tuple[str, ...], rows: Iterable[Mapping[str, Value]], headings: Mapping[str, int]
) -> list[object]:
    """Rows that follow each other with the same fields: the names once, then the values.

    A value that is that of the row above is written as [], one that heads a row of the picture's
    own table as [number of the row], where that is shorter.
    """
    values = [[_drawn(value) for value in row.values()] for row in rows]
    above: list[Value | None] = [None] * len(names)
    packed: list[object] = [names]
    for row in values:
        packed.append([_short(*pair, headings) for pair in zip(row, above, strict=True)])
        above = [*row]
    return packed


def _short(value: Value, above: Value | None, headings: Mapping[str, int]) -> Value | list[int]:
    if len(str(value)) > 2 and value == above:
        return []
    return [headings[value]] if isinstance(value, str) and value in headings else value


def _drawn(value: Value) -> Value:
    """A number to six digits, more than a picture can show; whole numbers without a point."""
    if not isinstance(value, float):
        return written(value) if isinstance(value, str) else value
    short = float(f"{value:.6g}")
    return int(short) if short.is_integer() else short
