"""What a list says that an item is sold in, and its deposit, against what it said before."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.records.content import Content, PriceRow
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.written import Doubted, Value, far

# A supplier may change from a small case to a large one, hardly to one of ten times the size.
# Common practice, no published source.
APART = 6.0
_KINDS = ("pack", "piece", "steps")


def check_packs(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a size of a pack, a piece or a step, or a deposit, far from those before it."""
    records: dict[str, Cut | PantryItem] = {**content.pantry, **content.cuts}
    for row, key, size, earlier in _changed(content):
        record = records.get(str(row.item))
        if record is not None and size.place not in reported:
            of = (
                tr("{record}'s earlier deposits", record=record.title)
                if key == "deposit"
                else tr("{record}'s earlier sizes", record=record.title)
            )
            value = Value(f"prices.{key}", size, record, record.path, row.date.day)
            yield from far(value, median(earlier), APART, of)


def _changed(content: Content) -> Iterator[tuple[PriceRow, str, Measure, list[float]]]:
    """Each row with a size or a deposit and those before it, of one item, supplier and kind."""
    before: dict[tuple[str, ...], list[float]] = defaultdict(list)
    for row in sorted(content.prices, key=lambda each: each.date.day):
        sold = row.sold_as
        kind = next((each for each in _KINDS if sold and getattr(sold, each)), "")
        for key, size in (("sold as", sold.step if sold else None), ("deposit", row.deposit)):
            if size is None or size.value <= 0:
                continue
            earlier = before[key, str(row.item), str(row.supplier), kind, str(size.dimension)]
            if earlier:
                yield row, key, size, earlier
            earlier.append(size.value)
