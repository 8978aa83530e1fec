"""How far a long build has got: a bar on a terminal, silence everywhere else."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from functools import partial
from typing import Protocol, TextIO


class Advance(Protocol):
    """Say that some of a stage's work is done."""

    def __call__(self, count: int = 1, /) -> None:
        """Count `count` pieces of work as done."""


class Progress(Protocol):
    """Takes note of the stages of a build.

    >>> with Quiet().stage("render", total=2) as step:
    ...     step()
    ...     step()
    """

    def stage(self, name: str, total: int | None = None) -> AbstractContextManager[Advance]:
        """Open a stage of `total` pieces of work; None when nobody knows how many."""


class Quiet:
    """Shows nothing: for pipes, logs and tests."""

    @contextmanager
    def stage(self, name: str, total: int | None = None) -> Iterator[Advance]:  # noqa: ARG002
        """Open a stage that nobody sees."""
        yield _ignore


def _ignore(_count: int = 1, /) -> None:
    pass


class Bar:
    """A bar a stage on a terminal, gone when the stage is done."""

    def __init__(self, stream: TextIO, *, colour: bool = True) -> None:
        self._stream = stream
        self._colour = colour

    @contextmanager
    def stage(self, name: str, total: int | None = None) -> Iterator[Advance]:
        """Open a stage and draw its bar until it ends."""
        # rich takes a tenth of a second to import, which only a build on a terminal has to spend.
        from rich.console import Console  # noqa: PLC0415
        from rich.progress import BarColumn, MofNCompleteColumn, TextColumn  # noqa: PLC0415
        from rich.progress import Progress as Drawing  # noqa: PLC0415

        console = Console(file=self._stream, force_terminal=True, no_color=not self._colour)
        columns = (
            TextColumn("{task.description}", markup=False),
            BarColumn(),
            MofNCompleteColumn(),
        )
        with Drawing(*columns, console=console, transient=True) as drawing:
            task = drawing.add_task(name, total=total)
            # Each update takes a lock and keeps a history; a bar has no more than some 100 cells.
            batch = _Batch(partial(drawing.advance, task), (total or 0) // 200)
            yield batch
            batch.flush()


class _Batch:
    """Hands counts on in lumps."""

    def __init__(self, advance: Callable[[float], None], size: int) -> None:
        self._advance = advance
        self._size = size
        self._held = 0

    def __call__(self, count: int = 1, /) -> None:
        self._held += count
        if self._held > self._size:
            self.flush()

    def flush(self) -> None:
        self._advance(self._held)
        self._held = 0


def progress_on(
    stream: TextIO | None = None, environment: Mapping[str, str] = os.environ
) -> Progress:
    """Choose the bar for a terminal that can move its cursor, silence for everything else.

    The stream is standard error unless another is given. A terminal called "dumb" gets
    silence; NO_COLOR set to anything but nothing takes the colour away, as its convention says.
    """
    stream = stream or sys.stderr
    if not stream.isatty() or environment.get("TERM") == "dumb":
        return Quiet()
    return Bar(stream, colour=not environment.get("NO_COLOR"))
