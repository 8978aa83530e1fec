"""From view models to the bytes of a page.

The templates print components; rows of tables, by far the most of a page, are
joined here because that takes half the time that a template's loop does.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup, escape

import site_templates
from builder.data.synonyms import search_words
from builder.display.numerals import MISSING
from builder.language import current_language, current_words, tr, written
from builder.pages.chart_rows import chart_data
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Copyable,
    Page,
    Row,
    Site,
    Table,
    walk,
)
from builder.pages.escaping import Templates, html_of
from builder.pages.folding import unfolded
from builder.pages.search_words import word_list
from builder.pages.slim import slim
from builder.pages.spacing import spaced
from builder.pages.whereabouts import method_path

TEMPLATES = Path(site_templates.__file__).parent
ASSETS = (
    "icon.svg", "search.js", "page.js", "tables.js", "charts.js",
    "live.js", "numbers.js", "figures.js", "intervals.js", "panel.js",
    "copy.js", "pick.js",
)  # fmt: skip
# One stylesheet in the site, because a later rule wins over an earlier one.
STYLES = ("ground.css", "parts.css", "phone.css", "steps.css", "live.css", "paper.css")
# So many columns of a table say once, on the table, that they are numeric; the rest cell by cell.
_NAMED_COLUMNS = 12
# A number of a list with its sign and what is around it, in the digits that scripts read.
_NUMBER = re.compile(r"[-−]?(?P<before>[^0-9.,−-]*)[0-9][0-9.,’'\s]*(?P<after>[^0-9.,−-]*)")
_SAID = re.compile(r'\bsay\("((?:[^"\\]|\\.)*)"')
_REFERENCE = re.compile(r'href="=(\w+\.\w+)\.(\d+)"')
CSP = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "base-uri 'none'; form-action 'none'"
)


def render(page: Page, site: Site) -> bytes:
    """Print a page; the same page and site give the same bytes."""
    html = _template().render(
        page=unfolded(page),
        site=site,
        here=f"~/{page.path}",
        csp=Markup(CSP),
        scripts=_scripts(page, live=site.live),
    )
    if site.guarded and site.guarded in html:
        raise ValueError(f"{page.path}: a text that is withheld reached the page")
    html = _REFERENCE.sub(_to_figure, html.replace(f'="~/{page.path}#', '="#'))
    html = spaced(html.replace('="~/', f'="{root_of(page.path)}'), current_language())
    return slim(html).encode()


def _to_figure(found: re.Match[str]) -> str:
    """A reference becomes a link to the method, which names the figure, and the row for scripts.

    The row is the link's fragment, which is no place on the page of the method.
    """
    return f'href="~/{_method_of(found[1])}#{found[2]}"'


@cache
def _method_of(figure: str) -> str:
    """The page of a figure's method, by table and name.

    >>> _method_of("plate.food_cost")
    'methods/plate-food-cost.html'
    """
    table, name = figure.split(".")
    return method_path((table, name))


def root_of(path: str) -> str:
    """Return the way from a page to the root of its site.

    >>> root_of("index.html"), root_of("cuts/beef/chuck.html")
    ('', '../../')
    """
    return "../" * path.count("/")


def assets() -> dict[str, bytes]:
    """Return the stylesheet and the page scripts by their path in the site."""
    scripts = {f"assets/{name}": (TEMPLATES / "assets" / name).read_bytes() for name in ASSETS}
    # Every page has this script, and it is the first.
    scripts["assets/page.js"] = script_words() + scripts["assets/page.js"]
    return {"assets/style.css": stylesheet(), **scripts}


def said_by_scripts() -> list[str]:
    """The texts that the pages' scripts say, each once."""
    scripts = ((TEMPLATES / "assets" / name).read_text(encoding="utf-8") for name in ASSETS)
    return list(dict.fromkeys(text for script in scripts for text in _SAID.findall(script)))


def script_words() -> bytes:
    """What says the scripts' own words, with those of a language other than the source's."""
    words = (TEMPLATES / "assets" / "words.js").read_bytes()
    others = {text: own for text in said_by_scripts() if (own := tr(text)) != text}
    if not others:
        return words
    texts = json.dumps(others, ensure_ascii=False)
    return f"globalThis.WORDS={texts};\n".encode() + words


