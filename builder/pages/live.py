"""What a page needs to compute its figures again: formulas, rows, and how numbers are written.

Only what somebody has written down and the reader may see travels, each value once with its
file and line, in shards of rows that a page loads when first needed. Everything else follows
in the page.
"""

from __future__ import annotations

import json
import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial

import numpy as np

from builder.display.numerals import NumberFormat
from builder.display.scales import STEPS, UNIT, UnitSystem
from builder.display.style import Style, minutes_alone
from builder.engine.book import Origin
from builder.engine.draws import Spread, quantile
from builder.engine.javascript import model_script
from builder.engine.tables import Entered, Given, How, Table
from builder.language import tr
from builder.pages.values import in_mass_unit
from builder.pages.view import View
from builder.quantities import Dimension, find_unit
from builder.yields.intervals import t_975

FOLDER = "assets/live"
# Rows of a shard: few enough to load at once, enough to be worth a file.
SHARD_ROWS = 4000

Json = dict[str, object]


def live_assets(view: View) -> Iterator[tuple[str, bytes]]:
    """The formulas and the index of rows, then each shard of rows, with its path in the site."""
    shards = _shards(view)
    yield f"{FOLDER}/model.js", _model_script(view, shards)
    for number, shard in enumerate(shards):
        yield f"{FOLDER}/rows-{number}.js", _shard_script(view, number, shard)


@dataclass(slots=True)
class _Shard:
    """Rows of whole pages: by table their numbers, with the pages and files that they name."""

    pages: dict[str, int] = field(default_factory=dict)
    files: dict[str, int] = field(default_factory=dict)
    rows: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    size: int = 0


def _number(found: dict[str, int], name: str) -> int:
    """The number of a name in a list of names, where it is put at its first use."""
    return found.setdefault(name, len(found))


def _shards(view: View) -> list[_Shard]:
    """Every row in the shard of its page; pages that follow each other share a shard."""
    by_page: dict[str, list[tuple[str, int]]] = defaultdict(list)
    figures = view.costed.figures
    for table in figures.model.tables:
        if not view.figures_of(table):
            continue
        for row in range(figures.size(table)):
            by_page[_page_of(view, table, row)].append((table, row))
    shards = [_Shard()]
    for path in sorted(by_page):
        if shards[-1].size >= SHARD_ROWS:
            shards.append(_Shard())
        shard = shards[-1]
        _number(shard.pages, path)
        for table, row in by_page[path]:
            shard.rows[table].append(row)
        shard.size += len(by_page[path])
    return shards


def _page_of(view: View, table: str, row: int) -> str:
    """The page of a row; the front page where its own is not for the reader."""
    page = f"{view.costed.figures.identity(table, row).owner}.html"
    return page if view.reader.sees_records or view.where.title(page) else "index.html"


def _shard_script(view: View, number: int, shard: _Shard) -> bytes:
    tables = view.costed.figures.model.tables
    rows = {name: _table(view, shard, tables[name], rows) for name, rows in shard.rows.items()}
    packed: Json = {
        "pages": [(path, view.where.title(path)) for path in shard.pages],
        "files": [(file, *view.where.listed(file)) for file in shard.files],
        "rows": rows,
    }
    return f"Live.add({number},{_json(packed)});\n".encode()


def _table(view: View, shard: _Shard, table: Table, rows: Sequence[int]) -> Json:
    figures = view.costed.figures
    given = [f.name for f in view.figures_of(table.name) if isinstance(f.how, Entered)]
    values = {
        name: [_value(figures.value(table.name, name, row)) for row in rows] for name in given
    }
    origins = {
        name: [
            _origin(shard, table.figures[name].how, figures.origin((table.name, name), row))
            if view.where.lists
            else None
            for row in rows
        ]
        for name in given
    }
    return {
        "at": rows,
        "homes": [_home(shard, view, table.name, row) for row in rows],
        "given": {name: column for name, column in values.items() if _any(column)},
        "links": {
            link: [figures.linked(table.name, link, row) for row in rows] for link in table.links
        },
        "origins": {name: column for name, column in origins.items() if _any(column)},
        "spreads": dict(_spreads(view, table.name, given, rows)),
        **_points(view, table.name, given, rows),
    }


def _points(view: View, table: str, given: Sequence[str], rows: Sequence[int]) -> Json:
    """What is known of how far plates lie beyond the lines that divide classes, as drawn."""
    known = view.costed.uncertainty
    if known is None or table != "plate" or "class_chance" not in given:
        return {}
    found = (known.class_points.get(row) for row in rows)
    return {
        "points": [
            None if each is None else [[_short(x) for x in side] for side in each.tolist()]
            for each in found
        ]
    }


def _short(x: float) -> float | None:
    return float(f"{x:.5g}") if math.isfinite(x) else None


def _spreads(
    view: View, table: str, given: Sequence[str], rows: Sequence[int]
) -> Iterator[tuple[str, list[object]]]:
    """How far inputs may lie off: half of the interval, whether in the logarithm, where it is
    cut (below and, of a logarithm, above as a share of the value, which may be tried), the figure
    that says what the value is where nobody wrote it, and what it shares."""
    known = view.costed.uncertainty
    for name in given:
        spreads = known.spreads.get((table, name), {}) if known else {}
        if any(row in spreads for row in rows):
            yield name, [_spread(spreads[row]) if row in spreads else None for row in rows]


