"""Verdicts in words, graded by what a test supports, the count of tasters always in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from builder.display.words import listed
from builder.tasting.discrimination import (
    DifferenceTest,
    ShareWhoCanTell,
    SimilarityTest,
    share_who_can_tell,
)
from builder.tasting.needed import (
    TastersNeeded,
    tasters_for_difference,
    tasters_for_ranks,
    tasters_for_similarity,
)
from builder.tasting.protocols import Protocol
from builder.tasting.ranks import BenchmarkRanks, FriedmanTest, PageTrend
from builder.tasting.thurstone import DPrime
from builder.tasting.wording import (
    chance_in_words,
    percent_in_words,
    points_in_words,
    tasters_in_words,
)

SAMPLES = ("the first sample", "the second")
"""What the samples of a pair are called where their names are not known."""


# No likeness is claimed of fewer correct answers than guessing brings.
_UNLESS = ", unless fewer are correct than guessing brings, as in about half of such panels"


class Grade(StrEnum):
    """What a test supports, no more."""

    DIFFERENT = "different"
    FEW_CAN_TELL = "fewer than the limit can tell"
    MANY_CAN_TELL = "more than the limit can tell"
    NO_WORSE = "no worse by more than the margin"
    WORSE = "worse by more than the margin"
    NOT_ENOUGH = "not enough tasters to say"
    NOT_SHOWN = "not shown"


@dataclass(frozen=True, slots=True)
class Verdict:
    """A grade with its sentence; `more`: tasters that are missing, None where none helps."""

    grade: Grade
    sentence: str
    tasters: int
    more: int | None = None


def missing_tasters(needed: TastersNeeded, tasters: int) -> int | None:
    """How many tasters are missing; 0 when there are enough, None when no number would do."""
    return None if needed.at_least is None else max(0, needed.at_least - tasters)


def more_would_do(count: int) -> str:
    """Say how many tasters are missing.

    >>> more_would_do(4)
    'not enough tasters to say; 4 more would do'
    """
    return f"not enough tasters to say; {count} more would do"


def _result(correct: int, tasters: int, protocol: Protocol, names: Sequence[str] = SAMPLES) -> str:
    if protocol.two_sided:
        return (
            f"{tasters_in_words(tasters)}: {correct} chose {names[0]},"
            f" {tasters - correct} {names[1]} ({protocol.name})"
        )
    return f"{tasters_in_words(tasters)}, {correct} correct in the {protocol.name}"


def difference_verdict(
    test: DifferenceTest,
    smallest_share: float = 0.3,
    power: float = 0.9,
    names: Sequence[str] = SAMPLES,
) -> Verdict:
    """Say what a difference test supports.

    smallest_share: share who can tell that would matter (either way: the lead) [1]; power:
    [1]; both above 0 and below 1. names: of both samples, where either may be ahead.
    Raises ValueError outside that.

    >>> from builder.tasting.discrimination import discrimination_difference
    >>> from builder.tasting.protocols import TRIANGLE
    >>> difference_verdict(discrimination_difference(8, 12, TRIANGLE)).sentence
    '12 tasters, 8 correct in the triangle: different (p = 0.019).'
    """
    start = _result(test.correct, test.tasters, test.protocol, names)
    chance = chance_in_words(test.p_value)
    if test.different:
        return Verdict(Grade.DIFFERENT, f"{start}: different ({chance}).", test.tasters)
    needed = tasters_for_difference(smallest_share, test.protocol, test.alpha, power)
    more = missing_tasters(needed, test.tasters)
    share = percent_in_words(smallest_share)
    if more:
        if_so = f"one leads by {share}" if test.protocol.two_sided else f"{share} can tell"
        sentence = f"{start}, {chance}: {more_would_do(more)} if {if_so}."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    if more is None:
        sentence = f"{start}, {chance}: not enough tasters to say; {_out_of_reach(needed)}."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters)
    one = f"a lead of {share}" if test.protocol.two_sided else f"one that {share} can tell"
    sentence = (
        f"{start}: no difference shown ({chance}), though {one} would mostly have shown; that is"
        " no proof of likeness."
    )
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def _out_of_reach(needed: TastersNeeded) -> str:
    return f"even {needed.searched} would not do"


def similarity_verdict(test: SimilarityTest, power: float = 0.8) -> Verdict:
    """Say what a similarity test supports.

    power: [1], above 0 and below 1; beta of the test below 0.5. Raises ValueError outside that.

    >>> from builder.tasting.discrimination import discrimination_similarity
    >>> from builder.tasting.protocols import TRIANGLE
    >>> similarity_verdict(discrimination_similarity(2, 6, TRIANGLE, 0.3)).more
    50
    """
    start = _result(test.correct, test.tasters, test.protocol)
    limit, chance = percent_in_words(test.limit), chance_in_words(test.p_value)
    if test.similar:
        sentence = f"{start}: fewer than {limit} can tell ({chance})."
        return Verdict(Grade.FEW_CAN_TELL, sentence, test.tasters)
    share = share_who_can_tell(test.correct, test.tasters, test.protocol, 1 - test.beta)
    if share.at_least > test.limit:
        sentence = f"{start}: more than {limit} can tell."
        return Verdict(Grade.MANY_CAN_TELL, sentence, test.tasters)
    if test.below_chance and test.can_be_shown:
        why = "fewer correct than guessing brings"
        sentence = f"{start}: {why}, so that fewer than {limit} can tell is not claimed."
        return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)
    needed = tasters_for_similarity(test.limit, test.protocol, test.beta, power)
    more = missing_tasters(needed, test.tasters)
    if not test.can_be_shown and more:
        sentence = (
            f"{start}: {tasters_in_words(test.tasters)} can never show that fewer than {limit} can"
            f" tell; {more} more would do if nobody can{_UNLESS}."
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    if more:
        aim = f"to show that fewer than {limit} can tell"
        sentence = f"{start}: {aim}, {more_would_do(more)} if nobody can{_UNLESS}."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    reach = f"; {_out_of_reach(needed)}" if more is None else ""
    sentence = f"{start}: it is not shown that fewer than {limit} can tell ({chance}){reach}."
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def likeness_sentence(test: SimilarityTest) -> str:
    """Say the most who can tell, on the side and at the level of the similarity test.

    >>> from builder.tasting.discrimination import discrimination_similarity
    >>> from builder.tasting.protocols import TRIANGLE
    >>> likeness_sentence(discrimination_similarity(13, 36, TRIANGLE, 0.3))
    '36 tasters: at most 27 % can tell (one-sided 95 % limit).'
    """
    share = share_who_can_tell(test.correct, test.tasters, test.protocol, 1 - test.beta)
    most, confidence = percent_in_words(share.at_most), percent_in_words(1 - test.beta)
    return (
        f"{tasters_in_words(test.tasters)}: at most {most} can tell (one-sided {confidence} limit)."
    )


def share_sentence(
    share: ShareWhoCanTell, protocol: Protocol, names: Sequence[str] = SAMPLES
) -> str:
    """Say the share who can tell with its limits; either way: by how much which sample leads.

    Each limit is one-sided, at the level of the test for difference and of that for likeness.

    >>> from builder.tasting.discrimination import share_who_can_tell
    >>> from builder.tasting.protocols import TRIANGLE
    >>> share_sentence(share_who_can_tell(8, 12, TRIANGLE), TRIANGLE)
    '12 tasters: an estimated 50 % can tell, between 9 % and 82 % (each limit 95 %).'
    """
    if protocol.two_sided:
        return _lead_sentence(share, names)
    start = f"{tasters_in_words(share.tasters)}:"
    if share.implausible:
        level = percent_in_words(share.at_most_confidence)
        why = f"further than chance explains ({level} limit): check the key and the codes"
        return f"{start} even fewer correct than guessing brings, {why}."
    if share.below_chance:
        return f"{start} fewer correct than guessing brings, which shows nothing of who can tell."
    if not share.estimate:
        return f"{start} no more correct than guessing brings; {_limits(share)[1]} can tell."
    low, high = percent_in_words(share.at_least), percent_in_words(share.at_most)
    who = f"{start} an estimated {percent_in_words(share.estimate)} can tell"
    if share.confidence == share.at_most_confidence:
        limits = f"(each limit {percent_in_words(share.confidence)})"
        return f"{who}, between {low} and {high} {limits}."
    return f"{who}, {listed(_limits(share))}."


def _limits(share: ShareWhoCanTell) -> list[str]:
    """Both one-sided limits, each with its level."""
    ends = (
        ("at least", share.at_least, share.confidence),
        ("at most", share.at_most, share.at_most_confidence),
    )
    return [
        f"{name} {percent_in_words(end)} ({percent_in_words(level)} limit)"
        for name, end, level in ends
    ]


def _lead_sentence(share: ShareWhoCanTell, names: Sequence[str]) -> str:
    """Who leads by how much; the limits count from the sample that is ahead."""
    first_leads = share.estimate >= 0
    ahead, behind = names if first_leads else (names[1], names[0])
    ends = (share.lower, share.upper) if first_leads else (-share.upper, -share.lower)
    low, high = map(percent_in_words, ends)
    limits = f"({percent_in_words(share.confidence)} limits)"
    start = f"{tasters_in_words(share.tasters)}: {ahead} and {behind} level"
    if share.estimate:
        lead = percent_in_words(abs(share.estimate))
        start = f"{tasters_in_words(share.tasters)}: {ahead} leads {behind} by an estimated {lead}"
    return f"{start}, the true lead between {low} and {high} {limits}."


def distance_sentence(distance: DPrime, names: Sequence[str] = ()) -> str:
    """Say a sensory distance with its limits.

    names: both samples where it has a direction, of the first over the second.

    >>> distance_sentence(DPrime(None, None, 2.71, None, 0.95, 12))
    '12 tasters: all answers on one side, so d′ has no finite value; at least 2.7 (95 % limits).'
    """
    start, mark = f"{tasters_in_words(distance.tasters)}: ", " ".join(["d′", *_over(names)])
    limits = f"({percent_in_words(distance.confidence)} limits)"
    ends = [
        f"{name} {points_in_words(end)}"
        for name, end in (("at least", distance.lower), ("at most", distance.upper))
        if end is not None
    ]
    if distance.upper == 0:
        return f"{start}{mark} is 0, as nobody did better than guessing brings {limits}."
    if distance.estimate is None:
        reason = f"all answers on one side, so {mark} has no finite value"
        return f"{start}{reason}; {listed(ends) or 'without limits'} {limits}."
    return f"{start}{mark} is {points_in_words(distance.estimate)}, {listed(ends)} {limits}."


def _over(names: Sequence[str]) -> tuple[str, ...]:
    return (f"of {names[0]} over {names[1]}",) if names else ()


def needed_sentence(
    needed: TastersNeeded, question: str, reached: str = "chance of showing it"
) -> str:
    """Say how many tasters a question needs; reached: what the power is the chance of.

    >>> needed_sentence(TastersNeeded(53, 57, 0.9, 1500), "a difference that 30 % can tell")
    'At least 57 tasters to show a difference that 30 % can tell (chance of showing it: 90 %).'
    """
    chance = f"({reached}: {percent_in_words(needed.power)})"
    if needed.at_least is None:
        return f"More than {tasters_in_words(needed.searched)} to show {question} {chance}."
    return f"At least {tasters_in_words(needed.at_least)} to show {question} {chance}."


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
        return Verdict(Grade.NOT_SHOWN, f"{start}: {test.note}, no rank is shown.", test.tasters)
    if test.p_value <= alpha:
        beside = _against(against, names, alpha)
        if against.tasters < fewest:
            beside = _too_few(test, against, names, fewest)
        sentence = f"{start}: samples differ ({chance}){beside}."
        return Verdict(Grade.DIFFERENT, sentence, test.tasters)
    needed = tasters_for_ranks(test.statistic, test.degrees, test.tasters, alpha)
    more = missing_tasters(needed, test.tasters)
    if more:
        sentence = f"{start} ({chance}): {more_would_do(more)} if ranks stay so."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    sentence = f"{start}: no difference in ranks shown ({chance}); that is no proof of likeness."
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def _too_few(test: FriedmanTest, against: BenchmarkRanks, names: Sequence[str], fewest: int) -> str:
    """Why none is told apart from the benchmark by ranks."""
    benchmark = names[against.benchmark]
    if against.tasters < test.tasters:
        had_all = f"{f'only {against.tasters}' if against.tasters else 'nobody'} had every sample"
        return f"; by ranks none alone is told apart from {benchmark}, for {had_all}"
    return f"; fewer than {fewest} can't tell any from {benchmark}, even if all agree"


def _against(against: BenchmarkRanks, names: Sequence[str], alpha: float) -> str:
    reported = [line for line in against.comparisons if line.adjusted_p_value <= alpha]
    above = [names[line.sample] for line in reported if line.rank_sum_difference > 0]
    below = [names[line.sample] for line in reported if line.rank_sum_difference < 0]
    benchmark = names[against.benchmark]
    if not reported:
        return f"; none alone is told apart from {benchmark}"
    parts = [f"{listed(above)} above {benchmark}"] if above else []
    parts += [f"{listed(below)} below {benchmark}"] if below else []
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
    start = f"{tasters_in_words(test.tasters)}: "
    if test.note:
        return f"{start}{test.note}, so no trend of {attribute} is shown."
    chance = chance_in_words(test.p_value)
    if test.p_value <= alpha:
        return f"{start}{attribute} rises with {order} on the whole ({chance})."
    both_ways = min(1.0, 2 * test.falling)
    if both_ways <= alpha:
        chance = chance_in_words(both_ways)
        counted = f"({chance}, counted for rise and fall)"
        return f"{start}{attribute} falls with {order} on the whole {counted}."
    return f"{start}no rise of {attribute} with {order} shown ({chance})."
