"""Numbers with units, money and dates as people write them in a kitchen's files."""

from builder.quantities.clocks import parse_clock
from builder.quantities.dates import is_plausible, parse_date, parse_month, years_wanted
from builder.quantities.errors import QuantityError
from builder.quantities.measures import (
    PACK_WORDS,
    Quantity,
    pack_word,
    parse_quantity,
    written_down,
    written_like,
)
from builder.quantities.money import (
    UNKNOWN_CURRENCY,
    Money,
    Rate,
    coins_of,
    is_free,
    parse_money,
    parse_pack_price,
    parse_rate,
)
from builder.quantities.numbers import parse_factor, parse_whole
from builder.quantities.units import UNITS, Dimension, Unit, convert, find_unit

__all__ = [
    "PACK_WORDS",
    "UNITS",
    "UNKNOWN_CURRENCY",
    "Dimension",
    "Money",
    "Quantity",
    "QuantityError",
    "Rate",
    "Unit",
    "coins_of",
    "convert",
    "find_unit",
    "is_free",
    "is_plausible",
    "pack_word",
    "parse_clock",
    "parse_date",
    "parse_factor",
    "parse_money",
    "parse_month",
    "parse_pack_price",
    "parse_quantity",
    "parse_rate",
    "parse_whole",
    "written_down",
    "written_like",
    "years_wanted",
]
