"""Verdicts in words, graded by what a test supports, the count of tasters always in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from builder.tasting.comparisons import Equivalence, NoWorse
from builder.tasting.discrimination import (
    DifferenceTest,
    ShareWhoCanTell,
    SimilarityTest,
    share_who_can_tell,
)
from builder.tasting.needed import (
    TastersNeeded,
    tasters_for_difference,
    tasters_for_margin,
    tasters_for_ranks,
    tasters_for_similarity,
)
from builder.tasting.protocols import Protocol
from builder.tasting.ranks import BenchmarkRanks, FriedmanTest, PageTrend
from builder.tasting.thurstone import DPrime
from builder.tasting.wording import (
    chance_in_words,
    listed,
    percent_in_words,
    points_in_words,
    tasters_in_words,
)


class Grade(StrEnum):
    """What a test supports, no more."""

    DIFFERENT = "different"
    FEW_CAN_TELL = "fewer than the limit can tell"
    MANY_CAN_TELL = "more than the limit can tell"
    WITHIN_MARGIN = "within the margin both ways"
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


def _missing(needed: TastersNeeded, tasters: int) -> int | None:
    """How many tasters are missing; 0 when there are enough, None when no number would do."""
    return None if needed.at_least is None else max(0, needed.at_least - tasters)


def _more(count: int) -> str:
    return f"not enough tasters to say; {count} more would do"


def _result(correct: int, tasters: int, protocol: Protocol) -> str:
    if protocol.two_sided:
        return (
            f"{tasters_in_words(tasters)}: {correct} chose the first sample,"
            f" {tasters - correct} the second ({protocol.name})"
        )
    return f"{tasters_in_words(tasters)}, {correct} correct in the {protocol.name}"


def difference_verdict(
    test: DifferenceTest, smallest_share: float = 0.3, power: float = 0.9
) -> Verdict:
    """Say what a difference test supports.

    smallest_share: share who can tell that would matter [1]; power: [1]; both above 0 and
    below 1. Raises ValueError outside that.

    >>> from builder.tasting.discrimination import discrimination_difference
    >>> from builder.tasting.protocols import TRIANGLE
    >>> difference_verdict(discrimination_difference(8, 12, TRIANGLE)).sentence
    '12 tasters, 8 correct in the triangle: different (p = 0.019).'
    """
    start = _result(test.correct, test.tasters, test.protocol)
    chance = chance_in_words(test.p_value)
    if test.different:
        return Verdict(Grade.DIFFERENT, f"{start}: different ({chance}).", test.tasters)
    needed = tasters_for_difference(smallest_share, test.protocol, test.alpha, power)
    more = _missing(needed, test.tasters)
    share = percent_in_words(smallest_share)
    if more:
        sentence = f"{start} ({chance}): {_more(more)} if {share} can tell."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    if more is None:
        sentence = f"{start} ({chance}): not enough tasters to say; {_out_of_reach(needed)}."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters)
    sentence = (
        f"{start}: no difference shown ({chance}), though one that {share} can tell would mostly"
        " have shown; that is no proof of likeness."
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
    40
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
    needed = tasters_for_similarity(test.limit, test.protocol, test.beta, power)
    more = _missing(needed, test.tasters)
    if more:
        aim = f"to show that fewer than {limit} can tell"
        sentence = f"{start}: {aim}, {_more(more)} if nobody can."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    reach = f"; {_out_of_reach(needed)}" if more is None else ""
    sentence = f"{start}: it is not shown that fewer than {limit} can tell ({chance}){reach}."
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def share_sentence(share: ShareWhoCanTell, protocol: Protocol) -> str:
    """Say the share who can tell with its limits.

    >>> from builder.tasting.discrimination import share_who_can_tell
    >>> from builder.tasting.protocols import TRIANGLE
    >>> share_sentence(share_who_can_tell(8, 12, TRIANGLE), TRIANGLE)
    '12 tasters: 50 % can tell, between 2 % and 85 % (95 % limits).'
    """
    low, high = percent_in_words(share.lower), percent_in_words(share.upper)
    limits = f"({percent_in_words(share.confidence)} limits)"
    if protocol.two_sided:
        return (
            f"{tasters_in_words(share.tasters)}: a lead of {percent_in_words(share.estimate)} for"
            f" the first sample, between {low} and {high} {limits}."
        ).replace("-", "−")
    if not share.estimate:
        start = f"{tasters_in_words(share.tasters)}: no more correct than guessing brings"
        return f"{start}; between {low} and {high} can tell {limits}."
    who = percent_in_words(share.estimate)
    return f"{tasters_in_words(share.tasters)}: {who} can tell, between {low} and {high} {limits}."


def distance_sentence(distance: DPrime) -> str:
    """Say a sensory distance with its limits.

    >>> distance_sentence(DPrime(None, None, 2.71, None, 0.95, 12))
    '12 tasters: all answers on one side, so d′ has no finite value; at least 2.7 (95 % limits).'
    """
    start = f"{tasters_in_words(distance.tasters)}: "
    limits = f"({percent_in_words(distance.confidence)} limits)"
    ends = [
        f"{name} {points_in_words(end)}"
        for name, end in (("at least", distance.lower), ("at most", distance.upper))
        if end is not None
    ]
    if distance.estimate is None:
        reason = "all answers on one side, so d′ has no finite value"
        return f"{start}{reason}; {listed(ends) or 'without limits'} {limits}."
    return f"{start}d′ is {points_in_words(distance.estimate)}, {listed(ends)} {limits}."


def needed_sentence(needed: TastersNeeded, question: str) -> str:
    """Say how many tasters a question needs.

    >>> needed_sentence(TastersNeeded(53, 57, 0.9, 1500), "a triangle that 30 % can tell")
    'At least 57 tasters for a triangle that 30 % can tell (chance of showing it: 90 %).'
    """
    chance = f"(chance of showing it: {percent_in_words(needed.power)})"
    if needed.at_least is None:
        return f"More than {tasters_in_words(needed.searched)} for {question} {chance}."
    return f"At least {tasters_in_words(needed.at_least)} for {question} {chance}."


def no_worse_verdict(
    test: NoWorse,
    challenger: str,
    benchmark: str,
    attribute: str,
    power: float = 0.8,
    above: bool | None = None,
) -> Verdict:
    """Say whether the challenger is no worse than the benchmark by more than the margin.

    power: [1], above 0 and below 1. above: whether a test for difference shows the challenger
    above the benchmark; None: judged by the bound. Raises ValueError outside that.

    >>> from builder.tasting.comparisons import no_worse_by_margin
    >>> test = no_worse_by_margin([2, -4, 1, 3, -2, 0, 5, 1], margin=5)
    >>> no_worse_verdict(test, "shank", "fillet", "tenderness").grade.value
    'no worse by more than the margin'
    """
    margin = points_in_words(test.margin)
    if test.mean is None:
        sentence = f"0 tasters scored both {challenger} and {benchmark}: not enough tasters to say."
        return Verdict(Grade.NOT_ENOUGH, sentence, 0)
    start = (
        f"{tasters_in_words(test.tasters)}, {attribute}: {challenger} less {benchmark}"
        f" {points_in_words(test.mean, signed=True)} points"
    )
    bound = "" if test.lower is None else f", at least {points_in_words(test.lower, signed=True)}"
    if test.established:
        told = (test.lower is not None and test.lower > 0) if above is None else above
        more_than = f"no worse than {benchmark} by more than {margin} points"
        sentence = f"{start}{bound}: {more_than}{'; it scores above it' if told else ''}."
        return Verdict(Grade.NO_WORSE, sentence, test.tasters)
    if test.worse:
        sentence = f"{start}: worse than {benchmark} by more than {margin} points."
        return Verdict(Grade.WORSE, sentence, test.tasters)
    more = _missing_for_margin(test, power)
    if more:
        sentence = f"{start}{bound}: {_more(more)} if it stays so."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    sentence = (
        f"{start}{bound}: it is not shown to be no worse than {benchmark} by more than {margin}"
        " points."
    )
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def equivalence_verdict(
    test: Equivalence, challenger: str, benchmark: str, attribute: str
) -> Verdict:
    """Say whether the challenger lies within the margin of the benchmark, both ways.

    >>> from builder.tasting.comparisons import equivalence_within_margin
    >>> test = equivalence_within_margin([1, -2, 0, 1, -1, 2], margin=5)
    >>> equivalence_verdict(test, "shank", "fillet", "flavour").sentence
    '6 tasters, flavour: shank is within 5.0 points of fillet, both ways (p < 0.001).'
    """
    start = f"{tasters_in_words(test.tasters)}, {attribute}: "
    margin, chance = points_in_words(test.margin), chance_in_words(test.p_value)
    if test.equivalent:
        sentence = (
            f"{start}{challenger} is within {margin} points of {benchmark}, both ways ({chance})."
        )
        return Verdict(Grade.WITHIN_MARGIN, sentence, test.tasters)
    sentence = f"{start}it is not shown that {challenger} is within {margin} points of {benchmark}."
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def _missing_for_margin(test: NoWorse, power: float) -> int | None:
    """Tasters missing if spread and shortfall stay as observed; None where none would do."""
    if test.mean is None or test.mean <= -test.margin:
        return None
    if test.by_signs or not test.spread:
        # Alike differences: the sign test needs 0.5^n <= 1 − confidence.
        needed = next(n for n in range(1, 64) if 0.5**n <= 1 - test.confidence + 1e-12)
        return max(0, needed - test.tasters)
    alpha = 1 - test.confidence
    return _missing(
        tasters_for_margin(test.margin, test.spread, min(test.mean, 0.0), alpha, power),
        test.tasters,
    )


def ranks_verdict(
    test: FriedmanTest,
    against: BenchmarkRanks,
    names: Sequence[str],
    attribute: str,
    alpha: float = 0.05,
) -> Verdict:
    """Say whether tasters rank the samples apart, and which from the benchmark.

    names: one per sample. alpha: [1], above 0 and below 1. Raises ValueError outside that.

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
        sentence = f"{start}: samples differ ({chance}){_against(against, names, alpha)}."
        return Verdict(Grade.DIFFERENT, sentence, test.tasters)
    needed = tasters_for_ranks(test.statistic, test.degrees, test.tasters, alpha)
    more = _missing(needed, test.tasters)
    if more:
        sentence = f"{start} ({chance}): {_more(more)} if ranks stay so."
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    sentence = f"{start}: no difference in ranks shown ({chance}); that is no proof of likeness."
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def _against(against: BenchmarkRanks, names: Sequence[str], alpha: float) -> str:
    told = [line for line in against.comparisons if line.adjusted_p_value <= alpha]
    above = [names[line.sample] for line in told if line.rank_sum_difference > 0]
    below = [names[line.sample] for line in told if line.rank_sum_difference < 0]
    benchmark = names[against.benchmark]
    if not told:
        return f"; none alone is told apart from {benchmark}"
    parts = [f"{listed(above)} above {benchmark}"] if above else []
    parts += [f"{listed(below)} below {benchmark}"] if below else []
    return f"; {listed(parts)}"


def trend_sentence(test: PageTrend, attribute: str, order: str, alpha: float = 0.05) -> str:
    """Say whether scores rise along an order stated beforehand.

    >>> from builder.tasting.ranks import page_trend
    >>> trend_sentence(page_trend([[1, 2, 3, 4]] * 5), "tenderness", "duration")
    '5 tasters: tenderness rises with duration (p < 0.001).'
    """
    start = f"{tasters_in_words(test.tasters)}: "
    if test.note:
        return f"{start}{test.note}, so no trend of {attribute} is shown."
    chance = chance_in_words(test.p_value)
    if test.p_value <= alpha:
        return f"{start}{attribute} rises with {order} ({chance})."
    return f"{start}no rise of {attribute} with {order} shown ({chance})."
