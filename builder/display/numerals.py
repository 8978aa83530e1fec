"""A locale's number pattern, read once and applied by format strings.

Babel looks everything up on every call, which takes ten times as long, and a site
has a million cells.
The patterns and symbols here are Babel's, so are the digits; a half is rounded up.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import isfinite

from babel import Locale
from babel.numbers import (
    NumberPattern,
    format_decimal,
    get_currency_symbol,
    get_decimal_symbol,
    get_group_symbol,
)

from builder.language import current_language
from builder.rounding import half_up

MISSING = "–"
MINUS = "−"


def is_missing(x: float | None) -> bool:
    """Whether there is no number to show: None, NaN or infinite.

    >>> is_missing(float("nan")), is_missing(0.0)
    (True, False)
    """
    return x is None or not isfinite(x)


def whole_number(count: int) -> str:
    """A number of things in the language in use, where no kitchen says how numbers are written.

    >>> whole_number(1950)
    '1,950'
    """
    return str(format_decimal(count, locale=current_language()))


def as_read(x: float, places: int) -> float:
    """The number that is read where `x` is written with so many decimals; NaN stays.

    >>> as_read(0.30049, 3), as_read(-0.004, 2) == 0
    (0.3, True)
    """
    return float(half_up(x, places)) if isfinite(x) else x


def _regroup(digits: str, first: int, later: int) -> str:
    """Group digits from the right, as 12,34,567 is in India."""
    head, groups = digits[:-first], [digits[-first:]]
    while head:
        groups.insert(0, head[-later:])
        head = head[:-later]
    return ",".join(groups)


@dataclass(frozen=True, slots=True)
class NumberFormat:
    """A number pattern with its symbols: what is around a number and inside it.

    `before` and `after` hold the text for numbers from zero and below zero; `scale` is
    the power of ten that a percent pattern multiplies by.
    """

    before: tuple[str, str]
    after: tuple[str, str]
    symbols: dict[int, str] = field(hash=False)
    grouping: tuple[int, int]
    scale: int

    @classmethod
    def from_pattern(
        cls, pattern: NumberPattern, locale: Locale, currency: str = ""
    ) -> NumberFormat:
        """Read a pattern of Babel's locale data, with the currency's sign in its place."""
        sign = get_currency_symbol(currency, locale) if currency else ""

        def around(texts: tuple[str, str]) -> tuple[str, str]:
            from_zero, below = (text.replace("¤", sign).replace("'", "") for text in texts)
            return from_zero, below.replace("-", MINUS)

        symbols = {",": get_group_symbol(locale), ".": get_decimal_symbol(locale)}
        return cls(
            before=around(pattern.prefix),
            after=around(pattern.suffix),
            symbols=str.maketrans({ascii_: s for ascii_, s in symbols.items() if s != ascii_}),
            grouping=pattern.grouping,
            scale=pattern.scale,
        )

    def __call__(
        self, x: float | None, places: int, *, trim: bool = False, plus: bool = False
    ) -> str:
        """Write a number with `places` decimals, a dash when there is none.

        The shortest decimal that is read back as `x` is rounded, a half away from
        zero; a number that rounds to zero has no sign. `trim` drops trailing
        zeros after the point, `plus` marks numbers above zero.
        """
        if x is None or not isfinite(x):
            return MISSING
        digits = f"{half_up(x, places, self.scale):,.{places}f}"
        below = digits[0] == "-"
        if below:
            digits = digits[1:]
            below = bool(digits.strip("0.,"))
        if trim and places:
            digits = digits.rstrip("0").rstrip(".")
        mark = "+" if plus and not below and digits.strip("0.,") else ""
        return f"{mark}{self.before[below]}{self._localised(digits)}{self.after[below]}"

    def _localised(self, digits: str) -> str:
        if self.grouping != (3, 3):
            whole, point, decimals = digits.replace(",", "").partition(".")
            digits = _regroup(whole, *self.grouping) + point + decimals
        return digits.translate(self.symbols) if self.symbols else digits
