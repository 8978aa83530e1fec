"""Spaces before signs, where a language writes them, and between a number and its unit."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from builder.records.base import Written

_NBSP, _NARROW = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"
# French sets these signs off by a space that no line ends at [common practice; the rule is of the
# Imprimerie nationale's lexicon, from memory].
_APART = {"fr": {":": _NBSP, ";": _NARROW, "?": _NARROW, "!": _NARROW, "%": _NBSP, "»": _NBSP}}
_TAG = re.compile(
    r'(<(script|style|pre|code)\b.*?</\2>|<ol class="lines">.*?</ol>|<[^>]*>)', re.DOTALL
)
# A number and its unit in what a kitchen wrote, "the bath of 40 L": no line ends between them, nor
# within a p value, "p = 0.19".
# What is in braces or brackets, or after a colon, is copied into a file as it is.
# Each choice begins with a sign of its own, so that the search skips all others at C speed.
_UNIT = re.compile(
    r"\{[^{}]*\}|\[[^][]*\]|: \d[\d.,]* "
    r"| (?:(?<=\d )(?=(?:h|min|L|mL|kg|g|mm|cm|lb|oz|qt|°C|°F)(?![\w°]))"
    r"|(?<=\bp )(?=(?:=|&lt;) \d)|(?<=\bp = )(?=\d)|(?<=\bp &lt; )(?=\d))"
)
# An ordinary space before a sign: a kitchen's own words have one.
_TYPED = re.compile(r" (?<=\S )(?=(?P<sign>[:;?!%»])(?:[\s.,)]|$))")
_LABEL = re.compile(r'(?<=\baria-label=")[^"]+')
# What a list or a mapping of a file follows is a key, too, whatever it is called.
# What a sentence shows of a file in braces is no prose.
_SIGN = re.compile(
    r"&#?\w+;|\{[^{}]*\}|(?P<before>[\w-]*\w|[^\s:;/-])(?P<sign>[:;])(?=\s(?!\[|\{)|$)"
)


# Keys that names of cuts and menus end with, too: "bone in", "three courses".
_ENDS_OF_NAMES = frozenset({"in", "on", "courses", "day"})


@cache
def _keys() -> frozenset[str]:
    """Every key of the files: a sentence names one with its colon, to be copied.

    A sentence of the catalogue has the spaces of its own colons.
    """
    kinds, found = [Written], set[str]()
    while kinds:
        kind = kinds.pop()
        kinds += kind.__subclasses__()
        found.update(kind.known_keys())
    return frozenset(found - _ENDS_OF_NAMES)


def _is_of_key(found: re.Match[str]) -> bool:
    """Whether a colon is that of a key, which may have up to three words."""
    if found["sign"] != ":":
        return False
    before = found.string[max(0, found.start("sign") - 24) : found.start("sign")]
    words = re.findall(r"\w+", before)[-3:]
    return any(" ".join(words[start:]) in _keys() for start in range(len(words)))


def spaced(html: str, language: str) -> str:
    """Return a page with such spaces in its text and in what labels a part; code, addresses and a
    file's key with its colon stay as they are.

    >>> spaced("<p>Beurre: 2 &amp; 3; <code>a: b</code></p>", "fr")
    '<p>Beurre\\xa0: 2 &amp; 3\\u202f; <code>a: b</code></p>'
    >>> spaced("<p>12 % de quoi ? {mon-fri: 07:00}</p>", "fr")
    '<p>12\\xa0% de quoi\\u202f? {mon-fri: 07:00}</p>'
    >>> spaced("<p>Butter: 2, old bath of 40 L</p><code>40 L</code>", "en")
    '<p>Butter: 2, old bath of 40\\xa0L</p><code>40 L</code>'
    >>> spaced("<p>no difference (p = 0.19)</p>", "en")
    '<p>no difference (p\\xa0=\\xa00.19)</p>'
    """
    apart = language in _APART
    if not apart and not _UNIT.search(html):
        return html
    marks = _APART.get(language, {})
    parts: list[str] = []
    end = 0
    for tag in _TAG.finditer(html):
        inside = _LABEL.sub(lambda found: _apart(found[0], marks), tag[0]) if apart else tag[0]
        parts += [_between(html[end : tag.start()], marks), inside]
        end = tag.end()
    return "".join((*parts, _between(html[end:], marks)))


def _between(text: str, marks: Mapping[str, str]) -> str:
    """A text between tags: numbers kept with their units, signs set apart where there are any."""
    if text.isspace() or not text:
        return text
    kept = _UNIT.sub(lambda found: _NBSP if found[0] == " " else found[0], text)
    return _apart(kept, marks) if marks else kept


def _apart(text: str, marks: Mapping[str, str]) -> str:
    """A text without tags, its signs set apart."""

    def space(found: re.Match[str]) -> str:
        if not found["sign"] or _is_of_key(found):
            return found[0]
        return f"{found['before']}{marks[found['sign']]}{found['sign']}"

    typed = _TYPED.sub(lambda found: marks[found["sign"]], text)
    signed = _SIGN.sub(space, typed) if ":" in typed or ";" in typed else typed
    return signed.replace("« ", f"«{_NBSP}")
