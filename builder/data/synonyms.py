"""Words of the trade that mean one thing: a search finds what is written with another of them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

from builder.data.allergens import other_names
from builder.language import SOURCE_LANGUAGE

_LIGATURES = str.maketrans({"œ": "oe", "æ": "ae", "ß": "ss"})
_APART = re.compile(r"[^\w]+|_")


def plain(text: str) -> str:
    """Words as they are compared: no accents, capitals and ligatures, one blank between.

    >>> plain("Ragù of Beef-Shank"), plain("Cœur de rumsteck")
    ('ragu of beef shank', 'coeur de rumsteck')
    """
    letters = unicodedata.normalize("NFD", text.lower().translate(_LIGATURES))
    bare = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return " ".join(filter(None, _APART.split(bare)))


@dataclass(frozen=True)
class SearchWords:
    """Words that lead to pages: of folders, of single ones; those to leave out; wider ones."""

    folders: Mapping[str, str]
    pages: Mapping[str, str]
    small: tuple[str, ...]
    wider: Mapping[str, tuple[str, ...]]


def _read(name: str, language: str) -> list[Any]:
    """A file of words: the source language's, then the language's own where it has one."""
    folder = files(__package__)
    own = [f"{name}.yaml", *([f"{name}.{language}.yaml"] if language != SOURCE_LANGUAGE else [])]
    found = (folder.joinpath(each) for each in own)
    return [yaml.safe_load(each.read_text("utf-8")) for each in found if each.is_file()]


def _together(parts: Iterable[Mapping[str, str]]) -> Mapping[str, str]:
    """What leads to each page, in one language after the other."""
    found: dict[str, str] = {}
    for part in parts:
        for page, words in part.items():
            found[page] = f"{found.get(page, '')} {words}".strip()
    return found


@cache
def search_words(language: str = SOURCE_LANGUAGE) -> SearchWords:
    """What `search_words.yaml` says, and the language's own beside it; wider words as compared."""
    data = _read("search_words", language)
    wider = {
        plain(word): tuple(map(plain, named))
        for each in data
        for word, named in each["wider"].items()
    }
    small = tuple(dict.fromkeys(word for each in data for word in each["small"]))
    folders, pages = (_together(each[part] for each in data) for part in ("folders", "pages"))
    return SearchWords(folders, pages, small, wider)


@cache
def groups(language: str = SOURCE_LANGUAGE) -> tuple[tuple[str, ...], ...]:
    """Every group of words that mean one thing, as they are compared; allergens among them.

    Those of the source language go with every other one: a kitchen may name things in both.
    """
    english, *own = _read("synonyms", language)
    written = (tuple(map(plain, group)) for part in english.values() for group in part)
    found = {group[0]: group for group in written}
    for name, words in other_names().items():
        group = (*found.get(name, (name,)), *map(plain, words))
        found[name] = tuple(dict.fromkeys(group))
    further = (tuple(map(plain, group)) for file in own for part in file.values() for group in part)
    return (*found.values(), *further)


def other_words(text: str, language: str = SOURCE_LANGUAGE) -> Iterator[str]:
    """The other words for what a text names, group by group; words that it has are left out.

    >>> list(other_words("Beef shank, 36 h"))
    ['shin', 'osso buco', 'red meat']
    >>> list(other_words("Paleron de veau", "fr"))[:2]
    ['top blade', 'paleron de boeuf']
    """
    within = f" {plain(text)} "
    for group in groups(language):
        has = [word for word in group if f" {word} " in within]
        if has:
            yield from (word for word in group if word not in has)
    for word, named in search_words(language).wider.items():
        if any(f" {each} " in within for each in named):
            yield word
