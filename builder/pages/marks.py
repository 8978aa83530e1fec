"""The kitchen's decimal mark and per cent in sentences that statistics wrote in one way.

The sentences of `tasting/` know no locale. On a page they stand beside figures of the kitchen's
style, so the marks are changed here, once, for a whole section: text only, never an address, a
listing of a file, or what the kitchen wrote itself.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from markupsafe import Markup

from builder.display.marks import in_style
from builder.display.style import Style
from builder.language import written
from builder.pages.components import Part, SourceListing

T = TypeVar("T")

_PERCENT = re.compile(r"(?<=\d)[ \u00a0\u202f]%")
_TAG = re.compile(r"(<[^>]*>)")
_ADDRESSES = {
    "id", "path", "href", "nav", "anchor", "kind", "place", "origin", "origin_href",
    "method_href", "trace_href", "length_mm", "sort",
}  # fmt: skip


def on_a_page(text: str, style: Style) -> str:
    """A sentence with the style's decimal mark and its way of writing per cent.

    >>> on_a_page("30 % can tell, 95 % interval", Style.of("en_US", "USD"))
    '30% can tell, 95% interval'
    """
    sign = style.percent(0.0, 0).lstrip("0")
    return in_style(_PERCENT.sub(sign, text), style)


def with_marks(item: T, style: Style) -> T:
    """A page or a part of one with the style's marks in all that is read."""
    marked: T = _marked(item, style)
    return marked


def _marked(item: Any, style: Style) -> Any:
    if isinstance(item, Markup):
        pieces = _TAG.split(str(item))
        return Markup("".join(p if p.startswith("<") else on_a_page(p, style) for p in pieces))
    if isinstance(item, str):
        return on_a_page(written(item), style)
    if isinstance(item, tuple | list):
        return type(item)(_marked(each, style) for each in item)
    if isinstance(item, Mapping):
        return {key: _marked(value, style) for key, value in item.items()}
    if not is_dataclass(item) or isinstance(item, type) or _is_the_kitchens_own(item):
        return item
    changed = {
        field.name: _marked(getattr(item, field.name), style)
        for field in fields(item)
        if field.name not in _ADDRESSES
    }
    return replace(item, **changed)


def _is_the_kitchens_own(item: object) -> bool:
    return isinstance(item, SourceListing) or (isinstance(item, Part) and item.id == "note")
