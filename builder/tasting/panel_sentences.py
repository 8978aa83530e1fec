"""Sentences on panels, texture and durations, the count of tasters always in them."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from builder.display.words import listed
from builder.language import clauses, ntr, tr
from builder.tasting.agreement import Concordance, Standing, TasterAgreement
from builder.tasting.comparisons import BenchmarkComparison, fewest_for_signs
from builder.tasting.durations import DurationCurve, Shape
from builder.tasting.right import BOTH_ENDS, RightShares, RightWindow, WindowEnd
from builder.tasting.scores import ScoreAnova
from builder.tasting.studies import DurationStudy, NextCook
from builder.tasting.wording import (
    chance_in_words,
    hours_about,
    hours_in_words,
    hours_step,
    percent_in_words,
    points_in_words,
    tasters_in_words,
    tasters_start,
)


def anova_sentence(table: ScoreAnova, attribute: str, alpha: float = 0.05) -> str:
    """Say whether mean scores differ between samples.

    >>> from builder.tasting.scores import score_anova
    >>> anova_sentence(score_anova([[1, 2, 3]]), "flavour")
    '1 taster: one taster only: no spread between tasters to judge by (flavour).'
    """
    start = tasters_start(table.tasters)
    row = table.samples_over_tasters or table.samples
    if row.p_value is None:
        return f"{start}{table.note or tr('no spread is left to judge by')} ({attribute})."
    chance = chance_in_words(row.p_value)
    if row.p_value <= alpha:
        return tr(
            "{start}mean {attribute} differs between samples ({chance}).",
            start=start,
            attribute=attribute,
            chance=chance,
        )
    return tr(
        "{start}no difference in mean {attribute} shown ({chance}).",
        start=start,
        attribute=attribute,
        chance=chance,
    )


def differences_sentence(
    comparison: BenchmarkComparison, names: Sequence[str], attribute: str, alpha: float = 0.05
) -> str:
    """Say which samples score apart from the benchmark, all comparisons counted.

    >>> from builder.tasting.comparisons import benchmark_differences
    >>> differences_sentence(benchmark_differences([[1, 2]], 0), ["a", "b"], "flavour")[:54]
    '1 taster could not tell any sample from a in flavour; '
    """
    reported = [line for line in comparison.differences if line.adjusted_p_value <= alpha]
    fewest = min((line.tasters for line in comparison.differences), default=0)
    most = max((line.tasters for line in comparison.differences), default=0)
    count = (
        tasters_in_words(most)
        if fewest == most
        else tr("{fewest} to {most} tasters", fewest=fewest, most=most)
    )
    benchmark = names[comparison.benchmark]
    if not reported:
        few = fewest_for_signs(alpha)
        why = (
            tr("; fewer than {few} can't tell any, even if all agree", few=few)
            if most < few
            else ""
        )
        return tr(
            "{count} could not tell any sample from {benchmark} in {attribute}{why}.",
            count=count,
            benchmark=benchmark,
            attribute=attribute,
            why=why,
        )
    parts = [
        tr(
            "{names} {points_in_words} points ({chance_in_words})",
            names=names[line.sample],
            points_in_words=points_in_words(line.mean or 0.0, signed=True),
            chance_in_words=chance_in_words(line.adjusted_p_value),
        )
        for line in reported
    ]
    return tr(
        "{count}: {attribute} less that of {benchmark}: {parts}.",
        count=count,
        attribute=attribute,
        benchmark=benchmark,
        parts=listed(parts),
    )


def repeats_sentence(repeats: ScoreAnova, served: str, attribute: str, alpha: float = 0.05) -> str:
    """Say how far a taster's own judgements of one thing lie apart, and what stands out of it.

    repeats: with replicates. served: the samples that were one thing.

    >>> from builder.tasting.scores import score_anova
    >>> cube = [[[60, 65], [80, 80]], [[55, 50], [75, 70]], [[70, 65], [90, 85]]]
    >>> repeats_sentence(score_anova(cube), "a and b", "flavour")[:52]
    '3 tasters, flavour: a and b were one thing; a taster'
    """
    start = tr(
        "{tasters_in_words}, {attribute}: {served} were one thing; ",
        tasters_in_words=tasters_in_words(repeats.tasters),
        attribute=attribute,
        served=served,
    )
    if repeats.error.mean_square is None:
        return tr(
            "{start}nobody's judgements of it differ, so there is no scatter to judge by.",
            start=start,
        )
    scatter = points_in_words(sqrt(repeats.error.mean_square))
    start = tr(
        "{start}a taster's own scores of it scatter by {scatter} points (standard deviation)",
        start=start,
        scatter=scatter,
    )
    row = repeats.samples_over_tasters
    if row is None or row.p_value is None:
        return f"{start}."
    reported = (
        tr("samples differ") if row.p_value <= alpha else tr("no difference of samples is shown")
    )
    chance = chance_in_words(row.p_value)
    return tr(
        "{start}; beside how differently tasters judge, {reported} ({chance}).",
        start=start,
        reported=reported,
        chance=chance,
    )


def concordance_sentence(concordance: Concordance, attribute: str) -> str:
    """Say how far tasters agree.

    >>> concordance_sentence(Concordance(8, 4, 0.62, ""), "juice")
    '8 tasters, juice: agreement on ranks 0.62 of 1 (Kendall).'
    """
    if not concordance.tasters:
        return tr(
            "No taster had every sample for {attribute}, so there is no agreement on ranks to "
            "work out.",
            attribute=attribute,
        )
    start = tasters_start(concordance.tasters, attribute)
    if concordance.w is None:
        return f"{start}{concordance.note}."
    return tr("{start}agreement on ranks {w:.2f} of 1 (Kendall).", start=start, w=concordance.w)


def standing_sentence(panel: Sequence[TasterAgreement], codes: Sequence[str]) -> str:
    """Say who can't be told from somebody answering at random; nobody is left out for it.

    codes: private codes of the tasters, in the order of `panel`.

    >>> line = TasterAgreement(0, 4, None, None, Standing.ONE_SCORE)
    >>> standing_sentence([line], ["T1"])
    '1 taster: T1 gave one score to all.'
    """
    if panel and all(line.standing is Standing.TOO_FEW for line in panel):
        start = tr(
            "{tasters_in_words}: too few samples to tell",
            tasters_in_words=tasters_in_words(len(panel)),
        )
        return tr("{start} anybody from somebody answering at random.", start=start)
    parts = []
    for standing in Standing:
        who = [codes[line.taster] for line in panel if line.standing is standing]
        if who and standing is not Standing.AGREES:
            parts.append(
                tr("{who} {found}", who=listed(who), found=_standing_words(standing, len(who)))
            )
    start = tasters_start(len(panel))
    if not parts:
        return tr("{start}everybody agrees with the rest.", start=start)
    return f"{start}{clauses(parts)}."


def _standing_words(standing: Standing, count: int) -> str:
    if standing is Standing.CONTRARY:
        return ntr("answers the other way round", "answer the other way round", count)
    if standing is Standing.TOO_FEW:
        return ntr(
            "can't be judged, as this taster and the rest both tell too few samples apart",
            "can't be judged, as these tasters and the rest both tell too few samples apart",
            count,
        )
    return tr(standing)


def right_sentence(shares: RightShares, low_word: str, high_word: str) -> str:
    """Say how many found a sample right, and how many not.

    >>> from builder.tasting.right import just_about_right_shares
    >>> answers = just_about_right_shares([[0], [-1], [0], [1]])[0]
    >>> right_sentence(answers, "too firm", "falling apart")
    '4 tasters: 2 just about right, 1 too firm, 1 falling apart.'
    """
    return tr(
        "{tasters_in_words}: {count} just about right, {count2} {low_word}, {count3} {high_word}.",
        tasters_in_words=tasters_in_words(shares.answers),
        count=shares.right.count,
        count2=shares.below.count,
        low_word=low_word,
        count3=shares.above.count,
        high_word=high_word,
    )


def right_window_sentence(
    window: RightWindow, low_word: str = "too firm", high_word: str = "overdone", few: str = ""
) -> str:
    """Say in which durations texture is right, and which end was not located.

    low_word, high_word: the ends of the scale as the kitchen words them. few: that tasters are
    missing, in words.

    >>> from builder.tasting.right import right_window
    >>> right_window_sentence(right_window([[-1, -1, -1]] * 3, [12, 24, 48]))[:52]
    '3 tasters: at no duration tried were both too firm a'
    """
    start = tasters_start(window.tasters)
    if not window.exists:
        both = tr("both {low} and {high}", low=low_word, high=high_word)
        note = window.note.replace(tr(BOTH_ENDS), both)
        return f"{start}{note}."
    limit = percent_in_words(window.limit)
    parts = [_inside_words(window, limit, low_word, high_word)]
    parts += [_start_words(window), _end_words(window, high_word), window.note]
    parts += [few]
    return f"{start}{'; '.join(part for part in parts if part)}."


def _inside_words(window: RightWindow, limit: str, low: str, high: str) -> str:
    if not window.right_at:
        return tr(
            "at no duration tried do at most {limit} find it {low_word} and at most {limit} "
            "{high_word}, but between two of them that may be so",
            limit=limit,
            low_word=low,
            high_word=high,
        )
    return tr(
        "at {hours} at most {limit} find it {low_word} and at most {limit} {high_word}",
        hours=listed([hours_in_words(hours) for hours in window.right_at]),
        limit=limit,
        low_word=low,
        high_word=high,
    )


def _start_words(window: RightWindow) -> str:
    if window.start.hours is None:
        return ""
    low, high = _reach_words(window, window.start)
    return tr("the shortest that is right may lie from {low} to {high}", low=low, high=high)


def _end_words(window: RightWindow, high_word: str) -> str:
    if window.end.hours is None:
        return ""
    low, high = _reach_words(window, window.end)
    return tr(
        "the longest before it is {high_word} may lie from {low} to {high}",
        high_word=high_word,
        low=low,
        high=high,
    )


def _reach_words(window: RightWindow, end: WindowEnd) -> tuple[str, str]:
    """Both limits of an end, no finer than the durations tried can tell."""
    step, (shortest, longest) = hours_step(window.times), window.tried
    low, high = tr("the shortest tried or less"), tr("the longest tried or more")
    if end.lower is not None:
        low = hours_about(end.lower, step, -1) if end.lower > shortest else hours_in_words(shortest)
    if end.upper is not None:
        high = hours_about(end.upper, step, 1) if end.upper < longest else hours_in_words(longest)
    return low, high


def study_sentence(study: DurationStudy, attribute: str, level: float = 0.05) -> str:
    """Say which duration is best by scores, or honestly that it isn't known.

    level: the risk at which one is called worse than the best [1].

    >>> from builder.tasting.studies import study_durations
    >>> study_sentence(study_durations([[3, 5], [4, 6]], [24, 36]), "juice")
    '2 tasters, juice: a curve needs at least 4 durations; 36 h scores best, 24 h may be as good.'
    """
    start = tasters_start(study.tasters, attribute)
    if study.curve is None:
        reported = study.told and len(study.hours) > 1
        best = _rivals(study, level) if reported else ""
        return f"{start}{clauses([study.note, best])}."
    doubt = "" if study.curve.fits else _misfit_words(study.curve)
    curve = f"{_curve_words(study.curve, study.hours)}{doubt}"
    return f"{start}{clauses([curve, _rivals(study, level)])}."


def _misfit_words(curve: DurationCurve) -> str:
    chance = chance_in_words(curve.misfit_p_value or 0.0)
    other = "" if curve.log_time else tr("; over the logarithm of time it may (log time: yes)")
    return tr(
        ", though the curve does not fit the means ({chance}){other}", chance=chance, other=other
    )


def _rivals(study: DurationStudy, level: float) -> str:
    best = study.best_tried
    rivals = [c for c, chance in enumerate(best.p_values) if chance > level and c != best.best]
    others = [hours_in_words(study.hours[c]) for c in rivals if best.means[c] is not None]
    name = hours_in_words(study.hours[best.best])
    if not others:
        return tr("{name} scores best of these durations, clearly above all others", name=name)
    return tr("{name} scores best, {others} may be as good", name=name, others=listed(others))


def _curve_words(curve: DurationCurve, hours: Sequence[float]) -> str:
    tried = tr(
        "{hours_in_words} to {hours_in_words2} tried",
        hours_in_words=hours_in_words(curve.shortest),
        hours_in_words2=hours_in_words(curve.longest),
    )
    if curve.shape is Shape.PEAK and curve.limits is not None and curve.best is not None:
        confidence = percent_in_words(curve.confidence)
        step = hours_step(hours)
        low, high = hours_about(curve.limits[0], step, -1), hours_about(curve.limits[1], step, 1)
        if curve.limits[0] < curve.shortest:
            low = tr("below the shortest tried")
        if curve.limits[1] > curve.longest:
            high = tr("past the longest tried")
        return tr(
            "best near {hours_in_words}, from {low} to {high} ({confidence} limits)",
            hours_in_words=hours_about(curve.best, step),
            low=low,
            high=high,
            confidence=confidence,
        )
    if curve.shape is Shape.RISING:
        return tr("it still rises at the longest ({tried}); the peak is not located", tried=tried)
    if curve.shape is Shape.FALLING:
        return tr("it falls from the shortest on ({tried}); the peak is not located", tried=tried)
    if curve.shape is Shape.VALLEY:
        return tr("it falls, then rises ({tried}): there is no peak between them", tried=tried)
    return tr("peak not located ({tried})", tried=tried)


def next_cook_words(following: NextCook) -> str:
    """Which experiment is worth cooking next, and why, as a part of a sentence.

    >>> next_cook_words(NextCook((72.0,), None, "the longest still gains"))
    'cook 72 h as well (the longest still gains)'
    """
    parts = []
    if following.hours:
        parts.append(
            tr("cook {hours} as well", hours=listed([hours_in_words(h) for h in following.hours]))
        )
    if following.tasters is not None:
        parts.append(
            tr("ask {tasters_in_words}", tasters_in_words=tasters_in_words(following.tasters))
        )
    return tr("{work} ({reason})", work=listed(parts), reason=following.reason)
