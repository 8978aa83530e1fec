"""Values as the reader of a page sees them: locale, currency and the kitchen's own units."""

from builder.display.numerals import MISSING, NumberFormat
from builder.display.scales import UnitSystem
from builder.display.style import Style

__all__ = ["MISSING", "NumberFormat", "Style", "UnitSystem"]
