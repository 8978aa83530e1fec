"""How a kitchen's own pages and warnings write numbers: its locale, currency and units."""

from __future__ import annotations

from functools import lru_cache, partial

from builder.cooking.wording import Wording
from builder.display.estimates import about
from builder.display.style import Style
from builder.records.kitchen import Kitchen

DEFAULT_LOCALE = "en_CA"


def style_of(kitchen: Kitchen) -> Style:
    """The kitchen's style; ValueError for a locale or a currency that is none."""
    return _style(
        str(kitchen.locale or DEFAULT_LOCALE),
        str(kitchen.currency),
        str(kitchen.units or "metric"),
    )


@lru_cache(maxsize=16)
def _style(locale: str, currency: str, units: str) -> Style:
    return Style.of(locale, currency, units)


def wording_of(kitchen: Kitchen) -> Wording:
    """How verdicts write temperatures and times in this kitchen."""
    style = style_of(kitchen)
    return Wording(
        style.temperature,
        lambda minutes: style.duration(minutes / 60),
        partial(about, style),
        lambda share: style.percent(share, 0),
    )
