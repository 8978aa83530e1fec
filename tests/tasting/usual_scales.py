"""The scales that kitchens use most."""

from __future__ import annotations

from builder.tasting.scales import Scale

ZERO_TO_FIVE = Scale("0-5", 0, 5)
ONE_TO_TEN = Scale("1-10", 1, 10)
NINE_POINT = Scale("9-point", 1, 9)
LINE = Scale("line", 0, 100, step=0)
