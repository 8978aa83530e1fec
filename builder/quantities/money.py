"""Reading amounts of the kitchen's currency and what they are paid for."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from babel.numbers import get_currency_precision, get_currency_symbol

from builder.language import Deferred, clauses, tr
from builder.quantities.errors import QuantityError, one_short_line, quoted
from builder.quantities.measures import (
    PACK_WORDS,
    Quantity,
    exact,
    no_pack,
    pack_word,
    parse_quantity,
)
from builder.quantities.refusals import (
    NOUNS,
    plainly,
    unclear_number,
    unknown_unit,
    wrong_price,
)
from builder.quantities.units import Dimension, find_unit, units_that_fit

# Signs that stand for several currencies at once, so that no locale-free list has them.
_LOCAL_SIGNS = {
    "CHF": "Fr.",
    "CZK": "Kč",
    "DKK": "kr",
    "ISK": "kr",
    "NOK": "kr",
    "PLN": "zł",
    "SEK": "kr",
}
_AMOUNT = re.compile(
    r"(?P<before>[^0-9.,\s+\-−]*)\s*(?P<number>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*(?P<after>.*)"
)
_DIGITS = re.compile(r"(?<![.,0-9])[0-9]+(?:\.[0-9]+)?")
_HUNDREDTHS = {"p", "pence", "c", "¢", "ct", "cent", "cents"}
_A_UNIT = re.compile(r"(?P<amount>.*[0-9].*)\s+(?:an?|each|every)\s+(?P<unit>\S+)", re.IGNORECASE)
# An amount with a sign, or "for" behind it, and what it is paid for without a stroke between.
_UNSAID = re.compile(
    r"(?P<amount>(?P<sign>[^0-9.,\s+\-−]+)?\s*[0-9.]*[0-9](?P<after>\s*[^\W0-9]*[^\w\s.,/]+)?)"
    r"\s+(?P<for>for\s+)?(?P<unit>\S.*)"
)
_COUNTED = re.compile(r"[0-9½¼¾⅓⅔⅛]")
_NO_MONEY = re.compile(r"(?P<per>(?:/|per\b)\s*)?(?P<unit>\S.*)")
_PER = re.compile(r"\s*/\s*|\s+per\s+")
_PACK_PRICE = re.compile(
    rf"(?P<amount>.+?)(?P<rest>(?:\s*/\s*|\s+per\s+)(?P<pack>{PACK_WORDS})(?:s|es)?)", re.IGNORECASE
)
FREE = "free"
# Letters that are written for 0 and 1; no code of a currency has these alone (ISO 4217).
_LIKE_DIGITS = frozenset("OI")
_EXAMPLE = Deferred("an amount, for example 14.80")

# Of a kitchen whose own currency can't be read: then no sign is a wrong one.
UNKNOWN_CURRENCY = ""

PRICED = (
    Dimension.MASS,
    Dimension.VOLUME,
    Dimension.COUNT,
    Dimension.LENGTH,
    Dimension.TIME,
    Dimension.ENERGY,
)


@dataclass(frozen=True, slots=True)
class Sought:
    """What a rate is paid for, and how the file writes it behind the amount; nothing of money."""

    dimensions: tuple[Dimension, ...] = ()
    rest: str = ""


@dataclass(frozen=True, slots=True)
class Money:
    """An amount of the kitchen's currency, exact and as a float."""

    amount: Decimal
    value: float
    text: str


@dataclass(frozen=True, slots=True)
class Rate:
    """An amount for a quantity, such as 12.00/2.5 kg.

    `per` is one whole unit when only a unit is written.
    `value_per_base` [money per kg, L, each, mm, h or kWh] is amount / per.value.
    """

    amount: Decimal
    per: Quantity
    value_per_base: float
    text: str


@lru_cache(maxsize=64)
def _signs(currency: str) -> frozenset[str]:
    symbol = get_currency_symbol(currency, locale="en")
    narrow = re.sub(r"[A-Z]+", "", symbol)
    return frozenset(filter(None, (currency, symbol, narrow, _LOCAL_SIGNS.get(currency))))


def _looks_like_currency(sign: str) -> bool:
    """Whether it may be a currency's code or sign, of whatever currency; not the letters of 3O.00.

    >>> [_looks_like_currency(sign) for sign in ("CAD", "US$", "zł", "O.00", "OO")]
    [True, True, True, False, False]
    """
    if any(letter.isdigit() for letter in sign) or not set(sign) - _LIKE_DIGITS:
        return False
    known = sign in _LOCAL_SIGNS.values() or sign.isupper()
    return known or any(unicodedata.category(letter) == "Sc" for letter in sign)


