"""Which figures have a method page, and which of them are made from which."""

from __future__ import annotations

from collections.abc import Container, Mapping
from functools import cached_property

from builder.costing import actions as _actions  # noqa: F401 - declares sourced functions
from builder.costing import moves as _moves  # noqa: F401 - likewise
from builder.engine.methods import METHODS, Method
from builder.engine.model import Model, Node
from builder.engine.tables import Applied, FigureDef, Formula, Lookup
from builder.tasting import needed as _needed  # noqa: F401 - likewise
from builder.tasting import shortlist as _shortlist  # noqa: F401 - likewise


class MethodGraph:
    """The definitions of a model with lookups followed to where a figure is made.

    Without those that are `hidden` from a reader.
    """

    def __init__(self, model: Model, hidden: Container[Node] = ()) -> None:
        self.model = model
        self._hidden = hidden
        self.nodes: tuple[Node, ...] = tuple(
            (table.name, figure.name)
            for table in model.tables.values()
            for figure in table.figures.values()
            if not isinstance(figure.how, Lookup) and (table.name, figure.name) not in hidden
        )

    def definition(self, node: Node) -> FigureDef:
        """A figure's definition."""
        return self.model.definition(node)

    def home(self, node: Node) -> Node:
        """The figure that a lookup leads to; any other is itself."""
        while isinstance(how := self.definition(node).how, Lookup):
            node = (how.table, how.figure)
        return node

    def needs(self, node: Node) -> tuple[Node, ...]:
        """What a figure is made from, each once."""
        needs = dict.fromkeys(self.home(need) for need in self.model.needs[node])
        return tuple(need for need in needs if need not in self._hidden)

    @cached_property
    def users(self) -> Mapping[Node, tuple[Node, ...]]:
        """The figures that are made from each one."""
        found: dict[Node, list[Node]] = {node: [] for node in self.nodes}
        for node in self.nodes:
            for need in self.needs(node):
                found[need].append(node)
        return {node: tuple(users) for node, users in found.items()}

    def functions(self, node: Node) -> list[Method]:
        """The sourced functions that a formula's body calls, or that gave the value."""
        how = self.definition(node).how
        if isinstance(how, Applied):
            return [METHODS[name] for name in how.methods]
        names = how.body.__code__.co_names if isinstance(how, Formula) else ()
        return [METHODS[name] for name in names if name in METHODS]


def function_path(method: Method) -> str:
    """The page of a sourced function."""
    return f"methods/{method.name.replace('_', '-')}.html"