def stylesheet() -> bytes:
    """Return the one stylesheet: the ground, the parts of pages, paper.

    What is written for `.num` is for the cells of a table's numeric columns, too.
    """
    css = b"".join((TEMPLATES / "styles" / name).read_bytes() for name in STYLES)
    numbered = (f".n{n}>*>tr>:nth-child({n})" for n in range(1, _NAMED_COLUMNS + 1))
    cells = ",".join((".n>*>tr>:nth-child(n+2)", *numbered))
    return css.replace(b".num", f":is(.num,:where({cells}))".encode())


def search_data(records: Iterable[tuple[str, str, str, str]]) -> bytes:
    """Return what the search script reads.

    That is the records, each (title, kind, path in the site, extra words), every word of them
    with the records that have it, and words that are left out of what is asked.

    >>> script = search_data([("Chuck roll", "cut", "cuts/chuck.html", "116A")]).decode()
    >>> script.splitlines()[0]
    'const SEARCH_RECORDS=[["Chuck roll","cut","cuts/chuck.html","116A"]];'
    """
    words = search_words(current_language())
    texts = [[written(text) for text in record] for record in records]
    listed, places = word_list(texts, words.folders)
    found = {"RECORDS": texts, "WORDS": listed, "PLACES": places, "SMALL": words.small}
    packed = (
        (name, json.dumps(data, ensure_ascii=False, separators=(",", ":")))
        for name, data in found.items()
    )
    return "".join(f"const SEARCH_{name}={data};\n" for name, data in packed).encode()


def environment() -> Environment:
    """The templates of the language that is written in; a name that is missing is an error.

    A template keeps what it sets outside of its macros, so each language has its own.
    """
    return _environment(current_words())