def _check_sign(sign: str, currency: str | None, text: str, wanted: Sought) -> None:
    if currency == UNKNOWN_CURRENCY and _looks_like_currency(sign):
        return
    if sign and (currency is None or sign not in _signs(currency)):
        if found := _NO_MONEY.fullmatch(sign):
            _refuse_measure(text, found, wanted.dimensions)
        if sign.lower() in _HUNDREDTHS and (number := _DIGITS.search(text)):
            hint = tr("write {decimal}{rest}", decimal=Decimal(number[0]) / 100, rest=wanted.rest)
            raise QuantityError(tr("{text} is in hundredths", text=quoted(text)), hint)
        hint = (
            tr("the kitchen's currency is {currency}", currency=currency)
            if currency
            else tr("write the number alone")
        )
        raise QuantityError(
            tr("{sign} in {text} is not clear as a currency", sign=quoted(sign), text=quoted(text)),
            hint,
        )


def is_free(text: str) -> bool:
    """Whether a price is written as the word "free", with or without a unit.

    >>> is_free("Free/L"), is_free("0.00/L")
    (True, False)
    """
    return _PER.split(text.strip(), maxsplit=1)[0].lower() == FREE


def _amount(text: str, currency: str | None, wanted: Sought) -> Decimal:
    if is_free(text):
        return Decimal(0)
    if re.match(r"\s*[-−].*[0-9]", text):
        raise QuantityError(
            tr("{text} is negative", text=quoted(text)), tr("an amount of money has no sign")
        )
    match = _AMOUNT.fullmatch(text)
    number = match["number"] if match else text
    if unclear := unclear_number(text, wanted.rest) or unclear_number(number, wanted.rest):
        raise unclear
    if match is None or (match["before"] and match["after"]):
        found = _DIGITS.findall(text)
        hint = (
            tr("write {found}{rest}", found=found[0], rest=wanted.rest)
            if len(found) == 1
            else tr(_EXAMPLE)
        )
        raise QuantityError(tr("{text} is not an amount of money", text=quoted(text)), hint)
    _check_sign(match["before"] or match["after"], currency, text, wanted)
    return Decimal(number)


def _refuse_measure(text: str, found: re.Match[str], wanted: tuple[Dimension, ...]) -> None:
    """Tell a weight, and a price by weight, from an amount of money."""
    unit = find_unit(found["unit"])
    if unit is None:
        return
    amount = text.removesuffix(found[0]).strip()
    if found["per"]:
        raise QuantityError(
            tr("{text} is a price for a unit; an amount alone is wanted", text=quoted(text)),
            tr("write {amount}", amount=amount),
        )
    priced = tr(
        "write {amount}/{found} for a price by the {found}", amount=amount, found=found["unit"]
    )
    hint = priced if unit.dimension in wanted else tr(_EXAMPLE)
    what = tr(NOUNS[unit.dimension])
    raise QuantityError(
        tr("{text} is {what}; this asks for an amount of money", text=quoted(text), what=what), hint
    )


def coins_of(currency: str | None) -> int | None:
    """Decimals that a currency is paid with (Unicode CLDR); None where none is known.

    >>> coins_of("CAD"), coins_of("JPY"), coins_of(None)
    (2, 0, None)
    """
    return get_currency_precision(currency) if currency else None


def parse_money(text: str, currency: str | None = None) -> Money:
    """Read an amount of money; raises QuantityError for a sign or more decimals than it has.

    `currency` is the kitchen's ISO 4217 code: its code or sign may then stand before or
    after the number, and its number of decimals (Unicode CLDR) is the most that is read.

    >>> parse_money("$27.00", "CAD").amount
    Decimal('27.00')
    """
    line = one_short_line(text)
    amount = _amount(line, currency, Sought())
    exponent = amount.as_tuple().exponent
    places = -exponent if isinstance(exponent, int) else 0
    if currency and places > (most := get_currency_precision(currency)):
        raise QuantityError(
            tr("{line} has {places} decimals", line=quoted(line), places=places),
            tr("{currency} is paid with {most} decimals", currency=currency, most=most),
        )
    return Money(amount, float(amount), line)


def _unit_price(
    written: str, wanted: tuple[Dimension, ...], before: str
) -> tuple[Quantity, Fraction]:
    unit = find_unit(written)
    if unit is None:
        raise unknown_unit(written, wanted)
    if unit.dimension not in wanted:
        raise wrong_price(f"{before}{written}", unit.dimension, wanted)
    return Quantity(float(unit.factor), unit.dimension, written, written, 0.0), unit.factor


