"""Words that change with the value beside them: "d'oignons", not "de oignons"; "0,5 point"."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

# Only before letters that are surely vowels: before an h or a y it depends on the word.
_LITTLE = {"fr": re.compile(r"\b([Dd]|[Qq]u|[Ll]|[Nn]|[Ss])[ea] \{(\w+)\}")}
_VOWEL = re.compile(r"(?:<[^>]*>)*(?!onz|oui\b)[aeiouœæàâéèêëîïôöùûü]", re.IGNORECASE)

# French has the plural from two on, decimals too (Unicode CLDR, plural rules).
_COUNTED = {"fr": re.compile(r"\{(\w+)\}([ \N{NO-BREAK SPACE}]point)s\b")}
_BELOW_TWO = re.compile(r"[+−-]?[01](?:[.,]\d+)?")


@lru_cache(maxsize=1 << 14)
def _counted(template: str, language: str) -> tuple[tuple[str, str, str], ...]:
    """What is counted in a template: the words, what they are of less than two, the value."""
    found = _COUNTED[language].finditer(template)
    return tuple((each[0], f"{{{each[1]}}}{each[2]}", each[1]) for each in found)


@lru_cache(maxsize=1 << 14)
def _places(template: str, language: str) -> tuple[tuple[str, str, str], ...]:
    """What may be elided in a template: the words, what they become, the value that follows."""
    found = _LITTLE[language].finditer(template)
    return tuple((each[0], f"{each[1]}'{{{each[2]}}}", each[2]) for each in found)


def elided(template: str, values: Mapping[str, object], language: str) -> str:
    """A template as the language writes it before these values.

    >>> elided("portions de {plate}", {"plate": "Oxtail"}, "fr")
    "portions d'{plate}"
    >>> elided("portions de {plate}", {"plate": "Brisket"}, "fr")
    'portions de {plate}'
    >>> elided("{loss} points de plus", {"loss": "1.5"}, "fr")
    '{loss} point de plus'
    >>> elided("{loss} points de plus", {"loss": "−2.0"}, "fr")
    '{loss} points de plus'
    """
    if language not in _LITTLE:
        return template
    for words, shorter, name in _places(template, language):
        if _VOWEL.match(str(values.get(name, ""))):
            template = template.replace(words, shorter)
    for words, single, name in _counted(template, language):
        if _BELOW_TWO.fullmatch(str(values.get(name, ""))):
            template = template.replace(words, single)
    return template
