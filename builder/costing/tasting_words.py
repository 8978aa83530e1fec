"""What a tasting's page leads with: which samples the evidence supports, said in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from statistics import median

from builder.costing.panels import protocol_of
from builder.costing.tastings import AttributeResult, RightResult, TastingResult, margin_of
from builder.records.tastings import RANKS, Tasting
from builder.tasting.needed import (
    TastersNeeded,
    tasters_for_difference,
    tasters_for_margin,
    tasters_for_similarity,
)
from builder.tasting.panel_sentences import right_window_sentence
from builder.tasting.ranks import friedman_limit
from builder.tasting.verdicts import (
    Grade,
    Verdict,
    difference_verdict,
    needed_sentence,
    no_worse_verdict,
    ranks_verdict,
    share_sentence,
    similarity_verdict,
)
from builder.tasting.wording import (
    hours_in_words,
    listed,
    percent_in_words,
    points_in_words,
    tasters_in_words,
)

USUAL_SPREAD = 20.0
"""Spread of tasters' differences [points of 100] before there is one: common practice, no
published source."""
_ABOVE = "above it"
_GRADED: Mapping[str, str] = {
    _ABOVE: "above it in {what}",
    Grade.NO_WORSE: "no worse by more than {margin} points of 100 in {what}",
    Grade.WORSE: "worse by more than {margin} points of 100 in {what}",
    Grade.NOT_SHOWN: "not shown to be within the {margin} points in {what}",
    Grade.NOT_ENOUGH: "not settled in {what}",
}


@dataclass(frozen=True, slots=True)
class Support:
    """Which durations the evidence supports, by column of the result; `best` leads them.

    `told`: whether any duration tried is ruled out. `reason` says what rules.
    """

    columns: tuple[int, ...]
    best: int | None
    told: bool
    reason: str


def supported(result: TastingResult) -> Support | None:
    """The durations that are neither told apart from the best nor off in texture.

    None without a series of durations, or without answers.
    """
    if not result.series or not result.held:
        return None
    main = next((found for found in result.attributes if found.study), None)
    left, reasons = set(result.series), []
    if main is not None and main.study is not None:
        left = {result.series[place] for place in main.study.best_tried.rivals}
        reasons.append(f"{main.name} not told apart from the best")
    for right in result.rights:
        window = right.window
        if window is None:
            continue
        low = window.start.hours if window.start.hours is not None else window.tried[0]
        high = window.end.hours if window.end.hours is not None else window.tried[1]
        hours = {column: result.samples[column].hours or 0.0 for column in left}
        left = {c for c in left if window.exists and low <= hours[c] <= high}
        reasons.append(f"{right.name} right")
    ordered = sorted(left, key=lambda column: -_mean(main, column))
    return Support(
        tuple(sorted(left, key=result.series.index)),
        ordered[0] if ordered else None,
        len(left) < len(result.series),
        listed(reasons),
    )


def _mean(found: AttributeResult | None, column: int) -> float:
    mean = found.anova.adjusted_means[column] if found and found.anova else None
    return 0.0 if mean is None else mean


def support_sentence(result: TastingResult) -> str:
    """Say which durations the evidence supports.

    The count of tasters is always in it.
    """
    found = supported(result)
    if found is None:
        return ""
    start = f"{tasters_in_words(result.count)}: "
    if found.best is None:
        return f"{start}no duration tried holds ({found.reason})."
    if not found.told:
        return f"{start}no duration tried is ruled out."
    words = [_hours(result, column) for column in found.columns]
    hold = "holds" if len(words) == 1 else "hold"
    return f"{start}of the durations tried {listed(words)} {hold} ({found.reason})."


def _hours(result: TastingResult, column: int) -> str:
    return hours_in_words(result.samples[column].hours or 0.0)


# Against the benchmark


def verdicts(result: TastingResult, column: int) -> list[tuple[AttributeResult, Verdict]]:
    """What each attribute's test supports of one challenger."""
    benchmark = result.benchmark
    if benchmark is None:
        return []
    names = [sample.words for sample in result.samples]
    return [
        (found, no_worse_verdict(found.no_worse[column], names[column], names[benchmark],
                                 found.name, result.power, _is_above(found, column)))
        for found in result.attributes
        if column in found.no_worse
    ]  # fmt: skip


