"""Which rule set a kitchen is held against: the tool's own, or a file of the kitchen."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, TypeVar, cast

from builder.cooking.rule_fields import Fault, Path, RuleSetError
from builder.cooking.rule_library import rule_sets
from builder.cooking.rule_parsing import parse_rule_set
from builder.cooking.rules import RuleSet
from builder.costing.wording import style_of
from builder.display.marks import in_style
from builder.display.style import Style
from builder.language import tr, written
from builder.problems import Place, Problem, did_you_mean
from builder.reading.tree import Branch, Node, Row, Text
from builder.records.content import Content

# How somebody writes that there is none.
_NOTHING = frozenset({"none", "no", "nothing", "null", "n-a"})


@dataclass(frozen=True, slots=True)
class Authority:
    """The rule set that counts, if one is named, and all that could be named."""

    rule_set: RuleSet | None
    known: Mapping[str, RuleSet]


def authority_of(content: Content) -> Authority:
    """Find the kitchen's rule set; a rule file that cannot be read is left out."""
    known, _ = _known(content)
    named = content.kitchen.authority
    found = known.get(str(named)) if named else None
    return Authority(in_marks(found, style_of(content.kitchen)) if found else None, known)


_PRINTS = ("printed", "printed_hold")
_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}(?!\d))")
T = TypeVar("T")


def in_marks(item: T, style: Style) -> T:
    """A rule set, or a part of one, with its printed limits in the style's decimal mark.

    A page says them beside its own figures, so they are no quotes; clauses and editions stay.
    """
    marked: T = _marked(item, style)
    return marked


def _marked(item: Any, style: Style) -> Any:
    if isinstance(item, tuple):
        return tuple(_marked(each, style) for each in item)
    if not is_dataclass(item) or isinstance(item, type):
        return item
    values = ((field.name, getattr(item, field.name)) for field in fields(item))
    return replace(
        item,
        **{
            name: _print_in(value, style) if name in _PRINTS else _marked(value, style)
            for name, value in values
        },
    )


def _print_in(printed: Any, style: Style) -> Any:
    """One print or several; a text that its language writes so already stays to be translated.

    The language may write another mark than the locale: French words in Canada's English one.
    """
    if isinstance(printed, tuple):
        return tuple(_print_in(each, style) for each in printed)
    said = written(printed)
    found = in_style(_COMMA.sub(".", said), style)
    return printed if found == said else found


def check_rules(content: Content) -> Iterator[Problem]:
    """Problems of the kitchen's own rule files, and of the name of its authority."""
    known, problems = _known(content)
    yield from problems
    named = content.kitchen.authority
    if named is None or named in known or content.has_file("rules", str(named)):
        return
    if named.casefold() in _NOTHING:
        hint = tr("leave authority out, and no rule set is applied")
    else:
        hint = did_you_mean(named, known) or tr("known: {known}", known=", ".join(known))
    yield Problem(named.place, tr('there is no rule set "{named}"', named=named), hint)


def _known(content: Content) -> tuple[dict[str, RuleSet], list[Problem]]:
    known, problems = dict(rule_sets()), []
    for rule_id, tree in content.rules.items():
        if rule_id in known:
            hint = tr("give the file another name")
            problems.append(
                Problem(tree.place, tr('"{rule_id}" comes with the tool', rule_id=rule_id), hint)
            )
            continue
        found, errors = _parsed(tree, rule_id)
        problems += errors
        if found is not None:
            known[rule_id] = found
    return known, problems


def _parsed(tree: Branch, rule_id: str) -> tuple[RuleSet | None, list[Problem]]:
    """A rule set, or everything that is wrong with it: what is refused is left out, in turn."""
    problems: list[Problem] = []
    left_out: list[Path] = []
    left = deepcopy(tree)
    while True:
        try:
            found = parse_rule_set(cast("Mapping[str, object]", left), rule_id)
        except RuleSetError as error:
            if not _follows(error, left_out):
                at_key = error.fault is Fault.UNKNOWN_KEY
                place = _place(left, error.path, at_key=at_key)
                problems.append(
                    Problem(
                        place, error.message, tr("in {in_words}", in_words=_in_words(error.path))
                    )
                )
            if error.fault is Fault.MISSING and len(error.path) == 1:
                # At the top only texts must be there, and any will do to go on.
                left[Text(str(error.path[0]))] = Text("-")
            elif not _leave_out(left, error.path):
                return None, problems
            left_out.append(error.path)
        else:
            return (None if problems else found), problems


def _follows(error: RuleSetError, left_out: list[Path]) -> bool:
    """Whether what is missing or empty may be so because of what was left out."""
    at = error.path
    if error.fault is Fault.MISSING and any(path[:-1] == at[:-1] for path in left_out):
        return True
    return any(path[: len(at)] == at and len(path) > len(at) for path in left_out)


def _leave_out(tree: Branch, path: Path) -> bool:
    """Take out what is at a path; where nothing does, what should hold it."""
    *above, last = path or ("",)
    node: Node = tree
    for step in above:
        match node, step:
            case Branch(), str() if step in node:
                node = node[step]
            case Row(), int() if step < len(node):
                node = node[step]
            case _:
                break
    match node, last:
        case Branch(), str() if last in node:
            del node[node.key(last)]
        case Row(), int() if last < len(node):
            del node[last]
        case _:
            return bool(above) and _leave_out(tree, tuple(above))
    return True


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


def _in_words(path: tuple[str | int, ...]) -> str:
    """A key path in words.

    >>> _in_words(("holds", 0, "rows", 2))
    'holds, entry 1, rows, entry 3'
    """
    steps = (tr("entry {step}", step=step + 1) if isinstance(step, int) else step for step in path)
    return ", ".join(steps) or tr("the file")