@cache
def _environment(_language: str) -> Environment:
    env = Templates(
        loader=FileSystemLoader(TEMPLATES),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    env.globals.update(
        rows=table_rows,
        numeric=numeric_columns,
        head_marks=head_marks,
        chart_data=chart_data,
        tr=tr,
    )
    return env


def _template() -> Template:
    return environment().get_template("base.html")


def _scripts(page: Page, *, live: bool) -> list[str]:
    every = list(walk(page.sections))
    charts = any(isinstance(section, Chart) for section in every)
    lists = any(isinstance(s, Table) and (s.sortable or s.filterable) for s in every)
    picks = any(isinstance(section, Table) and section.pick for section in every)
    copies = any(isinstance(section, Copyable) for section in every)
    moved = [*["copy.js"] * copies, *["live.js"] * (live and (page.follows or not page.sheet))]
    # Rows are offered to be picked before a long list is cut into pages.
    listed = [*["pick.js"] * picks, *["tables.js"] * lists]
    return ["page.js", "search.js", *listed, *["charts.js"] * charts, *moved]


def table_rows(
    columns: Sequence[Column], rows: Sequence[Row], sortable: bool = False, scoped: bool = False
) -> Markup:
    """Join the rows of a table; the first cell of a row is its heading.

    Only a table that can be sorted carries what its cells are compared by, and
    only where that is not the text itself. Headings say that they are a row's where `scoped`, and
    where a browser would not find it by itself.

    A row with too few or too many cells would put figures under a wrong
    heading, so it raises ValueError naming the cells. A group row has one cell.
    """
    numeric = [column.numeric for column in columns]
    same = (_alike, _begin_alike)
    keyed = [sortable and not same[not n](rows, at) for at, n in enumerate(numeric)]
    marked = [n and at >= _NAMED_COLUMNS for at, n in enumerate(numeric)]
    scoped = scoped or not _all_named(columns)
    return Markup("\n".join([_row(row, marked, keyed, scoped) for row in rows]))


def _all_named(columns: Sequence[Column]) -> bool:
    """Whether each column has a heading, so that headings alone make up the first row and column.

    A browser then finds out which headings are a column's and which are a row's (HTML Living
    Standard, 4.9.12.2 "Forming relationships between data cells and header cells": scope "auto").
    """
    return all(column.label for column in columns)


def head_marks(columns: Sequence[Column], at: int, sortable: bool) -> Markup:
    """The attributes of a column's heading, those left out that follow from the table's own.

    >>> columns = [Column("cut", "Cut"), Column("weight", "Weight", numeric=True)]
    >>> head_marks(columns, 1, False), head_marks([*columns, Column("", "")], 1, True)
    (Markup(''), Markup(' scope="col" class="num"'))
    """
    scope = "" if _all_named(columns) else ' scope="col"'
    numeric = columns[at].numeric and (sortable or at >= _NAMED_COLUMNS)
    return Markup(scope + _class(numeric))


def numeric_columns(columns: Sequence[Column]) -> str:
    """The classes by which a table says which of its columns hold numbers.

    >>> cut, weight = Column("cut", "Cut"), Column("weight", "Weight", numeric=True)
    >>> numeric_columns([cut, weight, cut]), numeric_columns([cut, weight, weight])
    ('n2', 'n')
    """
    first, *others = columns
    if others and all(column.numeric for column in others):
        return "n1 n" if first.numeric else "n"
    named = enumerate(columns[:_NAMED_COLUMNS], start=1)
    return " ".join(f"n{at}" for at, column in named if column.numeric)


def _alike(rows: Sequence[Row], at: int) -> bool:
    """Whether a column's texts are numbers in one unit, so that they sort as they are read."""
    texts = [row.cells[at].text for row in rows if at < len(row.cells)]
    found = [_NUMBER.fullmatch(text) for text in texts if text != MISSING]
    return all(found) and len({(it["before"], it["after"]) for it in found if it}) <= 1


def _begin_alike(rows: Sequence[Row], at: int) -> bool:
    """Whether a column's texts begin with what they are sorted by, whatever their case."""
    cells = [row.cells[at] for row in rows if at < len(row.cells)]
    return all(
        cell.sort is None
        or (
            isinstance(cell.sort, str)
            and str(cell.text).casefold().startswith(cell.sort.casefold())
        )
        for cell in cells
    )


def _row(row: Row, numeric: list[bool], keyed: list[bool], scoped: bool) -> str:
    width = 1 if row.kind == "group" else len(numeric)
    if len(row.cells) != width:
        raise ValueError(f"{len(row.cells)} cells where {width} belong: {row.cells}")
    anchor = f' id="{escape(row.anchor)}"' if row.anchor else ""
    kind = f' class="{row.kind}"' if row.kind else ""
    first, *others = [
        _cell(cell, n, key) for cell, n, key in zip(row.cells, numeric, keyed, strict=False)
    ]
    if row.kind == "group":
        return f'<tr{anchor}{kind}><th scope="rowgroup" colspan="{len(numeric)}"{first}</th></tr>'
    rest = "".join([f"<td{cell}</td>" for cell in others])
    # Beside an empty cell browsers take a heading for a column's.
    scope = ' scope="row"' if scoped or not others or not row.cells[1].text else ""
    return f"<tr{anchor}{kind}><th{scope}{first}</th>{rest}</tr>"


def _cell(cell: Cell, numeric: bool, keyed: bool) -> str:
    inner = html_of(cell.text)
    if cell.href:
        inner = f'<a href="{html_of(cell.href)}">{inner}</a>'
    if cell.note:
        inner = f"{inner}<small>{html_of(cell.note)}</small>"
    if cell.tries:
        inner += f'<button type="button" data-attempt="{cell.tries}">{tr("Try it")}</button>'
    key = f' data-s="{_sort_key(cell.sort)}"' if keyed and cell.sort is not None else ""
    return f"{_class(numeric, cell.tone, cell.fixed)}{key}>{inner}"


def _sort_key(value: float | str) -> str:
    """What sorting compares, numbers to ten digits."""
    return escape(value) if isinstance(value, str) else f"{value:.10g}"


@cache
def _class(numeric: bool, tone: str = "", fixed: bool = False) -> str:
    kinds = " ".join(["num"] * numeric + [tone] * bool(tone) + ["written"] * fixed)
    return f' class="{kinds}"' if kinds else ""
