"""Work in many pieces, done in this process or shared out among forked ones.

Workers are forked, so that what the pieces are made from is shared with them and not copied; only
what comes of a piece is sent back.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any, TypeVar

R = TypeVar("R")

MOST_WORKERS = 4
# So many new objects are looked through for cycles at a time.
SELDOM = 200_000


def workers_for(pieces: int, few: int) -> int:
    """How many processes to share so many pieces among; one for few, or where a fork is not sound.

    A fork copies only the thread that asks for it, so other threads' locks would stay
    shut in the copies; and macOS's own libraries do not outlive a fork.
    """
    if pieces < few or sys.platform != "linux" or threading.active_count() > 1:
        return 1
    return min(len(os.sched_getaffinity(0)), MOST_WORKERS)


@contextmanager
def shared_out(
    work: Callable[[int], R], workers: int
) -> Iterator[Callable[[Iterable[int]], Iterator[tuple[int, R]]]]:
    """Open what does pieces of work by their numbers and gives each with its number.

    One process does them as they are asked for; of several each takes the next as soon as it is
    free, so they come in any order. What comes of a piece must be fit to be pickled.

    >>> with shared_out(lambda number: number**2, workers=1) as done:
    ...     list(done([2, 3]))
    [(2, 4), (3, 9)]
    """
    if workers < 2:
        yield lambda numbers: ((number, work(number)) for number in numbers)
        return
    _Job.work = staticmethod(work)
    # Objects that are frozen are not looked at by the collector, so their pages of memory
    # are not copied into the workers.
    gc.freeze()
    try:
        context = multiprocessing.get_context("fork")
        with _signals_blocked() as unblock, context.Pool(workers, _in_worker) as pool:
            unblock()
            try:
                yield lambda numbers: pool.imap_unordered(_numbered, numbers)
            finally:
                # A second Ctrl-C waits until the workers are taken down.
                _block_signals()
    finally:
        gc.unfreeze()


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
    """What workers do; they are forked after it is set, and find it here."""

    work: Callable[[int], Any]


def _numbered(number: int) -> tuple[int, Any]:
    return number, _Job.work(number)
