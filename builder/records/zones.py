"""Which time zone a kitchen may mean: by another spelling, a city, a slip, or hours from UTC."""

from __future__ import annotations

import re
from collections.abc import Collection
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from babel import Locale, UnknownLocaleError
from babel.core import get_global

from builder.language import tr
from builder.problems import nearest

_OFFSET = re.compile(r"(?:(?:etc/)?(?:gmt|utc)\s*)?([+-])(\d{1,2})(?::?([0-5]\d))?", re.IGNORECASE)
# One place for each offset that many people keep; which of them is meant only the cook knows.
_PLACES = (
    "Pacific/Honolulu", "America/Anchorage", "America/Los_Angeles", "America/Denver",
    "America/Chicago", "America/New_York", "America/Halifax", "America/St_Johns",
    "America/Sao_Paulo", "Atlantic/Azores", "Europe/London", "Europe/Paris", "Europe/Athens",
    "Africa/Nairobi", "Asia/Tehran", "Asia/Dubai", "Asia/Karachi", "Asia/Kolkata", "Asia/Dhaka",
    "Asia/Bangkok", "Asia/Singapore", "Asia/Tokyo", "Australia/Adelaide", "Australia/Sydney",
    "Pacific/Auckland",
)  # fmt: skip
_HALVES_OF_THE_YEAR = (datetime(2026, 1, 15), datetime(2026, 7, 15))
# Cities are short, so that a slip leaves them less alike than longer names.
_LIKE_A_CITY = 0.75


def meant_zone(text: str, known: Collection[str]) -> str:
    """The hint for a time zone that is none: the zone that is meant, or a place to name instead.

    Never a zone of Etc/: their signs are turned round, Etc/GMT+1 is an hour behind UTC.
    """
    asked = "_".join(text.lower().split())
    if found := _OFFSET.fullmatch(asked.replace("_", "")):
        return _by_offset(text, found)
    named = [name for name in sorted(known) if "/" in name and not name.startswith("Etc/")]
    places = {name.lower(): name for name in named}
    by_city = {name.rpartition("/")[2]: places[name] for name in reversed(places)}
    city = asked.rpartition("/")[2]
    name = places.get(asked) or by_city.get(city)
    if not name and len(city) > 3:
        name = by_city.get(nearest(city, by_city, _LIKE_A_CITY))
    # A city of a few letters is too short to be told by itself.
    if not name and "/" in asked and len(city) <= 3:
        name = places.get(nearest(asked, places))
    return tr('did you mean "{name}"?', name=name) if name else ""


def _by_offset(text: str, found: re.Match[str]) -> str:
    sign = -1 if found[1] == "-" else 1
    offset = sign * timedelta(hours=int(found[2]), minutes=int(found[3] or 0))
    place = next((name for name in _PLACES if standard_offset(ZoneInfo(name)) == offset), None)
    such_as = (
        tr(", such as {place}", place=place) if place and not text.lower().startswith("etc") else ""
    )
    return tr(
        '"{text}" knows no summer time: write the zone by a place that keeps your clock{such_as}',
        text=text,
        such_as=such_as,
    )


def standard_offset(zone: ZoneInfo) -> timedelta:
    """A zone's time less UTC outside its summer time."""
    return min(half.replace(tzinfo=zone).utcoffset() or timedelta() for half in _HALVES_OF_THE_YEAR)


def zones_of(locale: str, currency: str) -> tuple[str, ...]:
    """The zones of a locale's country; else of the country that a currency's code begins with.

    Where neither names one with zones, as the euro does not, two that change their clocks.

    >>> zones_of("en_GB", "CAD"), zones_of("", "NZD")[0], zones_of("", "EUR")[0]
    (('Europe/London',), 'Pacific/Auckland', 'Europe/London')
    """
    try:
        territory = Locale.parse(locale).territory
    except (UnknownLocaleError, ValueError):
        territory = None
    zones = get_global("territory_zones").get(territory or currency[:2], ())
    return tuple(str(zone) for zone in zones) or ("Europe/London", "America/New_York")
