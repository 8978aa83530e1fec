"""Sheets of paper: forms that are printed and written on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from builder.pages.components.pictures import Chart
from builder.pages.components.tables import Column, Row
from builder.pages.components.words import Text


@dataclass(frozen=True, slots=True)
class FormField:
    """A place to write; a value that is known is printed on the line."""

    label: Text
    value: Text = ""
    unit: Text = ""
    width: Literal["quarter", "half", "full"] = "half"


@dataclass(frozen=True, slots=True)
class FormFields:
    """Places to write, side by side."""

    items: tuple[FormField, ...]


@dataclass(frozen=True, slots=True)
class FormGrid:
    """A ruled table; `blank` empty rows follow the given ones.

    `small`: small print for many rows; `upright`, with narrow columns whose headings are upright;
    `ledger`: lines of a list, close, each with room for initials.
    """

    caption: Text
    columns: tuple[Column, ...]
    rows: tuple[Row, ...] = ()
    blank: int = 0
    foot: tuple[Row, ...] = ()
    small: Literal["", "print", "upright", "ledger"] = ""


@dataclass(frozen=True, slots=True)
class FormTicks:
    """Boxes to tick."""

    label: Text
    items: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class FormLines:
    """Empty ruled lines under a label."""

    label: Text
    count: int = 3


@dataclass(frozen=True, slots=True)
class FormNote:
    """Small print; `strong` where it must not be overlooked."""

    text: Text
    strong: bool = False


@dataclass(frozen=True, slots=True)
class FormScale:
    """A line to mark between two words, on paper exactly as long as it says [mm]."""

    label: Text
    low: Text
    high: Text
    length_mm: float = 100.0


@dataclass(frozen=True, slots=True)
class PaperLabel:
    """A label to cut out: a name, what is known or written by hand, then small print."""

    title: Text
    fields: tuple[tuple[Text, Text], ...]
    notes: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True)
class FormLabels:
    """Labels side by side in two columns, with lines to cut along; eight fill a sheet."""

    items: tuple[PaperLabel, ...]


FormBlock: TypeAlias = (
    FormFields | FormGrid | FormLabels | FormTicks | FormLines | FormNote | FormScale | Chart
)


@dataclass(frozen=True, slots=True)
class Form:
    """A sheet of paper; one form fills at most one page of A4 or Letter.

    `close`: much is on it, so it is printed with little between.
    `half`: the form shares its page with another, "upper" and "lower" to be cut apart, "above" and
    "below" to stay together.
    """

    id: str
    title: Text
    blocks: tuple[FormBlock, ...]
    subtitle: Text = ""
    reference: Text = ""
    half: Literal["", "upper", "lower", "above", "below"] = ""
    close: bool = False
