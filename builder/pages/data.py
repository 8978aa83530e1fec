"""The figures as open data: CSV files with a descriptor, and the page that explains them.

The descriptor follows the Data Package standard 2.0 (datapackage.org, Open Knowledge
Foundation, 2024): tables with typed, documented columns, keys between them, and the
SHA-256 of every file.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterator, Mapping, Sequence

import numpy as np
import pandas as pd

from builder.display.style import Style
from builder.engine.tables import FigureDef, Lookup, named
from builder.engine.units import unit_words
from builder.language import SOURCE_LANGUAGE, Deferred, current_words, ntr, tr, written_in
from builder.pages.allergen_data import ALLERGEN_RESOURCES
from builder.pages.candidate_data import CANDIDATE_RESOURCES
from builder.pages.components import (
    Cell,
    Column,
    Link,
    LinkList,
    Page,
    Part,
    Row,
    Table,
)
from builder.pages.counts_data import COUNT_RESOURCES
from builder.pages.cut_limits import CUT_LIMIT_RESOURCES
from builder.pages.downloads import RESOURCES as FIGURES
from builder.pages.kinds import KINDS as SHOWN
from builder.pages.kitchen_data import KITCHEN_RESOURCES
from builder.pages.marks import on_a_page
from builder.pages.menu_data import COVER_RESOURCES
from builder.pages.method_graph import MethodGraph
from builder.pages.order_data import ORDER_RESOURCES
from builder.pages.parts import part
from builder.pages.resource import Field, Resource, doubt_field, doubt_of_row
from builder.pages.sale_data import SALE_RESOURCES
from builder.pages.schedule_data import SCHEDULE_RESOURCES
from builder.pages.spread_data import SPREAD_RESOURCES
from builder.pages.step_data import STEP_RESOURCES
from builder.pages.tasting_data import TASTING_RESOURCES
from builder.pages.view import View
from builder.pages.whereabouts import method_path
from builder.pages.withheld import seen
from builder.reading.names import slug
from builder.records.editions import KINDS

FOLDER = "data"
DESCRIPTOR = "datapackage.json"
RESOURCES = (
    *FIGURES,
    *KITCHEN_RESOURCES,
    *CUT_LIMIT_RESOURCES,
    *ALLERGEN_RESOURCES,
    *SCHEDULE_RESOURCES,
    *ORDER_RESOURCES,
    *STEP_RESOURCES,
    *TASTING_RESOURCES,
    *SPREAD_RESOURCES,
    *COUNT_RESOURCES,
    *SALE_RESOURCES,
    *CANDIDATE_RESOURCES,
    *COVER_RESOURCES,
    *(resource for kind in SHOWN for resource in kind.resources),
)
# What a table has to be granted for, by name: kinds of record, groups of figures, parts.
NEEDS: Mapping[str, tuple[str, ...]] = {
    "cuts": ("cuts",), "cooks": ("cooks",), "pantry": ("pantry",), "plates": ("plates",),
    **dict.fromkeys(("stages", "tests", "parts"), ("cuts", "cooks", "weights")),
    "equipment": ("cooks", "cooking"), "steps": ("cooks", "weights"),
    "cooling": ("cooks", "cooking"), "ingredients": ("pantry", "weights"),
    **dict.fromkeys(("portions", "accompaniments"), ("plates", "weights")),
    "orders": ("plates", "weights", "work"), "plate_allergens": ("plates", "allergens"),
    "allergens": ("plates", "allergens"),
    "service_orders": ("services", "weights", "work"),
    **dict.fromkeys(("order_lines", "service_recipes"), ("services", "weights", "work")),
    "schedule_steps": ("services", "cooking", "work", "weights"),
    **dict.fromkeys(("tastings", "comparisons"), ("tastings", "tasting answers")),
    **dict.fromkeys(("scores", "findings"), ("tastings", "tasting answers", "personal codes")),
    "swaps": ("swaps",), "kitchen": (), "menu_sections": ("plates", "sales", "margins"),
    "swap_limits": ("swaps", "margins"), "swap_cut_limits": ("swaps", "margins"),
    "sales": ("plates", "sales", "menu prices"),
    **dict.fromkeys(("recipe_steps", "keeping"), ("plates", "cooking", "steps")),
    "scaled": ("plates", "weights", "steps"), "cover_items": ("plates", "weights"),
    **{table.name: (kind.record.folder,) for kind in SHOWN for table in kind.resources},
    **dict.fromkeys(("spreads", "spread_factors", "candidates"), KINDS),
    **dict.fromkeys(
        ("counts", "count_cuts", "count_cooks", "count_plates", "count_thrown", "count_menus"),
        ("counts",),
    ),
}  # fmt: skip
# Above this many rows a list gets a box to search it by.
SEEN_AT_ONCE = 20
_PROFILES = "https://datapackage.org/profiles/2.0"
# What spreadsheets read as the start of a formula, wide forms included.
_FORMULA_STARTS = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
_NUMBER = re.compile(r"[+-]?\d+([.,]\d+)?")
_AS_OF = Field("as_of", Deferred("Day that the figures are computed for"), "date")

Json = dict[str, object]


def data_files(view: View) -> Iterator[tuple[str, bytes]]:
    """Every table as CSV, one at a time, then their descriptor, each with its path in the site."""
    described: list[Json] = []
    for resource in _resources(view):
        data = csv_of(view, resource)
        described.append(_resource(view, resource, data))
        yield f"{FOLDER}/{resource.name}.csv", data
    yield f"{FOLDER}/{DESCRIPTOR}", _descriptor(view, described)


def _resources(view: View) -> list[Resource]:
    """The tables that the reader may see."""
    return [
        each
        for each in RESOURCES
        if view.reader.sees_all(each.groups)
        and view.grants(*NEEDS[each.name])
        and (view.reader.is_owner or seen(_counted, view, each) is not None)
    ]


def _counted(view: View, resource: Resource) -> int:
    """How many rows a table has; raises where a text of it may not be read."""
    return sum(1 for _ in resource.rows(view))


def _texts(view: View, resource: Resource) -> list[Field]:
    """The columns of text of a table that the reader may see."""
    return [
        each
        for each in resource.fields
        if view.reader.sees_all(each.groups) and (view.where.lists or not each.names_file)
    ]


def frame_of(view: View, resource: Resource) -> pd.DataFrame:
    """A table as a data frame: texts, the day, every figure at full precision, then doubts.

    What is not known, or not finite, is NaN.
    """
    found = list(resource.rows(view))
    said = [texts for _, texts in found]
    same = said if current_words() == SOURCE_LANGUAGE else _in_every_language(view, resource)
    rows = np.array([row for row, _ in found], dtype=np.intp)
    texts = {
        field.name: pd.Series(
            [_plain(field, text[n]) for text in (said if field.said else same)],
            dtype="object",
        )
        for n, field in enumerate(resource.fields)
        if field in _texts(view, resource)
    }
    day = pd.Series(view.costed.content.as_of.isoformat(), index=range(len(found)), dtype="object")
    figures = {
        figure.name: _known(view.costed.figures.column(resource.table, figure.name)[rows, 0])
        for figure in _figures(view, resource)
    }
    last = {}
    if doubt := _doubt(view, resource):
        reasons = [_plain(doubt, reason) for reason in _reasons(view, resource)]
        last[doubt.name] = pd.Series(reasons, dtype="object")
    return pd.DataFrame({**texts, _AS_OF.name: day, **figures, **last})


def _in_every_language(view: View, resource: Resource) -> list[Sequence[str | None]]:
    """The texts of a table's rows as programs find them: in the language of the source."""
    with written_in(SOURCE_LANGUAGE):
        return [texts for _, texts in resource.rows(view)]


