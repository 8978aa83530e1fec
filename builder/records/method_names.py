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
    "2-afc": Deferred("2-alternative forced choice (2-AFC)"),
    "3-afc": Deferred("3-alternative forced choice (3-AFC)"),
    "4-afc": Deferred("4-alternative forced choice (4-AFC)"),
    "5-afc": Deferred("5-alternative forced choice (5-AFC)"),
}


def method_name(key: str) -> str:
    """The name of a test.

    >>> method_name("2-afc"), method_name("paired")
    ('2-alternative forced choice (2-AFC)', 'paired comparison test')
    """
    return tr(_NAMES.get(key, key))
