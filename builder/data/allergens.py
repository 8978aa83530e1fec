"""Allergens as laws list them, and the words that kitchens write for them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

from builder.language import Deferred


@dataclass(frozen=True, slots=True)
class LawRow:
    """An allergen, or a kind of one, as a law names it."""

    name: str
    law: str
    clause: str


@dataclass(frozen=True, slots=True)
class Law:
    """A law's list, how far it was read, and where it holds.

    `territories` are ISO 3166 codes, `authorities` ids of rule sets of the same jurisdiction.
    """

    id: str
    title: str
    source: str
    status: str
    words: tuple[str, ...]
    territories: frozenset[str]
    authorities: frozenset[str]
    rows: tuple[LawRow, ...]


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Every word that is read: its allergen and kind, the kind empty where the word is general.

    `unclear` holds words that are refused, with those that may be meant.
    """

    names: tuple[str, ...]
    meanings: Mapping[str, tuple[str, str]]
    unclear: Mapping[str, tuple[str, ...]]


@cache
def _data() -> dict[str, Any]:
    text = files("builder.data").joinpath("allergens.yaml").read_text(encoding="utf-8")
    found: dict[str, Any] = yaml.load(text, Loader=yaml.CSafeLoader)
    return found


@cache
def laws() -> Mapping[str, Law]:
    """The laws by id.

    >>> [len(law.rows) for law in laws().values()]
    [14, 9]
    """
    return {name: _law(name, law) for name, law in _data()["laws"].items()}


def _law(name: str, law: Mapping[str, Any]) -> Law:
    return Law(
        id=name,
        title=Deferred(law["title"]),
        source=Deferred(law["source"]),
        status=Deferred(law["status"]),
        words=tuple(law["words"]),
        territories=frozenset(law["territories"]),
        authorities=frozenset(law["authorities"]),
        rows=tuple(
            LawRow(**{key: Deferred(text) for key, text in row.items()}) for row in law["rows"]
        ),
    )


def other_names() -> Mapping[str, tuple[str, ...]]:
    """Every allergen with the words that mean it, kinds of it left out.

    >>> other_names()["soy"][:3]
    ('soya', 'soybeans', 'soybean')
    """
    return {name: tuple(words["words"]) for name, words in _data()["allergens"].items()}


@cache
def vocabulary() -> Vocabulary:
    """The words of all laws' allergens.

    >>> vocabulary().meanings["dairy"], vocabulary().meanings["spelt"]
    (('milk', ''), ('gluten', 'wheat'))
    """
    data = _data()
    meanings: dict[str, tuple[str, str]] = {}
    for name, words in data["allergens"].items():
        meanings |= dict.fromkeys((name, *words["words"]), (name, ""))
        for kind, others in words["kinds"].items():
            meanings |= dict.fromkeys((kind.lower(), *others), (name, kind))
    unclear = {word: tuple(meant) for word, meant in data["unclear"].items()}
    return Vocabulary(tuple(data["allergens"]), meanings, unclear)
