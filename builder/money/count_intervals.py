"""How sure a count's theoretical cost is, and what is measured against it: 90 % intervals."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from builder.money import actuals as _actuals  # noqa: F401 - declares what was used and thrown
from builder.money.counted import COUNT, SALE, USAGE
from builder.money.intervals import with_intervals

_PARTS = ("portion_effect", "yield_effect", "thrown_effect", "unexplained", "difference")
COUNT_INTERVALS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        SALE.name: ("theoretical_food", "portion_effect", "yield_effect"),
        USAGE.name: ("theoretical_protein", "actual_protein", *_PARTS),
        COUNT.name: (
            "theoretical_food", "actual_food", "theoretical_share", "actual_share", *_PARTS
        ),
    }
)  # fmt: skip
"""By table what has an interval of its own. Prices are no part of it: a period is costed at
those of its day, and what was paid beside them is known."""

for _table in (SALE, USAGE, COUNT):
    with_intervals(_table, COUNT_INTERVALS[_table.name])
