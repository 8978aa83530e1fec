"""How counts, chances and lists are put in sentences."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import ceil, floor

from builder.display.numerals import as_read
from builder.language import ntr, tr
from builder.rounding import Halved, half_up, nearest_whole, without_noise

# A count of something that a sentence begins with, in whatever language it is written.
_COUNT = re.compile(r"((\d+)\s[^\d:,]+?)\s?[:,]\s")

# A p value in brackets of its own, with what is said of it, and one between a comma and a colon.
_CHANCE = re.compile(r"\s?\(p [=<] [\d.,]+\)|, p [=<] [\d.,]+(?:[^():;]*(?=\))|(?=\s?:))")

_STEPS = (0.1, 0.25, 0.5, 1.0, 2.0, 3.0, 6.0, 12.0)


def tasters_in_words(count: int) -> str:
    """Say how many tasters.

    >>> tasters_in_words(1), tasters_in_words(12)
    ('1 taster', '12 tasters')
    """
    return tr("1 taster") if count == 1 else tr("{count} tasters", count=count)


def more_tasters_in_words(count: int) -> str:
    """A count of tasters that are missing.

    >>> more_tasters_in_words(1), more_tasters_in_words(4)
    ('1 more taster', '4 more tasters')
    """
    return ntr("{count} more taster", "{count} more tasters", count)


def tasters_start(count: int, about: str = "") -> str:
    """How a sentence on so many tasters begins.

    >>> tasters_start(1), tasters_start(12, "juice")
    ('1 taster: ', '12 tasters, juice: ')
    """
    who = tasters_in_words(count)
    if about:
        return tr("{tasters}, {about}: ", tasters=who, about=about)
    return tr("{tasters}: ", tasters=who)


def percent_in_words(share: float) -> str:
    """Round a share to whole per cent, without turning little into nothing.

    >>> percent_in_words(0.3), percent_in_words(0.002), percent_in_words(0.999)
    ('30 %', 'under 1 %', 'over 99 %')
    >>> percent_in_words(-0.333)
    '−33 %'
    """
    if 0 < share < 0.005:
        return tr("under 1 %")
    if 0.995 <= share < 1:
        return tr("over 99 %")
    return f"{half_up(share, scale=2) + 0} %".replace("-", "−")


def level_in_words(level: float) -> str:
    """Say a level of risk or confidence to three digits.

    >>> level_in_words(0.975), level_in_words(0.01)
    ('97.5 %', '1 %')
    """
    return f"{Halved(without_noise(100 * level)):.3g} %"


def chance_in_words(p_value: float) -> str:
    """Say a p value.

    >>> chance_in_words(0.0188), chance_in_words(0.00001), chance_in_words(0.24)
    ('p = 0.019', 'p < 0.001', 'p = 0.24')
    """
    if p_value < 0.001:
        return "p < 0.001"
    places = 2 if p_value >= 0.1 else 3
    return f"p = {as_read(p_value, places):.{places}f}"


def without_chances(sentence: str) -> str:
    """A sentence as it leads: the p values that it has in brackets or between commas left out.

    >>> without_chances("12 tasters, 8 correct in the triangle: different (p = 0.019).")
    '12 tasters, 8 correct in the triangle: different.'
    >>> without_chances("6 dégustateurs, p = 0.24 : pas assez (p < 0.001) ; p. 3")
    '6 dégustateurs : pas assez ; p. 3'
    >>> without_chances("10 tasters: a above b (every pair counted, p < 0.001 at most).")
    '10 tasters: a above b (every pair counted).'
    """
    return _CHANCE.sub("", sentence)


def points_in_words(points: float, signed: bool = False) -> str:
    """Say a score or difference with one decimal.

    >>> points_in_words(4.25, signed=True), points_in_words(-0.01), points_in_words(0, signed=True)
    ('+4.3', '0.0', '0.0')
    >>> points_in_words(68.24999999999999)
    '68.3'
    """
    # A mean of scores is as far off its half as the processor's sums are.
    rounded = as_read(without_noise(points), 1) + 0.0
    words = f"{rounded:+.1f}" if signed and rounded else f"{rounded:.1f}"
    return words.replace("-", "−")


def margin_in_words(margin: float) -> str:
    """Say a margin as finely as a kitchen states it: a whole one without a decimal.

    >>> margin_in_words(12), margin_in_words(12.5)
    ('12', '12.5')
    """
    return points_in_words(margin).removesuffix(".0")


def hours_in_words(hours: float) -> str:
    """Say a duration.

    >>> hours_in_words(24.0), hours_in_words(5.21)
    ('24 h', '5.2 h')
    """
    return f"{as_read(hours, 1):g} h"


def hours_step(tried: Sequence[float]) -> float:
    """How fine hours between durations tried are said [h]: a quarter of the least step, or finer.

    tried: rising [h]. Common practice, no published source.

    >>> hours_step([12.0, 24.0, 36.0]), hours_step([24.0, 30.0, 42.0]), hours_step([1.0, 1.25])
    (3.0, 1.0, 0.1)
    """
    least = min((b - a for a, b in pairwise(tried)), default=0.0)
    return max((step for step in _STEPS if step <= least / 4), default=_STEPS[0])


def hours_about(hours: float, step: float, towards: int = 0) -> str:
    """Say hours between durations tried no finer than `step` [h].

    towards: -1 for the step below, 1 for the one above, 0 for the nearest.

    >>> hours_about(30.6, 3.0), hours_about(29.6, 3.0, -1), hours_about(31.6, 3.0, 1)
    ('30 h', '27 h', '33 h')
    """
    steps = round(hours / step, 6)
    if towards:
        return hours_in_words((floor(steps) if towards < 0 else ceil(steps)) * step)
    return hours_in_words(nearest_whole(steps) * step)


def sentences_of(parts: Iterable[str]) -> str:
    """What is said of one thing as a sentence for each part; what is empty is left out.

    >>> sentences_of(["9 tasters: open in tenderness", "", "as close as you asked in flavour"])
    '9 tasters: open in tenderness. As close as you asked in flavour.'
    """
    return " ".join(f"{part[0].upper()}{part[1:]}." for part in parts if part)


def counted_once(sentences: Iterable[str]) -> str:
    """Join sentences; a count of tasters that was said already is not said again."""
    return " ".join(each_counted_once(sentences))


def each_counted_once(sentences: Iterable[str]) -> list[str]:
    """The sentences, without a count of tasters that one before has said.

    >>> each_counted_once(["9 tasters: it rises.", "9 tasters, 4 correct: no.", "8 tasters: d."])
    ['9 tasters: it rises.', '4 correct: no.', '8 tasters: d.']
    """
    said, known = [], ""
    for sentence in sentences:
        found = _tasters_at_start(sentence)
        rest = sentence[found.end() :] if found and found[1] == known else ""
        if rest and not rest.startswith("d′"):
            rest = rest[0].upper() + rest[1:]
        said.append(rest or sentence)
        known = found[1] if found else known
    return said


def _tasters_at_start(sentence: str) -> re.Match[str] | None:
    found = _COUNT.match(sentence)
    return found if found and found[1] == tasters_in_words(int(found[2])) else None
