"""Why a written quantity is refused, and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from decimal import Decimal

from builder.quantities.errors import QuantityError, quoted
from builder.quantities.units import (
    FEW,
    UNCLEAR,
    Dimension,
    find_unit,
    nearest_unit,
    units_that_fit,
)

Hint = Callable[[re.Match[str]], str]
_BARE = re.compile(r"(?=[./⁄]*[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])[0-9./⁄½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]+$")
_MOST_TENS = 12
_SUM = re.compile(
    r"^(?:=\s*(?=\S)|(?=[0-9.]+\s*[+*]\s*[0-9]))"
    r"(?:(?P<left>[0-9]+(?:\.[0-9]+)?)(?:\s*(?P<sign>[-+*/])\s*(?P<right>[0-9]+(?:\.[0-9]+)?))?"
    r"(?P<more>\s*[-+*/(].*)?)?"
)
_MINUTES = re.compile(r"[0-9]\s*(?:m|'|′)$")


def _comma(match: re.Match[str]) -> str:
    left, right = match.groups()
    if len(right) == 3:
        return f"write {left}{right} for thousands or {left}.{right} for decimals"
    return f"write {left}.{right}"


def _written_out(number: str) -> str:
    """A number with a power of ten as its digits, where they are few.

    >>> _written_out("1.5e3"), _written_out("1e400")
    ('write 1500', 'write the number out')
    """
    exponent = int(re.split("[eE]", number)[1])
    few = abs(exponent) <= _MOST_TENS
    return f"write {Decimal(number):f}" if few else "write the number out"


def _one_of_two(first: str, second: str) -> str:
    if "/" in second or "⁄" in second:
        return f"write {first} {second}"
    return f"write one number, {first} or {second}"


def _worked_out(match: re.Match[str]) -> str:
    """The result of a sum of two numbers; of a longer one the reader works it out.

    >>> _worked_out(_SUM.search("=2*13.5")), _worked_out(_SUM.search("=A1"))
    ('write 27', 'write its result')
    """
    left, sign, right = match["left"], match["sign"], match["right"]
    if not left or match["more"]:
        return "write its result"
    if not sign:
        return f"write {left}"
    a, b = Decimal(left), Decimal(right)
    if sign == "/":
        return "write its result"
    found = {"+": a + b, "-": a - b, "*": a * b}[sign]
    return f"write {found.normalize():f}" if found >= 0 else "write its result"


# Each pattern names one way of writing that another reader would take differently.
_UNCLEAR_NUMBERS: tuple[tuple[re.Pattern[str], str, Hint], ...] = (
    (_SUM, "is a sum that is not worked out here", _worked_out),
    (
        re.compile(r"[0-9]*\.?[0-9]+[eE][+-]?[0-9]+"),
        "is written with a power of ten",
        lambda match: _written_out(match[0]),
    ),
    (
        re.compile(r"([0-9]+),([0-9]+)"),
        "has a comma, which may group thousands or mark decimals",
        _comma,
    ),
    (
        re.compile(r"(?<![0-9.])([0-9]{1,3})(?:[\s'’_]([0-9]{3}))+(?![0-9/])"),
        "has its digits in groups",
        lambda match: "write " + re.sub(r"[^0-9]", "", match[0]),
    ),
    (
        re.compile(r"([0-9]+):([0-9]+)"),
        "is a time on a clock",
        lambda match: f"write a duration as {int(match[1])} h {int(match[2])} min",
    ),
    (
        re.compile(r"([0-9.]*[0-9])\s*(?:[-–—]|\bto\b)\s*([0-9][0-9.]*(?:[/⁄][0-9]+)?)"),
        "holds two numbers",
        lambda match: _one_of_two(match[1], match[2]),
    ),
    (
        re.compile(r"(?:^|\bof )[-−+]?0+([1-9][0-9]*)"),
        "starts with a zero, so a decimal point may be missing",
        lambda match: f"write {match[1]} or 0.{match[1]}",
    ),
    (re.compile(r"[0-9]\.[0-9]*\."), "has two decimal points", lambda _: ""),
    (
        re.compile(r"([0-9]+)\.(?![0-9])"),
        "ends in a decimal point",
        lambda match: f"write {match[1]}",
    ),
    (re.compile(r"(?i)^[-−+]?(?:inf(?:inity)?|nan)\b"), "is not a number", lambda _: ""),
    (re.compile(r"^\+"), "starts with a plus sign", lambda _: "leave the sign out"),
)


def unclear_number(text: str) -> QuantityError | None:
    """Explain a number that could be read in two ways; None when the number is clear.

    >>> unclear_number("1,9 kg").hint
    'write 1.9'
    """
    for pattern, what, hint in _UNCLEAR_NUMBERS:
        if match := pattern.search(text):
            return QuantityError(f"{quoted(text)} {what}", hint(match))
    return None


def explain(text: str, dimensions: Sequence[Dimension]) -> QuantityError:
    """Explain why a text is no quantity of these dimensions."""
    if found := unclear_number(text):
        return found
    fit = units_that_fit(dimensions)
    if not re.search(r"[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]", text):
        return QuantityError(f"{quoted(text)} has no number", fit)
    if bare := _BARE.search(text):
        return QuantityError(f"{quoted(bare[0])} has no unit", fit)
    for written in re.findall(r"[^\W\d_][^0-9]*", text):
        if find_unit(written.strip()) is None:
            return unknown_unit(written.strip(), dimensions)
    return QuantityError(f"{quoted(text)} is not a number with its unit", fit)


def unknown_unit(written: str, dimensions: Sequence[Dimension]) -> QuantityError:
    """Explain a unit that is not known or not clear."""
    if written in UNCLEAR:
        return QuantityError(f"{quoted(written)} is not clear as a unit", UNCLEAR[written])
    hints = (nearest_unit(written, dimensions), units_that_fit(dimensions))
    return QuantityError(f"unknown unit {quoted(written)}", " ".join(filter(None, hints)))


def wrong_dimension(text: str, found: Dimension, dimensions: Sequence[Dimension]) -> QuantityError:
    """Explain a quantity that measures something else than is wanted."""
    wanted = f"; wanted is {' or '.join(map(_name, dimensions))}" if len(dimensions) <= FEW else ""
    hint = units_that_fit(dimensions)
    if found is Dimension.LENGTH and Dimension.TIME in dimensions and _MINUTES.search(text):
        hint = "write min for minutes"
    return QuantityError(f"{quoted(text)} measures {_name(found)}{wanted}", hint)


def _name(dimension: Dimension) -> str:
    return "a share" if dimension is Dimension.RATIO else dimension.value