def _spread(spread: Spread) -> list[object]:
    reach = quantile(0.95, spread.freedom) * spread.scale
    found: list[object] = [
        reach,
        int(spread.relative),
        _known(spread.low / spread.center),
        _known(spread.high / spread.center if spread.relative else spread.high),
        spread.stands_in,
        [(name, part / spread.scale) for name, part in spread.shared] or None,
    ]
    while not found[-1]:
        found.pop()
    return found


def _any(column: Sequence[object]) -> bool:
    return any(value is not None for value in column)


def _known(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _value(value: float) -> float | str | None:
    """A value that a row has; of an end that is open what the script reads as a number."""
    return ("Infinity" if value > 0 else "-Infinity") if math.isinf(value) else _known(value)


def _home(shard: _Shard, view: View, table: str, row: int) -> list[object]:
    """A row's page in the shard, key, label and unit, as far as they say anything."""
    who = view.costed.figures.identity(table, row)
    per = view.per(table, row)
    reported: list[object] = [
        _number(shard.pages, _page_of(view, table, row)),
        who.key,
        who.label,
        "" if per == "kg" else per,
    ]
    while len(reported) > 1 and not reported[-1]:
        reported.pop()
    return reported


def _origin(shard: _Shard, how: How, origin: Origin) -> list[object] | None:
    """File, line, column, text as written and reason; None where nobody wrote the value."""
    place = origin.place
    if place is None:
        default = isinstance(how, Given) and origin.reason == (how.reason or "default")
        nobody = default or origin.reason in {"", "not given", "not known"}
        return None if nobody else [-1, 0, 0, "", tr(origin.reason)]
    reported = [
        _number(shard.files, place.file),
        place.line,
        place.column,
        origin.text,
        tr(origin.reason),
    ]
    while not reported[-1]:
        reported.pop()
    return reported


# The model and the index of rows


def _model_script(view: View, shards: Sequence[_Shard]) -> bytes:
    figures, say = view.costed.figures, partial(in_mass_unit, view.style)
    counts = () if ("stage", "tests_count") in view.hidden else range(figures.size("stage"))
    most = max((figures.value("stage", "tests_count", r) for r in counts), default=0)
    table = t_975(np.arange(1.0, int(most) + 1)).tolist()
    index = {
        "runs": dict(_runs(view, shards)),
        "local": list(_local(view, shards)),
        "first": [min(shard.pages, default="") for shard in shards],
    }
    return (
        "const T_975=" + json.dumps(table) + ";\n"
        "const CALLS={t_975:(n)=>T_975[n-1]??NaN};\n"
        f"Live.begin({model_script(figures.model, say, view.hidden)},"
        f"{_json(index)},{_json(style_data(view.style))});\n"
    ).encode()


def _runs(view: View, shards: Sequence[_Shard]) -> Iterator[tuple[str, list[tuple[int, int]]]]:
    """For each table the rows from which on another shard holds them."""
    for table in view.costed.figures.model.tables:
        found = sorted(
            (row, n) for n, shard in enumerate(shards) for row in shard.rows.get(table, ())
        )
        yield (
            table,
            [
                here
                for before, here in zip([(-1, -1), *found], found, strict=False)
                if before[1] != here[1]
            ],
        )


def _local(view: View, shards: Sequence[_Shard]) -> Iterator[str]:
    """Links whose children are always in their parent's shard."""
    figures = view.costed.figures
    where = {
        (table, row): n
        for n, shard in enumerate(shards)
        for table, rows in shard.rows.items()
        for row in rows
    }
    for table in figures.model.tables.values():
        for link, target in table.links.items():
            if not (view.figures_of(table.name) and view.figures_of(target)):
                continue
            pairs = (
                (row, figures.linked(table.name, link, row))
                for row in range(figures.size(table.name))
            )
            if all(where[table.name, row] == where[target, up] for row, up in pairs if up >= 0):
                yield f"{table.name}.{link}"


# How numbers are written


def style_data(style: Style) -> Json:
    """The kitchen's signs, currency and units, for the script that writes numbers."""
    units = {step.unit for steps in STEPS[style.units].values() for step in steps}
    return {
        "numerals": _format(style.numerals),
        "percents": _format(style.percents),
        "amounts": _format(style.amounts),
        "currency": style.currency,
        "places": style.places,
        "minutesAlone": minutes_alone(),
        "pounds": style.units is UnitSystem.US_CUSTOMARY,
        "per": {"kg": UNIT[style.units][Dimension.MASS], "L": UNIT[style.units][Dimension.VOLUME]},
        "scales": {
            unit: _scale(unit)
            for unit in sorted(
                {*units, *UNIT[style.units].values(), "h", "min", "kWh", "kW", "W", "each", "oz"}
            )
        },
        "steps": {
            dimension.name.lower(): [
                (None if math.isinf(step.below) else step.below, step.unit, step.places, step.trim)
                for step in steps
            ]
            for dimension, steps in STEPS[style.units].items()
        },
    }


def _scale(name: str) -> Json:
    unit = find_unit(name)
    if unit is None:
        raise ValueError(f"unknown unit {name!r}")
    factor = unit.factor
    return {
        "factor": float(factor),
        "up": float(factor.denominator),
        "down": float(factor.numerator),
        "zero": float(unit.zero),
    }


def _format(form: NumberFormat) -> Json:
    marks = {chr(mark): sign for mark, sign in form.symbols.items()}
    return {
        "before": form.before,
        "after": form.after,
        "point": marks.get(".", "."),
        "group": marks.get(",", ","),
        "grouping": form.grouping,
        "scale": form.scale,
    }


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
