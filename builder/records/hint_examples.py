"""Examples within hints."""

from __future__ import annotations

from builder.language import Deferred, tr

# What stands between a kind of value and its example.
_EXAMPLE = Deferred(", for example ")


def with_example(hint: str, example: str) -> str:
    """The hint of a reader with the example of the key in place of the one of its kind.

    >>> with_example("a whole number, for example 412", "60")
    'a whole number, for example 60'
    """
    kind, between, _ = hint.partition(tr(_EXAMPLE))
    return f"{kind}{between}{example}" if between and example else hint
