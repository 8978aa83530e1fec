"""Where most tasters put another sample above the one with the highest mean, in words."""

from __future__ import annotations

from collections.abc import Iterable

from builder.display.words import listed
from builder.language import tr
from builder.tasting.judged import Rather
from builder.tasting.wording import points_in_words


def though_words(samples: Iterable[tuple[str, Rather, float | None]]) -> str:
    """Name the samples, who put them above, and their means [points of 100] where scored.

    >>> though_words([("a", Rather(0, 11, 14), 49.8)])
    ', though 11 of 14 put a above it (mean 49.8)'
    """
    parts = [_put_words(*each) for each in samples]
    return tr(", though {parts}", parts=listed(parts)) if parts else ""


def _put_words(name: str, counted: Rather, mean: float | None) -> str:
    words = (
        ""
        if mean is None
        else tr(" (mean {points_in_words})", points_in_words=points_in_words(mean))
    )
    put = tr("{above} of {both} put {name}", above=counted.above, both=counted.both, name=name)
    return tr("{put} above it{mean}", put=put, mean=words)
