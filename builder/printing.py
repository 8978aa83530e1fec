"""Printing pages batch by batch, in this process or shared out among several.

A batch makes its pages when it is called. What comes back is bytes with the links found in them,
in the order of the batches, so that the site is the same however many worked on it.

What takes long in one piece (the pages that list everything) is begun while there are still small
batches for the other workers, so that none is left alone with it at the end; and not much
before, for what is printed early is held until its place has come.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from builder import forking
from builder.forking import shared_out
from builder.pages.components import Page, Site
from builder.pages.rendering import render
from builder.pages.site import Batch
from builder.publish import OpenLinks, open_links


@dataclass(frozen=True, slots=True)
class Printed:
    """A printed page, or another file, and what of its links is still to be checked."""

    path: str
    data: bytes
    links: OpenLinks


Printer = Callable[[Iterable[int]], Iterator[list[Printed]]]

# Starting workers takes about as long as printing this many pages.
FEW = 400


def workers_for(pages: int) -> int:
    """How many processes to share so many pages among."""
    return forking.workers_for(pages, FEW)


@contextmanager
def printer(
    batches: Sequence[Batch], site: Site, last: Sequence[int], workers: int
) -> Iterator[Printer]:
    """Open what prints batches by their numbers and gives their pages in that order.

    Workers begin at once, with the batches of the numbers `last` after all others.
    """

    def printed(number: int) -> list[Printed]:
        return [_printed(page, site) for page in batches[number]()]

    if workers < 2:
        yield lambda numbers: map(printed, numbers)
        return
    order = [*(number for number in range(len(batches)) if number not in last), *last]
    with shared_out(printed, workers) as done:
        yield InOrder(done(order))


class InOrder:
    """Gives batches in the order that they are asked for in, whatever order they come in."""

    def __init__(self, coming: Iterator[tuple[int, list[Printed]]]) -> None:
        self._coming = coming
        self._waiting: dict[int, list[Printed]] = {}

    def __call__(self, numbers: Iterable[int]) -> Iterator[list[Printed]]:
        """Print the batches of these numbers, in their order."""
        for number in numbers:
            while number not in self._waiting:
                came, printed = next(self._coming)
                self._waiting[came] = printed
            yield self._waiting.pop(number)


def _printed(page: Page, site: Site) -> Printed:
    return with_links(page.path, render(page, site))


def with_links(path: str, data: bytes) -> Printed:
    """A file with what of its links is still to be checked."""
    return Printed(path, data, open_links(path, data))