def _doubt(view: View, resource: Resource) -> Field | None:
    """The column of doubts, where the table has one and the reader may see it."""
    field = doubt_field(resource)
    if field is None or not view.reader.sees_all(field.groups):
        return None
    return field if view.reader.is_owner or seen(_reasons, view, resource) is not None else None


def _reasons(view: View, resource: Resource) -> list[str | None]:
    """Why each row is in doubt; raises where a reason rests on what the reader may not see."""
    return [doubt_of_row(view, resource, texts) for _, texts in resource.rows(view)]


def _plain(field: Field, text: str | None) -> str | None:
    """A text that a spreadsheet shows and never computes; numbers and dates stay as they are.

    >>> name = Field("name", "what it is called")
    >>> _plain(name, "=1+1"), _plain(name, "beef"), _plain(name, "-3.5")
    ("'=1+1", 'beef', '-3.5')

    Blanks of any width may be passed over before it.

    >>> _plain(name, "\u3000=1+1") == "'\u3000=1+1"
    True
    """
    if field.kind != "string" or text is None or _NUMBER.fullmatch(text):
        return text
    return f"'{text}" if text[:1].isspace() or text.startswith(_FORMULA_STARTS) else text


def _known(values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> pd.Series[float]:
    return pd.Series(np.where(np.isfinite(values), values, np.nan), dtype="float64")


def csv_of(view: View, resource: Resource) -> bytes:
    """A table as CSV in UTF-8; a float is the shortest text that reads back as itself."""
    text: str = frame_of(view, resource).to_csv(index=False, lineterminator="\n")
    return text.encode()


def _figures(view: View, resource: Resource) -> list[FigureDef]:
    """The figures of the table, unless a text has their name."""
    if not resource.table:
        return []
    texts = {field.name for field in resource.fields}
    return [each for each in view.figures_of(resource.table) if each.name not in texts]


# The descriptor


def _descriptor(view: View, described: list[Json]) -> bytes:
    kitchen = view.costed.content.kitchen
    package: Json = {
        "$schema": f"{_PROFILES}/datapackage.json",
        "name": slug(str(kitchen.name)) or "kitchen",
        "title": str(kitchen.name),
        "description": str(kitchen.about or tr("What the kitchen's cuts, cooks and plates cost")),
        "as_of": view.costed.content.as_of.isoformat(),
        "currency": view.style.currency,
        "resources": described,
    }
    return (json.dumps(package, ensure_ascii=False, indent=1) + "\n").encode()


def _resource(view: View, resource: Resource, data: bytes) -> Json:
    return {
        "$schema": f"{_PROFILES}/dataresource.json",
        "name": resource.name,
        "type": "table",
        "path": f"{resource.name}.csv",
        "title": tr(resource.title),
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": {"lineTerminator": "\n"},
        "bytes": len(data),
        "hash": f"sha256:{hashlib.sha256(data).hexdigest()}",
        "schema": _schema(view, resource),
    }


def _schema(view: View, resource: Resource) -> Json:
    return {
        "fields": list(_fields(view, resource)),
        "missingValues": [""],
        "primaryKey": ["id"],
        "foreignKeys": [
            {"fields": [field.name], "reference": {"resource": field.refers, "fields": ["id"]}}
            for field in _texts(view, resource)
            if field.refers
        ],
    }


def _fields(view: View, resource: Resource) -> Iterator[Json]:
    for field in (*_texts(view, resource), _AS_OF):
        yield _text_field(field)
    for figure in _figures(view, resource):
        unit = unit_words(figure.unit, view.style.currency)
        yield {
            "name": figure.name,
            "title": figure.label,
            "type": "number",
            "description": f"{tr(figure.about).rstrip('.')} [{unit}]",
            "unit": unit,
        }
    if doubt := _doubt(view, resource):
        yield _text_field(doubt)


def _text_field(field: Field) -> Json:
    return {"name": field.name, "type": field.kind, "description": tr(field.about)}


# The page

LANGUAGES = Deferred(
    "Names of columns, ids, kinds, verdicts of a clause and units are in English in every "
    "language. Sentences and labels are in the kitchen's."
)


def data_page(view: View) -> Page:
    """What each table holds, column by column, with the way to its file."""
    graph, resources = MethodGraph(view.costed.figures.model, view.hidden), _resources(view)
    return Page(
        path="data.html",
        title=tr("Tables to download"),
        lead=tr(
            "Every figure of the kitchen at full precision: {resources} tables as CSV, one row a "
            "record.",
            resources=len(resources),
        ),
        also=(f"{tr('A descriptor says what each column means.')} {tr(LANGUAGES)}",),
        nav="~/data.html",
        sections=(
            LinkList(
                (
                    Link(
                        DESCRIPTOR,
                        f"~/{FOLDER}/{DESCRIPTOR}",
                        tr(
                            "the descriptor of all tables, in the open Data Package standard; a "
                            "text that begins with =, +, -, @ or a blank has ' before it, so that "
                            "no spreadsheet computes it, and numbers are as they are"
                        ),
                    ),
                )
            ),
            *(_resource_part(view, graph, resource) for resource in resources),
        ),
    )


def _resource_part(view: View, graph: MethodGraph, resource: Resource) -> Part:
    file = f"{resource.name}.csv"
    columns = (
        Column("column", tr("Column")),
        Column("holds", tr("What it holds")),
        Column("unit", tr("Unit")),
    )
    rows = (
        *(_text_row(view.style, field) for field in (*_texts(view, resource), _AS_OF)),
        *(_figure_row(view, graph, figure) for figure in _figures(view, resource)),
    )
    if doubt := _doubt(view, resource):
        rows += (_text_row(view.style, doubt),)
    count = _counted(view, resource)
    return part(
        resource.name,
        tr(resource.title),
        LinkList((Link(file, f"~/{FOLDER}/{file}", ntr("{count} row", "{count} rows", count)),)),
        Table(
            f"{resource.name}-columns",
            tr("Columns of {file}", file=file),
            columns,
            rows,
            filterable=len(rows) > SEEN_AT_ONCE,
        ),
    )


# What a column holds, by the names that its descriptor has for it.
_KINDS: Mapping[str, str] = {
    "string": Deferred("text"),
    "number": Deferred("number"),
    "date": Deferred("date"),
    "datetime": Deferred("datetime"),
}


def _text_row(style: Style, field: Field) -> Row:
    plain = tr(_KINDS[field.kind])
    unit = (
        Cell(tr("id in {refers}", refers=field.refers), href=f"#{field.refers}")
        if field.refers
        else Cell(plain)
    )
    return Row((Cell(field.name), Cell(on_a_page(tr(field.about), style)), unit))


def _figure_row(view: View, graph: MethodGraph, figure: FigureDef) -> Row:
    node = graph.home((figure.table, figure.name))
    note = tr("from {node}", node=named(node[0])) if isinstance(figure.how, Lookup) else ""
    return Row(
        (
            Cell(figure.name, href=f"~/{method_path(node)}"),
            Cell(on_a_page(tr(figure.about), view.style), note=note),
            Cell(unit_words(figure.unit, view.style.currency)),
        )
    )
