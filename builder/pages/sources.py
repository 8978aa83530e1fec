"""The sources: every publication and rule that a figure rests on, and how far it was read."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterator, Mapping

from builder.data import cooking_yields
from builder.data.muscles import muscles
from builder.display.style import Style
from builder.engine.methods import METHODS
from builder.engine.tables import Formula
from builder.language import clauses, tr
from builder.pages.components import Cell, Column, Link, LinkList, Page, Part, Row, Table
from builder.pages.method_graph import MethodGraph, function_path
from builder.pages.muscles_page import PATH as MUSCLES_PATH
from builder.pages.muscles_page import TITLE as MUSCLES
from builder.pages.values import in_mass_unit
from builder.pages.whereabouts import method_path
from builder.quantities import UNITS
from builder.reading.names import slug

PATH = "sources.html"
_STATUS = re.compile(r"\[([^\]]*)\]")
_SPACED = re.compile(r"\s+([;,.:)])")


def source_href(source: str) -> str:
    """The way to a source's place in the list."""
    return f"~/{PATH}#{_anchor(source)}"


def status_of(source: str) -> str:
    """How far a source can be trusted, as it says itself.

    >>> status_of("Cochran, Sampling Techniques, 1977 [from memory]")
    'from memory'
    >>> status_of("common practice, no published source"), status_of("conservation of mass")
    ('no published source', '–')
    """
    if found := _STATUS.findall(tr(source)):
        return clauses(dict.fromkeys(found))
    if "no published source" in source:
        return tr("no published source")
    return tr("our own") if source.startswith("our ") else "–"


def sources_page(graph: MethodGraph, style: Style) -> Page:
    """Every source with its status and with what cites it."""
    cited = _cited(graph, style)
    columns = (
        Column("source", tr("Source")),
        Column(
            "status",
            tr("Status"),
            about=tr("how it was come by, or whose rule it is, where that is noted"),
        ),
        Column("cited", tr("Cited by"), numeric=True),
    )
    rows = tuple(
        Row(
            (
                Cell(_name(tr(s)), href=f"#{_anchor(s)}"),
                Cell(status_of(s)),
                Cell(str(len(by)), len(by)),
            )
        )
        for s, by in cited.items()
    )
    parts = tuple(
        Part(_anchor(source), title, (LinkList(tuple(by)),), about=status_of(source))
        for (source, by), title in zip(cited.items(), _titles(cited), strict=True)
    )
    return Page(
        path=PATH,
        title=tr("Sources"),
        lead=tr("The figures rest on {cited} sources and rules.", cited=len(cited)),
        also=(
            tr(
                "A source says whether it was read, is quoted from memory, or is common "
                "practice without a published source."
            ),
        ),
        kind=tr("Methods"),
        crumbs=(Link(tr("Methods"), "~/methods.html"),),
        nav="~/methods.html",
        sections=(
            Table(
                "sources", tr("Sources and rules"), columns, rows, sortable=True, filterable=True
            ),
            Part("citing", tr("What each source is cited by"), parts),
        ),
    )


def _titles(sources: Collection[str]) -> Iterator[str]:
    """Each source's name, in full where two differ in their status alone."""
    written = [tr(source) for source in sources]
    names = Counter(map(_name, written))
    for source in written:
        yield _name(source) if names[_name(source)] == 1 else source


def _cited(graph: MethodGraph, style: Style) -> Mapping[str, list[Link]]:
    found: dict[str, list[Link]] = {}
    for source, link in sorted(_citations(graph, style), key=lambda pair: pair[0].lower()):
        if link not in found.setdefault(source, []):
            found[source].append(link)
    return found


def _citations(graph: MethodGraph, style: Style) -> Iterator[tuple[str, Link]]:
    for node in graph.nodes:
        definition = graph.definition(node)
        if isinstance(definition.how, Formula):
            title = tr(graph.model.tables[node[0]].title)
            label = in_mass_unit(style, definition.label)
            yield definition.how.source, Link(label, f"~/{method_path(node)}", title)
    for method in METHODS.values():
        yield (
            method.source,
            Link(tr(method.title), f"~/{function_path(method)}", tr("Sourced function")),
        )
    for unit in UNITS:
        yield unit.source, Link(tr("Units and their factors"), "~/writing/units.html")
    for published in cooking_yields().values():
        yield (
            published.source,
            Link(tr("Published cooking yields"), "~/writing/published-yields.html"),
        )
    for muscle in muscles().values():
        for force in muscle.shear_forces:
            yield force.source, Link(tr(MUSCLES), f"~/{MUSCLES_PATH}")


def _name(source: str) -> str:
    return _SPACED.sub(r"\1", _STATUS.sub("", tr(source))).strip(" ;,")


def _anchor(source: str) -> str:
    return slug(source)
