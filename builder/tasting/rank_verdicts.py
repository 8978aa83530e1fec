"""What ranks and their trend support, in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from builder.display.words import listed
from builder.language import tr
from builder.tasting.needed import (
    tasters_for_ranks,
)
from builder.tasting.ranks import BenchmarkRanks, FriedmanTest, PageTrend
from builder.tasting.verdicts import Grade, Verdict, missing_tasters, more_would_do
from builder.tasting.wording import (
    chance_in_words,
    tasters_in_words,
    tasters_start,
)


def ranks_verdict(
    test: FriedmanTest,
    against: BenchmarkRanks,
    names: Sequence[str],
    attribute: str,
    alpha: float = 0.05,
    fewest: int = 0,
) -> Verdict:
    """Say whether tasters rank the samples apart, and which from the benchmark.

    names: one per sample. alpha: [1], above 0 and below 1. fewest: tasters with fewer than whom
    none is told apart from the benchmark. Raises ValueError outside that.

    >>> from builder.tasting.ranks import benchmark_ranks, friedman_test
    >>> scores = [[1, 2, 3], [1, 3, 2], [1, 2, 3], [1, 2, 3], [1, 3, 2]]
    >>> verdict = ranks_verdict(
    ...     friedman_test(scores), benchmark_ranks(scores, 0), ["24 h", "36 h", "48 h"], "juiciness"
    ... )
    >>> verdict.grade.value
    'different'
    """
    start = f"{tasters_in_words(test.tasters)}, {attribute}"
    chance = chance_in_words(test.p_value)
    if not test.informative:
        return Verdict(
            Grade.NOT_SHOWN,
            tr("{start}: {note}, no rank is shown.", start=start, note=test.note),
            test.tasters,
        )
    if test.p_value <= alpha:
        beside = _against(against, names, alpha)
        if against.tasters < fewest:
            beside = _too_few(test, against, names, fewest)
        sentence = tr(
            "{start}: samples differ ({chance}){beside}.", start=start, chance=chance, beside=beside
        )
        return Verdict(Grade.DIFFERENT, sentence, test.tasters)
    needed = tasters_for_ranks(test.statistic, test.degrees, test.tasters, alpha)
    more = missing_tasters(needed, test.tasters)
    if more:
        sentence = tr(
            "{start} ({chance}): {more_would_do} if ranks stay so.",
            start=start,
            chance=chance,
            more_would_do=more_would_do(more),
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    sentence = tr(
        "{start}: no difference in ranks shown ({chance}); that is no proof of likeness.",
        start=start,
        chance=chance,
    )
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def _too_few(test: FriedmanTest, against: BenchmarkRanks, names: Sequence[str], fewest: int) -> str:
    """Why none is told apart from the benchmark by ranks."""
    benchmark = names[against.benchmark]
    if against.tasters < test.tasters:
        had_all = tr(
            "{only_tasters} had every sample",
            only_tasters=tr("only {tasters}", tasters=against.tasters)
            if against.tasters
            else tr("nobody"),
        )
        return tr(
            "; by ranks they could not tell any one from {benchmark}, for {had_all}",
            benchmark=benchmark,
            had_all=had_all,
        )
    return tr(
        "; fewer than {fewest} can't tell any from {benchmark}, even if all agree",
        fewest=fewest,
        benchmark=benchmark,
    )


def _against(against: BenchmarkRanks, names: Sequence[str], alpha: float) -> str:
    reported = [line for line in against.comparisons if line.adjusted_p_value <= alpha]
    above = [names[line.sample] for line in reported if line.rank_sum_difference > 0]
    below = [names[line.sample] for line in reported if line.rank_sum_difference < 0]
    benchmark = names[against.benchmark]
    if not reported:
        return tr("; they could not tell any one from {benchmark}", benchmark=benchmark)
    parts = (
        [tr("{above} above {benchmark}", above=listed(above), benchmark=benchmark)] if above else []
    )
    parts += (
        [tr("{below} below {benchmark}", below=listed(below), benchmark=benchmark)] if below else []
    )
    return f"; {listed(parts)}"


def trend_sentence(test: PageTrend, attribute: str, order: str, alpha: float = 0.05) -> str:
    """Say whether scores rise along an order stated beforehand.

    A trend by ranks says nothing of every step: a peak near the end has one, too.

    >>> from builder.tasting.ranks import page_trend
    >>> trend_sentence(page_trend([[1, 2, 3, 4]] * 5), "tenderness", "duration")
    '5 tasters: tenderness rises with duration on the whole (p < 0.001).'
    >>> trend_sentence(page_trend([[4, 3, 2, 1]] * 5), "liking", "duration")
    '5 tasters: liking falls with duration on the whole (p < 0.001, counted for rise and fall).'
    """
    if not test.tasters:
        return tr(
            "No taster had all the samples, so no trend of {attribute} is shown.",
            attribute=attribute,
        )
    start = tasters_start(test.tasters)
    if test.note:
        return tr(
            "{start}{note}, so no trend of {attribute} is shown.",
            start=start,
            note=test.note,
            attribute=attribute,
        )
    chance = chance_in_words(test.p_value)
    if test.p_value <= alpha:
        return tr(
            "{start}{attribute} rises with {order} on the whole ({chance}).",
            start=start,
            attribute=attribute,
            order=order,
            chance=chance,
        )
    both_ways = min(1.0, 2 * test.falling)
    if both_ways <= alpha:
        chance = chance_in_words(both_ways)
        counted = tr("({chance}, counted for rise and fall)", chance=chance)
        return tr(
            "{start}{attribute} falls with {order} on the whole {counted}.",
            start=start,
            attribute=attribute,
            order=order,
            counted=counted,
        )
    return tr(
        "{start}no rise of {attribute} with {order} shown ({chance}).",
        start=start,
        attribute=attribute,
        order=order,
        chance=chance,
    )
