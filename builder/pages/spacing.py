"""Spaces before signs, where a language writes them."""

from __future__ import annotations

import re

# French sets a colon and a semicolon off by a space that no line ends at [common practice; the
# rule is of the Imprimerie nationale's lexicon, from memory].
_APART = {"fr": {":": "\N{NO-BREAK SPACE}", ";": "\N{NARROW NO-BREAK SPACE}"}}
# Keys of the files that are no French words: a sentence names one with its colon, to be copied.
_KEYS = frozenset(
    {
        "allergens", "at", "authority", "besides", "candidate", "challengers", "closing",
        "cook", "cooks", "cool", "cuts", "each", "energy", "expected", "folder", "holds",
        "how", "items", "load", "loss", "makes", "money", "muscle",
        "opening", "plates", "price", "published", "scale", "seed",
        "slices", "store", "thickness", "title", "weight", "who", "with", "within",
        "yield", "zone",
    }
)  # fmt: skip
_TAG = re.compile(
    r'(<(script|style|pre|code)\b.*?</\2>|<ol class="lines">.*?</ol>|<[^>]*>)', re.DOTALL
)
_LABEL = re.compile(r'(?<=\baria-label=")[^"]+')
_SIGN = re.compile(r"&#?\w+;|(?P<before>[\w-]+|[^\s:;/])(?P<sign>[:;])(?=\s|$)")


def spaced(html: str, language: str) -> str:
    """Return a page with such spaces in its text and in what labels a part; code, addresses and a
    file's key with its colon stay as they are.

    >>> spaced("<p>Beurre: 2 &amp; 3; <code>a: b</code></p>", "fr")
    '<p>Beurre\\xa0: 2 &amp; 3\\u202f; <code>a: b</code></p>'
    >>> spaced("<p>Butter: 2</p>", "en")
    '<p>Butter: 2</p>'
    """
    if language not in _APART:
        return html
    marks = _APART[language]

    def apart(found: re.Match[str]) -> str:
        if not found["sign"] or (found["sign"] == ":" and found["before"] in _KEYS):
            return found[0]
        return f"{found['before']}{marks[found['sign']]}{found['sign']}"

    def labelled(found: re.Match[str]) -> str:
        return _SIGN.sub(apart, found[0])

    parts: list[str] = []
    end = 0
    for tag in _TAG.finditer(html):
        parts += [_SIGN.sub(apart, html[end : tag.start()]), _LABEL.sub(labelled, tag[0])]
        end = tag.end()
    return "".join((*parts, _SIGN.sub(apart, html[end:])))
