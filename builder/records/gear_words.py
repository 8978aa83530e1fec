"""Words by which kitchens name equipment and ways of cooking, and slips of the pen in them."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files

from builder.problems import nearest

_LETTERS = re.compile(r"[^\W\d_]+")
_SHORTEST, _LIKE = 3, 0.8


@cache
def _words() -> frozenset[str]:
    """English and French names and what goes with them: common practice, no published source.

    A word that is not there is the kitchen's own, unless it is nearly one of them.
    """
    rows = files("builder.data").joinpath("gear_words.csv").read_text(encoding="utf-8")
    return frozenset(rows.split()[1:])


def spelt(text: str) -> str:
    """A name with the words that it seems to mean in the place of slips; the same where none is.

    A slip is a word of its own that differs by a letter or so from a known one, and begins alike.

    >>> spelt("combi ovn"), spelt("rnge"), spelt("water bath, 40 L"), spelt("orange stove")
    ('combi oven', 'range', 'water bath, 40 L', 'orange stove')
    """
    return _LETTERS.sub(lambda found: _meant(found[0]), text)


def _meant(word: str) -> str:
    low = word.lower()
    if low in _words() or len(low) < _SHORTEST:
        return word
    alike = sorted(each for each in _words() if each[0] == low[0] and len(each) > _SHORTEST)
    return nearest(low, alike, _LIKE) or word
