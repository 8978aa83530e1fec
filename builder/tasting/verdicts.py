"""Verdicts in words, graded by what a test supports, the count of tasters always in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from builder.display.words import listed
from builder.language import Deferred, ntr, tr
from builder.tasting.discrimination import (
    DifferenceTest,
    ShareWhoCanTell,
    SimilarityTest,
    share_who_can_tell,
)
from builder.tasting.needed import (
    TastersNeeded,
    tasters_for_difference,
    tasters_for_similarity,
)
from builder.tasting.protocols import Protocol, Question
from builder.tasting.wording import (
    chance_in_words,
    percent_in_words,
    tasters_in_words,
)

SAMPLES = (Deferred("the first sample"), Deferred("the second"))
"""What the samples of a pair are called where their names are not known."""


# No likeness is claimed of fewer correct answers than guessing brings.
_UNLESS = Deferred(
    ", unless fewer are correct than guessing brings, as in about half of such panels"
)


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
    'not enough tasters to say; about 4 more would settle it'
    """
    return tr("not enough tasters to say; about {count} more would settle it", count=count)


def _result(correct: int, tasters: int, protocol: Protocol, names: Sequence[str] = SAMPLES) -> str:
    if protocol.two_sided:
        return tr(
            "{tasters_in_words}, {correct} for {names} and {tasters} for {names2} ({protocol})",
            tasters_in_words=tasters_in_words(tasters),
            correct=correct,
            names=names[0],
            tasters=tasters - correct,
            names2=names[1],
            protocol=tr(protocol.name),
        )
    return ntr(
        "{tasters}, {count} correct in the {protocol}",
        "{tasters}, {count} correct in the {protocol}",
        correct,
        tasters=tasters_in_words(tasters),
        protocol=tr(protocol.name),
    )


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
        return Verdict(
            Grade.DIFFERENT,
            tr("{start}: different ({chance}).", start=start, chance=chance),
            test.tasters,
        )
    needed = tasters_for_difference(smallest_share, test.protocol, test.alpha, power)
    more = missing_tasters(needed, test.tasters)
    share = percent_in_words(smallest_share)
    if more:
        if_so = (
            tr("one leads by {share}", share=share)
            if test.protocol.two_sided
            else tr("{share} can tell", share=share)
        )
        sentence = tr(
            "{start}, {chance}: {more_would_do} if {if_so}.",
            start=start,
            chance=chance,
            more_would_do=more_would_do(more),
            if_so=if_so,
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    if more is None:
        sentence = tr(
            "{start}, {chance}: not enough tasters to say; {out_of_reach}.",
            start=start,
            chance=chance,
            out_of_reach=_out_of_reach(needed),
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters)
    one = (
        tr("a lead of {share}", share=share)
        if test.protocol.two_sided
        else tr("one that {share} can tell", share=share)
    )
    sentence = tr(
        "{start}: no difference shown ({chance}), though {one} would mostly have "
        "shown; that is no proof of likeness.",
        start=start,
        chance=chance,
        one=one,
    )
    return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)


