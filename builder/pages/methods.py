"""The method pages: one for every figure that is written, computed or added up.

All of it is read off the definitions that the figures are computed by, and the example
on each is this kitchen's own.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

import numpy as np
from markupsafe import Markup

from builder.display.style import Style
from builder.engine.methods import METHODS, Method
from builder.engine.model import Node
from builder.engine.tables import Applied, FigureDef, Formula, Given, How, Lookup, Total, named
from builder.language import Deferred, labelled, tr
from builder.pages.components import (
    Cell,
    Column,
    Link,
    LinkList,
    Page,
    Part,
    Prose,
    Row,
    Section,
    Table,
    Term,
)
from builder.pages.docstrings import details, summary
from builder.pages.method_examples import in_sentence, worked_examples
from builder.pages.method_graph import MethodGraph, function_path
from builder.pages.method_words import about_of, label_of, made_of, title_of, unit_of
from builder.pages.parts import page_of, part, present
from builder.pages.sources import source_href, sources_page
from builder.pages.try_next import PATH, TITLE
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.whereabouts import RowKey, method_path
from builder.problems import Place

INDEX = "methods.html"
NAV = f"~/{INDEX}"
_CRUMBS = (Link(Deferred("Methods"), NAV),)
# How many rows are looked through for an example; a large kitchen has ten thousand.
_SEARCHED = 100
_MOST_SHOWN = 20


def method_pages(view: View) -> Iterator[Page]:
    """The index of methods, a page for each, and the list of their sources."""
    graph = MethodGraph(view.costed.figures.model, view.hidden)
    yield _index(view, graph)
    titles = _titles(view)
    for node in graph.nodes:
        yield _figure_page(view, graph, node, titles)
    for method in METHODS.values():
        yield _function_page(view.style, graph, method)
    yield sources_page(graph, view.style)


def _titles(view: View) -> Mapping[str, str]:
    titles = {
        page_of(record): str(getattr(record, "title", record.id))
        for record in view.costed.content.records()
    }
    return {**titles, "kitchen.html": tr("Kitchen"), "menu.html": tr("Menu"), PATH: tr(TITLE)}


def _kind(how: How) -> str:
    match how:
        case Given():
            return tr("written")
        case Formula():
            return tr("formula")
        case Total():
            return tr("total")
        case Applied():
            return tr("method")
        case _:
            return tr("running")


# Index


def _index(view: View, graph: MethodGraph) -> Page:
    columns = (
        Column("figure", tr("Figure")),
        Column("of", tr("Of")),
        Column("how", tr("How it comes about")),
        Column("unit", tr("Unit")),
    )
    rows = tuple(_index_row(view, graph, node) for node in graph.nodes)
    written = sum(isinstance(graph.definition(node).how, Given) for node in graph.nodes)
    return Page(
        path=INDEX,
        title=tr("Methods"),
        lead=tr("{nodes} figures are behind the numbers of this site.", nodes=len(graph.nodes)),
        also=(
            tr(
                "{written} are written in the kitchen's files, come from them or have a "
                "default; {nodes} follow from those.",
                written=written,
                nodes=len(graph.nodes) - written,
            ),
        ),
        nav=NAV,
        sections=(
            LinkList(
                (
                    Link(tr("Sources"), "~/sources.html", tr("what the formulas rest on")),
                    Link(tr("Writing the files"), "~/writing.html", tr("every key that is read")),
                    Link(
                        tr("Tables to download"),
                        "~/data.html",
                        tr("every figure at full precision"),
                    ),
                )
            ),
            Table("figures", tr("Figures"), columns, rows, sortable=True, filterable=True),
            Part("sourced", tr("Statistics and physics"), (_functions_table(view.style),)),
        ),
    )


def _index_row(view: View, graph: MethodGraph, node: Node) -> Row:
    definition, style = graph.definition(node), view.style
    return Row(
        (
            Cell(
                label_of(style, definition),
                href=f"~/{method_path(node)}",
                note=about_of(style, definition),
            ),
            Cell(named(node[0])),
            Cell(made_of(style, definition)),
            Cell(unit_of(style, definition.unit)),
        )
    )


def _functions_table(style: Style) -> Table:
    columns = (
        Column("function", tr("Function")),
        Column("gives", tr("What it gives")),
        Column("unit", tr("Unit")),
        Column("source", tr("Source")),
    )
    rows = tuple(
        Row(
            (
                Cell(title_of(style, method), href=f"~/{function_path(method)}"),
                Cell(summary(method.doc, style)),
                Cell(tr(method.unit_words) if method.unit else "–"),
                Cell(tr(method.source), href=source_href(method.source)),
            )
        )
        for method in METHODS.values()
    )
    return Table(
        "functions", tr("Statistics and physics"), columns, rows, sortable=True, filterable=True
    )


# One figure


def _figure_page(view: View, graph: MethodGraph, node: Node, titles: Mapping[str, str]) -> Page:
    definition = graph.definition(node)
    table = graph.model.tables[node[0]]
    return Page(
        path=method_path(node),
        title=capital(label_of(view.style, definition)),
        lead=_lead(view, definition),
        kind=tr("Method · {table}", table=tr(table.title)),
        crumbs=_CRUMBS,
        nav=NAV,
        aside=_aside(view, definition),
        sections=present(
            _formula_part(view.style, definition),
            _example(view, graph, node, titles),
            part("needs", tr("What it needs"), *_needs(view.style, graph, node)),
            part("used", tr("What uses it"), _figure_list(view.style, graph, graph.users[node])),
        ),
    )


def _lead(view: View, definition: FigureDef) -> str:
    sentence = f"{about_of(view.style, definition).rstrip('.')}."
    if isinstance(definition.how, Given):
        made = tr("is written in") if _is_written(view, definition) else tr("comes from")
        if definition.how.default is None:
            return tr(
                "{sentence} It {made} the kitchen's files; left out, it is not known.",
                sentence=sentence,
                made=made,
            )
        return tr(
            "{sentence} It {made} the kitchen's files; left out, it is {default:g} ({reason}).",
            sentence=sentence,
            made=made,
            default=definition.how.default,
            reason=tr(definition.how.reason or "the default"),
        )
    return sentence


def _is_written(view: View, definition: FigureDef) -> bool:
    """Whether the kitchen writes the number itself, or nothing shows that it would not.

    What follows from other words, or was reckoned before, has a reason in place of a text; a flag
    is never written as 1 or 0.
    """
    figures, node = view.costed.figures, (definition.table, definition.name)
    origins = [figures.origin(node, row) for row in range(figures.size(definition.table))]
    if any(origin.text for origin in origins):
        return True
    default = definition.how.reason if isinstance(definition.how, Given) else ""
    absent = {"", "default", "not given", default}
    return definition.unit != "flag" and all(origin.reason in absent for origin in origins)


def _aside(view: View, definition: FigureDef) -> tuple[Term, ...]:
    terms = [
        Term(tr("Unit"), unit_of(view.style, definition.unit)),
        Term(tr("Kind"), _kind(definition.how)),
    ]
    if isinstance(definition.how, Formula):
        source = definition.how.source
        terms.append(Term(tr("Source"), tr(source), source_href(source)))
    return tuple(terms)


def _formula_part(style: Style, definition: FigureDef) -> Part | None:
    if isinstance(definition.how, Given):
        return None
    words = Markup("<p><code>{} = {}</code></p>").format(
        label_of(style, definition), made_of(style, definition)
    )
    more = details(definition.how.doc, style) if isinstance(definition.how, Formula) else None
    return part("formula", tr("How it comes about"), Prose(words), more)


def _needs(style: Style, graph: MethodGraph, node: Node) -> Iterator[Section | None]:
    if needs := graph.needs(node):
        yield _figure_list(style, graph, needs)
    if functions := graph.functions(node):
        said = (
            (title_of(style, f), f"~/{function_path(f)}", summary(f.doc, style)) for f in functions
        )
        yield LinkList(tuple(Link(*each) for each in said))


def _figure_list(style: Style, graph: MethodGraph, nodes: Iterable[Node]) -> LinkList | None:
    links = tuple(_figure_link(style, graph, node) for node in nodes)
    return LinkList(links) if links else None


def _figure_link(style: Style, graph: MethodGraph, node: Node) -> Link:
    definition = graph.definition(node)
    label, about = label_of(style, definition), about_of(style, definition)
    return Link(label, f"~/{method_path(node)}", about, named(node[0]))


# The example


def _example(view: View, graph: MethodGraph, node: Node, titles: Mapping[str, str]) -> Part | None:
    row = _example_row(view, node)
    if row is None:
        return None
    who = view.costed.figures.identity(node[0], row)
    owner = titles.get(f"{who.owner}.html", "")
    if not owner:
        return None
    title = f"{owner}, {who.label}" if who.label else owner
    figures = view.costed.figures
    # By its name in the formula, which tells the two sides of a swap apart, at its own row.
    keys = [(made, figures.source(*made)) for made in figures.made_from(node, row)]
    columns: tuple[Column, ...] = (
        Column("figure", tr("Figure")),
        Column("value", tr("Value"), True),
        Column("at", tr("Written at")),
    )
    rows: tuple[Row, ...] = (
        *(_example_cells(view, graph, made, key) for made, key in keys[:_MOST_SHOWN]),
        replace(_example_cells(view, graph, (node, row), (node, row)), kind="total"),
    )
    if not any(row.cells[2].text for row in rows):
        columns, rows = columns[:2], tuple(replace(row, cells=row.cells[:2]) for row in rows)
    return part(
        "example",
        tr("An example from this kitchen"),
        Table("example-figures", title, columns, rows, about=_about_values(len(keys))),
        _as_written(view, node, row),
    )


def _about_values(count: int) -> str:
    """What a reader who works the example out again has to know."""
    if not count:
        return ""
    left = count - _MOST_SHOWN
    more = [tr("{left} more go into it in the same way.", left=left)] if left > 0 else []
    rounded = tr(
        "Values are written as pages print them, no finer than they are known; the last comes "
        "from unrounded ones."
    )
    return " ".join([*more, rounded])


def _example_row(view: View, node: Node) -> int | None:
    """Of the first rows with a value one that somebody wrote, else the first."""
    known = np.flatnonzero(np.isfinite(view.costed.figures.column(*node)[:, 0])).tolist()
    given = isinstance(view.definition(*node).how, Given)
    written = (row for row in known[:_SEARCHED] if given and _place(view, node, row))
    return next(written, known[0] if known else None)


def _place(view: View, node: Node, row: int) -> Place | None:
    if not isinstance(view.definition(*node).how, Given) or not view.where.lists:
        return None
    place = view.costed.figures.origin(node, row).place
    return place if place and place.line else None


def _example_cells(
    view: View, graph: MethodGraph, named: tuple[Node, int], key: tuple[Node, int]
) -> Row:
    """A figure by its name in the formula, with the value that it is looked up at."""
    node, row = key
    words, href = view.origin(node, row)
    label = _example_label(view, (node[0], row), view.definition(*named[0]))
    value = view.cell(*node, row)
    if isinstance(view.definition(*node).how, Lookup):
        # A lookup without a link: its value is a stand-in and has no trace of its own.
        value = Cell(value.text, value.sort)
    cells = (Cell(label, href=f"~/{method_path(graph.home(node))}"), value, Cell(words, href=href))
    return Row(cells)


def _example_label(view: View, key: RowKey, definition: FigureDef) -> str:
    who = view.costed.figures.identity(*key)
    label = label_of(view.style, definition)
    return labelled(who.label, label) if who.label else label


def _as_written(view: View, node: Node, row: int) -> Prose | None:
    """The line of the file that holds the value."""
    place = _place(view, node, row)
    if place is None:
        return None
    lines = view.costed.content.files[place.file].data.decode("utf-8-sig").splitlines()
    return Prose(
        Markup(tr('<p>On line {} of <a href="{}">{}</a>:</p><pre><code>{}</code></pre>')).format(
            place.line,
            view.where.line_href(place.file, place.line),
            place.file,
            lines[place.line - 1].strip(),
        )
    )


# One function


def _function_page(style: Style, graph: MethodGraph, method: Method) -> Page:
    users = [node for node in graph.nodes if method in graph.functions(node)]
    prose = details(method.doc, style)
    return Page(
        path=function_path(method),
        title=capital(title_of(style, method)),
        lead=summary(method.doc, style),
        kind=tr("Method · sourced function"),
        crumbs=_CRUMBS,
        nav=NAV,
        aside=(
            *([Term(tr("Unit"), tr(method.unit_words))] if method.unit else []),
            Term(tr("Source"), tr(method.source), source_href(method.source)),
        ),
        sections=present(
            part("details", tr("How it is computed"), prose) if prose else None,
            _worked_part(style, method),
            part("used", tr("Figures that use it"), _figure_list(style, graph, users)),
        ),
    )


def _worked_part(style: Style, method: Method) -> Part | None:
    lines = [in_sentence(style, method, worked) for worked in worked_examples(method)]
    items = Markup("").join(Markup("<li>{}</li>").format(line) for line in lines)
    prose = Prose(Markup("<ul>{}</ul>").format(items)) if lines else None
    return part("worked", tr("Worked examples"), prose)