def against_benchmark(result: TastingResult, column: int) -> str:
    """One sentence on a challenger: the attributes gathered by what their tests support."""
    found = verdicts(result, column)
    if not found or result.benchmark is None:
        return ""
    names = [sample.words for sample in result.samples]
    parts = [
        _GRADED[grade].format(margin=_margins(group), what=listed([a.name for a, _ in group]))
        for grade in _GRADED
        if (group := [(a, v) for a, v in found if _graded(a, v, column) == grade])
    ]
    count = max(verdict.tasters for _, verdict in found)
    more = max((verdict.more or 0 for _, verdict in found), default=0)
    missing = f"; {more} more tasters would do if it stays so" if more else ""
    who = f"{names[column]} beside {names[result.benchmark]}"
    return f"{tasters_in_words(count)}, {who}: {'; '.join(parts)}{missing}."


def _graded(found: AttributeResult, verdict: Verdict, column: int) -> str:
    established = verdict.grade is Grade.NO_WORSE
    return _ABOVE if established and _is_above(found, column) else verdict.grade


def _is_above(found: AttributeResult, column: int) -> bool:
    """Whether the test for difference shows a challenger above, all comparisons counted."""
    if found.differences is None:
        return False
    alpha = 1 - found.differences.confidence + 1e-12
    return any(
        line.sample == column and (line.mean or 0.0) > 0 and line.adjusted_p_value <= alpha
        for line in found.differences.differences
    )


def _margins(group: Iterable[tuple[AttributeResult, Verdict]]) -> str:
    found = {next(iter(a.no_worse.values())).margin for a, _ in group}
    return " or ".join(points_in_words(margin).removesuffix(".0") for margin in sorted(found))


# The lead


def headline(result: TastingResult, spread: float | None = None) -> str:
    """The verdict in words, or what is planned.

    spread: of tasters' differences in the kitchen's tastings so far [points of 100].
    """
    if not result.held:
        return planned(result, spread or USUAL_SPREAD)
    return " ".join(sentence for sentence in _sentences(result) if sentence)


def _sentences(result: TastingResult) -> Iterator[str]:
    if result.choice is not None:
        yield from choice_sentences(result)
        return
    if len(result.samples) < 2:
        yield f"{tasters_in_words(result.count)}: one sample only, so nothing is compared."
        return
    if result.tasting.test == RANKS:
        yield from (rank_sentence(result, found) for found in result.attributes)
        return
    yield support_sentence(result)
    support = supported(result)
    if support is not None:
        if support.best is not None:
            yield against_benchmark(result, support.best)
        yield from (window_words(right) for right in result.rights)
    else:
        yield from (
            against_benchmark(result, column)
            for column in range(len(result.samples))
            if column != result.benchmark
        )
    if result.benchmark is None and support is None:
        yield from (rank_sentence(result, found) for found in result.attributes)


def window_words(right: RightResult) -> str:
    """The window of right texture at its shortest; the page has its limits."""
    window = right.window
    if window is None:
        return ""
    low, high = right.ends
    if not window.exists:
        return right_window_sentence(window, low, high)
    first = window.tried[0] if window.start.hours is None else window.start.hours
    last = window.tried[1] if window.end.hours is None else window.end.hours
    before = f", {low} before" if window.start.hours is not None else ""
    after = f", {high} after" if window.end.hours is not None else ""
    start = f"{tasters_in_words(window.tasters)}: {right.name} is right from"
    return f"{start} {hours_in_words(first)} to {hours_in_words(last)}{before}{after}."


def choice_sentences(result: TastingResult) -> Iterator[str]:
    """What a discrimination test supports: of a difference, else of likeness, and the share."""
    choice = result.choice
    assert choice is not None
    first, second = choice.first.replace("-", " "), choice.second.replace("-", " ")
    if choice.protocol.two_sided:
        yield f"First {first}, second {second}."
    elif choice.difference.different:
        yield f"Some can tell {first} from {second}."
    shown = difference_verdict(choice.difference, result.can_tell, result.power)
    yield shown.sentence
    yield share_sentence(choice.share, choice.protocol)
    if choice.similarity is not None and shown.grade is not Grade.DIFFERENT:
        yield similarity_verdict(choice.similarity).sentence


