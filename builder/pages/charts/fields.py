"""What the rows of each kind of chart carry, without the weight of the chart library.

A kind with a `role` field mixes rows of several roles; a field that a role
does not use is left out, so only what every row needs is listed as needed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from builder.language import Deferred

# The four classes of menu analysis in words of our own, best first.
MARGIN_CLASSES: Final = (
    Deferred("sells and earns"),
    Deferred("sells, earns little"),
    Deferred("earns, sells little"),
    Deferred("neither"),
)


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of chart: what it shows, what its rows and its axes need.

    `needs` are fields of every row, `roles` the further fields by role, and
    `units` the words that a page supplies for the axes.
    """

    about: str
    needs: tuple[str, ...]
    units: tuple[str, ...]
    roles: dict[str, tuple[str, ...]]


def _kind(about: str, needs: str, units: str = "", roles: dict[str, str] | None = None) -> Kind:
    by_role = {role: tuple(fields.split()) for role, fields in (roles or {}).items()}
    return Kind(about, tuple(needs.split()), tuple(units.split()), by_role)


KINDS: Final[dict[str, Kind]] = {
    "waterfall": _kind(
        "Where the money of one kilogram goes, step by step; kind is total, rise or fall",
        "step start end kind text",
        "money",
    ),
    "cost-stack": _kind(
        "What plates cost, part on part; text labels a part and total the whole bar",
        "plate part order amount text total",
        "money",
    ),
    "crossover": _kind(
        "Cost against the purchase price of the challenger's cut",
        "role",
        "price cost",
        {
            "line": "name price cost",
            "today": "name price cost text",
            "break-even": "price cost text",
        },
    ),
    "margin-scatter": _kind(
        "Popularity against contribution margin; one row of role divide sets the lines",
        "role sold margin",
        "sold margin both sells earns neither",
        {"plate": "number plate class", "divide": ""},
    ),
    "range-bars": _kind(
        "What the answer becomes when one input moves; base is the answer as it stands",
        "input order side value base text",
        "value",
    ),
    "line-months": _kind(
        "Figures month by month; month is written 2026-08", "month series value", "value"
    ),
    "core-curve": _kind(
        "Core temperature over time with the rule's threshold and the moment it is met",
        "role",
        "time temperature",
        {
            "core": "time low mid high",
            "threshold": "temperature text",
            "met": "time temperature text",
        },
    ),
    "timeline": _kind(
        "Who is busy when: a bar for each step, and what of it clashes with another; start and "
        "end are written 2026-09-05T18:00",
        "role lane task start end kind",
        "",
        {"step": "", "clash": "text"},
    ),
    "score-dots": _kind(
        "Each taster's score by sample, with the benchmark's band behind",
        "role",
        "duration score",
        {"dot": "duration score taster", "mean": "duration score", "band": "low high text"},
    ),
    "right-bars": _kind(
        "Shares of tasters below, at and above just right; side is below, right or above",
        "sample order side answer share text",
        "share",
    ),
    "interval": _kind(
        "An estimate with its interval against a limit", "name low mid high limit text", "share"
    ),
    "rank-sums": _kind(
        "Rank sums with what chance may bring; limit is the benchmark's, None without one",
        "name low mid high limit text",
        "sum",
    ),
    "duration-curve": _kind(
        "An attribute over cooking time with its band, the window and the best time",
        "role",
        "duration score",
        {
            "curve": "duration low mid high",
            "tried": "duration score",
            "window": "start end text",
            "best": "duration score text",
        },
    ),
}


def lacking(kind: str, row: Mapping[str, object]) -> set[str]:
    """Name the fields that a row of a kind lacks; a role that is not known lacks itself.

    >>> sorted(lacking("crossover", {"role": "today", "name": "Chuck", "price": 13.6}))
    ['cost', 'text']
    >>> lacking("crossover", {"role": "tomorrow"})
    {'role tomorrow'}
    """
    needs = set(KINDS[kind].needs)
    if roles := KINDS[kind].roles:
        role = str(row.get("role"))
        needs |= set(roles.get(role, (f"role {role}",)))
    return needs - row.keys()
