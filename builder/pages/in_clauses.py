"""Clauses with ways to figures in them, joined as the language joins them."""

from __future__ import annotations

from collections.abc import Iterable
from functools import reduce

from markupsafe import Markup

from builder.language import tr
from builder.pages.components import Text


def in_clauses(parts: Iterable[Text]) -> Markup:
    """Join clauses by the language's semicolon, those that are markup as they are.

    >>> in_clauses([Markup("<b>1</b>"), "", "a & b"]), in_clauses([])
    (Markup('<b>1</b>; a &amp; b'), Markup(''))
    """
    own = [Markup("{}").format(part) for part in parts if part] or [Markup()]
    return reduce(_with_clause, own)


def _with_clause(before: Markup, part: Markup) -> Markup:
    return Markup(tr("{before}; {part}", before="{}", part="{}")).format(before, part)