def rank_sentence(result: TastingResult, found: AttributeResult) -> str:
    """What ranks support."""
    names = [sample.words for sample in result.samples]
    if found.ranks is not None:
        return ranks_verdict(found.friedman, found.ranks, names, found.name, result.alpha).sentence
    start = f"{tasters_in_words(found.friedman.tasters)}, {found.name}: "
    if found.friedman.p_value <= result.alpha:
        return f"{start}the samples are ranked apart."
    return f"{start}no difference in ranks shown; that is no proof of likeness."


# Before anybody cooks


def spread_so_far(results: Iterable[TastingResult]) -> float | None:
    """Middle spread of tasters' differences to a benchmark in the kitchen's own tastings."""
    found = [
        test.spread
        for result in results
        for attribute in result.attributes
        for test in attribute.no_worse.values()
        if test.spread
    ]
    return median(found) if found else None


@dataclass(frozen=True, slots=True)
class Question:
    """A question with the tasters that it needs."""

    words: str
    needed: TastersNeeded
    method: str


def questions(result: TastingResult, spread: float = USUAL_SPREAD) -> Iterator[Question]:
    """How many tasters each question of the tasting needs."""
    tasting = result.tasting
    if tasting.is_discrimination:
        yield from _choice_questions(result)
    elif result.benchmark is not None and len(result.samples) > 1:
        yield from _margin_questions(result, spread)


def _choice_questions(result: TastingResult) -> Iterator[Question]:
    protocol, share = protocol_of(result.tasting), percent_in_words(result.can_tell)
    difference = tasters_for_difference(result.can_tell, protocol, result.alpha, result.power)
    yield Question(f"a {protocol.name} that {share} can tell", difference, "tasters_for_difference")
    if not protocol.two_sided:
        yield Question(
            f"showing that fewer than {share} can tell, if nobody can",
            tasters_for_similarity(result.can_tell, protocol, 1 - result.power),
            "tasters_for_similarity",
        )


def _margin_questions(result: TastingResult, spread: float) -> Iterator[Question]:
    tasting = result.tasting
    alpha = result.alpha / (len(result.samples) - 1)
    for margin, names in sorted(_by_margin(tasting).items()):
        yield Question(
            f"no worse by {points_in_words(margin).removesuffix('.0')} points of 100 in"
            f" {listed(names)}, if as good",
            tasters_for_margin(margin, spread, 0.0, alpha, result.power),
            "tasters_for_margin",
        )


def _by_margin(tasting: Tasting) -> dict[float, list[str]]:
    found: dict[float, list[str]] = {}
    for name, attribute in tasting.scored.items():
        margin = margin_of(tasting, attribute)
        if margin is not None:
            found.setdefault(margin, []).append(name)
    return found


def planned(result: TastingResult, spread: float = USUAL_SPREAD) -> str:
    """A tasting that is to be held: who, what, and whether they are enough."""
    tasters = len(result.tasting.tasters)
    samples = listed([sample.words for sample in result.samples])
    start = f"Planned: {tasters_in_words(tasters)} for {samples}."
    needed = [_enough(question, tasters) for question in questions(result, spread)]
    return " ".join([start, *needed, *_fewest_for_ranks(result)])


def _enough(question: Question, tasters: int) -> str:
    sentence = needed_sentence(question.needed, question.words)
    most = question.needed.at_least
    if most is not None and tasters >= most:
        return f"{sentence} The {tasters} asked are enough."
    return f"{sentence} The {tasters} asked are too few."


def _fewest_for_ranks(result: TastingResult) -> Iterator[str]:
    """The smallest panel that could show anything at all by ranks."""
    count = len(result.samples)
    if result.tasting.test != RANKS or not 2 <= count <= 7:
        return
    panels = (n for n in range(2, 31) if friedman_limit(count, n, result.alpha) is not None)
    fewest = next(panels, None)
    if fewest is not None:
        yield f"Fewer than {tasters_in_words(fewest)} can't show any order of {count} samples."
