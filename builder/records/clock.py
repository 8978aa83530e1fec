"""A kitchen's clock: its time zone, and the hours of the week in which somebody is there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Annotated
from zoneinfo import ZoneInfo, available_timezones

from pydantic import PlainValidator, WithJsonSchema

from builder.language import tr
from builder.problems import Place, did_you_mean
from builder.reading.tree import Branch, Text
from builder.records.fields import refuse, scalar
from builder.records.services import DAYS
from builder.records.zones import meant_zone

DAY_MIN, WEEK_MIN = 24 * 60, 7 * 24 * 60
CLOSED = ("closed", "nobody", "none", "no", "off")
# Files beside the zones that name no place.
_NO_PLACES = {"localtime", "posixrules", "Factory"}
_DASH = re.compile(r"\s*(?:[-–—]|\bto\b)\s*")
_HOUR = re.compile(r"(\d{1,2})(?:[:.h](\d{2}))?\s*([ap]\.?m\.?)?", re.ASCII | re.IGNORECASE)


@lru_cache(maxsize=1)
def _zones() -> frozenset[str]:
    return frozenset(available_timezones() - _NO_PLACES)


def _zone(node: object) -> ZoneInfo:
    text = scalar(node, tr("a time zone such as America/Toronto"))
    if text not in _zones():
        hint = meant_zone(text, _zones()) or tr("the IANA name of a place, such as America/Toronto")
        raise refuse(tr('"{text}" is no time zone', text=text), hint, text.place)
    return ZoneInfo(text)


@dataclass(frozen=True, slots=True)
class Staffed:
    """Hours of the week [min from Monday 0:00] in which somebody is there, and where they stand.

    Each span runs from its start up to its end, which may lie in the next week.
    """

    spans: tuple[tuple[int, int], ...]
    place: Place

    def covers(self, start: datetime, end: datetime) -> bool:
        """Whether somebody is there from one moment to another, both by the kitchen's clock."""
        first = start.weekday() * DAY_MIN + start.hour * 60 + start.minute
        lasts = (end.replace(tzinfo=None) - start.replace(tzinfo=None)).total_seconds() / 60
        return any(low <= first and first + lasts <= high for low, high in _joined(self.spans))


@lru_cache(maxsize=64)
def _joined(spans: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
    """The spans of three weeks in a row, those that touch made one."""
    weeks = (-WEEK_MIN, 0, WEEK_MIN)
    shifted = sorted((low + week, high + week) for week in weeks for low, high in spans)
    found: list[tuple[int, int]] = []
    for low, high in shifted:
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return tuple(found)


def _staffed(node: object) -> Staffed:
    if not isinstance(node, Branch):
        text = scalar(node, tr("hours such as 07:00-23:00, or weekdays with hours"))
        hours = _hours(text)
        return Staffed(tuple(_on(day, span) for day in range(7) for span in hours), text.place)
    found: dict[int, Text] = {}
    spans: list[tuple[int, int]] = []
    for key, value in node.items():
        hours = _hours(scalar(value, tr("hours such as 07:00-23:00, or closed")))
        for day in _days(key):
            if day in found:
                raise refuse(
                    tr("{days} is there twice", days=DAYS[day]),
                    tr("first at {place}", place=found[day].place),
                    key.place,
                )
            found[day] = key
            spans += [_on(day, span) for span in hours]
    if not spans:
        raise refuse(tr("nobody is ever there"), tr("write hours such as 07:00-23:00"), node.place)
    return Staffed(tuple(spans), node.place)


def _on(day: int, span: tuple[int, int]) -> tuple[int, int]:
    return day * DAY_MIN + span[0], day * DAY_MIN + span[1]


def _days(key: Text) -> Iterator[int]:
    """The days of a key: `sat`, `mon-fri`, `mon, wed`."""
    for part in re.split(r"\s*(?:,|\band\b)\s*", key.lower()):
        first, *rest = (_day(word, key) for word in _DASH.split(part))
        last = rest[0] if rest else first
        yield from (day % 7 for day in range(first, last + 1 if last >= first else last + 8))


def _day(word: str, key: Text) -> int:
    found = [n for n, day in enumerate(DAYS) if len(word) >= 2 and day.startswith(word.strip("."))]
    if len(found) != 1:
        hint = did_you_mean(word, DAYS) or tr("write days as mon, sat or mon-fri")
        raise refuse(tr('"{key}" is no weekday', key=key), hint, key.place)
    return found[0]


def _hours(text: Text) -> list[tuple[int, int]]:
    """The spans of a day [min]: `07:00-23:00`, several with commas; an end past midnight too."""
    if text.strip().lower() in CLOSED:
        return []
    return [_span(part, text) for part in text.split(",")]


def _span(part: str, text: Text) -> tuple[int, int]:
    ends = [_HOUR.fullmatch(end.strip()) for end in _DASH.split(part.strip())]
    if len(ends) != 2 or None in ends:
        raise refuse(tr('"{text}" are no hours', text=text), tr("such as 07:00-23:00"), text.place)
    found = [_minutes(end) for end in ends if end]
    if any(end[3] or "." in end[0] or "h" in end[0] for end in ends if end):
        meant = "-".join(f"{at // 60:02}:{at % 60:02}" for at in found)
        raise refuse(
            tr('"{text}" are no hours of a 24-hour clock', text=text),
            tr("write {meant}", meant=meant),
            text.place,
        )
    low, high = found
    if max(found) > DAY_MIN or low in {DAY_MIN, high}:
        raise refuse(
            tr('"{text}" are no hours of a day', text=text), tr("from 00:00 to 24:00"), text.place
        )
    return low, high if high > low else high + DAY_MIN


def _minutes(end: re.Match[str]) -> int:
    hour, past = int(end[1]), int(end[2] or 0)
    if end[3] and hour <= 12:
        hour = hour % 12 + (12 if end[3].lower().startswith("p") else 0)
    return hour * 60 + past if past < 60 else DAY_MIN + 1


TimeZone = Annotated[
    ZoneInfo,
    PlainValidator(_zone),
    WithJsonSchema(
        {
            "type": "string",
            "description": "IANA name of a time zone",
            "examples": ["America/Toronto"],
        }
    ),
]
StaffedHours = Annotated[
    Staffed,
    PlainValidator(_staffed),
    WithJsonSchema(
        {
            "type": "string",
            "description": "hours, or weekdays with hours",
            "examples": ["07:00-23:00"],
        }
    ),
]
