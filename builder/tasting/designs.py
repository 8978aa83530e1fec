"""Serving orders: Williams designs, and incomplete ones where a mouth can't bear them all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, permutations

import numpy as np
from numpy.typing import NDArray

from builder.engine.methods import method
from builder.language import ntr, tr
from builder.tasting.draws import Stream
from builder.tasting.wording import tasters_in_words

Orders = tuple[tuple[int, ...], ...]
Counts = NDArray[np.int64]

MOST_SAMPLES = 12
MOST_PER_TASTER = 6
_RESTARTS = 24
_REARRANGEMENTS = 6
_SWEEPS = 30


@dataclass(frozen=True, slots=True)
class Balance:
    """How evenly orders are spread, each as (fewest, most) over the samples.

    `servings`: how often a sample is served; `positions`: how often in one given place;
    `neighbours`: how often straight after one given other; `together`: how often in the
    same taster's set as one given other.
    """

    tasters: int
    samples: int
    per_taster: int
    servings: tuple[int, int]
    positions: tuple[int, int]
    neighbours: tuple[int, int]
    together: tuple[int, int]

    @property
    def exact(self) -> bool:
        """Whether places, neighbours and company are each equally frequent."""
        return all(
            low == high
            for low, high in (self.servings, self.positions, self.neighbours, self.together)
        )

    @property
    def sentence(self) -> str:
        """Say how balanced the orders are."""
        tasters = tasters_in_words(self.tasters)
        if self.per_taster == self.samples:
            counts = ntr(
                "{tasters}, {count} sample each: ",
                "{tasters}, {count} samples each: ",
                self.samples,
                tasters=tasters,
            )
        else:
            counts = tr(
                "{tasters}, {per_taster} of {samples} samples each: ",
                tasters=tasters,
                per_taster=self.per_taster,
                samples=self.samples,
            )
        if self.exact:
            return counts + tr(
                "every sample is served equally often in every place and after every other."
            )
        return counts + (
            tr(
                "a sample is served {times}, in one place {times2}, straight after one "
                "given other {times3}, beside one given other {times4}.",
                times=_times(self.servings),
                times2=_times(self.positions),
                times3=_times(self.neighbours),
                times4=_times(self.together),
            )
        )


def _times(limits: tuple[int, int]) -> str:
    low, high = limits
    if limits == (1, 1):
        return tr("once")
    return (
        tr("{low} times", low=low)
        if low == high
        else tr("{low} to {high} times", low=low, high=high)
    )


def _limits(counts: Counts) -> tuple[int, int]:
    return (int(counts.min()), int(counts.max())) if counts.size else (0, 0)


def _tally(orders: Sequence[Sequence[int]], samples: int) -> tuple[Counts, Counts, Counts]:
    """Count places, ordered neighbours and (symmetric) company."""
    places = np.zeros((samples, max(map(len, orders))), dtype=np.int64)
    follows = np.zeros((samples, samples), dtype=np.int64)
    company = np.zeros((samples, samples), dtype=np.int64)
    for order in orders:
        places[order, np.arange(len(order))] += 1
        for before, after in pairwise(order):
            follows[before, after] += 1
        company[np.ix_(order, order)] += 1
    return places, follows, company


def order_balance(orders: Sequence[Sequence[int]], samples: int) -> Balance:
    """Count how balanced serving orders are.

    orders: one row of sample numbers (from 0) per taster; samples: number of samples [1].
    Raises ValueError for no orders, an empty one, a repeated sample or a number off its range.

    >>> order_balance(williams_design(4), 4).exact
    True
    """
    for order in orders:
        if not order or len(set(order)) < len(order) or not set(order) <= set(range(samples)):
            raise ValueError(f"an order must hold different numbers from 0 to {samples - 1}")
    if not orders:
        raise ValueError("orders must hold at least 1 row")
    places, follows, company = _tally(orders, samples)
    apart = ~np.eye(samples, dtype=bool)
    return Balance(
        tasters=len(orders),
        samples=samples,
        per_taster=places.shape[1],
        servings=_limits(np.diag(company)),
        positions=_limits(places),
        neighbours=_limits(follows[apart]),
        together=_limits(company[apart]),
    )


@method(
    unit="1",
    source="Williams, Experimental designs balanced for the estimation of residual effects of"
    " treatments, Australian Journal of Scientific Research A 2, 1949 [from memory; the balance"
    " is proven by count]",
    title="Williams design",
)
def williams_design(samples: int) -> Orders:
    """Serving orders balanced for place and for what came just before.

    First row 0, 1, p−1, 2, p−2, ...; each next row adds 1 modulo p. An odd number p needs
    the mirrored rows as well.

    Parameters: samples: number of samples p [1], 1 to 12. Returns p rows (even) or 2 p rows (odd).
    Errors: ValueError outside that range.

    >>> [[s + 1 for s in row] for row in williams_design(4)]
    [[1, 2, 4, 3], [2, 3, 1, 4], [3, 4, 2, 1], [4, 1, 3, 2]]
    """
    _check_range("samples", samples, 1, MOST_SAMPLES)
    steps = range(samples)
    first = [-(step // 2) % samples if step % 2 == 0 else step // 2 + 1 for step in steps]
    square = tuple(tuple((place + row) % samples for place in first) for row in steps)
    mirrored = tuple(row[::-1] for row in square) if samples % 2 and samples > 1 else ()
    return square + mirrored


def _check_range(name: str, value: int, low: int, high: int) -> None:
    if not low <= value <= high:
        raise ValueError(f"{name} must be from {low} to {high}, not {value}")


def _complete_orders(samples: int, tasters: int, stream: Stream) -> Orders:
    """Whole Williams designs with fresh labels each, the last one cut short."""
    rows: list[tuple[int, ...]] = []
    while len(rows) < tasters:
        names = stream.shuffled(range(samples))
        square = williams_design(samples)
        # Cyclic rows stay evenly spread when cut short, so a started square isn't shuffled.
        rows += [tuple(names[sample] for sample in row) for row in square]
    return stream.shuffled(rows[:tasters])


def _members(samples: int, size: int, stream: Stream) -> Counts:
    """Every set of samples as a row of zeros and ones, in random order."""
    sets = np.array(stream.shuffled(list(combinations(range(samples), size))), dtype=np.int64)
    member = np.zeros((len(sets), samples), dtype=np.int64)
    np.put_along_axis(member, sets, 1, axis=1)
    return member


def _cycle(base: Counts, moving: int) -> Counts:
    """A set moved on through the first `moving` samples, the others standing still."""
    steps = [np.roll(base[:moving], step) for step in range(moving)]
    return np.hstack([np.array(steps), np.tile(base[moving:], (moving, 1))])


def _cyclic_blocks(member: Counts, tasters: int, moving: int) -> Counts:
    """Sets developed in cycles of `moving`, each base the one that suits best."""
    company = np.zeros((member.shape[1],) * 2, dtype=np.int64)
    cycles = [_cycle(base, moving) for base in member]
    chosen: list[Counts] = []
    while len(chosen) * moving < tasters:
        best = min(cycles, key=lambda cycle: int(((company + cycle.T @ cycle) ** 2).sum()))
        company += best.T @ best
        chosen.append(best)
    return np.concatenate(chosen)[:tasters]


def _improved(blocks: Counts, member: Counts) -> Counts:
    """Each set re-chosen in turn against all others, until none improves."""
    company = blocks.T @ blocks
    for _ in range(_SWEEPS):
        before = blocks.copy()
        for taster, block in enumerate(blocks):
            company -= np.outer(block, block)
            costs = ((member @ company) * member).sum(axis=1)
            blocks[taster] = member[int(np.argmin(costs))]
            company += np.outer(blocks[taster], blocks[taster])
        if np.array_equal(before, blocks):
            break
    return blocks


def _best_blocks(samples: int, tasters: int, size: int, stream: Stream) -> list[Counts]:
    """The most even sets found from cyclic and from random starts."""
    member = _members(samples, size, stream)
    # Known balanced designs are mostly cycles of all samples, or of all but one.
    cycles = [_cyclic_blocks(member, tasters, max(1, samples - still)) for still in (0, 1)]
    tries = [_improved(start, member) for start in cycles]
    for _ in range(_RESTARTS):
        member = np.array(stream.shuffled(list(member)))
        picks = [stream.below(len(member)) for _ in range(tasters)]
        tries.append(_improved(member[picks], member))
    return [np.flatnonzero(block) for block in min(tries, key=_unevenness)]


def _unevenness(blocks: Counts) -> tuple[int, int]:
    """Sums of squares of servings and of company: least where all are equal."""
    company = blocks.T @ blocks
    return int((np.diag(company) ** 2).sum()), int((company**2).sum())


def _arrange(blocks: Sequence[Counts], samples: int) -> tuple[int, int, Orders]:
    """Order each set so that places and neighbours come out even; how uneven both are, too."""
    size = len(blocks[0])
    shuffles = np.array(list(permutations(range(size))), dtype=np.int64)
    places = np.zeros((samples, size), dtype=np.int64)
    follows = np.zeros((samples, samples), dtype=np.int64)
    rows: list[Counts] = [np.empty(0, dtype=np.int64)] * len(blocks)
    for _ in range(_SWEEPS):
        before = rows.copy()
        for taster, block in enumerate(blocks):
            row = rows[taster]
            places[row, np.arange(len(row))] -= 1
            follows[row[:-1], row[1:]] -= 1
            options = block[shuffles]
            cost = 2 * places[options, np.arange(size)].sum(axis=1)
            cost += follows[options[:, :-1], options[:, 1:]].sum(axis=1)
            rows[taster] = options[int(np.argmin(cost))]
            places[rows[taster], np.arange(size)] += 1
            follows[rows[taster][:-1], rows[taster][1:]] += 1
        if np.array_equal(before, rows):
            break
    orders = tuple(tuple(int(sample) for sample in row) for row in rows)
    return int((places**2).sum()), int((follows**2).sum()), orders


def _incomplete_orders(
    samples: int, tasters: int, size: int, always: int | None, stream: Stream
) -> Orders:
    others = [sample for sample in range(samples) if sample != always]
    fixed = [] if always is None else [always]
    best = _best_blocks(len(others), tasters, size - len(fixed), stream)
    blocks = [np.array(fixed + [others[index] for index in block]) for block in best]
    arranged = [_arrange(stream.shuffled(blocks), samples) for _ in range(_REARRANGEMENTS)]
    return stream.shuffled(min(arranged)[2])


@method(
    unit="1",
    source="Wakeling & MacFie, Designing consumer trials balanced for first and higher orders of"
    " carry-over effect, Food Quality and Preference 6, 1995 [from memory; the search is ours,"
    " the balance reached is counted and stated]",
    title="Serving orders",
)
def serving_orders(
    samples: int, tasters: int, per_taster: int, seed: str, always: int | None = None
) -> Orders:
    """Give every taster an order of samples, as balanced as the numbers allow.

    All samples to everybody: whole Williams designs, the last cut short. Fewer: sets chosen
    so that servings and pairs come out even, then ordered so that places and neighbours do.

    Parameters: samples: number of samples [1], 1 to 12. tasters: [1], 1 to 200. per taster: samples
    a mouth can bear [1], 1 to 6 where it is below samples. seed: any text. always: number (from 0)
    of a sample that everybody gets, the benchmark, or none.
    Errors: ValueError outside those ranges.

    >>> order_balance(serving_orders(4, 8, 4, "demo"), 4).exact
    True
    """
    _check_range("samples", samples, 1, MOST_SAMPLES)
    _check_range("tasters", tasters, 1, 200)
    if always is not None:
        _check_range("always", always, 0, samples - 1)
    stream = Stream("orders", seed, samples, tasters, per_taster)
    if per_taster >= samples:
        return _complete_orders(samples, tasters, stream)
    _check_range("per_taster", per_taster, 1 if always is None else 2, MOST_PER_TASTER)
    return _incomplete_orders(samples, tasters, per_taster, always, stream)
