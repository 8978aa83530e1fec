"""Where a path of keys leads in the tree of a file."""

from __future__ import annotations

from collections.abc import Iterable

from builder.problems import Place
from builder.reading.tree import Branch, Node, Row, Text


def tidy_key(key: str) -> str:
    """Fold the ways of writing a key into one.

    >>> tidy_key("Hands-On"), tidy_key("hands_on")
    ('hands on', 'hands on')
    """
    return " ".join(key.lower().replace("-", " ").replace("_", " ").split())


def walk(root: Node | None, loc: Iterable[int | str]) -> list[Node]:
    """The nodes along a path, as far as the tree has them; keys compare folded."""
    found: list[Node] = [] if root is None else [root]
    for step in loc:
        node = found[-1] if found else None
        match node, step:
            case Branch(), str():
                key = key_in(node, step)
                if key is None:
                    return found
                found.append(node[key])
            case Row(), int() if step < len(node):
                found.append(node[step])
            case _:
                return found
    return found


def key_in(node: Branch, step: str) -> Text | None:
    """The key that a step of a path leads to, as it is written; looked through only where it is
    spelt another way."""
    if step in node:
        return node.key(step)
    return next((key for key in node if tidy_key(key) == step), None)


def nearest_place(root: Node | None, loc: tuple[int | str, ...], file: str) -> Place:
    """Where the last node of a path that is there stands, else the file."""
    nodes = walk(root, loc)
    return nodes[-1].place if nodes else Place(file)


def key_place(root: Node | None, loc: tuple[int | str, ...], file: str) -> Place:
    """Where the key stands that a path ends with, however it is spelt."""
    nodes = walk(root, loc[:-1])
    if nodes and isinstance(nodes[-1], Branch):
        key = key_in(nodes[-1], str(loc[-1]))
        if key is not None:
            return key.place
    return nearest_place(root, loc, file)
