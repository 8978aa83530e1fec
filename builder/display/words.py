"""Words as sentences join them."""

from __future__ import annotations

from collections.abc import Sequence

from builder.language import tr, written


def listed(words: Sequence[str]) -> str:
    """Join words as a sentence does.

    >>> listed(["milk", "eggs", "fish"])
    'milk, eggs and fish'
    """
    words = [written(word) for word in words]
    if len(words) < 2:
        return "".join(words)
    return tr("{words} and {words2}", words=", ".join(words[:-1]), words2=words[-1])
