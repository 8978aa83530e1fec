"""Every word of the search with the records that have it, so that no page has to build the list."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence

_WORD = re.compile(r"[^\W_]+")
_LIGATURES = str.maketrans({"œ": "oe", "æ": "ae", "ß": "ss"})
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"
# In a title, in the further words, in the kind of page; `search.js` has as many weights.
_TITLE, _EXTRA, _KIND = range(3)


def words_in(text: str) -> list[str]:
    """The words of a text without accents, capitals and ligatures; twin of `search.js: split`.

    >>> words_in("Crème brûlée, L'ŒUF 116A")
    ['creme', 'brulee', 'l', 'oeuf', '116a']
    """
    if not text.isascii():
        letters = unicodedata.normalize("NFD", text)
        text = "".join(each for each in letters if unicodedata.category(each)[0] != "M")
    return _WORD.findall(text.lower().translate(_LIGATURES))


def word_list(records: Sequence[Sequence[str]], folders: Mapping[str, str]) -> tuple[str, str]:
    """All words, and for each the records that have it; both with a space between words.

    A record is a step from the one before it, three times over, and where it has the word, to
    the base of 36.

    >>> word_list([("Chuck roll", "cut", "cuts/a.html", "Chuck"), ("Roll", "cut", "x", "")], {})
    ('chuck roll cut', '0 0,3 2,5')
    """
    places: dict[str, list[str]] = {}
    last: dict[str, int] = {}
    for number, record in enumerate(records):
        for word, weight in _weighed(record, folders):
            before = last.get(word, 0)
            if word in last and before == number:
                continue
            last[word] = number
            places.setdefault(word, []).append(_base_36((number - before) * 3 + weight))
    return " ".join(places), " ".join(map(",".join, places.values()))


def _weighed(record: Sequence[str], folders: Mapping[str, str]) -> Iterator[tuple[str, int]]:
    title, kind, path, extra = record
    of_folder = folders.get(path.split("/")[0], "")
    for text, weight in ((title, _TITLE), (extra, _EXTRA), (kind, _KIND), (of_folder, _KIND)):
        for word in words_in(text):
            yield word, weight


def _base_36(number: int) -> str:
    digits = ""
    while number or not digits:
        number, digit = divmod(number, 36)
        digits = _DIGITS[digit] + digits
    return digits
