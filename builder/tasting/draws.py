"""Chance that repeats: the same seed gives the same draw on every machine and version."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import sha256
from itertools import count
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Item = TypeVar("Item")

_WORD = 1 << 64


def _digest(labels: Sequence[str | int], counter: int) -> bytes:
    """Hash of the labels and a counter; the separators keep ("a", "bc") from ("ab", "c")."""
    return sha256("\x1f".join([*map(str, labels), str(counter)]).encode()).digest()


class Stream:
    """An endless stream of whole numbers drawn from SHA-256 of its labels.

    >>> Stream("seed", 1).shuffled("abcd") == Stream("seed", 1).shuffled("abcd")
    True
    """

    def __init__(self, *labels: str | int) -> None:
        self._words = self._generate(labels)

    @staticmethod
    def _generate(labels: Sequence[str | int]) -> Iterator[int]:
        for counter in count():
            block = _digest(labels, counter)
            for start in range(0, len(block), 8):
                yield int.from_bytes(block[start : start + 8], "big")

    def below(self, bound: int) -> int:
        """Draw a whole number from 0 to `bound` − 1, every one equally likely."""
        if bound < 1:
            raise ValueError(f"bound must be 1 or more, not {bound}")
        # Words past the last full multiple of the bound would favour small remainders.
        usable = _WORD - _WORD % bound
        return next(word for word in self._words if word < usable) % bound

    def shuffled(self, items: Sequence[Item]) -> tuple[Item, ...]:
        """Return the items in random order (Fisher-Yates)."""
        pool = list(items)
        for last in range(len(pool) - 1, 0, -1):
            other = self.below(last + 1)
            pool[last], pool[other] = pool[other], pool[last]
        return tuple(pool)


def random_words(shape: tuple[int, ...], *labels: str | int) -> NDArray[np.uint64]:
    """Fill an array with 64-bit words from the labels.

    The raw output of PCG64 is promised not to change between versions of NumPy, unlike
    the distributions drawn from it, so only raw words are used.
    """
    generator = np.random.PCG64(int.from_bytes(_digest(labels, 0), "big"))
    words: NDArray[np.uint64] = generator.random_raw(int(np.prod(shape))).reshape(shape)
    return words
