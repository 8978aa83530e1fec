"""Verdicts against a margin: no worse, worse, within it both ways, or not settled."""

from __future__ import annotations

from builder.language import Deferred, tr
from builder.tasting.comparisons import NoWorse, fewest_for_signs
from builder.tasting.needed import tasters_for_margin
from builder.tasting.verdicts import Grade, Verdict, missing_tasters, more_would_do
from builder.tasting.wording import margin_in_words, points_in_words, tasters_in_words

_SIDES = {1: Deferred("; it scores above it"), 0: "", -1: Deferred(", though it scores below it")}


def no_worse_verdict(
    test: NoWorse,
    challenger: str,
    benchmark: str,
    attribute: str,
    power: float = 0.8,
    reported: int = 0,
    fewest: int = 0,
    worse: bool | None = None,
) -> Verdict:
    """Say whether the challenger is no worse than the benchmark by more than the margin.

    power: [1], above 0 and below 1. reported: whether a test for difference shows the challenger
    above (1) or below (−1) the benchmark, or neither (0). fewest: tasters with fewer than whom
    nothing is claimed. worse: whether it is decided to be worse by more than the margin; None: by
    this test alone. Raises ValueError outside that.

    >>> from builder.tasting.comparisons import no_worse_by_margin
    >>> test = no_worse_by_margin([2, -4, 1, 3, -2, 0, 5, 1], margin=5)
    >>> no_worse_verdict(test, "shank", "fillet", "tenderness").grade.value
    'no worse by more than the margin'
    """
    margin = margin_in_words(test.margin)
    if test.mean is None:
        sentence = tr(
            "0 tasters scored both {challenger} and {benchmark}: not enough tasters to say.",
            challenger=challenger,
            benchmark=benchmark,
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, 0)
    start = tr(
        "{tasters_in_words}, {attribute}: {challenger} less {benchmark} {points_in_words} points",
        tasters_in_words=tasters_in_words(test.tasters),
        attribute=attribute,
        challenger=challenger,
        benchmark=benchmark,
        points_in_words=points_in_words(test.mean, signed=True),
    )
    if test.tasters < fewest:
        too_few = tr(
            "fewer than {fewest} tasters can't show how it stands, even if all agree", fewest=fewest
        )
        more = _missing_for_margin(test, power)
        needed = None if more is None else max(fewest - test.tasters, more)
        return Verdict(
            Grade.NOT_ENOUGH,
            tr("{start}: {too_few}.", start=start, too_few=too_few),
            test.tasters,
            needed,
        )
    bound = (
        ""
        if test.lower is None
        else tr(
            ", at least {points_in_words}", points_in_words=points_in_words(test.lower, signed=True)
        )
    )
    if test.established:
        more_than = tr(
            "no worse than {benchmark} by more than {margin} points",
            benchmark=benchmark,
            margin=margin,
        )
        side = tr(_SIDES[reported])
        return Verdict(
            Grade.NO_WORSE,
            tr(
                "{start}{bound}: {more_than}{side}.",
                start=start,
                bound=bound,
                more_than=more_than,
                side=side,
            ),
            test.tasters,
        )
    if test.worse if worse is None else worse:
        sentence = tr(
            "{start}: worse than {benchmark} by more than {margin} points.",
            start=start,
            benchmark=benchmark,
            margin=margin,
        )
        return Verdict(Grade.WORSE, sentence, test.tasters)
    below = tr("it scores below {benchmark}; ", benchmark=benchmark) if reported == -1 else ""
    if test.tasters < 2:
        sentence = tr(
            "{start}: not enough tasters to say, one shows no spread to count with.", start=start
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters)
    more = _missing_for_margin(test, power)
    if more:
        sentence = tr(
            "{start}{bound}: {below}{more_would_do}.",
            start=start,
            bound=bound,
            below=below,
            more_would_do=more_would_do(more),
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    sentence = tr(
        "{start}{bound}: {below}that it is no worse than {benchmark} by more "
        "than {margin} points is not shown.",
        start=start,
        bound=bound,
        below=below,
        benchmark=benchmark,
        margin=margin,
    )
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def _missing_for_margin(test: NoWorse, power: float) -> int | None:
    """Tasters missing if spread and shortfall stay as observed; None where none would do."""
    if test.mean is None or test.mean <= -test.margin:
        return None
    if test.by_signs or not test.spread:
        # Alike differences: only their sign is tested.
        return max(0, fewest_for_signs(1 - test.confidence, two_sided=False) - test.tasters)
    alpha = 1 - test.confidence
    return missing_tasters(
        tasters_for_margin(test.margin, test.spread, min(test.mean, 0.0), alpha, power),
        test.tasters,
    )
