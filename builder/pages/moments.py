"""Moments of the week as pages and pictures write them."""

from __future__ import annotations

from datetime import datetime

from builder.display.style import Style
from builder.language import tr


def when(style: Style, moment: datetime) -> str:
    """A moment as the week's day and time, and which one where the clock shows it twice."""
    return f"{style.day_and_time(moment)}{(tr(' (the second time)') if moment.fold else '')}"


def stamp(moment: datetime) -> str:
    """A moment as the picture takes it, without its zone."""
    return f"{moment:%Y-%m-%dT%H:%M}"
