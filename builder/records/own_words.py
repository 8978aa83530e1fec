"""Counts in the words that a kitchen has for its pieces: `1 leg`, `6 legs`, `3 slices`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from builder.language import Deferred, tr
from builder.quantities import Dimension, Quantity, QuantityError, parse_quantity

PIECE_NAMES = "piece names"
"""Key of the reading context: what pieces of cooks are called, a line each."""
SLICE = "slice"

# The number ends where the word begins, whatever is written between them.
_COUNTED = re.compile(r"(?P<number>.*[^\W_a-zA-Z])\s*(?P<word>[^\W\d_].*)")


def names_in(context: Mapping[str, str] | None) -> tuple[str, ...]:
    """What the reading context calls pieces."""
    return tuple((context or {}).get(PIECE_NAMES, "").split("\n"))


def is_named(word: str, name: str) -> bool:
    """Whether a word is a name, or one of the ways in which English has several of it.

    >>> [is_named(word, "loaf") for word in ("loaf", "Loaves", "loafs", "leg")]
    [True, True, True, False]
    """
    word, name = (" ".join(each.lower().split()) for each in (word, name))
    several = {name, f"{name}s", f"{name}es"}
    if name.endswith("y"):
        several.add(f"{name[:-1]}ies")
    if name.endswith(("f", "fe")):
        several.add(f"{name.removesuffix('e')[:-1]}ves")
    return word in several


def word_of(text: str) -> str:
    """The word of a counted amount; empty where there is none.

    >>> word_of("1 half rack"), word_of("1/2 leg"), word_of("12")
    ('half rack', 'leg', '')
    """
    found = _COUNTED.fullmatch(text.strip())
    return found["word"].strip() if found else ""


def number_of(text: str) -> str:
    """The number of a counted amount as it was written; empty where there is none.

    >>> number_of("40 wings"), number_of("wings")
    ('40', '')
    """
    found = _COUNTED.fullmatch(text.strip())
    return found["number"].strip() if found else ""


def with_number(error: QuantityError, text: str, hint: Deferred) -> QuantityError:
    """An error at a counted amount in an own word, with a hint that takes up its number.

    `hint` has {number} and {hint}, what the error says itself; any other error stays as it is.
    """
    number = number_of(text) if error.own_word else ""
    more = tr(hint, number=number, hint=error.hint) if number else error.hint
    return QuantityError(error.message, more)


def counted(text: str, names: Iterable[str]) -> Quantity | None:
    """The number of an amount in one of the names given; None where it is in none of them.

    >>> counted("6 legs", ["leg"]).value, counted("180 g", ["leg"])
    (6.0, None)
    """
    word = word_of(text)
    if not word or not any(is_named(word, name) for name in names if name):
        return None
    try:
        return parse_quantity(f"{number_of(text)} each", Dimension.COUNT)
    except QuantityError:
        return None
