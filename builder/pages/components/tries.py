"""Inputs that a reader may move on the page, to see what follows."""

from __future__ import annotations

from dataclasses import dataclass

from builder.frozen import frozen
from builder.language import Deferred
from builder.pages.components.tables import Table
from builder.pages.components.words import Text

_SUMMARY = Deferred("Try another price, yield or wage")


@frozen
class TryLine:
    """One input: its figure as "table.figure.row"; `now` names what it takes the place of, if any.

    A reader who may not see the one does not get the other. Scripts find out by themselves what
    an input that nobody wrote takes the place of.
    """

    label: Text
    figure: str
    now: str = ""


@dataclass(frozen=True, slots=True)
class Tries:
    """The inputs that matter most on a page; they show only where scripts run.

    With a `table` of what all become, a row for each input, the boxes follow each other, and paper
    shows what is tried.
    """

    lines: tuple[TryLine, ...]
    summary: Text = _SUMMARY
    table: Table | None = None

    @property
    def asked(self) -> str:
        """The name of the input that each row of the table is asked for by."""
        return self.lines[0].figure.split(".")[1]
