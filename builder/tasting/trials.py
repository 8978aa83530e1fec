"""Trials of a test of difference: which cups stand on which tray."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from builder.language import tr
from builder.tasting.draws import Stream
from builder.tasting.protocols import Protocol, Question
from builder.tasting.wording import tasters_in_words


def trial_patterns(protocol: Protocol) -> tuple[tuple[int, ...], ...]:
    """List every arrangement of samples 0 and 1 that a protocol serves.

    A duo-trio's first cup is the reference.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> trial_patterns(TRIANGLE)[:3]
    ((1, 0, 0), (0, 1, 0), (0, 0, 1))
    """
    cups = range(protocol.alternatives)
    odd = tuple(tuple(int(cup == place) for cup in cups) for place in cups)
    if protocol.question is Question.TRIANGLE:
        return odd + tuple(tuple(1 - cup for cup in row) for row in odd)
    if protocol.question is Question.DUO_TRIO:
        return tuple((reference, *pair) for reference in (0, 1) for pair in ((0, 1), (1, 0)))
    return odd


def trial_sequence(protocol: Protocol, tasters: int, seed: str) -> list[tuple[int, ...]]:
    """Whole shuffled sets of arrangements; the last set is cut short."""
    stream = Stream("trials", seed, protocol.name)
    patterns = trial_patterns(protocol)
    rows: list[tuple[int, ...]] = []
    while len(rows) < tasters:
        rows += stream.shuffled(patterns)
    return rows[:tasters]


def most_cups(protocol: Protocol) -> tuple[int, int]:
    """Cups of each sample that one taster may meet: as many codes let none be met twice."""
    first, second = (
        max(row.count(sample) for row in trial_patterns(protocol)) for sample in (0, 1)
    )
    return first, second


def trial_sentence(protocol: Protocol, rows: Sequence[tuple[int, ...]]) -> str:
    """Say how often each arrangement is served."""
    counts = Counter(rows)
    every = [counts[pattern] for pattern in trial_patterns(protocol)]
    evenly = (
        tr("equally often")
        if min(every) == max(every)
        else tr("{min} to {max} times", min=min(every), max=max(every))
    )
    who = tasters_in_words(len(rows))
    return tr(
        "{who}, {protocol}: each of the {every} arrangements served {evenly}.",
        who=who,
        every=len(every),
        protocol=tr(protocol.name),
        evenly=evenly,
    )