def _with_units(
    error: QuantityError, per_text: list[str], wanted: tuple[Dimension, ...]
) -> QuantityError:
    """What is wrong with an amount and, where its unit is unknown too, the units that fit.

    What is priced by the piece may have a kitchen's own word for one.
    """
    unit = per_text[0] if per_text else ""
    if not unit or Dimension.COUNT in wanted or find_unit(unit):
        return error
    return QuantityError(error.message, clauses((error.hint, units_that_fit(wanted))))


def _per(text: str, wanted: tuple[Dimension, ...], before: str) -> tuple[Quantity, Fraction]:
    if not _COUNTED.search(text):
        return _unit_price(text, wanted, before)
    found = exact(text)
    unread = found is None
    if unread and (why := unclear_number(text, before=before) or no_pack(text, wanted, before)):
        raise why
    if found is not None and found.unit.dimension not in wanted:
        raise wrong_price(f"{before}{text}", found.unit.dimension, wanted)
    per = parse_quantity(text, *wanted)
    if found is None or found.value <= 0:
        raise QuantityError(tr("{text} is nothing to pay for", text=quoted(text)))
    return per, found.value


def _without_stroke(line: str) -> re.Match[str] | None:
    """An amount and what it is paid for, where nothing but a word or a space parts them."""
    found = _A_UNIT.fullmatch(line)
    if found and find_unit(found["unit"]):
        return found
    found = _UNSAID.fullmatch(line)
    if not found or not _can_be_priced(found["unit"]):
        return None
    sign = found["sign"] or (found["after"] or "").strip()
    if sign and not _looks_like_currency(sign):
        return None
    return found if sign or found["for"] or pack_word(found["unit"]) else None


def _can_be_priced(text: str) -> bool:
    """Whether a text is a unit, or a quantity of one."""
    try:
        return find_unit(text) is not None or exact(text) is not None
    except QuantityError:
        return False


@lru_cache(maxsize=1 << 12)
def parse_rate(text: str, *dimensions: Dimension, currency: str | None = None) -> Rate:
    """Read a price or a wage: an amount for a unit or a quantity.

    value_per_base = amount / per.value, divided exactly before rounding to a float.
    "free" costs nothing, a unit of the first dimension wanted where none is written.
    The amount may have more decimals than the currency pays. Raises QuantityError when
    the amount or the quantity is not clear, or of a dimension that is not wanted.

    >>> parse_rate("12.00/2.5 kg", Dimension.MASS).value_per_base
    4.8
    >>> parse_rate("48.00/case of 12", Dimension.COUNT).value_per_base
    4.0
    """
    line, wanted = one_short_line(text), dimensions or PRICED
    amount_text, *per_text = _PER.split(line, maxsplit=1)
    if not per_text and (found := _without_stroke(line)):
        hint = tr("write {found}/{found2}", found=found["amount"], found2=found["unit"])
        raise QuantityError(tr("{line} does not say per what", line=quoted(line)), hint)
    rest = plainly(line[len(amount_text) :])
    try:
        amount = _amount(amount_text, currency, Sought(wanted, rest))
    except QuantityError as error:
        raise _with_units(error, per_text, wanted) from None
    if not per_text and is_free(line):
        return Rate(amount, Quantity(1.0, wanted[0], "", line, 0.0), 0.0, line)
    if not per_text or not per_text[0]:
        price = (
            tr("{amount_text}/ and a unit", amount_text=amount_text)
            if amount
            else tr("free, or a price and its unit")
        )
        hint = tr(
            "write {price}; {units_that_fit}", price=price, units_that_fit=units_that_fit(wanted)
        )
        raise QuantityError(tr("{line} does not say per what", line=quoted(line)), hint)
    per, divisor = _per(per_text[0], wanted, line.removesuffix(per_text[0]))
    return Rate(amount, per, float(Fraction(amount) / divisor), line)


def parse_pack_price(text: str, currency: str | None = None) -> tuple[float, str] | None:
    """Read a price of a pack whose size is not in it: the amount, and what the pack is called.

    None for any other text. Raises QuantityError when the amount is not clear.

    >>> parse_pack_price("42.00 per case"), parse_pack_price("42.00/case of 10 kg")
    ((42.0, 'case'), None)
    """
    found = _PACK_PRICE.fullmatch(one_short_line(text))
    if found is None:
        return None
    return float(_amount(found["amount"], currency, Sought(PRICED, found["rest"]))), found[
        "pack"
    ].lower()
