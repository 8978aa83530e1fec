"""The language that the builder's own words are written in.

Sentences are whole templates in English, which is the language of the source; a catalogue in
`builder/locale/` holds them in another one. What a kitchen writes itself is never translated.
"""

from __future__ import annotations


class Deferred(str):
    """A text of the builder's own that is made at import, and translated where it is written."""

    __slots__ = ()


def tr(template: str, /, **values: object) -> str:
    """The template in the language of the pages, with its values put in.

    >>> tr("{plate} saves {money} a plate", plate="Chuck", money="$3.20")
    'Chuck saves $3.20 a plate'
    """
    return template.format(**values) if values else template


def ntr(one: str, many: str, count: int, /, **values: object) -> str:
    """The template for as many things as there are, with the count and its values put in.

    >>> ntr("{count} cut", "{count} cuts", 1), ntr("{count} cut", "{count} cuts", 3)
    ('1 cut', '3 cuts')
    """
    return (one if count == 1 else many).format(count=count, **values)
