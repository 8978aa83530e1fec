"""Words of the files that the builder knows, ways of cooking and shapes, as a page says them."""

from __future__ import annotations

from builder.language import Deferred, tr

# As the files have them, in small letters; any other word is the kitchen's own and stays.
_KNOWN = frozenset(
    {
        Deferred("water bath"), Deferred("oven"), Deferred("steam oven"), Deferred("steam"),
        Deferred("braise"), Deferred("roast"), Deferred("smoke"), Deferred("grill"),
        Deferred("pan"), Deferred("sear"), Deferred("simmer"), Deferred("poach"),
        Deferred("ice bath"), Deferred("blast chiller"), Deferred("cold room"),
        Deferred("piece"), Deferred("block"), Deferred("slab"), Deferred("cylinder"),
        Deferred("sphere"),
    }
)  # fmt: skip


def way_words(written: str) -> str:
    """A way of cooking, a medium or a shape in the language of the pages, where it is known.

    >>> way_words("water bath"), way_words("Grandmother's pot")
    ('water bath', "Grandmother's pot")
    """
    known = written.lower()
    said = tr(known) if known in _KNOWN else known
    return str(written) if said == known else said
