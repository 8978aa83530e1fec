"""Why a written quantity is refused, and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from functools import partial

from builder.language import Deferred, either, tr
from builder.quantities.errors import QuantityError, quoted
from builder.quantities.units import (
    FEW,
    UNCLEAR,
    Dimension,
    find_unit,
    nearest_unit,
    units_that_fit,
)

Meant = Callable[[re.Match[str]], list[str]]
_BARE = re.compile(r"(?=[./⁄]*[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])[0-9./⁄½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]+$")
_MOST_TENS, _GROUP = 12, 3
_HOTTEST_C = 400.0
# What may stand between the digits of one number: a space only before three digits.
_SPACE = r"[\s'’_](?=[0-9]{3}(?![0-9/]))"
_MORE = rf"(?:(?:[.,]|{_SPACE})[0-9]+)*"
_SEPARATED = re.compile(rf"[0-9]+{_MORE}")
_POINT = Deferred("write the number with a point for decimals and nothing else between its digits")
_SUM = re.compile(
    r"^(?:=\s*(?=\S)|(?=[0-9.]+\s*[+*]\s*[0-9]))"
    r"(?:(?P<left>[0-9]+(?:\.[0-9]+)?)(?:\s*(?P<sign>[-+*/])\s*(?P<right>[0-9]+(?:\.[0-9]+)?))?"
    r"(?P<more>\s*[-+*/(].*)?)?"
)
# What a quantity is, and what a price is for, in a cook's words.
NOUNS: dict[Dimension, str] = {
    Dimension.MASS: Deferred("a weight"),
    Dimension.VOLUME: Deferred("a volume"),
    Dimension.COUNT: Deferred("a number of pieces"),
    Dimension.LENGTH: Deferred("a length"),
    Dimension.TEMPERATURE: Deferred("a temperature"),
    Dimension.TIME: Deferred("a time"),
    Dimension.RATIO: Deferred("a share"),
    Dimension.ENERGY: Deferred("an amount of energy"),
    Dimension.POWER: Deferred("a power"),
}
_PRICED = {
    **{each: f"for {noun!s}" for each, noun in NOUNS.items()},
    Dimension.MASS: Deferred("by weight"),
    Dimension.VOLUME: Deferred("by volume"),
    Dimension.COUNT: Deferred("by the piece"),
    Dimension.LENGTH: Deferred("by length"),
    Dimension.TIME: Deferred("by time"),
    Dimension.ENERGY: Deferred("for energy"),
}
# Two amounts of a compound joined as they are spoken, both with their units.
_JOINED = re.compile(r"(?<=[a-z])\s*(?:,?\s+and|,|\+|&)\s+(?=[0-9./]+\s*[a-z])", re.IGNORECASE)
_MINUTES = re.compile(r"[0-9]\s*(?:m|'|′)$")


def _plain(match: re.Match[str]) -> list[str]:
    """What a number with a comma or with groups may mean, first with groups of thousands.

    Of two separators the last marks the decimals; nothing where the groups are none of
    thousands.

    >>> [_plain(_SEPARATED.search(text)) for text in ("3.600,00", "1,250.00", "1,250")]
    [['3600.00'], ['1250.00'], ['1250', '1.250']]
    >>> [_plain(_SEPARATED.search(text)) for text in ("1,250,000", "0,250", "13.6.0")]
    [['1250000'], ['0.250'], []]
    """
    groups, signs = re.findall(r"[0-9]+", match[0]), re.findall(r"[^0-9]", match[0])
    *others, last = signs
    if others and last in ",." and last not in others and len(set(others)) == 1:
        return [f"{''.join(groups[:-1])}.{groups[-1]}"] if _in_thousands(groups[:-1]) else []
    thousands = len(set(signs)) == 1 and signs != ["."] and _in_thousands(groups)
    decimals = [".".join(groups)] if signs == [","] else []
    return ["".join(groups)] * thousands + decimals


def _in_thousands(groups: Sequence[str]) -> bool:
    """Whether digits are in groups of three, or of two before the last, as lakhs are."""
    first, *middle, last = groups
    leads = first[0] != "0" and len(first) <= _GROUP
    return leads and len(last) == _GROUP and all(len(each) in {2, _GROUP} for each in middle)


def _written_out(match: re.Match[str]) -> list[str]:
    """A number with a power of ten as its digits, where they are few."""
    exponent = int(re.split("[eE]", match[0])[1])
    return [f"{Decimal(match[0]):f}"] if abs(exponent) <= _MOST_TENS else []


def _one_of_two(match: re.Match[str]) -> list[str]:
    first, second = match.groups()
    return [f"{first} {second}"] if "/" in second or "⁄" in second else [first, second]


def _without_zeros(match: re.Match[str]) -> list[str]:
    """A number without its leading zeros; without decimals its point may be the one missing."""
    before, zeros, digits, decimals = match.groups("")
    return [
        f"{before}{digits}{decimals}",
        *([f"{before}0.{zeros[1:]}{digits}"] if not decimals else []),
    ]


def _worked_out(match: re.Match[str]) -> list[str]:
    """The result of a sum of two numbers; of a longer one the reader works it out.

    >>> _worked_out(_SUM.search("=2*13.5")), _worked_out(_SUM.search("=A1"))
    (['27'], [])
    """
    left, sign, right = match["left"], match["sign"], match["right"]
    if not left or match["more"] or sign == "/":
        return []
    if not sign:
        return [left]
    a, b = Decimal(left), Decimal(right)
    found = {"+": a + b, "-": a - b, "*": a * b}[sign]
    return [f"{found.normalize():f}"] if found >= 0 else []


def _nothing(_: re.Match[str]) -> list[str]:
    return []


# Each pattern names one way of writing that another reader would take differently, with what
# it may mean, the words for its meanings, and the hint where there is none.
_RESULT = Deferred("write its result")
_CLOCK = re.compile(r"([0-9]+):([0-9]+).*")
_UNCLEAR_NUMBERS: tuple[tuple[re.Pattern[str], str, Meant, str, str], ...] = (
    (_SUM, Deferred("is a sum that is not worked out here"), _worked_out, "", _RESULT),
    (
        re.compile(r"[0-9]*\.?[0-9]+[eE][+-]?[0-9]+"),
        Deferred("is written with a power of ten"),
        _written_out,
        "",
        Deferred("write the number out"),
    ),
    (
        re.compile(rf"(?<![0-9.,])[0-9]+(?:(?:\.|{_SPACE})[0-9]+)*,[0-9]+{_MORE}"),
        Deferred("has a comma, which may group thousands or mark decimals"),
        _plain,
        Deferred("{} for thousands or {} for decimals"),
        _POINT,
    ),
    (
        re.compile(rf"(?<![0-9.,])[0-9]{{1,3}}{_SPACE}[0-9]+{_MORE}"),
        Deferred("has its digits in groups"),
        _plain,
        "",
        _POINT,
    ),
    (
        _CLOCK,
        Deferred("is a time on a clock"),
        lambda match: [f"{int(match[1])} h {int(match[2])} min"],
        Deferred("a duration as {}"),
        "",
    ),
    (
        re.compile(r"([0-9.]*[0-9])\s*(?:[-–—]|\bto\b)\s*([0-9][0-9.]*(?:[/⁄][0-9]+)?)"),
        Deferred("holds two numbers"),
        _one_of_two,
        Deferred("one number, {} or {}"),
        "",
    ),
    (
        re.compile(r"(^[-−+]?|\bof )(0+)([1-9][0-9]*)(\.[0-9]+)?"),
        Deferred("starts with a zero, so a decimal point may be missing"),
        _without_zeros,
        Deferred("{} or {}"),
        "",
    ),
    (re.compile(rf"[0-9]+\.[0-9]+\.{_MORE}"), Deferred("has two decimal points"), _plain, "", ""),
    (
        re.compile(r"([0-9]+)\.[-–—]*(?=[^0-9/]*(?:/|$))"),
        Deferred("ends in a decimal point"),
        lambda match: [match[1]],
        "",
        "",
    ),
    (
        re.compile(r"(?i)^[-−+]?(?:inf(?:inity)?|nan)\b"),
        Deferred("is not a number"),
        _nothing,
        "",
        "",
    ),
    (
        re.compile(r"^\+"),
        Deferred("starts with a plus sign"),
        _nothing,
        "",
        Deferred("leave the sign out"),
    ),
)


def unclear_number(text: str, rest: str = "", before: str = "") -> QuantityError | None:
    """Explain a number that could be read in two ways; None when the number is clear.

    The hint writes the whole value; `before` and `rest` are what is in
    front of the text and behind it, such as "/kg".

    >>> unclear_number("1,9 kg").hint, unclear_number("1.360,50", "/kg").hint
    ('write 1.9 kg', 'write 1360.50/kg')
    """
    for pattern, what, meant, in_doubt, otherwise in _UNCLEAR_NUMBERS:
        if pattern.search(text):
            values = [f"{before}{each}{rest}" for each in _written_again(pattern, meant, text)]
            words = tr(in_doubt) if in_doubt.count("{}") == len(values) else "{}"
            hint = tr("write {values}", values=words.format(*values)) if values else tr(otherwise)
            return QuantityError(f"{quoted(text)} {what}", hint)
    return None


def plainly(text: str) -> str:
    """A text with each unclear number as it is meant, where it can mean one thing only.

    >>> plainly("/case of 2,5 kg"), plainly("/1,250 g")
    ('/case of 2.5 kg', '/1,250 g')
    """
    for pattern, _, meant, _, _ in _UNCLEAR_NUMBERS:
        found = _written_again(pattern, meant, text)
        text = found[0] if len(found) == 1 else text
    return text


def _written_again(pattern: re.Pattern[str], meant: Meant, text: str) -> list[str]:
    """The text with every such number as it may be meant; nothing where one has no meaning."""
    found = [meant(match) for match in pattern.finditer(text)]
    count = max(map(len, found), default=0) if all(found) else 0
    return [pattern.sub(partial(_nth, meant, n), text) for n in range(count)]


def _nth(meant: Meant, n: int, match: re.Match[str]) -> str:
    """The meaning of a number with this index, or its last one."""
    values = meant(match)
    return values[min(n, len(values) - 1)]


def explain(text: str, dimensions: Sequence[Dimension]) -> QuantityError:
    """Explain why a text is no quantity of these dimensions."""
    fit = units_that_fit(dimensions)
    if found := unclear_number(text):
        is_clock = _CLOCK.search(text) and Dimension.TIME not in dimensions
        return QuantityError(found.message, fit) if is_clock else found
    if not re.search(r"[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]", text):
        return QuantityError(tr("{text} has no number", text=quoted(text)), fit)
    if bare := _BARE.search(text):
        meant = _only_scale(bare[0]) if list(dimensions) == [Dimension.TEMPERATURE] else ""
        return QuantityError(tr("{bare} has no unit", bare=quoted(bare[0])), meant or fit)
    if joined := one_amount(text):
        message = tr("{text} is not a number with its unit", text=quoted(text))
        return QuantityError(message, tr("write {joined}", joined=joined))
    for written in re.findall(r"[^\W\d_][^0-9]*", text):
        if find_unit(written.strip()) is None:
            return unknown_unit(written.strip(), dimensions)
    return QuantityError(tr("{text} is not a number with its unit", text=quoted(text)), fit)


def _only_scale(number: str) -> str:
    """The one scale that a temperature without its unit can be of: nothing cooks above 400 °C.

    >>> _only_scale("500"), _only_scale("350")
    ('write 500 °F if an oven or a grill is that hot', '')
    """
    try:
        hot = _HOTTEST_C < float(number) <= _HOTTEST_C * 9 / 5 + 32
    except ValueError:
        return ""
    return tr("write {number} °F if an oven or a grill is that hot", number=number) if hot else ""


def one_amount(text: str) -> str:
    """A compound without the word between its parts; empty where it is none.

    >>> one_amount("30 hours and 20 minutes"), one_amount("5 lb, 20 min"), one_amount("2 h")
    ('30 hours 20 minutes', '', '')
    """
    joined = _JOINED.sub(" ", text)
    units = [find_unit(each.strip()) for each in re.findall(r"[^\W\d_][^0-9./]*", joined)]
    known = [each for each in units if each]
    falls = len(known) == 2 and known[0].factor > known[1].factor
    alike = falls and known[0].dimension is known[1].dimension
    return joined if joined != text and len(units) == 2 and alike else ""


def unknown_unit(written: str, dimensions: Sequence[Dimension]) -> QuantityError:
    """Explain a unit that is not known or not clear."""
    if written in UNCLEAR:
        return QuantityError(
            tr("{written} is not clear as a unit", written=quoted(written)),
            tr(UNCLEAR[written]),
        )
    near = nearest_unit(written, dimensions)
    hint = " ".join(filter(None, (near, units_that_fit(dimensions))))
    message = tr("unknown unit {written}", written=quoted(written))
    return QuantityError(message, hint, own_word=not near)


def wrong_dimension(text: str, found: Dimension, dimensions: Sequence[Dimension]) -> QuantityError:
    """Explain a quantity that measures something else than is wanted."""
    wanted = _asked(tr(NOUNS[each]) for each in dimensions)
    hint = units_that_fit(dimensions)
    if found is Dimension.LENGTH and Dimension.TIME in dimensions and _MINUTES.search(text):
        hint = tr("write min for minutes")
    if found is Dimension.COUNT and set(dimensions) == {Dimension.MASS}:
        hint = tr("write what {text} weigh together; {hint}", text=text, hint=hint)
    return QuantityError(
        tr(
            "{text} is {nouns}{wanted}",
            text=quoted(text),
            nouns=tr(NOUNS[found]),
            wanted=wanted,
        ),
        hint,
    )


def wrong_price(text: str, found: Dimension, dimensions: Sequence[Dimension]) -> QuantityError:
    """Explain a price for another dimension than is wanted."""
    wanted = _asked((tr(_PRICED[each]) for each in dimensions), "a price ")
    message = tr(
        "{text} is a price {priced}{wanted}",
        text=quoted(text),
        priced=tr(_PRICED[found]),
        wanted=wanted,
    )
    return QuantityError(message, units_that_fit(dimensions))


def _asked(ways: Iterable[str], noun: str = "") -> str:
    """What is asked for; nothing where it is almost anything."""
    known = list(ways)
    few = len(known) <= FEW
    return tr("; this asks for {noun}{listed}", noun=noun, listed=either(known)) if few else ""
