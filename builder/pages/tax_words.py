"""Whether a price is said with the sales tax or without it."""

from __future__ import annotations

from builder.language import tr
from builder.pages.targets import Aiming


def tax_words(row: Aiming) -> str:
    """What a row's price says of the tax; nothing where none is stated, or the reader sees none."""
    if row.hides("tax_rate") or row.hides("tax_included") or not row.number("tax_rate") > 0:
        return ""
    return tr("with") if row.number("tax_included") > 0 else tr("without")
