"""Hours at a heat in which nothing lasts so long: of a cook, of bringing it back, of its steps."""

from __future__ import annotations

from collections.abc import Iterator

from builder.data.hot_hours import HotHours, hot_hours
from builder.language import tr
from builder.problems import Problem
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook
from builder.records.slips import other_scale, slip_into
from builder.records.written import Doubted, Value, warning

# What is that hot for less than a minute was meant in other units [h].
_LEAST_H = 1 / 60
# What meat is cooked in for hours is warmer than this [degrees Celsius].
_WARM = 45.0


def check_hot_hours(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of more hours than anything bears at the temperature that is written beside them."""
    for cook in content.cooks.values():
        for key, at, time in _times(cook):
            row = _row(at, time)
            if row and not {at.place, time.place} & reported:
                value = Value(f"cooks.{key}", time, cook, cook.path)
                message = tr(
                    "{time} is long at {at} ({reason})",
                    time=time.text,
                    at=at.text,
                    reason=tr(row.reason),
                )
                hint = _scale_of_others(content, at, time)
                hint = hint or slip_into(time, time.value, _LEAST_H, row.high)
                yield from warning(value, message, hint)


def _times(cook: Cook) -> Iterator[tuple[str, Measure, Measure]]:
    """The key of every time of a cook that has its temperature beside it, with both."""
    back = cook.reheat
    pairs = [("for", cook.at, cook.for_), ("reheat.for", back and back.at, back and back.for_)]
    pairs += [("steps.for", step.at, step.for_) for step in cook.steps]
    yield from ((key, at, time) for key, at, time in pairs if at and time)


def _scale_of_others(content: Content, at: Measure, time: Measure) -> str:
    """The temperature in the scale that all other cooks are in, where it bears the time."""
    heats = [cook.at for cook in content.cooks.values() if cook.at and cook.at is not at]
    if not heats or any(heat.text[-1] == at.text[-1] for heat in heats):
        return ""
    least = next(iter(hot_hours())).from_c
    return other_scale(at, _WARM, least) if _row(at, time) else ""


def _row(at: Measure, time: Measure) -> HotHours | None:
    rows = [row for row in hot_hours() if at.value >= row.from_c]
    return rows[-1] if rows and time.value > rows[-1].high else None
