"""Words of the files that the builder knows, ways of cooking and shapes, as a page says them."""

from __future__ import annotations

from collections.abc import Collection

from builder.language import Deferred, tr

# As the files have them, in small letters; any other word is the kitchen's own and stays.
_KNOWN = frozenset(
    {
        Deferred("water bath"), Deferred("oven"), Deferred("steam oven"), Deferred("steam"),
        Deferred("braise"), Deferred("roast"), Deferred("smoke"), Deferred("grill"),
        Deferred("pan"), Deferred("sear"), Deferred("simmer"), Deferred("simmering liquid"),
        Deferred("poach"),
        Deferred("ice bath"), Deferred("blast chiller"), Deferred("cold room"),
        Deferred("piece"), Deferred("block"), Deferred("slab"), Deferred("cylinder"),
        Deferred("sphere"),
    }
)  # fmt: skip

_SPECIES = frozenset(
    {
        Deferred("beef"), Deferred("veal"), Deferred("lamb"), Deferred("pork"),
        Deferred("poultry"), Deferred("game"), Deferred("fish"), Deferred("other"),
    }
)  # fmt: skip
_GEAR = frozenset(
    {
        Deferred("water bath"), Deferred("oven"), Deferred("steam oven"), Deferred("combi"),
        Deferred("combi oven"), Deferred("combination oven"), Deferred("convection oven"),
        Deferred("range"), Deferred("stove"), Deferred("hob"), Deferred("burner"),
        Deferred("burners"), Deferred("grill"), Deferred("pan"), Deferred("chiller"),
        Deferred("blast chiller"), Deferred("ice bath"), Deferred("cold room"),
    }
)  # fmt: skip
_PACKS = frozenset(
    {
        Deferred("case"), Deferred("box"), Deferred("carton"), Deferred("crate"), Deferred("bag"),
        Deferred("sack"), Deferred("pack"), Deferred("tray"), Deferred("flat"), Deferred("tin"),
        Deferred("can"), Deferred("jar"), Deferred("bottle"), Deferred("tub"), Deferred("bunch"),
        Deferred("keg"), Deferred("barrel"), Deferred("drum"),
    }
)  # fmt: skip


def way_words(written: str) -> str:
    """A way of cooking, a medium or a shape in the language of the pages, where it is known.

    >>> way_words("water bath"), way_words("Grandmother's pot")
    ('water bath', "Grandmother's pot")
    """
    return _said(written, _KNOWN)


def species_words(written: str) -> str:
    """A species in the language of the pages, where it is known.

    >>> species_words("beef"), species_words("Guinea fowl")
    ('beef', 'Guinea fowl')
    """
    return _said(written, _SPECIES)


def pack_words(written: str) -> str:
    """What things are sold in, in the language of the pages, where it is known.

    >>> pack_words("case")
    'case'
    """
    return _said(written, _PACKS)


def gear_words(written: str) -> str:
    """A kind of equipment in the language of the pages, where it is known.

    >>> gear_words("range"), gear_words("Fryer")
    ('range', 'Fryer')
    """
    return _said(written, _GEAR)


def _said(written: str, words: Collection[str]) -> str:
    known = written.lower()
    said = tr(known) if known in words else known
    return str(written) if said == known else said
