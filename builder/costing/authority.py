"""Which rule set a kitchen is held against: the tool's own, or a file of the kitchen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import cast

from builder.cooking.rule_fields import RuleSetError
from builder.cooking.rule_library import rule_sets
from builder.cooking.rule_parsing import parse_rule_set
from builder.cooking.rules import RuleSet
from builder.problems import Place, Problem, did_you_mean
from builder.reading.tree import Branch, Node, Row, Text
from builder.records.content import Content


@dataclass(frozen=True, slots=True)
class Authority:
    """The rule set that counts, if one is named, and all that could be named."""

    rule_set: RuleSet | None
    known: Mapping[str, RuleSet]


def authority_of(content: Content) -> Authority:
    """Find the kitchen's rule set; a rule file that cannot be read is left out."""
    known, _ = _known(content)
    named = content.kitchen.authority
    return Authority(known.get(str(named)) if named else None, known)


def check_rules(content: Content) -> Iterator[Problem]:
    """Problems of the kitchen's own rule files, and of the name of its authority."""
    known, problems = _known(content)
    yield from problems
    named = content.kitchen.authority
    if named is None or named in known or content.has_file("rules", str(named)):
        return
    hint = did_you_mean(named, known) or f"known: {', '.join(known)}"
    yield Problem(named.place, f'there is no rule set "{named}"', hint)


def _known(content: Content) -> tuple[dict[str, RuleSet], list[Problem]]:
    known, problems = dict(rule_sets()), []
    for rule_id, tree in content.rules.items():
        if rule_id in known:
            hint = "give the file another name"
            problems.append(Problem(tree.place, f'"{rule_id}" comes with the tool', hint))
            continue
        try:
            known[rule_id] = parse_rule_set(cast("Mapping[str, object]", tree), rule_id)
        except RuleSetError as error:
            at_key = error.message.startswith("unknown key")
            place = _place(tree, error.path, at_key=at_key)
            problems.append(Problem(place, error.message, f"in {_spoken(error.path)}"))
    return known, problems


def _place(tree: Branch, path: tuple[str | int, ...], *, at_key: bool) -> Place:
    """Where a key path leads, as far as the file has it: to the value, or to its key."""
    node: Node = tree
    place = tree.place
    for step in path:
        match node, step:
            case Branch(), str() if step in node:
                place, node = node.key(step).place, node[step]
            case Row(), int() if step < len(node):
                node = node[step]
                place = node.place
            case _:
                break
    return node.place if isinstance(node, Text) and not at_key else place


def _spoken(path: tuple[str | int, ...]) -> str:
    """A key path in words.

    >>> _spoken(("holds", 0, "rows", 2))
    'holds, entry 1, rows, entry 3'
    """
    steps = (f"entry {step + 1}" if isinstance(step, int) else step for step in path)
    return ", ".join(steps) or "the file"
