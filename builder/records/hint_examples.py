"""Examples within hints."""

from __future__ import annotations

import re
from collections.abc import Sequence

from builder.language import Deferred, tr
from builder.quantities.refusals import one_amount
from builder.reading.tree import Node, Row, Text

LONGEST_QUOTED = 60
# What an example says in words: remarks, titles, notes; keys and choices of words are the same
# in every language.
IN_WORDS = re.compile("‹([^›]*)›")
# What stands between a kind of value and its example.
_EXAMPLE = Deferred(", for example ")


def example_in_words(text: str) -> str:
    """An example with what it says in words in the language in use.

    >>> example_in_words("tax: 5 %  # ‹on menu prices›")
    'tax: 5 %  # on menu prices'
    """
    return IN_WORDS.sub(lambda found: tr(found[1]), text)


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


# Two values of a short form without the brackets: after a comma, or a price behind an amount.
_BESIDE = re.compile(r"([0-9][^,/\[\]]*?)(?:, +|(?<=[A-Za-z%]) +)([0-9.]+/[A-Za-z]+)")
_AFTER_COMMA = re.compile(r"([0-9][^,\[\]]*), +([0-9][^,\[\]]*)")


def as_short_form(text: str) -> str:
    """How two values are written that stand on a line without brackets; empty where it is one.

    >>> as_short_form("16, 1 d"), as_short_form("2 lb 8 oz 0.30/lb"), as_short_form("9 %, 7.90/kg")
    ('write [16, 1 d]', 'write [2 lb 8 oz, 0.30/lb]', 'write [9 %, 7.90/kg]')
    >>> as_short_form("2 lb, 8 oz"), as_short_form("1,250"), as_short_form("1/2 lb")
    ('', '', '')
    """
    found = _BESIDE.fullmatch(text) or _AFTER_COMMA.fullmatch(text)
    if not found or one_amount(text):
        return ""
    return tr("write {values}", values=f"[{found[1]}, {found[2]}]")


def as_named_values(node: Node | None, example: str) -> str:
    """How a lone value is written that belongs to a name, by the example of its key.

    >>> from builder.reading.tree import Text
    >>> as_named_values(Text("4.20"), "{bags: 3.20}")
    'write each as name: value, such as {bags: 4.20}'
    >>> as_named_values(Text("ribs"), "{beef: 2}")
    'write each as name: value, such as {beef: 2}'
    """
    if named := as_names([] if node is None else [node]):
        return named
    if not example.startswith("{"):
        return tr("write each as name: value")
    lone = re.fullmatch(r"\{([^:{}\[\]]+): [0-9.]+\}", example)
    if lone and isinstance(node, Text) and re.fullmatch(r"[0-9.]+", node):
        example = f"{{{lone[1]}: {node}}}"
    return tr("write each as name: value, such as {example}", example=example)


# Two numbers of a list that a dash or the like parts.
_TWO_NUMBERS = re.compile(r"([0-9.]+)\s*[-–—/;+&]\s*([0-9.]+)")


def as_list(found: Sequence[Node]) -> str:
    """How what stands alone is written as a list.

    >>> from builder.reading.tree import Text
    >>> as_list([Text("milk")])
    'write [milk], or start each entry with a dash'
    >>> as_list([Text("50-100")])
    'write [50, 100], or start each entry with a dash'
    """
    if found and isinstance(found[0], Text) and 0 < len(found[0]) <= LONGEST_QUOTED:
        both = _TWO_NUMBERS.fullmatch(found[0])
        listed = f"{both[1]}, {both[2]}" if both else found[0]
        return tr("write [{found}], or start each entry with a dash", found=listed)
    return tr("start each entry with a dash")
