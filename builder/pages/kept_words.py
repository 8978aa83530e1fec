"""What an edition was granted and does not show all the same, and why, in a few lines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.display.words import listed
from builder.engine.model import Model, Node
from builder.engine.tables import Entered, Lookup
from builder.language import tr
from builder.pages.reader import (
    Kept,
    Reader,
    group_of,
    kept_back,
    own_group,
    reads_files,
    reads_warnings,
)
from builder.records.editions import FIGURES, GROUPS, NAMES, Edition, Group


def kept_words(model: Model, reader: Reader, edition: Edition) -> Iterator[str]:
    """A line for each kind of record, group of figures and part that is kept back."""
    for kind in sorted({str(kind) for kind in edition.records or ()} - reader.kinds):
        missing = [name for name in NAMES[kind] if name not in reader.kinds]
        why = tr("they name {missing}, which are not granted", missing=listed(missing))
        if any(name in (edition.records or ()) for name in missing):
            why = tr("they name {missing}, which are not shown", missing=listed(missing))
        if not missing and kind in FIGURES:
            why = tr("they say nothing without {figures}", figures=listed(FIGURES[kind]))
        yield tr("{kind} are not shown: {why}", kind=kind, why=why)
    yield from _groups(model, reader, edition)
    yield from _figures(model, reader)
    if "raw files" in reader.parts and not reads_files(reader):
        yield tr("raw files are not shown: a file may hold any figure, notes and steps")
    if "warnings" in reader.parts and not reads_warnings(reader):
        yield tr("of warnings those alone are shown whose sentence rests on what is granted")
    if "methods" in reader.parts and not reader.kinds.issuperset(("cuts", *NAMES["plates"])):
        yield tr(
            "methods are not shown: their examples are of cuts, cooks, pantry items and plates"
        )


def _groups(model: Model, reader: Reader, edition: Edition) -> Iterator[str]:
    """The groups that would give another away."""
    granted = frozenset(group for group in GROUPS if group in (edition.figures or ()))
    for group in sorted(granted & FIGURES.keys() - reader.groups):
        granted -= {group}
        yield tr(
            "{group} are not shown: they say nothing without {figures}",
            group=group,
            figures=listed(FIGURES[group]),
        )
    while granted - reader.groups:
        hidden = kept_back(model, granted)
        node, group = next(
            (node, group)
            for node, kept in hidden.items()
            if not kept.made_from and isinstance(model.definition(node).how, Entered)
            for group in (group_of(model.definition(node)),)
        )
        granted -= {group}
        label, other = _root(model, hidden, hidden[node])
        yield tr(
            "{group} are not shown: with what else is granted, {label} ({other}) would follow",
            group=group,
            label=label,
            other=other,
        )


def _figures(model: Model, reader: Reader) -> Iterator[str]:
    hidden = kept_back(model, reader.groups)
    found: dict[tuple[Group, Group], list[tuple[Node, str]]] = {}
    for node, kept in hidden.items():
        definition = model.definition(node)
        group = own_group(model, node) or group_of(definition)
        lookup = isinstance(definition.how, Lookup)
        if kept.figure is None or lookup or not reader.has_rows(node[0]):
            continue
        if group in reader.groups:
            label, other = _root(model, hidden, kept)
            found.setdefault((group, other), []).append((node, label))
    for (group, other), nodes in found.items():
        (table, figure), label = nodes[0]
        several = tr(" and {nodes} more", nodes=len(nodes) - 1) if len(nodes) > 1 else ""
        what = model.definition((table, figure)).label
        yield (
            tr(
                "{group}: {what} ({table}){several} not shown: made from {label} "
                "({other}), which would follow",
                group=group,
                what=what,
                table=table,
                several=several,
                label=label,
                other=other,
            )
        )


def _root(model: Model, hidden: Mapping[Node, Kept], kept: Kept) -> tuple[str, Group]:
    """Back to the figure whose group is not granted: its label and that group."""
    node: Node = ("", "")
    while kept.group is None and kept.figure is not None:
        node, kept = kept.figure, hidden[kept.figure]
    if kept.group is None:
        raise ValueError("a figure is kept back for no group")
    return model.definition(node).label, kept.group
