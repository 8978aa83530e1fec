"""YAML to trees of positioned text, in one pass over the parser's events.

Events rather than composed nodes, because measured on a small cook file they cost half
as much (0.04 ms against 0.09 ms, both in C; growing this tree costs another 0.09 ms):
composing also guesses a type for each scalar and builds a second tree. Events arrive as
they are read, so a bomb or a deep nest is left at the cap instead of after it is built.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum
from itertools import islice
from typing import Final

import yaml
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from builder.language import Deferred, tr
from builder.problems import Place, Problem
from builder.reading.limits import LIMITS, Limits
from builder.reading.source import Source, first_unseen, short, too_deep, unseen
from builder.reading.tree import Blank, Branch, Node, Row, Text
from builder.reading.yaml_words import (
    STARTS_WITH_AND,
    goes_on_a_number,
    refuse_syntax,
    space_after_colon,
    without_value,
)

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
# Each word is scanned once: a pattern that spans spaces takes quadratic time on a long text.
_WORD_COLON = re.compile(r"(?:^|(?<=\s))[A-Za-z][\w-]*:(?!//)\S")
_QUOTE_IT = Deferred("if it is text, put it in quotes")


def parse_yaml(
    file: str, data: bytes, limits: Limits = LIMITS
) -> tuple[Node | None, list[Problem]]:
    """Read one YAML document as a tree of text, with every problem at its place.

    `file` is the relative name that places carry. The tree is None when the file
    cannot be followed to its end; a duplicate key, a tag or a merge key is
    reported, left out, and the rest still read. Never raises for any bytes.

    >>> tree, problems = parse_yaml("kitchen.yaml", b"opens: 12:30\\ntax: no\\n")
    >>> tree, problems
    ({'opens': '12:30', 'tax': 'no'}, [])
    >>> _, problems = parse_yaml("kitchen.yaml", b"tax: 5 %\\ntax: 6 %\\n")
    >>> print(problems[0].place, problems[0].message)
    kitchen.yaml:2:1 "tax" is given twice: first at kitchen.yaml:1:1
    """
    source = Source(file, limits)
    if not source.decode(data, limits.yaml_bytes):
        return None, source.problems
    reading = _Reading(source)
    try:
        reading.run(_Loader(source.text).get_event)
    except yaml.MarkedYAMLError as error:
        refuse_syntax(source, error)
    except _LeftOff:
        pass
    except (yaml.YAMLError, ValueError) as error:
        source.refuse(0, 0, tr("this file cannot be read as YAML: {error}", error=error))
    else:
        return reading.result(), source.problems
    return None, source.problems


class _LeftOff(Exception):  # noqa: N818 - not an error: its problem is already recorded
    """Going on would be unbounded or pointless."""


class _Key(Enum):
    """What a mapping holds in place of a usable key."""

    AWAITED = 1
    LEFT_OUT = 2


# As constants, because a look-up on an Enum costs as much as the rest of `put`.
_AWAITED: Final = _Key.AWAITED
_LEFT_OUT: Final = _Key.LEFT_OUT


@dataclass(slots=True)
class _Frame:
    """An open mapping or list: its pending key, and what its anchor will need."""

    node: Branch | Row
    before: int
    anchor: str | None
    height: int = 0
    key: Text | _Key = _AWAITED


@dataclass(slots=True)
class _Anchored:
    node: Node
    size: int
    height: int


class _Reading:
    """The tree so far, the stack of open collections, and the count of nodes."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.file = source.file
        self.root: Node | None = None
        self.stack: list[_Frame] = []
        self.anchors: dict[str, _Anchored | None] = {}
        self.count = 0
        self.documents = 0

    def run(self, get_event: Callable[[], Event]) -> None:
        """Take events until the stream ends."""
        while (kind := type(event := get_event())) is not StreamEndEvent:
            if handler := _HANDLERS.get(kind):
                handler(self, event)

    def result(self) -> Node | None:
        """The finished tree; nothing written or a lone value is a problem."""
        if self.root is None or isinstance(self.root, Blank):
            hint = tr("write its keys in it, or delete it")
            self.source.refuse(0, 0, tr("nothing is written in this file"), hint)
            return None
        if isinstance(self.root, Text):
            place, hint = self.root.place, tr('write "key: value" lines')
            if _WORD_COLON.search(self.root):
                hint = space_after_colon(self.root)
            self.source.refuse_showing(
                place.line, place.column, tr("this file holds a single value, no keys"), hint
            )
            return None
        return self.root

    def refuse(self, event: Event, message: str, hint: str = "") -> None:
        """Add a problem where the event begins."""
        self.source.refuse(*_spot(event), message, hint)

    def leave_off(self, event: Event, message: str, hint: str = "") -> None:
        """Add a problem and stop reading."""
        self.refuse(event, message, hint)
        raise _LeftOff

    def document(self, event: DocumentStartEvent) -> None:
        """Allow one document and no directives."""
        self.documents += 1
        if self.documents > 1:
            self.leave_off(
                event, tr('a second document begins here ("---")'), tr("one record a file")
            )
        if event.version or event.tags:
            self.refuse(event, tr("a % line before the content is not used here"), tr("delete it"))

    def scalar(self, event: ScalarEvent) -> None:
        """Keep a scalar exactly as written; nine in ten take none of the branches."""
        value, style, mark = event.value, event.style, event.start_mark
        assert mark is not None
        kind = Text if value or style else Blank
        text = kind(value, self.file, mark.line + 1, mark.column + 1)
        self.grow(event, 1 + (len(value) >> 6))
        if style == '"' and (character := first_unseen(value)):
            self.refuse(
                event,
                tr("this text holds {unseen}", unseen=unseen(character)),
                tr("take out its escape"),
            )
        if event.tag is not None:
            self.refuse_tag(event, event.tag)
        if event.anchor is not None:
            if not text:
                self.refuse(event, STARTS_WITH_AND, tr(_QUOTE_IT))
            self.name(event, event.anchor, _Anchored(text, 1 + (len(value) >> 6), 0))
        if ":" in value and not style:
            self.check_unquoted(event)
        self.put(text, event)

    def check_unquoted(self, event: ScalarEvent) -> None:
        """Refuse `price:13` in a list, or swallowed by the line above."""
        in_list = bool(self.stack) and isinstance(self.stack[-1].node, Row)
        folded = event.end_mark is not None and event.end_mark.line >= _spot(event)[0]
        if self.stack and (in_list or folded) and _WORD_COLON.search(event.value):
            hint = space_after_colon(event.value)
            self.refuse(event, tr('"{short}" reads as one text', short=short(event.value)), hint)

    def mapping(self, event: MappingStartEvent) -> None:
        """Open a mapping."""
        self.begin(event, Branch(self.place(event)))

    def sequence(self, event: SequenceStartEvent) -> None:
        """Open a list."""
        self.begin(event, Row(self.place(event)))

    def place(self, event: Event) -> Place:
        """Where the event begins."""
        return Place(self.file, *_spot(event))

    def begin(self, event: MappingStartEvent | SequenceStartEvent, node: Branch | Row) -> None:
        """Push an open collection."""
        if event.tag is not None:
            self.refuse_tag(event, event.tag)
        if event.anchor is not None:
            self.name(event, event.anchor, None)
        self.check_depth(event, 1)
        self.put(node, event)
        self.stack.append(_Frame(node, self.count, event.anchor))
        self.grow(event, 1)

    def end(self, _: Event) -> None:
        """Close the innermost collection."""
        frame = self.stack.pop()
        height = frame.height + 1
        if self.stack:
            self.stack[-1].height = max(self.stack[-1].height, height)
        if frame.anchor is not None:
            size = self.count - frame.before
            self.anchors[frame.anchor] = _Anchored(frame.node, size, height)

    def name(self, event: Event, anchor: str, anchored: _Anchored | None) -> None:
        """Remember an anchor; None until its collection ends."""
        if anchor in self.anchors:
            self.leave_off(
                event, tr('"&{short}" is given twice', short=short(anchor)), tr(_QUOTE_IT)
            )
        self.anchors[anchor] = anchored

    def alias(self, event: AliasEvent) -> None:
        """Put the anchored node here again, counted as if it were written out."""
        name = event.anchor or ""
        if name not in self.anchors:
            self.leave_off(
                event, tr('"*{short}" repeats a name not above', short=short(name)), tr(_QUOTE_IT)
            )
        anchored = self.anchors[name]
        if anchored is None:
            self.leave_off(event, tr('"*{short}" repeats itself without end', short=short(name)))
            return
        self.grow(event, anchored.size)
        self.check_depth(event, anchored.height)
        if self.stack:
            self.stack[-1].height = max(self.stack[-1].height, anchored.height)
        self.put(anchored.node, event)

    def check_depth(self, event: Event, height: int) -> None:
        """Stop at the cap of nesting."""
        most = self.source.limits.depth
        if len(self.stack) + height > most:
            self.leave_off(event, too_deep(most))

    def grow(self, event: Event, size: int) -> None:
        """Count nodes and stop at the cap."""
        self.count += size
        if self.count > self.source.limits.nodes:
            most = self.source.limits.nodes
            self.leave_off(
                event, tr("more than {most:,} values, with repeats written out", most=most)
            )

    def refuse_tag(self, event: Event, tag: str) -> None:
        """Tags would choose a type or a Python object; the record does that here."""
        tag = tag.replace("tag:yaml.org,2002:", "!!")
        self.refuse(
            event,
            tr('the tag "{short}" is not used here', short=short(tag)),
            tr("delete it; {quote_it}", quote_it=_QUOTE_IT),
        )

    def put(self, node: Node, event: Event) -> None:
        """Add a node to the innermost open collection, as item, key or value."""
        if not self.stack:
            self.root = node
            return
        frame = self.stack[-1]
        branch, key = frame.node, frame.key
        if isinstance(branch, Row):
            branch.append(node)
        elif key is _AWAITED:
            frame.key = self.usable_key(branch, node, event)
        else:
            frame.key = _AWAITED
            if key is not _LEFT_OUT:
                branch[key] = node
                if type(node) is Blank:
                    self.check_blank(branch, key)

    def check_blank(self, branch: Branch, key: Text) -> None:
        """Refuse a key that has no value because of a slip beside it."""
        before = next(islice(reversed(branch.values()), 1, 2), None)
        above = before if isinstance(before, Text) else None
        if found := without_value(self.source, key, above):
            place, message, hint = found
            self.source.refuse(place.line, place.column, message, hint)

    def usable_key(self, branch: Branch, node: Node, event: Event) -> Text | _Key:
        """The key if it is new, plain text; otherwise a problem, and its value is left out."""
        if not isinstance(node, Text) or isinstance(event, AliasEvent):
            self.refuse(event, tr("a key must be plain text"), tr('write "key: value"'))
        elif isinstance(node, Blank):
            self.refuse(event, tr("a key is missing before this colon"))
        elif node == "<<" and isinstance(event, ScalarEvent) and not event.style:
            self.refuse(event, tr('the merge key "<<" is not used here'), tr("write the keys out"))
        elif node in branch and goes_on_a_number(self.source, node):
            pass  # told at its first group
        elif node in branch:
            first = branch.key(node).place
            self.refuse(
                event,
                tr('"{short}" is given twice: first at {first}', short=short(node), first=first),
                tr("delete one of the two"),
            )
        elif node[:1].isspace() or node[-1:].isspace():
            self.refuse(
                event, tr("this key begins or ends with a space"), tr("use plain spaces to indent")
            )
        else:
            return node
        return _LEFT_OUT


def _spot(event: Event) -> tuple[int, int]:
    """Line and column, from 1, where the event begins; the parser marks every event."""
    mark = event.start_mark
    assert mark is not None
    return mark.line + 1, mark.column + 1


# Beside the class, not bound in each reading: a reading that held its own methods would be a
# circle, and its tree would stay in memory until the collector comes by.
_HANDLERS: Mapping[type[Event], Callable[..., None]] = {
    ScalarEvent: _Reading.scalar,
    MappingStartEvent: _Reading.mapping,
    SequenceStartEvent: _Reading.sequence,
    MappingEndEvent: _Reading.end,
    SequenceEndEvent: _Reading.end,
    AliasEvent: _Reading.alias,
    DocumentStartEvent: _Reading.document,
}
