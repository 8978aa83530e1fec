"""Printing pages batch by batch, in this process or shared out among several.

A batch makes its pages when it is called. Workers are forked, so that the computed
kitchen is shared with them and not copied; what comes back is bytes with the links
found in them, in the order of the batches, so that the site is the same however many
worked on it.

What takes long in one piece (the pages that list everything) is begun while there are still small
batches for the other workers, so that none is left alone with it at the end; and not much
before, for what is printed early is held until its place has come.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

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
MOST_WORKERS = 4
# So many new objects are looked through for cycles at a time.
SELDOM = 200_000


def workers_for(pages: int) -> int:
    """How many processes to share so many pages among; one where forking is not sound.

    A fork copies only the thread that asks for it, so other threads' locks would stay
    shut in the copies; and macOS's own libraries do not outlive a fork.
    """
    if pages < FEW or sys.platform != "linux" or threading.active_count() > 1:
        return 1
    return min(len(os.sched_getaffinity(0)), MOST_WORKERS)


@contextmanager
def printer(
    batches: Sequence[Batch], site: Site, last: Sequence[int], workers: int
) -> Iterator[Printer]:
    """Open what prints batches by their numbers and gives their pages in that order.

    Workers begin at once, with the batches of the numbers `last` after all others.
    """
    _Job.batches, _Job.site = batches, site
    if workers < 2:
        yield lambda numbers: map(_print, numbers)
        return
    order = [*(number for number in range(len(batches)) if number not in last), *last]
    # Objects that are frozen are not looked at by the collector, so their pages of memory
    # are not copied into the workers.
    gc.freeze()
    try:
        context = multiprocessing.get_context("fork")
        with _signals_blocked() as unblock, context.Pool(workers, _in_worker) as pool:
            unblock()
            try:
                yield InOrder(pool.imap_unordered(_print_numbered, order))
            finally:
                # A second Ctrl-C waits until the workers are taken down.
                _block_signals()
    finally:
        gc.unfreeze()


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


@contextmanager
def _signals_blocked() -> Iterator[Callable[[], None]]:
    """Block Ctrl-C and SIGTERM while workers are forked; what is yielded unblocks them.

    A terminal sends Ctrl-C to every process. Workers keep the mask that they are born with, so
    only this process answers and takes them down: one that died with the queue's lock in its
    hand would leave the others, and the pool, waiting without end.
    """
    before = _block_signals()

    def unblock() -> None:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)

    try:
        yield unblock
    finally:
        unblock()


def _block_signals() -> set[int]:
    return set(signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM}))


def _in_worker() -> None:
    """In a new worker: SIGTERM, by which the pool takes it down, ends it at once and silently.

    The cycle collector would look at the same thousands of small objects again and again, of
    which next to none are in a cycle: it comes seldom.
    """
    gc.set_threshold(SELDOM)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGTERM})


class _Job:
    """What this process prints; workers are forked after it is set, and find it here."""

    batches: Sequence[Batch] = ()
    site: Site = Site("")


def _print_numbered(number: int) -> tuple[int, list[Printed]]:
    return number, _print(number)


def _print(number: int) -> list[Printed]:
    return [_printed(page) for page in _Job.batches[number]()]


def _printed(page: Page) -> Printed:
    return with_links(page.path, render(page, _Job.site))


def with_links(path: str, data: bytes) -> Printed:
    """A file with what of its links is still to be checked."""
    return Printed(path, data, open_links(path, data))
