"""Words of the trade that mean one thing: a search finds what is written with another of them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

from builder.data.allergens import other_names

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


def _read(name: str) -> Any:
    return yaml.safe_load(files(__package__).joinpath(name).read_text("utf-8"))


@cache
def search_words() -> SearchWords:
    """What `search_words.yaml` says, wider words as they are compared."""
    data = _read("search_words.yaml")
    wider = {plain(word): tuple(map(plain, named)) for word, named in data["wider"].items()}
    return SearchWords(data["folders"], data["pages"], tuple(data["small"]), wider)


@cache
def groups() -> tuple[tuple[str, ...], ...]:
    """Every group of words that mean one thing, as they are compared; allergens among them."""
    parts = _read("synonyms.yaml").values()
    written = (tuple(map(plain, group)) for part in parts for group in part)
    found = {group[0]: group for group in written}
    for name, words in other_names().items():
        group = (*found.get(name, (name,)), *map(plain, words))
        found[name] = tuple(dict.fromkeys(group))
    return tuple(found.values())


def other_words(text: str) -> Iterator[str]:
    """The other words for what a text names, group by group; words that it has are left out.

    >>> list(other_words("Beef shank, 36 h"))
    ['shin', 'osso buco', 'red meat']
    """
    within = f" {plain(text)} "
    for group in groups():
        has = [word for word in group if f" {word} " in within]
        if has:
            yield from (word for word in group if word not in has)
    for word, named in search_words().wider.items():
        if any(f" {each} " in within for each in named):
            yield word
