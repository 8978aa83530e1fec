"""The graph of names: what needs what, and the order to compute it in.

Built once at import. A missing name or a circle is an error there and then, so
that a typo in a formula can never wait for a kitchen to find it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from graphlib import CycleError, TopologicalSorter

from builder.engine.tables import Applied, FigureDef, Formula, Given, Lookup, Running, Table, Total

Node = tuple[str, str]
"""A figure's full name: (table, figure)."""


@dataclass(frozen=True, slots=True)
class Stage:
    """Figures to compute together; several only where a recursive lookup closes a circle."""

    nodes: tuple[Node, ...]

    @property
    def repeats(self) -> bool:
        """Whether the stage must be run until its values stand still."""
        return len(self.nodes) > 1


@dataclass(frozen=True, slots=True)
class Way:
    """Where lookups lead from a figure: over each lookup with its link, to the end."""

    hops: tuple[tuple[Node, str], ...]
    end: Node


class Model:
    """All tables with their figures, checked and put in order."""

    def __init__(self, tables: Iterable[Table]) -> None:
        self.tables: Mapping[str, Table] = {table.name: table for table in tables}
        self.needs: Mapping[Node, tuple[Node, ...]] = {
            node: tuple(self._needs(definition)) for node, definition in self._definitions()
        }
        self.stages: tuple[Stage, ...] = tuple(self._stages())
        self.ways: Mapping[Node, Way] = {node: self._way(node) for node in self.needs}

    def definition(self, node: Node) -> FigureDef:
        """Return a figure's definition; KeyError names a figure that does not exist."""
        return self.tables[node[0]].figures[node[1]]

    def downstream(self, nodes: Iterable[Node]) -> frozenset[Node]:
        """All figures that change, directly or not, when the given ones do (these excluded).

        What a method gave does not change: only the builder has the method.
        """
        return self._closure(nodes, self._users) - frozenset(nodes)

    def moves(self, node: Node) -> bool:
        """Whether anything but the same value looked up changes when an input moves."""
        found = self.downstream([node])
        return not all(isinstance(self.definition(user).how, Lookup) for user in found)

    def upstream(self, nodes: Iterable[Node]) -> frozenset[Node]:
        """All figures that the given ones are computed from (these excluded)."""
        return self._closure(nodes, self.needs) - frozenset(nodes)

    def _way(self, node: Node) -> Way:
        hops: dict[Node, str] = {}
        while isinstance(how := self.definition(node).how, Lookup):
            if node in hops:
                raise ValueError(f"lookups lead in a circle: {'.'.join(node)}")
            hops[node] = how.link
            node = (how.table, how.figure)
        return Way(tuple(hops.items()), node)

    @cached_property
    def _users(self) -> Mapping[Node, tuple[Node, ...]]:
        users: dict[Node, list[Node]] = {node: [] for node in self.needs}
        for node, needs in self.needs.items():
            applied = isinstance(self.definition(node).how, Applied)
            for need in () if applied else needs:
                users[need].append(node)
        return {node: tuple(found) for node, found in users.items()}

    def _definitions(self) -> Iterator[tuple[Node, FigureDef]]:
        for table in self.tables.values():
            for definition in table.figures.values():
                yield (table.name, definition.name), definition

    def _needs(self, definition: FigureDef) -> Iterator[Node]:
        for node in self._named(definition):
            if node[0] not in self.tables or node[1] not in self.tables[node[0]].figures:
                raise ValueError(
                    f"{definition.table}.{definition.name} needs {node[0]}.{node[1]}, "
                    "which is declared nowhere"
                )
            yield node
        for verb, name in (
            ("is limited by", definition.limit),
            ("is as sure as", definition.as_sure_as),
        ):
            if name and name not in self.tables[definition.table].figures:
                raise ValueError(
                    f"{definition.table}.{definition.name} {verb} {name}, which is declared nowhere"
                )

    @staticmethod
    def _named(definition: FigureDef) -> list[Node]:
        match definition.how:
            case Given():
                return []
            case Formula(needs=needs) | Applied(needs=needs):
                return [(definition.table, need) for need in needs]
            case Lookup(table=table, figure=figure) | Total(table=table, figure=figure):
                return [(table, figure)]
            case Running(figure=figure):
                return [(definition.table, figure)]

    @staticmethod
    def _closure(start: Iterable[Node], edges: Mapping[Node, tuple[Node, ...]]) -> frozenset[Node]:
        found: set[Node] = set()
        waiting = list(start)
        while waiting:
            node = waiting.pop()
            if node not in found:
                found.add(node)
                waiting.extend(edges[node])
        return frozenset(found)

    def _circles(self) -> Iterator[frozenset[Node]]:
        """Groups of figures that a recursive lookup ties into a circle, merged where they meet."""
        groups: list[frozenset[Node]] = []
        for node, definition in self._definitions():
            if isinstance(definition.how, Lookup) and definition.how.recursive:
                group = self.downstream([node]) & self.upstream([node]) | {node}
                groups.append(group)
        while groups:
            group = groups.pop()
            touching = [other for other in groups if other & group]
            groups = [other for other in groups if not other & group]
            if touching:
                groups.append(group.union(*touching))
            else:
                yield group

    def _stages(self) -> Iterator[Stage]:
        leader = {node: node for node in self.needs}
        members: dict[Node, frozenset[Node]] = {}
        for circle in self._circles():
            head = min(circle)
            members[head] = circle
            leader.update(dict.fromkeys(circle, head))
        between: dict[Node, set[Node]] = {head: set() for head in leader.values()}
        for node, needs in self.needs.items():
            between[leader[node]] |= {leader[need] for need in needs} - {leader[node]}
        for head in _in_order(between):
            yield Stage(self._inner_order(members[head]) if head in members else (head,))

    def _inner_order(self, circle: frozenset[Node]) -> tuple[Node, ...]:
        inner: dict[Node, set[Node]] = {}
        for node in sorted(circle):
            how = self.definition(node).how
            cut = isinstance(how, Lookup) and how.recursive
            inner[node] = set() if cut else {need for need in self.needs[node] if need in circle}
        return tuple(_in_order(inner))


def _in_order(graph: Mapping[Node, set[Node]]) -> list[Node]:
    try:
        return list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        circle = " -> ".join(".".join(node) for node in error.args[1])
        raise ValueError(f"formulas need each other in a circle: {circle}") from None
