"""A tasting's file as its page shows it while the seed of its codes has to stay unknown."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import yaml

from builder.language import Deferred, tr
from builder.reading.tree import Text

KEPT = Deferred("(kept out of the site until the session is over)")
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
Span = tuple[tuple[int, int], tuple[int, int]]


def without_seed(lines: Sequence[str], seed: Text) -> tuple[str, ...]:
    """The lines of a file without its seed, however it is written; as many as before.

    Where the words could still be read off in another way, no line is shown.
    """
    shown = list(lines)
    for start, end in _spans(lines, seed):
        _hide(shown, start, end)
    words = re.compile(re.escape(seed), re.IGNORECASE)
    shown = [words.sub(tr(KEPT), line) for line in shown]
    if _squeezed(seed) in _squeezed("".join(shown).replace(KEPT, "|")):
        return (tr(KEPT),) * len(shown)
    return tuple(shown)


def _spans(lines: Sequence[str], seed: Text) -> Iterator[Span]:
    """Where the seed is written, lines and columns from 0."""
    at = seed.place.line - 1, seed.place.column - 1
    for token in yaml.scan("\n".join(lines), Loader=_Loader):
        if isinstance(token, yaml.ScalarToken):
            start, end = ((mark.line, mark.column) for mark in (token.start_mark, token.end_mark))
            if start == at:
                yield start, end


def _hide(lines: list[str], start: tuple[int, int], end: tuple[int, int]) -> None:
    """Put the notice in place of what is between two marks."""
    (first, left), (last, right) = start, end
    after = lines[last][right:] if last < len(lines) else ""
    for line in range(first + 1, min(last + 1, len(lines))):
        lines[line] = ""
    if last > first and last < len(lines):
        lines[last] = after
        after = ""
    lines[first] = f"{lines[first][:left]}{tr(KEPT)}{after}"


def _squeezed(text: str) -> str:
    return "".join(text.lower().split())
