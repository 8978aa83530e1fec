"""The kitchen's decimal mark in what was written with a point: sentences, prints of a clause."""

from __future__ import annotations

import re

from builder.display.style import Style

# Three decimals after anything but 0 would be a group of thousands in the kitchen's own style.
NUMBER = re.compile(
    r"(?<![\w.,-])(?P<whole>\d+)\.(?P<part>\d{1,2}|(?<=\b0\.)\d{3,4})(?![\d]|\.\d|\w|-\w)"
)


def in_style(text: str, style: Style) -> str:
    """A sentence with the style's decimal mark.

    >>> german = Style.of("de_DE", "EUR")
    >>> in_style("p = 0.005, best near 46.7 h on 25.08.2026; 3-401.11, 1.145 sold", german)
    'p = 0,005, best near 46,7 h on 25.08.2026; 3-401.11, 1.145 sold'
    """
    decimal = style.number_marks[0]
    return text if decimal == "." else NUMBER.sub(rf"\g<whole>{decimal}\g<part>", text)
