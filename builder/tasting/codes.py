"""Three-digit blind codes."""

from __future__ import annotations

from itertools import pairwise, permutations

from builder.engine.methods import method
from builder.tasting.draws import Stream

# 0, 1 and 9 are left out: round numbers, firsts and bests read as ranks.
_DIGITS = "2345678"


def _is_run(code: str) -> bool:
    """Whether the digits count up or down by one."""
    steps = {int(after) - int(before) for before, after in pairwise(code)}
    return steps in ({1}, {-1})


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

    count: number of codes [1], 0 to 200. seed: any text. Raises ValueError outside the range.

    >>> codes = blind_codes(6, "demo")
    >>> len(set(codes))
    6
    """
    pool = Stream("codes", seed).shuffled(usable_codes())
    if not 0 <= count <= len(pool):
        raise ValueError(f"count must be from 0 to {len(pool)} codes, not {count}")
    chosen: list[str] = []
    for code in pool:
        if not any(mistakable(code, other) for other in chosen):
            chosen.append(code)
    chosen += [code for code in pool if code not in chosen]
    return tuple(chosen[:count])
