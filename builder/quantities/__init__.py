"""Numbers with units, money and dates as people write them in a kitchen's files."""

from builder.quantities.dates import YEARS, is_plausible, parse_date, parse_month
from builder.quantities.errors import QuantityError
from builder.quantities.measures import Quantity, parse_quantity
from builder.quantities.money import Money, Rate, parse_money, parse_rate
from builder.quantities.units import UNITS, Dimension, Unit, convert, find_unit

__all__ = [
    "UNITS",
    "YEARS",
    "Dimension",
    "Money",
    "Quantity",
    "QuantityError",
    "Rate",
    "Unit",
    "convert",
    "find_unit",
    "is_plausible",
    "parse_date",
    "parse_money",
    "parse_month",
    "parse_quantity",
    "parse_rate",
]
