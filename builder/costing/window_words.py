"""Between which hours texture is right, in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from builder.costing.decisions import asked_of_texture
from builder.costing.duration_words import missing_words
from builder.costing.next_words import hours_of
from builder.costing.tasting_results import RightResult, TastingResult
from builder.display.words import listed
from builder.language import tr
from builder.tasting.judged import TEXTURE, Fault, Judged
from builder.tasting.right import RightWindow
from builder.tasting.wording import (
    hours_in_words,
    percent_in_words,
    tasters_in_words,
)


def window_words(result: TastingResult, right: RightResult) -> str:
    """The durations tried at which texture is right; the page has the limits of the window.

    Only what was tried is named: a panel can't say between which hours texture turns.
    """
    window = right.window
    if window is None or not window.exists:
        return ""
    few = _few_words(result)
    if window.start.hours is None and window.end.hours is None:
        tried = tr(
            "{hours_in_words} to {hours_in_words2}",
            hours_in_words=hours_in_words(window.tried[0]),
            hours_in_words2=hours_in_words(window.tried[1]),
        )
        start = tr(
            "{tasters_in_words}: {right} is right wherever it was tried",
            tasters_in_words=tasters_in_words(window.tasters),
            right=right.name,
        )
        return tr(
            "{start} ({tried}), neither end is located{few}.", start=start, tried=tried, few=few
        )
    if not window.right_at:
        return _between_words(window, right.name, few)
    return tr(
        "{tasters_in_words}: {right} is right at {hours}{off}{few}.",
        tasters_in_words=tasters_in_words(window.tasters),
        right=right.name,
        hours=listed([hours_in_words(hours) for hours in window.right_at]),
        off=_off_words(result, right, window),
        few=few,
    )


def _few_words(result: TastingResult) -> str:
    """That the closest is not shown right."""
    found = result.decision
    if found is None or not missing_words(result):
        return ""
    return tr(
        "; not enough tasters to be sure of {closest}",
        closest=hours_of(result, found.closest, found),
    )


def _off_words(result: TastingResult, right: RightResult, window: RightWindow) -> str:
    """Which durations tried beside it are too firm or too soft.

    That it is so for more than the limit is said of those that are out for it; of others how
    many found it, for as many may by chance.
    """
    sure: list[tuple[str, str]] = []
    counted = ""
    number = next(n for n, each in enumerate(asked_of_texture(result)) if each is right)
    for hours, fault, word in zip(
        (window.below_at, window.above_at), TEXTURE, right.ends, strict=True
    ):
        judged = _judged_at(result, hours)
        if judged is None:
            continue
        count, named = judged.counts[number], hours_in_words(judged.hours)
        if (fault, number) in judged.faults:
            sure.append((named, word))
            continue
        counted += tr(
            "; {found} of {answers} found {hours} {word}",
            found=count.early if fault is Fault.TOO_EARLY else count.late,
            answers=count.answers,
            hours=named,
            word=word,
        )
    return f"{_sure_words(sure, percent_in_words(window.limit))}{counted}"


def _judged_at(result: TastingResult, hours: float | None) -> Judged | None:
    judged = result.decision.judged if result.decision else ()
    return next((each for each in judged if each.hours == hours), None)


def _sure_words(sure: Sequence[tuple[str, str]], limit: str) -> str:
    """Durations that more than the limit find off."""
    if not sure:
        return ""
    (hours, word), *later = sure
    if not later:
        return tr("; more than {limit} find {hours} {word}", limit=limit, hours=hours, word=word)
    [(after, high)] = later
    return tr(
        "; more than {limit} find {before} {low} and {after} {high}",
        limit=limit,
        before=hours,
        low=word,
        after=after,
        high=high,
    )


def _between_words(window: RightWindow, name: str, few: str) -> str:
    """Two durations tried, off on either side, between which texture may be right."""
    start, end = window.start.hours or 0.0, window.end.hours or 0.0
    return tr(
        "{tasters_in_words}: {right} may be right between {before} and {after}, "
        "where nothing was tried{few}.",
        tasters_in_words=tasters_in_words(window.tasters),
        right=name,
        before=hours_in_words(max(hours for hours in window.times if hours <= start)),
        after=hours_in_words(min(hours for hours in window.times if hours >= end)),
        few=few,
    )
