"""A table that goes out as data: its columns of text, its rows, and why a row is in doubt."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from builder.language import Deferred, tr
from builder.pages.reader import MONEY
from builder.pages.view import View
from builder.records.editions import Group

_ABOUT = Deferred(
    "Why figures of the row are in doubt or not known in full; empty where they are not"
)
Texts = tuple[str | None, ...]
Rows = Callable[[View], Iterator[tuple[int, Texts]]]
Record = Mapping[str, str | None]
"""The texts of a row by the names of their columns."""


@dataclass(frozen=True, slots=True)
class Field:
    """A column of text; `refers` names the table whose id it holds.

    Only a reader who may see all of `groups` gets it, and one who may see the content files where
    it names one. What is `said` is a sentence or a label in the language of the pages; cells of all
    other columns are the same in every language: ids, kinds, verdicts and units are for programs.
    """

    name: str
    about: str
    kind: Literal["string", "date", "datetime", "number"] = "string"
    refers: str = ""
    groups: tuple[Group, ...] = ()
    names_file: bool = False
    said: bool = False


@dataclass(frozen=True, slots=True)
class Resource:
    """A table as a file: one row a record, its texts first, then the figures of `table`, if any.

    Only a reader who may see all of `groups` gets it. Where its rows can be in doubt, `doubt` gives
    the words of a row's page for it, empty where it is not.
    """

    name: str
    title: str
    table: str
    fields: tuple[Field, ...]
    rows: Rows
    groups: tuple[Group, ...] = ()
    doubt: Callable[[View, Record], str] | None = None


def doubt_field(resource: Resource) -> Field | None:
    """The column of a table whose rows can be in doubt; None of any other."""
    groups: tuple[Group, ...] = () if resource.name == "tastings" else tuple(MONEY)
    return Field("in_doubt", tr(_ABOUT), groups=groups) if resource.doubt else None


def doubt_of_row(view: View, resource: Resource, texts: Texts) -> str | None:
    """Why a row is in doubt; None where it is not or can't be."""
    record = {field.name: text for field, text in zip(resource.fields, texts, strict=True)}
    return (resource.doubt and resource.doubt(view, record)) or None
