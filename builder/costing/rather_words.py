"""Samples that score above the closest, or that most tasters put above it, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from builder.costing.decisions import main_study
from builder.costing.next_words import name_of
from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.display.words import listed
from builder.language import tr
from builder.tasting.judged import Judged, Rather
from builder.tasting.shortlist import Shortlist
from builder.tasting.wording import points_in_words

_NOTABLE = 10.0
"""Points of 100 by which a higher score is worth a word: common practice, no published source."""


def though_words(samples: Iterable[tuple[str, Rather, float | None]]) -> str:
    """Name the samples, who put them above, and their means [points of 100] where scored.

    >>> though_words([("a", Rather(0, 11, 14), 49.8)])
    ', though 11 of 14 put a above it (mean 49.8)'
    """
    parts = [_put_words(*each) for each in samples]
    return tr(", though {parts}", parts=listed(parts)) if parts else ""


def _put_words(name: str, counted: Rather, mean: float | None) -> str:
    words = (
        ""
        if mean is None
        else tr(" (mean {points_in_words})", points_in_words=points_in_words(mean))
    )
    put = tr("{above} of {both} put {name}", above=counted.above, both=counted.both, name=name)
    return tr("{put} above it{mean}", put=put, mean=words)


def better_words(
    result: TastingResult, found: Shortlist, others: Sequence[Judged]
) -> Iterator[str]:
    """Durations left that score clearly higher than the closest."""
    main, own = main_study(result), found.judged[found.closest[0]].mean
    if main is None or main.attribute is None or own is None:
        return
    for each in others:
        if each.mean is not None and each.mean - own >= _NOTABLE:
            if result.series:
                mean, means = tr("mean {main}", main=main.words), _against(each.mean, own)
                name = name_of(result, each)
                yield tr("{mean} is higher at {name} ({means}).", mean=mean, name=name, means=means)
            else:
                yield _higher_words(main, name_of(result, each), each.mean, own)


def beside_words(result: TastingResult, found: Shortlist) -> Iterator[str]:
    """Samples of no series that score higher than the closest of the series."""
    main, own = main_study(result), found.judged[found.closest[0]].mean
    if main is None or main.anova is None or own is None:
        return
    for column in result.beside_series:
        mean = main.anova.adjusted_means[column]
        if mean is not None and mean > own:
            yield _higher_words(main, result.samples[column].words, mean, own)


def _higher_words(main: AttributeResult, name: str, mean: float, own: float) -> str:
    said = tr("mean {main}", main=main.words)
    return tr(
        "{name} has a higher {mean} ({means}).", name=name, mean=said, means=_against(mean, own)
    )


def _against(mean: float, own: float) -> str:
    return tr(
        "{points_in_words} against {points_in_words2}",
        points_in_words=points_in_words(mean),
        points_in_words2=points_in_words(own),
    )
