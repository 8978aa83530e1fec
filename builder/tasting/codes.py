"""Three-digit blind codes."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise, permutations

from builder.engine.methods import method
from builder.tasting.draws import Stream

# 0, 1 and 9 are left out: round numbers, firsts and bests read as ranks.
_DIGITS = "2345678"
MOST_OF_A_TASTER = 20


def _is_run(code: str) -> bool:
    """Whether the digits count up or down by one."""
    steps = {int(after) - int(before) for before, after in pairwise(code)}
    return steps in ({1}, {-1})


@lru_cache(maxsize=1)
def usable_codes() -> tuple[str, ...]:
    """List the three-digit codes that nobody reads as a rank.

    >>> len(usable_codes())
    200
    """
    every = ("".join(digits) for digits in permutations(_DIGITS, 3))
    return tuple(code for code in every if not _is_run(code))


def mistakable(code: str, other: str) -> bool:
    """Tell whether one slip of the pen turns a code into the other.

    >>> mistakable("247", "274"), mistakable("247", "248"), mistakable("247", "358")
    (True, True, False)
    """
    differing = sum(a != b for a, b in zip(code, other, strict=True))
    return differing < 2 or sorted(code) == sorted(other)


@method(
    unit="1",
    source="common practice, no published source",
    title="Blind codes",
)
def blind_codes(count: int, seed: str) -> tuple[str, ...]:
    """Draw distinct three-digit codes that give nothing away.

    Three different digits from 2 to 8, no run such as 234 or 876. As long as the supply
    lasts (about 20) no slip of one digit and no swap of digits turns a code into another.

    Parameters: count: number of codes [1], 0 to 200. seed: any text.
    Errors: ValueError outside the range.

    >>> codes = blind_codes(6, "demo")
    >>> len(set(codes))
    6
    """
    return _drawn(count, seed)


@lru_cache(maxsize=256)
def _drawn(count: int, seed: str) -> tuple[str, ...]:
    """The same; a tasting's are asked for where its answers are read and where it is planned."""
    pool = Stream("codes", seed).shuffled(usable_codes())
    if not 0 <= count <= len(pool):
        raise ValueError(f"count must be from 0 to {len(pool)} codes, not {count}")
    return tuple(_apart(pool, count))


@method(
    unit="1",
    source="ISO 4120:2021 (codes preferably differ by assessor) [from memory]",
    title="Blind codes by taster",
)
def codes_by_taster(count: int, tasters: Sequence[str], seed: str) -> list[tuple[str, ...]]:
    """Draw each taster's own codes.

    No two tasters share a code as long as the supply of 200 lasts; no slip of one digit and no
    swap of digits turns a code of a tray into another of it, as far as the supply goes. A taster
    added at the end moves no code.

    Parameters: count: codes for each [1], 0 to 20. tasters: private codes, each once. seed: any
    text.
    Errors: ValueError outside those ranges.

    >>> first, second = codes_by_taster(3, ["T1", "T2"], "demo")
    >>> len({*first, *second})
    6
    """
    if not 0 <= count <= MOST_OF_A_TASTER:
        raise ValueError(f"count must be from 0 to {MOST_OF_A_TASTER} codes, not {count}")
    stream = Stream("codes by taster", seed)
    pool: list[str] = []
    found = []
    for _ in tasters:
        if len(pool) < count:
            pool = list(stream.shuffled(usable_codes()))
        chosen = _apart(pool, count)
        pool = [code for code in pool if code not in chosen]
        found.append(tuple(chosen))
    return found


def _apart(pool: Sequence[str], count: int) -> list[str]:
    """The first codes of a pool that no slip turns into each other, others where they run out."""
    chosen: list[str] = []
    for code in pool:
        if len(chosen) < count and not any(mistakable(code, other) for other in chosen):
            chosen.append(code)
    return chosen + [code for code in pool if code not in chosen][: count - len(chosen)]
