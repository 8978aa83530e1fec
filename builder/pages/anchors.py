"""Links as cells and sentences have them: by the ten thousand, so that no template is parsed."""

from __future__ import annotations

from markupsafe import Markup

from builder.pages.escaping import html_of


def anchor(href: str, text: str) -> Markup:
    """A text that leads somewhere; both are escaped, but for markup that already is.

    >>> anchor("a.html?b&c", "salt & pepper")
    Markup('<a href="a.html?b&amp;c">salt &amp; pepper</a>')
    """
    return Markup(f'<a href="{html_of(href)}">{html_of(text)}</a>')
