"""Little words that lose their vowel before another one: "de" and "oignons" are "d'oignons"."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

# Only before letters that are surely vowels: before an h or a y it depends on the word.
_LITTLE = {"fr": re.compile(r"\b([Dd]|[Qq]u|[Ll]|[Nn]|[Ss])[ea] \{(\w+)\}")}
_VOWEL = re.compile(r"(?:<[^>]*>)*(?!onz|oui\b)[aeiouœæàâéèêëîïôöùûü]", re.IGNORECASE)


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
    """
    if language not in _LITTLE:
        return template
    for words, shorter, name in _places(template, language):
        if _VOWEL.match(str(values.get(name, ""))):
            template = template.replace(words, shorter)
    return template