def _out_of_reach(needed: TastersNeeded) -> str:
    return tr("even {searched} would not do", searched=needed.searched)


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
        sentence = tr(
            "{start}: fewer than {limit} can tell ({chance}).",
            start=start,
            limit=limit,
            chance=chance,
        )
        return Verdict(Grade.FEW_CAN_TELL, sentence, test.tasters)
    share = share_who_can_tell(test.correct, test.tasters, test.protocol, 1 - test.beta)
    if share.at_least > test.limit:
        sentence = tr("{start}: more than {limit} can tell.", start=start, limit=limit)
        return Verdict(Grade.MANY_CAN_TELL, sentence, test.tasters)
    if test.below_chance and test.can_be_shown:
        why = tr("fewer correct than guessing brings")
        sentence = tr(
            "{start}: {why}, so that fewer than {limit} can tell is not claimed.",
            start=start,
            why=why,
            limit=limit,
        )
        return Verdict(Grade.NOT_SHOWN, sentence, test.tasters)
    needed = tasters_for_similarity(test.limit, test.protocol, test.beta, power)
    more = missing_tasters(needed, test.tasters)
    if not test.can_be_shown and more:
        sentence = tr(
            "{start}: {tasters_in_words} can never show that fewer than {limit} can "
            "tell; {more} more would do if nobody can{unless}.",
            start=start,
            tasters_in_words=tasters_in_words(test.tasters),
            limit=limit,
            more=more,
            unless=_UNLESS,
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    if more:
        aim = tr("to show that fewer than {limit} can tell", limit=limit)
        sentence = tr(
            "{start}: {aim}, {more_would_do} if nobody can{unless}.",
            start=start,
            aim=aim,
            more_would_do=more_would_do(more),
            unless=_UNLESS,
        )
        return Verdict(Grade.NOT_ENOUGH, sentence, test.tasters, more)
    reach = f"; {_out_of_reach(needed)}" if more is None else ""
    sentence = tr(
        "{start}: it is not shown that fewer than {limit} can tell ({chance}){reach}.",
        start=start,
        limit=limit,
        chance=chance,
        reach=reach,
    )
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
    return tr(
        "{tasters_in_words}: at most {most} can tell (one-sided {confidence} limit).",
        tasters_in_words=tasters_in_words(test.tasters),
        most=most,
        confidence=confidence,
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
        if protocol.question is Question.CHOICE:
            why = tr(
                "further than chance explains ({level} limit): check the key, or {other} has more",
                level=level,
                other=names[0],
            )
        else:
            why = tr(
                "further than chance explains ({level} limit): check the key and the codes",
                level=level,
            )
        return tr("{start} even fewer correct than guessing brings, {why}.", start=start, why=why)
    if share.below_chance:
        return tr(
            "{start} fewer correct than guessing brings, which shows nothing of who can tell.",
            start=start,
        )
    if not share.estimate:
        return tr(
            "{start} no more correct than guessing brings; {limits} can tell.",
            start=start,
            limits=_limits(share)[1],
        )
    low, high = percent_in_words(share.at_least), percent_in_words(share.at_most)
    who = tr(
        "{start} an estimated {percent_in_words} can tell",
        start=start,
        percent_in_words=percent_in_words(share.estimate),
    )
    if share.confidence == share.at_most_confidence:
        limits = tr(
            "(each limit {percent_in_words})", percent_in_words=percent_in_words(share.confidence)
        )
        return tr(
            "{who}, between {low} and {high} {limits}.", who=who, low=low, high=high, limits=limits
        )
    return f"{who}, {listed(_limits(share))}."


def _limits(share: ShareWhoCanTell) -> list[str]:
    """Both one-sided limits, each with its level."""
    ends = (
        (tr("at least"), share.at_least, share.confidence),
        (tr("at most"), share.at_most, share.at_most_confidence),
    )
    return [
        tr(
            "{name} {percent_in_words} ({percent_in_words2} limit)",
            name=name,
            percent_in_words=percent_in_words(end),
            percent_in_words2=percent_in_words(level),
        )
        for name, end, level in ends
    ]


def _lead_sentence(share: ShareWhoCanTell, names: Sequence[str]) -> str:
    """Who leads by how much; the limits count from the sample that is ahead."""
    first_leads = share.estimate >= 0
    ahead, behind = names if first_leads else (names[1], names[0])
    ends = (share.lower, share.upper) if first_leads else (-share.upper, -share.lower)
    low, high = map(percent_in_words, ends)
    limits = tr("({percent_in_words} limits)", percent_in_words=percent_in_words(share.confidence))
    start = tr(
        "{tasters_in_words}: {ahead} and {behind} level",
        tasters_in_words=tasters_in_words(share.tasters),
        ahead=ahead,
        behind=behind,
    )
    if share.estimate:
        lead = percent_in_words(abs(share.estimate))
        start = tr(
            "{tasters_in_words}: {ahead} leads {behind} by an estimated {lead}",
            tasters_in_words=tasters_in_words(share.tasters),
            ahead=ahead,
            behind=behind,
            lead=lead,
        )
    return tr(
        "{start}, the true lead between {low} and {high} {limits}.",
        start=start,
        low=low,
        high=high,
        limits=limits,
    )
