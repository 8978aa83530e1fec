"""Words of the trade that mean one thing: a search finds what is written with another of them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

import yaml

from builder.data.allergens import other_names

_APART = re.compile(r"[^\w]+|_")


def plain(text: str) -> str:
    """Words as they are compared: no accents, no capitals, one blank between.

    >>> plain("Ragù of Beef-Shank")
    'ragu of beef shank'
    """
    letters = unicodedata.normalize("NFD", text)
    bare = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return " ".join(filter(None, _APART.split(bare.lower())))


@cache
def groups() -> tuple[tuple[str, ...], ...]:
    """Every group of words that mean one thing, as they are compared; allergens among them."""
    parts = yaml.safe_load(files(__package__).joinpath("synonyms.yaml").read_text("utf-8"))
    written = (tuple(map(plain, group)) for part in parts.values() for group in part)
    found = {group[0]: group for group in written}
    for name, words in other_names().items():
        group = (*found.get(name, (name,)), *map(plain, words))
        found[name] = tuple(dict.fromkeys(group))
    return tuple(found.values())


def other_words(text: str) -> Iterator[str]:
    """The other words for what a text names, group by group; words that it has are left out.

    >>> list(other_words("Beef shank, 36 h"))
    ['shin']
    """
    within = f" {plain(text)} "
    for group in groups():
        has = [word for word in group if f" {word} " in within]
        if has:
            yield from (word for word in group if word not in has)
