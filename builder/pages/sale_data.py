"""What the till counted and took, by plate and month, as open data."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import View


def _sales(view: View) -> Iterator[tuple[int, Texts]]:
    for (plate, month), row in view.costed.rows.takings.items():
        till = view.costed.content.till[plate, month]
        words = f"{month:%Y-%m}"
        yield row, (f"{plate}/{words}", plate, words, str(till.days), till.place.file)


SALE_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "sales",
        Deferred("What the till counted and took, by plate and month"),
        "taking",
        (
            Field("id", "Plate and month"),
            Field("plate", "Plate that was sold", refers="plates"),
            Field("month", "Month that it was sold in, such as 2026-09"),
            Field("days", "Days of the month that the till's exports cover", "number"),
            Field("file", "Export with the first of its rows", names_file=True),
        ),
        _sales,
        groups=("sales",),
    ),
)
