"""Numbers without a unit: whole ones, and a factor; what another way of writing one means."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from builder.language import tr
from builder.quantities.errors import QuantityError, one_short_line, quoted

_WHOLE = re.compile(r"0|[1-9][0-9]*", re.ASCII)
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:[,.' _’][0-9]{3})+", re.ASCII)
_ROUND = re.compile(r"[0-9]+\.000", re.ASCII)
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?(?:[eE]\+?[0-9])?", re.ASCII)
_WORD_AFTER = re.compile(r"([0-9]+)\s*([^\W\d_][^\d]*)")
_FACTOR = re.compile(r"[0-9](?:\.[0-9]{1,4})?", re.ASCII)
MOST_DIGITS = 9
# fmt: off
_ONES = [
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen",
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
# fmt: on


def parse_whole(text: str) -> int:
    """Read a whole number from 0, at most nine digits; raises QuantityError for anything else.

    >>> parse_whole("20000 h")
    Traceback (most recent call last):
    builder.quantities.errors.QuantityError: "20000 h" is not a whole number; write 20000 alone
    """
    line = one_short_line(text)
    if line[0] in "-−" and _NUMBER.fullmatch(line[1:]):
        raise QuantityError(
            tr("{line} is below 0", line=quoted(line)), tr("whole numbers here are 0 or more")
        )
    if not _WHOLE.fullmatch(line):
        raise QuantityError(
            tr("{line} is not a whole number", line=quoted(line)), _meant_whole(line)
        )
    if len(line) > MOST_DIGITS:
        raise QuantityError(
            tr("{line} is more than can be", line=line),
            tr("at most {value}", value="9" * MOST_DIGITS),
        )
    return int(line)


def _meant_whole(line: str) -> str:
    if _GROUPED.fullmatch(line):
        grouped = re.sub(r"[^0-9]", "", line)
        # A point may mark decimals, too.
        return (
            tr("write {line} or {grouped}", line=line[:-4], grouped=grouped)
            if _ROUND.fullmatch(line)
            else tr("write {grouped}", grouped=grouped)
        )
    if (number := _in_words(line)) is not None:
        return tr("write {number}", number=number)
    if found := _WORD_AFTER.fullmatch(line):
        return tr("write {int} alone", int=int(found[1]))
    if _NUMBER.fullmatch(line):
        exact = Decimal(line)
        low = int(exact)
        return (
            tr("write {low}", low=low)
            if exact == low
            else tr("write {low} or {low2}", low=low, low2=low + 1)
        )
    return tr("a whole number, for example 412")


def _in_words(line: str) -> int | None:
    """A number below a hundred that is written in words.

    >>> _in_words("Sixty-five"), _in_words("twelve"), _in_words("many")
    (65, 12, None)
    """
    first, _, second = line.lower().replace(" ", "-").partition("-")
    if first in _TENS and second in {"", *_ONES[1:10]}:
        return 10 * (_TENS.index(first) + 2) + (_ONES.index(second) if second else 0)
    return _ONES.index(first) if first in _ONES and not second else None


def parse_factor(text: str) -> float:
    """Read a number from 0 to 2, at most four decimals; raises QuantityError for anything else.

    >>> parse_factor("1/2")
    Traceback (most recent call last):
    builder.quantities.errors.QuantityError: "1/2" is no number from 0 to 2; write 0.5
    """
    line = one_short_line(text)
    if not _FACTOR.fullmatch(line) or float(line) > 2:
        raise QuantityError(
            tr("{line} is no number from 0 to 2", line=quoted(line)), _meant_factor(line)
        )
    return float(line)


def _meant_factor(line: str) -> str:
    plain = line.replace(",", ".").removesuffix("%").strip()
    try:
        number = Fraction(plain) / (100 if line.endswith("%") else 1)
    except (ValueError, ZeroDivisionError):
        return tr("a number from 0 to 2, for example 0.5")
    return (
        tr("write {float:.4g}", float=float(number))
        if 0 <= number <= 2
        else tr("0 is a slab, 2 a sphere")
    )
