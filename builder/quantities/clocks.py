"""Times of day as a file writes them, 18:00, and what another way of writing one means."""

from __future__ import annotations

import re
from datetime import time

from builder.language import tr
from builder.quantities.errors import QuantityError, one_short_line, quoted

_TIME = re.compile(r"([01][0-9]|2[0-3]|[0-9]):([0-5][0-9])", re.ASCII)
_OTHER = re.compile(
    r"(?P<hour>[0-9]{1,2})(?:\s*[.:h]?\s*(?P<minute>[0-9]{2}))?\s*h?\s*"
    r"(?P<half>[ap]\.?\s?m\.?)?(?:\s*(?:uhr|o'clock|hrs|hours))?",
    re.ASCII | re.IGNORECASE,
)
_WORDS = {"noon": "12:00", "midday": "12:00", "midnight": "0:00", "24:00": "0:00"}


def parse_clock(text: str) -> time:
    """Read a time of day, hours 0 to 23 and minutes; raises QuantityError for any other form.

    >>> parse_clock("18:30")
    datetime.time(18, 30)
    >>> parse_clock("5:00 pm")
    Traceback (most recent call last):
    builder.quantities.errors.QuantityError: "5:00 pm" is no time of day; write 17:00
    """
    line = one_short_line(text)
    found = _TIME.fullmatch(line)
    if found is None:
        meant = _meant(line)
        hint = (
            tr("write {meant}", meant=meant)
            if meant
            else tr("from 0:00 to 23:59, for example 18:00")
        )
        raise QuantityError(tr("{line} is no time of day", line=quoted(line)), hint)
    return time(int(found[1]), int(found[2]))


def _meant(line: str) -> str:
    """The time that another way of writing one means, or an empty string."""
    found = _OTHER.fullmatch(line)
    if line.lower() in _WORDS or not found:
        return _WORDS.get(line.lower(), "")
    hour, minute = int(found["hour"]), int(found["minute"] or 0)
    if found["half"]:
        if not 1 <= hour <= 12:
            return ""
        hour = hour % 12 + 12 * (found["half"][0] in "pP")
    return f"{hour}:{minute:02}" if hour < 24 and minute < 60 else ""
