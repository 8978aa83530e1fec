"""Spaces before signs, where a language writes them."""

from __future__ import annotations

import re

# French sets a colon and a semicolon off by a space that no line ends at [common practice; the
# rule is of the Imprimerie nationale's lexicon, from memory].
_APART = {"fr": {":": "\N{NO-BREAK SPACE}", ";": "\N{NARROW NO-BREAK SPACE}"}}
_TAG = re.compile(r"(<(script|style|pre|code)\b.*?</\2>|<[^>]*>)", re.DOTALL)
_SIGN = re.compile(r"&#?\w+;|(?P<before>[^\s:;/])(?P<sign>[:;])(?=\s|$)")


def spaced(html: str, language: str) -> str:
    """Return a page with such spaces in its text; code and addresses stay as they are.

    >>> spaced("<p>Beurre: 2 &amp; 3; <code>a: b</code></p>", "fr")
    '<p>Beurre\\xa0: 2 &amp; 3\\u202f; <code>a: b</code></p>'
    >>> spaced("<p>Butter: 2</p>", "en")
    '<p>Butter: 2</p>'
    """
    if language not in _APART:
        return html
    marks = _APART[language]

    def apart(found: re.Match[str]) -> str:
        if not found["sign"]:
            return found[0]
        return f"{found['before']}{marks[found['sign']]}{found['sign']}"

    parts: list[str] = []
    end = 0
    for tag in _TAG.finditer(html):
        parts += [_SIGN.sub(apart, html[end : tag.start()]), tag[0]]
        end = tag.end()
    return "".join((*parts, _SIGN.sub(apart, html[end:])))
