"""Steps in their order, for who does them with full hands."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.pages.components.words import Text


@dataclass(frozen=True, slots=True)
class StepLine:
    """One step: what is done, time and temperature, amounts, a caution, a picture.

    `shows`: the picture's caption.
    """

    what: Text
    facts: tuple[Text, ...] = ()
    amounts: tuple[tuple[Text, Text], ...] = ()
    caution: Text = ""
    picture: Markup | None = None
    shows: Text = ""


@dataclass(frozen=True, slots=True)
class StepList:
    """Numbered steps; `label` names the list for a screen reader."""

    lines: tuple[StepLine, ...]
    label: Text
