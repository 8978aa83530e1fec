"""What a tasting's page leads with: which samples the evidence supports, said in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from statistics import median

from builder.costing.choice_words import choice_sentences
from builder.costing.decisions import judged_at
from builder.costing.durations_said import decided, durations_sentences
from builder.costing.pair_words import groups_sentence
from builder.costing.panels import protocol_of
from builder.costing.rather_words import though_words
from builder.costing.tasting_grades import against_benchmark
from builder.costing.tasting_results import AttributeResult, RightResult, TastingResult, margin_of
from builder.costing.window_words import window_words
from builder.display.words import listed
from builder.language import Deferred, tr
from builder.records.tasting_values import RANKS
from builder.records.tastings import Tasting
from builder.tasting.distance_sentences import needed_sentence
from builder.tasting.judged import put_above
from builder.tasting.needed import (
    TastersNeeded,
    tasters_for_difference,
    tasters_for_margin,
    tasters_for_similarity,
    tasters_of_some,
)
from builder.tasting.panel_sentences import differences_sentence
from builder.tasting.rank_verdicts import ranks_verdict
from builder.tasting.ranks import friedman_limit
from builder.tasting.wording import (
    each_counted_once,
    margin_in_words,
    percent_in_words,
    points_in_words,
    tasters_in_words,
    without_chances,
)

USUAL_SPREAD = 20.0
"""Spread of tasters' differences [points of 100] before there is one: common practice, no
published source."""


_NEITHER = Deferred(
    "Without a benchmark and a margin, how many tasters it needs can't be worked out."
)
_NO_BENCHMARK = Deferred("Without a benchmark, how many tasters it needs can't be worked out.")
_NO_MARGIN = Deferred("Without a margin, how many tasters it needs can't be worked out.")


@dataclass(frozen=True, slots=True)
class Support:
    """Which durations may be right, by column of the result; `best` came closest.

    `reported`: whether any duration tried is ruled out.
    """

    columns: tuple[int, ...]
    best: int
    reported: bool


def supported(result: TastingResult) -> Support | None:
    """The durations that are not ruled out, and the one that came closest.

    None without a series of durations, or without answers.
    """
    found = result.decision
    if found is None or not result.series:
        return None
    columns = tuple(result.series[place] for place in found.left)
    return Support(columns, result.series[found.closest[0]], len(columns) < len(result.series))


def _in_window(right: RightResult, hours: float) -> bool:
    """Whether a duration lies where a texture is right."""
    window = right.window
    if window is None:
        return True
    low = window.start.hours if window.start.hours is not None else window.tried[0]
    high = window.end.hours if window.end.hours is not None else window.tried[1]
    return window.exists and low <= hours <= high


def _agrees(right: RightResult, result: TastingResult) -> bool:
    """Whether a window takes in just the durations that are not ruled out."""
    support = supported(result)
    inside = {c for c in result.series if _in_window(right, result.samples[c].hours or 0.0)}
    return support is not None and inside == set(support.columns)


# The lead


def headline(result: TastingResult, spread: float | None = None) -> str:
    """The verdict in words, or what is planned."""
    return " ".join(headlines(result, spread))


_HELD_UNSEEN = Deferred("This tasting was held; what tasters found is not in this edition.")


def headlines(result: TastingResult, spread: float | None = None) -> list[str]:
    """The sentences of the verdict, or of what is planned, the one that leads first.

    What tasters found is said of people, without a p value; `findings_in_full` has them.

    spread: of tasters' differences in the kitchen's tastings so far [points of 100].
    """
    return [without_chances(said) for said in findings_in_full(result, spread)]


def findings_in_full(result: TastingResult, spread: float | None = None) -> list[str]:
    """The same sentences with the p values of the tests behind them."""
    if result.answers_kept:
        return [tr(_HELD_UNSEEN)]
    if not result.held:
        return planned(result, spread or USUAL_SPREAD)
    return each_counted_once(filter(None, _sentences(result)))


def in_order(result: TastingResult, spread: float | None = None) -> tuple[list[str], list[str]]:
    """The sentences of `headlines` by what a reader does with them, and those that stand behind.

    What came closest leads, then how it lies to the benchmark, what may be right too and what
    comes next. How it was decided stands behind: which are out, and at what risk.
    """
    said = decided(result) if result.held and not result.answers_kept else None
    if said is None:
        return headlines(result, spread), []
    rest = list(_sentences(result))[len(list(said.in_turn)) :]
    first = [each for each in (said.closest, *rest, said.may, said.following) if each]
    counted = [without_chances(each) for each in each_counted_once([*first, *said.behind])]
    return counted[: len(first)], counted[len(first) :]


def _sentences(result: TastingResult) -> Iterator[str]:
    if result.choice is not None:
        yield from choice_sentences(result)
        return
    if len(result.samples) < 2:
        yield tr(
            "{tasters_in_words}: one sample only, so nothing is compared.",
            tasters_in_words=tasters_in_words(result.count),
        )
        return
    support = supported(result)
    if result.tasting.test == RANKS:
        yield from durations_sentences(result)
        yield from _ordered(result, support is None)
        return
    yield from durations_sentences(result)
    if support is not None:
        yield against_benchmark(result, support.best)
        yield from (
            window_words(result, right) for right in result.rights if _agrees(right, result)
        )
    yield from (
        against_benchmark(result, column)
        for column in range(len(result.samples))
        if column != result.benchmark and _stays(result, column)
    )
    if result.benchmark is not None and not any(found.no_worse for found in result.attributes):
        yield from _without_margin(result)
    if result.benchmark is None and len(result.series) < len(result.samples):
        yield from _ordered(result, result.decision is None)


def _stays(result: TastingResult, column: int) -> bool:
    """Whether a challenger beside the series, or in none, is still to be compared: not out."""
    judged = judged_at(result, column)
    return result.represented_by(column) is None and not (judged and judged.out)


def _ordered(result: TastingResult, named: bool) -> Iterator[str]:
    """How samples lie to each other; named: which came first so far is still to be said."""
    if named and result.attributes:
        yield _first_words(result, result.attributes[0])
    yield from (rank_sentence(result, found) for found in result.attributes)


def _first_words(result: TastingResult, found: AttributeResult) -> str:
    """The samples that came first as counted, told apart or not."""
    scored = found.anova is not None
    means = found.anova.adjusted_means if found.anova else found.friedman.mean_ranks
    known = [round(mean, 6) for mean in means if mean is not None]
    if not known:
        return ""
    first = [column for column, mean in enumerate(means) if mean is not None
             and round(mean, 6) == max(known)]  # fmt: skip
    names = listed([result.samples[column].words for column in first])
    mark = (
        tr("{points_in_words} of 100", points_in_words=points_in_words(max(known)))
        if scored
        else tr("mean rank {max:.1f}, where 1 is the last place", max=max(known))
    )
    return tr(
        "{tasters_in_words}, {found}: {names} came first so far ({mark}){though}.",
        tasters_in_words=tasters_in_words(result.count),
        found=found.words,
        names=names,
        mark=mark,
        though=_though_put_above(result, found, first),
    )


def _though_put_above(result: TastingResult, found: AttributeResult, first: Sequence[int]) -> str:
    """Samples that most put above the one with the highest mean, so that ranks say otherwise."""
    if len(first) != 1 or found.anova is None:
        return ""
    means = found.anova.adjusted_means
    return though_words(
        (result.samples[each.place].words, each, means[each.place])
        for each in put_above(found.table, means, first[0])
    )


def _without_margin(result: TastingResult) -> Iterator[str]:
    """What can be said beside a benchmark where no margin was stated."""
    names = [sample.words for sample in result.samples]
    for found in result.attributes:
        if found.differences is not None:
            yield differences_sentence(found.differences, names, found.words, result.alpha)
    yield tr("No margin was stated beforehand, so that any is no worse can't be tested.")


def rank_sentence(result: TastingResult, found: AttributeResult) -> str:
    """What ranks support."""
    names = [sample.words for sample in result.samples]
    if found.ranks is not None:
        return ranks_verdict(
            found.friedman, found.ranks, names, found.words, result.alpha, result.fewest
        ).sentence
    return groups_sentence(result, found)


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
    reached: str = "chance of showing it"
    limits: str = ""


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
    what = (
        tr("a lead of {share}", share=share)
        if protocol.two_sided
        else tr("a difference that {share} can tell", share=share)
    )
    yield Question(f"{what} ({protocol.name})", difference, "tasters_for_difference")
    if not protocol.two_sided:
        yield Question(
            tr("that fewer than {share} can tell, if nobody can", share=share),
            tasters_for_similarity(result.can_tell, protocol, 1 - result.power),
            "tasters_for_similarity",
            tr("chance that few enough are correct"),
            # Of fewer correct than guessing brings no likeness is claimed.
            tr(
                "in about half of all panels fewer are correct than guessing brings, and nothing "
                "is shown"
            ),
        )


def _margin_questions(result: TastingResult, spread: float) -> Iterator[Question]:
    alpha = result.alpha / (len(result.samples) - 1)
    for margin, names in sorted(_by_margin(result.tasting).items()):
        needed = tasters_for_margin(margin, spread, 0.0, alpha, result.power)
        yield Question(
            tr(
                "a sample no worse by more than {points_in_words} points of 100 in "
                "{names}, if it is as good",
                points_in_words=margin_in_words(margin),
                names=listed(names),
            ),
            tasters_of_some(needed, share_who_get_one(result)),
            "tasters_for_margin",
        )


def share_who_get_one(result: TastingResult) -> float:
    """Share of tasters [1] who are served a given challenger, all of them having the benchmark."""
    return 1.0 if result.everybody_gets_all else (result.per_taster - 1) / (len(result.samples) - 1)


def _by_margin(tasting: Tasting) -> dict[float, list[str]]:
    found: dict[float, list[str]] = {}
    for name, attribute in tasting.scored.items():
        margin = margin_of(tasting, attribute)
        if margin is not None:
            found.setdefault(margin, []).append(name)
    return found


def planned(result: TastingResult, spread: float = USUAL_SPREAD) -> list[str]:
    """A tasting that is to be held: who, what, and whether they are enough."""
    tasters = len(result.tasting.tasters)
    samples = listed([sample.words for sample in result.samples])
    start = tr(
        "Planned: {tasters_in_words} for {samples}.",
        tasters_in_words=tasters_in_words(tasters),
        samples=samples,
    )
    needed = _needed(list(questions(result, spread)), tasters)
    ranks = list(_fewest_for_ranks(result))
    return [start, *(needed or ranks or [tr(_lacked(result))])]


def _lacked(result: TastingResult) -> Deferred:
    """What a plan leaves out of that by which its tasters are reckoned."""
    if result.benchmark is not None:
        return _NO_MARGIN
    return _NO_BENCHMARK if _by_margin(result.tasting) else _NEITHER


def _needed(asked: Sequence[Question], tasters: int) -> list[str]:
    """How many each question needs and whether they are enough, once where it is so of all."""
    sentences = [_needed_words(each) for each in asked]
    enough = [_enough(each, tasters) for each in asked]
    if len(set(enough)) == 1:
        return [*sentences, enough[0]]
    return [said for pair in zip(sentences, enough, strict=True) for said in pair]


def _needed_words(question: Question) -> str:
    """How many a question needs, and when even so many show nothing."""
    needed = needed_sentence(question.needed, question.words, question.reached)
    limits = question.limits
    return f"{needed} {limits[:1].upper()}{limits[1:]}." if limits else needed


def _enough(question: Question, tasters: int) -> str:
    most = question.needed.at_least
    if most is not None and tasters >= most:
        return tr("The {tasters} asked are enough.", tasters=tasters)
    return tr("The {tasters} asked are too few.", tasters=tasters)


def _fewest_for_ranks(result: TastingResult) -> Iterator[str]:
    """The smallest panel that could show anything at all by ranks."""
    count = len(result.samples)
    if result.tasting.test != RANKS or not 2 <= count <= 7:
        return
    panels = (n for n in range(2, 31) if friedman_limit(count, n, result.alpha) is not None)
    fewest = next(panels, None)
    if fewest is not None:
        yield tr(
            "Fewer than {tasters_in_words} can't show any order of {count} samples.",
            tasters_in_words=tasters_in_words(fewest),
            count=count,
        )
