"""Rows of the portions beyond a plate's main one, with what to buy for them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from builder.costing.entries import entry
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.menu import FURTHER_ORDER
from builder.money.portions import PORTION
from builder.records.content import Content
from builder.records.kinds import Plate
from builder.records.plates import Portion
from builder.records.portions import source_of


class Further(NamedTuple):
    """A further portion of a plate with its row and those of its orders."""

    portion: Portion
    row: int
    orders: list[int]


def further_rows(
    book: Book,
    content: Content,
    plate: Plate,
    plate_row: int,
    batches: Iterable[int],
    covers: Iterable[Entry | None],
) -> list[Further]:
    """Add the further portions of one plate, each of its batch, with their orders."""
    several = list(covers)
    found: list[Further] = []
    for portion, batch in zip(plate.further, batches, strict=True):
        links = {"plate": plate_row, "kitchen": 0, "batch": batch}
        key = f"portion.{len(found) + 2}"
        found.append(_further(book, content, plate, portion, key, links, several))
    return found


def _further(
    book: Book,
    content: Content,
    plate: Plate,
    portion: Portion,
    key: str,
    links: Mapping[str, int],
    covers: list[Entry | None],
) -> Further:
    title = source_of(content, portion).title
    values = {"stated_portion": entry(portion.weight), "portion_pieces": entry(portion.pieces)}
    row = book.add(PORTION, links, values, Identity(plate.path, key, title))
    orders = [
        book.add(
            FURTHER_ORDER,
            {"portion": row},
            {"covers": each},
            Identity(
                plate.path,
                f"{key}.order.{number}",
                tr("{title}, order {number}", title=title, number=number),
            ),
        )
        for number, each in enumerate(covers, start=1)
    ]
    return Further(portion, row, orders)
