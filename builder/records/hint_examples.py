"""Examples within hints."""

from __future__ import annotations

import re
from collections.abc import Sequence

from builder.language import Deferred, tr
from builder.reading.tree import Node, Row, Text

# What stands between a kind of value and its example.
_EXAMPLE = Deferred(", for example ")


def with_example(hint: str, example: str) -> str:
    """The hint of a reader with the example of the key in place of the one of its kind.

    >>> with_example("a whole number, for example 412", "60")
    'a whole number, for example 60'
    """
    kind, between, _ = hint.partition(tr(_EXAMPLE))
    return f"{kind}{between}{example}" if between and example else hint


_NAMED = re.compile(r"([A-Za-z][\w-]*) +([0-9][^{}\[\],:]*)")


def as_names(found: Sequence[Node]) -> str:
    """How names with values are written that stand in a list, or alone; empty where unclear.

    >>> from builder.reading.tree import Text
    >>> as_names([Text("potatoes 5 kg")]), as_names([Text("potatoes")])
    ('write {potatoes: 5 kg}', '')
    """
    node = found[0] if found else None
    entries = list(node) if isinstance(node, Row) else [node]
    named = [_NAMED.fullmatch(each) for each in entries if isinstance(each, Text)]
    pairs = [f"{each[1]}: {each[2]}" for each in named if each]
    if not pairs or len(pairs) != len(entries):
        return ""
    return tr("write {named}", named=f"{{{', '.join(pairs)}}}")
