"""Escaping for HTML, as `markupsafe.escape` does, as plain strings.

A large site prints millions of short texts. For each of them `escape` makes an object of a class
of its own, which takes several times as long as the escaping; templates and tables only join them.
"""

from __future__ import annotations

from collections.abc import Callable, MutableMapping
from types import CodeType
from typing import Any

from jinja2 import Environment, Template
from markupsafe import Markup, escape

from builder.language import written


def html_of(value: object) -> str:
    """A value as HTML: texts escaped, markup as it is, the builder's own texts in their language.

    >>> html_of("salt & <pepper>"), html_of(Markup("<b>salt</b>")), html_of(3)
    ('salt &amp; &lt;pepper&gt;', Markup('<b>salt</b>'), '3')
    """
    if type(value) is str:
        return (
            value.replace("&", "&amp;")
            .replace(">", "&gt;")
            .replace("<", "&lt;")
            .replace("'", "&#39;")
            .replace('"', "&#34;")
        )
    if type(value) is Markup:
        return value
    return str(escape(written(value)))


class _Escaped(Template):
    """A template that prints its values by `html_of`."""

    @classmethod
    def from_code(
        cls,
        environment: Environment,
        code: CodeType,
        globals: MutableMapping[str, Any],
        uptodate: Callable[[], bool] | None = None,
    ) -> Template:
        """Make the template; what it escapes with is a global name of its code."""
        template = super().from_code(environment, code, globals, uptodate)
        names = template.root_render_func.__globals__
        if names["escape"] is not escape:
            raise TypeError("the templates' code no longer escapes by the name `escape`")
        names["escape"] = html_of
        return template


class Templates(Environment):
    """Templates that print their values by `html_of`, and ask objects for attributes alone.

    The library's own way falls back to an item of that name; an attribute that is not there is
    an error here.
    """

    template_class = _Escaped
    getattr = staticmethod(getattr)  # type: ignore[assignment]
