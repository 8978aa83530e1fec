"""Twenty small panels made up from a known truth, each drawn once from its own seed.

Truth: share too firm and share mushy at every duration, and the mean liking; tasters differ
in level and in how much of the scale they use, and leave answers out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
THREE, FOUR = (24.0, 48.0, 72.0), (18.0, 24.0, 36.0, 48.0)


@dataclass(frozen=True)
class Truth:
    """What a panel was drawn from; `right`: durations within 20 % at both ends and liked best."""

    words: str
    hours: tuple[float, ...]
    firm: tuple[float, ...]
    mushy: tuple[float, ...]
    liking: tuple[float, ...]
    tasters: int
    missing: float = 0.0

    @property
    def right(self) -> set[float]:
        """Durations that no lead may call out, but at the stated risk."""
        best = max(self.liking)
        rows = zip(self.hours, self.firm, self.mushy, self.liking, strict=True)
        return {h for h, a, b, liked in rows if max(a, b) <= 0.2 and liked == best}

    def drawn(self, seed: int) -> tuple[Array, Array]:
        """Texture (−1, 0, 1) and liking (0 to 100) [tasters by durations]."""
        generator = np.random.default_rng(seed)
        shape = (self.tasters, len(self.hours))
        draw = generator.random(shape)
        firm, mushy = np.array(self.firm), np.array(self.mushy)
        texture = np.where(draw < firm, -1.0, np.where(draw > 1 - mushy, 1.0, 0.0))
        level, use = generator.normal(0, 8, (shape[0], 1)), generator.uniform(0.5, 1, (shape[0], 1))
        liking = 50 + use * (np.array(self.liking) - 50) + level + generator.normal(0, 8, shape)
        gone = generator.random(shape) < self.missing
        texture[gone], liking[gone] = np.nan, np.nan
        return texture, np.clip(np.round(liking), 0, 100)


_TWO = (0.05, 0.05, 0.0), (0.0, 0.05, 0.95), (75.0, 75.0, 15.0)
PANELS = (
    Truth("two right, one mushy", THREE, *_TWO, 7),
    Truth("two right, one mushy, few", THREE, *_TWO, 5),
    Truth("two right, one mushy, many", THREE, *_TWO, 12),
    Truth("two right, gaps", THREE, *_TWO, 9, 0.2),
    Truth("all alike", THREE, (0.1,) * 3, (0.1,) * 3, (70.0,) * 3, 6),
    Truth("all alike", THREE, (0.1,) * 3, (0.1,) * 3, (70.0,) * 3, 12),
    Truth("all alike at the limit", THREE, (0.2,) * 3, (0.2,) * 3, (60.0,) * 3, 10),
    Truth("all alike, gaps", FOUR, (0.1,) * 4, (0.1,) * 4, (70.0,) * 4, 8, 0.15),
    Truth("one right in the middle", THREE, (0.9, 0.05, 0), (0, 0.05, 0.9), (40, 80, 40), 8),
    Truth("one right in the middle", THREE, (0.9, 0.05, 0), (0, 0.05, 0.9), (40, 80, 40), 5),
    Truth("one right in the middle", FOUR, (0.9, 0.5, 0, 0), (0, 0, 0, 0.8), (40, 60, 80, 50), 12),
    Truth("all too firm", THREE, (1.0, 0.95, 0.8), (0.0,) * 3, (20, 30, 45), 9),
    Truth("all mushy", THREE, (0.0,) * 3, (0.8, 0.95, 1.0), (45, 30, 20), 9),
    Truth("right lies between", THREE, (0.95, 0.9, 0), (0, 0, 0.95), (40, 45, 40), 10),
    Truth("liked most, texture alike", THREE, (0.1,) * 3, (0.1,) * 3, (40, 60, 90), 12),
    Truth("liked most, few", THREE, (0.1,) * 3, (0.1,) * 3, (40, 60, 90), 6),
    Truth("mushy but liked", THREE, (0.1, 0, 0), (0, 0.1, 0.9), (60, 70, 90), 10),
    Truth("four, late ones mushy", FOUR, (0.1, 0, 0, 0), (0, 0, 0.6, 0.95), (75, 75, 60, 30), 11),
    Truth("four, gaps", FOUR, (0.8, 0.1, 0, 0), (0, 0, 0.1, 0.9), (40, 75, 75, 30), 10, 0.25),
    Truth("split", FOUR, (0.4,) * 4, (0.4,) * 4, (50.0,) * 4, 12),
)
