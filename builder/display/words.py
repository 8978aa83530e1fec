"""Words as sentences join them."""

from __future__ import annotations

from collections.abc import Sequence


def listed(words: Sequence[str]) -> str:
    """Join words as a sentence does.

    >>> listed(["milk", "eggs", "fish"])
    'milk, eggs and fish'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
