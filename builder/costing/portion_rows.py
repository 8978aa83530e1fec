"""Rows of the portions beyond a plate's main one, and of what a swap's limits move with them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from builder.costing.entries import entry, noted
from builder.engine.book import Book, Entry, Identity
from builder.money.menu import FURTHER_ORDER
from builder.money.portions import PORTION
from builder.money.swap_portions import MOVED
from builder.problems import Place
from builder.records.content import Content
from builder.records.kinds import Plate, Swap
from builder.records.plates import Portion


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
    cooks: Mapping[str, int],
    covers: Iterable[Entry | None],
) -> list[Further]:
    """Add the further portions of one plate, with their orders."""
    several = list(covers)
    return [
        _further(book, content, plate, portion, f"portion.{number}", links, several)
        for number, portion in enumerate(plate.further, start=2)
        if (links := {"plate": plate_row, "kitchen": 0, "batch": cooks[portion.cook]})
    ]


def _further(
    book: Book,
    content: Content,
    plate: Plate,
    portion: Portion,
    key: str,
    links: Mapping[str, int],
    covers: list[Entry | None],
) -> Further:
    title = content.cooks[portion.cook].title
    values = {"stated_portion": entry(portion.weight), "portion_pieces": entry(portion.pieces)}
    row = book.add(PORTION, links, values, Identity(plate.path, key, title))
    orders = [
        book.add(
            FURTHER_ORDER,
            {"portion": row},
            {"covers": each},
            Identity(plate.path, f"{key}.order.{number}", f"{title}, order {number}"),
        )
        for number, each in enumerate(covers, start=1)
    ]
    return Further(portion, row, orders)


def moved_rows(
    book: Book,
    content: Content,
    swap: Swap,
    sides: tuple[Plate, Plate],
    swap_row: int,
    further: Mapping[str, list[Further]],
) -> None:
    """Add the further portions of both plates of the cut that a swap's limits move.

    `sides` are the challenger and the benchmark.
    """
    challenger, _ = sides
    if challenger.cook is None:
        return
    cut = content.cooks[challenger.cook].cut
    for plate in sides:
        for number, portion, row in _of_cut(content, cut, further[plate.id]):
            book.add(
                MOVED,
                {"swap": swap_row, "portion": row},
                {
                    "on_challenger": _flag(swap, plate is challenger, "whose plate it is on"),
                    "moved_cook": _flag(
                        swap, portion.cook == challenger.cook, "whether it is of the main cook"
                    ),
                },
                Identity(
                    swap.path,
                    f"{challenger.id}.{plate.id}.portion.{number}",
                    f"{plate.title}, {content.cooks[portion.cook].title}",
                ),
            )


def _of_cut(
    content: Content, cut: str, further: list[Further]
) -> Iterator[tuple[int, Portion, int]]:
    for number, each in enumerate(further, start=2):
        if content.cooks[each.portion.cook].cut == cut:
            yield number, each.portion, each.row


def _flag(swap: Swap, value: bool, what: str) -> Entry:
    return noted(float(value), Place(swap.file), what)
