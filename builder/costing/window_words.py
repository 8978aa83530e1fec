"""Between which hours texture is right, in sentences."""

from __future__ import annotations

from builder.costing.duration_words import missing_words
from builder.costing.tasting_results import RightResult, TastingResult
from builder.language import tr
from builder.tasting.wording import (
    hours_in_words,
    tasters_in_words,
)


def window_words(result: TastingResult, right: RightResult) -> str:
    """The window of right texture at its shortest; the page has its limits."""
    window = right.window
    if window is None or not window.exists:
        return ""
    low, high = right.ends
    first = window.tried[0] if window.start.hours is None else window.start.hours
    last = window.tried[1] if window.end.hours is None else window.end.hours
    few = tr("; not enough tasters to be sure") if missing_words(result) else ""
    if window.start.hours is None and window.end.hours is None:
        tried = tr(
            "{hours_in_words} to {hours_in_words2}",
            hours_in_words=hours_in_words(first),
            hours_in_words2=hours_in_words(last),
        )
        start = tr(
            "{tasters_in_words}: {right} is right wherever it was tried",
            tasters_in_words=tasters_in_words(window.tasters),
            right=right.name,
        )
        return tr(
            "{start} ({tried}), neither end is located{few}.", start=start, tried=tried, few=few
        )
    before = tr(", {low} before", low=low) if window.start.hours is not None else ""
    after = tr(", {high} after", high=high) if window.end.hours is not None else ""
    start = tr(
        "{tasters_in_words}: {right} is right from",
        tasters_in_words=tasters_in_words(window.tasters),
        right=right.name,
    )
    return tr(
        "{start} {hours_in_words} to {hours_in_words2}{before}{after}{few}.",
        start=start,
        hours_in_words=hours_in_words(first),
        hours_in_words2=hours_in_words(last),
        before=before,
        after=after,
        few=few,
    )
