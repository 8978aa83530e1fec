"""What a tasting's test is called in the trade, by the key that files write."""

from __future__ import annotations

from builder.language import Deferred, tr
from builder.records.tasting_values import PAIRED, RANKS, SCORES

# ISO 4120, 10399, 5495, 8587, 4121 and 13301 [secondary].
_NAMES = {
    SCORES: Deferred("scoring on scales"),
    RANKS: Deferred("ranking"),
    "triangle": Deferred("triangle test"),
    "duo-trio": Deferred("duo-trio test"),
    PAIRED: Deferred("paired comparison test"),
    **{
        f"{cups}-afc": Deferred(f"{cups}-alternative forced choice ({cups}-AFC)")
        for cups in range(2, 6)
    },
}


def method_name(key: str) -> str:
    """The name of a test.

    >>> method_name("2-afc"), method_name("paired")
    ('2-alternative forced choice (2-AFC)', 'paired comparison test')
    """
    return tr(_NAMES.get(key, key))
