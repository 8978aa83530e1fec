"""What method pages say of figures, with the units in which the kitchen's pages show them."""

from __future__ import annotations

import re
from functools import lru_cache

from builder.display.marks import in_style
from builder.display.style import Style
from builder.engine.methods import Method
from builder.engine.tables import FigureDef
from builder.engine.units import unit_words
from builder.engine.wording import how_it_is_made
from builder.language import tr
from builder.pages.message_units import in_kitchen_units
from builder.pages.values import in_mass_unit
from builder.quantities import Dimension

_UNITS = {
    "kg": Dimension.MASS, "L": Dimension.VOLUME, "mm": Dimension.LENGTH,
    "°C": Dimension.TEMPERATURE,
}  # fmt: skip
_UNIT = re.compile(r"\bkg(?=²|\b)|\bL\b|\bmm\b|°C")


def label_of(style: Style, definition: FigureDef) -> str:
    """The name of a figure."""
    return in_mass_unit(style, definition.label)


def title_of(style: Style, method: Method) -> str:
    """The name of a sourced function."""
    return in_style(tr(method.title), style)


def about_of(style: Style, definition: FigureDef) -> str:
    """The sentence that says what a figure is."""
    return _about(style, tr(definition.about))


@lru_cache(maxsize=1 << 12)
def _about(style: Style, text: str) -> str:
    # The sentence of a figure is on its own page and on those of all that it leads to.
    return in_style(in_mass_unit(style, in_kitchen_units(text, style)), style)


def made_of(style: Style, definition: FigureDef) -> str:
    """How a figure comes about, in words and signs."""
    return in_style(in_mass_unit(style, how_it_is_made(definition)), style)


def unit_of(style: Style, unit: str) -> str:
    """The unit of a figure, written out.

    >>> customary = Style.of("en_US", "USD", "us customary")
    >>> [unit_of(customary, unit) for unit in ("money/kg", "kg2", "°C", "mm", "money/unit")]
    ['USD/lb', 'lb²', '°F', 'in', 'USD per lb, qt or each, as the item is priced']
    """
    words = unit_words(unit, style.currency)
    return _UNIT.sub(lambda found: style.unit(_UNITS[found[0]]), words)
